"""A tenth author's lessons: golfers as linear systems under steps and pulses of the brain.

A command goes through a muscle's activation (first order) and a second-order system with the
person's own frequency and damping: hip (shift to share, with the press that a shift needs, x -
kappa x''), ankle (press, brace to share), leg (height to load), toe (CoP only), arm (swing
angle, 0 at the ball; the club follows as one more resonant system). Arms and club are masses on
inclined circles: they load the plates, most near the bottom of the arc, and shift the share.
Every load is the second derivative of a height that comes to rest: momentum closes. Impact is
where the club's angle passes zero on its way down; no rule about the load places it. Ranges:
general mechanics and memory, no source.

Truth, from the motion without noise:
  takeaway    share has moved by 0.1 points, club by 0.5 degrees or load by 0.2 % of body weight
  turnaround  lowest true share between takeaway and impact; null, with `lowest`, when the share
              dips less than 0.5 points plus half an SD of sway below its value at takeaway, or
              is lowest in the first 0.15 or last 0.02 s
  finish      first instant from which, until the finish is given up, the share stays within 1
              point of the held value, the load within 1.5 % of body weight and the arms within
              3 degrees

These golfers are for measuring: they were written blind from the promises of the program. The
weights of the signs of a swing have been fitted to them since.
"""
import numpy as np

from examiners.curves import GRID_HZ, band_noise
from examiners.lesson_files import LEAST_LOAD_N, NOISES, RATES_HZ, Made
from examiners.tenth.pastimes import Timeline
from examiners.tenth.person import Person
from examiners.tenth.systems import G, accel, limit, second_order


class Lesson(Timeline):
    """Swings, and what is between them."""

    def swing(self, address, kind, is_shot):
        """Commands of one swing, its hold and the way back to standing at ease."""
        person = self.person
        draw = self.rng.uniform
        n = self.rng.normal
        t0 = self.t
        low, high, effort = {
            "small half": (0.5, 0.8, 0.45),
            "half": (0.6, 0.95, 0.6),
            "three-quarter": (1.0, 1.4, 0.85),
            "full": (1.45, 1.85, 1.0),
        }[kind]
        plan, slack = None, 0.08
        while plan is None:
            # rarely: another way to the tempo
            timing = (
                person.tempo if slack < 0.16 else (person.goal[0] * draw(0.5, 1.1), draw(0, 2.5))
            )
            plan = person.plan_arms(self.rng, draw(low, high), timing, slack)
            slack = slack * 1.01
        size, down, _, _, through, hit = plan
        effort *= draw(0.85, 1.15)
        start = t0 + person.hip_delay + n(0, 0.015)
        forward = t0 + down - person.lead_time + n(0, 0.02)
        hit = t0 + hit
        self.hip.to(
            start,
            address
            + person.gravity_gain * np.sin(min(size, 1.57)) * 0.5
            - person.dip * effort * draw(0.75, 1.25),
        )
        held = (
            address + abs(person.dip) * draw(0, 0.6)
            if kind == "small half"
            else np.clip(person.finish + n(0, 2), 80, 97)
        )
        self.hip.to(forward, held - person.gravity_gain * np.sin(through))
        self.ankle.pulse(forward - 0.1, -person.press * effort * draw(0.6, 1.4), 0.14)
        self.ankle.pulse(hit - person.brace_lead, person.brace * effort + n(0, 0.7), 0.16)
        self.arm.swing(t0, plan)
        self.leg.to(t0 + down - draw(0.02, 0.16), -person.flex * effort * draw(0.7, 1.3))
        self.leg.to(hit - person.leg_lead + n(0, 0.012), person.push * effort * draw(0.7, 1.3))
        self.leg.to(hit + draw(0.05, 0.2), self.leg.now * 0.5, draw(0.25, 0.5))
        self.toe.to(t0 + draw(0, 0.1), person.toe_back * effort)
        self.toe.to(t0 + down, person.toe_through * effort)
        # then lower the club, stand at ease
        self.t = hit + draw(1.6, 4.0)
        back = draw(0.9, 1.6)
        points = draw(2.0, 2.9) if kind == "small half" else None  # range of the share
        self.swings.append(
            dict(
                is_shot=is_shot,
                kind=f"{kind}, {person.style}",
                begin=min(t0, start),
                top=t0 + down,
                hold_end=self.t,
                address=address,
                points=points,
                gone=self.t + back * 1.2 + 1.0,
            )
        )
        self.hip.to(self.t, address + (0 if points else n(0, 3)), back)
        self.together(back * 1.2, (self.arm, 0), (self.leg, 0), (self.toe, 0), stay=1.0)

    def response(self, n):
        """(noise-free share without its soft ends, arm angle, club angle) of the lesson."""
        person = self.person
        hip = self.hip.sample(n)
        x = second_order(hip - hip[0], *person.hip)
        theta = second_order(self.arm.sample(n), *person.arm)
        share = (
            hip[0]
            + x
            - person.kappa * accel(x)
            + second_order(self.ankle.sample(n), *person.ankle)
            + person.gravity_gain * np.sin(theta)
            - person.inertia_gain * accel(person.arm_length * np.sin(theta))
        )
        # a small half swing: the same, scaled to its points
        for s in (s for s in self.swings if s["points"]):
            a, b, c = (int(s[k] * GRID_HZ) for k in ("begin", "hold_end", "gone"))
            way = (share[a:c] - s["address"]) * s["points"] / np.ptp(share[a:b])
            share[a:c] = s["address"] + way
        return share, theta, second_order(theta, *person.club)

    def play(self, count):
        """The whole lesson: something, address, stillness, swing, and again."""
        names = (
            ["waggle", "rocking", "bending", "shuffling"] * 4
            + ["regripping", "stepping off and on"] * 3
            + ["hop"] * 2
            + ["walking across", "someone else crossing", "leaning on the club", "waggle"] * 2
        )
        for _ in range(count):
            for name in self.rng.choice(names, self.rng.integers(1, 3)):
                self.do(str(name))
            address = np.clip(self.person.address + self.rng.normal(0, 1.5), 50, 82)
            self.together(self.rng.uniform(0.6, 1.2), (self.hip, address), stay=1.2)
            if self.rng.random() < 0.35:
                self.do("waggle")
            # the first 0.3 s still fade: 0.7 to 2.5 s of stillness
            self.together(self.rng.uniform(1.0, 2.8))
            kind = self.rng.choice(
                ["small half", "half", "three-quarter", "full"], p=[0.1, 0.25, 0.35, 0.3]
            )
            self.swing(address, kind, self.rng.random() < 0.7)
        self.t += 1.0


