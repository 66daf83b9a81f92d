/*
 * Figures for the guide. A source that gives several figures by age and sex is
 * shown as the span of them with their number: a mean over groups of people
 * would be a figure that nobody has published.
 */
#include "write/guide_values.h"

#include <string.h>

#include "reference/reference.h"
#include "write/json.h"
#include "write/summary_internal.h"

static void
add_tenths(struct buffer *out, int32_t tenths)
{
	summary_number(out, (struct mean){tenths, 1});
}

static void
add_span(struct buffer *out, int32_t low, int32_t high, int measurement)
{
	const char *unit = summary_usual_unit(measurement);

	add_tenths(out, low);
	if (high != low) {
		buffer_putc(out, '-');
		add_tenths(out, high);
	}
	if (strcmp(unit, "deg") != 0 && unit[0])
		buffer_printf(out, " %s", unit);
}

static void
add_gap(struct buffer *out)
{
	if (out->len > 0)
		buffer_puts(out, "; ");
}

void
guide_end_feel(struct buffer *out, int measurement)
{
	const char *source;
	unsigned feels = ref_end_feels(measurement, &source);
	bool first = true;

	for (int i = 0; i < VOCAB_END_FEEL_COUNT; i++) {
		if (!(feels >> i & 1))
			continue;
		buffer_puts(out, first ? "" : " or ");
		buffer_puts(out, vocab_name(VOCAB_CLASS_END_FEEL, i));
		first = false;
	}
	if (!first && source)
		buffer_printf(out, " (%s)", source);
}

/* --- usual values --------------------------------------------------------- */

/* The rows of one source that differ in age and sex alone. */
struct group {
	const struct ref_usual_row *first;
	int32_t low, high;
	size_t n;
};

static bool
same_group(const struct ref_usual_row *a, const struct ref_usual_row *b)
{
	return strcmp(a->source, b->source) == 0 && a->mode == b->mode &&
	       strcmp(a->setting, b->setting) == 0 &&
	       a->at_least == b->at_least &&
	       strcmp(a->verified, b->verified) == 0;
}

static struct group
group_of(const struct ref_usual_row *rows, size_t n, size_t i)
{
	struct group g = {&rows[i], rows[i].low, rows[i].high, 0};

	for (size_t k = i; k < n; k++) {
		if (!same_group(&rows[i], &rows[k]))
			continue;
		g.n++;
		if (rows[k].low < g.low)
			g.low = rows[k].low;
		if (rows[k].high > g.high)
			g.high = rows[k].high;
	}
	return g;
}

static void
add_group(struct buffer *out, const struct group *g)
{
	const struct ref_usual_row *row = g->first;

	add_gap(out);
	if (row->setting[0])
		buffer_printf(out, "%s ", row->setting);
	if (row->at_least)
		buffer_puts(out, "at least ");
	add_span(out, g->low, g->high, row->measurement);
	buffer_printf(out, " (%s", row->source);
	if (g->n > 1) {
		if (row->mode >= 0)
			buffer_printf(out, ", %s",
			    vocab_name(VOCAB_CLASS_MODE, row->mode));
		buffer_printf(out, ", %zu groups by age and sex", g->n);
	} else if (row->population[0]) {
		buffer_printf(out, ", %s", row->population);
	}
	if (strcmp(row->verified, "yes") != 0)
		buffer_printf(out, ", %s", row->verified);
	buffer_putc(out, ')');
}

void
guide_usual(struct buffer *out, int measurement)
{
	size_t n;
	const struct ref_usual_row *rows = ref_usual_rows(measurement, &n);

	for (size_t i = 0; i < n; i++) {
		struct group g;
		bool told = false;

		for (size_t k = 0; k < i && !told; k++)
			told = same_group(&rows[k], &rows[i]);
		if (told)
			continue;
		g = group_of(rows, n, i);
		add_group(out, &g);
	}
}

/* --- what tasks take ------------------------------------------------------ */

