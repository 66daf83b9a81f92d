"""exact.py PROGRAM: asks the language server about invented notes and holds
its answers to the letter against what a person wants to see: the note after
each quick fix, what may be typed at a place, what a hover tells, to which
other reading a finding points, the summary, the outline, what is aligned."""

import subprocess
import sys

from broken import broken
from editor import URI, Editor, edited, place, span

program = sys.argv[1]
passed = failed = 0


def same(what, got, want):
    global passed, failed
    if got == want:
        passed += 1
    else:
        failed += 1
        print(f"FAILED: {what}\n  wanted {want!r}\n  got    {got!r}")


HEAD = """subject AB-1
involved right elbow, right shoulder, right hand
rater dk
instrument goniometer step 1
session 2026-05-04
"""

# --- quick fixes: the line, | where they are asked for; then what each makes
# of it. A cursor that is put somewhere is the | of the line that it makes.

ROOM = "Make room for the left side, to be measured"
OUT = "Take this acceptance out"
ACCEPT = "Accept missing-opposite here, and give the reason"
TOO = "Accept missing-opposite here too"
FIXES = [
    ("forearm supi|naton R A 0-30",
     [("Write 'supination'", "forearm supination R A 0-30")]),
    ("elbow flexion R A 8-131 stopped-by pi|an",
     [("Write 'pain'", "elbow flexion R A 8-131 stopped-by pain")]),
    ("elbow flexion R A 8-131 with gonio|mter",
     [("Write 'goniometer'", "elbow flexion R A 8-131 with goniometer")]),
    ("in|vloved right elbow", [("Write 'involved'", "involved right elbow")]),
    ("qqqq|qqqq right elbow", []),
    ("knee extension R A 10|.5",
     [("Write 'lacks 10.5': stops that far short of straight",
       "knee extension R A lacks 10.5"),
      ("Write 'hyper 10.5': goes that far beyond straight",
       "knee extension R A hyper 10.5")]),
    ("elbow flexion R A |8-131",
     [(ROOM, "elbow flexion R A 8-131  L A |"),
      (ACCEPT,
       "elbow flexion R A 8-131  # accept missing-opposite: |")]),
    ("elbow flexion R A |8-131 # as typed",
     [(ROOM, "elbow flexion R A 8-131  L A | # as typed"),
      (ACCEPT, "# accept missing-opposite: |\n"
       "elbow flexion R A 8-131 # as typed")]),
    ("  elbow flexion R A |8-131 # as typed",
     [(ROOM, "  elbow flexion R A 8-131  L A | # as typed"),
      (ACCEPT, "  # accept missing-opposite: |\n"
       "  elbow flexion R A 8-131 # as typed")]),
    ("elbow flexion R A |8-131 # accept missing-passive: invented",
     [(ROOM, "elbow flexion R A 8-131  L A | "
       "# accept missing-passive: invented"),
      (TOO, "elbow flexion R A 8-131 "
       "# accept missing-passive, missing-opposite: invented")]),
    # Prose that begins as an acceptance does, and none that names no rule.
    ("elbow flexion R A |8-131 # accept what she says",
     [(ROOM, "elbow flexion R A 8-131  L A | # accept what she says"),
      (ACCEPT, "# accept missing-opposite: |\n"
       "elbow flexion R A 8-131 # accept what she says")]),
    ("elbow flexion R A |8-131 # accept : x",
     [(ROOM, "elbow flexion R A 8-131  L A | # accept : x"),
      (ACCEPT, "# accept missing-opposite: |\n"
       "elbow flexion R A 8-131 # accept : x")]),
    ("index R A MCP 0-72 PIP |14-86",
     [(ROOM, "index R A MCP 0-72 PIP 14-86  L A PIP |"),
      (ACCEPT,
       "index R A MCP 0-72 PIP 14-86  # accept missing-opposite: |")]),
    ("hand-behind-back R |T7",
     [(ROOM, "hand-behind-back R T7  L |"),
      (ACCEPT, "hand-behind-back R T7  # accept missing-opposite: |")]),
    ("elbow flexion R A 8-131 # accept off-|scale: x",
     [(OUT, "elbow flexion R A 8-131")]),
    ("elbow flexion R A 8-131 # accept missing-opposite, off-|scale: x",
     [(OUT, "elbow flexion R A 8-131 # accept missing-opposite: x")]),
    ("elbow flexion R A 8-131 # accept off-|scale , missing-opposite: x",
     [(OUT, "elbow flexion R A 8-131 # accept missing-opposite: x")]),
    ("elbow flexion R A 8-131 # accept missing|-opposite",
     [("Give the reason",
       "elbow flexion R A 8-131 # accept missing-opposite: |")]),
    ("elbow flexion R A 8-131 # accept missing|-opposite:",
     [("Give the reason",
       "elbow flexion R A 8-131 # accept missing-opposite: |")]),
]


