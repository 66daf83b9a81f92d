#!/bin/sh
# documents.sh PROGRAM: the examples in the documents are tests.
#
# In README.md and grammar/README.md a block ```range is a note that is read
# without a finding of reading, a block ```range-bad one that has some. A
# block ```console holds lines `$ COMMAND` and what they print: they are run
# from the top folder, with `rangeline` being the program under test.

cd "$(dirname "$0")/.." || exit 2
case $1 in
/*) program=$1 ;;
*) program=$PWD/$1 ;;
esac
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
mkdir "$work/bin" && ln -s "$program" "$work/bin/rangeline"
PATH=$work/bin:$PATH
export PATH
passed=0
failed=0

pass() {
	passed=$((passed + 1))
}

fail() {
	failed=$((failed + 1))
	echo "FAILED: $1"
}

# Cuts the blocks of KIND out of FILE into $work/block.N, one a file.
cut_blocks() {
	rm -f "$work"/block.*
	awk -v kind="$1" -v out="$work/block." '
		$0 == "```" kind { n++; on = 1; printf "" > (out n); next }
		/^```/ { on = 0 }
		on { print > (out n) }' "$2"
}

read_note() {
	rangeline convert --to csv --stdin-name example <"$1" \
		>/dev/null 2>"$work/unread"
}

for file in README.md grammar/README.md; do
	test -e "$file" || continue
	cut_blocks range "$file"
	for block in "$work"/block.*; do
		test -e "$block" || continue
		if read_note "$block"; then
			pass
		else
			fail "$file: an example is not read"
			cat "$work/unread"
		fi
	done
	cut_blocks range-bad "$file"
	for block in "$work"/block.*; do
		test -e "$block" || continue
		if read_note "$block"; then
			fail "$file: a bad example is read"
			cat "$block"
		else
			pass
		fi
	done
	cut_blocks console "$file"
	for block in "$work"/block.*; do
		test -e "$block" || continue
		sed -n 's/^\$ //p' "$block" >"$work/script"
		while read -r line; do
			echo "\$ $line"
			sh -c "$line" 2>&1 </dev/null
		done <"$work/script" >"$work/printed"
		if diff -u "$block" "$work/printed" >"$work/diff"; then
			pass
		else
			fail "$file: a command prints something else"
			cat "$work/diff"
		fi
	done
done
echo "$passed passed, $failed failed"
test "$failed" -eq 0
