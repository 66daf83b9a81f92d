/*
 * One number for each different text: codes of people and raters, settings.
 * Equal texts have equal numbers; number 0 is the empty text.
 */
#ifndef TEXT_INTERN_H
#define TEXT_INTERN_H

#include <stddef.h>
#include <stdint.h>

#include "text/arena.h"

struct intern {
	struct arena arena;
	const char **texts;
	size_t len;
	size_t cap;
	uint32_t *slots; /* 1 + number, 0 = empty */
	size_t slot_count;
};

/* A zeroed struct intern is empty and ready. */

/* The number of TEXT of LEN bytes, new if it was never seen. */
uint32_t intern_id(struct intern *pool, const char *text, size_t len);

/* The NUL-terminated text of number ID, valid until intern_free(). */
const char *intern_text(const struct intern *pool, uint32_t id);

void intern_free(struct intern *pool);

#endif
