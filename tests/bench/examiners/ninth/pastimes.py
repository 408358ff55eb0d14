"""A lesson as it grows, and what is done between the swings."""
import numpy as np

from examiners.curves import GRID_HZ
from examiners.ninth.motion import ramp, soft


class Timeline:
    """A growing timeline.

    Lead share, load in body weights, forward shift, trail heel lift, another person's load.
    """

    def __init__(self, golfer, rng):
        self.golfer = golfer
        self.rng = rng
        self.draw = rng.uniform
        self.parts = []
        self.now = 0
        self.share_now = 0.5
        self.on = False
        self.between = []
        self.swings = []

    def add(self, share, load, y=0.0, toe=0.0, other_lead=0.0, other_trail=0.0):
        """Append arrays of one length; all but the share may be numbers."""
        self.parts.append(
            np.array(
                [
                    np.broadcast_to(q, share.size)
                    for q in (share, load, y, toe, other_lead, other_trail)
                ]
            )
        )
        self.now += share.size
        self.share_now = float(self.parts[-1][0, -1])

    def hold(self, s):
        """Stand, or leave the plates empty, for s seconds."""
        self.add(np.full(max(int(s * GRID_HZ), 1), self.share_now), float(self.on))

    def go(self, target, s, toe0=0.0, y0=0.0):
        """Shift the weight to a share; the knees give a little on the way."""
        k = ramp(s * GRID_HZ)
        bob = self.draw(-0.02, 0.02) * np.sin(2 * np.pi * k) * 4 * k * (1 - k)
        self.add(
            self.share_now + (target - self.share_now) * k, 1 + bob, y0 * (1 - k), toe0 * (1 - k)
        )

    def step_on(self):
        """One foot takes the body, then the other."""
        first = ramp(self.draw(250, 450))
        second = ramp(self.draw(300, 600))
        share = self.draw(0.35, 0.6)
        bump = self.draw(0.03, 0.15) * np.sin(np.pi * np.linspace(0, 1, first.size)) ** 2 * first
        a = np.r_[first + bump, np.ones(int(self.draw(50, 250))), 1 - (1 - share) * second]
        b = np.r_[np.zeros(a.size - second.size), (1 - share) * second]
        self.add((a if self.draw() < 0.5 else b) / np.maximum(a + b, 1e-9), a + b)
        self.on = True
        self.hold(self.draw(0.2, 0.8))

    def step_off(self):
        """Onto one foot, then off it."""
        to = float(self.draw() < 0.5)
        self.go(to, self.draw(0.35, 0.7))
        self.hold(self.draw(0.02, 0.15))
        load = 1 - ramp(self.draw(200, 400))
        self.add(np.full(load.size, to), load)
        self.on, self.share_now = False, 0.5

    def motion(self, arm, wrist, body, legs, y=0.0):
        """Any motion of the golfer's masses from where he stands."""
        share, load, dy, _ = self.golfer.forces(arm, wrist, body, legs)
        self.add(
            soft(self.share_now + share) + self.share_now - soft(self.share_now), 1 + load, dy + y
        )

    def waggle(self):
        """Arms and wrists go back a little, two to four times."""
        for _ in range(self.rng.integers(2, 5)):
            a = self.draw(0.05, 0.3)
            u = np.sin(np.linspace(0, np.pi, int(self.draw(450, 1000)))) ** 4
            self.motion(
                -a * u,
                -self.draw(0.2, 0.7) * u,
                self.draw(0.5, 1.0) * self.golfer.arms / self.golfer.mass * 0.3 * a * u,
                0 * u,
            )
            self.hold(self.draw(0.02, 0.3))

    def rocking(self):
        """From foot to foot, evenly."""
        period = self.draw(1.1, 2.6)
        amp = self.draw(0.02, 0.10)
        t = np.arange(int(self.rng.integers(3, 7) * period * GRID_HZ)) / GRID_HZ
        env = np.minimum(1, np.minimum(t, t[-1] - t) / (0.6 * period))
        ph = 2 * np.pi * t / period + self.draw(0, 0.4) * np.sin(2 * np.pi * t / period / 2.3)
        self.motion(
            0 * t,
            0 * t,
            amp * self.golfer.stance * env**2 * (3 - 2 * env) * np.sin(ph),
            0.003 * env**2 * np.cos(2 * ph),
        )

    def bending(self):
        """Down for the ball and up again."""
        d = np.r_[
            ramp(self.draw(800, 1500)),
            np.ones(int(self.draw(300, 1500))),
            1 - ramp(self.draw(800, 1500)),
        ]
        self.motion(
            0 * d,
            0 * d,
            self.draw(-0.15, 0.15) * self.golfer.stance * d,
            -self.draw(0.2, 0.42) * d,
            self.draw(5, 35) * d,
        )

    def regripping(self):
        """Hands and club move a little."""
        env = (
            np.sin(np.pi * (t := np.arange(int(self.draw(0.8, 2.2) * GRID_HZ)) / GRID_HZ) / t[-1])
            ** 2
        )
        self.motion(
            0 * t,
            0.15 * env * np.sin(2 * np.pi * self.draw(0.8, 2) * t),
            self.draw(-0.006, 0.006) * env,
            0 * t,
        )

    def away(self, walker_n=0.0):
        """Off the plates and on again; in between somebody of this weight may cross the mat."""
        self.step_off()
        self.hold(self.draw(0.4, 2))
        if walker_n:
            self.strides(walker_n)
            self.hold(self.draw(0.4, 2))
        self.step_on()

    def strides(self, weight_n):
        """Somebody crosses one plate or both, each with the two humps of a step."""
        w = np.linspace(0, np.pi, int(self.draw(550, 800)))
        n = int(0.86 * w.size)
        one = weight_n * 1.2 * (np.sin(w) + 0.33 * np.sin(3 * w))
        both = [np.r_[one, np.zeros(n)], np.r_[np.zeros(n), one * (self.draw() < 0.6)]]
        self.rng.shuffle(both)
        self.add(np.full(one.size + n, self.share_now), float(self.on), 0, 0, *both)

    def hops(self):
        """Crouch, push, fly, land and stand, one to three times."""

        def push(impulse, s):
            """Load of an impulse in s of body weight over s seconds."""
            return 1 + 2 * impulse / s * np.sin(np.linspace(0, np.pi, int(s * GRID_HZ))) ** 2

        self.go(self.draw(0.42, 0.58), self.draw(0.4, 0.8))
        for _ in range(self.rng.integers(1, 4)):
            air = self.draw(0.10, 0.28)
            dip = self.draw(0.02, 0.08)
            give = self.draw(0.02, 0.06)
            load = np.r_[
                push(-dip, 0.3),
                push(dip + air / 2, self.draw(0.25, 0.35)),
                np.zeros(int(air * GRID_HZ)),
                push(air / 2 + give, self.draw(0.18, 0.28)),
                push(-give, 0.25),
            ]
            self.add(self.share_now + self.draw(-0.06, 0.06) * ramp(load.size), load)
            self.hold(self.draw(0.02, 0.3))

    def shuffling(self):
        """Talking: the weight is put here and there."""
        for _ in range(self.rng.integers(2, 5)):
            self.go(self.draw(0.3, 0.7), self.draw(0.8, 1.8))
            self.hold(self.draw(0.1, 1.2))

    def leaning(self):
        """On the club, which stands beside the plates."""
        k = np.r_[
            ramp(self.draw(400, 900)),
            np.ones(int(self.draw(1000, 3500))),
            1 - ramp(self.draw(400, 900)),
        ]
        self.add(
            self.share_now + self.draw(-0.12, 0.12) * k,
            1 - self.draw(0.02, 0.1) * k,
            self.draw(-5, 20) * k,
        )

    def named(self, name, do):
        """Does it and notes when."""
        start = self.now
        do()
        self.between.append({"name": name, "from_s": start / GRID_HZ, "to_s": self.now / GRID_HZ})
