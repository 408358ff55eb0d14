"""An eleventh author's lessons: key poses joined by easing curves.

A golfer is a handful of key poses (address, lowest, top, plant, finish) of the lead share and
of each foot's CoP; the vertical load is body weight times (1 + a), a being a few raised-cosine
or Gaussian-like pieces. The last two pieces of a swing are solved so that the body neither
flies nor sinks: its impulse is zero and the centre of mass ends a few centimetres higher (arms
up). Shares and the push are placed relative to impact, golfer by golfer: the push peaks 90 ms
before to 10 ms after it. Numbers of the golfers are judgement and memory, no source.

Truth, on a 1 ms grid:
  takeaway    start of the first easing curve and load piece of the swing
  turnaround  lowest true share between takeaway and impact; null (with `lowest`) for swings
              that only press forward, and when it lies within 30 ms of takeaway or impact
  impact      end of the downswing as drawn
  finish      from here on the sway-free share stays within 2 % of the way from impact to the
              finish pose (at least 0.1 points) and the load without noise within 1 % of body
              weight

These golfers are for measuring: they were written blind from the promises of the program. The
weights of the signs of a swing have been fitted to them since.
"""
import numpy as np

from examiners.curves import GRID_HZ
from examiners.eleventh.kinds import KINDS
from examiners.eleventh.pastimes import AWAY, OVER_BALL, named, step_on
from examiners.eleventh.scene import EASES, G, Scene
from examiners.eleventh.swing import swing
from examiners.lesson_files import LEAST_LOAD_N, NOISES, RATES_HZ, Made

# CoP of lead and trail foot at the top, the plant and the finish: x to the target, y to the toes.
FEET_MM = np.array([[(-8, 12), (-4, -8)], [(12, -12), (8, 15)], [(20, -20), (10, 55)]])
CELL_MM = (140.0, 220.0)  # half distances between the four cells of a plate
PLATE_X_MM = 160.0  # a plate's centre is this far from the middle


def wander(rng, n, low_hz, high_hz, corner_hz):
    """Gaussian process of unit SD, n grid samples.

    Between low_hz and high_hz, falling above corner_hz.
    """
    f = np.fft.rfftfreq(n, 1 / GRID_HZ)
    gain = np.where((f >= low_hz) & (f <= high_hz), 1 / (1 + (f / corner_hz) ** 2), 0)
    x = np.fft.irfft(gain * (rng.normal(size=f.size) + 1j * rng.normal(size=f.size)), n)
    return x / x.std()


def play(scene, golfer, swings):
    """A whole lesson as a scene.

    Returns what is known of its swings, and whether the plates are empty at first.
    """
    scene.t = scene.draw(1.5, 4)
    empty = scene.rng.random() < 0.5
    known = []
    if empty:
        scene.now["on"] = 0.0
        step_on(scene)
    for i in range(swings):
        for what in scene.rng.choice(
            AWAY, scene.rng.integers(0 if i == 0 else 1, 3), replace=False
        ):
            named(scene, what)
        scene.shift(golfer["address"] + scene.rng.normal(0, 1.2), 0.8, 1.5)
        scene.feet(scene.t - 0.6, scene.t)
        if scene.rng.random() < 0.6:
            named(scene, scene.rng.choice(OVER_BALL))
        scene.t += scene.draw(0.2, 0.6) + scene.draw(0.7, 2.5)  # settled, then still
        known.append(
            dict(
                swing(scene, golfer, scene.rng.random() < 0.1),
                is_shot=bool(scene.rng.random() < 0.72),
            )
        )
        scene.t += scene.draw(0.6, 3)  # the finish is held
        scene.shift(scene.draw(45, 62), 0.8, 1.6)
        scene.feet(scene.t - 0.8, scene.t)
        scene.t += scene.draw(0.4, 1.2)
    return known, empty


def plate(rng, force, mx, my, centre, cell_n):
    """What a plate's four noisy cells make of a force and its moments.

    [load, CoP x, CoP y], no CoP where the load is too little.
    """
    a, b, c, d = cells = rng.normal(0, cell_n, (4, force.size))
    f = force + cells.sum(0)
    mx = mx + cells.sum(0) * centre + CELL_MM[0] * (a + b - c - d)
    my = my + CELL_MM[1] * (a - b + c - d)
    has_place = f >= LEAST_LOAD_N
    divisor = np.where(has_place, f, 1)
    return [f] + [np.where(has_place, moment / divisor, np.nan) for moment in (mx, my)]


def swing_truth(known, clean, share, load):
    """The truth of a swing from the drawn curves (1 ms grid)."""
    takeaway, hit = (int(round(known[event] * GRID_HZ)) for event in ("t0", "impact"))
    end = int(round((known["end"] + 0.2) * GRID_HZ))  # the catch may outlast the share
    limit = max(0.1, 0.02 * abs(clean[end] - clean[hit]))
    moving = (np.abs(clean[hit:end] - clean[end]) > limit) | (np.abs(load[hit:end]) > 0.01)
    finish = hit + 1 + int(np.flatnonzero(moving)[-1])
    low = takeaway + int(np.argmin(share[takeaway:hit + 1]))
    turns = not known["forward"] and 30 <= low - takeaway and 30 <= hit - low

    def points(value):
        """A share in the truth."""
        return round(float(value), 3)

    return {
        "is_shot": known["is_shot"],
        "kind": known["kind"],
        "takeaway_s": takeaway / GRID_HZ,
        "turnaround_s": low / GRID_HZ if turns else None,
        "impact_s": hit / GRID_HZ,
        "finish_s": finish / GRID_HZ,
        "address": points(share[takeaway - 600:takeaway - 100].mean()),
        "lowest": points(share[low]) if turns else None,
        "impact": points(share[hit]),
        "finish": points(share[finish:finish + 500].mean()),
    }


