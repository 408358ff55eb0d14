"""A body over two feet: from what it does with its mass to what the ground has to carry.

Three segments: legs under the centre of mass, a trunk and arms with club that turn about it.
Newton's and Euler's laws in the frontal plane give load and centre of pressure.
Lengths in m, angles in rad, times in s, loads in body weights; towards the target is positive.
"""
from dataclasses import dataclass

import numpy as np
from plates import CURVE_HZ
from scipy.ndimage import gaussian_filter1d

GRAVITY = 9.81
MUSCLES_S = 0.025  # no push comes or goes at once: planned movements are as smooth as this
SOFT_FROM, SOFT_OVER = 0.38, 0.11  # of the share's way from the middle: a foot's width takes it up
FOLDED_RAD = 2.0  # beyond it the arms fold, and lift no further


@dataclass
class Body:
    """A golfer's build; what scales with mass is given by its mass."""

    height_m: float  # of the centre of mass
    stance_m: float  # between the middles of the feet
    turning_m2: float  # moment of inertia of arms and club, by the body's mass
    trunk_m2: float  # the same of the trunk, as far as it turns in the frontal plane
    reach_m: float  # mass of arms and club by their arm's length, by the body's mass

    def place_m(self, share):
        """Where the centre of mass rests when the lead foot carries this share, 0 to 1."""
        return (share - 0.5) * self.stance_m


def stroke(t, from_s, lasts_s):
    """0 before, 1 after; between them a movement of least jerk (Flash and Hogan 1985)."""
    u = np.clip((t - from_s) / lasts_s, 0, 1)
    return u**3 * (10 - 15 * u + 6 * u**2)


def there_and_back(t, from_s, out_s, stay_s, back_s):
    """0, then 1 for a while, then 0 again."""
    return stroke(t, from_s, out_s) - stroke(t, from_s + out_s + stay_s, back_s)


def fade(t, from_s, to_s, edge_s):
    """1 from one time to another, with smooth edges inside."""
    return stroke(t, from_s, edge_s) - stroke(t, to_s - edge_s, edge_s)


def times(lasts_s):
    """The times of an act that lasts so long."""
    return np.arange(int(round(lasts_s * CURVE_HZ))) / CURVE_HZ


def acceleration(curve):
    """Second derivative of a curve, its ends at rest."""
    padded = np.pad(curve, 2, mode="edge")
    return np.convolve(padded, [1, -2, 1], "valid")[1:-1] * CURVE_HZ**2


def by_muscles(curve):
    """A planned curve as muscles carry it out."""
    return gaussian_filter1d(curve, MUSCLES_S * CURVE_HZ, mode="nearest")


def limited(share):
    """No foot pulls at the ground: towards all on one foot the share bends off."""
    side = share - 0.5
    beyond = np.maximum(abs(side) - SOFT_FROM, 0)
    bent = np.minimum(abs(side), SOFT_FROM) + SOFT_OVER * np.tanh(beyond / SOFT_OVER)
    return 0.5 + np.sign(side) * bent


class Act:
    """What a golfer does for a while, at rest at both ends; filled by adding to its curves."""

    def __init__(self, lasts_s, com_m, arm_rad=0.0, press=0.0):
        self.t = times(lasts_s)
        self.com_m = np.full(len(self.t), float(com_m))  # sideways, from between the feet
        self.rise_m = np.zeros(len(self.t))
        self.arm_rad = np.full(len(self.t), float(arm_rad))  # 0 at the ball, below 0 behind it
        self.trunk_rad = np.zeros(len(self.t))
        self.press = np.full(len(self.t), float(press))  # of a share, by the feet alone
        self.borne = np.zeros(len(self.t))  # body weights, by something beside the plates

    def ground(self, body):
        """Share of the lead foot 0 to 1 and load in body weights, at each time."""
        com_m, rise_m, arm_rad = map(by_muscles, (self.com_m, self.rise_m, self.arm_rad))
        folded = FOLDED_RAD * np.tanh(arm_rad / FOLDED_RAD)
        lift_m = rise_m + body.reach_m * (1 - np.cos(folded))
        load = np.maximum(1 + acceleration(lift_m) / GRAVITY, 0.05)
        tipping = body.turning_m2 * acceleration(arm_rad)
        tipping += body.trunk_m2 * acceleration(by_muscles(self.trunk_rad))
        tipping -= body.height_m * acceleration(com_m)
        cop_m = com_m + tipping / (GRAVITY * load)
        share = limited(0.5 + cop_m / body.stance_m + self.press)
        return share, np.maximum(load - self.borne, 0)
