"""What golfers do between swings with both feet down. None of it is a swing.

Each function takes a random generator and the share that the golfer stands with, and gives a
movement that ends as it began, or nearly so. Unless a source is named, sizes and times are guesses
of what people do, kept within what a body can.
"""
import numpy as np

from fifth_golfers.movement import Movement
from fifth_golfers.shapes import draw_shape, spell

STILL_S = 0.3  # before and after


def to_and_fro(rng, movement, targets, seconds):
    """Reaches from target to target, points from the stance, each in a time of a span."""
    at_s, at = STILL_S, 0.0
    for target in targets:
        takes_s = rng.uniform(*seconds)
        movement.shift(target - at, at_s, takes_s, draw_shape(rng, 0.3, 0.1))
        at, at_s = target, at_s + takes_s
    return at_s


def waggle(rng, share):
    """The club goes back and forth over the ball from the wrists; hands and share follow."""
    hertz, cycles = rng.uniform(0.8, 2.0), rng.integers(2, 6)
    lasts_s = cycles / hertz
    movement = Movement(lasts_s + 2 * STILL_S, share)
    t = movement.t
    window = spell(t, STILL_S, STILL_S + lasts_s, min(0.4, 0.3 * lasts_s))
    phase = 2 * np.pi * hertz * (t - STILL_S)
    movement.share += rng.uniform(0.3, 1.8) * np.sin(phase) * window
    movement.height_m += rng.uniform(0.0005, 0.002) * np.sin(phase + rng.uniform(0, 6)) * window
    return movement


def rock(rng, share):
    """From foot to foot, to find the stance or out of boredom."""
    cycles, size = rng.integers(2, 6), rng.uniform(2, 22)
    movement = Movement(2 * cycles * 1.4 + 2, share)
    targets = [side * size * rng.uniform(0.6, 1.1) for _ in range(cycles) for side in (-1, 1)]
    if rng.random() < 0.5:
        targets = [-target for target in targets]
    to_and_fro(rng, movement, targets + [0], (0.45, 1.3))
    bob_m = rng.uniform(0, 0.004)
    movement.height_m += bob_m * spell(movement.t, STILL_S, 2 * cycles * 0.9, 0.7)
    return movement


def bend(rng, share):
    """Down for a ball or a tee and up again: the mass goes down by a hand or two."""
    down_s, stays_s, up_s = rng.uniform(0.6, 1.3), rng.uniform(0.3, 2.0), rng.uniform(0.7, 1.4)
    movement = Movement(down_s + stays_s + up_s + 1.0, share)
    depth_m = rng.uniform(0.07, 0.22) * min(1, down_s / 0.9)
    up_from_s = STILL_S + down_s + stays_s
    movement.lift(-depth_m, STILL_S, down_s)
    movement.lift(depth_m, up_from_s, up_s)
    on_one_leg = rng.random() < 0.25  # the trail leg goes up behind
    points = rng.uniform(0.85, 1) * (99 - share) if on_one_leg else rng.uniform(-18, 18)
    movement.shift(points, STILL_S, down_s, draw_shape(rng))
    movement.shift(-points, up_from_s, up_s * rng.uniform(0.8, 1.2), draw_shape(rng))
    return movement


def fidget(rng, share):
    """A quick way there and back (Duarte & Zatsiorsky 1999, Motor Control 3:28, from memory)."""
    movement = Movement(3.5, share)
    points = rng.uniform(3, 25) * rng.choice([-1, 1])
    takes = (rng.uniform(0.35, 0.8), rng.uniform(0.35, 0.9))
    back_from_s = STILL_S + takes[0] + rng.uniform(0, 0.8)
    movement.shift(points, STILL_S, takes[0], draw_shape(rng, 0.2, 0.2))
    back = -points * rng.uniform(0.8, 1.1)
    movement.shift(back, back_from_s, takes[1], draw_shape(rng, 0.2, 0.2))
    return movement


def shift_stance(rng, share):
    """A step-like change of the stance that lasts (of the same source)."""
    movement = Movement(2.5, share)
    points = rng.uniform(4, 20) * (1 if share < 50 else -1)
    movement.shift(points, STILL_S, rng.uniform(0.4, 1.5), draw_shape(rng, 0.3, 0.3))
    return movement


def lean_on_club(rng, share):
    """On the club as on a stick, the grip end under a hand, the legs loose."""
    stays_s, takes_s = rng.uniform(2, 7), rng.uniform(0.6, 1.3)
    movement = Movement(stays_s + 2 * takes_s + 1, share)
    part, points = rng.uniform(0.02, 0.12), rng.uniform(-22, 22)
    for sign, from_s in ((1, STILL_S), (-1, STILL_S + takes_s + stays_s)):
        movement.lean(sign * part, from_s, takes_s)
        movement.shift(sign * points, from_s, takes_s, draw_shape(rng))
    return movement


def regrip(rng, share):
    """The hands let go and take hold anew, a little at a time."""
    pulls = rng.integers(2, 5)
    movement = Movement(pulls * 0.7 + 1, share)
    for pull in range(pulls):
        from_s, takes_s = STILL_S + pull * rng.uniform(0.5, 0.7), rng.uniform(0.2, 0.35)
        points, up_m = rng.uniform(-1.5, 1.5), rng.uniform(-0.004, 0.004)
        for sign, at_s in ((1, from_s), (-1, from_s + takes_s)):
            movement.shift(sign * points, at_s, takes_s)
            movement.lift(sign * up_m, at_s, takes_s)
    return movement


