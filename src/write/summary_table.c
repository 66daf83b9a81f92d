/*
 * The table of the text summary. One text line a mode, so that whatever was
 * measured of a motion stands together, right beside left.
 */
#include <stdio.h>
#include <string.h>

#include "write/summary_text.h"

enum column {
	COLUMN_MOTION,
	COLUMN_MODE,
	COLUMN_RIGHT,
	COLUMN_LEFT,
	COLUMN_NO_SIDE,
	COLUMN_DIFFERENCE,
	COLUMN_END_FEEL,
	COLUMN_PAIN,
	COLUMN_USUAL,
	COLUMNS
};

/* A session whose differences all run one way says so once, in the heading. */
static const char *
direction(const struct summary *sum)
{
	static const char *const words[] = {"R-L", "L-R"};
	int from = -1;

	for (size_t i = 0; i < sum->comparisons.len; i++) {
		const struct comparison *c = &sum->comparisons.at[i];

		if (!vocab_measurements[c->measurement].sided)
			continue;
		if (from >= 0 && from != c->from)
			return NULL;
		from = c->from;
	}
	return words[from < 0 ? 0 : from];
}

/* What the table has shown, so that the lines below it can say what it means.
 */
struct marks {
	const char *direction; /* of all differences, or NULL */
	bool differences;
	bool modes;
	uint32_t trials;   /* of the first mean, 0 none */
	bool other_trials; /* a mean of more or fewer */
	bool doubtful;
	bool one_involved; /* differences of the involved side */
	bool right_left;   /* differences of both or neither */
};

static void
add_headings(struct table *t, const char *difference)
{
	const char *const headings[2][COLUMNS] = {
	    {"", "", "right", "left", "value", difference ? difference : "side",
		"end feel", "pain", "usual"},
	    {"", "", "", "", "", difference ? "" : "difference", "R/L", "R/L",
		""}};

	for (int row = 0; row < 2; row++) {
		for (int i = 0; i < COLUMNS; i++)
			table_puts(t, headings[row][i]);
		table_row(t);
	}
}

/*
 * Line N of the label of a comparison: motion, setting, repetitions. Returns
 * false where it has no such line.
 */
static bool
add_label(struct summary *sum, const struct comparison *c, int n)
{
	const struct vocab_measurement *m = &vocab_measurements[c->measurement];
	const char *heading =
	    compare_heading_name(compare_heading(c->measurement));
	struct buffer *cell = &sum->table.text;
	size_t skip = strlen(heading);

	if (n == 0) {
		/* "index PIP" under the heading "index" is "PIP" */
		buffer_puts(cell, "  ");
		if (strlen(m->joint_name) > skip)
			buffer_printf(cell, "%s ", m->joint_name + skip + 1);
		buffer_puts(cell, m->motion_name);
		return true;
	}
	n += c->setting == 0;
	if (n == 1)
		buffer_printf(
		    cell, "    %s", intern_text(sum->s->pool, c->setting));
	else if (n == 2 && c->reps != NO_VALUE)
		buffer_printf(cell, "    after %d reps", (int)c->reps);
	else
		return false;
	return true;
}

/* What WRITE makes of right and left, parted by a stroke. */
static void
add_pair(struct table *t, const struct summary_line *line,
    void (*write)(struct buffer *, const struct reading *))
{
	size_t before = t->text.len, half;
	bool any = false;

	for (int side = 0; side < COMPARE_NO_SIDE; side++) {
		const struct reading *r = line->reading[side];

		if (side > 0)
			buffer_putc(&t->text, '/');
		half = t->text.len;
		if (r)
			write(&t->text, r);
		any |= t->text.len > half;
		if (t->text.len == half)
			buffer_putc(&t->text, '-');
	}
	if (!any)
		t->text.len = before;
	if (line->reading[COMPARE_NO_SIDE])
		write(&t->text, line->reading[COMPARE_NO_SIDE]);
	table_next(t);
}

static void
write_end_feel(struct buffer *out, const struct reading *r)
{
	if (r->end_feel >= 0)
		buffer_puts(out, vocab_name(VOCAB_CLASS_END_FEEL, r->end_feel));
}

static void
add_difference(
    const struct summary_line *line, struct table *t, struct marks *marks)
{
	const struct comparison *c = line->c;

	if (line->difference.n > 0) {
		if (!marks->direction)
			buffer_puts(&t->text,
			    c->from == VOCAB_SIDE_RIGHT ? "R-L " : "L-R ");
		summary_signed(&t->text, line->difference);
		summary_unit(&t->text, line->unit);
		marks->differences = true;
		marks->one_involved |= c->one_involved;
		marks->right_left |= !c->one_involved;
	}
	table_next(t);
}

static void
mark_trials(struct marks *marks, const struct reading *r)
{
	if (r->trials < 2 || r->kind == KIND_LEVEL)
		return;
	if (marks->trials == 0)
		marks->trials = r->trials;
	marks->other_trials |= r->trials != marks->trials;
}

