#!/bin/sh
# Runs PROGRAM over the notes of corpus/ and compares what it prints with the
# files beside them. Present means tested:
#
#   rules/RULE/   reported.range gives reported.findings; clean.range gives
#                 none (or clean.findings where company cannot be avoided)
#   valid/        NAME.csv, NAME.trial.csv, NAME.summary, NAME.tidy,
#                 NAME.findings; every command succeeds
#   broken/       NAME.findings, NAME.csv and the others; every command that
#                 reads the note reports it with status 1
#   demo/         NAME.findings and the others, where present
#   regress/      the same; every note, whatever it holds, is read with a
#                 status below 3 by each of these commands
#
# A findings file has one finding a line, LINE:COLUMN LEVEL RULE.
#
# Usage: golden.sh PROGRAM [--update]
# With --update each difference is shown, and the expected file is replaced
# only after the answer y.

usage() {
	echo "usage: golden.sh PROGRAM [--update]" >&2
	exit 2
}

update=no
case $# in
1) ;;
2) [ "$2" = --update ] || usage
	update=yes ;;
*) usage ;;
esac

program=$1
case $program in
/*) ;;
*/*) program=$PWD/$program ;;
*) program=$(command -v "$program") || usage ;;
esac
if [ ! -x "$program" ]; then
	echo "golden.sh: $1 is no program" >&2
	exit 2
fi

here=$(dirname "$0") || exit 2
corpus=$(cd "$here/../corpus" && pwd) || exit 2
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
trap 'exit 2' HUP INT TERM
got=$work/got

LC_ALL=C
NO_COLOR=1
export LC_ALL NO_COLOR
unset SOURCE_DATE_EPOCH

passed=0
failed=0
today=2026-06-01

pass() {
	passed=$((passed + 1))
}

# fail TEXT: one test failed, and why.
fail() {
	failed=$((failed + 1))
	echo "FAILED: $1"
}

# Findings as JSON, one object a line, reduced to LINE:COLUMN LEVEL RULE. A
# line of another form is kept, so it shows as a difference.
reduce() {
	sed 's/^{ *"file": *"[^"]*", *"line": *\([0-9][0-9]*\), *"column": *\([0-9][0-9]*\), *"end_line": *[0-9][0-9]*, *"end_column": *[0-9][0-9]*, *"level": *"\([a-z]*\)", *"rule": *"\([a-z-]*\)", *"message": *".*}$/\1:\2 \3 \4/'
}

# compare EXPECTED WHAT: the file against $got.
compare() {
	if cmp -s "$1" "$got"; then
		pass
		return
	fi
	fail "$2"
	diff -u "$1" "$got" | sed "1s|.*|--- expected: $2|
2s|.*|+++ printed|"
	[ "$update" = yes ] && [ "$1" != "$work/none" ] || return
	printf 'Replace %s? [y/N] ' "$1"
	read -r answer || answer=n
	case $answer in
	y | Y) cp "$got" "$1" ;;
	esac
}

# run COMMAND NOTE [OPTION...]: standard output to $got, status in $status.
run() {
	command=$1
	note=$2
	shift 2
	case $command in
	tidy) ;; # what it writes is the same on every day
	*) set -- "$@" --today "$today" ;;
	esac
	timeout 60 "$program" "$command" "$@" "$note" >"$got" 2>"$work/err"
	status=$?
}

# expect_status STATUS WHAT: tells a wrong status with what was said.
expect_status() {
	if [ "$status" -eq "$1" ]; then
		pass
		return
	fi
	fail "$2: status $status, not $1"
	sed 's/^/	/' "$work/err"
}

# findings_status FILE: the status of check that these findings ask for.
findings_status() {
	if grep -Eq '^[0-9]+:[0-9]+ (error|warning) ' "$1"; then
		echo 1
	else
		echo 0
	fi
}

# check_findings NOTE EXPECTED WHAT
check_findings() {
	run check "$1" --format json
	mv "$got" "$work/json"
	reduce <"$work/json" >"$got"
	compare "$2" "$3"
	expect_status "$(findings_status "$2")" "$3"
}

# outputs NAME STATUS WHAT: each expected file that stands beside NAME.range.
# An empty STATUS stands for any below 3.
outputs() {
	name=$1
	want=$2
	what=$3
	if [ -f "$name.findings" ]; then
		check_findings "$name.range" "$name.findings" \
		    "$what.findings"
	fi
	output csv convert --to csv
	output trial.csv convert --to csv --rows trial
	output summary summary
	output progress progress
	output tidy tidy
}

# output SUFFIX COMMAND [OPTION...], for outputs().
output() {
	suffix=$1
	shift
	[ -f "$name.$suffix" ] || return
	command=$1
	shift
	run "$command" "$name.range" "$@"
	compare "$name.$suffix" "$what.$suffix"
	if [ -n "$want" ]; then
		expect_status "$want" "$what.$suffix"
	fi
}

# survives NOTE WHAT: no command crashes on it.
survives() {
	for command in check summary tidy convert progress; do
		case $command in
		convert) run convert "$1" --to csv ;;
		*) run "$command" "$1" ;;
		esac
		if [ "$status" -lt 3 ]; then
			pass
		else
			fail "$2: $command ends with status $status"
			sed 's/^/	/' "$work/err"
		fi
	done
}

# notes FOLDER STATUS: all notes of a folder, from inside it.
notes() {
	[ -d "$corpus/$1" ] || return
	cd "$corpus/$1" || exit 2
	for file in *.range; do
		[ -f "$file" ] || continue
		outputs "${file%.range}" "$2" "$1/${file%.range}"
		if [ "$1" = regress ]; then
			survives "$file" "$1/$file"
		fi
	done
}

: >"$work/none"
for folder in "$corpus"/rules/*/; do
	cd "$folder" || exit 2
	rule=rules/$(basename "$folder")
	check_findings reported.range reported.findings \
	    "$rule/reported.findings"
	if [ -f clean.findings ]; then
		check_findings clean.range clean.findings \
		    "$rule/clean.findings"
	else
		check_findings clean.range "$work/none" "$rule/clean.range"
	fi
done

notes valid 0
notes broken 1
notes demo ''
notes regress ''

echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
