/*
 * The field of a chart. The side that is followed has discs and a full line,
 * the other squares and a broken one; a line is dotted where rater or
 * instrument changed on the way.
 */
#include <string.h>

#include "write/progress_chart_internal.h"
#include "write/progress_words.h"
#include "write/summary_internal.h"

enum { DATE_WIDTH = 70 };

static double
x_of(const struct chart *c, const struct progress_point *point)
{
	return scale_place(&c->days, chart_day(c, point));
}

static double
y_of(const struct chart *c, const struct progress_point *point)
{
	return scale_place(&c->figures, chart_figure(c, point));
}

void
chart_text(struct chart *c, enum svg_text kind, enum svg_anchor anchor,
    double x, double y, struct buffer *text)
{
	svg_text(c->out, kind, anchor, x, y, text->data, text->len);
	text->len = 0;
}

/* --- the field ------------------------------------------------------------ */

/* What falls short of zero is said in words here too. */
static void
tick_words(struct buffer *out, const struct chart *c, double value)
{
	bool lacks =
	    value < 0 && vocab_measurements[c->main->measurement].lacks;
	double hundredths = (lacks ? -value : value) * 100;
	char text[24];

	if (lacks)
		buffer_puts(out, "lacks ");
	buffer_add(out, text,
	    number_text(
		(int64_t)(hundredths + (hundredths < 0 ? -0.5 : 0.5)), text));
}

static void
draw_grid(struct chart *c)
{
	int n = (int)((c->figures.high - c->figures.low) / c->step + 0.5);
	struct buffer text = {0};

	for (int i = 0; i <= n; i++) {
		double value = c->figures.low + i * c->step;
		double y = scale_place(&c->figures, value);

		svg_line(c->out, i == 0 ? SVG_AXIS : SVG_GRID, CHART_LEFT, y,
		    CHART_RIGHT, y);
		tick_words(&text, c, value);
		chart_text(c, SVG_SMALL, SVG_END, CHART_LEFT - 6, y + 4, &text);
	}
	svg_line(
	    c->out, SVG_AXIS, CHART_LEFT, c->bottom, CHART_LEFT, c->figures.to);
	buffer_free(&text);
}

/* A date below its tick, where the one before leaves room. */
static double
draw_date(struct chart *c, double x, int32_t day, double free_from)
{
	char text[16];

	svg_line(c->out, SVG_AXIS, x, c->bottom, x, c->bottom + 4);
	if (x - DATE_WIDTH / 2.0 < free_from)
		return free_from;
	date_format(day, text);
	svg_text(c->out, SVG_SMALL, SVG_MIDDLE, x, c->bottom + 17, text,
	    strlen(text));
	return x + DATE_WIDTH / 2.0;
}

/* The days of both sides, in order: both lists are. */
static void
draw_dates(struct chart *c)
{
	const struct progress_series *both[] = {c->main, c->other};
	uint32_t at[2] = {0, 0};
	double free_from = 0;
	int32_t drawn = DATE_NONE;

	for (;;) {
		int32_t next = DATE_NONE;

		for (int i = 0; i < 2; i++) {
			const struct progress_point *point;
			int32_t day;

			if (!both[i])
				continue;
			point = c->p->points.at + both[i]->point;
			while (at[i] < both[i]->points &&
			       c->p->sessions.at[point[at[i]].session].day <=
				   drawn)
				at[i]++;
			if (at[i] == both[i]->points)
				continue;
			day = c->p->sessions.at[point[at[i]].session].day;
			if (next == DATE_NONE || day < next)
				next = day;
		}
		if (next == DATE_NONE)
			return;
		drawn = next;
		free_from =
		    draw_date(c, scale_place(&c->days, next), next, free_from);
	}
}

/* --- what is drawn in it -------------------------------------------------- */

/* The lower edge of the band, from the last session back to the first. */
static void
draw_lower_edge(struct chart *c)
{
	uint32_t i = c->main->point + c->main->points, from = PROGRESS_NONE;
	double first = 0, half = 0;

	while (i-- > c->main->point) {
		if (!chart_is_last(c, c->main, i) ||
		    !chart_band(c, i, &first, &half))
			continue;
		svg_path_to(c->out, false, x_of(c, &c->p->points.at[i]),
		    scale_place(&c->figures, chart_band_low(c, first, half)));
		from = c->p->points.at[i].first;
	}
	svg_path_to(c->out, false, x_of(c, &c->p->points.at[from]),
	    scale_place(&c->figures, chart_band_low(c, first, half)));
}

static void
draw_band(struct chart *c)
{
	uint32_t end = c->main->point + c->main->points;
	double first, half;
	bool any = false;

	for (uint32_t i = c->main->point; i < end; i++) {
		const struct progress_point *at = &c->p->points.at[i];

		if (!chart_is_last(c, c->main, i) ||
		    !chart_band(c, i, &first, &half))
			continue;
		if (!any) {
			svg_path_begin(c->out, SVG_BAND);
			svg_path_to(c->out, true,
			    x_of(c, &c->p->points.at[at->first]),
			    scale_place(&c->figures, first + half));
		}
		any = true;
		svg_path_to(c->out, false, x_of(c, at),
		    scale_place(&c->figures, first + half));
	}
	if (!any)
		return;
	draw_lower_edge(c);
	svg_path_end(c->out, true);
}

