#!/usr/bin/python3
"""Learns what each sign of a movement says about its being a swing, and writes it as a table.

fit.py BIN [--lessons N] [--standing FOLDER] [--table FILE] [--check]

BIN holds footing and, under tests/bench, signs_bench. Makes lessons of thirteen authors' golfers (the
project's own generators, other_golfers, third_golfers and so on, and eight of the nine examiners) at ordinary
and worst noise, asks signs_bench for the signs of every movement that the finder weighs, and fits a
logistic regression on them: for each sign a line through some points, and the sum of all is the log
odds. Then, in the same way, what it says that a movement is like the recording's sure swings
(likeness.py). FILE is analysis/swing/swing_odds_table.h. FOLDER holds recordings of real people who only stand
(standing.py says which and where from): what moves in them is no swing. The table in the repository was
made with them.
--check fits on every second lesson and tells how well the others are told, and then without each author
in turn how well that author's golfers are told.
Needs numpy, scipy and scikit-learn (Debian: python3-sklearn), and takes about half an hour.
"""
import argparse
import pathlib
import sys
import tempfile

try:
    import numpy as np
    from sklearn.linear_model import LogisticRegression
except ImportError as missing:
    print(f"not fitted: {missing}; install python3-sklearn and run it with /usr/bin/python3")
    sys.exit(0)

from likeness import APART_S, WithLikeness
from movements import AUTHORS, all_lessons, labelled
from standing import standing_signs

POINTS = 6  # about, for each sign: quantiles of all movements and of the swings among them
STRENGTH = 0.1  # of the regression; less holds the lines flatter
BY_SIGNS, BY_RULES = 0.5, -1.5  # as log_odds_of_swing and log_odds_with_rules in swing_finder.h
STANDING_WEIGHT = 7.0  # of a movement of somebody real, against about 1 of one of somebody made up
NEAR_S = 0.6  # a true swing is so near


class Odds:
    """Log odds by lines through points: `knots` per sign, `steps` from each to the next."""

    def __init__(self, lessons, standing):
        signs, swings, weights = labelled(lessons)
        self.knots = [knots_of(column, swings) for column in signs.T]
        for others in standing.values():
            signs = np.concatenate([signs, others])
            swings = np.concatenate([swings, np.zeros(len(others))])
            weights = np.concatenate([weights, np.full(len(others), STANDING_WEIGHT)])
        model = LogisticRegression(C=STRENGTH, max_iter=1000)
        model.fit(self.ramps(signs), swings, sample_weight=weights)
        self.steps = np.split(model.coef_[0], np.cumsum([len(knots) - 1 for knots in self.knots])[:-1])
        self.first = float(model.intercept_[0])

    def ramps(self, signs):
        """From 0 to 1 between each two neighbouring knots of each sign."""
        columns = []
        for column, knots in zip(signs.T, self.knots):
            for low, high in zip(knots[:-1], knots[1:]):
                columns.append(np.clip((np.clip(column, knots[0], knots[-1]) - low) / (high - low), 0, 1))
        return np.stack(columns, axis=1)

    def of(self, signs):
        """Of each row of signs."""
        return self.first + self.ramps(signs) @ np.concatenate(self.steps)


