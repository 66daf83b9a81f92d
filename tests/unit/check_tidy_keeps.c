/*
 * What the tidy writer must never change, whatever the bytes: over the whole
 * corpus, prefixes of its notes, and notes with slips of the pen.
 */
#include <check.h>
#include <glob.h>
#include <stdio.h>
#include <strings.h>

#include "tidy_note.h"

#ifndef CORPUS_DIR
#define CORPUS_DIR "corpus"
#endif

Suite *tidy_keeps_suite(void);

/* Calls EACH with every note that PATTERN finds; there must be LEAST. */
static void
for_notes(
    const char *pattern, size_t least, void (*each)(const struct buffer *note))
{
	char path[256];
	glob_t found = {0};

	snprintf(path, sizeof(path), "%s/%s", CORPUS_DIR, pattern);
	glob(path, 0, NULL, &found);
	ck_assert_uint_ge(found.gl_pathc, least);
	for (size_t i = 0; i < found.gl_pathc; i++) {
		FILE *file = fopen(found.gl_pathv[i], "rb");
		struct buffer note = {0};
		size_t got;

		ck_assert_ptr_nonnull(file);
		do {
			got = fread(buffer_room(&note, 8192), 1, 8192, file);
			note.len += got;
		} while (got);
		fclose(file);
		each(&note);
		buffer_free(&note);
	}
	globfree(&found);
}

static void
for_corpus(void (*each)(const struct buffer *note))
{
	for_notes("valid/*.range", 15, each);
	for_notes("demo/*.range", 9, each);
	for_notes("broken/*.range", 40, each);
	for_notes("rules/*/*.range", 60, each);
	for_notes("regress/*.range", 0, each);
}

static void
each_spelling(const struct buffer *note)
{
	struct buffer out = {0}, pieces = {0};

	for (size_t i = 0; i < COUNT(spellings); i++) {
		assert_tidy(note, spellings[i], &out);
		tidied(&pieces, note, spellings[i], 1 + i * 7);
		assert_same(&pieces, &out, note);
	}
	buffer_free(&out);
	buffer_free(&pieces);
}

START_TEST(corpus_keeps_its_meaning)
{
	for_corpus(each_spelling);
}
END_TEST

/* CR before each LF, or none. */
static struct buffer
with_ends(const struct buffer *note, bool cr)
{
	struct buffer out = {0};

	for (size_t i = 0; i < note->len; i++) {
		bool end = i + 1 < note->len && note->data[i + 1] == '\n';

		if (note->data[i] == '\r' && end)
			continue;
		if (note->data[i] == '\n' && cr)
			buffer_putc(&out, '\r');
		buffer_putc(&out, note->data[i]);
	}
	return out;
}

static void
each_line_end(const struct buffer *note)
{
	struct buffer lf = with_ends(note, false), crlf, want;
	struct buffer out[2] = {{0}, {0}};

	/* A lone CR at the very end is not one of a line end. */
	crlf = with_ends(&lf, true);
	assert_tidy(&lf, TIDY_LONG, &out[0]);
	assert_tidy(&crlf, TIDY_LONG, &out[1]);
	want = with_ends(&out[0], true);
	assert_same(&out[1], &want, &crlf);
	/* A BOM more, unless there is one. */
	if (lf.len < 3 || memcmp(lf.data, "\xef\xbb\xbf", 3) != 0) {
		crlf.len = want.len = 0;
		buffer_puts(&crlf, "\xef\xbb\xbf");
		buffer_add(&crlf, lf.data, lf.len);
		buffer_puts(&want, "\xef\xbb\xbf");
		buffer_add(&want, out[0].data, out[0].len);
		assert_tidy(&crlf, TIDY_LONG, &out[1]);
		assert_same(&out[1], &want, &crlf);
	}
	buffer_free(&lf);
	buffer_free(&crlf);
	buffer_free(&want);
	buffer_free(&out[0]);
	buffer_free(&out[1]);
}

START_TEST(line_ends_and_bom_stay)
{
	for_corpus(each_line_end);
}
END_TEST

static void
each_prefix(const struct buffer *note)
{
	struct buffer out = {0}, part = *note;

	for (part.len = 0; part.len <= note->len && part.len < 400; part.len++)
		assert_tidy(&part, spellings[part.len % 3], &out);
	buffer_free(&out);
}

START_TEST(prefixes_keep_their_meaning)
{
	for_corpus(each_prefix);
}
END_TEST

static uint32_t seed = 1;

static uint32_t
any(uint32_t n)
{
	seed = seed * 1664525 + 1013904223;
	return (seed >> 8) % n;
}

