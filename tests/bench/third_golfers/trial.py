#!/usr/bin/python3
"""Tries the body against mechanics: what the ground carries, from textbooks' cases."""
import pathlib
import sys

try:
    import numpy as np
    import scipy  # noqa: F401, the other modules need it
except ImportError as missing:
    print(f"not tried: {missing}; install python3-scipy and run it with /usr/bin/python3")
    sys.exit(0)

sys.path.append(str(pathlib.Path(__file__).resolve().parent.parent / "other_golfers"))

import footwork
from body import GRAVITY, Act, Body, fade, limited, stroke
from hour import Hour
from idling import ACTS
from plates import CURVE_HZ
from swinging import is_instant, rests_from, swing_act

STANDARD_GRAVITY = 9.80665  # m/s^2, ISO 80000-3
BODY = Body(height_m=1.0, stance_m=0.3, turning_m2=0.012, trunk_m2=0.01, reach_m=0.02)


def try_statics():
    """Who stands still rests as levers say: a fifth of the way off the middle is a fifth."""
    share, load = Act(1, BODY.place_m(0.7)).ground(BODY)
    assert np.allclose(share, 0.7) and np.allclose(load, 1)


def try_pendulum():
    """The centre of pressure of a swaying stick goes 1 + height w^2 / g as far as its mass.

    Winter 1995, Gait & Posture 3:193, of a point mass; muscles damp the movement itself.
    """
    act = Act(20, 0)
    turning = 2 * np.pi * 0.5
    act.com_m += 0.005 * np.sin(turning * act.t) * fade(act.t, 1, 19, 4)
    share, _ = act.ground(BODY)
    cop_m = (share - 0.5) * BODY.stance_m
    middle = slice(int(8 * CURVE_HZ), int(12 * CURVE_HZ))
    ratio = np.ptp(cop_m[middle]) / np.ptp(act.com_m[middle])
    assert abs(ratio - (1 + turning**2 / STANDARD_GRAVITY)) < 0.02, ratio


def try_impulses():
    """Who comes to rest again got as much from the ground as gravity took, in every act."""
    rng = np.random.default_rng(5)
    style = Hour(5, 1).golfer.styles[0]
    acts = {name: make(rng, BODY, 0.02, style) for name, make in ACTS.items()}
    acts["swing"], _ = swing_act(rng, BODY, style)
    for name, act in acts.items():
        _, load = act.ground(BODY)
        gained = GRAVITY * np.sum(load + act.borne - 1) / CURVE_HZ  # m/s
        assert abs(gained) < 1e-3, (name, gained)
    lead, trail = footwork.hop(rng, 0.6)
    gained = GRAVITY * np.sum(lead + trail - 1) / CURVE_HZ
    assert abs(gained) < 0.15, gained  # feet that let go and land take some hundredths of a second


def try_drop():
    """A fall of the mass with g leaves no load, and a stroke's greatest push is 5.77 h / T^2."""
    act = Act(2, 0)
    act.rise_m += 0.04 * stroke(act.t, 0.5, 0.8)
    _, load = act.ground(BODY)
    assert abs((load.max() - 1) * GRAVITY - 5.7735 * 0.04 / 0.8**2) < 0.01, load.max()
    assert np.all(limited(np.linspace(-1, 2, 99)) < 1) and np.all(limited(np.linspace(-1, 2)) > 0)


def try_truth():
    """What is no instant is known for none, and rest is where 98 % are done."""
    t = np.arange(1000) / CURVE_HZ
    assert is_instant(100 * (t - 0.25)**2 * 20) and not is_instant(50 - 20 * t)
    assert not is_instant(60 - 20 * fade(t, 0.05, 0.45, 0.05))
    twins = 60 - 20 * fade(t, 0.02, 0.12, 0.05) - 20.5 * fade(t, 0.3, 0.4, 0.05)
    assert not is_instant(twins)
    rests = rests_from(70 + 100 * (1 - stroke(t, 0.1, 0.2))) / CURVE_HZ
    assert stroke(np.array([rests]), 0.1, 0.2)[0] >= 0.98 > stroke(np.array([rests - 0.001]), 0.1, 0.2)


def main():
    """All trials."""
    for one in (try_statics, try_pendulum, try_impulses, try_drop, try_truth):
        one()
    print("the body obeys mechanics, and its swings' truth is told as promised")


if __name__ == "__main__":
    main()
