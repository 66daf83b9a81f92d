#!/bin/sh
# The command itself, from outside: exit statuses, where the input comes from
# and where the output goes, options, names of files, the day it takes for
# today. What a note means is the business of golden.sh.
#
# Usage: command.sh PROGRAM

# shellcheck source=tests/verdict.sh
. "$(dirname "$0")/verdict.sh"

if [ $# -ne 1 ]; then
	echo "usage: command.sh PROGRAM" >&2
	exit 2
fi
program=$1
case $program in
/*) ;;
*/*) program=$PWD/$program ;;
*) program=$(command -v "$program") || exit 2 ;;
esac
if [ ! -x "$program" ]; then
	echo "command.sh: $1 is no program" >&2
	exit 2
fi

here=$(cd "$(dirname "$0")" && pwd) || exit 2
work=$(mktemp -d) || exit 2
trap 'chmod -R u+rwx "$work"; rm -rf "$work"' EXIT
trap 'exit 2' HUP INT TERM
cd "$work" || exit 2
mkdir in || exit 2

LC_ALL=C
export LC_ALL
unset SOURCE_DATE_EPOCH NO_COLOR

evidence="$work/diff"
longest=20 # seconds that one run may take

# run STATUS WHAT ARGUMENT...: standard input from $work/stdin, output and
# errors to $work/out and $work/err.
run() {
	want=$1
	what=$2
	shift 2
	timeout "$longest" "$program" "$@" <"$work/stdin" >"$work/out" \
	    2>"$work/err"
	status "$want" "$?"
}

# status WANTED GOT: a status of 124 is a run that had to be ended.
status() {
	{
		printf -- '-status %s\n+status %s\n' "$1" "$2"
		cat "$work/err"
	} >"$work/diff"
	[ "$1" -eq "$2" ]
	verdict "$what: status"
}

# out, err: the output, the errors of the last run are standard input's.
out() {
	diff -u --label expected --label printed - "$work/out" >"$work/diff"
	verdict "$what: output"
}

err() {
	diff -u --label expected --label printed - "$work/err" >"$work/diff"
	verdict "$what: errors"
}

# said PATTERN: a line of the errors holds it. Its words may change.
said() {
	{ echo "no line of the errors holds: $1"; cat "$work/err"; } \
	    >"$work/diff"
	grep -q -- "$1" "$work/err"
	verdict "$what: errors"
}

# shows PATTERN, shows_not PATTERN: the same of the output.
shows() {
	{ echo "no line of the output holds: $1"; cat "$work/out"; } \
	    >"$work/diff"
	grep -q -- "$1" "$work/out"
	verdict "$what: output"
}

shows_not() {
	{ echo "the output holds: $1"; cat "$work/out"; } >"$work/diff"
	! grep -q -- "$1" "$work/out"
	verdict "$what: output"
}

# stdin: standard input of the runs to come.
stdin() {
	cat >"$work/stdin"
}

# --- the notes, all invented ------------------------------------------------

head='subject AB-1
involved right elbow
rater dk
instrument goniometer step 1
session 2026-05-04'
good='elbow R A 8-131 P 6-137 firm/soft L A 3-0-146 P 4-0-149 hard/soft'
note() {
	printf '%s\n%s\n' "$head" "$good"
}
note >clean.range
{ note; echo 'elbow R A 8-13x'; } >lost.range
printf '%s\n%s\n' "$head" \
    'elbow R A 8-131 P 6-119 firm/soft L A 0-146 P 0-149 hard/soft' \
    >doubt.range
{ note; echo 'elbow flexion R A 8-167 with visual'; } >warn.range
stdin </dev/null

# --- statuses ---------------------------------------------------------------

