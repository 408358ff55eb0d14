"""Movements of real people who only stand, as the finder weighs them: none of them is a swing.

The recordings are those of dos Santos DA, Fukuchi CA, Fukuchi RK, Duarte M (2017), PeerJ 5:e3626 (figshare
doi:10.6084/m9.figshare.4525082, CC BY 4.0), one file a trial (PDS*grf.txt.gz): two plates, 100 Hz, the right
foot before the left in the columns, lab axes X ahead, Y up, Z to the right, in N and m.
"""
import gzip
import subprocess

import numpy as np

from movements import take_line, words_of

# Each trial is also told with more weight on the lead foot, as golfers stand, faster and slower.
MORE_SHARE = (0.0, 0.1, 0.2)
SLOWER = (0.8, 1.0, 1.25)
HANDS = ("right", "left")
COLUMNS = "time_s,left_n,right_n,left_cop_x_mm,left_cop_y_mm,right_cop_x_mm,right_cop_y_mm"


def read_trial(file):
    """A trial's columns by their names."""
    with gzip.open(file, "rt", encoding="ascii") as lines:
        return np.genfromtxt(lines, names=True)


def write_csv(path, trial, hand, more_share, slower):
    """The trial as `footing import` reads it."""
    left_n, right_n = trial["LGRF_Y"], trial["RGRF_Y"]
    moved_n = more_share * (left_n + right_n) * (1 if hand == "right" else -1)
    columns = [slower * trial["Time"], left_n + moved_n, right_n - moved_n]
    columns += [1000 * trial[foot + axis] for foot in ("LCOP_", "RCOP_") for axis in "ZX"]
    np.savetxt(path, np.stack(columns, axis=1), fmt="%.5f", delimiter=",", header=COLUMNS, comments="")


def standing_signs(bin_folder, source, folder):
    """By trial, the signs [n, signs] of every movement in it, in all the ways that it is told."""
    table, recording = folder / "standing.csv", folder / "standing.h5"
    by_trial = {}
    for file in sorted(source.glob("PDS*grf.txt.gz")):
        trial, signs = read_trial(file), []
        for hand in HANDS:
            for more_share in MORE_SHARE:
                for slower in SLOWER:
                    recording.unlink(missing_ok=True)
                    write_csv(table, trial, hand, more_share, slower)
                    subprocess.run([bin_folder / "footing", "import", table, "--out", recording, "--hand", hand],
                                   check=True, capture_output=True)
                    lines = words_of(bin_folder / "tests/bench/signs_bench", recording)
                    movements = []
                    for words in lines:
                        take_line(movements, words)
                    signs += [one.signs for one in movements]
        by_trial[file.name.removesuffix("grf.txt.gz")] = np.array(signs)
    return by_trial
