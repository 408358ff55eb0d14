"""Movements that the finder weighs, with the truth of whether they are swings."""
import pathlib
import subprocess
import sys
from dataclasses import dataclass, field
from types import SimpleNamespace

import numpy as np

sys.path.append(str(pathlib.Path(__file__).resolve().parent.parent / "other_golfers"))

import measure
from score import EITHER_WAY

OWN_SEED, WORST = 91000, 10000
# The fourteenth author is kept out, so that there is somebody whom the weights do not know.
SEEDS = {"other": 140000, "third": 120000, "fourth": 160000, "fifth": 180000,
         "sixth": 200000, "seventh": 220000, "eighth": 240000, "ninth": 260000, "tenth": 280000,
         "eleventh": 300000, "twelfth": 320000, "thirteenth": 340000}
AUTHORS = ("own", *SEEDS)
SWING_BEFORE_S, SWING_AFTER_S = 0.5, 0.3  # a movement so near to an impact is that swing
WITHIN_BEFORE_S, WITHIN_AFTER_S = 0.1, 1.0  # of the rest of a swing, which is told less strictly as none
WITHIN_WEIGHT = 0.5
AROUND_S = 0.7
BEFORE_IMPACT_S, AFTER_IMPACT_S = 1.0, 1.0  # where nobody tells when a swing begins or is over


@dataclass
class TrueSwing:
    """When it begins, strikes and is over, s."""

    onset_s: float
    impact_s: float
    end_s: float


@dataclass
class Movement:
    """What the finder weighed: when, whether its rules take it for a swing, its signs."""

    time_s: float
    by_rules: bool
    signs: list
    portrait: np.ndarray = None  # as signs_bench tells it; None where it has none


@dataclass
class Lesson:
    """What is true of a lesson and what was weighed in it."""

    author: str
    noise: str
    swings: list = field(default_factory=list)
    movements: list = field(default_factory=list)
    ambiguous: list = field(default_factory=list)  # (from s, to s) of what counts neither way

    def is_ambiguous(self, time_s):
        """Whether one may call it a swing or not."""
        return any(from_s - AROUND_S < time_s < to_s + AROUND_S for from_s, to_s in self.ambiguous)

    def label(self, movement):
        """1 for a swing and 0 for none, with a weight; weight 0 where it counts neither way."""
        for swing in self.swings:
            if swing.impact_s - SWING_BEFORE_S < movement.time_s < swing.impact_s + SWING_AFTER_S:
                return 1, 1.0
            if swing.onset_s - WITHIN_BEFORE_S < movement.time_s < swing.end_s + WITHIN_AFTER_S:
                return 0, WITHIN_WEIGHT
        return 0, 0.0 if self.is_ambiguous(movement.time_s) else 1.0


def labelled(lessons):
    """Signs [n, signs], swing or none [n], weights [n]; every author counts alike."""
    true = {author: sum(len(one.swings) for one in lessons if one.author == author) for author in AUTHORS}
    rows = [(movement.signs, *lesson.label(movement), 1000 / true[lesson.author])
            for lesson in lessons for movement in lesson.movements]
    signs, swings, weights, by_author = (np.array(column) for column in zip(*rows))
    kept = weights > 0
    return signs[kept], swings[kept], (weights * by_author)[kept]


def words_of(program, *given):
    """The lines that a program prints, in words."""
    done = subprocess.run([program, *map(str, given)], capture_output=True, text=True, check=True)
    return [line.split() for line in done.stdout.splitlines()]


def take_line(movements, words):
    """A line of signs_bench about a movement."""
    if words[0] == "SIGNS":
        movements.append(Movement(float(words[1]), words[2] == "1", [float(word) for word in words[3:]]))
    elif words[0] == "PORTRAIT":
        movements[-1].portrait = np.array(words[1:], dtype=np.float32)


def own_lessons(program, lessons):
    """Of the project's own generators; the names of the signs."""
    names, made = [], []
    for words in words_of(program, "own", lessons, OWN_SEED):
        if words[0] == "NAMES":
            names = words[1:]
        elif words[0] == "LESSON":
            made.append(Lesson("own", words[2]))
        elif words[0] == "TRUE":
            made[-1].swings.append(TrueSwing(*map(float, words[1:])))
        else:
            take_line(made[-1].movements, words)
    return names, made


def span_of(swing):
    """A true swing of another author; NaN where its begin or end is not told."""
    onset_s, end_s = swing.onset_s, swing.end_s
    if np.isnan(onset_s):
        onset_s = swing.impact_s - BEFORE_IMPACT_S
    if np.isnan(end_s):
        end_s = swing.impact_s + AFTER_IMPACT_S
    return TrueSwing(onset_s, swing.impact_s, end_s)


def authors_lesson(bin_folder, folder, author, number, seed, noise):
    """One lesson of another author, imported as a user would."""
    given = SimpleNamespace(program=bin_folder / "footing", golfers=author, seed=seed, noise=noise)
    _, true, recording = measure.import_lesson(given, folder, number)
    lesson = Lesson(author, noise)
    lesson.swings = [span_of(one) for one in true.swings]
    lesson.ambiguous = [(from_s, to_s) for what, from_s, to_s in true.scene.named if what in EITHER_WAY]
    for words in words_of(bin_folder / "tests/bench/signs_bench", recording):
        take_line(lesson.movements, words)
    for file in folder.iterdir():
        file.unlink()
    return lesson


def all_lessons(bin_folder, lessons, folder):
    """The names of the signs, and the lessons of all authors."""
    names, made = own_lessons(bin_folder / "tests/bench/signs_bench", max(1, lessons // 27))
    for author, seed in SEEDS.items():
        for number in range(lessons):
            made.append(authors_lesson(bin_folder, folder, author, number, seed, "ordinary"))
        for number in range(lessons * 2 // 3):
            made.append(authors_lesson(bin_folder, folder, author, number, seed + WORST, "worst"))
    return names, made
