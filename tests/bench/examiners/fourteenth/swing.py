"""One swing, from settling at address to standing at ease again."""
from dataclasses import dataclass

import numpy as np

from examiners.fourteenth.loads import load_path
from examiners.fourteenth.motion import G, held_pchip, hump, lift, way
from examiners.fourteenth.shares import share_path
from examiners.fourteenth.track import LEAD, TRAIL, X, Y

# How long a backswing takes and how far the share falls, against a three-quarter swing; the push
# of the most vigorous, body weights.
LENGTHS = {"half": (0.88, 0.7, 0.12), "three-quarter": (1.0, 1.0, 0.25), "full": (1.06, 1.15, 0.4)}
LOWER_S = 1.1  # arms and club after the hold


@dataclass
class Course:
    """When a swing is where (s); how far the share has gone by then (points since address)."""

    kind: str
    family: str
    takeaway: float
    turn: float
    top: float
    impact: float
    rest: float
    low: float
    at_impact: float
    at_rest: float
    push: float

    @property
    def events(self):
        """Between which the CoP moves."""
        return [self.takeaway, self.top, self.impact, self.rest]


@dataclass
class Swung:
    """A swing as it was made; instants in s."""

    is_shot: bool
    kind: str
    takeaway: float
    impact: float
    finish: float


def course_of(track, takeaway, length, is_small):
    """Draws a swing from the address where the track is."""
    person, draw, rng, a = track.person, track.draw, track.rng, track.level
    tempo, dip, push = LENGTHS["half" if is_small else length]
    back, down = person.times(rng, tempo)
    top, impact = takeaway + back, takeaway + back + down
    turn = takeaway + back * (1 - person.turn_early)
    rest = impact + person.follow * draw(0.85, 1.15)
    fall = np.clip(person.dip * dip * np.exp(rng.normal(0, 0.15)), 2, 40)
    low = max(8 - a, -fall)
    finish = person.finish + rng.normal(0, 1.5) - draw(10, 22) * (rng.random() < 0.05)
    at_rest = np.clip(finish, max(60, a + 2), 97) - a
    at_impact = low + draw(0.5, 0.92) * (at_rest - low)
    push = max(0.04, push * person.vigour * rng.normal(1, 0.1))
    kind, family = f"{length} swing", person.family
    if is_small:
        kind = "small half swing"
        low, at_impact, at_rest = -draw(2, 3), draw(-0.8, 1.5), draw(-0.5, 3)
        push = draw(0.03, 0.1)
    elif a < 78 and rng.random() < person.forward:
        family, at_impact = "forward", draw(0.5, 0.85) * at_rest
    times = (takeaway, turn, top, impact, rest)
    return Course(f"{kind}, {family}", family, *times, low, at_impact, at_rest, push)


def places_of(draw):
    """CoP under each foot at takeaway, top, impact and rest, mm since address."""
    ranges = {
        (LEAD, Y): ((-18, 18), (-30, 20), (-35, 15)),
        (TRAIL, Y): ((-25, 12), (0, 35), (15, 65)),
        (LEAD, X): ((-5, 5), (-4, 8), (-2, 14)),
        (TRAIL, X): ((-5, 8), (0, 10), (0, 15)),
    }
    return {place: [0, *(draw(*ends) for ends in knots)] for place, knots in ranges.items()}


def finish_of(c, share, load, lead_y, size):
    """From when on share, load and the lead foot's CoP stay where they are then held."""
    fine = np.arange(c.impact, c.rest + 4, 0.001)
    from_rest = np.abs(held_pchip(fine, c.events, lead_y) - lead_y[-1])
    moving = (
        (np.abs(share(fine) - c.at_rest) > max(0.3, 0.03 * abs(c.at_rest - c.low)))
        | (np.abs(load(fine)) > 0.01 * G)
        | (size * from_rest > 3)
    )
    return float(fine[np.flatnonzero(np.append(True, moving[:-1]))[-1] + 1])


def with_habits(track, c, path, is_small):
    """A share path, and what this golfer does besides: presses before it, falls back after it."""
    is_forward = c.family == "forward"
    press = track.person.press * (not is_small and not is_forward)
    fall = track.person.fall_back * (not is_small)
    bump = track.draw(0.7, 1) * (c.rest - c.impact)

    def share(t):
        pressed = press * hump(way(t, c.takeaway, 0.25))
        return path(t) + pressed - fall * hump(way(t, c.impact + 0.04, bump))

    return share


def move_places(track, c, places, size, hold_end):
    """The CoP goes with the swing and, after the hold, comes back."""
    for place, knots in places.items():
        track.cop[place].append(lambda t, knots=knots: size * held_pchip(t, c.events, knots))
        track.add(track.cop[place], -size * knots[-1], hold_end, 0.8)


def lower_club(track, hold_end, raised):
    """Back from the finish to standing at ease."""
    seconds = track.draw(0.6, 1.5)
    track.now = hold_end
    track.add(track.accel, -raised / LOWER_S**2, hold_end, LOWER_S, lift)
    track.shift(track.draw(45, 65), seconds)
    track.now += max(LOWER_S, seconds) + track.draw(0.1, 0.8)


def swing(track):
    """Settles, stands still, swings, holds the finish."""
    person, draw, rng = track.person, track.draw, track.rng
    is_small = rng.random() < 0.1
    length = rng.choice(list(LENGTHS), p=[0.3, 0.4, 0.3])
    address, seconds = person.settle(rng)
    track.shift(address, seconds)
    still = np.clip(person.still * draw(0.6, 1.5), 0.7, 2.5)
    c = course_of(track, track.now + seconds + still, length, is_small)
    path = share_path(draw, c)
    load, raised = load_path(rng, person, c)
    share = with_habits(track, c, path, is_small)
    track.share.append(share)
    track.accel.append(load)
    places, size = places_of(draw), 0.3 if is_small else 1
    finish = finish_of(c, share, load, places[LEAD, Y], size)
    hold_end = finish + draw(0.55, 3)
    move_places(track, c, places, size, hold_end)
    is_shot = bool(rng.random() < 0.72)
    strike = c.impact + draw(0.002, 0.006)
    newtons = is_shot * person.ripple_n * draw(0.6, 1.3)
    track.ripples.append((strike, newtons, draw(25, 60), draw(0.012, 0.035)))  # Hz, decay in s
    track.swings.append(Swung(is_shot, c.kind, c.takeaway, c.impact, finish))
    track.level = address + c.at_rest
    lower_club(track, hold_end, raised)
