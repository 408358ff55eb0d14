"""Swings: the motion of one, and what is true of it."""
from dataclasses import dataclass

import numpy as np
from plates import CURVE_HZ
from scipy.interpolate import BPoly

from body import Act, fade, stroke

READY_S = 0.5  # of standing before a swing that belongs to its act: a movement may precede the club
MOVES_M = 0.002  # a centre of mass that moves less in the backswing begins nothing
ONGOING_S = 0.35  # of setting a foot anew falls into the follow-through
REST_S = 0.1  # of rest after it
PRESS_S = 0.45  # a forward press takes so long, and as long to be undone
FALL_S = 1.3
SMALL = 5.0  # a swing that moves the share by fewer points is a small one
GOES_BACK = 1.0  # points to the trail side from which on weight goes back at all
PAUSE_POINTS, PAUSE_S = 0.3, 0.15  # lowest for longer than this is no instant
TWIN_POINTS, TWIN_S = 1.0, 0.1  # nor is it, where there is as low a place elsewhere
HELD_POINTS = 1.0  # what is left to do when it is no more than people sway


@dataclass
class Swing:
    """One swing; what stands after `end_s` is told when the share under the feet is known."""

    way: str
    is_shot: bool
    has_jolt: bool
    has_press: bool
    onset_s: float  # the first movement of club or body
    top_s: float
    impact_s: float
    end_s: float  # all movement over
    level_s: float  # from here on the load stays at body weight
    triggered: bool = False
    small: bool = False
    has_backswing: bool = True
    has_one_turnaround: bool = True
    turnaround_s: float = 0.0
    settled_s: float = 0.0
    address: float = 0.0
    lowest: float = 0.0
    impact: float = 0.0
    finish: float = 0.0


@dataclass
class Plan:
    """When what happens in the act of a swing."""

    club_s: float
    body_s: float
    top_s: float
    impact_s: float
    end_s: float


def plan_of(style, more_s):
    """The times of a swing; `more_s` is spent on the feet after it."""
    club_s = READY_S
    body_s = club_s + style.back_late_s
    top_s = club_s + style.backswing_s
    impact_s = top_s + style.downswing_s
    forward_end_s = top_s - style.forward_early_s + style.forward_s
    wobble_s = 1.4 if style.wobble_m > 0 else 0
    end_s = max(impact_s + style.follow_s + wobble_s, forward_end_s + wobble_s,
                impact_s + (FALL_S if style.fall_m > 0 else 1.05))
    end_s += max(0, more_s - ONGOING_S)
    return Plan(club_s, body_s, top_s, impact_s, end_s)


def turn_arms(act, style, plan, rng):
    """Club and arms: back, down through the ball at impact, and as far round as that carries.

    Speed and acceleration have no step: what brakes the backswing begins the downswing.
    """
    way_rad, down_s, follow_s = style.top_rad, style.downswing_s, style.follow_s
    at_ball = rng.uniform(1.65, 1.95) * way_rad / down_s  # rad/s; an even pull would give 2
    at_top = style.hurry * way_rad / down_s**2
    letting_go = -rng.uniform(0, 0.5) * way_rad / down_s**2
    knots_s = [plan.club_s, plan.top_s, plan.impact_s, plan.impact_s + follow_s]
    turns = [[0, 0, 0], [-way_rad, 0, at_top], [0, at_ball, letting_go],
             [0.42 * at_ball * follow_s, 0, 0]]
    path = BPoly.from_derivatives(knots_s, turns)
    act.arm_rad += path(np.clip(act.t, knots_s[0], knots_s[-1]))


def turn_trunk(act, style, plan):
    """Back with the club, turning before it does, and on until the follow-through."""
    back_s = plan.club_s + style.trunk_late_s
    forth_s = plan.top_s - 0.5 * style.downswing_s
    lasts_s = plan.impact_s + 0.5 * style.follow_s - forth_s
    act.trunk_rad -= style.trunk_rad * stroke(act.t, back_s, plan.top_s - back_s)
    act.trunk_rad += 1.6 * style.trunk_rad * stroke(act.t, forth_s, lasts_s)


def move_body(act, body, style, plan):
    """The centre of mass: to the trail side or not, to where the finish is, and up."""
    t = act.t
    act.com_m -= style.back_m * stroke(t, plan.body_s, plan.top_s - plan.body_s)
    way_m = body.place_m(style.finish) - body.place_m(style.address) + style.back_m
    act.com_m += way_m * stroke(t, plan.top_s - style.forward_early_s, style.forward_s)
    act.com_m += style.press_m * fade(t, plan.club_s - PRESS_S, plan.club_s + PRESS_S, PRESS_S)
    act.com_m -= style.fall_m * stroke(t, plan.impact_s - 0.1, FALL_S)
    act.rise_m -= style.dip_m * stroke(t, plan.top_s - 0.3, 0.35)
    act.rise_m += style.drive_m * stroke(t, plan.impact_s - style.drive_early_s, style.drive_s)
    back_m = style.dip_m - style.drive_m
    act.rise_m += back_m * stroke(t, plan.impact_s + 0.25, 0.75)


