"""What happens when feet leave the plates or others come on them. None of it is a swing.

Each function takes a random generator and the share that the golfer stands with, and gives the
loads of the lead and the trail plate over time, in body weights. The golfer stands on both plates
before and after.
"""
import numpy as np
from plates import CURVE_HZ
from scipy.interpolate import BPoly

from fifth_golfers.movement import GRAVITY, samples
from fifth_golfers.shapes import minimum_jerk, spell

STILL_S = 0.3
LEAST_LOAD = 1e-6  # body weights; below it there is no share to tell


def stood(share, seconds):
    """The loads of standing, or of nobody where the share is None."""
    load = np.zeros(samples(seconds))
    return (load, load) if share is None else (load + share / 100, load + 1 - share / 100)


def joined(*parts):
    """Parts one after another."""
    lead, trail = zip(*parts)
    return np.concatenate(lead), np.concatenate(trail)


def footfall(t, from_s, stance_s, humps, duty):
    """A foot in walking: A [cos(pi x) - q cos(3 pi x)] for x of -0.5 to 0.5 of its time down.

    Alexander & Jayes 1980, J Biomech 13:383, from memory; q, here `humps`, of 0.2 to 0.5 gives the
    two humps, and `duty`, the part of a stride that the foot is down, makes two feet carry a body.
    """
    x = (t - from_s) / stance_s - 0.5
    height = np.pi / (4 * duty * (1 + humps / 3))
    wave = np.cos(np.pi * x) - humps * np.cos(3 * np.pi * x)
    return np.where(abs(x) < 0.5, height * wave, 0)


def walk_over(rng, size=1.0):
    """Somebody's steps over the plates: a foot on each, or on one only."""
    stance_s, duty = rng.uniform(0.6, 0.85), rng.uniform(0.58, 0.66)
    stride_s, humps = stance_s / duty, rng.uniform(0.2, 0.5)
    t = np.arange(samples(2 * stride_s + 0.4)) / CURVE_HZ
    whole = [rng.uniform(0.6, 1) if rng.random() < 0.4 else 1 for _ in range(2)]  # of a foot is on
    feet = [size * part * footfall(t, 0.1 + step * stride_s / 2, stance_s, humps, duty)
            for step, part in enumerate(whole)]
    if rng.random() < 0.3:
        feet[rng.integers(2)] = np.zeros(len(t))
    return feet if rng.random() < 0.5 else feet[::-1]


def step_off(rng, share):
    """One foot goes to the ground beside the plates, then the other."""
    seconds = rng.uniform(1.2, 2.4)
    t = np.arange(samples(seconds + STILL_S)) / CURVE_HZ
    on_other = minimum_jerk((t - STILL_S) / (0.45 * seconds))  # the first foot lets go
    off = minimum_jerk((t - STILL_S - 0.6 * seconds) / (0.4 * seconds))
    first, other = (share, 100 - share) if rng.random() < 0.5 else (100 - share, share)
    first_load = first / 100 * (1 - on_other)
    push = rng.uniform(0, 0.08) * spell(t, STILL_S + 0.5 * seconds, STILL_S + 0.8 * seconds,
                                        0.15 * seconds)
    other_load = (1 - first_load) * (1 - off) * (1 + push)
    return (first_load, other_load) if first == share else (other_load, first_load)


def step_on(rng, share):
    """One foot comes down and takes all weight, the other follows."""
    lands_s, waits_s = rng.uniform(0.25, 0.5), rng.uniform(0.1, 0.9)
    shares_s = rng.uniform(0.4, 0.9)
    t = np.arange(samples(lands_s + waits_s + shares_s + 0.6)) / CURVE_HZ
    on = minimum_jerk(t / lands_s)
    heavy = 1 + rng.uniform(0, 0.15) * spell(t, 0.5 * lands_s, 2 * lands_s, 0.5 * lands_s)
    follows = minimum_jerk((t - lands_s - waits_s) / shares_s)
    second, first = (share, 100 - share) if rng.random() < 0.5 else (100 - share, share)
    second_load = second / 100 * follows
    first_load = (1 - second_load) * on * heavy
    return (second_load, first_load) if second == share else (first_load, second_load)


