"""What is done between the swings."""
import numpy as np

from examiners.curves import GRID_HZ
from examiners.thirteenth.motion import G, clock, load_of, step


def to_and_fro(track, rng, *ranges):
    """A few cycles that fade in and out; the body bobs twice a cycle.

    Ranges of seconds, Hz, points and mm of bobbing.
    """
    seconds, hz, points, bob_mm = (rng.uniform(*ends) for ends in ranges)
    t = clock(seconds)
    fade = step(t, 0, seconds / 4) * (1 - step(t, 0.75 * seconds, seconds / 4))
    turn = 2 * np.pi * hz * t + rng.uniform(0, 6)
    share = track.share + min(points, 97 - track.share) * fade * np.sin(turn)
    bob = load_of(bob_mm * 1e-3 * fade * np.cos(2 * turn))
    track.add(share, bob, turn_mm=3 * fade * np.sin(turn))


def waggle(track, rng):
    """Small and quick."""
    to_and_fro(track, rng, (1, 2.8), (0.9, 2), (0.3, 1.8), (0.1, 0.5))


def rocking(track, rng):
    """Wide and slow, from foot to foot."""
    to_and_fro(track, rng, (2.5, 6), (0.3, 0.8), (4, 18), (1, 4))


def bending(track, rng):
    """Down for the ball, mostly over one leg, a moment there, up again."""
    down, stay, up = rng.uniform((0.7, 0.2, 0.8), (1.2, 1.2, 1.3))
    t = clock(down + stay + up)
    low = step(t, 0, down) - step(t, down + stay, up)
    over = rng.choice([rng.uniform(80, 97), rng.uniform(30, 60)])
    share = track.share + (over - track.share) * low
    track.add(share, load_of(-rng.uniform(0.15, 0.35) * low), toe_mm=rng.uniform(10, 40) * low)


def regrip(track, rng):
    """Hands find their grip."""
    for _ in range(rng.integers(2, 7)):
        to = track.share + rng.uniform(-1.5, 1.5)
        track.move(to, rng.uniform(0.3, 0.7), rng.uniform(-1, 1) * 1e-3)


def shuffle(track, rng):
    """Talks; shifts from foot to foot without a rhythm; now and then puts a foot elsewhere."""
    for _ in range(rng.integers(2, 5)):
        track.move(rng.uniform(35, 75), rng.uniform(0.6, 1.6), rng.uniform(-2, 4) * 1e-3)
        track.hold(rng.uniform(0.2, 1.8))
        if rng.random() < 0.35:
            track.move(rng.choice([0.0, 100.0]), rng.uniform(0.3, 0.5), -0.003)
            track.hold(rng.uniform(0.1, 0.4))
            track.move(rng.uniform(45, 62), rng.uniform(0.3, 0.5), -0.003)


def lean(track, rng):
    """Some weight on the club, which stands beside the plates."""
    light = 1 - rng.uniform(0.02, 0.08)
    stay = rng.uniform(1.5, 4)
    track.move(rng.uniform(30, 80), rng.uniform(0.6, 1.2), 0.0, 1.0, light)
    track.hold(stay, light)
    track.move(rng.uniform(45, 60), rng.uniform(0.5, 1.0), 0.0, light, 1.0)


def step_off(track, rng):
    """All on one foot, then none."""
    track.move(rng.choice([0.0, 100.0]), rng.uniform(0.3, 0.6), -0.006)
    track.move(track.share, rng.uniform(0.25, 0.55), 0.0, 1.0, 0.0)


def step_on(track, rng):
    """One foot takes the body, then the weight is shared."""
    track.share = float(rng.choice([0.0, 100.0]))
    track.move(track.share, rng.uniform(0.25, 0.55), 0.0, 0.0, 1.0)
    track.move(rng.uniform(42, 64), rng.uniform(0.35, 0.7), 0.006)


def footfall(track, rng, weight_n, load, on_lead):
    """A walker's foot on one plate: two humps; the golfer (load 0 or 1) stays as he is."""
    t = clock(rng.uniform(0.5, 0.8))
    u = np.pi * t / t[-1]
    push = np.maximum(weight_n * (1.15 * np.sin(u) + 0.35 * np.sin(3 * u)), 0)
    track.add(np.full(t.size, track.share), load, *((push, 0.0) if on_lead else (0.0, push)))


def away(track, rng, steps=0, weight_n=0):
    """Off the plates and on again; in between perhaps somebody walks over them."""
    step_off(track, rng)
    track.hold(rng.uniform(0.6, 2.5), 0.0)
    for on_lead in rng.permutation(2)[:steps]:
        footfall(track, rng, weight_n, 0.0, on_lead)
        track.hold(rng.uniform(0.0, 0.15), 0.0)
    track.hold(rng.uniform(0.4, 2.0), 0.0)
    step_on(track, rng)


def walk_across(track, rng):
    """Off, across the plates, and on again."""
    away(track, rng, 2, track.mass * G)


def someone_crosses(track, rng):
    """Somebody else walks over the empty plates."""
    away(track, rng, 2, rng.uniform(550, 950))


def someones_foot(track, rng):
    """Somebody else treads on a plate while the golfer stands."""
    weight_n = rng.uniform(80, 400)
    footfall(track, rng, weight_n, 1.0, rng.random() < 0.5)


def hops(track, rng):
    """Dip, push, flight, landing; the impulses add up to nothing."""
    for _ in range(rng.integers(1, 4)):
        leave = rng.uniform(0.4, 0.9)  # m/s
        dip = rng.uniform(0.2, 0.4)
        lengths = (220, 260, rng.integers(150, 220))
        down, up, land = (np.sin(np.pi * (np.arange(n) + 0.5) / n) for n in lengths)
        off = leave * GRID_HZ / G
        load = [
            1 - dip * down,
            1 + (off + dip * down.sum()) * up / up.sum(),
            np.zeros(int(2 * off)),
            1 + off * land / land.sum(),
        ]
        track.add(track.share, np.concatenate(load))
        track.hold(rng.uniform(0.25, 0.6))


BETWEEN = {
    "waggle": waggle,
    "rocking": rocking,
    "walking across": walk_across,
    "someone else crosses": someone_crosses,
    "someone else's foot": someones_foot,
    "bending for the ball": bending,
    "regrip": regrip,
    "stepping off and on": away,
    "hops": hops,
    "talking, shuffling": shuffle,
    "leaning on the club": lean,
}


def fidget(track, rng, name):
    """Does one of them and notes when."""
    began = track.n / GRID_HZ
    BETWEEN[name](track, rng)
    track.between.append({"name": name, "from_s": began, "to_s": track.n / GRID_HZ})
