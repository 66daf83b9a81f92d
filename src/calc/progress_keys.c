#include "calc/progress_internal.h"

#include "text/mem.h"

/*
 * A word as five bytes, none of which is NUL, so that a key is a text to the
 * pool that finds it.
 */
static void
put_word(char *out, uint32_t word)
{
	for (int i = 0; i < 5; i++) {
		out[i] = (char)(0x80 | (word & 0x7f));
		word >>= 7;
	}
}

uint32_t
progress_key_number(struct progress_keys *k, const struct progress_key *key)
{
	char text[PROGRESS_WORDS * 5];
	uint32_t number;

	for (size_t i = 0; i < PROGRESS_WORDS; i++)
		put_word(text + 5 * i, key->word[i]);
	number = intern_id(&k->pool, text, sizeof(text));
	while (k->len <= number) {
		k->value =
		    mem_grow(k->value, k->len, &k->cap, sizeof(*k->value));
		k->value[k->len++] = PROGRESS_NONE;
	}
	return number;
}

uint32_t *
progress_key_value(struct progress_keys *k, const struct progress_key *key)
{
	uint32_t number = progress_key_number(k, key); /* may move the values */

	return &k->value[number];
}

struct progress_key
progress_series_key(const struct progress_series *series, int side, int mode)
{
	return (struct progress_key){{PROGRESS_OF_SERIES, series->person,
	    (uint32_t)series->measurement, series->setting, series->posture,
	    (uint32_t)series->reps, (uint32_t)mode, (uint32_t)side}};
}

/* A named measure needs no mode, so its goals hold for any. */
struct progress_key
progress_goal_key(
    enum progress_of of, uint32_t headers, int measurement, int side, int mode)
{
	if (vocab_measurements[measurement].measure >= 0)
		mode = NONE;
	return (struct progress_key){{of, headers, (uint32_t)measurement,
	    (uint32_t)side, (uint32_t)mode}};
}