today='--today 2026-06-01'
# $today is two words.
# shellcheck disable=SC2086
{
	run 0 'check, nothing to report' check $today clean.range
	out </dev/null
	err </dev/null

	run 1 'check, an error' check $today --brief lost.range
	out <<'E'
lost.range:7:11: error: '8-13x': letters in a number [number-form]
E
	err </dev/null

	run 1 'check, a warning' check $today --brief warn.range
	shows 'warn.range:7:19: warning: .*\[unusual-angle\]$'

	run 0 'convert, nothing lost' convert --to csv $today warn.range
	err </dev/null
	run 1 'convert, a line lost' convert --to csv $today lost.range
	said '^lost.range:7:11: error: .*\[number-form\]$'
	run 0 'summary, nothing lost' summary $today warn.range
	err </dev/null
	run 1 'summary, a line lost' summary $today lost.range
	said '^lost.range:7:11: error: .*\[number-form\]$'

	run 2 'a missing file' check $today missing.range
	out </dev/null
	err <<'E'
rangeline: missing.range: No such file or directory
E
	run 2 'a missing file before a bad one' check $today --brief \
	    missing.range lost.range
	shows 'lost.range:7:11: error'
	run 2 'a missing file behind a bad one' convert --to csv $today \
	    lost.range missing.range
	shows '^2026-05-04,.*,lost.range,6'
	said 'missing.range: No such file'
	run 0 'two notes' check $today clean.range clean.range
	run 1 'a bad note before a clean one' check $today lost.range \
	    clean.range
	run 1 'a bad note behind a clean one' check $today clean.range \
	    lost.range
}

# Root reads everything, so there this cannot be tried.
cp clean.range locked.range
chmod 000 locked.range
if [ ! -r locked.range ]; then
	run 2 'a file that may not be read' check --today 2026-06-01 \
	    locked.range clean.range
	said 'locked.range: Permission denied'
fi

# --- standard input ---------------------------------------------------------

stdin <lost.range
run 1 'no file' check --today 2026-06-01 --brief
shows '^-:7:11: error: '
run 1 'the file -' check --today 2026-06-01 --brief -
shows '^-:7:11: error: '
run 1 'standard input by name' check --today 2026-06-01 --brief \
    --stdin-name room1.range
shows '^room1.range:7:11: error: '
run 1 'standard input by name in rows' convert --to csv \
    --stdin-name room1.range -
shows ',room1.range,6'
said '^room1.range:7:11: error: '
run 1 'a file and standard input' convert --to csv clean.range -
shows ',clean.range,6'
shows ",'-,6"
stdin </dev/null
run 0 'empty input' check
out </dev/null
run 0 'empty input, rows' convert --to csv
{
	printf 'session,time,label,subject,age,sex,joint,motion,setting,'
	printf 'position,side,mode,kind,start,end,arc,unit,trials,spread,'
	printf 'pain,pain_onset,painful_arc,end_feel,stopped_by,'
	printf 'repetitions,involved,rater,instrument,remark,findings,file,'
	printf 'line\r\n'
} | out
run 0 'rows of trials have their number behind trials' convert --to csv \
    --rows trial
shows ',unit,trials,trial,spread,'

what='closed standard input'
timeout "$longest" "$program" check <&- >out 2>err
status 2 $?
said '^rangeline: -: '

# --- where the output cannot go ---------------------------------------------

# Three thousand persons: more than any buffer on the way holds.
i=0
while [ $i -lt 3000 ]; do
	cat lost.range
	i=$((i + 1))
done >many.range

for command in 'check --brief' 'check --format json' 'convert --to csv' \
    summary rules '--help' '--version' 'check --help'; do
	what="$command to a full disk"
	case $command in
	*help | --version | rules) files= ;;
	*) files=lost.range ;;
	esac
	# shellcheck disable=SC2086
	timeout "$longest" "$program" $command $files >/dev/full 2>err
	status 2 $?
	said 'cannot write the output: No space left on device'
done
for command in 'check --brief' 'convert --to csv' summary; do
	what="$command to a reader that goes away"
	# shellcheck disable=SC2086
	{
		timeout "$longest" "$program" $command many.range 2>err
		echo $? >code
	} | head -n 1 >out
	status 2 "$(cat code)"
	said 'cannot write the output: Broken pipe'
