/*
 * What precautions in force rule out: for the rules that ask for more
 * readings, which must never ask for these, and for the one that reports
 * readings beyond them.
 */
#ifndef LINT_PRECAUTION_H
#define LINT_PRECAUTION_H

#include <stdbool.h>
#include <stdint.h>

#include "record/record.h"

enum ruling {
	RULED_ACTIVE,
	RULED_PASSIVE,
	RULED_END_FEEL, /* nobody may go to the end of the passive motion */
	RULINGS
};

/* By motion; [0] is every motion. */
struct ruled_out {
	struct joint_set of[VOCAB_MOTION_COUNT + 1][RULINGS];
};

/*
 * What may not be asked for in S, dated precautions in doubt included; NULL
 * where there is none. The caller frees it with free().
 */
struct ruled_out *precaution_ruled_out(const struct session *s);

/* OUT may be NULL: nothing is ruled out. */
bool precaution_rules_out(
    const struct ruled_out *out, int measurement, int side, enum ruling ruling);

/* The joints that may be moved neither actively nor passively. */
struct joint_set precaution_still(const struct ruled_out *out);

#endif
