# Sourced by tests that run other tests and add their counts up.

passed=0
failed=0
log=$(mktemp) || exit 2
trap 'rm -f "$log"' EXIT

# count NAME COMMAND...: one that ends without its last line has failed.
count() {
	name=$1
	shift
	"$@" >"$log" 2>&1
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
