"""Who swings: systems, masses and habits."""
import numpy as np

from examiners.curves import GRID_HZ
from examiners.tenth.systems import G, Track, accel, second_order


class Person:
    """What does not change from swing to swing."""

    def __init__(self, rng):
        draw = rng.uniform
        self.mass = rng.uniform(45, 130)
        heavy = (self.mass / 80) ** -0.25  # heavy bodies are slower
        self.style = rng.choice(
            ["stacked", "shifter", "faller", "forward", "bumper", "quiet legs"],
            p=[0.31, 0.22, 0.13, 0.10, 0.14, 0.10],
        )
        self.address = draw(70, 80) if rng.random() < 0.75 else draw(50, 65)
        self.finish = draw(82, 96)
        # systems: rad/s, damping, activation in s
        self.hip = (draw(5.0, 10.5) * heavy, draw(0.65, 1.1), draw(0.02, 0.045))
        self.ankle = (draw(14, 28), draw(0.45, 0.9), draw(0.015, 0.035))
        self.leg = (draw(6, 12) * heavy, draw(0.55, 1.0), draw(0.03, 0.06))
        self.toe = (draw(6, 14), draw(0.5, 0.9), 0.03)
        self.kappa = rng.choice([0, draw(0.001, 0.006)], p=[0.3, 0.7])
        # parts of the body's mass, and m
        self.arm_mass = draw(0.05, 0.085)
        self.arm_length = draw(0.32, 0.45)
        self.club_mass = 0.45 / self.mass
        self.club_length = draw(1.1, 1.4)
        self.plane = draw(0.65, 0.9)
        # points per sine of the arms' angle, points per m/s2
        self.gravity_gain = draw(0, 5)
        self.inertia_gain = rng.normal(0, 0.05)
        self.dip, self.lead_time = {  # points back from the address; s from hips to arms
            "stacked": (draw(2, 7), draw(0, 0.2)),
            "shifter": (draw(8, 18), draw(0, 0.2)),
            "faller": (draw(12, 26), draw(-0.08, 0.06)),
            "forward": (-draw(4, 10), draw(0, 0.2)),
            "bumper": (draw(4, 12), draw(0.12, 0.28)),
            "quiet legs": (draw(3, 9), draw(0, 0.2)),
        }[self.style]
        # points, by the trail and by the lead foot
        self.press = draw(0, 1 if self.style == "forward" else 4)
        self.brace = rng.normal(1.5, 4)
        self.hip_delay = draw(-0.07, 0.04)
        self.brace_lead = draw(0.03, 0.2)
        self.leg_lead = draw(0.03, 0.27)
        # m down and up
        self.flex, self.push = np.array([draw(0.004, 0.028), draw(0.005, 0.045)]) * (
            0.3 if self.style == "quiet legs" else 1
        )
        self.toe_back = rng.normal(0, 12)
        self.toe_through = rng.normal(0, 18)
        self.stance = draw(260, 430)
        self.foot_y = draw(-30, 30)
        self.tempo, tries = None, 0
        while self.tempo is None:  # a body and a timing that give a wedge player's tempo
            if tries % 1000 == 0:
                back = draw(0.53, 1.07)
                self.goal = (back, np.clip(back / draw(2, 4), 0.23, 0.44))
            tries += 1
            self.arm = (draw(4.5, 13), draw(0.7, 1.05), draw(0.025, 0.05))
            self.club = (draw(13, 24), draw(0.4, 0.75), 0.0)
            first = (back * draw(0.5, 1.1), draw(0, 2.5))
            self.tempo = first if self.plan_arms(rng, 1.2, first, 0.05) else None

    def plan_arms(self, rng, size, tempo, slack):
        """Arm commands: size, down, overdrive, width, through, time to impact.

        None if that is not this person's tempo.
        """
        wide, over, width, far = rng.uniform([0.95, 0.85, 0.12, 0.85], [1.05, 1.15, 0.3, 1.2])
        plan = (size, tempo[0] * wide, tempo[1] * over * size, width, size * far)
        theta = second_order(Track().swing(0.1, plan).sample(2500), *self.arm)
        club = second_order(theta, *self.club)
        top = int(np.argmin(club[:2000]))
        hit = top + int(np.argmax(club[top:] > 0))
        back = top / GRID_HZ - 0.1
        forth = (hit - top) / GRID_HZ
        lift = self.arc(theta, club)
        good = (
            abs(back / self.goal[0] - 1) < slack
            and abs(forth / self.goal[1] - 1) < slack
            and club[top] < -0.55 * size
            and 0.5 <= back <= 1.1
            and 0.22 <= forth <= 0.45
            and np.abs(lift).max()
            < (0.06 + 0.007 / forth**2) * size**2 * max(1, slack / 0.16)
        )
        return plan + (hit / GRID_HZ - 0.1,) if good else None

    def arc(self, theta, club):
        """Load in body weights of the masses of arms and club on their inclined arcs."""
        return (
            self.plane
            / G
            * accel(
                self.arm_mass * self.arm_length * (1 - np.cos(theta))
                + self.club_mass * self.club_length * (1 - np.cos(club))
            )
        )
