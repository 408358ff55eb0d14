"""The vertical load of a swing in body weights: lighter, a push around impact, lighter again.

Who starts and ends at rest got just the impulse of his weight from the ground (the reference
values, 7.1), so each push is paid for before and after it; where the payments lie tells how high
the mass ends. Peaks of 1.05 to 1.6 body weights: 1.2 to 1.6 are remembered of drivers there (9),
less with short irons.
"""
from dataclasses import dataclass

import numpy as np

from strokes import bump

GRAVITY = 9.80665  # m/s^2, ISO 80000-3
LEAST_LOAD = 0.35  # body weights; a swing that nearly jumps is none of the short game


@dataclass
class Push:
    """A push and what pays for it: heights in body weights, times in s from the onset."""

    height: float
    middle_s: float
    width_s: float
    before_s: float  # middle of the lighter spell before it
    before_width_s: float
    after_s: float
    after_width_s: float
    rise: float  # how much the mass ends higher, in parts of what the push could do
    arms: float  # body weights for lifting the arms in the backswing, and for stopping them


def payments(push):
    """Areas of the lighter spells before and after: no speed is left, and a wanted height."""
    area = push.height * push.width_s / 2
    span_s = push.after_s - push.before_s
    height = push.rise * area * span_s  # m over g
    before = (area * (push.after_s - push.middle_s) - height) / span_s
    return before, area - before


def loads(push, t, turn_s):
    """The load at the times `t`."""
    before, after = payments(push)
    load = 1 + push.height * bump(t, push.middle_s, push.width_s)
    load -= 2 * before / push.before_width_s * bump(t, push.before_s, push.before_width_s)
    load -= 2 * after / push.after_width_s * bump(t, push.after_s, push.after_width_s)
    lift_s = 0.45 * turn_s
    lift = bump(t, 0.5 * lift_s, lift_s) - bump(t, turn_s - 0.5 * lift_s, lift_s)
    return load + push.arms * lift


def any_push(rng, height, turn_s, impact_s, end_s):
    """A push of about this height that leaves the golfer on the ground."""
    while True:
        width_s = rng.uniform(0.16, 0.30)
        middle_s = impact_s + rng.uniform(-0.10, 0.03)
        before_width_s = rng.uniform(0.22, 0.40)
        after_width_s = rng.uniform(0.25, 0.50)
        push = Push(height, middle_s, width_s,
                    max(turn_s + rng.uniform(-0.08, 0.06), before_width_s / 2), before_width_s,
                    middle_s + 0.4 * width_s + rng.uniform(0.08, 0.2), after_width_s,
                    rng.uniform(-0.1, 0.25), rng.uniform(-0.01, 0.05))
        apart = push.middle_s - push.before_s > 0.10
        in_time = push.after_s + after_width_s / 2 <= end_s
        least = np.min(loads(push, np.arange(0, end_s, 0.01), turn_s))
        if apart and in_time and least > LEAST_LOAD:
            return push
