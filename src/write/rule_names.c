/* They are few, so each is put in its place as it comes. */
#include "write/rule_names.h"

#include <string.h>

size_t
rule_names(uint64_t rules, const char *names[RULE_COUNT])
{
	size_t n = 0;

	for (uint64_t left = rules; left; left &= left - 1) {
		const char *name = rule_table[__builtin_ctzll(left)].name;
		size_t i = n++;

		for (; i > 0 && strcmp(names[i - 1], name) > 0; i--)
			names[i] = names[i - 1];
		names[i] = name;
	}
	return n;
}