def after(text, action):
    """What the note is after the action, and the cursor in it."""
    text = edited(text, action["edit"]["changes"][URI])
    if "command" in action:
        where = action["command"]["arguments"]
        assert where[0] == URI
        text = edited(text, [{"newText": "|", "range": span(
            where[1], where[2], where[2])}])
    return text


def fixes(line):
    column = line.index("|")
    text = HEAD + line.replace("|", "") + "\n"
    editor = Editor(program, text)
    row = HEAD.count("\n")
    actions = editor.of_note("codeAction", range=span(row, column, column),
                             context={"diagnostics": []})
    unasked = editor.of_note("codeAction", range=span(row, column, column),
                             context={"diagnostics": [], "only": ["source"]})
    same("none of another kind: " + line, unasked, [])
    same("a server that ends well", editor.end(), 0)
    return [(a["title"], after(text, a)[len(HEAD):-1]) for a in actions]


for line, want in FIXES:
    same("quick fixes: " + line, fixes(line), want)

# --- what may be typed behind a line, and what replaces the word begun

WORDS = [
    ("subject ", ["AB-1"]),
    ("rater ", ["dk", "ms"]),
    ("elbow R A 0-130 by ", ["dk", "ms"]),
    ("session ", ["2026-07-01"]),
    ("goal right knee flexion active 70 by ", ["2026-07-01"]),
    ("sex ", ["F", "M", "X"]),
    ("mode ", ["A", "P", "AA", "PH"]),
    ("instrument ", ["goniometer", "inclinometer", "visual", "tape",
                     "ruler"]),
    ("require ", ["active", "passive", "opposite", "end-feel", "position",
                  "weight-bearing", "repetition"]),
    ("elbow R P 0-130 stopped-by ", ["pain", "stiffness", "weakness",
                                     "guarding", "apprehension", "swelling"]),
    ("elbow R P 0-130 pain ", ["at"]),
    ("elbow R A 0-130 # accep", []),
    ("elbow R A 0-130 # accept off-scale: ", []),
    ('elbow R A 0-130 "', []),
    ("# acceptable ", []),
    ("shoulder internal r", ["internal rotation"]),
]
# What is offered among other words, what goes first, what does not fit; the
# last of these below a line that could not be read.
AMONG = [
    ("elbow R P 0-140 ", ["soft", "hard"], ["firm", "empty"], []),
    ("elbow extension R P 0-3 ", ["hard"], ["soft", "firm"], []),
    ("elbow R A 0-130 ", [], ["pain", "by", "with"], ["soft", "hard"]),
    ("abduction R A ", [], ["shoulder", "hip", "index"], ["knee", "elbow"]),
    ("kapandji ", [], ["thumb"], ["index", "knee"]),
    ("index R A ", [], ["MCP", "PIP", "DIP", "tip-to-crease"], ["IP"]),
    ("position ", [], ["supine", "weight-bearing"], ["knee", "R"]),
    ("lumbar rotation ", [], ["R", "L"], ["knee-bent"]),
    ("lumbar flexion ", [], ["A", "P"], ["R", "L"]),
    ("ankle dorsiflexion ", [], ["knee-bent", "knee-straight"],
     ["abducted-90"]),
    ("elbow R A 0-1O4\n", ["knee"], ["session"], ["MCP", "flexion"]),
    ("elbow R A 0-1O4\nknee ", [], ["flexion", "extension"],
     ["abduction", "shoulder"]),
]
NOTE = HEAD + "elbow flexion R A 20-131 by ms\n"
editor, row = Editor(program, NOTE), NOTE.count("\n")
for line, want in WORDS:
    editor.tell("textDocument/didChange", {
        "textDocument": {"uri": URI, "version": 2},
        "contentChanges": [{"text": NOTE + line}]})
    items = editor.of_note(
        "completion", position=place(row, len(line)))["items"]
    same("what may stand behind: " + line,
         [item["label"] for item in items], want)
    begun = len(line) - len(
        "internal r" if "internal" in line else line.rpartition(" ")[2])
    same("what is replaced: " + line,
         {str(item["textEdit"]["range"]) for item in items},
         {str(span(row, begun, len(line)))} if items else set())
