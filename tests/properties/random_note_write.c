/* How a note made at random is written: the plain way, or any other. */
#include "random_note.h"

static uint32_t
pick(struct random *r, uint32_t n)
{
	return r ? random_below(r, n) : 0;
}

static void
put_gap(struct buffer *out, struct random *r)
{
	static const char *const gaps[] = {" ", "  ", "\t", "    "};

	buffer_puts(out, gaps[pick(r, 4)]);
}

static void
put_name(struct buffer *out, struct random *r, enum vocab_class class, int id)
{
	const char *name =
	    pick(r, 2) ? vocab_short_name(class, id) : vocab_name(class, id);
	bool upper = pick(r, 3) == 2;

	for (; *name; name++)
		buffer_putc(out, upper && *name >= 'a' && *name <= 'z'
				     ? (char)(*name ^ 0x20)
				     : *name);
}

static void
put_figure(struct buffer *out, int tenths)
{
	buffer_uint(out, (uint64_t)tenths / 10);
	if (tenths % 10)
		buffer_printf(out, ".%d", tenths % 10);
}

static void
put_range(struct buffer *out, struct random *r, int start, int end)
{
	static const char *const dashes[] = {
	    "-", "\xe2\x80\x93", " - ", " to ", "\xc2\xb0-"};
	static const char *const ends[] = {"", "", "\xc2\xb0", " deg"};

	put_figure(out, start);
	buffer_puts(out, dashes[pick(r, 5)]);
	put_figure(out, end);
	buffer_puts(out, ends[pick(r, 4)]);
}

/* A length: its unit stands behind the last figure. */
static void
put_length(struct buffer *out, struct random *r, const struct made_value *v,
    uint32_t i)
{
	if (v->form == MADE_LENGTH_RANGE) {
		put_figure(out, v->start[i]);
		buffer_puts(out, pick(r, 2) ? " to " : "-");
	}
	put_figure(out, v->end[i]);
	buffer_puts(out, pick(r, 2) ? "" : " ");
	buffer_puts(out, v->cm ? "cm" : "mm");
}

static void
put_side_and_mode(
    struct buffer *out, struct random *r, const struct made_value *v)
{
	static const char *const sides[2][3] = {
	    {"R", "right", "rt"}, {"L", "left", "lt"}};
	static const char *const modes[2][3] = {
	    {"A", "active", "AROM"}, {"P", "passive", "prom"}};
	bool no_mode = made_is_without_mode(v);

	if (v->side >= 0) {
		buffer_puts(out, sides[v->side == VOCAB_SIDE_LEFT][pick(r, 3)]);
		if (out->data[out->len - 2] != ' ' || no_mode || !pick(r, 2))
			put_gap(out, r);
	}
	if (no_mode)
		return;
	/* `RA` is one word of two letters. */
	if (v->side >= 0 && out->data[out->len - 1] != ' ' &&
	    out->data[out->len - 1] != '\t')
		buffer_puts(out, v->mode == VOCAB_MODE_PASSIVE ? "P" : "A");
	else
		buffer_puts(
		    out, modes[v->mode == VOCAB_MODE_PASSIVE][pick(r, 3)]);
	put_gap(out, r);
}

static void
put_trial(struct buffer *out, struct random *r, const struct made_value *v,
    uint32_t i)
{
	static const char *const before[] = {[MADE_LACKS] = "lacks ",
	    [MADE_HYPER] = "hyper ",
	    [MADE_FIXED] = "fixed "};

	switch (v->form) {
	case MADE_RANGE:
		put_range(out, r, v->start[i], v->end[i]);
		break;
	case MADE_TRIPLE:
		put_figure(out, v->start[i]);
		buffer_puts(out, "-0-");
		put_figure(out, v->end[i]);
		break;
	case MADE_NOT_TESTED:
		buffer_puts(out, pick(r, 2) ? "not-tested" : "NT");
		buffer_puts(out, " \"invented reason\"");
		break;
	case MADE_WNL:
		buffer_puts(out, pick(r, 2) ? "wnl" : "WNL");
		break;
	case MADE_END:
	case MADE_SCORE:
		put_figure(out, v->end[i]);
		break;
	case MADE_LENGTH:
	case MADE_LENGTH_RANGE:
		put_length(out, r, v, i);
		break;
	case MADE_LEVEL:
		put_name(out, r, VOCAB_CLASS_LEVEL, v->end[i]);
		break;
	default:
		buffer_puts(out, before[v->form]);
		put_figure(out, v->end[i]);
	}
}

static void
put_value(struct buffer *out, struct random *r, const struct made_value *v)
{
	put_side_and_mode(out, r, v);
	for (uint32_t i = 0; i < v->trials; i++) {
		if (i > 0)
			put_gap(out, r);
		put_trial(out, r, v, i);
	}
	if (v->pain >= 0) {
		put_gap(out, r);
		buffer_printf(
		    out, pick(r, 2) ? "pain %d/10" : "pain %d", v->pain);
	}
	if (v->firm) {
		put_gap(out, r);
		buffer_puts(out, pick(r, 2) ? "capsular" : "firm");
	}
}

/* Its joint and motion, or its measure, and the posture. */
static void
put_head(struct buffer *out, struct random *r, const struct made_line *line)
{
	const struct vocab_measurement *m = made_measurement(line);

	if (m->measure < 0) {
		put_name(out, r, VOCAB_CLASS_JOINT, m->joint);
		put_gap(out, r);
	} else if (vocab_measure_needs_digit(m->measure)) {
		put_name(out, r, VOCAB_CLASS_DIGIT, m->digit);
		put_gap(out, r);
	}
	if (m->measure >= 0) {
		put_name(out, r, VOCAB_CLASS_MEASURE, m->measure);
		put_gap(out, r);
	} else if (!line->whole) {
		put_name(out, r, VOCAB_CLASS_MOTION, m->motion);
		put_gap(out, r);
	}
	if (line->posture >= 0) {
		put_name(out, r, VOCAB_CLASS_POSTURE, line->posture);
		put_gap(out, r);
	}
}

static void
put_line(struct buffer *out, struct random *r, const struct made_line *line)
{
	put_head(out, r, line);
	for (uint32_t i = 0; i < line->n; i++) {
		if (i > 0) {
			if (pick(r, 3) == 1)
				buffer_puts(out, pick(r, 2) ? " ;" : ";");
			put_gap(out, r);
		}
		put_value(out, r, &line->values[i]);
	}
	buffer_puts(out, pick(r, 4) == 1 ? "  # a comment\n" : "\n");
}

void
made_note_write(
    struct buffer *out, const struct made_note *made, struct random *r)
{
	buffer_printf(out,
	    "subject INVENTED-%u\nborn 1970\ninvolved right knee\n"
	    "rater ab\ninstrument goniometer step 1\n",
	    (unsigned)made->number);
	for (uint32_t i = 0; i < made->n; i++) {
		const struct made_session *s = &made->sessions[i];

		buffer_printf(out, "session 2026-%02u-%02u\n",
		    (unsigned)s->month, (unsigned)s->day);
		for (uint32_t k = 0; k < s->n; k++)
			if (s->lines[k].n > 0)
				put_line(out, r, &s->lines[k]);
	}
}
