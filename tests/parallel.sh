#!/bin/sh
# The recipe of the README for GNU parallel: its output is that of one command.
#
# Usage: parallel.sh PROGRAM

case $1 in
/*) program=$1 ;;
*) program=$PWD/$1 ;;
esac
cd "$(dirname "$0")/.." || exit 2
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
LC_ALL=C
export LC_ALL
passed=0
failed=0

# same NAME: two files in $work, of one command and of many.
same() {
	if [ -s "$work/one.$1" ] && cmp "$work/one.$1" "$work/many.$1"; then
		passed=$((passed + 1))
	else
		failed=$((failed + 1))
		echo "FAILED: $1"
	fi
}

# Few words a command, so that there are many commands.
many() {
	find corpus -name '*.range' -print0 | sort -z |
		parallel -0 -k -n 20 "$program" "$@"
}

"$program" check --today 2026-06-01 corpus >"$work/one.findings"
many check --today 2026-06-01 >"$work/many.findings"
same findings
"$program" tidy corpus >"$work/one.notes" 2>"$work/one.unread"
many tidy >"$work/many.notes" 2>"$work/many.unread"
same notes
same unread

# Each command writes the header row; the first one stays.
"$program" convert --to csv corpus >"$work/one.csv" 2>/dev/null
many convert --to csv 2>/dev/null |
	awk 'NR == 1 { head = $0; print; next } $0 != head' >"$work/many.csv"
same csv

echo "$passed passed, $failed failed"
test "$failed" -eq 0
