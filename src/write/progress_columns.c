/*
 * The columns of progress: one list, each with its name and the function that
 * writes its bare value. CSV and JSON differ only in how they quote it. Later
 * ones are only ever added at the end.
 */
#include <string.h>

#include "write/findings.h"
#include "write/progress_columns.h"
#include "write/progress_words.h"
#include "write/summary_internal.h"

/* --- cells ---------------------------------------------------------------- */

static void
cell_subject(struct buffer *out, const struct progress_row *row)
{
	buffer_puts(out, progress_text(row->p,
			     row->p->persons.at[row->series->person].code));
}

static void
cell_joint(struct buffer *out, const struct progress_row *row)
{
	buffer_puts(
	    out, vocab_measurements[row->series->measurement].joint_name);
}

static void
cell_motion(struct buffer *out, const struct progress_row *row)
{
	buffer_puts(
	    out, vocab_measurements[row->series->measurement].motion_name);
}

static void
cell_setting(struct buffer *out, const struct progress_row *row)
{
	buffer_puts(out, progress_text(row->p, row->series->setting));
}

static void
cell_position(struct buffer *out, const struct progress_row *row)
{
	buffer_puts(out, progress_text(row->p, row->at->posture));
}

static void
cell_side(struct buffer *out, const struct progress_row *row)
{
	if (row->series->side >= 0)
		buffer_puts(
		    out, vocab_name(VOCAB_CLASS_SIDE, row->series->side));
}

static void
cell_mode(struct buffer *out, const struct progress_row *row)
{
	buffer_puts(out, progress_mode_name(row->series->mode));
}

static void
cell_repetitions(struct buffer *out, const struct progress_row *row)
{
	if (row->series->reps != NO_VALUE)
		buffer_printf(out, "%d", (int)row->series->reps);
}

static void
cell_involved(struct buffer *out, const struct progress_row *row)
{
	if (row->at->involved >= 0)
		buffer_puts(out, row->at->involved ? "yes" : "no");
}

static void
cell_less_is_better(struct buffer *out, const struct progress_row *row)
{
	buffer_puts(out,
	    vocab_measurements[row->series->measurement].less_is_better ? "yes"
									: "no");
}

static void
cell_session(struct buffer *out, const struct progress_row *row)
{
	progress_date_words(out, row->p, row->at);
}

static void
cell_time(struct buffer *out, const struct progress_row *row)
{
	if (row->session->time != TIME_NONE)
		summary_time(out, row->session->time);
}

static void
cell_label(struct buffer *out, const struct progress_row *row)
{
	buffer_puts(out, progress_text(row->p, row->session->label));
}

static void
cell_weeks(struct buffer *out, const struct progress_row *row)
{
	int32_t days;

	/* tenths of a week: a mean of days over 7 */
	if (progress_days_since_surgery(row->session, &days))
		summary_number(out, (struct mean){(int64_t)days * 10, 7});
}

static void
cell_rater(struct buffer *out, const struct progress_row *row)
{
	if (row->at->rater != UNKNOWN_TEXT)
		buffer_puts(out, progress_text(row->p, row->at->rater));
}

static void
cell_instrument(struct buffer *out, const struct progress_row *row)
{
	if (row->at->instrument >= 0)
		buffer_puts(out,
		    vocab_name(VOCAB_CLASS_INSTRUMENT, row->at->instrument));
}

static void
cell_kind(struct buffer *out, const struct progress_row *row)
{
	buffer_puts(out, kind_names[row->at->kind]);
}

static void
cell_reading(struct buffer *out, const struct progress_row *row)
{
	progress_value_words(out, row->p, row->at);
}

static void
add_figure(struct buffer *out, const struct progress_row *row, struct mean m)
{
	summary_number(out, progress_shown(row->series, m));
}

static void
cell_value(struct buffer *out, const struct progress_row *row)
{
	if (row->at->usable)
		add_figure(out, row, progress_figure(row->series, row->at));
}

static void
cell_unit(struct buffer *out, const struct progress_row *row)
{
	if (row->series->unit >= 0)
		buffer_puts(
		    out, vocab_name(VOCAB_CLASS_UNIT, row->series->unit));
}

static void
cell_doubtful(struct buffer *out, const struct progress_row *row)
{
	buffer_puts(out, row->at->left_out ? "yes" : "no");
}

