/*
 * Bringing what was collected into order: sessions by person and day, series
 * by person and motion, points by series and session; then which point each
 * is held against. Everything is sorted, nothing is searched
 * one by one, so a person with 100,000 readings costs no more a reading than
 * one with ten.
 */
#include <stdlib.h>

#include "calc/progress.h"
#include "calc/progress_internal.h"
#include "text/mem.h"

#define ORDER PROGRESS_ORDER

/* --- order ---------------------------------------------------------------- */

/* On one day a session without a time comes before those with one. */
static int
by_session(const void *pa, const void *pb)
{
	const struct progress_session *a = pa, *b = pb;

	if (a->person != b->person)
		return ORDER(a->person, b->person);
	if (a->day != b->day)
		return ORDER(a->day, b->day);
	if (a->time != b->time)
		return ORDER(a->time, b->time);
	return ORDER(a->number, b->number);
}

/* Those without points come last of all: their number is then cut off. */
static int
by_series(const void *pa, const void *pb)
{
	const struct progress_series *a = pa, *b = pb;

	if ((a->points == 0) != (b->points == 0))
		return ORDER(a->points == 0, b->points == 0);
	if (a->person != b->person)
		return ORDER(a->person, b->person);
	for (int i = 0; i < 4; i++)
		if (a->rank[i] != b->rank[i])
			return ORDER(a->rank[i], b->rank[i]);
	return 0;
}

/* Until points are ordered, `previous` is their number in the order added. */
static int
by_point(const void *pa, const void *pb)
{
	const struct progress_point *a = pa, *b = pb;

	if (a->series != b->series)
		return ORDER(a->series, b->series);
	if (a->session != b->session)
		return ORDER(a->session, b->session);
	if (a->usable != b->usable)
		return ORDER(a->usable, b->usable);
	return ORDER(a->previous, b->previous);
}

static void
order_sessions(struct progress *p)
{
	uint32_t *place = mem_resize(NULL, p->sessions.len, sizeof(*place));

	progress_sort(p->sessions.at, p->sessions.len, sizeof(*p->sessions.at),
	    by_session);
	for (size_t i = 0; i < p->sessions.len; i++) {
		struct progress_person *person =
		    &p->persons.at[p->sessions.at[i].person];

		place[p->sessions.at[i].number] = (uint32_t)i;
		if (person->session_count++ == 0)
			person->session = (uint32_t)i;
	}
	for (size_t i = 0; i < p->points.len; i++)
		p->points.at[i].session = place[p->points.at[i].session];
	for (size_t i = 0; i < p->totals.len; i++)
		p->totals.at[i].session = place[p->totals.at[i].session];
	free(place);
}

/* Series are still found by key afterwards: their values are set anew. */
static void
order_series(struct progress *p)
{
	uint32_t *place =
	    mem_resize(NULL, p->keys->len, sizeof(*place)); /* by key */
	struct progress_series *series = p->series.at;

	for (size_t i = 0; i < p->points.len; i++) {
		struct progress_point *point = &p->points.at[i];

		series[point->series].points++;
		point->series = series[point->series].rank[3];
	}
	for (size_t i = 0; i < p->series.len; i++)
		p->keys->value[series[i].rank[3]] = PROGRESS_NONE;
	progress_sort(series, p->series.len, sizeof(*series), by_series);
	while (p->series.len > 0 && series[p->series.len - 1].points == 0)
		p->series.len--;
	for (size_t i = 0; i < p->series.len; i++) {
		struct progress_person *person =
		    &p->persons.at[series[i].person];

		place[series[i].rank[3]] = (uint32_t)i;
		p->keys->value[series[i].rank[3]] = (uint32_t)i;
		if (person->series_count++ == 0)
			person->series = (uint32_t)i;
	}
	for (size_t i = 0; i < p->points.len; i++)
		p->points.at[i].series = place[p->points.at[i].series];
	free(place);
}

static void
order_points(struct progress *p)
{
	for (size_t i = 0; i < p->points.len; i++)
		p->points.at[i].previous = (uint32_t)i;
	progress_sort(
	    p->points.at, p->points.len, sizeof(*p->points.at), by_point);
	for (size_t i = 0; i < p->points.len; i++)
		p->points.at[i].previous = PROGRESS_NONE;
	for (size_t i = p->points.len; i-- > 0;)
		p->series.at[p->points.at[i].series].point = (uint32_t)i;
}

/* --- readings without a mode ---------------------------------------------- */

/* The series like SERIES in MODE and POSTURE, else in any posture; or NONE. */
static uint32_t
in_mode(struct progress *p, const struct progress_series *series, int mode,
    uint32_t posture)
{
	struct progress_series like = *series;
	struct progress_key key;
	uint32_t found;

	like.posture = posture;
	key = progress_series_key(&like, like.side, mode);
	found = *progress_key_value(p->keys, &key);
	if (found != PROGRESS_NONE)
		return found;
	like.posture = 0;
	key = progress_series_key(&like, like.side, mode);
	return *progress_key_value(p->keys, &key);
}

