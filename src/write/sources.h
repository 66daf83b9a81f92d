/*
 * Where the figures of other people come from: the list of sources, or one of
 * them with every figure that the program takes from it.
 */
#ifndef WRITE_SOURCES_H
#define WRITE_SOURCES_H

#include <stdbool.h>

#include "text/buffer.h"

enum sources_format { SOURCES_TEXT, SOURCES_CSV, SOURCES_JSON };

void sources_list(struct buffer *out, enum sources_format format);

/*
 * The source of KEY, or each of the group KEY. Returns false where there is
 * none; then nothing was written.
 */
bool sources_one(
    struct buffer *out, const char *key, enum sources_format format);

/* A key that is spelled nearly so, or NULL. */
const char *sources_nearest(const char *key);

#endif
