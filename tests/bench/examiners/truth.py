"""The truth of an examiner's lesson as score.py wants a lesson."""
from collections import namedtuple
from dataclasses import dataclass

Scene = namedtuple("Scene", "named")
NOT_A_NUMBER = float("nan")


@dataclass
class Swing:
    """A swing's truth; NaN where a thing does not exist. Names as of the other authors' swings."""

    way: str
    is_shot: bool
    triggered: bool
    has_backswing: bool  # False: nobody told when it begins
    has_one_turnaround: bool
    onset_s: float
    turnaround_s: float
    impact_s: float
    settled_s: float
    end_s: float
    address: float
    lowest: float
    impact: float
    finish: float
    small: bool = False  # its way says so


class TrueLesson:
    """Swings, and the scene between them."""

    def __init__(self, truth):
        self.hand = truth["hand"]
        self.swings = [swing_of(told, truth["has_trigger"]) for told in truth["swings"]]
        between = [(one["name"], one["from_s"], one["to_s"]) for one in truth["between"]]
        self.scene = Scene(between)


def swing_of(told, has_trigger):
    """A swing from its entry in the truth."""
    number = {name: NOT_A_NUMBER if value is None else value for name, value in told.items()}
    return Swing(
        way=told["kind"],
        is_shot=told["is_shot"],
        triggered=has_trigger and told["is_shot"],
        has_backswing=told["takeaway_s"] is not None,
        has_one_turnaround=told["turnaround_s"] is not None,
        onset_s=number["takeaway_s"],
        turnaround_s=number["turnaround_s"],
        impact_s=number["impact_s"],
        settled_s=number["finish_s"],
        end_s=number["finish_s"],
        address=number["address"],
        lowest=number["lowest"],
        impact=number["impact"],
        finish=number["finish"],
    )
