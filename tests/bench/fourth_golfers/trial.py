#!/usr/bin/python3
"""Tries these golfers against mechanics, the limits they promise, and their own truth."""
import pathlib
import sys

try:
    import numpy as np
    import scipy  # noqa: F401, the other modules need it
except ImportError as missing:
    print(f"not tried: {missing}; install python3-scipy and run it with /usr/bin/python3")
    sys.exit(0)

sys.path.append(str(pathlib.Path(__file__).resolve().parent.parent / "other_golfers"))

from bay import ACTS, Bay
from paths import DRAWN_BY, Plan
from people import Golfer
from plates import CURVE_HZ
from push import GRAVITY, any_push, loads, payments
from strokes import clock
from truth import is_instant, settled
from waiting import lowered, springing

BOTH_FEET = ("standing", "waggling", "rocking", "bouncing", "hopping", "gripping anew",
             "setting the feet", "stopping at the top", "brushing the grass")


HALF_S = int(0.5 * CURVE_HZ)


def rise_m(load):
    """How much higher the mass ends, by integrating its acceleration twice."""
    return np.sum(np.cumsum(load - 1)) * GRAVITY / CURVE_HZ**2


def try_push():
    """No speed is left of a push, and the mass ends where its payments say."""
    rng = np.random.default_rng(1)
    for height in (0.05, 0.3, 0.6):
        push = any_push(rng, height, 0.8, 1.1, 1.9)
        load = loads(push, clock(2.4), 0.8)
        gained = GRAVITY * np.sum(load - 1) / CURVE_HZ
        assert abs(gained) < 1e-3, gained
        before, after = payments(push)
        assert abs(before + after - height * push.width_s / 2) < 1e-12
        lifted = push.arms * 0.5 * 0.45 * 0.8 * (0.8 - 0.45 * 0.8)
        wanted = push.rise * height * push.width_s / 2 * (push.after_s - push.before_s) + lifted
        assert abs(rise_m(load) - GRAVITY * wanted) < 2e-3, (rise_m(load), GRAVITY * wanted)
        assert abs(rise_m(load)) < 0.15 and load.min() > 0.3


def try_bending():
    """A mass that goes down by 20 cm in 1 s pushes and is lifted by 5.77 h / T^2 at most."""
    load = lowered(clock(1.4), 0.2, 1.0, 0.2)
    assert abs(rise_m(load) + 0.2) < 1e-3
    assert abs((1 - load.min()) * GRAVITY - 5.7735 * 0.2) < 0.01


def try_springing():
    """A mass that springs leaves no speed, and never pushes more than was said."""
    for hertz in (1.5, 4.0):
        load = springing(clock(3), hertz, 0.1, 0.3)
        assert abs(abs(load - 1).max() - 0.1) < 1e-9 and abs(np.sum(load - 1)) / CURVE_HZ < 1e-3


def try_impulses():
    """Who stays on the plates got as much from the ground as gravity took."""
    for seed in range(30):
        for name in BOTH_FEET:
            _, load = ACTS[name](np.random.default_rng(seed), 55.0)
            gained = GRAVITY * np.sum(load - 1) / CURVE_HZ
            assert abs(gained) < 0.01, (name, seed, gained)


def try_paths():
    """Each family starts and ends where it was told, and keeps still before it begins."""
    style = {"back": 0.4, "ahead": 0.6, "late": 0.5, "over": 0.2, "reverse": 0.1}
    plan = Plan(70, 58, 85, 93, 0.75, 0.0, 1.1, 1.9, style)
    t = clock(2.6)
    paths = {name: draw(plan, t) for name, draw in DRAWN_BY.items()}
    for name, path in paths.items():
        assert abs(path[0] - 70) < 1e-9 and abs(path[-1] - 93) < 0.15, name
        assert abs(path[:20] - 70).max() < 0.05, name
        low = path.argmin() / CURVE_HZ
        assert abs(low - 0.75) < 0.12 and abs(path.min() - 58) < 2.5, (name, low, path.min())
        assert abs(np.diff(path)).max() * CURVE_HZ < 400, name  # points per s
    others = list(paths)
    for one in others:
        for two in others[others.index(one) + 1:]:
            assert abs(paths[one] - paths[two]).max() > 1.5, (one, two)


def try_lessons():
    """Shares, loads and times stay within what is promised, in lessons of many golfers."""
    for seed in range(40):
        lesson = Bay(seed, 8)
        share, load = (np.concatenate(x) for x in (lesson.scene.shares, lesson.scene.loads))
        assert len(share) == len(load) == lesson.scene.samples
        assert share.min() >= 0 and share.max() <= 100, (seed, share.min(), share.max())
        assert load.min() >= 0 and load.max() < 5, (seed, load.min(), load.max())
        lead = share / 100 * load
        for foot in (lead, load - lead):
            # A runner's heel is loaded by some 50 to 100 body weights per s (from memory).
            assert abs(np.diff(foot)).max() * CURVE_HZ < 120, seed
        assert len(lesson.swings) == 8
        for true in lesson.swings:
            onset, impact, end = (int(round(x * CURVE_HZ))
                                  for x in (true.onset_s, true.impact_s, true.end_s))
            assert 60 <= share[onset] <= 85 and 84.5 <= share[end] <= 98.6, (seed, true)
            assert 0.7 <= true.impact_s - true.onset_s <= 1.95
            assert 0.3 < true.end_s - true.impact_s < 1.5
            still = share[onset - HALF_S:onset]
            assert np.ptp(still) < 1e-9, (seed, true)
            held = slice(end, end + HALF_S - 2)
            assert np.ptp(share[held]) < 0.5 and abs(load[held] - 1).max() < 1e-6, (seed, true)
            assert 1.04 < load[onset:end].max() < 1.7, (seed, true)
            gained = GRAVITY * np.sum(load[onset:end] - 1) / CURVE_HZ
            assert abs(gained) < 2e-3, (seed, gained)


def try_golfers():
    """Tempo as published: 0.5 to 1.2 s back, 0.2 to 0.4 s down; all families are drawn."""
    families = set()
    for seed in range(60):
        golfer = Golfer(np.random.default_rng(seed))
        families.add(str(golfer.family))
        for length in ("half", "full"):
            plan = golfer.plan(length, True)
            down_s = plan.impact_s - plan.turn_s - plan.pause_s - golfer.turns_early_s
            assert 0.2 - 1e-9 <= down_s <= 0.4 + 1e-9
            assert 0.5 - 1e-9 <= plan.turn_s + golfer.turns_early_s <= 1.2 + 1e-9
            assert plan.low < plan.by_impact < plan.finish
    assert families == set(DRAWN_BY)


def try_truth():
    """Rest is where 98 % are done; a flat or twofold bottom is no instant."""
    t = clock(1)
    assert settled(np.minimum(t, 0.5)) / CURVE_HZ == 0.49
    dip = 0.7 - 0.1 * np.exp(-((t - 0.6) / 0.1)**2)
    assert is_instant(dip, int(dip.argmin()))
    flat = np.maximum(dip, 0.65)
    assert not is_instant(flat, int(flat.argmin()))
    twice = dip - 0.1 * np.exp(-((t - 0.2) / 0.1)**2)
    assert not is_instant(twice, int(twice.argmin()))
    assert not is_instant(t, 0)


def main():
    """All trials."""
    for one in (try_push, try_bending, try_springing, try_impulses, try_paths, try_lessons,
                try_golfers, try_truth):
        one()
    print("these golfers obey mechanics, keep their limits, and their truth is told as promised")


if __name__ == "__main__":
    main()
