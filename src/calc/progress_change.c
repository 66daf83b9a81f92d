/*
 * From one reading to another: by how much, what else changed, and whether
 * measuring alone could have made it.
 */
#include "calc/progress.h"
#include "calc/progress_internal.h"

struct mean
progress_figure(
    const struct progress_series *series, const struct progress_point *point)
{
	struct mean figure = point->end;

	if (!point->usable || point->kind == KIND_LEVEL)
		return (struct mean){0, 0};
	if (vocab_measurements[series->measurement].measure ==
		VOCAB_MEASURE_SCHOBER &&
	    point->start.n > 0)
		figure = mean_less(point->end, point->start);
	return mean_in_base_unit(figure, point->unit);
}

struct mean
progress_shown(const struct progress_series *series, struct mean m)
{
	if (series->unit == VOCAB_UNIT_CM)
		m.n *= 10;
	return m;
}

/* --- what else changed ---------------------------------------------------- */

static enum progress_same
same_rater(const struct progress_point *a, const struct progress_point *b)
{
	if (a->rater == 0 && b->rater == 0)
		return PROGRESS_UNNAMED;
	if (a->rater == 0 || b->rater == 0 || a->rater == UNKNOWN_TEXT ||
	    b->rater == UNKNOWN_TEXT)
		return PROGRESS_UNKNOWN;
	return a->rater == b->rater ? PROGRESS_SAME : PROGRESS_CHANGED;
}

static enum progress_same
same_instrument(const struct progress_point *a, const struct progress_point *b)
{
	if (a->instrument == NONE && b->instrument == NONE)
		return PROGRESS_UNNAMED;
	if (a->instrument < 0 || b->instrument < 0)
		return PROGRESS_UNKNOWN;
	return a->instrument == b->instrument ? PROGRESS_SAME
					      : PROGRESS_CHANGED;
}

static int32_t
step_of(const struct progress_point *point)
{
	if (point->step == NO_VALUE)
		return 0;
	return point->unit == VOCAB_UNIT_CM ? point->step * 10 : point->step;
}

static bool
surgery_between(
    const struct progress_session *a, const struct progress_session *b)
{
	return b->surgery != DATE_NONE && b->surgery > a->day &&
	       b->surgery <= b->day;
}

/* --- error ---------------------------------------------------------------- */

/* Is OF the wider figure; of two as wide the one that is of this joint? */
static bool
is_wider(const struct ref_error *of, const struct progress_error *error)
{
	if (!error->known || of->high > error->high)
		return true;
	return of->high == error->high && error->of.fallback && !of->fallback;
}

/* Takes the figure for one instrument and rater, if it is the wider one. */
static void
take_error(struct progress_error *error, int measurement, int instrument,
    bool two_raters)
{
	struct ref_error of;

	ref_error(measurement, instrument, !two_raters, &of);
	if (of.source[0] == '\0' || !is_wider(&of, error))
		return;
	error->known = true;
	error->low = of.low < 0 ? of.high : of.low;
	error->high = of.high;
	error->two_raters = two_raters;
	error->instrument = instrument;
	error->of = of;
}

static void
find_error(struct progress_error *error, int measurement,
    const struct progress_point *a, const struct progress_point *b,
    const struct progress_change *change)
{
	bool two_raters = change->rater != PROGRESS_SAME;
	int32_t step = step_of(a) > step_of(b) ? step_of(a) : step_of(b);
	const int8_t instruments[] = {a->instrument, b->instrument};

	*error = (struct progress_error){.instrument = NONE};
	for (int i = 0; i < 2; i++) {
		int instrument = instruments[i] < 0 ? NONE : instruments[i];

		/* of one that is not known the other tells */
		if (instrument == NONE &&
		    change->instrument != PROGRESS_UNNAMED &&
		    instruments[!i] >= 0)
			continue;
		take_error(error, measurement, instrument, false);
		if (two_raters)
			take_error(error, measurement, instrument, true);
	}
	error->at_least = change->instrument == PROGRESS_CHANGED ||
			  change->instrument == PROGRESS_UNKNOWN;
	if (error->known && step > error->high) {
		error->low = error->high = step;
		error->by_step = true;
	}
}

