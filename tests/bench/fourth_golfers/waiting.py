"""What golfers do between swings with both feet on the plates; none of it is a swing.

Each takes the generator of chance and the share now, in percent, and gives shares and loads (body
weights) at CURVE_HZ. Heights of the mass are turned into loads by its acceleration. How much and
how fast people do these things is common sense of an onlooker, no source.
"""
import numpy as np

from people import Golfer
from paths import DRAWN_BY
from push import GRAVITY
from strokes import bump, clock, cosine, fading, length_s, min_jerk, part


def moved(t, now, stops):
    """A share that goes to other places: stops are (from s, duration s, share)."""
    share = np.full(len(t), float(now))
    for from_s, duration_s, there in stops:
        share += (there - now) * min_jerk(part(t, from_s, duration_s))
        now = there
    return share


def lowered(t, from_s, duration_s, depth_m):
    """The load of who goes down by a depth (up where it is negative), in a stroke of least jerk."""
    x = part(t, from_s, duration_s)
    return 1 - depth_m / GRAVITY / duration_s**2 * (60 * x - 180 * x**2 + 120 * x**3)


def springing(t, hertz, amount, edge_s):
    """The load of a mass that goes up and down by a sine which fades: at most `amount` off 1."""
    height = fading(t, edge_s) * np.sin(2 * np.pi * hertz * t)
    push = np.gradient(np.gradient(height))
    return 1 - amount * push / abs(push).max()


def within(share):
    """A share that both feet can carry for long."""
    return float(np.clip(share, 20, 90))


def standing(rng, now):
    """Standing about: now and then a little more weight on one foot."""
    t = clock(rng.uniform(2, 9))
    starts = np.sort(rng.uniform(0.2, length_s(t) - 1.2, rng.integers(1, 4)))
    stops = [(start, rng.uniform(0.7, 3), within(now + rng.normal(0, 4))) for start in starts]
    stops = [(a, min(d, length_s(t) - a - 0.1), there) for a, d, there in stops]
    return moved(t, now, stops), np.ones(len(t))


def waggling(rng, now):
    """The club to and fro before the swing: a little share, a little load."""
    hertz, cycles = rng.uniform(0.7, 2.0), rng.integers(2, 6)
    t = clock(cycles / hertz + 0.4)
    fade = fading(t, min(0.4, 0.4 / hertz))
    wave = np.sin(2 * np.pi * hertz * t) * fade
    return now + rng.uniform(0.3, 3) * wave, springing(t, 2 * hertz, rng.uniform(0.003, 0.03), 0.3)


def rocking(rng, now):
    """From foot to foot."""
    hertz, cycles = rng.uniform(0.3, 0.9), rng.integers(2, 6)
    t = clock(cycles / hertz)
    amount = min(rng.uniform(4, 22), now - 8, 96 - now)
    wave = np.sin(2 * np.pi * hertz * t) * fading(t, 0.5 / hertz)
    load = springing(t, 2 * hertz, rng.uniform(0, 0.025), 0.5 / hertz)
    return now + amount * rng.choice([-1, 1]) * wave, load


def bouncing(rng, now):
    """Knees that spring a few times to loosen."""
    hertz, cycles = rng.uniform(1.5, 2.6), rng.integers(2, 7)
    t = clock(cycles / hertz + 0.4)
    fade = fading(t, 0.3)
    wave = np.sin(2 * np.pi * hertz * t) * fade
    return now + rng.uniform(-1.5, 1.5) * wave, springing(t, hertz, rng.uniform(0.03, 0.16), 0.3)


def bending(rng, now):
    """Down to tee a ball or to pick one up, and up; some lean on the club meanwhile."""
    down_s, low_s, up_s = rng.uniform(0.7, 1.3), rng.uniform(0.4, 2.2), rng.uniform(0.8, 1.4)
    depth_m = rng.uniform(0.12, 0.28)
    t = clock(0.2 + down_s + low_s + up_s + 0.2)
    load = lowered(t, 0.2, down_s, depth_m) + lowered(t, 0.2 + down_s + low_s, up_s, -depth_m) - 1
    bent = within(now + rng.normal(0, 10))
    after = within(now + rng.normal(0, 5))
    share = moved(t, now, [(0.2, down_s, bent), (0.2 + down_s + low_s, up_s, after)])
    if rng.random() < 0.4:
        load -= rng.uniform(0.04, 0.14) * (min_jerk(part(t, 0.4, down_s))
                                           - min_jerk(part(t, 0.3 + down_s + low_s, up_s)))
    return share, load


def leaning(rng, now):
    """Weight on the club, like a stick beside one foot."""
    t = clock(rng.uniform(3, 8))
    end_s = length_s(t)
    there = within(now + rng.choice([-1, 1]) * rng.uniform(5, 25))
    share = moved(t, now, [(0.2, 1, there), (end_s - 1.3, 1, within(now + rng.normal(0, 4)))])
    leant = min_jerk(part(t, 0.2, 0.9)) - min_jerk(part(t, end_s - 1.2, 0.9))
    return share, 1 - rng.uniform(0.03, 0.12) * leant


