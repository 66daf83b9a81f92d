/*
 * Tools for the tests of the tidy writer: a text is tidied, and all that must
 * hold of any text is asserted.
 */
#ifndef TIDY_NOTE_H
#define TIDY_NOTE_H

#include <check.h>
#include <stdlib.h>
#include <string.h>

#include "text/mem.h"
#include "write/tidy.h"
#include "write/tidy_internal.h"

#define COUNT(array) (sizeof(array) / sizeof(*(array)))

static const enum tidy_spelling spellings[] = {
    TIDY_LONG, TIDY_SHORT, TIDY_KEEP};

/* OUT is TEXT tidied; given PIECE bytes at a time. */
static void
tidied(struct buffer *out, const struct buffer *text,
    enum tidy_spelling spelling, size_t piece)
{
	struct tidy *t = tidy_new(spelling, NULL, NULL);

	out->len = 0;
	tidy_begin(t, "note");
	for (size_t at = 0; at < text->len; at += piece)
		tidy_text(t, text->data + at,
		    text->len - at < piece ? text->len - at : piece, out);
	tidy_end(t, out);
	ck_assert_msg(!tidy_gave_up(t), "the meaning changed:\n%.*s",
	    (int)text->len, text->data);
	tidy_free(t);
}

static void
assert_same(const struct buffer *got, const struct buffer *want,
    const struct buffer *of)
{
	if (got->len == want->len &&
	    (got->len == 0 || memcmp(got->data, want->data, got->len) == 0))
		return;
	ck_abort_msg("of:\n%.*s\ngot:\n%.*s\nwanted:\n%.*s", (int)of->len,
	    of->data, (int)got->len, got->data, (int)want->len, want->data);
}

/*
 * The records of a text, and in which lines something could not be read. What
 * is found of an earlier session (a side called unavailable that is measured
 * now) comes when that was written.
 */
struct reading_of {
	struct buffer *records;
	bool *lost;  /* by line, from 1 */
	size_t fed;  /* lines given to the reader */
	size_t from; /* the first line of the session at hand */
};

static void
on_session(void *arg, struct session *s, struct sink *sink)
{
	struct reading_of *of = arg;

	tidy_records(of->records, s, sink, true);
	for (size_t i = 0; i < sink->len; i++)
		if (sink->at[i]->line >= of->from)
			of->lost[sink->at[i]->line] = true;
	of->from = of->fed;
}

static void
read_note(struct intern *pool, const struct buffer *text, struct reading_of *of)
{
	struct note *note = note_new(pool, on_session, of);
	const char *p = text->data, *end = p + text->len;

	note_begin(note, "note", false);
	of->fed = of->from = 0;
	while (text->len && p < end) {
		const char *lf = memchr(p, '\n', (size_t)(end - p));
		size_t len = (size_t)((lf ? lf : end) - p);

		of->fed++;
		note_line(note, p, len);
		p += len + 1;
	}
	note_end(note);
	note_free(note);
}

static size_t
line_len(const char *p, const char *end)
{
	const char *lf = memchr(p, '\n', (size_t)(end - p));

	return lf ? (size_t)(lf - p) + 1 : (size_t)(end - p);
}

static bool
is_kept(const char *p, size_t len)
{
	size_t i = 0;

	while (i < len && strchr(" \t\r\n", p[i]))
		i++;
	return i == len || p[i] == '#';
}

/*
 * Lines correspond; each ends as it did; blank lines, comments and lines
 * with a finding are the same bytes.
 */
static void
assert_lines(
    const struct buffer *was, const struct buffer *now, const bool *lost)
{
	const char *p = was->data, *q = now->data;
	const char *p_end = p + was->len, *q_end = q + now->len;

	for (size_t line = 1; was->len && p < p_end; line++) {
		size_t n = line_len(p, p_end), m;

		ck_assert_msg(q < q_end, "line %zu is missing", line);
		m = line_len(q, q_end);
		ck_assert_int_eq(p[n - 1] == '\n', q[m - 1] == '\n');
		ck_assert_int_eq(n > 1 && p[n - 1] == '\n' && p[n - 2] == '\r',
		    m > 1 && q[m - 1] == '\n' && q[m - 2] == '\r');
		if (lost[line] || is_kept(p, n))
			ck_assert_msg(n == m && memcmp(p, q, n) == 0,
			    "line %zu was not kept: %.*s", line, (int)n, p);
		p += n;
		q += m;
	}
	ck_assert_ptr_eq(q, q_end);
}

/* All that holds for any text, in one spelling. The result goes to OUT. */
static void
assert_tidy(
    const struct buffer *text, enum tidy_spelling spelling, struct buffer *out)
{
	struct intern pool = {0};
	struct buffer again = {0}, records[2] = {{0}, {0}};
	bool *lost = mem_resize(NULL, text->len + 2, sizeof(bool));
	struct reading_of of = {&records[0], lost, 0, 0};

	memset(lost, 0, (text->len + 2) * sizeof(bool));
	tidied(out, text, spelling, text->len + 1);
	read_note(&pool, text, &of);
	if (text->len)
		assert_lines(text, out, lost);
	of.records = &records[1];
	read_note(&pool, out, &of);
	assert_same(&records[1], &records[0], text);
	tidied(&again, out, spelling, out->len + 1);
	assert_same(&again, out, text);
	for (int i = 0; i < 2; i++)
		buffer_free(&records[i]);
	buffer_free(&again);
	intern_free(&pool);
	free(lost);
}

#endif
