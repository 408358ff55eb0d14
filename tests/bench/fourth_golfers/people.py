"""Who swings: a golfer's ways and how each swing differs from the last.

Published: tempo near 3:1, 0.7 to 1.0 s back and 0.23 to 0.33 s down, little changed by the length
of a shot (Grober & Cholewicki, physics/0611291); weight at impact is not the same for all (Smith
2019, J Sports Sci 37:2014: even); both Front Foot and Reverse styles at all levels (Ball & Best).
Common practice, no source: wedges with 55 to 65 % and more at address, partial swings 2:1 to 3:1.
From memory: how far load turns before the club, how long a follow-through takes.
"""
from dataclasses import dataclass

import numpy as np

from paths import DRAWN_BY, FAMILIES, Plan
from push import any_push, loads
from strokes import clock

LENGTHS = {"half": 0.55, "three-quarter": 0.8, "full": 1.0}
SMALL = 4.0  # points; a backswing that moves less is a small one
GOES_BACK = 1.0  # points; who moves less has no takeaway to be seen in the share
STYLE = ("back", "ahead", "late", "over", "reverse")


@dataclass
class Swing:
    """What is true of a swing; shares in percent, times in s of the lesson."""

    way: str
    small: bool
    is_shot: bool
    has_jolt: bool
    has_backswing: bool
    has_one_turnaround: bool
    onset_s: float
    impact_s: float
    end_s: float
    planned_turn_s: float
    turnaround_s: float = np.nan
    settled_s: float = np.nan
    address: float = np.nan
    lowest: float = np.nan
    impact: float = np.nan
    finish: float = np.nan
    triggered: bool = False


class Golfer:
    """Somebody with one way of loading, and habits."""

    def __init__(self, rng):
        self.rng = rng
        self.family = rng.choice(FAMILIES)
        self.style = {name: rng.uniform(0, 0.999) for name in STYLE}
        self.address = rng.uniform(60, 85)
        self.backwards = rng.choice(["some", "to trail", "barely", "to lead"],
                                    p=[0.55, 0.22, 0.15, 0.08])
        self.shift = {"some": rng.uniform(4, 20), "to trail": self.address - rng.uniform(25, 45),
                      "barely": rng.uniform(1.0, 3.5), "to lead": rng.uniform(-4, 0)
                      }[self.backwards]
        self.finish = rng.uniform(86, 98)
        self.way_by_impact = rng.uniform(0.55, 0.93)
        self.back_s = rng.uniform(0.55, 1.15)
        self.ratio = rng.uniform(2, 4)
        self.turns_early_s = rng.uniform(0, 0.14)
        self.pause_s = rng.uniform(0.12, 0.3) if rng.random() < 0.08 else 0.0
        self.through_s = rng.uniform(0.55, 1.0)
        self.push = rng.uniform(0.06, 0.6)
        self.steadiness = rng.uniform(0.5, 1.5)  # of the spread from swing to swing
        self.length = rng.choice(list(LENGTHS), p=[0.4, 0.35, 0.25])  # the one of today's task
        self.practises = rng.uniform(0.15, 0.6)
        self.holds_s = rng.uniform(0.8, 2.5)

    def about(self, value, spread):
        """A value that differs from swing to swing by a relative spread."""
        return value * (1 + self.steadiness * spread * self.rng.normal())

    def this_time(self, value, least, most, points):
        """A share that differs from swing to swing, within limits."""
        return float(np.clip(value + self.steadiness * points * self.rng.normal(), least, most))

    def plan(self, length, is_shot):
        """What the golfer means to do this time."""
        size = LENGTHS[length]
        effort = 1 if is_shot else self.rng.uniform(0.8, 1.05)
        back_s = np.clip(self.about(self.back_s * (0.7 + 0.3 * size), 0.03) / effort, 0.5, 1.2)
        down_s = np.clip(back_s / self.about(self.ratio, 0.03), 0.2, 0.4)
        address = self.this_time(self.address, 60, 85, 1.2)
        shift = self.about(self.shift * (0.3 + 0.7 * size), 0.08)
        low = address - (max(2.0, shift) if self.backwards in ("some", "to trail") else shift)
        finish = self.this_time(self.finish - 4 * (1 - size), 85, 98, 0.7)
        by_impact = low + self.about(self.way_by_impact, 0.04) * (finish - low)
        if self.family == "way points" and self.style["reverse"] > 0.85:
            by_impact = min(by_impact, max(low + 8, self.this_time(58, 50, 66, 2)))
        by_impact = min(by_impact, finish - 1.5)
        impact_s = back_s + self.pause_s + down_s
        return Plan(address, float(low), float(by_impact), finish,
                    float(back_s - self.turns_early_s), self.pause_s, float(impact_s),
                    float(impact_s + self.about(self.through_s, 0.06)), self.style)

    def swing(self, start_s, length, is_shot, plan):
        """Share and load from the onset to the end of the hold, and what is known of it now."""
        held_s = self.rng.uniform(0.5, min(3.0, 1.6 * self.holds_s) if is_shot else 1.5)
        t = clock(plan.end_s + held_s)
        size = LENGTHS[length] * (1 if is_shot else self.rng.uniform(0.7, 1))
        height = np.clip(self.about(self.push * size, 0.08), 0.05, 0.6)
        push = any_push(self.rng, height, plan.turn_s, plan.impact_s, plan.end_s)
        dip = plan.address - plan.low
        true = Swing(
            way=f"{self.family}, {self.backwards}, {length}", small=bool(0 <= dip < SMALL),
            is_shot=is_shot, has_jolt=bool(is_shot and self.rng.random() < 0.85),
            has_backswing=bool(dip >= GOES_BACK),
            has_one_turnaround=bool(dip >= GOES_BACK and plan.pause_s == 0),
            onset_s=start_s, impact_s=start_s + plan.impact_s, end_s=start_s + plan.end_s,
            planned_turn_s=start_s + plan.turn_s)
        return DRAWN_BY[self.family](plan, t), loads(push, t, plan.turn_s), true
