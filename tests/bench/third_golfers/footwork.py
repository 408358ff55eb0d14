"""Feet that come and go: loads of the lead and the trail plate in body weights, foot by foot."""
import numpy as np
from plates import CURVE_HZ

from body import GRAVITY, fade, stroke, times

EMPTY = 0.01  # body weights; below it nobody is said to stand anywhere


def footfall(t, on_s, off_s, weight):
    """A walking foot's load: struck, let off in the middle, pushed off, as every plate shows it."""
    along = np.clip((t - on_s) / (off_s - on_s), 0, 1)
    hollow = 0.28 * np.sin(np.pi * along)**4 - 0.12 * np.sin(2 * np.pi * along)**2
    return weight * fade(t, on_s, off_s, 0.3 * (off_s - on_s)) * (1.08 - hollow)


def step_on(rng, share):
    """One foot after the other, then the share of address."""
    lasts_s = rng.uniform(1.8, 3)
    t = times(lasts_s)
    first_s, second_s = 0.3, 0.3 + rng.uniform(0.5, 0.9)
    load = stroke(t, first_s, rng.uniform(0.2, 0.35))
    load += rng.uniform(0.03, 0.15) * fade(t, first_s + 0.1, first_s + 0.4, 0.15)
    first = rng.integers(0, 2)  # 1: the lead foot
    way = first + (share - first) * stroke(t, second_s, rng.uniform(0.35, 0.7))
    load += rng.uniform(-0.04, 0.08) * fade(t, second_s + 0.1, second_s + 0.5, 0.2)
    return load * way, load * (1 - way)


def step_off(rng, share):
    """The reverse."""
    lead, trail = step_on(rng, share)
    return lead[::-1], trail[::-1]


def nobody(rng):
    """The plates are empty."""
    none = np.zeros(len(times(rng.uniform(1, 6))))
    return none, none


def walk_over(rng):
    """Someone walks over the empty plates: along the line of the feet, or across it."""
    weight, step_s = rng.uniform(0.5, 1.3), rng.uniform(0.5, 0.65)
    t = times(4)
    feet = [footfall(t, 1, 1 + 1.2 * step_s, weight),
            footfall(t, 1 + step_s, 1 + 2.2 * step_s, weight)]
    if rng.random() < 0.4:
        feet[1] = 0 * feet[1]
    return feet if rng.random() < 0.5 else feet[::-1]


def beside(rng, share):
    """Someone sets a foot on a plate, or walks over it, while the golfer stands there."""
    t = times(rng.uniform(2.5, 4))
    foreign = footfall(t, 0.6, rng.uniform(1.2, t[-1] - 0.4), rng.uniform(0.15, 1.0))
    lead, trail = share + 0 * t, 1 - share + 0 * t
    return (lead + foreign, trail) if rng.random() < 0.5 else (lead, trail + foreign)


def hop(rng, share):
    """A dip, a push, flight, and a landing that takes up what the push gave."""
    flight_s, push_s = rng.uniform(0.12, 0.32), rng.uniform(0.2, 0.3)
    landing_s = rng.uniform(0.15, 0.3)
    gain = GRAVITY * flight_s / 2  # m/s, taken up twice
    t = times(2.6)
    off_s = 1.0
    dip = 0.25 * fade(t, off_s - push_s - 0.35, off_s - push_s, 0.17)
    lost = GRAVITY * dip.sum() / CURVE_HZ
    load = 1 - dip + hump(t, off_s - push_s, push_s, gain + lost)
    load += hump(t, off_s + flight_s, landing_s, gain)
    load *= 1 - fade(t, off_s - 0.02, off_s + flight_s + 0.02, 0.04)
    way = share + rng.normal() * 0.05 * fade(t, off_s, 2.5, 0.2)
    way = np.clip(way, 0.05, 0.95)
    return load * way, load * (1 - way)


def hump(t, from_s, lasts_s, gain):
    """A push that changes the speed by `gain` in m/s, as load in body weights beyond one."""
    u = np.clip((t - from_s) / lasts_s, 0, 1)
    return gain / GRAVITY / lasts_s * 2 * np.sin(np.pi * u)**2


def pace(rng, share):
    """Some steps on the spot, as when one turns round for a ball."""
    count, step_s = rng.integers(3, 8), rng.uniform(0.45, 0.75)
    t = times(count * step_s + 1)
    way = np.full(len(t), share)
    foot = rng.integers(0, 2)
    for one in range(count):
        up = fade(t, 0.3 + one * step_s, 0.3 + (one + 1) * step_s, 0.32 * step_s)
        way += (foot - share) * up
        foot = 1 - foot
    load = 1 + 0.08 * np.sin(4 * np.pi * t / step_s) * fade(t, 0.3, t[-1] - 0.4, 0.3)
    return load * way, load * (1 - way)


def share_and_load(lead, trail):
    """Share 0 to 1 and load of two plates' loads; on empty plates the share stays as it was."""
    load = lead + trail
    known = np.flatnonzero(load > EMPTY)
    if not len(known):
        return np.full(len(load), 0.5), load
    share = lead / np.maximum(load, EMPTY)
    return np.interp(np.arange(len(load)), known, share[known]), load
