"""A lesson as it is written, segment by segment, and the curves that segments are made of."""
import numpy as np

from examiners.curves import GRID_HZ, minimum_jerk

G = 9.80665
FEET = ("lead_x", "lead_y", "trail_x", "trail_y")
CHANNELS = dict(
    share=50.0, load=1.0, guest_lead=0.0, guest_trail=0.0, guest_y=0.0, **dict.fromkeys(FEET, 0.0)
)
EASES = {
    "cubic": lambda u: u * u * (3 - 2 * u),
    "minimum jerk": minimum_jerk,
    "raised cosine": lambda u: 0.5 - 0.5 * np.cos(np.pi * u),
    "sigmoid": lambda u: (np.tanh(3.2 * (u - 0.5)) / np.tanh(1.6) + 1)
    / 2
    * (1 - (1 - u) ** 8)
    * (1 - u**8)
    + u**8,
}


def ease(t, start, end, kind="minimum jerk", warp=1.0):
    """0 before `start`, 1 after `end`, smooth in between; a warp off 1 makes it lopsided."""
    return EASES[kind](np.clip((t - start) / (end - start), 0, 1) ** warp)


def pulse(t, centre, width):
    """A raised-cosine pulse of height 1; its integral is width / 2."""
    return np.cos(np.pi * np.clip((t - centre) / width, -0.5, 0.5)) ** 2


def load_of_height(z_m):
    """Total load in body weights of a body whose centre of mass moves as z_m."""
    return 1 + np.gradient(np.gradient(z_m)) * GRID_HZ**2 / G


def there_and_back(t, ramp_s):
    """0 to 1 over the first ramp_s, back to 0 over the last."""
    return ease(t, 0, ramp_s) * (1 - ease(t, t[-1] - ramp_s, t[-1]))


def clock(seconds):
    """Times of a segment from 0 on."""
    return np.arange(max(2, int(round(seconds * GRID_HZ)))) / GRID_HZ


class Script:
    """The lesson as written so far, and where the golfer stands at its end."""

    def __init__(self):
        self.now_s = 0.0
        self.share = 50.0
        self.stance = {}
        self.parts = {name: [] for name in CHANNELS}
        self.between = []
        self.truths = []

    def add(self, t, **channels):
        """Append a segment over the local times t; channels not given stay at their rest."""
        for name, value in {**CHANNELS, "share": self.share, **channels}.items():
            self.parts[name].append(np.broadcast_to(value + self.stance.get(name, 0.0), t.shape))
        self.now_s = round(self.now_s + len(t) / GRID_HZ, 3)
        self.share = float(self.parts["share"][-1][-1])
