#!/usr/bin/python3
"""How well a program finds and times the swings of golfers that other authors made up.

measure.py PROGRAM [--golfers other|third|fourth|fifth|sixth|seventh|eighth|ninth|tenth|eleventh|
                              twelfth|thirteenth|fourteenth]
           [--lessons N] [--seed S] [--noise quiet|ordinary|worst] [--keep FOLDER]

Makes lessons (ways of swinging, golfers' pastimes, 100 to 1000 Hz, both hands, 45 to 130 kg, every
second one with a trigger) of the second author's golfers (other), of the third one's, whose
shares follow from a body's movements (third), of the fourth one's, who have four ways of loading
(fourth), of the fifth one's, drawn broadly from papers (fifth), or of nine examiners', who had
only the promises of the program before them (../examiners): masses on a body (sixth), scripted
curves (seventh), two feet (eighth), a body as on video (ninth), linear systems (tenth), key poses
(eleventh), a steered mass under a turning trunk (twelfth), a formula for each kind of people
(thirteenth) and sums of terms over time (fourteenth, to whom nothing is ever fitted); when a finish
begins, each of those says in lesson.py. Lets PROGRAM import and analyse each, and prints a table of
the errors. The same seed makes the same lessons.
Needs numpy and scipy (Debian: python3-scipy).
"""
import argparse
import contextlib
import json
import os
import pathlib
import subprocess
import sys
import tempfile

try:
    import numpy as np
    import scipy  # noqa: F401, the other modules need it
except ImportError as missing:
    print(f"not measured: {missing}; install python3-scipy and run it with /usr/bin/python3")
    sys.exit(0)

BENCH = pathlib.Path(__file__).resolve().parent.parent
sys.path += [str(BENCH), str(BENCH / "third_golfers"), str(BENCH / "fourth_golfers")]

import swinging
import truth
from bay import Bay
from examiners.authors import EXAMINERS
from examiners.lesson_files import NOISES, RATES_HZ, write_lesson
from examiners.truth import TrueLesson
from fifth_golfers import swing
from fifth_golfers.practice import Practice
from hour import Hour
from lesson import Lesson, tell_truth
from plates import Setup, record, write_csv, write_layout
from score import Score, add_lesson, table

# Who made the golfers up: a lesson by its seed and number of swings, and who tells what is true.
AUTHORS = {"other": (Lesson, tell_truth), "third": (Hour, swinging.tell_truth),
           "fourth": (Bay, truth.tell_truth), "fifth": (Practice, swing.tell_truth)}
SWINGS = 8


def at_least_one(text):
    """The number of lessons from the command line."""
    if not text.isdecimal() or int(text) < 1:
        raise argparse.ArgumentTypeError(f"'{text}' is no number of lessons; give 1 or more")
    return int(text)


def not_negative(text):
    """The seed from the command line."""
    if not text.isdecimal():
        raise argparse.ArgumentTypeError(f"'{text}' is no seed; give a whole number from 0 on")
    return int(text)


def options():
    """The command line."""
    reader = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    reader.add_argument("program", metavar="PROGRAM", type=pathlib.Path,
                        help="the footing to measure")
    reader.add_argument("--golfers", choices=(*AUTHORS, *EXAMINERS), default="other",
                        help="(other)")
    reader.add_argument("--lessons", type=at_least_one, default=10, help="of 8 swings each (10)")
    reader.add_argument("--seed", type=not_negative, default=880000, help="(880000)")
    reader.add_argument("--noise", choices=NOISES, default="ordinary", help="(ordinary)")
    reader.add_argument("--keep", type=pathlib.Path, metavar="FOLDER",
                        help="leave all files in this new folder, and list the failures")
    given = reader.parse_args()
    if not given.program.is_file():
        reader.error(f"there is no program {given.program}; build it first (./start build)")
    if not os.access(given.program, os.X_OK):
        reader.error(f"{given.program} is no program")
    if given.keep and given.keep.exists():
        reader.error(f"{given.keep} exists; name a folder that does not")
    return given


