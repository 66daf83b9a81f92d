#!/bin/sh
# A folder of src/ may include only folders named before it: an upward
# #include fails here. Each header must compile alone.

cd "$(dirname "$0")/.." || exit 2
order="text diag vocab reference record syntax calc lint write lsp cmd"
failed=0
passed=0

below=
for folder in $order; do
	below="$below $folder"
	test -d "src/$folder" || continue
	for file in src/"$folder"/*.[ch]; do
		for used in $(sed -n 's|^#include "\([a-z]*\)/.*|\1|p' "$file"); do
			case "$below " in
			*" $used "*) ;;
			*)
				echo "$file includes $used/, which is above it"
				failed=$((failed + 1))
				;;
			esac
		done
		passed=$((passed + 1))
	done
done
for header in src/*/*.h; do
	if ${CC:-cc} -std=c17 -D_GNU_SOURCE -Isrc -Ibuild -fsyntax-only \
		-Wall -Wextra -Werror -x c "$header"; then
		passed=$((passed + 1))
	else
		echo "$header does not compile alone"
		failed=$((failed + 1))
	fi
done
echo "layers: $passed passed, $failed failed"
test "$failed" -eq 0
