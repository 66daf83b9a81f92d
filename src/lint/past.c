/*
 * An archive has many persons of which one is at hand, so the others are kept
 * packed. An item is nine words; most are those of the item before, and those
 * that differ do so in few bits. Packed are a byte with a bit for each word
 * that differs, then the difference of those words, seven bits a byte.
 */
#include "lint/past.h"

#include <stdlib.h>

#include "text/mem.h"

enum { KEY_WORDS = 6, CHANGING = KEY_WORDS + 2, ITEM_WORDS };

/* The sum comes last: it nearly always differs, and has no bit. */
struct item {
	uint32_t word[ITEM_WORDS];
};

static struct item
item_of(const struct lookup_key *key, const struct past *past)
{
	const uint64_t *p = key->pair;

	return (struct item){{(uint32_t)(p[0] >> 32), (uint32_t)p[0],
	    (uint32_t)(p[1] >> 32), (uint32_t)p[1], (uint32_t)(p[2] >> 32),
	    (uint32_t)p[2], (uint32_t)past->day, past->n, (uint32_t)past->sum}};
}

static void
put_word(struct buffer *out, uint32_t word)
{
	for (; word > 127; word >>= 7)
		buffer_putc(out, (char)(word | 128));
	buffer_putc(out, (char)word);
}

static uint32_t
get_word(const unsigned char **at)
{
	uint32_t word = 0;
	unsigned shift = 0;

	for (; **at > 127; ++*at, shift += 7)
		word |= (uint32_t)(**at & 127) << shift;
	return word | (uint32_t) * (*at)++ << shift;
}

void
past_reset(struct past_list *list)
{
	lookup_begin(&list->lookup, 0);
	list->len = 0;
}

void
past_free(struct past_list *list)
{
	lookup_free(&list->lookup);
	free(list->at);
	*list = (struct past_list){0};
}

struct past *
past_find_or_add(struct past_list *list, const struct lookup_key *key)
{
	uint32_t *value = lookup_put(&list->lookup, key);

	if (*value == LOOKUP_NONE) {
		*value = (uint32_t)list->len;
		*MEM_PUSH(list) = (struct past){0};
	}
	return &list->at[*value];
}

struct past *
past_find(const struct past_list *list, const struct lookup_key *key)
{
	uint32_t found = lookup_get(&list->lookup, key);

	return found == LOOKUP_NONE ? NULL : &list->at[found];
}

void
past_pack(const struct past_list *list, struct buffer *out)
{
	struct item before = {0};

	for (size_t i = 0; i < list->len; i++) {
		struct item item =
		    item_of(&list->lookup.at[i].key, &list->at[i]);
		unsigned differs = 0;

		for (int w = 0; w < CHANGING; w++)
			if (item.word[w] != before.word[w])
				differs |= 1u << w;
		buffer_putc(out, (char)differs);
		for (int w = 0; w < CHANGING; w++)
			if (differs & 1u << w)
				put_word(out, item.word[w] ^ before.word[w]);
		put_word(out, item.word[CHANGING]);
		before = item;
	}
}

void
past_unpack(struct past_list *list, const char *packed, size_t len)
{
	const unsigned char *at = (const unsigned char *)packed;
	const unsigned char *end = len ? at + len : at;
	struct item item = {0};

	while (at < end) {
		unsigned differs = *at++;
		struct lookup_key key;

		for (int w = 0; w < CHANGING; w++)
			if (differs & 1u << w)
				item.word[w] ^= get_word(&at);
		item.word[CHANGING] = get_word(&at);
		for (int w = 0; w < KEY_WORDS; w += 2)
			key.pair[w / 2] =
			    lookup_pair(item.word[w], item.word[w + 1]);
		*past_find_or_add(list, &key) =
		    (struct past){.day = (int32_t)item.word[KEY_WORDS],
			.n = item.word[KEY_WORDS + 1],
			.sum = (int32_t)item.word[CHANGING]};
	}
}