static bool
is_sure(const struct progress *p, uint32_t from, uint32_t to)
{
	struct progress_change change;

	progress_change(p, from, to, &change);
	return change.rater != PROGRESS_CHANGED &&
	       change.rater != PROGRESS_UNKNOWN &&
	       change.instrument != PROGRESS_CHANGED &&
	       change.instrument != PROGRESS_UNKNOWN && !change.posture;
}

static void
draw_lines(struct chart *c, const struct progress_series *series)
{
	for (uint32_t i = series->point; i < series->point + series->points;
	     i++) {
		const struct progress_point *at = &c->p->points.at[i], *from;
		enum svg_line line = series == c->main ? SVG_MAIN : SVG_OTHER;

		if (!at->usable || at->previous == PROGRESS_NONE)
			continue;
		from = &c->p->points.at[at->previous];
		if (!is_sure(c->p, at->previous, i)) {
			line = SVG_UNSURE;
			c->dotted = true;
		}
		svg_path_begin(c->out, line);
		svg_path_to(c->out, true, x_of(c, from), y_of(c, from));
		svg_path_to(c->out, false, x_of(c, at), y_of(c, at));
		svg_path_end(c->out, false);
	}
}

/* A doubtful reading stands at the edge where the scale does not reach it. */
static double
doubtful_y(struct chart *c, const struct progress_point *at)
{
	double figure;

	if (!chart_typed(c, at, &figure))
		return c->bottom;
	if (figure < c->figures.low || figure > c->figures.high)
		c->off_scale = true;
	if (figure < c->figures.low)
		return c->bottom;
	return figure > c->figures.high ? c->figures.to
					: scale_place(&c->figures, figure);
}

/* A cross, and beside it what was typed: left of it where the field ends. */
static void
draw_doubtful(
    struct chart *c, const struct progress_point *at, struct buffer *text)
{
	double x = x_of(c, at), y = doubtful_y(c, at);
	bool left = x > (CHART_LEFT + CHART_RIGHT) / 2.0;

	svg_mark(c->out, SVG_CROSS, x, y);
	c->crossed = true;
	progress_value_words(text, c->p, at);
	chart_text(c, SVG_SMALL, left ? SVG_END : SVG_START,
	    left ? x - 8 : x + 8, y < c->bottom ? y + 4 : y - 3, text);
}

/* The sign that the line below the chart explains; one side to each side. */
static void
draw_figure(
    struct chart *c, const struct progress_point *at, bool main, double x)
{
	svg_mark(c->out, main ? SVG_DISC : SVG_SQUARE, x, y_of(c, at));
	if (progress_is_marked(at))
		svg_text(c->out, SVG_SMALL, main ? SVG_START : SVG_END,
		    main ? x + 8 : x - 8, y_of(c, at) - 6, PROGRESS_WARNED,
		    strlen(PROGRESS_WARNED));
}

/* What has no figure stands at the bottom in words. */
static void
draw_marks(struct chart *c, const struct progress_series *series)
{
	struct buffer text = {0};

	for (uint32_t i = 0; i < series->points; i++) {
		const struct progress_point *at =
		    &c->p->points.at[series->point + i];

		if (at->usable) {
			draw_figure(c, at, series == c->main, x_of(c, at));
		} else if (at->left_out) {
			draw_doubtful(c, at, &text);
		} else {
			progress_value_words(&text, c->p, at);
			chart_text(c, SVG_SMALL, SVG_MIDDLE, x_of(c, at),
			    c->bottom - (series == c->main ? 4 : 18), &text);
		}
	}
	buffer_free(&text);
}

static struct buffer *
add_label(struct chart *c, double y, int mark)
{
	struct chart_label *label = &c->labels[c->label_count++];

	label->y = y;
	label->mark = mark;
	return &label->text;
}

static void
draw_goals(struct chart *c)
{
	for (size_t i = 0; i < c->goal_count; i++) {
		double y = scale_place(&c->figures, chart_goal(c, c->goals[i]));
		struct buffer *text = add_label(c, y, NONE);

		svg_line(c->out, SVG_GOAL, CHART_LEFT, y, CHART_RIGHT, y);
		buffer_puts(text, "goal ");
		progress_goal_words(text, c->main, c->goals[i]);
	}
}

/* A line with strokes on the side that it rules out, while it is in force. */
static void
draw_limit(struct chart *c, double from, double y)
{
	enum { APART = 12, WIDE = 5, HIGH = 6 };
	int more = (int)((CHART_RIGHT - WIDE - from) / APART);

	svg_path_begin(c->out, SVG_LIMIT);
	svg_path_to(c->out, true, from, y);
	svg_path_to(c->out, false, CHART_RIGHT, y);
	for (int i = 0; i <= more; i++) {
		double x = CHART_RIGHT - WIDE - i * APART;

		svg_path_to(c->out, true, x, y);
		svg_path_to(c->out, false, x + WIDE, y - HIGH);
	}
	svg_path_end(c->out, false);
}

