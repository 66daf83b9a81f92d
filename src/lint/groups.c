/*
 * Finds readings that belong together in one step each: a small hash table,
 * and the groups of a session by measurement and setting. Sessions are small
 * and many, so starting anew costs as much as the session at hand, however
 * large one before it was.
 */
#include <stdlib.h>
#include <string.h>

#include "lint/internal.h"
#include "text/mem.h"

/* Three products that do not wait for each other, then all bits mixed. */
static inline size_t
hash_key(const struct lookup_key *key)
{
	uint64_t h = key->pair[0] * UINT64_C(0x9E3779B97F4A7C15) +
		     key->pair[1] * UINT64_C(0xC2B2AE3D27D4EB4F) +
		     key->pair[2] * UINT64_C(0x165667B19E3779F9);

	h = (h ^ h >> 32) * UINT64_C(0xD6E8FEB86659FD93);
	return (size_t)(h >> 32);
}

static inline bool
is_key(const struct lookup_key *a, const struct lookup_key *b)
{
	return a->pair[0] == b->pair[0] && a->pair[1] == b->pair[1] &&
	       a->pair[2] == b->pair[2];
}

/* Makes SIZE slots, all empty, and puts the known keys there again. */
static void
spread(struct lookup *lookup, size_t size)
{
	if (size > lookup->slot_cap) {
		free(lookup->slots);
		lookup->slots = mem_zero(size * sizeof(*lookup->slots));
		lookup->slot_cap = size;
	} else {
		memset(lookup->slots, 0, size * sizeof(*lookup->slots));
	}
	lookup->size = size;
	for (size_t i = 0; i < lookup->len; i++) {
		size_t slot = hash_key(&lookup->at[i].key) & (size - 1);

		while (lookup->slots[slot])
			slot = (slot + 1) & (size - 1);
		lookup->slots[slot] = (uint32_t)i + 1;
	}
}

void
lookup_begin(struct lookup *lookup, size_t expected)
{
	size_t size = 16;

	while (size < expected * 2)
		size *= 2;
	lookup->len = 0;
	spread(lookup, size);
}

/* The slot of KEY, or the empty one where it would go. */
static inline size_t
find_slot(const struct lookup *lookup, const struct lookup_key *key)
{
	size_t slot = hash_key(key) & (lookup->size - 1);

	while (lookup->slots[slot] &&
	       !is_key(&lookup->at[lookup->slots[slot] - 1].key, key))
		slot = (slot + 1) & (lookup->size - 1);
	return slot;
}

uint32_t
lookup_get(const struct lookup *lookup, const struct lookup_key *key)
{
	uint32_t found;

	if (lookup->len == 0)
		return LOOKUP_NONE;
	found = lookup->slots[find_slot(lookup, key)];
	return found ? lookup->at[found - 1].value : LOOKUP_NONE;
}

uint32_t *
lookup_put(struct lookup *lookup, const struct lookup_key *key)
{
	struct lookup_entry *entry;
	size_t slot;

	if ((lookup->len + 1) * 2 > lookup->size)
		spread(lookup, lookup->size ? lookup->size * 2 : 16);
	slot = find_slot(lookup, key);
	if (lookup->slots[slot])
		return &lookup->at[lookup->slots[slot] - 1].value;
	entry = MEM_PUSH(lookup);
	entry->key = *key;
	entry->value = LOOKUP_NONE;
	lookup->slots[slot] = (uint32_t)lookup->len;
	return &entry->value;
}

void
lookup_free(struct lookup *lookup)
{
	free(lookup->at);
	free(lookup->slots);
	*lookup = (struct lookup){0};
}

struct lookup_key
lint_key(const struct reading *r, int measurement, int mode, unsigned fields)
{
	uint32_t what = (uint32_t)(uint16_t)measurement << 16 |
			(uint32_t)(uint8_t)r->side << 8 | (uint8_t)mode;
	uint32_t posture = fields & LIKE_POSTURE ? r->posture : 0;
	uint32_t rater = fields & LIKE_RATER ? r->rater : 0;
	uint32_t instrument =
	    fields & LIKE_INSTRUMENT ? (uint8_t)r->instrument : 0;
	uint32_t reps = fields & LIKE_REPS ? (uint32_t)r->reps : 0;

	return (struct lookup_key){{lookup_pair(what, r->setting),
	    lookup_pair(posture, rater), lookup_pair(instrument, reps)}};
}

static void *
make_room(void *ptr, size_t need, size_t *cap, size_t size)
{
	if (need <= *cap)
		return ptr;
	*cap = need + need / 2;
	return mem_resize(ptr, *cap, size);
}

static struct lookup_key
group_key(int measurement, uint32_t setting)
{
	return (struct lookup_key){
	    {lookup_pair((uint32_t)measurement, setting)}};
}

/* The group of R, new if need be; most are of that of the LAST reading. */
static uint32_t
find_or_add(struct groups *groups, const struct reading *r, uint32_t last)
{
	struct lookup_key key = group_key(r->measurement, r->setting);
	uint32_t *g;

	if (last < groups->len && groups->at[last].setting == r->setting &&
	    groups->at[last].measurement == r->measurement)
		return last;
	g = lookup_put(&groups->lookup, &key);
	if (*g == LOOKUP_NONE) {
		*g = (uint32_t)groups->len;
		*MEM_PUSH(groups) =
		    (struct group){r->measurement, r->setting, 0, 0};
	}
	return *g;
}

void
groups_build(struct groups *groups, const struct session *s)
{
	size_t n = s->readings.len;
	uint32_t first = 0, last = 0;

	groups->len = 0;
	groups->order = make_room(
	    groups->order, n, &groups->order_cap, sizeof(*groups->order));
	groups->group_of = make_room(groups->group_of, n, &groups->group_of_cap,
	    sizeof(*groups->group_of));
	lookup_begin(&groups->lookup, n);
	for (size_t i = 0; i < n; i++) {
		uint32_t g = find_or_add(groups, &s->readings.at[i], last);

		groups->group_of[i] = last = g;
		groups->at[g].count++;
	}
	for (size_t g = 0; g < groups->len; g++) {
		groups->at[g].first = first;
		first += groups->at[g].count;
		groups->at[g].count = 0;
	}
	for (size_t i = 0; i < n; i++) {
		struct group *g = &groups->at[groups->group_of[i]];

		groups->order[g->first + g->count++] = (uint32_t)i;
	}
}

uint32_t
groups_find(const struct groups *groups, int measurement, uint32_t setting)
{
	struct lookup_key key = group_key(measurement, setting);

	return lookup_get(&groups->lookup, &key);
}

void
groups_free(struct groups *groups)
{
	free(groups->at);
	free(groups->order);
	free(groups->group_of);
	lookup_free(&groups->lookup);
	*groups = (struct groups){0};
}
