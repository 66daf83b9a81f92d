/*
 * Fuzz target: the reader of notes, every rule, and findings in every format.
 * A finding stands inside its line and the lines in the note; the findings of
 * a session come in order; leaving messages out changes no finding.
 */
#include "fuzz.h"

#include <string.h>

#include "write/findings.h"

static const struct findings_style styles[] = {{0}, {.brief = true},
    {.colour = true}, {.json = true}, {.brief = true, .json = true}};
enum { STYLES = sizeof(styles) / sizeof(*styles) };

struct checked {
	size_t lines; /* of the note */
	struct buffer out;
	struct buffer found; /* LINE BEG END RULE of each finding */
};

static void
on_finding(struct checked *c, const struct session *s, const struct finding *f)
{
	MUST(f->line >= 1 && f->line <= c->lines);
	MUST(f->beg <= f->end);
	MUST(f->unread <= c->lines);
	MUST(f->reading == NO_READING ||
	     (f->reading >= 0 && (size_t)f->reading < s->readings.len));
	MUST(f->level >= LEVEL_NOTE && f->level <= LEVEL_ERROR);
	MUST(!f->accepted || rule_table[f->rule].group != RULES_READING);
	buffer_printf(&c->found, "%u %u %u %u %d %s\n", (unsigned)f->line,
	    (unsigned)f->beg, (unsigned)f->end, (unsigned)f->unread,
	    f->accepted, rule_table[f->rule].name);
}

static void
with_messages(void *arg, struct session *s, struct sink *sink)
{
	struct checked *c = arg;

	for (size_t i = 0; i < sink->len; i++) {
		const struct finding *f = sink->at[i];

		on_finding(c, s, f);
		MUST(f->message && *f->message && f->end <= f->source_len);
		MUST(i == 0 || sink->at[i - 1]->line < f->line ||
		     (sink->at[i - 1]->line == f->line &&
			 sink->at[i - 1]->beg <= f->beg));
		for (size_t k = 0; k < STYLES; k++) {
			c->out.len = 0;
			findings_write(&c->out, s->file, f, &styles[k]);
			MUST(c->out.len > 0 &&
			     c->out.data[c->out.len - 1] == '\n');
			if (styles[k].json)
				fuzz_must_be_json_lines(&c->out);
		}
	}
}

static void
without_messages(void *arg, struct session *s, struct sink *sink)
{
	for (size_t i = 0; i < sink->len; i++)
		on_finding(arg, s, sink->at[i]);
}

static size_t
count_lines(const char *bytes, size_t len)
{
	size_t lines = len > 0 && bytes[len - 1] != '\n';

	for (size_t i = 0; i < len; i++)
		lines += bytes[i] == '\n';
	return lines;
}

void
fuzz_one(const char *bytes, size_t len)
{
	struct checked with = {.lines = count_lines(bytes, len)};
	struct checked without = {.lines = with.lines};

	fuzz_read(bytes, len,
	    &(struct fuzz_reading){
		.judged = true, .each = with_messages, .arg = &with});
	fuzz_read(bytes, len,
	    &(struct fuzz_reading){.judged = true,
		.names_only = true,
		.each = without_messages,
		.arg = &without});
	MUST(with.found.len == without.found.len);
	MUST(with.found.len == 0 ||
	     memcmp(with.found.data, without.found.data, with.found.len) == 0);
	buffer_free(&with.out);
	buffer_free(&with.found);
	buffer_free(&without.found);
}
