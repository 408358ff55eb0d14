"""A lesson as it grows: a sum of terms over time."""
from examiners.curves import minimum_jerk
from examiners.fourteenth.motion import G, cycle, tread, way
from examiners.fourteenth.person import Person

LEAD, TRAIL = 0, 1
X, Y = 0, 1  # to the target and to the toes
FIRST_SHARE = 55.0


class Track:
    """Terms over time, of which there are more as `now` goes on.

    Of the lead share in points, of the body's acceleration in m/s^2, of the part of its weight
    that stands on the plates, and of the CoP under each foot in mm; and who walks over the plates.
    """

    def __init__(self, rng):
        self.rng = rng
        self.draw = rng.uniform
        self.person = Person(rng)
        self.stranger_kg = rng.uniform(50, 110)
        self.standing = rng.random() < 0.4
        self.now = 0.0
        self.level = FIRST_SHARE
        self.share, self.accel = [], []
        self.present = [lambda t: float(self.standing) + 0 * t]
        self.cop = {(foot, axis): [] for foot in (LEAD, TRAIL) for axis in (X, Y)}
        self.visits = []  # plate (0 left, 1 right), load (N) and place (mm) over time
        self.swings, self.between, self.ripples = [], [], []

    def add(self, terms, size, start, duration, shape=minimum_jerk):
        """One more term: size times a shape."""
        terms.append(lambda t: size * shape(way(t, start, duration)))

    def shift(self, target, duration, start=None):
        """The share goes to a level, the load ripples a little; the time does not go on."""
        start = self.now if start is None else start
        change = target - self.level
        self.add(self.share, change, start, duration)
        size = self.draw(-0.25, 0.25) * min(1, abs(change) / 15)
        self.add(self.accel, size, start, duration, cycle)
        self.level = target

    def footfall(self, plate, kg):
        """A walker's foot on a plate from now on, heel to toe; how long it stays."""
        start, duration = self.now, self.draw(0.55, 0.85)
        x, y = (2 * plate - 1) * self.draw(110, 260), self.draw(-70, 70)
        self.visits.append(
            (
                plate,
                lambda t: kg * G * tread(way(t, start, duration)),
                lambda t: (x, y + 120 * way(t, start, duration) - 60),
            )
        )
        return duration