for line, first, more, none in AMONG:
    editor.tell("textDocument/didChange", {
        "textDocument": {"uri": URI, "version": 3},
        "contentChanges": [{"text": NOTE + line}]})
    ended, last = line.count("\n"), line.rpartition("\n")[2]
    items = editor.of_note("completion", position=place(
        row + ended, len(last)))["items"]
    words = {item["label"] for item in items}
    leading = {item["label"] for item in items
               if item["sortText"].startswith("0")}
    same("what goes first: " + line, leading & {*first, *more}, set(first))
    same("what else is offered: " + line, set(more) - words, set())
    same("what does not fit: " + line, words & set(none), set())
editor.tell("textDocument/didChange", {
    "textDocument": {"uri": URI, "version": 4},
    "contentChanges": [{"text": "x", "range": {"start": place(2, 0)}}]})
same("a change that cannot be read is told",
     editor.hear("window/showMessage"), {
         "type": 1, "message": "rangeline: note.range: the editor sent a "
         "change that cannot be read; close the note and open it again"})
editor.end()

# --- findings that point to another reading, hovers, summary, outline

NOTE = """# Invented example
# of two people
subject AB-1
involved right elbow
rater dk
instrument goniometer step 1
precaution right elbow flexion passive max 90 until 2026-06-15 "invented"
session 2026-05-04 "week 1"
elbow R A 8-131 P 6-119 firm/soft L A 0-146 P 0-150
elbow flexion R A 20-131
knee flexion R A 0-100 P 0-97
session 2026-05-18
elbow extension R A 0-3
elbow flexion R A 0-133 0-137 # accept off-scale: x

subject CD-2
involved none
session 2026-05-20
forearm pronation L fixed 20
hip flexion R A 100-90
index tip-to-crease R A 2 cm
"""
LINES = NOTE.split("\n")
editor = Editor(program, NOTE)
published = editor.hear("textDocument/publishDiagnostics")["diagnostics"]


def text_at(where):
    row, beg = where["start"]["line"], where["start"]["character"]
    return f"{row + 1}: " + LINES[row][beg:where["end"]["character"]]


same("what findings point to", [
    (d["code"], text_at(d["range"]), other["message"],
     text_at(other["location"]["range"]))
    for d in published for other in d.get("relatedInformation", [])], [
    ("precaution-exceeded", "9: P 6-119 firm/soft", "the precaution",
     "7: precaution"),
    ("axis-contradiction", "10: 20-131", "the reading that it contradicts",
     "9: 8-131"),
    ("repeated-reading", "10: 20-131", "here it stands already", "9: 8-131"),
    ("passive-just-below-active", "11: P 0-97",
     "the reading that it is held against", "11: 0-100")])
same("an idle acceptance is shown as not needed",
     [d["code"] for d in published if d.get("tags") == [1]],
     ["acceptance-unused"])

HOVERS = [
    (14, "0-133", "14: 0-133 0-137", """right elbow flexion, active

- measured: 0-135 (2), arc 135, spread of the trials 4
- last session: 20-131 on 2026-05-04; change +4
"""),
    (13, "0-3", "13: 0-3", """right elbow extension, active

- measured: 0-3, arc 3
- last session: lacks 8 on 2026-05-04; change +11
"""),
    (11, "0-97", "11: P 0-97", """right knee flexion, passive

- measured: 0-97, arc 97
- passive less active: -3
"""),
    (19, "fixed", "19: fixed 20",
     "left forearm pronation\n\n- measured: fixed 20\n"),
    (20, "100-90", "20: 100-90", """right hip flexion, active

- measured: 100-90, arc -10; doubtful, so it is held against nothing
"""),
    (21, "2 cm", "21: 2 cm", """right index tip-to-crease, active

- measured: 2 cm"""),
    (12, "session", "12: session", """session

begins a session: date, perhaps time and a label"""),
    (14, "elbow", "14: elbow", "elbow flexion\n\n"),
]
for line, word, where, want in HOVERS:
    column = LINES[line - 1].index(word)
    hover = editor.of_note("hover", position=place(line - 1, column))
    value = hover["contents"]["value"]
    same(f"hover at {line}: {word}", (text_at(hover["range"]),
         value[:len(want)]), (where, want))
    same("usual values name their source: " + word,
         [part for part in value.split("\n")
          if part.startswith("- usual:") and "(" not in part], [])
for line, column in (1, 4), (4, 12), (15, 0):
    same("no hover over prose, a header's words, nothing", editor.of_note(
        "hover", position=place(line - 1, column)), None)


def command(name, *arguments):
    return editor.ask("workspace/executeCommand", {
        "command": "rangeline." + name, "arguments": list(arguments)})


