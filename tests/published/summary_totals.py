"""Totals by the contract's words, for summary_second_opinion.py.

Flexion of MCP, PIP and DIP less what each lacks of extension, out of 260;
PIP and DIP alone out of 175; six directions of the spine; internal and
external rotation at abducted-90; limits of the laxity score. Whatever is
missing, doubled, doubtful or no number leaves no total. Bands come from the
published table beside this file.
"""
import csv
import os
import re
from fractions import Fraction

from summary_read import FOR_ALL_MODES, NO_FIGURE

DATA = os.path.join(os.path.dirname(__file__), "data")
FINGERS = ("index", "middle", "ring", "little")
MODES = ("active", "passive", "assisted", "place-and-hold")


def definitions():
    """Kind, name, parts (joint, motion, side of a direction, sign)."""
    made = []
    for digit, kind, joints in (
            [(f, "finger", ("MCP", "PIP", "DIP")) for f in FINGERS] +
            [("thumb", "thumb", ("MCP", "IP"))] +
            [(f, "two joints", ("PIP", "DIP")) for f in FINGERS]):
        made.append((kind, digit, [
            (f"{digit} {joint}", motion, "")
            for motion in ("flexion", "extension") for joint in joints]))
    for spine in ("cervical", "thoracolumbar"):
        made.append(("spine", spine, [(spine, m, s) for m, s in (
            ("flexion", ""), ("extension", ""), ("lateral flexion", "right"),
            ("lateral flexion", "left"), ("rotation", "right"),
            ("rotation", "left"))]))
    for joint in ("shoulder", "glenohumeral"):
        made.append(("rotation", joint, [
            (joint, "internal rotation", ""),
            (joint, "external rotation", "")]))
    return made


class Total:
    def __init__(self, kind, name, conditions, side, mode):
        self.kind, self.name, self.mode = kind, name, mode
        self.conditions, self.side = conditions, side
        self.parts = []     # as they are added; None: no figure
        self.involved = ""  # of the first part
        self.ends = []      # as measured

    def sum(self):
        return None if None in self.parts else sum(self.parts, Fraction(0))

    def told(self):
        """More than half of the parts of what is no mere formula."""
        have = sum(part is not None for part in self.parts)
        return self.sum() is not None or (
            self.kind != "two joints" and 2 * have > len(self.parts))


def figure_of(found, kind):
    if len(found) != 1 or found[0].doubtful or found[0]["kind"] in NO_FIGURE:
        return None
    if found[0]["kind"] == "fixed" and kind in ("spine", "rotation"):
        return None
    return found[0].end()


def fill(total, parts, readings):
    """READINGS by part; a reading for every mode fills in for the mode."""
    by_part = []
    for part in range(len(parts)):
        own = [r for p, r in readings if p == part and
               r["mode"] == total.mode]
        by_part.append(own or [r for p, r in readings if p == part and
                               r["mode"] == ""])
    ends = [figure_of(found, total.kind) for found in by_part]
    digit = total.kind in ("finger", "thumb", "two joints")
    half = len(parts) // 2
    for i in range(half if digit else 0):
        fixed = by_part[i] and by_part[i][0]["kind"] == "fixed"
        if fixed and ends[i] is not None and not by_part[half + i]:
            ends[half + i] = -ends[i]
    total.ends = ends
    total.parts = [
        min(end, Fraction(0)) if digit and i >= half and end is not None
        else end for i, end in enumerate(ends)]


def totals_of(session):
    made = []
    for kind, name, parts in definitions():
        groups = {}
        for reading in session.readings:
            for number, (joint, motion, side) in enumerate(parts):
                if ((reading["joint"], reading["motion"]) != (joint, motion) or
                        (side and reading["side"] != side) or
                        (kind == "rotation" and "abducted-90" not in
                         reading["setting"].split()) or
                        (reading["mode"] == "" and
                         reading["kind"] not in FOR_ALL_MODES)):
                    continue
                own = "" if kind == "spine" else reading["side"]
                key = (reading["setting"], reading["repetitions"],
                       reading["rater"])
                groups.setdefault((key, own), []).append((number, reading))
        for (key, side), found in groups.items():
            for mode in MODES:
                if all(r["mode"] != mode for _, r in found):
                    continue
                total = Total(kind, name, key, side, mode)
                fill(total, parts, found)
                total.involved = involved(session, parts[0][0], side)
                made.append(total)
    return made


def involved(session, joint, side):
    """What the rows say of that joint and side; "" where there is none."""
    for reading in session.readings:
        if reading["joint"] == joint and reading["side"] == side:
            return reading["involved"]
    return ""


def head(total, several_raters):
    """The words before the colon."""
    setting, repetitions, rater = total.conditions
    text = (total.side + " " if total.side else "") + total.name
    if total.kind not in ("finger", "thumb"):
        text += " " + total.mode
    text += f", {setting}" if setting else ""
    text += f", after {repetitions} reps" if repetitions else ""
    return text + (f", rater {rater}" if several_raters and rater else "")


