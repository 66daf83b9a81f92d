#include "text/intern.h"

#include <stdlib.h>
#include <string.h>

#include "text/mem.h"

static uint32_t
hash_text(const char *text, size_t len)
{
	uint32_t h = 2166136261u; /* FNV-1a */

	for (size_t i = 0; i < len; i++)
		h = (h ^ (unsigned char)text[i]) * 16777619u;
	return h;
}

static void
place(struct intern *pool, uint32_t id)
{
	const char *text = pool->texts[id];
	size_t slot = hash_text(text, strlen(text)) & (pool->slot_count - 1);

	while (pool->slots[slot])
		slot = (slot + 1) & (pool->slot_count - 1);
	pool->slots[slot] = id + 1;
}

static uint32_t
add(struct intern *pool, const char *text, size_t len)
{
	pool->texts =
	    mem_grow(pool->texts, pool->len, &pool->cap, sizeof(*pool->texts));
	pool->texts[pool->len++] = arena_text(&pool->arena, text, len);
	if (pool->len * 2 > pool->slot_count) {
		pool->slot_count = pool->slot_count ? pool->slot_count * 2 : 64;
		free(pool->slots);
		pool->slots = mem_zero(pool->slot_count * sizeof(*pool->slots));
		for (size_t i = 0; i < pool->len; i++)
			place(pool, (uint32_t)i);
	} else {
		place(pool, (uint32_t)(pool->len - 1));
	}
	return (uint32_t)(pool->len - 1);
}

uint32_t
intern_id(struct intern *pool, const char *text, size_t len)
{
	size_t slot;

	if (pool->len == 0)
		add(pool, "", 0);
	if (len == 0)
		return 0;
	slot = hash_text(text, len) & (pool->slot_count - 1);
	for (; pool->slots[slot]; slot = (slot + 1) & (pool->slot_count - 1)) {
		uint32_t id = pool->slots[slot] - 1;

		if (strlen(pool->texts[id]) == len &&
		    memcmp(pool->texts[id], text, len) == 0)
			return id;
	}
	return add(pool, text, len);
}

const char *
intern_text(const struct intern *pool, uint32_t id)
{
	return id < pool->len ? pool->texts[id] : "";
}

void
intern_free(struct intern *pool)
{
	arena_free(&pool->arena);
	free(pool->texts);
	free(pool->slots);
	*pool = (struct intern){0};
}
