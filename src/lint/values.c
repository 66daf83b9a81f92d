/*
 * Rules on the figures of single readings: what cannot be and what is
 * doubtful. They run first, since they mark the readings that no comparison
 * may use. Bounds come from the limits table; no figure is ever changed.
 *
 * What cannot be is told once: a reading with swapped or impossible figures
 * draws no doubtful finding as well.
 */
#include <stdlib.h>

#include "calc/value.h"
#include "lint/bound_words.h"
#include "lint/internal.h"
#include "reference/reference.h"

#define MODES (VOCAB_MODE_COUNT + 1) /* one for readings without a mode */

struct judge {
	struct lint *lint;
	struct session *s;
	struct sink *sink;
	bool infant;	    /* usual bounds do not hold under the age of 2 */
	struct place place; /* of the finding at hand */
};

/* The bounds of a group, looked up where they are needed. */
struct bounds {
	struct ref_bound of[2]; /* of a value, of a difference */
	bool known[2];
};

/*
 * The greatest figures of the other side, for unusual-angle: gathered once a
 * group, and only where something is unusual.
 */
struct greatest {
	bool gathered;
	const struct reading *of[VOCAB_SIDE_COUNT][MODES];
	int32_t value[VOCAB_SIDE_COUNT][MODES];
};

static const struct place *
at(struct judge *j, const struct reading *r)
{
	j->place = reading_place(j->s, r);
	return &j->place;
}

static int
index_of(const struct judge *j, const struct reading *r)
{
	return (int)(r - j->s->readings.at);
}

/* Schober speaks of how much two marks part: end less start. */
static bool
is_difference(const struct reading *r, const struct trial *t)
{
	return reading_measurement(r)->measure == VOCAB_MEASURE_SCHOBER &&
	       t->start != NO_VALUE;
}

static bool
has_figures(const struct reading *r)
{
	return reading_is_number(r) && r->trials && !r->left_out;
}

static struct lint_figure
figure_as_written(const struct reading *r, int32_t tenths)
{
	return lint_figure((int64_t)tenths * 10, r->unit);
}

/* A figure in the base unit, in the unit that was written. */
static struct lint_figure
figure_of(const struct reading *r, int32_t base)
{
	int64_t hundredths = base;

	if (r->unit != VOCAB_UNIT_CM)
		hundredths *= 10;
	return lint_figure(hundredths, r->unit);
}

/* Least and greatest of what the bounds speak of, in the base unit. */
static void
extremes(const struct session *s, const struct reading *r, int32_t *least,
    int32_t *greatest)
{
	const struct trial *t = reading_trials(s, r);

	*least = INT32_MAX;
	*greatest = INT32_MIN;
	for (uint32_t i = 0; i < r->trials; i++) {
		int32_t value = t[i].end;

		if (is_difference(r, &t[i]))
			value -= t[i].start;
		value = lint_base(value, r->unit);
		if (value < *least)
			*least = value;
		if (value > *greatest)
			*greatest = value;
	}
}

/* What the end may not be less than; NO_VALUE where that is not known. */
static int32_t
least_end(const struct trial *t)
{
	return t->minuend != NO_VALUE ? 0 : t->start;
}

static void
end_before_start(struct judge *j, struct reading *r)
{
	const struct trial *t = r->trials ? reading_trials(j->s, r) : NULL;
	struct finding *f;
	uint32_t i = 0;

	while (i < r->trials &&
	       (least_end(&t[i]) == NO_VALUE || t[i].end >= least_end(&t[i])))
		i++;
	if (i == r->trials)
		return;
	/* The other half of the pair came from the same figures. */
	r->left_out = true;
	r[r->twin].left_out = true;
	if (t[i].minuend != NO_VALUE)
		f = sink_add(j->sink, RULE_END_BEFORE_START, at(j, r),
		    index_of(j, r), "%s: %s less %s is below 0",
		    lint_label(r).text, figure_as_written(r, t[i].minuend).text,
		    figure_as_written(r, t[i].minuend - t[i].end).text);
	else
		f = sink_add(j->sink, RULE_END_BEFORE_START, at(j, r),
		    index_of(j, r), "%s ends at %s, before its start at %s",
		    lint_label(r).text, figure_as_written(r, t[i].end).text,
		    figure_as_written(r, t[i].start).text);
	sink_hint(j->sink, f,
	    t[i].minuend != NO_VALUE
		? "write the greater of the two inclinometer readings first; "
		  "if both were read so, measure again"
		: "write where the motion starts, then where it ends; if "
		  "both were read so, measure again");
}

