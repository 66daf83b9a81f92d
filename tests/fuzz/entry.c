/*
 * The entry of every fuzz target, and the reading of a note as the commands
 * read it.
 */
#include "fuzz.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "lint/lint.h"
#include "lsp/in.h"
#include "text/date.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int
LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
	fuzz_one((const char *)data, size);
	return 0;
}

void
fuzz_failed(const char *file, int line, const char *what)
{
	fprintf(stderr, "%s:%d: does not hold: %s\n", file, line, what);
	abort();
}

int32_t
fuzz_today(void)
{
	int32_t day = 0;

	date_parse("2026-06-01", 10, &day);
	return day;
}

void
fuzz_lines(struct note *note, const char *bytes, size_t len, bool names_only)
{
	size_t at = 0;

	note_begin(note, "fuzz.range", names_only);
	while (at < len) {
		const char *p = bytes + at;
		const char *lf = memchr(p, '\n', len - at);
		size_t line = lf ? (size_t)(lf - p) : len - at;

		note_line(note, p, line);
		at += line + 1;
	}
	note_end(note);
}

struct judging {
	const struct fuzz_reading *reading;
	struct lint *lint;
};

static void
on_session(void *arg, struct session *s, struct sink *sink)
{
	struct judging *judging = arg;

	if (judging->reading->judged)
		lint_session(judging->lint, s, sink);
	sink_sort(sink);
	judging->reading->each(judging->reading->arg, s, sink);
}

void
fuzz_read(const char *bytes, size_t len, const struct fuzz_reading *reading)
{
	struct lint_options options = {fuzz_today(), 50};
	struct judging judging = {reading, lint_new(&options)};
	struct intern pool = {0};
	struct note *note = note_new(&pool, on_session, &judging);

	fuzz_lines(note, bytes, len, reading->names_only);
	note_free(note);
	lint_free(judging.lint);
	intern_free(&pool);
}

void
fuzz_must_be_json_lines(const struct buffer *out)
{
	size_t at = 0;

	while (at < out->len) {
		const char *p = out->data + at;
		const char *lf = memchr(p, '\n', out->len - at);
		struct json_t *json;

		MUST(lf != NULL);
		json = in_parse(p, (size_t)(lf - p));
		MUST(json != NULL);
		in_free(json);
		at += (size_t)(lf - p) + 1;
	}
}
