"""What golfers do between swings, and how they settle before one. None of it is a swing.

Every pastime takes the scene and goes on with it. The order in which numbers are drawn is part of a
seed's meaning.
"""
import numpy as np

from curves import hump, stroke, swell
from scene import instants


def sway_and_settle(scene, share):
    """Quickly to the share, with a sway on the way."""
    rng = scene.rng
    t = instants(rng.uniform(1.2, 2.5))
    end_s, start = t[-1], scene.share_now
    sway = 3 * np.sin(2 * np.pi * rng.uniform(1, 2) * t)
    sway = sway * hump(t, end_s / 2, end_s / 2 - 0.05, end_s / 2 - 0.05) * rng.uniform(0, 1.2)
    load = 1 + 0.03 * hump(t, end_s * 0.4, 0.3, 0.3) - 0.03 * hump(t, end_s * 0.7, 0.3, 0.3)
    way = (share - start) * stroke(t, 0.1, end_s - 0.3)
    scene.add(start + way + sway, load, "settling quickly")


def settle(scene, share):
    """Slowly to the share."""
    duration_s = scene.rng.uniform(2.0, 3.5)
    t = instants(duration_s)
    way = (share - scene.share_now) * stroke(t, 0.1, duration_s - 0.3, 2.5, 3)
    scene.add(scene.share_now + way, 1 + 0 * t, "settling slowly")


def step_and_settle(scene, share):
    """Each foot is lifted once and put down anew, then the weight goes to the share."""
    rng = scene.rng
    step_s = rng.uniform(0.45, 0.7)
    t = instants(4 * step_s + 0.6)
    first, second = ((96.0, 6.0), (6.0, 96.0))[rng.choice([0, 1])]
    track = scene.share_now + (first - scene.share_now) * stroke(t, 0, step_s * 0.9)
    track = track + (second - first) * stroke(t, 1.2 * step_s, step_s * 1.1)
    track = track + (share - second) * stroke(t, 2.6 * step_s, step_s * 1.4)
    under_way = stroke(t, 0, 0.2) * (1 - stroke(t, 4 * step_s - 0.4, 0.4))
    load = 1 + 0.02 * np.sin(2 * np.pi * t / step_s) * under_way
    scene.add(track, load, "settling by steps")


def waggle(scene):
    """Two to four waggles, which the feet hardly feel."""
    rng = scene.rng
    count, rate_hz = rng.integers(2, 5), rng.uniform(0.9, 2.2)
    duration_s = count / rate_hz
    t = instants(duration_s + 0.4)
    under_way = swell(t, 0, 0.25, duration_s + 0.1, 0.3)
    angle = 2 * np.pi * rate_hz * t
    share = scene.share_now + rng.uniform(0.7, 3) * under_way * np.sin(angle)
    load = 1 + rng.uniform(0.003, 0.015) * under_way * np.sin(angle + 1)
    scene.add(share, load, "waggling")


def rock(scene):
    """From foot to foot, three to six times."""
    rng = scene.rng
    count, rate_hz = rng.integers(3, 7), rng.uniform(0.4, 1.1)
    duration_s = count / rate_hz
    t = instants(duration_s + 0.6)
    under_way = swell(t, 0, 0.6, duration_s - 0.1, 0.6)
    points = rng.uniform(5, 20)
    first_way = 0 if rng.random() < 0.5 else np.pi
    share = scene.share_now + points * under_way * np.sin(2 * np.pi * rate_hz * t + first_way)
    load = 1 + 0.02 * under_way * np.sin(4 * np.pi * rate_hz * t)
    scene.add(share, load, "rocking")


