#!/usr/bin/python3
"""Tries the nine examiners' golfers: mechanics, the order of events, and truth against files."""
import io
import json
import pathlib
import re
import sys
import tempfile
from dataclasses import dataclass

try:
    import numpy as np
    import scipy  # noqa: F401, the other modules need it
except ImportError as missing:
    print(f"not tried: {missing}; install python3-scipy and run it with /usr/bin/python3")
    sys.exit(0)

sys.path.append(str(pathlib.Path(__file__).resolve().parent.parent))

from examiners.authors import EXAMINERS
from examiners.curves import band_noise, minimum_jerk
from examiners.lesson_files import COLUMNS, LEAST_LOAD_N, RATES_HZ, Made, write_lesson
from examiners.truth import TrueLesson

SEED, LESSONS, SWINGS = 11, 10, 2  # the tenth author takes long over some people, not over these
GRAVITY = 9.80665
SMALL = re.compile("almost still|small half|tiny half|2-3 points|^half [a-z_]+ (shot|practice)$")
STANDS_FROM_N = 200.0  # somebody does, with more than this


@dataclass
class Read:
    """A lesson as its files tell it."""

    columns: dict
    truth: dict

    @property
    def load_n(self):
        """What both plates tell."""
        return self.columns["left_n"] + self.columns["right_n"]

    @property
    def share(self):
        """Of the lead foot in %, where anybody stands."""
        lead = "left_n" if self.truth["hand"] == "right" else "right_n"
        load_n = np.where(self.load_n > STANDS_FROM_N, self.load_n, np.nan)
        return 100 * self.columns[lead] / load_n

    @property
    def weight_n(self):
        """Of the golfer."""
        return self.truth["mass_kg"] * GRAVITY

    def between(self, from_s, to_s):
        """Which samples lie there."""
        return (self.columns["time_s"] >= from_s) & (self.columns["time_s"] < to_s)


def read(folder, name):
    """Both files of a lesson."""
    head, rows = (folder / f"{name}.csv").read_text(encoding="ascii").split("\n", 1)
    known = re.sub(",(?=[,\n])", ",nan", rows)
    columns = np.loadtxt(io.StringIO(known), delimiter=",", unpack=True)
    truth = json.loads((folder / f"{name}.truth.json").read_text(encoding="ascii"))
    return Read(dict(zip(head.split(","), columns)), truth)


def try_curves():
    """A step is as fast as printed and noise is what it is said to be."""
    u = np.linspace(0, 1, 1001)
    assert abs(np.gradient(minimum_jerk(u), u).max() - 1.875) < 1e-3  # 15 / 8, Flash & Hogan 1985
    noise = band_noise(np.random.default_rng(1), 2**20, 0.5, 2, 1.0)
    power = abs(np.fft.rfft(noise)) ** 2
    hertz = np.fft.rfftfreq(noise.size, 1 / 1000)
    assert abs(noise.std() - 1) < 1e-9
    assert power[(hertz < 0.45) | (hertz > 2.05)].sum() < 1e-9 * power.sum()
    lower, upper = (power[(hertz >= low) & (hertz < 2 * low)].sum() for low in (0.5, 1))
    assert abs(lower / upper - 2) < 0.5, lower / upper  # what is left of 1 / f^2


def try_files(folder):
    """An empty cell where there is no place, the digits that an author wants, null."""
    row = (0.5, 400.126, 0.4, -150.0, 12.34, np.nan, np.nan, 1)
    digits = {"time_digits": 3, "load_digits": 3, "place_digits": 1}
    made = Made([np.array([value]) for value in row], {"lowest": None}, **digits, end_of_truth="\n")
    name = write_lesson(folder, 7, made)
    assert name == "lesson_007"
    head, line = (folder / "lesson_007.csv").read_text(encoding="ascii").splitlines()
    assert head == ",".join(COLUMNS) and line == "0.500,400.126,0.400,-150.0,12.3,,,1", line
    truth = (folder / "lesson_007.truth.json").read_text(encoding="ascii")
    assert truth == '{\n "lowest": null\n}\n', truth


