"""Linear systems, their commands, and soft ends of the share."""
import numpy as np
from scipy.signal import lfilter
from scipy.signal import cont2discrete

from examiners.curves import GRID_HZ

G = 9.80665  # simulation grid, Hz (each plate rate divides it); m/s2


def second_order(u, w, zeta, tau):
    """Response to the command u.

    Of activation (time constant tau, s) and a second-order system (w rad/s, damping zeta).
    """
    a = np.exp(-1 / (GRID_HZ * tau)) if tau else 0.0
    u = lfilter([1 - a], [1, -a], u)
    b, a, _ = cont2discrete(([w * w], [1, 2 * zeta * w, w * w]), 1 / GRID_HZ, "zoh")
    return lfilter(b[0], a, u)


def accel(x):
    """Second time derivative on the simulation grid."""
    return np.gradient(np.gradient(x)) * GRID_HZ * GRID_HZ


def limit(share):
    """Soft ends of the share: a foot is never quite empty in a swing."""
    over = np.maximum(abs(share - 50) - 42, 0)
    return share + np.sign(share - 50) * (7 * np.tanh(over / 7) - over)


class Track:
    """A command: a sum of steps, each (time, height, rise).

    Rise 0 is a true step, else a smooth minimum-jerk ramp.
    """

    def __init__(self, level=0.0):
        self.level, self.now, self.moves = level, level, []

    def to(self, t, value, rise=0.0):
        """Go to a value at time t."""
        self.moves.append((t, value - self.now, rise))
        self.now = value

    def pulse(self, t, height, width, rise=0.0):
        """Up by a height at time t and down again `width` seconds later."""
        self.moves += [(t, height, rise), (t + width, -height, rise)]

    def swing(self, t, plan):
        """Arms back, down (step and overdrive pulse) and through."""
        size, down, over, width, through = plan[:5]
        self.to(t, -size)
        self.pulse(t + down, over, width)
        self.to(t + down, through)
        return self

    def sample(self, n):
        """The command's first n values on the grid."""
        y = np.full(n, float(self.level))
        for t, h, rise in self.moves:
            i = max(int(round(t * GRID_HZ)), 0)
            m = int(rise * GRID_HZ)
            x = np.arange(1, m + 1)[:max(n - i, 0)] / max(m, 1)
            y[i:i + m] += h * x**3 * (10 - 15 * x + 6 * x * x)
            y[i + m:] += h
        return y
