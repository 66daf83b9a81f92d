/*
 * A chart of one motion: what there is to draw, and the scales that hold it.
 * Nothing is drawn behind the last session.
 */
#include "write/progress_chart.h"

#include "write/progress_chart_internal.h"

/* --- places --------------------------------------------------------------- */

double
chart_day(const struct chart *c, const struct progress_point *point)
{
	const struct progress_session *s = &c->p->sessions.at[point->session];

	return s->day +
	       (s->time == TIME_NONE ? 0 : (double)s->time / (24 * 60));
}

/* Tenths of the base unit as the chart counts. */
static double
in_unit(const struct chart *c, double tenths)
{
	return c->main->unit == VOCAB_UNIT_CM ? tenths / 100 : tenths / 10;
}

double
chart_figure(const struct chart *c, const struct progress_point *point)
{
	struct mean m = progress_figure(c->main, point);

	return in_unit(c, (double)m.sum / (double)m.n);
}

bool
chart_typed(
    const struct chart *c, const struct progress_point *point, double *figure)
{
	struct progress_point typed = *point;

	typed.usable = true;
	if (progress_figure(c->main, &typed).n == 0)
		return false;
	*figure = chart_figure(c, &typed);
	return true;
}

/* Its last figure of each session is what a series is drawn by. */
bool
chart_is_last(
    const struct chart *c, const struct progress_series *series, uint32_t i)
{
	const struct progress_point *at = &c->p->points.at[i];

	return at->usable && (i + 1 == series->point + series->points ||
				 at[1].session != at->session);
}

/* --- what there is to draw ------------------------------------------------ */

/* Followed is the involved side; where both or neither are, the longer one. */
static void
choose_sides(struct chart *c, uint32_t id)
{
	const struct progress_series *a = &c->p->series.at[id], *b, *swap;
	const struct progress_point *points = c->p->points.at;
	bool a_involved, b_involved;

	c->main = a;
	if (a->other == PROGRESS_NONE)
		return;
	b = &c->p->series.at[a->other];
	a_involved = points[a->point + a->points - 1].involved == 1;
	b_involved = points[b->point + b->points - 1].involved == 1;
	if (a->sessions == 0 ||
	    (b->sessions > 0 &&
		(b_involved > a_involved ||
		    (a_involved == b_involved && b->sessions > a->sessions)))) {
		swap = a;
		a = b;
		b = swap;
	}
	c->main = a;
	c->other = b->sessions > 0 ? b : NULL;
}

static void
take_surgery(struct chart *c, int32_t day)
{
	if (day == DATE_NONE)
		return;
	for (size_t i = 0; i < c->surgery_count; i++)
		if (c->surgeries[i] == day)
			return;
	if (c->surgery_count < CHART_SURGERIES)
		c->surgeries[c->surgery_count++] = day;
}

static void
take_series(struct chart *c, const struct progress_series *series)
{
	for (uint32_t i = 0; i < series->points; i++) {
		const struct progress_point *point =
		    &c->p->points.at[series->point + i];

		scale_take(&c->days, chart_day(c, point));
		take_surgery(c, c->p->sessions.at[point->session].surgery);
		if (point->usable)
			scale_take(&c->figures, chart_figure(c, point));
	}
}

/* How far the figure of POINT may be from the first by measuring alone. */
bool
chart_band(const struct chart *c, uint32_t point, double *first, double *half)
{
	uint32_t from = c->p->points.at[point].first;
	struct progress_change change;

	if (from == PROGRESS_NONE)
		return false;
	progress_change(c->p, from, point, &change);
	*first = chart_figure(c, &c->p->points.at[from]);
	*half = in_unit(c, change.error.high);
	return change.error.known;
}

double
chart_band_low(const struct chart *c, double first, double half)
{
	double low = first - half;

	if (low < 0 && !vocab_measurements[c->main->measurement].lacks)
		return first < 0 ? first : 0;
	return low;
}

static void
take_band(struct chart *c)
{
	double first, half;

	for (uint32_t i = 0; i < c->main->points; i++)
		if (chart_is_last(c, c->main, c->main->point + i) &&
		    chart_band(c, c->main->point + i, &first, &half)) {
			scale_take(&c->figures, chart_band_low(c, first, half));
			scale_take(&c->figures, first + half);
		}
}

