/*
 * Totals. The readings that belong to one are sorted by what must agree, so
 * each total is one run of them; a reading without a mode that holds for every
 * mode (fixed, not tested, WNL) fills the gaps of each.
 */
#include "calc/totals.h"

#include <stdlib.h>
#include <string.h>

#include "text/mem.h"

enum { MODES = VOCAB_MODE_COUNT + 1, NO_MODE = VOCAB_MODE_COUNT };

#define M(name) VOCAB_MEASUREMENT_##name

#define FLEXION(joint)                                                         \
	{                                                                      \
		M(joint##_FLEXION), NONE, TOTAL_ADD                            \
	}
#define EXTENSION(joint)                                                       \
	{                                                                      \
		M(joint##_EXTENSION), NONE, TOTAL_LACK                         \
	}

/* clang-format off */
#define FINGER(id, word)                                                       \
	[TOTAL_##id] = {TOTAL_KIND_FINGER, word, 6,                            \
	    {FLEXION(id##_MCP), FLEXION(id##_PIP), FLEXION(id##_DIP),          \
		EXTENSION(id##_MCP), EXTENSION(id##_PIP), EXTENSION(id##_DIP)},\
	    2600, "85 + 110 + 65",                                             \
	    "a medical formula page (after Johnson et al)", "read"}

#define TWO_JOINTS(id, word)                                                   \
	[TOTAL_##id##_TWO_JOINTS] = {TOTAL_KIND_TWO_JOINTS, word, 4,           \
	    {FLEXION(id##_PIP), FLEXION(id##_DIP), EXTENSION(id##_PIP),        \
		EXTENSION(id##_DIP)},                                          \
	    1750, "the formula's own figure", "Strickland-Glogovac 1980",      \
	    "read at second hand"}

#define SPINE(id, word, reference, parts)                                      \
	[TOTAL_##id] = {TOTAL_KIND_SPINE, word, 6,                             \
	    {{M(id##_FLEXION), NONE, TOTAL_ADD},                               \
		{M(id##_EXTENSION), NONE, TOTAL_ADD},                          \
		{M(id##_LATERAL_FLEXION), VOCAB_SIDE_RIGHT, TOTAL_ADD},        \
		{M(id##_LATERAL_FLEXION), VOCAB_SIDE_LEFT, TOTAL_ADD},         \
		{M(id##_ROTATION), VOCAB_SIDE_RIGHT, TOTAL_ADD},               \
		{M(id##_ROTATION), VOCAB_SIDE_LEFT, TOTAL_ADD}},               \
	    reference, parts, "38 CFR 4.71a, spine note 2", "the six values read, their sum computed"}

#define ROTATION(id, word)                                                     \
	[TOTAL_##id##_ROTATION] = {TOTAL_KIND_ROTATION, word, 2,               \
	    {{M(id##_INTERNAL_ROTATION), NONE, TOTAL_ADD},                     \
		{M(id##_EXTERNAL_ROTATION), NONE, TOTAL_ADD}},                 \
	    0, "", "Wilk 2011", "abstract read"}

const struct total_definition total_definitions[TOTAL_DEFINITIONS] = {
    FINGER(INDEX, "index"),
    FINGER(MIDDLE, "middle"),
    FINGER(RING, "ring"),
    FINGER(LITTLE, "little"),
    [TOTAL_THUMB] = {TOTAL_KIND_THUMB, "thumb", 4,
	{FLEXION(THUMB_MCP), FLEXION(THUMB_IP), EXTENSION(THUMB_MCP),
	    EXTENSION(THUMB_IP)},
	0, "", "common practice", "common practice"},
    TWO_JOINTS(INDEX, "index"),
    TWO_JOINTS(MIDDLE, "middle"),
    TWO_JOINTS(RING, "ring"),
    TWO_JOINTS(LITTLE, "little"),
    SPINE(CERVICAL, "cervical", 3400, "45 + 45 + 45 + 45 + 80 + 80"),
    SPINE(THORACOLUMBAR, "thoracolumbar", 2400, "90 + 30 + 30 + 30 + 30 + 30"),
    ROTATION(SHOULDER, "shoulder"),
    ROTATION(GLENOHUMERAL, "glenohumeral"),
};
/* clang-format on */

/* A reading that is a part of a total. */
struct total_entry {
	int definition;
	int part;
	int side;
	int mode; /* NO_MODE: holds for every mode */
	uint32_t setting;
	uint32_t rater;
	int32_t reps;
	uint32_t reading;
};

/* --- collecting ----------------------------------------------------------- */

/* Rotation is only added up at abducted-90. */
static bool
setting_fits(const struct session *s, const struct reading *r, int definition)
{
	static const char wanted[] = "abducted-90";
	const char *words =
	    r->setting == UNKNOWN_TEXT ? "" : intern_text(s->pool, r->setting);
	const char *at = strstr(words, wanted);
	size_t len = sizeof(wanted) - 1;

	if (total_definitions[definition].kind != TOTAL_KIND_ROTATION)
		return r->setting != UNKNOWN_TEXT;
	return at && (at == words || at[-1] == ' ') &&
	       (at[len] == '\0' || at[len] == ' ');
}

static void
collect_part(struct totals *all, const struct session *s, size_t index,
    int definition, int part)
{
	const struct reading *r = &s->readings.at[index];
	const struct total_definition *d = &total_definitions[definition];
	int side = d->part[part].side;

	if (d->part[part].measurement != r->measurement ||
	    (side >= 0 && side != r->side) ||
	    (r->mode < 0 && !reading_holds_for_modes(r)) ||
	    !setting_fits(s, r, definition))
		return;
	*MEM_PUSH(&all->entries) =
	    (struct total_entry){.definition = definition,
		.part = part,
		.side = d->kind == TOTAL_KIND_SPINE ? NONE : r->side,
		.mode = r->mode < 0 ? NO_MODE : r->mode,
		.setting = r->setting,
		.rater = r->rater,
		.reps = r->reps,
		.reading = (uint32_t)index};
}

/* The definitions of which each measurement is a part, as bits. */
static void
find_definitions(uint16_t of[VOCAB_MEASUREMENT_COUNT])
{
	memset(of, 0, VOCAB_MEASUREMENT_COUNT * sizeof(*of));
	for (int d = 0; d < TOTAL_DEFINITIONS; d++)
		for (int p = 0; p < total_definitions[d].parts; p++)
			of[total_definitions[d].part[p].measurement] |=
			    (uint16_t)(1u << d);
}

static void
collect(struct totals *all, const struct session *s)
{
	uint16_t of[VOCAB_MEASUREMENT_COUNT];

	find_definitions(of);
	all->entries.len = 0;
	for (size_t i = 0; i < s->readings.len; i++) {
		uint16_t definitions = of[s->readings.at[i].measurement];

		for (int d = 0; definitions >> d; d++)
			for (int p = 0; definitions >> d & 1 &&
					p < total_definitions[d].parts;
			     p++)
				collect_part(all, s, i, d, p);
	}
}

#define COMPARE(a, b, field)                                                   \
	do {                                                                   \
		if ((a)->field != (b)->field)                                  \
			return (a)->field < (b)->field ? -1 : 1;               \
	} while (0)

/* What must agree within one total but for the mode, which may be any. */
static int
by_conditions(const struct total_entry *a, const struct total_entry *b)
{
	COMPARE(a, b, definition);
	COMPARE(a, b, setting);
	COMPARE(a, b, reps);
	COMPARE(a, b, rater);
	COMPARE(a, b, side);
	return 0;
}

static int
by_all(const void *pa, const void *pb)
{
	const struct total_entry *a = pa, *b = pb;
	int order = by_conditions(a, b);

	if (order != 0)
		return order;
	COMPARE(a, b, mode);
	COMPARE(a, b, part);
	COMPARE(a, b, reading);
	return 0;
}

/* --- adding up ------------------------------------------------------------ */

static int64_t
common_divisor(int64_t a, int64_t b)
{
	while (b != 0) {
		int64_t rest = a % b;

		a = b;
		b = rest;
	}
	return a;
}

/*
 * A + B, exact. N is 0 where the numbers of trials have no common denominator
 * that leaves room for what is done with sums (percentages, differences).
 */
static struct mean
add(struct mean a, struct mean b)
{
	enum { MOST = 100000 };
	int64_t n;

	if (a.n == 0 || b.n == 0)
		return (struct mean){0, 0};
	n = a.n / common_divisor(a.n, b.n) * b.n;
	if (n > MOST)
		return (struct mean){0, 0};
	return (struct mean){a.sum * (n / a.n) + b.sum * (n / b.n), n};
}

/* A digit's formula takes off what a fixed joint lacks; a range has no such. */
static bool
adds_ranges(enum total_kind kind)
{
	return kind == TOTAL_KIND_SPINE || kind == TOTAL_KIND_ROTATION;
}

static enum part_state
state_of(const struct reading *r, enum total_kind kind)
{
	if (r->left_out)
		return PART_DOUBTFUL;
	if (r->kind == KIND_FIXED && adds_ranges(kind))
		return PART_FIXED;
	if (r->kind == KIND_NOT_TESTED)
		return PART_NOT_TESTED;
	if (r->kind == KIND_WNL || r->kind == KIND_WFL)
		return PART_NO_NUMBER;
	return r->trials > 0 ? PART_FIGURE : PART_MISSING;
}

static void
fill_part(struct total_part *part, const struct session *s,
    const struct total_entry *e)
{
	const struct reading *r = &s->readings.at[e->reading];

	if (part->state != PART_MISSING) {
		part->state = PART_TWICE;
		return;
	}
	part->state = state_of(r, total_definitions[e->definition].kind);
	if (part->state == PART_FIGURE)
		part->end = mean_end(s, r);
}

/*
 * A joint fixed in flexion lacks as much of extension, whether or not that was
 * written; the note has then said all of that axis.
 */
static void
fill_fixed(struct total *t, const struct total_definition *d, int flexion,
    const struct session *s, const struct total_entry *e)
{
	const struct reading *r = &s->readings.at[e->reading];
	int opposite = vocab_measurements[r->measurement].opposite;

	if (r->kind != KIND_FIXED || t->part[flexion].state != PART_FIGURE)
		return;
	for (int p = 0; p < d->parts; p++) {
		struct total_part *part = &t->part[p];

		if (d->part[p].measurement != opposite ||
		    d->part[p].role != TOTAL_LACK ||
		    part->state != PART_MISSING)
			continue;
		part->state = PART_FIGURE;
		part->end = t->part[flexion].end;
		part->end.sum = -part->end.sum;
	}
}

static void
add_up(struct total *t)
{
	const struct total_definition *d = &total_definitions[t->definition];
	struct mean sum = {0, 1};

	for (int p = 0; p < d->parts; p++) {
		struct total_part *part = &t->part[p];

		if (part->state != PART_FIGURE)
			continue;
		t->present++;
		part->value = part->end;
		if (d->part[p].role == TOTAL_LACK && part->value.sum > 0)
			part->value.sum = 0;
		sum = add(sum, part->value);
	}
	t->sum = t->present == d->parts ? sum : (struct mean){0, 0};
}

/* The entries FIRST .. LAST - 1 agree in all but their mode. */
static void
total_add(struct totals *all, const struct session *s,
    const struct total_entry *first, const struct total_entry *last, int mode)
{
	struct total *t = MEM_PUSH(all);
	const struct total_definition *d =
	    &total_definitions[first->definition];
	bool own[TOTAL_PARTS] = {false};

	*t = (struct total){.definition = first->definition,
	    .side = first->side,
	    .mode = mode,
	    .setting = first->setting,
	    .rater = first->rater,
	    .reps = first->reps};
	for (int p = 0; p < TOTAL_PARTS; p++)
		t->part[p].state = PART_MISSING;
	/* Those of the mode come before those that hold for every mode. */
	for (const struct total_entry *e = first; e < last; e++) {
		if (e->mode != mode && (e->mode != NO_MODE || own[e->part]))
			continue;
		own[e->part] |= e->mode == mode;
		fill_part(&t->part[e->part], s, e);
	}
	for (const struct total_entry *e = first; e < last; e++)
		if (e->mode == mode || (e->mode == NO_MODE && !own[e->part]))
			fill_fixed(t, d, e->part, s, e);
	add_up(t);
}

static void
totals_of_run(struct totals *all, const struct session *s,
    const struct total_entry *first, const struct total_entry *last)
{
	bool modes[MODES] = {false};
	bool any = false;

	for (const struct total_entry *e = first; e < last; e++) {
		modes[e->mode] = true;
		any |= e->mode != NO_MODE;
	}
	for (int mode = 0; any && mode < NO_MODE; mode++)
		if (modes[mode])
			total_add(all, s, first, last, mode);
}

/* By mode before side, so that the two sides stand together. */
static int
for_reading(const void *pa, const void *pb)
{
	const struct total *a = pa, *b = pb;

	COMPARE(a, b, definition);
	COMPARE(a, b, setting);
	COMPARE(a, b, reps);
	COMPARE(a, b, rater);
	COMPARE(a, b, mode);
	COMPARE(a, b, side);
	return 0;
}

void
totals_build(struct totals *all, const struct session *s)
{
	size_t end;

	collect(all, s);
	all->len = 0;
	if (all->entries.len == 0)
		return;
	qsort(all->entries.at, all->entries.len, sizeof(*all->entries.at),
	    by_all);
	for (size_t i = 0; i < all->entries.len; i = end) {
		const struct total_entry *first = &all->entries.at[i];

		for (end = i + 1; end < all->entries.len; end++)
			if (by_conditions(first, &all->entries.at[end]) != 0)
				break;
		totals_of_run(all, s, first, all->entries.at + end);
	}
	if (all->len > 1)
		qsort(all->at, all->len, sizeof(*all->at), for_reading);
}

void
totals_free(struct totals *all)
{
	free(all->at);
	free(all->entries.at);
	*all = (struct totals){0};
}

const struct total *
total_opposite(const struct totals *all, size_t i)
{
	const struct total *t = &all->at[i];
	const struct total *other[2] = {
	    i > 0 ? t - 1 : NULL, i + 1 < all->len ? t + 1 : NULL};

	for (int k = 0; k < 2; k++) {
		const struct total *o = other[k];

		if (o && o->definition == t->definition &&
		    o->setting == t->setting && o->reps == t->reps &&
		    o->rater == t->rater && o->mode == t->mode)
			return o;
	}
	return NULL;
}

struct mean
total_percent(struct mean a, int32_t of)
{
	if (a.n == 0 || of <= 0)
		return (struct mean){0, 0};
	return (struct mean){a.sum * 1000, a.n * of};
}

struct mean
total_percent_of(struct mean a, struct mean b)
{
	if (a.n == 0 || b.n == 0 || b.sum <= 0)
		return (struct mean){0, 0};
	return (struct mean){a.sum * b.n * 1000, a.n * b.sum};
}