def hop_load(rng):
    """Load of a hop in body weights above standing.

    Crouch, push, flight at -1, and a landing that closes momentum.
    """
    flight, land = (int(x * GRID_HZ) for x in rng.uniform([0.12, 0.16], [0.3, 0.26]))

    def half(m, impulse):
        """Half a sine of m samples."""
        return impulse * np.sin(np.pi * np.arange(m) / m) * np.pi / 2 / m

    dip = 0.055 * GRID_HZ  # impulses in samples times body weight
    return np.concatenate(
        [half(250, -dip), half(260, dip + flight / 2), -np.ones(flight), half(land, flight / 2)]
    )


def add(y, start, part):
    """Add a part to a signal from a time on, cut at its end."""
    i = int(np.ceil(start * GRID_HZ - 1e-9))
    y[i:i + part.size] += part[:max(y.size - i, 0)]


def events(lesson, share, quiet, load, theta, club, sway_sd):
    """Truth of the swings.

    From the true share, and the noise-free share, load (body weights above standing) and angles.
    """
    out = []
    for s in lesson.swings:
        b, top, end = (int(s[k] * GRID_HZ) for k in ("begin", "top", "hold_end"))
        moved = (
            (abs(quiet[b:top] - quiet[b]) > 0.1)
            | (abs(club[b:top] - club[b]) > np.radians(0.5))
            | (abs(load[b:top]) > 0.002)
        )
        take = b + int(np.argmax(moved))
        low = top + int(np.argmin(club[top:end]))
        hit = low + int(np.argmax(club[low:end] > 0))
        impact = hit - club[hit] / (club[hit] - club[hit - 1])
        loud = (
            (abs(quiet[hit:end] - quiet[end]) > 1.0)
            | (abs(load[hit:end]) > 0.015)
            | (abs(theta[hit:end] - theta[end]) > np.radians(3))
        )
        finish = hit + int(np.flatnonzero(loud)[-1]) + 1
        turn = take + int(np.argmin(share[take:hit]))
        held = finish + 500 <= end
        dip = quiet[take] - quiet[take:hit].min()
        turned = dip >= 0.5 + sway_sd / 2 and take + 150 < turn < hit - 20
        values = {
            "takeaway_s": take / GRID_HZ,
            "turnaround_s": turn / GRID_HZ if turned else None,
            "impact_s": impact / GRID_HZ,
            "finish_s": finish / GRID_HZ if held else None,
            "address": share[take - 600:take - 100].mean(),
            "lowest": share[turn] if turned else None,
            "impact": share[hit - 1] + (impact - hit + 1) * (share[hit] - share[hit - 1]),
            "finish": share[finish:finish + 500].mean() if held else None,
        }
        out.append(
            {
                "is_shot": bool(s["is_shot"]),
                "kind": s["kind"],
                **{k: None if v is None else round(float(v), 5) for k, v in values.items()},
            }
        )
    return out


