/*
 * The summary of a session: lays its readings side by side and fills the
 * lines that the formats show. All figures are made here.
 */
#include "write/summary.h"

#include <stdlib.h>
#include <string.h>

#include "calc/totals.h"
#include "text/mem.h"
#include "write/summary_internal.h"
#include "write/summary_totals.h"

struct summary *
summary_new(const struct summary_options *options)
{
	struct summary *sum = mem_zero(sizeof(*sum));

	sum->options = options;
	return sum;
}

void
summary_free(struct summary *sum)
{
	comparisons_free(&sum->comparisons);
	table_free(&sum->table);
	buffer_free(&sum->scratch);
	free(sum->sources.at);
	free(sum->first);
	free(sum);
}

void
summary_begin(struct summary *sum, struct buffer *out)
{
	if (sum->options->format == SUMMARY_CSV)
		summary_rows_header(out);
}

/*
 * Which conditions of measuring change within the session? A reading that
 * names no rater or instrument changes none; a tape beside a goniometer is no
 * second instrument, since each serves its own kind of reading.
 */
static void
look_at_conditions(struct summary *sum)
{
	const struct session *s = sum->s;
	uint32_t rater = 0;
	int instruments[2] = {NONE, NONE};

	sum->several_raters = sum->several_instruments = false;
	sum->several_postures = false;
	for (size_t i = 0; i < s->readings.len; i++) {
		const struct reading *r = &s->readings.at[i];

		sum->several_postures |=
		    r->posture != s->readings.at[0].posture;
		if (r->rater != 0) {
			sum->several_raters |= rater != 0 && rater != r->rater;
			rater = r->rater;
		}
		if (r->instrument >= 0) {
			int *kind =
			    &instruments
				[vocab_instrument_linear[r->instrument]];

			sum->several_instruments |=
			    *kind >= 0 && *kind != r->instrument;
			*kind = r->instrument;
		}
	}
}

void
summary_session(struct summary *sum, struct buffer *out,
    const struct session *s, const struct sink *sink)
{
	static void (*const formats[])(struct summary *, struct buffer *) = {
	    [SUMMARY_TEXT] = summary_text_session,
	    [SUMMARY_CSV] = summary_rows_session,
	    [SUMMARY_JSON] = summary_rows_session};

	sum->s = s;
	sum->sink = sink;
	sum->person.age = session_age(s);
	sum->person.sex = session_sex(s);
	sum->sources.len = 0;
	sum->first_known = false;
	look_at_conditions(sum);
	comparisons_build(&sum->comparisons, s);
	formats[sum->options->format](sum, out);
	sum->sessions++;
}

_Static_assert(
    TOLD_DEFINITION + TOTAL_DEFINITIONS <= TOLD_THRESHOLDS, "room for all");

uint64_t
summary_told(const struct summary *sum)
{
	return sum->told;
}

void
summary_tell(struct summary *sum, uint64_t told)
{
	sum->told |= told;
}

size_t
summary_divide(struct summary *sum)
{
	sum->sessions++;
	return sum->options->format == SUMMARY_TEXT ? 1 : 0;
}

void
summary_end(struct summary *sum, struct buffer *out)
{
	if (sum->options->format != SUMMARY_TEXT)
		return;
	summary_totals_legend(sum, out);
	if (!(sum->told & told_bit(TOLD_USUAL)))
		return;
	buffer_puts(out, "\nUsual values are other people's. The person's own "
			 "other side, licensed\njudgement and local protocols "
			 "decide.\n");
}

/* Figures of other people are like nothing that was assisted. */
static bool
find_usual(struct summary *sum, const struct summary_line *line,
    struct ref_usual *usual)
{
	int mode = line->mode == COMPARE_NO_MODE ? NONE : line->mode;
	bool any = false;

	for (int side = 0; side < COMPARE_SIDES; side++)
		any |= line->reading[side] && line->reading[side]->trials > 0;
	if (!any || mode == VOCAB_MODE_ASSISTED)
		return false;
	return ref_usual(line->c->measurement,
	    intern_text(line->s->pool, line->c->setting), mode, &sum->person,
	    sum->options->source, sum->options->site, usual);
}

void
summary_line_fill(struct summary *sum, const struct comparison *c, int mode,
    struct summary_line *line)
{
	line->s = sum->s;
	line->c = c;
	line->mode = mode;
	for (int side = 0; side < COMPARE_SIDES; side++)
		line->reading[side] = comparison_reading(sum->s, c, mode, side);
	line->difference = comparison_sides(sum->s, c, mode);
	line->unit = NONE;
	if (line->difference.n > 0)
		line->unit = unit_of_both(line->reading[VOCAB_SIDE_RIGHT]->unit,
		    line->reading[VOCAB_SIDE_LEFT]->unit);
	line->has_usual = find_usual(sum, line, &line->usual);
}

int
summary_modes_unit(
    const struct summary *sum, const struct comparison *c, int side)
{
	const struct reading *all = sum->s->readings.at;

	return unit_of_both(all[c->reading[VOCAB_MODE_ACTIVE][side]].unit,
	    all[c->reading[VOCAB_MODE_PASSIVE][side]].unit);
}

