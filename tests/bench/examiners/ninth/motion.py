"""Paths, steps, soft ends of the share, and the body's compliance."""
import numpy as np
from scipy.interpolate import BPoly

from examiners.curves import minimum_jerk

SMOOTH = 100  # ms, compliance of the body between the segments and the plates


def path(t, knots):
    """Piecewise quintic through knots (time, value, speed, acceleration); constant outside."""
    k = np.array(knots, float)
    return BPoly.from_derivatives(k[:, 0], k[:, 1:])(np.clip(t, k[0, 0], k[-1, 0]))


def ramp(n):
    """Minimum-jerk step from 0 to 1 in n samples."""
    u = np.linspace(0, 1, max(int(n), 2))
    return minimum_jerk(u)


def soft(u, low=0.05, high=0.93):
    """The share bends off before a foot is quite empty.

    The pressure rolls to the outer edge of the foot.
    """
    u = np.where(u > high, high + 0.06 * np.tanh((u - high) / 0.06), u)
    return np.where(u < low, low + 0.04 * np.tanh((u - low) / 0.04), u)


def blur(x, width=SMOOTH):
    """Symmetric Hann smoothing over `width` samples; the ends are held."""
    k = np.hanning(width + 3)[1:-1]
    return np.convolve(np.pad(x, width, mode="edge"), k / k.sum(), "same")[width:-width]
