"""How things move: steps, muscles, lagging means, and the load that follows."""
import numpy as np
from scipy.signal import lfilter

from examiners.curves import GRID_HZ, minimum_jerk

G = 9.81


def clock(seconds):
    """Times of a stretch from 0 on."""
    return np.arange(int(seconds * GRID_HZ)) / GRID_HZ


def step(t, start, length):
    """Reach from 0 to 1 with minimum jerk."""
    return minimum_jerk(np.clip((t - start) / length, 0, 1))


def step_acceleration(t, start, length):
    """The second derivative of `step`."""
    u = np.clip((t - start) / length, 0, 1)
    return 60 * u * (1 - 3 * u + 2 * u * u) / length**2


def muscle(t, start, tau):
    """Critically damped answer to a command given at start."""
    u = np.maximum(t - start, 0) / tau
    return 1 - (1 + u) * np.exp(-u)


def late_mean(x, *spans_ms):
    """Causal moving means, one after the other: a motion so smoothed does not begin earlier."""
    for span_ms in spans_ms:
        x = lfilter(np.ones(span_ms) / span_ms, 1, x)
    return x


def second_derivative(x):
    """On the grid."""
    return np.gradient(np.gradient(x)) * GRID_HZ**2


def load_of(z_m):
    """Load in body weights of somebody whose centre of mass moves by z_m (m)."""
    return 1 + second_derivative(z_m) / G


def trunk(t, *moves):
    """Acceleration in g of the trunk from moves (start, length, rise in metres)."""
    return sum(rise * step_acceleration(t, start, length) for start, length, rise in moves) / G
