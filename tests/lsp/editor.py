"""editor.py: an invented editor that speaks with the language server as a
process, one request after the other. Used by exact.py."""

import json
import subprocess
import threading

URI = "file:///invented/note.range"
# An editor that can do everything, as the protocol lets it say so.
EVERYTHING = {
    "general": {"positionEncodings": ["utf-8"]},
    "window": {"showDocument": {"support": True}},
    "workspace": {"inlayHint": {"refreshSupport": True}},
    "textDocument": {
        "publishDiagnostics": {
            "relatedInformation": True, "tagSupport": {"valueSet": [1]}},
        "documentSymbol": {"hierarchicalDocumentSymbolSupport": True},
        "codeAction": {"codeActionLiteralSupport": {"codeActionKind": {
            "valueSet": ["quickfix"]}}}}}


def place(line, character):
    return {"line": line, "character": character}


def span(line, beg, end):
    return {"start": place(line, beg), "end": place(line, end)}


class Editor:
    """Has one note open; `said` is what the server said unasked."""

    def __init__(self, program, text, capabilities=None):
        self.process = subprocess.Popen(
            [program, "language-server", "--today=2026-07-01"],
            stdin=subprocess.PIPE, stdout=subprocess.PIPE)
        # A server that hangs ends here, and what waits for it with it.
        self.watchdog = threading.Timer(60, self.process.kill)
        self.watchdog.start()
        self.count, self.said = 0, []
        self.first = self.ask("initialize", {
            "processId": None, "rootUri": None, "capabilities":
            EVERYTHING if capabilities is None else capabilities})
        self.tell("initialized", {})
        self.tell("textDocument/didOpen", {"textDocument": {
            "uri": URI, "languageId": "rangeline", "version": 1,
            "text": text}})

    def send(self, *messages):
        for message in messages:
            body = json.dumps({"jsonrpc": "2.0", **message}).encode()
            self.process.stdin.write(
                b"Content-Length: %d\r\n\r\n%s" % (len(body), body))
        self.process.stdin.flush()

    def receive(self):
        size = int(self.process.stdout.readline().split(b":")[1])
        self.process.stdout.readline()
        return json.loads(self.process.stdout.read(size))

    def tell(self, method, params):
        self.send({"method": method, "params": params})

    def answer(self, number):
        """The answer to request NUMBER, which is the next one."""
        while "method" in (message := self.receive()):
            self.said.append(message)
        assert message["id"] == number, message
        return message.get("result", message.get("error"))

    def ask(self, method, params):
        self.count += 1
        self.send({"id": self.count, "method": method, "params": params})
        return self.answer(self.count)

    def of_note(self, method, **more):
        return self.ask("textDocument/" + method,
                        {"textDocument": {"uri": URI}, **more})

    def hear(self, method):
        """The parameters of the next message of that METHOD."""
        while True:
            for i, message in enumerate(self.said):
                if message["method"] == method:
                    return self.said.pop(i)["params"]
            self.said.append(self.receive())

    def end(self):
        """The status that the server ends with."""
        self.ask("shutdown", None)
        self.tell("exit", None)
        status = self.process.wait()
        self.watchdog.cancel()
        return status


def edited(text, edits):
    """TEXT (of ASCII) after EDITS, the last of them first."""
    starts = [0]
    for line in text.splitlines(keepends=True):
        starts.append(starts[-1] + len(line))

    def at(where):
        return starts[where["line"]] + where["character"]

    for edit in sorted(edits, key=lambda e: -at(e["range"]["start"])):
        beg, end = at(edit["range"]["start"]), at(edit["range"]["end"])
        text = text[:beg] + edit["newText"] + text[end:]
    return text
