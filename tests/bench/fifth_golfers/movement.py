"""A movement of a golfer with both feet down: the lead share, and the height of the body's mass.

Times in s, shares in points, heights in m, loads in body weights.
"""
import numpy as np
from plates import CURVE_HZ

from fifth_golfers.shapes import minimum_jerk

GRAVITY = 9.81  # m/s^2


def samples(seconds):
    """How many samples of a curve a time takes."""
    return int(round(seconds * CURVE_HZ))


class Movement:
    """A share and a height over time, made of reaches laid over one another."""

    def __init__(self, seconds, share):
        self.t = np.arange(samples(seconds)) / CURVE_HZ
        self.share = np.full(len(self.t), float(share))
        self.height_m = np.zeros(len(self.t))
        self.elsewhere = np.zeros(len(self.t))  # what a club or a hand carries, in body weights

    @property
    def lasts_s(self):
        """How long it takes."""
        return len(self.t) / CURVE_HZ

    def shift(self, points, from_s, seconds, shape=minimum_jerk):
        """Weight goes to the lead foot, or to the trail foot where points are negative."""
        self.share += points * shape((self.t - from_s) / seconds)

    def lift(self, metres, from_s, seconds):
        """The body's mass goes up, or down where metres are negative."""
        self.height_m += metres * minimum_jerk((self.t - from_s) / seconds)

    def lean(self, part, from_s, seconds):
        """Part of the weight goes onto something that stands beside the plates."""
        self.elsewhere += part * minimum_jerk((self.t - from_s) / seconds)

    def ground(self):
        """Share in points and load under both feet: weight, and what speeds the mass up (Newton).

        The load's sum is the change of speed to the last digit, as its differences are.
        """
        padded_m = np.pad(self.height_m, 1, mode="edge")
        pushed = np.diff(padded_m, 2) * CURVE_HZ**2 / GRAVITY
        return np.clip(self.share, 0, 100), np.maximum(1 + pushed - self.elsewhere, 0)
