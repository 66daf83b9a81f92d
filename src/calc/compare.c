/*
 * Laying readings side by side. A strand is what was measured under the very
 * same conditions; a family is the strands of one measurement, setting and
 * number of repetitions. Both are found by hashing, and each strand knows for
 * each mode and side which comparison takes the next reading, so a session of
 * 200,000 readings of one joint costs no more a reading than a short one.
 */
#include "calc/compare.h"

#include <stdlib.h>
#include <string.h>

#include "text/mem.h"

#define NOTHING UINT32_MAX

/* In posture, rater and instrument of a family. */
#define ANY (UINT32_MAX - 1)

enum { CELLS = COMPARE_MODES * COMPARE_SIDES };

struct key {
	uint32_t measurement;
	uint32_t setting;
	uint32_t reps;
	uint32_t posture;
	uint32_t rater;
	uint32_t instrument;
};

struct compare_strand {
	struct key key;
	uint32_t first; /* of a strand: comparison; of a family: strand */
	uint32_t last;
	uint32_t sibling;     /* next strand of the family */
	uint32_t next[CELLS]; /* comparison that takes the next reading */
};

static uint32_t
hash(const struct key *key)
{
	const uint32_t parts[] = {key->measurement, key->setting, key->reps,
	    key->posture, key->rater, key->instrument};
	uint32_t h = 2166136261u;

	for (size_t i = 0; i < sizeof(parts) / sizeof(*parts); i++) {
		h = (h ^ parts[i]) * 16777619u;
		h ^= h >> 15;
	}
	return h;
}

struct compare_family {
	uint32_t rank[3]; /* when its joint, its motion, itself came */
	uint32_t strand;
};

/* The strand (or family) of KEY; new ones have first NOTHING. */
static uint32_t
strand_of(struct comparisons *all, const struct key *key, size_t slot_count)
{
	size_t slot = hash(key) & (slot_count - 1);
	struct compare_strand *strand;

	for (; all->slots[slot]; slot = (slot + 1) & (slot_count - 1))
		if (memcmp(&all->strands[all->slots[slot] - 1].key, key,
			sizeof(*key)) == 0)
			return all->slots[slot] - 1;
	all->strands = mem_grow(all->strands, all->strands_len,
	    &all->strands_cap, sizeof(*all->strands));
	strand = &all->strands[all->strands_len++];
	strand->key = *key;
	strand->first = strand->last = strand->sibling = NOTHING;
	memset(strand->next, 0xff, sizeof(strand->next));
	all->slots[slot] = (uint32_t)all->strands_len;
	return (uint32_t)(all->strands_len - 1);
}

/* A new comparison at the end of STRAND, open to all its cells. */
static uint32_t
comparison_add(struct comparisons *all, struct compare_strand *strand)
{
	uint32_t id = (uint32_t)all->made_len;
	struct comparison *c;

	all->made = mem_grow(
	    all->made, all->made_len, &all->made_cap, sizeof(*all->made));
	c = &all->made[all->made_len++];
	c->measurement = (int16_t)strand->key.measurement;
	c->setting = strand->key.setting;
	c->reps = (int32_t)strand->key.reps;
	c->next = NOTHING;
	memset(c->reading, 0xff, sizeof(c->reading)); /* -1 */
	if (strand->first == NOTHING)
		strand->first = id;
	else
		all->made[strand->last].next = id;
	strand->last = id;
	for (int i = 0; i < CELLS; i++)
		if (strand->next[i] == NOTHING)
			strand->next[i] = id;
	return id;
}

static void
place_reading(struct comparisons *all, struct compare_strand *strand,
    const struct reading *r, size_t index)
{
	int mode = r->mode < 0 ? COMPARE_NO_MODE : r->mode;
	int side = r->side < 0 ? COMPARE_NO_SIDE : r->side;
	uint32_t *next = &strand->next[mode * COMPARE_SIDES + side];

	if (*next == NOTHING)
		comparison_add(all, strand);
	all->made[*next].reading[mode][side] = (int32_t)index;
	*next = all->made[*next].next;
}

static void
family_add(struct comparisons *all, uint32_t family, uint32_t strand)
{
	struct compare_strand *f = &all->strands[family];

	if (f->first == NOTHING) {
		f->first = strand;
		all->families = mem_grow(all->families, all->families_len,
		    &all->families_cap, sizeof(*all->families));
		all->families[all->families_len++].strand = family;
	} else {
		all->strands[f->last].sibling = strand;
	}
	f->last = strand;
}

