#!/bin/sh
# static.sh: four analyzers over the hand-written C of src/: gcc -fanalyzer,
# clang-tidy, cppcheck, scan-build. What is generated into build/ is left out.
# Each must be silent; before that, each must report a planted defect by name,
# for a tool that sees nothing is silent too. `.clang-tidy` says what is not
# asked. `static.sh TOOL...` runs these alone.

# The quotes of the version are meant for C; $1 is for the inner shell.
# shellcheck disable=SC2089,SC2090,SC2016

cd "$(dirname "$0")/.." || exit 2
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
trap 'exit 2' HUP INT TERM
flags='-std=c17 -Isrc -Ibuild -D_GNU_SOURCE -DRANGELINE_VERSION="0"'
export work
passed=0
failed=0

# Each takes files and fails where it reports something in one of them.

use_gcc() {
	printf '%s\n' "$@" | xargs -P2 -I{} gcc $flags -O2 -fanalyzer \
		-Werror -c -o /dev/null {}
}

use_tidy() {
	printf '%s\n' "$@" | xargs -P2 -I{} clang-tidy --quiet \
		--config-file=.clang-tidy {} -- $flags
}

use_cppcheck() {
	cppcheck -j2 --quiet --std=c17 --error-exitcode=1 --inline-suppr \
		--enable=warning,performance,portability ${flags#-std=c17} "$@"
}

# scan-build puts the analyzer in the place of $CC. It gives a function up
# after a third of the steps that it would take by itself (225,000), and so
# takes a third of the time: 4.9 s for 15.0 s over every eighth file. For all
# of them: `scan-build -analyzer-config max-nodes=225000`, as below.
use_scan_build() {
	printf '%s\n' "$@" >"$work/files"
	scan-build --status-bugs --use-cc=clang -o "$work/reports" \
		-analyzer-config max-nodes=75000 sh -c '
		files=$1
		shift
		xargs -P2 -I{} "$CC" "$@" -c -o /dev/null {} <"$files"
		' x "$work/files" $flags
}

# tool NAME DEFECT: silent on src/, but not on the planted DEFECT.
tool() {
	case " $wanted " in
	*" $1 "*) ;;
	*) return ;;
	esac
	begun=$(date +%s)
	if ! "use_$1" "$work/planted.c" >"$work/log" 2>&1 &&
		grep -q -e "$2" "$work/log"; then
		passed=$((passed + 1))
	else
		failed=$((failed + 1))
		echo "$1: does not see a planted defect"
		cat "$work/log"
	fi
	if "use_$1" src/*/*.c >"$work/log" 2>&1; then
		passed=$((passed + 1))
	else
		failed=$((failed + 1))
		echo "$1: reports"
		cat "$work/log"
	fi
	echo "$1: $(($(date +%s) - begun)) s"
}

make --no-print-directory build/vocab_ids.h build/rule_ids.h build/parser.h \
	>/dev/null || exit 2

# Memory used after it was given back or past its end, and two branches that are one.
cat >"$work/planted.c" <<'E'
#include <stdlib.h>

int planted(int *p, int n);

int
planted(int *p, int n)
{
	int *leak = malloc(4);
	int room[4] = {0};

	*leak = room[4];
	if (n > 0)
		n += 2;
	else
		n += 2;
	free(p);
	return *p + n;
}
E

wanted=${*:-gcc tidy cppcheck scan_build}
tool gcc 'use-after-free'
tool tidy 'bugprone-branch-clone'
tool cppcheck 'arrayIndexOutOfBounds'
tool scan_build 'Use of memory after it is freed'
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ] && [ "$passed" -gt 0 ]
