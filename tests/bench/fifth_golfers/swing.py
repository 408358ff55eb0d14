"""A swing as planned, and what is true of it.

Times in s from the start of its movement until a lesson moves them to where it happens, shares in
points. What the truth means is what score.py asks; where it does not say, this does:
- the onset is where weight or mass begin to move, a forward press that runs into the backswing
  being a part of it;
- a swing has settled when 98 % of what weight and mass have left to do at impact is done, whichever
  is later, and has ended when the plan has;
- a turnaround is an instant when the share under the feet is near its lowest for no longer than
  MOMENT_S, and not at an end of the way from onset to impact.
"""
from dataclasses import dataclass

import numpy as np
from plates import CURVE_HZ

from fifth_golfers.movement import Movement, samples
from fifth_golfers.shapes import minimum_jerk

DONE = 0.98  # of the way
NEAR_POINTS, MOMENT_S = 0.2, 0.1  # so near the lowest share, for so long at most
EDGE_S = 0.01  # a lowest share this near an end is none to turn at
LEAST_POINTS = 2.05  # that a swing moves the share by; the smallest is 2
SMALL_POINTS = 6  # a swing that moves it less is small
ADDRESS_S = FINISH_S = 0.5  # over which shares at rest are means
TURF_RIPPLES = 0.25  # of swings without a ball brush the turf


@dataclass
class Swing:
    """One true swing."""

    way: str
    is_shot: bool
    has_jolt: bool
    has_backswing: bool
    small: bool
    moved: float  # points from the lowest planned share to the highest
    onset_s: float
    top_s: float
    impact_s: float
    settled_s: float
    end_s: float
    has_one_turnaround: bool = False
    turnaround_s: float = np.nan
    triggered: bool = False
    address: float = np.nan
    lowest: float = np.nan
    impact: float = np.nan
    finish: float = np.nan

    def later(self, seconds):
        """The swing where its movement begins so long after a recording."""
        for name in ("onset_s", "top_s", "impact_s", "settled_s", "end_s"):
            setattr(self, name, getattr(self, name) + seconds)


def settled_from(values, first):
    """The sample from which 98 % of a curve's largest way from `first` to its end are done."""
    way = abs(values[first:] - values[-1])
    beyond = np.flatnonzero(way > (1 - DONE) * way.max())
    return first + (beyond[-1] + 1 if len(beyond) and way.max() > 0 else 0)


def shift_weight(movement, style, top_s, impact_s, end_s):
    """The share of a swing: press, back, through, and on to the finish, laid over one another."""
    back_shape, through_shape, follow_shape = style.shapes
    press_s = 0.35 if style.press else 0
    if style.press:
        movement.shift(style.press, 0, press_s)
    back_from_s = 0.6 * press_s
    back_s = style.back_part * (top_s - back_from_s)
    turns_s = top_s - style.ahead * style.backswing_s
    arrives_s = max(impact_s + style.arrives_s, turns_s + 0.2)
    movement.shift(-style.back - style.press, back_from_s, back_s, back_shape)
    through = style.through - style.address + style.back
    movement.shift(through, turns_s, arrives_s - turns_s, through_shape)
    follow_from_s = impact_s - 0.04
    movement.shift(style.finish - style.through, follow_from_s, end_s - follow_from_s, follow_shape)


def move_mass(movement, style, top_s, impact_s, end_s):
    """The height of a swing's mass: arms go up, fall and push, and body and arms come up after."""
    movement.lift(style.lift_m, 0.02, top_s - 0.02)
    fall_from_s = top_s - 0.05
    lowest_s = max(impact_s - style.lowest_s, fall_from_s + 0.2)
    fall_s = lowest_s - fall_from_s
    fastest_push = 10 / 3**0.5  # of a minimum jerk, in way / time^2
    movement.lift(-style.push * 9.81 * fall_s**2 / fastest_push, fall_from_s, fall_s)
    rise_from_s = lowest_s - 0.08
    movement.lift(style.rise_m, rise_from_s, max(end_s - rise_from_s, 0.4))


def made_larger(movement):
    """A share that moves less than a swing's smallest, drawn apart to it about its start."""
    moved = np.ptp(movement.share)
    if moved < LEAST_POINTS:
        movement.share = movement.share[0] + (movement.share - movement.share[0]) * (
            LEAST_POINTS / moved)


def make_swing(rng, style, is_shot, slower=1.0):
    """A swing's movement from its onset through the finish that is held, and its truth."""
    top_s = style.backswing_s * slower + (0.2 if style.press else 0)
    impact_s = top_s + style.backswing_s * slower / style.ratio
    end_s = impact_s + style.follow_s * slower
    movement = Movement(end_s + style.hold_s, style.address)
    shift_weight(movement, style, top_s, impact_s, end_s)
    move_mass(movement, style, top_s, impact_s, end_s)
    made_larger(movement)
    first = samples(impact_s)
    settled = max(settled_from(movement.share, first), settled_from(movement.height_m, first))
    moved = float(np.ptp(movement.share))
    return movement, Swing(
        way=style.way, is_shot=is_shot,
        has_jolt=bool(rng.random() < (0.95 if is_shot else TURF_RIPPLES)),
        has_backswing=style.way != "no weight back", small=moved < SMALL_POINTS, moved=moved,
        onset_s=0.0, top_s=top_s, impact_s=impact_s, settled_s=settled / CURVE_HZ,
        end_s=max(end_s, settled / CURVE_HZ),
    )


def recover(rng, share, height_m, to_share):
    """From the finish back to a stance."""
    seconds = rng.uniform(0.8, 2.2)
    movement = Movement(seconds + 0.1, share)
    movement.shift(to_share - share, 0, seconds)
    movement.height_m += height_m * (1 - minimum_jerk(movement.t / seconds))
    return movement


def is_instant(share, lowest):
    """Whether the lowest share, at a sample, is an instant at which the share turns."""
    near = np.flatnonzero(share < share[lowest] + NEAR_POINTS)
    edge = samples(EDGE_S)
    return bool((near[-1] - near[0]) / CURVE_HZ <= MOMENT_S and edge < lowest < len(share) - edge)


def tell_truth(swing, motion, share):
    """Completes a swing's truth from the share 0 to 1 under the feet, sway and all."""
    del motion  # what was planned is told already
    points = 100 * share
    onset, impact, settled = (samples(at_s) for at_s in
                              (swing.onset_s, swing.impact_s, swing.settled_s))
    onset += 1  # plates.py wants a backswing of some time, be it half a millisecond
    way = points[onset:impact + 1]
    lowest = int(np.argmin(way))
    swing.lowest = float(way[lowest])
    swing.turnaround_s = (onset + lowest) / CURVE_HZ
    swing.has_one_turnaround = is_instant(way, lowest)
    swing.impact = float(points[impact])
    swing.address = float(points[onset - samples(ADDRESS_S):onset].mean())
    swing.finish = float(points[settled:settled + samples(FINISH_S)].mean())
