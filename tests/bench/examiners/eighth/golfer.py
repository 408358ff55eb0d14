"""Who swings: body, habits and style."""
from types import SimpleNamespace

import numpy as np

SHIFT = {
    "pivot": (0.03, 0.09),
    "front foot": (0.09, 0.24),
    "reverse": (0.07, 0.20),
    "slider": (0.14, 0.32),
    "forward": (0, 0),
}


def draw_golfer(rng):
    """What stays with one person over a lesson; times in s, lengths in m."""
    golfer = SimpleNamespace()
    draw = rng.uniform
    golfer.mass = float(np.clip(rng.choice([draw(45, 130), rng.normal(78, 13)]), 45, 130))
    golfer.style = str(rng.choice(list(SHIFT), p=[0.40, 0.22, 0.18, 0.15, 0.05]))
    golfer.skill = rng.beta(1.3, 3) if golfer.style == "slider" else rng.beta(2, 1.3)
    golfer.address = (
        draw(0.50, 0.66) if golfer.style == "slider" or golfer.skill < 0.4 else draw(0.70, 0.80)
    )
    golfer.shift = draw(*SHIFT[golfer.style])
    golfer.finish = draw(0.82, 0.965)
    # backswing in s, tempo, how much times vary
    golfer.tb = draw(0.58, 1.05)
    golfer.ratio = draw(2.1, 3.8)
    golfer.steady = draw(0.02, 0.06)
    # peak of the load above body weight, full swing
    golfer.vigor = draw(0.06, 0.20) + draw(0, 0.14) * golfer.skill
    # turnaround against the top
    golfer.turn = 0.03 - draw(0.05, 0.16) * golfer.skill + rng.normal(0, 0.02)
    # lead-foot peak before contact
    golfer.lag = np.interp(golfer.skill, [0, 0.35, 1], [-0.05, 0.02, 0.085]) + rng.normal(
        0, 0.022
    )
    # the trail foot unloads this much ahead of the lead foot
    golfer.trail_lead = draw(-0.02, 0.035)
    # course of the shift in the backswing
    golfer.mid = draw(0.28, 0.48)
    golfer.mid_part = draw(0.40, 0.72)
    golfer.late_part = draw(0.86, 0.97)
    # first a touch to the lead side
    golfer.recoil = draw(0.004, 0.012) if rng.random() < 0.2 else 0.0
    golfer.quick = draw(0.3, 0.5) if rng.random() < 0.5 else 0.0  # brisk start of the shift
    # part of the way forward in early downswing
    golfer.early = draw(1.1, 1.35) if golfer.style == "reverse" else draw(0.30, 0.60)
    # shares at contact
    golfer.gain = draw(0.03, 0.14)
    golfer.fall = draw(0.04, 0.12)
    # load at events, in units of vigor
    golfer.lift = draw(-0.1, 0.35)
    golfer.light = draw(0.15, 0.65)
    golfer.drive = draw(-0.1, 0.45)
    golfer.contact = draw(0.15, 0.85)
    # s into the finish, whether it wobbles, how much higher the body stands
    golfer.rest = draw(0.50, 0.95)
    golfer.wobbly = rng.random()
    golfer.rise = draw(-0.005, 0.045)
    golfer.width = draw(0.22, 0.44)
    golfer.toes = rng.normal(0, 0.015, 2)
    golfer.roll = draw(0, 0.012, 2)
    golfer.lead_y = np.array(
        [
            draw(0.005, 0.03),
            draw(0, 0.035) if golfer.style == "reverse" else draw(-0.05, -0.01),
            -0.02,
        ]
    )
    # CoP ahead at the top, at contact, from there on
    golfer.trail_y = np.array([draw(-0.035, 0), draw(0.02, 0.06), draw(0, 0.04)])
    golfer.lengths = rng.dirichlet([1.5, 1.5, 1.5])
    golfer.ripple = draw(2, 12) if rng.random() < 0.4 else 0.0
    return golfer
