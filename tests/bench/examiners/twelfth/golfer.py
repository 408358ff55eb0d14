"""Who swings, and how the share follows from what a body wants and does."""
import math

import numpy as np

from examiners.twelfth.motion import G, STEP_S, flow
from examiners.twelfth.people import PEOPLE

# A foot cannot be quite empty: from so far from the middle on the share bends, by so much at most.
FREE, SOFT = 0.38, 0.105


class Golfer:
    """Body, habits and stance of one person."""

    def __init__(self, rng):
        draw = rng.uniform
        self.kind = str(rng.choice(list(PEOPLE)))
        if self.kind.startswith("junior"):
            self.mass = draw(45, 70)
            self.height = draw(0.78, 0.95)
        else:
            self.mass = draw(52, 130)
            self.height = draw(0.84, 1.02)  # of the centre of mass, m
        self.half_stance = draw(0.12, 0.22)
        self.roll = draw(0.08, 0.22)  # part of the CoP's way that is under each foot
        self.habit = {name: draw(*ends) for name, ends in PEOPLE[self.kind].items()}
        self.soft = draw(0, 0.4)
        self.lag = draw(0.015, 0.035)
        self.counter = draw(0.35, 0.75)  # of the arms' lift, which the trunk cancels
        self.hip_lead = draw(0.02, 0.10)  # of the trunk before the arms, s
        self.release = draw(1.35, 1.75)  # speed of the arms at impact over their mean
        self.steer = draw(4, 8)
        self.damping = draw(0.8, 1.1)
        # part of a sideways push that is made by tilting, not by the feet
        self.hips = draw(0.7, 0.95) if self.kind.startswith("pressure") else draw(0.4, 0.8)
        self.falls_back = self.kind.startswith(("beginner", "club")) and rng.random() < 0.5
        # a narrow stance allows less turn
        self.inertia = 1.5 * self.mass / 75 * (0.4 + 0.6 * self.half_stance / 0.17)
        self.toe = {"lead": draw(-35, 25), "trail": draw(-35, 25)}

    def x_of(self, share):
        """Place of the CoP (m to the lead side) for a share in %."""
        return (share / 100 - 0.5) * 2 * self.half_stance / (1 - self.roll)

    def share_of(self, wanted, torque, lift):
        """Lead share in % on the grid.

        From the wanted share, the rate of spin (N m) and the inertial vertical force (N).
        """
        w, damping = self.steer, self.damping
        arm = self.height * (1 - self.hips)
        gain = (1 - self.roll) / (2 * self.half_stance)
        ref = self.x_of(flow(wanted, 0.03))
        speed = np.gradient(ref, STEP_S)
        wish = w * w * ref + 2 * damping * w * speed + np.gradient(speed, STEP_S)
        force = np.maximum(self.mass * G + lift, 0.3 * self.mass * G)
        x, v, share = float(ref[0]), 0.0, np.empty(len(wanted))
        instants = zip(wish.tolist(), torque.tolist(), force.tolist())
        for i, (ahead, spin, force_n) in enumerate(instants):
            a = ahead - w * w * x - 2 * damping * w * v
            s = 0.5 + gain * (x - (self.mass * arm * a + spin) / force_n)
            if abs(s - 0.5) > FREE:
                over = math.tanh((abs(s - 0.5) - FREE) / SOFT)
                s = 0.5 + math.copysign(FREE + SOFT * over, s - 0.5)
            feet = (force_n * (x - (s - 0.5) / gain) - spin) / (self.mass * arm)
            # what the feet cannot give: part by the hips, part not at all
            v += (a + 0.4 * (1 - self.hips) * (feet - a)) * STEP_S
            x += v * STEP_S
            share[i] = 100 * s
        return share
