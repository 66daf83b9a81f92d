"""Types of the cells of a flat OpenDocument sheet that came from a CSV.

Usage: read_sheet.py CSV FODS [COLUMN...]. Prints what is wrong, a cell a line:
a formula, a number that is no number there, a text that became something else.
With columns only theirs are looked at, for values as they were measured: a
range may not become a day. Where no range is among them, that is wrong too.
"""
import csv
import re
import sys
import xml.etree.ElementTree as xml

TABLE = "{urn:oasis:names:tc:opendocument:xmlns:table:1.0}"
OFFICE = "{urn:oasis:names:tc:opendocument:xmlns:office:1.0}"
NUMBER = re.compile(r"-?(0|[1-9]\d*)(\.\d{1,2})?\Z")
NUMBERS = set("age start end arc trials trial spread pain pain_onset "
              "repetitions line".split())
KINDS = {"session": "date", "time": "time"}


def cells(row):
    """The cells of a row, repeated ones one by one."""
    for cell in row.findall(TABLE + "table-cell"):
        times = int(cell.get(TABLE + "number-columns-repeated", "1"))
        yield from [cell] * min(times, 64)


def rows(sheet):
    for row in sheet.iter(TABLE + "table-row"):
        times = int(row.get(TABLE + "number-rows-repeated", "1"))
        yield from [row] * min(times, 64)


with open(sys.argv[1], newline="", encoding="utf-8") as file:
    written = list(csv.reader(file, strict=True))
sheet = list(rows(xml.parse(sys.argv[2])))
names = written[0]
values = sys.argv[3:]
ranges = 0
for number, (row, read) in enumerate(zip(written, sheet), 1):
    for name, text, cell in zip(names, row, cells(read)):
        if values and name not in values:
            continue
        ranges += " to " in text
        kind = cell.get(OFFICE + "value-type", "")
        where = f"row {number}, {name} '{text}'"
        if cell.get(TABLE + "formula") is not None:
            print(f"{where}: is a formula")
        elif not text:
            if kind:
                print(f"{where}: is a {kind}")
        elif number == 1:
            continue
        elif name in NUMBERS and NUMBER.match(text):
            value = cell.get(OFFICE + "value", "")
            if kind != "float" or float(value) != float(text):
                print(f"{where}: is a {kind} {value}")
        elif name in NUMBERS or NUMBER.match(text):
            continue  # a level stands in `end`; a code may be of digits alone
        elif kind != KINDS.get(name, "string"):
            print(f"{where}: is a {kind}")
if len(sheet) < len(written):
    print(f"{len(sheet)} rows of {len(written)}")
if values and not ranges:
    print("no range in " + " ".join(values))
