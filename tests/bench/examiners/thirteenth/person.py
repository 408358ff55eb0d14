"""Who swings."""
from dataclasses import dataclass

import numpy as np

from examiners.thirteenth import models
from examiners.thirteenth.pastimes import BETWEEN


@dataclass
class Kind:
    """The ranges of a kind of people: shares in %, mass in kg."""

    address: tuple
    dip: tuple
    impact: tuple  # share, for those that steer it
    finish: tuple
    mass: tuple
    tickets: int  # how often there is one


KINDS = {
    models.turner: Kind((69, 80), (3, 9), (82, 92), (86, 96), (55, 105), 3),
    models.swayer: Kind((52, 66), (10, 26), (70, 80), (82, 92), (50, 115), 2),
    models.hanger: Kind((50, 63), (6, 15), (42, 56), (80, 88), (55, 120), 2),
    models.heavy: Kind((60, 74), (5, 14), (74, 84), (81, 90), (98, 130), 2),
    models.early_pusher: Kind((60, 76), (8, 18), (80, 88), (84, 94), (45, 75), 2),
    models.stacker: Kind((62, 74), (0, 0), (82, 90), (88, 96), (50, 120), 1),
    models.late_pusher: Kind((56, 72), (5, 16), (70, 80), (84, 95), (50, 110), 2),
    models.quiet_body: Kind((68, 79), (2.5, 6), (78, 82), (82, 89), (48, 110), 2),
}
DECK = [model for model, kind in KINDS.items() for _ in range(kind.tickets)]


class Person:
    """A body, a tempo and habits for a way of moving."""

    def __init__(self, rng, move):
        draw = rng.uniform
        kind = KINDS[move]
        self.move = move
        self.address = draw(*kind.address)
        self.dip = draw(*kind.dip)
        self.impact = draw(*kind.impact)
        self.finish = draw(*kind.finish)
        self.mass = draw(*kind.mass)
        self.back = draw(0.55, 1.05)
        # points that the arms' acceleration takes from the share, or from some gives it
        kick = draw(0.2, 0.8)
        against = 0.6 if move is models.late_pusher else 0.2
        self.kick = -kick if move is models.stacker or rng.random() < against else kick
        likely = rng.dirichlet(np.full(len(BETWEEN), 2.0))
        self.pastimes = rng.choice(list(BETWEEN), p=likely, size=60)
        self.down = np.clip(self.back / draw(2.1, 3.8), 0.23, 0.44)
        self.travel = draw(0.010, 0.035)
        self.bind = draw(0.45, 0.85)
        least = 0.55 if move in (models.turner, models.swayer) else 0.0
        self.habit = draw(least, 0.95)
        self.quirk = rng.random()
        self.stance = draw(260, 420)  # mm
        self.hold = draw(0.4, 1.5)
        self.still = draw(0.7, 1.8)
        self.ripple = rng.choice([0, 0, draw(0.003, 0.01)])  # body weights
        self.ease = draw(45, 62)  # share
        self.toe = draw(-25, 35)  # mm
        self.fuss = rng.random()  # how often there is a waggle over the ball
