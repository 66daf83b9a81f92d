#!/bin/sh
# run.sh PROGRAM: what the program does where memory ends, calls fail or are
# cut short, and when it is killed half way. Closes with `N passed, N failed`.

cd "$(dirname "$0")/../.." || exit 2
if [ $# -ne 1 ] || [ ! -x "$1" ]; then
	echo "usage: run.sh PROGRAM" >&2
	exit 2
fi
program=$1
note=tests/faults/note.range
built=build/faults
. tests/steps.sh

# compile NAME OPTION-OR-FILE...
compile() {
	name=$1
	shift
	"${CC:-cc}" -std=c17 -D_GNU_SOURCE -O1 -Wall -Wextra -Wpedantic \
		-Wconversion -Wshadow -Werror -o "$built/$name" "$@" || exit 2
}

mkdir -p "$built" || exit 2
compile shim.so -fPIC -shared tests/faults/shim.c -ldl
compile walk tests/faults/walk.c tests/faults/folder.c
compile kill tests/faults/kill.c tests/faults/folder.c

counted 'calls that fail' "$built/walk" "$program" "$built/shim.so" "$note"
# Between the naming of the new file and its renaming lie four stops. Where
# there can be no file without a name, one may be left at any time.
counted 'killed' "$built/kill" 4 "$program" "$note"
counted 'killed, named files' env LD_PRELOAD="$PWD/$built/shim.so" \
	FAULT_CALL=linkat FAULT_AT=1 FAULT_HOW=EIO FAULT_TELL=99 \
	"$built/kill" 999 "$program" "$note"
steps_end
