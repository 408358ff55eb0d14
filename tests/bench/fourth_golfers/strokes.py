"""How weight goes from one place to another: curves from 0 to 1, and bumps. Times in s."""
import numpy as np

from plates import CURVE_HZ


def clock(duration_s):
    """Times from 0 on, at CURVE_HZ."""
    return np.arange(int(round(duration_s * CURVE_HZ))) / CURVE_HZ


def length_s(t):
    """How long a clock goes."""
    return len(t) / CURVE_HZ


def part(t, from_s, duration_s):
    """The part of a duration that has gone by: 0 before it, 1 after it."""
    return np.clip((t - from_s) / duration_s, 0, 1)


def min_jerk(x):
    """A reach of least jerk (Flash & Hogan 1985, J Neurosci 5:1688; from memory)."""
    return x**3 * (10 - 15 * x + 6 * x**2)


def cosine(x):
    """Half a wave of a cosine."""
    return (1 - np.cos(np.pi * x)) / 2


def cycloid(x):
    """A speed that is a raised cosine: later to start than least jerk."""
    return x - np.sin(2 * np.pi * x) / (2 * np.pi)


def logistic(x, steepness):
    """The middle of a logistic curve, stretched to go from 0 to 1."""
    def raw(y):
        return 1 / (1 + np.exp(-steepness * (y - 0.5)))
    return (raw(x) - raw(0)) / (raw(1) - raw(0))


def lagging(t, from_s, lag_s):
    """What three equal lags in a row make of a step: starts as a cube, never quite ends."""
    x = np.maximum(t - from_s, 0) / lag_s
    return 1 - np.exp(-x) * (1 + x + x**2 / 2)


def bump(t, middle_s, width_s):
    """A raised cosine of height 1; its area is half its width."""
    x = np.clip((t - middle_s) / width_s, -0.5, 0.5)
    return (1 + np.cos(2 * np.pi * x)) / 2


def fading(t, edge_s):
    """0 to 1 at the start and back at the end of `t`, within `edge_s` each."""
    end_s = length_s(t)
    return min_jerk(part(t, 0, edge_s)) * (1 - min_jerk(part(t, end_s - edge_s, edge_s)))
