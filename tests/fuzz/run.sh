#!/bin/sh
# run.sh SECONDS TARGET...: runs each fuzz target for so many seconds, two at
# a time: under libFuzzer with ASan and UBSan, then under AFL++ where that is
# installed. Seeds are the notes of corpus/; inputs that add something are kept
# below build/fuzz/. A target passes that tried at least one input and found
# nothing. `make fuzz` builds what this needs and calls it.

cd "$(dirname "$0")/../.." || exit 2
if [ $# -lt 2 ]; then
	echo "usage: run.sh SECONDS TARGET..." >&2
	exit 2
fi
seconds=$1
shift
root=build/fuzz/work
seeds=$root/seeds
passed=0
failed=0
rm -rf "$root/found" "$seeds"
mkdir -p "$root/found/libfuzzer" "$root/found/afl" "$seeds/note" \
	"$seeds/server" || exit 2
LC_ALL=C
export LC_ALL

# --- what they start from -----------------------------------------------------

# frame JSON: one message of a client.
frame() {
	printf 'Content-Length: %d\r\n\r\n%s' "${#1}" "$1"
}

for note in corpus/*/*.range corpus/rules/*/*.range; do
	if [ "$(wc -c <"$note")" -le 4096 ]; then
		cp "$note" "$seeds/note/$(echo "$note" | tr / -)" || exit 2
	fi
done
{
	printf '\000\001'
	frame '{"jsonrpc":"2.0","method":"initialized","params":{}}'
	frame '{"jsonrpc":"2.0","method":"textDocument/didOpen","params":{"textDocument":{"uri":"u0","languageId":"range","version":1,"text":"session 2026-05-04\nknee R A 0-140\n"}}}'
	frame '{"jsonrpc":"2.0","id":"a","method":"textDocument/hover","params":{"textDocument":{"uri":"u0"},"position":{"line":1,"character":2}}}'
	frame '{"jsonrpc":"2.0","method":"textDocument/didOpen","params":{"textDocument":{"uri":"u1","version":1,"text":"knee \ud800 \ud83e\uddb4 \u0000"}}}'
	printf 'Content-Length: 2\r\nContent-Length: 1\r\n\r\n{}'
	frame '{"jsonrpc":"2.0","id":7,"method":"shutdown"}'
} >"$seeds/server/frames"
printf '\001\000\003\000\001\002\003\004\005\006\007' >"$seeds/server/script"

seeds_of() {
	case $1 in
	server) echo "$seeds/server" ;;
	*) echo "$seeds/note" ;;
	esac
}

# --- the fuzzers --------------------------------------------------------------

# Starting and reading the seeds takes time of its own: a fuzzer that is still
# at it a third longer than it was given is asked to end, and what it has done
# by then counts.
limited() {
	timeout -k 5 "$((seconds + seconds / 3 + 1))" "$@"
}

# Each writes how it ended and the number of inputs that it tried to its .status
# and .tried files, and what failed to its folder of found/.
libfuzzer() {
	mkdir -p "$root/inputs-$1"
	limited "build/fuzz/fuzz-$1" -max_total_time="$seconds" -max_len=4096 \
		-timeout=10 -rss_limit_mb=4096 -dict="$root/words.dict" \
		-artifact_prefix="$root/found/libfuzzer/$1-" \
		-print_final_stats=1 "$root/inputs-$1" "$(seeds_of "$1")" \
		>"$root/libfuzzer-$1.log" 2>&1
	echo $? >"$root/libfuzzer-$1.status"
	sed -n 's/^stat::number_of_executed_units: *//p' \
		"$root/libfuzzer-$1.log" >"$root/libfuzzer-$1.tried"
}

# AFL++ passes over a seed that fails; libFuzzer has had the same seeds.
afl() {
	rm -rf "$root/afl-$1"
	AFL_NO_UI=1 AFL_SKIP_CPUFREQ=1 AFL_NO_AFFINITY=1 AFL_FAST_CAL=1 \
		AFL_HANG_TMOUT=10000 AFL_I_DONT_CARE_ABOUT_MISSING_CRASHES=1 \
		limited afl-fuzz -V "$seconds" -t 2000+ -x "$root/words.dict" \
		-i "$(seeds_of "$1")" -o "$root/afl-$1" -- "build/afl/fuzz-$1" \
		>"$root/afl-$1.log" 2>&1
	echo $? >"$root/afl-$1.status"
	sed -n 's/^execs_done *: *//p' "$root/afl-$1/default/fuzzer_stats" \
		>"$root/afl-$1.tried" 2>/dev/null
	for input in "$root/afl-$1/default/crashes/"id* \
	    "$root/afl-$1/default/hangs/"id*; do
		[ ! -f "$input" ] || cp "$input" \
			"$root/found/afl/$1-$(basename "$(dirname "$input")")-$(
				basename "$input" | tr -c 'A-Za-z0-9\n' _)"
	done
}

# two_at_a_time FUZZER TARGET...
two_at_a_time() {
	fuzzer=$1
	shift
	while [ $# -gt 0 ]; do
		"$fuzzer" "$1" &
		if [ $# -gt 1 ]; then
			shift
			"$fuzzer" "$1" &
		fi
		shift
		wait
	done
}

# report FUZZER TARGET...: what fails is told with the fuzzer's name. Status 124
# is the end that it was asked for.
report() {
	fuzzer=$1
	shift
	for target; do
		tried=$(cat "$root/$fuzzer-$target.tried" 2>/dev/null)
		status=$(cat "$root/$fuzzer-$target.status")
		found=$(find "$root/found/$fuzzer" -name "$target-*" | wc -l)
		printf '%-10s %-8s %9d inputs tried, %d found\n' \
			"$fuzzer" "$target" "${tried:-0}" "$found"
		if [ "$found" -gt 0 ]; then
			echo "FAILED: $fuzzer found in $target:"
			find "$root/found/$fuzzer" -name "$target-*" |
				sed 's/^/	/'
		elif [ "${tried:-0}" -eq 0 ]; then
			echo "FAILED: $fuzzer tried no input of $target"
		elif [ "$status" -ne 0 ] && [ "$status" -ne 124 ]; then
			echo "FAILED: $fuzzer, $target: status $status"
		else
			passed=$((passed + 1))
			continue
		fi
		failed=$((failed + 1))
		tail -n 40 "$root/$fuzzer-$target.log" | sed 's/^/	/'
	done
}

rm -f "$root"/*.tried "$root"/*.status
awk -f tests/fuzz/dictionary.awk grammar/vocabulary.tsv \
	>"$root/words.dict" || exit 2
two_at_a_time libfuzzer "$@"
report libfuzzer "$@"
if [ -x "build/afl/fuzz-$1" ]; then
	two_at_a_time afl "$@"
	report afl "$@"
else
	echo "skipped: AFL++ is not installed (afl-clang-fast)"
fi
if [ -n "$(find "$root/found" -type f)" ]; then
	cat <<-E
	What failed is in $root/found/, by fuzzer. Run
	build/fuzz/fuzz-TARGET FILE to see why. A note becomes
	corpus/regress/NNN-what.range with its .findings (the next number;
	tests/golden.sh reads it from then on), an input of the server a test
	in tests/unit/check_lsp_server.c.
	E
fi
echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
