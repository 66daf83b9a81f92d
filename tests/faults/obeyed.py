"""obeyed.py FILE: prints the control characters in FILE, but for line ends and
tabs, and what is no UTF-8; exits 1 where there is any, or where FILE is empty."""

import sys
import unicodedata

data = open(sys.argv[1], "rb").read()
found = [] if data else ["nothing was written"]
for number, line in enumerate(data.split(b"\n"), 1):
    try:
        text = line.decode()
    except UnicodeDecodeError as error:
        found.append(f"line {number}: {error}")
        continue
    found += [
        f"line {number}: U+{ord(char):04X}"
        for char in text.rstrip("\r")
        if unicodedata.category(char) == "Cc" and char != "\t"
    ]
print("\n".join(found[:20]))
sys.exit(bool(found))