/* Sorts all readings into strands, and strands into families. */
static void
collect(struct comparisons *all, const struct session *s)
{
	size_t slot_count = 16;

	/* At most one strand and one family a reading, and half stays free. */
	while (slot_count < 4 * s->readings.len)
		slot_count *= 2;
	if (slot_count > all->slots_cap) {
		all->slots =
		    mem_resize(all->slots, slot_count, sizeof(*all->slots));
		all->slots_cap = slot_count;
	}
	memset(all->slots, 0, slot_count * sizeof(*all->slots));
	all->len = all->made_len = 0;
	all->strands_len = all->families_len = 0;
	for (size_t i = 0; i < s->readings.len; i++) {
		const struct reading *r = &s->readings.at[i];
		struct key key = {(uint32_t)r->measurement, r->setting,
		    (uint32_t)r->reps, r->posture, r->rater,
		    (uint32_t)r->instrument};
		uint32_t strand = strand_of(all, &key, slot_count);

		if (all->strands[strand].first == NOTHING) {
			key.posture = key.rater = key.instrument = ANY;
			family_add(
			    all, strand_of(all, &key, slot_count), strand);
		}
		place_reading(all, &all->strands[strand], r, i);
	}
}

int
compare_heading(int measurement)
{
	const struct vocab_measurement *m = &vocab_measurements[measurement];
	int digit = m->joint < 0 ? m->digit : vocab_joints[m->joint].digit;

	return digit >= 0 ? digit : VOCAB_DIGIT_COUNT + m->joint;
}

const char *
compare_heading_name(int heading)
{
	return heading < VOCAB_DIGIT_COUNT
		   ? vocab_name(VOCAB_CLASS_DIGIT, heading)
		   : vocab_joints[heading - VOCAB_DIGIT_COUNT].name;
}

static int
by_rank(const void *pa, const void *pb)
{
	const struct compare_family *a = pa, *b = pb;

	for (size_t i = 0; i < sizeof(a->rank) / sizeof(*a->rank); i++)
		if (a->rank[i] != b->rank[i])
			return a->rank[i] < b->rank[i] ? -1 : 1;
	return 0;
}

/* Brings the families together by joint and motion; keeps the note's order. */
static void
arrange(struct comparisons *all)
{
	uint32_t by_heading[COMPARE_HEADINGS];
	uint32_t by_measurement[VOCAB_MEASUREMENT_COUNT];
	bool sorted = true;

	memset(by_heading, 0xff, sizeof(by_heading));
	memset(by_measurement, 0xff, sizeof(by_measurement));
	for (size_t i = 0; i < all->families_len; i++) {
		struct compare_family *f = &all->families[i];
		uint32_t m = all->strands[f->strand].key.measurement;
		uint32_t *heading = &by_heading[compare_heading((int)m)];

		if (*heading == NOTHING)
			*heading = (uint32_t)i;
		if (by_measurement[m] == NOTHING)
			by_measurement[m] = (uint32_t)i;
		f->rank[0] = *heading;
		f->rank[1] = by_measurement[m];
		f->rank[2] = (uint32_t)i;
		sorted &= i == 0 || by_rank(f - 1, f) < 0;
	}
	if (!sorted)
		qsort(all->families, all->families_len, sizeof(*all->families),
		    by_rank);
}

static bool
disjoint(const struct comparison *a, const struct comparison *b)
{
	for (int m = 0; m < COMPARE_MODES; m++)
		for (int side = 0; side < COMPARE_SIDES; side++)
			if (a->reading[m][side] >= 0 &&
			    b->reading[m][side] >= 0)
				return false;
	return true;
}

static void
take_in(struct comparison *into, const struct comparison *c)
{
	for (int m = 0; m < COMPARE_MODES; m++)
		for (int side = 0; side < COMPARE_SIDES; side++)
			if (c->reading[m][side] >= 0)
				into->reading[m][side] = c->reading[m][side];
}

/* From which side a difference is counted. */
static void
direct(struct comparison *c, const struct session *s)
{
	bool right, left;

	c->from = VOCAB_SIDE_RIGHT;
	c->one_involved = false;
	if (!vocab_measurements[c->measurement].sided)
		return;
	right = session_involves(s, c->measurement, VOCAB_SIDE_RIGHT) == 1;
	left = session_involves(s, c->measurement, VOCAB_SIDE_LEFT) == 1;
	c->one_involved = right != left;
	if (left && !right)
		c->from = VOCAB_SIDE_LEFT;
}

