/*
 * The summary as text: the heading of a session and the order of its parts.
 */
#include "write/findings.h"
#include "write/summary_internal.h"
#include "write/summary_text.h"
#include "write/wrap.h"

static void
add_person(struct buffer *out, const struct summary *sum)
{
	const char *subject = summary_subject(sum->s);
	const char *bold = sum->options->colour ? findings_coloured.place : "";
	const char *reset = sum->options->colour ? findings_coloured.reset : "";
	const struct session *s = sum->s;
	char date[16];

	buffer_puts(out, bold);
	buffer_puts(out, subject ? subject : "subject not known");
	buffer_puts(out, ", ");
	if (s->said == SAID) {
		buffer_printf(out, "session %s", date_format(s->day, date));
		if (s->time != TIME_NONE) {
			buffer_putc(out, ' ');
			summary_time(out, s->time);
		}
	} else {
		buffer_puts(out, "session date not known");
	}
	if (s->label.len > 0)
		buffer_printf(out, " \"%.*s\"", (int)s->label.len,
		    session_text(s, s->label));
	buffer_puts(out, reset);
	buffer_putc(out, '\n');
}

static void
add_gap(struct buffer *line)
{
	if (line->len > 0)
		buffer_puts(line, "; ");
}

static void
add_surgery(struct buffer *line, const struct session *s)
{
	const struct fact *surgery = SESSION_FACT(s, surgery);
	const char *text = s->headers.surgery.said != SAID_NOTHING
			       ? s->headers.surgery_text
			       : s->person->headers.surgery_text;
	char date[16];
	int32_t days;

	if (surgery->said != SAID)
		return;
	add_gap(line);
	buffer_printf(line, "surgery %s", date_format(surgery->value, date));
	if (text)
		buffer_printf(line, " \"%s\"", text);
	if (!summary_days_since_surgery(s, &days))
		return;
	buffer_printf(
	    line, ", %d week%s", (int)(days / 7), days / 7 == 1 ? "" : "s");
	if (days % 7)
		buffer_printf(line, " %d day%s", (int)(days % 7),
		    days % 7 == 1 ? "" : "s");
	buffer_puts(line, " before");
}

/* Each rater and instrument once, in the order of the note, a few of them. */
static void
add_raters(struct buffer *line, const struct session *s)
{
	enum { NAMED = 4 };
	uint32_t raters[NAMED];
	unsigned instruments = 0;
	size_t n = 0;

	for (size_t i = 0; i < s->readings.len; i++) {
		const struct reading *r = &s->readings.at[i];
		size_t k = 0;

		while (k < n && raters[k] != r->rater)
			k++;
		if (k == n && n < NAMED && r->rater != 0) {
			raters[n++] = r->rater;
			add_gap(line);
			buffer_printf(
			    line, "rater %s", summary_text_of(s, r->rater));
		}
		if (r->instrument < 0 || instruments >> r->instrument & 1)
			continue;
		instruments |= 1u << r->instrument;
		add_gap(line);
		buffer_puts(
		    line, vocab_name(VOCAB_CLASS_INSTRUMENT, r->instrument));
		if (r->step != NO_VALUE) {
			buffer_puts(line, " step ");
			summary_number(line, (struct mean){r->step, 1});
			summary_unit(line, r->unit);
		}
	}
}

static void
flush(struct buffer *out, struct buffer *line)
{
	if (line->len > 0) {
		buffer_pad(out, ' ', SUMMARY_INDENT);
		wrap_text(out, line->data, line->len, SUMMARY_INDENT,
		    SUMMARY_INDENT + SUMMARY_INDENT);
		buffer_putc(out, '\n');
	}
	line->len = 0;
}

static void
add_heading(struct summary *sum, struct buffer *out)
{
	struct buffer *line = &sum->scratch;
	size_t before;

	add_person(out, sum);
	line->len = 0;
	if (sum->person.age >= 0)
		buffer_printf(line, "age %d", sum->person.age);
	if (sum->person.sex >= 0) {
		add_gap(line);
		buffer_printf(line, "sex %s",
		    vocab_name(VOCAB_CLASS_SEX, sum->person.sex));
	}
	add_gap(line);
	buffer_puts(line, "involved: ");
	before = line->len;
	summary_involved(line, sum->s);
	if (line->len == before)
		buffer_puts(line, "not said");
	flush(out, line);
	add_surgery(line, sum->s);
	flush(out, line);
	add_raters(line, sum->s);
	if (!sum->several_postures && sum->s->readings.len > 0 &&
	    sum->s->readings.at[0].posture != 0) {
		add_gap(line);
		buffer_printf(line, "position %s",
		    intern_text(sum->s->pool, sum->s->readings.at[0].posture));
	}
	flush(out, line);
}

void
summary_text_session(struct summary *sum, struct buffer *out)
{
	if (sum->sessions > 0)
		buffer_putc(out, '\n');
	add_heading(sum, out);
	if (sum->comparisons.len > 0) {
		buffer_putc(out, '\n');
		summary_table(sum, out);
	}
	summary_sections(sum, out);
}
