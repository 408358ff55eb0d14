"""How a movement gets from where it was to where it goes: shapes from 0 to 1 for u from 0 to 1.

All stay at 0 before and at 1 after.
"""
from functools import partial

import numpy as np

OVER_AT = 0.65  # part of its time at which an overshooting movement is furthest
COUNTER_FOR = 0.3  # part of its time that a movement first goes the other way


def minimum_jerk(u):
    """The smoothest reach between rests (Flash & Hogan 1985, J Neurosci 5:1688, from memory)."""
    u = np.clip(u, 0, 1)
    return u**3 * (10 - 15 * u + 6 * u**2)


def raised_cosine(u):
    """Half a wave."""
    return 0.5 - 0.5 * np.cos(np.pi * np.clip(u, 0, 1))


def lopsided(u, half_at):
    """A reach that is half done at `half_at` of its time: hurried first, or at the end."""
    return minimum_jerk(np.clip(u, 0, 1) ** (np.log(0.5) / np.log(half_at)))


def overshooting(u, by):
    """A reach that goes too far by a part of its way, and comes back."""
    there = (1 + by) * minimum_jerk(u / OVER_AT)
    return there - by * minimum_jerk((u - OVER_AT) / (1 - OVER_AT))


def countering(u, by):
    """A reach that first goes the other way: who shifts weight pushes off with the other foot."""
    away = by * minimum_jerk(u / COUNTER_FOR)
    return (1 + by) * minimum_jerk((u - COUNTER_FOR) / (1 - COUNTER_FOR)) - away


def spell(t, from_s, to_s, edge_s):
    """1 for a spell of time, 0 outside, with smooth edges within it."""
    return minimum_jerk((t - from_s) / edge_s) - minimum_jerk((t - to_s + edge_s) / edge_s)


def draw_shape(rng, overshoots=0.25, counters=0.0):
    """One of the shapes; who asks says how often it overshoots or first goes the other way."""
    kind = rng.random()
    if kind < overshoots:
        return partial(overshooting, by=rng.uniform(0.03, 0.15))
    if kind < overshoots + counters:
        return partial(countering, by=rng.uniform(0.03, 0.12))
    plain = (minimum_jerk, raised_cosine, partial(lopsided, half_at=rng.uniform(0.36, 0.64)))
    return plain[rng.integers(3)]
