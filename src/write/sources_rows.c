/*
 * Walks the reference tables for the figures of one source. A figure of a whole
 * limb stands with each of its motions in those tables; here it comes once.
 */
#include "write/sources_rows.h"

#include <stdlib.h>
#include <string.h>

#include "write/csv.h"
#include "write/json.h"
#include "write/summary_internal.h"

const char *const sources_cell_names[SOURCES_CELLS] = {"source", "table",
    "joint", "motion", "setting", "mode", "people", "value", "unit", "spread",
    "what", "where_read", "verified"};

enum { USUAL, TASKS, ERRORS, END_FEELS };
const char *const sources_tables[SOURCES_TABLES] = {"usual values",
    "what tasks take", "error of measuring", "normal end feels"};

struct walk {
	const char *key;
	struct sources_row row;
	sources_row_fn *each;
	void *arg;
};

static void
set(struct walk *w, enum sources_cell cell, const char *text)
{
	w->row.cell[cell].len = 0;
	if (text)
		buffer_puts(&w->row.cell[cell], text);
}

static void
begin(struct walk *w, int table, int measurement)
{
	for (int i = 0; i < SOURCES_CELLS; i++)
		w->row.cell[i].len = 0;
	set(w, SOURCES_SOURCE, w->key);
	set(w, SOURCES_TABLE, sources_tables[table]);
	set(w, SOURCES_JOINT, vocab_measurements[measurement].joint_name);
	set(w, SOURCES_MOTION, vocab_measurements[measurement].motion_name);
	set(w, SOURCES_UNIT, summary_usual_unit(measurement));
}

static void
set_mode(struct walk *w, int mode)
{
	if (mode >= 0)
		set(w, SOURCES_MODE, vocab_name(VOCAB_CLASS_MODE, mode));
}

static void
set_value(struct walk *w, const char *before, int32_t low, int32_t high)
{
	struct buffer *value = &w->row.cell[SOURCES_VALUE];

	buffer_puts(value, before);
	summary_number(value, (struct mean){low, 1});
	if (high == low)
		return;
	buffer_puts(value, low < 0 ? " to " : "-");
	summary_number(value, (struct mean){high, 1});
}

static void
usual_rows(struct walk *w, int measurement)
{
	size_t n;
	const struct ref_usual_row *rows = ref_usual_rows(measurement, &n);

	for (size_t i = 0; i < n; i++) {
		if (strcmp(rows[i].source, w->key) != 0)
			continue;
		begin(w, USUAL, measurement);
		set(w, SOURCES_SETTING, rows[i].setting);
		set_mode(w, rows[i].mode);
		set(w, SOURCES_PEOPLE, rows[i].population);
		set_value(w, rows[i].at_least ? "at least " : "", rows[i].low,
		    rows[i].high);
		set(w, SOURCES_SPREAD, rows[i].spread);
		set(w, SOURCES_WHERE_READ, rows[i].where_read);
		set(w, SOURCES_VERIFIED, rows[i].verified);
		w->each(w->arg, &w->row);
	}
}

static void
task_rows(struct walk *w, int measurement)
{
	static const char *const before[] = {[REF_ARC] = "",
	    [REF_REACH] = "",
	    [REF_BELOW] = "under ",
	    [REF_POSTURE] = "held at "};
	size_t n;
	const struct ref_functional *rows = ref_functional(measurement, &n);

	for (size_t i = 0; i < n; i++) {
		const struct ref_functional *f = &rows[i];

		if (strcmp(f->source, w->key) != 0)
			continue;
		begin(w, TASKS, measurement);
		set(w, SOURCES_SETTING, f->setting);
		set_value(w, before[f->kind],
		    f->kind == REF_BELOW ? f->high : f->low, f->high);
		set(w, SOURCES_SPREAD, f->spread);
		set(w, SOURCES_WHAT, f->task);
		set(w, SOURCES_WHERE_READ, f->where_read);
		set(w, SOURCES_VERIFIED, f->verified);
		w->each(w->arg, &w->row);
	}
}

/* --- errors of measuring -------------------------------------------------- */

static int
region_of(int measurement)
{
	int joint = vocab_measurements[measurement].joint;

	return joint >= 0 ? (int)vocab_joints[joint].region : NONE;
}

