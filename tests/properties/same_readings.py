"""Are the readings of a CSV those that were meant? CSV TRIALS-CSV EXPECTED

EXPECTED has a reading a line, cells parted by tabs: subject, session, joint,
motion, setting, position, side, mode, kind, unit, pain, end feel, then
START:END of each trial in tenths of the unit; of a level, the END is its name.
TRIALS-CSV has a row a trial. The means are made anew here, from exact
fractions; the CSV is read by Python's csv module. Prints some of the readings
that are in one of the two alone.
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
    """Its row, and those of its trials, which have their number at the end."""
    cells = line.rstrip("\n").split("\t")
    told, n = cells[:TRIALS], len(cells) - TRIALS
    trials = [trial.split(":") for trial in cells[TRIALS:]]
    level = cells[KIND] == "level"
    starts = [[int(start)] if start else [] for start, _ in trials]
    ends = [end if level else figure([int(end)]) for _, end in trials]
    mean = ends[0] if level else figure([int(end) for _, end in trials])
    one = (*told, figure(sum(starts, [])), mean, str(n))
    each = [(*told, figure(starts[i]), ends[i], str(n), str(i + 1))
            for i in range(n)]
    return one, each or [(*one, "")]


def rows_of(path, names):
    with open(path, newline="", encoding="utf-8") as file:
        return Counter(tuple(row[name] for name in names)
                       for row in csv.DictReader(file, strict=True))


def same(read, wanted):
    for says, alone in ("not meant", read - wanted), ("lost", wanted - read):
        for reading in islice(alone.elements(), 10):
            print(says, *reading, sep="\t")
    return read == wanted and bool(wanted)


with open(sys.argv[3], encoding="utf-8") as file:
    all_meant = [meant(line) for line in file]
all_same = same(rows_of(sys.argv[1], NAMES),
                Counter(one for one, _ in all_meant))
all_same &= same(rows_of(sys.argv[2], [*NAMES, "trial"]),
                 Counter(row for _, each in all_meant for row in each))
sys.exit(not all_same)
