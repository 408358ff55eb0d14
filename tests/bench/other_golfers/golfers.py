"""Nine ways of swinging: the lead foot's share and the load of one swing, and when what happens.

Shares are in % and loads in body weights, both at CURVE_HZ; times in s from the onset of the swing.
Where numbers are drawn, their order is part of a seed's meaning: it may not change.
"""
from dataclasses import dataclass

import numpy as np
from scipy.interpolate import CubicSpline, PchipInterpolator

from curves import bell, even_stroke, hump, lag, stroke

CURVE_HZ = 2000.0


@dataclass
class Swing:
    """The plan of one swing: its instants, and the shares that it goes through."""

    way: str
    small: bool
    top_s: float
    turn_s: float  # the share turns back, at the top or a little before
    impact_s: float
    follow_s: float
    finish_s: float
    address: float
    shift: float  # how far the share goes to the trail foot
    impact: float
    finish: float
    push: float  # how much load the downswing adds, in body weights

    @property
    def turned(self):
        """The share at the turn."""
        return self.address - self.shift

    @property
    def forward(self):
        """How far the share comes forward from the turn to impact."""
        return self.impact - self.address + self.shift

    @property
    def through(self):
        """How far it goes on from impact to the finish."""
        return self.finish - self.impact


def plan_swing(rng, way, small, address):
    """Draws a swing that starts at the share `address`; a small one shifts 2 to 3 points only."""
    draw = rng.uniform
    top_s = draw(0.55, 1.0)
    impact_s = top_s + max(top_s / draw(2.0, 3.4), 0.2)
    follow_s = draw(0.45, 0.9)
    turn_s = top_s - draw(0, 0.12)
    shift = min(np.exp(draw(np.log(2.5), np.log(25))), address - 35)
    impact = min(max(address + draw(-3, 12), address - shift + 6), 93)
    finish = draw(80, 97)
    push = np.exp(draw(np.log(0.05), np.log(0.5)))
    if small:
        shift = draw(2, 3)
        impact = address + draw(-1, 3)
        finish = address + draw(2, 8)
        push = draw(0.05, 0.12)
        follow_s = draw(0.35, 0.6)
    if way == "no backswing":
        shift = 0
        impact = min(address + draw(4, 12), 92)
        finish = max(finish, impact)
    return Swing(way, small, top_s, turn_s, impact_s, follow_s, impact_s + follow_s,
                 address, shift, impact, finish, push)


def beta_strokes(rng, t, swing):
    """Three strokes that overlap, each quicker at one of its ends."""
    back = rng.choice([2.5, 3, 3.5, 4, 5], 2)
    early_s = rng.uniform(0.0, 0.18)
    share = swing.address - swing.shift * stroke(t, 0, swing.top_s * rng.uniform(0.95, 1.05), *back)
    down_s = swing.impact_s - swing.turn_s + early_s + rng.uniform(0, 0.1)
    down = rng.choice([2.5, 3, 4], 2)
    share = share + swing.forward * stroke(t, swing.turn_s - early_s, down_s, *down)
    start_s = swing.impact_s - rng.uniform(0, 0.1)
    return share + swing.through * stroke(t, start_s, swing.follow_s, 3, rng.uniform(3, 5))


def knots(rng, swing):
    """Instants and shares that a spline goes through."""
    down_s = swing.impact_s - swing.turn_s
    half_way_back = rng.uniform(0.4, 0.62)
    half_way_down = rng.uniform(0.4, 0.6)
    half_way_through = rng.uniform(0.6, 0.9)
    instants = [0, swing.turn_s * 0.5, swing.turn_s, swing.turn_s + down_s * 0.5, swing.impact_s,
                swing.impact_s + swing.follow_s * 0.45, swing.finish_s]
    shares = [swing.address, swing.address - swing.shift * half_way_back, swing.turned,
              swing.turned + swing.forward * half_way_down, swing.impact,
              swing.impact + swing.through * half_way_through, swing.finish]
    return instants, shares


def held_at_the_ends(curve, t, swing):
    """The curve of a spline, at rest before its first knot and after its last."""
    share = curve(np.clip(t, 0, swing.finish_s))
    return np.where(t < 0, swing.address, np.where(t > swing.finish_s, swing.finish, share))


def spline(rng, t, swing):
    """A cubic spline, which may overshoot its knots."""
    instants, shares = knots(rng, swing)
    return held_at_the_ends(CubicSpline(instants, shares, bc_type=((1, 0.0), (1, 0.0))), t, swing)


def monotone_spline(rng, t, swing):
    """A spline that never overshoots; a knot at either side makes its ends flat."""
    instants, shares = knots(rng, swing)
    instants = [-0.2] + instants + [swing.finish_s + 0.2]
    shares = [swing.address] + shares + [swing.finish]
    return held_at_the_ends(PchipInterpolator(instants, shares), t, swing)


