/*
 * The findings of a note: the same as `check` reports, in the same order,
 * worked out once for each state of the text and sent to the client.
 */
#include <stdlib.h>
#include <string.h>

#include "lint/precaution.h"
#include "lsp/server.h"
#include "text/mem.h"
#include "write/findings.h"
#include "write/json.h"

enum {
	FARTHEST = 256, /* readings back that are looked at for another */
	MOST_PRECAUTIONS = 64, /* the same */
	TAG_UNNECESSARY = 1
};

/*
 * Which other reading a finding speaks of: the last one before it that is
 * the same (or the other) in these three.
 */
static const struct {
	enum rule rule;
	bool opposite;
	bool other_side;
	bool other_mode;
	const char *says;
} partners[] = {
    {RULE_PASSIVE_BELOW_ACTIVE, false, false, true,
	"the reading that it is held against"},
    {RULE_PASSIVE_JUST_BELOW_ACTIVE, false, false, true,
	"the reading that it is held against"},
    {RULE_REPEATED_READING, false, false, false, "here it stands already"},
    {RULE_AXIS_CONTRADICTION, true, false, false,
	"the reading that it contradicts"},
    {RULE_UNUSUAL_ANGLE, false, true, false, "the other side"},
};

struct judging {
	const struct lsp *lsp;
	struct document *d;
};

static bool
is_partner(size_t which, const struct reading *r, const struct reading *o)
{
	int measurement = partners[which].opposite
			      ? reading_measurement(r)->opposite
			      : r->measurement;

	return o->measurement == measurement && o->setting == r->setting &&
	       (o->side == r->side) != partners[which].other_side &&
	       (o->mode == r->mode) != partners[which].other_mode;
}

static void
note_reading(struct noted *n, const struct reading *o, const char *says)
{
	n->other_row = o->line;
	n->other_beg = o->beg;
	n->other_end = o->end;
	n->other = says;
}

static void
find_partner(const struct session *s, struct noted *n, size_t which)
{
	size_t i = (size_t)n->finding.reading;
	const struct reading *r = &s->readings.at[i];

	for (size_t back = 1; back <= i && back <= FARTHEST; back++)
		if (is_partner(which, r, r - back)) {
			note_reading(n, r - back, partners[which].says);
			return;
		}
}

static bool
is_exceeded(const struct session *s, const struct precaution *p,
    const struct reading *r)
{
	int motion = precaution_motion(p);

	return precaution_holds(p, s, true) &&
	       (motion == NONE || motion == reading_measurement(r)->motion) &&
	       (p->mode == NONE || p->mode == r->mode) &&
	       precaution_meets(
		   &p->joints, measurement_joints(r->measurement), r->side);
}

static void
find_precaution(const struct session *s, struct noted *n)
{
	const struct headers *both[] = {&s->headers, &s->person->headers};
	const struct reading *r = &s->readings.at[n->finding.reading];

	for (int h = 0; h < 2; h++)
		for (size_t i = 0;
		     i < both[h]->precautions.len && i < MOST_PRECAUTIONS;
		     i++) {
			const struct precaution *p =
			    &both[h]->precautions.at[i];

			if (!is_exceeded(s, p, r))
				continue;
			n->other_row = p->place.line;
			n->other_beg = p->place.beg;
			n->other_end = p->place.end;
			n->other = "the precaution";
			return;
		}
}

static void
find_other(const struct session *s, struct noted *n)
{
	if (n->finding.reading < 0 ||
	    (size_t)n->finding.reading >= s->readings.len)
		return;
	if (n->finding.rule == RULE_PRECAUTION_EXCEEDED)
		find_precaution(s, n);
	for (size_t i = 0; i < sizeof(partners) / sizeof(*partners); i++)
		if (partners[i].rule == n->finding.rule)
			find_partner(s, n, i);
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
order(uint32_t a, uint32_t b)
{
	return (a > b) - (a < b);
}

/* As sink_sort() sorts: the order of rules is that of their names. */
static int
by_place(const void *pa, const void *pb)
{
	const struct finding *a = &((const struct noted *)pa)->finding;
	const struct finding *b = &((const struct noted *)pb)->finding;
	int cmp = order(a->line, b->line);

	if (cmp == 0)
		cmp = order(a->beg, b->beg);
	if (cmp == 0)
		cmp =
		    strcmp(rule_table[a->rule].name, rule_table[b->rule].name);
	if (cmp == 0)
		cmp = (a->reading > b->reading) - (a->reading < b->reading);
	return cmp;
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
