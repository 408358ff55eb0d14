"""Between the swings: each function writes a movement and leaves somebody standing."""
import numpy as np

from examiners.seventh.script import FEET, G, clock, ease, load_of_height, pulse, there_and_back

# Between the swings: each function writes a movement and leaves somebody standing.
def to_and_fro(script, rng, hz, seconds, points):
    """A waggle of the club or rocking from foot to foot.

    A waggle is quick, tenths of a point and a few newtons; rocking is slow, wide and even.
    """
    t = clock(seconds)
    angle = 2 * np.pi * hz * t + rng.uniform(0, 6.28)
    size = there_and_back(t, min(0.4 * seconds, 0.7 / hz))
    script.add(
        t,
        share=script.share + points * size * np.sin(angle),
        lead_y=rng.uniform(0, 5) * size * np.sin(angle),
        load=1 + rng.uniform(0.002, 0.012) * size * np.cos(angle * rng.choice([1, 2])),
    )


def bending(script, rng):
    """Down to the ball and up again."""
    down = rng.uniform(0.8, 1.5)
    stay = rng.uniform(0.4, 1.6)
    up = rng.uniform(0.8, 1.6)
    t = clock(down + stay + up + 0.3)
    low = ease(t, 0, down) - ease(t, down + stay, down + stay + up)
    script.add(
        t,
        share=script.share + rng.uniform(-12, 10) * low,
        load=load_of_height(-rng.uniform(0.12, 0.35) * low),
        lead_y=rng.uniform(10, 45) * low,
        trail_y=rng.uniform(10, 45) * low,
    )


def step_off(script, rng):
    """Onto one foot, then off it."""
    t = clock(rng.uniform(0.9, 1.5))
    last = rng.choice([0.0, 100.0])
    shift = rng.uniform(0.35, 0.6)
    script.add(
        t,
        share=script.share + (last - script.share) * ease(t, 0, shift),
        load=1 - ease(t, shift + 0.02, shift + rng.uniform(0.2, 0.3)),
    )


def step_on(script, rng):
    """One foot takes the body with a small overshoot, then the other comes."""
    first = rng.choice([0.0, 100.0])
    stand = rng.uniform(42, 58)
    t = clock(rng.uniform(1.4, 2.2))
    script.stance = {name: rng.normal(0, 10) for name in FEET}  # never the same place twice
    script.add(
        t,
        share=first + (stand - first) * ease(t, 0.35, rng.uniform(0.75, 1.1)),
        load=ease(t, 0, rng.uniform(0.15, 0.3))
        + rng.uniform(0.02, 0.15) * (pulse(t, 0.33, 0.2) - pulse(t, 0.55, 0.25)),
    )


def footfalls(t, rng, weight_bw, first):
    """One stride over both plates by somebody: two double-humped steps that overlap."""
    curves = [
        np.pi * np.clip((t - start) / rng.uniform(0.6, 0.75), 0, 1)
        for start in (0.1, 0.1 + rng.uniform(0.45, 0.6))
    ]
    return {
        name: weight_bw * (1.25 * np.sin(u) + 0.35 * np.sin(3 * u))
        for name, u in zip(("guest_lead", "guest_trail")[::first], curves)
    }


def off_and_on(script, rng, times_over=0):
    """Off the plates, over them so many times, and on again."""
    step_off(script, rng)
    for _ in range(times_over):
        script.add(clock(rng.uniform(0.6, 1.5)), load=0.0)
        t = clock(1.6)
        script.add(
            t,
            load=0.0,
            guest_y=-90 + 180 * ((t * 1.6) % 1),
            **footfalls(t, rng, 1.0, rng.choice([1, -1])),
        )
    script.add(clock(rng.uniform(0.8, 4.0)), load=0.0)
    step_on(script, rng)


def someone_else(script, rng):
    """Another person steps over one plate beside the golfer's foot."""
    t = clock(rng.uniform(1.5, 2.5))
    script.add(
        t,
        guest_y=rng.uniform(80, 160),
        **dict([footfalls(t, rng, rng.uniform(0.6, 1.3), rng.choice([1, -1])).popitem()]),
    )


