#!/bin/sh
# instructions.sh PROGRAM [--update]: how many instructions a reading costs,
# against tests/bench/instructions.tsv; more than 5 % above the figure fails.
# PROGRAM is that of `make CONFIG=count build/count/rangeline`: the release
# build with debug symbols. Instructions do not depend on what else the machine
# does; what a note costs whatever its size is taken off, by counting two
# sizes. --update writes the figures anew, and says from what to what.

cd "$(dirname "$0")/.." || exit 2
if [ $# -lt 1 ] || [ ! -x "$1" ]; then
	echo "usage: instructions.sh PROGRAM [--update]" >&2
	exit 2
fi
program=$1
update=${2:-}
figures=tests/bench/instructions.tsv
few=10000
many=20000
LC_ALL=C
export LC_ALL
unset SOURCE_DATE_EPOCH

work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
trap 'exit 2' HUP INT TERM
${CC:-cc} -std=gnu17 -O2 -o "$work/generate" tests/bench/generate.c || exit 2
for n in $few $many; do
	"$work/generate" $n >"$work/$n.range" || exit 2
done

# count READINGS COMMAND...: instructions in all.
count() {
	note=$work/$1.range
	shift
	valgrind --tool=callgrind --callgrind-out-file="$work/calls" \
		"$program" "$@" "$note" >"$work/out" 2>"$work/log"
	if [ $? -ge 2 ] || [ ! -s "$work/out" ]; then
		cat "$work/log" >&2
		return 1
	fi
	sed -n 's/.*Collected : \([0-9]*\).*/\1/p' "$work/log"
}

# each NAME COMMAND...: a line of the table of what was counted.
each() {
	name=$1
	shift
	below=$(count $few "$@") && above=$(count $many "$@") &&
		[ "${below:-0}" -gt 0 ] && [ "${above:-0}" -gt "$below" ] ||
		exit 2
	printf '%s\t%s\n' "$name" $(((above - below) / (many - few)))
}

{
	each check check --today 2026-06-01
	each convert convert --to csv
	each summary summary
} >"$work/now.tsv" || exit 2

awk -F'\t' -v update="$update" -v new="$work/new.tsv" '
FNR == 1 { file++ }
file == 1 && /^#/ { print >new; next }
file == 1 { told[$1] = $2; next }
{
	allowed = int(told[$1] * 1.05)
	good = $2 <= allowed
	printf "%-10s %6d instructions a reading, was %d: %+.1f %%%s\n", $1,
	    $2, told[$1], told[$1] ? 100 * ($2 / told[$1] - 1) : 0,
	    good ? "" : ", over 5"
	if (good) passed++; else failed++
	print >new
}
END {
	if (update == "--update") exit 0
	printf "%d passed, %d failed\n", passed, failed
	exit failed > 0 || passed < 3
}' $figures "$work/now.tsv"
status=$?
if [ "$update" = --update ]; then
	cp "$work/new.tsv" $figures
fi
exit $status
