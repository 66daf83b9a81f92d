#include "text/arena.h"

#include <stdalign.h>
#include <stdlib.h>
#include <string.h>

#include "text/mem.h"

enum { BLOCK_SIZE = 16 * 1024 };

struct arena_block {
	struct arena_block *next;
	size_t used;
	size_t size;
	alignas(max_align_t) char data[];
};

static struct arena_block *
block_new(size_t size)
{
	struct arena_block *block;

	if (size < BLOCK_SIZE)
		size = BLOCK_SIZE;
	block = mem_resize(NULL, sizeof(*block) + size, 1);
	block->next = NULL;
	block->used = 0;
	block->size = size;
	return block;
}

void *
arena_alloc(struct arena *arena, size_t size)
{
	struct arena_block **link = &arena->first;
	struct arena_block *block = arena->now;
	void *ptr;

	size = (size + alignof(max_align_t) - 1) & ~(alignof(max_align_t) - 1);
	while (block && block->size - block->used < size) {
		link = &block->next;
		block = block->next;
	}
	if (!block) {
		block = block_new(size);
		block->next = *link;
		*link = block;
	}
	arena->now = block;
	ptr = block->data + block->used;
	block->used += size;
	return ptr;
}

char *
arena_text(struct arena *arena, const char *text, size_t len)
{
	char *copy = arena_alloc(arena, len + 1);

	if (len)
		memcpy(copy, text, len);
	copy[len] = '\0';
	return copy;
}

void
arena_reset(struct arena *arena)
{
	for (struct arena_block *b = arena->first; b; b = b->next)
		b->used = 0;
	arena->now = arena->first;
}

void
arena_free(struct arena *arena)
{
	struct arena_block *block = arena->first;

	while (block) {
		struct arena_block *next = block->next;

		free(block);
		block = next;
	}
	*arena = (struct arena){0};
}
