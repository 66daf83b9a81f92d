#!/bin/sh
# LibreOffice Calc reads the CSV to the same cells: as a spreadsheet it must
# take numbers for numbers and run no text as a formula. Its own CSV is
# compared cell by cell with what the program wrote.
#
# The tables of summary and progress hold values as they were measured: there
# a range may not become a day, least of all where days come first, 5-12.
#
# It is told to read as in the United States. A spreadsheet that is set to
# another place takes codes and painful arcs such as 1-2 for days of the year,
# and none keeps the zeros before a code of digits alone: no CSV can say that a
# cell is a text.
#
# Usage: readers-more.sh PROGRAM

# shellcheck source=tests/verdict.sh
. "$(dirname "$0")/verdict.sh"

if [ $# -ne 1 ]; then
	echo "usage: readers-more.sh PROGRAM" >&2
	exit 2
fi
program=$1
case $program in
/*) ;;
*/*) program=$PWD/$program ;;
*) program=$(command -v "$program") || exit 2 ;;
esac
here=$(cd "$(dirname "$0")" && pwd) || exit 2
if ! command -v soffice >/dev/null; then
	echo "readers-more.sh: soffice is not installed" >&2
	exit 2
fi
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
trap 'exit 2' HUP INT TERM

PYTHONUTF8=1
export PYTHONUTF8
evidence="$work/diff"
longest=180 # seconds that one conversion may take

# office FILTER FOLDER FILE: converts FILE, of UTF-8 parted by commas, and by
# $parted.
office() {
	HOME=$work timeout -k 10 "$longest" soffice \
	    "-env:UserInstallation=file://$work/profile" --headless \
	    --norestore --infilter="CSV:44${parted:-},34,76,1,,${place:-1033}" \
	    --convert-to "$1" --outdir "$2" "$3" >"$work/diff" 2>&1 \
	    </dev/null
}

# An invented note with cells that a spreadsheet might take for its own.
cat >"$work/cells.range" <<'E'
subject     CS-01
involved    right hip
rater       1-2
instrument  goniometer step 1
session 2026-05-04 09:30 "=week 8, ½ day"
hip flexion    R A 0-112 0-113 0-113 "a, b" "  padded  "  L A 0-110 "-5"
hip extension  R P lacks 8 "@home" pain 3 at 5            L P 0-11 "+1"
hip abduction  R NT "back\slash; 'quoted'"                 L A 0-30 "＝1"
hip adduction  R A 0-30 painful-arc 10-12 "=1+1"           L A 0-28 "=SUM(A1:A9)"
E
cd "$work" || exit 2
"$program" convert --to csv cells.range >cells.csv
cd "$here/.." || exit 2
"$program" convert --to csv --today 2026-06-01 corpus/demo corpus/valid \
    >"$work/corpus.csv" 2>/dev/null
"$program" convert --to csv --rows trial --today 2026-06-01 corpus/valid \
    >"$work/trials.csv" 2>/dev/null

cd "$work" || exit 2
for name in cells corpus trials; do
	office 'csv:Text - txt - csv (StarCalc):44,34,76,1,,1033,false,true' \
	    as-csv "$name.csv" && [ -s "as-csv/$name.csv" ]
	verdict "$name: read and written again"
	for at in . as-csv; do
		python3 "$here/published/read_csv.py" "$at/$name.csv" \
		    >"$work/$at/$name.txt"
	done
	# A time of day is one to it as well: 14:30 comes back as 02:30:00 PM.
	LC_ALL=C awk '
	$0 ~ /^[0-9]+:2\t[0-9][0-9]:[0-9][0-9]:00 [AP]M$/ {
		split($0, part, /[\t: ]/)
		hour = part[3] % 12 + ($0 ~ /PM$/ ? 12 : 0)
		$0 = sprintf("%d:2\t%02d:%s", part[1], hour, part[4])
	}
	{ print }' "as-csv/$name.txt" >"$name.read"
	diff -u --label expected --label read "$name.txt" "$name.read" \
	    >"$work/diff"
	verdict "$name: the same cells"

	office fods as-fods "$name.csv" && [ -s "as-fods/$name.fods" ]
	verdict "$name: as a sheet"
	python3 "$here/published/read_sheet.py" "$name.csv" \
	    "as-fods/$name.fods" >"$work/diff" 2>&1 && [ ! -s "$work/diff" ]
	verdict "$name: numbers are numbers and texts are texts"
done

# As in the United Kingdom, with special numbers recognised: as lax as can be.
place=2057,false,true
cat >days.range <<'E'
subject     CS-01
involved    right knee
rater       dk
instrument  goniometer step 1
session 2026-05-04
knee  R A 5-12 P 3-11 firm  L A 1-9
session 2026-05-11
knee  R A 4-10 P 2-10 firm  L A 2-8
E
printf 'right\r\n5-12\r\n' >dash.csv
office fods as-fods dash.csv && [ -s as-fods/dash.fods ] &&
    grep -q 'date-value="[0-9]*-12-05"' as-fods/dash.fods
verdict "5-12 is a day to it"
for command in summary progress; do
	case $command in
	summary) columns='right left' ;;
	progress) columns='reading first_reading previous_reading' ;;
	esac
	"$program" "$command" --format csv --today 2026-06-01 days.range \
	    >"$command.csv"
	office fods as-fods "$command.csv" && [ -s "as-fods/$command.fods" ]
	verdict "$command: as a sheet"
	for column in $columns; do
		python3 "$here/published/read_sheet.py" "$command.csv" \
		    "as-fods/$command.fods" "$column" >"$work/diff" 2>&1 &&
		    [ ! -s "$work/diff" ]
		verdict "$command, $column: a range stays a range"
	done
done

# With semicolons and tabs parting cells too, as its dialog may be told.
parted=/59/9
cat >parted.range <<'E'
subject     CS-01
involved    right elbow
rater       dk
instrument  goniometer step 1
session 2026-05-04 "week 1;=1+41;"
elbow  R A 0-100 "pain;=1+41;" "=1+1;=2+2"  L A 0-110 "a;＝1+41"
E
printf 'remark\r\npain;=1+41;\r\n' >bare.csv
office fods as-fods bare.csv && grep -q 'table:formula=' as-fods/bare.fods
verdict "what follows a semicolon is a formula to it"
"$program" convert --to csv parted.range >parted.csv
office fods as-fods parted.csv && grep -q 'pain;=1+41;' as-fods/parted.fods &&
    ! grep -q 'table:formula=' as-fods/parted.fods
verdict "none of ours is"

echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
