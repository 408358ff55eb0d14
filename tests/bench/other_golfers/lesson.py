"""A lesson: settling, swinging, what comes between the swings; and what is true of each swing."""
from dataclasses import dataclass

import numpy as np

from golfers import CURVE_HZ, WAYS, make_swing
from pastimes import PASTIMES, SETTLINGS, draw_from, waggle
from scene import Scene

SMALL_SWINGS = 0.1  # one in ten shifts 2 to 3 points only
SHOTS = 0.65  # the others are practice swings
JOLTS = 0.7  # shots whose strike is felt in the plates


@dataclass
class TrueSwing:
    """What is true of a swing: times in s from the lesson's start, shares of the lead foot in %.

    The shares are those under the feet, sway included, without the noise of the plates.
    """

    way: str
    small: bool
    is_shot: bool
    has_jolt: bool
    onset_s: float
    impact_s: float
    end_s: float  # the motion has ended
    held_s: float  # how long the finish is held
    triggered: bool = False
    turnaround_s: float = 0.0
    settled_s: float = 0.0  # 98 % of the way to the finish is done
    address: float = 0.0
    lowest: float = 0.0
    impact: float = 0.0
    finish: float = 0.0

    @property
    def has_backswing(self):
        """Whether the feet can tell a takeaway."""
        return self.way != "no backswing"

    @property
    def has_one_turnaround(self):
        """Whether the lowest share is an instant, and not a pause or all of the backswing."""
        return self.way not in ("no backswing", "pause at the top")


class Lesson:
    """A lesson of so many swings, as curves without noise."""

    def __init__(self, seed, swings):
        self.rng = np.random.default_rng(seed)
        self.scene = Scene(self.rng)
        self.swings = []
        self.way_number = None
        self.scene.empty(self.rng.uniform(3, 4.5))
        self.scene.step_on_anywhere()
        for _ in range(swings):
            self.settle()
            self.swing()
            self.leave_the_finish()
            for _ in range(self.rng.integers(0, 3)):
                draw_from(self.rng, PASTIMES)(self.scene)
                self.scene.stand(self.rng.uniform(0.4, 1.5))
        self.scene.step_off()
        self.scene.empty(2.0)

    def settle(self):
        """The golfer takes the address; in six of ten with waggles; and stands still."""
        rng = self.rng
        address = rng.uniform(70, 80) if rng.random() < 0.8 else rng.uniform(52, 70)
        draw_from(rng, SETTLINGS)(self.scene, address)
        if rng.random() < 0.6:
            waggle(self.scene)
        self.scene.stand(rng.uniform(0.6, 2.5))

    def next_way(self):
        """The ways of swinging in turn, from any of them on."""
        first = int(self.rng.integers(0, len(WAYS)))  # drawn each time: so are seeds understood
        self.way_number = (first if self.way_number is None else self.way_number) + 1
        return list(WAYS)[self.way_number % len(WAYS)]

    def swing(self):
        """One swing, its finish held for a while."""
        rng, scene = self.rng, self.scene
        way = self.next_way()
        small = rng.random() < SMALL_SWINGS and way != "no backswing"
        swing, t, share, load = make_swing(rng, way, small, scene.share_now)
        held_s = rng.uniform(0.5, 2.0)
        is_shot = bool(rng.random() < SHOTS)
        has_jolt = bool(is_shot and rng.random() < JOLTS)
        onset_s = scene.time_s
        self.swings.append(TrueSwing(way, small, is_shot, has_jolt, onset_s,
                                     swing.impact_s + onset_s, swing.finish_s + onset_s, held_s))
        kept = (t >= 0) & (t < swing.finish_s + held_s)
        scene.add(share[kept], load[kept])

    def leave_the_finish(self):
        """Relaxing where one stands, or walking, or going away."""
        rng, scene = self.rng, self.scene
        chance = rng.random()
        if chance < 0.45:
            scene.move_to(rng.uniform(45, 60), rng.uniform(1.0, 2.0), "relaxing")
            scene.stand(rng.uniform(0.5, 2))
        elif chance < 0.75:
            scene.walk()
        else:
            scene.step_off()
            scene.empty(rng.uniform(1.5, 3.5))
            scene.step_on_anywhere()
            scene.stand(rng.uniform(0.5, 1.5))


def tell_truth(swing, motion, share):
    """Completes the truth of a swing.

    `motion` is the share that the golfer intends, `share` the one with sway (arrays at CURVE_HZ, 0
    to 1). The lowest share is looked for from 0.1 s after the onset to impact.
    """
    onset, impact = int(swing.onset_s * CURVE_HZ), int(round(swing.impact_s * CURVE_HZ))
    end = int(swing.end_s * CURVE_HZ)
    held = int((swing.end_s + min(0.5, swing.held_s)) * CURVE_HZ)
    begin = onset + int(0.1 * CURVE_HZ)
    turn = begin + np.argmin(share[begin:impact + 1])
    swing.turnaround_s = turn / CURVE_HZ
    swing.address = 100 * share[onset - int(0.5 * CURVE_HZ):onset].mean()
    swing.lowest = 100 * share[turn]
    swing.impact = 100 * share[impact]
    swing.finish = 100 * share[end:held].mean()
    at_rest = motion[end + 10]
    from_turn = abs(motion[begin:impact + 1].min() - at_rest)
    way = max(abs(motion[impact] - at_rest), from_turn)
    away = np.nonzero(abs(motion[impact:held] - at_rest) > 0.02 * way)[0]
    swing.settled_s = (impact + (away[-1] if len(away) else 0)) / CURVE_HZ
