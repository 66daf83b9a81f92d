"""Alters a figure that `summary` printed, for summary_second_opinion.py.

A second opinion that agrees with everything is none: one figure of each kind
is made false, and the opinion must say so.
"""
import re
from fractions import Fraction

from summary_read import text_of

NUMBERS = ["days_since_surgery", "difference", "to_go"] + [
    side + after for side in ("right", "left", "midline")
    for after in ("_start", "_end", "_passive_less_active")]


def more(number):
    return text_of(Fraction(number) + 1)


def rows(printed, column):
    """The first number of COLUMN one greater; False where there is none."""
    for row in printed:
        if row.get(column) and not re.search("[A-Z]", row[column]):
            row[column] = more(row[column])
            return True
    return False


def text(told, pattern):
    """The first group of PATTERN: a number one greater, a word another."""
    for session in told:
        for i, entry in [(None, session[1]), *enumerate(session[2])]:
            found = re.search(pattern, entry)
            if not found:
                continue
            old = found[1]
            new = more(old) if re.match(r"\d", old) else "other"
            entry = entry[:found.start(1)] + new + entry[found.end(1):]
            if i is None:
                session[1] = entry
            else:
                session[2][i] = entry
            return True
    return False


NUMBER = r"(\d+(?:\.\d+)?)"
TEXTS = {
    "total": rf"total active motion {NUMBER}",
    "passive total": rf"total passive motion {NUMBER}",
    "thumb total": rf"thumb: total active motion {NUMBER}",
    "percentage of 260": rf"; {NUMBER} % of 260",
    "percentage of the other side": rf"{NUMBER} % of the (?:right|left)",
    "1980 formula": rf"175 x 100 = {NUMBER} %",
    "band": r"bands: ASSH (\w+)",
    "band of the 1980 formula": r"bands: Strickland-Glogovac 1980 (\w+)",
    "band by degrees": r"by degrees (\w+)",
    "burn band": r"burn rating (\w+)",
    "combined range of the neck": rf"cervical.* combined range {NUMBER}",
    "combined range of the trunk": rf"thoracolumbar.* combined range {NUMBER}",
    "rotation arc": rf"rotation arc {NUMBER}",
    "difference in internal rotation":
        rf"internal rotation right .*: {NUMBER} less on",
    "its percentage": rf"internal rotation right .* that is {NUMBER} %",
    "its threshold": r"internal rotation right .*; (reaches) 20 or more",
    "difference of arcs": rf"rotation arc right .*: {NUMBER} less on",
    "recorded parts of laxity": rf"laxity, {NUMBER} of the 6",
    "laxity count": rf"of these parts {NUMBER} over",
    "laxity count at the limit": rf"limits, {NUMBER} where",
    "weeks": rf"surgery .*, {NUMBER} weeks?",
    "a missing total": r"(no total) active motion",
}
KINDS = (
    [("rows", c) for c in ("start", "end", "arc", "spread", "trials")] +
    [("json", c) for c in NUMBERS] +
    [("csv", c) for c in ("difference", "right_end", "to_go")])
