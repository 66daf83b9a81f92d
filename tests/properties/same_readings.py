"""Are the readings of a CSV those that were meant? CSV EXPECTED

EXPECTED has a reading a line, cells parted by tabs: subject, session, joint,
motion, setting, position, side, mode, kind, unit, pain, end feel, then
START:END of each trial in tenths of the unit; of a level, the END is its name.
The means are made anew here, from exact fractions; the CSV is read by Python's
csv module. Prints some of the readings that are in one of the two alone.
"""
import csv
import sys
from collections import Counter
from fractions import Fraction
from itertools import islice

NAMES = ("subject session joint motion setting position side mode kind unit "
         "pain end_feel start end trials").split()
KIND = NAMES.index("kind")
TRIALS = NAMES.index("start")


def figure(tenths):
    """The mean as the CSV has it: two decimals, halves away from zero."""
    if not tenths:
        return ""
    hundredths = Fraction(10 * sum(tenths), len(tenths))
    whole = int(abs(hundredths) + Fraction(1, 2))
    text = f"{whole // 100}.{whole % 100:02}".rstrip("0").rstrip(".")
    return "-" + text if hundredths < 0 and whole else text


def meant(line):
    cells = line.rstrip("\n").split("\t")
    trials = [trial.split(":") for trial in cells[TRIALS:]]
    starts = [int(start) for start, _ in trials if start]
    if cells[KIND] == "level":
        end = trials[0][1]
    else:
        end = figure([int(end) for _, end in trials])
    return (*cells[:TRIALS], figure(starts), end, str(len(trials)))


with open(sys.argv[1], newline="", encoding="utf-8") as file:
    read = Counter(tuple(row[name] for name in NAMES)
                   for row in csv.DictReader(file, strict=True))
with open(sys.argv[2], encoding="utf-8") as file:
    wanted = Counter(meant(line) for line in file)
for says, alone in ("not meant", read - wanted), ("lost", wanted - read):
    for reading in islice(alone.elements(), 10):
        print(says, *reading, sep="\t")
sys.exit(read != wanted or not wanted)
