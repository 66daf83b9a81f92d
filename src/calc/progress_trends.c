/*
 * Trends: a line by least squares through what one rater measured with one
 * instrument. A line through the readings of several would be a mean over
 * raters, so each that took part in the last session has its own. Readings in
 * another posture than the last one named take no part.
 */
#include <stdlib.h>

#include "calc/progress_internal.h"
#include "text/mem.h"

/*
 * How many sessions, and different days, it takes at least: through two days
 * a line says no more than the change between them.
 */
enum { TREND_SESSIONS = 4, TREND_DAYS = 3 };

#define ORDER PROGRESS_ORDER

int
progress_by_alike(const void *pa, const void *pb)
{
	const struct progress_alike *a = pa, *b = pb;

	if (a->rater != b->rater)
		return ORDER(a->rater, b->rater);
	if (a->instrument != b->instrument)
		return ORDER(a->instrument, b->instrument);
	return ORDER(a->point, b->point);
}

struct scratch {
	struct progress_alike *alike;
	double *x, *y;
	size_t cap;
};

/* When, in weeks from the day FROM; the time of day counts where known. */
static double
weeks(const struct progress_session *s, int32_t from)
{
	double days = s->day - from;

	if (s->time != TIME_NONE)
		days += (double)s->time / (24 * 60);
	return days / 7;
}

/*
 * The trend of points AT[0 .. N - 1], by one rater with one instrument; of a
 * session measured twice the later counts, as in comparisons.
 */
static void
add_trend(struct progress *p, const struct progress_series *series,
    const struct progress_alike *at, size_t n, struct scratch *scratch)
{
	struct progress_trend trend = {.from = at[0].point};
	struct progress_point *last = &p->points.at[at[n - 1].point];
	const struct progress_session *s;
	int32_t day = p->sessions.at[p->points.at[at[0].point].session].day;
	int32_t from = day;
	size_t sessions = 0, days = 0;

	for (size_t i = 0; i < n; i++) {
		const struct progress_point *point = &p->points.at[at[i].point];
		struct mean figure = progress_figure(series, point);

		if (i + 1 < n &&
		    p->points.at[at[i + 1].point].session == point->session)
			continue;
		s = &p->sessions.at[point->session];
		days += sessions == 0 || s->day != day;
		day = s->day;
		scratch->x[sessions] = weeks(s, from);
		scratch->y[sessions++] =
		    (double)figure.sum / (double)figure.n / 10;
	}
	trend.to = at[n - 1].point;
	if (sessions < TREND_SESSIONS || days < TREND_DAYS ||
	    !trend_fit(&trend.line, scratch->x, scratch->y, sessions))
		return;
	last->trend = (uint32_t)p->trends.len;
	*MEM_PUSH(&p->trends) = trend;
}

/* Is there a scale on which a slope means something, and are there enough? */
static bool
may_have_trend(const struct progress_series *series)
{
	enum vocab_in in = vocab_measurements[series->measurement].in;

	return series->sessions >= TREND_SESSIONS &&
	       (in == VOCAB_IN_DEG || in == VOCAB_IN_LENGTH);
}

static void
reserve(struct scratch *scratch, size_t n)
{
	if (scratch->alike && n <= scratch->cap)
		return;
	scratch->cap = n;
	scratch->alike =
	    mem_resize(scratch->alike, n, sizeof(struct progress_alike));
	scratch->x = mem_resize(scratch->x, n, sizeof(double));
	scratch->y = mem_resize(scratch->y, n, sizeof(double));
}

static void
find_trends(struct progress *p, const struct progress_series *series,
    struct scratch *scratch)
{
	const struct progress_point *points = p->points.at;
	struct progress_alike *at;
	uint32_t posture = progress_last_posture(p, series);
	size_t n = 0;

	if (!may_have_trend(series))
		return;
	reserve(scratch, series->points);
	at = scratch->alike;
	for (uint32_t i = series->point; i < series->point + series->points;
	     i++)
		if (points[i].usable && points[i].rater != UNKNOWN_TEXT &&
		    points[i].instrument != UNKNOWN &&
		    (points[i].posture == 0 || points[i].posture == posture))
			at[n++] = (struct progress_alike){
			    points[i].rater, points[i].instrument, i, i};
	progress_sort(at, n, sizeof(*at), progress_by_alike);
	for (size_t i = 0, next; i < n; i = next) {
		for (next = i + 1; next < n && at[next].rater == at[i].rater &&
				   at[next].instrument == at[i].instrument;
		     next++)
			;
		if (at[next - 1].point >= series->last)
			add_trend(p, series, at + i, next - i, scratch);
	}
}

void
progress_find_trends(struct progress *p)
{
	struct scratch scratch = {NULL, NULL, NULL, 0};

	for (size_t i = 0; i < p->series.len; i++)
		find_trends(p, &p->series.at[i], &scratch);
	free(scratch.alike);
	free(scratch.x);
	free(scratch.y);
}
