/*
 * What stands above and below a chart: whose motion it is, and what its marks
 * mean.
 */
#include <string.h>

#include "text/utf8.h"
#include "write/progress_chart_internal.h"
#include "write/progress_words.h"

void
chart_title(struct buffer *out, const struct chart *c)
{
	progress_person_words(out, c->p, c->main->person);
	buffer_puts(out, ": ");
	progress_motion_words(out, c->main);
}

void
chart_head(struct chart *c, double top)
{
	struct buffer text = {0};
	size_t before;

	chart_title(&text, c);
	chart_text(c, SVG_TITLE, SVG_START, CHART_MARGIN, top + 16, &text);
	progress_condition_words(&text, c->p, c->main, NONE);
	before = text.len;
	if (before > 0)
		buffer_puts(&text, "; ");
	buffer_puts(&text, c->main->unit == VOCAB_UNIT_DEG  ? "in degrees"
			   : c->main->unit == NONE	    ? "in points"
			   : c->main->unit == VOCAB_UNIT_MM ? "in mm"
							    : "in cm");
	if (vocab_measurements[c->main->measurement].measure ==
	    VOCAB_MEASURE_SCHOBER)
		buffer_puts(&text, ", how far the marks part");
	if (vocab_measurements[c->main->measurement].less_is_better)
		buffer_puts(&text, "; less is better");
	chart_text(c, SVG_SMALL, SVG_START, CHART_MARGIN, top + 32, &text);
	buffer_free(&text);
}

void
chart_desc(struct buffer *out, const struct chart *c)
{
	const struct progress_series *both[] = {c->main, c->other};

	for (int s = 0; s < 2; s++) {
		if (!both[s])
			continue;
		if (s > 0)
			buffer_puts(out, ". ");
		if (both[s]->side >= 0)
			buffer_printf(out, "%s: ",
			    vocab_name(VOCAB_CLASS_SIDE, both[s]->side));
		for (uint32_t i = 0; i < both[s]->points; i++) {
			const struct progress_point *at =
			    &c->p->points.at[both[s]->point + i];

			if (i > 0)
				buffer_puts(out, "; ");
			progress_date_words(out, c->p, at);
			buffer_putc(out, ' ');
			progress_value_words(out, c->p, at);
			if (at->left_out)
				buffer_puts(out, " (doubtful)");
			else if (progress_is_marked(at))
				progress_warned_words(out, at);
		}
	}
	for (size_t i = 0; i < c->precaution_count; i++) {
		buffer_puts(out, ". ");
		progress_in_force_words(
		    out, c->p, c->last_session, c->precautions[i]);
	}
}

static void
band_words(struct buffer *out, const struct chart *c)
{
	uint32_t last = c->main->last + c->main->last_count - 1;
	struct progress_change change;

	if (c->p->points.at[last].first == PROGRESS_NONE)
		return;
	progress_change(c->p, c->p->points.at[last].first, last, &change);
	if (!change.error.known) {
		buffer_puts(out, "no figure of measuring error is known for "
				 "it");
		return;
	}
	buffer_puts(out, "grey: what measuring alone may make of the first "
			 "figure; at the last session ");
	progress_error_words(out, c->main, &change.error);
	if (change.error.by_step) {
		buffer_puts(out, " (one step of the instrument)");
		return;
	}
	buffer_printf(
	    out, " (%s, %s", change.error.of.source, change.error.of.statistic);
	if (strcmp(change.error.of.verified, "yes") != 0)
		buffer_printf(out, ", %s", change.error.of.verified);
	buffer_putc(out, ')');
}

/* Bytes of TEXT that fit into a line: to the last blank in it, else all. */
static size_t
line_of(const char *text, size_t len)
{
	enum { WIDEST = 96 }; /* cells; most letters are narrower */
	size_t at = 0, blank = 0, cells = 0, size;

	while (at < len) {
		cells += (size_t)utf8_cells_of(
		    utf8_decode(text + at, len - at, &size));
		if (cells > WIDEST)
			return blank > 0 ? blank : at;
		if (text[at] == ' ')
			blank = at;
		at += size;
	}
	return len;
}

/* Writes TEXT below *Y in as many lines as it needs, and empties it. */
static void
add_lines(struct chart *c, double *y, struct buffer *text)
{
	const char *at = text->data;

	for (size_t left = text->len; left > 0;) {
		size_t n = line_of(at, left);

		*y += CHART_LINE;
		svg_text(c->out, SVG_SMALL, SVG_START, CHART_MARGIN, *y, at, n);
		n += n < left && at[n] == ' ';
		at += n;
		left -= n;
	}
	text->len = 0;
}

static void
foot_precautions(struct chart *c, double *y, struct buffer *text)
{
	for (size_t i = 0; i < c->precaution_count; i++) {
		if (progress_limits_end(c->precautions[i], c->main))
			buffer_puts(text, "line with strokes: ");
		progress_in_force_words(
		    text, c->p, c->last_session, c->precautions[i]);
		add_lines(c, y, text);
	}
	if (c->more_precautions)
		buffer_puts(
		    text, "there may be further precautions: see the note");
	add_lines(c, y, text);
}

static void
foot_warned(struct chart *c, double *y, struct buffer *text)
{
	const struct progress_series *both[] = {c->main, c->other};

	for (int s = 0; s < 2; s++) {
		if (!both[s])
			continue;
		buffer_puts(text,
		    PROGRESS_WARNED ": check warns of it; compared all the "
				    "same: ");
		if (both[s]->side >= 0)
			buffer_printf(text, "%s ",
			    vocab_name(VOCAB_CLASS_SIDE, both[s]->side));
		if (progress_marked_words(text, c->p, both[s]))
			add_lines(c, y, text);
		text->len = 0;
	}
}

double
chart_foot(struct chart *c)
{
	struct buffer text = {0};
	double y = c->bottom + 20;
	char day[16];

	band_words(&text, c);
	add_lines(c, &y, &text);
	foot_precautions(c, &y, &text);
	if (c->dotted)
		buffer_puts(&text,
		    "dotted: rater, instrument or position "
		    "changed, or one of the first two is not known");
	add_lines(c, &y, &text);
	if (c->crossed)
		buffer_puts(&text,
		    "cross, with what was typed: a doubtful reading, not "
		    "compared");
	if (c->off_scale)
		buffer_puts(&text, "; at the edge: off the scale");
	add_lines(c, &y, &text);
	foot_warned(c, &y, &text);
	if (c->surgery_apart != DATE_NONE)
		buffer_printf(&text, "surgery %s is not drawn",
		    date_format(c->surgery_apart, day));
	add_lines(c, &y, &text);
	buffer_free(&text);
	return y + 2 * CHART_LINE;
}
