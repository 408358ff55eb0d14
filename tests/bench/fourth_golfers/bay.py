"""A lesson in the bay: swings with all that happens between them, on plates at CURVE_HZ."""
from dataclasses import dataclass, field

import numpy as np

from people import LENGTHS, Golfer
from plates import CURVE_HZ
from waiting import IDLE, setting_up, standing, waggling, watching
from walking import AFOOT

# How often each is done where something is done; who swings a club stands about most.
LIKELY = {"standing": 4, "waggling": 3, "rocking": 2, "bouncing": 1, "bending": 4,
          "leaning on the club": 2, "lifting a foot": 1, "setting the feet": 2,
          "turning round": 1.5, "gripping anew": 1.5, "stopping at the top": 1,
          "slow rehearsal": 0.5, "brushing the grass": 0.5, "stepping off and on": 2,
          "walking over": 1, "somebody beside": 0.7, "hopping": 0.7}
ACTS = {**IDLE, **AFOOT}


@dataclass
class Scene:
    """What has happened: pieces of shares (percent) and loads (body weights), and their names."""

    shares: list = field(default_factory=list)
    loads: list = field(default_factory=list)
    named: list = field(default_factory=list)  # (name, from s, to s)
    samples: int = 0

    @property
    def now_s(self):
        """The time that the lesson has come to."""
        return self.samples / CURVE_HZ

    @property
    def share(self):
        """The share that it has come to."""
        return float(self.shares[-1][-1])

    def add(self, share_and_load, name=None):
        """Goes on with shares and loads."""
        from_s = self.now_s
        share, load = share_and_load
        self.shares.append(share)
        self.loads.append(load)
        self.samples += len(share)
        if name:
            self.named.append((name, from_s, self.now_s))

    def rest(self, duration_s):
        """Still for a while."""
        count = int(duration_s * CURVE_HZ)
        self.add((np.full(count, self.share), np.ones(count)))


class Bay:
    """One golfer's lesson: `swings` in order, in a `scene`, of what `rng` draws."""

    def __init__(self, seed, swings):
        self.rng = np.random.default_rng(seed)
        self.golfer = Golfer(self.rng)
        self.scene = Scene()
        self.swings = []
        self.arrive()
        rehearsals = 0
        while len(self.swings) < swings:
            is_shot = rehearsals >= 2 or self.rng.random() > self.golfer.practises
            rehearsals = 0 if is_shot else rehearsals + 1
            self.address(is_shot)
            self.swing(is_shot)
            self.pass_time(is_shot)
        self.scene.rest(2)

    def arrive(self):
        """Stands there from the start, or after stepping off and on."""
        first = np.full(int(self.rng.uniform(1.5, 4) * CURVE_HZ), self.rng.uniform(45, 60))
        self.scene.add((first, np.ones(len(first))), "standing")
        if self.rng.random() < 0.5:
            self.do("stepping off and on")

    def do(self, name):
        """Something of the pastimes, and a moment's rest."""
        self.scene.add(ACTS[name](self.rng, self.scene.share), name)
        self.scene.rest(self.rng.uniform(0.1, 1.0))

    def address(self, is_shot):
        """Weight where the golfer wants it; some waggle; then still."""
        rng, golfer = self.rng, self.golfer
        length = golfer.length if rng.random() < 0.7 else rng.choice(list(LENGTHS))
        self.plan, self.length = golfer.plan(length, is_shot), length
        self.scene.add(setting_up(rng, self.scene.share, self.plan.address), "setting up")
        if rng.random() < 0.4:
            self.scene.rest(rng.uniform(0.1, 0.6))
            self.scene.add(waggling(rng, self.scene.share), "waggling")
        self.scene.rest(rng.uniform(0.7, 2.5))

    def swing(self, is_shot):
        """The swing and its held finish."""
        share, load, true = self.golfer.swing(self.scene.now_s, self.length, is_shot, self.plan)
        self.scene.add((share, load))
        self.swings.append(true)

    def pass_time(self, is_shot):
        """Out of the finish, and whatever comes before the next swing."""
        rng = self.rng
        if is_shot or rng.random() < 0.4:
            self.scene.add(watching(rng, self.scene.share), "watching the ball")
        names, weights = zip(*LIKELY.items())
        chances = np.array(weights) / sum(weights)
        for _ in range(rng.integers(1, 5) if is_shot else rng.integers(0, 2)):
            self.do(rng.choice(names, p=chances))
        if rng.random() < 0.3:
            self.scene.add(standing(rng, self.scene.share), "standing")
