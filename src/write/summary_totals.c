/*
 * The totals as text. Each entry shows its formula, its parts and whose bands
 * or reference it is held against; where a part is missing it says which, and
 * there is no total. Words such as "good" are the words of a named source.
 */
#include "write/summary_totals.h"

#include <string.h>

#include "calc/totals.h"
#include "write/summary_text.h"
#include "write/summary_totals_parts.h"
#include "write/wrap.h"

/* More than half of its parts: it was meant to be a total. */
static bool
is_worth_telling(const struct total *t)
{
	const struct total_definition *d = &total_definitions[t->definition];

	if (t->sum.n > 0)
		return true;
	return d->kind != TOTAL_KIND_TWO_JOINTS && 2 * t->present > d->parts;
}

/* A digit's total has its mode in its name. */
static bool
is_digit(const struct total *t)
{
	enum total_kind kind = total_definitions[t->definition].kind;

	return kind == TOTAL_KIND_FINGER || kind == TOTAL_KIND_THUMB;
}

void
totals_head(struct totals_text *text, const struct total *t)
{
	const struct session *s = text->sum->s;
	struct buffer *line = text->line;

	if (t->side >= 0)
		buffer_printf(
		    line, "%s ", vocab_name(VOCAB_CLASS_SIDE, t->side));
	buffer_puts(line, total_definitions[t->definition].name);
	if (!is_digit(t))
		buffer_printf(line, " %s", summary_mode_name(t->mode));
	if (t->setting)
		buffer_printf(line, ", %s", intern_text(s->pool, t->setting));
	if (t->reps != NO_VALUE)
		buffer_printf(line, ", after %d reps", (int)t->reps);
	if (text->sum->several_raters && t->rater)
		buffer_printf(line, ", rater %s", summary_text_of(s, t->rater));
	buffer_puts(line, ": ");
}

/* --- parts ---------------------------------------------------------------- */

/* The word that tells a part from the others: "PIP", "right rotation". */
static void
add_part_name(struct buffer *line, const struct total_definition *d, int p)
{
	const struct vocab_measurement *m =
	    &vocab_measurements[d->part[p].measurement];

	if (vocab_joints[m->joint].digit >= 0) {
		buffer_puts(line, vocab_name(VOCAB_CLASS_DIGIT_JOINT,
				      vocab_joints[m->joint].part));
		return;
	}
	if (d->part[p].side >= 0)
		buffer_printf(
		    line, "%s ", vocab_name(VOCAB_CLASS_SIDE, d->part[p].side));
	buffer_puts(line, m->motion_name);
}

/* "MCP flexion not measured": what the total lacks. */
static void
add_missing(struct buffer *line, const struct total *t)
{
	static const char *const words[] = {[PART_MISSING] = "not measured",
	    [PART_NOT_TESTED] = "not tested",
	    [PART_NO_NUMBER] = "no number",
	    [PART_DOUBTFUL] = "doubtful",
	    [PART_FIXED] = "fixed, no range",
	    [PART_TWICE] = "measured twice"};
	const struct total_definition *d = &total_definitions[t->definition];
	size_t before = line->len;

	for (int p = 0; p < d->parts; p++) {
		const struct vocab_measurement *m =
		    &vocab_measurements[d->part[p].measurement];

		if (t->part[p].state == PART_FIGURE)
			continue;
		if (line->len > before)
			buffer_puts(line, ", ");
		add_part_name(line, d, p);
		if (vocab_joints[m->joint].digit >= 0)
			buffer_printf(line, " %s", m->motion_name);
		buffer_printf(line, " %s", words[t->part[p].state]);
	}
	if (line->len == before)
		buffer_puts(line, "its trials cannot be added up exactly");
}

/*
 * "72 + 86 + 41 - 0 - 14 - 4", or with NAMES "flexion 40 + extension 38". What
 * a part lacks is taken off.
 */
static void
add_parts(struct buffer *line, const struct total *t, bool names)
{
	const struct total_definition *d = &total_definitions[t->definition];

	for (int p = 0; p < d->parts; p++) {
		struct mean value = t->part[p].value;
		bool less = value.sum < 0 || d->part[p].role == TOTAL_LACK;

		if (p > 0)
			buffer_puts(line, less ? " - " : " + ");
		else if (less)
			buffer_puts(line, "- ");
		if (names) {
			add_part_name(line, d, p);
			buffer_putc(line, ' ');
		}
		if (value.sum < 0)
			value.sum = -value.sum;
		summary_number(line, value);
	}
}

/* --- bands ---------------------------------------------------------------- */

/* "; bands: ASSH fair, total motion table good": the words of each source. */
static void
add_bands(struct totals_text *text, const struct total *t)
{
	enum total_kind kind = total_definitions[t->definition].kind;
	const char *last = NULL;

	if (!total_is_graded(text->sum->s, t))
		return;
	for (size_t i = 0; i < band_system_count; i++) {
		const struct band_system *system = &band_systems[i];
		const struct band *band = total_band(t, system);
		bool again = last && strcmp(system->name, last) == 0;

		if (!(system->kinds >> kind & 1) || !(text->systems >> i & 1))
			continue;
		text->sum->told |= told_bit(TOLD_SYSTEM + i);
		buffer_puts(text->line, again  ? ", by degrees "
					: last ? ", "
					       : "; bands: ");
		if (!again)
			buffer_printf(text->line, "%s ", system->name);
		buffer_puts(text->line, band ? band->grade : "in none");
		if (!again && !system->source)
			buffer_printf(text->line, " (%s)", system->state);
		last = system->name;
	}
}

