/*
 * The readings that must come out of a note made at random, by the words of
 * the notation's manual alone: nothing here asks the reader of notes.
 */
#include <stdlib.h>
#include <string.h>

#include "random_note.h"

int
made_mode_of(const struct made_line *line, uint32_t i)
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

/* --- figures -----------------------------------------------------------------
 */

/* What stands in `start`, and in `end`. */
enum figure { NO_FIGURE, ZERO, ITS_START, ITS_END, LACKS_START, LACKS_END };

struct meaning {
	const char *kind; /* NULL: no such reading */
	enum figure start, end;
};

static const struct meaning meanings[MADE_FORMS] = {
    [MADE_RANGE] = {"measured", ITS_START, ITS_END},
    [MADE_END] = {"end-only", ZERO, ITS_END},
    [MADE_LACKS] = {"lacks", NO_FIGURE, LACKS_END},
    [MADE_HYPER] = {"measured", ZERO, ITS_END},
    [MADE_FIXED] = {"fixed", ITS_END, ITS_END},
    [MADE_LESS] = {"measured", NO_FIGURE, ITS_END},
    [MADE_NOT_TESTED] = {"not-tested", NO_FIGURE, NO_FIGURE},
    [MADE_WNL] = {"WNL", NO_FIGURE, NO_FIGURE},
    [MADE_WFL] = {"WFL", NO_FIGURE, NO_FIGURE},
    [MADE_LENGTH] = {"measured", NO_FIGURE, ITS_END},
    [MADE_LENGTH_RANGE] = {"measured", ITS_START, ITS_END},
    [MADE_SCORE] = {"score", NO_FIGURE, ITS_END},
    [MADE_LEVEL] = {"level", NO_FIGURE, ITS_END},
};

/* Of a hinge without its motion: flexion, and extension. */
static const struct meaning of_hinge[MADE_FORMS][2] = {
    [MADE_RANGE] = {{"measured", ITS_START, ITS_END},
	{"lacks", NO_FIGURE, LACKS_START}},
    [MADE_TRIPLE] = {{"measured", ZERO, ITS_END},
	{"measured", ZERO, ITS_START}},
    [MADE_END] = {{"end-only", ZERO, ITS_END}, {NULL, 0, 0}},
    [MADE_LACKS] = {{NULL, 0, 0}, {"lacks", NO_FIGURE, LACKS_END}},
    [MADE_HYPER] = {{NULL, 0, 0}, {"measured", ZERO, ITS_END}},
    [MADE_FIXED] = {{"fixed", ITS_END, ITS_END},
	{"lacks", NO_FIGURE, LACKS_END}},
    [MADE_NOT_TESTED] = {{"not-tested", NO_FIGURE, NO_FIGURE}, {NULL, 0, 0}},
    [MADE_WNL] = {{"WNL", NO_FIGURE, NO_FIGURE}, {NULL, 0, 0}},
    [MADE_WFL] = {{"WFL", NO_FIGURE, NO_FIGURE}, {NULL, 0, 0}},
};

static void
put_figure(struct buffer *out, const struct made_value *v, enum figure which,
    uint32_t i)
{
	int figures[] = {[ZERO] = 0,
	    [ITS_START] = v->start[i],
	    [ITS_END] = v->end[i],
	    [LACKS_START] = -v->start[i],
	    [LACKS_END] = -v->end[i]};

	if (which == NO_FIGURE)
		return;
	if (v->form == MADE_LEVEL)
		buffer_puts(out, vocab_name(VOCAB_CLASS_LEVEL, v->end[i]));
	else
		buffer_printf(out, "%d", figures[which]);
}

static const char *
unit_of(const struct made_value *v)
{
	if (v->form == MADE_LENGTH || v->form == MADE_LENGTH_RANGE)
		return v->cm ? "cm" : "mm";
	if (v->form == MADE_SCORE || v->form == MADE_LEVEL ||
	    made_is_outcome(v))
		return "";
	return "deg";
}

/* --- positions ---------------------------------------------------------------
 */

static int
order_of_texts(const void *a, const void *b)
{
	return strcmp(
	    ((const struct buffer *)a)->data, ((const struct buffer *)b)->data);
}

/*
 * Those of the line, and of the header those that the motion has, where the
 * line has none of its kind: sorted.
 */
