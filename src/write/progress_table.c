/*
 * The table of progress: a motion has a heading and a line for the first, the
 * previous and this figure; below stand what else changed, what is left to a
 * goal, and how it went where there are sessions enough.
 */
#include "write/progress_table.h"

#include "write/progress_text.h"
#include "write/progress_words.h"
#include "write/summary_internal.h"
#include "write/wrap.h"

enum { GOALS = 4, PRECAUTIONS = 4 };

void
progress_table_across(struct progress_table *t, size_t indent)
{
	struct buffer *cell = &t->table.text;

	buffer_pad(cell, ' ', indent - PROGRESS_INDENT);
	wrap_text(cell, t->line.data, t->line.len, indent, indent + 2);
	table_across(&t->table);
	t->line.len = 0;
}

/* --- the lines of the table ----------------------------------------------- */

void
progress_table_headings(struct table *table)
{
	static const char *const headings[2][PROGRESS_COLUMNS] = {
	    {"", "session", "after", "value", "change", "error", "beyond"},
	    {"", "", "surgery", "", "to this", "", "error"}};

	for (int row = 0; row < 2; row++) {
		for (int i = 0; i < PROGRESS_COLUMNS; i++)
			table_puts(table, headings[row][i]);
		table_row(table);
	}
}

/* "3w", "5w 2d": weeks and days since the surgery. */
static void
add_since_surgery(struct buffer *out, const struct progress_session *s)
{
	int32_t days;

	if (!progress_days_since_surgery(s, &days))
		return;
	if (days >= 7 || days == 0)
		buffer_printf(out, "%dw", (int)(days / 7));
	if (days > 7 && days % 7)
		buffer_putc(out, ' ');
	if (days % 7)
		buffer_printf(out, "%dd", (int)(days % 7));
}

/* Which, session, weeks, value; the time where one day has several. */
void
progress_table_begin(
    struct progress_table *t, const char *which, uint32_t session, bool time)
{
	const struct progress_session *s = &t->p->sessions.at[session];
	struct table *table = &t->table;
	char day[16];

	buffer_pad(&table->text, ' ', PROGRESS_DEEPER - PROGRESS_INDENT);
	table_puts(table, which);
	buffer_puts(&table->text, date_format(s->day, day));
	if (time && s->time != TIME_NONE) {
		buffer_putc(&table->text, ' ');
		summary_time(&table->text, s->time);
	}
	table_next(table);
	add_since_surgery(&table->text, s);
	table_next(table);
}

void
progress_table_this(struct progress_table *t, bool several, uint32_t rater,
    uint32_t session, bool time)
{
	if (several && rater != 0)
		buffer_printf(&t->line, "this, by %s",
		    rater == UNKNOWN_TEXT ? "an unreadable rater"
					  : progress_text(t->p, rater));
	else
		buffer_puts(&t->line, "this");
	buffer_putc(&t->line, '\0');
	progress_table_begin(t, t->line.data, session, time);
	t->line.len = 0;
}

static void
add_value(struct progress_table *t, const struct progress_point *at)
{
	progress_value_words(&t->table.text, t->p, at);
	if (progress_is_marked(at))
		buffer_puts(&t->table.text, PROGRESS_WARNED);
	table_next(&t->table);
}

/* An earlier figure and the change from it to TO. */
static void
add_earlier(struct progress_table *t, const char *which, uint32_t from,
    uint32_t to, bool time, struct progress_change *change)
{
	const struct progress_series *series = progress_series_of(t->p, to);
	struct table *table = &t->table;

	progress_change(t->p, from, to, change);
	progress_table_begin(t, which, t->p->points.at[from].session, time);
	add_value(t, &t->p->points.at[from]);
	if (change->by.n > 0)
		progress_signed_words(&table->text, series, change->by);
	else
		buffer_puts(&table->text, progress_level_word(change->levels));
	table_next(table);
	if (change->error.known) {
		progress_source_words(&t->line, change);
		progress_error_words(&table->text, series, &change->error);
		buffer_printf(&table->text, " [%u]",
		    (unsigned)intern_id(
			&t->sources, t->line.data, t->line.len));
		t->line.len = 0;
	}
	table_next(table);
	if (change->by.n > 0)
		buffer_puts(&table->text, progress_beyond_word(change->beyond));
	table_row(table);
}

/* --- the lines below ------------------------------------------------------ */

static void
add_changed(struct progress_table *t, const char *since, uint32_t from,
    uint32_t to, const struct progress_change *change)
{
	size_t before;

	buffer_printf(&t->line, "since %s: ", since);
	before = t->line.len;
	progress_changed_words(&t->line, t->p, from, to, change);
	if (t->line.len > before)
		progress_table_across(t, PROGRESS_DEEPER);
	t->line.len = 0;
}

