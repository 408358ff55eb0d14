"""One swing: how arms, club, trunk and legs move, and what the body wants meanwhile."""
from dataclasses import dataclass

import numpy as np

from examiners.curves import GRID_HZ
from examiners.twelfth.motion import G, clock, path, second, step

STILL = (0, 0, 0)  # value, speed and acceleration at takeaway


@dataclass
class Plan:
    """Who swings how far and when: seconds from takeaway, and the times `t` of the grid."""

    golfer: object
    draw: object
    length: str
    factor: float  # of a full swing
    top: float = 0.0  # angle of the arms, rad
    back: float = 0.0
    down: float = 0.0
    end: float = 0.0  # of the follow-through
    t: np.ndarray = None

    @property
    def hit(self):
        """When the arms would be back, did muscles not lag."""
        return self.back + self.down


@dataclass
class Motion:
    """A swing from takeaway to the end of its hold."""

    length: str
    t: np.ndarray
    torque: np.ndarray  # N m
    lift: np.ndarray  # N
    forward: np.ndarray  # of the CoP, mm
    wanted: np.ndarray  # share, from that at address on
    carried: float  # points that the body wants to the trail foot
    start: float  # when, s, and for how long it wants to the lead foot
    slow: float
    finish: float  # share, %
    back: float  # s
    hit: int  # samples


def plan_of(rng, golfer, is_mini):
    """Draws a length and the times of a swing."""
    draw, habit = rng.uniform, golfer.habit
    if is_mini:
        length, factor = "half", draw(0.42, 0.6)
    else:
        lengths = (
            ("half", draw(0.5, 0.65)),
            ("three-quarter", draw(0.7, 0.85)),
            ("full", draw(0.9, 1)),
        )
        length, factor = lengths[rng.integers(0, 3)]
    plan = Plan(golfer, draw, length, factor, habit["arm"] * factor)
    tempo = 1 - 0.25 * (1 - factor) * draw(0, 1)
    plan.back = float(np.clip(habit["back"] * tempo * draw(0.95, 1.05), 0.5, 1.1))
    plan.down = float(np.clip(plan.back / (habit["ratio"] * draw(0.95, 1.05)), 0.22, 0.45))
    plan.end = plan.hit + draw(0.55, 0.9) * (0.8 + 0.2 * factor)
    plan.t = clock(plan.end + draw(0.4, 0.6) + draw(0.6, 2.5))
    return plan


def turns_of(plan):
    """Angles of the arms, the club and the trunk."""
    golfer, draw = plan.golfer, plan.draw
    top, back, down, hit, end = plan.top, plan.back, plan.down, plan.hit, plan.end
    speed = -golfer.release * top / down
    pull = -draw(0.5, 2.5) * top / down**2
    arms = [
        (0, *STILL),
        (back, top, 0, pull),
        (hit, 0, speed, draw(-4, 6)),
        (end, -top * draw(0.8, 1.1), 0, 0),
    ]
    cocked = top + draw(0.7, 1.4) * plan.factor**0.5
    club = [
        (0, *STILL),
        (back, cocked, 0, 0),
        (hit, 0, -draw(1.9, 2.3) * cocked / down, 0),
        (end, -cocked, 0, 0),
    ]
    turn = golfer.habit["trunk"] * top
    trunk = [
        (0, *STILL),
        (back - golfer.hip_lead, turn, 0, -turn / down**2 * draw(0.2, 1)),
        (hit, -draw(0.25, 0.55) * turn, -draw(0.7, 1.3) * turn / down, draw(0, 20)),
        (end, -1.3 * turn, 0, 0),
    ]
    return (path(knots, plan.t, golfer.soft, golfer.lag) for knots in (arms, club, trunk))


def lift_of(plan, arms, club):
    """What arms and club on an inclined plane, and the legs under the body, add to the load, N."""
    golfer, draw, habit = plan.golfer, plan.draw, plan.golfer.habit
    arm_mass = 0.095 * golfer.mass + 0.2
    plane = draw(0.68, 0.85)
    reach = 0.36 * golfer.height
    z_arms = -reach * np.cos(arms)
    z_club = -1.6 * reach * np.cos(arms) - 0.72 * np.cos(club)
    dip, rise = habit["dip"] * plan.factor, habit["rise"] * plan.factor
    legs = [
        (0, *STILL),
        (0.55 * plan.back, *STILL),
        (plan.back + draw(0.15, 0.5) * plan.down, -dip, 0, 0),
        (plan.hit + draw(0.3, 0.7) * (plan.end - plan.hit), rise, 0, 0),
        (plan.end + 0.2, rise * draw(0.5, 1), 0, 0),
    ]
    lift = plane * (1 - golfer.counter) * (arm_mass * second(z_arms) + 0.42 * second(z_club))
    return lift + 0.88 * golfer.mass * second(path(legs, plan.t, 0, golfer.lag))


def swing_motion(rng, golfer, is_mini):
    """One swing that begins at its first sample; the body's way to the finish is not yet in it."""
    plan = plan_of(rng, golfer, is_mini)
    draw, habit, t = plan.draw, golfer.habit, plan.t
    arms, club, trunk = turns_of(plan)
    spin = 0.6 * second(arms) + 0.6 * second(trunk) + 0.06 * second(club)
    lift = lift_of(plan, arms, club)
    forward = -900 * lift / (golfer.mass * G) * draw(-0.02, 0.06)
    through = step((t - plan.back) / plan.down) * step((t[-1] - t) / 0.3)
    forward += 12 * draw(-1, 1) * through
    carried = draw(0.5, 1) * habit["shift"] * plan.factor**0.5
    wanted = -carried * step(t / (plan.back * draw(0.65, 1)))
    start = plan.back - habit["early"] * draw(0.8, 1.2)
    slow = max(habit["early"] + plan.down + habit["late"] * draw(0.8, 1.2), 0.5)
    finish = habit["finish"] + draw(-2, 2)
    top = round(plan.back * GRID_HZ)
    hit = top + int(np.flatnonzero(arms[top:] <= 0)[0])
    return Motion(
        plan.length, t, golfer.inertia * habit["spin"] * spin, lift, forward, wanted,
        carried, start, slow, finish, plan.back, hit,
    )


def quieten(rng, golfer, motion, address):
    """Scales a swing until the share falls by 2 to 3 points, and rises hardly more."""
    fall = rng.uniform(2, 3)
    rise = rng.uniform(1, 3)
    late = step((motion.t - motion.back + 0.1) / 0.15)
    near = slice(motion.hit + 300)
    for _ in range(5):
        wanted = address + motion.wanted
        share = golfer.share_of(wanted[near], motion.torque[near], motion.lift[near]) - address
        down = np.clip(fall / max(-share[:motion.hit].min(), 0.3), 0.3, 3)
        up = np.clip(rise / max(share.max(), 0.3), 0.3, 1)
        motion.torque = motion.torque * (down + (up - down) * late)
        motion.wanted = motion.wanted * min(down, 1)
