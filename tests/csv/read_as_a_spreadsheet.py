#!/usr/bin/env python3
"""Reads the table of a recording as other programs do, and holds its numbers against the JSON: read_as_a_spreadsheet.py PROGRAM

A spreadsheet of the locale that this runs in (LC_ALL) reads as lesson.csv-metadata.json says (CSV on the Web, W3C
Recommendation of 2015: dialect, datatype, decimalChar); a statistics program guesses, and takes a column for numbers when all of
its fields that are not empty are. Needs Python's standard library only; its csv module reads by RFC 4180.
"""
import csv
import datetime
import json
import locale
import pathlib
import subprocess
import sys
import tempfile

program = str(pathlib.Path(sys.argv[1]).resolve())
recordings = pathlib.Path(__file__).resolve().parents[2] / "recordings"
COP_POINTS, SHARES = ("address", "top", "impact", "finish"), ("address", "turnaround", "top", "impact", "finish", "lowest")
EVENTS = ("address", "takeaway", "turnaround", "top", "impact", "finish")


def run(*words):
    subprocess.run([program, *map(str, words)], check=True, stdout=subprocess.DEVNULL)


def expected(swing):
    """The numbers of one swing in the JSON, by the columns of the table."""
    numbers = {"swing": swing["index"]}
    for name in SHARES:
        share = swing["lead_share"].get(name)
        numbers["lead_share_" + name] = share and share["value"]
        numbers["lead_share_%s_u" % name] = share and share["u"]
    for name in EVENTS:
        event = swing["events"].get(name)
        numbers[name + "_time_s"] = event and event["time_s"]
        numbers[name + "_time_u_s"] = event and event["u_s"]
    tempo = swing.get("tempo") or {}
    for name, key in (("backswing_s", "backswing_s"), ("downswing_s", "downswing_s"), ("tempo_ratio", "ratio")):
        numbers[name] = tempo.get(key)
    for part in ("vertical", "smoothness"):
        for key in {"vertical": ("max_bw", "min_bw"), "smoothness": ("sparc", "ldlj")}[part]:
            numbers[part + "_" + key] = (swing.get(part) or {}).get(key)
    for name in COP_POINTS:
        point = (swing.get("cop_m") or {}).get(name)
        for axis in range(2):
            numbers["cop_%s_%s_m" % (name, "xy"[axis])] = point and point[axis]
    return numbers


def as_spreadsheet(table, sidecar):
    told = json.loads(sidecar.read_text(encoding="utf-8"))
    columns = told["tableSchema"]["columns"]
    with open(table, newline="", encoding=told["dialect"]["encoding"]) as file:
        rows = list(csv.reader(file, delimiter=told["dialect"]["delimiter"], strict=True))
    assert rows[0] == [column["titles"] for column in columns], "the sidecar names other columns"
    point = locale.localeconv()["decimal_point"]

    def cell(text, column):
        if column["datatype"] == "string":
            return text
        if column["datatype"]["base"] == "datetime":    # a pattern of Unicode's UTS 35, as CSV on the Web asks
            return datetime.datetime.strptime(text, column["datatype"]["format"].replace("yyyy-MM-dd HH:mm:ss", "%Y-%m-%d %H:%M:%S"))
        # As the person would type it here.
        return locale.atof(text.replace(column["datatype"]["format"]["decimalChar"], point)) if text else None

    return [{column["name"]: cell(text, column) for text, column in zip(row, columns)} for row in rows[1:]], columns


def by_guess(table):
    """Columns and what they hold, with a comma between fields and a point in numbers."""
    with open(table, newline="", encoding="utf-8") as file:
        rows = list(csv.DictReader(file, strict=True))

    def numbers_of(name):
        try:
            return [float(row[name]) if row[name] else None for row in rows]
        except ValueError:
            return None

    return {name: numbers_of(name) for name in rows[0]}


def same(shown, number):
    """The table has nine digits."""
    return shown is None and number is None or number is not None and abs(shown - number) <= 5e-9 * abs(number)


def check(recording, folder):
    table = folder / "lesson.csv"
    run("report", recording, "--student", "=1+1, \"Robin\"", "--out", table)
    run("analyse", recording, "--json", folder / "lesson.json")
    swings = json.loads((folder / "lesson.json").read_text(encoding="utf-8"))["swings"]
    rows, columns = as_spreadsheet(table, folder / "lesson.csv-metadata.json")
    guessed = by_guess(table)
    assert swings and len(rows) == len(swings), (len(rows), len(swings))
    compared = 0
    for place, (row, swing) in enumerate(zip(rows, swings)):
        for name, number in expected(swing).items():
            assert same(row[name], number), (recording, place, name, row[name], number)
            known = guessed[name][place] if guessed[name] is not None else "text"
            assert same(known, number), (recording, place, name, known, number)
            compared += number is not None
    for column in columns:
        values = guessed[column["name"]]
        is_number = values is not None and any(value is not None for value in values)
        empty = values is not None and not is_number
        assert empty or is_number == ("decimalChar" in str(column["datatype"])), "%s is guessed wrongly" % column["name"]
        assert column["dc:description"], column
    assert rows[0]["started"].year > 2000 and rows[0]["started_zone"]
    assert compared > 20 * len(swings), compared
    return compared


def main():
    locale.setlocale(locale.LC_ALL, "")
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        run("import", recordings / "half_swings.csv", "--out", folder / "half_swings.h5")
        files = (folder / "half_swings.h5", recordings / "left_handed_plates.h5", recordings / "mat.h5")
        compared = sum(check(recording, folder) for recording in files)
    print("%d numbers are the same in table and JSON, decimal mark here \"%s\""
          % (compared, locale.localeconv()["decimal_point"]))


if __name__ == "__main__":
    main()
