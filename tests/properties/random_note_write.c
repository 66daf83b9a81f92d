/*
 * How a note made at random is written: the plain way, or any other. Which
 * words may be left out, since they are carried along the line, is settled
 * here by the words of the notation's manual.
 */
#include "random_note.h"

const char *const made_way_names[MADE_WAYS] = {[WAY_UPPER_CASE] = "upper case",
    [WAY_COMMA] = "a comma for a blank",
    [WAY_SEMICOLON] = "a semicolon",
    [WAY_ANY_ORDER] = "words in another order",
    [WAY_ONE_WORD] = "side and mode in one word",
    [WAY_CARRIED_SIDE] = "a side that is carried",
    [WAY_CARRIED_MODE] = "a mode that is carried",
    [WAY_CARRIED_JOINT] = "a joint of a digit that is carried",
    [WAY_EQUAL_ENDS] = "fixed as equal ends",
    [WAY_FROM_ZERO] = "hyper as a range from 0",
    [WAY_ZERO_BEFORE] = "a range with 0 before it"};

static uint32_t
pick(struct made_ways *ways, uint32_t n)
{
	return ways ? random_below(&ways->random, n) : 0;
}

/* Is it to be written in this WAY? One time in N, where it may be. */
static bool
take(struct made_ways *ways, enum made_way way, uint32_t n, bool may)
{
	if (!may || !ways || !random_one_in(&ways->random, n))
		return false;
	ways->taken[way]++;
	return true;
}

static void
put_gap(struct buffer *out, struct made_ways *ways)
{
	static const char *const gaps[] = {
	    " ", "  ", "\t", "    ", " \t ", "\xc2\xa0"};
	static const char *const commas[] = {", ", " ,", " , "};

	if (take(ways, WAY_COMMA, 8, true))
		buffer_puts(out, commas[pick(ways, 3)]);
	else
		buffer_puts(out, gaps[pick(ways, 6)]);
}

static void
put_word(struct buffer *out, struct made_ways *ways, const char *word)
{
	bool upper = take(ways, WAY_UPPER_CASE, 3, true);

	for (; *word; word++)
		buffer_putc(out, upper && *word >= 'a' && *word <= 'z'
				     ? (char)(*word ^ 0x20)
				     : *word);
}

static void
put_name(
    struct buffer *out, struct made_ways *ways, enum vocab_class class, int id)
{
	put_word(out, ways,
	    pick(ways, 2) ? vocab_short_name(class, id)
			  : vocab_name(class, id));
}

/* --- values ------------------------------------------------------------------
 */

static void
put_figure(struct buffer *out, int tenths)
{
	buffer_uint(out, (uint64_t)tenths / 10);
	if (tenths % 10)
		buffer_printf(out, ".%d", tenths % 10);
}

static void
put_range(struct buffer *out, struct made_ways *ways, int start, int end)
{
	static const char *const dashes[] = {
	    "-", "\xe2\x80\x93", " - ", " to ", "\xc2\xb0-"};
	static const char *const ends[] = {"", "", "\xc2\xb0", " deg"};

	put_figure(out, start);
	buffer_puts(out, dashes[pick(ways, 5)]);
	put_figure(out, end);
	buffer_puts(out, ends[pick(ways, 4)]);
}

static void
put_triple(struct buffer *out, struct made_ways *ways, int a, int b, int c)
{
	char dash = pick(ways, 3) == 1 ? '/' : '-';

	put_figure(out, a);
	buffer_putc(out, dash);
	put_figure(out, b);
	buffer_putc(out, dash);
	put_figure(out, c);
}

/* A length: its unit stands behind the last figure. */
static void
put_length(struct buffer *out, struct made_ways *ways,
    const struct made_value *v, uint32_t i)
{
	if (v->form == MADE_LENGTH_RANGE) {
		put_figure(out, v->start[i]);
		buffer_puts(out, pick(ways, 2) ? " to " : "-");
	}
	put_figure(out, v->end[i]);
	buffer_puts(out, pick(ways, 2) ? "" : " ");
	put_word(out, ways, v->cm ? "cm" : "mm");
}

