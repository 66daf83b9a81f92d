/*
 * The words of progress. A figure that falls short of zero is said in words;
 * only a change has a sign.
 */
#include "write/progress_words.h"

#include <math.h>
#include <string.h>

#include "write/rule_names.h"
#include "write/summary_internal.h"

static void
end_words(struct buffer *out, struct mean end)
{
	if (mean_compare_to(end, 0) < 0) {
		buffer_puts(out, "lacks ");
		end.sum = -end.sum;
	}
	summary_number(out, end);
}

void
progress_value_words(struct buffer *out, const struct progress *p,
    const struct progress_point *point)
{
	switch ((enum kind)point->kind) {
	case KIND_NOT_TESTED:
		buffer_puts(out, "NT");
		return;
	case KIND_WNL:
	case KIND_WFL:
		buffer_puts(out, kind_names[point->kind]);
		return;
	case KIND_LEVEL:
		buffer_puts(out, progress_text(p, point->words));
		return;
	case KIND_FIXED:
		buffer_puts(out, "fixed ");
		break;
	default:
		break;
	}
	if (point->end.n == 0)
		return;
	if (point->kind == KIND_MEASURED && point->start.n > 0) {
		summary_number(out, point->start);
		buffer_putc(out, '-');
	}
	end_words(out, point->end);
	summary_unit(out, point->unit);
	if (point->trials > 1)
		buffer_printf(out, " (%u)", (unsigned)point->trials);
}

void
progress_rules_words(struct buffer *out, uint64_t rules, const char *between)
{
	const char *names[RULE_COUNT];
	size_t n = rule_names(rules, names);

	for (size_t i = 0; i < n; i++) {
		buffer_puts(out, i > 0 ? between : "");
		buffer_puts(out, names[i]);
	}
}

void
progress_warned_words(struct buffer *out, const struct progress_point *point)
{
	uint64_t warned = progress_warned(point);

	if (warned == 0)
		return;
	buffer_puts(out, " [");
	progress_rules_words(out, warned, ", ");
	if (warned & point->accepted)
		buffer_puts(out, ": accepted");
	buffer_putc(out, ']');
}

bool
progress_is_marked(const struct progress_point *at)
{
	return at->usable && progress_warned(at);
}

bool
progress_marked_words(struct buffer *out, const struct progress *p,
    const struct progress_series *series)
{
	bool any = false;

	for (uint32_t i = 0; i < series->points; i++) {
		const struct progress_point *at =
		    &p->points.at[series->point + i];

		if (!progress_is_marked(at))
			continue;
		buffer_puts(out, any ? "; " : "");
		progress_value_words(out, p, at);
		buffer_puts(out, " of ");
		progress_date_words(out, p, at);
		progress_warned_words(out, at);
		any = true;
	}
	return any;
}

void
progress_figure_words(
    struct buffer *out, const struct progress_series *series, struct mean m)
{
	summary_number(out, progress_shown(series, m));
	summary_unit(out, series->unit);
}

void
progress_signed_words(
    struct buffer *out, const struct progress_series *series, struct mean m)
{
	summary_signed(out, progress_shown(series, m));
	summary_unit(out, series->unit);
}

const char *
progress_level_word(int levels)
{
	return levels > 0 ? "higher" : levels < 0 ? "lower" : "the same";
}

const char *
progress_mode_name(int mode)
{
	return summary_mode_name(mode);
}

void
progress_motion_words(struct buffer *out, const struct progress_series *series)
{
	const struct vocab_measurement *m =
	    &vocab_measurements[series->measurement];

	buffer_printf(out, "%s %s", m->joint_name, m->motion_name);
}

static void
add_part(struct buffer *out, size_t before, const char *text)
{
	if (text[0] == '\0')
		return;
	if (out->len > before)
		buffer_puts(out, ", ");
	buffer_puts(out, text);
}

void
progress_condition_words(struct buffer *out, const struct progress *p,
    const struct progress_series *series, int side)
{
	size_t before = out->len;

	if (side >= 0)
		buffer_puts(out, vocab_name(VOCAB_CLASS_SIDE, side));
	if (side >= 0 && series->mode >= 0)
		buffer_putc(out, ' ');
	if (series->mode >= 0)
		buffer_puts(out, progress_mode_name(series->mode));
	add_part(out, before, progress_text(p, series->setting));
	add_part(out, before, progress_text(p, series->posture));
	if (series->reps == NO_VALUE)
		return;
	if (out->len > before)
		buffer_puts(out, ", ");
	buffer_printf(out, "after %d reps", (int)series->reps);
}

