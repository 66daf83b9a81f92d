#!/bin/sh
# Readers that know nothing of the project read its CSV to the same cells:
# Python's csv module and sqlite3's .import, against a plain split in awk, and
# for the cells that matter most against what is written here by hand.
#
# Usage: readers.sh PROGRAM

if [ $# -ne 1 ]; then
	echo "usage: readers.sh PROGRAM" >&2
	exit 2
fi
program=$1
case $program in
/*) ;;
*/*) program=$PWD/$program ;;
*) program=$(command -v "$program") || exit 2 ;;
esac
here=$(cd "$(dirname "$0")" && pwd) || exit 2
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
trap 'exit 2' HUP INT TERM

# The commands must read UTF-8 as UTF-8, whatever the place they run in.
PYTHONUTF8=1
export PYTHONUTF8
passed=0
failed=0

# same EXPECTED GOT WHAT
same() {
	if diff -u --label expected --label read "$1" "$2" >"$work/diff"; then
		passed=$((passed + 1))
	else
		failed=$((failed + 1))
		echo "FAILED: $3"
		head -n 40 "$work/diff"
	fi
}

# ends STATUS WHAT: the command before it must have ended well.
ends() {
	if [ "$1" -eq 0 ]; then
		passed=$((passed + 1))
	else
		failed=$((failed + 1))
		echo "FAILED: $2: status $1"
		cat "$work/err"
	fi
}

# ROW:COLUMN<tab>CELL of a CSV, byte by byte, after RFC 4180.
split_csv() {
	LC_ALL=C awk '
	function put() {
		printf "%d:%d\t%s\n", row, ++column, cell
		cell = ""
	}
	BEGIN { RS = "\001" }
	{
		n = length($0)
		row = 1
		for (i = 1; i <= n; i++) {
			c = substr($0, i, 1)
			if (inside && c == "\"" && substr($0, i + 1, 1) == c)
				i++
			else if (c == "\"") {
				inside = !inside
				continue
			} else if (!inside && c == ",") {
				put()
				continue
			} else if (!inside && c == "\r") {
				put()
				i++
				row++
				column = 0
				continue
			}
			if (c == "\\") c = "\\\\"
			else if (c == "\t") c = "\\t"
			else if (c == "\n") c = "\\n"
			else if (c == "\r") c = "\\r"
			cell = cell c
		}
	}' "$1"
}

# The same as sqlite3 has them in a table; its column names are row 1.
import_csv() {
	rm -f "$work/db"
	sqlite3 -batch "$work/db" '.mode csv' ".import $1 t" 2>"$work/err" ||
		return
	[ ! -s "$work/err" ] || return
	sqlite3 -batch "$work/db" '.mode ascii' '.headers on' \
	    'select * from t order by rowid' 2>"$work/err" | LC_ALL=C awk '
	BEGIN {
		RS = "\036"
		FS = "\037"
	}
	{
		for (i = 1; i <= NF; i++) {
			cell = $i
			gsub(/\\/, "\\\\&", cell)
			gsub(/\t/, "\\t", cell)
			gsub(/\n/, "\\n", cell)
			gsub(/\r/, "\\r", cell)
			printf "%d:%d\t%s\n", NR, i, cell
		}
	}'
}

# read_by_all FILE WHAT: FILE to the same cells by every reader.
read_by_all() {
	split_csv "$1" >"$work/cells"
	python3 "$here/published/read_csv.py" "$1" >"$work/python" \
	    2>"$work/err"
	ends $? "$2, Python"
	same "$work/cells" "$work/python" "$2, Python"
	import_csv "$1" >"$work/sqlite"
	ends $? "$2, sqlite3"
	same "$work/cells" "$work/sqlite" "$2, sqlite3"
}

# --- the corpus -------------------------------------------------------------

cd "$here/.." || exit 2
for rows in reading trial; do
	"$program" convert --to csv --rows $rows --today 2026-06-01 \
	    corpus/demo corpus/valid corpus/broken >"$work/all.csv" \
	    2>/dev/null
	read_by_all "$work/all.csv" "rows of the corpus, one a $rows"
done
"$program" summary --format csv --today 2026-06-01 corpus/demo \
    >"$work/summary.csv" 2>/dev/null
read_by_all "$work/summary.csv" 'summary of the demo'

# --- cells that matter ------------------------------------------------------

# Invented. A text cannot hold a quote or a line end; the name of a file can.
mkdir "$work/in"
name='a "b", c
d.range'
cat >"$work/in/$name" <<'E'
subject     CS-01
involved    right hip
rater       1-2
instrument  goniometer step 1
session 2026-05-04 09:30 "=week 8, ½ day"
hip flexion    R A 0-112 0-113 0-113 "a, b" "  padded  "  L A 0-110 "-5"
hip extension  R P lacks 8 "@home"                        L P 0-11 "+1"
hip abduction  R NT "back\slash; 'quoted'"                 L A 0-30 "＝1"
E
cat >"$work/expected" <<'E'
1:1	session
1:32	line
2:1	2026-05-04
2:2	09:30
2:3	'=week 8, ½ day
2:4	CS-01
2:14	0
2:15	112.67
2:16	112.67
2:18	3
2:19	1
2:27	1-2
2:29	a, b;   padded  
2:31	a "b", c\nd.range
2:32	6
3:29	'-5
4:13	lacks
4:14	
4:15	-8
4:29	'@home
5:29	'+1
6:13	not-tested
6:15	
6:29	back\\slash; 'quoted'
7:29	'＝1
E
cd "$work/in" || exit 2
"$program" convert --to csv "$name" >"$work/cells.csv" 2>"$work/err"
ends $? 'cells that matter'
read_by_all "$work/cells.csv" 'cells that matter'
for reader in cells python sqlite; do
	LC_ALL=C awk -F '\t' 'NR == FNR { want[$1]; next } $1 in want' \
	    "$work/expected" "$work/$reader" >"$work/got"
	same "$work/expected" "$work/got" "cells that matter, by hand: $reader"
done

# --- numbers stay numbers ---------------------------------------------------

# Everything in these columns of the corpus is empty or a plain number.
cd "$here/.." || exit 2
"$program" convert --to csv --today 2026-06-01 corpus/demo corpus/valid \
    >"$work/all.csv" 2>/dev/null
python3 - "$work/all.csv" >"$work/got" 2>"$work/err" <<'E'
import csv, re, sys

NUMBER = re.compile(r"(|-?(0|[1-9]\d*)(\.\d{0,1}[1-9])?)\Z")
NAMES = ("age start end arc trials spread pain pain_onset repetitions "
         "line").split()
with open(sys.argv[1], newline="", encoding="utf-8") as file:
    for row in csv.DictReader(file, strict=True):
        for name in NAMES:
            level = name == "end" and row["kind"] == "level"
            if not level and (row[name] == "-0" or
                              not NUMBER.match(row[name])):
                print(row["file"], row["line"], name, row[name])
E
ends $? 'numbers'
same /dev/null "$work/got" 'numbers stay numbers'

echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
