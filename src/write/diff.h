/*
 * What changed between two texts of equally many lines, as a unified diff:
 * line I of the one has become line I of the other.
 */
#ifndef WRITE_DIFF_H
#define WRITE_DIFF_H

#include <stddef.h>

#include "text/buffer.h"

/*
 * Adds to OUT the diff of WAS and NOW, both of the file NAME; nothing where
 * they are equal. Lines that one of them has beyond the other are shown as
 * taken out or put in at the end.
 */
void diff_unified(struct buffer *out, const char *name,
    const struct buffer *was, const struct buffer *now);

#endif
