/*
 * What the files of completeness share: missing.c (comparisons) and
 * required.c (what only `require` asks for, and postures).
 */
#ifndef LINT_MISSING_H
#define LINT_MISSING_H

#include "lint/internal.h"
#include "lint/precaution.h"

/*
 * How a reading was moved, as these rules count it: place-and-hold is active;
 * assisted and a reading without a mode are neither, and only ANY.
 */
enum { ANY, ACTIVE, PASSIVE, KINDS };

/* Beside the two sides: the midline, or now one side and now the other. */
enum { BOTH = VOCAB_SIDE_COUNT, SIDES };

/* "right ", "left ", "" */
extern const char *const missing_side_words[SIDES];

int missing_kind(const struct reading *r);

static inline int
missing_side(const struct reading *r)
{
	return r->side == NONE ? BOTH : r->side;
}

/* Was something measured: not NT, WNL, WFL? */
static inline bool
missing_has_figure(const struct reading *r)
{
	return reading_is_number(r) || r->kind == KIND_LEVEL;
}

/*
 * Does the reading answer "and this one?", be it without a figure: WNL and
 * WFL do, NT with its reason does.
 */
bool missing_is_answer(const struct session *s, const struct reading *r);

/*
 * NT, WNL and WFL of a hinge make one reading, of flexion, but they speak of
 * its extension too: that measurement, else NONE.
 */
int missing_other_end(const struct reading *r);

static inline bool
missing_requires(uint8_t mask, enum vocab_requirement_id requirement)
{
	return mask >> requirement & 1;
}

/* missing-position, missing-weight-bearing, missing-repetition. */
void missing_required(const struct session *s,
    const struct ruled_out *ruled_out, struct sink *sink);

/* position-differs. */
void missing_postures(
    struct lint *lint, const struct session *s, struct sink *sink);

#endif
