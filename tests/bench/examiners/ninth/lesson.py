"""A ninth author's lessons: golfers as a video would show them.

A hanging mass (arms, hinged club) swings about the shoulder hub, a body shifts sideways, knees
bend and stretch. What the plates feel follows by Newton: load = weight + sum(m * upward
acceleration), which closes by itself, as the golfer is at rest before and after; share = where
the common centre of mass is between the feet, less a part (`whip`) of the inertial moment
Z*X''/g (the counter-rotation of trunk and hips takes the rest). Impact is where arm and club
pass the low point; the legs' push ends 70 ms before to 30 ms after it. Body and club figures
are from memory, load paths are common practice, no source.

Truth:
  takeaway    the first of club and body starts
  turnaround  lowest true share between takeaway and impact; null when the swing itself, without
              sway, never drops 1 point below address, or when the lowest is the takeaway itself
  impact      the low point
  finish      from here on the hands stay slower than a tenth of their fastest, the share
              (without sway) within 1 point of that held and the load within 2 % of weight (or a
              tenth of the swing's range, if less)

These golfers are for measuring: they were written blind from the promises of the program. The
weights of the signs of a swing have been fitted to them since.
"""
import numpy as np

from examiners.curves import GRID_HZ, band_noise
from examiners.lesson_files import LEAST_LOAD_N, NOISES, RATES_HZ, Made, samples_of
from examiners.ninth.golfer import G, Golfer
from examiners.ninth.pastimes import Timeline

PLATE_X_MM = 190.0  # of a plate's middle


class Lesson(Timeline):
    """Swings, and what is between them."""

    def pass_time(self):
        """What a student does between two swings, from a loose stance."""
        what = (
            ("bending for the ball", 0.2, self.bending),
            ("regripping", 0.13, self.regripping),
            ("stepping off and on", 0.12, self.away),
            ("walking across", 0.08, lambda: self.away(self.golfer.mass * G)),
            ("hops", 0.07, self.hops),
            ("someone crosses", 0.04, lambda: self.away(self.draw(450, 950))),
            ("someone steps beside", 0.04, lambda: self.strides(self.draw(120, 600))),
            ("leaning on the club", 0.1, self.leaning),
            ("talking, shuffling", 0.14, self.shuffling),
            ("rocking", 0.08, self.rocking),
        )
        for i in self.rng.choice(
            len(what), self.rng.integers(1, 4), replace=False, p=[w[1] for w in what]
        ):
            self.named(what[i][0], what[i][2])
            self.hold(self.draw(0.2, 1.0))

    def play(self, swings):
        """The whole lesson, [channels, samples]."""
        self.on = self.draw() < 0.5
        self.hold(self.draw(1, 3))
        if not self.on:
            self.named("stepping on", self.step_on)
        for _ in range(swings):
            self.pass_time()
            self.go(self.golfer.address / 100 + self.draw(-0.025, 0.025), self.draw(0.7, 1.6))
            if self.draw() < 0.45:
                self.hold(self.draw(0.1, 0.6))
                self.named(
                    *(
                        ("waggle", self.waggle)
                        if self.draw() < 0.75
                        else ("rocking", self.rocking)
                    )
                )
            self.hold(self.draw(0.7, 2.5) + 0.1)
            kind = str(
                self.rng.choice(
                    ["full", "three-quarter", "half", "tiny half"], p=(0.3, 0.3, 0.3, 0.1)
                )
            )
            share, load, y, toe, hit, finish, turns = self.golfer.swing(self.share_now, kind)
            start = self.now / GRID_HZ
            shot = bool(self.draw() < 0.75)
            self.swings.append(
                {
                    "is_shot": shot,
                    "kind": f"{kind}, {self.golfer.style}",
                    "takeaway_s": start,
                    "turnaround_s": turns,
                    "impact_s": start + hit,
                    "finish_s": start + finish,
                }
            )
            self.add(share, load, y, toe)
            self.add(
                np.full(
                    int(max(self.draw(0.5, 3), 0.6 - share.size / GRID_HZ + finish) * GRID_HZ),
                    self.share_now,
                ),
                1.0,
                y[-1],
                toe[-1],
            )
            self.go(self.draw(0.4, 0.65), self.draw(0.8, 1.8), toe[-1], y[-1])
        if self.draw() < 0.5:
            self.named("stepping off", self.step_off)
        self.hold(self.draw(1, 2.5))
        return np.concatenate(self.parts, axis=1)


def wander(rng, n, slope):
    """Slow postural wander, 0.1 to 1.5 Hz, SD about 1, whose ends do not join."""
    return band_noise(rng, n + 20 * GRID_HZ, 0.1, 1.5, slope)[:n]


