"""What several of the examiners' golfers move by: one grid of times, a smooth step, slow noise."""
import numpy as np

GRID_HZ = 1000  # all is drawn at this rate, which every recording's rate divides


def minimum_jerk(u):
    """From 0 to 1 while u does the same."""
    return u**3 * (10 - 15 * u + 6 * u * u)


def band_noise(rng, length, low_hz, high_hz, slope):
    """Gaussian noise of SD 1 between two frequencies; its amplitude falls as f^-slope."""
    f = np.fft.rfftfreq(length, 1 / GRID_HZ)
    amplitude = np.where((f >= low_hz) & (f <= high_hz), np.maximum(f, low_hz) ** -slope, 0)
    waves = amplitude * (rng.normal(size=f.size) + 1j * rng.normal(size=f.size))
    noise = np.fft.irfft(waves, length)
    return noise / noise.std()
