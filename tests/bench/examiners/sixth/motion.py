"""How things move: steps, paths through knots, and what follows from them."""
import numpy as np

from examiners.curves import GRID_HZ, minimum_jerk

G = 9.80665


def step(t, start, length, skew=1.0):
    """Smooth step from 0 to 1 (least jerk) from `start`, lasting `length`.

    Skew below 1 hurries its beginning.
    """
    u = np.clip((t - start) / length, 0, 1) ** skew
    return minimum_jerk(u)


def clock(seconds):
    """Sampling instants of a stretch of time at the base rate."""
    return np.arange(max(2, round(seconds * GRID_HZ))) / GRID_HZ


def bump(t):
    """A smooth hill from 0 to 1 and back to 0 over t."""
    return np.sin(np.pi * t / (t[-1] + 1 / GRID_HZ)) ** 2


def quintic(u, length, begin, end):
    """Fifth-degree path over `length` seconds; u in [0, 1].

    Begin and end are (place, speed, acceleration).
    """
    p0 = begin[0]
    v0 = begin[1] * length
    a0 = begin[2] * length**2
    p1 = end[0]
    v1 = end[1] * length
    a1 = end[2] * length**2
    d = p1 - p0
    c3 = 10 * d - 6 * v0 - 4 * v1 - 1.5 * a0 + 0.5 * a1
    c4 = -15 * d + 8 * v0 + 7 * v1 + 1.5 * a0 - a1
    c5 = 6 * d - 3 * (v0 + v1) - 0.5 * (a0 - a1)
    return p0 + u * (v0 + u * (a0 / 2 + u * (c3 + u * (c4 + u * c5))))


def path(t, knots):
    """A path through knots (time, place, speed, acceleration).

    At rest before the first and after the last.
    """
    y = np.where(t < knots[0][0], knots[0][1], knots[-1][1]).astype(float)
    for a, b in zip(knots, knots[1:]):
        m = (t >= a[0]) & (t < b[0])
        y[m] = quintic((t[m] - a[0]) / (b[0] - a[0]), b[0] - a[0], a[1:], b[1:])
    return y


def second_derivative(y):
    """Second difference on the grid, zero at both ends: the body stands still there."""
    return np.pad(np.diff(y, 2), 1) * GRID_HZ**2


def soft(share):
    """The edge of the shoe: a share cannot pass 99 or fall under 1 and bends towards them."""
    d = share - 50
    return 50 + np.where(np.abs(d) < 43, d, np.sign(d) * (43 + 6 * np.tanh((np.abs(d) - 43) / 6)))