def opposite(total, totals):
    for other in totals:
        if (other is not total and other.side != total.side and
                (other.kind, other.name, other.mode, other.conditions) ==
                (total.kind, total.name, total.mode, total.conditions)):
            return other
    return None


# --- bands ------------------------------------------------------------------

def table(name):
    with open(os.path.join(DATA, name), encoding="utf-8") as file:
        return list(csv.DictReader(
            (line for line in file if not line.startswith("#")),
            delimiter="\t", quoting=csv.QUOTE_NONE))


def limits(lower, upper):
    """Two bounds, each (figure, is it in the band); None: no bound."""
    def one(cell):
        return Fraction(cell.strip("<>")), cell[0] not in "<>"
    return one(lower) if lower else None, one(upper) if upper else None


# Printed name, name in the table, kind, percent of, word that a text must say,
# where the bounds stand.
SYSTEMS = (
    ("ASSH", "ASSH TAM", "finger", 260, None, "columns"),
    ("total motion table", "TAM table (eatonhand clf217)", "finger", None,
     None, "columns"),
    ("total motion table", "TAM table (eatonhand clf217)", "thumb", None,
     None, r"thumb (?:printed )?(<?\d+)(?:-(\d+))?"),
    ("burn rating", "TAM burn rating", "finger", None, "burn", "columns"),
    ("Strickland-Glogovac 1980", "Strickland-Glogovac 1980", "two joints",
     175, "tendon", "columns"),
    ("by degrees", "Strickland-Glogovac 1980", "two joints", None, "tendon",
     r"([<>]?\d+)(?:-(\d+))? deg"),
    ("Strickland adjusted 1985", "Strickland adjusted 1985", "two joints",
     175, "tendon", "columns"),
)


def bounds_in(row, where):
    if where == "columns":
        return limits(row["lower"], row["upper"])
    first, second = re.search(where, row["boundary_note"]).groups()
    if first.startswith("<"):
        return None, limits(None, first)[1]
    return limits(first, None)[0], limits(None, second)[1] if second else None


def band_of(value, rows, where):
    nowhere = {m for row in rows for m in re.findall(
        r"(\d+) itself unassigned", row["boundary_note"])}
    for row in rows:
        low, high = bounds_in(row, where)
        if where == "columns" and str(value) in nowhere:
            break
        if low and not (value > low[0] or (low[1] and value == low[0])):
            continue
        if high and not (value < high[0] or (high[1] and value == high[0])):
            continue
        return "full range" if row["grade"] == "normal" else row["grade"]
    return "in none"


def bands(total, session):
    """The words after "bands: ", or "" where none may be told."""
    if (total.mode != "active" or total.involved != "yes" or
            total.sum() is None):
        return ""
    rows, told = table("grading_bands.tsv"), []
    for printed, name, kind, of, word, where in SYSTEMS:
        if kind != total.kind or (word and not session.tells_of(word)):
            continue
        value = total.sum() * 100 / of if of else total.sum()
        of_system = [row for row in rows if row["system"] == name]
        text = f"{printed} {band_of(value, of_system, where)}"
        if of_system[0]["state"].startswith("from memory"):
            text += f" ({of_system[0]['state']})"
        told.append(text)
    return ", ".join(told)


# --- shoulder rotation, laxity ----------------------------------------------

LOSS = (("over 18-20", lambda v: v > 20),
        ("20 or more", lambda v: v >= 20),
        ("25 or more", lambda v: v >= 25))
THRESHOLDS = {
    ("internal rotation", "degrees"): LOSS,
    ("internal rotation", "percent"): (("over 20 %", lambda v: v > 20),),
    ("rotation arc", "degrees"): (("over 5", lambda v: v > 5),),
    ("rotation arc", "percent"): (("over 10 %", lambda v: v > 10),
                                  ("10 % or more", lambda v: v >= 10)),
}


def reached(what, unit, value):
    """Which thresholds are reached, lain within, not reached."""
    yes, within, no = [], [], []
    for words, over in THRESHOLDS[what, unit]:
        if over(value):
            yes.append(words)
        elif words == "over 18-20" and value >= 18:
            within.append("18-20")
        else:
            no.append(words)
    return yes, within, no


def laxity(session):
    """Recorded parts, over, at or over; None unless two joints are there."""
    ends = {}
    for joint, limit in (("little MCP", 90), ("elbow", 10), ("knee", 10)):
        for side in ("right", "left"):
            for mode in ("passive", "active")[:1 if limit == 90 else 2]:
                found = [r for r in session.readings
                         if r["joint"] == joint and r["side"] == side and
                         r["motion"] == "extension" and r["mode"] == mode and
                         r.ends]
                if not found:
                    continue
                if len(found) == 1 and not found[0].doubtful:
                    ends[joint, side] = (found[0].end(), limit)
                break
    if len({joint for joint, _ in ends}) < 2:
        return None
    return (len(ends), sum(e > limit for e, limit in ends.values()),
            sum(e >= limit for e, limit in ends.values()))
