"""Feet that come, go and leave the ground. Loads of the lead and the trail plate, body weights.

A step loads a plate for 0.6 to 0.75 s with two humps of about 1.1 and a hollow of about 0.75 body
weights; both feet carry for 0.1 to 0.2 s (Winter, Biomechanics and Motor Control of Human
Movement; from memory). A hop: flight and landing by impulse (the reference values, 7.2).
"""
import numpy as np

from plates import CURVE_HZ
from strokes import bump, clock, length_s, min_jerk, part

FEET_APART = 0.01  # body weights; with less on both plates together there is no share

LETS_GO_S, LANDS_S = 0.05, 0.03  # feet leave and meet the ground no faster


def share_and_load(lead, trail):
    """Both plates' loads as share in percent and load; the share of empty plates is a half."""
    load = lead + trail
    return 100 * np.where(load > FEET_APART, lead / np.maximum(load, FEET_APART), 0.5), load


def stance(t, from_s, duration_s, hardness):
    """One foot of a walker: two humps and a hollow."""
    x = part(t, from_s, duration_s)
    edges = min_jerk(np.clip(x / 0.22, 0, 1)) * (1 - min_jerk(np.clip((x - 0.78) / 0.22, 0, 1)))
    return edges * (1 - hardness * 0.3 * np.cos(4 * np.pi * (x - 0.5)) * np.sin(np.pi * x))


def walk(rng, weight):
    """Over both plates, one foot on each; from either side."""
    stance_s, both_s = rng.uniform(0.58, 0.8), rng.uniform(0.11, 0.18)
    t = clock(2 * stance_s + 1.0)
    hardness = rng.uniform(0.4, 0.9)
    first = weight * stance(t, 0.4, stance_s, hardness)
    second = weight * stance(t, 0.4 + stance_s - both_s, stance_s, hardness)
    return (first, second) if rng.random() < 0.5 else (second, first)


def leave(rng, now, t, from_s):
    """Both feet go, one after the other; the ground beside takes over."""
    lift_s, wait_s, last_s = rng.uniform(0.3, 0.5), rng.uniform(0.05, 0.3), rng.uniform(0.25, 0.45)
    over = min_jerk(part(t, from_s, lift_s))  # weight onto the foot that stays
    gone = min_jerk(part(t, from_s + lift_s + wait_s, last_s))
    lead_goes_first = rng.random() < 0.5
    share = now / 100 * (1 - over) + (0 if lead_goes_first else 1) * over
    return share * (1 - gone), (1 - share) * (1 - gone)


def come(rng, t, from_s, there):
    """One foot is set down and takes the weight, then the other."""
    land_s, wait_s, over_s = rng.uniform(0.2, 0.4), rng.uniform(0.1, 0.4), rng.uniform(0.4, 0.8)
    on = min_jerk(part(t, from_s, land_s))
    stamp = rng.uniform(0.03, 0.18) * (bump(t, from_s + land_s, 0.2)
                                       - bump(t, from_s + land_s + 0.16, 0.24) * 0.8)
    over = min_jerk(part(t, from_s + land_s + wait_s, over_s))
    first = 1.0 if rng.random() < 0.5 else 0.0
    share = first * (1 - over) + there / 100 * over
    load = np.maximum(on + stamp, 0)
    return share * load, (1 - share) * load


def stepping_off_and_on(rng, now):
    """Off the plates and back; in one of three times somebody crosses meanwhile."""
    away_s = rng.uniform(2.0, 7.0)
    crossed = walk(rng, rng.uniform(0.6, 1.3)) if rng.random() < 0.35 else None
    cross_n = len(crossed[0]) if crossed else 0
    t = clock(1.5 + away_s + cross_n / CURVE_HZ + 2.0)
    left = leave(rng, now, t, 0.1)
    back = come(rng, t, 1.5 + away_s + cross_n / CURVE_HZ - 0.5, rng.uniform(42, 65))
    lead, trail = left[0] + back[0], left[1] + back[1]
    if crossed:
        at = int((1.5 + 0.4 * away_s) * CURVE_HZ)
        lead[at:at + cross_n] += crossed[0]
        trail[at:at + cross_n] += crossed[1]
    return share_and_load(lead, trail)


def walking_over(rng, now):
    """Off, over the plates once or twice on some errand, and back."""
    gone = leave(rng, now, clock(1.6), 0.1)
    pieces = [gone]
    for _ in range(rng.integers(1, 3)):
        pause = np.zeros(len(clock(rng.uniform(0.8, 2.5))))
        pieces += [(pause, pause), walk(rng, 1)]
    pieces.append(come(rng, clock(2.2), 0.4, rng.uniform(42, 65)))
    lead, trail = (np.concatenate(side) for side in zip(*pieces))
    return share_and_load(lead, trail)


def someone_beside(rng, now):
    """Somebody sets a foot on one plate while the golfer stands there, or leans across."""
    t = clock(rng.uniform(1.6, 4))
    end_s = length_s(t)
    extra = rng.uniform(0.15, 0.9) * (min_jerk(part(t, 0.3, rng.uniform(0.25, 0.5)))
                                      - min_jerk(part(t, end_s - 0.7, rng.uniform(0.25, 0.5))))
    share = np.full(len(t), now / 100)
    lead, trail = (extra, 0) if rng.random() < 0.5 else (0, extra)
    return share_and_load(share + lead, 1 - share + trail)


def hopping(rng, now):
    """One to three little hops on both feet: what the flight takes, push and landing give."""
    pieces = []
    for _ in range(rng.integers(1, 4)):
        flight_s = rng.uniform(0.12, 0.32)
        dip_s, push_s = rng.uniform(0.25, 0.4), rng.uniform(0.2, 0.3)
        land_s = rng.uniform(0.12, 0.25)
        t = clock(0.1 + dip_s + push_s + flight_s + land_s + 0.4)
        dip = rng.uniform(0.3, 0.55)
        off_s = 0.1 + dip_s + push_s
        down_s = off_s + flight_s
        airborne = min_jerk(part(t, off_s - LETS_GO_S, LETS_GO_S))
        airborne -= min_jerk(part(t, down_s, LANDS_S))
        load = 1 - airborne - dip * bump(t, 0.1 + dip_s / 2, dip_s)
        load += (dip * dip_s + flight_s + LETS_GO_S) / push_s * bump(t, off_s - push_s / 2, push_s)
        load += (flight_s + LANDS_S) / land_s * bump(t, down_s + land_s / 2, land_s)
        pieces.append(np.maximum(load, 0))
    load = np.concatenate(pieces)
    t = np.arange(len(load)) / CURVE_HZ
    wobble = rng.uniform(0, 6) * np.sin(2 * np.pi * rng.uniform(0.8, 2) * t)
    wobble *= min_jerk(part(t, 0, 0.4)) * (1 - min_jerk(part(t, t[-1] - 0.4, 0.4)))
    return np.where(load > FEET_APART, now + wobble, 50), load


AFOOT = {"stepping off and on": stepping_off_and_on, "walking over": walking_over,
         "somebody beside": someone_beside, "hopping": hopping}
