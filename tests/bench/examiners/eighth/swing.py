"""One swing: both feet's courses through knots, closed so that no momentum is left."""
import numpy as np
from scipy.interpolate import PchipInterpolator

from examiners.curves import GRID_HZ, minimum_jerk

G = 9.80665  # m/s2


def ease(seconds):
    """Minimum-jerk step from 0 to 1."""
    u = np.linspace(0, 1, max(int(seconds * GRID_HZ), 2))
    return minimum_jerk(u)


def bump(t, centre, half):
    """Raised cosine of height 1, zero outside centre +- half."""
    return np.where(
        np.abs(t - centre) < half, 0.5 + 0.5 * np.cos(np.pi * (t - centre) / half), 0.0
    )


def course(knots, column, shift, n):
    """One foot's course through the knots (time, value...), its inner times moved by shift."""
    t = np.array([k[0] for k in knots], float)
    t[2:-1] += shift
    # at least 20 ms apart
    t = np.maximum.accumulate(t - 0.02 * np.arange(t.size)) + 0.02 * np.arange(t.size)
    y = np.array([k[column] for k in knots])
    # level at both ends
    return PchipInterpolator(np.r_[-1, t, t[-1] + n], np.r_[y[0], y, y[-1]])(
        np.arange(n) / GRID_HZ
    )


def close(total, t, low, after, late, end, rise):
    """Adds the smallest bumps that leave no momentum and the wanted rise.

    Early backswing, transition, follow-through, landing.
    """
    # the factors hold back the first two
    b = np.array(
        [
            0.5 * bump(t, 0.45 * low, 0.45 * low),
            0.8 * bump(t, low + 0.02, 0.16),
            bump(t, after + 0.02, 0.13),
            bump(t, 0.5 * (late + end), 0.5 * (end - late) + 0.08),
        ]
    )

    def sums(x):
        """Of loads, what they give: speed in units of g, and height."""
        return np.array([x.sum(-1) / GRID_HZ, G * ((end + 0.1 - t) * x).sum(-1) / GRID_HZ])

    return total + np.linalg.pinv(sums(b)) @ (np.array([0, rise]) - sums(total - 1)) @ b


