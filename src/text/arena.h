/*
 * Memory that is given back all at once: allocate while a thing lives, reset
 * when it ends. Blocks are kept and used again.
 */
#ifndef TEXT_ARENA_H
#define TEXT_ARENA_H

#include <stddef.h>

struct arena_block;

struct arena {
	struct arena_block *first;
	struct arena_block *now;
};

/* A zeroed struct arena is empty and ready. */

/* SIZE bytes, aligned for any type, not cleared; valid until the reset. */
void *arena_alloc(struct arena *arena, size_t size);

/* A NUL-terminated copy of LEN bytes, valid until the reset. */
char *arena_text(struct arena *arena, const char *text, size_t len);

void arena_reset(struct arena *arena);
void arena_free(struct arena *arena);

#endif