static void
cell_goal(struct buffer *out, const struct progress_row *row)
{
	struct progress_goal undated;

	if (!row->goal)
		return;
	undated = *row->goal;
	undated.by = DATE_NONE;
	progress_goal_words(out, row->series, &undated);
}

static void
cell_goal_by(struct buffer *out, const struct progress_row *row)
{
	char day[16];

	if (row->goal && row->goal->by != DATE_NONE)
		buffer_puts(out, date_format(row->goal->by, day));
}

static void
cell_to_go(struct buffer *out, const struct progress_row *row)
{
	if (row->goal && row->at->kind != KIND_LEVEL)
		add_figure(
		    out, row, progress_to_go(row->p, row->point, row->goal));
}

static const struct progress_trend *
trend_of(const struct progress_row *row)
{
	return row->at->trend == PROGRESS_NONE
		   ? NULL
		   : &row->p->trends.at[row->at->trend];
}

static void
add_slope(struct buffer *out, const struct progress_row *row, double slope)
{
	char text[24];

	buffer_add(
	    out, text, number_text(progress_slope(row->series, slope), text));
}

static void
cell_trend(struct buffer *out, const struct progress_row *row)
{
	if (trend_of(row))
		add_slope(out, row, trend_of(row)->line.slope);
}

static void
cell_trend_low(struct buffer *out, const struct progress_row *row)
{
	if (trend_of(row))
		add_slope(out, row, trend_of(row)->line.low);
}

static void
cell_trend_high(struct buffer *out, const struct progress_row *row)
{
	if (trend_of(row))
		add_slope(out, row, trend_of(row)->line.high);
}

static void
cell_trend_sessions(struct buffer *out, const struct progress_row *row)
{
	if (trend_of(row))
		buffer_uint(out, trend_of(row)->line.n);
}

static void
cell_file(struct buffer *out, const struct progress_row *row)
{
	const char *file = progress_text(row->p, row->session->file);

	findings_safe(out, file, strlen(file));
}

static void
cell_line(struct buffer *out, const struct progress_row *row)
{
	buffer_uint(out, row->at->line);
}

/* Those in force at its own session, as they are written. */
static void
cell_precautions(struct buffer *out, const struct progress_row *row)
{
	enum { MOST = 4 };
	const struct progress_precaution *found[MOST];
	bool more;
	size_t n = progress_precautions(
	    row->p, row->at->session, row->series, found, MOST, &more);

	for (size_t i = 0; i < n; i++) {
		if (i > 0)
			buffer_puts(out, "; ");
		progress_precaution_words(out, row->p, found[i]);
	}
	if (more)
		buffer_puts(out, n > 0 ? "; perhaps others: see the note"
				       : "perhaps some: see the note");
}

/* All of the reading, notes and accepted ones too, as in convert. */
static void
cell_findings(struct buffer *out, const struct progress_row *row)
{
	progress_rules_words(out, row->at->rules, " ");
}

/* --- cells of a comparison: with the first, with the previous session ----- */

static void
cell_of_session(struct buffer *out, const struct progress_row *row,
    uint32_t from, const struct progress_change *change)
{
	(void)change;
	progress_date_words(out, row->p, &row->p->points.at[from]);
}

static void
cell_of_reading(struct buffer *out, const struct progress_row *row,
    uint32_t from, const struct progress_change *change)
{
	(void)change;
	progress_value_words(out, row->p, &row->p->points.at[from]);
}

static void
cell_of_value(struct buffer *out, const struct progress_row *row, uint32_t from,
    const struct progress_change *change)
{
	(void)change;
	add_figure(
	    out, row, progress_figure(row->series, &row->p->points.at[from]));
}

static void
cell_of_change(struct buffer *out, const struct progress_row *row,
    uint32_t from, const struct progress_change *change)
{
	(void)from;
	if (change->by.n > 0)
		add_figure(out, row, change->by);
}

static void
cell_of_error_low(struct buffer *out, const struct progress_row *row,
    uint32_t from, const struct progress_change *change)
{
	(void)from;
	if (change->error.known)
		add_figure(out, row, (struct mean){change->error.low, 1});
}

static void
cell_of_error_high(struct buffer *out, const struct progress_row *row,
    uint32_t from, const struct progress_change *change)
{
	(void)from;
	if (change->error.known)
		add_figure(out, row, (struct mean){change->error.high, 1});
}

