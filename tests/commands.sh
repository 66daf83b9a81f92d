#!/bin/sh
# commands.sh PROGRAM: the commands that command.sh does not go through, from
# outside: tidy, progress, guide, blank, sources, the completions.

# shellcheck source=tests/verdict.sh
. "$(dirname "$0")/verdict.sh"

case $1 in
/*) program=$1 ;;
*) program=$PWD/$1 ;;
esac
[ -x "$program" ] || exit 2
top=$(cd "$(dirname "$0")/.." && pwd) || exit 2
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
cd "$work" || exit 2
LC_ALL=C
export LC_ALL
evidence="out err"

# run STATUS ARGUMENT...: to out and err.
run() {
	want=$1
	shift
	what=$*
	timeout 20 "$program" "$@" >out 2>err </dev/null
	[ $? -eq "$want" ]
	verdict "$what: status is not $want"
}

# shows PATTERN, said PATTERN: a line of the output, of the errors.
shows() {
	grep -q -- "$1" out
	verdict "$what: no output $1"
}

said() {
	grep -q -- "$1" err
	verdict "$what: no message $1"
}

# An invented note, twice: as typed, and as tidy writes it.
cat >note.range <<'N'
subject AB-1
involved right elbow
rater dk
instrument goniometer step 1
session 2026-05-04
elbow R AROM 8-131 P 6-137 firm/soft
session 2026-05-18
elbow R A 4-138 P 2-141 firm/soft
session 2026-06-01
elbow R A 2-141 P 0-143 firm/soft
N
cp note.range typed.range

run 0 tidy note.range
cp out tidied.range
run 0 tidy --verify tidied.range
run 1 tidy --verify note.range
run 0 tidy --diff note.range
shows '^-elbow R AROM 8-131'
shows '^+elbow'
cmp -s note.range typed.range
verdict 'tidy writes no file unasked'
run 0 tidy --in-place note.range
cmp -s note.range tidied.range
verdict 'tidy --in-place writes what tidy prints'
run 2 tidy --in-place --diff note.range
said '^rangeline: '
run 2 tidy --in-place
run 2 tidy --spelling=odd note.range
run 0 tidy --spelling=short typed.range
shows '^elb  R A 8-131  P 6-137 firm/soft$'
run 0 tidy --spelling=keep typed.range
shows '^elbow  R AROM 8-131  P 6-137 firm/soft$'
run 2 tidy --in-place /dev/null
said '^rangeline: /dev/null: this is a pipe or a device, not a file'
run 2 tidy --in-place missing.range
said 'missing.range: No such file'

run 0 progress note.range
shows elbow
run 0 progress --format=csv note.range
shows '^2026-06-01\|,2026-06-01,'
run 0 progress --format=json note.range
shows '"elbow"'
run 0 progress --plot=chart.svg note.range
grep -q '<svg' chart.svg
verdict 'the chart is SVG'
cat >slip.range <<'N'
subject PX-1
session 2026-03-02
knee flexion L A 0-60
session 2026-03-09
knee flexion L A 11-8
session 2026-03-16
knee flexion L A 0-80
N
run 0 progress --plot=slip.svg slip.range
grep -q '>11-8<' slip.svg && grep -q 'at the edge: off the scale' slip.svg
verdict 'a doubtful figure stands beside its cross'
rm slip.range slip.svg
run 2 progress --plot=nowhere/chart.svg note.range
said 'nowhere/chart.svg'
run 2 progress --plot=typed.range note.range
said "--plot 'typed.range': the name of the drawing ends in .svg$"
cmp -s note.range tidied.range
verdict 'no note is taken for a drawing'
cp chart.svg first.svg
sed 7,12d chart.svg >short.svg
run 0 progress --plot=short.svg note.range
cmp -s short.svg first.svg
verdict 'a drawing replaces the one before it'
mkdir folder.svg
run 2 progress --plot=folder.svg note.range
said '^rangeline: folder.svg: this is no regular file'
run 2 progress --format=yaml note.range

run 0 guide knee flexion
shows knee
run 0 guide --format=json knee flexion
shows '^{'
run 0 guide
shows "^knee: flexion, extension$"
run 2 guide knee supination
said '^rangeline: '
run 2 guide nose flexion
said nose

run 0 blank elbow
shows elbow
run 0 blank --require=passive,end-feel elbow
shows 'require.*passive'
run 2 blank
run 2 blank nose
said nose
run 2 blank --require=nothing elbow

run 0 sources
cp out all
run 0 sources --format=csv
shows ,
run 0 sources --format=json
shows '^{'
run 0 sources AAOS
[ "$(wc -l <out)" -lt "$(wc -l <all)" ]
verdict 'one source is less than all'
run 2 sources nobody

run 2 sources AAOS AMA
said '^rangeline: sources: name one source at a time$'

run 2 language-server note.range
said 'takes no files; the editor opens them$'
"$program" language-server </ >out 2>err
[ $? -eq 2 ]
verdict 'an editor that cannot be read: status is not 2'
said 'cannot read what comes from the editor: Is a directory$'

printf 'x\n' >own.tsv
run 2 summary --reference=own.tsv note.range
said "^rangeline: own.tsv:1:1: error: the columns of this table are not parted by tabs$"

# The table of the manual's example, as it is typed.
what='the manual has an example of a table'
sed -n '/^\.Bd -literal/,/^\.Ed/p' "$top/man/rangeline.1" |
    sed -n "/printf/,/own\.tsv$/p" |
    sed 's/\\e/\\/g; s/^\$ //' >example.sh
grep -q . example.sh
verdict "$what"
sh ./example.sh
printf 'subject AB-1\nsession 2026-05-04\nelbow R A 0-120\nindex PIP R A 0-90\n' \
    >example.range
run 0 summary --reference=own.tsv example.range
shows '0-120 *139 \[1\]'
shows '0-90 *97 \['
shows '\[1\] invented_table'

# A note that cannot be read to its end, by each that reads notes.
for command in check summary 'convert --to=csv' tidy 'tidy --in-place' progress
do
	run 2 $command /proc/self/mem
	said '^rangeline: /proc/self/mem: Input/output error$'
done

# On a terminal what a terminal obeys is shown, not sent.
printf 'subject AB-1\nknee R A 0-12\033[31m0\n' >obeyed.range
what='tidy on a terminal'
script -qec "'$program' tidy obeyed.range 2>err" typescript >out </dev/null
[ $? -eq 1 ]
verdict 'tidy on a terminal: status is not 1'
printf 'subject     AB-1\r\nknee R A 0-12\357\277\275[31m0\r\n' >wanted
cmp -s out wanted
verdict 'tidy on a terminal: lines as they are, without the escape'

for shell in bash zsh fish; do
	run 0 --completion=$shell
	for command in check tidy progress guide language-server; do
		shows "$command"
	done
done
run 2 --completion=csh

echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
