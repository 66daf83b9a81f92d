/*
 * The columns of the summary's rows: one list, each with its name and the
 * function that writes its bare value. CSV and JSON differ only in how they
 * quote it.
 */
#include <string.h>

#include "write/findings.h"
#include "write/summary_rows.h"
#include "write/summary_sides.h"

static const struct vocab_measurement *
measurement_of(const struct summary_row *row)
{
	if (row->line.c)
		return &vocab_measurements[row->line.c->measurement];
	return row->goal ? &vocab_measurements[row->goal->measurement] : NULL;
}

static void
add_text(struct buffer *out, const char *text)
{
	if (text)
		buffer_puts(out, text);
}

static void
add_yes_no(struct buffer *out, bool yes)
{
	buffer_puts(out, yes ? "yes" : "no");
}

/* --- of the session ------------------------------------------------------- */

static void
cell_row(struct buffer *out, const struct summary_row *row)
{
	static const char *const words[] = {[SUMMARY_MEASURED] = "measured",
	    [SUMMARY_GOAL] = "goal",
	    [SUMMARY_PRECAUTION] = "precaution",
	    [SUMMARY_UNAVAILABLE] = "cannot-be-measured",
	    [SUMMARY_REMARK] = "remark",
	    [SUMMARY_FINDING] = "finding",
	    [SUMMARY_ACCEPTED] = "accepted-finding"};

	buffer_puts(out, words[row->kind]);
}

static void
cell_session(struct buffer *out, const struct summary_row *row)
{
	char date[16];

	if (row->sum->s->said == SAID)
		buffer_puts(out, date_format(row->sum->s->day, date));
}

static void
cell_time(struct buffer *out, const struct summary_row *row)
{
	const struct session *s = row->sum->s;

	if (s->said == SAID && s->time != TIME_NONE)
		summary_time(out, s->time);
}

static void
cell_label(struct buffer *out, const struct summary_row *row)
{
	const struct session *s = row->sum->s;

	if (s->label.len > 0)
		buffer_add(out, session_text(s, s->label), s->label.len);
}

static void
cell_subject(struct buffer *out, const struct summary_row *row)
{
	add_text(out, summary_subject(row->sum->s));
}

static void
cell_age(struct buffer *out, const struct summary_row *row)
{
	if (row->sum->person.age >= 0)
		buffer_uint(out, (uint64_t)row->sum->person.age);
}

static void
cell_sex(struct buffer *out, const struct summary_row *row)
{
	summary_word(out, VOCAB_CLASS_SEX, row->sum->person.sex);
}

static void
cell_involved(struct buffer *out, const struct summary_row *row)
{
	summary_involved(out, row->sum->s);
}

static void
cell_surgery(struct buffer *out, const struct summary_row *row)
{
	int32_t days;

	if (summary_days_since_surgery(row->sum->s, &days))
		buffer_uint(out, (uint64_t)days);
}

static void
cell_file(struct buffer *out, const struct summary_row *row)
{
	const char *file = row->sum->s->file;

	if (file)
		findings_safe(out, file, strlen(file));
}

/* --- of the line ---------------------------------------------------------- */

static void
cell_joint(struct buffer *out, const struct summary_row *row)
{
	if (measurement_of(row))
		buffer_puts(out, measurement_of(row)->joint_name);
}

static void
cell_motion(struct buffer *out, const struct summary_row *row)
{
	if (measurement_of(row))
		buffer_puts(out, measurement_of(row)->motion_name);
}

static void
cell_setting(struct buffer *out, const struct summary_row *row)
{
	if (row->line.c)
		buffer_puts(
		    out, intern_text(row->sum->s->pool, row->line.c->setting));
}

static void
cell_repetitions(struct buffer *out, const struct summary_row *row)
{
	if (row->line.c && row->line.c->reps != NO_VALUE)
		buffer_uint(out, (uint64_t)row->line.c->reps);
}

static void
cell_mode(struct buffer *out, const struct summary_row *row)
{
	if (row->line.c)
		buffer_puts(out, summary_mode_name(row->line.mode));
	else if (row->goal)
		buffer_puts(out, summary_mode_name(row->goal->mode));
}

