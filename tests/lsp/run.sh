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
. tests/steps.sh

mkdir -p "$client" || exit 2
if ! cmp -s tests/lsp/package-lock.json "$client/package-lock.json" ||
	[ ! -d "$client/node_modules" ]; then
	cp tests/lsp/package.json tests/lsp/package-lock.json "$client" || exit 2
	(cd "$client" && npm ci --no-audit --no-fund >"$steps_log" 2>&1) || {
		cat "$steps_log"
		echo "0 passed, 1 failed"
		exit 1
	}
fi
counted node timeout 900 env NODE_PATH="$PWD/$client/node_modules" \
	node tests/lsp/test.js "$program"
counted neovim timeout 900 env RANGELINE="$program" XDG_STATE_HOME="$PWD/$client" \
	nvim --headless -u NONE -i NONE -n -c 'luafile tests/lsp/neovim.lua'
steps_end
