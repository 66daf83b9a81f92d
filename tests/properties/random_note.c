#include "random_note.h"

#include "vocab/vocab.h"

static const struct vocab_measurement *
measurement_of(const struct made_line *line)
{
	return &vocab_measurements[line->measurement];
}

/* It needs none; but where there is no side, the mode begins the reading. */
static bool
is_without_mode(const struct made_value *v)
{
	return v->side >= 0 &&
	       (v->form == MADE_NOT_TESTED || v->form == MADE_WNL ||
		   v->form == MADE_FIXED);
}

static bool
is_hinge_extension(const struct vocab_measurement *m)
{
	return vocab_joints[m->joint].hinge &&
	       m->motion == VOCAB_MOTION_EXTENSION;
}

/* --- making ------------------------------------------------------------------
 */

static int
any_measurement(struct random *r)
{
	for (;;) {
		int i = (int)random_below(r, VOCAB_MEASUREMENT_COUNT);
		const struct vocab_measurement *m = &vocab_measurements[i];

		if (m->in == VOCAB_IN_DEG && m->joint >= 0 && m->motion >= 0)
			return i;
	}
}

/* Whole degrees, and now and then a half. */
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
	const struct vocab_measurement *m = measurement_of(line);
	enum made_form form = usual[random_below(r, 8)];

	if (line->whole)
		return random_one_in(r, 2) ? MADE_TRIPLE : MADE_RANGE;
	if (is_hinge_extension(m) && (form == MADE_END || form == MADE_FIXED))
		return MADE_HYPER;
	if (form == MADE_LACKS && !m->lacks)
		return MADE_RANGE;
	return form;
}

static void
make_value(struct made_value *v, struct random *r, const struct made_line *line)
{
	bool from_zero = is_hinge_extension(measurement_of(line));

	v->form = any_form(r, line);
	v->trials = v->form == MADE_RANGE || v->form == MADE_END
			? 1 + random_below(r, MOST_TRIALS)
			: 1;
	for (uint32_t i = 0; i < v->trials; i++) {
		v->start[i] = from_zero && v->form == MADE_RANGE
				  ? 0
				  : 10 + any_tenths(r, 40);
		v->end[i] = v->start[i] + 10 + any_tenths(r, 90);
	}
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
	m = measurement_of(line);
	line->whole = vocab_joints[m->joint].hinge && random_one_in(r, 2);
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
			v->mode = mode;
			make_value(v, r, line);
			line->n++;
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

/* --- writing -----------------------------------------------------------------
 */

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

static void
put_side_and_mode(
    struct buffer *out, struct random *r, const struct made_value *v)
{
	static const char *const sides[2][3] = {
	    {"R", "right", "rt"}, {"L", "left", "lt"}};
	static const char *const modes[2][3] = {
	    {"A", "active", "AROM"}, {"P", "passive", "prom"}};
	bool no_mode = is_without_mode(v);

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
		put_figure(out, v->end[i]);
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

static void
put_line(struct buffer *out, struct random *r, const struct made_line *line)
{
	const struct vocab_measurement *m = measurement_of(line);

	put_name(out, r, VOCAB_CLASS_JOINT, m->joint);
	put_gap(out, r);
	if (!line->whole) {
		put_name(out, r, VOCAB_CLASS_MOTION, m->motion);
		put_gap(out, r);
	}
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

/* The mode of value I: its own, or that of the head until another is named. */
static int
mode_of(const struct made_line *line, uint32_t i)
{
	const struct made_value *first = &line->values[0];

	if (!is_without_mode(&line->values[i]))
		return line->values[i].mode;
	if (is_without_mode(first))
		return -1;
	for (uint32_t k = 1; k < i; k++)
		if (!is_without_mode(&line->values[k]) &&
		    line->values[k].mode != first->mode)
			return -1;
	return first->mode;
}

/* --- what must come out ------------------------------------------------------
 */

static void
put_expected(struct buffer *out, const struct made_value *v, const char *kind,
    int motion, const int *start, const int *end)
{
	static const char *const sides[] = {
	    [VOCAB_SIDE_RIGHT] = "right", [VOCAB_SIDE_LEFT] = "left"};

	buffer_printf(out, "%s\t%s\t%s\t%s",
	    vocab_name(VOCAB_CLASS_MOTION, motion),
	    v->side < 0 ? "" : sides[v->side],
	    v->mode < 0 ? "" : vocab_name(VOCAB_CLASS_MODE, v->mode), kind);
	for (uint32_t i = 0; i < v->trials && end; i++) {
		buffer_putc(out, '\t');
		if (start)
			buffer_printf(out, "%d", start[i]);
		buffer_printf(out, ":%d", end[i]);
	}
	buffer_putc(out, '\n');
}

/* What a value of a hinge says of its extension. */
static void
put_extension(struct buffer *out, const struct made_value *v)
{
	static const int zero[MOST_TRIALS];
	int lacks[MOST_TRIALS];

	for (uint32_t i = 0; i < v->trials; i++)
		lacks[i] = -v->start[i];
	if (v->form == MADE_TRIPLE)
		put_expected(
		    out, v, "measured", VOCAB_MOTION_EXTENSION, zero, v->start);
	else
		put_expected(
		    out, v, "lacks", VOCAB_MOTION_EXTENSION, NULL, lacks);
}

static void
put_expected_value(struct buffer *out, const struct made_line *line,
    const struct made_value *v)
{
	static const int zero[MOST_TRIALS];
	int motion = measurement_of(line)->motion, lacks = -v->end[0];

	switch (v->form) {
	case MADE_RANGE:
		put_expected(out, v, "measured", motion, v->start, v->end);
		break;
	case MADE_TRIPLE:
	case MADE_HYPER:
		put_expected(out, v, "measured", motion, zero, v->end);
		break;
	case MADE_END:
		put_expected(out, v, "end-only", motion, zero, v->end);
		break;
	case MADE_LACKS:
		put_expected(out, v, "lacks", motion, NULL, &lacks);
		break;
	case MADE_FIXED:
		put_expected(out, v, "fixed", motion, v->end, v->end);
		break;
	case MADE_NOT_TESTED:
		put_expected(out, v, "not-tested", motion, NULL, NULL);
		break;
	case MADE_WNL:
		put_expected(out, v, "WNL", motion, NULL, NULL);
		break;
	}
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
			    (unsigned)s->day, measurement_of(line)->joint_name);
			if (half)
				put_extension(out, &v);
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