def draw_golfer(rng, seed, number):
    """What stays with one golfer; the kinds come in turn, each time in another order."""
    order = np.random.default_rng([seed, 999, number // len(KINDS)]).permutation(list(KINDS))
    kind = str(order[number % len(KINDS)])
    golfer = {name: rng.uniform(*limits) for name, limits in KINDS[kind].items()}
    golfer.update(
        kind=kind,
        overlap=rng.uniform(0, 0.25),
        shape=rng.choice(["cosine", "gauss"]),
        feet=rng.normal(FEET_MM, 6),
    )
    return golfer


def shaken(rng, golfer, known, load, t):
    """The load with breath, heart and, with some golfers, the strikes."""
    load = load + rng.uniform(0.0005, 0.0015) * wander(rng, t.size, 0.15, 6, 1.5)
    if rng.random() < 0.4:
        size = rng.uniform(2, 9) / (golfer["mass"] * G)
        hz = rng.uniform(18, 35)
        fade = rng.uniform(0.02, 0.04)
        for one in known:
            if one["is_shot"]:
                x = np.clip(t - one["impact"], 0, None)
                load += size * np.sin(2 * np.pi * hz * x) * np.exp(-x / fade)
    return load


def forces_of(rng, scene, drawn, total, share, hand):
    """Force and moments about the origin of the left and the right plate, [2, 3, n]."""
    n = share.size
    right = np.array([1, -1]) * (-1 if hand == "right" else 1)  # of lead and trail foot
    half_stance = rng.uniform(110, 200)
    forces = np.zeros((2, 3, n))
    carried = (total * share / 100, total * (1 - share / 100))
    for foot, side, f in zip(("lead", "trail"), right, carried):
        x_wander = rng.uniform(0.5, 1.5) * wander(rng, n, 0.1, 2, 0.5)
        x = side * half_stance + right[0] * (drawn[foot + "_x"] + x_wander)
        y = drawn[foot + "_y"] + rng.uniform(1, 3) * wander(rng, n, 0.1, 2, 0.5) - 5
        forces[int(side > 0)] += f, f * x, f * y
    t = np.arange(n) / GRID_HZ
    for plate_number, t0, length, newtons, (x, y) in scene.steps:
        q = np.sin(np.pi * np.clip((t - t0) / length, 0, 1)).clip(0)
        f = newtons * q**0.6 * (1.6 - 0.8 * q**4)  # two humps
        forces[plate_number] += f, f * (x + (2 * plate_number - 1) * PLATE_X_MM), f * y
    return forces


def trigger_of(known, rate, length):
    """Up for 10 ms from the first sample after each strike on."""
    trigger = np.zeros(length, int)
    for one in known:
        first = int(np.ceil(round(one["impact"] * rate, 6)))
        trigger[first:first + max(1, rate // 100)] = one["is_shot"]
    return trigger


def make_lesson(seed, number, noise, swings):
    """One lesson of one golfer."""
    rng = np.random.default_rng([seed, number])
    sway_sd, cell_n = NOISES[noise]
    golfer = draw_golfer(rng, seed, number)
    scene = Scene(rng, str(rng.choice(list(EASES))), golfer["mass"])
    hand = ("right", "left")[(number // 2) % 2]
    rate = RATES_HZ[number % 5]
    has_trigger = number % 2 == 0
    known, empty = play(scene, golfer, swings)
    drawn = scene.render()
    clean = np.clip(drawn["share"], 0, 100)
    t = np.arange(clean.size) / GRID_HZ
    room = np.clip(np.minimum(clean, 100 - clean) / 5, 0, 1)  # no sway to a side without a foot
    sway = room * sway_sd * wander(rng, t.size, 0.1, 1.5, 0.35)
    share = np.clip(clean + sway, 0, 100)
    load = shaken(rng, golfer, known, drawn["load"], t)
    on = np.clip(drawn["on"] - empty, 0, 1)
    total = golfer["mass"] * G * on * np.clip(1 + load, 0, None)
    forces = forces_of(rng, scene, drawn, total, share, hand)
    pick = slice(None, None, GRID_HZ // rate)
    left, right = (
        plate(rng, *forces[i][:, pick], (2 * i - 1) * PLATE_X_MM, cell_n) for i in (0, 1)
    )
    time_s = t[pick]
    columns = [time_s, left[0], right[0], *left[1:], *right[1:]]
    truth = {
        "hand": hand,
        "rate_hz": rate,
        "mass_kg": round(golfer["mass"], 1),
        "has_trigger": has_trigger,
        "swings": [swing_truth(one, clean, share, drawn["load"]) for one in known],
        "between": scene.between,
    }
    trigger = [trigger_of(known, rate, time_s.size)] * has_trigger
    return Made(columns + trigger, truth, time_digits=3, end_of_truth="\n")
