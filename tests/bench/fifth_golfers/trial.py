#!/usr/bin/python3
"""Tries the fifth author's golfers against mechanics, what people can do, and their own truth."""
import pathlib
import sys

try:
    import numpy as np
    import scipy  # noqa: F401, the other modules need it
except ImportError as missing:
    print(f"not tried: {missing}; install python3-scipy and run it with /usr/bin/python3")
    sys.exit(0)

BENCH = pathlib.Path(__file__).resolve().parent.parent
sys.path += [str(BENCH), str(BENCH / "other_golfers")]

from plates import CURVE_HZ, Setup, record

from fifth_golfers import feet, shapes
from fifth_golfers.golfer import Golfer, wavered
from fifth_golfers.movement import GRAVITY, Movement, samples
from fifth_golfers.practice import PASTIMES, STANDING, Practice, rehearse
from fifth_golfers.swing import Swing, is_instant, make_swing, recover, settled_from, tell_truth

SETUP = Setup(rate_hz=500, hand="right", mass_kg=80, sway=0.0, cell_noise_n=0.0, has_trigger=True,
              columns="cells")
LESSONS, SWINGS = 40, 8


def gained(load):
    """The speed that the ground and gravity give together, m/s."""
    return GRAVITY * np.sum(load - 1) / CURVE_HZ


def try_shapes():
    """All go from 0 to 1 and rest there; the smoothest one is as fast and pushes as printed."""
    rng = np.random.default_rng(1)
    u = np.linspace(-1, 2, 3 * 10000 + 1)
    for _ in range(50):
        reach = shapes.draw_shape(rng, 0.3, 0.3)(u)
        assert np.all(reach[u <= 0] == 0) and np.allclose(reach[u >= 1], 1)
        assert -0.13 < reach.min() and reach.max() < 1.16
    speed = np.gradient(shapes.minimum_jerk(u), u)
    assert abs(speed.max() - 1.875) < 1e-3  # 15 / 8, Flash & Hogan 1985
    assert abs(np.gradient(speed, u).max() - 10 / 3**0.5) < 1e-2
    assert abs(shapes.overshooting(u, 0.1).max() - 1.1) < 1e-3
    assert abs(shapes.countering(u, 0.1).min() + 0.1) < 1e-3
    assert abs(shapes.lopsided(np.array([0.4]), 0.4)[0] - 0.5) < 1e-12


def try_newton():
    """A reach of the mass pushes by its acceleration; a leaning club carries its part."""
    movement = Movement(2, 50)
    movement.lift(0.05, 0.5, 0.8)
    _, load = movement.ground()
    assert abs((load.max() - 1) * GRAVITY - 10 / 3**0.5 * 0.05 / 0.8**2) < 1e-3
    movement = Movement(2, 50)
    movement.lean(0.1, 0.5, 0.5)
    assert abs(movement.ground()[1][-1] - 0.9) < 1e-12


def try_impulses():
    """Who stands again got as much from the ground as gravity took, and is as high as before."""
    rng = np.random.default_rng(2)
    for _ in range(40):
        style = rng.choice(Golfer(rng).styles)
        for movement in [make(rng, 55) for make in STANDING.values()] + [rehearse(rng, style, 55)]:
            _, load = movement.ground()
            assert abs(gained(load + movement.elsewhere)) < 1e-3
        for make in STANDING.values():
            assert abs(make(rng, 55).height_m[-1]) < 1e-4, make
        swing, _ = make_swing(rng, wavered(rng, style, True), True)
        after = recover(rng, swing.share[-1], swing.height_m[-1], 50)
        assert abs(gained(swing.ground()[1])) < 1e-6 and abs(gained(after.ground()[1])) < 1e-6
        assert abs(after.height_m[-1]) < 1e-12


def try_hops():
    """Flights last as long as speed at take-off says, and the hop's impulse is nought in all."""
    rng = np.random.default_rng(3)
    for _ in range(40):
        lead, trail = feet.hop(rng, 60)
        load = lead + trail
        assert abs(gained(load)) < 0.02 and load.min() >= -1e-9 and load.max() < 4, load.max()
        flying = np.flatnonzero(load < 1e-9)
        first = np.split(flying, np.flatnonzero(np.diff(flying) > 1) + 1)[0]
        speed = gained(load[:first[0]])
        assert abs(2 * speed / GRAVITY - len(first) / CURVE_HZ) < 0.01


def try_walking():
    """Two feet in turn carry a body: over a stride the mean load is its weight."""
    stance_s, duty = 0.7, 0.62
    stride_s = stance_s / duty
    t = np.arange(samples(stride_s)) / CURVE_HZ
    one = feet.footfall(t, 0, stance_s, 0.35, duty)
    assert abs(2 * one.mean() - 1) < 1e-3
    assert 0.9 < one.max() < 1.25 and one.min() >= 0  # walking's peaks, from memory: 1 to 1.2


def try_feet():
    """Loads on feet are none that pull, start and end with all weight on, and go where told."""
    rng = np.random.default_rng(4)
    makes = (feet.off_and_on, feet.one_foot_off, feet.someone_crosses, feet.coach_steps_on)
    for make in makes * 20:
        lead, trail = make(rng, 60)
        assert min(lead.min(), trail.min()) > -1e-9, make
        for end in (0, -1):
            assert abs(lead[end] - 0.6) < 0.01 and abs(trail[end] - 0.4) < 0.01, (make, end)
        assert np.max(abs(np.diff(lead + trail))) * CURVE_HZ < 60, make  # body weights per s
    share, load = feet.told_as_share(*feet.off_and_on(rng, 60))
    assert load.min() == 0 and np.all(share[load == 0] == 50)


