/*
 * Findings that a comment of the note accepts and that are told all the same,
 * with the reason that the comment gives.
 */
#ifndef WRITE_ACCEPTED_H
#define WRITE_ACCEPTED_H

#include <stdbool.h>
#include <stddef.h>

#include "diag/diag.h"
#include "record/record.h"

/* A limit that was passed stays told, though its line says why. */
static inline bool
accepted_shown(const struct finding *f)
{
	return f->accepted && f->rule == RULE_PRECAUTION_EXCEEDED;
}

/*
 * Why S accepts F, as it is written; len is 0 where no reason is given. Ask in
 * the order of the lines: AT, 0 at first, keeps where the last one stood.
 */
struct text_ref accepted_reason(
    const struct session *s, const struct finding *f, size_t *at);

#endif
