/*
 * Progress drawn: which motions get a chart, one below the other, and which
 * do not and why.
 */
#include "write/progress.h"

#include <string.h>

#include "write/progress_chart.h"
#include "write/svg.h"

enum { MARGIN = 16, LINE = 16 };

struct page {
	const struct progress *p;
	struct buffer body;
	double top; /* of what comes next */
	size_t charts;
	size_t levels; /* series that are not drawn */
	size_t singles;
};

static bool
is_level(const struct progress_series *series)
{
	return vocab_measurements[series->measurement].in == VOCAB_IN_LEVEL;
}

static bool
has_course(const struct progress_series *series)
{
	return series->sessions > 1 && !is_level(series);
}

/* Two sides share a chart, drawn where the first of them stands. */
static void
add_series(struct page *page, uint32_t id)
{
	const struct progress *p = page->p;
	const struct progress_series *series = &p->series.at[id];
	bool paired = series->other != PROGRESS_NONE;
	bool other = paired && has_course(&p->series.at[series->other]);

	if (!has_course(series) && !other) {
		page->levels += is_level(series) && series->sessions > 1;
		page->singles += series->sessions < 2;
		return;
	}
	if (paired && series->other < id)
		return;
	page->top =
	    progress_chart(&page->body, p, id, page->top, ++page->charts);
}

static void
add_line(struct page *page, struct buffer *line)
{
	svg_text(&page->body, SVG_SMALL, SVG_START, MARGIN, page->top + LINE,
	    line->data, line->len);
	page->top += LINE;
	line->len = 0;
}

static void
add_closing(struct page *page)
{
	struct buffer line = {0};

	if (page->charts == 0) {
		buffer_puts(&line, "Nothing was measured in two sessions, so "
				   "there is no course to draw.");
		add_line(page, &line);
	}
	if (page->singles > 0) {
		buffer_printf(&line,
		    "Not drawn, for want of a second session "
		    "with a figure: %zu.",
		    page->singles);
		add_line(page, &line);
	}
	if (page->levels > 0) {
		buffer_printf(&line,
		    "Not drawn, as a vertebral level has no "
		    "scale: %zu.",
		    page->levels);
		add_line(page, &line);
	}
	buffer_puts(&line, "Figures of error are other people's. Licensed "
			   "judgement and local protocols decide.");
	add_line(page, &line);
	buffer_free(&line);
}

static const char title[] = "Range of motion from session to session";

void
progress_plot(struct buffer *out, const struct progress *p)
{
	struct page page = {.p = p, .top = MARGIN};

	for (size_t i = 0; i < p->series.len; i++)
		add_series(&page, (uint32_t)i);
	add_closing(&page);
	svg_begin(out, CHART_WIDTH, page.top + MARGIN, title,
	    "One chart for each motion: the figures over time with what "
	    "measuring alone may make of the first, the goal, the limit of a "
	    "precaution, the other side and the surgery.");
	buffer_add(out, page.body.data, page.body.len);
	svg_end(out);
	buffer_free(&page.body);
}

bool
progress_begins_plot(const char *text, size_t len)
{
	return memmem(text, len, title, sizeof(title) - 1) != NULL;
}