static double
written(const struct chart *c, int32_t tenths, int unit)
{
	return in_unit(c, unit == VOCAB_UNIT_CM ? 10.0 * tenths : tenths);
}

double
chart_goal(const struct chart *c, const struct progress_goal *goal)
{
	return written(c, goal->end, goal->unit);
}

double
chart_limit(const struct chart *c, const struct progress_precaution *precaution)
{
	return written(c, precaution->as.limit, precaution->as.unit);
}

/* A goal that may mean another thing than what is drawn is left out. */
static void
take_goals(struct chart *c)
{
	uint32_t last = c->main->last + c->main->last_count - 1;
	size_t n = progress_goals(c->p, last, c->goals, CHART_GOALS);

	for (size_t i = 0; i < n && i < CHART_GOALS; i++) {
		if (progress_to_go(c->p, last, c->goals[i]).n == 0)
			continue;
		scale_take(&c->figures, chart_goal(c, c->goals[i]));
		c->goals[c->goal_count++] = c->goals[i];
	}
}

static void
take_precaution(struct chart *c, const struct progress_precaution *precaution)
{
	for (size_t i = 0; i < c->precaution_count; i++)
		if (c->precautions[i] == precaution)
			return;
	if (c->precaution_count == CHART_PRECAUTIONS) {
		c->more_precautions = true;
		return;
	}
	c->precautions[c->precaution_count++] = precaution;
	if (progress_limits_end(precaution, c->main))
		scale_take(&c->figures, chart_limit(c, precaution));
}

static void
take_precautions(struct chart *c)
{
	const struct progress_series *both[] = {c->main, c->other};
	const struct progress_precaution *found[CHART_PRECAUTIONS];
	bool more;

	c->last_session = progress_last_session(c->p, c->main);
	for (int s = 0; s < 2; s++) {
		size_t n;

		if (!both[s])
			continue;
		n = progress_precautions(c->p, c->last_session, both[s], found,
		    CHART_PRECAUTIONS, &more);
		c->more_precautions |= more;
		for (size_t i = 0; i < n; i++)
			take_precaution(c, found[i]);
	}
}

/* A surgery long before the first session would press all else together. */
static void
take_surgeries(struct chart *c)
{
	enum { NEAR = 28 };
	double span = c->days.high - c->days.low;
	double earliest = c->days.low - (span > NEAR ? span : NEAR);
	size_t n = c->surgery_count;

	c->surgery_count = 0;
	for (size_t i = 0; i < n; i++) {
		if (c->surgeries[i] < earliest ||
		    c->surgeries[i] > c->days.high)
			c->surgery_apart = c->surgeries[i];
		else
			c->surgeries[c->surgery_count++] = c->surgeries[i];
	}
	for (size_t i = 0; i < c->surgery_count; i++)
		scale_take(&c->days, c->surgeries[i]);
}

static void
set_scales(struct chart *c, double top)
{
	c->bottom = top + CHART_HEAD + CHART_FIELD;
	c->days.from = CHART_LEFT + 12;
	c->days.to = CHART_RIGHT - 12;
	c->figures.from = c->bottom;
	c->figures.to = top + CHART_HEAD;
	if (!(c->days.high > c->days.low)) {
		c->days.low -= 0.5;
		c->days.high += 0.5;
	}
	/* there are no half points */
	c->step = scale_round(&c->figures, c->main->unit == NONE ? 1 : 0);
}

double
progress_chart(struct buffer *out, const struct progress *p, uint32_t series,
    double top, size_t number)
{
	struct chart c = {.out = out, .p = p, .surgery_apart = DATE_NONE};
	struct buffer title = {0}, desc = {0};

	choose_sides(&c, series);
	take_series(&c, c.main);
	if (c.other)
		take_series(&c, c.other);
	take_band(&c);
	take_goals(&c);
	take_precautions(&c);
	take_surgeries(&c);
	set_scales(&c, top);
	chart_title(&title, &c);
	chart_desc(&desc, &c);
	svg_group_begin(out, number, &title, &desc);
	buffer_free(&title);
	buffer_free(&desc);
	chart_head(&c, top);
	chart_draw(&c);
	top = chart_foot(&c);
	svg_group_end(out);
	return top;
}
