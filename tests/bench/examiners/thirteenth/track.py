"""A lesson as it grows."""
import numpy as np

from examiners.curves import GRID_HZ
from examiners.thirteenth.motion import clock, load_of, step


class Track:
    """The golfer on the grid, and the newtons of others on each plate.

    Lead share in %, load in body weights, CoP by the turn and to the toes in mm.
    """

    def __init__(self, mass):
        self.mass = mass
        self.parts = []
        self.between = []
        self.n = 0
        self.share = 55.0

    def add(self, share, load=1.0, lead_n=0.0, trail_n=0.0, turn_mm=0.0, toe_mm=0.0):
        """Append equally long arrays (any but one may be a number)."""
        rows = np.atleast_1d(share, load, lead_n, trail_n, turn_mm, toe_mm)
        self.parts.append(np.vstack(np.broadcast_arrays(*rows)))
        self.n += self.parts[-1].shape[1]
        self.share = float(self.parts[-1][0, -1])

    def hold(self, seconds, load=1.0):
        """Standing with the weight where it is."""
        self.add(np.full(1 + int(seconds * GRID_HZ), self.share), load)

    def move(self, to, seconds, dip_m=0.0, load_from=1.0, load_to=1.0):
        """Shift to another share.

        Perhaps with a dip of the body, perhaps taking weight on or off the plates.
        """
        u = step(clock(seconds), 0, seconds)
        bob = load_of(-dip_m * (16 * u * u * (1 - u) ** 2)) - 1
        share = self.share + (to - self.share) * u
        self.add(share, load_from + (load_to - load_from) * u + bob)