def try_true_lesson():
    """What does not exist is no number, and only shots of lessons that have a trigger trigger."""
    told = {"is_shot": True, "kind": "by hand", "takeaway_s": 1.0, "turnaround_s": None,
            "impact_s": 2.1, "finish_s": None, "address": 60.0, "lowest": None, "impact": 75.0,
            "finish": None}
    truth = {"hand": "left", "has_trigger": True, "swings": [told, dict(told, is_shot=False)],
             "between": [{"name": "hop", "from_s": 0.2, "to_s": 0.7}]}
    shot, practice = TrueLesson(truth).swings
    assert shot.triggered and not practice.triggered
    assert shot.has_backswing and not shot.has_one_turnaround
    assert np.isnan([shot.turnaround_s, shot.settled_s, shot.lowest]).all() and shot.onset_s == 1
    assert TrueLesson(truth).scene.named == [("hop", 0.2, 0.7)]
    no_trigger = TrueLesson(dict(truth, has_trigger=False)).swings
    assert not any(swing.triggered for swing in no_trigger)


def try_order(truth):
    """Events follow one another, swings too, and nothing else is done meanwhile."""
    over_s = 0.0
    for swing in truth["swings"]:
        events = [swing[name] for name in ("takeaway_s", "turnaround_s", "impact_s", "finish_s")]
        events = [over_s, *(event for event in events if event is not None)]
        assert events == sorted(set(events)), swing
        assert (swing["turnaround_s"] is None) or (swing["lowest"] is not None), swing
        assert 0.6 < swing["impact_s"] - swing["takeaway_s"] < 1.9, swing  # 0.5 + 0.22 s or more
        over_s = events[-1]
        for one in truth["between"]:
            assert one["from_s"] < one["to_s"], one
            before = one["to_s"] <= swing["takeaway_s"] - 0.5
            assert before or one["from_s"] >= over_s, (swing, one)


def try_shares(lesson):
    """All are parts of a whole; noise of the cells may show a little more or less."""
    known = lesson.share[np.isfinite(lesson.share)]
    assert -1.5 < known.min() and known.max() < 101.5, (known.min(), known.max())
    for swing in lesson.truth["swings"]:
        shares = [swing[name] for name in ("address", "lowest", "impact", "finish")]
        shares = [share for share in shares if share is not None]
        assert 0 <= min(shares) and max(shares) <= 100, swing
        assert swing["lowest"] is None or swing["lowest"] <= swing["impact"] + 1e-6, swing


def try_truth_in_file(lesson):
    """The file shows what is told: weight, and the shares at rest, at the turn and at impact."""
    for swing in lesson.truth["swings"]:
        takeaway_s, impact_s, finish_s = (swing[name] for name in
                                          ("takeaway_s", "impact_s", "finish_s"))
        still = lesson.between(takeaway_s - 0.6, takeaway_s - 0.1)
        assert abs(lesson.share[still].mean() - swing["address"]) < 0.06, swing
        assert abs(lesson.load_n[still].mean() / lesson.weight_n - 1) < 0.005, swing
        if finish_s is not None:
            held = lesson.between(finish_s, finish_s + 0.5)
            assert abs(lesson.share[held].mean() - swing["finish"]) < 0.06, swing
        at_impact = np.interp(impact_s, lesson.columns["time_s"], lesson.share)
        assert abs(at_impact - swing["impact"]) < 0.5, swing
        if swing["turnaround_s"] is not None:
            lowest = lesson.share[lesson.between(takeaway_s, impact_s)].min()
            assert -1.0 < lowest - swing["lowest"] < 0.3, swing


def try_momentum(lesson):
    """From standing still to the finish no speed is gained, though in between some is."""
    for swing in lesson.truth["swings"]:
        over_s = swing["finish_s"] if swing["finish_s"] is not None else swing["impact_s"] + 1.5
        during = lesson.between(swing["takeaway_s"] - 0.2, over_s + 0.5)
        gained = np.cumsum(lesson.load_n[during] / lesson.weight_n - 1)
        speed = gained * GRAVITY / lesson.truth["rate_hz"]
        assert abs(speed[-1]) < 0.05, (swing, speed[-1])
        assert np.ptp(speed) > 0.025, (swing, np.ptp(speed))


