#!/bin/sh
# sarif.sh PROGRAM: `check --format sarif` over the whole corpus, held against
# the published schema by a validator that is not ours (libraries of the npm
# registry, versions fixed in tests/sarif/package-lock.json, installed below
# build/). Closes with `N passed, N failed`.

cd "$(dirname "$0")/.." || exit 2
if [ $# -ne 1 ] || [ ! -x "$1" ]; then
	echo "usage: sarif.sh PROGRAM" >&2
	exit 2
fi
case $1 in
/*) program=$1 ;;
*) program=$PWD/$1 ;;
esac
client=build/sarif-client
log=$(mktemp) || exit 2
trap 'rm -f "$log"' EXIT

mkdir -p "$client" || exit 2
if ! cmp -s tests/sarif/package-lock.json "$client/package-lock.json" ||
	[ ! -d "$client/node_modules" ]; then
	cp tests/sarif/package.json tests/sarif/package-lock.json \
		"$client" || exit 2
	(cd "$client" && npm ci --ignore-scripts --no-audit --no-fund \
		>"$log" 2>&1) || {
		cat "$log"
		echo "0 passed, 1 failed"
		exit 1
	}
fi
find corpus -name '*.range' | LC_ALL=C sort >"$log"
NODE_PATH=$PWD/$client/node_modules
export NODE_PATH
# No name in the corpus holds a blank.
# shellcheck disable=SC2046
timeout 600 node tests/sarif/test.js "$program" $(cat "$log")
