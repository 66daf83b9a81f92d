/*
 * What the client sent, as JSON. The only file that knows the JSON library;
 * all others ask here. A value that is absent is NULL, and every question
 * about NULL has an answer, so a message of the wrong shape needs no care.
 */
#ifndef LSP_IN_H
#define LSP_IN_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "text/buffer.h"

struct json_t;

/*
 * The value that LEN bytes spell, or NULL. A surrogate without its pair is
 * U+FFFD. The caller frees it.
 */
struct json_t *in_parse(const char *text, size_t len);
void in_free(struct json_t *value);

/* The member at PATH: names parted by points. */
const struct json_t *in_get(const struct json_t *value, const char *path);

/* Items of an array; 0 of anything else. */
size_t in_count(const struct json_t *value);
const struct json_t *in_at(const struct json_t *value, size_t i);

bool in_is_object(const struct json_t *value);

/* A string or a whole number, as the id of a request must be. */
bool in_is_id(const struct json_t *value);
bool in_same(const struct json_t *a, const struct json_t *b);

/*
 * A NUL-terminated text, NULL where it is none. LEN may be NULL; then a text
 * that has a NUL in it is none either: it would be taken for a shorter one.
 */
const char *in_text(const struct json_t *value, size_t *len);
bool in_is(const struct json_t *value, const char *text);

/* OTHERWISE where it is no whole number. */
int64_t in_integer(const struct json_t *value, int64_t otherwise);

/* Any number, in tenths, rounded; OTHERWISE where it is none. */
int64_t in_tenths(const struct json_t *value, int64_t otherwise);

/* OTHERWISE where it is neither true nor false. */
bool in_bool(const struct json_t *value, bool otherwise);

/* Has the array a string TEXT? */
bool in_has(const struct json_t *array, const char *text);

/* Writes the value back as it came. */
void in_echo(struct buffer *out, const struct json_t *value);

#endif
