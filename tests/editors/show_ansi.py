"""Prints how a note is coloured on a terminal: line, group, text, a run a line.

Usage: show_ansi.py FIRST <SCREEN ; SCREEN is text with colour sequences, and
its line FIRST is the first line of the note.
"""
import re
import sys

# The colours of nano/rangeline.nanorc; what is bright there is bold here.
GROUPS = {"35": "feel", "33": "word", "32": "joint", "36": "motion",
          "34": "date", "1;36": "side", "1;34": "number", "1;32": "code",
          "1;33": "header", "1;35": "text", "1;30": "comment",
          "1;37": "accept"}


def main():
    lines = sys.stdin.read().split("\n")[int(sys.argv[1]) - 1:]
    bold, colour, red = False, "39", False
    for number, line in enumerate(lines, 1):
        for piece in re.split("(\x1b\\[[0-9;]*m)", line):
            codes = re.fullmatch("\x1b\\[([0-9;]*)m", piece)
            if not codes:
                group = GROUPS.get(("1;" if bold else "") + colour, "")
                print("%d\t%s\t%s" % (
                    number, "error" if red else group, piece))
                continue
            for code in codes[1].split(";"):
                if code in ("", "0"):
                    bold, colour, red = False, "39", False
                elif code == "1":
                    bold = True
                elif code in ("41", "49"):
                    red = code == "41"
                else:
                    colour = code


main()
