"""How a body is accelerated up and down in a swing, m/s^2, from standstill to standstill."""
import numpy as np
from scipy.interpolate import BPoly

from examiners.fourteenth.motion import G, lift, pulse, way

FINE_S = 0.0005


def arms_load(draw, c, peak, fine):
    """Arms and club on a circle, lowest at the peak of the load; and how high they stay, m."""
    turn = draw(1.6, 2.4) * np.clip(c.push / 0.15, 0.5, 1)
    on = draw(1.2, 2.2)
    down = peak - c.top
    speed = draw(1.5, 1.9) * turn / down
    angle = BPoly.from_derivatives(
        [c.takeaway, c.top, peak, c.rest],
        [[0, 0, 0], [-turn, 0, 2 * turn / down**2], [0, speed, 0], [on, 0, 0]],
    )
    turned = angle(np.clip(fine, c.takeaway, c.rest))
    height = c.push * G / speed**2 * (1 - np.cos(turned))
    arms = np.gradient(np.gradient(height, fine), fine)
    return lambda t: np.interp(t, fine, arms, left=0, right=0), height[-1]


def pushes_load(draw, c, peak, fine, has_second):
    """Arms up and down and one push or two; unweighting and settling close speed and height."""
    raised, rise, fall = draw(0.005, 0.03), draw(0.03, 0.07), draw(0.03, 0.07)
    early, late = draw(0.16, 0.3), draw(0.2, 0.35)
    back, on = c.top - c.takeaway, c.impact - c.top + 0.2
    up, down = draw(0.10, 0.17) * back, draw(0.12, 0.2) * back
    second = draw(0.2, 0.6) * has_second
    after, wide = c.impact + draw(0.12, 0.25), draw(0.03, 0.06)

    def known(t):
        arms = lift(way(t, c.takeaway, back)) / back**2 - lift(way(t, c.top, on)) / on**2
        legs = pulse(t, peak, rise, fall) + second * pulse(t, after, wide, wide)
        return raised * arms + c.push * G * legs

    def unweight(t):
        return pulse(t, max(c.takeaway + 3 * up, peak - early), up, 0.06)

    def settle(t):
        return pulse(t, peak + late, 0.07, down)

    def left_over(load):
        """Speed and height at the end, but for factors."""
        return [load(fine).sum(), (load(fine) * (fine - c.takeaway)).sum()]

    closing = np.array([left_over(unweight), left_over(settle)]).T
    light, heavy = np.linalg.solve(closing, -np.array(left_over(known)))
    return lambda t: known(t) + light * unweight(t) + heavy * settle(t)


def load_path(rng, person, c):
    """The acceleration over time in a swing's course, and how far the body is raised, m."""
    fine = np.arange(c.takeaway - 0.2, c.rest + 1.5, FINE_S)
    peak = c.impact - person.peak_before_impact - rng.normal(0, 0.008)
    if person.load == "arms":
        return arms_load(rng.uniform, c, peak, fine)
    return pushes_load(rng.uniform, c, peak, fine, person.load == "two pushes"), 0.0