static void
add_why(struct progress_table *t, const struct progress_change *a,
    const struct progress_change *b)
{
	const struct progress_change *const both[] = {a, b};

	for (int i = 0; i < 2; i++) {
		if (both[i]->by.n == 0 || both[i]->why == PROGRESS_NO_DOUBT ||
		    (i > 0 && a->why == b->why))
			continue;
		buffer_printf(
		    &t->line, "unknown: %s", progress_why_words(both[i]->why));
		progress_table_across(t, PROGRESS_DEEPER);
	}
}

/* No verdict: the day of the figure, and whether that of the goal is over. */
static void
add_goal(
    struct progress_table *t, uint32_t point, const struct progress_goal *goal)
{
	const struct progress_series *series = progress_series_of(t->p, point);

	buffer_puts(&t->line, "goal ");
	progress_goal_words(&t->line, series, goal);
	buffer_puts(&t->line, ": ");
	progress_left_words(&t->line, t->p, point, goal);
	buffer_puts(&t->line, " (session of ");
	progress_date_words(&t->line, t->p, &t->p->points.at[point]);
	buffer_putc(&t->line, ')');
	if (goal->by != DATE_NONE && goal->by < t->how->today)
		buffer_puts(&t->line, "; the goal's date has passed");
}

void
progress_table_goals(struct progress_table *t,
    const struct progress_series *series, uint32_t point, size_t indent,
    void (*end)(struct progress_table *t, size_t indent))
{
	const struct progress_goal *goals[GOALS];
	size_t n;

	if (!series->newest)
		return;
	n = progress_goals(t->p, point, goals, GOALS);
	for (size_t i = 0; i < n && i < GOALS; i++) {
		add_goal(t, point, goals[i]);
		end(t, indent);
	}
	if (n > GOALS) {
		buffer_puts(&t->line, "and further goals: see the note");
		end(t, indent);
	}
}

/* Until when is as the note has it; today may be later. */
void
progress_table_precautions(struct progress_table *t,
    const struct progress_series *series, size_t indent,
    void (*end)(struct progress_table *t, size_t indent))
{
	const struct progress_precaution *found[PRECAUTIONS];
	uint32_t last = progress_last_session(t->p, series);
	bool more;
	size_t n =
	    progress_precautions(t->p, last, series, found, PRECAUTIONS, &more);

	for (size_t i = 0; i < n; i++) {
		progress_in_force_words(&t->line, t->p, last, found[i]);
		if (found[i]->as.until != DATE_NONE &&
		    found[i]->as.until < t->how->today)
			buffer_puts(&t->line, "; its last day has passed");
		end(t, indent);
	}
	if (more) {
		buffer_puts(
		    &t->line, "there may be further precautions: see the note");
		end(t, indent);
	}
}

static void
add_number(struct buffer *out, int64_t hundredths, bool sign)
{
	char text[24];

	if (sign && hundredths > 0)
		buffer_putc(out, '+');
	buffer_add(out, text, number_text(hundredths, text));
}

/* Figures on one line leave no scatter, which is not to say no doubt. */
static void
add_interval(struct buffer *out, const struct progress_series *series,
    const struct trend *line)
{
	int64_t low = progress_slope(series, line->low);
	int64_t high = progress_slope(series, line->high);

	if (low == high) {
		buffer_puts(out, "all on one line, so no interval");
		return;
	}
	buffer_puts(out, "95 % interval ");
	add_number(out, low, false);
	buffer_puts(out, " to ");
	add_number(out, high, false);
}

/* It says what was: from the first to the last day of it. */
static void
add_trend(struct progress_table *t, uint32_t point)
{
	const struct progress_point *at = &t->p->points.at[point];
	const struct progress_series *series = progress_series_of(t->p, point);
	const struct progress_trend *trend = &t->p->trends.at[at->trend];

	buffer_puts(&t->line, "from ");
	progress_date_words(&t->line, t->p, &t->p->points.at[trend->from]);
	buffer_puts(&t->line, " to ");
	progress_date_words(&t->line, t->p, at);
	buffer_puts(&t->line, " it was ");
	add_number(&t->line, progress_slope(series, trend->line.slope), true);
	buffer_printf(&t->line, " %s a week (",
	    series->unit == VOCAB_UNIT_DEG
		? "degrees"
		: vocab_name(VOCAB_CLASS_UNIT, series->unit));
	add_interval(&t->line, series, &trend->line);
	buffer_printf(
	    &t->line, "; least squares over %zu sessions", trend->line.n);
	if (at->rater == 0)
		buffer_puts(&t->line, ", rater not named");
	if (at->instrument == NONE)
		buffer_puts(&t->line, ", instrument not named");
	buffer_putc(&t->line, ')');
	progress_table_across(t, PROGRESS_DEEPER);
}