static void
put_outcome(
    struct buffer *out, struct made_ways *ways, const struct made_value *v)
{
	static const int outcomes[] = {
	    [MADE_NOT_TESTED] = VOCAB_OUTCOME_NOT_TESTED,
	    [MADE_WNL] = VOCAB_OUTCOME_WNL,
	    [MADE_WFL] = VOCAB_OUTCOME_WFL};

	put_name(out, ways, VOCAB_CLASS_OUTCOME, outcomes[v->form]);
	if (v->form == MADE_NOT_TESTED)
		buffer_puts(out, " \"invented reason\"");
}

static void
put_trial(struct buffer *out, struct made_ways *ways,
    const struct made_value *v, uint32_t i)
{
	static const char *const before[MADE_FORMS] = {[MADE_LACKS] = "lacks ",
	    [MADE_HYPER] = "hyper ",
	    [MADE_FIXED] = "fixed "};

	switch (v->form) {
	case MADE_RANGE:
		put_range(out, ways, v->start[i], v->end[i]);
		break;
	case MADE_TRIPLE:
		put_triple(out, ways, v->start[i], 0, v->end[i]);
		break;
	case MADE_LESS:
		put_figure(out, v->start[i] + v->end[i]);
		put_word(out, ways, " less ");
		put_figure(out, v->start[i]);
		break;
	case MADE_NOT_TESTED:
	case MADE_WNL:
	case MADE_WFL:
		put_outcome(out, ways, v);
		break;
	case MADE_END:
	case MADE_SCORE:
		put_figure(out, v->end[i]);
		break;
	case MADE_LENGTH:
	case MADE_LENGTH_RANGE:
		put_length(out, ways, v, i);
		break;
	case MADE_LEVEL:
		put_name(out, ways, VOCAB_CLASS_LEVEL, v->end[i]);
		break;
	default:
		put_word(out, ways, before[v->form]);
		put_figure(out, v->end[i]);
	}
}

static bool
starts_above_zero(const struct made_value *v)
{
	for (uint32_t i = 0; i < v->trials; i++)
		if (v->start[i] == 0)
			return false;
	return true;
}

/* All trials of a value are of one form, also where it is another one. */
static void
put_trials(struct buffer *out, struct made_ways *ways, bool whole,
    const struct made_value *v)
{
	bool equal = take(ways, WAY_EQUAL_ENDS, 2, v->form == MADE_FIXED);
	bool from_zero =
	    take(ways, WAY_FROM_ZERO, 2, v->form == MADE_HYPER && !whole);
	bool zero = take(ways, WAY_ZERO_BEFORE, 4,
	    v->form == MADE_RANGE && whole && starts_above_zero(v));

	for (uint32_t i = 0; i < v->trials; i++) {
		if (i > 0)
			put_gap(out, ways);
		if (equal)
			put_range(out, ways, v->end[i], v->end[i]);
		else if (from_zero)
			put_range(out, ways, 0, v->end[i]);
		else if (zero)
			put_triple(out, ways, 0, v->start[i], v->end[i]);
		else
			put_trial(out, ways, v, i);
	}
}

static void
put_qualifiers(
    struct buffer *out, struct made_ways *ways, const struct made_value *v)
{
	bool firm_first = pick(ways, 2);

