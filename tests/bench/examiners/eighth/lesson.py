"""An eighth author's lessons: two feet, each with its own course of force.

Each foot's vertical force goes through knots at the events of the ground-reaction literature
(takeaway, mid and late backswing, turnaround near the top, early downswing, peak of the lead
foot, contact, follow-through, rest); the lead share follows from both. Paths: "pivot" (over the
lead leg, as taught), "front foot" and "reverse" (the two styles of the CoP papers), "slider"
(weak: to the trail foot, late back), "forward" (no turnaround). Load: light at the top, a push
in the downswing; the lead foot peaks up to 0.12 s before contact in skilled golfers, later in
weak ones (from memory; wedge amplitudes have no source). Gentle bumps of load close each swing:
no momentum is left, and only a chosen rise of the body.

Truth:
  takeaway    first knot; before it there is only sway
  turnaround  lowest true share (sway included) from takeaway to impact; null in "forward"
              swings and at the edge of that span
  impact      contact (practice: where it would be)
  finish      first instant from which, sway aside and until the hold ends, the share stays
              within 6 % of the swing's range (0.3 to 1 point) of its final level, the load
              within 10 % of its range (0.6 to 2 % of body weight) and the CoP of each foot
              within 5 mm

These golfers are for measuring: they were written blind from the promises of the program. The
weights of the signs of a swing have been fitted to them since.
"""
import numpy as np
from scipy.signal import lfilter

from examiners.curves import GRID_HZ, band_noise
from examiners.eighth.golfer import draw_golfer
from examiners.eighth.swing import G, ease, swing
from examiners.eighth.track import Track
from examiners.lesson_files import LEAST_LOAD_N, NOISES, RATES_HZ, Made, rounded, samples_of

# how often
BETWEEN = {
    "waggle": 0.14,
    "rocking": 0.12,
    "bend": 0.14,
    "regrip": 0.12,
    "off and on": 0.09,
    "walk across": 0.05,
    "hops": 0.06,
    "other crossing": 0.07,
    "talk": 0.12,
    "lean": 0.09,
}
HALF_X, HALF_Y = 0.15, 0.25  # cells of a plate sit at the corners, m


class Practice(Track):
    """Swings on top of it."""

    def play(self, is_shot, small):
        """Settle, stand still, swing, hold the finish."""
        golfer = self.golfer
        rng = self.rng
        a = float(np.clip(rng.normal(golfer.address, 0.012), 0.5, 0.82))
        self.named("settling", a)
        if rng.random() < 0.4:
            self.named("waggle")
        self.shift(a, 0.2, 0)
        self.stand(rng.uniform(0.7, 2.5))
        length = (
            "half"
            if small
            else str(rng.choice(["half", "three-quarter", "full"], p=golfer.lengths))
        )
        while (done := swing(golfer, rng, a, length, small)) is None:
            pass
        start = self.length / GRID_HZ
        lead, trail, cop, hit, rest = done
        self.swings.append(
            {
                "is_shot": is_shot,
                "kind": f"{'small ' * small}{length}, {golfer.style}",
                "takeaway_s": start,
                "turnaround_s": None,
                "impact_s": start + round(hit, 3),
                "finish_s": start + rest,
            }
        )
        self.raw(lead, trail, cop)
        self.share = float(lead[-1] / (lead[-1] + trail[-1]))
        e = 1 - ease(rng.uniform(0.5, 1.3))  # back out of the finish
        stand = rng.uniform(0.42, 0.62)
        s = stand + (self.share - stand) * e
        f = 1 + rng.normal(0, 0.03) * np.sin(2 * np.pi * e) * np.sin(np.pi * e)
        self.raw(s * f, (1 - s) * f, cop[:, -1:] * e)
        self.share = stand


def measure(rng, foot, cell):
    """What a plate with four cells reads: load in N, CoP in mm.

    Part of the noise is slow in some plates.
    """
    load, x, y = foot
    memory = float(rng.choice([0, 0, 0.5]))
    noise = (
        2
        * cell
        * lfilter([np.sqrt(1 - memory**2)], [1, -memory], rng.normal(size=(3, load.size)))
    )
    read = load + noise[0]  # the sum and two differences of four cells are independent
    safe = np.where(read < LEAST_LOAD_N, np.nan, read) / 1000
    return read, (load * x + HALF_X * noise[1]) / safe, (load * y + HALF_Y * noise[2]) / safe


