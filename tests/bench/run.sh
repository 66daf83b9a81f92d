#!/bin/sh
# run.sh PROGRAM: speed and memory, side by side with general tools on the same
# readings. Prints figures and aims; a missed aim is told, never a failure.
#
#   READINGS=1000000   size of the archive (made anew each time, not kept)
#   ROUNDS=5           runs of each; the median is told
#   NOTE_ROUNDS=501    the same for a note of 40 lines
#   KEYS=2000          keystrokes and lists asked of the language server
#   EDITS=100000       edits over which its memory is watched
#   BIG=1              also the memory of check at 1, 3 and 10 million readings
#
# bare is our own lexer and parser over the archive and nothing else: what
# reading it costs at least. wc counts the lines of the archive; mawk splits the
# CSV of its readings into fields and sums one up; Miller adds one column to
# that CSV. All output goes to /dev/null. Findings and rows are counted once,
# before the clock runs.

here=$(cd "$(dirname "$0")" && pwd) || exit 2
root=$here/../..
if [ $# -ne 1 ] || [ ! -x "$1" ]; then
	echo "usage: run.sh PROGRAM" >&2
	exit 2
fi
case $1 in
/*) program=$1 ;;
*) program=$PWD/$1 ;;
esac
readings=${READINGS:-1000000}
rounds=${ROUNDS:-5}
note_rounds=${NOTE_ROUNDS:-501}
today=2026-06-01

LC_ALL=C
NO_COLOR=1
export LC_ALL NO_COLOR
unset SOURCE_DATE_EPOCH

work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
trap 'exit 2' HUP INT TERM
cd "$work" || exit 2

for tool in generate measure; do
	${CC:-cc} -std=gnu17 -O2 -Wall -Wextra -o $tool "$here/$tool.c" ||
		exit 2
done
${CC:-cc} -std=gnu17 -O2 -flto=auto -Wall -Wextra -Wno-maybe-uninitialized \
	-I"$root/src" -I"$root/build" -o bare "$here/bare.c" \
	"$root/src/syntax/tokens.c" "$root/src/syntax/figures.c" \
	"$root/src/syntax/words.c" "$root/src/syntax/kinds.c" \
	"$root/src/vocab/vocab.c" \
	"$root/src/text/mem.c" "$root/src/text/date.c" \
	"$root/src/text/lines.c" "$root/build/lexer.c" \
	"$root/build/parser.c" "$root/build/vocab_table.c" || exit 2
${CC:-cc} -std=gnu17 -O2 -Wall -Wextra -o keys "$root/tests/lsp/bench.c" ||
	exit 2

# row NAME WORD...: a line of the table that measure reads.
row() {
	printf '%s' "$1"
	shift
	printf '\t%s' "$@"
	echo
}

# must COMMAND...: a status of 2 or more ends it all.
must() {
	"$@"
	[ $? -lt 2 ] && return
	echo "run.sh: failed: $*" >&2
	exit 2
}

# lines FILE, bytes FILE
lines() {
	wc -l <"$1" | tr -d ' '
}

bytes() {
	wc -c <"$1" | tr -d ' '
}

cat >fields.awk <<'EOF'
{ n += NF; s += $14 }
END { print n, s }
EOF
cat >column.mlr <<'EOF'
$half = $end / 2
EOF

must ./generate "$readings" >archive.range
must "$program" convert --to csv archive.range >archive.csv
must "$program" check --brief --today $today archive.range >findings
echo "archive: $(($(lines archive.csv) - 1)) readings," \
	"$(grep -c '^subject' archive.range) persons," \
	"$(grep -c '^session' archive.range) sessions," \
	"$(lines archive.range) lines, $(bytes archive.range) bytes;" \
	"$(lines findings) findings; its CSV $(bytes archive.csv) bytes"
echo "machine: $(getconf _NPROCESSORS_ONLN) processors," \
	"load $(cut -d' ' -f1 /proc/loadavg 2>/dev/null || echo unknown);" \
	"median of $rounds"
echo

{
	row check "$program" check --today $today archive.range
	row "convert --to csv" "$program" convert --to csv archive.range
	row summary "$program" summary archive.range
	row bare ./bare archive.range
	row "wc -l" wc -l archive.range
	row "mawk, fields" mawk -F, -f fields.awk archive.csv
	row "Miller, a column" mlr --icsv --ocsv put -f column.mlr archive.csv
} >table
./measure "$rounds" <table >figures || exit 2

awk -F'\t' '
function aim(what, ratio, sign, bound, note,   met) {
	met = sign == "<=" ? ratio <= bound : ratio >= bound
	printf "%-34s %6.2f   aim %s %-5s %-6s%s\n", what, ratio, sign, bound,
	    met ? "met" : "MISSED", note
}
{
	if (NR == 1)
		printf "%-20s %9s %9s %9s\n", "", "wall s", "cpu s", "MiB"
	printf "%-20s %9.3f %9.3f %9.1f\n", $1, $2 / 1e6, $3 / 1e6, $4 / 1024
	t[$1] = $2 > 0 ? $2 : 1
	cpu[$1] = $3 > 0 ? $3 : 1
}
END {
	convert = t["convert --to csv"]
	mawk = t["mawk, fields"]
	print ""
	aim("convert / mawk", convert / mawk, "<=", 0.5,
	    "   (later <= 0.33)")
	aim("Miller / convert", t["Miller, a column"] / convert, ">=", 15,
	    sprintf("   (by cpu time %.1f: Miller runs on several processors)",
		cpu["Miller, a column"] / cpu["convert --to csv"]))
	aim("check / mawk", t["check"] / mawk, "<=", 1,
	    "   (later <= 0.5)")
	aim("check / bare", t["check"] / t["bare"], "<=", 3, "")
	aim("convert / bare", convert / t["bare"], "<=", 3, "")
	printf "%-34s %6.1f\n", "check / wc", t["check"] / t["wc -l"]
	printf "%-34s %6.2f\n", "summary / mawk", t["summary"] / mawk
}' figures

./generate 2000 | head -n 40 >note.range
{
	row true true
	row check "$program" check --today $today note.range
	row "convert --to csv" "$program" convert --to csv note.range
	row summary "$program" summary note.range
} >table
./measure "$note_rounds" <table >figures || exit 2
echo
echo "a note of $(lines note.range) lines, median of $note_rounds," \
	"milliseconds above true:"
awk -F'\t' '
NR == 1 { zero = $2; printf "%-34s %6.3f\n", "true itself", zero / 1e3; next }
{
	above = ($2 - zero) / 1e3
	printf "%-34s %6.3f   aim <= 3     %s\n", $1, above,
	    above <= 3 ? "met" : "MISSED"
}' figures

./generate 10000 >long.range
echo
echo "the language server:"
./keys "$program" long.range || exit 2

[ "${BIG:-0}" = 1 ] || exit 0
echo
echo "check, one run:"
for n in 1000000 3000000 10000000; do
	must ./generate $n >archive.range
	row "$n readings" "$program" check --today $today archive.range |
		./measure 1 >figures || exit 2
	awk -F'\t' '{
		printf "%-20s %9.3f s %9.1f MiB\n", $1, $2 / 1e6, $4 / 1024
	}' figures
done
