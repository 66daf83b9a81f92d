#!/bin/sh
# run-more.sh: the tests that need heavy packages or long: everything again
# under ASan and UBSan, once under valgrind, a second compiler, LibreOffice,
# fuzzing, real editors, faults, ten million readings, what the tests reach.

cd "$(dirname "$0")/.." || exit 2
. tests/steps.sh

make_quiet() {
	make --no-print-directory -j2 "$@" >/dev/null
}

UBSAN_OPTIONS=print_stacktrace=1
export UBSAN_OPTIONS
step "build with sanitizers" make_quiet CONFIG=asan \
	build/asan/rangeline build/asan/check
step "unit, sanitized" env CK_FORK=no CK_DEFAULT_TIMEOUT=0 build/asan/check
step "corpus, sanitized" tests/golden.sh build/asan/rangeline
step "command, sanitized" tests/command.sh build/asan/rangeline
step "documents, sanitized" tests/documents.sh build/asan/rangeline
step "build for valgrind" make_quiet CONFIG=debug \
	build/debug/rangeline build/debug/check
step "corpus under valgrind" tests/valgrind.sh build/debug/rangeline
step "build to count" make_quiet CONFIG=count build/count/rangeline
step "instructions" tests/instructions.sh build/count/rangeline
step "build with clang" make_quiet CC=clang CONFIG=clang \
	build/clang/rangeline
step "corpus, clang" tests/golden.sh build/clang/rangeline
step "LibreOffice reads the CSV" tests/readers-more.sh build/release/rangeline
step "SARIF by its schema" tests/sarif.sh build/release/rangeline
step "watching" tests/watch.sh build/release/rangeline
step "watching, sanitized" tests/watch.sh build/asan/rangeline
step "many machines" tests/parallel.sh build/release/rangeline
step "language server, Node" tests/lsp/run.sh build/release/rangeline
step "fuzzed" make --no-print-directory fuzz-run FUZZ_SECONDS=60
step "editors" tests/editors.sh build/release/rangeline
step "completions" tests/completion.sh build/release/rangeline
step "shapes of notes" tests/shapes.py build/release/rangeline
step "memory" tests/memory.sh build/release/rangeline
step "build to cover" make_quiet CONFIG=cover build/cover/rangeline \
	build/cover/check
step "coverage" tests/cover.sh
step "analyzers" tests/static.sh
step "faults, calls" tests/faults/run.sh build/release/rangeline
step "faults, files" tests/faults/files.sh build/release/rangeline
step "format" make --no-print-directory check-format
step "shell scripts" shellcheck -x -s sh -e SC1091,SC2013,SC2086 \
	tests/*.sh tests/faults/*.sh tests/fuzz/run.sh tests/bench/run.sh \
	build-aux/need build-aux/demo build-aux/train .ci/run \
	build-aux/install-editors build-aux/fill-editors \
	grammar/editors/git/pre-commit recipes/note-rows
step "bash scripts" shellcheck -s bash recipes/over-notes
steps_end
