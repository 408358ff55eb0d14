"""How things move: smooth steps, paths through knots, and muscles that follow an intention."""
import math

import numpy as np
from scipy.interpolate import BPoly
from scipy.signal import lfilter

from examiners.curves import GRID_HZ, minimum_jerk

G = 9.80665
STEP_S = 0.001  # of the grid


def step(u):
    """Smooth step from 0 to 1 (least jerk) while u does the same; still before and after."""
    return minimum_jerk(np.clip(u, 0.0, 1.0))


def clock(seconds):
    """Local times of something that lasts so long."""
    return np.arange(round(seconds * GRID_HZ)) * STEP_S


def flow(values, tau):
    """Muscles follow an intention.

    Two first-order lags, causal, so that nothing moves before it begins.
    """
    a = 1 - math.exp(-STEP_S / tau)
    lagged = lfilter([a * a], [1, 2 * (a - 1), (1 - a) ** 2], values - values[0])
    return values[0] + lagged


def path(knots, t, soft, tau):
    """Quintic path through knots (time, value, speed, acceleration), as muscles follow it.

    `soft` slows the start without moving the first turn.
    """
    u = np.minimum(t / knots[1][0], 1)
    warped = t - knots[1][0] * soft * u * (1 - u) ** 2
    curve = BPoly.from_derivatives([knot[0] for knot in knots], [knot[1:] for knot in knots])
    return flow(curve(np.minimum(warped, knots[-1][0])), tau)


def second(values):
    """Second derivative of a series on the grid that is at rest at both ends."""
    padded = np.pad(values, 2, mode="edge")
    return np.gradient(np.gradient(padded, STEP_S), STEP_S)[2:-2]
