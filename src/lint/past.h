/*
 * What is remembered of one person, in two forms: open, to look things up in,
 * and packed, for all the persons who are not at hand.
 */
#ifndef LINT_PAST_H
#define LINT_PAST_H

#include <stddef.h>
#include <stdint.h>

#include "lint/internal.h"
#include "text/buffer.h"

/* What is known under one key. */
struct past {
	int32_t day; /* of the session it is from */
	int32_t sum; /* of the ends, tenths; a line's worth */
	uint32_t n;  /* how many; 0: nothing known yet */
};

/* The keys of LOOKUP have the numbers of the items in AT. */
struct past_list {
	struct lookup lookup;
	struct past *at;
	size_t len, cap;
};

/* Forgets all, keeping the memory. */
void past_reset(struct past_list *list);

void past_free(struct past_list *list);

/* The item of KEY, new and zeroed if need be; valid until the next call. */
struct past *past_find_or_add(
    struct past_list *list, const struct lookup_key *key);

/* The item of KEY, or NULL. */
struct past *past_find(
    const struct past_list *list, const struct lookup_key *key);

/* Adds the bytes of LIST to OUT: some five an item. */
void past_pack(const struct past_list *list, struct buffer *out);

/* Fills LIST with what LEN bytes of PACKED hold; they are past_pack()'s. */
void past_unpack(struct past_list *list, const char *packed, size_t len);

#endif
