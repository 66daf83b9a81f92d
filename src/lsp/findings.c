/*
 * The findings of a note: the same as `check` reports, in the same order,
 * worked out once for each state of the text and sent to the client.
 */
#include <stdlib.h>
#include <string.h>

#include "lsp/server.h"
#include "text/mem.h"
#include "write/findings.h"
#include "write/json.h"

enum {
	MOST_PRECAUTIONS = 64, /* that are looked at for one */
	TAG_UNNECESSARY = 1
};

/* What the other reading is, of which a finding speaks. */
static const struct {
	enum rule rule;
	const char *says;
} others[] = {
    {RULE_PASSIVE_BELOW_ACTIVE, "the reading that it is held against"},
    {RULE_PASSIVE_JUST_BELOW_ACTIVE, "the reading that it is held against"},
    {RULE_REPEATED_READING, "here it stands already"},
    {RULE_AXIS_CONTRADICTION, "the reading that it contradicts"},
    {RULE_UNUSUAL_ANGLE, "the other side"},
};

struct judging {
	const struct lsp *lsp;
	struct document *d;
};

static void
note_other(struct noted *n, const struct session *s)
{
	const struct reading *o = &s->readings.at[n->finding.other];

	for (size_t i = 0; i < sizeof(others) / sizeof(*others); i++)
		if (others[i].rule == n->finding.rule)
			n->other = others[i].says;
	if (!n->other)
		return;
	n->other_row = o->line;
	n->other_beg = o->beg;
	n->other_end = o->end;
}

static void
note_precaution(struct noted *n, const struct headers *h)
{
	for (size_t i = 0; i < h->precautions.len && i < MOST_PRECAUTIONS;
	     i++) {
		const struct place *place = &h->precautions.at[i].place;

		if (place->line != n->finding.header)
			continue;
		n->other_row = place->line;
		n->other_beg = place->beg;
		n->other_end = place->end;
		n->other = "the precaution";
	}
}

static void
find_other(const struct session *s, struct noted *n)
{
	if (n->finding.other >= 0)
		note_other(n, s);
	if (n->finding.header == 0)
		return;
	note_precaution(n, &s->person->headers);
	note_precaution(n, &s->headers);
}

static const char *
keep(struct document *d, const char *text)
{
	return text ? arena_text(&d->arena, text, strlen(text)) : NULL;
}

static void
on_session(void *arg, struct session *s, struct sink *sink)
{
	struct judging *j = arg;
	struct document *d = j->d;

	for (size_t i = 0; i < sink->len; i++) {
		struct finding *f = sink->at[i];
		struct buffer message = {0};
		struct noted *n;

		if (j->lsp->options.levels[f->rule] != LEVEL_UNSET)
			f->level = j->lsp->options.levels[f->rule];
		if (!findings_shown(f))
			continue;
		findings_message(&message, f);
		n = MEM_PUSH(&d->findings);
		*n = (struct noted){.finding = *f};
		n->finding.message =
		    arena_text(&d->arena, message.data, message.len);
		n->finding.hint = keep(d, f->hint);
		n->finding.source = NULL;
		find_other(s, n);
		buffer_free(&message);
	}
}

static int
by_place(const void *a, const void *b)
{
	return finding_order(&((const struct noted *)a)->finding,
	    &((const struct noted *)b)->finding);
}

static void
drop_repeated(struct document *d)
{
	size_t n = 0;

	for (size_t i = 0; i < d->findings.len; i++)
		if (n == 0 || !finding_same(&d->findings.at[i].finding,
				  &d->findings.at[n - 1].finding))
			d->findings.at[n++] = d->findings.at[i];
	d->findings.len = n;
}

void
lsp_judge(const struct lsp *lsp, struct document *d)
{
	struct judging judging = {lsp, d};
	struct visit visit = {
	    .on_session = on_session, .arg = &judging, .judge = true};

	if (d->judged)
		return;
	d->findings.len = 0;
	arena_reset(&d->arena);
	lsp_visit(lsp, d, &visit);
	if (d->findings.len > 1)
		qsort(d->findings.at, d->findings.len, sizeof(*d->findings.at),
		    by_place);
	drop_repeated(d);
	d->judged = true;
}

static void
put_other(struct lsp *lsp, const struct document *d, const struct noted *n)
{
	struct buffer *out = &lsp->body;

	if (n->other_row == 0 || !lsp->client.related)
		return;
	json_name(out, "relatedInformation");
	buffer_puts(out, "[{\"location\":{");
	json_text_of(out, "uri", d->uri);
	json_name(out, "range");
	document_put_range(out, d, lsp->client.encoding,
	    document_at(d, n->other_row, n->other_beg),
	    document_at(d, n->other_row, n->other_end));
	buffer_putc(out, '}');
	json_text_of(out, "message", n->other);
	buffer_puts(out, "}]");
}

/* The message, and what to do about it on a line of its own. */
void
lsp_put_finding(struct lsp *lsp, struct buffer *out, const struct document *d,
    const struct finding *f)
{
	static const int severity[] = {
	    [LEVEL_NOTE] = 3, [LEVEL_WARNING] = 2, [LEVEL_ERROR] = 1};
	struct buffer message = {0};

	json_item(out);
	buffer_putc(out, '{');
	json_name(out, "range");
	document_put_range(out, d, lsp->client.encoding,
	    document_at(d, f->line, f->beg), document_at(d, f->line, f->end));
	json_uint_of(out, "severity", (uint64_t)severity[f->level]);
	json_text_of(out, "code", rule_table[f->rule].name);
	json_text_of(out, "source", "rangeline");
	buffer_puts(&message, f->message);
	if (f->hint) {
		buffer_putc(&message, '\n');
		buffer_puts(&message, f->hint);
	}
	json_name(out, "message");
	json_string(out, message.data, message.len);
	buffer_free(&message);
	if (f->rule == RULE_ACCEPTANCE_UNUSED && lsp->client.tags)
		buffer_printf(out, ",\"tags\":[%d]", TAG_UNNECESSARY);
}

void
lsp_publish(struct lsp *lsp, struct document *d)
{
	lsp_judge(lsp, d);
	lsp_begin_notification(lsp, "textDocument/publishDiagnostics");
	buffer_putc(&lsp->body, '{');
	json_text_of(&lsp->body, "uri", d->uri);
	buffer_printf(&lsp->body, ",\"version\":%lld", (long long)d->version);
	json_name(&lsp->body, "diagnostics");
	buffer_putc(&lsp->body, '[');
	for (size_t i = 0; i < d->findings.len; i++) {
		const struct noted *n = &d->findings.at[i];

		lsp_put_finding(lsp, &lsp->body, d, &n->finding);
		put_other(lsp, d, n);
		buffer_putc(&lsp->body, '}');
	}
	buffer_puts(&lsp->body, "]}");
	lsp_end_message(lsp);
	d->published = true;
}

void
lsp_publish_none(struct lsp *lsp, const struct document *d)
{
	lsp_begin_notification(lsp, "textDocument/publishDiagnostics");
	buffer_putc(&lsp->body, '{');
	json_text_of(&lsp->body, "uri", d->uri);
	buffer_puts(&lsp->body, ",\"diagnostics\":[]}");
	lsp_end_message(lsp);
}
