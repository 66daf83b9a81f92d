/*
 * The figures in the guide: end feels, usual values, what tasks take. Each
 * names its source and says where it is known from memory alone.
 */
#ifndef WRITE_GUIDE_VALUES_H
#define WRITE_GUIDE_VALUES_H

#include "text/buffer.h"

/* "soft or firm (SOURCE)"; nothing where nothing is known. */
void guide_end_feel(struct buffer *out, int measurement);

/* One figure or span a source: "0-135 (AAOS); 131-152 (...)". */
void guide_usual(struct buffer *out, int measurement);
void guide_functional(struct buffer *out, int measurement);

/* Members `end_feels`, `usual`, `functional`: every row by itself. */
void guide_values_json(struct buffer *out, int measurement);

#endif
