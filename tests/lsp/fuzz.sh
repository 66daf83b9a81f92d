#!/bin/sh
# fuzz.sh [SECONDS]: builds the fuzzer of the language server with clang's
# libFuzzer and sanitizers and runs it (60 seconds). Inputs that add something
# are kept in build/fuzz-lsp/inputs; one that fails is named and kept beside.
# Needs what was generated below build/: run `make` first.

cd "$(dirname "$0")/../.." || exit 2
seconds=${1:-60}
work=build/fuzz-lsp
mkdir -p "$work/inputs" || exit 2
sources=
for folder in text diag vocab reference record syntax calc lint write lsp; do
	sources="$sources $(echo src/$folder/*.c)"
done
# shellcheck disable=SC2086
clang -std=c17 -D_GNU_SOURCE -Isrc -Ibuild -O1 -g -fno-omit-frame-pointer \
	-fsanitize=fuzzer,address,undefined -fno-sanitize-recover=undefined \
	-o "$work/fuzz" tests/lsp/fuzz.c $sources build/lexer.c build/parser.c \
	build/vocab_table.c build/rule_table.c build/reference_table.c \
	build/privacy.c -ljansson -lgsl -lgslcblas -lm || exit 2
if "$work/fuzz" -max_total_time="$seconds" -max_len=4096 -len_control=20 -timeout=10 \
	-artifact_prefix="$work/" -print_final_stats=1 "$work/inputs" \
	>"$work/log" 2>&1; then
	grep 'number_of_executed_units' "$work/log"
	echo "1 passed, 0 failed"
else
	tail -n 60 "$work/log"
	echo "0 passed, 1 failed"
	exit 1
fi