def off_and_on(rng, share):
    """Off the plates for a while, maybe over them in between, and on again."""
    parts = [step_off(rng, share), stood(None, rng.uniform(1.5, 5))]
    if rng.random() < 0.4:
        parts += [walk_over(rng), stood(None, rng.uniform(1, 3))]
    return joined(*parts, step_on(rng, share))


def one_foot_off(rng, share):
    """A foot beside the plates for a while, with some of the weight on it."""
    stays_s, takes_s = rng.uniform(1, 4), rng.uniform(0.5, 0.9)
    t = np.arange(samples(stays_s + 4 * takes_s + 1)) / CURVE_HZ
    lifted = spell(t, STILL_S, STILL_S + stays_s + 4 * takes_s, takes_s)
    gone = rng.uniform(0.2, 0.7) * spell(t, STILL_S + takes_s, STILL_S + stays_s + 3 * takes_s,
                                         takes_s)
    lifts_lead = rng.random() < 0.5
    lifted_part = share / 100 if lifts_lead else 1 - share / 100
    lifted_load = lifted_part * (1 - lifted)
    standing_load = (1 - lifted_load) * (1 - gone)
    return (lifted_load, standing_load) if lifts_lead else (standing_load, lifted_load)


def reach_between(start, end, seconds):
    """Acceleration of the quintic between (height, speed, acceleration) and the same at its end."""
    curve = BPoly.from_derivatives([0, seconds], [start, end])
    return curve.derivative(2)(np.arange(samples(seconds)) / CURVE_HZ)


def hop(rng, share):
    """Some hops on both feet: crouch and push, fly with nothing on the plates, land."""
    still = np.zeros(samples(STILL_S))
    pushes = [still]
    for _ in range(rng.integers(1, 4)):
        flight_s = rng.uniform(0.1, 0.3)
        speed = GRAVITY * flight_s / 2  # at both ends of a flight, m/s
        takes_s = rng.uniform(0.42, 0.6)
        lands_s = rng.uniform(max(0.3, 1.4 * flight_s), 0.6)  # in less, feet would have to pull
        pushes += [reach_between((0, 0, 0), (0, speed, -GRAVITY), takes_s),
                   np.full(samples(flight_s), -GRAVITY),
                   reach_between((0, -speed, -GRAVITY), (0, 0, 0), lands_s),
                   np.zeros(samples(rng.uniform(0.05, 0.6)))]
    load = 1 + np.concatenate(pushes + [still]) / GRAVITY
    t = np.arange(len(load)) / CURVE_HZ
    part = share / 100 + rng.uniform(-0.1, 0.1) * spell(t, STILL_S, t[-1], 0.5)
    return load * part, load * (1 - part)


def someone_crosses(rng, share):
    """Another one's feet on the plates beside the golfer's."""
    lead, trail = walk_over(rng, size=rng.uniform(0.6, 1.3) * rng.uniform(0.4, 1))
    return lead + share / 100, trail + 1 - share / 100


def coach_steps_on(rng, share):
    """A coach's foot on the edge of a plate for a while."""
    stays_s, takes_s = rng.uniform(1, 5), rng.uniform(0.3, 0.7)
    t = np.arange(samples(stays_s + 2 * takes_s + 2 * STILL_S)) / CURVE_HZ
    foot = rng.uniform(0.05, 0.5) * spell(t, STILL_S, t[-1] - STILL_S, takes_s)
    on_lead = rng.random() < 0.5
    return share / 100 + foot * on_lead, 1 - share / 100 + foot * (not on_lead)


def told_as_share(lead, trail):
    """Share in points, and load; half and half where there is hardly a load."""
    load = np.maximum(lead, 0) + np.maximum(trail, 0)
    loaded = load > LEAST_LOAD
    part = np.where(loaded, np.maximum(lead, 0) / np.where(loaded, load, 1), 0.5)
    return 100 * part, load
