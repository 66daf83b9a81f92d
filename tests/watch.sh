#!/bin/sh
# watch.sh PROGRAM: `check --watch` while notes are saved, as editors do it,
# with its output in a file, and on a terminal (tmux). Closes with
# `N passed, N failed`.

# shellcheck source=tests/verdict.sh
. "$(dirname "$0")/verdict.sh"

if [ $# -ne 1 ] || [ ! -x "$1" ]; then
	echo "usage: watch.sh PROGRAM" >&2
	exit 2
fi
program=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
work=$(mktemp -d) || exit 2
socket=rangeline-watch-$$
watcher=
finish() {
	test -z "$watcher" || kill "$watcher" 2>/dev/null
	tmux -L "$socket" kill-server 2>/dev/null
	chmod -R u+rwx "$work"
	rm -rf "$work"
}
trap finish EXIT
trap 'exit 2' HUP INT TERM
cd "$work" || exit 2
LC_ALL=C.UTF-8
export LC_ALL
unset SOURCE_DATE_EPOCH NO_COLOR
evidence="$work/out"

# --- a watcher whose output goes to a file ----------------------------------

start() {
	"$program" check --today 2026-06-01 --brief --watch "$@" \
		>"$work/out" 2>&1 &
	watcher=$!
}

# stop SIGNAL: ends the watcher, whose status goes to $status. One that does
# not end within ten seconds is killed, which is status 137.
stop() {
	kill "-$1" "$watcher"
	(
		sleep 10
		kill -KILL "$watcher"
	) 2>/dev/null &
	guard=$!
	wait "$watcher"
	status=$?
	kill "$guard" 2>/dev/null
	watcher=
}

rounds() {
	grep -c '^Checked' "$work/out"
}

# The last round that is finished.
last() {
	awk '$0 == "----" { text = ""; next }
		{ text = text $0 "\n" }
		/^Checked/ { done = text; text = "" }
		END { printf "%s", done }' "$work/out"
}

# until_true COMMAND...: tries it for ten seconds.
until_true() {
	tries=100
	until "$@"; do
		tries=$((tries - 1))
		test "$tries" -gt 0 || return 1
		sleep 0.1
	done
}

last_holds() {
	last | grep -q -- "$1"
}

# shows WHAT PATTERN: the last round comes to hold it.
shows() {
	until_true last_holds "$2"
	verdict "$1"
	settled
}

# settled: waits until no further round comes.
settled() {
	while before=$(rounds); sleep 0.3; [ "$(rounds)" -ne "$before" ]; do :; done
}

# quiet WHAT: no round since $before.
quiet() {
	sleep 0.4
	[ "$(rounds)" -eq "$before" ]
	verdict "$1"
}

# ended STATUS WHAT
ended() {
	[ "$status" -eq "$1" ]
	verdict "$2: status $status"
}

# --- the notes, all invented ------------------------------------------------

good() {
	cat <<-'NOTE'
		subject AB-1
		involved right elbow
		rater dk
		instrument goniometer step 1
		session 2026-05-04
		elbow R A 8-131 P 6-137 firm/soft L A 3-0-146 P 4-0-149 hard/soft
	NOTE
}

bad() {
	good
	echo "$1 R A 8-131"
}
clean='nothing at level warning or error'
unknown() {
	echo "'$1' is not a known word"
}

# --- a file -----------------------------------------------------------------

good >note.range
start note.range
shows 'a clean note' "$clean"
stop TERM
ended 0 'a clean note, SIGTERM'

start note.range
shows 'at once' "$clean"
bad elbwo >note.range
shows 'saved in place' "$(unknown elbwo)"
good >.note.range.new && mv .note.range.new note.range
shows 'saved by rename' "$clean"
mv note.range note.range~ && bad elbo >note.range
shows 'the old one renamed, a new one written' "$(unknown elbo)"
good >note.range
shows 'saved in place after all that' "$clean"
vim -u NONE -i NONE -n -es -c 'set backupcopy=no' -c 's/elbow/ebow/' -c wq \
	note.range </dev/null >/dev/null 2>&1
shows 'saved by Vim' "$(unknown ebow)"
cat note.range >/dev/null
quiet 'reading is no saving'
good >other.range
quiet 'the save of another file'
rm note.range
shows 'taken away' 'not all could be read'
good >note.range
shows 'there again' "$clean"
rm note.range
shows 'taken away again' 'note.range: No such file'
kill -INT "$watcher"
sleep 0.3
kill -0 "$watcher" 2>/dev/null
verdict 'a signal that its starter has it ignore'
stop TERM
ended 2 'a missing note, SIGTERM'
! grep -q "$(printf '\033')" out
verdict 'no escape sequence in a file'
[ "$(grep -c '^----$' out)" -eq $(($(rounds) - 1)) ]
verdict 'rounds are kept apart'

mkdir away
bad elbq >away/real.range
ln -s away/real.range link.range
start link.range
shows 'a link' "$(unknown elbq)"
good >away/real.range
shows 'what a link leads to is saved' "$clean"
bad el >away/second.range && ln -sf away/second.range link.range
shows 'a link that is set anew' "$(unknown el)"
stop TERM
ended 1 'a bad note, SIGTERM'

start later/on/note.range
shows 'a file that is not there yet' 'not all could be read'
mkdir -p later/on && good >later/on/note.range
shows 'its folders come, and it' "$clean"
rm -r later
shows 'its folders go' 'not all could be read'
mkdir -p later/on && bad elbouw >later/on/note.range
shows 'and come again' "$(unknown elbouw)"
stop TERM

# --- a folder ---------------------------------------------------------------

mkdir -p notes/may notes/.hidden
good >notes/may/one.range
start notes
shows 'a folder' "$clean"
bad twoo >notes/two.range
shows 'a new note' "notes/two.range.*$(unknown twoo)"
rm notes/two.range
shows 'a note taken away' "$clean"
mkdir -p notes/june/week && bad thre >notes/june/week/three.range
shows 'a note in a new folder' "week/three.range.*$(unknown thre)"
good >notes/june/week/three.range
shows 'saved there' "$clean"
bad fuor >notes/may/four.tmp && mv notes/may/four.tmp notes/may/four.range
shows 'a note that gets its name' "may/four.range.*$(unknown fuor)"
echo prose >notes/may/letter.txt
echo prose >notes/may/.four.range.swp
bad hiden >notes/.hidden/note.range
quiet 'what is no note, or hidden'
mv notes/may away/may
shows 'a folder moved away' "$clean"
bad gonne >away/may/one.range
quiet 'saved in a folder that was moved away'
rm -r notes
shows 'the folder itself taken away' 'notes: No such file'
mkdir notes && bad bak >notes/back.range
shows 'the folder there again' "notes/back.range.*$(unknown bak)"
stop TERM
ended 1 'a folder with a bad note, SIGTERM'

good >first.range
good >second.range
start first.range second.range
shows 'two files' "$clean"
bad secnd >second.range
shows 'the second of two is saved' "second.range.*$(unknown secnd)"
stop TERM

# --- a reader that goes away ------------------------------------------------

good >first.range
{
	timeout 10 "$program" check --watch first.range
	echo $? >code
} | grep -m 1 '^Checked' >out
status=$(cat code)
ended 0 'nobody reads any more'

# --- what cannot be watched -------------------------------------------------

refused() {
	what=$1
	shift
	timeout 10 "$program" check --watch "$@" </dev/null >out 2>&1
	status=$?
	ended 2 "$what"
	grep -q -e '--watch' out
	verdict "$what: says why"
}
refused 'standard input'
refused 'standard input by -' -
refused 'standard input beside a file' first.range -
refused 'a device' /dev/null
refused 'JSON' --format json first.range
refused 'SARIF' --format sarif first.range
timeout 10 "$program" summary --watch first.range >out 2>&1
status=$?
ended 2 'summary has no --watch'
good >blocked
timeout 10 "$program" check --watch blocked/note.range >out 2>&1 &
watcher=$!
until_true grep -q '^Checked' out
verdict 'a file where a folder should be'
stop TERM
ended 2 'a file where a folder should be'

# --- on a terminal ----------------------------------------------------------

screen() {
	tmux -L "$socket" capture-pane -p
}

screen_holds() {
	screen >"$work/out"
	grep -q -- "$1" "$work/out"
}

bad frist >first.range
tmux -L "$socket" -f /dev/null new-session -d -x 100 -y 24 \
	"echo words before; '$program' check --today 2026-06-01 --watch \
	first.range; echo status \$?; sleep 60"
until_true screen_holds 'Checked at'
verdict 'on a terminal'
screen_holds "$(unknown frist)" && ! screen_holds 'words before'
verdict 'the screen is cleared first'
good >first.range
until_true screen_holds "$clean"
verdict 'saved'
! screen_holds "$(unknown frist)" && ! screen_holds '^----$' &&
	[ "$(grep -c . out)" -eq 1 ]
verdict 'one round on the screen'
bad thrid >first.range
until_true screen_holds "$(unknown thrid)"
verdict 'saved again'
tmux -L "$socket" send-keys C-c
until_true screen_holds '^status 1$'
verdict 'Ctrl-C, the last status'

echo "$passed passed, $failed failed"
test "$failed" -eq 0
