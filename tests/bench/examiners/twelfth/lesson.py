"""A twelfth author's lessons: a centre of mass that is steered, over a trunk and arms that turn.

A golfer is a mass M at height h, steered towards a wanted place by feet and hips, and a trunk, arms
and a club that turn about an inclined spine; no curve of the load is drawn:
    load      F = M g + sum m z''              (legs; arms and club on an inclined plane)
    pressure  M h x'' = F (x - x_cop) - H'     (frontal plane; H: of the spin)
The lead share follows from x_cop and the feet, and bends where a foot is nearly empty. Angles and
heights begin and end at rest, so momentum closes; what is between the swings obeys the same
equations. Seven sorts of players (people.py), whose muscles follow what they want a little late.
Impact is where the arms are back at the angle of address; no rule about the load places it, but
arms, club and knees all press then: the load peaks 10 ms before it in the median, 65 ms before to
5 ms after it in nine of ten swings. One swing in ten is quietened until the share falls by 2 to 3
points; those who press forward from the start may then still gain some ten. Body and club figures
are from memory, no source.

Truth:
  takeaway    arms, trunk and club begin
  turnaround  lowest true share (with sway) from takeaway to impact; null where the share without
              sway falls less than 1 point below address, or is not back 60 ms before impact
  impact      arms back at the angle of address
  finish      from here to the end of the hold the share without sway stays within 1 point of its
              last value and the load within 1 % of body weight

These golfers are for measuring: they were written blind from the promises of the program. The
weights of the signs of a swing have been fitted to them since.
"""
import numpy as np

from examiners.curves import GRID_HZ
from examiners.lesson_files import LEAST_LOAD_N, NOISES, RATES_HZ, Made, rounded
from examiners.twelfth.golfer import Golfer
from examiners.twelfth.motion import G, STEP_S, clock, step
from examiners.twelfth.pastimes import Timeline
from examiners.twelfth.swing import quieten, swing_motion

# How often something is done between the swings.
TICKETS = {
    "waggle": (Timeline.waggle, 4),
    "rocking": (Timeline.rock, 2.5),
    "bending": (Timeline.bend, 3),
    "regripping": (Timeline.regrip, 2.5),
    "talking": (Timeline.talk, 2.5),
    "leaning on the club": (Timeline.lean_on_club, 1.2),
    "hops": (Timeline.hop, 1),
    "stepping off and on": (Timeline.leave_and_return, 2),
    "walking across": (Timeline.walk_across, 1),
    "someone crosses a plate": (Timeline.someone_crosses, 1.2),
}


class Lesson(Timeline):
    """Swings, and what is between them."""

    def swing(self, is_shot, is_mini, address, has_ripple):
        """One swing and its hold."""
        golfer, draw = self.golfer, self.draw
        motion = swing_motion(self.rng, golfer, is_mini)
        goal = address + draw(-1, 4) if is_mini else min(motion.finish, 97)
        way = goal - address + motion.carried
        motion.wanted += way * step((motion.t - motion.start) / motion.slow)
        fallen = draw(3, 8)
        if golfer.falls_back and not is_mini:
            after = motion.t - motion.hit * STEP_S - 0.15
            motion.wanted -= fallen * step(after / 0.6)
        kind = f"{motion.length}, {golfer.kind}"
        if is_mini:
            kind = "half with 2-3 points, " + golfer.kind
            quieten(self.rng, golfer, motion, address)
        if is_shot and has_ripple:
            t = clock(0.12)
            ring = np.exp(-t / 0.015) * np.sin(2 * np.pi * draw(35, 60) * t)
            size = golfer.mass * G * draw(0.003, 0.016)
            motion.lift[motion.hit:motion.hit + t.size] += size * (ring - ring.mean())
        begin = round(self.now * GRID_HZ)
        end = begin + len(motion.t)
        self.wanted[end:] += motion.wanted[-1]
        self.push(
            len(motion.t) * STEP_S,
            torque=motion.torque,
            lift=motion.lift,
            forward=motion.forward,
            wanted=motion.wanted,
        )
        self.swings.append(
            dict(is_shot=is_shot, kind=kind, start=begin, hit=begin + motion.hit, hold_end=end)
        )

    def do(self, name, what, *how):
        """Does it and notes when."""
        start = self.now
        what(self, *how)
        self.between.append({"name": name, "from_s": round(start, 3), "to_s": round(self.now, 3)})

    def play(self, swings):
        """The whole lesson: arrive, then do something, settle, swing, again and again."""
        weights = np.array([tickets for _, tickets in TICKETS.values()])
        likely = weights / weights.sum()
        self.now = self.draw(1.5, 4)
        has_ripple = self.rng.random() < 0.5
        if self.rng.random() < 0.5:
            self.present[:] = 0
            self.override[:] = 1
            self.do("stepping on", Timeline.step_on)
        for _ in range(swings):
            count = self.rng.integers(1, 4)
            for name in self.rng.choice(list(TICKETS), size=count, replace=False, p=likely):
                self.do(str(name), TICKETS[name][0])
                self.now += self.draw(0.2, 0.8)
            address = self.golfer.habit["address"] + self.draw(-2.5, 2.5)
            self.do("settling", Timeline.settle, address)
            self.now += self.draw(0.7, 2.5)  # standing still
            is_shot = self.rng.random() < 0.75
            self.swing(is_shot, self.rng.random() < 0.1, address, has_ripple)
            self.do("lowering the club", Timeline.lower_club)
        if self.rng.random() < 0.4:
            self.do("stepping off", Timeline.step_off)
        self.now += self.draw(0.5, 1.5)


