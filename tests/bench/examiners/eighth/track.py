"""A lesson as it grows, and what is done between the swings."""
import numpy as np
from scipy.ndimage import gaussian_filter1d

from examiners.curves import GRID_HZ, band_noise
from examiners.eighth.swing import G, bump, ease


class Track:
    """A lesson as it grows: force of either foot in body weights, CoP of either in m.

    The CoP is lead x, y, trail x, y.
    """

    def __init__(self, golfer, rng):
        self.golfer = golfer
        self.rng = rng
        self.draw = rng.uniform
        self.length = 0
        self.share = 0.5
        self.parts, self.swings, self.between = [], [], []

    def raw(self, lead, trail, cop=None):
        """Append forces of both feet."""
        self.parts.append(
            np.vstack([lead, trail, np.zeros((4, lead.size)) if cop is None else cop])
        )
        self.length += lead.size

    def put(self, share, total=1.0, toes=0.0):
        """Append a stretch given by share, load and a common CoP excursion along the feet."""
        share, toes = np.clip(share, 0, 1), toes * np.ones(np.size(share))
        self.raw(share * total, (1 - share) * total, np.vstack([0 * toes, toes, 0 * toes, toes]))
        self.share = float(share[-1])

    def stand(self, seconds):
        """Standing with the weight where it is."""
        self.put(np.full(int(seconds * GRID_HZ), self.share))

    def shift(self, to, seconds, load=0.02):
        """The weight goes to another share; the load gives a little."""
        e = ease(seconds)
        load = self.rng.normal(0, load)
        self.put(
            self.share + (to - self.share) * e,
            1 + load * np.sin(2 * np.pi * e) * np.sin(np.pi * e),
        )

    def tread(self, high=1.12):
        """Load of one walking step on a plate: the double hump."""
        x = np.sin(np.pi * np.linspace(0, 1, int(self.draw(0.55, 0.8) * GRID_HZ))).clip(0)
        return high * np.sqrt(x) * (1 - 0.25 * x**4)

    def named(self, name, *how):
        """Do a movement between the swings and note when."""
        start = self.length
        getattr(self, name.replace(" ", "_"))(*how)
        self.between.append(
            {"name": name, "from_s": start / GRID_HZ, "to_s": self.length / GRID_HZ}
        )

    def waggle(self):
        """The club to and fro."""
        t = np.arange(int(self.draw(0.9, 2.6) * GRID_HZ)) / GRID_HZ
        w = np.abs(np.sin(np.pi * t / t[-1])) ** 0.7 * np.sin(
            2 * np.pi * self.draw(1.1, 2.2) * t + self.draw(-0.5, 0.5) * t * t
        )
        self.put(
            self.share + self.draw(0.002, 0.018) * w,
            1 + self.draw(0.003, 0.015) * np.roll(w, 60),
            0.006 * w,
        )

    def rocking(self):
        """From foot to foot, evenly."""
        hz = self.draw(0.4, 1.0)
        cycles = self.rng.integers(2, 5)
        size = self.draw(0.03, 0.2) * self.rng.choice([-1, 1])
        t = np.arange(int(cycles / hz * GRID_HZ)) / GRID_HZ
        fade = np.minimum(1, np.minimum(t, t[-1] - t) * hz * 2)
        self.put(
            self.share + size * np.sin(2 * np.pi * hz * t) * fade,
            1 + 0.3 * abs(size) * np.cos(4 * np.pi * hz * t) * fade,
        )

    def bend(self):
        """Down for the ball and up again: the load follows the height of the body."""
        w = np.r_[
            ease(self.draw(0.8, 1.3)),
            np.ones(int(self.draw(0.3, 1.2) * GRID_HZ)),
            1 - ease(self.draw(0.8, 1.3)),
        ]
        load = 1 - self.draw(0.12, 0.38) * np.gradient(np.gradient(w)) * GRID_HZ**2 / G
        self.put(
            self.share + (self.draw(0.35, 0.7) - self.share) * w,
            gaussian_filter1d(load, 15, mode="nearest"),
            0.05 * w,
        )

    def regrip(self):
        """Hands find their grip."""
        n = int(self.draw(1, 3) * GRID_HZ)
        w = band_noise(self.rng, n, 0.8, 4, 0.5)
        fade = np.sin(np.pi * np.arange(n) / n) ** 0.5
        self.put(
            self.share + 0.004 * w * fade,
            1 + 0.006 * band_noise(self.rng, n, 1, 6, 0.5) * fade,
            0.003 * w * fade,
        )

    def step_off(self):
        """Onto one foot, then off it."""
        side = float(self.rng.random() < 0.5)
        e = ease(self.draw(0.18, 0.35))
        self.shift(side, self.draw(0.4, 0.8), 0.04)
        self.stand(self.draw(0.1, 0.4))
        self.put(
            np.full(e.size, side), 1 - e + 0.12 * bump(np.linspace(0, 1, e.size), 0.25, 0.25)
        )

    def away(self, low, high):
        """Nobody on the plates, for so many seconds or more."""
        self.raw(*np.zeros((2, int(self.draw(low, high) * GRID_HZ))))

    def step_on(self):
        """One foot takes the body, then the weight is shared."""
        side = float(self.rng.random() < 0.5)
        e = ease(self.draw(0.2, 0.4))
        self.put(
            np.full(e.size, side),
            e + self.draw(0.05, 0.25) * bump(np.linspace(0, 1, e.size), 0.75, 0.25),
        )
        self.stand(self.draw(0.05, 0.3))
        self.shift(self.draw(0.42, 0.6), self.draw(0.35, 0.8), 0.05)

    def off_and_on(self, *across):
        """Off the plates and on again; across them meanwhile, if told how."""
        self.step_off()
        self.away(1, 3.5)
        if across:
            self.raw(*across)
            self.away(1, 2.5)
        self.step_on()

    def walk_across(self):
        """Off, across the plates with a foot on each, and on again."""
        a = self.tread()
        b = self.tread()
        self.off_and_on(
            *self.rng.permutation([np.pad(a, (0, b.size - 120)), np.pad(b, (a.size - 120, 0))])
        )

    def other_crossing(self):
        """Someone else treads on one plate while the golfer stands, or while nobody does."""
        extra = np.pad(self.tread(self.draw(0.5, 1.3)), [int(x) for x in self.draw(400, 1500, 2)])
        which = self.rng.random() < 0.5
        if self.rng.random() < 0.4:
            self.off_and_on(extra * which, extra * (not which))
        else:
            self.raw(self.share + extra * which, 1 - self.share + extra * (not which))

    def hops(self):
        """Dip, push, flight and landing, one to three times."""
        for _ in range(self.rng.integers(1, 4)):
            flight = self.draw(0.08, 0.25)
            dip = self.draw(0.15, 0.4)
            t = np.arange(int((1.25 + flight) * GRID_HZ)) / GRID_HZ
            load = (
                1
                - dip * bump(t, 0.16, 0.16)
                + (flight / 2 + dip * 0.16) / 0.12 * bump(t, 0.43, 0.12)
            )
            load = np.where(
                (t > 0.55) & (t < 0.55 + flight),
                0,
                load + flight / 0.22 * bump(t, 0.66 + flight, 0.11),
            )
            self.put(
                self.share + 0.03 * bump(t, 0.9 + flight, 0.3),
                np.maximum(gaussian_filter1d(load, 6), 0),
            )

    def talk(self):
        """Weight here and there; now and then a foot is set anew."""
        for _ in range(self.rng.integers(2, 5)):
            self.shift(
                np.clip(self.rng.normal(0.52, 0.12), 0.15, 0.85), self.draw(0.5, 1.4), 0.03
            )
            if self.rng.random() < 0.3:  # a foot is set anew
                back = self.share
                self.shift(float(self.rng.random() < 0.5), 0.35, 0.04)
                self.stand(self.draw(0.1, 0.3))
                self.shift(back, 0.35, 0.04)
            self.stand(self.draw(0.3, 2))

    def lean(self):
        """Some weight on the club, which stands beside the plates."""
        w = np.r_[
            ease(self.draw(0.5, 1)),
            np.ones(int(self.draw(1.5, 5) * GRID_HZ)),
            1 - ease(self.draw(0.5, 1)),
        ]
        self.put(
            self.share + self.rng.normal(0, 0.08) * w, 1 - self.draw(0.02, 0.10) * w, 0.015 * w
        )

    def settling(self, to):
        """Into the address in two shifts."""
        self.shift(to + self.rng.normal(0, 0.02), self.draw(0.5, 1.2))
        self.stand(self.draw(0.1, 0.4))
        self.shift(to, self.draw(0.3, 0.7), 0.01)