def setup_of(number, seed, noise):
    """Who stands on which plates in lesson `number`: rates, hands, columns, triggers in turn."""
    sway, cell_noise_n = NOISES[noise]
    return Setup(
        rate_hz=RATES_HZ[number % 5],
        hand=("right", "left")[number // 5 % 2],
        mass_kg=float(np.random.default_rng(seed + number).uniform(45, 130)),
        sway=sway,
        cell_noise_n=cell_noise_n,
        has_trigger=number % 2 == 1,
        columns=("cells", "feet")[number // 2 % 2],
    )


def run(program, *words):
    """Runs a verb of the program; its error ends the measurement."""
    done = subprocess.run([program.resolve(), *words], capture_output=True, text=True)
    if done.returncode != 0:
        command = " ".join(map(str, (program, *words)))
        sys.exit(f"{command}\nended with {done.returncode}: {done.stderr}")


def imported(program, folder, name, hand, *more):
    """The recording that `import` makes of name.csv."""
    lesson = folder / f"{name}.h5"
    run(program, "import", folder / f"{name}.csv", "--out", lesson, "--hand", hand, *more)
    return lesson


def import_simulated(given, folder, number):
    """A lesson of other to fifth on simulated plates: its name, the truth and the recording."""
    golfers, tell = AUTHORS[given.golfers]
    name = f"lesson_{number + 1:03}"
    setup = setup_of(number, given.seed, given.noise)
    lesson = golfers(given.seed + 1000 + number, SWINGS)
    write_csv(folder / f"{name}.csv", record(lesson, setup, tell), setup)
    layout = []
    if setup.columns == "cells":
        layout = ["--layout", folder / f"{name}.layout.json"]
        write_layout(layout[1], setup)
    return name, lesson, imported(given.program, folder, name, setup.hand, *layout)


def import_examined(given, folder, number):
    """The same of an examiner, who makes files, and of whose lessons the seed is that given."""
    made = EXAMINERS[given.golfers](given.seed, number, given.noise, SWINGS)
    name = write_lesson(folder, number, made)
    lesson = TrueLesson(made.truth)
    return name, lesson, imported(given.program, folder, name, lesson.hand)


def import_lesson(given, folder, number):
    """A lesson of the golfers that are given."""
    import_one = import_simulated if given.golfers in AUTHORS else import_examined
    return import_one(given, folder, number)


def analysed(program, recording):
    """The swings that the program finds in a recording, as in its JSON."""
    result = recording.with_suffix(".json")
    run(program, "analyse", recording, "--json", result)
    return json.loads(result.read_text(encoding="utf-8"))["swings"]


def measure(given, folder):
    """All lessons in turn; without --keep their files go as soon as they are scored."""
    score = Score()
    for number in range(given.lessons):
        name, lesson, recording = import_lesson(given, folder, number)
        add_lesson(score, name, lesson, analysed(given.program, recording))
        if not given.keep:
            for file in folder.iterdir():
                file.unlink()
    return score


def failures(score):
    """Where to look in the lessons that were kept."""
    lines = [f"{name}: missed at {true.impact_s:.2f} s ({true.way})" for name, true in score.missed]
    lines += [f"{name}: told at {time_s:.2f} s ({words})" for name, time_s, words in score.besides]
    return "\n".join(sorted(lines))


def main():
    """Measures, and prints the table."""
    given = options()
    if given.keep:
        try:
            given.keep.mkdir(parents=True)
        except OSError as problem:
            sys.exit(f"{given.keep}: {problem.strerror}; name a folder that can be made")
    folder = contextlib.nullcontext(given.keep) if given.keep else tempfile.TemporaryDirectory()
    with folder as path:
        score = measure(given, pathlib.Path(path))
    print(f"{given.golfers} golfers, {given.lessons} lessons, {given.noise} noise, "
          f"seed {given.seed}")
    print(table(score))
    if given.keep:
        print("\n" + failures(score))


if __name__ == "__main__":
    main()