static void
put_settings(struct buffer *out, const struct made_positions *header,
    const struct made_positions *line, uint64_t families)
{
	struct buffer names[2 * MOST_SETTINGS] = {{0}};
	size_t n = 0;

	for (uint32_t i = 0; i < line->n; i++)
		made_setting_name(&names[n++], &line->settings[i]);
	for (uint32_t i = 0; i < header->n; i++) {
		uint64_t family = made_setting_family(&header->settings[i]);

		if ((family & families) &&
		    !made_positions_exclude(line, family))
			made_setting_name(&names[n++], &header->settings[i]);
	}
	for (size_t i = 0; i < n; i++)
		buffer_putc(&names[i], '\0');
	qsort(names, n, sizeof(*names), order_of_texts);
	for (size_t i = 0; i < n; i++) {
		if (i > 0)
			buffer_putc(out, ' ');
		buffer_puts(out, names[i].data);
		buffer_free(&names[i]);
	}
}

/* --- readings ----------------------------------------------------------------
 */

/* A line and what is in force for it. */
struct expected {
	struct buffer *out;
	const struct made_note *made;
	const struct made_session *session;
	const struct made_positions *header;
	const struct made_line *line;
	size_t readings;
};

/* MAIN: the reading that has the words behind the value. */
static void
put_reading(struct expected *x, const struct made_value *v, int measurement,
    int side, const struct meaning *means, bool main)
{
	static const char *const sides[] = {
	    [VOCAB_SIDE_RIGHT] = "right", [VOCAB_SIDE_LEFT] = "left"};
	const struct vocab_measurement *m = &vocab_measurements[measurement];
	int posture = x->line->positions.posture < 0
			  ? x->header->posture
			  : x->line->positions.posture;

	buffer_printf(x->out, "INVENTED-%u\t2026-%02u-%02u\t%s\t%s\t",
	    (unsigned)x->made->number, (unsigned)x->session->month,
	    (unsigned)x->session->day, m->joint_name, m->motion_name);
	put_settings(x->out, x->header, &x->line->positions, m->settings);
	buffer_printf(x->out, "\t%s\t%s\t%s\t%s\t%s\t",
	    posture < 0 ? "" : vocab_name(VOCAB_CLASS_POSTURE, posture),
	    side < 0 ? "" : sides[side],
	    v->mode < 0 ? "" : vocab_name(VOCAB_CLASS_MODE, v->mode),
	    means->kind, unit_of(v));
	if (main && v->pain >= 0)
		buffer_printf(x->out, "%d", v->pain);
	buffer_puts(x->out, main && v->firm ? "\tfirm" : "\t");
	for (uint32_t i = 0; i < v->trials && means->end != NO_FIGURE; i++) {
		buffer_putc(x->out, '\t');
		put_figure(x->out, v, means->start, i);
		buffer_putc(x->out, ':');
		put_figure(x->out, v, means->end, i);
	}
	buffer_putc(x->out, '\n');
	x->readings++;
}

static void
expect_value(struct expected *x, const struct made_value *v, int side)
{
	const struct meaning *hinge = of_hinge[v->form];
	int joint = made_measurement(v)->joint;

	if (!x->line->whole) {
		put_reading(
		    x, v, v->measurement, side, &meanings[v->form], true);
		return;
	}
	if (hinge[0].kind)
		put_reading(x, v, v->measurement, side, &hinge[0], true);
	if (hinge[1].kind)
		put_reading(x, v,
		    vocab_measurement(joint, VOCAB_MOTION_EXTENSION), side,
		    &hinge[1], !hinge[0].kind);
}

static void
expect_line(struct expected *x)
{
	for (uint32_t i = 0; i < x->line->n; i++) {
		struct made_value v = x->line->values[i];

		v.mode = made_mode_of(x->line, i);
		if (v.side == MADE_BOTH) {
			expect_value(x, &v, VOCAB_SIDE_RIGHT);
			expect_value(x, &v, VOCAB_SIDE_LEFT);
		} else {
			expect_value(x, &v, v.side);
		}
	}
}

size_t
made_note_expect(struct buffer *out, const struct made_note *made)
{
	static const struct made_positions none = {.posture = -1};
	struct expected x = {.out = out, .made = made};

	for (uint32_t i = 0; i < made->n; i++) {
		x.session = &made->sessions[i];
		x.header = &none;
		for (uint32_t k = 0; k < x.session->n; k++) {
			x.line = &x.session->lines[k];
			if (!made_positions_empty(&x.line->header))
				x.header = &x.line->header;
			expect_line(&x);
		}
	}
	return x.readings;
}
