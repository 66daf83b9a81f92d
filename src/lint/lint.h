/*
 * The rules of judging a note: everything but reading the text. It sees one
 * session at a time, as it ends, and remembers of each person what later
 * sessions of the file are compared with.
 */
#ifndef LINT_LINT_H
#define LINT_LINT_H

#include <stdint.h>

#include "diag/diag.h"
#include "record/record.h"

struct lint;

struct lint_options {
	int32_t today; /* days since 1970-01-01 */
	int32_t
	    tolerance; /* tenths of a degree (of a millimetre for lengths) */
};

/* Memory for one file. The caller frees it with lint_free(). */
struct lint *lint_new(const struct lint_options *options);
void lint_free(struct lint *lint);

/* Forgets all persons, for the next file. */
void lint_reset(struct lint *lint);

/*
 * Judges S, which has just ended: marks readings left out of comparisons,
 * adds findings to SINK, which already holds those of reading the text, then
 * marks the findings that comments of the session accept. Call it once a
 * session, in the order of the file.
 */
void lint_session(struct lint *lint, struct session *s, struct sink *sink);

#endif
