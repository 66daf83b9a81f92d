#include "random_note.h"

bool
made_is_without_mode(const struct made_value *v)
{
	return v->mode < 0 || (v->side >= 0 && (v->form == MADE_NOT_TESTED ||
						   v->form == MADE_WNL ||
						   v->form == MADE_FIXED));
}

static bool
is_hinge(const struct vocab_measurement *m)
{
	return m->measure < 0 && vocab_joints[m->joint].hinge;
}

static bool
is_hinge_extension(const struct vocab_measurement *m)
{
	return is_hinge(m) && m->motion == VOCAB_MOTION_EXTENSION;
}

/* --- making ------------------------------------------------------------------
 */

/* One in four is not of degrees, though few measurements are such. */
static int
any_measurement(struct random *r)
{
	bool of_degrees = !random_one_in(r, 4);

	for (;;) {
		int i = (int)random_below(r, VOCAB_MEASUREMENT_COUNT);

		if ((vocab_measurements[i].in == VOCAB_IN_DEG) == of_degrees)
			return i;
	}
}

/* Whole units, and now and then a half. */
static int
any_tenths(struct random *r, uint32_t most)
{
	return (int)random_below(r, most) * 10 + random_one_in(r, 8) * 5;
}

static enum made_form
any_form(struct random *r, const struct made_line *line)
{
	static const enum made_form usual[] = {MADE_RANGE, MADE_RANGE,
	    MADE_RANGE, MADE_END, MADE_LACKS, MADE_FIXED, MADE_NOT_TESTED,
	    MADE_WNL};
	const struct vocab_measurement *m = made_measurement(line);
	enum made_form form = usual[random_below(r, 8)];

	if (m->in == VOCAB_IN_LENGTH)
		return random_one_in(r, 2) ? MADE_LENGTH : MADE_LENGTH_RANGE;
	if (m->in != VOCAB_IN_DEG)
		return m->in == VOCAB_IN_SCORE ? MADE_SCORE : MADE_LEVEL;
	if (line->whole)
		return random_one_in(r, 2) ? MADE_TRIPLE : MADE_RANGE;
	if (is_hinge_extension(m) && (form == MADE_END || form == MADE_FIXED))
		return MADE_HYPER;
	if (form == MADE_LACKS && !m->lacks)
		return MADE_RANGE;
	return form;
}

static bool
may_be_repeated(enum made_form form)
{
	return form == MADE_RANGE || form == MADE_END || form == MADE_LENGTH ||
	       form == MADE_LENGTH_RANGE;
}

static void
make_value(struct made_value *v, struct random *r, const struct made_line *line)
{
	bool from_zero = is_hinge_extension(made_measurement(line));

	v->form = any_form(r, line);
	v->trials =
	    may_be_repeated(v->form) ? 1 + random_below(r, MOST_TRIALS) : 1;
	for (uint32_t i = 0; i < v->trials; i++) {
		v->start[i] = from_zero && v->form == MADE_RANGE
				  ? 0
				  : 10 + any_tenths(r, 40);
		v->end[i] = v->start[i] + 10 + any_tenths(r, 90);
	}
	v->cm = random_one_in(r, 2);
	if (v->form == MADE_SCORE)
		v->end[0] = (int)random_below(r, 11) * 10;
	if (v->form == MADE_LEVEL)
		v->end[0] = (int)random_below(r, VOCAB_LEVEL_COUNT);
	v->pain = random_one_in(r, 4) ? (int)random_below(r, 11) : -1;
	v->firm = v->mode == VOCAB_MODE_PASSIVE && random_one_in(r, 2);
	if (v->form == MADE_NOT_TESTED || v->form == MADE_WNL) {
		v->pain = -1;
		v->firm = false;
	}
}

static void
make_line(struct made_line *line, struct random *r)
{
	const struct vocab_measurement *m;

	*line = (struct made_line){.measurement = any_measurement(r)};
	m = made_measurement(line);
	line->posture = random_one_in(r, 4)
			    ? (int)random_below(r, VOCAB_POSTURE_COUNT)
			    : -1;
	line->whole = is_hinge(m) && random_one_in(r, 2);
	if (line->whole)
		line->measurement =
		    vocab_measurement(m->joint, VOCAB_MOTION_FLEXION);
	for (int side = 0; side < (m->sided ? 2 : 1); side++)
		for (int mode = VOCAB_MODE_ACTIVE; mode <= VOCAB_MODE_PASSIVE;
		     mode++) {
			struct made_value *v = &line->values[line->n];

			if (random_one_in(r, 3))
				continue;
			v->side = m->sided ? side : -1;
			v->mode = m->measure < 0 ? mode : -1;
			make_value(v, r, line);
			line->n++;
			if (m->measure >= 0)
				break;
		}
}

void
made_note_at_random(struct made_note *made, struct random *r, uint32_t number)
{
	*made = (struct made_note){.number = number};
	made->n = 1 + random_below(r, MOST_SESSIONS);
	for (uint32_t i = 0; i < made->n; i++) {
		struct made_session *s = &made->sessions[i];

		s->month = 1 + i;
		s->day = 1 + random_below(r, 28);
		s->n = 1 + random_below(r, MOST_LINES);
		for (uint32_t k = 0; k < s->n; k++)
			make_line(&s->lines[k], r);
	}
}