def hops(script, rng):
    """Crouch, leave the ground, land, stand up; impulses balance gravity in the flight."""
    for _ in range(rng.integers(1, 4)):
        v = rng.uniform(0.7, 1.5)
        push = rng.uniform(0.2, 0.3)
        land = rng.uniform(0.1, 0.2)
        dip = rng.uniform(0.04, 0.1)
        down = 0.55 + push + 2 * v / G
        t = clock(0.55 + push + 2 * v / G + land + 1.0)
        load = load_of_height(dip * (ease(t, down + land, down + land + 0.6) - ease(t, 0, 0.5)))
        for start, length in ((0.55, push), (down, land)):
            load += (
                v / G * np.pi / 2 / length * np.sin(np.pi * np.clip((t - start) / length, 0, 1))
            )
        script.add(t, load=np.where((t >= 0.55 + push) & (t < down), 0.0, load))


def shuffling(script, rng, points=14.0, size=1.0):
    """Talking: weight put here and there, with pauses; in small, hands that fidget on the grip."""
    for _ in range(rng.integers(2, 6)):
        t = clock(size * rng.uniform(0.9, 2.2))
        end = np.clip(script.share + rng.uniform(-points, points), 25, 80)
        bump = there_and_back(t, 0.4 * size)
        toes = rng.normal(0, points / 2)
        script.add(
            t,
            share=script.share
            + (end - script.share) * ease(t, 0, size * rng.uniform(0.45, 0.85)),
            lead_y=toes * bump,
            load=load_of_height(rng.uniform(-0.002, 0.002) * size**2 * bump),
        )


def leaning(script, rng):
    """Part of the weight rests on the club, which stands beside the plates."""
    t = clock(rng.uniform(2.5, 6.0))
    lean = there_and_back(t, rng.uniform(0.5, 1.0))
    script.add(
        t,
        share=script.share + rng.uniform(-10, 10) * lean,
        load=1 - rng.uniform(0.02, 0.08) * lean,
    )


BETWEEN = {  # what, and how many tickets it has in the draw
    "waggle": (
        lambda script, rng: to_and_fro(
            script, rng, rng.uniform(0.9, 2.0), rng.uniform(1.2, 3.5), rng.uniform(0.2, 1.1)
        ),
        7,
    ),
    "rocking": (
        lambda script, rng: to_and_fro(
            script, rng, rng.uniform(0.35, 0.9), rng.uniform(4, 8), rng.uniform(2, 12)
        ),
        4,
    ),
    "regripping": (lambda script, rng: shuffling(script, rng, 0.8, 0.5), 4),
    "bending": (bending, 4),
    "hops": (hops, 1),
    "stepping off and on": (off_and_on, 2),
    "walking across": (lambda script, rng: off_and_on(script, rng, rng.integers(1, 3)), 1),
    "someone else": (someone_else, 2),
    "shuffling": (shuffling, 3),
    "leaning": (leaning, 2),
}


def come_back(script, rng, feet):
    """Out of the finish, in which the feet carry at `feet`, to an easy stand."""
    t = clock(rng.uniform(0.9, 1.8))
    home = ease(t, 0, t[-1] * 0.9)
    script.add(
        t,
        share=script.share + (rng.uniform(45, 62) - script.share) * home,
        load=load_of_height(-rng.uniform(0, 0.02) * home),
        **{name: value * (1 - home) for name, value in feet.items()},
    )


def settle(script, rng, address):
    """Into the address: two or three ever smaller shifts."""
    for part in (0.75, 1.15, 1.0)[rng.integers(2) :]:
        t = clock(rng.uniform(0.5, 1.1))
        script.add(
            t,
            share=script.share
            + (address - script.share) * part * ease(t, 0, t[-1] * rng.uniform(0.7, 1)),
        )
