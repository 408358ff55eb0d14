"""Curves of which motions are made: from 0 to 1, or from 0 over 1 to 0. Times in s."""
import numpy as np
from scipy.special import betainc


def stroke(t, start, duration, a=3.0, b=3.0):
    """0 to 1 between start and start + duration: the distribution function of beta(a, b)."""
    return betainc(a, b, np.clip((t - start) / duration, 0, 1))


def even_stroke(t, start, duration, ramp):
    """0 to 1 at even speed, sped up and slowed down evenly in the share `ramp` of the duration."""
    x = np.clip((t - start) / duration, 0, 1)
    speed = 1 / (1 - ramp)
    speeding_up = speed * x * x / (2 * ramp)
    even = speed * (x - ramp / 2)
    slowing_down = 1 - speed * (1 - x) ** 2 / (2 * ramp)
    return np.where(x < ramp, speeding_up, np.where(x < 1 - ramp, even, slowing_down))


def lag(t, start, time_constant, order):
    """What `order` equal lags in a row make of a step from 0 to 1 at start."""
    x = np.maximum(t - start, 0) / time_constant
    total = term = 1.0
    for k in range(1, order):
        term = term * x / k
        total = total + term
    return 1 - np.exp(-x) * total


def hump(t, centre, before, after):
    """0, 1 at the centre, 0: fourth powers of cosines, `before` and `after` the centre as long."""
    x = (t - centre) / np.where(t < centre, before, after)
    return np.where(abs(x) < 1, np.cos(np.clip(x, -1, 1) * np.pi / 2) ** 4, 0)


def bell(t, centre, before, after):
    """The hump as two halves of normal curves of about the same widths; it has no ends."""
    x = (t - centre) / np.where(t < centre, before * 0.42, after * 0.42)
    return np.exp(-x * x / 2)


def swell(t, begins, rising, ends, falling):
    """0 to 1 in the `rising` seconds after begins, and back in the `falling` ones after ends."""
    return stroke(t, begins, rising) - stroke(t, ends, falling)
