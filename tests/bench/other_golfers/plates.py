"""Two plates of four cells under a lesson: sway, the strike's jolt, noise of the cells, and files.

Times in s, loads in N, places in mm of the plate frame (x to the golfer's right, y to the toes).
"""
import json
from dataclasses import dataclass

import numpy as np
from scipy.interpolate import CubicSpline

from curves import stroke
from golfers import CURVE_HZ
from lesson import tell_truth

CELL_X_MM, CELL_Y_MM = 120, 220
PLATE_X_MM = {"left": -160, "right": 160}
CELLS = ((-1, 1), (1, 1), (-1, -1), (1, -1))  # right or left, toes or heel; in the columns' order
LEAST_LOAD_N = 40  # below it a plate tells no centre of pressure
SWAY_HZ = 50.0


@dataclass
class Setup:
    """Who stands there, and on what."""

    rate_hz: int
    hand: str
    mass_kg: float
    sway: float  # standard deviation of the share, in points
    cell_noise_n: float
    has_trigger: bool
    columns: str  # "cells", or "feet" with a centre of pressure each


@dataclass
class Recording:
    """What the plates tell: times [n], cells [n, 8] in N (the left plate first), trigger [n]."""

    time_s: np.ndarray
    cells_n: np.ndarray
    trigger: np.ndarray


def wander(rng, length, low_hz, high_hz, slope, points=None):
    """Noise of unit spread, `length` samples at CURVE_HZ: 1 / f^slope between the frequencies.

    With more points than SWAY_HZ wants, the noise is as much slower, and its start is taken.
    """
    count = int(length / CURVE_HZ * SWAY_HZ) + 8
    frequency = np.fft.rfftfreq(count, 1 / SWAY_HZ)
    falling = 1 / np.maximum(frequency, 1e-3) ** slope / np.sqrt(1 + (frequency / high_hz) ** 6)
    amplitude = np.where(frequency > low_hz, falling, 0)
    waves = rng.normal(size=len(frequency)) + 1j * rng.normal(size=len(frequency))
    points = points or count
    noise = np.fft.irfft(amplitude * waves, points)
    noise /= noise.std()
    times = np.arange(length) / CURVE_HZ
    return CubicSpline(np.arange(points) / SWAY_HZ, noise)(times)


def with_sway(rng, motion, sway):
    """The share 0 to 1 with sway, which dies out where all weight is on one foot."""
    slope = rng.uniform(0.6, 1.2)
    noise = wander(rng, len(motion), 0.08, rng.uniform(1.0, 2.0), slope)
    room = np.minimum(1, np.minimum(motion, 1 - motion) / 0.05)
    return np.clip(motion + sway / 100 * noise * room, 0, 1)


def jolts(rng, swings, t):
    """What the strikes do to the load, in N: a ripple that dies away in 25 ms."""
    load_n = np.zeros(len(t))
    for swing in swings:
        if swing.has_jolt:
            since_s = t - swing.impact_s
            dying_n = rng.uniform(4, 20) * np.exp(-np.maximum(since_s, 0) / 0.025)
            ripple_n = dying_n * np.sin(2 * np.pi * rng.uniform(18, 50) * since_s)
            load_n += np.where(since_s >= 0, ripple_n, 0)
    return load_n


def toe_shift(rng, swings, time_s):
    """How far the centres of pressure go to the toes or heels in swings, mm; in six of ten."""
    shift_mm = np.zeros(len(time_s))
    for swing in swings:
        if rng.random() < 0.6:
            way_mm = rng.uniform(5, 22) * rng.choice([-1, 1])
            back_s = swing.turnaround_s - swing.onset_s
            down_s = swing.impact_s - swing.turnaround_s + 0.15
            shift_mm += way_mm * stroke(time_s, swing.onset_s, back_s)
            shift_mm -= way_mm * stroke(time_s, swing.turnaround_s, down_s)
    return shift_mm


def places(rng, swings, setup, time_s, length):
    """Where the loads act on both plates, x and y from their middles in mm, at each time.

    The wander is one of 0.1 to 1.5 Hz at a rate of 50 Hz, and slower in proportion at higher ones:
    so were the lessons made that the figures in docs/measurements.md are of.
    """
    sampled = np.minimum((time_s * CURVE_HZ).astype(int), length - 1)
    x, y = (wander(rng, length, 0.1, 1.5, 0.8, len(time_s))[sampled] for _ in range(2))
    x_mm = 3 * x * setup.sway / 0.5
    y_mm = 3.5 * y * setup.sway / 0.5 + toe_shift(rng, swings, time_s)
    return x_mm, y_mm


