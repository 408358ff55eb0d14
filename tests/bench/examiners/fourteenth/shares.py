"""How the lead share goes in a swing: five families of paths, in points since address."""
import numpy as np
from scipy.interpolate import BPoly

from examiners.fourteenth.motion import held_pchip, logistic, spring_step


def sigmoid(draw, c):
    """Back and forward by a logistic step each."""
    back, on = draw(7, 11), draw(7, 11)
    centre = (c.impact - c.turn) / (c.rest - c.turn) * draw(0.6, 1.0)

    def path(t):
        return c.low * logistic(t, c.takeaway, c.turn, 0.5, back) + (
            c.at_rest - c.low
        ) * logistic(t, c.turn, c.rest, centre, on)

    return path


def least_jerk(draw, c):
    """Quintics from event to event, with a speed at impact."""
    speed = draw(0.6, 1.4) * (c.at_rest - c.low) / (c.rest - c.turn)
    curve = BPoly.from_derivatives(
        [c.takeaway, c.turn, c.impact, c.rest],
        [[0, 0, 0], [c.low, 0, 0], [c.at_impact, speed], [c.at_rest, 0, 0]],
    )
    return lambda t: curve(np.clip(t, c.takeaway, c.rest))


def piecewise(draw, c):
    """Monotone cubics through the events and a knot between each two of them."""
    times = [
        c.takeaway,
        c.takeaway + draw(0.35, 0.65) * (c.turn - c.takeaway),
        c.turn,
        c.turn + draw(0.3, 0.6) * (c.impact - c.turn),
        c.impact,
        (c.impact + c.rest) / 2,
        c.rest,
    ]
    values = [
        0,
        draw(0.4, 0.75) * c.low,
        c.low,
        c.low + draw(0.15, 0.5) * (c.at_impact - c.low),
        c.at_impact,
        c.at_impact + draw(0.6, 1.05) * (c.at_rest - c.at_impact),
        c.at_rest,
    ]
    return lambda t: held_pchip(t, times, values)


def spring(draw, c):
    """A mass on a damped spring that is pulled back, and then forward."""
    back, on = draw(4, 6) / (c.turn - c.takeaway), draw(4.5, 8) / (c.rest - c.turn)
    back_damped, on_damped = draw(0.75, 0.98), draw(0.78, 0.98)
    drive = c.turn - draw(0.0, 0.06)

    def path(t):
        return c.low * spring_step(t, c.takeaway, back, back_damped) + (
            c.at_rest - c.low
        ) * spring_step(t, drive, on, on_damped)

    return path


def forward(part, c):
    """Never back; as far as this part of the way to impact where others turn."""
    times = [c.takeaway, c.turn, c.impact, c.rest]
    return lambda t: held_pchip(t, times, [0, part * c.at_impact, c.at_impact, c.at_rest])


FAMILIES = {
    "sigmoid": sigmoid,
    "minimum jerk": least_jerk,
    "piecewise": piecewise,
    "spring": spring,
}


def share_path(draw, c):
    """The path of a swing's course."""
    part = draw(0.05, 0.3)
    return forward(part, c) if c.family == "forward" else FAMILIES[c.family](draw, c)
