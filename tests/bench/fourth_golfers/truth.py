"""What is true of a swing, from the share that was meant and the one under the feet."""
import numpy as np

from plates import CURVE_HZ

MEAN_S = 0.5  # address and finish are means over so long
DONE = 0.98  # of the way from impact on, as the score asks
INSTANT_S = 0.15  # a share that is as good as lowest for longer has no one turnaround
EDGE_S = 0.1  # sooner after the onset nothing turns: there sway alone is lowest
AS_GOOD = 0.001  # of the load: 0.1 points


def index(time_s):
    """The sample of a time."""
    return int(round(time_s * CURVE_HZ))


def settled(motion):
    """The first sample from which on nothing is further from the end than 2 % of the way."""
    away = abs(motion - motion[-1])
    far = np.flatnonzero(away > (1 - DONE) * away.max())
    return int(far[-1]) + 1 if len(far) else 0


def is_instant(share, turn):
    """Whether a share's lowest place is one instant, and no edge of the stretch."""
    near = np.flatnonzero(share < share[turn] + AS_GOOD)
    inside = EDGE_S * CURVE_HZ <= turn < len(share) - 2
    return bool(inside and near[-1] - near[0] < INSTANT_S * CURVE_HZ)


def tell_truth(swing, motion, share):
    """Completes a swing: `motion` is what was meant, `share` has sway; both 0 to 1."""
    onset, impact, end = (index(x) for x in (swing.onset_s, swing.impact_s, swing.end_s))
    rest = impact + settled(motion[impact:end + 1])
    stretch = share[onset:impact + 1]
    turn = int(np.argmin(stretch))
    mean = int(MEAN_S * CURVE_HZ)
    swing.turnaround_s = (onset + turn) / CURVE_HZ
    if not swing.has_backswing or turn < EDGE_S * CURVE_HZ:
        swing.turnaround_s = swing.planned_turn_s  # for the plates: of such a turn nobody is asked
    swing.settled_s = rest / CURVE_HZ
    swing.address = 100 * float(np.mean(share[onset - mean:onset]))
    swing.lowest = 100 * float(stretch[turn])
    around = np.arange(impact - 2, impact + 3)
    swing.impact = 100 * float(np.interp(swing.impact_s * CURVE_HZ, around, share[around]))
    swing.finish = 100 * float(np.mean(share[rest:rest + mean]))
    swing.has_one_turnaround = swing.has_one_turnaround and is_instant(stretch, turn)