def plate(rng, load, x, y, cell_sd, centre):
    """Reading (load, CoP x, CoP y) of a plate with four cells near its corners.

    x and y in mm, plate frame.
    """
    px, py = np.array([[-140.0, -140, 140, 140], [-240.0, 240, -240, 240]])[..., None]
    cells = load / 4 * (1 + (x - centre) / px) * (1 + y / py) + rng.normal(
        0, cell_sd, (4, load.size)
    )
    total = cells.sum(0)
    safe = np.where(total < LEAST_LOAD_N, np.nan, total)
    return total, centre + (cells * px).sum(0) / safe, (cells * py).sum(0) / safe


def forces(rng, lesson, person, share, load):
    """What the lead and the trail foot carry in N, [2, n], guests and all."""
    n = share.size
    lead, trail, ground = (
        np.clip(track.sample(n), 0, 1) for track in (lesson.lead, lesson.trail, lesson.out)
    )
    feet = np.stack([share / 100 * lead, (1 - share / 100) * trail])
    feet = (
        feet / np.maximum(feet.sum(0) + ground, 1e-9) * person.mass * G * np.maximum(1 + load, 0)
    )
    for foot, start, length, mass in lesson.guests:
        x = np.arange(int(length * GRID_HZ)) / (length * GRID_HZ)
        humps = np.sin(np.pi * x) * 1.05 + 0.35 * np.sin(3 * np.pi * x)
        add(feet[foot], start, mass * G * humps)
    return feet


def strike(rng, truth, load):
    """Adds to the load what the floor, if it does, answers to strikes; the trigger's column."""
    trigger = np.zeros(load.size)
    tau = np.arange(250) / GRID_HZ
    floor = rng.choice([0, rng.uniform(0.002, 0.008)], p=[0.6, 0.4])
    ripple = floor * np.exp(-tau / 0.04) * np.sin(2 * np.pi * rng.uniform(12, 35) * tau)
    for told in truth:
        if told["is_shot"]:
            add(load, told["impact_s"], ripple)
            add(trigger, told["impact_s"], np.ones(10))
    return trigger


def make_lesson(seed, number, noise, swings):
    """One lesson of one person."""
    rng = np.random.default_rng([seed, number])
    sway_sd, cell_sd = NOISES[noise]
    rate = RATES_HZ[number % len(RATES_HZ)]
    has_trigger = bool(number % 2)
    lead_sign = rng.choice([-1, 1])  # right-handed golfers lead with the left foot
    person = Person(rng)
    lesson = Lesson(rng, person)
    lesson.play(swings)
    n = int(lesson.t * GRID_HZ)
    quiet, theta, club = lesson.response(n)
    share = limit(quiet + sway_sd * band_noise(rng, n, 0.1, 1.5, rng.uniform(0.3, 1.3)))
    # body weights
    motion = accel(second_order(lesson.leg.sample(n), *person.leg)) / G + person.arc(theta, club)
    truth = events(lesson, share, limit(quiet), motion, theta, club, sway_sd)
    # heart and breath
    load = motion + rng.uniform(0.0003, 0.0012) * band_noise(rng, n, 0.8, 6, 0.6)
    trigger = strike(rng, truth, load)
    for start in lesson.hops:
        add(load, start, hop_load(rng))
    feet = forces(rng, lesson, person, share, load)
    grid = np.arange(0, n, GRID_HZ // rate)
    toe = person.foot_y + second_order(lesson.toe.sample(n), *person.toe)
    toe = toe + 3 * sway_sd * band_noise(rng, n, 0.1, 1.5, 0.6)
    of_side = {}
    for foot, sign, pull in ((0, lead_sign, 0.35), (1, -lead_sign, 0.2)):
        x = sign * person.stance / 2 + lead_sign * pull * (share - person.address)
        y = toe * (1 if foot == 0 else rng.uniform(0.3, 1.0)) + rng.normal(0, 8)
        of_side[sign] = plate(rng, feet[foot, grid], x[grid], y[grid], cell_sd, sign * 170.0)
    (left_n, *left_place), (right_n, *right_place) = of_side[-1], of_side[1]
    columns = [grid / GRID_HZ, left_n, right_n, *left_place, *right_place]
    return Made(
        columns + [trigger[grid]] * has_trigger,
        {
            "hand": "right" if lead_sign < 0 else "left",
            "rate_hz": rate,
            "mass_kg": round(person.mass, 2),
            "has_trigger": has_trigger,
            "swings": truth,
            "between": lesson.between,
        },
    )
