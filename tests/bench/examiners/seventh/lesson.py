"""A seventh author's lessons: scripted curves of share, load and centres of pressure.

A lesson is a chain of segments (stand, waggle, settle, swing, hold), each with smooth curves of
lead share (%), total load (body weights) and the CoP of each foot (mm, stance frame). Six
families of share paths: in pieces, a spline, overlapping, early, hanging back and forward only;
three of loads: pulses, a height, two pushes. Impact is the key point around which both are
laid: the load pushes most 10 to 80 ms before it. Momentum closes: the load of a swing is 1 +
z''/g of a height z from rest to rest, or pulses of acceleration projected onto "no velocity
left over, small change of height". The ranges are the author's judgement, no source.

Truth:
  takeaway    first instant of the swing's curves: share, load and CoP all leave the address
              there
  turnaround  lowest true share (sway included) between takeaway and impact; null in a forward
              swing, and where sway puts it within 20 ms of takeaway or impact
  impact      the key point (for a practice swing as well)
  finish      first instant after impact from which the scripted share stays within 0.25 points,
              and the scripted load within 0.5 % of body weight, of the finish that is then held

These golfers are for measuring: they were written blind from the promises of the program. The
weights of the signs of a swing have been fitted to them since.
"""
import numpy as np

from examiners.curves import GRID_HZ, band_noise
from examiners.lesson_files import LEAST_LOAD_N, NOISES, RATES_HZ, Made, rounded, samples_of
from examiners.seventh.golfer import draw_golfer
from examiners.seventh.pastimes import BETWEEN, come_back, settle, step_on
from examiners.seventh.script import G, Script, clock
from examiners.seventh.swing import swing

# Of a plate's centre from the origin, and half the distances of its cells.
PLATE_X_MM = 200.0
HALF_X_MM = 150.0
HALF_Y_MM = 250.0
CELL_X = np.array([[-1], [-1], [1], [1]])
CELL_Y = np.array([[-1], [1], [-1], [1]])


def plates(rng, golfer, c, true, noise, keep, right_handed):
    """What the left and the right plate read from four noisy cells each.

    Load, CoP x, CoP y of each.
    """
    sway_sd, cell_sd = NOISES[noise]
    n = len(true)
    weight = golfer["mass_kg"] * G
    read = {}
    # heart, breath
    life = (c["load"] > 0.5) * rng.uniform(0.4, 1.5) * band_noise(rng, n, 0.8, 6, 0.5)
    total = weight * c["load"] + life
    for foot, side, share in (("lead", 1, true / 100), ("trail", -1, 1 - true / 100)):
        own = total * share
        guest = c[f"guest_{foot}"] * weight
        force = np.maximum(own + guest, 1e-9)
        x = (
            side * (golfer["half_stance"] - PLATE_X_MM)
            + c[f"{foot}_x"]
            + sway_sd * band_noise(rng, n, 0.1, 2, 0.7)
        )
        y = c[f"{foot}_y"] + 3 * sway_sd * band_noise(rng, n, 0.1, 2, 0.7)
        x = (own * x / force)[keep]
        y = ((own * y + guest * c["guest_y"]) / force)[keep]
        force = force[keep]
        x = -x if right_handed else x  # from the stance frame to the plate frame
        cells = force / 4 * (1 + CELL_X * x / HALF_X_MM) * (1 + CELL_Y * y / HALF_Y_MM)
        cells = cells + rng.normal(0, cell_sd, (4, len(x)))
        is_left = (foot == "lead") == right_handed
        plate_n = cells.sum(0)
        loaded = np.where(plate_n < LEAST_LOAD_N, np.nan, plate_n)
        middle_mm = -PLATE_X_MM if is_left else PLATE_X_MM
        x_mm = middle_mm + HALF_X_MM * (CELL_X * cells).sum(0) / loaded
        y_mm = HALF_Y_MM * (CELL_Y * cells).sum(0) / loaded
        read[is_left] = plate_n, x_mm, y_mm
    return read[True], read[False]


def tell_truth(script, true, t):
    """Completes the truth of the swings from the true shares; the trigger's column at times t."""
    strikes = np.zeros(len(t), bool)
    for told in script.truths:
        takeaway, hit, finish = samples_of(told)
        turn = takeaway + int(np.argmin(true[takeaway:hit + 1]))
        inner = "forward" not in told["kind"] and takeaway + 20 <= turn <= hit - 20
        told.update(
            turnaround_s=turn / GRID_HZ if inner else None,
            address=true[takeaway - 600:takeaway - 100].mean(),
            lowest=true[turn] if inner else None,
            impact=np.interp(told["impact_s"] * GRID_HZ, np.arange(len(true)), true),
            finish=true[finish:finish + 500].mean(),
        )
        strikes |= told["is_shot"] & (t >= told["impact_s"]) & (t < told["impact_s"] + 0.01)
    return strikes


def play(script, rng, golfer, swings):
    """Writes all that happens."""

    def between(name, movement, *more):
        """Does it and notes when."""
        start = script.now_s
        movement(script, rng, *more)
        script.between.append(dict(name=name, from_s=start, to_s=script.now_s))

    if rng.random() < 0.5:
        script.add(clock(rng.uniform(1, 4)), load=0.0)
        between("stepping on", step_on)
    script.add(clock(rng.uniform(1, 2.5)))
    draw = [name for name, (_, tickets) in BETWEEN.items() for _ in range(tickets)]
    for _ in range(swings):
        for name in map(str, rng.choice(draw, rng.integers(1, 4))):
            between(name, BETWEEN[name][0])
            script.add(clock(rng.uniform(0.2, 1.2)))
        between("settling", settle, golfer["address"] + np.clip(rng.normal(0, 1.2), -2.5, 2.5))
        if rng.random() < 0.3:
            between("waggle", BETWEEN["waggle"][0])
        script.add(clock(rng.uniform(0.7, 2.5)))
        between("coming back from the finish", come_back, swing(script, golfer, rng))
    script.add(clock(rng.uniform(0.5, 2)))


def make_lesson(seed, number, noise, swings):
    """One lesson of one person."""
    rng = np.random.default_rng([seed, number, list(NOISES).index(noise)])
    golfer = draw_golfer(rng)
    script = Script()
    rate = RATES_HZ[number % 5]
    has_trigger = number % 2 == 0
    right_handed = (number // 2) % 2 == 0
    play(script, rng, golfer, swings)
    channels = {name: np.concatenate(parts) for name, parts in script.parts.items()}
    length = round(script.now_s * GRID_HZ)
    # less sway where nearly all is on one foot
    room = np.clip(np.minimum(channels["share"], 100 - channels["share"]) / 12, 0, 1)
    wander = band_noise(rng, length, 0.1, 1.5, rng.uniform(0.3, 1.0))
    true = np.clip(channels["share"] + NOISES[noise][0] * room * wander, 0, 100)
    keep = slice(0, None, GRID_HZ // rate)
    t = np.arange(length)[keep] / GRID_HZ
    left, right = plates(rng, golfer, channels, true, noise, keep, right_handed)
    strikes = tell_truth(script, true, t)
    truth = dict(
        hand="right" if right_handed else "left",
        rate_hz=rate,
        mass_kg=round(golfer["mass_kg"], 2),
        has_trigger=has_trigger,
        swings=[rounded(told) for told in script.truths],
        between=[rounded(told) for told in script.between],
    )
    columns = [t, left[0], right[0], *left[1:], *right[1:]]
    return Made(columns + [strikes] * has_trigger, truth, time_digits=3)