/* --- error ---------------------------------------------------------------- */

void
progress_error_words(struct buffer *out, const struct progress_series *series,
    const struct progress_error *error)
{
	if (!error->known)
		return;
	if (error->at_least)
		buffer_puts(out, ">=");
	if (error->low != error->high) {
		summary_number(
		    out, progress_shown(series, (struct mean){error->low, 1}));
		buffer_putc(out, '-');
	}
	progress_figure_words(out, series, (struct mean){error->high, 1});
}

static void
instrument_words(struct buffer *out, const struct progress_change *change)
{
	const struct progress_error *error = &change->error;

	switch (change->instrument) {
	case PROGRESS_UNNAMED:
		buffer_puts(out, "; instrument not named, the usual one taken");
		break;
	case PROGRESS_CHANGED:
		buffer_puts(out, "; at least this, as the instrument changed");
		break;
	case PROGRESS_UNKNOWN:
		buffer_puts(
		    out, "; at least this, as an instrument is not known");
		break;
	case PROGRESS_SAME:
		if (error->instrument >= 0 && !error->of.fallback)
			buffer_printf(out, ", %s",
			    vocab_name(
				VOCAB_CLASS_INSTRUMENT, error->instrument));
		break;
	}
}

void
progress_source_words(struct buffer *out, const struct progress_change *change)
{
	const struct progress_error *error = &change->error;
	const struct ref_error *of = &error->of;

	if (error->by_step) {
		buffer_printf(out,
		    "one step of the instrument, which is more than %s says",
		    of->source);
		return;
	}
	if (of->fallback)
		buffer_printf(out, "%s: a rule of thumb, for want of a figure",
		    of->source);
	else
		buffer_printf(out, "%s: %s", of->source, of->statistic);
	if (strcmp(of->verified, "yes") != 0)
		buffer_printf(out, " (%s)", of->verified);
	if (change->rater == PROGRESS_SAME)
		buffer_puts(out, "; taken for one rater");
	else if (change->rater == PROGRESS_CHANGED)
		buffer_puts(out, "; taken for two raters");
	else
		buffer_puts(out, "; taken for two raters, as one is not known");
	instrument_words(out, change);
}

const char *
progress_why_words(enum progress_why why)
{
	static const char *const words[] = {[PROGRESS_NO_DOUBT] = "",
	    [PROGRESS_NO_FIGURE] = "no figure of error is known for it",
	    [PROGRESS_NO_INSTRUMENT] =
		"no figure of error is known for a change of instrument",
	    [PROGRESS_NO_POSTURE] =
		"no published figure of error covers a change of position",
	    [PROGRESS_BETWEEN] =
		"the change lies between the figures of the source"};

	return words[why];
}

const char *
progress_beyond_word(enum progress_beyond beyond)
{
	static const char *const words[] = {[PROGRESS_NO] = "no",
	    [PROGRESS_YES] = "yes",
	    [PROGRESS_DOUBT] = "unknown"};

	return words[beyond];
}

/* --- what changed --------------------------------------------------------- */

void
progress_rater_words(
    struct buffer *out, const struct progress *p, uint32_t rater)
{
	if (rater == 0)
		buffer_puts(out, "not named");
	else if (rater == UNKNOWN_TEXT)
		buffer_puts(out, "not readable");
	else
		buffer_puts(out, progress_text(p, rater));
}

static void
add_instrument(struct buffer *out, const struct progress_point *point)
{
	if (point->instrument == UNKNOWN)
		buffer_puts(out, "not readable");
	else if (point->instrument == NONE)
		buffer_puts(out, "not named");
	else
		buffer_puts(
		    out, vocab_name(VOCAB_CLASS_INSTRUMENT, point->instrument));
	if (point->step == NO_VALUE)
		return;
	buffer_puts(out, " step ");
	summary_number(out, (struct mean){point->step, 1});
	summary_unit(out, point->unit);
}

