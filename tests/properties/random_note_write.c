/*
 * How a note made at random is written: the plain way, or any other. Which
 * words may be left out, since they are carried along the line, is settled
 * here by the words of the notation's manual.
 */
#include "random_ways.h"

/* --- the words before a value ------------------------------------------------
 */

enum item {
	ITEM_JOINT, /* or digit, with the measure where it is one */
	ITEM_MOTION,
	ITEM_SETTING,
	ITEM_POSTURE = ITEM_SETTING + MOST_SETTINGS,
	ITEM_SIDE,
	ITEM_MODE,
	ITEM_PART,
	ITEMS
};

static void
put_setting(
    struct buffer *out, struct made_ways *ways, const struct made_setting *s)
{
	ways_name(out, ways, s->class, s->id);
	if (s->class == VOCAB_CLASS_SETTING_PART) {
		buffer_putc(out, '-');
		ways_name(out, ways, VOCAB_CLASS_SETTING_STATE, s->state);
	}
	if (s->degrees >= 0)
		buffer_printf(out, "-%d", s->degrees);
}

static void
put_joint(
    struct buffer *out, struct made_ways *ways, const struct made_line *line)
{
	const struct vocab_measurement *m = made_measurement(&line->values[0]);

	if (line->digit >= 0) {
		ways_name(out, ways, VOCAB_CLASS_DIGIT, line->digit);
	} else if (m->measure < 0) {
		ways_name(out, ways, VOCAB_CLASS_JOINT, m->joint);
	} else {
		if (vocab_measure_needs_digit(m->measure)) {
			ways_name(out, ways, VOCAB_CLASS_DIGIT, m->digit);
			ways_gap(out, ways);
		}
		ways_name(out, ways, VOCAB_CLASS_MEASURE, m->measure);
	}
}

static void
put_item(struct buffer *out, struct made_ways *ways,
    const struct made_line *line, const struct made_value *v, enum item item)
{
	static const char *const sides[3][3] = {
	    [VOCAB_SIDE_RIGHT] = {"R", "right", "rt"},
	    [VOCAB_SIDE_LEFT] = {"L", "left", "lt"},
	    [MADE_BOTH] = {"B", "both", "bilateral"}};
	static const char *const modes[2][3] = {
	    {"A", "active", "AROM"}, {"P", "passive", "prom"}};
	bool passive = v->mode == VOCAB_MODE_PASSIVE;

	switch (item) {
	case ITEM_JOINT:
		put_joint(out, ways, line);
		break;
	case ITEM_MOTION:
		ways_name(
		    out, ways, VOCAB_CLASS_MOTION, made_measurement(v)->motion);
		break;
	case ITEM_POSTURE:
		ways_name(
		    out, ways, VOCAB_CLASS_POSTURE, line->positions.posture);
		break;
	case ITEM_SIDE:
		ways_word(out, ways, sides[v->side][ways_pick(ways, 3)]);
		break;
	case ITEM_MODE:
		ways_word(out, ways, modes[passive][ways_pick(ways, 3)]);
		break;
	case ITEM_PART:
		ways_name(out, ways, VOCAB_CLASS_DIGIT_JOINT,
		    vocab_joints[made_measurement(v)->joint].part);
		break;
	default:
		put_setting(
		    out, ways, &line->positions.settings[item - ITEM_SETTING]);
	}
}

/* Those of WANTED (bits 1 << enum item), each with a gap behind it. */
static void
put_items(struct buffer *out, struct made_ways *ways,
    const struct made_line *line, const struct made_value *v, unsigned wanted)
{
	enum item order[ITEMS];
	uint32_t n = 0;

	for (int item = 0; item < ITEMS; item++)
		if (wanted & (1u << item))
			order[n++] = (enum item)item;
	if (ways_take(ways, WAY_ANY_ORDER, 3, n > 1))
		for (uint32_t i = n - 1; i > 0; i--) {
			uint32_t k = ways_pick(ways, i + 1);
			enum item item = order[i];

			order[i] = order[k];
			order[k] = item;
		}
	for (uint32_t i = 0; i < n; i++) {
		bool mode_next = i + 1 < n && order[i] == ITEM_SIDE &&
				 order[i + 1] == ITEM_MODE &&
				 v->side != MADE_BOTH;

		if (ways_take(ways, WAY_ONE_WORD, 4, mode_next)) {
			buffer_putc(out, "RL"[v->side]);
			buffer_putc(out, "AP"[v->mode == VOCAB_MODE_PASSIVE]);
			i++;
		} else {
			put_item(out, ways, line, v, order[i]);
		}
		ways_gap(out, ways);
	}
}

/* --- what is carried along a line --------------------------------------------
 */

/* What the line has said before the value at hand. */
struct carried {
	int side;	   /* of the value before it */
	int head_mode;	   /* -1: the head names none */
	unsigned modes;	   /* named on the line, 1 << mode */
	int part;	   /* named last */
	bool parts;	   /* more than one was named */
	unsigned had[2];   /* modes that each side has, 1 << mode */
	unsigned holds[2]; /* joints that each side has, 1 << part */
};

static int
part_of(const struct made_line *line, const struct made_value *v)
{
	return line->digit < 0 ? -1
			       : vocab_joints[made_measurement(v)->joint].part;
}

/*
 * A mode is carried from the head, until a second one is named; a joint of a
 * digit, until a second one is named; a side, but not where a mode comes back
 * that it has on the line. Something must begin the reading.
 */
