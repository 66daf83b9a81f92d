# Sourced by tests that run others: runs steps, adds their counts up.
#
# step NAME COMMAND... runs the command and reads the last line of its output
# that counts: `N passed, N failed` or Check's `Checks: N, Failures: N,
# Errors: N`. A step that counts nothing counts as one, by its exit status;
# where one must count, `counted NAME COMMAND...` says that it ran nothing.

passed=0
failed=0
must_count=0
steps_log=$(mktemp) || exit 2
trap 'rm -f "$steps_log"' EXIT

step() {
	step_name=$1
	shift
	"$@" >"$steps_log" 2>&1
	step_status=$?
	counts=$(sed -n \
		-e 's/.*Checks: \([0-9]*\), Failures: \([0-9]*\), Errors: \([0-9]*\).*/\1 \2 \3/p' \
		-e 's/^\([a-z-]*: \)\{0,1\}\([0-9]*\) passed, \([0-9]*\) failed.*/+ \2 \3/p' \
		"$steps_log" | tail -n 1)
	set -- $counts
	case ${1:-} in
	'')
		step_passed=$((step_status == 0 && !must_count))
		step_failed=$((step_status != 0))
		;;
	+) step_passed=$2 step_failed=$3 ;;
	*) step_failed=$(($2 + $3)) step_passed=$(($1 - $2 - $3)) ;;
	esac
	if [ "$step_status" -ne 0 ] && [ "$step_failed" -eq 0 ]; then
		step_failed=1
	fi
	if [ "$step_passed" -eq 0 ] && [ "$step_failed" -eq 0 ]; then
		echo "$step_name: ran nothing" >>"$steps_log"
		step_failed=1
	fi
	if [ "$step_failed" -ne 0 ]; then
		cat "$steps_log"
	fi
	printf '%-28s %5d passed, %d failed\n' \
		"$step_name" "$step_passed" "$step_failed"
	passed=$((passed + step_passed))
	failed=$((failed + step_failed))
}

counted() {
	must_count=1
	step "$@"
	must_count=0
}

steps_end() {
	echo "$passed passed, $failed failed"
	[ "$failed" -eq 0 ]
}
