/*
 * Which words of the vocabulary stand at a place. The reader of notes says
 * which classes may; the vocabulary, which words of them go with the joint
 * and motion that the line names.
 */
#include <string.h>

#include "lsp/complete.h"
#include "parser.h"
#include "record/record.h"
#include "reference/reference.h"

typedef bool fits(const struct completing *c, int id, int *measurement);
static fits fits_joint, fits_digit, fits_part, fits_motion, fits_measure,
    fits_side, fits_end_feel, fits_setting;

/*
 * The classes, in the order of the list. PROBE is a word of the class (with
 * what must follow it) that stands for all; NULL: each word is tried.
 */
static const struct word_class {
	enum vocab_class class;
	int count;
	const char *probe;
	int kind;
	bool use_short;	  /* the shorter name is the usual one */
	bool begins_line; /* most lines begin with one of these */
	fits *fits;
} classes[] = {
    {VOCAB_CLASS_SIDE, VOCAB_SIDE_COUNT, "R", ITEM_MEMBER, true, false,
	fits_side},
    {VOCAB_CLASS_BOTH, VOCAB_BOTH_COUNT, "B", ITEM_MEMBER, true, false,
	fits_side},
    {VOCAB_CLASS_MODE, VOCAB_MODE_COUNT, NULL, ITEM_MEMBER, true, false, NULL},
    {VOCAB_CLASS_MOTION, VOCAB_MOTION_COUNT, "flexion", ITEM_FUNCTION, false,
	false, fits_motion},
    {VOCAB_CLASS_MEASURE, VOCAB_MEASURE_COUNT, "schober", ITEM_FUNCTION, false,
	false, fits_measure},
    {VOCAB_CLASS_DIGIT_JOINT, VOCAB_DIGIT_JOINT_COUNT, "MCP", ITEM_CLASS, false,
	false, fits_part},
    {VOCAB_CLASS_JOINT, VOCAB_JOINT_COUNT, NULL, ITEM_CLASS, false, true,
	fits_joint},
    {VOCAB_CLASS_DIGIT, VOCAB_DIGIT_COUNT, "ring", ITEM_CLASS, false, true,
	fits_digit},
    {VOCAB_CLASS_GROUP, VOCAB_GROUP_COUNT, NULL, ITEM_CLASS, false, false,
	NULL},
    {VOCAB_CLASS_POSTURE, VOCAB_POSTURE_COUNT, "supine", ITEM_PROPERTY, false,
	false, NULL},
    {VOCAB_CLASS_SETTING, VOCAB_SETTING_COUNT, "weight-bearing", ITEM_PROPERTY,
	false, false, fits_setting},
    {VOCAB_CLASS_END_FEEL, VOCAB_END_FEEL_COUNT, "firm", ITEM_VALUE, false,
	false, fits_end_feel},
    {VOCAB_CLASS_CAUSE, VOCAB_CAUSE_COUNT, "swelling", ITEM_VALUE, false, false,
	NULL},
    {VOCAB_CLASS_INSTRUMENT, VOCAB_INSTRUMENT_COUNT, "goniometer", ITEM_VALUE,
	false, false, NULL},
    {VOCAB_CLASS_UNIT, VOCAB_UNIT_COUNT, NULL, ITEM_UNIT, false, false, NULL},
    {VOCAB_CLASS_SEX, VOCAB_SEX_COUNT, "F", ITEM_MEMBER, false, false, NULL},
    {VOCAB_CLASS_LEVEL, VOCAB_LEVEL_COUNT, "L3", ITEM_VALUE, false, false,
	NULL},
    {VOCAB_CLASS_REQUIREMENT, VOCAB_REQUIREMENT_COUNT, "end-feel", ITEM_KEYWORD,
	false, false, NULL},
    {VOCAB_CLASS_OUTCOME, VOCAB_OUTCOME_COUNT, "WFL", ITEM_VALUE, true, false,
	NULL},
};

enum {
	CLASS_COUNT = sizeof(classes) / sizeof(*classes),
	MOST_PROBES = VOCAB_JOINT_COUNT /* of one class */
};

/* A keyword with the least that must follow it. */
static const char *const keyword_probes[VOCAB_KEYWORD_COUNT] = {
    [VOCAB_KEYWORD_LACKS] = "lacks 5",
    [VOCAB_KEYWORD_HYPER] = "hyper 5",
    [VOCAB_KEYWORD_FIXED] = "fixed 5",
    [VOCAB_KEYWORD_LESS] = "less 0",
    [VOCAB_KEYWORD_PAIN] = "pain 5",
    [VOCAB_KEYWORD_AT] = "at 5",
    [VOCAB_KEYWORD_PAINFUL_ARC] = "painful-arc 5-10",
    [VOCAB_KEYWORD_STOPPED_BY] = "stopped-by pain",
    [VOCAB_KEYWORD_AFTER] = "after 5 reps",
    [VOCAB_KEYWORD_REPS] = "reps",
    [VOCAB_KEYWORD_SUBSTITUTION] = "substitution \"x\"",
    [VOCAB_KEYWORD_BY] = "by",
    [VOCAB_KEYWORD_WITH] = "with goniometer",
    [VOCAB_KEYWORD_MAX] = "max 5",
    [VOCAB_KEYWORD_NO] = "no",
    [VOCAB_KEYWORD_FROM] = "from 2001-01-01",
    [VOCAB_KEYWORD_UNTIL] = "until 2001-01-01",
    [VOCAB_KEYWORD_STEP] = "step 5",
    [VOCAB_KEYWORD_NONE] = "none",
    [VOCAB_KEYWORD_UNAVAILABLE] = "unavailable",
};