def knots_of(column, swings):
    """Where the line of a sign may bend."""
    parts = np.linspace(0.03, 0.97, POINTS // 2 + 1)
    both = np.concatenate([np.quantile(column, parts), np.quantile(column[swings == 1], parts)])
    knots = np.unique(np.round(both, 4))
    return knots if len(knots) > 1 else np.array([knots[0], knots[0] + 1])


def told(lesson, odds):
    """The times of the movements that are told as swings, the likelier one of two that overlap."""
    kept = []
    for movement, log_odd in zip(lesson.movements, odds.of(lesson)):
        if log_odd < (BY_RULES if movement.by_rules else BY_SIGNS):
            continue
        if kept and movement.time_s - kept[-1][0] < APART_S:
            kept[-1] = max(kept[-1], (movement.time_s, log_odd), key=lambda one: one[1])
        else:
            kept.append((movement.time_s, log_odd))
    return [time_s for time_s, _ in kept]


def recall_and_precision(lessons, odds):
    """In %, what is ambiguous counted neither way."""
    right = wrong = true = 0
    for lesson in lessons:
        left = told(lesson, odds)
        true += len(lesson.swings)
        for swing in lesson.swings:
            near = [time_s for time_s in left if abs(time_s - swing.impact_s) < NEAR_S]
            if near:
                left.remove(min(near, key=lambda time_s: abs(time_s - swing.impact_s)))
                right += 1
        wrong += sum(not lesson.is_ambiguous(time_s) for time_s in left)
    return 100 * right / max(1, true), 100 * right / max(1, right + wrong)


def tell(words, lessons, odds):
    """A line for each author and noise."""
    for author, noise in sorted({(lesson.author, lesson.noise) for lesson in lessons}):
        some = [one for one in lessons if (one.author, one.noise) == (author, noise)]
        recall, precision = recall_and_precision(some, odds)
        print(f"{words}: {author}, {noise}: recall {recall:.1f} %, precision {precision:.1f} %")


def tell_standing(words, standing, odds):
    """A line on the likeliest movement of each person who only stands."""
    for trial, signs in standing.items():
        print(f"{words}: {trial}, only standing: log odds of at most "
              f"{odds.by_signs.of(signs).max():.2f}")


def fitted(lessons, standing):
    """By the signs, and then by the likeness."""
    return WithLikeness(lessons, Odds(lessons, standing))


def check(lessons, standing):
    """On lessons, authors and people that were not fitted to."""
    tell("fitted to the other lessons", lessons[1::2], fitted(lessons[::2], standing))
    for author in AUTHORS:
        others = [lesson for lesson in lessons if lesson.author != author]
        tell("fitted to other authors", [one for one in lessons if one.author == author],
             fitted(others, standing))
    for trial in standing:
        others = {other: signs for other, signs in standing.items() if other != trial}
        tell_standing("fitted to other trials", {trial: standing[trial]}, fitted(lessons, others))


def line_of(name, knots, heights):
    """A line through points, as C++."""
    points = ", ".join(f"{{{knot:.4g}, {height:.2f}}}" for knot, height in zip(knots, heights))
    return f"inline constexpr std::array<OddsPoint, {len(knots)}> {name}{{{{{points}}}}};"


def write_table(odds, names, file):
    """As C++; a line's first point counts 0, and so does a movement's whose signs are all there."""
    by_signs = odds.by_signs
    lines = ["#pragma once", "", "#include <array>", "#include <span>", "",
             '#include "analysis/swing/swing_likeness.h"', '#include "analysis/swing/swing_signs.h"', "",
             "// Made by tests/bench/swing_odds/fit.py, which says of what and how; docs/formulas.md, F22. "
             "Not to be changed by hand.", "",
             "namespace footing {", "", "struct OddsPoint {", "    double value;", "    double log_odds;",
             "};", ""]
    for name, knots, steps in zip(names, by_signs.knots, by_signs.steps):
        lines.append(line_of(f"odds_by_{name}", knots, np.concatenate([[0], np.cumsum(steps)])))
    lines += ["", "/// Of a candidate whose every sign is at its first point.",
              f"inline constexpr double odds_at_first = {by_signs.first:.2f};", "",
              "/// In the order of SwingSign.",
              "inline constexpr std::array<std::span<const OddsPoint>, sign_count> odds_by_sign{",
              ", ".join(f"odds_by_{name}" for name in names) + "};", "",
              "/// What the signs alone tell counts so much beside the likeness."]
    likeness, first = odds.lines()
    lines += [line_of(*one) for one in likeness]
    lines += ["", "/// Of a candidate where all of these are at their first points.",
              f"inline constexpr double likeness_odds_at_first = {first:.2f};", "",
              "/// In the order of LikenessSign.",
              "inline constexpr std::array<std::span<const OddsPoint>, likeness_sign_count> "
              "odds_by_likeness{",
              ", ".join(name for name, _, _ in likeness[1:]) + "};", "", "}  // namespace footing", ""]
    file.write_text("\n".join(lines), encoding="utf-8")


def count(lessons):
    """How much was fitted to."""
    _, swings, _ = labelled(lessons)
    true = sum(len(lesson.swings) for lesson in lessons)
    print(f"{len(lessons)} lessons, {true} swings; {int(swings.sum())} movements in them, "
          f"{int((swings == 0).sum())} others")


def main():
    """Makes lessons, fits, and writes or checks."""
    reader = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    reader.add_argument("bin", metavar="BIN", type=pathlib.Path, help="the folder of the build")
    reader.add_argument("--lessons", type=int, default=80, help="of an author at ordinary noise (80)")
    reader.add_argument("--standing", type=pathlib.Path, metavar="FOLDER",
                        help="recordings of people who only stand")
    reader.add_argument("--table", type=pathlib.Path, metavar="FILE", help="write the table here")
    reader.add_argument("--check", action="store_true", help="tell how well others are told")
    given = reader.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        names, lessons = all_lessons(given.bin, given.lessons, pathlib.Path(folder))
        standing = standing_signs(given.bin, given.standing, pathlib.Path(folder)) if given.standing else {}
    if given.check:
        check(lessons, standing)
    count(lessons)
    odds = fitted(lessons, standing)
    tell("fitted to all", lessons, odds)
    tell_standing("fitted to all", standing, odds)
    if given.table:
        write_table(odds, names, given.table)


if __name__ == "__main__":
    main()