static bool
is_scale(const struct progress_series *series)
{
	enum vocab_in in = vocab_measurements[series->measurement].in;

	return in == VOCAB_IN_DEG || in == VOCAB_IN_LENGTH;
}

void
progress_mention_words(struct buffer *out, const struct progress *p,
    const struct progress_point *point)
{
	progress_value_words(out, p, point);
	progress_warned_words(out, point);
	if (point->left_out)
		buffer_puts(out, " (doubtful, not compared: see check)");
	if (point->kind != KIND_LEVEL && point->words != 0)
		buffer_printf(out, " \"%s\"", progress_text(p, point->words));
}

static void
add_mentions(struct progress_table *t, const struct progress_series *series)
{
	for (uint32_t i = 0; i < series->points; i++) {
		const struct progress_point *point =
		    &t->p->points.at[series->point + i];

		if (point->usable)
			continue;
		progress_date_words(&t->line, t->p, point);
		buffer_puts(&t->line, ": ");
		progress_mention_words(&t->line, t->p, point);
		progress_table_across(t, PROGRESS_DEEPER);
	}
}

/* Those that are compared; of the others the lines above tell. */
static void
add_warned(struct progress_table *t, const struct progress_series *series)
{
	buffer_puts(&t->line, "check warns of ");
	if (progress_marked_words(&t->line, t->p, series))
		progress_table_across(t, PROGRESS_DEEPER);
	t->line.len = 0;
}

/* --- a motion ------------------------------------------------------------- */

void
progress_name_words(struct buffer *out, const struct progress *p,
    const struct progress_series *series)
{
	size_t before;

	progress_motion_words(out, series);
	buffer_puts(out, ", ");
	before = out->len;
	progress_condition_words(out, p, series, series->side);
	if (out->len == before)
		out->len -= 2;
}

static void
add_heading(struct progress_table *t, const struct progress_series *series)
{
	progress_name_words(&t->line, t->p, series);
	if (vocab_measurements[series->measurement].less_is_better)
		buffer_puts(&t->line, " (less is better)");
	if (t->how->sparkline) {
		buffer_puts(&t->line, "  ");
		progress_sparkline(&t->line, t->p, series);
	}
	progress_table_across(t, PROGRESS_INDENT);
	if (series->before != PROGRESS_NONE) {
		progress_before_words(&t->line, t->p, series);
		buffer_puts(&t->line, ": not compared");
		progress_table_across(t, PROGRESS_DEEPER);
	}
}

/* Do two of the sessions fall on one day? */
static bool
same_day(const struct progress *p, uint32_t a, uint32_t b, uint32_t c)
{
	int32_t x = progress_session_of(p, a)->day;
	int32_t y = progress_session_of(p, b)->day;
	int32_t z = progress_session_of(p, c)->day;

	return (a != b && x == y) || y == z || x == z;
}

/* One figure of the last session and what it is held against. */
static void
add_this(struct progress_table *t, const struct progress_series *series,
    uint32_t point)
{
	const struct progress_point *at = &t->p->points.at[point];
	struct progress_change first, previous;
	bool time = same_day(t->p, at->first, at->previous, point);

	add_earlier(t, "first", at->first, point, time, &first);
	previous = first;
	if (at->previous != at->first)
		add_earlier(
		    t, "previous", at->previous, point, time, &previous);
	progress_table_this(
	    t, series->last_count > 1, at->rater, at->session, time);
	add_value(t, at);
	table_row(&t->table);
	add_changed(t, "first", at->first, point, &first);
	if (at->previous != at->first)
		add_changed(t, "previous", at->previous, point, &previous);
	add_why(t, &first, &previous);
	progress_table_goals(
	    t, series, point, PROGRESS_DEEPER, progress_table_across);
	if (at->trend != PROGRESS_NONE)
		add_trend(t, point);
}

void
progress_table_series(
    struct progress_table *t, const struct progress_series *series)
{
	bool trend = false;

	add_heading(t, series);
	progress_table_precautions(
	    t, series, PROGRESS_DEEPER, progress_table_across);
	for (uint32_t i = 0; i < series->last_count; i++) {
		add_this(t, series, series->last + i);
		trend |=
		    t->p->points.at[series->last + i].trend != PROGRESS_NONE;
	}
	if (series->sessions >= 4 && !trend && is_scale(series)) {
		buffer_puts(&t->line,
		    "no slope: fewer than four sessions on three days by one "
		    "rater with one instrument");
		if (series->postures)
			buffer_puts(&t->line, " in one position");
		progress_table_across(t, PROGRESS_DEEPER);
	}
	add_mentions(t, series);
	add_warned(t, series);
}