def lags(rng, t, swing, order, stretch):
    """Each part of the swing is a step behind equal lags; `stretch` for their three constants."""
    back_s, down_s, through_s = (rng.uniform(*limits) * times for limits, times in
                                 zip(((0.14, 0.2), (0.035, 0.06), (0.08, 0.13)), stretch))
    down_start_s = swing.turn_s - rng.uniform(0.02, 0.08)
    rng.uniform()  # a draw that nothing uses, kept so that a seed stays the same lesson
    return (swing.address - swing.shift * lag(t, 0, swing.top_s * back_s, order)
            + swing.forward * lag(t, down_start_s, down_s, order)
            + swing.through * lag(t, swing.impact_s - 0.05, through_s, order))


def three_lags(rng, t, swing):
    """A swing behind three lags in a row, soft at its onset."""
    return lags(rng, t, swing, 3, (1.0, 1.0, 1.0))


def two_lags(rng, t, swing):
    """A swing behind two slower lags in a row, more sudden at its onset."""
    return lags(rng, t, swing, 2, (1.4, 1.3, 1.2))


def pendulum(rng, t, swing):
    """The body's place moves in strokes; the share is ahead of it by a part of its acceleration."""
    part_s2 = rng.uniform(0.008, 0.03)
    shift = swing.shift * 0.75
    forward = swing.impact - swing.address + shift
    down_s = swing.impact_s - swing.turn_s + 0.3
    place = (swing.address - shift * stroke(t, 0, swing.top_s * 1.05, 4, 4)
             + forward * stroke(t, swing.turn_s - 0.12, down_s, 4, 4)
             + swing.through * stroke(t, swing.impact_s - 0.05, swing.follow_s + 0.05, 4, 4))
    acceleration = np.gradient(np.gradient(place, 1 / CURVE_HZ), 1 / CURVE_HZ)
    return np.clip(place - part_s2 * acceleration * 0.5, 3, 99)


def even_speed(rng, t, swing):
    """Three strokes at even speed."""
    down_s = swing.impact_s - swing.turn_s + 0.04
    share = swing.address - swing.shift * even_stroke(t, 0, swing.turn_s, rng.uniform(0.25, 0.45))
    share = share + swing.forward * even_stroke(t, swing.turn_s, down_s, rng.uniform(0.25, 0.45))
    return share + swing.through * even_stroke(t, swing.impact_s - 0.02, swing.follow_s + 0.02,
                                               rng.uniform(0.3, 0.5))


def no_backswing(rng, t, swing):
    """The weight stays where it is until the downswing."""
    down_s = swing.impact_s - swing.turn_s + 0.05
    return (swing.address + (swing.impact - swing.address) * stroke(t, swing.turn_s, down_s, 3, 3)
            + swing.through * stroke(t, swing.impact_s - 0.05, swing.follow_s, 3, 4))


def pause_at_the_top(rng, t, swing):
    """The share rests at the turn for 0.06 to 0.2 s; what follows comes half of that later."""
    half_s = rng.uniform(0.06, 0.2) / 2
    down_s = swing.impact_s - swing.turn_s
    share = (swing.address - swing.shift * stroke(t, 0, swing.turn_s - half_s, 3, 3)
             + swing.forward * stroke(t, swing.turn_s + half_s, down_s, 3, 3))
    swing.top_s += half_s
    swing.impact_s += half_s
    swing.finish_s += half_s
    return share + swing.through * stroke(t, swing.impact_s - 0.05, swing.follow_s, 3, 3.5)


WAYS = {
    "beta strokes": beta_strokes,
    "spline": spline,
    "monotone spline": monotone_spline,
    "three lags": three_lags,
    "pendulum": pendulum,
    "even speed": even_speed,
    "no backswing": no_backswing,
    "pause at the top": pause_at_the_top,
    "two lags": two_lags,
}


def load_of(rng, t, swing):
    """The load of the swing in body weights: the push before impact, and what answers to it."""
    shape = hump if rng.random() < 0.5 else bell
    push, impact_s = swing.push, swing.impact_s
    ahead_s = np.clip(rng.normal(0.07, 0.02), 0.02, 0.13)
    behind_s = np.clip(rng.normal(0.08, 0.025), 0.03, 0.15)
    rise_s, fall_s = rng.uniform(0.16, 0.3), rng.uniform(0.1, 0.18)
    load = 1 + push * shape(t, impact_s - ahead_s, rise_s, fall_s)
    unweighting = push * rng.uniform(0.5, 1.0)
    load = load - unweighting * shape(t, impact_s + behind_s, fall_s, rng.uniform(0.18, 0.35))
    landing = push * rng.uniform(0.05, 0.3)
    load = load + landing * shape(t, impact_s + behind_s + rng.uniform(0.2, 0.35), 0.2, 0.3)
    transition = rng.uniform(0, 0.35) * push
    load -= transition * shape(t, swing.top_s - 0.05, 0.15, 0.15)
    half_s = swing.top_s * 0.45
    load += rng.uniform(-0.02, 0.03) * push / 0.3 * shape(t, half_s, half_s, half_s)
    return load


def make_swing(rng, way, small, address):
    """One swing: its plan, times from 1 s before its onset on, shares, loads (arrays as long)."""
    swing = plan_swing(rng, way, small, address)
    t = np.arange(-int(CURVE_HZ), int((swing.finish_s + 3.0) * CURVE_HZ)) / CURVE_HZ
    share = WAYS[way](rng, t, swing)
    return swing, t, share, load_of(rng, t, swing)