/* The mode of value I: its own, or that of the head until another is named. */
static int
mode_of(const struct made_line *line, uint32_t i)
{
	const struct made_value *first = &line->values[0];

	if (!made_is_without_mode(&line->values[i]))
		return line->values[i].mode;
	if (made_is_without_mode(first))
		return -1;
	for (uint32_t k = 1; k < i; k++)
		if (!made_is_without_mode(&line->values[k]) &&
		    line->values[k].mode != first->mode)
			return -1;
	return first->mode;
}

/* --- what must come out ------------------------------------------------------
 */

static const char *
unit_of(const struct made_value *v)
{
	switch (v->form) {
	case MADE_LENGTH:
	case MADE_LENGTH_RANGE:
		return v->cm ? "cm" : "mm";
	case MADE_SCORE:
	case MADE_LEVEL:
	case MADE_NOT_TESTED:
	case MADE_WNL:
		return "";
	default:
		return "deg";
	}
}

static void
put_expected(struct buffer *out, const struct made_line *line,
    const struct made_value *v, const char *motion, const char *kind,
    const int *start, const int *end)
{
	static const char *const sides[] = {
	    [VOCAB_SIDE_RIGHT] = "right", [VOCAB_SIDE_LEFT] = "left"};

	buffer_printf(out, "%s\t%s\t%s\t%s\t%s\t%s", motion,
	    line->posture < 0 ? ""
			      : vocab_name(VOCAB_CLASS_POSTURE, line->posture),
	    v->side < 0 ? "" : sides[v->side],
	    v->mode < 0 ? "" : vocab_name(VOCAB_CLASS_MODE, v->mode), kind,
	    unit_of(v));
	for (uint32_t i = 0; i < v->trials && end; i++) {
		buffer_putc(out, '\t');
		if (start)
			buffer_printf(out, "%d", start[i]);
		if (v->form == MADE_LEVEL)
			buffer_printf(
			    out, ":%s", vocab_name(VOCAB_CLASS_LEVEL, end[i]));
		else
			buffer_printf(out, ":%d", end[i]);
	}
	buffer_putc(out, '\n');
}

/* What a value of a hinge says of its extension. */
static void
put_extension(struct buffer *out, const struct made_line *line,
    const struct made_value *v)
{
	const char *motion =
	    vocab_name(VOCAB_CLASS_MOTION, VOCAB_MOTION_EXTENSION);
	static const int zero[MOST_TRIALS];
	int lacks[MOST_TRIALS];

	for (uint32_t i = 0; i < v->trials; i++)
		lacks[i] = -v->start[i];
	if (v->form == MADE_TRIPLE)
		put_expected(out, line, v, motion, "measured", zero, v->start);
	else
		put_expected(out, line, v, motion, "lacks", NULL, lacks);
}

/* What stands in `start` of each form, and in `end`. */
enum { NO_FIGURE, ZERO, ITS_START, ITS_END, LACKING };

static void
put_expected_value(struct buffer *out, const struct made_line *line,
    const struct made_value *v)
{
	static const struct {
		const char *kind;
		int start, end;
	} forms[] = {[MADE_RANGE] = {"measured", ITS_START, ITS_END},
	    [MADE_TRIPLE] = {"measured", ZERO, ITS_END},
	    [MADE_HYPER] = {"measured", ZERO, ITS_END},
	    [MADE_END] = {"end-only", ZERO, ITS_END},
	    [MADE_LACKS] = {"lacks", NO_FIGURE, LACKING},
	    [MADE_FIXED] = {"fixed", ITS_END, ITS_END},
	    [MADE_NOT_TESTED] = {"not-tested", NO_FIGURE, NO_FIGURE},
	    [MADE_WNL] = {"WNL", NO_FIGURE, NO_FIGURE},
	    [MADE_LENGTH] = {"measured", NO_FIGURE, ITS_END},
	    [MADE_LENGTH_RANGE] = {"measured", ITS_START, ITS_END},
	    [MADE_SCORE] = {"score", NO_FIGURE, ITS_END},
	    [MADE_LEVEL] = {"level", NO_FIGURE, ITS_END}};
	static const int zero[MOST_TRIALS];
	int lacks = -v->end[0];
	const int *figures[] = {[NO_FIGURE] = NULL,
	    [ZERO] = zero,
	    [ITS_START] = v->start,
	    [ITS_END] = v->end,
	    [LACKING] = &lacks};

	put_expected(out, line, v, made_measurement(line)->motion_name,
	    forms[v->form].kind, figures[forms[v->form].start],
	    figures[forms[v->form].end]);
}

static size_t
expect_line(struct buffer *out, const struct made_note *made,
    const struct made_session *s, const struct made_line *line)
{
	size_t readings = 0;

	for (uint32_t i = 0; i < line->n; i++) {
		struct made_value v = line->values[i];

		v.mode = mode_of(line, i);
		for (int half = 0; half <= line->whole; half++) {
			buffer_printf(out, "INVENTED-%u\t2026-%02u-%02u\t%s\t",
			    (unsigned)made->number, (unsigned)s->month,
			    (unsigned)s->day,
			    made_measurement(line)->joint_name);
			if (half)
				put_extension(out, line, &v);
			else
				put_expected_value(out, line, &v);
			readings++;
		}
	}
	return readings;
}

size_t
made_note_expect(struct buffer *out, const struct made_note *made)
{
	size_t readings = 0;

	for (uint32_t i = 0; i < made->n; i++) {
		const struct made_session *s = &made->sessions[i];

		for (uint32_t k = 0; k < s->n; k++)
			readings += expect_line(out, made, s, &s->lines[k]);
	}
	return readings;
}
