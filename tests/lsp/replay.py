"""replay.py PROGRAM: plays session.txt to the language server as a process and
holds the answers to each request against the recorded ones."""

import json
import subprocess
import sys

sent, wanted = [], {}
for line in open("tests/lsp/session.txt", encoding="utf-8"):
    if line.startswith("> "):
        sent.append(line[2:].strip().encode())
    elif line.startswith("< "):
        message = json.loads(line[2:])
        if "id" in message and "method" not in message:
            wanted[message["id"]] = message
wire = b"".join(b"Content-Length: %d\r\n\r\n%s" % (len(m), m) for m in sent)
out = subprocess.run([sys.argv[1], "language-server"], input=wire,
                     stdout=subprocess.PIPE, timeout=60).stdout
got = {}
while out:
    head, out = out.split(b"\r\n\r\n", 1)
    size = int(head.lower().split(b"content-length:")[1].split()[0])
    message, out = json.loads(out[:size]), out[size:]
    if "id" in message and "method" not in message:
        got[message["id"]] = message
passed = failed = 0
for key, message in wanted.items():
    answer = got.get(key, {})
    if "serverInfo" in str(message):  # the version is that of the program
        message["result"].pop("serverInfo")
        answer.get("result", {}).pop("serverInfo", None)
    if answer == message:
        passed += 1
    else:
        failed += 1
        print("FAILED:", key, "wanted", message, "got", answer)
print(f"{passed} passed, {failed} failed")
sys.exit(failed != 0 or passed == 0)