/*
 * NT, WNL and WFL need no mode and then speak of every mode: they stand in
 * the series of each that was measured. Where there is none, they make one.
 */
static void
spread(struct progress *p)
{
	size_t len = p->points.len;

	for (size_t i = 0; i < len; i++) {
		struct progress_point point = p->points.at[i];
		struct progress_series series = p->series.at[point.series];
		bool moved = false;

		if (series.mode != NONE || point.kind == KIND_LEVEL ||
		    point.end.n > 0)
			continue;
		for (int mode = 0; mode < VOCAB_MODE_COUNT; mode++) {
			uint32_t to = in_mode(p, &series, mode, point.posture);

			if (to == PROGRESS_NONE)
				continue;
			point.series = to;
			if (moved)
				*MEM_PUSH(&p->points) = point;
			else
				p->points.at[i] = point;
			moved = true;
		}
	}
}

/* --- what a point is held against ----------------------------------------- */

/*
 * The usable points of one session, by rater and instrument. Most sessions
 * have one, and then nothing is sorted.
 */
struct group {
	struct progress_alike *at;
	size_t len, cap;
	uint32_t last; /* the last in the note */
};

static void
group_fill(struct group *group, const struct progress_point *points,
    uint32_t from, uint32_t to)
{
	uint32_t last = 0;

	group->len = 0;
	for (uint32_t i = from; i < to; i++)
		*MEM_PUSH(group) = (struct progress_alike){
		    points[i].rater, points[i].instrument, i, i};
	group->last = to - 1;
	progress_sort(
	    group->at, group->len, sizeof(*group->at), progress_by_alike);
	for (size_t i = 0; i < group->len; i++) {
		struct progress_alike *at = &group->at[i];

		if (i == 0 || at->rater != at[-1].rater)
			last = at->point;
		last = at->point > last ? at->point : last;
		at->last_of_rater = last;
	}
}

/* The last of GROUP that stands before or with RATER and INSTRUMENT. */
static const struct progress_alike *
group_find(const struct group *group, uint32_t rater, int32_t instrument)
{
	struct progress_alike like = {rater, instrument, PROGRESS_NONE, 0};
	size_t lo = 0, hi = group->len;

	while (lo < hi) {
		size_t mid = lo + (hi - lo) / 2;

		if (progress_by_alike(&group->at[mid], &like) <= 0)
			lo = mid + 1;
		else
			hi = mid;
	}
	return lo > 0 ? &group->at[lo - 1] : NULL;
}

/*
 * Which of a session's points is POINT held against? The last by the same
 * rater with the same instrument, else the last by the same rater, else the
 * last.
 */
static uint32_t
match(const struct group *group, const struct progress_point *point)
{
	const struct progress_alike *found =
	    group_find(group, point->rater, point->instrument);

	if (found && found->rater == point->rater &&
	    found->instrument == point->instrument)
		return found->point;
	found = group_find(group, point->rater, INT32_MAX);
	if (found && found->rater == point->rater)
		return found->last_of_rater;
	return group->last;
}

/* The unit in which a series is shown: that of its figures, or millimetres. */
static void
take_unit(struct progress_series *series, const struct progress_point *point)
{
	if (series->unit == NONE)
		series->unit = point->unit;
	else if (series->unit != point->unit)
		series->unit = VOCAB_UNIT_MM;
}

/* The three sessions that matter: the first, the previous, the one at hand. */
struct groups {
	struct group first, previous, now;
};

/* Links points FROM .. TO - 1, the usable ones of one session. */
static void
link_session(struct progress *p, struct progress_series *series,
    struct groups *groups, uint32_t from, uint32_t to)
{
	struct group swap;

	for (uint32_t i = from; i < to; i++) {
		struct progress_point *point = &p->points.at[i];

		take_unit(series, point);
		if (series->sessions == 0)
			continue;
		point->first = match(&groups->first, point);
		point->previous = match(&groups->previous, point);
	}
	if (series->sessions++ == 0)
		group_fill(&groups->first, p->points.at, from, to);
	group_fill(&groups->now, p->points.at, from, to);
	swap = groups->previous;
	groups->previous = groups->now;
	groups->now = swap;
	series->last = from;
	series->last_count = to - from;
}

/* Walks the points of a series, session by session. */
static void
link_points(
    struct progress *p, struct progress_series *series, struct groups *groups)
{
	const struct progress_point *points = p->points.at;
	uint32_t end = series->point + series->points;

	for (uint32_t i = series->point, next; i < end; i = next) {
		uint32_t from = i; /* those that are not usable come first */

		for (next = i;
		     next < end && points[next].session == points[i].session;
		     next++)
			if (!points[next].usable)
				from = next + 1;
		if (from < next)
			link_session(p, series, groups, from, next);
	}
}

