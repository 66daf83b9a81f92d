#!/bin/sh
# files.sh PROGRAM: files, names, readers and terminals that are not as they
# should be. Every note is invented. Closes with `N passed, N failed`.

here=$(cd "$(dirname "$0")" && pwd) || exit 2
case $1 in
/*) program=$1 ;;
*) program=$PWD/$1 ;;
esac
if [ $# -ne 1 ] || [ ! -x "$program" ]; then
	echo "usage: files.sh PROGRAM" >&2
	exit 2
fi
work=$(mktemp -d) || exit 2
mounted=
trap 'test -z "$mounted" || umount "$work/small"; rm -rf "$work"' EXIT
# Somebody else may have to come in.
chmod 755 "$work"
cp "$program" "$work/rangeline" || exit 2
program=$work/rangeline
cd "$work" || exit 2
python=$(command -v python3)
NO_COLOR=1
export NO_COLOR
passed=0
failed=0
what=
code=0

# holds TEST...: one check, of what $what says.
holds() {
	if "$@" >"$work/why" 2>&1; then
		passed=$((passed + 1))
	else
		failed=$((failed + 1))
		echo "$what: not so: $*"
		head -n 5 "$work/why"
		head -n 5 "$work/err"
	fi
}

# run WHAT ARGUMENT...
run() {
	what=$1
	shift
	timeout 30 "$program" "$@" >out 2>err </dev/null
	code=$?
}
status() { holds test "$code" -eq "$1"; }
said() { holds grep -q "$1" err; }
# The folder holds these names and no other.
only() {
	folder=$1
	shift
	holds test "$(ls -A "$folder")" = "$(printf '%s\n' "$@")"
}

# as_other COMMAND...: without the rights of root.
as_other() {
	if [ "$(id -u)" -eq 0 ]; then
		setpriv --reuid=65534 --regid=65534 --clear-groups "$@"
	else
		"$@"
	fi
}

cat >loose.range <<'N'
# Invented example
subject   XF-1
involved right knee
rater qq
instrument goniometer step 1
session 2026-05-04
knee  R A   5-118   P 3-122 firm L A 0-136 P 0-140 soft
N
"$program" tidy loose.range >tidied.range
what='the note is not tidy yet'
holds sh -c '! cmp -s loose.range tidied.range'

# --- where the output cannot go ----------------------------------------------

# Three thousand persons: more than any buffer on the way holds.
awk '{ line[NR] = $0 }
END {
	for (i = 0; i < 3000; i++)
		for (k = 1; k <= NR; k++) {
			text = line[k]
			sub(/XF-1/, "XF-" i, text)
			print text
		}
}' loose.range >many.range
for command in tidy 'tidy --diff' progress 'progress --format json' \
	'summary --format csv' 'guide knee flexion' 'blank hand' sources; do
	case $command in
	guide* | blank* | sources) file= ;;
	*) file=many.range ;;
	esac
	what="$command to a full disk"
	# shellcheck disable=SC2086
	timeout 30 "$program" $command $file >/dev/full 2>err
	code=$?
	status 2
	said '^rangeline: cannot write the output: No space left on device'
	test -n "$file" || continue
	what="$command to a reader that goes away"
	# shellcheck disable=SC2086
	{
		timeout 30 "$program" $command $file 2>err
		echo $? >code
	} | head -n 1 >out
	code=$(cat code)
	status 2
	said '^rangeline: cannot write the output: Broken pipe'
done
what='a limit to the size of files'
# shellcheck disable=SC2016
timeout 30 sh -c 'ulimit -f 8; exec "$1" tidy many.range' - "$program" \
	>out 2>err
code=$?
status 2
said '^rangeline: cannot write the output: File too large'
what='a server that cannot answer'
body='{"jsonrpc":"2.0","id":1,"method":"initialize","params":{"capabilities":{}}}'
printf 'Content-Length: %d\r\n\r\n%s' "${#body}" "$body" >asks
timeout 30 "$program" language-server <asks >/dev/full 2>err
code=$?
status 2
said '^rangeline: language-server: cannot write to the editor: No space'
what='a server that cannot read'
timeout 30 "$program" language-server <. >out 2>err
code=$?
status 2
said '^rangeline: language-server: cannot read what comes from the editor: '

# --- a note that cannot be replaced ------------------------------------------

loosen() { sed 's/ R A / R  A   /' tidied.range >"$1"; }
mkdir small
if mount -t tmpfs -o size=64k,mode=755 none small 2>/dev/null; then
	mounted=1
	loosen small/a.range
	head -c 100000 /dev/zero >small/fill 2>/dev/null
	cp small/a.range before
	run 'a disk that is full' tidy --in-place small/a.range
	status 2
	said '^rangeline: small/a.range: cannot .*: No space left on device'
	holds cmp before small/a.range
	only small a.range fill
	umount small && mounted=
fi
mkdir locked
loosen locked/a.range
chmod 644 locked/a.range
chmod 555 locked
cp locked/a.range before
# Its bytes may be written, but no file made beside it.
test "$(id -u)" -ne 0 || chown 65534 locked locked/a.range
what='a folder in which nothing may be made'
as_other timeout 30 "$program" tidy --in-place locked/a.range >out 2>err
code=$?
status 2
said '^rangeline: locked/a.range: cannot make a temporary file in the same'
holds cmp before locked/a.range
only locked a.range
chmod 755 locked
chmod 444 locked/a.range
what='a file that may only be read'
as_other timeout 30 "$program" tidy --in-place locked/a.range >out 2>err
code=$?
status 2
said '^rangeline: locked/a.range: cannot write the file: Permission denied'
holds cmp before locked/a.range
only locked a.range
chmod 000 locked/a.range
what='a file that may not be read beside one that may'
loosen locked/b.range
test "$(id -u)" -ne 0 || chown 65534 locked/b.range
as_other timeout 30 "$program" tidy --in-place locked/a.range locked/b.range \
	>out 2>err
code=$?
status 2
said '^rangeline: locked/a.range: Permission denied'
holds cmp tidied.range locked/b.range
chmod 644 locked/a.range

mkdir links
loosen links/a.range
ln -s a.range links/b.range
ln -s b.range links/c.range
run 'a link to a link to a note' tidy --in-place links/c.range
status 0
holds test "$(readlink links/c.range)" = b.range
holds test "$(readlink links/b.range)" = a.range
holds cmp tidied.range links/a.range
only links a.range b.range c.range

mkdir hard
loosen hard/a.range
ln hard/a.range hard/b.range
cp hard/a.range before
run 'a note with two names' tidy --in-place hard/a.range
status 2
said '^rangeline: hard/a.range: the same file stands under another name too'
holds cmp before hard/a.range
holds test hard/a.range -ef hard/b.range
only hard a.range b.range
cat tidied.range >hard/a.range
run 'a tidy note with two names' tidy --in-place hard
status 0
holds test hard/a.range -ef hard/b.range

# Who may read it by its list, and who may not, does not change.
loosen listed.range
chmod 660 listed.range
what='a note with an access list'
if "$python" - listed.range 2>why <<'P'
import os, struct, sys

# Owner rw, user 65534 r, the group nothing, mask rw, others nothing.
entries = [(1, 6, -1), (2, 4, 65534), (4, 0, -1), (16, 6, -1), (32, 0, -1)]
acl = struct.pack("<I", 2) + b"".join(
    struct.pack("<HHI", tag, rights, who & 0xFFFFFFFF)
    for tag, rights, who in entries)
os.setxattr(sys.argv[1], "system.posix_acl_access", acl)
os.setxattr(sys.argv[1], "user.kept", b"yes")
P
then
	list() {
		"$python" -c 'import os, sys
for name in sorted(os.listxattr(sys.argv[1])):
    print(name, os.getxattr(sys.argv[1], name))' listed.range
	}
	list >before
	run "$what" tidy --in-place listed.range
	status 0
	holds cmp tidied.range listed.range
	list >out
	holds cmp before out
	holds grep -q access out
fi
mkdir lists
loosen lists/a.range
chmod 640 lists/a.range
what='a list that the folder gives to new files is not given to a note'
if "$python" - lists 2>why <<'P'
import os, struct, sys

entries = [(1, 7, -1), (2, 6, 65534), (4, 0, -1), (16, 7, -1), (32, 0, -1)]
acl = struct.pack("<I", 2) + b"".join(
    struct.pack("<HHI", tag, rights, who & 0xFFFFFFFF)
    for tag, rights, who in entries)
os.setxattr(sys.argv[1], "system.posix_acl_default", acl)
P
then
	run "$what" tidy --in-place lists/a.range
	status 0
	holds cmp tidied.range lists/a.range
	holds test "$(stat -c %a lists/a.range)" = 640
	holds "$python" -c 'import os
assert "system.posix_acl_access" not in os.listxattr("lists/a.range")'
fi
what='nothing goes into the note that is written'
loosen closed.range
echo 'knee R A 5-1x8' >>closed.range
sed -n '$p' closed.range | cat tidied.range - >before
"$program" tidy --in-place closed.range <&- >&- 2>&-
code=$?
holds cmp before closed.range

# --- links out of a folder, and what is no file ------------------------------

mkdir walked outside walked/below
loosen outside/secret.range
cp outside/secret.range before
ln -s ../outside/secret.range walked/a.range
ln -s "$work/outside/secret.range" walked/below/b.range
ln -s ../../walked-not/c.range walked/below/c.range
mkdir walked-not
loosen walked-not/c.range
sed 's/XF-1/XF-2/' loose.range >walked/d.range
ln -s ../d.range walked/below/e.range
for command in 'check --brief' 'convert --to csv' 'tidy --in-place' tidy; do
	# shellcheck disable=SC2086
	run "$command: links out of a folder" $command walked
	status 2
	for link in a below/b below/c; do
		said "^rangeline: walked/$link.range: this link leads out of"
	done
	holds test "$(wc -l <err)" -eq 3
	test "$command" = 'tidy --in-place' || holds sh -c '! grep -q XF-1 out'
	holds cmp before outside/secret.range
	holds cmp before walked-not/c.range
done
run 'a link that stays in its folder' convert --to csv walked
holds test "$(grep -c 'walked/d.range,' out)" -eq 8
holds test "$(grep -c 'walked/below/e.range,' out)" -eq 8
run 'a link out of a folder, named' convert --to csv walked/a.range
status 0
holds grep -q 'XF-1,.*walked/a.range,' out
ln -s walked way
rm walked/a.range walked/below/[bc].range
run 'a folder by a link to it' convert --to csv way
status 0
holds test "$(grep -c ',way/' out)" -eq 16
run 'a link from one named folder to another' convert --to csv walked walked-not
status 0
ln -s ../walked-not/c.range walked/c.range
run 'a link from one named folder to another' convert --to csv walked walked-not
status 0
holds test "$(grep -c 'walked/c.range,' out)" -eq 8
run 'the same where the other is not named' convert --to csv walked
status 2
rm walked/c.range
mkfifo walked/f.range
ln -s /dev/zero walked/z.range
ln -s f.range walked/g.range
what='a pipe in a folder is left to its readers'
{
	timeout 20 sh -c 'exec 2>&1; cat loose.range >walked/f.range'
	echo $? >code
} &
sleep 0.2
run 'a pipe and a device in a folder' check walked
status 2
said '^rangeline: walked/f.range: this is a pipe or a device, not a file'
said '^rangeline: walked/g.range: this is a pipe or a device, not a file'
said '^rangeline: walked/z.range: this link leads out of the folder'
cat walked/f.range >out
wait
code=$(cat code)
status 0
holds cmp loose.range out

# Who is to write into the pipe waits until the folder has been looked through.
mkdir -p moved/below
cp walked/d.range moved/below/secret.range
cp walked/d.range moved/e.range
mkfifo late
timeout 20 sh -c 'exec 3>late
	mv moved/below moved/.was
	ln -s ../outside moved/below
	ln -sf ../outside/secret.range moved/e.range
	cat loose.range >&3' &
run 'links put there meanwhile' convert --to csv late moved
wait
status 2
for name in below/secret e; do
	said "^rangeline: moved/$name.range: since the folder was looked through"
done
holds test "$(wc -l <err)" -eq 2
holds test "$(grep -c ',late,' out)" -eq 8
holds sh -c '! grep -q ,moved/ out'

# A folder whose way there may not be gone again.
mkdir -p shut/in
cp tidied.range shut/in/a.range
chmod 755 shut/in && chmod 644 shut/in/a.range
test "$(id -u)" -ne 0 || chown -R 65534 shut
what='a folder below one that may not be entered'
# shellcheck disable=SC2016
as_other sh -c 'cd shut/in && chmod 000 .. && exec timeout 20 "$1" tidy .' - \
	"$program" >out 2>err
code=$?
chmod 755 shut
status 0
holds cmp out tidied.range

# --- pipes -------------------------------------------------------------------

mkfifo pipe.range
run 'a pipe cannot be replaced' tidy --in-place pipe.range
status 2
said '^rangeline: pipe.range: this is a pipe or a device, not a file'
holds test -p pipe.range

# late COMMAND: it, half a second later, and not for ever.
late() { timeout 20 sh -c "sleep 0.5; $1" & }

late 'cat loose.range >pipe.range'
run 'a pipe whose writer is late' tidy pipe.range
wait
status 0
holds cmp out tidied.range
late 'exec >pipe.range; sleep 4; cat loose.range'
run 'a pipe whose writer is slow' tidy pipe.range
wait
status 0
holds cmp out tidied.range
what='a pipe whose writer is gone, but not what it wrote'
exec 5<>pipe.range
cat loose.range >&5
exec 4<pipe.range 5>&-
run "$what" tidy pipe.range
exec 4<&-
status 0
holds cmp out tidied.range
what='a clock that is set beforehand still rings'
exec 5<>pipe.range
timeout 20 perl -e 'alarm 1; exec @ARGV' "$program" check pipe.range \
	>out 2>err 5<&-
code=$?
exec 5<&-
holds test "$code" -eq 142
mkfifo table
late "printf 'joint\\tmotion\\n' >table"
run 'a table that comes late' summary --reference table loose.range
wait
status 2
said '^rangeline: table:1:1: error: there is no column '
run 'a table that nobody writes' summary --reference table loose.range
status 2
said '^rangeline: table: a pipe into which nobody writes'
run 'a table without an end' summary --reference /dev/zero loose.range
status 2
said '^rangeline: /dev/zero: more than 16 MiB: this is no table'
echo '<?xml version="1.0"?><svg xmlns="http://www.w3.org/2000/svg"/>' >own.xml
cp own.xml before
for name in drawn.range own.xml; do
	cp tidied.range drawn.range
	ln -sf $name drawn.svg
	run "a drawing in the place of $name" progress --plot drawn.svg \
		tidied.range
	status 2
	said '^rangeline: drawn.svg: this file is no drawing of progress, so it'
	holds cmp tidied.range drawn.range
	holds cmp before own.xml
done
ln -sf nowhere drawn.svg
run 'a drawing by a link to nothing' progress --plot drawn.svg tidied.range
status 2
said '^rangeline: drawn.svg: this is a link that leads nowhere'
rm drawn.svg drawn.range own.xml
for time in first second; do
	run "a drawing, the $time" progress --plot drawn.svg tidied.range
	status 0
	holds grep -q '</svg>' drawn.svg
done
cp drawn.svg before
run 'a drawing of what cannot be read' progress --plot drawn.svg nowhere
status 2
said '^rangeline: drawn.svg: not drawn, since not all that was to be read'
holds cmp before drawn.svg
what='two draw one new file at the same time'
mkdir drawings
for _ in $(seq 20); do
	rm -f drawings/new.svg
	timeout 30 "$program" progress --plot drawings/new.svg tidied.range \
		>/dev/null 2>&1 &
	run "$what" progress --plot drawings/new.svg tidied.range
	status 0
	wait $!
	code=$?
	status 0
	holds grep -q '</svg>' drawings/new.svg
	only drawings new.svg
done
mkdir folder.range
run 'a folder called as a note, empty' tidy --in-place folder.range
status 2
said '^rangeline: folder.range: no .range file in this folder'

# --- a note that changes while it is read ------------------------------------

# The program waits while nobody takes what it writes: then the note changes.
# That it has written 4,096 bytes shows that it reads already.
# waiting CHANGE COMMAND...: COMMAND with both outputs to one slow reader.
waiting() {
	change=$1
	shift
	{
		timeout 30 "$@" 2>&1
		echo $? >code
	} | {
		head -c 4096
		eval "$change"
		cat
	} >out
	code=$(cat code)
}
"$program" tidy many.range >many.tidied
changed='somebody changed the file while it was read'
# Of each the program has read the beginning, not yet the end.
for command in check 'convert --to csv' tidy 'summary --format csv'; do
	for change in ': >long.range' 'truncate -s 200000 long.range' \
		'cat loose.range >>long.range'; do
		what="$command: $change"
		sed 's/5-118/5-11x/' many.range >long.range
		# shellcheck disable=SC2086
		waiting "$change" "$program" $command --jobs 1 long.range
		status 2
		holds grep -q "rangeline: long.range: $changed" out
	done
done
what='a note that is cut short while it comes by standard input'
sed 's/5-118/5-11x/' many.range >long.range
# shellcheck disable=SC2016
waiting ': >long.range' sh -c '"$1" tidy <long.range' - "$program"
status 2
holds grep -q "rangeline: -: $changed" out
what='one of several notes that is cut short, by two jobs'
mkdir -p parts
cp many.range parts/a.range
cp many.range parts/b.range
cp many.range parts/c.range
waiting ': >parts/c.range; : >parts/b.range; : >parts/a.range' \
	"$program" convert --to csv --jobs 2 parts
status 2
holds grep -q "rangeline: parts/a.range: $changed" out
what='a note that nobody changes'
cp many.range long.range
waiting : "$program" tidy long.range
status 0
holds cmp out many.tidied

# --- output that goes into the note itself -----------------------------------

own='what the command writes goes into this file'
what='output at the end of the note that is read'
cp loose.range own.range
# shellcheck disable=SC2094
timeout 30 "$program" check own.range >>own.range 2>err
code=$?
status 2
said "^rangeline: own.range: $own"
holds cmp loose.range own.range
cp loose.range emptied.range
# shellcheck disable=SC2094
timeout 30 "$program" tidy emptied.range 2>err >emptied.range
code=$?
what='a note that the shell has emptied'
status 2
said "^rangeline: emptied.range: $own, so nothing was read; it is empty now"
what='the same by standard input'
# shellcheck disable=SC2094
timeout 30 "$program" check <own.range >>own.range 2>err
code=$?
status 2
said "^rangeline: -: $own"
holds cmp loose.range own.range
what='rows at the end of the note that is read'
# shellcheck disable=SC2094
timeout 30 "$program" convert --to csv loose.range own.range >>own.range 2>err
code=$?
status 2
said "^rangeline: own.range: $own"
holds cmp loose.range own.range
what='output into a note of the folder'
mkdir own
cp loose.range own/a.range
timeout 30 "$program" check --brief own loose.range >>own/a.range 2>err
code=$?
status 2
said "^rangeline: own/a.range: $own"
{
	echo 'session 2026-05-04 oops'
	echo 'knee R A 5-1x8'
} >own.range
for command in check 'convert --to csv' tidy summary progress; do
	what="messages of $command at the end of the note that is read"
	cp own.range own/a.range
	# shellcheck disable=SC2086,SC2094
	timeout 30 "$program" $command own/a.range >out 2>>own/a.range
	code=$?
	status 2
	holds grep -q "^rangeline: own/a.range: $own" own/a.range
done
what='what is no file may be both'
timeout 30 "$program" check /dev/null >/dev/null 2>err
code=$?
status 0

what='a note that somebody changes while it is made tidy'
mkdir busy
loosen loose
{
	echo 'session 2026-05-03'
	awk 'BEGIN { for (i = 0; i < 2000; i++) print "knee R A 5-1x8" }'
	cat loose
} >busy/a.range
cp busy/a.range before
echo '# written in the meantime' >>before
waiting 'echo "# written in the meantime" >>busy/a.range' \
	"$program" tidy --in-place busy/a.range
status 2
holds grep -q '^rangeline: busy/a.range: somebody changed the file while' out
holds cmp before busy/a.range
only busy a.range

what='a link in the place of the folder of a note that is made tidy'
mkdir held held/below
cp busy/a.range held/below/a.range
"$program" tidy busy/a.range >wanted 2>/dev/null
sed 's/XF-1/XF-2/' loose >outside/a.range
cp outside/a.range before
waiting 'mv held/below held/.was; ln -s ../outside held/below' \
	"$program" tidy --in-place held
status 1
holds cmp before outside/a.range
only outside a.range secret.range
only held/.was a.range
holds cmp wanted held/.was/a.range
holds sh -c '! cmp -s busy/a.range held/.was/a.range'
rm -r held

what='a change that leaves size and time of the note'
{
	echo 'session 2026-05-03'
	awk 'BEGIN { for (i = 0; i < 2000; i++) print "knee R A 5-1x8" }'
	cat loose
} >busy/a.range
sed 's/0-136/0-126/' busy/a.range >before
cp -p busy/a.range was
waiting 'cat before >busy/a.range; touch -r was busy/a.range' \
	"$program" tidy --in-place busy/a.range
status 2
holds grep -q '^rangeline: busy/a.range: somebody else changed the file' out
holds cmp before busy/a.range

what='a note that comes slowly through a pipe'
{ head -c 60 loose.range; sleep 0.2; tail -c +61 loose.range; } >pipe.range &
exec 4<pipe.range
"$program" tidy <&4 >out 2>err
exec 4<&-
wait
holds cmp out tidied.range

what='two at once'
i=0
while [ $i -lt 20 ]; do
	loosen busy/a.range
	"$program" tidy --in-place busy/a.range 2>err1 &
	"$program" tidy --in-place busy/a.range 2>err
	one=$?
	wait $!
	two=$?
	holds cmp tidied.range busy/a.range
	only busy a.range
	holds test "$one$two" = 00
	i=$((i + 1))
done

# --- names and terminals -----------------------------------------------------

# At a keyboard it says that it waits, on standard error; else nothing.
what='check without a file at a terminal'
timeout 30 python3 "$here/terminal.py" "$(command -v sh)" -c \
    "(sleep 1; kill \$\$) & exec '$program' check 2>said" >out 2>err
holds grep -q 'read from the keyboard; Ctrl-D' said
what='check of a pipe says nothing about a keyboard'
"$program" check --today 2026-06-01 <loose.range >out 2>err
holds sh -c '! grep -q keyboard err'

mkdir odd
{
	cat loose.range
	printf 'remark "a\033[2Jb"\n'
	printf 'knee R A 3-\033[1m9 \302\23331m\n'
	printf '  # a title \033]0;x\007 in a comment\n'
	printf 'k\033nee R A 1-2 "t\033[1mx"\n'
	printf 'session 2026-05-11 "week\0332"\n'
	printf 'knee R A 0-12 "\302\23331m \377"\n'
} >odd/e.range
name=$(printf 'odd/x\033[31m\n\377,"y.range')
cp odd/e.range "$name"
for command in 'check --brief' check 'check --format json' summary \
	'summary --format csv' 'summary --format json' 'convert --to csv' \
	'convert --to csv --rows trial' tidy 'tidy --diff' 'tidy --verify' \
	'tidy --spelling short' progress 'progress --format csv' \
	'progress --format json'; do
	for file in odd/e.range "$name"; do
		what="$command on a terminal"
		# shellcheck disable=SC2086
		timeout 30 "$python" "$here/terminal.py" "$program" $command \
			--today 2026-06-01 "$file" >out 2>err
		# shellcheck disable=SC2086
		grep -q "Try .rangeline" out &&
			timeout 30 "$python" "$here/terminal.py" "$program" \
				$command "$file" >out 2>err
		holds "$python" "$here/obeyed.py" out
	done
done
# The pipes of several jobs lead to a terminal as well.
mkdir many
for i in $(seq 150); do
	cp odd/e.range "many/$i.range"
done
for command in tidy 'tidy --diff' summary; do
	what="$command by two jobs on a terminal"
	# shellcheck disable=SC2086
	timeout 60 "$python" "$here/terminal.py" "$program" $command \
		--jobs 2 many >out 2>err
	holds test -s out
	holds "$python" "$here/obeyed.py" out
done
run 'a terminal title in a missing file' check "$(printf 'no\033]0;x\007')"
status 2
holds "$python" "$here/obeyed.py" err
what='tidy to a pipe keeps unreadable lines to the byte'
"$program" tidy odd/e.range 2>err | cat >out
LC_ALL=C grep "$(printf '\033\|\302\233')" odd/e.range >lines
while IFS= read -r line; do
	line=${line#  }
	holds env LC_ALL=C grep -qF -- "$line" out
done <lines
what='a diff to a pipe can be applied, so it does too'
cp odd/e.range patched.range
"$program" tidy --diff odd/e.range 2>err | patch -s patched.range >why 2>&1
holds cmp out patched.range
what='tidy in place does so'
cp odd/e.range busy/a.range
"$program" tidy --in-place busy/a.range 2>err
holds cmp out busy/a.range
for command in 'check --format json' 'summary --format json' \
	'progress --format json'; do
	# shellcheck disable=SC2086
	run "$command: a name with everything in it" $command "$name"
	holds "$python" -c '
import json, sys
for line in open("out", encoding="utf-8", newline="\n"):
    row = json.loads(line)
    name = row.get("file")
    assert name is None or name == "odd/x\x1b[31m\n\ufffd,\"y.range" or \
        name == "odd/x\ufffd[31m\ufffd\ufffd,\"y.range", name
assert row'
done
for command in 'convert --to csv' 'convert --to csv --rows trial' \
	'summary --format csv' 'progress --format csv'; do
	# shellcheck disable=SC2086
	run "$command: a name with everything in it" $command "$name"
	holds "$python" -c '
import csv
rows = list(csv.reader(open("out", encoding="utf-8", newline="")))
assert len(rows) > 1 and all(len(row) == len(rows[0]) for row in rows)
if "file" in rows[0]:
    at = rows[0].index("file")
    for row in rows[1:]:
        assert row[at].startswith("odd/x\ufffd[31m"), row[at]
        assert row[at].endswith(",\"y.range"), row[at]'
done

ln -s nowhere "$(printf "odd/z\nTry 'anything'.range")"
run 'a name that looks like advice' check odd
status 2
holds sh -c "! grep '^Try' err"
run 'advice' chek
status 2
holds grep -q "^Try 'rangeline --help'" err

# --- folders -----------------------------------------------------------------

mkdir -p loop/a/b
cp loose.range loop/a/b/n.range
ln -s ../.. loop/a/b/up
ln -s . loop/a/self
ln -s .. loop/a/b/parent.range
ln -s me.range loop/a/me.range
run 'folders that lead back to themselves' convert --to csv loop
status 2
said '^rangeline: loop/a/me.range: Too many levels of symbolic links'
holds test "$(grep -c 'flexion' out)" -eq 4
rm loop/a/me.range
run 'the same without the link to itself' convert --to csv loop
status 0

# Where memory serves as a disk, names are made in no time.
store=$(mktemp -d -p /dev/shm 2>/dev/null) || store=$work/store
mkdir -p "$store"
trap 'test -z "$mounted" || umount "$work/small"; rm -rf "$work" "$store"' EXIT
"$python" - "$store" <<'P'
import os, sys

os.chdir(sys.argv[1])
note = (
    "subject X-1\nrater qq\ninstrument goniometer step 1\n"
    "session 2026-05-04\nknee R A 5-11x\n"
)
for folder, count in (("some", 10000), ("full", 100000)):
    os.mkdir(folder)
    for i in range(count):
        name = f"{folder}/n{i:06}.range"
        if i % 20000 == 0:
            first = name
            with open(name, "w") as file:
                file.write(note)
        else:
            os.link(first, name)
P
# cpu FOLDER: hundredths of a second that the program itself used.
cpu() {
	"$python" -c '
import resource, subprocess, sys
status = subprocess.call(
    [sys.argv[1], "check", "--brief", sys.argv[2]], stdout=open("out", "w"))
used = resource.getrusage(resource.RUSAGE_CHILDREN)
print(status, int(100 * (used.ru_utime + used.ru_stime)) + 1)
' "$program" "$1"
}
what='ten thousand notes in a folder'
# shellcheck disable=SC2046
set -- $(cpu "$store/some")
some=$2
what='a hundred thousand notes in a folder'
# shellcheck disable=SC2046
set -- $(cpu "$store/full")
holds test "$1" -eq 1
holds test "$(grep -c '\[number-form\]$' out)" -eq 100000
what="ten times the notes, about ten times the work ($some, $2)"
holds test "$2" -lt $((some * 30))

echo "$passed passed, $failed failed"
test "$failed" -eq 0