/* --- which words of a class --- */

/*
 * A measurement that the line may still become and that has MOTION or is
 * MEASURE; where it is the only one, it is known what would be measured.
 */
static bool
some(const struct completing *c, int motion, int measure, int *measurement)
{
	int found = 0;

	for (int m = 0; m < VOCAB_MEASUREMENT_COUNT; m++) {
		const struct vocab_measurement *is = &vocab_measurements[m];

		if (!cut_may_be(&c->own, m) || is->motion != motion ||
		    is->measure != measure)
			continue;
		if (found++ == 0)
			*measurement = m;
	}
	if (found != 1)
		*measurement = NONE;
	return found > 0;
}

static bool
names_joint(const struct completing *c)
{
	return c->own.joint != NONE || c->own.digit != NONE;
}

/* A motion goes with the joint that is named before it. */
static bool
fits_motion(const struct completing *c, int id, int *measurement)
{
	if (!names_joint(c) && c->cut.tokens.header < 0)
		return false;
	return some(c, id, -1, measurement);
}

static bool
fits_measure(const struct completing *c, int id, int *measurement)
{
	if (vocab_measure_needs_digit(id) && c->own.digit == NONE)
		return false;
	return some(c, -1, id, measurement);
}

/* Has the joint (or digit) the motion or measure that the line names? */
static bool
has_named(const struct completing *c, int joint, int digit)
{
	struct cut_head head = {joint, digit, NONE, NONE, NONE, NONE};

	if (c->own.motion == NONE && c->own.measure == NONE)
		return true;
	for (int m = 0; m < VOCAB_MEASUREMENT_COUNT; m++)
		if (cut_may_be(&head, m) &&
		    (vocab_measurements[m].motion == c->own.motion ||
			c->own.motion == NONE) &&
		    (vocab_measurements[m].measure == c->own.measure ||
			c->own.measure == NONE))
			return true;
	return false;
}

/* The joints of a digit are named by the digit and its part. */
static bool
fits_joint(const struct completing *c, int id, int *measurement)
{
	(void)measurement;
	return vocab_joints[id].digit < 0 && has_named(c, id, NONE);
}

static bool
fits_digit(const struct completing *c, int id, int *measurement)
{
	(void)measurement;
	return has_named(c, NONE, id);
}

static bool
fits_part(const struct completing *c, int id, int *measurement)
{
	(void)measurement;
	return c->head.digit != NONE &&
	       vocab_digit_joint(c->head.digit, id) >= 0;
}

/* Unless nothing that the line can still name has a side. */
static bool
fits_side(const struct completing *c, int id, int *measurement)
{
	(void)id;
	(void)measurement;
	if (c->cut.tokens.header >= 0)
		return true;
	for (int m = 0; m < VOCAB_MEASUREMENT_COUNT; m++)
		if (cut_may_be(&c->head, m) && vocab_measurements[m].sided &&
		    (c->head.motion == NONE ||
			vocab_measurements[m].motion == c->head.motion))
			return true;
	return false;
}

static bool
fits_setting(const struct completing *c, int id, int *measurement)
{
	(void)measurement;
	if (c->cut.tokens.header >= 0)
		return true;
	for (int m = 0; m < VOCAB_MEASUREMENT_COUNT; m++)
		if (cut_may_be(&c->head, m) &&
		    (vocab_measurements[m].settings & VOCAB_SETTING_BIT(id)) &&
		    (c->head.motion == NONE ||
			vocab_measurements[m].motion == c->head.motion))
			return true;
	return false;
}

/* What the line measures: where it names no motion, flexion of the hinge. */
static int
measured(const struct completing *c)
{
	if (c->head.measurement != NONE)
		return c->head.measurement;
	return c->head.joint == NONE
		   ? NONE
		   : vocab_measurement(c->head.joint, VOCAB_MOTION_FLEXION);
}

static int
last_mode(const struct completing *c)
{
	for (size_t i = c->cut.tokens.len; i-- > 0;)
		if (c->cut.tokens.at[i].kind == T_MODE)
			return c->cut.tokens.at[i].id;
	return NONE;
}

/* End feel is what the examiner feels: not on an active reading. */
static bool
fits_end_feel(const struct completing *c, int id, int *measurement)
{
	(void)id;
	(void)measurement;
	return last_mode(c) != VOCAB_MODE_ACTIVE;
}

/* --- the list --- */