static void
impossible_pain(struct judge *j, const struct reading *r)
{
	struct finding *f;

	if (r->pain == NO_VALUE || (r->pain >= 0 && r->pain <= 100))
		return;
	f = sink_add(j->sink, RULE_IMPOSSIBLE_PAIN, at(j, r), index_of(j, r),
	    "%s: a pain score of %s is outside the scale of 0 to 10",
	    lint_label(r).text, lint_figure((int64_t)r->pain * 10, NONE).text);
	sink_hint(j->sink, f,
	    "ask again: 0 is no pain, 10 the worst pain; the angle at which "
	    "pain begins is written `pain at %s`",
	    lint_figure((int64_t)r->pain * 10, NONE).text);
}

static const struct ref_bound *
bound_of(struct judge *j, struct bounds *bounds, const struct reading *r)
{
	const struct trial *t = reading_trials(j->s, r);
	bool difference = t && is_difference(r, t);

	if (!bounds->known[difference]) {
		ref_limits(r->measurement, intern_text(j->s->pool, r->setting),
		    difference, &bounds->of[difference]);
		bounds->known[difference] = true;
	}
	return &bounds->of[difference];
}

static void
impossible_angle(struct judge *j, struct reading *r,
    const struct ref_bound *bound, int32_t least, int32_t greatest)
{
	bool beyond = bound->has_possible && greatest > bound->possible;
	bool in_degrees = reading_measurement(r)->in == VOCAB_IN_DEG;
	struct finding *f;

	if (!beyond &&
	    !(bound->has_lacks && least < 0 && -least > bound->lacks))
		return;
	r->left_out = true;
	f = sink_add(j->sink, RULE_IMPOSSIBLE_ANGLE, at(j, r), index_of(j, r),
	    "%s %s%s is beyond what %s", lint_label(r).text,
	    beyond ? "" : "lacks ",
	    figure_of(r, beyond ? greatest : -least).text,
	    in_degrees ? "this joint can do" : "can be measured here");
	sink_hint(j->sink, f,
	    "check joint, motion and figure and measure again: at most %s, "
	    "%s",
	    figure_of(r, beyond ? bound->possible : bound->lacks).text,
	    beyond ? bound_possible_words(r, bound)
		   : "as far as the opposite motion can go");
}

static void
gather_greatest(
    struct judge *j, const struct group *g, struct greatest *greatest)
{
	const uint32_t *order = j->lint->groups.order + g->first;

	greatest->gathered = true;
	for (uint32_t i = 0; i < g->count; i++) {
		const struct reading *r = &j->s->readings.at[order[i]];
		int mode = r->mode + 1;
		int32_t low, high;

		if (r->side == NONE || !has_figures(r))
			continue;
		extremes(j->s, r, &low, &high);
		if (greatest->of[r->side][mode] &&
		    greatest->value[r->side][mode] >= high)
			continue;
		greatest->of[r->side][mode] = r;
		greatest->value[r->side][mode] = high;
	}
}

static void
hint_unusual(struct judge *j, struct finding *f, const struct reading *r,
    const struct ref_bound *bound)
{
	struct buffer words = {0};

	if (!f->message)
		return;
	bound_usual_words(&words, bound);
	sink_hint(j->sink, f, "measure again%s; usual is up to %s: %.*s",
	    r->side == NONE ? "" : ", and the other side in the same way",
	    figure_of(r, bound->usual).text, (int)words.len, words.data);
	buffer_free(&words);
}

static bool
is_unusual(const struct judge *j, const struct ref_bound *bound, int32_t value)
{
	return bound->has_usual && value > bound->usual && !j->infant;
}

