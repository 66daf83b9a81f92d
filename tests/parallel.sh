#!/bin/sh
# The recipes under `Past one machine` in README.md, as they stand there, and
# those in recipes/: over-notes writes and ends as one command does, and the
# mapper note-rows gives the same rows, whatever is the matter with notes and
# jobs.
# What a job of Hadoop or Spark would do, a loop does: neither is needed.
#
# Usage: parallel.sh PROGRAM

# shellcheck source=tests/verdict.sh
. "$(dirname "$0")/verdict.sh"

if [ $# -ne 1 ]; then
	echo "usage: parallel.sh PROGRAM" >&2
	exit 2
fi
case $1 in
/*) program=$1 ;;
*) program=$PWD/$1 ;;
esac
here=$(cd "$(dirname "$0")/.." && pwd) || exit 2
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
trap 'exit 2' HUP INT TERM
cd "$work" || exit 2
mkdir bin kill half host slow many few
ln -s "$program" bin/rangeline
plain=$work/bin:$PATH
PATH=$plain
LC_ALL=C
# GNU parallel keeps what it learns of hosts in HOME, and looks for its own
# settings there and in the environment.
HOME=$work
unset PARALLEL PARALLEL_HOME PARALLEL_SHELL PARALLEL_SSH
unset XDG_CONFIG_HOME XDG_CACHE_HOME
export PATH LC_ALL HOME
demo=$here/corpus/demo/first-note.range

# What README.md shows are the blocks of the section, in this order.
awk -v out="$work/recipe." '
	/^## / { section = $0 == "## Past one machine" }
	/^```$/ { on = 0 }
	on { print >(out n) }
	section && /^```[a-z]/ { n++; on = 1 }' "$here/README.md"
test -e recipe.3 && test ! -e recipe.4 &&
	grep -q '^	parallel -0 -k -n 1000 rangeline check' recipe.1 &&
	grep -q '^over-notes notes rangeline check' recipe.2 &&
	grep -q '^over-notes notes rangeline convert' recipe.3
verdict "README.md has the three recipes"
ln -s "$here/recipes/note-rows" bin/note-rows
cp "$here/recipes/over-notes" many/
# One note a job, so that few notes make many jobs.
sed 's/ -n 1000 / -n 1 /' many/over-notes >few/over-notes
! cmp -s many/over-notes few/over-notes
verdict "over-notes deals notes out by the thousand"
chmod +x few/over-notes

# What goes wrong with the note that is named for it, where PATH begins so.
cat >kill/rangeline <<-END
	#!/bin/sh
	case \$* in
	*killed*) kill -9 \$\$ ;;
	esac
	exec "$program" "\$@"
END
cat >half/cat <<-END
	#!/bin/sh
	case \$* in
	*half*) head -n 8 "\$@"; exit 1 ;;
	esac
	exec $(command -v cat) "\$@"
END
cat >host/ssh <<-END
	#!/bin/sh
	# ssh HOST -- COMMAND...: here, and not at all where the host is down.
	# Like a login it begins at home and names a shell, without which the
	# jobs of GNU parallel do nothing and end with 0.
	test "\$1" != down || exit 255
	cd || exit 255
	on=\$1
	SHELL=/bin/sh
	export on SHELL
	shift
	test "\$1" != -- || shift
	exec bash -c "\$*"
END
cat >host/rangeline <<-END
	#!/bin/sh
	echo "\$on" >>"$work/hosts"
	exec "$program" "\$@"
END
cat >slow/rangeline <<-END
	#!/bin/sh
	case \$* in
	*slow*) sleep 2 ;;
	esac
	exec "$program" "\$@"
END
cat >slow/parallel <<-END
	#!/bin/sh
	exec timeout -s KILL 1 $(command -v parallel) "\$@"
END
chmod +x kill/* half/* host/* slow/*

# ended WANTED WHAT: $status is WANTED.
ended() {
	test "$status" -eq "$1"
	verdict "$2: $status for $1"
}

# same NAME: of one command and of many, which end with the same status.
same() {
	test -s "one.$1" && cmp "one.$1" "many.$1"
	verdict "$1: one command and many"
}

# Three jobs, and what a walk has to do with: notes in a folder called like
# one, links to a note and to a folder, hidden names, names of any bytes.
cd many || exit 2
mkdir notes
for copy in 10 11 12 13 14 15 16 17 18 19 20 21; do
	cp -R "$here/corpus" notes/$copy
done
mkdir notes/12/folder.range notes/13/.hidden
cp "$demo" notes/12/folder.range/inner.range
cp "$demo" notes/13/.hidden/unseen.range
cp "$demo" notes/13/.unseen.range
cp "$demo" "notes/14/a b'c\"d
e.range"
ln -s demo/first-note.range notes/15/link.range
ln -s demo notes/16/link.range
mv notes archive
ln -s archive notes
rangeline check --today 2026-06-01 notes >one.findings
status=$?
ended 1 "one command finds something"
bash ../recipe.1 >many.findings
same findings
PATH=$work/many:$plain
bash ../recipe.2 >many.findings
status=$?
ended 1 "many commands find it"
same findings
test "$(grep -c '^notes/12/folder.range/inner.range:14:25: ' many.findings)" = 1
verdict "a note in a folder called like one is read once"
rangeline convert --to csv notes >one.csv 2>one.unread
status=$?
ended 1 "one command cannot read something"
bash ../recipe.3 2>many.unread
status=$?
mv notes.csv many.csv
ended 1 "many commands cannot read it"
same csv
same unread
rangeline tidy notes >one.tidy 2>/dev/null
over-notes notes sh -c 'rangeline tidy "$@"' tidy >many.tidy 2>/dev/null
same tidy

# try WANTED WHAT: both recipes over few/notes, first the one that checks.
try() {
	bash ../recipe.2 >findings 2>told
	status=$?
	ended "$1" "$2, check"
	bash ../recipe.3 2>>told
	status=$?
	ended "$1" "$2, convert"
}

cd ../few || exit 2
plain=$work/few:$plain
PATH=$plain
evidence=told
try 2 "no folder"
mkdir notes
try 2 "no note"
grep -q '^over-notes: no note there$' told
verdict "no note: said"
cat >clean <<-END
	# Invented example
	subject     WR-1
	involved    none
	rater       k
	instrument  goniometer step 1
	session     2026-05-04
	knee  R A 0-131 P 0-136 soft  L A 0-132 P 0-137 soft
END
printf '#!/bin/sh\ntouch %s/ran\n' "$work" >notes/run.range
chmod +x notes/run.range
over-notes notes >/dev/null 2>told
status=$?
ended 2 "no command"
test ! -e "$work/ran" && grep -q '^usage: over-notes' told
verdict "no command: a note is not run"
rm notes/run.range
for note in 1 2 3 4 5 6 7 8 9; do
	cp clean notes/$note.range
done
try 0 "nothing to find"
test ! -s findings && test ! -s told && test "$(wc -l <notes.csv)" -eq 73
verdict "nothing to find: nothing said, a header row and 72 others"
mkfifo pipe
ln -s ../pipe notes/4a.range
try 0 "a link to a pipe is no note"
rm notes/4a.range
sed 's/knee/kneee/' clean >notes/5.range
try 1 "one job of nine finds something"
ln -s nowhere notes/6a.range
try 2 "another cannot do it"
rm notes/6a.range
cp clean notes/killed.range
try 1 "no job is killed yet"
PATH=$work/kill:$plain
try 2 "a job is killed"
PATH=$plain
grep -q '^over-notes: cut off: rangeline check .*notes/killed.range' told
verdict "a job is killed: said"
rm notes/killed.range
over-notes notes no-such-command >/dev/null 2>told
status=$?
ended 2 "no such command"

# hosts WANTED HOST,HOST: the options of README.md, another ssh.
hosts() {
	sed "s/parallel /&-S $2 --workdir . /" over-notes >over-hosts
	PATH=$work/host:$plain
	bash over-hosts notes rangeline check --jobs 1 >many.hosts 2>told
	status=$?
	PATH=$plain
	ended "$1" "hosts $2"
}

rangeline check notes >one.hosts
hosts 1 left,right
same hosts
test "$(sort -u "$work/hosts" | tr '\n' ' ')" = "left right "
verdict "both hosts have notes"
hosts 2 left,down
rm notes/5.range
cp clean notes/slow.range
PATH=$work/slow:$plain
try 2 "GNU parallel is killed"
PATH=$plain
rm notes/slow.range
bash ../recipe.2 >/dev/full 2>told
status=$?
ended 0 "a full disk, nothing to write"
ln -sf /dev/full notes.csv
bash ../recipe.3 2>told
status=$?
ended 2 "a full disk, convert"
rm notes.csv
for note in $(seq 120); do
	sed 's/knee/kneee/' clean >notes/$note.range
done
try 1 "more jobs find something than GNU parallel counts"
bash ../recipe.2 >/dev/full 2>told
status=$?
ended 2 "a full disk, check"

# The job deals a list of paths to mappers and puts the parts together.
cd "$here" || exit 2
evidence=$work/told
find corpus -name '*.range' | sort >"$work/list"
split -n l/5 "$work/list" "$work/part."
rangeline convert --to csv corpus >"$work/one.rows" 2>"$work/one.log"
status=$?
ended 1 "one command cannot read something"
rangeline convert --to csv </dev/null >"$work/many.rows"
for part in "$work"/part.*; do
	note-rows <"$part" >>"$work/many.rows" 2>>"$work/many.log"
	status=$?
	ended 0 "a mapper does not fail for it"
done
cd "$work" || exit 2
same rows
same log

# mapped WANTED WHAT: the mapper with the paths in `list`.
mapped() {
	note-rows <list >rows 2>told
	status=$?
	ended "$1" "mapper, $2"
}

cp few/clean clean.range
cp few/clean half.range
cp few/clean killed.range
cp few/clean ./-dash.range
printf 'clean.range\nhalf.range\n-dash.range\nkilled.range' >list
mapped 0 "four notes, the last line not ended"
test "$(wc -l <rows)" -eq 32
verdict "mapper: eight rows a note"
PATH=$work/kill:$plain
mapped 2 "command killed"
PATH=$plain
PATH=$work/half:$plain
mapped 2 "half a note arrives"
PATH=$plain
test "$(wc -l <rows)" -eq 8 && ! grep -q half rows
verdict "mapper: half a note gives no row"
echo nowhere.range >>list
mapped 2 "no such note"
grep -q nowhere.range told
verdict "mapper, no such note: said"

echo "$passed passed, $failed failed"
test "$failed" -eq 0
