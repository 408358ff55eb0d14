"""A lesson as a list of moves, and how they are drawn."""
import numpy as np

from examiners.curves import GRID_HZ, minimum_jerk

G = 9.80665
TRACKS = {
    "share": 50.0,
    "on": 1.0,
    "load": 0.0,
    "lead_x": 0.0,
    "lead_y": 0.0,
    "trail_x": 0.0,
    "trail_y": 0.0,
}
EASES = {
    "cosine": lambda x: 0.5 - 0.5 * np.cos(np.pi * x),
    "smoothstep": lambda x: x * x * (3 - 2 * x),
    "minimum jerk": minimum_jerk,
}


def bump(shape, x):
    """Unit bump over x in [0, 1], zero at both ends.

    Raised cosine, Gaussian-like (its square), or flat with ramps.
    """
    return (
        np.clip(10 * np.minimum(x, 1 - x), 0, 1)
        if shape == "flat"
        else np.sin(np.pi * x) ** (4 if shape == "gauss" else 2)
    )


class Scene:
    """A list of moves along a running clock `t`; nothing is drawn before `render`."""

    def __init__(self, rng, ease, mass):
        self.rng = rng
        self.draw = rng.uniform
        self.ease = EASES[ease]
        self.mass = mass
        self.t = 0.0
        self.drawn = []
        self.steps = []
        self.between = []
        self.now = dict(TRACKS)

    def move(self, track, t0, t1, target):
        """Ease a track from where it was last sent to `target` between t0 and t1."""
        delta = target - self.now[track]
        self.now[track] = target
        self.drawn.append((track, t0, t1, lambda x: delta * self.ease(x), delta))

    def wave(self, track, t0, t1, amplitude, hz):
        """A faded-in and faded-out oscillation of a track ('load': body weights)."""
        self.drawn.append(
            (
                track,
                t0,
                t1,
                lambda x: amplitude * np.sin(2 * np.pi * hz * x * (t1 - t0)) * bump("flat", x),
                0,
            )
        )

    def load(self, *pieces):
        """Load pieces: (centre s, full width s, height in body weights[, shape])."""
        for centre, width, height, *shape in pieces:
            draw = lambda x, height=height, shape=shape: height * bump(*(shape or ["cosine"]), x)
            self.drawn.append(("load", centre - width / 2, centre + width / 2, draw, 0))

    def shift(self, share, low=0.7, high=1.4):
        """A plain weight shift to `share` with the little push and catch that goes with it."""
        d = self.draw(low, high)
        a = self.draw(0.0, 0.02)
        self.move("share", self.t, self.t + d, share)
        self.load((self.t + 0.3 * d, 0.6 * d, a), (self.t + 0.7 * d, 0.6 * d, -a))
        self.t += d

    def feet(self, t0, t1, lead=(0, 0), trail=(0, 0)):
        """Send the CoP of both feet to (x towards the target, y to the toes).

        In mm from the middle of the foot.
        """
        for track, value in zip(("lead_x", "lead_y", "trail_x", "trail_y"), (*lead, *trail)):
            self.move(track, t0, t1, value)

    def render(self):
        """Draw it all, sway not yet included: a dict of tracks."""
        t = np.arange(int(self.t * GRID_HZ)) / GRID_HZ
        out = {k: np.full(t.size, v) for k, v in TRACKS.items()}
        for track, t0, t1, shape, after in self.drawn:
            i, j = (int(np.ceil(x * GRID_HZ)) for x in (t0, t1))
            out[track][i:j] += shape((t[i:j] - t0) / (t1 - t0))
            out[track][j:] += after
        return out
