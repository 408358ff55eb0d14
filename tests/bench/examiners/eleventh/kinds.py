"""Kinds of golfers: the range of each quantity, which are drawn in this order.

mass in kg; share at address; points lost in the backswing (drop); when the share is lowest, as
part of the backswing (low_at); part of the loss that is regained at the top; points above address
at the plant, and when that is after impact, in s (plant_dt); share at the finish; backswing,
downswing and follow-through in s; dip and push in body weights; peak of the push before impact in
s (lead).
"""

KINDS = {
    "good wedge player": dict(
        mass=(65, 92), address=(72, 79), drop=(2.5, 6), low_at=(0.55, 0.8), regain=(0.1, 0.4),
        plant=(10, 15), plant_dt=(-0.05, 0.02), finish=(90, 96),
        back=(0.7, 0.88), down=(0.25, 0.31), follow=(0.65, 0.95),
        dip=(0.07, 0.16), push=(0.14, 0.28), lead=(0.05, 0.09),
    ),
    "slow and smooth": dict(
        mass=(58, 88), address=(68, 76), drop=(4, 8), low_at=(0.7, 0.95), regain=(0, 0.2),
        plant=(9, 15), plant_dt=(0, 0.08), finish=(87, 95),
        back=(0.92, 1.08), down=(0.33, 0.42), follow=(0.9, 1.3),
        dip=(0.04, 0.09), push=(0.07, 0.14), lead=(0.04, 0.08),
    ),
    "quick": dict(
        mass=(60, 90), address=(66, 76), drop=(5, 10), low_at=(0.75, 1), regain=(0, 0.1),
        plant=(8, 14), plant_dt=(-0.02, 0.06), finish=(84, 94),
        back=(0.51, 0.64), down=(0.22, 0.26), follow=(0.5, 0.75),
        dip=(0.1, 0.22), push=(0.18, 0.38), lead=(0.03, 0.07),
    ),
    "reverse": dict(
        mass=(62, 100), address=(60, 68), drop=(5, 11), low_at=(1, 1), regain=(0.4, 0.9),
        plant=(0, 0), plant_dt=(-0.11, -0.05), finish=(80, 86),
        back=(0.65, 0.9), down=(0.25, 0.33), follow=(0.7, 1.1),
        dip=(0.05, 0.14), push=(0.09, 0.2), lead=(0, 0.05),
    ),
    "hanging back": dict(
        mass=(65, 105), address=(52, 63), drop=(8, 15), low_at=(0.85, 1), regain=(0, 0.1),
        plant=(2, 8), plant_dt=(0.08, 0.18), finish=(80, 87),
        back=(0.65, 0.95), down=(0.26, 0.36), follow=(0.7, 1.2),
        dip=(0.05, 0.12), push=(0.08, 0.18), lead=(-0.01, 0.04),
    ),
    "tiny weight shift": dict(
        mass=(52, 85), address=(74, 80), drop=(2, 3.5), low_at=(0.6, 0.95), regain=(0, 0.3),
        plant=(4, 8), plant_dt=(-0.03, 0.05), finish=(86, 91),
        back=(0.65, 0.9), down=(0.24, 0.32), follow=(0.6, 0.9),
        dip=(0.04, 0.09), push=(0.07, 0.15), lead=(0.04, 0.08),
    ),
    "heavy slow": dict(
        mass=(102, 130), address=(56, 68), drop=(5, 11), low_at=(0.75, 1), regain=(0, 0.15),
        plant=(10, 18), plant_dt=(0.02, 0.1), finish=(82, 90),
        back=(0.88, 1.08), down=(0.33, 0.44), follow=(0.9, 1.4),
        dip=(0.03, 0.08), push=(0.06, 0.13), lead=(0.03, 0.07),
    ),
    "light quick": dict(
        mass=(45, 58), address=(64, 75), drop=(4, 9), low_at=(0.6, 0.9), regain=(0.05, 0.3),
        plant=(12, 18), plant_dt=(-0.06, 0.02), finish=(88, 96),
        back=(0.56, 0.72), down=(0.22, 0.27), follow=(0.55, 0.8),
        dip=(0.1, 0.22), push=(0.18, 0.4), lead=(0.06, 0.1),
    ),
}
