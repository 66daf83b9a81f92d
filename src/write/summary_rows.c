/*
 * The summary as rows: one for what was measured of a motion in one mode, both
 * sides beside each other, one for each side's goal, and one for each
 * precaution in force, remark and open finding. As CSV, or as JSON, one object
 * a row; the columns are the same.
 */
#include "write/summary_rows.h"

#include "write/accepted.h"
#include "write/csv.h"
#include "write/findings.h"
#include "write/json.h"

/* The bare value of a column goes to VALUE, which is emptied first. */
static void
fill(struct buffer *value, const struct summary_column *column,
    const struct summary_row *row)
{
	value->len = 0;
	if (column->cell) {
		column->cell(value, row);
		return;
	}
	if (row->line.c && row->line.reading[column->side])
		column->of_side(
		    value, row->sum->s, row->line.reading[column->side]);
}

static void
add_csv(struct buffer *out, const struct summary_row *row)
{
	struct buffer *value = &row->sum->scratch;

	for (size_t i = 0; i < summary_column_count; i++) {
		fill(value, &summary_columns[i], row);
		if (i > 0)
			buffer_putc(out, ',');
		if (summary_columns[i].number)
			buffer_add(out, value->data, value->len);
		else if (summary_columns[i].of_side == summary_value)
			csv_value(out, value->data, value->len);
		else
			csv_text(out, value->data, value->len);
	}
	buffer_puts(out, "\r\n");
}

/* What has no value is left out of the object. */
static void
add_json(struct buffer *out, const struct summary_row *row)
{
	struct buffer *value = &row->sum->scratch;

	buffer_putc(out, '{');
	for (size_t i = 0; i < summary_column_count; i++) {
		fill(value, &summary_columns[i], row);
		if (value->len == 0)
			continue;
		json_name(out, summary_columns[i].name);
		if (summary_columns[i].number)
			buffer_add(out, value->data, value->len);
		else
			json_string(out, value->data, value->len);
	}
	buffer_puts(out, "}\n");
}

static void
add_row(struct buffer *out, const struct summary_row *row)
{
	if (row->sum->options->format == SUMMARY_CSV)
		add_csv(out, row);
	else
		add_json(out, row);
}

/* Passive less active of each side, all in one unit, which has one column. */
static void
fill_modes(struct summary_row *row, const struct comparison *c)
{
	int units[COMPARE_SIDES];

	for (int side = 0; side < COMPARE_SIDES; side++) {
		row->modes[side] = comparison_modes(row->sum->s, c, side);
		if (row->modes[side].n == 0)
			continue;
		units[side] = summary_modes_unit(row->sum, c, side);
		row->modes_unit =
		    row->has_modes ? unit_of_both(row->modes_unit, units[side])
				   : units[side];
		row->has_modes = true;
	}
	for (int side = 0; side < COMPARE_SIDES; side++)
		if (row->modes[side].n > 0)
			row->modes[side] = mean_in_unit(
			    row->modes[side], units[side], row->modes_unit);
}

static void
add_measured(struct summary *sum, struct buffer *out)
{
	for (size_t i = 0; i < sum->comparisons.len; i++) {
		const struct comparison *c = &sum->comparisons.at[i];

		for (int mode = 0; mode < COMPARE_MODES; mode++) {
			struct summary_row row = {
			    .sum = sum, .kind = SUMMARY_MEASURED};

			if (!comparison_shows(sum->s, c, mode))
				continue;
			summary_line_fill(sum, c, mode, &row.line);
			if (mode == VOCAB_MODE_PASSIVE)
				fill_modes(&row, c);
			add_row(out, &row);
		}
	}
}

/* The reading that a goal is held against stands in the columns of its side. */
static void
add_goal(
    struct summary *sum, struct buffer *out, const struct goal *goal, int side)
{
	struct summary_goal found[SUMMARY_GOAL_MATCHES];
	size_t n = summary_goal_matches(sum, goal, side, found);
	struct summary_row row = {.sum = sum,
	    .kind = SUMMARY_GOAL,
	    .goal = goal,
	    .goal_side = side,
	    .at_line = goal->place.line};

