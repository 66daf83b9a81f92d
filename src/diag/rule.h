/*
 * The rule catalogue: one row a rule, from src/diag/rules.tsv, with its
 * examples from corpus/rules/.
 */
#ifndef DIAG_RULE_H
#define DIAG_RULE_H

#include <stdbool.h>
#include <stddef.h>

#include "rule_ids.h"

_Static_assert(RULE_COUNT <= 64, "a set of rules is the bits of 64");

enum level {
	LEVEL_OFF,
	LEVEL_NOTE,
	LEVEL_WARNING,
	LEVEL_ERROR,
	LEVEL_UNSET /* in options: nothing was asked; has no name */
};

enum rule_group {
	RULES_READING, /* of reading the text: never accepted nor lowered */
	RULES_VALUES,
	RULES_ACTIVE_PASSIVE,
	RULES_MISSING,
	RULES_SAFETY,
	RULES_DATES,
	RULES_ACCEPTANCE
};

struct rule_info {
	const char *name; /* what is typed to accept it or change its level */
	enum level level;
	enum rule_group group;
	const char *title;
	const char *reason;
	const char *source;
	const char *reported; /* a note in which it is reported */
	const char *clean;    /* a like note in which it is not */
};

extern const struct rule_info rule_table[]; /* by enum rule, RULE_COUNT */

/* The rule of that name, or -1. */
int rule_find(const char *name, size_t len);

/* "note", "warning", "error" or "off". */
const char *level_name(enum level level);

#endif
