/*
 * The notes below the lines of a comparison in the text summary: conditions of
 * measuring, above all where they differ, and what was said of each reading.
 */
#include <string.h>

#include "write/summary_text.h"
#include "write/wrap.h"

static void
across(struct summary *sum)
{
	enum { FIRST = SUMMARY_INDENT + 4, REST = SUMMARY_INDENT + 6 };
	struct buffer *line = &sum->scratch, *text = &sum->table.text;

	buffer_pad(text, ' ', FIRST - SUMMARY_INDENT);
	wrap_text(text, line->data, line->len, FIRST, REST);
	table_across(&sum->table);
	line->len = 0;
}

void
summary_name_reading(struct buffer *line, const struct reading *r)
{
	size_t before = line->len;

	if (r->side >= 0)
		buffer_puts(line, vocab_name(VOCAB_CLASS_SIDE, r->side));
	if (r->mode >= 0)
		buffer_printf(line, "%s%s", line->len > before ? " " : "",
		    summary_mode_name(r->mode));
}

enum condition { POSTURE, RATER, INSTRUMENT };

static const char *
condition_of(
    const struct session *s, const struct reading *r, enum condition what)
{
	switch (what) {
	case POSTURE:
		return r->posture ? intern_text(s->pool, r->posture)
				  : "not named";
	case RATER:
		return r->rater ? summary_text_of(s, r->rater) : "not named";
	default:
		return r->instrument < 0
			   ? "not named"
			   : vocab_name(VOCAB_CLASS_INSTRUMENT, r->instrument);
	}
}

/* The readings of C that measured something. */
static size_t
measured(const struct session *s, const struct comparison *c,
    const struct reading **seen)
{
	size_t n = 0;

	for (int m = 0; m < COMPARE_MODES; m++)
		for (int side = 0; side < COMPARE_SIDES; side++) {
			int32_t i = c->reading[m][side];

			if (i >= 0 && s->readings.at[i].trials > 0)
				seen[n++] = &s->readings.at[i];
		}
	return n;
}

/* The heading of the session names what holds for all of it. */
static bool
worth_saying(
    const struct summary *sum, const struct reading *r, enum condition what)
{
	switch (what) {
	case POSTURE:
		return sum->several_postures && r->posture != 0;
	case RATER:
		return sum->several_raters && r->rater != 0;
	default:
		return sum->several_instruments && r->instrument >= 0;
	}
}

static void
add_gap(struct buffer *line, size_t before)
{
	if (line->len > before)
		buffer_puts(line, "; ");
}

static bool
differs(const struct session *s, const struct reading *const *seen, size_t n,
    enum condition what)
{
	for (size_t i = 1; i < n; i++)
		if (strcmp(condition_of(s, seen[i], what),
			condition_of(s, seen[0], what)) != 0)
			return true;
	return false;
}

/* The word of each reading. */
static void
add_differing(struct summary *sum, const struct reading *const *seen, size_t n,
    enum condition what)
{
	static const char *const words[] = {"posture", "rater", "instrument"};
	struct buffer *line = &sum->scratch;

	buffer_printf(line, "%s differs: ", words[what]);
	for (size_t i = 0; i < n; i++) {
		if (i > 0)
			buffer_puts(line, "; ");
		summary_name_reading(line, seen[i]);
		buffer_printf(line, " %s", condition_of(sum->s, seen[i], what));
	}
	across(sum);
}

/* What holds for all of C in one line, then a line for what differs. */
static void
add_conditions(struct summary *sum, const struct comparison *c)
{
	const struct reading *seen[COMPARE_MODES * COMPARE_SIDES];
	size_t n = measured(sum->s, c, seen);
	struct buffer *line = &sum->scratch;

	line->len = 0;
	for (enum condition what = POSTURE; n > 0 && what <= INSTRUMENT;
	     what++) {
		if (differs(sum->s, seen, n, what) ||
		    !worth_saying(sum, seen[0], what))
			continue;
		add_gap(line, 0);
		buffer_printf(line, "%s%s", what == RATER ? "rater " : "",
		    condition_of(sum->s, seen[0], what));
	}
	if (line->len > 0)
		across(sum);
	for (enum condition what = POSTURE; n > 0 && what <= INSTRUMENT; what++)
		if (differs(sum->s, seen, n, what))
			add_differing(sum, seen, n, what);
}

/* --- what was said of a reading ------------------------------------------- */

static void
add_pairs(struct buffer *line, size_t before, const struct session *s,
    const struct reading *r)
{
	const struct trial *t = reading_trials(s, r);

	for (uint32_t i = 0; i < r->trials; i++) {
		if (t[i].minuend == NO_VALUE)
			continue;
		add_gap(line, before);
		summary_number(line, (struct mean){t[i].minuend, 1});
		buffer_puts(line, " less ");
		summary_number(
		    line, (struct mean){(int64_t)t[i].minuend - t[i].end, 1});
	}
}

static void
add_texts(struct buffer *line, size_t before, const struct session *s,
    const struct reading *r)
{
	for (uint32_t i = 0; i < r->texts; i++) {
		const struct reading_text *text =
		    &s->texts.at[r->first_text + i];

		add_gap(line, before);
		if (text->substitution)
			buffer_puts(line, "substitution ");
		buffer_printf(line, "\"%.*s\"", (int)text->text.len,
		    session_text(s, text->text));
	}
}

static void
add_remarks(struct summary *sum, const struct reading *r)
{
	struct buffer *line = &sum->scratch;
	size_t before;

	line->len = 0;
	summary_name_reading(line, r);
	buffer_puts(line, line->len > 0 ? ": " : "");
	before = line->len;
	if (r->trials > 0)
		add_pairs(line, before, sum->s, r);
	if (r->arc_low != NO_VALUE) {
		add_gap(line, before);
		buffer_puts(line, "painful arc ");
		summary_number(line, (struct mean){r->arc_low, 1});
		buffer_putc(line, '-');
		summary_number(line, (struct mean){r->arc_high, 1});
	}
	if (r->stopped_by >= 0) {
		add_gap(line, before);
		buffer_printf(line, "stopped by %s",
		    vocab_name(VOCAB_CLASS_CAUSE, r->stopped_by));
	}
	/* Why it was not tested stands below the table. */
	if (r->kind != KIND_NOT_TESTED)
		add_texts(line, before, sum->s, r);
	if (line->len > before)
		across(sum);
}

void
summary_notes(struct summary *sum, const struct comparison *c)
{
	add_conditions(sum, c);
	for (int m = 0; m < COMPARE_MODES; m++)
		for (int side = 0; side < COMPARE_SIDES; side++) {
			int32_t i = c->reading[m][side];

			if (i >= 0)
				add_remarks(sum, &sum->s->readings.at[i]);
		}
	if (c->first && vocab_measurements[c->measurement].less_is_better) {
		sum->scratch.len = 0;
		buffer_puts(&sum->scratch, "less is better");
		across(sum);
	}
}