/* Figures of a source that differ leave what lies between them open. */
static void
judge(struct progress_change *change)
{
	const struct progress_error *error = &change->error;
	struct mean size = change->by;

	change->beyond = PROGRESS_DOUBT;
	change->why =
	    change->posture ? PROGRESS_NO_POSTURE : PROGRESS_NO_FIGURE;
	if (size.n == 0 || !error->known)
		return;
	if (size.sum < 0)
		size.sum = -size.sum;
	change->why = PROGRESS_NO_DOUBT;
	if (mean_compare_to(size, error->low) < 0 ||
	    (error->low == error->high &&
		mean_compare_to(size, error->high) <= 0)) {
		change->beyond = PROGRESS_NO;
	} else if (mean_compare_to(size, error->high) <= 0) {
		change->why = PROGRESS_BETWEEN;
	} else if (error->at_least) {
		change->why = PROGRESS_NO_INSTRUMENT;
	} else {
		change->beyond = PROGRESS_YES;
	}
}

void
progress_change(const struct progress *p, uint32_t from, uint32_t to,
    struct progress_change *out)
{
	const struct progress_point *a = &p->points.at[from];
	const struct progress_point *b = &p->points.at[to];
	const struct progress_series *series = &p->series.at[b->series];

	*out =
	    (struct progress_change){.by = mean_less(progress_figure(series, b),
					 progress_figure(series, a)),
		.rater = same_rater(a, b),
		.instrument = same_instrument(a, b),
		.posture = a->posture != 0 && b->posture != 0 &&
			   a->posture != b->posture,
		.step = a->step != b->step,
		.surgery = surgery_between(
		    &p->sessions.at[a->session], &p->sessions.at[b->session])};
	/* levels are numbered from the head down */
	if (b->kind == KIND_LEVEL)
		out->levels = -mean_compare(b->end, a->end);
	else if (!out->posture) /* no source has one for a change of it */
		find_error(&out->error, series->measurement, a, b, out);
	judge(out);
}

/* --- doubts --------------------------------------------------------------- */

/* Whether more is missing than measured casts no doubt on what was. */
static bool
is_of_value(const struct rule_info *rule)
{
	return rule->level >= LEVEL_WARNING &&
	       (rule->group == RULES_VALUES ||
		   rule->group == RULES_ACTIVE_PASSIVE);
}

uint64_t
progress_warned(const struct progress_point *point)
{
	uint64_t told = point->rules & UINT64_C(1) << RULE_PRECAUTION_EXCEEDED;

	for (uint64_t left = point->rules & ~point->accepted; left;
	     left &= left - 1) {
		int rule = __builtin_ctzll(left);

		if (is_of_value(&rule_table[rule]))
			told |= UINT64_C(1) << rule;
	}
	return told;
}

/* --- goals and surgery ---------------------------------------------------- */

/*
 * A goal for schober may be meant as the mark or as how far the marks part:
 * where a reading has both, nothing is left to say.
 */
struct mean
progress_to_go(
    const struct progress *p, uint32_t point, const struct progress_goal *goal)
{
	const struct progress_point *at = &p->points.at[point];
	const struct progress_series *series = &p->series.at[at->series];
	const struct vocab_measurement *m =
	    &vocab_measurements[series->measurement];
	struct mean figure = progress_figure(series, at);
	struct mean aim =
	    mean_in_base_unit((struct mean){goal->end, 1}, goal->unit);

	if (m->measure == VOCAB_MEASURE_SCHOBER && at->start.n > 0)
		return (struct mean){0, 0};
	return m->less_is_better ? mean_less(figure, aim)
				 : mean_less(aim, figure);
}

bool
progress_level_reached(
    const struct progress_point *point, const struct progress_goal *goal)
{
	return point->end.n > 0 && mean_compare_to(point->end, goal->end) <= 0;
}

/* Those of the person, then those of the session itself. */
size_t
progress_goals(const struct progress *p, uint32_t point,
    const struct progress_goal **out, size_t n)
{
	const struct progress_point *at = &p->points.at[point];
	const struct progress_series *series = &p->series.at[at->series];
	const struct progress_session *s = &p->sessions.at[at->session];
	const struct progress_key keys[] = {
	    progress_goal_key(PROGRESS_OF_GOAL, s->headers, series->measurement,
		series->side, series->mode),
	    progress_goal_key(PROGRESS_OF_OWN_GOAL, s->number,
		series->measurement, series->side, series->mode)};
	size_t found = 0;

	for (size_t i = 0; i < sizeof(keys) / sizeof(*keys); i++) {
		uint32_t goal = *progress_key_value(p->keys, &keys[i]);

		for (; goal != PROGRESS_NONE && found <= n;
		     goal = p->goals.at[goal].next) {
			if (found < n)
				out[found] = &p->goals.at[goal];
			found++;
		}
	}
	return found;
}

bool
progress_days_since_surgery(const struct progress_session *s, int32_t *days)
{
	if (s->surgery == DATE_NONE || s->surgery > s->day)
		return false;
	*days = s->day - s->surgery;
	return true;
}
