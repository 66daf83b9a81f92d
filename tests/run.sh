#!/bin/sh
# run.sh PROGRAM CHECK: all tests that need no heavy packages.

cd "$(dirname "$0")/.." || exit 2
program=$1
check=$2
. tests/steps.sh

step "unit and published" "$check"
step "corpus" tests/golden.sh "$program"
step "command" tests/command.sh "$program"
step "commands" tests/commands.sh "$program"
step "jobs" tests/jobs.sh "$program"
step "language server" python3 tests/lsp/exact.py "$program"
step "examples of the documents" tests/documents.sh "$program"
step "readers of the CSV" tests/readers.sh "$program"
step "second opinion on progress" \
	python3 tests/published/progress_second_opinion.py \
	"$program" corpus/demo
step "second opinion on summary" \
	python3 tests/published/summary_second_opinion.py \
	"$program" corpus
step "layers" tests/layers.sh
step "manual pages" sh -c \
	'mandoc -Tlint -Wwarning man/*.[157] && echo "3 passed, 0 failed"'
steps_end
