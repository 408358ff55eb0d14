"""A lesson as it grows, and what is done between the swings."""
import numpy as np

from examiners.curves import GRID_HZ
from examiners.sixth.motion import G, bump, clock, second_derivative, step


class Timeline:
    """A growing timeline of load (body weights) and share (%).

    What happened when is in samples of the grid.
    """

    def __init__(self, rng, person):
        self.rng = rng
        self.person = person
        self.draw = rng.uniform
        self.load, self.share, self.length, self.share_now = [], [], 0, 50.0
        self.between, self.swings, self.guests = [], [], []

    def add(self, load, share):
        """Append equally long arrays (either may be a number)."""
        load, share = np.broadcast_arrays(np.asarray(load, float), np.asarray(share, float))
        self.load.append(load)
        self.share.append(share)
        self.length = self.length + load.size
        self.share_now = float(share[-1])

    def still(self, seconds):
        """Standing with the weight where it is."""
        self.add(np.ones(clock(seconds).size), self.share_now)

    def gone(self, low, high):
        """Nobody on the plates, for so many seconds or more."""
        self.add(np.zeros(clock(self.draw(low, high)).size), 50.0)

    def move(self, target, seconds, bob=0.006):
        """Shift to another share; the body bobs a little (closed impulse)."""
        t = clock(seconds)
        z = bob * self.rng.normal() * np.sin(np.pi * t / seconds) ** 4
        self.add(
            1 + second_derivative(z) / G,
            self.share_now + (target - self.share_now) * step(t, 0, seconds),
        )

    def waggle(self):
        """The arms go back a little and return, two to four times."""
        for _ in range(self.rng.integers(2, 5)):
            theta = -np.radians(self.draw(6, 24)) * bump(clock(self.draw(0.5, 1.2)))
            part = self.person.arms_kg / self.person.mass / G
            half_arm = 0.5 * self.person.arm
            pull = (
                (1.08 - self.person.turn_arms)
                * self.person.centre
                / self.person.width
                * part
                * second_derivative(half_arm * np.sin(theta))
            )
            self.add(
                1 - part * second_derivative(half_arm * np.cos(theta)),
                self.share_now - 100 * pull + 2 * theta,
            )

    def rocking(self):
        """From foot to foot, evenly."""
        t = clock(self.draw(3, 8))
        f = self.draw(0.3, 0.75)
        size = min(self.draw(2, 9), 96 - self.share_now)
        e = bump(t) ** 0.25 * np.minimum(1, np.minimum(t, t[-1] - t) / 0.5)
        self.add(
            1 + 0.006 * e * np.sin(4 * np.pi * f * t),
            self.share_now + size * e * np.sin(2 * np.pi * f * t),
        )

    def bending(self):
        """Down for a ball and up again; the load follows the height of the body."""
        t = clock(self.draw(2.3, 4))
        a = self.draw(0.8, 1.1)
        bend = step(t, 0, a) - step(t, t[-1] - a - 0.1, a)
        self.add(
            1 - self.draw(0.10, 0.28) * second_derivative(bend) / G,
            self.share_now + min(self.draw(-14, 14), 96 - self.share_now) * bend,
        )

    def regripping(self):
        """Hands find their grip."""
        t = clock(self.draw(1, 3))
        f = self.draw(1.5, 4)
        self.add(
            1 + 0.004 * bump(t) * np.sin(2 * np.pi * f * t),
            self.share_now + self.draw(0.2, 0.8) * bump(t) * np.sin(2.6 * f * t),
        )

    def off(self):
        """Onto one foot, then off it."""
        self.move(self.rng.choice([3, 97]), self.draw(0.4, 0.8))
        t = clock(self.draw(0.25, 0.45))
        self.add(
            1 + 0.1 * np.sin(np.pi * t / t[-1]) - step(t, 0.05, t[-1] - 0.05),
            100.0 * (self.share_now > 50),
        )

    def on(self):
        """One foot takes the body, then the weight is shared."""
        t = clock(self.draw(0.5, 0.8))
        self.add(
            step(t, 0, 0.3)
            + self.draw(0.04, 0.15) * np.sin(2 * np.pi * t / t[-1]) * step(t, 0.1, 0.2),
            self.rng.choice([0, 100]),
        )
        self.move(self.draw(44, 58), self.draw(0.5, 0.9), 0.012)

    def stepping(self):
        """Off the plates, and on again later."""
        self.off()
        self.gone(0.8, 5)
        self.on()

    def stride(self):
        """Load of one walking step in body weights: two humps."""
        u = np.linspace(0, 1, clock(self.draw(0.6, 0.85)).size)
        return (step(u, 0, 0.25) - step(u, 0.75, 0.25)) * (
            1 + 0.14 * np.cos(4 * np.pi * (u - 0.28))
        )

    def walking(self):
        """Off the plates, across them with a foot on each, and back on."""
        self.off()
        self.gone(0.5, 2)
        first = self.stride()
        second = self.stride()
        gap = round(self.draw(0.42, 0.55) * GRID_HZ)
        a, b = np.zeros((2, gap + second.size + 450))
        a[:first.size], b[gap:gap + second.size] = first, second
        self.add(a + b, 100 * (a, b)[self.rng.integers(2)] / np.maximum(a + b, 1e-6))
        self.gone(0.5, 2)
        self.on()

    def hop(self):
        """Dip, push, flight, landing, recovery; impulses balance."""
        flight = self.draw(0.08, 0.24)
        dip = self.draw(0.3, 0.7)
        give = self.draw(0.2, 0.5)

        def half(length, dv):
            """A push that changes the speed by dv."""
            return dv / G * np.pi / 2 / length * np.sin(np.pi * clock(length) / length)

        v = G * flight / 2
        air = -np.ones(clock(flight).size)
        self.add(
            1
            + np.concatenate(
                [
                    half(0.28, -dip),
                    half(0.3, dip + v),
                    air,
                    half(0.22, v + give),
                    half(0.3, -give),
                ]
            ),
            self.share_now,
        )

    def other_person(self):
        """Somebody else sets a foot on one plate or on both in turn while the golfer stands."""
        kg = self.draw(45, 100)
        side = self.rng.integers(0, 2)
        for k in range(self.rng.integers(1, 3)):
            self.guests.append((self.length, (side + k) % 2, self.stride() * kg * G))
            self.still(0.7)
        self.still(0.6)

    def shuffling(self):
        """Talking: weight wanders, now and then a foot is lifted and put down."""
        for _ in range(self.rng.integers(2, 6)):
            if self.rng.random() < 0.3:
                self.move(self.rng.choice([2, 98]), self.draw(0.4, 0.8), 0.01)
            self.still(self.draw(0.1, 0.4))
            self.move(self.draw(38, 66), self.draw(0.4, 1.6))

    def leaning(self):
        """On the club, which stands beside the plates and carries a part."""
        t = clock(self.draw(1.8, 5.8))
        a = self.draw(0.4, 0.9)
        e = step(t, 0, a) - step(t, t[-1] - a, a)
        self.add(1 - self.draw(0.02, 0.08) * e, self.share_now + self.draw(-6, 6) * e)

    def between_swings(self, names):
        """Does these things one after the other and notes when."""
        for name in names:
            begin = self.length
            getattr(self, name)()
            self.between.append(
                {
                    "name": name.replace("_", " "),
                    "from_s": begin / GRID_HZ,
                    "to_s": self.length / GRID_HZ,
                }
            )
            self.still(self.draw(0.3, 1.0))
