"""Prints how a note is coloured, from HTML with a colour for each group.

Usage: show_html.py <HTML ; `show_html.py theme` prints the theme.
"""
import html
import json
import re
import sys

GROUPS = """Comment Accept Text Error Header Code Date Number Side Mode Joint
Motion Position Feel Outcome Word""".split()


def theme():
    """A theme with a colour of its own for every group."""
    plain = {"text-color": "#ffffff", "selected-text-color": "#ffffff"}
    styles = """Normal Keyword Function Variable ControlFlow Operator BuiltIn
    Extension Preprocessor Attribute Char SpecialChar String VerbatimString
    SpecialString Import DataType DecVal BaseN Float Constant Comment
    Documentation Annotation CommentVar RegionMarker Information Warning Alert
    Error Others""".split()
    return {
        "metadata": {"name": "Each", "revision": 1},
        "text-styles": {style: plain for style in styles},
        "custom-styles": {"Rangeline": {
            group: {"text-color": "#0000%02x" % (i + 1),
                    "selected-text-color": "#0000%02x" % (i + 1)}
            for i, group in enumerate(GROUPS)}},
        "editor-colors": {"BackgroundColor": "#000000"},
    }


def main():
    if sys.argv[1:] == ["theme"]:
        json.dump(theme(), sys.stdout)
        return
    text = sys.stdin.read()
    body = text[text.index("<pre>\n") + 6:text.rindex("</pre>")]
    for number, line in enumerate(body.split("\n"), 1):
        group = ""
        for piece in re.split(r"(<[^>]*>)", line):
            if piece == "</span>":
                group = ""
            elif piece.startswith("<span"):
                colour = re.search(r"color:#0000(..)", piece)
                group = GROUPS[int(colour[1], 16) - 1] if colour else ""
            elif piece and not piece.startswith("<"):
                print("%d\t%s\t%s" % (number, group, html.unescape(piece)))


main()
