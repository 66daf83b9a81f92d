#include "text/mem.h"

#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

_Noreturn void
mem_end(const char *why)
{
	fprintf(stderr, "rangeline: %s\n", why);
	exit(2);
}

static _Noreturn void
out_of_memory(void)
{
	mem_end("out of memory");
}

void *
mem_zero(size_t size)
{
	void *ptr = calloc(1, size ? size : 1);

	if (!ptr)
		out_of_memory();
	return ptr;
}

void *
mem_resize(void *ptr, size_t n, size_t size)
{
	if (size && n > SIZE_MAX / size)
		out_of_memory();
	ptr = realloc(ptr, n && size ? n * size : 1);
	if (!ptr)
		out_of_memory();
	return ptr;
}

void *
mem_grow(void *ptr, size_t len, size_t *cap, size_t size)
{
	if (len < *cap)
		return ptr;
	*cap = *cap ? *cap * 2 : 16;
	return mem_resize(ptr, *cap, size);
}

char *
mem_text(const char *text, size_t len)
{
	char *copy = mem_resize(NULL, len + 1, 1);

	if (len)
		memcpy(copy, text, len);
	copy[len] = '\0';
	return copy;
}