size_t
summary_source_number(struct summary *sum, const struct ref_usual *usual)
{
	struct summary_source *source;

	for (size_t i = 0; i < sum->sources.len; i++) {
		source = &sum->sources.at[i];
		if (strcmp(source->key, usual->source) == 0 &&
		    strcmp(source->population, usual->population) == 0 &&
		    strcmp(source->verified, usual->verified) == 0)
			return i + 1;
	}
	source = MEM_PUSH(&sum->sources);
	source->key = usual->source;
	source->population = usual->population;
	source->verified = usual->verified;
	return sum->sources.len;
}

bool
summary_days_since_surgery(const struct session *s, int32_t *days)
{
	const struct fact *surgery = SESSION_FACT(s, surgery);

	if (surgery->said != SAID || s->said != SAID || surgery->value > s->day)
		return false;
	*days = s->day - surgery->value;
	return true;
}

/* --- goals ---------------------------------------------------------------- */

/* Where each measurement, mode and side comes first; goals ask for it. */
static void
know_first(struct summary *sum)
{
	size_t size = VOCAB_MEASUREMENT_COUNT * sizeof(*sum->first);

	if (sum->first_known)
		return;
	if (!sum->first)
		sum->first = mem_zero(size);
	memset(sum->first, 0, size);
	for (size_t i = 0; i < sum->comparisons.len; i++) {
		const struct comparison *c = &sum->comparisons.at[i];

		for (int m = 0; m < COMPARE_MODES; m++)
			for (int side = 0; side < COMPARE_SIDES; side++) {
				uint32_t *first =
				    &sum->first[c->measurement][m][side];

				if (*first == 0 && c->reading[m][side] >= 0)
					*first = (uint32_t)i + 1;
			}
	}
	sum->first_known = true;
}

/*
 * What is left, in the unit of the goal. One for schober may be meant as the
 * mark or as how far the marks part: where a reading has both, nothing is left
 * to say.
 */
static struct mean
to_go(const struct session *s, const struct goal *goal, const struct reading *r)
{
	const struct vocab_measurement *m =
	    &vocab_measurements[goal->measurement];
	struct mean goal_end = {goal->end, 1}, end;

	if (!compare_is_figure(r) ||
	    unit_of_both(r->unit, goal->unit) == UNKNOWN ||
	    (m->measure == VOCAB_MEASURE_SCHOBER && mean_start(s, r).n > 0))
		return (struct mean){0, 0};
	end = mean_in_unit(mean_end(s, r), r->unit, goal->unit);
	return m->less_is_better ? mean_less(end, goal_end)
				 : mean_less(goal_end, end);
}

/* A named measure needs no mode: a goal without one holds for any. */
static bool
aims_at(const struct goal *goal, int mode)
{
	if (goal->mode >= 0)
		return mode == goal->mode;
	return mode == COMPARE_NO_MODE ||
	       vocab_measurements[goal->measurement].measure >= 0;
}

/* The readings of C that GOAL aims at, behind the N in OUT; returns how many.
 */
static size_t
add_matches(const struct summary *sum, const struct goal *goal, int side,
    const struct comparison *c, struct summary_goal *out, size_t n)
{
	for (int mode = 0; mode < COMPARE_MODES; mode++) {
		const struct reading *r = NULL;

		if (!aims_at(goal, mode) || n == SUMMARY_GOAL_MATCHES)
			continue;
		/* what stands in for a mode is told once, without one */
		if (goal->mode >= 0)
			r = comparison_reading(sum->s, c, mode, side);
		else if (c->reading[mode][side] >= 0)
			r = &sum->s->readings.at[c->reading[mode][side]];
		if (r)
			out[n++] =
			    (struct summary_goal){r, c, to_go(sum->s, goal, r)};
	}
	return n;
}

/* 1 + the first comparison that may hold what GOAL aims at; 0: none. */
static uint32_t
first_match(const struct summary *sum, const struct goal *goal, int side)
{
	uint32_t first = 0;

	for (int mode = 0; mode < COMPARE_MODES; mode++) {
		uint32_t at = sum->first[goal->measurement][mode][side];

		/* one without a mode may stand in for any */
		if (at > 0 && (first == 0 || at < first) &&
		    (mode == COMPARE_NO_MODE || aims_at(goal, mode)))
			first = at;
	}
	return first;
}

size_t
summary_goal_matches(struct summary *sum, const struct goal *goal, int side,
    struct summary_goal *out)
{
	/* Bounded, so that many goals and many readings stay fast. */
	enum { LOOKED_AT = 64 };
	size_t n = 0, end;

	know_first(sum);
	if (side < 0)
		side = COMPARE_NO_SIDE;
	end = first_match(sum, goal, side);
	if (end == 0)
		return 0;
	for (size_t i = end - 1;
	     i < sum->comparisons.len && i < end - 1 + LOOKED_AT; i++) {
		const struct comparison *c = &sum->comparisons.at[i];

		if (c->measurement != goal->measurement)
			break;
		n = add_matches(sum, goal, side, c, out, n);
	}
	return n;
}