done
what='closed standard output'
timeout "$longest" "$program" check lost.range >&- 2>err
status 2 $?
said 'cannot write the output: '

# --- folders ----------------------------------------------------------------

mkdir -p all/b all/a.range all/.hidden all/b-c empty/deep
for at in all/b/z.range all/a.range/1.range all/.hidden/no.range \
    all/B.range all/.dot.range all/b.range all/b-c/q.range; do
	cp lost.range $at
done
cp lost.range all/other.txt
mkdir linked
cp lost.range linked/no.range
ln -s ../linked all/link
ln -s ../linked all/folder.range
ln -s other.txt all/c.range
run 1 'a folder, in byte order of path' check --today 2026-06-01 --brief all
sed -n 's/^\([^:]*\):7:11: error: .*/\1/p' out >paths
mv paths out
out <<'E'
all/B.range
all/a.range/1.range
all/b-c/q.range
all/b.range
all/b/z.range
all/c.range
E
run 1 'a folder with a slash' check --today 2026-06-01 --brief all/
shows '^all/b/z.range:7:11: '
run 1 'a folder that is called like a note' check --today 2026-06-01 \
    --brief all/a.range
shows '^all/a.range/1.range:7:11: '
run 1 'a note without the ending, by name' check --today 2026-06-01 --brief \
    all/other.txt
shows '^all/other.txt:7:11: '
run 2 'a folder without notes' check empty
said 'empty: .*range'
run 2 'a folder without notes beside one with' check --today 2026-06-01 \
    --brief empty all
shows '^all/b.range:7:11: '
run 2 'all notes of it hidden' check all/.hidden/../../empty/
ln -s nowhere all/gone.range
run 2 'a link to nothing' check --today 2026-06-01 --brief all
said 'all/gone.range: No such file'
shows '^all/c.range:7:11: '
rm all/gone.range

# --- names of files ---------------------------------------------------------

nl='a
b.range'
cp lost.range "$nl"
run 1 'a line feed in a name' check --today 2026-06-01 --brief "$nl"
[ "$(wc -l <out)" -eq 1 ]
verdict 'a line feed in a name: one finding, one line'
run 1 'a line feed in a name, in JSON' check --today 2026-06-01 \
    --format json "$nl"
shows '^{"file":"a\\nb.range","line":7,"column":11,'
run 1 'a line feed in a name, in rows' convert --to csv "$nl"
shows '^b.range",6'
odd=$(printf 'x\377\033[31m.range')
cp lost.range "$odd"
run 1 'a name that is no UTF-8' check --today 2026-06-01 --brief "$odd"
shows_not "$(printf '\033')"
iconv -f UTF-8 -t UTF-8 out >/dev/null 2>"$work/diff"
verdict 'a name that is no UTF-8: the output is'
run 1 'a name that is no UTF-8, in JSON' check --today 2026-06-01 \
    --format json "$odd"
iconv -f UTF-8 -t UTF-8 out >/dev/null 2>"$work/diff"
verdict 'a name that is no UTF-8, in JSON: the output is'
run 2 'a missing file with escapes in its name' check "$(printf 'n\033[1m')"
: >"$work/diff"
! grep -q "$(printf '\033')" err
verdict 'a missing file with escapes in its name: none reach the terminal'
cp lost.range ./-dash.range
run 2 'the same without' check -dash.range
said "^rangeline: check: '-dash.range' is taken for an option: write ./ before"
run 2 'a letter that is no option' check lost.range -v -x
said "^rangeline: check has no option -v$"
run 2 'several' check lost.range --brief -verbose
said "^rangeline: check has no option -verbose$"
run 1 'a name that begins with a dash' check --today 2026-06-01 --brief -- \
    -dash.range
