"""broken.py: what the language server makes of messages and bytes that no
sound editor sends: what it answers, what standard error says, with which
status it ends. Used by exact.py."""

import json
import subprocess

from editor import URI, Editor, place

PASSED_OVER = "a message was passed over: "
SHOWN = {"type": 1, "message": "rangeline: the editor sent a message that "
         "cannot be read, so what is shown may not fit the note; save the "
         "note as UTF-8, close it and open it again"}
CUT = ("the editor went away in the middle of a message, which was not "
       "read")


def frame(body):
    return b"Content-Length: %d\r\n\r\n%s" % (len(body), body)


def message(method, params, **more):
    return frame(json.dumps({"jsonrpc": "2.0", "method": method,
                             "params": params, **more}).encode())


OPENING = message("initialize", {"capabilities": {}}, id=1)
ENDING = message("shutdown", None, id=2) + message("exit", None)


def opened(text):
    """A note whose TEXT stands in JSON as it is given."""
    return frame(b'{"jsonrpc":"2.0","method":"textDocument/didOpen","params":'
                 b'{"textDocument":{"uri":"%s","version":1,"text":"%s"}}}'
                 % (URI.encode(), text))


def heard(out):
    while out:
        head, out = out.split(b"\r\n\r\n", 1)
        size = int(head.split(b":")[1])
        yield json.loads(out[:size])
        out = out[size:]


def run(program, data):
    """The status, what it sent of each method, what standard error says."""
    done = subprocess.run([program, "language-server", "--today=2026-07-01"],
                          input=data, capture_output=True, timeout=60)
    sent = {}
    for one in heard(done.stdout):
        sent.setdefault(one.get("method"), []).append(one)
    return done.returncode, sent, done.stderr.decode()


def line(text):
    return f"rangeline: language-server: {text}\n"


# The text as JSON has it; the first finding: its rule, where it is.
ODD = [
    (rb"knee \u0000", "encoding", (5, 6)),
    (rb"\ud800 knee", "unknown-word", (0, 1)),
    (rb'remark \"\ud83e \udd00\" knee', "syntax", (13, 17)),
    # A pair is one sign of two units.
    (rb'remark \"\ud83e\uddb4\" knee', "syntax", (12, 16)),
]

TWO = b"Content-Length: %d\r\nContent-Length: %d\r\n\r\n{}"
LOST = [
    (TWO % (2, 1), "its header says two lengths that differ"),
    (TWO % (1, 2), "its header says two lengths that differ"),
    (b"Content-Length: x\r\n\r\n",
     "its header says a length that is no number"),
    (b"Content-Type: x\r\n\r\n", "its header says no length"),
    (b"rubbish\r\n\r\n", "a line of its header is none"),
    (frame(b"{"), "it cannot be read as JSON in UTF-8"),
    (opened(b"knee \xff"), "it cannot be read as JSON in UTF-8"),
]


def findings(sent):
    """Those published, where no `exit` waited before there was time."""
    return [(one["code"], one["range"])
            for note in sent.get("textDocument/publishDiagnostics", [])
            for one in note["params"]["diagnostics"]]


def notes(program, same):
    for text, rule, (beg, end) in ODD:
        status, sent, said = run(program, OPENING + opened(text))
        same(f"findings of {text}", findings(sent)[:1],
             [(rule, {"start": place(0, beg), "end": place(0, end)})])
        same(f"and nothing else of {text}",
             (status, said, "window/showMessage" in sent), (1, "", False))
    for item in {"uri": URI}, {"text": "knee"}, {"uri": URI, "text": 7}:
        told = run(program, OPENING + message("textDocument/didOpen", {
            "textDocument": item}) + ENDING)[1]["window/showMessage"]
        same(f"opened with {item} alone", [
            one["params"]["message"].startswith(
                "rangeline: " + "note.range: " * ("uri" in item)
                + "the editor opened the note without") for one in told],
            [True])


def lost(program, same):
    for data, why in LOST:
        status, sent, said = run(
            program, OPENING + data + opened(ODD[0][0]))
        told = PASSED_OVER + why
        same(f"the editor and the user are told: {data}", (
            sent[None][1]["error"],
            [one["params"] for one in sent.get("window/showMessage", [])],
            [one["params"] for one in sent.get("window/logMessage", [])]),
            ({"code": -32700, "message": told}, [SHOWN],
             [{"type": 1, "message": "rangeline: " + told}]))
        same(f"standard error is: {data}", said, line(told))
        same(f"it goes on behind: {data}", (
            status, len(sent[None]), [rule for rule, _ in findings(sent)]),
            (1, 2, ["encoding"]))
    status, sent, said = run(program, OPENING + TWO % (2, 2) + ENDING)
    same("two lengths that agree are one", (
        status, sent[None][1]["error"]["code"], said), (0, -32600, ""))
    status, sent, said = run(program, b"no editor\r\n\r\n" + OPENING + ENDING)
    same("before the first message there is nobody to show it to",
         (status, sorted(map(str, sent)), said),
         (0, ["None"], line(PASSED_OVER + LOST[4][1])))


def cut(program, same):
    """The client goes away: at each place of a message, or behind one."""
    last = message("shutdown", None, id=2)
    for size in range(1, len(last)):
        status, sent, said = run(program, OPENING + last[:size])
        same(f"cut behind {last[:size]}", (status, len(sent[None]), said),
             (1, 1, line(CUT)))
    for data, status in (OPENING, 1), (OPENING + last, 0), (b"", 1):
        got, _, said = run(program, data)
        same(f"gone behind {data[-30:]}", (got, said), (status, ""))
    same("cut, and it had said shutdown", run(
        program, OPENING + ENDING[:-1])[::2], (1, line(CUT)))
    same("what comes behind exit is not read", run(
        program, OPENING + ENDING + b"Content-")[::2], (0, ""))
    done = subprocess.run(
        ["sh", "-c", '"$0" language-server 2>&-', program],
        input=OPENING + b"Content-", stdout=subprocess.PIPE, timeout=60)
    same("a standard error that is closed changes nothing",
         (done.returncode, len(list(heard(done.stdout)))), (1, 1))


def no_requests(program, same):
    editor = Editor(program, "")
    for sent, number in ({"id": 900}, 900), ({"id": 901, "method": 7}, 901), \
            ({"id": [1], "method": "shutdown"}, None), \
            ({"id": 902, "method": "initialize", "params": {}}, 902), \
            ({"id": 903, "method": "shutdown\0"}, 903):
        editor.send(sent)
        got = editor.receive()
        while "method" in got:
            got = editor.receive()
        same(f"no request: {sent}", (got["id"], got["error"]["code"]),
             (number, -32600))
    editor.send({"id": 5, "result": None})
    same("an answer is not answered, what is asked next is",
         editor.ask("nothing", {})["code"], -32601)
    same("of a note that is not open nothing is known", editor.ask(
        "textDocument/hover", {"textDocument": {"uri": URI + "x"},
                               "position": place(0, 0)}), None)
    editor.end()


def broken(program, same):
    for part in no_requests, notes, lost, cut:
        part(program, same)
