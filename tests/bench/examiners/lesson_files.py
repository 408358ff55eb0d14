"""A lesson of an examiner's golfer as files: what the plates tell, and what is true of it.

lesson_KKK.csv is what `footing import` reads, loads in N, places in mm of the plate frame (x to
the golfer's right, y to the toes). lesson_KKK.truth.json tells who stood there on what, the swings
(times in s from the first row, shares in % of the lead foot; null where a thing does not exist)
and what was done between them.
"""
import json
from dataclasses import dataclass

import numpy as np

from examiners.curves import GRID_HZ

RATES_HZ = (100, 200, 250, 500, 1000)  # in turn
# Sway of the share in points, noise of a cell in N.
NOISES = {"quiet": (0.2, 0.4), "ordinary": (0.5, 1.0), "worst": (1.2, 4.0)}
COLUMNS = (
    "time_s",
    "left_n",
    "right_n",
    "left_cop_x_mm",
    "left_cop_y_mm",
    "right_cop_x_mm",
    "right_cop_y_mm",
    "trigger",
)
LOADS, PLACES = slice(1, 3), slice(3, 7)  # of the columns
LEAST_LOAD_N = 30.0  # below it a plate tells no centre of pressure


@dataclass
class Made:
    """A lesson as its author made it."""

    columns: list  # as COLUMNS, the trigger in lessons that have one; NaN where there is no place
    truth: dict
    time_digits: int = 4
    load_digits: int = 2
    place_digits: int = 2
    end_of_truth: str = ""


def samples_of(told):
    """Takeaway, impact and finish of a swing's truth in samples of the grid."""
    events = ("takeaway_s", "impact_s", "finish_s")
    return (int(round(told[event] * GRID_HZ)) for event in events)


def rounded(told):
    """An entry of the truth with its numbers to four digits."""
    return {
        name: round(float(value), 4) if isinstance(value, float) else value
        for name, value in told.items()
    }


def rows_of(made):
    """The lines of the table."""
    count = len(made.columns)
    formats = [f"%.{made.time_digits}f"] * count
    formats[LOADS] = [f"%.{made.load_digits}f"] * 2
    formats[PLACES] = [f"%.{made.place_digits}f"] * 4
    formats[7:] = ["%d"] * (count - 7)
    line = ",".join(formats)
    yield ",".join(COLUMNS[:count])
    for row in zip(*(np.asarray(column).tolist() for column in made.columns)):
        yield (line % row).replace("nan", "")


def write_lesson(folder, number, made):
    """Writes both files of a lesson; their name without an end."""
    name = f"lesson_{number:03}"
    table, truth = folder / f"{name}.csv", folder / f"{name}.truth.json"
    table.write_text("\n".join(rows_of(made)) + "\n", encoding="ascii")
    text = json.dumps(made.truth, indent=1, allow_nan=False)
    truth.write_text(text + made.end_of_truth, encoding="ascii")
    return name