whole = subprocess.run(
    [program, "summary", "--today=2026-07-01", "-"], input=NOTE.encode(),
    stdout=subprocess.PIPE, timeout=20).stdout.decode()
same("the summary is that of the command", command("summary", URI), whole)
parts = [command("summary", URI, line) for line in (8, 11, 20)]
same("of one session", [part.split("\n")[0] for part in parts], [
    'AB-1, session 2026-05-04 "week 1"', "AB-1, session 2026-05-18",
    "CD-2, session 2026-05-20"])
same("with its readings and no other's",
     [[value in part for value in ("20-131", "0-135", "fixed 20")]
      for part in parts],
     [[i == k for k in range(3)] for i in range(3)])
same("none begins above the first session", command("summary", URI, 1), "")
same("the cursor is put where it is asked for",
     (command("showPlace", URI, 3, 4),
      editor.hear("window/showDocument")),
     (None, {"uri": URI, "takeFocus": True, "selection": span(3, 4, 4)}))
for wrong in ("showPlace", URI, 3), ("summary",), ("summary", URI + "x"), \
        ("nothing", URI):
    same(f"no such command or place: {wrong}", command(*wrong)["code"], -32602)


def tree(symbols):
    return [(s["name"], text_at(s["selectionRange"]),
             s["range"]["end"]["line"] + 1, tree(s["children"]))
            for s in symbols]


same("outline", tree(editor.of_note("documentSymbol")), [
    ("AB-1", "3: subject AB-1", 14, [
        ('2026-05-04 "week 1"', '8: session 2026-05-04 "week 1"', 11, [
            ("elbow", "9: " + LINES[8], 10, []),
            ("knee", "11: " + LINES[10], 11, [])]),
        ("2026-05-18", "12: session 2026-05-18", 14, [
            ("elbow", "13: elbow extension R A 0-3", 14, [])])]),
    ("CD-2", "16: subject CD-2", 21, [
        ("2026-05-20", "18: session 2026-05-20", 21, [
            ("forearm", "19: " + LINES[18], 19, []),
            ("hip", "20: " + LINES[19], 20, []),
            ("index", "21: " + LINES[20], 21, [])])])])
same("folds", [(f["startLine"], f["endLine"], f["kind"])
               for f in editor.of_note("foldingRange")],
     [(0, 1, "comment"), (2, 13, "region"), (7, 10, "region"),
      (8, 9, "region"), (11, 13, "region"), (12, 13, "region"),
      (15, 20, "region"), (17, 20, "region")])
everywhere = span(0, 0, 0) | {"end": place(99, 0)}
same("no hints unless they are wanted",
     editor.of_note("inlayHint", range=everywhere), None)
editor.tell("workspace/didChangeConfiguration", {
    "settings": {"rangeline": {"inlayHints": True, "tolerance": 30}}})
same("hints of the differences", sorted(
    (h["position"]["line"] + 1, h["label"])
    for h in editor.of_note("inlayHint", range=everywhere)), [
    (9, "extension, passive less active +2"),
    (9, "extension, passive less active 0"),
    (9, "extension, right less left -6"),
    (9, "extension, right less left -8"),
    (9, "flexion, passive less active +4"),
    (9, "flexion, passive less active -12"),
    (9, "flexion, right less left -15"), (9, "flexion, right less left -31"),
    (11, "passive less active -3")])
same("the editor is told to ask for hints again",
     editor.hear("workspace/inlayHint/refresh"), {})
wide = editor.hear("textDocument/publishDiagnostics")["diagnostics"]
same("a greater tolerance ends a contradiction",
     [[d["code"] for d in found].count("axis-contradiction")
      for found in (published, wide)], [1, 0])
editor.end()

editor = Editor(program, HEAD + "elbow R A 0-130\n"
                "session 2026-05-11\nindex tip-to-crease R A 2 cm\n")
same("usual values are spoken of where there are any",
     ["Usual values are" in command("summary", URI, line)
      for line in (5, 6)], [True, False])
editor.end()

# --- an editor that can do little

editor = Editor(program, NOTE, {})
same("outline of one level", [
    (s["name"], s["location"]["range"]["start"]["line"] + 1,
     s.get("containerName")) for s in editor.of_note("documentSymbol")], [
    ("AB-1", 3, None), ('2026-05-04 "week 1"', 8, "AB-1"),
    ("elbow", 9, '2026-05-04 "week 1"'), ("knee", 11, '2026-05-04 "week 1"'),
    ("2026-05-18", 12, "AB-1"), ("elbow", 13, "2026-05-18"),
    ("CD-2", 16, None), ("2026-05-20", 18, "CD-2"),
    ("forearm", 19, "2026-05-20"), ("hip", 20, "2026-05-20"),
    ("index", 21, "2026-05-20")])
