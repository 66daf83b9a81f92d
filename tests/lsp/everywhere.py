"""everywhere.py PROGRAM: asks the language server for hover, completion and
quick fixes at every place of an invented note: each request is answered
without an error, and what a person would look for is among the answers."""

import json
import subprocess
import sys

NOTE = """subject AB-1
involved right elbow
precaution right elbow flexion passive max 90 until 2026-06-15 "invented"
session 2026-05-04
elbow R A 8-131 P 6-119 firm/soft L A 0-146
knee extension R A 10
forearm supinaton R A 0-30
shoulder flexion R A 0,5-120 with goniometer
elbow flexion R A 130-20 pain 12
ankle dorsiflexion knee-bent sitting R P lacks 5 # accept off-scale:
knee R A 0-1O4
"""
uri = "file:///invented/note.range"
sent, number = [], 0


def send(method, params, ask=True):
    global number
    message = {"jsonrpc": "2.0", "method": method, "params": params}
    if ask:
        number += 1
        message["id"] = number
    sent.append(json.dumps(message).encode())


send("initialize", {"processId": None, "rootUri": None, "capabilities": {
    "textDocument": {"codeAction": {"codeActionLiteralSupport": {
        "codeActionKind": {"valueSet": ["quickfix"]}}}}}})
send("initialized", {}, ask=False)
send("textDocument/didOpen", {"textDocument": {
    "uri": uri, "languageId": "rangeline", "version": 1, "text": NOTE}},
    ask=False)
for line, text in enumerate(NOTE.split("\n")):
    for column in range(len(text) + 1):
        place = {"line": line, "character": column}
        at = {"textDocument": {"uri": uri}, "position": place}
        send("textDocument/hover", at)
        send("textDocument/completion", at)
        send("textDocument/codeAction", {
            "textDocument": {"uri": uri}, "context": {"diagnostics": []},
            "range": {"start": place, "end": place}})
send("shutdown", None)
send("exit", None, ask=False)
wire = b"".join(b"Content-Length: %d\r\n\r\n%s" % (len(m), m) for m in sent)
out = subprocess.run([sys.argv[1], "language-server"], input=wire,
                     stdout=subprocess.PIPE, timeout=60).stdout
good, said = 0, out.decode()
while out:
    head, out = out.split(b"\r\n\r\n", 1)
    size = int(head.lower().split(b"content-length:")[1].split()[0])
    message, out = json.loads(out[:size]), out[size:]
    good += "id" in message and "result" in message
passed = failed = 0
for what, right in [("every request is answered", good == number)] + [
        (word, word in said) for word in (
            "Write 'supination'", "lacks 10", "hyper 10", "# accept ")]:
    passed, failed = passed + right, failed + (not right)
    if not right:
        print("FAILED:", what, good, number)
print(f"{passed} passed, {failed} failed")
sys.exit(failed != 0)
