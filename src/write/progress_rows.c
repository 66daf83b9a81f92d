/*
 * Progress as rows: one for each reading of a series, held against the first
 * and the previous session, whatever they are. As CSV, or as JSON, one object
 * a row.
 */
#include "write/csv.h"
#include "write/json.h"
#include "write/progress_columns.h"
#include "write/progress_text.h"
#include "write/progress_words.h"

/* The bare value of a column goes to VALUE, which is emptied first. */
static void
fill(struct buffer *value, const struct progress_column *column,
    const struct progress_row *row)
{
	value->len = 0;
	if (column->own)
		column->own(value, row);
	else if (row->at->first == PROGRESS_NONE)
		return;
	else if (column->first)
		column->first(value, row, row->at->first, &row->first);
	else
		column->previous(value, row, row->at->previous, &row->previous);
}

static void
add_csv(
    struct buffer *out, const struct progress_row *row, struct buffer *value)
{
	for (size_t i = 0; i < progress_column_count; i++) {
		fill(value, &progress_columns[i], row);
		if (i > 0)
			buffer_putc(out, ',');
		if (progress_columns[i].number)
			buffer_add(out, value->data, value->len);
		else if (progress_column_is_value(&progress_columns[i]))
			csv_value(out, value->data, value->len);
		else
			csv_text(out, value->data, value->len);
	}
	buffer_puts(out, "\r\n");
}

/* What has no value is left out of the object. */
static void
add_json(
    struct buffer *out, const struct progress_row *row, struct buffer *value)
{
	buffer_putc(out, '{');
	for (size_t i = 0; i < progress_column_count; i++) {
		fill(value, &progress_columns[i], row);
		if (value->len == 0)
			continue;
		json_name(out, progress_columns[i].name);
		if (progress_columns[i].number)
			buffer_add(out, value->data, value->len);
		else
			json_string(out, value->data, value->len);
	}
	buffer_puts(out, "}\n");
}

void
progress_rows_header(struct buffer *out)
{
	for (size_t i = 0; i < progress_column_count; i++) {
		if (i > 0)
			buffer_putc(out, ',');
		buffer_puts(out, progress_columns[i].name);
	}
	buffer_puts(out, "\r\n");
}

static void
row_fill(struct progress_row *row, const struct progress *p, uint32_t point)
{
	row->p = p;
	row->point = point;
	row->at = &p->points.at[point];
	row->series = progress_series_of(p, point);
	row->session = progress_session_of(p, point);
	row->goal = NULL;
	progress_goals(p, point, &row->goal, 1);
	if (row->at->first == PROGRESS_NONE)
		return;
	progress_change(p, row->at->first, point, &row->first);
	progress_change(p, row->at->previous, point, &row->previous);
}

void
progress_rows_person(struct buffer *out, const struct progress *p,
    size_t person, const struct progress_style *how)
{
	const struct progress_person *who = &p->persons.at[person];
	struct buffer value = {0};
	struct progress_row row;

	for (uint32_t i = 0; i < who->series_count; i++) {
		const struct progress_series *series =
		    &p->series.at[who->series + i];

		for (uint32_t k = 0; k < series->points; k++) {
			row_fill(&row, p, series->point + k);
			if (how->format == PROGRESS_CSV)
				add_csv(out, &row, &value);
			else
				add_json(out, &row, &value);
		}
	}
	buffer_free(&value);
}