/* As much as there is room for: all of it stands below the chart. */
static void
limit_words(struct buffer *out, const struct precaution *as)
{
	enum { ROOM = 30 }; /* letters */
	size_t before;
	char day[16];

	if (as->joints.right == 0 && as->joints.left != 0)
		buffer_puts(out, "left ");
	if (as->joints.left == 0 && as->joints.right != 0)
		buffer_puts(out, "right ");
	buffer_puts(out, as->limit < 0 ? "max lacks " : "max ");
	summary_number(
	    out, (struct mean){as->limit < 0 ? -as->limit : as->limit, 1});
	summary_unit(out, as->unit);
	before = out->len;
	if (as->until == DATE_NONE)
		return;
	buffer_printf(out, " until %s", date_format(as->until, day));
	if (out->len > ROOM)
		out->len = before;
}

static void
draw_limits(struct chart *c)
{
	for (size_t i = 0; i < c->precaution_count; i++) {
		const struct progress_precaution *at = c->precautions[i];
		double y, from = CHART_LEFT;

		if (!progress_limits_end(at, c->main))
			continue;
		if (at->since != DATE_NONE && at->since > c->days.low)
			from = scale_place(&c->days, at->since);
		/* in force since the last figure that is drawn */
		if (from > c->days.to)
			from = c->days.to;
		y = scale_place(&c->figures, chart_limit(c, at));
		draw_limit(c, from, y);
		limit_words(add_label(c, y, NONE), &at->as);
	}
}

static void
draw_surgeries(struct chart *c)
{
	struct buffer text = {0};
	char day[16];

	for (size_t i = 0; i < c->surgery_count; i++) {
		double x = scale_place(&c->days, c->surgeries[i]);

		svg_line(c->out, SVG_EVENT, x, c->bottom, x, c->figures.to);
		buffer_printf(
		    &text, "surgery %s", date_format(c->surgeries[i], day));
		chart_text(c, SVG_SMALL, SVG_START, x - 4,
		    c->figures.to - 6 - (double)(i % 2) * 12, &text);
	}
	buffer_free(&text);
}

/* At the end of a line the reading itself, as it was written. */
static void
label_series(struct chart *c, const struct progress_series *series)
{
	const struct progress_point *last =
	    &c->p->points.at[series->last + series->last_count - 1];
	struct buffer *text = add_label(
	    c, y_of(c, last), series == c->main ? SVG_DISC : SVG_SQUARE);

	if (series->side >= 0)
		buffer_printf(
		    text, "%s ", vocab_name(VOCAB_CLASS_SIDE, series->side));
	progress_value_words(text, c->p, last);
	if (progress_is_marked(last))
		buffer_puts(text, PROGRESS_WARNED);
	if (last->session != c->p->points.at[c->main->last].session) {
		buffer_puts(text, ", ");
		progress_date_words(text, c->p, last);
	}
}

static void
sort_labels(struct chart *c)
{
	for (size_t i = 1; i < c->label_count; i++)
		for (size_t k = i; k > 0 && c->labels[k].y < c->labels[k - 1].y;
		     k--) {
			struct chart_label swap = c->labels[k];

			c->labels[k] = c->labels[k - 1];
			c->labels[k - 1] = swap;
		}
}

/* Each is pushed below the one above it, then all up into the field. */
static void
part_labels(struct chart *c)
{
	double edge = c->figures.to;

	sort_labels(c);
	for (size_t i = 0; i < c->label_count; i++) {
		if (c->labels[i].y < edge)
			c->labels[i].y = edge;
		edge = c->labels[i].y + CHART_LINE;
	}
	edge = c->bottom;
	for (size_t i = c->label_count; i-- > 0;) {
		if (c->labels[i].y > edge)
			c->labels[i].y = edge;
		edge -= CHART_LINE;
	}
}

static void
draw_labels(struct chart *c)
{
	part_labels(c);
	for (size_t i = 0; i < c->label_count; i++) {
		struct chart_label *label = &c->labels[i];

		if (label->mark != NONE)
			svg_mark(c->out, (enum svg_mark)label->mark,
			    CHART_RIGHT + 14, label->y);
		chart_text(c, SVG_SMALL, SVG_START, CHART_RIGHT + 24,
		    label->y + 4, &label->text);
		buffer_free(&label->text);
	}
}

void
chart_draw(struct chart *c)
{
	draw_band(c);
	draw_grid(c);
	draw_dates(c);
	draw_surgeries(c);
	draw_goals(c);
	draw_limits(c);
	for (int i = 0; i < 2; i++) {
		const struct progress_series *side = i ? c->main : c->other;

		if (!side)
			continue;
		draw_lines(c, side);
		draw_marks(c, side);
		label_series(c, side);
	}
	draw_labels(c);
}
