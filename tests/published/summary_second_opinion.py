#!/usr/bin/env python3
"""Recomputes every figure of `summary` with other arithmetic.

Reads the trials of the notes (`convert --to csv --rows trial`) and makes of
them, by the words of the contract: means, differences of sides and of modes,
what is left to goals, days since surgery, totals, percentages, bands,
thresholds, laxity counts. Holds them against `convert --to csv`, `summary` as
JSON, as CSV and as text. Fractions throughout; nothing of the program's own
arithmetic is used. Where all agree it alters one figure of each kind, and each
must be noticed.

Usage: summary_second_opinion.py PROGRAM NOTE-OR-FOLDER...
"""
import copy
import re
import sys
from fractions import Fraction

sys.dont_write_bytecode = True  # nothing is left beside the tests

import summary_alter as alter
import summary_read as read
import summary_totals as totals
from summary_read import text_of

SIDES = {"right": "right", "left": "left", "midline": ""}
GROUP = "joint motion setting repetitions".split()
NUMBERS = alter.NUMBERS + [side + "_trials" for side in SIDES]


class Counts:
    def __init__(self, quiet=False):
        self.passed = self.failed = 0
        self.quiet = quiet

    def same(self, got, want, what):
        if got == want:
            self.passed += 1
            return
        self.failed += 1
        if not self.quiet:
            print(f"FAILED: {what}: {got!r}, not {want!r}")


class Told:
    """All that the program printed."""

    def __init__(self, program, notes):
        self.trials = read.csv_rows(read.run(
            program, ["convert", "--to", "csv", "--rows", "trial"], notes))
        self.rows = read.csv_rows(read.run(
            program, ["convert", "--to", "csv"], notes))
        self.json = read.json_rows(read.run(
            program, ["summary", "--format", "json"], notes))
        self.csv = read.csv_rows(read.run(
            program, ["summary", "--format", "csv"], notes))
        self.text = read.text_sessions(read.run(program, ["summary"], notes))


# --- rows of readings -------------------------------------------------------

def hold_rows(counts, readings, rows):
    counts.same(len(rows), len(readings), "rows of readings")
    for reading, row in zip(readings, rows):
        what = " ".join(row[c] for c in ("file", "line", "joint", "motion"))
        counts.same(row["trials"],
                    "1" if row["kind"] == "level" else str(len(reading.ends)),
                    what + ", trials")
        if not reading.ends:
            continue
        start, end = reading.start(), reading.end()
        spread = max(reading.ends) - min(reading.ends)
        for column, want in (
                ("end", end), ("start", start),
                ("arc", None if start is None else end - start),
                ("spread", spread if len(reading.ends) > 1 else None)):
            counts.same(row[column], text_of(want), f"{what}, {column}")


# --- rows of the summary ----------------------------------------------------

def index_of(sessions):
    """Readings by place and motion; and the session of each line."""
    found, where = {}, {}
    for session in sessions:
        for reading in session.readings:
            key = (reading["file"], reading["line"], reading["side"],
                   *(reading[c] for c in GROUP))
            found.setdefault(key, []).append(reading)
            where[reading["file"], reading["line"]] = session
    return found, where


def reading_of(found, used, row, column):
    """The reading in the columns of a side; one written twice in turn."""
    if not row.get(column + "_line"):
        return None
    key = (row["file"], row[column + "_line"], SIDES[column],
           *(row.get(c, "") for c in GROUP))
    mode = row.get("mode", "")
    own = [r for r in found.get(key, []) if r["mode"] == mode and
           all(r[c] == row.get(f"{column}_{c}", "")
               for c in ("rater", "position", "instrument"))]
    if not own:
        return next((r for r in found.get(key, []) if r["mode"] == "" and
                     r["kind"] in read.FOR_ALL_MODES), None)
    if row["row"] != "measured":
        return own[0]
    key = (*key, mode, *(own[0][c] for c in ("rater", "position")))
    used[key] = used.get(key, -1) + 1
    return own[used[key] % len(own)]


def direction(right, left):
    if left["involved"] == "yes" and right["involved"] != "yes":
        return "left less right"
    return "right less left"


MILLIMETRES = {"mm": 1, "cm": 10}


def unit_of(one, other):
    """The unit of both; mm where one is in cm; None where there is none."""
    if one["unit"] == other["unit"]:
        return one["unit"]
    lengths = one["unit"] in MILLIMETRES and other["unit"] in MILLIMETRES
    return "mm" if lengths else None


