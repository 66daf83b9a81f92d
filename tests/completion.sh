#!/bin/sh
# The completion scripts in the real shells: bash and zsh are typed at, fish is
# asked. What they offer is held against what `--help` says and against what
# the program takes, so a script that fell behind the tables fails here.
#
# Usage: completion.sh PROGRAM

# shellcheck source=tests/verdict.sh
. "$(dirname "$0")/verdict.sh"

if [ $# -ne 1 ] || [ ! -x "$1" ]; then
	echo "usage: completion.sh PROGRAM" >&2
	exit 2
fi
helpers=$(cd "$(dirname "$0")" && pwd)/completion || exit 2
program=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
work=$(mktemp -d) || exit 2
trap 'rm -rf "$work"' EXIT
trap 'exit 2' HUP INT TERM

mkdir "$work/bin" "$work/home" "$work/notes" "$work/notes/sub" || exit 2
ln -s "$program" "$work/bin/rangeline"
PATH=$work/bin:$PATH
HOME=$work/home
LC_ALL=C.UTF-8
export PATH HOME LC_ALL
cd "$work/notes" || exit 2
: >a.range
: >'b c.range'
: >other.txt

evidence="$work/diff"

# Cases: what is typed, and what is offered, sorted, one blank between; `!` is
# a tab that completes a word.
case_of() {
	printf '%s\n' "$1" >>"$work/cases"
	printf '%s\n' "$2" >>"$work/wanted"
}

commands=$("$program" --help | sed -n 's/^  \([a-z-]*\)  .*/\1/p')
sorted() {
	tr ' ' '\n' | grep . | LC_ALL=C sort -u | tr '\n' ' ' | sed 's/ $//'
}
# listed COMMAND: the options that its help lists.
listed() {
	"$program" "$1" --help | sed -n 's/^  \(--[a-z-]*\).*/\1/p' | sorted
}

for command in $commands; do
	case_of "rangeline $command --" "$(listed "$command")"
	# A beginning that one command has alone becomes that command.
	short=${command%?}
	test "$(echo "$commands" | grep -c "^$short")" -eq 1 &&
		case_of "!rangeline $short" "rangeline $command"
done
rules=$("$program" rules | sed -n 's/^  [a-z]*  *\([a-z-]*\)  .*/\1/p' | sorted)
case_of 'rangeline rules ' "$rules"
case_of 'rangeline check --format=' 'json sarif text'
case_of 'rangeline check --format ' 'json sarif text'
case_of 'rangeline summary --format=' 'csv json text'
case_of 'rangeline tidy --spelling=' 'keep long short'
case_of 'rangeline check --level=off-scale=' 'error note off warning'
case_of 'rangeline check --level off-scale=' 'error note off warning'
case_of '!rangeline rules passive-j' 'rangeline rules passive-just-below-active'
case_of '!rangeline check --format=js' 'rangeline check --format=json'
case_of '!rangeline check --brief a' 'rangeline check --brief a.range'
case_of '!rangeline check -- a' 'rangeline check -- a.range'
case_of '!rangeline check --tolerance=0 b' \
	'rangeline check --tolerance=0 b\ c.range'
case_of 'rangeline summary --reference=' 'a.range b_c.range other.txt sub'
case_of 'rangeline --completion ' 'bash fish zsh'
case_of 'rangeline ' "$(echo $commands | sorted)"
case_of 'rangeline --' '--completion --help --version'
case_of 'rangeline check --today=' ''
case_of 'rangeline check -- --' ''
test "$(wc -l <"$work/cases")" -gt 20
verdict "there are cases" 2>"$work/diff"

# compare SHELL SCRIPT: a test for each case.
compare() {
	python3 "$helpers/keys.py" "$1" "$2" <"$work/cases" >"$work/got" \
		2>"$work/diff"
	while IFS= read -r typed <&3 && IFS= read -r wanted <&4; do
		IFS= read -r got <&5 || got="no answer"
		{
			printf 'wanted: %s\n' "$wanted"
			printf 'got:    %s\n' "$got"
		} >>"$work/diff"
		test "$wanted" = "$got"
		verdict "$1: '$typed'"
		: >"$work/diff"
	done 3<"$work/cases" 4<"$work/wanted" 5<"$work/got"
}

mkdir "$work/scripts"
"$program" --completion bash >"$work/scripts/rangeline.bash"
"$program" --completion=zsh >"$work/scripts/_rangeline"
"$program" --completion fish >"$work/scripts/rangeline.fish"
"$program" --completion csh >"$work/diff" 2>&1
test $? -eq 2
verdict "another shell is refused"
"$program" --completion >"$work/diff" 2>&1
test $? -eq 2
verdict "no shell is refused"

# --- The shells -------------------------------------------------------------

for shell in bash zsh fish; do
	if ! command -v $shell >/dev/null 2>&1; then
		echo "$shell is not installed" >"$work/diff"
		false
		verdict $shell
		continue
	fi
	case $shell in
	bash) script=$work/scripts/rangeline.bash ;;
	zsh) script=$work/scripts/_rangeline ;;
	fish) script=$work/scripts/rangeline.fish ;;
	esac
	$shell -n "$script" >"$work/diff" 2>&1
	verdict "$shell: the script can be read"
	compare $shell "$script"
	# fish shows notes first and other files behind them.
	echo 'rangeline check ' >"$work/one"
	python3 "$helpers/keys.py" $shell "$script" <"$work/one" \
		>"$work/diff" 2>&1
	case $shell in
	fish) files='a.range b_c.range other.txt sub' ;;
	*) files='a.range b_c.range sub' ;;
	esac
	test "$(cat "$work/diff")" = "$files"
	verdict "$shell: notes and folders are offered"
done

# --- What is offered is taken -----------------------------------------------

printf 'subject EX-101\nsession 2026-05-04\nknee R A 0-120\n' >"$work/one.range"
for command in $commands; do
	for option in $(listed "$command"); do
		fish --no-config -c "source $work/scripts/rangeline.fish
			complete -C \$argv[1]" "rangeline $command $option=" |
			sed -n "s/^\($option=[^	]*\)	.*/\1/p" >"$work/words"
		case $option in --reference | --plot) continue ;; esac
		while IFS= read -r word; do
			set -- "$command" "$word"
			test "$command" = convert && set -- "$@" --to=csv
			# Where no note is wanted, the words are read all the same.
			case $("$program" "$command" --help | head -n 1) in
			*FILE*) set -- "$@" "$work/one.range" ;;
			*) set -- "$@" --help ;;
			esac
			"$program" "$@" >/dev/null 2>"$work/diff"
			test $? -le 1
			verdict "rangeline $command $word is taken"
		done <"$work/words"
	done
done

echo "$passed passed, $failed failed"
test "$failed" -eq 0