def tell_truth(track, rng, points, rate):
    """Completes the truth of the swings from the true share in %.

    Returns the trigger's column, and what the strikes do to the load in N.
    """
    golfer = track.golfer
    every = GRID_HZ // rate
    ripple = np.zeros(track.length)
    trigger = np.zeros(-(-track.length // every))
    t = np.arange(120) / GRID_HZ
    for told in track.swings:
        takeaway, hit, finish = samples_of(told)
        lowest = takeaway + int(np.argmin(points[takeaway:hit + 1]))
        turns = golfer.style != "forward" or "small" in told["kind"]
        inside = turns and takeaway + 60 <= lowest <= hit - 20
        told.update(
            turnaround_s=lowest / GRID_HZ if inside else None,
            address=points[takeaway - 600:takeaway - 100].mean(),
            lowest=points[lowest] if inside else None,
            impact=points[hit],
            finish=points[finish:finish + 500].mean(),
        )
        if told["is_shot"]:
            first = -(-hit // every)
            trigger[first:first + rate // 100] = 1
            size = golfer.ripple * rng.uniform(0.6, 1.4)
            ripple[hit:hit + 120] += size * np.exp(-t / 0.025) * np.sin(2 * np.pi * 32 * t)
    return trigger, ripple


def play(practice, rng, swings):
    """All that happens on the plates."""
    if rng.random() < 0.5:  # else somebody stands there
        practice.away(1, 3)
        practice.step_on()
    practice.stand(rng.uniform(0.5, 2))
    often = list(BETWEEN.values())
    for swing_number in range(swings):
        count = rng.integers(0 if swing_number else 1, 3)
        for name in rng.choice(list(BETWEEN), count, p=often):
            practice.named(str(name))
            practice.stand(rng.uniform(0.1, 0.8))
        practice.play(bool(rng.random() < 0.75), bool(rng.random() < 0.1))
    practice.stand(rng.uniform(0.5, 2))


def make_lesson(seed, number, noise, swings):
    """One lesson of one person."""
    rng = np.random.default_rng([seed, number, list(NOISES).index(noise)])
    sway_points, cell_n = NOISES[noise]
    rate = RATES_HZ[number % 5]
    hand = ("right", "left")[(number // 2) % 2]
    has_trigger = number % 2 == 0
    golfer = draw_golfer(rng)
    practice = Practice(golfer, rng)
    play(practice, rng, swings)
    force = np.hstack(practice.parts)
    length = practice.length
    total = force[0] + force[1]
    share = force[0] / np.maximum(total, 1e-9)
    room = np.clip(np.minimum(share, 1 - share) / 0.04, 0, 1)  # a lifted foot does not sway
    wander = band_noise(rng, length, 0.1, 1.5, 0.5)
    share = np.clip(share + sway_points / 100 * room * wander, 0, 1)
    total = total * (1 + 0.0012 * band_noise(rng, length, 0.2, 2, 0.5))  # breath and heart
    trigger, ripple = tell_truth(practice, rng, 100 * share, rate)
    total = total * golfer.mass * G + ripple * (total > 0.5)
    mirror = -1 if hand == "right" else 1  # towards the target is -x for a right-handed golfer
    cop = force[2:] + [
        size * min(1, sway_points / 0.5 + 0.3) * band_noise(rng, length, 0.1, 1.2, 0.5)
        for size in (0.0008, 0.003, 0.0008, 0.003)
    ]
    feet = [
        (share * total, mirror * (cop[0] + golfer.width / 2), golfer.toes[0] + cop[1]),
        ((1 - share) * total, mirror * (cop[2] - golfer.width / 2), golfer.toes[1] + cop[3]),
    ]
    keep = slice(None, None, GRID_HZ // rate)
    left, right = (measure(rng, [q[keep] for q in foot], cell_n) for foot in feet[::-mirror])
    columns = [np.arange(left[0].size) / rate, left[0], right[0], *left[1:], *right[1:]]
    truth = {
        "hand": hand,
        "rate_hz": rate,
        "mass_kg": round(golfer.mass, 2),
        "has_trigger": has_trigger,
        "swings": [rounded(told) for told in practice.swings],
        "between": [rounded(told) for told in practice.between],
    }
    return Made(columns + [trigger] * has_trigger, truth, time_digits=3, place_digits=1)