static const char *const kind_words[] = {[REF_ARC] = "",
    [REF_REACH] = "",
    [REF_BELOW] = "under ",
    [REF_POSTURE] = "held at "};

void
guide_functional(struct buffer *out, int measurement)
{
	size_t n;
	const struct ref_functional *rows = ref_functional(measurement, &n);

	for (size_t i = 0; i < n; i++) {
		const struct ref_functional *f = &rows[i];

		add_gap(out);
		if (f->setting[0])
			buffer_printf(out, "%s ", f->setting);
		buffer_puts(out, kind_words[f->kind]);
		add_span(out, f->kind == REF_BELOW ? f->high : f->low, f->high,
		    measurement);
		buffer_printf(out, " %s (%s", f->task, f->source);
		if (strcmp(f->verified, "yes") != 0)
			buffer_printf(out, ", %s", f->verified);
		buffer_putc(out, ')');
	}
}

/* --- JSON ----------------------------------------------------------------- */

static void
json_tenths_of(struct buffer *out, const char *name, int32_t tenths)
{
	json_name(out, name);
	json_hundredths(out, (int64_t)tenths * 10);
}

static void
usual_json(struct buffer *out, const struct ref_usual_row *row)
{
	json_item(out);
	buffer_putc(out, '{');
	json_text_of(out, "setting", row->setting);
	json_tenths_of(out, "low", row->low);
	json_tenths_of(out, "high", row->high);
	json_name(out, "at_least");
	buffer_puts(out, row->at_least ? "true" : "false");
	json_text_of(out, "unit", summary_usual_unit(row->measurement));
	json_text_of(out, "spread", row->spread);
	json_text_of(out, "people", row->population);
	json_text_of(out, "source", row->source);
	json_text_of(out, "where_read", row->where_read);
	json_text_of(out, "verified", row->verified);
	buffer_putc(out, '}');
}

static void
functional_json(
    struct buffer *out, const struct ref_functional *f, int measurement)
{
	static const char *const kinds[] = {[REF_ARC] = "arc",
	    [REF_REACH] = "reach",
	    [REF_BELOW] = "below",
	    [REF_POSTURE] = "posture"};

	json_item(out);
	buffer_putc(out, '{');
	json_text_of(out, "kind", kinds[f->kind]);
	json_text_of(out, "setting", f->setting);
	if (f->kind != REF_BELOW)
		json_tenths_of(out, "low", f->low);
	json_tenths_of(out, "high", f->high);
	json_text_of(out, "unit", summary_usual_unit(measurement));
	json_text_of(out, "spread", f->spread);
	json_text_of(out, "task", f->task);
	json_text_of(out, "source", f->source);
	json_text_of(out, "where_read", f->where_read);
	json_text_of(out, "verified", f->verified);
	buffer_putc(out, '}');
}

void
guide_values_json(struct buffer *out, int measurement)
{
	const char *source;
	unsigned feels = ref_end_feels(measurement, &source);
	size_t n;
	const struct ref_usual_row *usual = ref_usual_rows(measurement, &n);
	const struct ref_functional *tasks;

	json_name(out, "end_feels");
	buffer_putc(out, '[');
	for (int i = 0; i < VOCAB_END_FEEL_COUNT; i++)
		if (feels >> i & 1) {
			json_item(out);
			json_puts(out, vocab_name(VOCAB_CLASS_END_FEEL, i));
		}
	buffer_putc(out, ']');
	json_text_of(out, "end_feels_source", source);
	json_name(out, "usual");
	buffer_putc(out, '[');
	for (size_t i = 0; i < n; i++)
		usual_json(out, &usual[i]);
	buffer_putc(out, ']');
	tasks = ref_functional(measurement, &n);
	json_name(out, "functional");
	buffer_putc(out, '[');
	for (size_t i = 0; i < n; i++)
		functional_json(out, &tasks[i], measurement);
	buffer_putc(out, ']');
}