shows '^-dash.range:7:11: '
run 1 'the same by its folder' check --today 2026-06-01 --brief ./-dash.range
shows '^./-dash.range:7:11: '

# --- pipes and devices ------------------------------------------------------

mkfifo pipe.range
run 2 'a pipe that nobody writes' check pipe.range
said '^rangeline: pipe.range: a pipe into which nobody writes'
out </dev/null
timeout "$longest" sh -c 'cat lost.range >pipe.range' &
run 1 'a pipe that somebody writes' check --today 2026-06-01 --brief pipe.range
wait $!
shows '^pipe.range:7:11: '
run 0 'an empty device' check /dev/null

# --- marks of the text that mean nothing ------------------------------------

run 0 'rows' convert --to csv clean.range
mv out rows
for kind in bom crlf both last; do
	cp clean.range plain.range
	case $kind in
	bom) { printf '\357\273\277'; cat clean.range; } >plain.range ;;
	crlf) sed "s/\$/$(printf '\r')/" clean.range >plain.range ;;
	both)
		{
			printf '\357\273\277'
			sed "s/\$/$(printf '\r')/" clean.range
		} >plain.range
		;;
	last) printf %s "$(cat clean.range)" >plain.range ;;
	esac
	mkdir same
	mv plain.range same/clean.range
	cd same || exit 2
	run 0 "the same rows: $kind" convert --to csv clean.range
	cd ..
	out <rows
	run 0 "nothing to report: $kind" check --today 2026-06-01 \
	    same/clean.range
	out </dev/null
	rm -r same
done

# --- options ----------------------------------------------------------------

# wrong ARGUMENT...: status 2, a message, no output.
wrong() {
	run 2 "rangeline $*" "$@"
	out </dev/null
	said '^rangeline: '
}
wrong
wrong chekc
wrong check --levl
wrong check -x clean.range
wrong check --brief=yes clean.range
wrong check --today
wrong check --today 2026-02-30 clean.range
wrong check --today 4.5.2026 clean.range
wrong check --tolerance five clean.range
wrong check --tolerance -1 clean.range
wrong check --tolerance 91 clean.range
wrong check --tolerance '' clean.range
for figure in 0x10 1e1 5. .5 1.2.3 '5 ' nan; do
	wrong check --tolerance "$figure" clean.range
done
wrong check --level unusual-angle clean.range
wrong check --level unusual-angle= clean.range
wrong check --level unusual-angle=loud clean.range
wrong check --level no-such-rule=off clean.range
for rule in syntax unknown-word motion-not-of-joint side-not-of-motion \
    number-form ambiguous-extension date-form open-quote encoding \
    line-too-long; do
	wrong check --level $rule=off lost.range
	wrong check --level $rule=error lost.range
done
wrong check --format yaml clean.range
wrong check --format '' clean.range
wrong check --color blue clean.range
wrong check --rows trial clean.range
wrong convert clean.range
wrong convert --to xls clean.range
said "--to 'xls': it can only be csv (JSON comes from"
wrong convert --to csv --rows half clean.range
said "--rows 'half': it can only be reading (the default) or trial"
wrong convert --to csv --level unusual-angle=off clean.range
wrong summary --format yaml clean.range
wrong summary --source nobody clean.range
said "'nobody': there is no such source of usual values$"
said "^Try 'rangeline sources', which lists them.$"
wrong summary --source Hancock2018 clean.range
said "'Hancock2018': this source has no usual values$"
wrong summary --reference missing.tsv clean.range
wrong rules no-such-rule
# Two options begin so: neither is meant.
wrong check --to 2026-06-01 clean.range
wrong summary --s AAOS clean.range

