/*
 * A set of rules as the rows of convert and of progress name it.
 */
#ifndef WRITE_RULE_NAMES_H
#define WRITE_RULE_NAMES_H

#include <stddef.h>
#include <stdint.h>

#include "diag/rule.h"

/* The names of RULES, bits 1 << enum rule, in byte order; returns how many. */
size_t rule_names(uint64_t rules, const char *names[RULE_COUNT]);

#endif
