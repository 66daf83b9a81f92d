/*
 * Sides that a header calls unavailable and that were measured all the same.
 */
#ifndef SYNTAX_OPPOSITES_H
#define SYNTAX_OPPOSITES_H

#include "diag/diag.h"
#include "record/record.h"

/* Once S is whole: reports to SINK what its headers or its person's deny. */
void opposites_check(struct session *s, struct sink *sink);

#endif
