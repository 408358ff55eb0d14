"""Eight kinds of people: each moves the share by a formula of its own.

Each gets the times `t` from takeaway, a swing `c` and a person `p`, and gives the share minus that
at address and the acceleration of the trunk in g. Of the swing (swing.py): t_top, t_hit, down,
t_rest in s, when the arms are at the top, at the ball, how long they take, at rest; dip, at_hit,
at_rest: points that the share loses and gains; travel of the trunk, m; size; arm and its angles at
the top and at rest. Of the person: habit and quirk, 0 to 1.
"""
import numpy as np
from scipy.interpolate import PchipInterpolator

from examiners.thirteenth.motion import late_mean, muscle, step, step_acceleration, trunk


def through_knots(t, c, times, shares):
    """A curve that overshoots none of its knots."""
    return PchipInterpolator(times, shares)(np.minimum(t, c.t_rest + 0.5))


def turner(t, c, p):
    """Good pupil: turns over the lead leg, comes back before the club does, sits and stands up."""
    back = p.habit * c.t_top
    share = -c.dip * step(t, 0, 0.75 * c.t_top)
    share = share + (c.dip + c.at_hit) * step(t, back, c.t_hit + 0.05 - back)
    share += (c.at_rest - c.at_hit) * step(t, c.t_hit - 0.04, 0.45 + 0.2 * p.quirk)
    return share, trunk(
        t,
        (0.75 * c.t_top, 0.25 * c.t_top + 0.55 * c.down, -c.travel),
        (c.t_top + 0.25 * c.down, 0.75 * c.down + 0.14, 1.2 * c.travel),
    )


def swayer(t, c, p):
    """The hips slide; the ground pushes ahead of the body (inverted pendulum), lead foot first."""
    press = 0.010 + 0.014 * p.quirk
    share = sum(
        points * (step(t, start, length) - press * step_acceleration(t, start, length))
        for start, length, points in (
            (0, 0.95 * c.t_top, -c.dip),
            (p.habit * c.t_top, c.down + 0.45 + 0.2 * p.quirk, c.dip + c.at_rest),
        )
    )
    return late_mean(share, 45, 25), trunk(
        t,
        (0, c.t_top, 0.3 * c.travel),
        (0.9 * c.t_top, 0.1 * c.t_top + 0.8 * c.down, -c.travel),
        (c.t_top + 0.3 * c.down, 0.4 + c.down, 0.9 * c.travel),
    )


def hanger(t, c, p):
    """Stays behind the ball until after impact, then falls on to the lead foot: a late peak."""
    some = (0.35 + 0.5 * p.quirk) * c.dip
    share = -c.dip * muscle(t, 0, 0.11 + 0.05 * p.habit)
    share = share + some * muscle(t, c.t_top + (0.3 * p.quirk - 0.1) * c.down, 0.09)
    falling = muscle(t, c.t_hit + 0.06 * p.habit, 0.10 + 0.05 * p.quirk)
    share += (c.at_rest + c.dip - some) * falling
    return share, trunk(
        t,
        (c.t_top + 0.5 * c.down, 0.34, -c.travel),
        (c.t_hit + 0.06, 0.42, 0.8 * c.travel),
    )


def early_pusher(t, c, p):
    """Light and springy: forward before the top, most half-way down, off the ground at impact."""
    knots = (
        (-0.1, 0),
        (0, 0),
        (0.25 * c.t_top, -0.65 * c.dip),
        ((0.5 + 0.2 * p.habit) * c.t_top, -c.dip),
        (c.t_top, -0.2 * c.dip),
        (c.t_top + 0.55 * c.down, c.at_hit + (3 + 5 * p.quirk) * c.size),
        (c.t_hit + 0.02, c.at_hit),
        (c.t_hit + 0.25, 0.6 * c.at_hit + 0.4 * c.at_rest),
        (c.t_rest, c.at_rest),
        (c.t_rest + 1, c.at_rest),
    )
    return through_knots(t, c, *zip(*knots)), trunk(
        t,
        (0.4 * c.t_top, 0.55 * c.t_top, -c.travel),
        (c.t_top - 0.05, c.down + 0.04, 1.3 * c.travel),
        (c.t_hit - 0.10, 0.5, -0.5 * c.travel),
    )


def late_pusher(t, c, p):
    """Drifts back evenly, waits half the downswing, then throws the weight across at the ball."""
    half = 0.12 + 0.07 * p.habit
    over = 1.5 * c.size
    share = -c.dip * late_mean(np.clip(t / (0.5 * c.t_top), 0, 1), 70, 50)
    thrown = step(t, c.t_hit - half + 0.05 * (p.quirk - 0.6), 2 * half)
    share += (c.dip + c.at_rest + over) * thrown - over * step(t, c.t_hit + 0.2, 0.4)
    return share, trunk(
        t,
        (0.2 * c.t_top, 0.7 * c.t_top, 0.4 * c.travel),
        (c.t_top, c.down * 0.9, -0.7 * c.travel),
        (c.t_hit - 0.14, 0.34, 0.8 * c.travel),
    )


def quiet_body(t, c, p):
    """Lower body like a post: the share only follows where the arms are, a little late."""
    back, through = c.dip * c.arm / c.arm_top, c.at_rest * c.arm / c.arm_rest
    lean = np.where(c.arm < 0, back, through)
    share = late_mean(lean, 30 + int(40 * p.habit), 40)
    return share, trunk(t, (c.t_top, c.down + 0.3, 0.15 * c.travel))


def heavy(t, c, p):
    """Back in two stages, through in one piece; rocks on the lead foot before standing still."""
    share = -0.6 * c.dip * step(t, 0, 0.42 * c.t_top)
    share = share - 0.4 * c.dip * step(t, 0.5 * c.t_top, 0.5 * c.t_top)
    through = (c.dip + c.at_hit) * step(t, 0.96 * c.t_top, 1.15 * c.down)
    share += through + (c.at_rest - c.at_hit) * step(t, c.t_hit, 0.5)
    after = np.maximum(t - c.t_hit - 0.3, 0)
    rocking = (1 + 2.5 * p.quirk) * c.size * step(after, 0, 0.3) * np.exp(-after / 0.32)
    share += rocking * np.sin(2 * np.pi * (0.9 + 0.5 * p.habit) * after)
    return share, trunk(
        t,
        (0.9 * c.t_top, 0.1 * c.t_top + 0.7 * c.down, -0.7 * c.travel),
        (c.t_top + 0.4 * c.down, 0.6 * c.down + 0.25, 0.8 * c.travel),
    )


def stacker(t, c, p):
    """Presses forward from the first moment on and never goes back: no turnaround."""
    knots = (
        (-0.1, 0),
        (0, 0),
        (c.t_top * (0.75 + 0.2 * p.habit), 0.55 * c.at_hit),
        (c.t_hit, c.at_hit),
        (c.t_rest, c.at_rest),
        (c.t_rest + 1, c.at_rest),
    )
    return through_knots(t, c, *zip(*knots)), trunk(
        t,
        (0.1 * c.t_top, 0.8 * c.t_top, -0.5 * c.travel),
        (c.t_top + 0.1 * c.down, c.down + 0.1, 0.9 * c.travel),
    )
