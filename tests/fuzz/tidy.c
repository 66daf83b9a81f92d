/*
 * Fuzz target: the tidy writer, in each spelling. What it writes reads back
 * to the same records and findings, has as many lines, and tidied once more
 * stays the same bytes, in whatever pieces the note comes.
 */
#include "fuzz.h"

#include <string.h>

#include "text/intern.h"
#include "write/diff.h"
#include "write/tidy.h"

static bool
same(const struct buffer *a, const struct buffer *b)
{
	return a->len == b->len &&
	       (a->len == 0 || memcmp(a->data, b->data, a->len) == 0);
}

static void
tidied(struct buffer *out, const char *bytes, size_t len, size_t piece,
    enum tidy_spelling spelling)
{
	struct tidy *tidy = tidy_new(spelling, NULL, NULL);

	tidy_begin(tidy, "fuzz.range");
	for (size_t at = 0; at < len; at += piece)
		tidy_text(
		    tidy, bytes + at, len - at < piece ? len - at : piece, out);
	tidy_end(tidy, out);
	MUST(!tidy_gave_up(tidy));
	tidy_free(tidy);
}

static void
on_session(void *arg, struct session *s, struct sink *sink)
{
	sink_sort(sink);
	tidy_records(arg, s, sink, true);
}

/* With the pool of before, since records name texts by their numbers. */
static void
records(struct buffer *out, struct intern *pool, const char *bytes, size_t len)
{
	struct note *note = note_new(pool, on_session, out);

	fuzz_lines(note, bytes, len, false);
	note_free(note);
}

static size_t
count_lines(const char *bytes, size_t len)
{
	size_t lines = 0;

	for (size_t i = 0; i < len; i++)
		lines += bytes[i] == '\n';
	return lines;
}

static void
try_spelling(const char *bytes, size_t len, enum tidy_spelling spelling)
{
	struct buffer once = {0}, twice = {0}, was = {0}, is = {0};
	struct buffer note = {(char *)bytes, len, len}, diff = {0};
	struct intern pool = {0};

	tidied(&once, bytes, len, len + 1, spelling);
	MUST(count_lines(bytes, len) == count_lines(once.data, once.len));
	records(&was, &pool, bytes, len);
	records(&is, &pool, once.data, once.len);
	MUST(same(&was, &is));
	tidied(&twice, once.data, once.len, once.len + 1, spelling);
	MUST(same(&once, &twice));
	twice.len = 0;
	tidied(&twice, bytes, len, 1 + len % 7, spelling);
	MUST(same(&once, &twice));
	diff_unified(&diff, "fuzz.range", &note, &once);
	MUST((diff.len == 0) == same(&note, &once));
	intern_free(&pool);
	buffer_free(&once);
	buffer_free(&twice);
	buffer_free(&was);
	buffer_free(&is);
	buffer_free(&diff);
}

/* One spelling an input: there are inputs enough. */
void
fuzz_one(const char *bytes, size_t len)
{
	static const enum tidy_spelling spellings[] = {
	    TIDY_LONG, TIDY_SHORT, TIDY_KEEP};

	try_spelling(bytes, len, spellings[len % 3]);
}
