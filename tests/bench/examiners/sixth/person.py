"""Who swings: body, habits and tempo."""
import numpy as np

# How far a body goes back in the backswing, in m.
STYLES = {
    "centred": (0, 0.008),
    "sways": (0.02, 0.045),
    "early": (0.004, 0.02),
    "lifts": (0, 0.015),
    "falls back": (0, 0.015),
    "forward": (-0.012, -0.004),
    "arms only": (0, 0),
}


class Person:
    """Body, habits and tempo of one student."""

    def __init__(self, rng):
        draw = rng.uniform
        self.mass = draw(45, 130)
        height = np.clip(rng.normal(1.52 + 0.0025 * self.mass, 0.07), 1.48, 2.0)
        self.style = rng.choice(list(STYLES), p=[0.17, 0.15, 0.17, 0.15, 0.09, 0.12, 0.15])
        self.address = draw(50, 65) if rng.random() < 0.3 else draw(70, 80)
        self.finish = draw(80, 90) if self.address < 66 else draw(max(84, self.address + 6), 97)
        self.width = height * draw(0.14, 0.23)
        self.hub = 0.78 * height
        self.arm = 0.36 * height
        self.centre = 0.56 * height * draw(0.93, 1.0)
        self.plane = np.radians(draw(50, 64))
        self.arms_kg = 0.14 * self.mass**0.9
        self.club_kg = draw(0.42, 0.48)
        self.down = draw(0.24, 0.42)
        # the parts of the moments that are taken by turning
        self.turn_body = draw(0.45, 0.85)
        self.turn_arms = draw(0.955, 1.005)
        # hips and head against the weight of the arms
        self.balance = 1.05 if self.style == "forward" else draw(0.3, 0.95)
        # how far the trunk yields to the arms; how early the legs push
        self.give = draw(0.1, 0.6)
        self.push = draw(0.45, 1.0)
        self.back = np.clip(self.down * draw(2.1, 3.8), 0.55, 1.05)
        self.skew = draw(0.82, 1.1)  # below 1 the body hurries at the beginning
        # speed of the arms at impact over their mean in the downswing
        self.late = draw(1.5, 1.95)
        self.flow = draw(0, 5)  # how hard the arms turn round at the top: 0 is a pause
        # how far the body goes down and up, in m
        self.dip = draw(0.002, 0.03)
        self.rise = draw(0.01, 0.05)
        # how long the body goes through before the arms are at the top, and starts after them
        self.lead_in = draw(-0.18, 0.10)
        self.body_delay = rng.choice([0.0, draw(-0.06, 0.12)])
        self.wobble = draw(0.6, 2.5) * (rng.random() < 0.35)
        self.ripple = draw(4, 16) * (rng.random() < 0.35)
        self.back_shift = draw(*STYLES[self.style])