def in_unit(reading, unit):
    if reading["unit"] == unit:
        return reading.figure()
    return (reading.figure() * MILLIMETRES[reading["unit"]] /
            MILLIMETRES[unit])


def difference(one, other, unit=None):
    """ONE less OTHER where both are figures that have a unit in common."""
    if (one is None or other is None or unit_of(one, other) is None or
            "level" in (one["kind"], other["kind"]) or
            None in (one.figure(), other.figure())):
        return None
    unit = unit or unit_of(one, other)
    return in_unit(one, unit) - in_unit(other, unit)


def hold_sides(counts, row, right, left, what):
    want, way = None, ""
    if right and left:
        way = direction(right, left)
        want = difference(right, left)
        if want is not None and way == "left less right":
            want = -want
    counts.same(row.get("difference", ""), text_of(want), what + ", sides")
    counts.same(row.get("difference_unit", ""),
                "" if want is None else unit_of(right, left),
                what + ", unit of the difference")
    counts.same(row.get("difference_of", ""), way if want is not None else "",
                what + ", direction")


def hold_modes(counts, row, column, passive, session, what):
    got = row.get(column + "_passive_less_active", "")
    if passive is None or row.get("mode") != "passive":
        counts.same(got, "", what + ", modes")
        return
    alike = [r for r in session.readings if r["side"] == passive["side"] and
             all(r[c] == passive[c] for c in GROUP)]
    active = [r for r in alike if r["mode"] == "active"]
    unit = row.get("passive_less_active_unit")
    wants = {text_of(difference(passive, a, unit)) for a in active
             if passive["mode"] == "passive" and
             all(a[c] == passive[c] for c in ("position", "rater"))}
    alone = len(active) == 1 and sum(
        r["mode"] == "passive" for r in alike) == 1
    if wants and (alone or got):  # which of several is the program's choice
        counts.same(got in wants, True, f"{what}, modes {got} of {wants}")
        units = {unit_of(passive, a) for a in active}
        counts.same(not got or unit in units or
                    (unit == "mm" and units <= set(MILLIMETRES)),
                    True, f"{what}, unit of modes {unit} of {units}")
    elif not wants:
        counts.same(got, "", what + ", modes")


def hold_goal(counts, row, readings):
    if not any(readings) or "goal" not in row:
        return
    reading = next(r for r in readings if r)
    want = None
    if (reading["kind"] != "level" and reading.figure() is not None and
            unit_of(reading, {"unit": row.get("goal_unit", "")})
            is not None and
            (reading["motion"] != "schober" or reading.start() is None)):
        want = (Fraction(row["goal"]) -
                in_unit(reading, row.get("goal_unit", "")))
        if row["less_is_better"] == "yes":
            want = -want
    counts.same(row.get("to_go", ""), text_of(want),
                f"{row['file']} {row['line']}, to the goal")


def hold_measured(counts, row, readings, session, what):
    for column, reading in zip(SIDES, readings):
        number = reading is not None and reading["kind"] != "level"
        for after, want in (
                ("_end", reading.end() if number else None),
                ("_start", reading.start() if number else None)):
            counts.same(row.get(column + after, ""), text_of(want),
                        f"{what}, {column}{after}")
        if reading is not None:
            counts.same(row.get(column + "_doubtful"),
                        "yes" if reading.doubtful else "no",
                        f"{what}, {column} doubtful")
        hold_modes(counts, row, column, reading, session, what)
    hold_sides(counts, row, readings[0], readings[1], what)
    days = session.days()
    counts.same(row.get("days_since_surgery", ""),
                "" if days is None else str(days), what + ", days")


def hold_summary(counts, sessions, rows):
    found, where = index_of(sessions)
    used, seen, paired = {}, set(), set()
    for row in rows:
        if row["row"] not in ("measured", "goal"):
            continue
        what = " ".join(row.get(c, "") for c in (
            "file", "session", "joint", "motion", "mode", "row"))
        readings = [reading_of(found, used, row, c) for c in SIDES]
        for column, reading in zip(SIDES, readings):
            counts.same(reading is not None, bool(row.get(column + "_line")),
                        f"{what}, {column} reading known")
        if row["row"] == "goal":
            hold_goal(counts, row, readings)
            continue
        seen.update(id(r) for r in readings if r)
        if readings[0] and readings[1]:
            paired.update((id(r), row.get("mode", "")) for r in readings[:2])
        first = next(r for r in readings if r)
        hold_measured(counts, row, readings,
                      where[first["file"], first["line"]], what)
    hold_all_are_there(counts, sessions, seen, paired)


