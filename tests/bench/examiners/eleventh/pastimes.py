"""What is done between the swings."""
import numpy as np

from examiners.eleventh.scene import G


def wobble(scene, length, *waves):
    """Oscillations for `length` s: (track, amplitude, Hz)."""
    for track, amplitude, hz in waves:
        scene.wave(track, scene.t, scene.t + length, amplitude, hz)
    scene.t += length


def waggle(scene):
    """The club to and fro."""
    hz = scene.draw(0.9, 2)
    wobble(
        scene,
        scene.draw(1.2, 3),
        ("share", scene.draw(0.4, 2), hz),
        ("load", scene.draw(0.002, 0.012), 2 * hz),
        ("lead_y", scene.draw(1, 5), hz),
    )


def rocking(scene):
    """From foot to foot, evenly."""
    hz = scene.draw(0.4, 0.9)
    wobble(
        scene,
        scene.rng.integers(3, 7) / hz,
        ("share", scene.draw(4, 14), hz),
        ("load", scene.draw(0.004, 0.02), 2 * hz),
    )


def bending(scene):
    """Down for the ball and up again."""
    down = scene.draw(0.7, 1.1)
    hold = scene.draw(0.6, 2)
    up = scene.draw(0.8, 1.3)
    a = scene.draw(0.06, 0.18)
    back = scene.now["share"]
    t = scene.t
    scene.move("share", t, t + down, np.clip(back + scene.draw(-14, 14), 30, 85))
    scene.feet(t, t + down, (0, scene.draw(25, 55)), (0, scene.draw(20, 50)))
    for t0, d, sign in ((t, down, -1), (t + down + hold, up, 1)):
        size = sign * a * (down / d) ** 2  # as far up as down: the height goes with a d^2
        scene.load((t0 + d / 4, d / 2, size), (t0 + 3 * d / 4, d / 2, -size))
    scene.wave("share", t + down, t + down + hold, scene.draw(0.5, 3), scene.draw(0.7, 1.5))
    scene.t += down + hold + up
    scene.move("share", scene.t - up, scene.t, back)
    scene.feet(scene.t - up, scene.t)


def regripping(scene):
    """Hands find their grip."""
    wobble(
        scene,
        scene.draw(1, 2.5),
        ("share", scene.draw(0.2, 0.9), scene.draw(0.6, 1.5)),
        ("share", scene.draw(0.2, 0.9), scene.draw(1.5, 3)),
        ("load", scene.draw(0.002, 0.007), scene.draw(1.5, 4)),
    )


def step_on(scene):
    """One foot takes the body, then the weight is shared."""
    scene.move("share", scene.t, scene.t + 0.01, scene.rng.choice([0, 100]))
    d = scene.draw(0.25, 0.45)
    e = scene.draw(0.5, 0.9)
    a = scene.draw(0.04, 0.14)
    scene.move("on", scene.t + 0.01, scene.t + d, 1)
    scene.load((scene.t + d, 0.3, a), (scene.t + d + 0.3, 0.3, -a))
    scene.move("share", scene.t + d, scene.t + d + e, scene.draw(40, 60))
    scene.t += d + e + scene.draw(0.2, 0.8)


def footfalls(scene, mass, plates):
    """Somebody's steps, one on each plate named."""
    for plate in plates:
        scene.steps.append(
            (
                plate,
                scene.t,
                scene.draw(0.58, 0.8),
                mass * G,
                (scene.draw(-60, 60), scene.draw(-80, 80)),
            )
        )
        scene.t += scene.draw(0.5, 0.65)


def step_off_on(scene, plates=()):
    """Off by one foot, perhaps across the plates meanwhile, on again by one foot."""
    d = scene.draw(0.4, 0.7)
    e = scene.draw(0.3, 0.5)
    scene.move("share", scene.t, scene.t + d, scene.rng.choice([0, 100]))
    scene.move("on", scene.t + 0.9 * d, scene.t + 0.9 * d + e, 0)
    scene.t += d + e + scene.draw(1, 2.5)
    footfalls(scene, scene.mass, plates)
    scene.t += scene.draw(0.4, 1.5)
    step_on(scene)


def walk_across(scene):
    """Off, across the plates with a foot on each, and on again."""
    step_off_on(scene, scene.rng.permutation(2))


def someone_crossing(scene):
    """Somebody else treads on one plate or both while the golfer stands."""
    footfalls(scene, scene.draw(50, 95), scene.rng.permutation(2)[:scene.rng.integers(1, 3)])


def hops(scene):
    """Crouch, push, fly and land, one to three times."""
    for _ in range(scene.rng.integers(1, 4)):
        # s, body weights times s, s
        flight = scene.draw(0.10, 0.22)
        crouch = scene.draw(0.03, 0.06)
        land = scene.draw(0.14, 0.2)
        # flat pieces carry 0.9 of their width as impulse
        v = 0.9 * flight / 2
        down = scene.t + 0.52 + flight
        scene.load(
            (scene.t + 0.15, 0.3, -crouch / 0.15),
            (scene.t + 0.4, 0.24, (crouch + v) / 0.12),
            (down - flight / 2, flight, -1, "flat"),
            (down + land / 2, land, 2.6 * v / land),
            (down + land + 0.12, 0.24, -0.3 * v / 0.12),
        )
        scene.t = down + land + 0.3


def talking(scene):
    """The weight is put here and there."""
    for _ in range(scene.rng.integers(2, 5)):
        scene.shift(scene.draw(35, 75), 0.5, 1.4)
        scene.feet(
            scene.t - 0.5,
            scene.t,
            (scene.draw(-8, 8), scene.draw(-15, 15)),
            (scene.draw(-8, 8), scene.draw(-15, 15)),
        )
        scene.t += scene.draw(0.2, 1.5)


def leaning_on_club(scene):
    """Some weight on the club, which stands beside the plates."""
    d = scene.draw(0.5, 0.9)
    back = scene.now["share"]
    t1 = scene.t + scene.draw(2, 4.5)
    for t0, on, share in (
        (scene.t, scene.draw(0.93, 0.98), np.clip(back + scene.draw(-12, 12), 30, 80)),
        (t1, 1, back),
    ):
        scene.move("on", t0, t0 + d, on)
        scene.move("share", t0, t0 + d, share)
    scene.t = t1 + d


# standing at ease
AWAY = (
    rocking,
    bending,
    step_off_on,
    walk_across,
    hops,
    someone_crossing,
    talking,
    leaning_on_club,
)
OVER_BALL = (waggle, waggle, regripping, rocking)  # near address


def named(scene, what):
    """Do a between-movement and note when."""
    scene.between.append({"name": what.__name__, "from_s": round(scene.t, 3)})
    what(scene)
    scene.between[-1]["to_s"] = round(scene.t, 3)
    scene.t += scene.draw(0.2, 0.8)
