#!/usr/bin/python3
"""Tries the scoring itself: lessons whose truth is told back, rightly and with known faults."""
import copy
import sys

try:
    import numpy as np
    import scipy  # noqa: F401, the other modules need it
except ImportError as missing:
    print(f"not tried: {missing}; install python3-scipy and run it with /usr/bin/python3")
    sys.exit(0)

from measure import AUTHORS
from plates import Setup, centre_of_pressure, record
from score import Score, add_lesson, rows_of

SETUP = Setup(rate_hz=250, hand="left", mass_kg=80, sway=0.5, cell_noise_n=0.0, has_trigger=True,
              columns="cells")
# A lesson of each author's that has shots and practice swings, and turns at an instant.
SEEDS = {"other": 3, "third": 6, "fourth": 8, "fifth": 4}
SLOWLY = ("slow rehearsal", 0.5, 2.5)  # put in by hand: may be told as a swing, or not


def told_back(true):
    """A swing found, as in the JSON, that says what is true; standard uncertainties 10 ms, 1 %."""
    times = {"takeaway": true.onset_s, "turnaround": true.turnaround_s, "impact": true.impact_s,
             "finish": true.settled_s}
    shares = {"address": true.address, "turnaround": true.lowest, "lowest": true.lowest,
              "impact": true.impact, "finish": true.finish}
    return {"events": {name: {"time_s": time_s, "u_s": 0.01} for name, time_s in times.items()},
            "lead_share": {name: {"value": share / 100, "u": 0.01}
                           for name, share in shares.items()}}


def row_named(score, name):
    """One row of the score."""
    return next(row for row in rows_of(score) if row.name == name)


def try_scoring(lesson):
    """The truth is perfect; faults that are put in come out as they are."""
    right = [told_back(true) for true in lesson.swings]
    score = Score()
    add_lesson(score, "right", lesson, right)
    assert len(score.pairs) == len(lesson.swings) and not score.missed and not score.besides
    for row in rows_of(score):
        if row.name != "finish, end":
            assert len(row.errors) > 0 and np.max(abs(row.errors)) < 1e-6, row.name

    wrong = copy.deepcopy(right)
    for found in wrong:
        found["events"]["takeaway"]["time_s"] += 0.03
        found["lead_share"]["lowest"]["value"] -= 0.005
    wrong[0]["events"]["turnaround"] = None
    made_up = told_back(lesson.swings[1])
    made_up["events"]["impact"]["time_s"] = 1.0
    slow = told_back(lesson.swings[2])
    slow["events"]["impact"]["time_s"] = 2.0
    last = wrong.pop()
    last["events"]["impact"]["time_s"] += 0.6
    score = Score()
    add_lesson(score, "wrong", lesson, wrong + [made_up, last])
    lesson.scene.named.append(SLOWLY)
    either = Score()
    add_lesson(either, "either way", lesson, right + [slow])
    assert [time_s for _, time_s, _ in either.either] == [2.0] and not either.besides
    lesson.scene.named.pop()
    assert [true for _, true in score.missed] == lesson.swings[-1:]
    assert sorted(time_s for _, time_s, _ in score.besides)[0] == 1.0 and len(score.besides) == 2
    assert np.allclose(row_named(score, "takeaway").errors, 30)
    assert np.allclose(row_named(score, "lowest share").errors, -0.5)
    lacking = np.isnan(row_named(score, "turnaround").errors).sum()
    assert lacking == int(lesson.swings[0].has_one_turnaround)


def try_plates(lesson, tell):
    """Without noise the plates carry the truth: the lead foot's part of the load, at its times."""
    recording = record(lesson, SETUP, tell)
    left_n, *_ = centre_of_pressure(recording.cells_n[:, :4], "left")
    right_n, *_ = centre_of_pressure(recording.cells_n[:, 4:], "right")
    share = 100 * right_n / np.maximum(left_n + right_n, 1)  # a left-hander leads with the right
    for true in lesson.swings:
        at_turn = np.interp(true.turnaround_s, recording.time_s, share)
        assert abs(at_turn - true.lowest) < 0.05, (at_turn, true)
    strikes = np.flatnonzero(np.diff(recording.trigger) > 0) + 1
    shots = [true.impact_s for true in lesson.swings if true.is_shot]
    late_s = recording.time_s[strikes] - shots
    assert np.all((late_s >= 0) & (late_s < 1 / SETUP.rate_hz)), late_s


def main():
    """Both trials, on one lesson of each author's."""
    for author, (make, tell) in AUTHORS.items():
        lesson = make(SEEDS[author], 9)
        try_plates(lesson, tell)
        try_scoring(lesson)
    print("the truth told back scores as perfect, and faults put in come out as they are")


if __name__ == "__main__":
    main()
