#!/bin/sh
# run.sh PROGRAM: the language server as two clients that are not ours see it,
# on node (libraries of the npm registry, versions fixed in package-lock.json,
# installed below build/) and in Neovim. Closes with `N passed, N failed`.

cd "$(dirname "$0")/../.." || exit 2
if [ $# -ne 1 ] || [ ! -x "$1" ]; then
	echo "usage: run.sh PROGRAM" >&2
	exit 2
fi
case $1 in
/*) program=$1 ;;
*) program=$PWD/$1 ;;
esac
client=build/lsp-client
log=$(mktemp) || exit 2
trap 'rm -f "$log"' EXIT
passed=0
failed=0

# count NAME COMMAND...: one that ends without its last line has failed.
count() {
	name=$1
	shift
	timeout 900 "$@" >"$log" 2>&1
	status=$?
	counts=$(sed -n 's/^\([0-9]*\) passed, \([0-9]*\) failed$/\1 \2/p' \
		"$log" | tail -n 1)
	# shellcheck disable=SC2086
	set -- $counts 0 0
	if [ "$status" -ne 0 ] || [ "$2" -ne 0 ] || [ "$1" -eq 0 ]; then
		echo "$name: status $status"
		cat "$log"
		test "$2" -ne 0 || set -- "$1" 1
	fi
	passed=$((passed + $1))
	failed=$((failed + $2))
}

mkdir -p "$client" || exit 2
if ! cmp -s tests/lsp/package-lock.json "$client/package-lock.json" ||
	[ ! -d "$client/node_modules" ]; then
	cp tests/lsp/package.json tests/lsp/package-lock.json "$client" || exit 2
	(cd "$client" && npm ci --no-audit --no-fund >"$log" 2>&1) || {
		cat "$log"
		echo "0 passed, 1 failed"
		exit 1
	}
fi
count node env NODE_PATH="$PWD/$client/node_modules" \
	node tests/lsp/test.js "$program"
count neovim env RANGELINE="$program" XDG_STATE_HOME="$PWD/$client" \
	nvim --headless -u NONE -i NONE -n -c 'luafile tests/lsp/neovim.lua'
echo "$passed passed, $failed failed"
test "$failed" -eq 0