def trigger_of(swings, setup, length):
    """The trigger's column: up for 10 ms from the first sample after each strike on."""
    trigger = np.zeros(length, int)
    for swing in swings:
        swing.triggered = bool(setup.has_trigger and swing.is_shot)
        if swing.triggered:
            first = int(np.ceil(swing.impact_s * setup.rate_hz - 1e-9))
            trigger[first:first + max(1, int(0.01 * setup.rate_hz))] = 1
    return trigger


def cells_of(rng, plate_loads_n, place_mm, noise_n):
    """Eight cells that share the loads of two plates by the lever arms to one place on each."""
    u = place_mm[0] / (2 * CELL_X_MM) + 0.5
    v = place_mm[1] / (2 * CELL_Y_MM) + 0.5
    columns = []
    for load_n in plate_loads_n:
        for x, y in CELLS:
            part = (u if x > 0 else 1 - u) * (v if y > 0 else 1 - v)
            columns.append(load_n * part + noise_n * rng.normal(size=len(load_n)))
    return np.array(columns).T


def record(lesson, setup, tell=tell_truth):
    """The lesson as the plates see it; completes the truth of its swings by `tell`."""
    rng = lesson.rng
    motion = np.concatenate(lesson.scene.shares) / 100
    load = np.concatenate(lesson.scene.loads)
    t = np.arange(len(motion)) / CURVE_HZ
    share = with_sway(rng, motion, setup.sway)
    load_n = setup.mass_kg * 9.81 * (load * (1 + 0.003 * wander(rng, len(load), 0.5, 5, 0.5)))
    jolt_n = jolts(rng, lesson.swings, t)
    for swing in lesson.swings:
        tell(swing, motion, share)
    time_s = np.arange(int(len(motion) / CURVE_HZ * setup.rate_hz) - 1) / setup.rate_hz
    lead_n = np.interp(time_s, t, load_n * share + jolt_n * 0.7)
    trail_n = np.interp(time_s, t, load_n * (1 - share) + jolt_n * 0.3)
    place_mm = places(rng, lesson.swings, setup, time_s, len(motion))
    plates_n = (lead_n, trail_n) if setup.hand == "right" else (trail_n, lead_n)
    cells_n = cells_of(rng, plates_n, place_mm, setup.cell_noise_n)
    return Recording(time_s, cells_n, trigger_of(lesson.swings, setup, len(time_s)))


def centre_of_pressure(cells_n, plate):
    """Load [n], and where it acts [n] in x and y; NaN where the load is too little."""
    load_n = cells_n.sum(1)
    known = load_n > LEAST_LOAD_N
    divisor = np.where(known, load_n, 1)
    right = (cells_n[:, 1] + cells_n[:, 3]) - (cells_n[:, 0] + cells_n[:, 2])
    ahead = (cells_n[:, 0] + cells_n[:, 1]) - (cells_n[:, 2] + cells_n[:, 3])
    x_mm = PLATE_X_MM[plate] + CELL_X_MM * right / divisor
    y_mm = CELL_Y_MM * ahead / divisor
    return load_n, np.where(known, x_mm, np.nan), np.where(known, y_mm, np.nan)


def table_of(recording, setup):
    """The columns of the CSV file: a list of (name, format, values)."""
    columns = [("time_s", "%.6f", recording.time_s)]
    if setup.columns == "cells":
        columns += [(f"cell_{k + 1}", "%.2f", recording.cells_n[:, k]) for k in range(8)]
    else:
        left = centre_of_pressure(recording.cells_n[:, :4], "left")
        right = centre_of_pressure(recording.cells_n[:, 4:], "right")
        columns += [("left_n", "%.2f", left[0]), ("right_n", "%.2f", right[0])]
        for plate, foot in (("left", left), ("right", right)):
            columns += [(f"{plate}_cop_x_mm", "%.1f", foot[1]),
                        (f"{plate}_cop_y_mm", "%.1f", foot[2])]
    if setup.has_trigger:
        columns.append(("trigger", "%d", recording.trigger))
    return columns


def write_csv(path, recording, setup):
    """The recording as `footing import` reads it; what is not known stays empty."""
    names, formats, values = zip(*table_of(recording, setup))
    with open(path, "w", encoding="ascii") as file:
        file.write(",".join(names) + "\n")
        for row in zip(*values):
            cells = ("" if value != value else form % value for form, value in zip(formats, row))
            file.write(",".join(cells) + "\n")


def write_layout(path, setup):
    """The two plates and their cells, as `footing import --layout` reads them."""
    cells = [{"x_mm": x * CELL_X_MM, "y_mm": y * CELL_Y_MM} for x, y in CELLS]
    plates = [{"name": name, "centre_mm": [x_mm, 0], "cells": cells}
              for name, x_mm in PLATE_X_MM.items()]
    layout = {"name": "two plates", "rate_hz": setup.rate_hz, "plates": plates}
    with open(path, "w", encoding="ascii") as file:
        json.dump(layout, file)
