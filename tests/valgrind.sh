#!/bin/sh
# valgrind.sh PROGRAM: every command over the whole corpus, once, under
# valgrind: no error of memory and no leak.

cd "$(dirname "$0")/.." || exit 2
program=$1
passed=0
failed=0

run() {
	valgrind --quiet --error-exitcode=99 --leak-check=full \
		--errors-for-leak-kinds=definite,indirect,possible \
		"$program" "$@" >/dev/null 2>valgrind.log
	if [ $? -eq 99 ]; then
		echo "valgrind: rangeline $*"
		cat valgrind.log
		failed=$((failed + 1))
	else
		passed=$((passed + 1))
	fi
	rm -f valgrind.log
}

run check --today 2026-06-01 corpus
run check --format json --today 2026-06-01 corpus
run convert --to csv corpus
run convert --to csv --rows trial corpus
run summary corpus
run summary --format csv corpus
run summary --format json corpus
run progress corpus
run guide knee flexion
run guide --format json opposition
run blank hand shoulder
run sources
run sources --format csv AAOS
run progress --format json corpus
run tidy corpus
run tidy --spelling short corpus
run tidy --diff corpus
run rules
run rules missing-opposite
run --help
run check /nonexistent
echo "$passed passed, $failed failed"
test "$failed" -eq 0
