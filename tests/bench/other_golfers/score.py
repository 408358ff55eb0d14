"""Holds the swings that a program found against the true ones: matching, errors, coverage."""
from collections import Counter
from dataclasses import dataclass, field

import numpy as np

MATCH_S = 0.5  # a swing found belongs to the true one whose impact is no further away
# What may be told as a swing or not: people would not agree.
EITHER_WAY = {"slow rehearsal", "brushing the grass"}
NEAR_S = 1.0  # what is told besides is put down to whatever happens this near


@dataclass
class Score:
    """What came of some lessons."""

    pairs: list = field(default_factory=list)  # (true swing, found swing as in the JSON)
    missed: list = field(default_factory=list)  # (lesson's name, true swing)
    besides: list = field(default_factory=list)  # (lesson's name, time in s, what happens there)
    either: list = field(default_factory=list)  # the same where either way is fine


@dataclass
class Row:
    """A row of the table: errors [n] in `unit`, NaN where absent; the stated u [n] alike."""

    name: str
    unit: str
    errors: np.ndarray
    stated: np.ndarray
    meaning: str


def time_of(found):
    """The impact of a swing found, or any of its events where there is none."""
    events = found["events"]
    return (events.get("impact") or next(event for event in events.values() if event))["time_s"]


def add_lesson(score, name, lesson, found):
    """Matches a lesson's swings with those found, each true one with the nearest left."""
    left = list(found)
    for true in lesson.swings:
        near = [one for one in left if abs(time_of(one) - true.impact_s) < MATCH_S]
        if near:
            best = min(near, key=lambda one: abs(time_of(one) - true.impact_s))
            left.remove(best)
            score.pairs.append((true, best))
        else:
            score.missed.append((name, true))
    for one in left:
        told = score.either if is_either_way(lesson, time_of(one)) else score.besides
        told.append((name, time_of(one), what_happens(lesson, time_of(one))))


def is_either_way(lesson, time_s):
    """Whether something goes on that may be called a swing, or not."""
    return any(name in EITHER_WAY and from_s <= time_s <= to_s
               for name, from_s, to_s in lesson.scene.named)


def what_happens(lesson, time_s):
    """The pastimes around a time, or the swing, in words."""
    around = {name for name, from_s, to_s in lesson.scene.named
              if from_s - NEAR_S < time_s < to_s + NEAR_S}
    if any(true.onset_s < time_s < true.end_s + NEAR_S for true in lesson.swings):
        around.add("swinging")
    return " and ".join(sorted(around)) or "standing"


def number(found, group, name, key):
    """One number of a swing found; NaN when it is absent."""
    value = (found[group].get(name) or {}).get(key)
    return np.nan if value is None else value


def event_row(pairs, name, event, true_time, meaning):
    """Errors of an event in ms; `true_time` tells the true time of a true swing in s."""
    errors = [number(found, "events", event, "time_s") - true_time(true) for true, found in pairs]
    stated = [number(found, "events", event, "u_s") for _, found in pairs]
    return Row(name, "ms", 1000 * np.array(errors), 1000 * np.array(stated), meaning)


def share_row(pairs, name, moment, true_share, meaning):
    """Errors of a lead share in points; `true_share` tells the true one of a true swing in %."""
    errors = [100 * number(found, "lead_share", moment, "value") - true_share(true)
              for true, found in pairs]
    stated = [number(found, "lead_share", moment, "u") for _, found in pairs]
    return Row(name, "points", np.array(errors), 100 * np.array(stated), meaning)


def rows_of(score):
    """All rows. Where the truth itself is no instant, a swing is left out."""
    pairs = score.pairs
    backswing = [pair for pair in pairs if pair[0].has_backswing]
    turning = [pair for pair in pairs if pair[0].has_one_turnaround]
    triggered = [pair for pair in pairs if pair[0].triggered]
    plain = [pair for pair in pairs if not pair[0].triggered]
    return [
        event_row(backswing, "takeaway", "takeaway", lambda true: true.onset_s,
                  "onset of the motion; not where no weight goes back"),
        event_row(turning, "turnaround", "turnaround", lambda true: true.turnaround_s,
                  "lowest share under the feet; not where it pauses"),
        event_row(plain, "impact", "impact", lambda true: true.impact_s, "no trigger"),
        event_row(triggered, "impact, trigger", "impact", lambda true: true.impact_s,
                  "with one; half a sample at 100 Hz is 5 ms"),
        event_row(pairs, "finish", "finish", lambda true: true.settled_s,
                  "98 % of the way from impact on is done"),
        event_row(pairs, "finish, end", "finish", lambda true: true.end_s,
                  "the end that the motion was planned with"),
        share_row(pairs, "share at address", "address", lambda true: true.address,
                  "mean of the last 0.5 s before the onset"),
        share_row(pairs, "lowest share", "lowest", lambda true: true.lowest,
                  "lowest from the onset to impact"),
        share_row(turning, "share at turn", "turnaround", lambda true: true.lowest,
                  "the same; not where it pauses"),
        share_row(plain, "share at impact", "impact", lambda true: true.impact, "no trigger"),
        share_row(triggered, "the same, trigger", "impact", lambda true: true.impact, "with one"),
        share_row(pairs, "share at finish", "finish", lambda true: true.finish,
                  "mean of the first 0.5 s of the finish"),
    ]


def line_of(row):
    """A row of the table as text."""
    known = np.isfinite(row.errors)
    if not known.any():
        return f"{row.name:18} {len(row.errors):6} none known; {row.meaning}"
    errors, stated = row.errors[known], row.stated[known]
    within = 100 * np.mean(abs(errors) <= 2 * stated + 1e-9)
    return (f"{row.name:18} {len(row.errors):6} {np.sum(~known):6} {row.unit:>6} "
            f"{errors.mean():7.2f} {np.median(abs(errors)):7.2f} "
            f"{np.percentile(abs(errors), 95):8.2f} {within:6.1f}  {row.meaning}")


def kind(true):
    """A true swing in words."""
    return ("small, " if true.small else "") + true.way


def counts(words, among=None):
    """How often each, the most frequent first; of how many where those are given."""
    total = Counter(among)
    return ", ".join(f"{word} {count}" + (f" of {total[word]}" if among else "")
                     for word, count in Counter(words).most_common()) or "none"


def table(score):
    """The whole table as text, with what its columns mean."""
    true, found = len(score.pairs) + len(score.missed), len(score.pairs) + len(score.besides)
    missed = [kind(one) for _, one in score.missed]
    all_kinds = missed + [kind(one) for one, _ in score.pairs]
    lines = [
        f"recall {100 * len(score.pairs) / true:.2f} %: {len(score.pairs)} of {true} swings found",
        "  missed: " + counts(missed, all_kinds),
        f"precision {100 * len(score.pairs) / max(1, found):.2f} %: "
        f"{len(score.besides)} of {found} told were none",
        "  told while: " + counts(words for _, _, words in score.besides),
        "  counted neither way: " + counts(words for _, _, words in score.either),
        "",
        f"{'':18} swings absent   unit    bias  median      p95  k=2 %  against",
    ]
    lines += [line_of(row) for row in rows_of(score)]
    lines += [
        "",
        "bias: mean of found less true; median, p95: of the errors without their sign;",
        "k=2 %: errors within two of their stated standard uncertainties; absent: not told.",
    ]
    return "\n".join(lines)
