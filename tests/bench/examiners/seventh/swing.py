"""One swing: its paths of share and load, laid through key points."""
import numpy as np
from scipy.interpolate import PchipInterpolator

from examiners.curves import GRID_HZ
from examiners.seventh.script import G, clock, ease, load_of_height, pulse


def share_path(t, golfer, rng, path, key, address, low, impact, finish):
    """The lead share of one path family over t (s from takeaway), laid through key points."""
    turn = key["turn"]
    hit = key["impact"]
    rest = key["rest"]
    a, b, c = golfer["eases"]
    wa, wb, wc = golfer["warps"]
    peak = min(98.0, finish + rng.uniform(-0.15, 0.1) * (finish - low))
    if path == "spline":
        knots = [
            (-0.2, address),
            (0, address),
            (turn * rng.uniform(0.45, 0.6), low + (address - low) * rng.uniform(0.3, 0.5)),
            (turn, low),
            (turn + 0.5 * (hit - turn), low + (impact - low) * rng.uniform(0.35, 0.6)),
            (hit, impact),
            (hit + 0.45 * (rest - hit), impact + (finish - impact) * rng.uniform(0.75, 0.95)),
            (rest, finish),
            (rest + 0.2, finish),
        ]
        return PchipInterpolator(*zip(*knots))(t)
    # back, over, settle; impact lies `done` of the way through the second piece
    if path == "pieces":
        over = turn + (hit - turn) / golfer["done"]
        moves = [(low, 0, turn, a, wa), (peak, turn, over, b, wb), (finish, over, rest, c, wc)]
    elif path == "overlap":  # the way forward begins before the way back is over
        early = rng.uniform(0.1, 0.3) * turn
        moves = [
            (low - 0.15 * (address - low), 0, turn + early, a, wa),
            (impact + 2, turn - early, hit + rng.uniform(0.05, 0.15), b, wb),
            (finish, hit - 0.05, rest, c, wc),
        ]
    elif path == "early":  # loads early, creeps forward while the club still goes back, then goes
        turn = turn * rng.uniform(0.65, 0.8)
        moves = [
            (low, 0, turn, a, wa),
            (low + 0.3 * (impact - low), turn, key["top"] + 0.1, "cubic", 1),
            (impact + 3, key["top"] - 0.05, hit + 0.1, b, wb),
            (finish, hit + 0.05, rest, c, wc),
        ]
    elif path == "hang back":  # starts forward, falls back through the ball, is pulled round late
        back = rng.uniform(0.3, 0.6) * (impact - low)
        moves = [
            (low, 0, turn, a, wa),
            (impact + 2, turn, hit - 0.02, b, wb),
            (impact + 2 - back, hit - 0.08, hit + 0.15, "raised cosine", 1),
            (finish, hit + 0.12, rest, c, wc),
        ]
    else:  # forward: presses onto the lead foot from the first moment on
        moves = [
            (address + rng.uniform(1, 4), 0, key["top"], a, wa),
            (impact + 2, turn, hit + 0.08, b, wb),
            (finish, hit, rest, c, wc),
        ]
    share = np.full(len(t), address)
    start_from = address
    for goal, *move in moves:
        share = share + (goal - start_from) * ease(t, *move)
        start_from = goal
    return share


def load_path(t, golfer, rng, key, push):
    """Total load (body weights) over t; the push is greatest `push_lead` before impact."""
    top = key["top"]
    hit = key["impact"]
    rest = key["rest"]
    down = hit - top
    centre = hit - golfer["push_lead"] + rng.normal(0, 0.006)
    if golfer["load_path"] == "pulses":
        width = golfer["width"] * (down + 0.05)
        c, w, a = np.array(
            [
                (0.2 * top, 0.4 * top, golfer["lift"]),
                (0.7 * top, 0.5 * top, -golfer["lift"]),
                (centre - width * 0.85, width, -golfer["unweight"]),
                (centre, width, 1.0),
                (centre + width * 0.9, width * 1.1, -0.5),
                (centre + width * 1.9, (rest - centre) * 0.6, 0.1),
            ]
        ).T
        c = np.minimum(c, rest - w / 2)  # everything is over at the end of the swing
        # velocity left over; height gained, in units of g
        closing = np.array([w / 2, -w / 2 * c])
        soft = np.diag([0.3, 0.3, 1.0, 0.15, 1.5, 1.0])
        wanted = np.array([0, golfer["rise_m"] / G / push]) * 0.3 - closing @ a
        a = a + soft @ closing.T @ np.linalg.solve(closing @ soft @ closing.T, wanted)
        return 1 + push / a[3] * sum(ai * pulse(t, ci, wi) for ci, wi, ai in zip(c, w, a))
    fall = min(1.35 * down * golfer["width"] ** 0.5, centre / 0.79)
    rise = min(golfer["through"] * 0.8, (rest - centre) / 0.79)
    # both bend up hardest at the centre
    drop = ease(t, centre - 0.79 * fall, centre + 0.21 * fall) * fall**2
    parts = {
        "height": [(0.5, -0.21, 0.79)],
        "two pushes": [(0.15, -0.1, 0.5), (0.15, 0.25, 0.79)],
    }[golfer["load_path"]]
    climb = sum(
        size * rise**2 * ease(t, centre + start * rise, centre + end * rise)
        for size, start, end in parts
    )
    z = golfer["lift"] * 0.5 * top**2 * ease(t, 0, top) - drop * golfer["unweight"] + climb
    load = load_of_height(z) - 1
    # 7 cm up and down at most
    return 1 + load * min(push / load[np.abs(t - centre) < 0.1].max(), 0.07 / np.ptp(z))


