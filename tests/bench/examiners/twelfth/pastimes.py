"""A lesson as it grows, and what is done between the swings."""
import math

import numpy as np

from examiners.curves import GRID_HZ
from examiners.twelfth.motion import G, STEP_S, clock, flow, second, step

LONGEST_S = 520
# Spin torque (N m), lift (N), CoP forward (mm), a forced share and how far it overrides, the part
# of the body that is present, the wanted share (%), other feet's loads (N) and places (mm).
CHANNELS = {
    "torque": 0.0,
    "lift": 0.0,
    "forward": 0.0,
    "override": 0.0,
    "forced": 0.0,
    "present": 1.0,
    "wanted": 52.0,
    "lead_n": 0.0,
    "lead_mm": 0.0,
    "trail_n": 0.0,
    "trail_mm": 0.0,
}


class Timeline:
    """Channels of one lesson on the grid, and the clock `now` that moves through it."""

    def __init__(self, rng, golfer):
        self.rng = rng
        self.draw = rng.uniform
        self.golfer = golfer
        self.now = 0.0
        self.between = []
        self.swings = []
        for name, rest in CHANNELS.items():
            setattr(self, name, np.full(LONGEST_S * GRID_HZ, rest))

    def push(self, wait, **curves):
        """Add curves to channels from now on; then let `wait` pass."""
        i = round(self.now * GRID_HZ)
        for name, values in curves.items():
            getattr(self, name)[i:i + len(values)] += values
        self.now += wait

    def move(self, name, lasting, to, wait=0.0):
        """Carry a channel smoothly to a new value; let `wait` pass."""
        channel = getattr(self, name)
        i = round(self.now * GRID_HZ)
        u = np.arange(math.ceil(lasting * GRID_HZ) + 1) * STEP_S / lasting
        way = to - channel[-1]
        channel[i:i + len(u)] += way * step(u)
        channel[i + len(u):] += way
        self.now += wait

    def force(self):
        """From now on the forced share is one foot's."""
        self.forced[round(self.now * GRID_HZ):] = 100.0 * self.rng.integers(0, 2)

    def dip(self, depth, down, hold, up, part):
        """Lower and raise a part of the body mass."""
        t = clock(down + hold + up)
        z = depth * (step((t - down - hold) / up) - step(t / down))
        forward = -150 * z * self.draw(-0.4, 1)
        self.push(0, lift=part * self.golfer.mass * second(z), forward=forward)

    def waggle(self):
        """The club to and fro, once to three times."""
        for _ in range(self.rng.integers(1, 4)):
            t = clock(self.draw(0.5, 0.9))
            wave = np.sin(2 * np.pi * t / t[-1])
            turn = self.draw(0.1, 0.3) * wave * np.sin(np.pi * t / t[-1]) ** 2
            self.push(
                t[-1] + self.draw(0, 0.3),
                torque=0.25 * self.golfer.inertia * second(turn),
                lift=0.22 * second(np.abs(turn) * turn),
            )

    def rock(self):
        """From foot to foot, evenly."""
        t = clock(self.draw(3, 9))
        ends = step(t / 0.8) * step((t[-1] - t) / 0.8)
        period = self.draw(1.3, 2.4)
        to_and_fro = self.draw(3, 9) * ends * np.sin(2 * np.pi * t / period)
        self.push(t[-1] + 0.5, wanted=to_and_fro)

    def bend(self):
        """Down for a ball and up again."""
        down = self.draw(0.8, 1.4)
        hold = self.draw(0.3, 1.2)
        up = self.draw(0.8, 1.4)
        before = self.wanted[-1]
        self.dip(self.draw(0.2, 0.4), down, hold, up, 0.6)
        self.move("wanted", down, self.draw(35, 72), down + hold)
        self.move("wanted", up, before, up + 0.5)

    def regrip(self):
        """Hands find their grip."""
        t = clock(self.draw(0.8, 2.5))
        size = self.draw(6, 30) * np.sin(np.pi * t / t[-1]) ** 2
        self.push(t[-1], torque=size * flow(self.rng.standard_normal(len(t)), 0.05))

    def talk(self):
        """The weight is put here and there."""
        for lasting in self.rng.uniform(0.6, 1.5, self.rng.integers(2, 6)):
            depth = self.draw(0.005, 0.03) * (self.rng.random() < 0.3)
            self.dip(depth, lasting * 0.4, 0.1, lasting * 0.4, 0.9)
            self.move("wanted", lasting, self.draw(32, 70), lasting + self.draw(0.1, 0.8))

    def lean_on_club(self):
        """Some weight on the club, which stands beside the plates."""
        leaning = (self.draw(0.88, 0.97), self.draw(30, 70), self.draw(1.9, 4.4))
        for part, share, wait in (leaning, (1.0, 52, 1.2)):
            self.move("wanted", 0.9, share)
            self.move("present", 0.8, part, wait)

    def hop(self):
        """Crouch, push, fly, land and settle, once or twice."""
        for _ in range(self.rng.integers(1, 3)):
            flight = self.draw(0.12, 0.28)
            dip = self.draw(0.03, 0.07)
            settle = self.draw(0.01, 0.04)
            shape = []
            for lasting, area in (
                (0.28, -dip),
                (0.22, dip + flight / 2),
                (flight, 0),
                (0.16, flight / 2 + settle),
                (0.3, -settle),
            ):
                bump = np.sin(np.pi * (clock(lasting) + STEP_S / 2) / lasting)
                flying = -np.ones(len(bump))
                shape.append(bump * area / (bump.sum() * STEP_S) if area else flying)
            lift = self.golfer.mass * G * flow(np.pad(np.concatenate(shape), 40), 0.004)
            self.push(flight + self.draw(1.3, 1.8), lift=lift)

    def step_off(self):
        """Off by one foot."""
        self.force()
        for name, lasting, to in (
            ("override", self.draw(0.4, 0.6), 1.0),
            ("present", self.draw(0.2, 0.4), 0.0),
            ("wanted", 0.5, 52),
        ):
            self.move(name, lasting, to, 0.6)

    def step_on(self):
        """On by one foot, then the weight is shared."""
        self.force()
        landing = self.golfer.mass * G * self.draw(0.03, 0.12)
        self.push(0, lift=landing * np.sin(np.linspace(0, 2 * np.pi, 500)))
        self.move("present", self.draw(0.25, 0.45), 1.0, self.draw(0.5, 0.6))
        self.move("override", self.draw(0.35, 0.7), 0.0, 1.0)

    def come_back(self):
        """On again, after a while."""
        self.now += self.draw(1, 4)
        self.step_on()

    def leave_and_return(self):
        """Off and on again."""
        self.step_off()
        self.come_back()

    def walk_across(self):
        """Off, across the plates with a foot on each, and on again."""
        self.step_off()
        for foot in ["lead", "trail"][::self.rng.choice([-1, 1])]:
            weight = self.golfer.mass * G * self.draw(0.95, 1.1)
            self.footfall(foot, weight, self.draw(0.55, 0.75), self.draw(0.5, 0.62))
        self.come_back()

    def someone_crosses(self):
        """Somebody else's foot on one plate while the golfer stands."""
        foot = str(self.rng.choice(["lead", "trail"]))
        self.footfall(foot, self.draw(120, 800), self.draw(0.45, 0.8), 1.2)

    def footfall(self, foot, newtons, lasting, wait):
        """A foot of somebody who walks."""
        p = clock(lasting) / lasting
        load = newtons * step(p / 0.2) * step((1 - p) / 0.2) * (1 - 0.2 * np.sin(np.pi * p) ** 4)
        self.push(wait, **{foot + "_n": load, foot + "_mm": -90 + 200 * p})

    def lower_club(self):
        """From the finish back to standing at ease."""
        lasting = self.draw(0.9, 1.6)
        down = second(step(clock(lasting) / lasting))
        self.push(
            0,
            torque=0.15 * self.golfer.inertia * self.draw(0.8, 1.6) * down,
            lift=-0.015 * self.golfer.mass * down,
        )
        easing = lasting * self.draw(0.9, 1.3)
        self.move("wanted", easing, self.draw(45, 60), 1.3 * lasting + 0.2)

    def settle(self, address):
        """The weight comes to where it is at address, in two goes."""
        self.move("wanted", self.draw(0.8, 1.6), address + self.draw(-4, 4), 1.3)
        self.move("wanted", self.draw(0.6, 1.0), address, 1.2)
