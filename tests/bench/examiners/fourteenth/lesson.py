"""A fourteenth author's lessons: sums of terms over time.

Moves of the lead share, accelerations of the body, the part of the weight that stands on the
plates, and the CoP under each foot are added up, each a smooth shape from a start to an end. The
share of a person's swings follows one of four families (shares.py): logistic steps, quintics from
event to event, monotone cubics with knots between, damped springs; some people now and then only
press forward. Some press forward a little before they go back, some fall back after impact. The
load (loads.py) is one push, two pushes, or arms and club on a circle, which stay raised until the
club is lowered; unweighting before pushes and settling after them are solved for, so that speed and
height close. Impact comes first and the peak of the load is laid around it, by a habit of the
person: in the median 28 ms before it, from 62 ms before to 11 ms after it in nine of ten swings, of
1.06 to 1.37 body weights. That is without small half swings, one in ten, which move the share by 2
to 3 points. Ranges are the author's judgement, no source; that the load peaks shortly before impact
follows golf papers.

Truth:
  takeaway    begin of the first term of the swing
  turnaround  lowest true share (with sway) from takeaway to impact; null for those who press
              forward, and 50 ms or less from takeaway or 20 ms or less from impact
  impact      not on the grid of samples
  finish      from here on the share without sway stays within 0.3 points (or 3 % of the way from
              the turnaround) of the level that is then held, the load within 1 % of body weight
              and the CoP of the lead foot within 3 mm

These golfers are for measuring: they were written blind from the promises of the program, and
nothing may be fitted or tuned to them.
"""
import numpy as np

from examiners.fourteenth.motion import G, sway
from examiners.fourteenth.pastimes import pause, step_off, step_on
from examiners.fourteenth.swing import swing
from examiners.fourteenth.track import FIRST_SHARE, LEAD, TRAIL, X, Y, Track
from examiners.lesson_files import LEAST_LOAD_N, NOISES, RATES_HZ, Made

# Of a plate's centre from the origin, and of its cells from there.
PLATE_X_MM = 210.0
CELL_X_MM = 180.0
CELL_Y_MM = 270.0


def play(track, swings):
    """A whole lesson: arrive; for each swing do something, settle, swing; perhaps leave."""
    track.now = track.draw(1.5, 4)
    if not track.standing:
        step_on(track)
    for number in range(swings):
        if number or track.rng.random() < 0.5:
            pause(track)
        swing(track)
    if track.rng.random() < 0.6:
        step_off(track)


def sum_of(terms, t):
    """All terms at times t."""
    return sum(term(t) for term in terms)


def load_of(track, t, rate):
    """What the golfer loads both plates with, N: weight, breath, movements, strikes."""
    rng, person = track.rng, track.person
    breathing = np.sin(2 * np.pi * (rng.uniform(0.2, 0.33) * t + rng.random()))
    breath = 0.02 * person.restless * breathing
    total = person.mass * np.maximum(0, G + breath + sum_of(track.accel, t))
    for strike, newtons, hertz, decay in track.ripples:
        after = np.maximum(t - strike, 0)
        ring = np.sin(2 * np.pi * min(hertz, rate / 3) * after)
        total += newtons * np.exp(-after / decay) * ring
    return total * np.clip(sum_of(track.present, t), 0, 1)


def plates(track, hand, t, rate, share, total, cell_sd):
    """Load, CoP x and y of the left and of the right plate, as four noisy cells each read them."""
    rng, person, read = track.rng, track.person, []
    to_right = -1 if hand == "right" else 1  # where the target is, on the plates
    for plate, side in ((0, -1), (1, 1)):
        foot = LEAD if (side == to_right) else TRAIL
        middle = side * PLATE_X_MM
        load = total * (share if foot == LEAD else 100 - share) / 100
        x = side * person.half_stance + to_right * sum_of(track.cop[foot, X], t)
        x = x + sway(rng, t.size, rate, 1.5 * person.restless)
        y = sum_of(track.cop[foot, Y], t) + sway(rng, t.size, rate, 5 * person.restless)
        turn_x, turn_y = load * (x - middle), load * np.clip(y, -130, 150)
        for force, place in ((f, p) for where, f, p in track.visits if where == plate):
            others, (others_x, others_y) = force(t), place(t)
            load = load + others
            turn_x = turn_x + others * (others_x - middle)
            turn_y = turn_y + others * others_y
        # the sum and both differences of four equal cells are independent
        noise = 2 * cell_sd * rng.normal(size=(3, t.size))
        told = load + noise[0]
        safe = np.where(told < LEAST_LOAD_N, np.nan, told)
        x_mm = (turn_x + CELL_X_MM * noise[1]) / safe + middle
        read.append((told, x_mm, (turn_y + CELL_Y_MM * noise[2]) / safe))
    return read


def truth_of(swung, t, share):
    """Of a swing, from the true share."""

    def mean(from_s, to_s):
        return round(float(share[(t >= from_s) & (t <= to_s)].mean()), 4)

    takeaway, impact, finish = swung.takeaway, swung.impact, swung.finish
    lowest = np.flatnonzero(t >= takeaway)[0]
    lowest = lowest + np.argmin(share[(t >= takeaway) & (t <= impact)])
    turns = "forward" not in swung.kind and takeaway + 0.05 < t[lowest] < impact - 0.02
    return {
        "is_shot": swung.is_shot,
        "kind": swung.kind,
        "takeaway_s": round(takeaway, 5),
        "impact_s": round(impact, 5),
        "finish_s": round(finish, 5),
        "turnaround_s": round(float(t[lowest]), 5) if turns else None,
        "address": mean(takeaway - 0.6, takeaway - 0.1),
        "lowest": round(float(share[lowest]), 4) if turns else None,
        "impact": round(float(np.interp(impact, t, share)), 4),
        "finish": mean(finish, finish + 0.5),
    }


def trigger_of(swings, rate, length):
    """Up for 10 ms from the first sample at a strike or after it on."""
    trigger = np.zeros(length, int)
    for swung in swings:
        if swung.is_shot:
            first = int(np.ceil(swung.impact * rate - 1e-9))
            trigger[first:first + rate // 100] = 1
    return trigger


def make_lesson(seed, number, noise, swings):
    """One lesson of one person, who moves alike at any noise."""
    rng = np.random.default_rng([seed, number])
    sway_sd, cell_sd = NOISES[noise]
    rate = RATES_HZ[number % 5]
    has_trigger = number % 2 == 0
    hand = ("right", "left")[number // 2 % 2]
    track = Track(rng)
    play(track, swings)
    t = np.arange(int((track.now + 1.5) * rate)) / rate
    share = FIRST_SHARE + sum_of(track.share, t) + sway(rng, t.size, rate, sway_sd)
    share = np.clip(share, 0.3, 99.7)
    total = load_of(track, t, rate)
    left, right = plates(track, hand, t, rate, share, total, cell_sd)
    columns = [t, left[0], right[0], *left[1:], *right[1:]]
    return Made(
        columns + [trigger_of(track.swings, rate, t.size)] * has_trigger,
        {
            "hand": hand,
            "rate_hz": rate,
            "mass_kg": round(track.person.mass, 2),
            "has_trigger": has_trigger,
            "swings": [truth_of(swung, t, share) for swung in track.swings],
            "between": track.between,
        },
        end_of_truth="\n",
    )