/* Puts out the comparisons of one family. */
static void
put_out(struct comparisons *all, const struct session *s, uint32_t family)
{
	size_t base = all->len;
	uint32_t strand = all->strands[family].first;

	for (; strand != NOTHING; strand = all->strands[strand].sibling) {
		uint32_t id = all->strands[strand].first;

		/* Compared with the first, though a condition differs. */
		if (all->len > base &&
		    disjoint(&all->at[base], &all->made[id])) {
			take_in(&all->at[base], &all->made[id]);
			id = all->made[id].next;
		}
		for (; id != NOTHING; id = all->made[id].next) {
			struct comparison *c = MEM_PUSH(all);

			*c = all->made[id];
			if (all->len == base + 1)
				direct(c, s);
			c->from = all->at[base].from;
			c->one_involved = all->at[base].one_involved;
			c->first = all->len == base + 1;
		}
	}
}

void
comparisons_build(struct comparisons *all, const struct session *s)
{
	collect(all, s);
	arrange(all);
	for (size_t i = 0; i < all->families_len; i++)
		put_out(all, s, all->families[i].strand);
}

void
comparisons_free(struct comparisons *all)
{
	free(all->at);
	free(all->made);
	free(all->strands);
	free(all->families);
	free(all->slots);
	*all = (struct comparisons){0};
}

static const struct reading *
own_reading(
    const struct session *s, const struct comparison *c, int mode, int side)
{
	int32_t index = c->reading[mode][side];

	return index < 0 ? NULL : &s->readings.at[index];
}

bool
comparison_has(const struct comparison *c, int mode)
{
	for (int side = 0; side < COMPARE_SIDES; side++)
		if (c->reading[mode][side] >= 0)
			return true;
	return false;
}

const struct reading *
comparison_reading(
    const struct session *s, const struct comparison *c, int mode, int side)
{
	const struct reading *r = own_reading(s, c, mode, side);

	if (r || mode == COMPARE_NO_MODE)
		return r;
	r = own_reading(s, c, COMPARE_NO_MODE, side);
	return r && reading_holds_for_modes(r) ? r : NULL;
}

/* Does R, the reading of SIDE without a mode, stand in for one in a mode? */
static bool
stands_in(const struct comparison *c, const struct reading *r, int side)
{
	if (!reading_holds_for_modes(r))
		return false;
	for (int m = 0; m < COMPARE_NO_MODE; m++)
		if (comparison_has(c, m) && c->reading[m][side] < 0)
			return true;
	return false;
}

bool
comparison_shows(const struct session *s, const struct comparison *c, int mode)
{
	if (mode != COMPARE_NO_MODE)
		return comparison_has(c, mode);
	for (int side = 0; side < COMPARE_SIDES; side++) {
		const struct reading *r = own_reading(s, c, mode, side);

		if (r && !stands_in(c, r, side))
			return true;
	}
	return false;
}

bool
compare_is_figure(const struct reading *r)
{
	return r && r->trials > 0 && reading_is_number(r) && !r->left_out;
}

static struct mean
difference(
    const struct session *s, const struct reading *a, const struct reading *b)
{
	int unit;

	if (!compare_is_figure(a) || !compare_is_figure(b))
		return (struct mean){0, 0};
	unit = unit_of_both(a->unit, b->unit);
	if (unit == UNKNOWN)
		return (struct mean){0, 0};
	return mean_less(mean_in_unit(mean_end(s, a), a->unit, unit),
	    mean_in_unit(mean_end(s, b), b->unit, unit));
}

struct mean
comparison_sides(const struct session *s, const struct comparison *c, int mode)
{
	int other =
	    c->from == VOCAB_SIDE_RIGHT ? VOCAB_SIDE_LEFT : VOCAB_SIDE_RIGHT;

	return difference(s, comparison_reading(s, c, mode, c->from),
	    comparison_reading(s, c, mode, other));
}

struct mean
comparison_modes(const struct session *s, const struct comparison *c, int side)
{
	const struct reading *active =
	    own_reading(s, c, VOCAB_MODE_ACTIVE, side);
	const struct reading *passive =
	    own_reading(s, c, VOCAB_MODE_PASSIVE, side);

	if (!active || !passive || active->posture != passive->posture ||
	    active->rater != passive->rater)
		return (struct mean){0, 0};
	return difference(s, passive, active);
}
