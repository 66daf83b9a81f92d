#!/bin/sh
# cover.sh: runs the tests with a program that counts, then prints how much of
# the hand-written code of src/ they reach, a line a folder. Fails below 96 %
# of the lines or 89 % of the branches. Called by `make cover`.

cd "$(dirname "$0")/.." || exit 2
least_lines=96
least_branches=89
program=build/cover/rangeline
report=build/cover/report.csv
. tests/steps.sh

find build/cover -name '*.gcda' -exec rm -f {} +
step "unit and published" build/cover/check
step "corpus" tests/golden.sh $program
step "language server" python3 tests/lsp/replay.py $program
step "language server, exact" python3 tests/lsp/exact.py $program
step "command" env UNCONFINED=1 tests/command.sh $program
step "commands" tests/commands.sh $program
step "examples of the documents" tests/documents.sh $program
step "watching" tests/watch.sh $program
steps_end || exit 1

# Branches of lines that cannot be reached by design (the end of a function
# behind a switch that returns) are no branches of the program.
gcovr --root . --object-directory build/cover --filter src/ \
	--exclude-unreachable-branches --csv --output $report \
	build/cover || exit 2
awk -F, -v lines=$least_lines -v branches=$least_branches '
function row(name, a, b, c, d) {
	printf "%-12s %6d of %6d lines %5.1f %%   %6d of %6d branches %5.1f %%\n",
	    name, b, a, 100 * b / a, d, c, c ? 100 * d / c : 100
}
NR == 1 { for (i = 1; i <= NF; i++) at[$i] = i; next }
{
	split($1, path, "/")
	folder = path[2]
	if (!(folder in a)) order[++n] = folder
	a[folder] += $at["line_total"]; b[folder] += $at["line_covered"]
	c[folder] += $at["branch_total"]; d[folder] += $at["branch_covered"]
}
END {
	for (i = 1; i <= n; i++) {
		f = order[i]
		row("src/" f, a[f], b[f], c[f], d[f])
		A += a[f]; B += b[f]; C += c[f]; D += d[f]
	}
	if (A == 0) { print "nothing was counted"; exit 1 }
	row("all", A, B, C, D)
	if (100 * B < lines * A || 100 * D < branches * C) {
		printf "below %d %% of lines or %d %% of branches\n",
		    lines, branches
		exit 1
	}
}' $report