run 0 'the beginning of an option' check --tod 2026-06-01 clean.range
run 0 'options behind files' check clean.range --today 2026-06-01 --brief
run 2 'options behind --' check --today 2026-06-01 -- --brief
said '^rangeline: --brief: No such file'
run 0 'a tolerance with a decimal' check --tolerance 2.5 clean.range
run 0 'the version behind a command' check --version
shows '^rangeline [0-9]'
for words in --help --version 'check --help' 'summary --help' \
    'convert --help' 'rules --help' rules 'rules syntax' \
    'rules unusual-angle precaution-exceeded'; do
	# shellcheck disable=SC2086
	run 0 "rangeline $words" $words
	shows .
	err </dev/null
done
# Every option that a command's help lists stands in the manual page.
page=$here/../man/rangeline.1
for command in check summary convert; do
	run 0 "help of $command" "$command" --help
	sed -n 's/^  --\([a-z-]*\).*/\1/p' out >options
	while read -r option; do
		echo "man/rangeline.1 does not have $option" >"$work/diff"
		grep -q -- "Fl -$option" "$page"
		verdict "--$option of $command in the manual page"
	done <options
done

run 0 'help names every command' --help
for command in check summary convert rules; do
	shows "^  $command  "
done

# --- levels, tolerance, the day ---------------------------------------------

run 1 'as the catalogue has it' check --today 2026-06-01 --brief doubt.range
shows 'doubt.range:6:17: warning: .*\[passive-below-active\]$'
run 0 'a warning lowered' check --today 2026-06-01 --brief \
    --level passive-below-active=note doubt.range
shows 'doubt.range:6:17: note: .*\[passive-below-active\]$'
run 1 'a warning raised' check --today 2026-06-01 --brief \
    --level passive-below-active=error doubt.range
shows 'doubt.range:6:17: error: .*\[passive-below-active\]$'
run 0 'a warning off' check --today 2026-06-01 --brief \
    --level=passive-below-active=off doubt.range
out </dev/null
run 0 'the last level counts' check --today 2026-06-01 --brief \
    --level passive-below-active=error --level passive-below-active=off \
    doubt.range
# Without a rater the finding is a note, whatever the catalogue says of others.
printf 'session 2026-05-04\nknee R A 0-120\n' >bare.range
run 1 'no rater is a note' check --today 2026-06-01 --brief bare.range
shows ' note: no rater.*\[missing-header\]$'
run 1 'a level that is the one of the catalogue' check --today 2026-06-01 \
    --brief --level missing-header=warning bare.range
shows ' warning: no rater.*\[missing-header\]$'
# Four causes at one place are four findings.
for cause in subject 'involved line' rater instrument; do
	shows "bare.range:1:9: warning: no $cause"
done
run 0 'a tolerance that covers it' check --today 2026-06-01 --brief \
    --tolerance 15 doubt.range
shows 'doubt.range:6:17: note: .*\[passive-just-below-active\]$'
run 1 'no tolerance at all' check --today 2026-06-01 --brief --tolerance 0 \
    doubt.range
shows '\[passive-below-active\]$'

run 1 'a session after today' check --today 2026-05-03 --brief clean.range
shows 'clean.range:5:9: warning: .*\[future-date\]$'
run 0 'a session today' check --today 2026-05-04 --brief clean.range
# epoch SECONDS STATUS WHAT: 1777852800 is 2026-05-04T00:00:00Z.
epoch() {
	SOURCE_DATE_EPOCH=$1
	export SOURCE_DATE_EPOCH
	shift
	run "$@"
	unset SOURCE_DATE_EPOCH
}
epoch 1777852799 1 'the second before the day' check --brief clean.range
shows '\[future-date\]$'
epoch 1777852800 0 'the first second of the day' check --brief clean.range
epoch 0 0 'the option before the variable' check --today 2026-05-04 \
    clean.range
printf 'session 9998-05-04\nknee R A 0-120\n' >far-off.range
epoch 185542587187200 1 'a day that cannot be written is not today' check \
    --brief far-off.range
shows 'later than today, [0-9]\{4\}-[0-9]'
epoch 1777852799 1 'time zones do not count' check --brief clean.range

# --- colour -----------------------------------------------------------------

