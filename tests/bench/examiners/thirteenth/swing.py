"""One swing: arms and club, and what a kind of people makes of them."""
from dataclasses import dataclass

import numpy as np
from scipy.interpolate import BPoly

from examiners.curves import GRID_HZ
from examiners.thirteenth.motion import clock, late_mean, load_of, second_derivative

# The angle of the arms at the top, rad, from and to.
LENGTHS = {"half": (0.8, 1.1), "three-quarter": (1.3, 1.6), "full": (1.75, 2.05)}


@dataclass
class Course:
    """What the models ask of a swing; models.py says what each is."""

    t_top: float
    t_hit: float
    down: float
    t_rest: float
    dip: float
    at_hit: float
    at_rest: float
    travel: float
    size: float
    arm: np.ndarray
    arm_top: float
    arm_rest: float


@dataclass
class Swung:
    """A swing as it was made; instants in samples of the grid."""

    is_shot: bool
    kind: str
    start: int
    impact: int
    end: int  # of the hold


def arms_and_wrist(rng, t, times, arm_top):
    """Angles of the arm and of the wrist, and of the arm at rest; rad, backswing negative."""
    top, down, t_hit, t_rest = times
    arm_rest = arm_top * rng.uniform(0.9, 1.1)
    speed = arm_top / down * rng.uniform(1.35, 1.6)
    cock = arm_top * rng.uniform(0.36, 0.6)
    turn = rng.uniform(4.5, 6.5) * arm_top / top**2
    arm = BPoly.from_derivatives(
        [0, top, t_hit, t_rest],
        [[0, 0], [-arm_top, 0, turn], [0, speed, -1.5 * speed], [arm_rest, 0, 0]],
    )
    wrist = BPoly.from_derivatives(
        [0, top, t_hit, 0.45 * t_hit + 0.55 * t_rest, t_rest],
        [
            [0, 0, 0],
            [-cock, -0.4, 0],
            [0, 1.9 * cock / down + 0.4 * speed, 0],
            [cock, 0, 0],
            [0.8 * cock, 0, 0],
        ],
    )
    until = np.minimum(t, t_rest)
    return arm(until), wrist(until), arm_rest


def course_of(rng, person, address, is_half):
    """Draws a swing: its length in a word, times, what the models ask, angle of the wrist."""
    length = "half" if is_half else ("three-quarter", "full")[rng.integers(2)]
    arm_top = rng.uniform(*LENGTHS[length])
    size = 0.15 if is_half else arm_top / 1.9
    top = np.clip(person.back * rng.normal(1, 0.04) * (0.85 + 0.15 * size), 0.5, 1.1)
    down = np.clip(person.down * rng.normal(1, 0.04), 0.22, 0.45)
    t_hit = round(top + down, 3)
    t_rest = t_hit + rng.uniform(0.5, 0.85)
    dip = person.dip * size * rng.uniform(0.85, 1.15)
    steered = np.array([person.impact, person.finish]) + rng.normal(0, 1.2, 2)
    at_hit, at_rest = np.minimum(steered, 97) - address
    if is_half and person.dip:
        dip, at_hit, at_rest = rng.uniform((2, 0.1, 1.2), (3, 0.6, 1.8))
    elif is_half:
        dip = 0
        at_hit, at_rest = rng.uniform((1, 2), (1.6, 3))
    travel = person.travel * min(size, 1.1) * min((down / 0.3) ** 2, 1.2)
    t = clock(t_rest + 0.8)
    arm, wrist, arm_rest = arms_and_wrist(rng, t, (top, down, t_hit, t_rest), arm_top)
    course = Course(
        top, t_hit, down, t_rest, dip, at_hit, at_rest, travel, size, arm, arm_top, arm_rest
    )
    return length, t, course, wrist


def sunk_of(person, arm, wrist):
    """How far arms (7 % of the mass) and club head (0.3 kg) take the centre of mass down, m."""
    arms = 0.07 * person.mass * 0.38 * np.cos(arm)
    head = 0.3 * (0.65 * np.cos(arm) + 0.85 * np.cos(arm + wrist))
    return 0.8 * person.bind * (arms + head) / person.mass


def swing(track, person, rng, is_shot):
    """One swing from takeaway to the end of the hold."""
    is_half = rng.random() < 0.1
    length, t, course, wrist = course_of(rng, person, track.share, is_half)
    gained, body = person.move(t, course, person)
    kick = person.kick * (0.4 if is_half else 1)
    pull = late_mean(np.clip(second_derivative(course.arm), -60, 60), 35, 25)
    gained = gained + kick * pull / 16
    load = load_of(-sunk_of(person, course.arm, wrist)) + body
    if is_shot:
        after = np.maximum(t - course.t_hit, 0)
        ring = np.exp(-after / 0.04) * np.sin(2 * np.pi * 17 * after)
        load = load + person.ripple * course.size * ring
    start = track.n
    track.add(
        np.clip(track.share + gained, 1, 98.5),
        load,
        turn_mm=9 * np.sin(course.arm),
        toe_mm=person.toe * np.clip(load - 1, -0.5, 0.5) * 1.5,
    )
    track.hold(person.hold * rng.uniform(0.7, 1.3))
    kind = f"{length} {person.move.__name__} {'shot' if is_shot else 'practice'}"
    return Swung(is_shot, kind, start, start + round(course.t_hit * GRID_HZ), track.n)