/* Where the other side does the same, the joint is so and not the reading. */
static void
unusual_angle(struct judge *j, const struct group *g, const struct reading *r,
    const struct ref_bound *bound, struct greatest *greatest)
{
	const struct reading *other = NULL;
	int32_t low, high, there = 0;
	struct finding *f;

	extremes(j->s, r, &low, &high);
	if (!is_unusual(j, bound, high))
		return;
	if (!greatest->gathered)
		gather_greatest(j, g, greatest);
	if (r->side != NONE) {
		other = greatest->of[!r->side][r->mode + 1];
		there = greatest->value[!r->side][r->mode + 1];
	}
	if (other &&
	    abs(high - there) <= lint_tolerance_base(j->lint, r, other))
		return;
	f = sink_add(j->sink, RULE_UNUSUAL_ANGLE, at(j, r), index_of(j, r),
	    "%s %s is beyond what is usual%s%s", lint_label(r).text,
	    figure_of(r, high).text,
	    other	      ? ", and the other side ends at "
	    : r->side == NONE ? ""
			      : ", and the other side was not measured so",
	    other ? figure_of(r, there).text : "");
	if (other)
		f->other = index_of(j, other);
	hint_unusual(j, f, r, bound);
}

static void
off_scale(struct judge *j, const struct reading *r)
{
	const struct trial *t = reading_trials(j->s, r);
	struct finding *f;
	int32_t bad = NO_VALUE;

	if (r->step == NO_VALUE || r->step <= 0)
		return;
	for (uint32_t i = 0; i < r->trials && bad == NO_VALUE; i++) {
		int32_t figure[] = {t[i].start, t[i].end, t[i].minuend};

		/* Of `85 less 38` the two that were read. */
		if (t[i].minuend != NO_VALUE)
			figure[1] = t[i].minuend - t[i].end;
		for (int k = 2; k >= 0; k--)
			if (figure[k] != NO_VALUE && figure[k] % r->step)
				bad = abs(figure[k]);
	}
	if (bad == NO_VALUE)
		return;
	f = sink_add(j->sink, RULE_OFF_SCALE, at(j, r), index_of(j, r),
	    "%s: %s cannot be read off an instrument in steps of %s",
	    lint_label(r).text, figure_as_written(r, bad).text,
	    figure_as_written(r, r->step).text);
	sink_hint(j->sink, f,
	    "was it estimated between two marks, or is the step in the "
	    "`instrument` line another?");
}

static void
trials_disagree(struct judge *j, const struct reading *r)
{
	int32_t least, greatest, tolerance;
	struct finding *f;

	if (r->trials < 2 || !trial_ends(j->s, r, &least, &greatest))
		return;
	tolerance = lint_tolerance_base(j->lint, r, r);
	if (lint_base(greatest - least, r->unit) <= tolerance)
		return;
	f = sink_add(j->sink, RULE_TRIALS_DISAGREE, at(j, r), index_of(j, r),
	    "the trials of %s end %s apart (%s and %s)", lint_label(r).text,
	    figure_as_written(r, greatest - least).text,
	    figure_as_written(r, least).text,
	    figure_as_written(r, greatest).text);
	if (r->kind == KIND_END_ONLY && r->trials == 2)
		sink_hint(j->sink, f,
		    "if one range was meant, write %s-%s; if these are trials, "
		    "let the joint warm up, align again and measure again",
		    figure_as_written(r, least).text,
		    figure_as_written(r, greatest).text);
	else
		sink_hint(j->sink, f,
		    "they may not be of one motion: let the joint warm up, "
		    "align "
		    "again and measure again");
}

/*
 * How far the motion went, as far as it is known. Where it comes from far and
 * ends near (an extension that lacks, a finger that nears the crease), the
 * numbers fall, and a start was not written; a figure on a lacking extension
 * is read as degrees short of zero.
 */
