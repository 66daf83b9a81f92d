#!/usr/bin/env python3
"""Recomputes the changes and slopes of `progress` with other arithmetic.

Reads the trials of the notes (`convert --to csv --rows trial`), brings them
into series by the rule of the manual, and holds differences (fractions),
slopes (statistics) and their intervals (Student's t integrated here) against
`progress --format csv`. Nothing of the program's own arithmetic is used. Two
session lines in a row that say the same are one session to it, since rows
cannot tell them apart.

Usage: progress_second_opinion.py PROGRAM NOTE-OR-FOLDER...
"""
import csv
import datetime
import io
import math
import statistics
import subprocess
import sys
from fractions import Fraction

NOT_COMPARED = {"end-before-start", "impossible-angle"}
SERIES = ("subject joint motion setting position side mode "
          "repetitions").split()
ANY_POSITION = [column for column in SERIES if column != "position"]
EITHER_SIDE = [column for column in ANY_POSITION if column != "side"]
READING = ["file", "line", *SERIES, "rater", "instrument"]
AXIS = "file line joint side mode".split()


def rows(program, command, notes):
    done = subprocess.run([program, *command, "--today", "2026-06-01", *notes],
                          capture_output=True, check=False)
    if done.returncode > 1:
        sys.exit(done.stderr.decode())
    text = done.stdout.decode("utf-8")
    return list(csv.DictReader(io.StringIO(text, newline="")))


def readings(trials):
    """Trial rows to readings: trial 1 (or none) begins one."""
    made = []
    for row in trials:
        if row["trial"] in ("", "1"):
            row["ends"], row["starts"] = [], []
            made.append(row)
        if row["kind"] in ("not-tested", "WNL", "WFL", "level"):
            continue
        made[-1]["ends"].append(Fraction(row["end"]))
        if row["start"]:
            made[-1]["starts"].append(Fraction(row["start"]))
    return made


def mean(figures):
    return sum(figures, Fraction(0)) / len(figures)


def figure(reading):
    """In degrees, points or millimetres."""
    value = mean(reading["ends"])
    if reading["motion"] == "schober" and reading["starts"]:
        value -= mean(reading["starts"])
    return value * 10 if reading["unit"] == "cm" else value


def cells(row, columns):
    return tuple(row[column] for column in columns)


def doubtful(made):
    """Where a reading is left out; both of a hinge's, written as one."""
    return {cells(reading, AXIS) for reading in made
            if NOT_COMPARED & set(reading["findings"].split())}


def parted(made):
    """Of what one session measures one side in two positions."""
    seen, apart = {}, set()
    for reading in made:
        key = (reading["_session"], *cells(reading, ANY_POSITION))
        if seen.setdefault(key, reading["position"]) != reading["position"]:
            apart.add(cells(reading, EITHER_SIDE))
    return apart


def pick(candidates, reading):
    """The same rater and instrument, else the rater, else any: the last."""
    def alike(other):
        return (other["rater"] == reading["rater"],
                other["rater"] == reading["rater"] and
                other["instrument"] == reading["instrument"])
    best = max(alike(other) for other in candidates)
    return [other for other in candidates if alike(other) == best][-1]


def sessions_of(series):
    """The readings of a series, session by session, as they came about."""
    found = {}
    for reading in series:
        key = (reading["session"], reading["time"], reading["_session"])
        found.setdefault(key, []).append(reading)
    return [found[key] for key in sorted(found)]


def week(reading):
    day = datetime.date.fromisoformat(reading["session"]).toordinal()
    minutes = 0
    if reading["time"]:
        hours, rest = reading["time"].split(":")
        minutes = int(hours) * 60 + int(rest)
    return Fraction(day * 1440 + minutes, 7 * 1440)


def t_quantile(degrees):
    """Where Student's t leaves 2.5 % above: Simpson's rule and bisection."""
    scale = math.exp(math.lgamma((degrees + 1) / 2) -
                     math.lgamma(degrees / 2)) / math.sqrt(degrees * math.pi)

    def density(t):
        return scale * (1 + t * t / degrees) ** (-(degrees + 1) / 2)

    def inside(t, parts=2000):
        step = t / parts
        inner = sum((4 if i % 2 else 2) * density(i * step)
                    for i in range(1, parts))
        return (density(0) + inner + density(t)) * step / 3

    low, high = 0.0, 100.0
    for _ in range(60):
        middle = (low + high) / 2
        if inside(middle) < 0.475:
            low = middle
        else:
            high = middle
    return low


