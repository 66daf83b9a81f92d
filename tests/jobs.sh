#!/bin/sh
# Many jobs write what one writes: standard output, standard error and exit
# status are the same, byte for byte, whatever is the matter with the files.
#
# Usage: jobs.sh PROGRAM

# shellcheck source=tests/verdict.sh
. "$(dirname "$0")/verdict.sh"

if [ $# -ne 1 ]; then
	echo "usage: jobs.sh PROGRAM" >&2
	exit 2
fi
case $1 in
/*) program=$1 ;;
*) program=$PWD/$1 ;;
esac
here=$(cd "$(dirname "$0")/.." && pwd) || exit 2
work=$(mktemp -d) || exit 2
trap 'chmod -R u+rwx "$work"; rm -rf "$work"' EXIT
trap 'exit 2' HUP INT TERM
cd "$work" || exit 2
LC_ALL=C
export LC_ALL

# run NAME ARGUMENT...: NAME.out, NAME.err and NAME.status.
run() {
	name=$1
	shift
	timeout 60 "$program" "$@" </dev/null >"$name.out" 2>"$name.err"
	echo "$?" >"$name.status"
}

# same ARGUMENT...: two jobs and five do as one does.
same() {
	run one "$@" --jobs 1
	test "$(cat one.status)" -le 2
	verdict "$* --jobs 1 ends by itself"
	for jobs in 2 5; do
		run many "$@" --jobs "$jobs"
		cmp one.out many.out && cmp one.err many.err &&
			cmp one.status many.status
		verdict "$* --jobs $jobs"
	done
}

mkdir in in/empty || exit 2
for copy in 1 2 3 4 5 6; do
	cp -R "$here/corpus" "in/copy-$copy" || exit 2
done
ln -s nowhere in/copy-2/demo/dangling.range
ln -s nowhere in/copy-5/dangling.range
cp "$here/corpus/demo/first-note.range" in/copy-4/secret.range
chmod 000 in/copy-4/secret.range
mkdir clean
for copy in $(seq 300); do
	cp "$here/corpus/demo/first-note.range" "clean/$copy.range"
done
for note in clean/2*.range; do
	sed 's/pronation/pronatoin/' "$note" >"$note.new" &&
		mv "$note.new" "$note"
done

# The comparison is of use only where the files are divided in fact.
run one check --jobs 2 clean
cp one.out divided.out
if command -v strace >/dev/null; then
	strace -f -e trace=clone,clone3,fork,vfork -o trace \
		"$program" check --jobs 2 clean >/dev/null 2>&1
	test "$(grep -cE 'clone|fork' trace)" -ge 5
	verdict "300 files are divided among five children or more"
	strace -f -e trace=clone,clone3,fork,vfork -o trace \
		"$program" check --jobs 2 clean/1.range >/dev/null 2>&1
	! grep -qE 'clone|fork' trace
	verdict "one file is read without a child"
fi

today=--today=2026-06-01
same check $today in
same check $today --brief in nowhere.range in/empty clean
same check $today --format json in
same check $today --color always clean
same convert --to csv in
same convert --to csv --rows trial clean nowhere in
same summary in
same summary clean in/empty in
same summary --format csv in
same summary --format json in
same tidy in
same tidy --diff in
same tidy --verify in clean
same tidy --verify --diff clean

# No session in the first parts, and none at all: no empty line too many.
mkdir void
for copy in $(seq 150); do
	echo "# Invented: nothing was measured" >"void/$copy.range"
done
same summary void clean
same summary void
same convert --to csv void
cmp -s divided.out one.out
test "$(cat one.status)" -eq 0
verdict "notes without readings convert"

# Files are written as with one job, one that is named twice too.
cp -R clean one-place
cp -R clean many-place
(cd one-place && "$program" tidy --in-place --jobs 1 . 2>../one.err)
one=$?
(cd many-place && "$program" tidy --in-place --jobs 5 . 2>../many.err)
test "$?" -eq "$one" && cmp one.err many.err && diff -r one-place many-place &&
	! diff -rq clean many-place >/dev/null
verdict "tidy --in-place --jobs 5"
cp -R clean twice
run many tidy --in-place --jobs 5 twice twice
grep -q changed many.err
test "$?" -eq 1 && diff -r one-place twice
verdict "tidy --in-place of a folder named twice"

# Standard input and pipes are read once, in order.
for jobs in 1 5; do
	"$program" convert --to csv --jobs "$jobs" clean - clean - \
		<clean/1.range >"stdin-$jobs.out" 2>"stdin-$jobs.err"
	echo "$?" >"stdin-$jobs.status"
done
cmp stdin-1.out stdin-5.out && cmp stdin-1.err stdin-5.err &&
	cmp stdin-1.status stdin-5.status
verdict "standard input among files"

# A full disk and a reader that goes away.
for jobs in 1 2 5; do
	timeout 20 "$program" check --jobs "$jobs" clean >/dev/full 2>"full-$jobs"
	test "$?" -eq 2 && cmp full-1 "full-$jobs"
	verdict "full disk, $jobs jobs"
	{
		timeout 20 "$program" check --jobs "$jobs" in clean \
			2>"gone-$jobs"
		echo "$?" >gone.status
	} | head -c 10 >/dev/null
	test "$(cat gone.status)" -eq 2 &&
		tail -n 1 "gone-$jobs" | grep -q "cannot write the output"
	verdict "closed reader, $jobs jobs"
done

# A child that is killed while it waits for its reader: the others are read,
# and it is said. The rows are long enough to fill every pipe.
mkdir long
for copy in $(seq 40); do
	for note in "$here"/corpus/demo/*.range; do
		cat "$note"
	done >"long/$copy.part"
	for _ in $(seq 40); do
		cat "long/$copy.part"
	done >"long/$copy.range"
	rm "long/$copy.part"
done
mkfifo slow
"$program" convert --to csv --rows trial --jobs 2 long >slow 2>killed.err &
parent=$!
exec 3<slow
child=
for _ in $(seq 100); do
	child=$(pgrep -P "$parent" | head -n 1)
	test -n "$child" && break
	sleep 0.02
done
test -n "$child" && kill -KILL "$child"
verdict "a child was there to be killed"
cat <&3 >killed.out
exec 3<&-
wait "$parent"
test "$?" -eq 2 && grep -q 'reading was broken off (Killed)' killed.err &&
	test "$(grep -c 'broken off' killed.err)" -eq 1
verdict "a killed child is told"
run one convert --to csv --rows trial --jobs 1 long
test "$(wc -l <killed.out)" -lt "$(wc -l <one.out)" &&
	test "$(tail -n 1 killed.out)" = "$(tail -n 1 one.out)"
verdict "what the others read is there"

for wrong in 0 -1 2x '' 257 99999999999999999999; do
	run one check "--jobs=$wrong" clean
	test "$(cat one.status)" -eq 2 && grep -q -e --jobs one.err
	verdict "--jobs '$wrong' is refused"
done
run one progress --jobs 2 clean
test "$(cat one.status)" -eq 2
verdict "progress has one job"

echo "$passed passed, $failed failed"
test "$failed" -eq 0
