"""Golfers: build, swing, routine. One golfer a lesson, whose swings are alike.

The ranges are from the trade (common practice, no source) and from what is published: lead share at
address and at impact, and the front foot and the reverse style (Ball and Best 2007), tempo (Grober
and Cholewicki 2006), peaks of vertical load of a wedge swing up to 1.6 body weights.
"""
from dataclasses import dataclass, field, replace

import numpy as np

from body import Body

LENGTHS_RAD = {"half": (0.9, 1.4), "three-quarter": (1.5, 2.0), "full": (2.0, 2.5)}


@dataclass
class Style:
    """How a golfer swings; every swing is one with its numbers a little off."""

    way: str
    address: float  # shares 0 to 1
    finish: float
    back_m: float  # of the centre of mass, to the trail side in the backswing
    back_late_s: float  # after the club; below 0 before it
    top_rad: float
    trunk_rad: float  # how far the trunk turns back
    trunk_late_s: float  # after the club
    hurry: float  # of the club's turning at the top: 0 pauses there, 1.4 is snatched
    backswing_s: float
    downswing_s: float
    follow_s: float
    forward_early_s: float  # the centre of mass starts forward before the top
    forward_s: float
    dip_m: float  # the legs bend before the top
    drive_m: float  # and stretch before impact
    drive_early_s: float  # the stretch starts so long before impact: it ends in lightness after it
    drive_s: float
    wobble_m: float  # balance sought in the finish
    roll: float  # of the share, given back as the lead foot rolls to its outside
    press_m: float  # forward press before the club moves
    fall_m: float = 0.0  # back from the ball after a bad strike


@dataclass
class Golfer:
    """Everything about one golfer."""

    body: Body
    styles: list  # one or two lengths of swing
    still_s: tuple  # at address before a swing, range
    hold_s: tuple  # of a finish, range
    practice: float  # swings of ten that hit no ball
    brushes: float  # practice swings of ten that take turf
    falls_back: float  # of a bad strike, chance
    steps_through: float  # chance that a foot is set anew after the swing
    leaves: float  # chance to step off after a swing
    before: list = field(default_factory=list)  # names of the acts of a routine
    between: list = field(default_factory=list)  # names of acts that may come


# way of swinging: finish share; back_m in cm; share of the arms' inertia; drive in cm
WAYS = {
    "quiet": ((0.75, 0.93), (-0.2, 0.8), (0.6, 1.1), (0.5, 4)),
    "shifter": ((0.75, 0.95), (0.8, 3.0), (0.6, 1.2), (0.5, 4)),
    "stacker": ((0.80, 0.97), (-2.2, -0.3), (0.5, 1.0), (0.5, 4)),
    "reverse": ((0.35, 0.60), (0.3, 2.5), (0.5, 1.0), (0.5, 3)),
    "armsy": ((0.0, 0.08), (-0.3, 0.5), (0.12, 0.45), (0, 1)),
    "jumper": ((0.70, 0.95), (0.0, 1.5), (0.5, 1.0), (4, 9)),
    "recoiler": ((0.50, 0.75), (0.0, 2.0), (0.7, 1.2), (0.5, 4)),
}
CHANCES = (0.24, 0.22, 0.15, 0.09, 0.10, 0.12, 0.08)
BEFORE = ("waggle", "look at the target", "shuffle of the feet", "rock from foot to foot",
          "takeaway rehearsal", "taps of the club", "settling")
BETWEEN = ("bend for a ball", "look at the target", "lean on the club", "squat", "hop",
           "taps at the shoes", "rock from foot to foot", "slow rehearsal", "takeaway rehearsal",
           "waggle", "someone's foot on the plates", "taps of the club", "stamp", "turn to talk")


def some_build(rng, inertia):
    """A body; inertia tells how much of the arms' turning reaches the ground."""
    return Body(height_m=rng.uniform(0.85, 1.08), stance_m=rng.uniform(0.22, 0.42),
                turning_m2=0.013 * inertia, trunk_m2=0.012 * min(inertia, 1),
                reach_m=0.03 * min(inertia, 0.7) * rng.uniform(0.5, 1.1))


