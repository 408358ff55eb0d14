"""A thirteenth author's lessons: eight kinds of people, each of whom moves by a formula of its own.

The lead share follows the model of a kind (models.py): turns over the lead leg, sways, hangs back,
pushes early or late, only follows the arms, rocks at the end, or presses forward all the way; the
arms' acceleration kicks it a little besides. The load is weight + mass times acceleration of arms,
club head and trunk; each begins and ends at rest, so momentum closes. Impact is where the arm hangs
and the wrist is straight again; when the trunk pushes is the kind's own: in the median the load
peaks 6 to 33 ms before impact, with late pushers 54 ms before, with those who hang back 80 ms after
it. Segments (arms 7 % of the mass, club head 0.3 kg, lengths) are from memory; the rest is
judgement, no source. Half swings, one in ten, move the share by 2 to 3 points.

Truth:
  takeaway    share, arms and trunk begin; before it there is only sway
  turnaround  lowest true share (with sway) from takeaway to impact; null for those who press
              forward all the way, and 50 ms or less from takeaway or 5 ms or less from impact
  impact      the arm hangs and the wrist is straight again
  finish      from here to the end of the hold the share without sway stays within 0.5 points of
              its last value, the load within 1 % of body weight

These golfers are for measuring: they were written blind from the promises of the program. The
weights of the signs of a swing have been fitted to them since.
"""
import numpy as np

from examiners.curves import GRID_HZ
from examiners.lesson_files import LEAST_LOAD_N, NOISES, RATES_HZ, Made
from examiners.thirteenth.motion import G
from examiners.thirteenth.pastimes import fidget, step_on
from examiners.thirteenth.person import DECK, Person
from examiners.thirteenth.swing import swing
from examiners.thirteenth.track import Track


def play(rng, person, swings):
    """A whole lesson: arrive; for each swing fidget, address, stand still, swing, come back."""
    track, made = Track(person.mass), []
    draw = rng.uniform
    empty = rng.random() < 0.6
    track.hold(draw(1, 4), 0.0 if empty else 1.0)
    if empty:
        step_on(track, rng)
    for number in range(swings):
        if number or rng.random() < 0.5:
            for name in rng.choice(person.pastimes, rng.integers(1, 4)):
                fidget(track, rng, str(name))
                track.hold(draw(0.2, 1.2))
        address = np.clip(person.address + rng.normal(0, 1), 50, 80)
        track.move(address + rng.normal(0, 2), draw(0.8, 1.6), draw(0, 12) * 1e-3)
        if rng.random() < person.fuss:
            fidget(track, rng, "waggle" if rng.random() < 0.7 else "regrip")
        track.move(address, draw(0.4, 0.8))
        track.hold(np.clip(person.still * draw(0.8, 1.4), 0.75, 2.5))
        made.append(swing(track, person, rng, rng.random() < 0.75))
        track.move(person.ease + rng.normal(0, 4), draw(0.9, 1.7), draw(-8, 8) * 1e-3)
        track.hold(draw(0.3, 1.5))
    fidget(track, rng, str(rng.choice(person.pastimes)))
    return track, made


def wander(rng, n):
    """Slow postural wander of SD 1: random phases, amplitude falling with frequency."""
    f = np.fft.rfftfreq(n, 1 / GRID_HZ)
    amplitude = np.where((f >= 0.1) & (f <= 1.5), 1 / np.maximum(f, 0.1) ** 0.8, 0)
    x = np.fft.irfft(amplitude * np.exp(2j * np.pi * rng.random(f.size)), n)
    return x / x.std()