def trend(points):
    xs = [week(p) for p in points]
    ys = [figure(p) for p in points]
    slope, intercept = statistics.linear_regression(
        [float(x - xs[0]) for x in xs], [float(y) for y in ys])
    left = sum((float(y) - intercept - slope * float(x - xs[0])) ** 2
               for x, y in zip(xs, ys))
    spread = float(sum((x - mean(xs)) ** 2 for x in xs))
    half = (t_quantile(len(points) - 2) *
            math.sqrt(left / (len(points) - 2) / spread))
    return slope, slope - half, slope + half


def expected_trend(sessions, reading):
    """Of readings like this one, if it is the last of them; else None."""
    if reading["motion"] == "opposition" or reading not in sessions[-1]:
        return None
    named = [r["position"] for session in sessions for r in session
             if r["position"]]
    like = [[r for r in session if r["rater"] == reading["rater"] and
             r["instrument"] == reading["instrument"] and
             r["position"] in ("", *named[-1:])]
            for session in sessions]
    points = [session[-1] for session in like if session]
    if (not points or points[-1] is not reading or len(points) < 4 or
            len({p["session"] for p in points}) < 3):
        return None
    return trend(points)


class Counts:
    passed = failed = 0

    def same(self, got, want, what):
        if got == "" or want is None:
            good = got == "" and want is None
        else:
            good = abs(float(got) - float(want)) <= 0.005 + 1e-9
        if good:
            self.passed += 1
        else:
            self.failed += 1
            print(f"FAILED: {what}: {got!r}, not {want}")


def hold(counts, sessions, told):
    for i, session in enumerate(sessions):
        for reading in session:
            row = told[cells(reading, READING)].pop(0)
            what = " ".join((row["file"], row["line"], row["motion"],
                             row["side"], row["mode"]))
            unit = 10 if row["unit"] == "cm" else 1
            counts.same(row["value"], figure(reading) / unit, what)
            for column, earlier in (("since_first", sessions[0]),
                                    ("since_previous", sessions[i - 1])):
                want = None
                if i:
                    want = (figure(reading) -
                            figure(pick(earlier, reading))) / unit
                counts.same(row[column], want, f"{what}, {column}")
            slopes = expected_trend(sessions, reading) or (None,) * 3
            for column, want in zip(
                    ("trend_per_week", "trend_low", "trend_high"), slopes):
                counts.same(row[column],
                            None if want is None else want / unit,
                            f"{what}, {column}")


def main():
    if len(sys.argv) < 3:
        sys.exit(__doc__.strip().splitlines()[-1])
    program, notes = sys.argv[1], sys.argv[2:]
    series, compared, number, before = {}, [], 0, None
    made = readings(rows(
        program, ["convert", "--to", "csv", "--rows", "trial"], notes))
    left_out = doubtful(made)
    for reading in made:
        place = cells(reading, ("file", "subject", "session", "time", "label"))
        number += place != before
        before = place
        reading["_session"] = number
        if (reading["ends"] and reading["session"] and reading["subject"] and
                cells(reading, AXIS) not in left_out):
            compared.append(reading)
    apart = parted(compared)
    for reading in compared:
        columns = (SERIES if cells(reading, EITHER_SIDE) in apart
                   else ANY_POSITION)
        series.setdefault(cells(reading, columns), []).append(reading)
    told = {}
    for row in rows(program, ["progress", "--format", "csv"], notes):
        if row["value"] and row["subject"]:
            told.setdefault(cells(row, READING), []).append(row)
    counts = Counts()
    for readings_of_one in series.values():
        hold(counts, sessions_of(readings_of_one), told)
    left = sum(len(left) for left in told.values())
    counts.same(str(left), 0, "rows that nobody expected")
    print(f"{counts.passed} passed, {counts.failed} failed")
    sys.exit(counts.failed > 0)


if __name__ == "__main__":
    main()
