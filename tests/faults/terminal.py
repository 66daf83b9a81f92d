"""terminal.py COMMAND...: runs it on a terminal of its own, writes what the
terminal got to standard output, and exits with the command's status."""

import os
import pty
import sys

pid, fd = pty.fork()
if pid == 0:
    os.execv(sys.argv[1], sys.argv[1:])
while True:
    try:
        got = os.read(fd, 65536)
    except OSError:  # how the end of a terminal shows
        break
    if not got:
        break
    sys.stdout.buffer.write(got)
sys.stdout.flush()
sys.exit(os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1]))
