/*
 * Where a bound comes from, in words for a hint.
 */
#ifndef LINT_BOUND_WORDS_H
#define LINT_BOUND_WORDS_H

#include "record/record.h"
#include "reference/reference.h"
#include "text/buffer.h"

/* Of what R can be at most: "this program's own bound". */
const char *bound_possible_words(
    const struct reading *r, const struct ref_bound *bound);

/* Of what is usual: "26.9 by Boone & Azen 1979, and ..."; no NUL behind it. */
void bound_usual_words(struct buffer *out, const struct ref_bound *bound);

#endif