static void
cell_difference(struct buffer *out, const struct summary_row *row)
{
	summary_number(out, row->line.difference);
}

static void
cell_difference_of(struct buffer *out, const struct summary_row *row)
{
	const struct comparison *c = row->line.c;

	if (row->line.difference.n == 0)
		return;
	buffer_puts(out, c->from == VOCAB_SIDE_RIGHT ? "right less left"
						     : "left less right");
}

static void
cell_difference_unit(struct buffer *out, const struct summary_row *row)
{
	if (row->line.difference.n > 0)
		summary_word(out, VOCAB_CLASS_UNIT, row->line.unit);
}

static void
cell_modes_right(struct buffer *out, const struct summary_row *row)
{
	summary_number(out, row->modes[VOCAB_SIDE_RIGHT]);
}

static void
cell_modes_left(struct buffer *out, const struct summary_row *row)
{
	summary_number(out, row->modes[VOCAB_SIDE_LEFT]);
}

static void
cell_modes(struct buffer *out, const struct summary_row *row)
{
	summary_number(out, row->modes[COMPARE_NO_SIDE]);
}

static void
cell_modes_unit(struct buffer *out, const struct summary_row *row)
{
	if (row->has_modes)
		summary_word(out, VOCAB_CLASS_UNIT, row->modes_unit);
}

static void
cell_less(struct buffer *out, const struct summary_row *row)
{
	if (measurement_of(row))
		add_yes_no(out, measurement_of(row)->less_is_better);
}

static void
cell_usual_low(struct buffer *out, const struct summary_row *row)
{
	if (row->line.has_usual)
		summary_tenths(out, row->line.usual.low);
}

/* Of "at least 170" nothing is known but the low end. */
static void
cell_usual_high(struct buffer *out, const struct summary_row *row)
{
	if (row->line.has_usual && !row->line.usual.at_least)
		summary_tenths(out, row->line.usual.high);
}

static void
cell_usual_unit(struct buffer *out, const struct summary_row *row)
{
	if (row->line.has_usual)
		buffer_puts(out, summary_usual_unit(row->line.c->measurement));
}

static void
cell_usual_source(struct buffer *out, const struct summary_row *row)
{
	if (row->line.has_usual)
		buffer_puts(out, row->line.usual.source);
}

static void
cell_usual_people(struct buffer *out, const struct summary_row *row)
{
	if (row->line.has_usual)
		buffer_puts(out, row->line.usual.population);
}

static void
cell_usual_verified(struct buffer *out, const struct summary_row *row)
{
	if (row->line.has_usual)
		buffer_puts(out, row->line.usual.verified);
}

/* --- of a goal, of the rest ----------------------------------------------- */

static void
cell_goal_side(struct buffer *out, const struct summary_row *row)
{
	if (row->goal)
		summary_word(out, VOCAB_CLASS_SIDE, row->goal_side);
}

static void
cell_goal(struct buffer *out, const struct summary_row *row)
{
	if (!row->goal)
		return;
	if (measurement_of(row)->in == VOCAB_IN_LEVEL)
		summary_word(out, VOCAB_CLASS_LEVEL, row->goal->end);
	else
		summary_tenths(out, row->goal->end);
}

static void
cell_goal_unit(struct buffer *out, const struct summary_row *row)
{
	if (row->goal)
		summary_word(out, VOCAB_CLASS_UNIT, row->goal->unit);
}

static void
cell_goal_by(struct buffer *out, const struct summary_row *row)
{
	char date[16];

	if (row->goal && row->goal->by != DATE_NONE)
		buffer_puts(out, date_format(row->goal->by, date));
}

static void
cell_to_go(struct buffer *out, const struct summary_row *row)
{
	if (row->goal)
		summary_number(out, row->to_go);
}

static void
cell_line(struct buffer *out, const struct summary_row *row)
{
	if (row->at_line > 0)
		buffer_uint(out, row->at_line);
}

static void
cell_level(struct buffer *out, const struct summary_row *row)
{
	if (row->finding)
		buffer_puts(out, level_name(row->finding->level));
}

