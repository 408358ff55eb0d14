"""Who swings: build, tempo and habits."""
import numpy as np

from examiners.fourteenth.shares import FAMILIES

# How far the share falls in a three-quarter swing, points, and how many people do so.
DIPS = ((2.5, 8), (6, 16), (14, 35))
DIP_CHANCES = (0.5, 0.33, 0.17)


def tempo_of(rng):
    """Seconds of the backswing and the downswing, the first 1.9 to 4.1 times as long."""
    while True:
        back, down = rng.uniform(0.5, 1.1), rng.uniform(0.22, 0.45)
        if 1.9 < back / down < 4.1:
            return back, down


class Person:
    """One golfer; shares in points, times in s."""

    def __init__(self, rng):
        draw = rng.uniform
        self.backswing, self.downswing = tempo_of(rng)
        dip = DIPS[rng.choice(len(DIPS), p=DIP_CHANCES)]
        self.mass = draw(45, 130)
        self.dip = draw(*dip)
        self.finish = draw(82, 96.5)
        self.address = draw(68, 81) if rng.random() < 0.65 else draw(50, 66)
        self.follow = draw(0.45, 1.05)
        self.turn_early = draw(-0.02, 0.28)  # before the top, in backswings
        self.family = rng.choice(list(FAMILIES))
        self.forward = 0.25 * (rng.random() < 0.12)  # how many swings only press forward
        self.load = rng.choice(["push", "two pushes", "arms"], p=[0.5, 0.2, 0.3])
        self.vigour = draw(0.3, 1.0)
        self.peak_before_impact = rng.triangular(-0.01, 0.03, 0.08)
        self.ripple_n = draw(3, 15) * (rng.random() < 0.5)
        self.press = draw(0.3, 1.5) * (rng.random() < 0.12)  # forward, before going back
        self.fall_back = draw(0, 6) * (rng.random() < 0.3)  # after impact
        self.half_stance = draw(90, 210)  # mm
        self.still = draw(0.7, 2.0)
        self.restless = draw(0.3, 1)

    def settle(self, rng):
        """Share at an address, and how long it takes to get there."""
        return np.clip(self.address + rng.normal(0, 1.5), 48, 83), rng.uniform(0.5, 1.3)

    def times(self, rng, tempo):
        """How long a backswing of such a tempo and its downswing take."""
        back = np.clip(self.backswing * tempo * rng.normal(1, 0.04), 0.5, 1.1)
        return back, np.clip(self.downswing * rng.normal(1, 0.04), 0.22, 0.45)
