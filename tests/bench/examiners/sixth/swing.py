"""One swing of a body, arms and a club: from their paths to load and share."""
import numpy as np

from examiners.sixth.motion import G, clock, path, second_derivative, soft, step

# The arms' turn back in degrees, from and to; effort.
LENGTHS = {"half": (48, 75, 0.45), "three-quarter": (85, 110, 0.75), "full": (115, 145, 1.0)}


def swing_once(rng, person, length, address, finish, slack):
    """One swing as (t, takeaway, impact, load in N, share in %).

    None where no one would swing like that; more slack lets more pass.
    """

    def wavering(sd):
        """About 1."""
        return 1 + rng.normal(0, sd)

    lo, hi, size = LENGTHS[length]
    top = np.radians(rng.uniform(lo, hi))
    cock = np.radians(rng.uniform(0.45, 0.75) * lo)
    through = top * rng.uniform(0.95, 1.25)
    down = np.clip(person.down * wavering(0.03), 0.22, 0.45)
    back = np.clip(person.back * wavering(0.04), max(0.5, 2 * down), min(4 * down, 1.1))
    # speeds of arms and wrists at impact
    speed = person.late * top / down
    release = rng.uniform(1.8, 2.6) * cock / down
    turn = person.flow * top / down / back
    brake = rng.uniform(-1.5, 0.3) * speed / down
    follow = rng.uniform(1.9, 2.35) * through / speed
    start = 0.2
    t_top = 0.2 + back
    t_hit = 0.2 + back + down
    t = clock(t_hit + follow + 4.8)
    theta = path(
        t,
        [
            (start, 0, 0, 0),
            (t_top, -top, 0, turn),
            (t_hit, 0.035, speed, brake),
            (t_hit + follow, through, 0, 0),
        ],
    )
    club = theta + path(
        t,
        [
            (start + 0.15 * back, 0, 0, 0),
            (t_top, -cock, 0, 0),
            (t_hit, 0, release, 0),
            (t_hit + max(0.16, 2.2 * cock / release), cock, 0, 0),
        ],
    )
    begin = start + (person.body_delay if person.style != "arms only" else 0)
    back_shift = person.back_shift * wavering(0.15) * size
    over = rng.uniform(0.005, 0.018) * (person.style == "falls back")
    forward_at = (
        t_top
        + person.lead_in
        + {"early": -0.15, "falls back": 0.30, "arms only": 0.2}.get(person.style, 0.0)
    )
    forward_for = (down + rng.uniform(0.15, 0.45)) * {"arms only": 1.4, "falls back": 1.2}.get(
        person.style, 1.0
    )
    if person.style == "forward":
        forward_at = start + 0.1 * back
        forward_for = back + down + rng.uniform(0.05, 0.3)
    arms_x = 0.5 * person.arm * np.sin(theta)
    arms_z = -0.5 * person.arm * np.cos(theta) * np.sin(person.plane)
    club_x = person.arm * np.sin(theta) + 0.66 * np.sin(club)
    club_z = -(person.arm * np.cos(theta) + 0.66 * np.cos(club)) * np.sin(person.plane)
    # what arms and club do to the centre of mass
    aside = (person.arms_kg * arms_x + person.club_kg * club_x) / person.mass
    total_shift = (finish - address) / 100 * person.width - (1 - person.balance) * aside[-1]
    x = (
        (address - 50) / 100 * person.width
        - back_shift * step(t, begin, back * rng.uniform(0.75, 0.95), person.skew)
        - over * step(t, t_top - 0.3 * down, down * rng.uniform(1.3, 1.9))
        + (total_shift + back_shift + over) * step(t, forward_at, forward_for)
    )
    lift = rng.uniform(0.01, 0.035) if person.style == "lifts" else rng.uniform(-0.004, 0.008)
    dip = person.dip * size + max(lift, 0)
    rise = person.rise * size * wavering(0.1)
    dip_for = rng.uniform(0.8, 1.2) * down + 0.08
    rise_for = rng.uniform(0.9, 1.4) * down + 0.05
    z = (
        lift * step(t, begin + 0.1, back * 0.8)
        - dip * step(t, t_top - rng.uniform(0.1, 0.25), dip_for)
        + rise * step(t, t_hit - person.push * rise_for, rise_for)
        - rng.uniform(0.3, 1.1) * rise * step(t, t_hit + 0.25, rng.uniform(0.5, 0.9))
    )
    zdd = second_derivative(z)
    xdd = second_derivative(x)
    load = person.mass * (G + zdd)
    moment = person.mass * (
        (1 - person.balance) * aside * G - (1 - person.turn_body) * person.centre * xdd
    )
    for m, dx, dz in ((person.arms_kg, arms_x, arms_z), (person.club_kg, club_x, club_z)):
        az = (1 - person.give) * second_derivative(dz)
        ax = second_derivative(dx)
        load += m * az
        moment += m * (1 - person.turn_arms) * (dx * az - (person.hub + dz) * ax)
    moment += x * load
    share = 50 + 100 * moment / load / person.width
    if length != "half":
        share += (
            person.wobble
            * step(t, t_hit, 0.35)
            * np.exp(-np.maximum(t - t_hit, 0) / 0.45)
            * np.sin(5.6 * (t - t_hit))
        )
    bw = load / (person.mass * G)
    swing = (t > start) & (t < t_hit)
    if not (
        bw.max() < 1.6 + slack / 200
        and bw.min() > 0.5 - slack / 200
        and share.max() < 106 + slack
        and share[swing].min() > address - 24 - slack
        and share[swing].max() < max(address, finish) + 14 + slack
    ):
        return None
    return t, min(start, begin if abs(back_shift) > 0.001 else start), t_hit, load, soft(share)
