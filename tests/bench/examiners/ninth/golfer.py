"""Who swings: a body's masses and habits, and what its motions do to the plates."""
import numpy as np

from examiners.curves import GRID_HZ
from examiners.ninth.motion import SMOOTH, blur, path, soft

G = 9.81
# Points that go to the trail foot by the top.
STYLES = {
    "over the lead leg": (3, 8),
    "centred turn": (6, 13),
    "sways back": (12, 26),
    "presses forward": (-7, -3),
    "arms only": (2.5, 6),
    "beginner": (5, 18),
}
# The body's height at the top, in transition and at impact.
LEGS = {
    "quiet": (0, -0.15, 0.05),
    "squats": (-0.2, -1, 0.3),
    "rises": (0.7, -0.3, 0.6),
    "sits late": (-0.8, -1, -0.2),
}
# The arms' turn in rad, from and to; size, from and to.
LENGTHS = {
    "full": (2.0, 2.5, 1.0, 1.0),
    "three-quarter": (1.6, 2.0, 0.8, 1.0),
    "half": (1.1, 1.6, 0.5, 0.8),
    "tiny half": (0.7, 1.1, 0.3, 0.5),
}


class Golfer:
    """Habits of one student; swings vary about them."""

    def __init__(self, rng):
        self.rng = rng
        draw = rng.uniform
        # kg and m
        self.mass = float(np.exp(draw(np.log(45), np.log(130))))
        self.stance = draw(0.26, 0.46)
        self.height = draw(0.85, 1.08)
        self.arms = draw(0.088, 0.112) * self.mass  # kg
        self.reach = draw(0.52, 0.68)
        self.club = draw(0.42, 0.48)
        self.shaft = draw(0.60, 0.70)
        self.steep = draw(0.76, 0.90)  # vertical part of the swing plane
        # the parts of the inertial moment that are let through: of all, of arms and club
        self.whip = draw(0.005, 0.05)
        self.fling = draw(-0.004, 0.015)
        self.give = draw(0.20, 0.75)  # part of the arms' lift that reaches the ground
        self.style = rng.choice(list(STYLES), p=(0.32, 0.22, 0.16, 0.08, 0.10, 0.12))
        weak = self.style in ("beginner", "sways back") and draw() < 0.7
        self.address = draw(50, 65) if weak else draw(69, 81)
        self.drop = draw(*STYLES[self.style])
        self.held = draw(66, 86) if self.style == "beginner" else draw(84, 97)
        self.back_s = draw(0.6, 1.0)
        self.ratio = draw(2.1, 3.6)
        # how crisp the takeaway is; s at the top
        self.onset = draw(1, 6)
        self.pause = (draw() < 0.15) * draw(0.03, 0.15)
        # the body starts so many s after the club, and turns so many before the hands
        self.body_start = draw(-0.12, 0.06)
        self.body_leads = draw(-0.04, 0.16)
        self.arrive = draw(0.35, 0.9)  # part of the way to the finish done at impact
        self.legs = rng.choice(list(LEGS), p=(0.3, 0.3, 0.2, 0.2))
        self.leg_m = draw(0.004, 0.018)
        self.stretch_before = draw(-0.03, 0.07)  # s, the legs' push ends before impact
        # of the wrist in rad; the body balances so many s after the arms
        self.hinge = draw(0.5, 1.0)
        self.lag = draw(0.0, 0.012)
        self.ripple = (draw() < 0.4) * draw(2, 8)  # N, shots only

    def forces(self, arm, wrist, body, legs):
        """What a motion that is at rest at both ends does to the plates.

        Change of share (fraction) and load (body weights), forward shift (mm), and the sideways
        place of arms and club alone, as a shift of the common centre of mass (m).
        """
        total = self.mass + self.club
        ang = arm + wrist
        hub = (0.52 * self.arms + self.club) * self.reach / total
        tip = self.club * self.shaft / total
        swung = hub * np.sin(arm) + tip * np.sin(ang)
        lift = hub * (1 - np.cos(arm)) + tip * (1 - np.cos(ang))
        z = blur(legs, 160) + self.give * self.steep * lift
        moment, z_acc = (
            np.gradient(np.gradient(q)) * GRID_HZ * GRID_HZ
            for q in (self.whip * (body + swung) + self.fling * swung, z)
        )
        # else: softer body
        load = (
            z_acc
            / G
            * min(1.0, 0.55 * G / max(z_acc.max(), 1e-9), 0.36 * G / max(-z_acc.min(), 1e-9))
        )
        share = (body + swung - self.height * moment / G / (1 + load)) / self.stance
        return blur(share), blur(load), blur(-400 * lift * np.sqrt(1 - self.steep**2)), swung

    def swing(self, s0, kind):
        """Arrays from takeaway to rest, and the instants in s from takeaway.

        s0 is the share at the start (fraction); last of all, whether the share falls.
        """
        draw = self.rng.uniform
        half_blur = 0.2 * SMOOTH / 1000
        turn = draw(*LENGTHS[kind][:2])
        size = draw(*LENGTHS[kind][2:])
        tb = np.clip(self.back_s * draw(0.92, 1.08) * (0.93 + 0.07 * size), 0.5, 1.1)
        td = np.clip(tb / (self.ratio * draw(0.93, 1.07)), 0.22, 0.45)
        # one of them is first
        start = half_blur + max(0.0, -self.body_start)
        body0 = half_blur + max(0.0, self.body_start)
        top = start + tb - half_blur
        tl = top + self.pause * draw(0.7, 1.3)  # the hands leave the top
        hit = tl + td
        speed = draw(1.55, 1.9) * turn / td
        slow = draw(0.24, 0.34)  # small: fast at first, then a long float to the finish
        tf = float(np.clip(draw(0.85, 1.15) * turn / (slow * speed), 0.45, 1.1))
        t = np.arange(int((hit + tf * 1.4 + 0.2) * GRID_HZ)) / GRID_HZ
        tops = (
            [(top, -turn, 0, 0), (tl, -turn, 0, 0)]
            if tl > top
            else [(top, -turn, 0, draw(1.0, 4.0) * turn / td**2)]
        )
        arm = path(
            t,
            [(start, 0, 0, -self.onset * turn / tb**2)]
            + tops
            + [(hit, 0, speed, -draw(0, 0.6) * speed / td), (hit + tf, slow * speed * tf, 0, 0)],
        )
        snap = draw(2.0, 3.2)
        cock = self.hinge * min(turn, 1.5) * draw(0.9, 1.1)
        flick = snap * cock / td
        out = min(tf * 0.5, 1.9 / flick)
        wrist = path(
            t,
            [
                (start + draw(0, 0.1) * tb, 0, 0, 0),
                (top, -cock, 0, 0),
                (hit, 0, flick, 0),
                (hit + out, 0.42 * flick * out, 0, 0),
            ],
        )
        # The body goes where the wanted pressure asks, given where arms and club are.
        drop = max(abs(self.drop) * size * draw(0.75, 1.25) / 100, 0.022) * np.sign(self.drop)
        gain = np.clip(
            (self.held / 100 + draw(-0.02, 0.02) - s0) * (0.45 + 0.55 * size), -0.02, 0.97 - s0
        )
        if kind == "tiny half":
            drop = np.sign(drop) * draw(0.02, 0.03)
            gain = draw(-0.01, 0.02)
        before = min(top - self.body_leads + draw(-0.02, 0.02), tl + 0.25 * td)
        at_hit = np.clip(self.arrive + draw(-0.08, 0.08), 0.3, 0.95) * (gain + drop) - drop
        stop = hit + tf * draw(0.9, 1.4)
        wanted = path(
            t,
            [
                (body0, 0, 0, -self.onset * draw(0.7, 1.2) * drop / tb**2),
                (before, -drop, 0, draw(2, 8) * (at_hit + drop)),
                (hit, at_hit, draw(0.3, 1.3) * (gain - at_hit) / (stop - hit), 0),
                (stop, gain, 0, 0),
            ],
        )
        body = wanted * self.stance - np.interp(
            t - self.lag, t, self.forces(arm, wrist, 0, 0 * t)[3]
        )
        up = hit - self.stretch_before
        h_top, h_low, h_hit = self.leg_m * size * draw(0.8, 1.2) * np.array(LEGS[self.legs])
        low_t = tl + draw(0.4, 0.7) * (up - tl)
        legs = path(
            t,
            [
                (body0, 0, 0, 0),
                (top - 0.05, h_top, 0, 0),
                (low_t, h_low, 0, 0),
                (up, h_hit, draw(0.8, 1.6) * (h_hit - h_low) / (up - low_t), 0),
                (stop, h_hit + draw(0, 0.8) * self.leg_m * size, 0, 0),
            ],
        )
        share, load, y, _ = self.forces(arm, wrist, body, legs)
        if kind == "tiny half":
            share = share * draw(2.0, 3.0) / 100 / np.abs(share).max()
        share = soft(s0 + share) + s0 - soft(s0)
        hands = np.abs(np.gradient(arm))
        moving = (
            (np.abs(share - share[-1]) > min(0.01, 0.1 * np.ptp(share)))
            | (hands > 0.1 * hands.max())
            | (np.abs(load) > min(0.02, 0.1 * np.ptp(load)))
        )
        finish = (1 + np.flatnonzero(moving)[-1]) / GRID_HZ
        toe = path(t, [(hit, 0, 0, 0), (stop, max(0.0, share[-1] - 0.7) * size * 200, 0, 0)])
        falls = bool(share[:int(hit * GRID_HZ)].min() < s0 - 0.01)
        return share, 1 + load, y, toe, hit, finish, falls
