/* Text by words, in lines of a screen. */
#ifndef WRITE_WRAP_H
#define WRITE_WRAP_H

#include <stddef.h>

#include "text/buffer.h"

/*
 * Adds LEN bytes of TEXT to OUT by words, no line wider than 80 cells where
 * words allow; the first begins at cell COLUMN, the others at INDENT.
 */
void wrap_text(struct buffer *out, const char *text, size_t len, size_t column,
    size_t indent);

#endif
