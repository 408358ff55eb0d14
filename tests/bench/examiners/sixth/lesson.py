"""A sixth author's lessons: bodies, arms and clubs that Newton's laws make loads of.

The golfer is one mass over the lead leg, two arms as one mass and a club, which swing in an
inclined plane about the shoulders; a person moves each of them by smooth steps. From that
    load      F = sum m (g + z'')                              (so momentum closes)
    pressure  x F = sum m x (g + z'') - (1 - c) sum m z x''    (moments about the ground)
and lead share = 50 % + x / stance width; c is the part of the moment that hips and trunk take
by turning against it. Impact is the end of the arms' downswing; the load peaks near it as arms
and legs make it, no rule says when. One swing in ten is scaled to 2 to 3 points ("almost
still").

Truth, from the motion without noise of the cells:
  takeaway    the first of arms and body begins its first step
  turnaround  lowest true share (with sway) from takeaway to impact; null (with `lowest`) where
              the share without sway falls less than 1 point below address, or is lowest within
              50 ms of takeaway or 15 ms of impact
  impact      hands over the ball
  finish      from here to the end of the hold the share without sway stays within 0.5 points of
              its final value and the load within 1 % of body weight

These golfers are for measuring: they were written blind from the promises of the program. The
weights of the signs of a swing have been fitted to them since.
"""
import numpy as np

from examiners.curves import GRID_HZ
from examiners.lesson_files import LEAST_LOAD_N, NOISES, RATES_HZ, Made
from examiners.sixth.motion import G, second_derivative
from examiners.sixth.pastimes import Timeline
from examiners.sixth.person import Person
from examiners.sixth.swing import LENGTHS, swing_once

BETWEEN = (
    "waggle", "rocking", "bending", "regripping", "stepping",
    "walking", "hop", "other_person", "shuffling", "leaning",
)


class Lesson(Timeline):
    """A golfer's swings and what is between them."""

    def swing(self):
        """Settle, stand still, swing, hold the finish, relax."""
        person = self.person
        rng = self.rng
        result = None
        tries = 0
        address = person.address + rng.normal(0, 1.2)
        self.move(address, self.draw(0.6, 1.5))
        if rng.random() < 0.5:
            self.still(self.draw(0.3, 0.8))
            self.between_swings([rng.choice(["waggle", "waggle", "regripping", "rocking"])])
        # the swing itself begins with 0.2 s of standing still
        self.still(self.draw(0.7, 2.5) - 0.2)
        quiet = rng.random() < 0.1
        is_shot = bool(rng.random() < 0.75)
        length = "half" if quiet else rng.choice(list(LENGTHS), p=[0.3, 0.35, 0.35])
        finish = np.clip(
            person.finish + rng.normal(0, 1.5) - (5 if length == "half" else 0), 80, 97
        )
        while result is None:
            result = swing_once(rng, person, length, self.share_now, finish, tries / 40)
            tries = tries + 1
            if tries % 40 == 0:  # such a body cannot swing like that: be gentler
                person.rise = person.rise * 0.8
                person.dip = person.dip * 0.8
                person.back_shift = person.back_shift * 0.8
                person.late = 0.5 * (person.late + 1.7)
                person.turn_body = 0.6 * person.turn_body + 0.4
                person.turn_arms = 0.7 * person.turn_arms + 0.3 * 0.985
        t, takeaway, impact, load, share = result
        fall = share[0] - share[t < impact].min()
        scale = rng.uniform(2.0, 3.0) / max(fall, 0.6 * np.ptp(share)) if quiet else 1.0
        share = share[0] + (share - share[0]) * scale
        load = load / (person.mass * G)
        moving = (np.abs(share - share[-1]) > 0.5) | (np.abs(load - 1) > 0.01)
        last = max(np.flatnonzero(moving)[-1], round(impact * GRID_HZ)) + 1
        if is_shot and person.ripple:
            after = np.maximum(t - impact, 0)
            jolt = second_derivative(
                after**2
                * np.exp(-after / 0.012)
                * np.sin(2 * np.pi * rng.uniform(14, 30) * after)
            )
            size = person.ripple / (person.mass * G) * rng.uniform(0.6, 1.2)
            load = load + size * jolt / np.abs(jolt).max()
        n = min(t.size, last + round(self.draw(0.6, 3.0) * GRID_HZ))
        self.swings.append(
            {
                "is_shot": is_shot,
                "kind": length + ", " + ("almost still" if quiet else person.style),
                "takeaway_s": self.length + round(takeaway * GRID_HZ),
                "turnaround_s": None,
                "fall": fall * scale,
                "impact_s": self.length + round(impact * GRID_HZ),
                "finish_s": self.length + last,
            }
        )
        self.add(load[:n], share[:n])
        self.move(self.draw(45, 62), self.draw(0.9, 2.0), 0.008)
        self.still(self.draw(0.3, 1.0))


