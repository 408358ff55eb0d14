"""Sorts of players: the range of each habit, which are drawn in this order.

address: share in %; shift: points that the body wants to the trail foot in the backswing; finish:
share in %; back: backswing in s; ratio: of backswing to downswing; arm: angle of the arms at the
top of a full swing, rad; trunk: its turn per turn of the arms; spin: scale of the inertia; dip and
rise: of the knees, m; early: how long before the top the body starts to the lead side, s; late: how
long after impact it arrives there, s.
"""

PEOPLE = {
    "expert, turns over the lead leg": dict(
        address=(70, 80), shift=(-3, 2), finish=(90, 97), back=(0.7, 0.95), ratio=(2.7, 3.4),
        arm=(1.6, 2.0), trunk=(0.55, 0.7), spin=(0.6, 1.1), dip=(0.008, 0.02), rise=(0.015, 0.035),
        early=(0.35, 0.6), late=(0.05, 0.25),
    ),
    "expert, reloads": dict(
        address=(66, 75), shift=(1, 7), finish=(90, 96), back=(0.65, 0.9), ratio=(2.4, 3.2),
        arm=(1.7, 2.1), trunk=(0.6, 0.75), spin=(0.5, 0.9), dip=(0.015, 0.03), rise=(0.02, 0.045),
        early=(0.25, 0.45), late=(0, 0.2),
    ),
    "pressure forward": dict(
        address=(68, 78), shift=(-10, -4), finish=(90, 97), back=(0.7, 1.0), ratio=(2.4, 3.3),
        arm=(1.3, 1.8), trunk=(0.35, 0.5), spin=(0.08, 0.22), dip=(0.004, 0.015), rise=(0.01, 0.03),
        early=(0.3, 0.5), late=(0.1, 0.3),
    ),
    "club player, sways back": dict(
        address=(56, 70), shift=(6, 15), finish=(82, 93), back=(0.7, 1.1), ratio=(2.2, 3.3),
        arm=(1.6, 2.2), trunk=(0.4, 0.7), spin=(0.5, 1.0), dip=(0.01, 0.03), rise=(0, 0.03),
        early=(0.1, 0.25), late=(0.1, 0.35),
    ),
    "beginner, hangs back": dict(
        address=(50, 62), shift=(4, 14), finish=(78, 88), back=(0.6, 1.1), ratio=(2.0, 2.9),
        arm=(1.3, 2.2), trunk=(0.25, 0.5), spin=(0.5, 1.0), dip=(-0.005, 0.015), rise=(0.01, 0.05),
        early=(0, 0.12), late=(0.25, 0.55),
    ),
    "senior, arms only": dict(
        address=(55, 72), shift=(0, 7), finish=(80, 90), back=(0.8, 1.1), ratio=(2.6, 4.0),
        arm=(1.2, 1.7), trunk=(0.25, 0.45), spin=(0.5, 0.9), dip=(0, 0.008), rise=(0, 0.012),
        early=(0.1, 0.3), late=(0.2, 0.45),
    ),
    "junior, springs": dict(
        address=(55, 75), shift=(1, 10), finish=(84, 95), back=(0.5, 0.75), ratio=(2.0, 2.8),
        arm=(1.7, 2.3), trunk=(0.5, 0.8), spin=(0.6, 1.0), dip=(0.02, 0.035), rise=(0.035, 0.06),
        early=(0.15, 0.3), late=(0.05, 0.25),
    ),
}
