"""What is done between the swings."""
import numpy as np

from examiners.fourteenth.motion import G, cycle, hump, lift, push, within
from examiners.fourteenth.track import LEAD, TRAIL, Y


def waggle(track):
    """The club to and fro."""
    draw = track.draw
    seconds, hz, points = draw(0.8, 3), draw(1, 2.5), draw(0.3, 2)
    load, toe_mm = draw(0.02, 0.15), draw(2, 10)

    def wave(x):
        return np.sin(np.pi * x) * np.sin(2 * np.pi * hz * seconds * x)

    toes = track.cop[track.rng.integers(2), Y]
    for terms, size in ((track.share, points), (track.accel, load), (toes, toe_mm)):
        track.add(terms, size, track.now + draw(0, 0.1), seconds, wave)
    track.now += seconds + 0.1


def rocking(track):
    """From foot to foot; the body bobs twice a turn."""
    hz, points = track.draw(0.3, 0.85), track.draw(3, 18) * track.rng.choice([-1, 1])
    load, turns = track.draw(0.02, 0.2), track.rng.integers(2, 6)

    def fade(x):
        return np.minimum(1, 2 * hump(x))

    def roll(x):
        return fade(x) * np.sin(2 * np.pi * turns * x)

    def bob(x):
        return fade(x) * np.cos(4 * np.pi * turns * x)

    track.add(track.share, points, track.now, turns / hz, roll)
    track.add(track.accel, load, track.now, turns / hz, bob)
    track.now += turns / hz


def bending(track):
    """Down for the ball and up again."""
    draw = track.draw
    depth, down, up = draw(0.15, 0.38), draw(0.7, 1.3), draw(0.7, 1.4)
    stay, reach = draw(0.2, 1.2), draw(15, 50)
    for sign, seconds, after in ((-1, down, stay), (1, up, 0)):
        track.shift(np.clip(track.level + draw(-14, 14), 28, 85), seconds)
        track.add(track.accel, sign * depth / seconds**2, track.now, seconds, lift)
        for foot in (LEAD, TRAIL):
            track.add(track.cop[foot, Y], -sign * reach, track.now, seconds)
        track.now += seconds + after


def regripping(track):
    """Hands find their grip."""
    for _ in range(track.rng.integers(2, 5)):
        seconds = track.draw(0.25, 0.7)
        track.add(track.share, track.draw(-1.5, 1.5), track.now, seconds, hump)
        track.add(track.accel, track.draw(-0.15, 0.15), track.now, seconds, cycle)
        track.now += seconds + track.draw(0, 0.4)


def step_off(track):
    """Onto one foot, then off it."""
    one, other = track.draw(0.35, 0.8), track.draw(0.25, 0.6)
    track.shift(track.rng.choice([0.5, 99.5]), one)
    track.now += one + track.draw(-0.1, 0.3)
    track.add(track.present, -1, track.now, other)
    track.add(track.accel, 0.1, track.now, 0.5, lift)
    track.now += other + track.draw(0, 0.4)


def step_on(track):
    """One foot takes the body, then the weight is shared."""
    one, other = track.draw(0.35, 0.8), track.draw(0.25, 0.6)
    track.shift(track.rng.choice([0.5, 99.5]), 0.01, track.now - 0.05)
    track.add(track.present, 1, track.now, other)
    track.add(track.accel, 0.1, track.now, 0.5, lift)
    track.now += other + track.draw(0, 0.4)
    track.shift(track.draw(40, 65), one)
    track.add(track.accel, -0.1, track.now, 0.5, lift)
    track.now += one


def tread_on(track, feet, kg):
    """Somebody's feet on the plates, one after the other."""
    for plate in track.rng.permutation(2)[:feet]:
        track.now += track.footfall(plate, kg) * track.draw(0.8, 1)
    track.now += track.draw(0.3, 1.5)


def stepping(track, feet=0, kg=0.0):
    """Off the plates and on again; meanwhile somebody may walk over them."""
    step_off(track)
    track.now += track.draw(0.6, 2.5)
    tread_on(track, feet, kg)
    step_on(track)


def walking(track):
    """Off, across the plates, and on again."""
    stepping(track, 2, track.person.mass)


def crossing(track):
    """Somebody else treads on a plate or both, beside the golfer or while he is off."""
    feet = track.rng.integers(1, 3)
    (stepping if track.rng.random() < 0.5 else tread_on)(track, feet, track.stranger_kg)


def hopping(track):
    """Crouch, push, fly, land, stand up, one to three times."""
    for _ in range(track.rng.integers(1, 4)):
        speed = np.sqrt(2 * G * track.draw(0.015, 0.07))
        leave, land = track.draw(0.18, 0.3), track.draw(0.12, 0.22)
        jump, flight = track.now + 0.4, 2 * speed / G
        down = jump + leave + flight
        for size, start, duration, shape in (
            (-speed * leave / 2 / 0.16, track.now, 0.4, lift),
            (speed / leave, jump, leave, push),
            (-G, jump + leave, flight, within),
            (speed / land, down, land, push),
            (speed * land / 2 / 0.25, down + land, 0.5, lift),
        ):
            track.add(track.accel, size, start, duration, shape)
        track.now = down + land + 0.5 + track.draw(0.1, 0.5)


def shuffling(track):
    """Talks, weight here and there; now and then nearly all of it on one foot."""
    draw, rng = track.draw, track.rng
    for _ in range(rng.integers(2, 6)):
        seconds, back = draw(0.4, 1.1), track.level
        if rng.random() < 0.3:
            track.shift(rng.choice([draw(2, 8), draw(92, 98)]), seconds / 2)
            track.now += seconds / 2 + draw(0.1, 0.4)
        track.shift(np.clip(back + draw(-12, 12), 30, 75), seconds)
        track.now += seconds + draw(0, 0.8)


def leaning(track):
    """Some weight on the club, which stands beside the plates."""
    part, seconds = track.draw(0.03, 0.13), track.draw(0.5, 1)
    track.add(track.present, -part, track.now, seconds)
    track.shift(np.clip(track.level + track.draw(-15, 15), 30, 75), seconds)
    track.now += seconds + track.draw(1, 5)
    track.add(track.present, part, track.now, seconds)
    track.now += seconds


# What, and how likely it is.
BETWEEN = {
    "waggle": (waggle, 0.17),
    "rocking": (rocking, 0.1),
    "bending": (bending, 0.17),
    "regripping": (regripping, 0.12),
    "stepping": (stepping, 0.08),
    "walking": (walking, 0.06),
    "hopping": (hopping, 0.05),
    "crossing": (crossing, 0.06),
    "shuffling": (shuffling, 0.12),
    "leaning": (leaning, 0.07),
}


def pause(track):
    """One to three of them, each noted."""
    count = track.rng.integers(1, 4)
    likely = [chance for _, chance in BETWEEN.values()]
    for name in track.rng.choice(list(BETWEEN), count, replace=False, p=likely):
        start = track.now
        BETWEEN[name][0](track)
        track.between.append(
            {"name": str(name), "from_s": round(start, 4), "to_s": round(track.now, 4)}
        )
        track.now += track.draw(0.2, 1)
