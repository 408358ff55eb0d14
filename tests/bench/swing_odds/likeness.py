"""How like a movement is to the recording's sure swings, and what that says about its being one.

The same as analysis/swing/swing_likeness.cpp and the choice of sure swings in sure_swings.cpp, but
that a trigger makes nothing sure here, and that a later push is where its reading is.
"""
import numpy as np
from sklearn.linear_model import LogisticRegression

# As in swing_finder.h, swing_finder.cpp, sure_swings.cpp and swing_likeness.h.
SURE, LEAST, FEWEST, MOST, APART_S = 2.5, -6.0, 2, 8, 1.5
SIGNS_COUNT_TO = 6.0  # log odds by the signs alone that are further from 0 count as this
SCALARS = 5  # of a portrait, before the two curves
STRENGTH = 1.0  # of the regression
ALIKE = (-0.2, 0.4, 0.7, 0.85, 1.0)
APART = (0.0, 0.03, 0.08, 0.15, 0.3)
TIMES = (0.0, 0.2, 0.5, 1.0, 2.0)  # of natural logarithms
# Where the line of each may bend, in the order of LikenessSign.
KNOTS = {"load_alike": ALIKE, "share_alike": ALIKE, "address_apart": APART, "rest_apart": APART,
         "push_apart": TIMES, "away_apart": TIMES, "lateness_apart": APART}


def ramps_of(values, knots):
    """From 0 to 1 between each two neighbouring knots."""
    return [np.clip((values - low) / (high - low), 0, 1) for low, high in zip(knots[:-1], knots[1:])]


def likeness(one, others):
    """The median over the others of each sign of likeness; portraits as signs_bench tells them."""
    others = np.stack(others)
    points = (len(one) - SCALARS) // 2
    load, share = slice(SCALARS, SCALARS + points), slice(SCALARS + points, None)
    columns = [others[:, load] @ one[load], others[:, share] @ one[share],
               *np.abs(others[:, :SCALARS] - one[:SCALARS]).T]
    return np.median(np.stack(columns), axis=1)


def likenesses(lesson, by_signs):
    """For each movement its likeness to the sure swings near it, None where it cannot be told."""
    sure = []
    for movement, log_odd in zip(lesson.movements, by_signs):
        if log_odd < SURE or movement.portrait is None:
            continue
        if sure and movement.time_s - sure[-1][0].time_s < APART_S:
            sure[-1] = max(sure[-1], (movement, log_odd), key=lambda one: one[1])
        else:
            sure.append((movement, log_odd))
    told = []
    for movement, log_odd in zip(lesson.movements, by_signs):
        others = [one for one, _ in sure if abs(one.time_s - movement.time_s) > APART_S]
        others.sort(key=lambda one: abs(one.time_s - movement.time_s))
        known = movement.portrait is not None and log_odd >= LEAST and len(others) >= FEWEST
        told.append(likeness(movement.portrait, [one.portrait for one in others[:MOST]]) if known else None)
    return told


class WithLikeness:
    """Log odds by the signs, and by the likeness where it can be told; `by_signs`: an Odds."""

    def __init__(self, lessons, by_signs):
        self.by_signs = by_signs
        true = {}
        for lesson in lessons:
            true[lesson.author] = true.get(lesson.author, 0) + len(lesson.swings)
        rows = []
        for lesson in lessons:
            log_odds = self.signs_of(lesson)
            for movement, log_odd, like in zip(lesson.movements, log_odds, likenesses(lesson, log_odds)):
                swing, weight = lesson.label(movement)
                if weight > 0 and like is not None:
                    rows.append((log_odd, *like, swing, weight * 1000 / true[lesson.author]))
        rows = np.array(rows)
        model = LogisticRegression(C=STRENGTH, max_iter=2000)
        model.fit(self.columns(rows[:, 0], rows[:, 1:-2]), rows[:, -2], sample_weight=rows[:, -1])
        self.first, self.steps = float(model.intercept_[0]), model.coef_[0]

    @staticmethod
    def columns(by_signs, like):
        """What the regression sees."""
        columns = [np.clip(by_signs, -SIGNS_COUNT_TO, SIGNS_COUNT_TO)]
        for values, knots in zip(like.T, KNOTS.values()):
            columns += ramps_of(values, knots)
        return np.stack(columns, axis=1)

    def signs_of(self, lesson):
        """Of each movement, by its signs alone."""
        return self.by_signs.of(np.array([one.signs for one in lesson.movements])) if lesson.movements else []

    def of(self, lesson):
        """Of each movement."""
        log_odds = self.signs_of(lesson)
        for place, like in enumerate(likenesses(lesson, log_odds)):
            if like is not None:
                columns = self.columns(log_odds[place:place + 1], like[None, :])
                beyond = max(0.0, log_odds[place] - SIGNS_COUNT_TO)
                log_odds[place] = self.first + float(columns[0] @ self.steps) + beyond
        return log_odds

    def lines(self):
        """Of the signs' log odds and of each sign of likeness: its name, knots and heights; at first."""
        slope = self.steps[0]
        lines = [("odds_by_signs", (-SIGNS_COUNT_TO, SIGNS_COUNT_TO), (0, 2 * SIGNS_COUNT_TO * slope))]
        steps = np.split(self.steps[1:], np.cumsum([len(knots) - 1 for knots in KNOTS.values()])[:-1])
        for (name, knots), some in zip(KNOTS.items(), steps):
            lines.append((f"odds_by_{name}", knots, np.concatenate([[0], np.cumsum(some)])))
        return lines, self.first - SIGNS_COUNT_TO * slope