def truth_of(swung, share, load, true):
    """Of a swing, from the tracks without sway (share, load) and the true share with it."""
    start, hit, end = swung.start, swung.impact, swung.end
    moving = (abs(share[hit:end] - share[end - 1]) > 0.5) | (abs(load[hit:end] - 1) > 0.01)
    rest = hit + np.flatnonzero(moving)[-1] + 1
    low = start + int(np.argmin(true[start:hit + 1]))
    turned = "stacker" not in swung.kind and low - start > 50 and hit - low > 5
    shares = {
        "address": true[start - 600:start - 100].mean(),
        "lowest": true[low],
        "impact": true[hit],
        "finish": true[rest:rest + 500].mean(),
    }
    return {
        "is_shot": swung.is_shot,
        "kind": swung.kind,
        "takeaway_s": start / GRID_HZ,
        "turnaround_s": low / GRID_HZ if turned else None,
        "impact_s": hit / GRID_HZ,
        "finish_s": rest / GRID_HZ,
        **{name: round(float(share), 4) for name, share in shares.items()},
    }


def trigger_of(made, rate, length):
    """Up for 10 ms from the first sample at a strike or after it on."""
    trigger = np.zeros(length, int)
    for swung in made:
        if swung.is_shot:
            first = -(-swung.impact * rate // GRID_HZ)
            trigger[first:first + rate // 100] = 1
    return trigger


def plates(rng, person, channels, true, hand, pick, cell_sd, sway_y):
    """Load, CoP x and y of the left and of the right plate."""
    share, load, lead_n, trail_n, turn, toe = channels
    t = np.arange(share.size) / GRID_HZ
    breath = 0.0008 * np.sin(2 * np.pi * 0.27 * t) + 0.001 * np.sin(2 * np.pi * 1.15 * t)
    total = person.mass * G * np.maximum(load, 0) * (1 + breath)
    feet = []
    for part, other, side in ((true, lead_n, 1), (100 - true, trail_n, -1)):
        true_n = (total * part / 100 + other)[pick]
        read_n = true_n + 2 * cell_sd * rng.normal(size=true_n.size)
        x = side * person.stance / 2 + 10 * np.clip(true[pick] / 50 - 1.2, -0.5, 0.5)
        y = 5 + (toe + sway_y - side * turn)[pick]
        others = other[pick] / np.maximum(true_n, 1)
        x, y = x + others * side * 30, y * (1 - others) + others * 40
        x, y = (
            place + 2 * cell_sd * 180 * rng.normal(size=read_n.size) / np.maximum(read_n, 30)
            for place in (x, y)
        )
        x = -x if hand == "right" else x  # from the stance frame to the plate frame
        has_place = read_n >= LEAST_LOAD_N
        feet.append((read_n, *(np.where(has_place, place, np.nan) for place in (x, y))))
    return feet if hand == "right" else feet[::-1]


def make_lesson(seed, number, noise, swings):
    """One lesson of one person; the seed says which kinds of people follow one another."""
    deck = np.random.default_rng(seed).permutation(DECK)
    rng = np.random.default_rng([seed, number])
    sway_sd, cell_sd = NOISES[noise]
    person = Person(rng, deck[number % len(deck)])
    rate = RATES_HZ[number % 5]
    has_trigger = number % 2 == 0
    hand = "right" if rng.random() < 0.6 else "left"
    track, made = play(rng, person, swings)
    channels = np.hstack(track.parts)
    share, load = channels[:2]
    room = np.clip(np.minimum(share, 100 - share) / 4, 0, 1)  # no sway to a side without a foot
    true = np.clip(share + sway_sd * wander(rng, share.size) * room, 0, 100)
    sway_y = 3 * wander(rng, share.size)
    pick = slice(0, share.size, GRID_HZ // rate)
    left, right = plates(rng, person, channels, true, hand, pick, cell_sd, sway_y)
    times = np.arange(left[0].size) / rate
    columns = [times, left[0], right[0], *left[1:], *right[1:]]
    return Made(
        columns + [trigger_of(made, rate, times.size)] * has_trigger,
        {
            "hand": hand,
            "rate_hz": rate,
            "mass_kg": round(person.mass, 3),
            "has_trigger": has_trigger,
            "swings": [truth_of(swung, share, load, true) for swung in made],
            "between": track.between,
        },
        time_digits=6,
        load_digits=3,
    )
