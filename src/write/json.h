/*
 * The pieces of JSON. Commas place themselves: a name or an item writes one
 * unless it is the first of its object or array, which the last byte of the
 * buffer tells.
 */
#ifndef WRITE_JSON_H
#define WRITE_JSON_H

#include <stddef.h>
#include <stdint.h>

#include "text/buffer.h"

/* `"NAME":`; NAME is plain ASCII. */
void json_name(struct buffer *out, const char *name);

/* Before each item of an array. */
void json_item(struct buffer *out);

/* LEN bytes as a string; bytes that are not UTF-8 become U+FFFD. */
void json_string(struct buffer *out, const char *text, size_t len);
void json_puts(struct buffer *out, const char *text);

/* Hundredths as a number; see number_text(). */
void json_hundredths(struct buffer *out, int64_t hundredths);

/* A name and its value; a NULL text is null. */
void json_text_of(struct buffer *out, const char *name, const char *text);
void json_uint_of(struct buffer *out, const char *name, uint64_t number);

#endif
