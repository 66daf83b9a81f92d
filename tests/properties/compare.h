/*
 * What two readings of notes must have in common: rows and findings, but for
 * where they stand.
 */
#ifndef PROPERTIES_COMPARE_H
#define PROPERTIES_COMPARE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "diag/rule.h"

struct read_note;
struct row;

/* What is tried, for a message. */
struct comparing {
	uint64_t seed;
	const char *what;
	bool to_the_letter; /* findings: column and message too */
};

/* The same list of rules, but for those that are ASIDE (NULL: none)? */
bool compare_rules(const char *a, const char *b, bool (*aside)(enum rule));

/*
 * Row B, as A in every column but those of the file; in that of the findings
 * but for the rules that are ASIDE.
 */
void compare_row(struct comparing c, const struct row *a, const struct row *b,
    bool (*aside)(enum rule));

/*
 * The rows, and the findings, of ALL from number FROM on are those of PART,
 * LINES further down.
 */
void compare_rows(struct comparing c, const struct read_note *part,
    const struct read_note *all, size_t from, uint32_t lines);
void compare_findings(struct comparing c, const struct read_note *part,
    const struct read_note *all, size_t from, uint32_t lines);

/* IS has the rows and the findings of WAS, on the same lines, and no more. */
void compare_notes(struct comparing c, const struct read_note *was,
    const struct read_note *is);

#endif
