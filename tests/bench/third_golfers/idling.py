"""What golfers do on the plates besides swinging: each gives an act that begins and ends at rest.

Each takes the body and where the centre of mass rests; a new place of rest is the act's last one.
Nobody hurries here: a shift of weight takes about a second, so that its push stays small.
"""
from dataclasses import replace

import numpy as np

from body import Act, fade, stroke, there_and_back
from swinging import swing_act


def waggle(rng, body, com_m, _style):
    """The club goes to and fro before the ball."""
    rate_hz = rng.uniform(0.9, 2.2)
    act = Act(rng.integers(2, 6) / rate_hz + 0.4, com_m)
    going = fade(act.t, 0.1, act.t[-1] - 0.1, 0.4)
    act.arm_rad -= rng.uniform(0.08, 0.35) * np.sin(np.pi * rate_hz * act.t)**2 * going
    act.com_m += rng.uniform(0, 0.006) * np.sin(2 * np.pi * rate_hz / 2 * act.t) * going
    return act


def rock(rng, body, com_m, _style):
    """From foot to foot."""
    rate_hz = rng.uniform(0.3, 0.9)
    act = Act(rng.integers(2, 5) / rate_hz + 1, com_m)
    going = fade(act.t, 0.1, act.t[-1] - 0.1, 0.8)
    way_m = body.stance_m * rng.uniform(0.03, 0.16) * min(1, 0.3 / rate_hz**2)
    act.com_m += way_m * np.sin(2 * np.pi * rate_hz * act.t) * going
    return act


def look(rng, body, com_m, _style):
    """At the target, once or twice, leaning a little to it."""
    out_s, stay_s, back_s = rng.uniform(0.7, 1.3), rng.uniform(0.4, 2), rng.uniform(0.7, 1.3)
    looks = rng.integers(1, 3)
    each_s = out_s + stay_s + back_s + rng.uniform(0.1, 0.8)
    act = Act(looks * each_s + 0.2, com_m)
    for one in range(looks):
        leaning = there_and_back(act.t, 0.1 + one * each_s, out_s, stay_s, back_s)
        act.com_m += rng.uniform(0.003, 0.025) * leaning
        act.arm_rad += rng.uniform(0, 0.1) * leaning
    return act


def bend(rng, body, com_m, _style):
    """For a ball or a tee; some stretch a leg behind and stand on the other."""
    down_s, stay_s, up_s = rng.uniform(0.7, 1.4), rng.uniform(0.6, 2.5), rng.uniform(0.7, 1.4)
    act = Act(down_s + stay_s + up_s + 0.6, com_m)
    bent = there_and_back(act.t, 0.3, down_s, stay_s, up_s)
    act.rise_m -= rng.uniform(0.10, 0.30) * bent
    act.com_m += rng.uniform(-0.04, 0.04) * bent
    if rng.random() < 0.3:
        act.press += rng.choice([-1, 1]) * bent
    return act


def lean(rng, body, com_m, _style):
    """On the club, which stands beside the plates."""
    act = Act(rng.uniform(3.5, 7), com_m)
    leaning = fade(act.t, 0.1, act.t[-1] - 0.1, rng.uniform(0.8, 1.5))
    act.borne += rng.uniform(0.02, 0.12) * leaning
    act.com_m += rng.uniform(-0.06, 0.06) * leaning
    return act


def squat(rng, body, com_m, _style):
    """Knees bent and stretched, once to three times."""
    each_s = rng.uniform(1.2, 2.2)
    count = rng.integers(1, 4)
    act = Act(count * each_s + 0.4, com_m)
    deep_m = rng.uniform(0.1, 0.3)
    for one in range(count):
        starts_s = 0.2 + one * each_s
        act.rise_m -= deep_m * there_and_back(act.t, starts_s, each_s * 0.45, each_s * 0.05,
                                              each_s * 0.45)
    return act


def taps(rng, body, com_m, _style):
    """The club's head on the ground before the plates: each tap bears a little."""
    rate_hz = rng.uniform(1.5, 3)
    count = rng.integers(2, 6)
    act = Act(count / rate_hz + 0.6, com_m)
    for one in range(count):
        tap_s = 0.3 + one / rate_hz
        act.borne += rng.uniform(0.01, 0.06) * fade(act.t, tap_s, tap_s + 0.08, 0.035)
    act.arm_rad -= 0.06 * np.sin(np.pi * rate_hz * (act.t - 0.3))**2 * fade(
        act.t, 0.1, act.t[-1] - 0.1, 0.3)
    return act