void
progress_changed_words(struct buffer *out, const struct progress *p,
    uint32_t from, uint32_t to, const struct progress_change *change)
{
	const struct progress_point *a = &p->points.at[from];
	const struct progress_point *b = &p->points.at[to];
	size_t before = out->len;
	char day[16];

	if (change->rater == PROGRESS_CHANGED ||
	    change->rater == PROGRESS_UNKNOWN) {
		buffer_puts(out, "rater ");
		progress_rater_words(out, p, a->rater);
		buffer_puts(out, ", now ");
		progress_rater_words(out, p, b->rater);
	}
	if (change->instrument == PROGRESS_CHANGED ||
	    change->instrument == PROGRESS_UNKNOWN || change->step) {
		if (out->len > before)
			buffer_puts(out, "; ");
		buffer_puts(out, "instrument ");
		add_instrument(out, a);
		buffer_puts(out, ", now ");
		add_instrument(out, b);
	}
	if (change->posture) {
		if (out->len > before)
			buffer_puts(out, "; ");
		buffer_printf(out, "position %s, now %s",
		    progress_text(p, a->posture), progress_text(p, b->posture));
	}
	if (change->surgery) {
		if (out->len > before)
			buffer_puts(out, "; ");
		buffer_printf(out, "surgery %s lies between",
		    date_format(progress_session_of(p, to)->surgery, day));
	}
}

void
progress_before_words(struct buffer *out, const struct progress *p,
    const struct progress_series *series)
{
	const struct progress_series *was = &p->series.at[series->before];
	bool named = was->posture != 0 && series->posture != 0;
	const struct {
		const char *what;
		uint32_t was, is;
	} parts[] = {{"position", was->posture, series->posture},
	    {"setting", was->setting, series->setting}};
	size_t before = out->len;

	for (int i = 0; i < 2; i++) {
		if (parts[i].was == parts[i].is || (i == 0 && !named))
			continue;
		if (out->len > before)
			buffer_puts(out, "; ");
		buffer_printf(out, "%s %s before, now %s", parts[i].what,
		    parts[i].was ? progress_text(p, parts[i].was) : "not named",
		    parts[i].is ? progress_text(p, parts[i].is) : "not named");
	}
}

/* --- goals and precautions ------------------------------------------------ */

void
progress_goal_words(struct buffer *out, const struct progress_series *series,
    const struct progress_goal *goal)
{
	char day[16];

	if (vocab_measurements[series->measurement].in == VOCAB_IN_LEVEL) {
		buffer_puts(out, vocab_name(VOCAB_CLASS_LEVEL, goal->end));
	} else {
		end_words(out, (struct mean){goal->end, 1});
		summary_unit(out, goal->unit);
	}
	if (goal->by != DATE_NONE)
		buffer_printf(out, " by %s", date_format(goal->by, day));
}

void
progress_precaution_words(struct buffer *out, const struct progress *p,
    const struct progress_precaution *precaution)
{
	struct precaution as = precaution->as;

	if (precaution->reason != 0)
		as.reason = progress_text(p, precaution->reason);
	summary_precaution(out, &as);
}

void
progress_in_force_words(struct buffer *out, const struct progress *p,
    uint32_t session, const struct progress_precaution *precaution)
{
	char day[16];

	buffer_printf(out, "precaution in force on %s: ",
	    date_format(p->sessions.at[session].day, day));
	progress_precaution_words(out, p, precaution);
}

void
progress_left_words(struct buffer *out, const struct progress *p,
    uint32_t point, const struct progress_goal *goal)
{
	const struct progress_point *at = &p->points.at[point];
	const struct progress_series *series = &p->series.at[at->series];
	struct mean left;

	if (at->kind == KIND_LEVEL) {
		buffer_puts(out, progress_level_reached(at, goal)
				     ? "reached"
				     : "not reached");
		return;
	}
	left = progress_to_go(p, point, goal);
	if (left.n == 0) {
		buffer_puts(out, "what is left is not told, as it may mean the "
				 "mark or the difference");
	} else if (left.sum > 0) {
		progress_figure_words(out, series, left);
		buffer_puts(out, " to go");
	} else {
		buffer_puts(out, "reached");
		left.sum = -left.sum;
		if (left.sum > 0) {
			buffer_puts(out, ", ");
			progress_figure_words(out, series, left);
			buffer_puts(out, " beyond it");
		}
	}
}

/* --- persons, dates, slopes ----------------------------------------------- */

void
progress_person_words(
    struct buffer *out, const struct progress *p, size_t person)
{
	const struct progress_person *who = &p->persons.at[person];

	if (who->code != 0)
		buffer_puts(out, progress_text(p, who->code));
	else
		buffer_puts(out, "subject not known");
}

void
progress_date_words(struct buffer *out, const struct progress *p,
    const struct progress_point *point)
{
	char day[16];

	buffer_puts(out, date_format(p->sessions.at[point->session].day, day));
}

int64_t
progress_slope(const struct progress_series *series, double slope)
{
	if (series->unit == VOCAB_UNIT_CM)
		slope /= 10;
	return llround(slope * 100);
}