def swing(script, golfer, rng):
    """Writes one swing, its held finish and its truth but for the true shares.

    Returns where the feet carry at the end.
    """
    shot = bool(rng.random() < 0.7)
    small = bool(rng.random() < 0.1)
    name, size = [("half", 0.55), ("three-quarter", 0.8), ("full", 1.0)][rng.integers(3)]

    def jitter():
        """About 1."""
        return 1 + golfer["steady"] * rng.normal()

    top = float(np.clip(golfer["backswing"] * jitter() * (0.85 + 0.15 * size), 0.5, 1.1))
    hit = top + float(np.clip(top / (golfer["ratio"] * jitter()), 0.22, 0.45))
    turn = top - golfer["turn_lead"] + rng.normal(0, 0.015)
    address = script.share
    path = golfer["path"]
    key = dict(
        top=top,
        turn=turn,
        impact=hit,
        rest=hit + golfer["through"] * jitter() * (0.7 + 0.3 * size),
    )
    if small:
        name = "small half"
        path = (
            golfer["path"]
            if golfer["path"] in ("pieces", "spline")
            else str(rng.choice(["pieces", "spline"]))
        )
        low = address - rng.uniform(2, 3)
        finish = address + rng.uniform(0.5, 4)
        impact = low + rng.uniform(0.6, 0.95) * (finish - low)
        push = rng.uniform(0.025, 0.06)
    else:
        low = address - max(2.5, golfer["dip"] * size * jitter() ** 2)
        finish = min(
            97.0,
            max(
                80.0,
                address + (golfer["finish"] - address) * (0.4 + 0.6 * size) + rng.normal(0, 1.5),
            ),
        )
        impact = low + golfer["done"] ** 0.5 * (finish - low) * rng.uniform(0.65, 0.92)
        push = golfer["push"] * size * jitter() ** 3
    t = clock(key["rest"])
    share = share_path(t, golfer, rng, path, key, address, low, impact, finish)
    load = load_path(t, golfer, rng, key, push)
    unrest = (t > hit) & ((np.abs(share - share[-1]) > 0.25) | (np.abs(load - 1) > 0.005))
    end = t[unrest][-1] + 1 / GRID_HZ if unrest.any() else hit
    if shot and golfer["ripple"]:
        after = np.clip(t - hit, 0, None)
        ring = np.exp(-after / rng.uniform(0.012, 0.03)) * np.sin(
            2 * np.pi * rng.uniform(15, 35) * after
        )
        load = load + rng.uniform(2, 8) / G / golfer["mass_kg"] * ring
    back = ease(t, 0, turn) - ease(t, turn, hit + 0.1)
    over = ease(t, turn, key["rest"])
    reach = 0.3 if small else size
    feet = dict(
        lead_y=reach * (6 * back - golfer["heel"] * over),
        lead_x=reach * 12 * over,
        trail_y=reach * (-golfer["heel"] * 0.6 * back + golfer["toe"] * over),
        trail_x=reach * (-8 * back + 10 * over),
    )
    script.truths.append(
        dict(
            is_shot=shot,
            kind=f"{name}, {path} share, {golfer['load_path']} load",
            takeaway_s=script.now_s,
            turnaround_s=None,
            impact_s=script.now_s + hit,
            finish_s=script.now_s + end,
        )
    )
    script.add(t, share=share, load=load, **feet)
    held = {name: curve[-1] for name, curve in feet.items()}
    script.add(clock(max(0.55, rng.uniform(0.2, 3.0))), **held)
    return held
