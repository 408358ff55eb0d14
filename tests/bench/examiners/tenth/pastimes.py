"""A lesson's commands as they grow, and what is done between the swings."""
import numpy as np

from examiners.tenth.systems import Track


class Timeline:
    """Command tracks of a whole lesson, written from left to right; `t` is the cursor."""

    def __init__(self, rng, person):
        self.rng = rng
        self.person = person
        self.t = rng.uniform(1.5, 3)
        self.swings = []
        self.between = []
        self.guests = []
        self.hops = []
        off = float(rng.random() < 0.5)
        self.hip = Track(rng.uniform(45, 60))
        self.ankle = Track()
        self.leg = Track()
        self.arm = Track()
        self.toe = Track()
        self.lead = Track(1 - off)
        self.trail = Track(1 - off)
        self.out = Track(off)
        if off:
            self.do("stepping on")

    def together(self, rise, *moves, stay=0.0):
        """Move tracks during `rise` seconds, then stay."""
        for track, value in moves:
            track.to(self.t, value, rise)
        self.t += rise + stay

    def do(self, name):
        """Does one of the pastimes and notes when."""
        draw = self.rng.uniform
        start = self.t
        other = draw(40, 110)
        {
            "waggle": lambda: self.fidget(2, 6, -draw(0.08, 0.35), 2.0),
            "regripping": lambda: self.fidget(2, 5, 0.05, 0.8),
            "bending": lambda: self.visit(
                self.rng.normal(0, 7), -draw(0.12, 0.35), draw(10, 45), 0, draw(0.4, 1.6)
            ),
            "leaning on the club": lambda: self.visit(
                self.rng.normal(0, 10), 0, draw(-10, 10), draw(0.03, 0.13), draw(1, 3)
            ),
            "rocking": lambda: self.shift(3, 8, draw(2, 9), 0),
            "shuffling": lambda: self.shift(2, 6, 0, 0.5),
            "hop": lambda: (self.hops.append(self.t), self.together(draw(1.4, 1.8))),
            "stepping on": lambda: self.step(1),
            "stepping off and on": self.leave,
            "walking across": lambda: self.leave(self.person.mass),
            "someone else crossing": lambda: self.leave(other)
            if draw() < 0.6
            else self.cross(other * draw(0.4, 1), 1),
        }[name]()
        self.between.append({"name": name, "from_s": round(start, 3), "to_s": round(self.t, 3)})

    def fidget(self, least, most, angle, press):
        """Pulses of arms and ankles: a waggle, or hands finding their grip."""
        for width in self.rng.uniform(0.2, 0.45, self.rng.integers(least, most)):
            self.arm.pulse(self.t, angle * self.rng.uniform(0.6, 1.2), width)
            self.ankle.pulse(self.t + 0.03, self.rng.normal(0, press), width)
            self.together(self.rng.uniform(width + 0.15, width + 0.5))
        self.t += 0.5

    def visit(self, hip, leg, toe, out, pause):
        """Go somewhere, stay, and come back: down to the ball, or onto the club as a stick."""
        home = self.hip.now
        rise = self.rng.uniform(0.7, 1.3, 2)
        self.together(
            rise[0],
            (self.hip, home + hip),
            (self.leg, leg),
            (self.toe, toe),
            (self.out, out),
            stay=pause,
        )
        self.together(
            rise[1], (self.hip, home), (self.leg, 0), (self.toe, 0), (self.out, 0), stay=0.4
        )

    def shift(self, least, most, rock, lift):
        """From foot to foot: rocking evenly, or shuffling with a foot lifted now and then."""
        home = self.hip.now
        for k in range(self.rng.integers(least, most)):
            if self.rng.random() < lift:
                [self.lead, self.trail][self.rng.integers(2)].pulse(
                    self.t, -self.rng.uniform(0.4, 1.0), 0.3, 0.2
                )
            to = (
                home + (-1) ** k * rock * self.rng.uniform(0.7, 1.2)
                if rock
                else self.hip.now + self.rng.normal(0, 6)
            )
            rest = 0 if rock else self.rng.uniform(0.2, 0.6)
            self.together(self.rng.uniform(0.5, 1.0), (self.hip, np.clip(to, 35, 90)), stay=rest)
        self.together(0.6, (self.hip, home if rock else self.hip.now), stay=0.3)

    def step(self, on):
        """One foot, then the other, on or off; the ground beside the plates carries the rest."""
        feet = [self.lead, self.trail]
        gap = self.rng.uniform(0.5, 0.7) + on * self.rng.uniform(0.1, 0.4)
        self.rng.shuffle(feet)
        self.leg.pulse(self.t + 0.1, self.rng.uniform(-0.02, 0.0), 0.35, 0.1)
        self.out.to(self.t + gap * 0.55, 1 - on, 0.3)
        for foot in feet:
            self.together(0.3, (foot, on), stay=gap - 0.3)
        self.t += 0.4 - gap + 0.5 * on

    def leave(self, walker=None):
        """Off and on again; somebody of a mass may walk across meanwhile."""
        self.step(0)
        self.together(self.rng.uniform(0.6, 3))
        if walker:
            self.cross(walker, 2)
        self.together(self.rng.uniform(0.4, 2))
        self.step(1)

    def cross(self, mass, steps):
        """Somebody's steps on the plates."""
        first = self.rng.integers(2)
        for k, length in enumerate(self.rng.uniform(0.58, 0.8, steps)):
            self.guests.append((int(first + k) % 2, self.t, length, mass))
            self.t += length - 0.12
        self.t += 0.5
