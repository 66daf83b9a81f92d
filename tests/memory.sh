#!/bin/sh
# An archive of ten million readings goes through check, convert and summary
# in 64 MiB of address space. tidy, which holds a note whole, shows that the
# bound is one. The archive is always the same, so are the counts.
#
# Usage: memory.sh PROGRAM

# shellcheck source=tests/verdict.sh
. "$(dirname "$0")/verdict.sh"

if [ $# -ne 1 ]; then
	echo "usage: memory.sh PROGRAM" >&2
	exit 2
fi
program=$1
here=$(dirname "$0")
readings=10000000
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
trap 'exit 2' HUP INT TERM
evidence=$work/told
${CC:-cc} -std=gnu17 -O2 -o "$work/generate" "$here/bench/generate.c" || exit 2

# lines_of COMMAND...: how many lines it writes of the archive, to `lines`; what
# it says and how it ends.
lines_of() {
	"$work/generate" $readings | (
		# shellcheck disable=SC3045 # every shell on Linux has it
		ulimit -v 65536
		timeout 300 "$program" "$@" 2>"$work/told"
		echo $? >"$work/status"
	) | wc -l >"$work/lines"
	lines=$(cat "$work/lines")
	status=$(cat "$work/status")
}

# A row a reading, and the header row; of the others what they came to when
# this was written, give or take one in a hundred for rules that are mended.
lines_of convert --to csv
test "$status" -eq 0 && test ! -s "$work/told" && test "$lines" -gt $readings &&
	test "$lines" -lt $((readings + 100))
verdict "convert: $lines rows, status $status"
lines_of check --today 2026-06-01 --brief
test "$status" -eq 1 && test ! -s "$work/told" && test "$lines" -gt 167800 &&
	test "$lines" -lt 171200
verdict "check: $lines findings, status $status"
lines_of summary --format csv
test "$status" -eq 0 && test ! -s "$work/told" && test "$lines" -gt 6700000 &&
	test "$lines" -lt 6840000
verdict "summary: $lines rows, status $status"
lines_of tidy
test "$status" -eq 2 && grep -q 'out of memory' "$work/told"
verdict "tidy: does not find room, status $status"

echo "$passed passed, $failed failed"
test "$failed" -eq 0