same("nothing is shown that cannot be",
     (command("showPlace", URI, 3, 4),
      [m for m in editor.said if m["method"] == "window/showDocument"]),
     (None, []))
same("findings without what cannot be shown", [
    key for d in editor.hear("textDocument/publishDiagnostics")["diagnostics"]
    for key in d if key in ("relatedInformation", "tags")], [])
editor.end()

# --- what is aligned: all, a part, the line that was just ended

UNTIDY = HEAD + "elbow R AROM 8-131\nknee   R A 0-120\nhip flex R A 0-110\n"
tidy = subprocess.run([program, "tidy", "-"], input=UNTIDY.encode(),
                      stdout=subprocess.PIPE, timeout=20).stdout.decode()
editor = Editor(program, UNTIDY)
options = {"tabSize": 8, "insertSpaces": True}
were, are = (text.splitlines(keepends=True) for text in (UNTIDY, tidy))
same("aligned as tidy does", edited(UNTIDY, editor.of_note(
    "formatting", options=options)), tidy)
same("one line alone, of a selection that ends before the next",
     edited(UNTIDY, editor.of_note(
         "rangeFormatting", options=options,
         range={"start": place(5, 0), "end": place(6, 0)})),
     "".join(were[:5] + are[5:6] + were[6:]))
same("the line that was ended", edited(UNTIDY, editor.of_note(
    "onTypeFormatting", options=options, ch="\n", position=place(7, 0))),
    "".join(were[:6] + are[6:7] + were[7:]))
same("no other key aligns", editor.of_note(
    "onTypeFormatting", options=options, ch="x", position=place(7, 0)), None)
for method, more in ("rangeFormatting", {}), ("onTypeFormatting", {}), \
        ("codeAction", {"range": span(1, 2, 1)}), ("completion", {}), \
        ("semanticTokens/range", {}):
    same("parameters that are none: " + method,
         editor.of_note(method, **more)["code"], -32602)
editor.end()

# --- line ends of two bytes stay; colours; markdown

CRLF = "elbow R AROM 8-131 firm # x\r\n  by\r\n"
editor = Editor(program, CRLF, {"textDocument": {
    "hover": {"contentFormat": ["markdown"]}}})
same("aligned within its line end", editor.of_note("formatting", options={}),
     [{"range": span(0, 0, 27), "newText": "elbow  R A 8-131 firm  # x"}])
legend = editor.first["capabilities"]["semanticTokensProvider"]["legend"]


def colours(answer):
    """Each word and its colour, from the steps that the protocol counts."""
    lines, row, column, found = CRLF.split("\r\n"), 0, 0, []
    data = answer["data"]
    for i in range(0, len(data), 5):
        column = data[i + 1] + (0 if data[i] else column)
        row += data[i]
        found.append((lines[row][column:column + data[i + 2]],
                      legend["tokenTypes"][data[i + 3]]))
    return found


COLOURS = [
    ("elbow", "class"), ("R", "enumMember"), ("AROM", "enumMember"),
    ("8-131", "number"), ("firm", "modifier"), ("# x", "comment"),
    ("by", "keyword")]
same("colours", colours(editor.of_note("semanticTokens/full")), COLOURS)
same("colours of a line", colours(editor.of_note(
    "semanticTokens/range", range=span(1, 0, 1))), COLOURS[-1:])
same("a title in bold", editor.of_note("hover", position=place(0, 15))[
    "contents"]["value"].split("\n")[:3],
    ["**right elbow flexion, active**", "", "- measured: 8-131, arc 123"])

editor.end()

# --- messages that are none

broken(program, same)

# --- at every place of a line there is an answer, and it is of that place

LINE = 'ankle dorsiflexion knee-bent R P 5-12 firm pain 3 "x" # accept x: y'
editor, row = Editor(program, HEAD + LINE), HEAD.count("\n")
for column in range(len(LINE) + 1):
    here = place(row, column)
    hover = editor.of_note("hover", position=here)
    if hover:
        where = hover["range"]
        same(f"hover about {column}", where["start"]["line"] == row and
             where["start"]["character"] <= column <=
             where["end"]["character"], True)
    items = editor.of_note("completion", position=here)["items"]
    same(f"what is typed at {column} goes before the cursor", {
        True} | {item["textEdit"]["range"]["start"]["character"] <= column ==
                 item["textEdit"]["range"]["end"]["character"]
                 for item in items}, {True})
editor.end()

print(f"{passed} passed, {failed} failed")
sys.exit(failed != 0 or passed == 0)