	for (size_t i = 0; i < n; i++) {
		row.line.s = sum->s;
		row.line.c = found[i].c;
		row.line.mode =
		    goal->mode < 0 ? found[i].reading->mode : goal->mode;
		if (row.line.mode < 0)
			row.line.mode = COMPARE_NO_MODE;
		row.line.reading[side < 0 ? COMPARE_NO_SIDE : side] =
		    found[i].reading;
		row.to_go = found[i].to_go;
		add_row(out, &row);
	}
	if (n == 0)
		add_row(out, &row);
}

static void
add_text_row(struct summary *sum, struct buffer *out,
    enum summary_row_kind kind, uint32_t line, struct buffer *text)
{
	struct summary_row row = {
	    .sum = sum, .kind = kind, .at_line = line, .text = text};

	add_row(out, &row);
	text->len = 0;
}

static void
add_findings(struct summary *sum, struct buffer *out, struct buffer *text)
{
	size_t at = 0;

	for (size_t i = 0; i < sum->sink->len; i++) {
		const struct finding *f = sum->sink->at[i];
		struct summary_row row = {.sum = sum,
		    .kind = SUMMARY_FINDING,
		    .finding = f,
		    .at_line = f->line ? f->line : 1,
		    .text = text};

		if (findings_told(sum->sink, i))
			continue;
		if (accepted_shown(f)) {
			row.kind = SUMMARY_ACCEPTED;
			row.reason = accepted_reason(sum->s, f, &at);
		} else if (!findings_shown(f)) {
			continue;
		}
		findings_message(text, f);
		add_row(out, &row);
		text->len = 0;
	}
}

static void
add_headers(struct summary *sum, struct buffer *out, const struct headers *h,
    struct buffer *text)
{
	for (size_t i = 0; i < h->goals.len; i++) {
		const struct goal *goal = &h->goals.at[i];

		for (int side = 0; side < VOCAB_SIDE_COUNT; side++)
			if (goal->side[side])
				add_goal(sum, out, goal, side);
		if (!goal->side[0] && !goal->side[1])
			add_goal(sum, out, goal, NONE);
	}
	for (size_t i = 0; i < h->precautions.len; i++) {
		const struct precaution *p = &h->precautions.at[i];

		if (!precaution_holds(p, sum->s, true))
			continue;
		summary_precaution(text, p);
		add_text_row(sum, out, SUMMARY_PRECAUTION, p->place.line, text);
	}
	for (size_t i = 0; i < h->opposites.len; i++) {
		const struct opposite *o = &h->opposites.at[i];

		summary_joints(text, &o->joints);
		if (o->reason)
			buffer_printf(text, " \"%s\"", o->reason);
		add_text_row(
		    sum, out, SUMMARY_UNAVAILABLE, o->place.line, text);
	}
	for (size_t i = 0; i < h->remarks.len; i++) {
		buffer_puts(text, h->remarks.at[i].text);
		add_text_row(sum, out, SUMMARY_REMARK,
		    h->remarks.at[i].place.line, text);
	}
}

void
summary_rows_header(struct buffer *out)
{
	for (size_t i = 0; i < summary_column_count; i++) {
		if (i > 0)
			buffer_putc(out, ',');
		buffer_puts(out, summary_columns[i].name);
	}
	buffer_puts(out, "\r\n");
}

void
summary_rows_session(struct summary *sum, struct buffer *out)
{
	struct buffer text = {0};

	add_measured(sum, out);
	for (int i = 0; i < 2; i++)
		add_headers(sum, out, SUMMARY_HEADERS(sum->s, i), &text);
	add_findings(sum, out, &text);
	buffer_free(&text);
}