def try_columns(lesson):
    """Regular times, no place without load, plates on their sides, and a trigger at each shot."""
    columns, rate = lesson.columns, lesson.truth["rate_hz"]
    assert np.allclose(np.diff(columns["time_s"]), 1 / rate, atol=2e-4)
    for plate, side in (("left", -1), ("right", 1)):
        place = np.isfinite(columns[f"{plate}_cop_x_mm"])
        assert np.array_equal(place, np.isfinite(columns[f"{plate}_cop_y_mm"]))
        load_n = columns[f"{plate}_n"]
        assert load_n[place].min() >= LEAST_LOAD_N - 0.01, load_n[place].min()
        assert load_n[~place].max(initial=0) <= LEAST_LOAD_N + 0.01
        assert side * np.nanmedian(columns[f"{plate}_cop_x_mm"]) > 50
    assert ("trigger" in columns) == lesson.truth["has_trigger"]
    if lesson.truth["has_trigger"]:
        up = columns["time_s"][1:][np.diff(columns["trigger"]) > 0]
        strikes = [swing["impact_s"] for swing in lesson.truth["swings"] if swing["is_shot"]]
        assert len(up) == len(strikes)
        late_s = up - strikes
        assert np.all((late_s > -1e-4) & (late_s < 1 / rate + 1e-4)), late_s


def try_all_sorts(lessons):
    """Both hands, all rates, with triggers and without, shots and practice swings, small ones."""
    truths = [lesson.truth for lesson in lessons]
    swings = [swing for truth in truths for swing in truth["swings"]]
    assert {truth["hand"] for truth in truths} == {"left", "right"}
    assert {truth["rate_hz"] for truth in truths} == set(RATES_HZ)
    assert abs(sum(truth["has_trigger"] for truth in truths) - LESSONS // 2) <= 1
    assert {swing["is_shot"] for swing in swings} == {True, False}
    assert len({swing["kind"] for swing in swings}) > 5
    assert len({one["name"] for truth in truths for one in truth["between"]}) > 7
    masses = [truth["mass_kg"] for truth in truths]
    assert 45 <= min(masses) < 65 and 90 < max(masses) <= 130, masses


def try_small(lessons):
    """A small half swing takes some 2 to 3 points back, besides sway, and hardly more forward."""
    small = [(lesson, swing) for lesson in lessons for swing in lesson.truth["swings"]
             if SMALL.search(swing["kind"])]
    assert small
    for lesson, swing in small:
        share = lesson.share[lesson.between(swing["takeaway_s"], swing["impact_s"])]
        most = 15 if "pressure forward" in swing["kind"] else 8  # the twelfth author's, who press
        assert swing["address"] - share.min() < 4, (swing, share.min())
        assert 1 < np.ptp(share) < most, (swing, np.ptp(share))


def try_seed(author, folder):
    """The same seed makes the same bytes, and another one others."""
    texts = []
    for seed in (SEED, SEED, SEED + 1):
        name = write_lesson(folder, 0, EXAMINERS[author](seed, 0, "ordinary", 1))
        texts.append([(folder / f"{name}{end}").read_bytes() for end in (".csv", ".truth.json")])
    assert texts[0] == texts[1]
    assert texts[0][0] != texts[2][0] and texts[0][1] != texts[2][1]


def main():
    """All trials, of each author's lessons in turn."""
    try_curves()
    try_true_lesson()
    small_from = []
    for author, make_lesson in EXAMINERS.items():
        with tempfile.TemporaryDirectory() as path:
            folder = pathlib.Path(path)
            try_files(folder)
            try_seed(author, folder)
            names = [write_lesson(folder, number, make_lesson(SEED, number, "quiet", SWINGS))
                     for number in range(LESSONS)]
            lessons = [read(folder, name) for name in names]
        for lesson in lessons:
            try_order(lesson.truth)
            try_shares(lesson)
            try_truth_in_file(lesson)
            try_momentum(lesson)
            try_columns(lesson)
        try_all_sorts(lessons)
        small_from += lessons
    try_small(small_from)
    print("the nine examiners' golfers obey mechanics, their files show what their truth tells")


if __name__ == "__main__":
    main()