def wander(rng, n):
    """Slow postural wander of unit SD: 70 sines between 0.1 and 1.5 Hz, weaker to the fast end."""
    hertz = np.exp(rng.uniform(np.log(0.1), np.log(1.5), 70))
    phases = rng.uniform(0, 6.283, 70)
    t = np.arange(n) * STEP_S
    y = sum(
        size * np.sin(2 * np.pi * hz * t + phase)
        for size, hz, phase in zip(hertz**-0.4, hertz, phases)
    )
    return y / y.std()


def truth_of(swing, clean, share, lift, weight):
    """Times and shares of a swing from the true share (sway in) and the same without sway."""
    start, hit, hold = swing["start"], swing["hit"], swing["hold_end"]
    lowest = start + int(np.argmin(share[start:hit + 1]))
    turned = clean[start - 1] - clean[start:hit + 1].min() > 1.0 and lowest < hit - 60
    leaving = np.abs(clean[hit:hold] - clean[hold - 50:hold].mean()) > 1
    restless = leaving | (np.abs(lift[hit:hold]) > 0.01 * weight)
    finish = hit + 1 + int(np.flatnonzero(restless).max(initial=-1))
    assert hold - finish >= 500, "no rest after the swing"
    return dict(
        is_shot=swing["is_shot"],
        kind=swing["kind"],
        takeaway_s=start * STEP_S,
        turnaround_s=lowest * STEP_S if turned else None,
        impact_s=hit * STEP_S,
        finish_s=finish * STEP_S,
        address=share[start - 600:start - 100].mean(),
        lowest=share[lowest],
        impact=share[hit],
        finish=share[finish:finish + 500].mean(),
    )


def plate(rng, load, x, y, cell_sd):
    """What a plate tells: load, CoP x and y; four cells' differences make the noise of the CoP."""
    told = load + rng.normal(0, 2 * cell_sd, len(load))
    has_place = np.round(told, 2) >= LEAST_LOAD_N
    places = [
        (load * place + lever * rng.normal(0, 2 * cell_sd, len(load))) / np.maximum(told, 1)
        for place, lever in ((x, 130), (y, 200))
    ]
    return told, *(np.where(has_place, place, np.nan) for place in places)


def plates(rng, lesson, share, total, hand, pick, cell_sd):
    """What the left and the right plate tell."""
    golfer, n = lesson.golfer, len(share)
    sign = -1 if hand == "right" else 1  # from the stance frame to the plate frame
    toes = lesson.forward[:n] + rng.uniform(2, 5) * wander(rng, n)
    of_foot = {}
    for foot, side, own in (
        ("lead", 1, total * share / 100),
        ("trail", -1, total * (1 - share / 100)),
    ):
        load = own + getattr(lesson, foot + "_n")[:n]
        part = own / np.maximum(load, 1)
        middle = side * 1000 * golfer.half_stance
        x = sign * (middle + 1000 * golfer.roll * golfer.x_of(share) * part)
        y = (golfer.toe[foot] + np.clip(toes, -60, 90)) * part
        y = y + getattr(lesson, foot + "_mm")[:n] * (1 - part)
        of_foot[foot] = plate(rng, load[pick], x[pick], y[pick], cell_sd)
    feet = ("lead", "trail") if hand == "right" else ("trail", "lead")
    return (of_foot[foot] for foot in feet)


def trigger_of(truths, times, rate):
    """Up for 10 ms from the first sample at a strike or after it on."""
    trigger = np.zeros(len(times), int)
    for told in truths:
        if told["is_shot"]:
            first = np.searchsorted(times, told["impact_s"] - 1e-9)
            trigger[first:first + rate // 100] = 1
    return trigger


def make_lesson(seed, number, noise, swings):
    """One lesson of one person."""
    rng = np.random.default_rng([seed, number])
    sway_sd, cell_sd = NOISES[noise]
    golfer = Golfer(rng)
    rate = RATES_HZ[number % 5]
    has_trigger = number % 2 == 0
    hand = "left" if rng.random() < 0.4 else "right"
    lesson = Lesson(rng, golfer)
    lesson.play(swings)
    n = round(lesson.now * GRID_HZ)
    weight = golfer.mass * G
    lift, over = lesson.lift[:n], lesson.override[:n]
    clean = golfer.share_of(lesson.wanted[:n], lesson.torque[:n], lift)
    swayed = clean + sway_sd * wander(rng, n)
    share = np.clip((1 - over) * swayed + over * lesson.forced[:n], 0, 100)
    grid = np.arange(n)
    pulse = rng.uniform(0.3, 1.2) * np.sin(2 * np.pi * rng.uniform(0.9, 1.6) * grid * STEP_S)
    total = np.maximum(weight + lift + pulse, 0) * lesson.present[:n]
    pick = slice(0, n, GRID_HZ // rate)
    times = grid[pick] * STEP_S
    left, right = plates(rng, lesson, share, total, hand, pick, cell_sd)
    truths = [rounded(truth_of(swing, clean, share, lift, weight)) for swing in lesson.swings]
    columns = [times, left[0], right[0], *left[1:], *right[1:]]
    return Made(
        columns + [trigger_of(truths, times, rate)] * has_trigger,
        {
            "hand": hand,
            "rate_hz": rate,
            "mass_kg": round(golfer.mass, 3),
            "has_trigger": has_trigger,
            "swings": truths,
            "between": lesson.between,
        },
        time_digits=3,
    )
