/*
 * Progress as text: of each person the table, then the motions that have
 * nothing to be held against, then where the figures of error are from.
 */
#include "write/progress_text.h"

#include <string.h>

#include "write/findings.h"
#include "write/progress_table.h"
#include "write/progress_words.h"
#include "write/summary_internal.h"
#include "write/wrap.h"

/* What lies in the scratch becomes a line. */
static void
below(struct progress_table *t, size_t indent)
{
	buffer_pad(t->out, ' ', indent);
	wrap_text(t->out, t->line.data, t->line.len, indent, indent + 2);
	buffer_putc(t->out, '\n');
	t->line.len = 0;
}

/* --- a person ------------------------------------------------------------- */

static void
add_person(struct progress_table *t, size_t person)
{
	const struct progress_person *who = &t->p->persons.at[person];
	const struct progress_session *s =
	    &t->p->sessions.at[who->session + who->session_count - 1];
	const char *bold = t->how->colour ? findings_coloured.place : "";
	const char *reset = t->how->colour ? findings_coloured.reset : "";
	char day[16];

	buffer_puts(t->out, bold);
	progress_person_words(t->out, t->p, person);
	buffer_printf(t->out, ", %u session%s", (unsigned)who->session_count,
	    who->session_count == 1 ? "" : "s");
	if (who->session_count > 1)
		buffer_printf(t->out, " from %s to",
		    date_format(t->p->sessions.at[who->session].day, day));
	else
		buffer_putc(t->out, ',');
	buffer_printf(t->out, " %s%s\n", date_format(s->day, day), reset);
	if (who->code == 0) {
		buffer_puts(&t->line, "no subject named in ");
		findings_safe(&t->line, progress_text(t->p, who->file),
		    strlen(progress_text(t->p, who->file)));
		below(t, PROGRESS_INDENT);
	}
	if (s->surgery == DATE_NONE)
		return;
	buffer_printf(&t->line, "surgery %s", date_format(s->surgery, day));
	if (s->surgery_text != 0)
		buffer_printf(
		    &t->line, " \"%s\"", progress_text(t->p, s->surgery_text));
	below(t, PROGRESS_INDENT);
}

/* Those of one session, or without any figure: nothing to tell a change by. */
static void
add_single(struct progress_table *t, const struct progress_series *series)
{
	progress_name_words(&t->line, t->p, series);
	buffer_puts(&t->line, ": ");
	for (uint32_t i = 0; i < series->points; i++) {
		const struct progress_point *point =
		    &t->p->points.at[series->point + i];

		if (i > 0)
			buffer_puts(&t->line, "; ");
		progress_mention_words(&t->line, t->p, point);
		buffer_puts(&t->line, " on ");
		progress_date_words(&t->line, t->p, point);
	}
	if (series->before != PROGRESS_NONE) {
		buffer_puts(&t->line, "; ");
		progress_before_words(&t->line, t->p, series);
	}
	below(t, PROGRESS_DEEPER);
	progress_table_precautions(t, series, PROGRESS_DEEPER + 2, below);
	for (uint32_t i = 0; i < series->last_count; i++)
		progress_table_goals(
		    t, series, series->last + i, PROGRESS_DEEPER + 2, below);
}

static void
add_singles(struct progress_table *t, const struct progress_person *who)
{
	bool titled = false;

	for (uint32_t i = 0; i < who->series_count; i++) {
		const struct progress_series *series =
		    &t->p->series.at[who->series + i];

		if (series->sessions > 1)
			continue;
		if (!titled)
			buffer_puts(t->out, "\n  no second session to compare "
					    "with\n");
		titled = true;
		add_single(t, series);
	}
}

static void
add_sources(struct progress_table *t)
{
	if (t->sources.len > 1)
		buffer_puts(t->out, "\n  error of measuring\n");
	for (uint32_t i = 1; i < t->sources.len; i++) {
		buffer_printf(&t->line, "[%u] %s", (unsigned)i,
		    intern_text(&t->sources, i));
		below(t, PROGRESS_DEEPER);
	}
}

void
progress_text_person(struct buffer *out, const struct progress *p,
    size_t person, const struct progress_style *how)
{
	const struct progress_person *who = &p->persons.at[person];
	struct progress_table t = {.out = out, .p = p, .how = how};
	bool any = false;

	if (person > 0)
		buffer_putc(out, '\n');
	add_person(&t, person);
	table_reset(&t.table, PROGRESS_COLUMNS, 2);
	progress_table_headings(&t.table);
	for (uint32_t i = 0; i < who->series_count; i++) {
		const struct progress_series *series =
		    &p->series.at[who->series + i];

		if (series->sessions < 2)
			continue;
		progress_table_series(&t, series);
		any = true;
	}
	any |= progress_table_totals(&t, who);
	if (any) {
		buffer_putc(out, '\n');
		table_write(out, &t.table, PROGRESS_INDENT);
	}
	add_singles(&t, who);
	add_sources(&t);
	table_free(&t.table);
	buffer_free(&t.line);
	intern_free(&t.sources);
}

static void
add_left_out(struct buffer *out, size_t n, const char *one, const char *many)
{
	if (n > 0)
		buffer_printf(out, "%zu session%s left out: %s.\n", n,
		    n == 1 ? "" : "s", n == 1 ? one : many);
}

/* Was a value marked? Those of one session have their rule beside them. */
static bool
any_marked(const struct progress *p)
{
	for (size_t i = 0; i < p->points.len; i++) {
		const struct progress_point *at = &p->points.at[i];

		if (progress_is_marked(at) &&
		    p->series.at[at->series].sessions > 1)
			return true;
	}
	return false;
}

void
progress_text_end(struct buffer *out, const struct progress *p)
{
	if (p->persons.len == 0)
		buffer_puts(out, "No session could be followed.\n");
	else
		buffer_puts(out,
		    "\nChange to this: + is a gain of motion; where less is "
		    "better, - is the gain.\n"
		    "Beyond error: more than measuring alone may make. "
		    "Figures of error are other\npeople's. Licensed judgement "
		    "and local protocols decide.\n");
	if (progress_has_totals(p))
		buffer_puts(out,
		    "Total motion of a digit: the flexion of its joints less "
		    "what extension lacks;\nsummary shows the parts, and what "
		    "else changed stands with the joints.\n");
	if (any_marked(p))
		buffer_puts(out,
		    PROGRESS_WARNED ": check warns of it, as told below it; "
				    "compared all the same.\n");
	add_left_out(out, p->undated,
	    "without its date it has no place in the order",
	    "without their dates they have no place in the order");
	add_left_out(out, p->nameless,
	    "nobody knows whose it is, as the subject could not be read",
	    "nobody knows whose they are, as the subject could not be read");
}