/* Is SIDE of the digit or joint the involved one, and the other not? */
static bool
is_the_involved(const struct session *s, const struct total *t)
{
	int first = total_definitions[t->definition].part[0].measurement;
	int other =
	    t->side == VOCAB_SIDE_RIGHT ? VOCAB_SIDE_LEFT : VOCAB_SIDE_RIGHT;

	return t->side >= 0 && session_involves(s, first, t->side) == 1 &&
	       session_involves(s, first, other) == 0;
}

/* "; 86.2 % of the left": of the involved side, where both are there. */
static void
add_percent_of_other(struct totals_text *text, size_t i)
{
	const struct total *t = &text->all->at[i];
	const struct total *other = total_opposite(text->all, i);
	struct mean percent;

	if (!other || !is_the_involved(text->sum->s, t))
		return;
	percent = total_percent_of(t->sum, other->sum);
	if (percent.n == 0)
		return;
	buffer_puts(text->line, "; ");
	summary_number(text->line, percent);
	buffer_printf(text->line, " %% of the %s",
	    vocab_name(VOCAB_CLASS_SIDE, other->side));
}

/* --- one total ------------------------------------------------------------ */

static void
put_digit(struct totals_text *text, const struct total *t)
{
	const struct total_definition *d = &total_definitions[t->definition];
	struct buffer *line = text->line;

	buffer_printf(line, "total %s motion ", summary_mode_name(t->mode));
	summary_number(line, t->sum);
	buffer_puts(line, " = ");
	add_parts(line, t, false);
	if (d->reference == 0)
		return;
	buffer_puts(line, "; ");
	summary_number(line, total_percent(t->sum, d->reference));
	buffer_puts(line, " % of ");
	summary_number(line, (struct mean){d->reference, 1});
}

static void
put_two_joints(struct totals_text *text, const struct total *t)
{
	struct buffer *line = text->line;
	int32_t of = total_definitions[t->definition].reference;

	buffer_puts(line, "two joints (");
	add_parts(line, t, false);
	buffer_puts(line, ") / ");
	summary_number(line, (struct mean){of, 1});
	buffer_puts(line, " x 100 = ");
	summary_number(line, total_percent(t->sum, of));
	buffer_puts(line, " %");
}

static void
put_spine(struct totals_text *text, const struct total *t)
{
	const struct total_definition *d = &total_definitions[t->definition];
	struct buffer *line = text->line;

	buffer_puts(line, "combined range ");
	summary_number(line, t->sum);
	buffer_puts(line, " = ");
	add_parts(line, t, true);
	buffer_puts(line, "; reference ");
	summary_number(line, (struct mean){d->reference, 1});
	buffer_printf(line, " = %s", d->reference_parts);
}

static void
put_rotation(struct totals_text *text, const struct total *t)
{
	buffer_puts(text->line, "rotation arc ");
	summary_number(text->line, t->sum);
	buffer_puts(text->line, " = ");
	add_parts(text->line, t, true);
}

static void
put_no_total(struct totals_text *text, const struct total *t)
{
	static const char *const names[] = {
	    [TOTAL_KIND_TWO_JOINTS] = "two-joint formula",
	    [TOTAL_KIND_SPINE] = "combined range",
	    [TOTAL_KIND_ROTATION] = "rotation arc"};
	struct buffer *line = text->line;

	if (is_digit(t))
		buffer_printf(
		    line, "no total %s motion: ", summary_mode_name(t->mode));
	else
		buffer_printf(line,
		    "no %s: ", names[total_definitions[t->definition].kind]);
	add_missing(line, t);
}

static void
put_total(struct totals_text *text, struct buffer *out, size_t i)
{
	static void (*const puts[])(struct totals_text *,
	    const struct total *) = {[TOTAL_KIND_FINGER] = put_digit,
	    [TOTAL_KIND_THUMB] = put_digit,
	    [TOTAL_KIND_TWO_JOINTS] = put_two_joints,
	    [TOTAL_KIND_SPINE] = put_spine,
	    [TOTAL_KIND_ROTATION] = put_rotation};
	const struct total *t = &text->all->at[i];
	enum total_kind kind = total_definitions[t->definition].kind;

	if (!is_worth_telling(t))
		return;
	totals_head(text, t);
	if (t->sum.n == 0) {
		put_no_total(text, t);
		totals_entry(text, out);
		return;
	}
	text->sum->told |= told_bit(TOLD_DEFINITION + (size_t)t->definition);
	puts[kind](text, t);
	if (is_digit(t))
		add_percent_of_other(text, i);
	add_bands(text, t);
	totals_entry(text, out);
}

/* --- the section ---------------------------------------------------------- */

void
totals_entry(struct totals_text *text, struct buffer *out)
{
	struct buffer *line = text->line;

	buffer_pad(out, ' ', text->indent);
	wrap_text(out, line->data, line->len, text->indent, text->indent + 2);
	buffer_putc(out, '\n');
	line->len = 0;
}

void
summary_totals(struct summary *sum, struct buffer *out)
{
	struct totals all = {0};
	struct totals_text text = {.sum = sum,
	    .all = &all,
	    .line = &sum->scratch,
	    .systems = bands_for(sum->s),
	    .indent = (size_t)2 * SUMMARY_INDENT};

	totals_build(&all, sum->s);
	for (size_t i = 0; i < all.len; i++) {
		put_total(&text, out, i);
		totals_rotation(&text, out, i);
	}
	totals_laxity(&text, out);
	totals_free(&all);
}

void
summary_totals_legend(struct summary *sum, struct buffer *out)
{
	struct totals_text text = {
	    .sum = sum, .line = &sum->scratch, .indent = SUMMARY_INDENT};
	size_t before = out->len, title;

	sum->scratch.len = 0;
	buffer_puts(out, "\nTotals: formulas, published bands, sources\n");
	title = out->len;
	totals_sources(&text, out);
	if (out->len == title)
		out->len = before; /* no total was shown */
}
