"""Shapes that share, load and places are made of, over the time from 0 to 1 or over seconds."""
import numpy as np
from scipy.interpolate import PchipInterpolator

G = 9.80665


def lift(x):
    """Second derivative of the minimum-jerk step; to be divided by the duration squared."""
    return 60 * x - 180 * x**2 + 120 * x**3


def hump(x):
    """Up and back, from rest to rest."""
    return np.sin(np.pi * x) ** 2


def cycle(x):
    """Up and down: what it gains it loses."""
    return np.sin(2 * np.pi * x)


def push(x):
    """Half a sine of area 1; to be divided by the duration."""
    return np.pi / 2 * np.sin(np.pi * x)


def tread(x):
    """Load of a walker's foot in body weights: two humps."""
    return 1.15 * np.maximum(0, np.sin(np.pi * x) + 0.35 * np.sin(3 * np.pi * x))


def within(x):
    """1 between the ends."""
    return (x > 0) & (x < 1)


def way(t, start, duration):
    """Part of the duration that has passed since the start, 0 to 1."""
    return np.clip((t - start) / duration, 0, 1)


def logistic(t, start, end, centre, steepness):
    """Logistic step from 0 at start to 1 at end; its centre as a part of the way."""

    def curve(x):
        return 1 / (1 + np.exp(-steepness * (x - centre)))

    return (curve(way(t, start, end - start)) - curve(0)) / (curve(1) - curve(0))


def spring_step(t, start, omega, zeta):
    """Step response of a mass on a damped spring (zeta < 1)."""
    x, d = np.maximum(t - start, 0) * omega, np.sqrt(1 - zeta**2)
    return 1 - np.exp(-zeta * x) * (np.cos(d * x) + zeta / d * np.sin(d * x))


def pulse(t, peak, rise, fall):
    """Lopsided bell: an SD of rise before the peak, of fall after it; 0 beyond three SD."""
    width = np.where(t < peak, rise, fall)
    return np.maximum(0, np.exp(-(((t - peak) / width) ** 2) / 2) - np.exp(-4.5))


def held_pchip(t, times, values):
    """Monotone cubic through the knots, constant and flat outside."""
    knots = [times[0] - 1, *times, times[-1] + 1]
    curve = PchipInterpolator(knots, [values[0], *values, values[-1]])
    return curve(np.clip(t, times[0], times[-1]))


def sway(rng, count, rate, sd):
    """Postural wander from 0.1 to 1.5 Hz at a recording's rate; its spectrum falls."""
    f = np.fft.rfftfreq(count, 1 / rate)
    falling = np.maximum(f, 0.1) ** -rng.uniform(0.4, 1.2)
    amplitude = np.where((f >= 0.1) & (f <= 1.5), falling, 0)
    waves = amplitude * (rng.normal(size=f.size) + 1j * rng.normal(size=f.size))
    x = np.fft.irfft(waves, count)
    return sd * x / x.std()