escape=$(printf '\033')
run 1 'not to a file' check --today 2026-06-01 lost.range
shows_not "$escape"
cp out plain
run 1 'never' check --today 2026-06-01 --color=never lost.range
out <plain
run 1 'always' check --today 2026-06-01 --color=always lost.range
shows "$escape\\["
sed "s/$escape\\[[0-9;]*[mK]//g" out >bare
mv bare out
out <plain
NO_COLOR=1
export NO_COLOR
run 1 'always wins' check --today 2026-06-01 --color=always lost.range
shows "$escape\\["
unset NO_COLOR
run 1 'JSON has none' check --today 2026-06-01 --color=always \
    --format json lost.range
shows_not "$escape"

# terminal VARIABLE...: the same run on a terminal of its own.
terminal() {
	timeout "$longest" python3 -c '
import os, pty, sys
os.environ.update(a.split("=", 1) for a in sys.argv[2:])
pty.spawn([sys.argv[1], "check", "--today", "2026-06-01", "lost.range"])
' "$program" "$@" >out 2>err </dev/null
}
if command -v python3 >/dev/null; then
	what='colour on a terminal'
	terminal TERM=xterm
	shows "$escape\\["
	what='NO_COLOR on a terminal'
	terminal TERM=xterm NO_COLOR=1
	shows 'number-form'
	shows_not "$escape"
	what='an empty NO_COLOR does not count'
	terminal TERM=xterm NO_COLOR=
	shows "$escape\\["
	what='a dumb terminal'
	terminal TERM=dumb
	shows 'number-form'
	shows_not "$escape"
fi

# --- findings ---------------------------------------------------------------

run 1 'a finding in full' check --today 2026-06-01 lost.range
shows '^lost.range:7:11: error: '
sed -n 2,3p out >lines
mv lines out
out <<'E'
    elbow R A 8-13x
              ^~~~~
E
printf '%s\n%s\n' "$head" "	elbow	R	A	8-13x" >tab.range
run 1 'tabs' check --today 2026-06-01 --brief tab.range
shows '^tab.range:6:12: error: '
{ printf '%s\nremark "%s" elbow\n' "$head" 'größer als größer'; } >wide.range
run 1 'columns in bytes' check --today 2026-06-01 --brief wide.range
shows '^wide.range:6:32: error: '
run 1 'no finding said in two lines' check --today 2026-06-01 --brief \
    many.range
grep -vn '^many.range:[0-9]*:[0-9]*: [a-z]*: .* \[[a-z-]*\]$' out >"$work/diff"
[ ! -s "$work/diff" ]
verdict 'every line of --brief has the form of a finding'

# A command that only reads gives up what it does not need before it reads; one
# that writes files does not. It waits for its standard input meanwhile.
# confined WANT ARGUMENT...: WANT is 2 (a filter of system calls) or 0.
confined() {
	want=$1
	shift
	mkfifo input
	"$program" "$@" <input >/dev/null 2>&1 &
	process=$!
	exec 4>input
	got=
	for _ in 1 2 3 4 5 6 7 8 9 10; do
		got=$(sed -n 's/^Seccomp:[[:space:]]*//p' "/proc/$process/status")
		[ "$got" = 2 ] && break
		sleep 0.02
	done
	exec 4>&-
	wait "$process"
	rm input
	echo "Seccomp is '$got', not $want" >"$work/diff"
	[ "$got" = "$want" ]
	verdict "confined: $*"
}

# Only where the system has such filters; the build that counts what is reached
# writes as it ends, so `make cover` says UNCONFINED.
if [ -z "${UNCONFINED-}" ] &&
	grep -q '^Seccomp_filters' /proc/self/status 2>/dev/null; then
	confined 2 check -
	confined 2 summary -
	confined 2 convert --to csv -
	confined 2 tidy -
	confined 2 progress -
	confined 2 language-server
	confined 0 progress --plot drawing.svg -
fi

echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