	for (int i = 0; i < 2; i++) {
		if (v->firm && (i == 0) == firm_first) {
			put_gap(out, ways);
			put_name(out, ways, VOCAB_CLASS_END_FEEL,
			    VOCAB_END_FEEL_FIRM);
		} else if (v->pain >= 0 && (i == 0) != firm_first) {
			put_gap(out, ways);
			put_word(out, ways, "pain");
			buffer_printf(
			    out, pick(ways, 2) ? " %d/10" : " %d", v->pain);
		}
	}
}

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
	put_name(out, ways, s->class, s->id);
	if (s->class == VOCAB_CLASS_SETTING_PART) {
		buffer_putc(out, '-');
		put_name(out, ways, VOCAB_CLASS_SETTING_STATE, s->state);
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
		put_name(out, ways, VOCAB_CLASS_DIGIT, line->digit);
	} else if (m->measure < 0) {
		put_name(out, ways, VOCAB_CLASS_JOINT, m->joint);
	} else {
		if (vocab_measure_needs_digit(m->measure)) {
			put_name(out, ways, VOCAB_CLASS_DIGIT, m->digit);
			put_gap(out, ways);
		}
		put_name(out, ways, VOCAB_CLASS_MEASURE, m->measure);
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
		put_name(
		    out, ways, VOCAB_CLASS_MOTION, made_measurement(v)->motion);
		break;
	case ITEM_POSTURE:
		put_name(
		    out, ways, VOCAB_CLASS_POSTURE, line->positions.posture);
		break;
	case ITEM_SIDE:
		put_word(out, ways, sides[v->side][pick(ways, 3)]);
		break;
	case ITEM_MODE:
		put_word(out, ways, modes[passive][pick(ways, 3)]);
		break;
	case ITEM_PART:
		put_name(out, ways, VOCAB_CLASS_DIGIT_JOINT,
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
	if (take(ways, WAY_ANY_ORDER, 3, n > 1))
		for (uint32_t i = n - 1; i > 0; i--) {
			uint32_t k = pick(ways, i + 1);
			enum item item = order[i];

			order[i] = order[k];
			order[k] = item;
		}
	for (uint32_t i = 0; i < n; i++) {
		bool mode_next = i + 1 < n && order[i] == ITEM_SIDE &&
				 order[i + 1] == ITEM_MODE &&
				 v->side != MADE_BOTH;

		if (take(ways, WAY_ONE_WORD, 4, mode_next)) {
			buffer_putc(out, "RL"[v->side]);
			buffer_putc(out, "AP"[v->mode == VOCAB_MODE_PASSIVE]);
			i++;
		} else {
			put_item(out, ways, line, v, order[i]);
		}
		put_gap(out, ways);
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
	    part >= 0 && !take(ways, WAY_CARRIED_JOINT, 2,
			     i > 0 && !c->parts && c->part == part);
	bool part_is_new = part_written && v->side >= 0 &&
			   v->side != MADE_BOTH &&
			   !(c->holds[v->side] & (1u << part));
	bool mode_written =
	    mode && !take(ways, WAY_CARRIED_MODE, 2,
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
	if (v->side >= 0 && !take(ways, WAY_CARRIED_SIDE, 2, side_may_go))
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
			if (take(ways, WAY_SEMICOLON, 3, true))
				buffer_puts(out, pick(ways, 2) ? " ;" : ";");
			put_gap(out, ways);
		}
		put_items(
		    out, ways, line, v, i == 0 ? items | head_of(line) : items);
		put_trials(out, ways, line->whole, v);
		put_qualifiers(out, ways, v);
		carry(&c, line, i);
	}
	if (take(ways, WAY_SEMICOLON, 8, true))
		buffer_puts(out, " ;");
	buffer_puts(out, pick(ways, 4) == 1 ? "  # a comment\n" : "\n");
}

static void
put_header(
    struct buffer *out, struct made_ways *ways, const struct made_positions *p)
{
	put_word(out, ways, "position");
	for (uint32_t i = 0; i < p->n; i++) {
		put_gap(out, ways);
		put_setting(out, ways, &p->settings[i]);
	}
	if (p->posture >= 0) {
		put_gap(out, ways);
		put_name(out, ways, VOCAB_CLASS_POSTURE, p->posture);
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