def hold_all_are_there(counts, sessions, seen, paired):
    """No reading is left out; one alone on each side has its comparison."""
    for session in sessions:
        groups = {}
        for r in session.readings:
            counts.same(id(r) in seen, True, f"{r['file']} {r['line']}, shown")
            key = (r["mode"], *(r[c] for c in GROUP))
            groups.setdefault(key, {}).setdefault(r["side"], []).append(r)
        for (mode, *_), sides in groups.items():
            one = [sides.get(s, []) for s in ("right", "left")]
            if mode and all(len(s) == 1 for s in one):
                counts.same(all((id(s[0]), mode) in paired for s in one), True,
                            f"{one[0][0]['file']} {one[0][0]['line']}, paired")


def hold_formats(counts, rows, json_rows):
    counts.same(len(rows), len(json_rows), "rows of CSV and JSON")
    for row, other in zip(rows, json_rows):
        for column in NUMBERS:
            if row[column] or column in other:
                counts.same(row[column], other.get(column, ""),
                            f"{row['file']} {row['line']}, {column} as CSV")


# --- the text ---------------------------------------------------------------

def percent(value, of):
    return text_of(value * 100 / of)


def digit_entry(total, session, all_totals):
    figure = total.sum()
    text = f"total {total.mode} motion {text_of(figure)} = {sum_of(total)}"
    if total.kind == "finger":
        text += f"; {percent(figure, 260)} % of 260"
    other = totals.opposite(total, all_totals)
    if (other and total.involved == "yes" and other.involved == "no" and
            other.sum()):
        text += f"; {percent(figure, other.sum())} % of the {other.side}"
    return text


def sum_of(total):
    """Flexions, less what is short of straight."""
    half = len(total.parts) // 2
    return " - ".join(
        [" + ".join(text_of(p) for p in total.parts[:half])] +
        [text_of(-p) for p in total.parts[half:]])


def named_sum(total, names):
    text = ""
    for name, part in zip(names, total.parts):
        sign = "- " if part < 0 else "+ " if text else ""
        text += f"{' ' if text else ''}{sign}{name} {text_of(abs(part))}"
    return text


SPINE = ("flexion", "extension", "right lateral flexion",
         "left lateral flexion", "right rotation", "left rotation")


def entry(total, session, all_totals):
    if total.kind in ("finger", "thumb"):
        text = digit_entry(total, session, all_totals)
    elif total.kind == "two joints":
        text = (f"two joints ({sum_of(total)}) / 175 x 100 = "
                f"{percent(total.sum(), 175)} %")
    elif total.kind == "spine":
        parts = {"cervical": (45, 45, 45, 45, 80, 80),
                 "thoracolumbar": (90, 30, 30, 30, 30, 30)}[total.name]
        return (f"combined range {text_of(total.sum())} = "
                f"{named_sum(total, SPINE)}; reference {sum(parts)} = " +
                " + ".join(str(p) for p in parts))
    else:
        return (f"rotation arc {text_of(total.sum())} = " + named_sum(
            total, ("internal rotation", "external rotation")))
    told = totals.bands(total, session)
    return text + (f"; bands: {told}" if told else "")


def signed(value):
    return "lacks " + text_of(-value) if value < 0 else text_of(value)


def thresholds(what, unit, value):
    text = ""
    for words, names in zip(("reaches", "lies within", "does not reach"),
                            totals.reached(what, unit, value)):
        text += f"; {words} {', '.join(names)}" if names else ""
    return text


def loss_entry(what, right, left):
    text = f"{what} right {signed(right)}, left {signed(left)}: "
    if right == left:
        return text + "the same"
    less, side, of = ((left - right, "right", left) if right < left else
                      (right - left, "left", right))
    text += (f"{text_of(less)} less on the {side}" +
             thresholds(what, "degrees", less))
    if of > 0:
        text += (f"; that is {percent(less, of)} %" +
                 thresholds(what, "percent", less * 100 / of))
    return text


def without_sources(text):
    """Whose thresholds they are is text; parentheses go, nested ones too."""
    while " less on the " in text and re.search(r" \([^()]*\)", text):
        text = re.sub(r" \([^()]*\)", "", text)
    return text