static void
cell_rule(struct buffer *out, const struct summary_row *row)
{
	if (row->finding)
		buffer_puts(out, rule_table[row->finding->rule].name);
}

static void
cell_text(struct buffer *out, const struct summary_row *row)
{
	if (row->text && row->text->len > 0)
		buffer_add(out, row->text->data, row->text->len);
}

static void
cell_reason(struct buffer *out, const struct summary_row *row)
{
	if (row->reason.len > 0)
		findings_safe(out, session_text(row->sum->s, row->reason),
		    row->reason.len);
}

/* --- the table ------------------------------------------------------------ */

#define TEXT(name, cell) name, false, cell, NULL, 0
#define NUMBER(name, cell) name, true, cell, NULL, 0

/* One column for the right, one for the left, one for no side. */
#define SIDE(number, name, cell, side) name, number, NULL, cell, side
#define SIDES(number, after, cell)                                             \
	{SIDE(number, "right" after, cell, VOCAB_SIDE_RIGHT)},                 \
	    {SIDE(number, "left" after, cell, VOCAB_SIDE_LEFT)},               \
	{                                                                      \
		SIDE(number, "midline" after, cell, COMPARE_NO_SIDE)           \
	}

const struct summary_column summary_columns[] = {
    {TEXT("row", cell_row)},
    {TEXT("session", cell_session)},
    {TEXT("time", cell_time)},
    {TEXT("label", cell_label)},
    {TEXT("subject", cell_subject)},
    {NUMBER("age", cell_age)},
    {TEXT("sex", cell_sex)},
    {TEXT("involved", cell_involved)},
    {NUMBER("days_since_surgery", cell_surgery)},
    {TEXT("joint", cell_joint)},
    {TEXT("motion", cell_motion)},
    {TEXT("setting", cell_setting)},
    {NUMBER("repetitions", cell_repetitions)},
    {TEXT("mode", cell_mode)},
    SIDES(false, "", summary_value),
    SIDES(true, "_start", summary_side_start),
    SIDES(true, "_end", summary_side_end),
    SIDES(false, "_unit", summary_side_unit),
    SIDES(true, "_trials", summary_side_trials),
    SIDES(false, "_doubtful", summary_side_doubtful),
    {NUMBER("difference", cell_difference)},
    {TEXT("difference_of", cell_difference_of)},
    {NUMBER("right_passive_less_active", cell_modes_right)},
    {NUMBER("left_passive_less_active", cell_modes_left)},
    {NUMBER("midline_passive_less_active", cell_modes)},
    SIDES(false, "_end_feel", summary_side_end_feel),
    SIDES(true, "_pain", summary_side_pain),
    SIDES(true, "_pain_onset", summary_side_pain_onset),
    SIDES(false, "_position", summary_side_position),
    SIDES(false, "_rater", summary_side_rater),
    SIDES(false, "_instrument", summary_side_instrument),
    SIDES(false, "_remark", summary_side_texts),
    SIDES(true, "_line", summary_side_line),
    {NUMBER("usual_low", cell_usual_low)},
    {NUMBER("usual_high", cell_usual_high)},
    {TEXT("usual_unit", cell_usual_unit)},
    {TEXT("usual_source", cell_usual_source)},
    {TEXT("usual_people", cell_usual_people)},
    {TEXT("usual_verified", cell_usual_verified)},
    {TEXT("less_is_better", cell_less)},
    {TEXT("goal_side", cell_goal_side)},
    {TEXT("goal", cell_goal)},
    {TEXT("goal_unit", cell_goal_unit)},
    {TEXT("goal_by", cell_goal_by)},
    {NUMBER("to_go", cell_to_go)},
    {TEXT("level", cell_level)},
    {TEXT("rule", cell_rule)},
    {TEXT("text", cell_text)},
    {TEXT("file", cell_file)},
    {NUMBER("line", cell_line)},
    {TEXT("reason", cell_reason)},
    {TEXT("difference_unit", cell_difference_unit)},
    {TEXT("passive_less_active_unit", cell_modes_unit)},
};

const size_t summary_column_count =
    sizeof(summary_columns) / sizeof(*summary_columns);
