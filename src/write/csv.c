/*
 * The readings as CSV. Room for a row is made once, so that a cell is a few
 * stores, and cells that are the same all over a session are written once for
 * it: a million rows must not be slower than reading them.
 */
#include "write/csv.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "calc/value.h"
#include "text/mem.h"
#include "write/csv_columns.h"

static size_t
shared_room(const struct session *s)
{
	size_t texts = s->label.len + 3 * strlen(s->file ? s->file : "");

	if (s->person->said == SAID)
		texts += strlen(intern_text(s->pool, s->person->code));
	return CSV_BOUNDED + 2 * texts;
}

/* Writes the cells that all rows of the session share. */
static void
share_cells(struct csv_row *row)
{
	char *first = buffer_room(&row->shared, shared_room(row->s));
	char *p = first;
	struct csv_run *run = NULL;

	for (size_t i = 0; i < CSV_COLUMNS; i++) {
		if (csv_columns[i].of != CSV_OF_SESSION) {
			run = NULL;
			continue;
		}
		if (!run) {
			run = &row->runs[i];
			run->at = (uint32_t)(p - first);
		}
		p = csv_columns[i].cell(p, row);
		*p++ = ',';
		run->len = (uint32_t)(p - first) - run->at;
	}
	row->shared.len = (size_t)(p - first);
}

static void
know(struct csv_known *known, const struct session *s, uint32_t id)
{
	const char *text;

	if (known->id == id)
		return;
	known->id = id;
	known->cell.len = 0;
	text = id == UNKNOWN_TEXT ? "" : intern_text(s->pool, id);
	csv_text(&known->cell, text, strlen(text));
}

/* Bytes that are enough for the row of a reading, however it is quoted. */
static size_t
row_room(const struct csv_row *row)
{
	const struct reading *r = row->r;
	size_t texts =
	    row->setting.cell.len + row->posture.cell.len + row->rater.cell.len;

	for (uint32_t i = 0; i < r->texts; i++)
		texts += row->s->texts.at[r->first_text + i].text.len + 2;
	return CSV_BOUNDED + row->shared.len + 2 * texts +
	       (size_t)r->trials * CSV_TRIAL_ROOM +
	       (row->rules ? (size_t)RULE_COUNT * CSV_RULE_ROOM : 0);
}

static void
add_row(struct buffer *out, struct csv_row *row)
{
	char *first = buffer_room(out, row_room(row));

	out->len += (size_t)(csv_put_row(first, row) - first);
}

static struct mean
of_one(int32_t tenths)
{
	return (struct mean){tenths, tenths == NO_VALUE ? 0 : 1};
}

static void
add_trial(struct buffer *out, struct csv_row *row, const struct trial *trial)
{
	row->start = of_one(trial->start);
	row->end = of_one(trial->end);
	add_row(out, row);
}

static void
add_reading(struct buffer *out, struct csv_row *row)
{
	const struct session *s = row->s;
	const struct reading *r = row->r;

	know(&row->setting, s, r->setting);
	know(&row->posture, s, r->posture);
	know(&row->rater, s, r->rater);
	row->trial = NULL;
	if (r->trials == 0) {
		row->start = row->end = (struct mean){0, 0};
		add_row(out, row);
	} else if (row->by_trial) {
		for (uint32_t i = 0; i < r->trials; i++) {
			row->trial = &reading_trials(s, r)[i];
			add_trial(out, row, row->trial);
		}
	} else if (r->trials == 1) {
		add_trial(out, row, reading_trials(s, r));
	} else {
		row->start = mean_start(s, r);
		row->end = mean_end(s, r);
		add_row(out, row);
	}
}

/* The rules of each reading, or NULL where no reading has a finding. */
static uint64_t *
rules_by_reading(const struct session *s, const struct sink *sink)
{
	uint64_t *rules = NULL;

	for (size_t i = 0; i < sink->len; i++) {
		const struct finding *f = sink->at[i];

		if (f->reading < 0 || (size_t)f->reading >= s->readings.len ||
		    f->level == LEVEL_OFF)
			continue;
		if (!rules)
			rules = mem_zero(s->readings.len * sizeof(*rules));
		rules[f->reading] |= UINT64_C(1) << f->rule;
	}
	return rules;
}

void
csv_header(struct buffer *out, bool by_trial)
{
	for (size_t i = 0; i < CSV_COLUMNS; i++) {
		if (csv_columns[i].of == CSV_OF_TRIAL && !by_trial)
			continue;
		if (i > 0)
			buffer_putc(out, ',');
		buffer_puts(out, csv_columns[i].name);
	}
	buffer_puts(out, "\r\n");
}

void
csv_session(struct buffer *out, const struct session *s,
    const struct sink *sink, bool by_trial)
{
	struct csv_row row = {.s = s, .by_trial = by_trial};
	uint64_t *rules;

	if (s->readings.len == 0)
		return;
	memset(row.involved, CSV_NOT_ASKED, sizeof(row.involved));
	share_cells(&row);
	rules = rules_by_reading(s, sink);
	for (size_t i = 0; i < s->readings.len; i++) {
		row.r = &s->readings.at[i];
		row.rules = rules ? rules[i] : 0;
		add_reading(out, &row);
	}
	free(rules);
	buffer_free(&row.shared);
	buffer_free(&row.setting.cell);
	buffer_free(&row.posture.cell);
	buffer_free(&row.rater.cell);
}