static void
moved_range(const struct session *s, const struct reading *r, int32_t *low,
    int32_t *high)
{
	const struct trial *t = reading_trials(s, r);
	bool nears =
	    r->kind == KIND_LACKS || reading_measurement(r)->less_is_better;

	*low = nears ? INT32_MAX : INT32_MIN;
	*high = nears ? INT32_MAX : INT32_MIN;
	for (uint32_t i = 0; i < r->trials; i++) {
		int32_t end = t[i].end, start = t[i].start;

		if (r->kind == KIND_LACKS)
			end = -end;
		/* Of two inclinometer readings either scale may be meant. */
		if (t[i].minuend != NO_VALUE && t[i].minuend > end)
			end = t[i].minuend;
		if (nears ? end < *low : end > *high)
			*(nears ? low : high) = end;
		if (!nears && start != NO_VALUE &&
		    (*low == INT32_MIN || start < *low))
			*low = start;
	}
}

static void
pain_outside_range(struct judge *j, const struct reading *r)
{
	int32_t figure[] = {r->pain_onset, r->arc_low, r->arc_high};
	int32_t low, high, bad = NO_VALUE;
	struct finding *f;

	if (r->kind == KIND_SCORE ||
	    (r->pain_onset == NO_VALUE && r->arc_low == NO_VALUE))
		return;
	moved_range(j->s, r, &low, &high);
	for (int k = 2; k >= 0; k--)
		if (figure[k] != NO_VALUE &&
		    (figure[k] < low || figure[k] > high))
			bad = figure[k];
	if (bad == NO_VALUE)
		return;
	f = sink_add(j->sink, RULE_PAIN_OUTSIDE_RANGE, at(j, r), index_of(j, r),
	    "%s: %s at %s is outside the motion, which %s at %s",
	    lint_label(r).text, bad == r->pain_onset ? "pain" : "a painful arc",
	    figure_as_written(r, bad).text,
	    bad > high		? "ended"
	    : high == INT32_MAX ? "stopped"
				: "started",
	    figure_as_written(r, bad > high ? high : low).text);
	sink_hint(j->sink, f,
	    "one of the two figures slipped, or they belong to two motions");
}

static void
not_a_measurement(struct judge *j, const struct reading *r)
{
	struct finding *f = sink_add(j->sink, RULE_NOT_A_MEASUREMENT, at(j, r),
	    index_of(j, r), "%s gives no figure of %s", kind_names[r->kind],
	    lint_label(r).text);

	sink_hint(j->sink, f,
	    "measure it if a later reading is to be compared with it");
}

/*
 * What R says by itself. True where it goes beyond what is usual, which is
 * weighed once all that is impossible is known.
 */
static bool
judge_alone(struct judge *j, struct reading *r, const struct ref_bound *bound)
{
	int32_t least, greatest;

	extremes(j->s, r, &least, &greatest);
	impossible_angle(j, r, bound, least, greatest);
	if (r->left_out)
		return false;
	off_scale(j, r);
	trials_disagree(j, r);
	pain_outside_range(j, r);
	return is_unusual(j, bound, greatest);
}

static void
judge_group(struct judge *j, const struct group *g)
{
	const uint32_t *order = j->lint->groups.order + g->first;
	struct bounds bounds = {.known = {false, false}};
	struct greatest greatest = {.gathered = false};
	bool unusual = false;

	for (uint32_t i = 0; i < g->count; i++) {
		struct reading *r = &j->s->readings.at[order[i]];

		impossible_pain(j, r);
		if (r->kind == KIND_WNL || r->kind == KIND_WFL)
			not_a_measurement(j, r);
		else if (has_figures(r))
			unusual |= judge_alone(j, r, bound_of(j, &bounds, r));
	}
	for (uint32_t i = 0; unusual && i < g->count; i++) {
		const struct reading *r = &j->s->readings.at[order[i]];

		if (has_figures(r))
			unusual_angle(
			    j, g, r, bound_of(j, &bounds, r), &greatest);
	}
}

void
lint_values(struct lint *lint, struct session *s, struct sink *sink)
{
	int age = session_age(s);
	struct judge j = {
	    .lint = lint, .s = s, .sink = sink, .infant = age >= 0 && age < 2};

	for (size_t i = 0; i < s->readings.len; i++)
		end_before_start(&j, &s->readings.at[i]);
	for (size_t g = 0; g < lint->groups.len; g++)
		judge_group(&j, &lint->groups.at[g]);
}