def shoe_taps(rng, body, com_m, _style):
    """Turf knocked from one shoe or both, on the other leg."""
    feet = rng.choice([-1, 1]) * np.array([1, -1])[:rng.integers(1, 3)]
    each_s = rng.uniform(1.8, 3.2)
    act = Act(len(feet) * each_s + 0.3, com_m)
    for one, foot in enumerate(feet):
        starts_s = one * each_s + 0.1
        stands = fade(act.t, starts_s, starts_s + each_s - 0.1, rng.uniform(0.35, 0.6))
        act.press += foot * stands
        for knock_s in starts_s + each_s / 2 + np.arange(rng.integers(1, 4)) * 0.3:
            act.rise_m += 0.0004 * fade(act.t, knock_s, knock_s + 0.1, 0.05)
    return act


def takeaway_rehearsal(rng, body, com_m, style):
    """The club goes back to the hip or a little further, waits there, and is led back slowly."""
    back_s, stay_s, return_s = rng.uniform(0.6, 1.2), rng.uniform(0.3, 2), rng.uniform(0.7, 1.4)
    act = Act(back_s + stay_s + return_s + 0.6, com_m)
    away = there_and_back(act.t, 0.3, back_s, stay_s, return_s)
    part = rng.uniform(0.3, 0.6)
    act.arm_rad -= part * style.top_rad * away
    act.trunk_rad -= part * style.trunk_rad * away
    act.com_m -= part * style.back_m * away
    return act


def slow_rehearsal(rng, body, com_m, style):
    """The whole swing at a third of its speed, as a coach shows it."""
    slow = rng.uniform(2.5, 4)
    slowly = replace(
        style, address=0.5 + com_m / body.stance_m, press_m=0, wobble_m=0, roll=0,
        backswing_s=slow * style.backswing_s, downswing_s=slow * style.downswing_s,
        follow_s=slow * style.follow_s, forward_s=slow * style.forward_s,
        forward_early_s=slow * style.forward_early_s, drive_s=slow * style.drive_s)
    act, _ = swing_act(rng, body, slowly)
    return act


def settle(rng, body, com_m, _style):
    """A little to one side, and it stays there."""
    act = Act(rng.uniform(0.8, 2), com_m)
    act.com_m += rng.normal() * 0.012 * stroke(act.t, 0.1, act.t[-1] - 0.2)
    return act


def shuffle(rng, body, com_m, _style):
    """The feet are lifted in turn and set a little better."""
    count = rng.integers(2, 6)
    each_s = rng.uniform(0.4, 0.7)
    act = Act(count * each_s + 0.4, com_m)
    foot = rng.choice([-1, 1])
    for one in range(count):
        lifted = fade(act.t, 0.2 + one * each_s, 0.2 + (one + 1) * each_s, each_s * 0.4)
        act.press += foot * rng.uniform(0.25, 0.9) * lifted
        act.rise_m += rng.uniform(0, 0.006) * lifted
        foot = -foot
    return act


def stamp(rng, body, com_m, _style):
    """One foot is lifted and comes down hard."""
    act = Act(1.6, com_m)
    foot = rng.choice([-1, 1])
    act.press += foot * (stroke(act.t, 0.2, 0.3) - stroke(act.t, 0.62, 0.1))
    act.press -= 0.2 * foot * fade(act.t, 0.72, 1.1, 0.12)
    act.borne -= rng.uniform(0.1, 0.5) * fade(act.t, 0.70, 0.82, 0.05)
    return act


def turn_to_talk(rng, body, com_m, _style):
    """Weight on this leg, then on that, as people stand and talk."""
    act = Act(rng.uniform(4, 9), com_m)
    place_m, now_s = com_m, 0.2
    while now_s < act.t[-1] - 2:
        goal_m = body.place_m(rng.uniform(0.15, 0.9))
        lasts_s = rng.uniform(0.9, 1.8)
        act.com_m += (goal_m - place_m) * stroke(act.t, now_s, lasts_s)
        place_m, now_s = goal_m, now_s + lasts_s + rng.uniform(0.3, 2)
    return act


def move_to(rng, body, from_m, to_m, arm_rad=0.0, press=0.0):
    """To another place of rest, the club let down where it was up."""
    act = Act(rng.uniform(1.2, 2.3), from_m, arm_rad, press)
    moved = stroke(act.t, 0.1, act.t[-1] - 0.2)
    act.com_m += (to_m - from_m) * moved
    act.arm_rad -= arm_rad * moved
    act.press -= press * moved
    return act


def stand(lasts_s, com_m, arm_rad=0.0, press=0.0):
    """Nothing but standing."""
    return Act(lasts_s, com_m, arm_rad, press)


ACTS = {
    "waggle": waggle, "rock from foot to foot": rock, "look at the target": look,
    "bend for a ball": bend, "lean on the club": lean, "squat": squat, "taps of the club": taps,
    "taps at the shoes": shoe_taps, "takeaway rehearsal": takeaway_rehearsal,
    "slow rehearsal": slow_rehearsal, "settling": settle, "shuffle of the feet": shuffle,
    "stamp": stamp, "turn to talk": turn_to_talk,
}
