#!/usr/bin/env python3
"""shapes.py PROGRAM: no shape of note costs more than in proportion.

Each shape is an invented note that has very many of one thing. Ten times as
many may cost ten times the processor time; a hundred times would show work
that grows with the square. The bound is 40 times, and what takes less than
50 ms counts as 50, so that a busy machine does not decide.
"""

import datetime
import os
import resource
import subprocess
import sys
import tempfile

SMALL = 10000
LARGE = 100000
MOST = 40
FLOOR = 0.05

HEAD = "subject X1\ninvolved none\nrater dk\ninstrument goniometer\n"
SESSION = "session 2026-05-04\n"
READING = "hip flexion R A 0-100\n"

COMMANDS = [
    ["check"],
    ["summary"],
    ["convert", "--to", "csv"],
    ["tidy"],
    ["progress"],
]


def acceptances(n):
    yield HEAD + SESSION
    for i in range(n):
        yield "# accept unusual-angle: invented\nhip flexion R A 0-100\n"


def sessions(n):
    day = datetime.date(1900, 1, 1)
    yield HEAD
    for i in range(n):
        if i % 3 == 0:
            day += datetime.timedelta(1)
        yield "session %s\n%s" % (day, READING)


def readings(n):
    yield HEAD + SESSION
    for i in range(n):
        yield "hip flexion R A 0-100 after %d reps\n" % (i + 1)


def long_lines(n):
    yield HEAD + SESSION
    line = "hip flexion R A" + " 0-100" * 680 + "\n"
    for i in range(n // 100):
        yield line


def opposites(n):
    yield HEAD
    yield "opposite left knee unavailable\n" * n
    yield SESSION + READING * n


def precautions(n):
    yield HEAD
    yield "precaution right knee flexion max 90\n" * n
    yield SESSION + READING * n


def goals(n):
    yield HEAD
    yield "goal right hip flexion active 100\n" * n
    yield SESSION + READING * n


def persons(n):
    for i in range(n):
        yield "subject P%d\n%s%s" % (i, SESSION, READING)


def persons_in_turns(n):
    for i in range(n):
        yield "subject P%d\n%s%s" % (i % 2, SESSION, READING)


def errors(n):
    yield HEAD + SESSION
    yield "hip flexon R A 0-100\n" * n


def continuations_of_an_error(n):
    yield HEAD + SESSION + "hip flexon R A 0-100\n"
    yield "  L A 0-100\n" * n


def headers(n):
    yield HEAD
    yield "involved right knee\nremark \"invented\"\n" * n
    yield SESSION + READING * n


SHAPES = [
    acceptances,
    sessions,
    readings,
    long_lines,
    opposites,
    precautions,
    goals,
    persons,
    persons_in_turns,
    errors,
    continuations_of_an_error,
    headers,
]


def seconds(command, note):
    """Processor time of COMMAND on NOTE; None where it never ends."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    try:
        status = subprocess.run(
            command + [note],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            timeout=60,
            check=False,
        ).returncode
    except subprocess.TimeoutExpired:
        return None
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    if status not in (0, 1):
        return None
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def write(folder, shape, n):
    path = os.path.join(folder, "%s-%d.range" % (shape.__name__, n))
    with open(path, "w", encoding="utf-8") as note:
        note.writelines(shape(n))
    return path


def main():
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    passed = failed = 0
    with tempfile.TemporaryDirectory() as folder:
        for shape in SHAPES:
            small = write(folder, shape, SMALL)
            large = write(folder, shape, LARGE)
            for command in COMMANDS:
                a = seconds([sys.argv[1]] + command, small)
                b = seconds([sys.argv[1]] + command, large)
                if a is not None and b is not None and b < MOST * max(a, FLOOR):
                    passed += 1
                    continue
                failed += 1
                print("FAIL %s, %s: %s and %s s" % (command[0], shape.__name__, a, b))
            os.remove(small)
            os.remove(large)
    print("%d passed, %d failed" % (passed, failed))
    return failed > 0


if __name__ == "__main__":
    sys.exit(main())