/* Is this end feel a usual one of what is measured? */
static bool
is_usual(const struct completing *c, const struct word_class *k, int id)
{
	int m = measured(c);

	if (k->class != VOCAB_CLASS_END_FEEL || m == NONE)
		return false;
	if (c->head.measurement == NONE &&
	    vocab_measurements[m].opposite >= 0 &&
	    (ref_end_feels(vocab_measurements[m].opposite, NULL) >> id & 1))
		return true;
	return ref_end_feels(m, NULL) >> id & 1;
}

static void
put_word(struct completing *c, const struct word_class *k, int id)
{
	const char *name = vocab_name(k->class, id);
	const char *brief = vocab_short_name(k->class, id);
	struct candidate candidate = {.label = name,
	    .short_name = strcmp(name, brief) == 0 ? NULL : brief,
	    .kind = k->kind,
	    .class = (int)k->class,
	    .id = id,
	    .measurement = NONE};

	if (k->fits && !k->fits(c, id, &candidate.measurement))
		return;
	candidate.detail = candidate.short_name;
	if (k->use_short && strlen(brief) < strlen(name)) {
		candidate.label = brief;
		candidate.short_name = candidate.detail = name;
	}
	candidate.first = c->cut.tokens.len == 0 && k->begins_line;
	if (is_usual(c, k, id)) {
		candidate.detail = "usual for this motion";
		candidate.first = true;
	}
	complete_put(c, &candidate);
}

/* Settings of PART-STATE and WORD-N that the guide names for the motion. */
static void
put_settings(struct completing *c)
{
	int m = measured(c);
	const struct ref_guide *guide = m == NONE ? NULL : ref_guide(m);
	const char *p = guide ? guide->settings : "";

	while (*p) {
		size_t len = strcspn(p, " ,;()");
		char name[32];
		uint64_t family = vocab_setting(p, len, name, sizeof(name));
		struct candidate candidate = {.label = name,
		    .kind = ITEM_PROPERTY,
		    .class = -1,
		    .measurement = NONE};

		if (memchr(p, '-', len) && family >= VOCAB_ANGLE_BIT(0) &&
		    (family & vocab_measurements[m].settings))
			complete_put(c, &candidate);
		p += len;
		p += *p != '\0';
	}
}

/*
 * May a line of this kind hold words of the class? A word of two classes is
 * settled by that. These three stand behind words that ask for them.
 */
static bool
may_hold(const struct completing *c, enum vocab_class class)
{
	return class == VOCAB_CLASS_CAUSE || class == VOCAB_CLASS_INSTRUMENT ||
	       class == VOCAB_CLASS_LEVEL ||
	       (tokens_classes(c->cut.tokens.header) >> class & 1);
}

static void
put_class(struct completing *c, size_t which, const size_t *probe)
{
	const struct word_class *k = &classes[which];
	const struct expect_probe *at = c->expect.at;

	if (!may_hold(c, k->class))
		return;
	for (int id = 0; id < k->count; id++)
		if (at[probe[k->probe ? 0 : id]].stands)
			put_word(c, k, id);
	if (k->class == VOCAB_CLASS_SETTING && at[probe[0]].stands)
		put_settings(c);
}

static void
put_keywords(struct completing *c, const size_t *probe)
{
	for (int id = 0; id < VOCAB_KEYWORD_COUNT; id++) {
		struct candidate candidate = {
		    .label = vocab_name(VOCAB_CLASS_KEYWORD, id),
		    .kind = ITEM_KEYWORD,
		    .class = VOCAB_CLASS_KEYWORD,
		    .id = id,
		    .measurement = NONE};

		if (c->expect.at[probe[id]].stands)
			complete_put(c, &candidate);
	}
}

static void
put_headers(struct completing *c)
{
	for (int id = 0; id < VOCAB_HEADER_COUNT; id++) {
		struct candidate candidate = {
		    .label = vocab_name(VOCAB_CLASS_HEADER, id),
		    .kind = ITEM_KEYWORD,
		    .class = VOCAB_CLASS_HEADER,
		    .id = id,
		    .measurement = NONE};

		complete_put(c, &candidate);
	}
}

void
complete_words(struct completing *c)
{
	size_t probe[CLASS_COUNT][MOST_PROBES];
	size_t keyword[VOCAB_KEYWORD_COUNT], date;

	if (complete_codes(c))
		return;
	for (size_t i = 0; i < CLASS_COUNT; i++)
		for (int id = 0; id < (classes[i].probe ? 1 : classes[i].count);
		     id++)
			probe[i][id] = expect_add(
			    &c->expect, classes[i].probe
					    ? classes[i].probe
					    : vocab_name(classes[i].class, id));
	for (int id = 0; id < VOCAB_KEYWORD_COUNT; id++)
		keyword[id] = expect_add(&c->expect, keyword_probes[id]);
	date = expect_add(&c->expect, "2001-01-01");
	expect_run(&c->expect, c->d);
	if (!names_joint(c) && c->cut.tokens.header < 0)
		c->head = c->expect.above;
	for (size_t i = 0; i < CLASS_COUNT; i++)
		put_class(c, i, probe[i]);
	put_keywords(c, keyword);
	if (c->expect.at[date].stands)
		complete_today(c);
	if (c->cut.tokens.len == 0)
		put_headers(c);
}
