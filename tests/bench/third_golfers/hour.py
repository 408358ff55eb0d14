"""A lesson of one golfer: swings, and what comes before, between and after them."""
from dataclasses import dataclass, field, replace

import numpy as np
from plates import CURVE_HZ

import footwork
from body import limited
from habits import one_swing, some_golfer, some_way
from idling import ACTS, move_to, stand
from swinging import swing_act, swing_of

# What a golfer may look like; who does not is not human, and another is drawn. Shares 0 to 1.
DIP_TO, LOWEST, LOAD, AT_IMPACT = 0.32, 0.12, (0.45, 1.65), 0.30
HANG_BACK = ("reverse", "armsy")  # of the others weight is as far forward at impact as at address
LOST_BEFORE = 0.10  # what may be gone at impact of the most before it,
LOST_AFTER, RECOIL = (-1, 0.15), (0.15, 0.5)  # and what goes in the half second after it
TRIED = 3  # swings of each length that have to look so
NEAR_M = 0.002  # of the place of address


@dataclass
class Scene:
    """Curves so far: pieces of shares in % and of loads in body weights; what happens when."""

    shares: list = field(default_factory=list)
    loads: list = field(default_factory=list)
    named: list = field(default_factory=list)  # (what, from s, to s)
    count: int = 0

    @property
    def now_s(self):
        """The time that the next piece begins at."""
        return self.count / CURVE_HZ

    def add(self, share, load, name=None):
        """A piece; a named one is told of where something is taken for a swing there."""
        starts_s = self.now_s
        self.shares.append(100 * share)
        self.loads.append(load)
        self.count += len(share)
        if name:
            self.named.append((name, starts_s, self.now_s))


def looks_human(golfer):
    """Whether the golfer's swings stay within what people do."""
    rng = np.random.default_rng(1)
    for style in golfer.styles * TRIED:
        act, plan = swing_act(rng, golfer.body, one_swing(rng, style))
        share, load = act.ground(golfer.body)
        impact = int(plan.impact_s * CURVE_HZ)
        lowest, at_impact = share[:impact].min(), share[impact]
        if share[0] - lowest > DIP_TO or lowest < LOWEST or at_impact < AT_IMPACT:
            return False
        if load.max() > LOAD[1] or load.min() < LOAD[0]:
            return False
        lost = RECOIL if style.way == "recoiler" else LOST_AFTER
        if style.way not in HANG_BACK and not goes_forward(share, impact, lost):
            return False
    return True


def goes_forward(share, impact, lost):
    """Whether weight is forward at impact, and no more nor less is lost afterwards."""
    after = share[impact] - share[impact:impact + int(0.5 * CURVE_HZ)].min()
    return (share[impact] >= share[0] and share[:impact].max() - share[impact] < LOST_BEFORE
            and lost[0] <= after < lost[1])


class Hour:
    """A lesson by its seed: `swings` that are true, and the `scene` that holds the curves."""

    def __init__(self, seed, swings):
        self.rng = np.random.default_rng([seed, 3])
        way = some_way(self.rng)
        self.golfer = some_golfer(self.rng, way)
        while not looks_human(self.golfer):
            self.golfer = some_golfer(self.rng, way)
        self.scene, self.swings = Scene(), []
        self.com_m = self.golfer.body.place_m(self.golfer.styles[0].address)
        self.come()
        for number in range(swings):
            self.before_swing()
            self.swing(number)
            self.after_swing()
        self.go()

    @property
    def share(self):
        """Where weight rests now, 0 to 1."""
        return float(limited(0.5 + self.com_m / self.golfer.body.stance_m))

    def act(self, act, name=None):
        """Adds what the body does."""
        self.scene.add(*act.ground(self.golfer.body), name)
        self.com_m = act.com_m[-1]

    def feet(self, loads, name=None):
        """Adds what single feet do."""
        self.scene.add(*footwork.share_and_load(*loads), name)

    def come(self):
        """On the plates, at first or again."""
        self.feet(footwork.nobody(self.rng))
        self.feet(footwork.step_on(self.rng, self.share), "step on")
        self.act(stand(self.rng.uniform(1, 3), self.com_m))

    def go(self):
        """Off the plates, which may be crossed meanwhile."""
        self.feet(footwork.step_off(self.rng, self.share), "step off")
        if self.rng.random() < 0.3:
            self.feet(footwork.walk_over(self.rng), "walk over the plates")
        self.feet(footwork.nobody(self.rng))

    def idle(self, name):
        """Something that the golfer, or somebody else, does."""
        if name == "hop":
            self.feet(footwork.hop(self.rng, self.share), name)
        elif name == "someone's foot on the plates":
            self.feet(footwork.beside(self.rng, self.share), name)
        elif name == "pacing":
            self.feet(footwork.pace(self.rng, self.share), name)
        else:
            style = self.golfer.styles[0]
            self.act(ACTS[name](self.rng, self.golfer.body, self.com_m, style), name)
        self.act(stand(self.rng.uniform(0.3, 1.5), self.com_m))

    def before_swing(self):
        """What may come, then the routine, then address."""
        for name in self.rng.permutation(self.golfer.between)[:self.rng.integers(0, 3)]:
            self.idle(str(name))
        style = self.golfer.styles[self.rng.integers(0, len(self.golfer.styles))]
        self.style = one_swing(self.rng, style)
        address_m = self.golfer.body.place_m(self.style.address)
        self.act(move_to(self.rng, self.golfer.body, self.com_m, address_m))
        for name in self.golfer.before:
            self.idle(name)
        if abs(self.com_m - address_m) > NEAR_M:
            self.act(move_to(self.rng, self.golfer.body, self.com_m, address_m))
        self.act(stand(self.rng.uniform(*self.golfer.still_s), self.com_m))

    def swing(self, number):
        """A shot or a practice swing from where weight is now; the lesson's last one is a shot."""
        golfer = self.golfer
        is_shot = number % 2 == 1 or self.rng.random() > golfer.practice
        style = replace(self.style, address=0.5 + self.com_m / golfer.body.stance_m)
        if is_shot and self.rng.random() < golfer.falls_back:
            fall_m = (style.finish - self.rng.uniform(0.3, 0.55)) * golfer.body.stance_m
            style = replace(style, fall_m=max(0, fall_m), way="falls back")
        steps = self.rng.random() < golfer.steps_through
        act, plan = swing_act(self.rng, golfer.body, style, steps)
        has_jolt = is_shot or self.rng.random() < golfer.brushes
        self.swings.append(swing_of(plan, style, act.ground(golfer.body)[1], self.scene.now_s,
                                    is_shot, has_jolt))
        self.act(act)
        self.held = act
        hold_s = self.rng.uniform(*golfer.hold_s)
        self.act(stand(hold_s, self.com_m, act.arm_rad[-1], act.press[-1]))

    def after_swing(self):
        """The club comes down; the golfer stays, paces, or goes and comes back."""
        body, last = self.golfer.body, self.held
        place_m = self.com_m + self.rng.normal() * 0.01
        self.act(move_to(self.rng, body, self.com_m, place_m, last.arm_rad[-1], last.press[-1]),
                 "club let down")
        if self.rng.random() < self.golfer.leaves:
            self.go()
            self.come()
        elif self.rng.random() < 0.3:
            self.idle("pacing")