def bend(scene):
    """Down for the ball and up again, each with its fall and rise of the load."""
    rng = scene.rng
    bend_s, down_s = rng.uniform(0.6, 1.1), rng.uniform(0.5, 2.0)
    t = instants(2 * bend_s + down_s + 0.8)
    force, points = rng.uniform(0.06, 0.25), rng.uniform(-15, 15)
    up_s = bend_s + down_s
    share = scene.share_now + points * (stroke(t, 0, bend_s) - stroke(t, up_s, bend_s))
    load = (1 - force * hump(t, bend_s * 0.3, bend_s * 0.3, bend_s * 0.35)
            + force * hump(t, bend_s * 0.8, bend_s * 0.35, bend_s * 0.4)
            + force * hump(t, up_s + bend_s * 0.3, bend_s * 0.3, bend_s * 0.35)
            - force * 0.9 * hump(t, up_s + bend_s * 0.8, bend_s * 0.35, bend_s * 0.4))
    scene.add(share, load, "bending")


def go_away(scene):
    """Off the plates, and on again."""
    scene.step_off()
    scene.empty(scene.rng.uniform(1.5, 4))
    scene.step_on_anywhere()


def walk(scene):
    """Some steps on the plates."""
    scene.walk()


def hop(scene):
    """One to three hops on both feet."""
    rng = scene.rng
    for _ in range(rng.integers(1, 4)):
        flight_s = rng.uniform(0.15, 0.3)
        land_s = 0.5 + flight_s
        t = instants(1.0 + flight_s)
        load = 1 - 0.3 * hump(t, 0.15, 0.15, 0.12)
        load = load + rng.uniform(0.7, 1.2) * hump(t, 0.36, 0.14, 0.16)
        landing = 1 + rng.uniform(0.8, 1.6) * hump(t, land_s + 0.06, 0.07, 0.2)
        landing = landing - 0.15 * hump(t, land_s + 0.28, 0.1, 0.15)
        load = load * (1 - stroke(t, 0.44, 0.08)) + stroke(t, land_s, 0.05) * landing
        share = scene.share_now + rng.uniform(-6, 6) * hump(t, 0.6, 0.3, 0.4)
        scene.add(share, np.maximum(load, 0), "hopping")


def cross(scene):
    """Off, and somebody of 0.7 to 1.2 times the weight walks over the plates, a step on each."""
    rng = scene.rng
    scene.step_off()
    scene.empty(1.0)
    t = instants(1.6)
    weight = rng.uniform(0.7, 1.2)
    first, second = swell(t, 0.05, 0.15, 0.6, 0.15), swell(t, 0.55, 0.15, 1.2, 0.15)
    both = first + second
    on_lead = second if rng.choice([0, 1]) else first
    share = np.where(both > 1e-9, on_lead / np.maximum(both, 1e-9) * 100, 50)
    scene.add(share, weight * both * (1 + 0.1 * np.sin(2 * np.pi * 3 * t)), "crossing")
    scene.empty(1.5)
    scene.step_on_anywhere()


def tap(scene):
    """One to three taps with the club."""
    rng = scene.rng
    t = instants(1.5)
    load = 1 + 0 * t
    for number in range(rng.integers(1, 4)):
        load = load + rng.uniform(0.03, 0.1) * hump(t, 0.25 + 0.4 * number, 0.03, 0.04)
    scene.add(scene.share_now + 0 * t, load, "tapping")


def lean(scene):
    """To one side, and back after a second."""
    rng = scene.rng
    lean_s = rng.uniform(1.0, 2.0)
    points = rng.uniform(-25, 15)
    t = instants(2 * lean_s + 1.5)
    share = scene.share_now + points * (stroke(t, 0, lean_s) - stroke(t, lean_s + 1.0, lean_s))
    scene.add(share, 1 + 0 * t, "leaning")


SETTLINGS = {sway_and_settle: 0.15, settle: 0.5, step_and_settle: 0.35}
PASTIMES = {rock: 0.2, bend: 0.2, go_away: 0.12, walk: 0.12, hop: 0.1, cross: 0.1,
            tap: 0.08, lean: 0.08}


def draw_from(rng, chances):
    """One of the functions, by their chances."""
    functions = list(chances)
    return functions[rng.choice(len(functions), p=list(chances.values()))]
