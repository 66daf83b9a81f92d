/*
 * Memory that is there or the program ends: a failed allocation prints one
 * line on standard error and exits with status 2, so no caller checks.
 */
#ifndef TEXT_MEM_H
#define TEXT_MEM_H

#include <stddef.h>

/* Prints WHY on standard error and ends the program with status 2. */
_Noreturn void mem_end(const char *why);

/* SIZE bytes, all zero. The caller frees them. */
void *mem_zero(size_t size);

/* Resizes PTR to N items of SIZE bytes; N * SIZE may not overflow. */
void *mem_resize(void *ptr, size_t n, size_t size);

/*
 * Makes room for one more item in an array of LEN items of SIZE bytes whose
 * capacity is *CAP, doubling it as needed. Returns the (moved) array.
 */
void *mem_grow(void *ptr, size_t len, size_t *cap, size_t size);

/* A NUL-terminated copy of LEN bytes. The caller frees it. */
char *mem_text(const char *text, size_t len);

/* The same in ARRAY, whose members len and cap must have those names. */
#define MEM_PUSH(vec)                                                          \
	((void)((vec)->len == (vec)->cap &&                                    \
		((vec)->at = mem_grow((vec)->at, (vec)->len, &(vec)->cap,      \
		     sizeof(*(vec)->at)))),                                    \
	    &(vec)->at[(vec)->len++])

#endif
