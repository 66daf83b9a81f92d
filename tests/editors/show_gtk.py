"""Prints how a note is coloured by GtkSourceView: line, style, text.

Usage: show_gtk.py FOLDER-OF-LANG NOTE... ; with several notes, each begins
with a line `== NOTE`. Needs a display.
"""
import os
import sys
import tempfile

import gi

gi.require_version("Gtk", "3.0")
gi.require_version("GtkSource", "4")
from gi.repository import Gtk, GtkSource  # noqa: E402

GROUPS = """comment accept text error header code date number side mode joint
motion position feel outcome word""".split()

# A colour of its own for every style, so that the tags tell the styles apart.
SCHEME = """<style-scheme id="each" name="Each" version="1.0">%s
</style-scheme>""" % "".join(
    '\n<style name="rangeline:%s" foreground="#0000%02x"/>' % (g, i + 1)
    for i, g in enumerate(GROUPS))


def group_at(where):
    """The style in force: of nested ones the innermost has priority."""
    found = [t for t in where.get_tags() if t.props.foreground_set]
    if not found:
        return ""
    top = max(found, key=lambda t: t.get_priority())
    return GROUPS[round(top.props.foreground_rgba.blue * 255) - 1]


def show(path, language, scheme):
    buffer = GtkSource.Buffer.new_with_language(language)
    buffer.set_style_scheme(scheme)
    with open(path, encoding="utf-8-sig", newline="") as note:
        buffer.set_text(note.read())
    buffer.ensure_highlight(*buffer.get_bounds())
    for number in range(buffer.get_line_count()):
        at = buffer.get_iter_at_line(number)
        run, group = "", None
        while not at.ends_line():
            here = group_at(at)
            if here != group and run:
                print("%d\t%s\t%s" % (number + 1, group, run))
                run = ""
            run, group = run + at.get_char(), here
            at.forward_char()
        if run:
            print("%d\t%s\t%s" % (number + 1, group, run))


def main():
    folder, notes = sys.argv[1], sys.argv[2:]
    if not Gtk.init_check(None)[0]:
        sys.exit("no display")
    languages = GtkSource.LanguageManager()
    languages.set_search_path(languages.get_search_path() + [folder])
    language = languages.guess_language("note.range", None)
    if language is None:
        sys.exit("no language for note.range")
    with tempfile.TemporaryDirectory() as schemes:
        with open(os.path.join(schemes, "each.xml"), "w") as scheme:
            scheme.write(SCHEME)
        manager = GtkSource.StyleSchemeManager()
        manager.set_search_path([schemes])
        for note in notes:
            print("== " + note)
            show(note, language, manager.get_scheme("each"))


main()
