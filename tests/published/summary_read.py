"""Reads notes, rows and the text of `summary` for summary_second_opinion.py.

Of a note only what the figures need and the rows do not tell: where sessions
begin, the surgery in force, remarks. Figures stay the texts that they are.
"""
import csv
import datetime
import io
import json
import os
import re
import subprocess
import sys
from fractions import Fraction

NO_FIGURE = {"not-tested", "WNL", "WFL", "level"}
FOR_ALL_MODES = {"not-tested", "WNL", "WFL", "fixed"}
NOT_COMPARED = {"end-before-start", "impossible-angle"}


def run(program, command, notes):
    done = subprocess.run([program, *command, "--today", "2026-06-01", *notes],
                          capture_output=True, check=False)
    if done.returncode > 1:
        sys.exit(done.stderr.decode())
    return done.stdout.decode("utf-8")


def csv_rows(text):
    return list(csv.DictReader(io.StringIO(text, newline="")))


def json_rows(text):
    return [json.loads(line, parse_float=str, parse_int=str)
            for line in text.split("\n") if line]


def notes_below(paths):
    """Every note, folders in the byte order of their paths."""
    found = []
    for path in paths:
        if os.path.isdir(path):
            for folder, _, files in os.walk(path):
                found += [os.path.join(folder, name) for name in files
                          if name.endswith(".range")]
        else:
            found.append(path)
    return sorted(found, key=os.fsencode)


def text_of(value):
    """At most two decimals, half away from zero."""
    if value is None:
        return ""
    hundredths = int(abs(value) * 100 + Fraction(1, 2))
    whole, rest = divmod(hundredths, 100)
    text = f"{whole}.{rest:02}".rstrip("0").rstrip(".")
    return "-" + text if value < 0 and hundredths else text


# --- notes ------------------------------------------------------------------

class Headers:
    def __init__(self):
        self.surgery = None  # (day or None where unreadable, text)
        self.remarks = []


class Session:
    """From LINE of a file on; without a DATE where none was said."""

    def __init__(self, path, line, person, date):
        self.path, self.line, self.person, self.date = path, line, person, date
        self.own = Headers()
        self.readings = []
        self.heading, self.totals = "", []

    def surgery(self):
        return self.own.surgery or self.person.surgery

    def days(self):
        """Since the surgery; None where that cannot be told."""
        if not self.surgery() or None in (self.surgery()[0], self.date):
            return None
        days = (self.date - self.surgery()[0]).days
        return days if days >= 0 else None

    def tells_of(self, word):
        texts = self.person.remarks + self.own.remarks
        if self.surgery() and self.surgery()[0]:
            if self.date is None or self.surgery()[0] <= self.date:
                texts = texts + [self.surgery()[1]]
        return any(re.search(r"(?<![a-z])" + word, text.lower())
                   for text in texts)


def day_of(word):
    try:
        return datetime.date.fromisoformat(word)
    except ValueError:
        return None


def take_header(words, quoted, headers):
    if words[0] == "surgery" and not headers.surgery:
        headers.surgery = (day_of(words[1]) if len(words) > 1 else None,
                           quoted)
    elif words[0] == "remark":
        headers.remarks.append(quoted)


def begun_by_damage(words):
    """The headers that a line which cannot be read may have begun."""
    if len(words) == 1 and day_of(words[0]):
        return ["session"]
    return [m.group(1) for before, word in zip([""] + words, words)
            for m in [re.search("(subject|session)$", word)]
            if m and before not in ("by", "rater")]


def sessions_of(path):
    """Each place where readings may stand: a session, or before any."""
    with open(path, encoding="utf-8-sig", errors="replace",
              newline="") as file:
        lines = file.read().replace("\r\n", "\n").split("\n")
    person = Headers()
    places = [Session(path, 1, person, None)]
    inside, begun = None, False  # has this person a name or a session yet?
    for number, line in enumerate(lines, 1):
        bare = re.sub(r'("[^"]*")|(?:^|(?<=\s))#.*',
                      lambda m: m.group(1) or "", line)
        quoted = " ".join(re.findall(r'"([^"]*)"', bare))
        words = re.sub(r'"[^"]*"', " ", bare).lower().split()
        if not words:
            continue
        if words[0] == "subject":
            if begun:
                person = Headers()
            begun, inside = True, None
            places.append(Session(path, number, person, None))
        elif words[0] == "session":
            day = day_of(words[1]) if len(words) > 1 else None
            if "\r" in line:  # a control character: the line is not read
                day = None
            inside = Session(path, number, person, day)
            places.append(inside)
            begun = True
        else:
            take_header(words, quoted, inside.own if inside else person)
            # What stands on the line itself is of what is above it.
            for word in begun_by_damage(words):
                if word == "subject":
                    person, inside = Headers(), None
                place = Session(path, number + 1, person, None)
                inside = place if word == "session" else None
                places.append(place)
                begun = True
    return places


# --- rows -------------------------------------------------------------------

class Reading:
    def __init__(self, row):
        self.row, self.ends, self.starts = row, [], []
        self.doubtful = False

    def __getitem__(self, column):
        return self.row[column]

    def end(self):
        return sum(self.ends, Fraction(0)) / len(self.ends) \
            if self.ends else None

    def start(self):
        """None where a trial has none: a mean of the others says nothing."""
        return sum(self.starts, Fraction(0)) / len(self.starts) \
            if self.starts and len(self.starts) == len(self.ends) else None

    def figure(self):
        """None where it may not be compared."""
        return None if self.doubtful else self.end()


def readings_of(rows):
    """From rows of trials: trial 1, or none, begins a reading."""
    made = []
    for row in rows:
        if row["trial"] in ("", "1"):
            made.append(Reading(row))
        if row["kind"] in NO_FIGURE:
            continue
        made[-1].ends.append(Fraction(row["end"]))
        if row["start"]:
            made[-1].starts.append(Fraction(row["start"]))

    def axis(reading):
        return tuple(reading[c] for c in "file line joint side mode".split())
    doubtful = {axis(r) for r in made
                if NOT_COMPARED & set(r["findings"].split())}
    for reading in made:
        reading.doubtful = axis(reading) in doubtful
    return made


def place_readings(readings, notes):
    """The sessions that the program tells of, each with its readings."""
    sessions = []
    for path in notes:
        places = sessions_of(path)
        for reading in readings:
            if reading["file"] == path:
                line = int(reading["line"])
                [p for p in places if p.line <= line][-1].readings.append(
                    reading)
        kept = [p for p in places if p.date or p.readings]
        sessions += kept or places[:1]  # a note that says nothing
    return sessions


# --- the text ---------------------------------------------------------------

HEAD = re.compile(r"^\S.*, session (?:(\d{4}-\d\d-\d\d)\b.*|date not known)$")


def text_sessions(text):
    """Of each session its date, heading, and entries of its totals."""
    told, section = [], None
    for line in text.split("\n"):
        head = HEAD.match(line)
        if head:
            told.append([head.group(1), "", []])
            section = "heading"
        elif line and not line.startswith(" "):
            section = None
        elif not line and section == "heading":
            section = None
        elif re.match(r"  [a-z]", line) and section != "heading":
            section = line.strip()
        elif section == "totals" and line.startswith("    "):
            if line[4] != " ":
                told[-1][2].append(line.strip())
            else:
                told[-1][2][-1] += " " + line.strip()
        if section == "heading" and not head:
            told[-1][1] += line.strip() + " "
    return told