def come_to_rest(act, style, plan, steps_s):
    """The lead foot rolls, balance is sought, a foot may be set anew."""
    t = act.t
    act.press -= style.roll * stroke(t, plan.impact_s, style.follow_s)
    since_s = np.maximum(t - plan.impact_s - 0.3, 0)
    going = stroke(t, plan.impact_s + 0.3, 0.5)
    going -= stroke(t, max(plan.end_s - abs(steps_s) - 0.6, plan.impact_s + 0.8), 0.6)
    act.com_m += style.wobble_m * np.sin(2 * np.pi * 0.8 * since_s) * np.exp(-since_s) * going
    if steps_s:
        act.press += np.sign(steps_s) * fade(t, plan.end_s - abs(steps_s), plan.end_s, 0.22)


def swing_act(rng, body, style, steps=False):
    """The act of one swing and its plan; at its end the arms stay where they went."""
    steps_s = rng.choice([-1, 1]) * rng.uniform(0.5, 0.8) if steps else 0  # above 0: trail foot
    plan = plan_of(style, abs(steps_s))
    act = Act(plan.end_s + REST_S, body.place_m(style.address))
    turn_arms(act, style, plan, rng)
    turn_trunk(act, style, plan)
    move_body(act, body, style, plan)
    come_to_rest(act, style, plan, steps_s)
    return act, plan


def swing_of(plan, style, load, starts_s, is_shot, has_jolt):
    """The swing that begins with its act, of a load in body weights, at a time of the lesson."""
    first_s = min(plan.club_s, plan.club_s + style.trunk_late_s)
    if abs(style.back_m) > MOVES_M:
        first_s = min(first_s, plan.body_s)
    if style.press_m > 0:
        first_s = min(first_s, plan.club_s - PRESS_S)
    return Swing(way=style.way, is_shot=is_shot, has_jolt=has_jolt, has_press=style.press_m > 0,
                 onset_s=starts_s + first_s, top_s=starts_s + plan.top_s,
                 impact_s=starts_s + plan.impact_s, end_s=starts_s + plan.end_s,
                 level_s=starts_s + rests_from(100 * load) / CURVE_HZ)


def tell_truth(swing, motion, share):
    """Completes a swing from the share under the feet, 0 to 1, without sway and with it."""
    onset, impact, end = (int(round(time_s * CURVE_HZ))
                          for time_s in (swing.onset_s, swing.impact_s, swing.end_s))
    half = int(CURVE_HZ / 2)
    back = 100 * share[onset:impact + 1]
    planned = 100 * motion[onset:impact + 1]
    swing.address = 100 * share[onset - half:onset].mean()
    swing.lowest = back.min()
    swing.impact = back[-1]
    swing.small = 100 * np.ptp(motion[onset:end]) < SMALL
    goes_back = planned[0] - planned.min() >= GOES_BACK
    swing.has_backswing = goes_back and not swing.has_press
    swing.has_one_turnaround = goes_back and is_instant(planned)
    lowest = back.argmin()
    swing.turnaround_s = (onset + lowest) / CURVE_HZ if swing.has_one_turnaround else swing.top_s
    settled = max(impact + rests_from(100 * motion[impact:end]), int(swing.level_s * CURVE_HZ))
    swing.settled_s = settled / CURVE_HZ
    swing.finish = 100 * share[settled:settled + half].mean()


def is_instant(points):
    """Whether a curve is lowest at one instant, and turns there."""
    lowest = points.argmin()
    if lowest == len(points) - 1:
        return False
    at = np.arange(len(points)) / CURVE_HZ
    low = points < points[lowest] + PAUSE_POINTS
    if np.ptp(at[low]) > PAUSE_S:
        return False
    dips = 1 + np.flatnonzero((points[1:-1] < points[:-2]) & (points[1:-1] <= points[2:]))
    twins = (points[dips] < points[lowest] + TWIN_POINTS) & (abs(at[dips] - at[lowest]) > TWIN_S)
    return not twins.any()


def rests_from(points):
    """The index from which on 98 % of the way to a curve's end are done and stay done."""
    away = abs(points - points[-1])
    moving = np.flatnonzero(away > max(0.02 * away.max(), HELD_POINTS))
    return int(moving[-1]) + 1 if len(moving) else 0
