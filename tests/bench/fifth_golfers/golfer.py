"""Who swings: what is drawn once for a golfer, and how it wavers from swing to swing.

Sources: weight onto the front foot or back again ("reverse") after Ball & Best (CoP clusters, 40
golfers); addresses with 42 to 51 % on the back foot after Robinson 1994 in Ball's review; tempo of
2 to 3.4 to 1 after Grober & Cholewicki (2.5 to 3.5, professionals) and common practice for
shortened swings (2 to 3 to 1); weight going ahead of the club sooner with skill after Okuda et al
2010; little wavering of times after Gryc et al 2019. Total loads of 1.2 to 1.6 body weights with a
driver are from memory; a shortened swing stays below. Shares of wedge swings have no source.
"""
from dataclasses import dataclass, replace
from typing import Callable

from fifth_golfers.shapes import draw_shape

WAYS = {"onto the front foot": 0.35, "reverse": 0.13, "leaning on the lead foot": 0.2,
        "hardly moving": 0.22, "no weight back": 0.1}
# Points of each way: address, back, through at impact or so, finish less through.
POINTS = {
    "onto the front foot": ((44, 58), (6, 24), (66, 92), (-4, 12)),
    "reverse": ((44, 58), (6, 24), (58, 70), (-18, -6)),
    "leaning on the lead foot": ((57, 72), (2, 9), (74, 92), (-6, 6)),
    "no weight back": ((56, 70), (-4, 0), (74, 92), (-6, 6)),
}
HARDLY_BACK, HARDLY_THROUGH, HARDLY_AFTER = (0.4, 2.6), (0.6, 3.0), (-0.8, 1.2)
PUSH = {"hardly moving": (0.03, 0.16)}  # of the downswing, in body weights
OTHER_PUSH = (0.08, 0.36)
DOWNSWING_S = (0.22, 0.42)
LEAST_SHARE = 20  # trail shares of 60 to 85 are from memory of full swings


@dataclass
class Style:
    """How a golfer swings a club one length."""

    way: str
    address: float
    back: float  # points to the trail foot; negative where they go to the lead foot
    through: float  # share that the weight is thrown to
    finish: float
    press: float  # points of a forward press that starts the swing; 0 for none
    backswing_s: float
    ratio: float
    back_part: float  # of the backswing in which the weight goes back
    ahead: float  # of the backswing that the weight turns before the club; negative: pauses
    arrives_s: float  # the weight is through so long after impact
    follow_s: float  # from impact to the end
    lift_m: float  # of the body's mass in the backswing
    push: float
    lowest_s: float  # the mass is lowest so long before impact
    rise_m: float
    hold_s: float
    shapes: tuple[Callable, Callable, Callable]


def draw_tempo(rng):
    """Time of a backswing, and how many times a downswing it lasts."""
    while True:
        backswing_s, ratio = rng.uniform(0.5, 1.05), rng.uniform(2.0, 3.4)
        if DOWNSWING_S[0] < backswing_s / ratio < DOWNSWING_S[1]:
            return backswing_s, ratio


def draw_style(rng, way):
    """A style of one way."""
    backswing_s, ratio = draw_tempo(rng)
    if way == "hardly moving":
        address = rng.uniform(46, 68)
        back = rng.uniform(*HARDLY_BACK)
        through = address + rng.uniform(*HARDLY_THROUGH)
        finish = through + rng.uniform(*HARDLY_AFTER)
    else:
        address, back, through, after = (rng.uniform(*span) for span in POINTS[way])
        finish = min(through + after, 97)
    return Style(
        way=way, address=address, back=back, through=through, finish=finish,
        press=rng.uniform(0.5, 2) if way != "no weight back" and rng.random() < 0.12 else 0,
        backswing_s=backswing_s,
        ratio=ratio,
        back_part=rng.uniform(0.75, 1.0),
        ahead=rng.uniform(-0.3, -0.1) if rng.random() < 0.1 else rng.uniform(-0.05, 0.25),
        arrives_s=rng.uniform(-0.1, -0.03) if way == "reverse" else rng.uniform(-0.06, 0.28),
        follow_s=rng.uniform(0.4, 0.95),
        lift_m=rng.uniform(0.006, 0.03),
        push=rng.uniform(*PUSH.get(way, OTHER_PUSH)),
        lowest_s=rng.uniform(-0.02, 0.09),
        rise_m=rng.uniform(0.008, 0.045),
        hold_s=rng.uniform(0.8, 3.0),
        shapes=(draw_shape(rng, 0.1), draw_shape(rng, 0.2), draw_shape(rng, 0.35)),
    )


class Golfer:
    """One way of swinging in one to three lengths, and habits between the swings."""

    def __init__(self, rng):
        way = rng.choice(list(WAYS), p=list(WAYS.values()))
        self.styles = [draw_style(rng, way)]
        for _ in range(rng.integers(0, 3)):
            self.styles.append(self.other_length(rng))
        self.practises = rng.uniform(0.15, 0.5)  # part of the swings without a ball
        self.waggles = rng.choice([0, 0.5, 0.9])  # how often before a swing
        self.patience_s = rng.uniform(0.7, 2.2)  # of standing still before a swing, and more

    def other_length(self, rng):
        """The first style with the club swung further or less far; tempo changes little."""
        first = self.styles[0]
        size = rng.uniform(0.7, 1.3)
        return replace(
            first,
            back=min(first.back * size, first.address - LEAST_SHARE),
            backswing_s=first.backswing_s * (1 + 0.3 * (size - 1)),
            lift_m=first.lift_m * size,
            push=min(first.push * size, OTHER_PUSH[1]),
        )


def wavered(rng, style, is_shot):
    """A style as one swing does it: 4 % in times, a point or so in shares, less with no ball."""
    def times(value, spread):
        return value * (1 + rng.normal(0, spread))

    points = min(1.2, 0.15 * (style.back + style.through - style.address))
    stance = rng.normal(0, 1)
    effort = 1 if is_shot else rng.uniform(0.8, 1.05)
    return replace(
        style,
        address=style.address + stance,
        through=min(style.through + stance + rng.normal(0, points), 97),
        finish=min(style.finish + stance + rng.normal(0, points), 98),
        back=style.back + rng.normal(0, points) * (style.back > 0) * 0.7,
        backswing_s=times(style.backswing_s, 0.04) / effort**0.5,
        ratio=times(style.ratio, 0.04),
        push=times(style.push, 0.1) * effort,
        lift_m=times(style.lift_m, 0.1),
        rise_m=times(style.rise_m, 0.1),
        follow_s=times(style.follow_s, 0.06),
        hold_s=max(times(style.hold_s, 0.15), 0.6),
    )