def some_style(rng, way, length):
    """A way of swinging of one length, in one golfer's numbers."""
    finish, back_cm, _, drive_cm = WAYS[way]
    address = rng.uniform(0.50, 0.80)
    downswing_s = rng.uniform(0.22, 0.40)
    rest = rng.uniform(*finish)
    if finish[0] > 0.65:
        rest = max(rest, min(0.97, address + rng.uniform(0.03, 0.15)))
    backswing_s = np.clip(downswing_s * rng.uniform(2.3, 3.7), 0.6, 1.15)
    return Style(
        way=way, address=address,
        finish=address + rest * rng.choice([-0.4, 1]) if way == "armsy" else rest,
        back_m=rng.uniform(*back_cm) / 100, back_late_s=rng.uniform(-0.1, 0.2),
        top_rad=rng.uniform(*LENGTHS_RAD[length]),
        trunk_rad=rng.uniform(0.3, 1.4), trunk_late_s=rng.uniform(-0.05, 0.15),
        hurry=rng.uniform(0.3, 1.4), backswing_s=backswing_s, downswing_s=downswing_s, follow_s=rng.uniform(0.40, 0.75),
        forward_early_s=rng.uniform(0.15, 0.60), forward_s=rng.uniform(0.8, 1.3),
        dip_m=rng.uniform(0, 0.03), drive_m=rng.uniform(*drive_cm) / 100,
        drive_early_s=rng.uniform(0.14, 0.26), drive_s=rng.uniform(0.28, 0.42),
        wobble_m=rng.choice([0, rng.uniform(0.002, 0.008)]), roll=rng.uniform(0, 0.05),
        press_m=rng.uniform(0.002, 0.006) if rng.random() < 0.12 else 0)


def some_way(rng):
    """A way of swinging, the frequent ones more often."""
    return str(rng.choice(list(WAYS), p=CHANCES))


def some_golfer(rng, way):
    """A golfer with a routine; the lengths of swing differ in length alone."""
    body = some_build(rng, rng.uniform(*WAYS[way][2]))
    style = some_style(rng, way, str(rng.choice(list(LENGTHS_RAD), p=(0.5, 0.35, 0.15))))
    styles = [style]
    if rng.random() < 0.4:
        factor = rng.uniform(0.6, 0.8)
        styles.append(replace(
            style, top_rad=style.top_rad * factor, trunk_rad=style.trunk_rad * factor,
            drive_m=style.drive_m * factor, back_m=style.back_m * factor))
    still_s, hold_s = rng.uniform(0.4, 1.5), rng.uniform(0.5, 2.5)
    return Golfer(
        body=body, styles=styles, still_s=(still_s, still_s + rng.uniform(0.2, 1.5)),
        hold_s=(hold_s, hold_s + rng.uniform(0.2, 1.5)), practice=rng.choice([0, 0.3, 0.5]),
        brushes=rng.uniform(0, 0.7), falls_back=rng.choice([0, 0.05, 0.2]),
        steps_through=rng.choice([0, 0, 0, 0.5]), leaves=rng.uniform(0, 0.4),
        before=[str(name) for name in rng.choice(BEFORE, rng.integers(0, 4), replace=False)],
        between=[str(name) for name in rng.choice(BETWEEN, rng.integers(4, 9), replace=False)])


def one_swing(rng, style):
    """The style as one swing has it: times off by some 3 %, lengths by some 6 %."""
    def off(value, part):
        return value * np.exp(part * rng.normal())
    return replace(
        style, address=np.clip(style.address + 0.012 * rng.normal(), 0.45, 0.85),
        finish=np.clip(style.finish + 0.02 * rng.normal(), 0.2, 0.97),
        back_m=off(style.back_m, 0.15), back_late_s=style.back_late_s + 0.015 * rng.normal(),
        top_rad=off(style.top_rad, 0.05), trunk_rad=off(style.trunk_rad, 0.06),
        trunk_late_s=style.trunk_late_s + 0.01 * rng.normal(), hurry=off(style.hurry, 0.1),
        backswing_s=off(style.backswing_s, 0.03),
        downswing_s=off(style.downswing_s, 0.025), follow_s=off(style.follow_s, 0.06),
        forward_early_s=style.forward_early_s + 0.015 * rng.normal(),
        forward_s=off(style.forward_s, 0.04), dip_m=off(style.dip_m, 0.15),
        drive_m=off(style.drive_m, 0.1), drive_early_s=style.drive_early_s + 0.008 * rng.normal(),
        wobble_m=off(style.wobble_m, 0.3), press_m=off(style.press_m, 0.3))
