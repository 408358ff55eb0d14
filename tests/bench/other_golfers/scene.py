"""The share and load of a golfer on the plates, put together piece by piece at CURVE_HZ.

Shares in %, loads in body weights, times in s. The order in which numbers are drawn is part of a
seed's meaning.
"""
import numpy as np

from curves import bell, stroke, swell
from golfers import CURVE_HZ


def instants(duration_s):
    """Times of a piece from 0 on."""
    return np.arange(int(duration_s * CURVE_HZ)) / CURVE_HZ


class Scene:
    """What is on the plates so far, and the share that it ended with."""

    def __init__(self, rng):
        self.rng = rng
        self.shares, self.loads = [], []
        self.length = 0
        self.share_now = 0.0
        self.named = []  # (name, from_s, to_s) of what is no swing

    @property
    def time_s(self):
        """The time at the end of what there is so far."""
        return self.length / CURVE_HZ

    def add(self, share, load, name=None):
        """Goes on with a piece: two arrays of one length."""
        begin_s = self.time_s
        self.length += len(share)
        if name:
            self.named.append((name, begin_s, self.time_s))
        self.shares.append(share)
        self.loads.append(load)
        self.share_now = float(share[-1])

    def empty(self, duration_s):
        """Nobody on the plates."""
        nothing = np.zeros(len(instants(duration_s)))
        self.add(50 + nothing, nothing)

    def stand(self, duration_s):
        """Standing with the weight where it is."""
        nothing = np.zeros(len(instants(duration_s)))
        self.add(self.share_now + nothing, 1 + nothing)

    def move_to(self, share, duration_s, name=None):
        """The weight goes to another share while the golfer stands."""
        t = instants(duration_s)
        way = share - self.share_now
        self.add(self.share_now + way * stroke(t, 0, duration_s), 1 + 0 * t, name)

    def step_on(self, share):
        """One foot, then the other, until the share is reached."""
        t = instants(1.6)
        first = self.rng.choice([0, 100])
        load = stroke(t, 0, 0.35, 2.5, 3) + 0.12 * bell(t, 0.35, 0.2, 0.3)
        load = load + 0.06 * bell(t, 1.05, 0.2, 0.3)
        self.add(first + (share - first) * stroke(t, 0.6, 0.7), load, "stepping on")

    def step_on_anywhere(self):
        """On, with 50 to 65 % on the lead foot."""
        self.step_on(self.rng.uniform(50, 65))

    def step_off(self):
        """All weight to one foot, and away from it."""
        t = instants(1.4)
        last = self.rng.choice([0, 100])
        share = self.share_now + (last - self.share_now) * stroke(t, 0, 0.6)
        load = 1 + 0.08 * bell(t, 0.3, 0.25, 0.2) - stroke(t, 0.75, 0.45)
        self.add(share, np.maximum(load, 0), "stepping off")

    def walk(self):
        """Three to six steps on the plates, then standing."""
        rng = self.rng
        steps, step_s = rng.integers(3, 7), rng.uniform(0.5, 0.75)
        t = instants(steps * step_s + 0.8)
        side = rng.choice([0, 1])
        share, place = self.share_now + 0 * t, self.share_now
        for step in range(steps):
            foot = (2.0, 98.0)[(step + side) % 2]
            to_foot = stroke(t, step * step_s, step_s * rng.uniform(0.45, 0.7))
            share += (foot - place) * to_foot
            place = foot
        share += (rng.uniform(48, 60) - place) * stroke(t, steps * step_s, 0.6)
        under_way = swell(t, 0.1, 0.3, steps * step_s, 0.4)
        load = 1 + rng.uniform(0.03, 0.15) * under_way * np.sin(2 * np.pi / step_s * t)
        self.add(share, load, "walking")
        self.stand(rng.uniform(0.5, 1.5))