static unsigned
switches_of(struct made_ways *ways, const struct carried *c,
    const struct made_line *line, uint32_t i)
{
	const struct made_value *v = &line->values[i];
	int part = part_of(line, v);
	bool mode = !made_is_without_mode(v);
	bool part_written =
	    part >= 0 && !ways_take(ways, WAY_CARRIED_JOINT, 2,
			     i > 0 && !c->parts && c->part == part);
	bool part_is_new = part_written && v->side >= 0 &&
			   v->side != MADE_BOTH &&
			   !(c->holds[v->side] & (1u << part));
	bool mode_written =
	    mode && !ways_take(ways, WAY_CARRIED_MODE, 2,
			i > 0 && v->side >= 0 && c->head_mode == v->mode &&
			    c->modes == 1u << v->mode &&
			    (c->side != v->side || part_is_new));
	bool side_may_go =
	    v->side >= 0 && v->side != MADE_BOTH && v->side == c->side &&
	    (mode_written ? !(c->had[v->side] & (1u << v->mode)) : part_is_new);
	unsigned items = 0;

	if (part_written)
		items |= 1u << ITEM_PART;
	if (mode_written)
		items |= 1u << ITEM_MODE;
	if (v->side >= 0 && !ways_take(ways, WAY_CARRIED_SIDE, 2, side_may_go))
		items |= 1u << ITEM_SIDE;
	return items;
}

static void
carry(struct carried *c, const struct made_line *line, uint32_t i)
{
	const struct made_value *v = &line->values[i];
	int part = part_of(line, v);
	bool mode = !made_is_without_mode(v);
	int has = made_mode_of(line, i);

	for (int side = 0; side < 2; side++) {
		if (v->side != side && v->side != MADE_BOTH)
			continue;
		if (has >= 0)
			c->had[side] |= 1u << has;
		if (part >= 0)
			c->holds[side] |= 1u << part;
	}
	if (mode) {
		c->modes |= 1u << v->mode;
		if (i == 0)
			c->head_mode = v->mode;
	}
	c->parts = c->parts || (i > 0 && part != c->part);
	c->part = part;
	c->side = v->side;
}

/* --- lines -------------------------------------------------------------------
 */

static unsigned
head_of(const struct made_line *line)
{
	unsigned items = 1u << ITEM_JOINT;

	if (!line->whole && made_measurement(&line->values[0])->measure < 0)
		items |= 1u << ITEM_MOTION;
	for (uint32_t i = 0; i < line->positions.n; i++)
		items |= 1u << (ITEM_SETTING + i);
	if (line->positions.posture >= 0)
		items |= 1u << ITEM_POSTURE;
	return items;
}

static void
put_line(
    struct buffer *out, struct made_ways *ways, const struct made_line *line)
{
	struct carried c = {.side = -1, .head_mode = -1, .part = -1};

	for (uint32_t i = 0; i < line->n; i++) {
		const struct made_value *v = &line->values[i];
		unsigned items = switches_of(ways, &c, line, i);

		if (i > 0) {
			if (ways_take(ways, WAY_SEMICOLON, 3, true))
				buffer_puts(
				    out, ways_pick(ways, 2) ? " ;" : ";");
			ways_gap(out, ways);
		}
		put_items(
		    out, ways, line, v, i == 0 ? items | head_of(line) : items);
		ways_value(out, ways, line->whole, v);
		carry(&c, line, i);
	}
	if (ways_take(ways, WAY_SEMICOLON, 8, true))
		buffer_puts(out, " ;");
	buffer_puts(out, ways_pick(ways, 4) == 1 ? "  # a comment\n" : "\n");
}

static void
put_header(
    struct buffer *out, struct made_ways *ways, const struct made_positions *p)
{
	ways_word(out, ways, "position");
	for (uint32_t i = 0; i < p->n; i++) {
		ways_gap(out, ways);
		put_setting(out, ways, &p->settings[i]);
	}
	if (p->posture >= 0) {
		ways_gap(out, ways);
		ways_name(out, ways, VOCAB_CLASS_POSTURE, p->posture);
	}
	buffer_putc(out, '\n');
}

void
made_note_write(
    struct buffer *out, const struct made_note *made, struct made_ways *ways)
{
	buffer_printf(out,
	    "subject INVENTED-%u\nborn 1970\ninvolved right knee\n"
	    "rater ab\ninstrument goniometer step 1\n",
	    (unsigned)made->number);
	for (uint32_t i = 0; i < made->n; i++) {
		const struct made_session *s = &made->sessions[i];

		buffer_printf(out, "session 2026-%02u-%02u\n",
		    (unsigned)s->month, (unsigned)s->day);
		for (uint32_t k = 0; k < s->n; k++) {
			const struct made_line *line = &s->lines[k];

			if (!made_positions_empty(&line->header))
				put_header(out, ways, &line->header);
			if (line->n > 0)
				put_line(out, ways, line);
		}
	}
}

void
made_notes_add(struct corpus *corpus, uint32_t n)
{
	for (uint32_t seed = 0; seed < n; seed++) {
		struct made_ways ways = {.random = random_from(seed)};
		struct buffer name = {0}, text = {0};
		struct made_note made;

		made_note_at_random(&made, &ways.random, seed);
		made_note_write(&text, &made, seed % 2 ? &ways : NULL);
		buffer_printf(&name, "made/%u", (unsigned)seed);
		buffer_putc(&name, '\0');
		corpus_add_text(corpus, name.data, text);
		buffer_free(&name);
	}
}