/* Is MEASUREMENT the first of those that a figure of WIDTH holds for? */
static bool
is_first_of(int measurement, enum ref_width width)
{
	for (int i = 0; i < measurement && width != REF_OF_JOINT; i++)
		if (vocab_measurements[i].in ==
			vocab_measurements[measurement].in &&
		    (width == REF_OF_ALL ||
			region_of(i) == region_of(measurement)))
			return false;
	return true;
}

static const char *
limb_name(int measurement)
{
	return region_of(measurement) == VOCAB_REGION_LOWER ? "lower limb"
							    : "upper limb";
}

static void
set_error(struct walk *w, int measurement, const struct ref_error_row *e)
{
	struct buffer *what = &w->row.cell[SOURCES_WHAT];

	begin(w, ERRORS, measurement);
	if (e->width != REF_OF_JOINT) {
		set(w, SOURCES_JOINT,
		    e->width == REF_OF_ALL ? "every joint"
					   : limb_name(measurement));
		set(w, SOURCES_MOTION, NULL);
	}
	set(w, SOURCES_SETTING, e->setting);
	set_mode(w, e->mode);
	set(w, SOURCES_PEOPLE, e->people);
	set_value(w, e->either_way ? "+/- " : "", e->low, e->high);
	buffer_puts(what, e->statistic);
	if (e->what[0])
		buffer_printf(what, ", %s", e->what);
	if (e->rater != REF_RATER_UNSTATED)
		buffer_puts(what, e->rater == REF_RATER_SAME
				      ? ", same rater"
				      : ", different raters");
	if (e->instrument >= 0)
		buffer_printf(what, ", %s",
		    vocab_name(VOCAB_CLASS_INSTRUMENT, e->instrument));
	set(w, SOURCES_WHERE_READ, e->where_read);
	set(w, SOURCES_VERIFIED, e->verified);
}

static void
error_rows(struct walk *w, int measurement)
{
	size_t n;
	const struct ref_error_row *rows = ref_error_rows(measurement, &n);

	for (size_t i = 0; i < n; i++) {
		if (strcmp(rows[i].source, w->key) != 0 ||
		    !is_first_of(measurement, rows[i].width))
			continue;
		set_error(w, measurement, &rows[i]);
		w->each(w->arg, &w->row);
	}
}

static void
end_feel_rows(struct walk *w, int measurement)
{
	const char *source;
	unsigned feels = ref_end_feels(measurement, &source);
	struct buffer *value = &w->row.cell[SOURCES_VALUE];

	if (feels == 0 || !source || strcmp(source, w->key) != 0)
		return;
	begin(w, END_FEELS, measurement);
	set(w, SOURCES_UNIT, NULL);
	for (int i = 0; i < VOCAB_END_FEEL_COUNT; i++)
		if (feels >> i & 1) {
			buffer_puts(value, value->len ? " or " : "");
			buffer_puts(value, vocab_name(VOCAB_CLASS_END_FEEL, i));
		}
	w->each(w->arg, &w->row);
}

void
sources_rows(const char *key, sources_row_fn *each, void *arg)
{
	static void (*const tables[SOURCES_TABLES])(struct walk *, int) = {
	    usual_rows, task_rows, error_rows, end_feel_rows};
	struct walk w = {.key = key, .each = each, .arg = arg};

	for (int t = 0; t < SOURCES_TABLES; t++)
		for (int i = 0; i < VOCAB_MEASUREMENT_COUNT; i++)
			tables[t](&w, i);
	for (int i = 0; i < SOURCES_CELLS; i++)
		buffer_free(&w.row.cell[i]);
}

/* --- lines of cells ------------------------------------------------------- */

void
sources_put_names(struct buffer *out, const char *const *names, size_t cells)
{
	for (size_t i = 0; i < cells; i++)
		buffer_printf(out, "%s%s", i ? "," : "", names[i]);
	buffer_puts(out, "\r\n");
}

void
sources_put_csv(struct buffer *out, const struct buffer *cell, size_t cells)
{
	for (size_t i = 0; i < cells; i++) {
		if (i > 0)
			buffer_putc(out, ',');
		csv_text(out, cell[i].data, cell[i].len);
	}
	buffer_puts(out, "\r\n");
}

void
sources_put_json(struct buffer *out, const char *const *names,
    const struct buffer *cell, size_t cells)
{
	buffer_putc(out, '{');
	for (size_t i = 0; i < cells; i++) {
		json_name(out, names[i]);
		if (cell[i].len > 0)
			json_string(out, cell[i].data, cell[i].len);
		else
			buffer_puts(out, "null");
	}
	buffer_puts(out, "}\n");
}