static void
cell_of_source(struct buffer *out, const struct progress_row *row,
    uint32_t from, const struct progress_change *change)
{
	(void)row;
	(void)from;
	if (change->error.known)
		progress_source_words(out, change);
}

/* A level has no figure, so nothing that error could be held against. */
static void
cell_of_beyond(struct buffer *out, const struct progress_row *row,
    uint32_t from, const struct progress_change *change)
{
	(void)from;
	if (row->at->kind != KIND_LEVEL)
		buffer_puts(out, progress_beyond_word(change->beyond));
}

static void
cell_of_changed(struct buffer *out, const struct progress_row *row,
    uint32_t from, const struct progress_change *change)
{
	progress_changed_words(out, row->p, from, row->point, change);
}

/* --- the list --------------------------------------------------------------
 */

const struct progress_column progress_columns[] = {
    {"subject", false, cell_subject, NULL, NULL},
    {"joint", false, cell_joint, NULL, NULL},
    {"motion", false, cell_motion, NULL, NULL},
    {"setting", false, cell_setting, NULL, NULL},
    {"position", false, cell_position, NULL, NULL},
    {"side", false, cell_side, NULL, NULL},
    {"mode", false, cell_mode, NULL, NULL},
    {"repetitions", true, cell_repetitions, NULL, NULL},
    {"involved", false, cell_involved, NULL, NULL},
    {"less_is_better", false, cell_less_is_better, NULL, NULL},
    {"session", false, cell_session, NULL, NULL},
    {"time", false, cell_time, NULL, NULL},
    {"label", false, cell_label, NULL, NULL},
    {"weeks_since_surgery", true, cell_weeks, NULL, NULL},
    {"rater", false, cell_rater, NULL, NULL},
    {"instrument", false, cell_instrument, NULL, NULL},
    {"kind", false, cell_kind, NULL, NULL},
    {"reading", false, cell_reading, NULL, NULL},
    {"value", true, cell_value, NULL, NULL},
    {"unit", false, cell_unit, NULL, NULL},
    {"doubtful", false, cell_doubtful, NULL, NULL},
    {"first_session", false, NULL, cell_of_session, NULL},
    {"first_reading", false, NULL, cell_of_reading, NULL},
    {"first_value", true, NULL, cell_of_value, NULL},
    {"since_first", true, NULL, cell_of_change, NULL},
    {"first_error_low", true, NULL, cell_of_error_low, NULL},
    {"first_error_high", true, NULL, cell_of_error_high, NULL},
    {"first_error_source", false, NULL, cell_of_source, NULL},
    {"first_beyond_error", false, NULL, cell_of_beyond, NULL},
    {"first_changed", false, NULL, cell_of_changed, NULL},
    {"previous_session", false, NULL, NULL, cell_of_session},
    {"previous_reading", false, NULL, NULL, cell_of_reading},
    {"previous_value", true, NULL, NULL, cell_of_value},
    {"since_previous", true, NULL, NULL, cell_of_change},
    {"previous_error_low", true, NULL, NULL, cell_of_error_low},
    {"previous_error_high", true, NULL, NULL, cell_of_error_high},
    {"previous_error_source", false, NULL, NULL, cell_of_source},
    {"previous_beyond_error", false, NULL, NULL, cell_of_beyond},
    {"previous_changed", false, NULL, NULL, cell_of_changed},
    {"goal", false, cell_goal, NULL, NULL},
    {"goal_by", false, cell_goal_by, NULL, NULL},
    {"to_go", true, cell_to_go, NULL, NULL},
    {"trend_per_week", true, cell_trend, NULL, NULL},
    {"trend_low", true, cell_trend_low, NULL, NULL},
    {"trend_high", true, cell_trend_high, NULL, NULL},
    {"trend_sessions", true, cell_trend_sessions, NULL, NULL},
    {"file", false, cell_file, NULL, NULL},
    {"line", true, cell_line, NULL, NULL},
    {"precautions", false, cell_precautions, NULL, NULL},
    {"findings", false, cell_findings, NULL, NULL},
};

const size_t progress_column_count =
    sizeof(progress_columns) / sizeof(*progress_columns);

bool
progress_column_is_value(const struct progress_column *column)
{
	return column->own == cell_reading ||
	       column->first == cell_of_reading ||
	       column->previous == cell_of_reading;
}