/* --- series that belong together ------------------------------------------ */

static void
find_other_side(struct progress *p, struct progress_series *series)
{
	struct progress_key key;

	if (series->side == NONE)
		return;
	key = progress_series_key(series,
	    series->side == VOCAB_SIDE_RIGHT ? VOCAB_SIDE_LEFT
					     : VOCAB_SIDE_RIGHT,
	    series->mode);
	series->other = *progress_key_value(p->keys, &key);
}

/* That a series was measured in a session; a family: in any position. */
struct presence {
	uint32_t family;
	uint32_t session;
	uint32_t series;
};

static int
by_presence(const void *pa, const void *pb)
{
	const struct presence *a = pa, *b = pb;

	if (a->family != b->family)
		return ORDER(a->family, b->family);
	if (a->session != b->session)
		return ORDER(a->session, b->session);
	return ORDER(a->series, b->series);
}

static size_t
list_presence(struct progress *p, struct presence *out)
{
	size_t n = 0;

	for (uint32_t i = 0; i < p->series.len; i++) {
		const struct progress_series *series = &p->series.at[i];
		struct progress_key key =
		    progress_series_key(series, series->side, series->mode);
		uint32_t family;

		key.word[0] = PROGRESS_OF_FAMILY;
		key.word[3] = key.word[4] = 0; /* any setting and posture */
		family = progress_key_number(p->keys, &key);
		for (uint32_t k = 0; k < series->points; k++) {
			uint32_t session =
			    p->points.at[series->point + k].session;

			if (k > 0 && out[n - 1].session == session)
				continue;
			out[n++] = (struct presence){family, session, i};
		}
	}
	return n;
}

/* The end of the run of one family and session that begins at I. */
static size_t
run_end(const struct presence *at, size_t n, size_t i)
{
	size_t end = i + 1;

	while (end < n && at[end].family == at[i].family &&
	       at[end].session == at[i].session)
		end++;
	return end;
}

/*
 * A series that begins where another of its family leaves off: the position
 * has changed. BEFORE .. I is the family's session before I .. END.
 */
static void
take_over(struct progress *p, const struct presence *at, size_t before,
    size_t i, size_t end)
{
	uint32_t left_off = PROGRESS_NONE;

	for (size_t b = before, k = i; b < i; b++) {
		while (k < end && at[k].series < at[b].series)
			k++;
		if (k == end || at[k].series != at[b].series)
			left_off = at[b].series;
	}
	for (size_t k = i; k < end && left_off != PROGRESS_NONE; k++) {
		struct progress_series *series = &p->series.at[at[k].series];

		if (p->points.at[series->point].session == at[k].session)
			series->before = left_off;
	}
}

static void
find_before(struct progress *p)
{
	struct presence *at = mem_resize(NULL, p->points.len, sizeof(*at));
	size_t n = list_presence(p, at), before = 0;

	progress_sort(at, n, sizeof(*at), by_presence);
	for (size_t i = 0, end; i < n; before = i, i = end) {
		end = run_end(at, n, i);
		if (i > 0 && at[before].family == at[i].family)
			take_over(p, at, before, i, end);
	}
	free(at);
}

/*
 * A goal names neither setting nor posture: what is left to it is told where
 * the newest session that has the motion stands, and nowhere else.
 */
static uint32_t *
newest_session(struct progress *p, const struct progress_series *series)
{
	bool named = vocab_measurements[series->measurement].measure >= 0;
	struct progress_key key = {{PROGRESS_OF_AIM, series->person,
	    (uint32_t)series->measurement, (uint32_t)series->side,
	    (uint32_t)(named ? NONE : series->mode)}};

	return progress_key_value(p->keys, &key);
}

static void
find_newest(struct progress *p)
{
	for (size_t i = 0; i < p->series.len; i++) {
		struct progress_series *series = &p->series.at[i];
		uint32_t session = p->points.at[series->last].session;
		uint32_t *newest = newest_session(p, series);

		if (series->sessions > 0 &&
		    (*newest == PROGRESS_NONE || *newest < session))
			*newest = session;
	}
	for (size_t i = 0; i < p->series.len; i++) {
		struct progress_series *series = &p->series.at[i];

		series->newest = series->sessions > 0 &&
				 *newest_session(p, series) ==
				     p->points.at[series->last].session;
	}
}

void
progress_finish(struct progress *p)
{
	struct groups groups = {0};

	progress_part_postures(p);
	spread(p);
	order_sessions(p);
	progress_order_totals(p);
	order_series(p);
	order_points(p);
	for (size_t i = 0; i < p->series.len; i++) {
		link_points(p, &p->series.at[i], &groups);
		find_other_side(p, &p->series.at[i]);
	}
	find_newest(p);
	find_before(p);
	progress_name_postures(p);
	progress_find_trends(p);
	free(groups.first.at);
	free(groups.previous.at);
	free(groups.now.at);
}
