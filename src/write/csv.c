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

_Static_assert(RULE_COUNT <= 64, "the rules of a reading are a set of bits");

/* What a row is made of: cells, and runs of text that the session shares. */
struct step {
	csv_cell *cell; /* NULL: a run */
	uint32_t at;	/* of the run, in the session's text */
	uint32_t len;
};

struct plan {
	struct step steps[CSV_COLUMNS];
	size_t n;
	struct buffer shared;
};

static size_t
shared_room(const struct session *s)
{
	size_t texts = s->label.len + 3 * strlen(s->file ? s->file : "");

	if (s->person->said == SAID)
		texts += strlen(intern_text(s->pool, s->person->code));
	return CSV_BOUNDED + 2 * texts;
}

static void
plan_make(struct plan *plan, struct csv_row *row, bool by_trial)
{
	char *first = buffer_room(&plan->shared, shared_room(row->s));
	char *p = first;

	for (size_t i = 0; i < CSV_COLUMNS; i++) {
		struct step *step = &plan->steps[plan->n];

		if (csv_columns[i].of == CSV_OF_TRIAL && !by_trial)
			continue;
		if (csv_columns[i].of != CSV_OF_SESSION) {
			*step = (struct step){csv_columns[i].cell, 0, 0};
			plan->n++;
			continue;
		}
		if (i == 0 || csv_columns[i - 1].of != CSV_OF_SESSION)
			*step = (struct step){NULL, (uint32_t)(p - first), 0};
		else
			step--;
		p = csv_columns[i].cell(p, row);
		*p++ = ',';
		step->len = (uint32_t)(p - first) - step->at;
		plan->n = (size_t)(step - plan->steps) + 1;
	}
	plan->shared.len = (size_t)(p - first);
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
row_room(const struct csv_row *row, const struct plan *plan)
{
	const struct reading *r = row->r;
	size_t texts =
	    row->setting.cell.len + row->posture.cell.len + row->rater.cell.len;

	for (uint32_t i = 0; i < r->texts; i++)
		texts += row->s->texts.at[r->first_text + i].text.len + 2;
	return CSV_BOUNDED + plan->shared.len + 2 * texts +
	       (size_t)r->trials * CSV_TRIAL_ROOM +
	       (row->rules ? (size_t)RULE_COUNT * CSV_RULE_ROOM : 0);
}

static void
add_row(struct buffer *out, struct csv_row *row, const struct plan *plan)
{
	char *first = buffer_room(out, row_room(row, plan)), *p = first;

	for (size_t i = 0; i < plan->n; i++) {
		const struct step *step = &plan->steps[i];

		if (!step->cell) {
			memcpy(p, plan->shared.data + step->at, step->len);
			p += step->len;
			continue;
		}
		p = step->cell(p, row);
		*p++ = ',';
	}
	p[-1] = '\r';
	*p++ = '\n';
	out->len += (size_t)(p - first);
}

static struct mean
of_one(int32_t tenths)
{
	return (struct mean){tenths, tenths == NO_VALUE ? 0 : 1};
}

static void
add_trial(struct buffer *out, struct csv_row *row, const struct plan *plan,
    const struct trial *trial)
{
	row->start = of_one(trial->start);
	row->end = of_one(trial->end);
	add_row(out, row, plan);
}

static void
add_reading(struct buffer *out, struct csv_row *row, const struct plan *plan,
    bool by_trial)
{
	const struct session *s = row->s;
	const struct reading *r = row->r;

	know(&row->setting, s, r->setting);
	know(&row->posture, s, r->posture);
	know(&row->rater, s, r->rater);
	row->trial = NULL;
	if (r->trials == 0) {
		row->start = row->end = (struct mean){0, 0};
		add_row(out, row, plan);
	} else if (by_trial) {
		for (uint32_t i = 0; i < r->trials; i++) {
			row->trial = &reading_trials(s, r)[i];
			add_trial(out, row, plan, row->trial);
		}
	} else if (r->trials == 1) {
		add_trial(out, row, plan, reading_trials(s, r));
	} else {
		row->start = mean_start(s, r);
		row->end = mean_end(s, r);
		add_row(out, row, plan);
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
	struct csv_row row = {.s = s};
	struct plan plan = {.n = 0};
	uint64_t *rules;

	if (s->readings.len == 0)
		return;
	memset(row.involved, CSV_NOT_ASKED, sizeof(row.involved));
	plan_make(&plan, &row, by_trial);
	rules = rules_by_reading(s, sink);
	for (size_t i = 0; i < s->readings.len; i++) {
		row.r = &s->readings.at[i];
		row.rules = rules ? rules[i] : 0;
		add_reading(out, &row, &plan, by_trial);
	}
	free(rules);
	buffer_free(&plan.shared);
	buffer_free(&row.setting.cell);
	buffer_free(&row.posture.cell);
	buffer_free(&row.rater.cell);
}