def swing(golfer, rng, a, length, small):
    """One swing: (lead, trail, cop[4]) in body weights and m, and its times in s from takeaway."""
    draw = rng.uniform
    part = {"half": 0.45, "three-quarter": 0.75, "full": 1.0}[length] * rng.uniform(0.92, 1.08)
    tb = np.clip(golfer.tb * (0.84 + 0.16 * part) * rng.normal(1, golfer.steady), 0.5, 1.1)
    td = np.clip(
        golfer.tb / golfer.ratio * rng.normal(1, golfer.steady),
        max(0.22, tb / 4.2),
        min(0.45, tb / 1.9),
    )
    hit = tb + td
    low = tb + np.clip(golfer.turn + rng.normal(0, 0.012), -0.3 * tb, 0.15 * td)
    d = min(golfer.shift * part**0.7 * np.clip(rng.normal(1, 0.15), 0.6, 1.4), a - 0.22)
    v = golfer.vigor * part * np.clip(rng.normal(1, 0.12), 0.7, 1.3)
    lag = np.clip(golfer.lag + rng.normal(0, 0.008), -0.06, 0.5 * td)
    s_low = a - d
    s_fin = np.clip(golfer.finish - 0.10 * (1 - part) + rng.normal(0, 0.01), a + 0.02, 0.97)
    if golfer.style == "reverse":
        s_peak = max(
            a + 0.4 * golfer.gain - 0.3 * golfer.fall * part + rng.normal(0, 0.01), s_low + 0.05
        )
        s_hit = max(s_peak - 0.7 * golfer.fall * part, s_low + 0.03)
        s_after = s_hit + draw(-0.02, 0.03)
    elif golfer.style == "slider":
        s_hit = s_low + max(0.05, 0.75 * (a - s_low)) + rng.normal(0, 0.01)
        s_peak = s_hit + (-0.25 if lag > 0 else 0.15) * (s_hit - s_low)
        s_after = s_hit + 0.45 * (s_fin - s_hit)
    else:
        s_hit = min(
            a
            + golfer.gain * (0.4 + 0.6 * part) * (1.3 if golfer.style == "front foot" else 1)
            + rng.normal(0, 0.01),
            0.955,
        )
        s_peak = s_low + (0.88 if lag > 0 else 1.05) * (s_hit - s_low)
        s_fin = max(s_fin, s_hit - draw(0, 0.06))
        s_after = s_hit + draw(-0.03, 0.25) * (s_fin - s_hit)
    if small:  # a half swing that hardly moves the load sideways
        d = draw(0.021, 0.029)
        s_low = a - d
        s_hit = a + draw(-0.004, 0.02)
        s_fin = min(a + draw(0.0, 0.02) + rng.choice([0, 0.05]), 0.96)
        s_peak = s_low + 0.9 * (s_hit - s_low)
        s_after = 0.5 * (s_hit + s_fin)
    elif golfer.style == "forward":
        d = -draw(0.004, 0.02)
        s_low = a + draw(0.02, 0.035)
    early = max(tb + 0.35 * td, low + 0.11)
    peak = max(hit - lag, early + 0.035)
    after = max(hit + draw(0.09, 0.17), peak + 0.06)
    late = after + draw(0.14, 0.28)
    end = max(late + 0.15, hit + golfer.rest + rng.normal(0, 0.05))
    knots = [
        (0, a, 1),
        (golfer.mid * low, a - golfer.mid_part * d, 1 + golfer.lift * v),
        (peak, s_peak, 1 + v),
        (end, s_fin, 1),
        (0.76 * low, a - golfer.late_part * d, 1 + draw(-0.1, 0.1) * v),
        (low, s_low, 1 - golfer.light * v),
        (early, s_low + golfer.early * (s_peak - s_low), 1 + golfer.drive * v),
        (after, s_after, 1 - draw(0.2, 0.6) * v),
        (late, s_after + draw(0.55, 0.85) * (s_fin - s_after), 1 + draw(-0.05, 0.2) * v),
    ]
    if abs(peak - hit) > 0.03:
        knots.append((hit, s_hit, 1 + golfer.contact * v))
    if golfer.recoil and not small and d > 0:
        knots.append((0.22 * golfer.mid * low + 0.03, a + golfer.recoil, 1))
    elif golfer.quick:
        knots.append((0.45 * golfer.mid * low, a - golfer.quick * golfer.mid_part * d, 1))
    feet = [(t, s * f, (1 - s) * f) for t, s, f in sorted(knots)]
    n = int((end + (0 if rng.random() > golfer.wobbly else 0.7) + draw(0.5, 3.0)) * GRID_HZ)
    ahead = (
        (golfer.style != "forward")
        * (golfer.trail_lead + rng.normal(0, 0.004))
        * (0.4 if small else 1)
    )
    lead = course(feet, 1, 0, n)
    trail = np.maximum(course(feet, 2, -ahead, n), 0.004)
    t = np.arange(n) / GRID_HZ
    total = lead + trail
    share = lead / (lead + trail)
    if small:  # the separate clocks of the feet move the lowest share: put it back
        below = np.minimum(share - a, 0)
        share = share + below * (d / max(-below[:int(hit * GRID_HZ)].min(), 1e-3) - 1)
    after_end = np.clip(t - end, 0, None)
    share = share + rng.normal(0, 0.012) * golfer.wobbly * np.sin(
        1.8 * np.pi * after_end
    ) * np.exp(-after_end / 0.3)
    share = np.clip(share, 0.03, 0.992)
    total = close(total, t, low, after, late, end, golfer.rise * part)
    body = [
        (0, 0, 0, 0),
        (0.6 * low, 0.7, 0, 0),
        (tb, 1, 0.1, 0),
        (tb + 0.5 * td, 0.3, 0.5, 0),
        (hit, 0, 1, 0),
        (end, 0, 1.2, 1),
    ]
    # turned, through, round
    path = np.array([course(body, c, rng.normal(0, 0.008), n) for c in (1, 2, 3)]) * part**0.6
    cop = np.array(
        [
            golfer.roll[0] * (path[1] - path[0]),
            golfer.lead_y @ path,
            golfer.roll[1] * (path[0] + 2 * path[1]),
            golfer.trail_y @ path,
        ]
    )
    moving = (
        (np.abs(share - share[-1]) > np.clip(0.06 * np.ptp(share), 0.003, 0.01))
        | (np.abs(total - 1) > np.clip(0.1 * np.ptp(total), 0.006, 0.02))
        | (np.abs(cop - cop[:, -1:]).max(0) > 0.005)
    )
    rest = int(np.flatnonzero(moving)[-1]) + 1
    sink = G * np.cumsum(np.cumsum(total - 1)).min() / GRID_HZ**2
    pace = np.abs(np.diff(share)).max() * GRID_HZ
    sane = (
        sink > -0.1
        and pace < 3
        and 0.6 < total.min()
        and total.max() < 1.6
        and hit * GRID_HZ + 100 < rest <= n - 500
    )
    return (share * total, (1 - share) * total, cop, hit, rest / GRID_HZ) if sane else None