def sway(rng, n, sd):
    """Postural wander 0.1 to 1.5 Hz with a person's own slope of the spectrum, SD in points."""
    f = np.fft.rfftfreq(n, 1 / GRID_HZ)
    amplitude = np.where((f >= 0.1) & (f <= 1.5), np.maximum(f, 0.1) ** -rng.uniform(0.5, 1.3), 0)
    w = np.fft.irfft(amplitude * np.exp(2j * np.pi * rng.random(f.size)), n)
    return sd * w / w.std()


def plates(rng, lesson, hand, sway_sd):
    """True loads of the left and right plate in N, and the true lead share in %.

    With sway, breathing, heart and guests.
    """
    load = np.concatenate(lesson.load)
    share = np.concatenate(lesson.share)
    near_edge = np.clip(np.minimum(share, 100 - share) / 4, 0, 1)
    share = np.clip(share + sway(rng, share.size, sway_sd) * near_edge, 0, 100)
    t = np.arange(load.size) / GRID_HZ
    breath = 0.0008 * np.sin(2 * np.pi * rng.uniform(0.2, 0.33) * t)
    life = breath + 0.0007 * np.sin(2 * np.pi * rng.uniform(1, 1.5) * t)
    force = np.maximum(load + life * (load > 0.5), 0) * lesson.person.mass * G
    left, right = force * share / 100, force * (1 - share / 100)
    if hand == "left":
        left, right = right, left
    for at, side, profile in lesson.guests:
        (left, right)[side][at:at + profile.size] += profile
    return left, right, share


def tell_truth(swings, share):
    """Turn samples into seconds and add the turnaround and the true shares."""
    for told in swings:
        takeaway, hit, finish = (told[event] for event in ("takeaway_s", "impact_s", "finish_s"))
        low = takeaway + int(np.argmin(share[takeaway:hit + 1]))
        told.update(
            takeaway_s=takeaway / GRID_HZ,
            turnaround_s=low / GRID_HZ,
            impact_s=hit / GRID_HZ,
            finish_s=finish / GRID_HZ,
            address=share[takeaway - 600:takeaway - 100].mean(),
            lowest=share[low],
            impact=share[hit],
            finish=share[finish:finish + 500].mean(),
        )
        if told.pop("fall") < 1 or hit - low <= 15 or low - takeaway <= 50:
            told.update(turnaround_s=None, lowest=None)


def plate(rng, side, force, slow, half_stance_mm, cell_sd):
    """What a plate tells: load, CoP x and y; its noise is that of four cells."""
    load = force + rng.normal(0, 2 * cell_sd, force.size)
    mm = 400 * cell_sd / np.maximum(force, 30)  # cells 0.2 m from the middle of the plate
    x = side * (half_stance_mm + 0.05 * slow) + rng.normal(0, 1, force.size) * mm
    y = rng.uniform(-25, 20) + side * 0.3 * slow + rng.normal(0, 1, force.size) * mm
    has_place = load >= LEAST_LOAD_N
    return load, np.where(has_place, x, np.nan), np.where(has_place, y, np.nan)


def trigger_of(swings, rate, length):
    """Up for 10 ms from the first sample after each strike on."""
    trigger = np.zeros(length, int)
    for swing in swings:
        if swing["is_shot"]:
            first = -(-swing["impact_s"] * rate // GRID_HZ)  # still in samples of the grid
            trigger[first:first + rate // 100] = 1
    return trigger


def make_lesson(seed, number, noise, swings):
    """One lesson of one student."""
    rng = np.random.default_rng([seed, number])
    sway_sd, cell_sd = NOISES[noise]
    person = Person(rng)
    rate = RATES_HZ[number % len(RATES_HZ)]
    hand = str(rng.choice(["right", "left"]))
    has_trigger = bool((number // 5 + number % 5) % 2)
    lesson = Lesson(rng, person)
    if rng.random() < 0.5:
        lesson.gone(1, 4)
        lesson.on()
    lesson.still(rng.uniform(1, 3))
    for _ in range(swings):
        lesson.between_swings(rng.choice(BETWEEN, rng.integers(1, 4), replace=False))
        lesson.swing()
    left, right, share = plates(rng, lesson, hand, sway_sd)
    every = GRID_HZ // rate
    slow = (share - share.mean())[::every]
    time_s = np.arange(slow.size) / rate
    trigger = trigger_of(lesson.swings, rate, slow.size)
    tell_truth(lesson.swings, share)
    half_stance_mm = 500 * person.width
    left_n, *left_place = plate(rng, -1, left[::every], slow, half_stance_mm, cell_sd)
    right_n, *right_place = plate(rng, 1, right[::every], slow, half_stance_mm, cell_sd)
    columns = [time_s, left_n, right_n, *left_place, *right_place]
    return Made(
        columns + [trigger] * has_trigger,
        {
            "hand": hand,
            "rate_hz": rate,
            "mass_kg": round(person.mass, 2),
            "has_trigger": has_trigger,
            "swings": lesson.swings,
            "between": lesson.between,
        },
    )
