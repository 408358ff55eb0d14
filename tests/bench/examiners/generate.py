#!/usr/bin/python3
"""Writes lessons of an examiner's golfers as files.

generate.py AUTHOR FOLDER --lessons N --seed S --noise quiet|ordinary|worst [--swings 8]

AUTHOR is one of sixth to fourteenth. The same seed makes the same files; lesson_files.py says what
is in them.
"""
import argparse
import pathlib
import sys

sys.path.append(str(pathlib.Path(__file__).resolve().parent.parent))

from examiners.authors import EXAMINERS
from examiners.lesson_files import NOISES, write_lesson


def number_from(least):
    """Reads a whole number from `least` on from the command line."""
    def read(text):
        if not text.isdecimal() or int(text) < least:
            raise argparse.ArgumentTypeError(f"'{text}' is no number from {least} on")
        return int(text)
    return read


def main():
    """Makes one lesson after the other."""
    reader = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    reader.add_argument("author", metavar="AUTHOR", choices=EXAMINERS, help=", ".join(EXAMINERS))
    reader.add_argument("folder", metavar="FOLDER", type=pathlib.Path)
    reader.add_argument("--lessons", type=number_from(1), required=True)
    reader.add_argument("--seed", type=number_from(0), required=True)
    reader.add_argument("--noise", choices=NOISES, required=True)
    reader.add_argument("--swings", type=number_from(1), default=8, help="of each lesson (8)")
    given = reader.parse_args()
    try:
        given.folder.mkdir(parents=True)
    except OSError as problem:
        sys.exit(f"{given.folder}: {problem.strerror}; name a folder that does not exist yet")
    for number in range(given.lessons):
        made = EXAMINERS[given.author](given.seed, number, given.noise, given.swings)
        write_lesson(given.folder, number, made)


if __name__ == "__main__":
    main()
