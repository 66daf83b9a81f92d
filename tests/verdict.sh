# Sourced by the tests that look at the program from outside: counts what holds.
# $evidence names the files that say why something does not.

passed=0
failed=0
evidence=

# verdict WHAT: counts a test by the status of the command before it.
verdict() {
	if [ "$?" -eq 0 ]; then
		passed=$((passed + 1))
	else
		failed=$((failed + 1))
		echo "FAILED: $1"
		test -z "$evidence" || cat $evidence
	fi
}
