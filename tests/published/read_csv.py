"""Cells of a CSV as Python's csv module reads it: ROW:COLUMN<tab>CELL a line.

Strict: a quote out of place is an error. Rows and columns count from 1; in a
cell a backslash, tab, LF and CR are written \\\\ \\t \\n \\r.
"""
import csv
import sys

ESCAPES = str.maketrans({"\\": "\\\\", "\t": "\\t", "\n": "\\n", "\r": "\\r"})

with open(sys.argv[1], newline="", encoding="utf-8") as file:
    for number, row in enumerate(csv.reader(file, strict=True), 1):
        for column, cell in enumerate(row, 1):
            print(f"{number}:{column}\t{cell.translate(ESCAPES)}")
