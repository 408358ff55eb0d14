"""Four ways to draw the lead share of a swing through the same plan, in percent.

They share nothing but the plan: strokes joined end to end, a spline through way points at the
events that Ball & Best use, overlapping logistic curves, and lagging answers to sudden wishes.
"""
from dataclasses import dataclass

import numpy as np
from scipy.interpolate import PchipInterpolator

from strokes import cosine, cycloid, lagging, logistic, min_jerk, part


@dataclass
class Plan:
    """What a golfer means to do: shares in percent, times in s from the onset."""

    address: float
    low: float  # above the address where no weight goes back
    by_impact: float
    finish: float
    turn_s: float  # the load turns; the club does so later
    pause_s: float  # how long the load then waits
    impact_s: float
    end_s: float
    style: dict  # the golfer's numbers from 0 to 1 that a family makes use of


FAMILIES = ("joined strokes", "way points", "logistic curves", "lags")
KERNELS = (min_jerk, cosine, cycloid)


def joined_strokes(plan, t):
    """Back, wait, through a place near impact, on to the finish: each comes to rest."""
    back, ahead = (KERNELS[int(3 * plan.style[name])] for name in ("back", "ahead"))
    start_s = plan.turn_s + plan.pause_s
    there_s = plan.impact_s - 0.04 + 0.11 * plan.style["late"]
    overshoot = max(0.0, plan.style["over"] - 0.7) / 0.3  # three in ten go too far and come back
    there = plan.by_impact + overshoot * (min(98.5, plan.finish + 4) - plan.by_impact)
    path = plan.address + (plan.low - plan.address) * back(part(t, 0, plan.turn_s))
    path += (there - plan.low) * ahead(part(t, start_s, there_s - start_s))
    on_s = there_s - 0.05
    return path + (plan.finish - there) * min_jerk(part(t, on_s, plan.end_s - on_s))


def way_points(plan, t):
    """A monotone spline through shares at takeaway, mid and late backswing, and so on to the end.

    Front Foot style goes on forwards from early downswing, Reverse style back again: centre of
    pressure 57, 27, 21, 28, 62, 70, 81 % and 54, 25, 60, 50 % (Ball & Best 2007, as remembered
    in the reference values); what is used of them is the order and which is lowest.
    """
    style, depth, rise = plan.style, plan.low - plan.address, plan.by_impact - plan.low
    down_s = plan.impact_s - plan.turn_s
    through_s = plan.end_s - plan.impact_s
    start_s = plan.turn_s + plan.pause_s
    points = [
        (0, plan.address),
        (plan.turn_s * (0.12 + 0.1 * style["late"]), plan.address + 0.05 * depth),
        (plan.turn_s * 0.5, plan.address + (0.5 + 0.3 * style["back"]) * depth),
        (plan.turn_s, plan.low),
    ]
    if plan.pause_s > 0:
        points.append((start_s, plan.low))
    down_s = plan.impact_s - start_s
    if style["reverse"] > 0.85:
        forth = plan.by_impact + 4 + 8 * style["ahead"]
        points += [(start_s + 0.6 * down_s, forth), (plan.impact_s, plan.by_impact),
                   (plan.impact_s + 0.06, plan.by_impact - 1)]
    else:
        points += [(start_s + 0.4 * down_s, plan.low + (0.3 + 0.2 * style["ahead"]) * rise),
                   (start_s + 0.75 * down_s, plan.low + (0.75 + 0.15 * style["ahead"]) * rise),
                   (plan.impact_s, plan.by_impact)]
    points += [
        (plan.impact_s + 0.4 * through_s, plan.by_impact + 0.7 * (plan.finish - plan.by_impact)),
        (plan.end_s, plan.finish),
        (plan.end_s + 0.3, plan.finish),
    ]
    times, shares = zip((-0.3, plan.address), *points)
    return PchipInterpolator(times, shares)(np.minimum(t, plan.end_s + 0.2))


def logistic_curves(plan, t):
    """Three S-shaped moves that overlap: the next is under way before the last has ended."""
    style = plan.style
    overlap_s = 0.05 + 0.1 * style["late"]
    start_s = plan.turn_s + plan.pause_s - overlap_s
    ahead_s = plan.impact_s + 0.12 * style["over"] - start_s
    path = plan.address + (plan.low - plan.address) * logistic(
        part(t, 0, plan.turn_s + overlap_s), 6 + 4 * style["back"])
    path += (plan.by_impact - plan.low) * logistic(
        part(t, start_s, ahead_s), 6 + 4 * style["ahead"])
    return path + (plan.finish - plan.by_impact) * logistic(
        part(t, plan.impact_s - 0.05, plan.end_s - plan.impact_s + 0.05), 6)


def lags(plan, t):
    """A wish each for back, forward and finish, which muscles and mass follow slowly."""
    start_s = plan.turn_s + plan.pause_s - 0.03
    back_s = plan.turn_s / (6 + 2 * plan.style["back"])
    ahead_s = (plan.impact_s - start_s) / (4 + 2.5 * plan.style["ahead"])
    rest_s = (plan.end_s - plan.impact_s) / 9
    path = plan.address + (plan.low - plan.address) * lagging(t, 0, back_s)
    path += (plan.by_impact - plan.low) * lagging(t, start_s, ahead_s)
    return path + (plan.finish - plan.by_impact) * lagging(t, plan.impact_s - 0.03, rest_s)


DRAWN_BY = dict(zip(FAMILIES, (joined_strokes, way_points, logistic_curves, lags)))