static void
add_line(struct summary *sum, const struct comparison *c, int mode,
    struct marks *marks)
{
	struct table *t = &sum->table;
	struct summary_line line;

	summary_line_fill(sum, c, mode, &line);
	table_puts(t, summary_mode_name(mode));
	for (int side = 0; side < COMPARE_SIDES; side++) {
		const struct reading *r = line.reading[side];

		if (r) {
			summary_value(&t->text, sum->s, r);
			mark_trials(marks, r);
			marks->doubtful |= r->left_out;
		}
		if (r && r->left_out)
			buffer_putc(&t->text, '!');
		table_next(t);
	}
	add_difference(&line, t, marks);
	add_pair(t, &line, write_end_feel);
	add_pair(t, &line, summary_pain);
	if (line.has_usual) {
		summary_usual_value(&t->text, &line.usual);
		buffer_printf(&t->text, " [%zu]",
		    summary_source_number(sum, &line.usual));
		sum->told |= told_bit(TOLD_USUAL);
	}
	table_row(t);
}

/* Passive less active of each side; false where there is no such figure. */
static bool
find_modes(const struct summary *sum, const struct comparison *c,
    struct mean figures[COMPARE_SIDES])
{
	bool any = false;

	for (int side = 0; side < COMPARE_SIDES; side++) {
		figures[side] = comparison_modes(sum->s, c, side);
		any |= figures[side].n > 0;
	}
	return any;
}

static void
add_modes(struct summary *sum, const struct comparison *c,
    const struct mean figures[COMPARE_SIDES])
{
	struct table *t = &sum->table;

	table_puts(t, "P-A");
	for (int side = 0; side < COMPARE_SIDES; side++) {
		summary_signed(&t->text, figures[side]);
		if (figures[side].n > 0)
			summary_unit(
			    &t->text, summary_modes_unit(sum, c, side));
		table_next(t);
	}
	table_row(t);
}

/* The label takes as many lines as it needs, beside those of the modes. */
static void
add_comparison(
    struct summary *sum, const struct comparison *c, struct marks *marks)
{
	struct table *t = &sum->table;
	struct mean figures[COMPARE_SIDES];
	int label = 0;

	for (int mode = 0; mode < COMPARE_MODES; mode++) {
		if (!comparison_shows(sum->s, c, mode))
			continue;
		add_label(sum, c, label++);
		table_next(t);
		add_line(sum, c, mode, marks);
	}
	if (find_modes(sum, c, figures)) {
		add_label(sum, c, label++);
		table_next(t);
		add_modes(sum, c, figures);
		marks->modes = true;
	}
	for (; add_label(sum, c, label); label++) {
		table_next(t);
		table_row(t);
	}
	summary_notes(sum, c);
}

static void
explain(struct buffer *out, const char *mark, const char *text)
{
	buffer_pad(out, ' ', SUMMARY_INDENT);
	buffer_printf(out, "%s: %s\n", mark, text);
}

static void
explain_trials(struct buffer *out, const struct marks *marks)
{
	char mark[16], text[48];

	if (marks->trials == 0)
		return;
	snprintf(mark, sizeof(mark), "(%u)", (unsigned)marks->trials);
	snprintf(text, sizeof(text), "the mean of %u trials%s",
	    (unsigned)marks->trials, marks->other_trials ? ", and so on" : "");
	explain(out, mark, text);
}

static void
explain_marks(struct buffer *out, const struct marks *marks)
{
	const char *mark = marks->direction ? marks->direction : "R-L, L-R";

	if (marks->differences && marks->one_involved && !marks->right_left)
		explain(out, mark, "the involved side less the other");
	else if (marks->differences && !marks->one_involved)
		explain(out, mark,
		    "right less left, as both sides or neither are involved");
	else if (marks->differences)
		explain(out, mark,
		    "the involved side less the other; right less left where\n"
		    "      both or neither are involved");
	if (marks->modes)
		explain(out, "P-A", "passive less active");
	explain_trials(out, marks);
	if (marks->doubtful)
		explain(out, "!",
		    "doubtful, see the findings; not used in differences");
}

void
summary_table(struct summary *sum, struct buffer *out)
{
	struct marks marks = {.direction = direction(sum)};
	struct table *t = &sum->table;
	int heading = -1;

	table_reset(t, COLUMNS, 2);
	add_headings(t, marks.direction);
	for (size_t i = 0; i < sum->comparisons.len; i++) {
		const struct comparison *c = &sum->comparisons.at[i];

		if (compare_heading(c->measurement) != heading) {
			heading = compare_heading(c->measurement);
			buffer_puts(&t->text, compare_heading_name(heading));
			table_across(t);
		}
		add_comparison(sum, c, &marks);
	}
	table_write(out, t, SUMMARY_INDENT);
	explain_marks(out, &marks);
}
