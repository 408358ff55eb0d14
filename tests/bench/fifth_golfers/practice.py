"""An hour's part on the plates: swings, shots and practice swings, and what is done in between.

These golfers are for measuring; only the weights of a swing's signs are fitted to them as well
(swing_odds).
"""
from collections import namedtuple

import numpy as np
from plates import CURVE_HZ

from fifth_golfers import feet, standing
from fifth_golfers.golfer import Golfer, wavered
from fifth_golfers.movement import Movement
from fifth_golfers.shapes import draw_shape
from fifth_golfers.swing import make_swing, recover

STANDING = {
    "waggling": standing.waggle, "rocking": standing.rock, "bending": standing.bend,
    "fidgeting": standing.fidget, "shifting the stance": standing.shift_stance,
    "leaning on the club": standing.lean_on_club, "regripping": standing.regrip,
    "looking at the target": standing.look_at_target, "talking": standing.turn_to_talk,
    "laughing": standing.laugh, "tapping the turf": standing.tap_turf,
    "bouncing": standing.bounce, "shuffling the feet": standing.shuffle_feet,
    "stopping at the top": standing.stop_at_top, "brushing the grass": standing.brush_grass,
    "being pushed": standing.be_pushed,
}
FEET = {
    "stepping off and on": feet.off_and_on, "one foot off": feet.one_foot_off,
    "hopping": feet.hop, "someone crossing": feet.someone_crosses,
    "the coach stepping on": feet.coach_steps_on,
}
SLOWLY = "slow rehearsal"
PASTIMES = (*STANDING, *FEET, SLOWLY)
MOST_BETWEEN = 3  # pastimes between two swings
Scene = namedtuple("Scene", "shares loads named")


def rehearse(rng, style, share):
    """A swing in slow motion, finish and all; people would not agree whether it is one."""
    slower = rng.uniform(2.0, 3.5)
    style = wavered(rng, style, is_shot=False)
    style.push /= slower
    style.hold_s = rng.uniform(0.3, 1)
    movement, _ = make_swing(rng, style, False, slower)
    movement.share += share - movement.share[0]
    return movement


class Practice:
    """A lesson as record() of plates.py wants it: rng, scene and swings."""

    def __init__(self, seed, count):
        self.rng = np.random.default_rng([5, seed])
        self.scene = Scene([], [], [])
        self.swings = []
        self.golfer = Golfer(self.rng)
        self.habits = list(self.rng.permutation(PASTIMES)[:self.rng.integers(7, 14)])
        self.share, self.height_m, self.now_s = self.golfer.styles[0].address, 0.0, 0.0
        self.stand(self.rng.uniform(4, 7))
        for _ in range(count):
            for _ in range(self.rng.integers(0, MOST_BETWEEN + 1)):
                self.pass_time(self.rng.choice(self.habits))
            self.swing()
        self.stand(self.rng.uniform(2, 4))
        self.breathe()

    def add(self, share, load, name=None):
        """Appends what the plates carry, under a name where it is a pastime."""
        self.scene.shares.append(np.clip(share, 0, 100))
        self.scene.loads.append(load)
        from_s = self.now_s
        self.now_s += len(share) / CURVE_HZ
        if name:
            self.scene.named.append((str(name), from_s, self.now_s))

    def move(self, movement, name=None):
        """Appends a movement with both feet down; the golfer stays where it ends."""
        self.add(*movement.ground(), name)
        self.share, self.height_m = movement.share[-1], movement.height_m[-1]

    def stand(self, seconds):
        """Stands."""
        self.move(Movement(seconds, self.share))

    def settle(self, share):
        """Goes to a share in a calm second."""
        seconds = self.rng.uniform(0.5, 1.5)
        movement = Movement(seconds + 0.2, self.share)
        movement.shift(share - self.share, 0, seconds, draw_shape(self.rng, 0.3))
        self.move(movement, "settling")

    def recover(self, share):
        """From the finish or a bend back to a stance."""
        self.move(recover(self.rng, self.share, self.height_m, share), "coming back")

    def pass_time(self, name):
        """One of the pastimes, and a moment of standing after it."""
        rng = self.rng
        if name in STANDING:
            self.move(STANDING[name](rng, self.share), name)
        elif name in FEET:
            self.add(*feet.told_as_share(*FEET[name](rng, self.share)), name)
        else:
            before = self.share
            self.move(rehearse(rng, rng.choice(self.golfer.styles), before), name)
            self.recover(before)
        self.stand(rng.uniform(0.2, 2))
        if not 30 < self.share < 80:
            self.settle(rng.uniform(42, 65))

    def swing(self):
        """Settles, maybe waggles, stands still and swings."""
        rng, golfer = self.rng, self.golfer
        is_shot = bool(rng.random() > golfer.practises)
        style = wavered(rng, golfer.styles[rng.integers(len(golfer.styles))], is_shot)
        self.settle(style.address)
        if rng.random() < golfer.waggles:
            self.move(standing.waggle(rng, self.share), "waggling")
        self.stand(golfer.patience_s * rng.uniform(1, 1.8))
        movement, true = make_swing(rng, style, is_shot)
        true.later(self.now_s)
        self.swings.append(true)
        self.move(movement)
        self.recover(style.address + rng.normal(0, 4))
        self.stand(rng.uniform(0.3, 2.5))

    def breathe(self):
        """Lays breath over everything: some tenths of a point, less where a foot is off."""
        rng = self.rng
        share = np.concatenate(self.scene.shares)
        t = np.arange(len(share)) / CURVE_HZ
        hertz, points = rng.uniform(0.2, 0.33), rng.uniform(0.05, 0.25)
        breath = np.sin(2 * np.pi * hertz * t + 0.7 * np.sin(2 * np.pi * 0.05 * t))
        room = np.minimum(1, np.minimum(share, 100 - share) / 5)
        self.scene.shares[:] = [share + points * breath * room]
        load = np.concatenate(self.scene.loads)
        self.scene.loads[:] = [load * (1 + rng.uniform(0.0003, 0.001) * breath)]