def try_truth():
    """What is planned is told: lowest, shares at events, means at rest, and what is an instant."""
    share = np.full(samples(6), 0.6)
    t = np.arange(len(share)) / CURVE_HZ
    share += -0.1 * shapes.minimum_jerk((t - 2) / 0.8) + 0.3 * shapes.minimum_jerk((t - 2.8) / 0.3)
    swing = Swing("by hand", True, True, True, False, 30, 2, 2.8, 3.0, 3.1, 3.2)
    tell_truth(swing, share, share)
    assert abs(swing.address - 60) < 1e-9 and abs(swing.lowest - 50) < 1e-6
    assert abs(swing.finish - 80) < 1e-6 and abs(swing.turnaround_s - 2.8) < 0.01
    assert abs(swing.impact - 50 - 30 * shapes.minimum_jerk(2 / 3)) < 1e-3

    t = np.arange(samples(0.6)) / CURVE_HZ
    sharp, flat, falling = 300 * (t - 0.3)**2, 30 * (t - 0.3)**2, 9 - 10 * t
    assert is_instant(sharp, int(sharp.argmin())) and not is_instant(flat, int(flat.argmin()))
    assert not is_instant(falling, len(t) - 1)
    twins = np.minimum(300 * (t - 0.15)**2, 300 * (t - 0.45)**2 + 0.05)
    assert not is_instant(twins, int(twins.argmin()))
    reach = shapes.minimum_jerk((t - 0.1) / 0.3)
    done = settled_from(reach, samples(0.05))
    assert reach[done] >= 0.98 > reach[done - 2] and settled_from(np.ones(9), 3) == 3


def try_people(lessons):
    """Times, shares and loads are those of people; the smallest swing moves 2 points."""
    for lesson in lessons:
        load = np.concatenate(lesson.scene.loads)
        for true in lesson.swings:
            back_s, down_s = true.top_s - true.onset_s, true.impact_s - true.top_s
            assert 0.4 < back_s < 1.6 and 0.18 < down_s < 0.6 and 1.6 < back_s / down_s < 5, true
            assert 0.2 < true.settled_s - true.impact_s <= true.end_s - true.impact_s < 1.4, true
            during = load[samples(true.onset_s):samples(true.end_s)]
            assert 1.015 < during.max() < 1.6 and during.min() > 0.4, (true, during.max())
            assert 2 <= true.moved < 90, true
            assert 30 < true.address < 80 and 15 < true.lowest <= true.impact + 1e-9, true


def try_lessons(lessons):
    """Swings are apart and pastimes between them; all kinds come; a seed is a lesson."""
    for lesson in lessons:
        share, load = np.concatenate(lesson.scene.shares), np.concatenate(lesson.scene.loads)
        assert len(share) == len(load) and np.isfinite(share).all() and np.isfinite(load).all()
        assert share.min() >= 0 and share.max() <= 100 and load.min() >= 0
        assert len(lesson.swings) == SWINGS and lesson.swings[0].onset_s > 4
        rest = [(name, from_s, to_s) for name, from_s, to_s in lesson.scene.named]
        for true in lesson.swings:
            around = (true.onset_s - 0.5, true.settled_s + 0.5)
            assert all(to_s <= around[0] or from_s >= around[1] for _, from_s, to_s in rest), true
    names = {name for lesson in lessons for name, *_ in lesson.scene.named}
    assert names == {*PASTIMES, "settling", "coming back"}, names
    swings = [true for lesson in lessons for true in lesson.swings]
    assert len({true.way for true in swings}) == 5
    assert 0.1 < np.mean([true.small for true in swings]) < 0.5
    assert 0.4 < np.mean([true.is_shot for true in swings]) < 0.9
    again = Practice(7, SWINGS)
    assert np.array_equal(again.scene.shares[0], lessons[7].scene.shares[0])


def try_plates(lesson):
    """Without sway or noise the plates show what was planned, at rest and at the turn."""
    recording = record(lesson, SETUP, tell_truth)
    lead_n = recording.cells_n[:, :4].sum(1)
    load_n = recording.cells_n.sum(1)
    for true in lesson.swings:
        still = (recording.time_s > true.onset_s - 0.5) & (recording.time_s < true.onset_s)
        assert abs(100 * lead_n[still].sum() / load_n[still].sum() - true.address) < 0.05
        assert abs(load_n[still].mean() / (SETUP.mass_kg * GRAVITY) - 1) < 0.01
        assert true.triggered == true.is_shot


def main():
    """All trials."""
    for one in (try_shapes, try_newton, try_impulses, try_hops, try_walking, try_feet, try_truth):
        one()
    lessons = [Practice(seed, SWINGS) for seed in range(LESSONS)]
    try_lessons(lessons)
    for lesson in lessons:
        record(lesson, SETUP, tell_truth)
    try_people(lessons)
    try_plates(Practice(8, SWINGS))
    print("the fifth author's golfers obey mechanics, move as people can, and their truth holds")


if __name__ == "__main__":
    main()
