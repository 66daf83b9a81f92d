#include "diag/rule.h"

#include <string.h>

int
rule_find(const char *name, size_t len)
{
	for (int i = 0; i < RULE_COUNT; i++)
		if (strlen(rule_table[i].name) == len &&
		    memcmp(rule_table[i].name, name, len) == 0)
			return i;
	return -1;
}

const char *
level_name(enum level level)
{
	static const char *const names[] = {"off", "note", "warning", "error"};

	return names[level];
}