def look_at_target(rng, share):
    """Head and shoulders turn to the target, once or twice, and back to the ball."""
    looks = rng.integers(1, 3)
    movement = Movement(looks * 3.4 + 1, share)
    at_s = STILL_S
    for _ in range(looks):
        points, takes_s = rng.uniform(-1.5, 5), rng.uniform(0.4, 0.9)
        stays_s = rng.uniform(0.3, 1.5)
        movement.shift(points, at_s, takes_s, draw_shape(rng))
        movement.shift(-points, at_s + takes_s + stays_s, takes_s, draw_shape(rng))
        at_s += 2 * takes_s + stays_s
    return movement


def turn_to_talk(rng, share):
    """Towards the coach, weight on one leg, hands moving; and back."""
    movement = Movement(rng.uniform(4, 9), share)
    t = movement.t
    away = spell(t, STILL_S, movement.lasts_s - STILL_S, rng.uniform(0.6, 1.2))
    movement.share += rng.uniform(-25, 25) * away
    hands = np.sin(2 * np.pi * rng.uniform(0.8, 1.8) * t)
    hands *= spell(t, 1.2, movement.lasts_s - 0.8, 0.8)
    movement.height_m += rng.uniform(0, 0.002) * hands
    movement.share += rng.uniform(0, 1.5) * hands
    return movement


def laugh(rng, share):
    """A laugh or a cough: the belly shakes the load at a few hertz."""
    lasts_s = rng.uniform(0.6, 2)
    movement = Movement(lasts_s + 2 * STILL_S, share)
    t = movement.t
    shakes = np.sin(2 * np.pi * rng.uniform(3, 5) * t) * spell(t, STILL_S, STILL_S + lasts_s, 0.25)
    movement.height_m += rng.uniform(0.0003, 0.0012) * shakes
    movement.share += rng.uniform(0, 0.8) * shakes
    return movement


def tap_turf(rng, share):
    """The club is put to the turf once or more and bears some weight for a moment."""
    taps = rng.integers(1, 4)
    movement = Movement(taps * 0.6 + 1, share)
    for tap in range(taps):
        from_s, part = STILL_S + 0.55 * tap, rng.uniform(0.005, 0.03)
        movement.lean(part, from_s, 0.12)
        movement.lean(-part, from_s + 0.2, 0.15)
    return movement


def bounce(rng, share):
    """Springs at the knees to loosen up."""
    hertz, cycles = rng.uniform(1.0, 2.2), rng.integers(2, 6)
    lasts_s = cycles / hertz
    movement = Movement(lasts_s + 2 * STILL_S, share)
    t = movement.t
    window = spell(t, STILL_S, STILL_S + lasts_s, 0.4 * lasts_s)
    down_m = rng.uniform(0.02, 0.1) / hertz**2
    movement.height_m -= down_m * (0.5 - 0.5 * np.cos(2 * np.pi * hertz * (t - STILL_S))) * window
    movement.share += rng.uniform(0, 2) * np.sin(np.pi * hertz * (t - STILL_S)) * window
    return movement


def shuffle_feet(rng, share):
    """One foot is lifted and set anew, then maybe the other."""
    feet = rng.permutation([0.0, 100.0])[:rng.integers(1, 3)]
    movement = Movement(3.2 * len(feet) + 0.6, share)
    at_s = STILL_S
    for all_on in feet:
        points = (all_on - share) * rng.uniform(0.75, 1)
        away_s, lifted_s, back_s = rng.uniform((0.3, 0, 0.25), (0.6, 0.5, 0.6))
        movement.shift(points, at_s, away_s, draw_shape(rng, 0))
        movement.shift(-points, at_s + away_s + lifted_s, back_s, draw_shape(rng, 0.2))
        at_s += away_s + lifted_s + back_s + rng.uniform(0.1, 0.6)
    return movement


def stop_at_top(rng, share):
    """Up to the top to look at it, and slowly down again: a backswing that is no swing."""
    up_s, stays_s, down_s = rng.uniform(0.7, 1.6), rng.uniform(0.8, 3), rng.uniform(1.3, 2.6)
    movement = Movement(up_s + stays_s + down_s + 1, share)
    points, up_m = rng.uniform(2, 22), rng.uniform(0.006, 0.03)
    down_from_s = STILL_S + up_s + stays_s
    movement.shift(-points, STILL_S, up_s, draw_shape(rng, 0.1))
    movement.shift(points, down_from_s, down_s, draw_shape(rng, 0.1))
    movement.lift(up_m, STILL_S, up_s)
    movement.lift(-up_m, down_from_s, down_s)
    return movement


def brush_grass(rng, share):
    """The club brushes the grass back and forth without a stop; coaches would count differently."""
    period_s, strokes = rng.uniform(1.3, 2.2), rng.integers(2, 5)
    lasts_s = period_s * strokes
    movement = Movement(lasts_s + 2 * STILL_S, share)
    t = movement.t
    window = spell(t, STILL_S, STILL_S + lasts_s, 0.4 * period_s)
    phase = 2 * np.pi * (t - STILL_S) / period_s
    movement.share -= rng.uniform(1, 9) * np.sin(phase) * window
    movement.height_m -= rng.uniform(0.002, 0.008) * np.cos(2 * phase) * window
    return movement


def be_pushed(rng, share):
    """The coach pushes the hips over to show the way, holds, and lets go."""
    movement = Movement(rng.uniform(3.5, 7), share)
    points = rng.uniform(4, 18) * rng.choice([-1, 1])
    lets_go_s = movement.lasts_s - rng.uniform(1.3, 1.8)
    movement.shift(points, STILL_S, rng.uniform(0.5, 1.2), draw_shape(rng, 0.2))
    movement.shift(-points, lets_go_s, rng.uniform(0.5, 1.1), draw_shape(rng, 0.4))
    return movement