def expected_entries(session):
    """HEAD: ENTRY of what has a figure; the heads of what has none."""
    found = totals.totals_of(session)
    several = len({r["rater"] for r in session.readings if r["rater"]}) > 1
    entries, none = [], []
    for total in found:
        name = totals.head(total, several)
        if total.sum() is not None:
            entries.append(f"{name}: {entry(total, session, found)}")
        elif total.told():
            none.append(name)
        other = totals.opposite(total, found)
        if total.kind != "rotation" or total.side != "left" or not other:
            continue
        name = name[len("left "):]
        if None not in (other.ends[0], total.ends[0]):
            entries.append(f"{name}: " + loss_entry(
                "internal rotation", other.ends[0], total.ends[0]))
        if None not in (other.sum(), total.sum()):
            entries.append(f"{name}: " + loss_entry(
                "rotation arc", other.sum(), total.sum()))
    return entries, none


def hold_laxity(counts, session, told, what):
    want = totals.laxity(session)
    text = " ".join(told)
    parts = re.search(r"joint laxity, (\d+) of the 6 parts", text)
    over = re.search(r"of these parts (\d+) over their limits"
                     r"(?:, (\d+) where)?", text)
    got = None
    if parts and over:
        got = (int(parts[1]), int(over[1]), int(over[2] or over[1]))
    counts.same(got, want, what + ", laxity")


def hold_weeks(counts, session, heading, what):
    want, days = "", session.days()
    if days is not None:
        weeks, rest = divmod(days, 7)
        want = f"{weeks} week{'' if weeks == 1 else 's'}"
        want += f" {rest} day{'' if rest == 1 else 's'}" if rest else ""
    got = re.search(r"surgery \S+(?: \"[^\"]*\")?, (\d.*?) before", heading)
    counts.same(got[1] if got else "", want, what + ", weeks")


def hold_text(counts, sessions, told):
    counts.same(len(told), len(sessions), "sessions in the text")
    for session, (date, heading, entries) in zip(sessions, told):
        what = f"{session.path} {date}"
        counts.same(date, session.date and session.date.isoformat(), what)
        hold_weeks(counts, session, heading, what)
        hold_laxity(counts, session, entries, what)
        wanted, none = expected_entries(session)
        got = [e for e in entries if "laxity" not in e and
               not e.startswith("of these parts")]
        empty = [e.split(": no ")[0] for e in got if ": no " in e]
        counts.same(sorted(empty), sorted(none), what + ", no totals")
        got = [e for e in got if ": no " not in e]
        counts.same(len(got), len(wanted), what + ", number of totals")
        for one, other in zip(sorted(got), sorted(wanted)):
            counts.same(without_sources(one), without_sources(other), what)


# What was printed, and what holds it against sessions and readings.
PARTS = {
    "rows": lambda counts, sessions, readings, told:
        hold_rows(counts, readings, told.rows),
    "json": lambda counts, sessions, readings, told:
        hold_summary(counts, sessions, told.json),
    "csv": lambda counts, sessions, readings, told:
        hold_formats(counts, told.csv, told.json),
    "text": lambda counts, sessions, readings, told:
        hold_text(counts, sessions, told.text),
}


# --- does it notice? --------------------------------------------------------

def self_test(counts, told, sessions, readings):
    for kind in [*alter.KINDS, *alter.TEXTS]:
        part = kind[0] if isinstance(kind, tuple) else "text"
        altered = copy.copy(told)
        setattr(altered, part, copy.deepcopy(getattr(told, part)))
        if part == "text":
            there = alter.text(altered.text, alter.TEXTS[kind])
        else:
            there = alter.rows(getattr(altered, part), kind[1])
        quiet = Counts(quiet=True)
        PARTS[part](quiet, sessions, readings, altered)
        counts.same((there, quiet.failed > 0), (True, True),
                    f"there is such a figure, and altered it is noticed: "
                    f"{kind}")


def main():
    if len(sys.argv) < 3:
        sys.exit(__doc__.strip().splitlines()[-1])
    notes = read.notes_below(sys.argv[2:])
    told = Told(sys.argv[1], notes)
    readings = read.readings_of(told.trials)
    sessions = read.place_readings(readings, notes)
    counts = Counts()
    for part in PARTS.values():
        part(counts, sessions, readings, told)
    if counts.failed == 0:
        self_test(counts, told, sessions, readings)
    print(f"{counts.passed} passed, {counts.failed} failed")
    sys.exit(counts.failed > 0)


if __name__ == "__main__":
    main()