/* Slips of the pen: any bytes changed, doubled, lost or swapped. */
static void
each_slip(const struct buffer *note)
{
	static const char typed[] =
	    "0123456789 \t,;-/#\"\n\r.RLAPabeflpx\xc3\x80";
	struct buffer out = {0}, slip = {0};

	for (int round = 0; round < 60 && note->len > 1; round++) {
		uint32_t slips = 1 + any(3);

		slip.len = 0;
		buffer_add(&slip, note->data, note->len);
		while (slips-- > 0) {
			uint32_t at = any((uint32_t)slip.len - 1);
			char c = slip.data[at];

			switch (any(3)) {
			case 0:
				slip.data[at] = typed[any(sizeof(typed) - 1)];
				break;
			case 1:
				slip.data[at] = slip.data[at + 1];
				slip.data[at + 1] = c;
				break;
			default:
				memmove(slip.data + at, slip.data + at + 1,
				    slip.len - at - 1);
				slip.len -= slip.len > 2;
			}
		}
		assert_tidy(&slip, spellings[any(3)], &out);
	}
	buffer_free(&out);
	buffer_free(&slip);
}

START_TEST(slips_keep_their_meaning)
{
	seed = 1 + (uint32_t)_i;
	for_corpus(each_slip);
}
END_TEST

/* Is the word that ends at END one behind which a code stands? */
static bool
wants_code(const char *end, size_t len)
{
	static const char *const words[] = {"by", "rater", "subject"};

	for (size_t i = 0; i < COUNT(words); i++) {
		size_t n = strlen(words[i]);

		if (len >= n && strncasecmp(end - n, words[i], n) == 0 &&
		    (len == n || strchr(" \t\n", end[-1 - (int)n])))
			return true;
	}
	return false;
}

/*
 * The same note typed otherwise: letter case of words, blanks and tabs, but
 * not in texts, comments and codes.
 */
static void
typed_otherwise(const struct buffer *note, struct buffer *out)
{
	bool quoted = false, comment = false, code = false;
	size_t word = 0; /* the end of the last one */

	out->len = 0;
	for (size_t i = 0; i < note->len; i++) {
		char c = note->data[i];
		bool first = i > 3 && note->data[i - 1] == '\n';
		bool letter = (c | 32) >= 'a' && (c | 32) <= 'z';
		bool blank = c == ' ' || c == '\r' || c == '\n';

		if (first)
			quoted = comment = false;
		if (c == '"' && !comment)
			quoted = !quoted;
		if (c == '#' && !quoted)
			comment = true;
		if (!blank && (i == 0 || note->data[i - 1] == ' '))
			code = wants_code(note->data + word, word);
		if (!blank)
			word = i + 1;
		if (first && !blank && !comment)
			buffer_pad(out, any(2) ? ' ' : '\t', any(4));
		buffer_putc(
		    out, letter && !quoted && !comment && !code && any(3) == 0
			     ? (char)(c ^ 32)
			     : c);
		if (c == ' ' && !quoted && !comment)
			buffer_pad(out, any(2) ? ' ' : '\t', any(3));
	}
}

static void
each_typing(const struct buffer *note)
{
	struct buffer want = {0}, other = {0}, out = {0};

	assert_tidy(note, TIDY_LONG, &want);
	for (int i = 0; i < 20; i++) {
		typed_otherwise(note, &other);
		assert_tidy(&other, TIDY_LONG, &out);
		assert_same(&out, &want, &other);
	}
	buffer_free(&want);
	buffer_free(&other);
	buffer_free(&out);
}

START_TEST(typing_makes_no_difference)
{
	seed = 7;
	for_notes("valid/*.range", 15, each_typing);
}
END_TEST

/* A note that is read whole needs no spelling but the one asked for. */
static void
each_whole(const struct buffer *note)
{
	for (size_t i = 0; i < COUNT(spellings); i++) {
		struct tidy *t = tidy_new(spellings[i], NULL, NULL);
		struct buffer out = {0};

		tidy_begin(t, "note");
		tidy_text(t, note->data, note->len, &out);
		tidy_end(t, &out);
		ck_assert_uint_eq(t->words.fallbacks, 0);
		tidy_free(t);
		buffer_free(&out);
	}
}

START_TEST(the_first_spelling_will_do)
{
	for_notes("valid/*.range", 15, each_whole);
	for_notes("demo/*.range", 9, each_whole);
}
END_TEST

Suite *
tidy_keeps_suite(void)
{
	Suite *suite = suite_create("tidy keeps");
	TCase *keeps = tcase_create("any note");

	tcase_set_timeout(keeps, 300);
	tcase_add_test(keeps, corpus_keeps_its_meaning);
	tcase_add_test(keeps, line_ends_and_bom_stay);
	tcase_add_test(keeps, prefixes_keep_their_meaning);
	tcase_add_loop_test(keeps, slips_keep_their_meaning, 0, 3);
	tcase_add_test(keeps, typing_makes_no_difference);
	tcase_add_test(keeps, the_first_spelling_will_do);
	suite_add_tcase(suite, keeps);
	return suite;
}
