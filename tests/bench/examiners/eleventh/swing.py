"""One swing: poses, and pieces of load that leave no momentum."""
import numpy as np

from examiners.eleventh.scene import G


def swing_load(scene, golfer, t0, top, impact, end, scale):
    """Load pieces of a swing.

    The last two are solved for no impulse and a small rise of the centre of mass.
    """
    for _ in range(200):
        pieces = [
            (t0 + 0.3 * (top - t0), 0.6 * (top - t0), scene.draw(-0.01, 0.03) * scale, "cosine"),
            (
                top + scene.draw(-0.06, 0.03),
                scene.draw(0.28, 0.42),
                -golfer["dip"] * scale,
                "cosine",
            ),
            (
                impact - golfer["lead"],
                scene.draw(0.75, 1.1) * (impact - top) + 0.08,
                golfer["push"] * scale,
                golfer["shape"],
            ),
        ]
        late = [
            (impact + scene.draw(0.14, 0.26), scene.draw(0.24, 0.36)),
            (impact + scene.draw(0.55, 0.75) * (end - impact), scene.draw(0.35, 0.6)),
        ]
        impulse = np.array(
            [w * a * (0.5 if shape == "cosine" else 0.375) for _, w, a, shape in pieces]
        )
        rise = scene.draw(0.0, 0.04) * scale / G - sum(
            j * (end - c) for j, (c, *_) in zip(impulse, pieces)
        )
        both = np.array([[w / 2 for _, w in late], [w / 2 * (end - c) for c, w in late]])
        sizes = np.linalg.solve(both, [-impulse.sum(), rise])
        if sizes[0] < 0.02 and np.abs(sizes).max() < max(0.06, 0.9 * golfer["push"] * scale):
            break
    scene.load(*pieces, *((*place, size) for place, size in zip(late, sizes)))


def swing(scene, golfer, small):
    """Draw one swing from the current share; return what is known of it without sway."""
    golfer = dict(
        golfer,
        **{
            k: golfer[k] * scene.rng.normal(1, 0.04)
            for k in ("back", "down", "follow", "dip", "push")
        },
    )
    golfer["lead"] += scene.rng.normal(0, 0.008)
    length, part = (("half", 0.6), ("three-quarter", 0.85), ("full", 1.0))[
        0 if small else scene.rng.choice(3, p=[0.2, 0.4, 0.4])
    ]
    down = np.clip(golfer["down"] * (1.12 - 0.12 * part), 0.22, 0.45)
    back = np.clip(golfer["back"] * (0.7 + 0.3 * part), max(0.5, 2 * down), min(1.1, 4 * down))
    t0 = round(scene.t, 3)
    impact = round(scene.t + back + down, 3)
    top = impact - down
    plant = impact + golfer["plant_dt"]
    end = impact + max(0.5, golfer["follow"] * (0.6 + 0.4 * part))
    address = scene.now["share"]
    drop = max(2, golfer["drop"] * part * scene.draw(0.85, 1.15))
    gain = golfer["plant"] * part + scene.rng.normal(0, 0.7)
    finish = np.clip(
        address + (golfer["finish"] - address) * (0.5 + 0.5 * part) + scene.rng.normal(0, 0.7),
        80,
        97,
    )
    if small:
        drop = scene.draw(2, 3)
        gain = scene.draw(-0.3, 0.6)
        finish = address + scene.draw(0, 1)
    forward = golfer["kind"] == "tiny weight shift" and not small and scene.rng.random() < 0.25
    if forward:  # presses to the lead foot all the way: no turnaround
        poses = [(top, address + 2 * part), (plant, address + gain)]
    elif golfer["kind"] == "reverse":  # to the lead foot in the backswing, falls back coming down
        poses = [(top, address + golfer["regain"] * drop), (plant, address - drop)]
    else:
        poses = [(t0 + golfer["low_at"] * back, address - drop), (plant, address + gain)]
        # a flat bottom would have no lowest instant
        if (1 - golfer["low_at"]) * back > 0.12 and golfer["regain"] > 0.08:
            poses.insert(1, (top, address - drop * (1 - golfer["regain"])))
    before = t0
    for when, value in poses + [(end, finish)]:
        lap = 0 if before == t0 or forward else golfer["overlap"] * (when - before)
        scene.move("share", before - lap, when, value)
        before = when
    for since, when, (lead, trail) in zip(
        (t0, top, plant), (top, plant, end), golfer["feet"] * part
    ):
        scene.feet(since, when, lead, trail)
    swing_load(scene, golfer, t0, top, impact, end, part * (scene.draw(0.5, 0.8) if small else 1))
    scene.t = end
    text = f"{golfer['kind']}, {length}" + ", 2-3 points" * small + ", forward only" * forward
    return {"kind": text, "forward": forward, "t0": t0, "impact": impact, "end": end}