def plate(rng, load, x, y, cell_n, half=(0.16, 0.22)):
    """Reading (N) and CoP (mm) of one plate with four cells.

    From true load and CoP, both from the plate's centre.
    """
    signs = ((-1, -1), (1, -1), (-1, 1), (1, 1))
    cells = [
        load / 4 * (1 + i * x / 1000 / half[0] + j * y / 1000 / half[1])
        + rng.normal(0, cell_n, load.size)
        for i, j in signs
    ]
    held = np.where(sum(cells) >= LEAST_LOAD_N, sum(cells), np.nan)
    return (
        sum(cells),
        1000 * half[0] * sum(i * c for (i, _), c in zip(signs, cells)) / held,
        1000 * half[1] * sum(j * c for (_, j), c in zip(signs, cells)) / held,
    )


def tell_truth(swings, share):
    """Completes the truth of the swings from the true share."""
    for told in swings:
        takeaway, hit, finish = samples_of(told)
        lowest = takeaway + int(np.argmin(share[takeaway:hit + 1]))
        turns = told["turnaround_s"] and lowest > takeaway + 50  # until here, whether it does
        told.update(
            turnaround_s=lowest / GRID_HZ if turns else None,
            address=100 * share[takeaway - 600:takeaway - 100].mean(),
            lowest=100 * share[lowest],
            impact=100 * share[hit],
            finish=100 * share[finish:finish + 500].mean(),
        )


def strike(swings, ripple, rate, t, load):
    """Adds to the load what the strikes do to it, and gives the trigger's column."""
    trigger = np.zeros(t.size)
    for told in swings:
        if told["is_shot"]:
            first = int(np.ceil(told["impact_s"] * rate - 1e-9))
            trigger[first:first + max(1, rate // 100)] = 1
            after = np.maximum(t - told["impact_s"], 0)
            load += ripple * np.exp(-after / 0.03) * np.sin(2 * np.pi * 28 * after)
    return trigger


def make_lesson(seed, number, noise, swings):
    """One lesson of one student."""
    rng = np.random.default_rng([seed, number])
    golfer = Golfer(rng)
    lesson = Lesson(golfer, rng)
    share, load, y, toe, other_lead, other_trail = lesson.play(swings)
    n = share.size
    sway, cell_n = NOISES[noise]
    room = np.clip(share * (1 - share) / 0.045, 0, 1) * sway / 100  # no sway on one foot alone
    share = np.clip(share + room * wander(rng, n, rng.uniform(0.4, 1.2)), 0, 1)
    t = np.arange(n) / GRID_HZ
    heart_n = rng.uniform(0.3, 1.2) * np.sin(2 * np.pi * rng.uniform(0.9, 1.5) * t)
    load = np.maximum(load * (golfer.mass * G + heart_n), 0)
    rate = RATES_HZ[number % len(RATES_HZ)]
    has_trigger = bool((number // 5 + number) % 2)
    tell_truth(lesson.swings, share)
    trigger = strike(lesson.swings, golfer.ripple, rate, t, load)
    hand = ("right", "left")[number if number < 2 else int(rng.random() < 0.4)]
    side = -1 if hand == "right" else 1  # x of the lead foot
    foot = 500 * golfer.stance  # mm
    roll = 12 * (share - 0.5)  # the lead foot rolls to its outer edge
    y_foot = rng.uniform(-10, 40) + y
    y_foot = y_foot + rng.uniform(1, 2.5) * 3 * sway**0.5 * wander(rng, n, 0.8)
    pick = slice(None, None, GRID_HZ // rate)
    lead = (share * load + other_lead)[pick]
    trail = ((1 - share) * load + other_trail)[pick]
    lead_x = (side * (foot + roll - PLATE_X_MM))[pick]
    trail_x = (-side * (foot - roll - PLATE_X_MM))[pick]
    of_side = {side: plate(rng, lead, lead_x, y_foot[pick], cell_n)}
    of_side[-side] = plate(rng, trail, trail_x, (y_foot + toe)[pick], cell_n)
    left_n, left_x, left_y = of_side[-1]
    right_n, right_x, right_y = of_side[1]
    columns = [t[pick], left_n, right_n]
    columns += [left_x - PLATE_X_MM, left_y, right_x + PLATE_X_MM, right_y]
    truth = {
        "hand": hand,
        "rate_hz": rate,
        "mass_kg": round(golfer.mass, 2),
        "has_trigger": has_trigger,
        "swings": lesson.swings,
        "between": lesson.between,
    }
    return Made(columns + [trigger[:columns[0].size]] * has_trigger, truth)