def lifting_a_foot(rng, now):
    """On one leg to clean a sole or knock the club against it."""
    push_s, hold_s, back_s = rng.uniform(0.4, 0.8), rng.uniform(0.6, 2.5), rng.uniform(0.4, 0.9)
    t = clock(push_s + hold_s + back_s + 0.3)
    one_leg = rng.choice([rng.uniform(0, 2), rng.uniform(98, 100)])
    share = moved(t, now, [(0.1, push_s, one_leg),
                           (0.1 + push_s + hold_s, back_s, rng.uniform(40, 60))])
    return share, 1 + rng.uniform(0.01, 0.05) * (bump(t, 0.1 + push_s / 2, push_s / 2)
                                                 - bump(t, 0.1 + push_s, push_s / 2))


def shuffling(rng, now):
    """Feet set anew: each is lifted a little while the other carries."""
    share, load = [], []
    side = rng.choice([-1, 1])
    for _ in range(rng.integers(2, 5)):
        t = clock(rng.uniform(0.45, 0.9))
        shift_s = 0.42 * length_s(t)
        there = np.clip(50 + side * rng.uniform(25, 46), 3, 97)
        after = within(now + rng.normal(0, 4))
        share.append(moved(t, now, [(0, shift_s, there), (shift_s + 0.02, shift_s, after)]))
        load.append(1 + rng.uniform(0, 0.04) * np.sin(2 * np.pi * t / t[-1]))
        now, side = after, -side
    return np.concatenate(share), np.concatenate(load)


def turning_round(rng, now):
    """A look over the shoulder or a word with somebody: the weight goes along."""
    t = clock(rng.uniform(1.6, 4))
    end_s = length_s(t)
    there = within(now + rng.choice([-1, 1]) * rng.uniform(6, 28))
    turn_s = rng.uniform(0.5, 1)
    return (moved(t, now, [(0.1, turn_s, there), (end_s - turn_s - 0.1, turn_s,
                                                  within(now + rng.normal(0, 4)))]),
            1 + rng.uniform(0, 0.02) * np.sin(2 * np.pi * t / end_s) * fading(t, 0.3))


def gripping_anew(rng, now):
    """Hands and shoulders only: the load trembles."""
    t = clock(rng.uniform(0.8, 2))
    hertz = rng.uniform(1.5, 4)
    wave = np.sin(2 * np.pi * hertz * t + 1) * fading(t, 0.3)
    return now + rng.uniform(0, 0.8) * wave, springing(t, hertz, rng.uniform(0.005, 0.03), 0.3)


def stopping_at_the_top(rng, now):
    """A backswing to look at, held, and slowly taken back: nothing comes through."""
    back_s, held_s, home_s = rng.uniform(0.8, 1.6), rng.uniform(0.5, 2.5), rng.uniform(1.0, 2.2)
    t = clock(back_s + held_s + home_s + 0.3)
    there = within(now - rng.uniform(3, 20))
    share = moved(t, now, [(0.1, back_s, there), (0.1 + back_s + held_s, home_s, within(now))])
    lift = bump(t, 0.1 + back_s / 4, back_s / 2) - bump(t, 0.1 + 3 * back_s / 4, back_s / 2)
    return share, 1 + rng.uniform(0.01, 0.04) * lift


def slow_rehearsal(rng, now):
    """A whole swing in slow motion: some would call it a swing, some would not."""
    golfer = Golfer(rng)
    golfer.address, golfer.family = now, rng.choice(list(DRAWN_BY))
    plan = golfer.plan("three-quarter", False)
    plan.address = now
    slower = rng.uniform(2.5, 4.5)
    t = clock(slower * (plan.end_s + 0.2))
    return DRAWN_BY[golfer.family](plan, t / slower), np.ones(len(t))


def brushing(rng, now):
    """The club brushed to and fro over the grass without a stop: small swings, or none."""
    hertz, cycles = rng.uniform(0.55, 0.9), rng.integers(3, 7)
    t = clock(cycles / hertz + 0.3)
    fade = fading(t, 0.5 / hertz)
    amount = min(rng.uniform(2, 8), 96 - now)
    wave = -np.sin(2 * np.pi * hertz * t) * fade
    load = springing(t, 2 * hertz, rng.uniform(0.01, 0.06), 0.5 / hertz)
    return now + amount * wave, load


def watching(rng, now):
    """After the finish: weight off the lead foot while the ball is watched, sometimes in steps."""
    t = clock(rng.uniform(1.6, 4))
    kernel = (min_jerk, cosine)[rng.integers(2)]
    share = now + (rng.uniform(42, 68) - now) * kernel(part(t, 0.1, rng.uniform(0.7, 1.4)))
    return share, np.ones(len(t))


def setting_up(rng, now, there):
    """The move into the address."""
    t = clock(rng.uniform(0.9, 1.8))
    return moved(t, now, [(0, length_s(t), there)]), np.ones(len(t))


IDLE = {"standing": standing, "waggling": waggling, "rocking": rocking, "bouncing": bouncing,
        "bending": bending, "leaning on the club": leaning, "lifting a foot": lifting_a_foot,
        "setting the feet": shuffling, "turning round": turning_round,
        "gripping anew": gripping_anew, "stopping at the top": stopping_at_the_top,
        "slow rehearsal": slow_rehearsal, "brushing the grass": brushing}
