/*
 * Line ends, the last of them, a byte-order mark, letter case, blanks and
 * commas mean nothing.
 */
#include "properties.h"

#include "../unit/read_note.h"

#include "compare.h"
#include "corpus.h"
#include "random_note.h"

#include "parser.h"
#include "text/utf8.h"

enum { MADE_NOTES = 200, WAYS_OF_EACH = 20 };

static struct corpus notes;
static struct corpus made; /* at random */
static struct tokens cut;

static void
set_up(void)
{
	corpus_add_readable(&notes);
	made_notes_add(&made, MADE_NOTES);
}

static void
tear_down(void)
{
	corpus_free(&notes);
	corpus_free(&made);
	read_note_end();
	tokens_free(&cut);
	cut = (struct tokens){0};
}

/* Blanks, tabs and, where WITH_COMMAS, a comma that is not between digits. */
static void
put_gap(struct buffer *out, struct random *r, bool with_commas)
{
	static const char *const gaps[] = {
	    " ", "  ", "\t", " \t ", "     ", "\xc2\xa0"};

	if (with_commas && random_one_in(r, 4))
		buffer_puts(out, random_one_in(r, 2) ? " ," : ",");
	buffer_puts(out, gaps[random_below(r, 6)]);
}

static void
put_word(struct buffer *out, struct random *r, struct corpus_line line,
    const struct token *t)
{
	bool plain = t->kind == T_TEXT || t->kind == T_CODE || t->kind == T_BAD;

	for (uint16_t i = t->beg; i < t->end; i++) {
		char c = line.text[i];

		if (plain)
			buffer_putc(out, c);
		else if (c == ' ' || c == '\t') {
			put_gap(out, r, false);
			while (
			    line.text[i + 1] == ' ' || line.text[i + 1] == '\t')
				i++;
		} else if (((c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z')) &&
			   random_one_in(r, 2))
			buffer_putc(out, (char)(c ^ 0x20));
		else
			buffer_putc(out, c);
	}
}

/* The line, written another way. */
static void
put_other_way(struct buffer *out, struct random *r, struct corpus_line line)
{
	size_t beg = 0, bad;

	if (utf8_check(line.text, line.len, &bad) < line.len ||
	    line.len > 4000) {
		buffer_add(out, line.text, line.len);
		return;
	}
	corpus_cut(&cut, line);
	if (random_one_in(r, 2))
		put_gap(out, r, false);
	for (size_t i = 0; i < cut.len; i++) {
		const struct token *t = &cut.at[i];

		if (i > 0 && t->beg > beg)
			put_gap(out, r, true);
		put_word(out, r, line, t);
		beg = t->end;
	}
	if (cut.comment_beg < cut.comment_end) {
		buffer_putc(out, ' ');
		buffer_add(out, line.text + cut.comment_beg,
		    cut.comment_end - cut.comment_beg);
	} else if (random_one_in(r, 3)) {
		put_gap(out, r, true);
	}
}

static void
try_other_way(const struct corpus_note *note, uint64_t seed)
{
	struct random r = random_from(seed);
	struct read_note was, is;
	struct buffer text = {0};

	corpus_put_lines(&text, note, 0, note->lines.len);
	read_note(&was, text.data, text.len, true);
	text.len = 0;
	if (seed % 2)
		buffer_puts(&text, "\xef\xbb\xbf");
	for (size_t i = 0; i < note->lines.len; i++) {
		put_other_way(&text, &r, note->lines.at[i]);
		if (seed % 5 > 0 || i + 1 < note->lines.len)
			buffer_puts(&text, seed % 3 ? "\r\n" : "\n");
	}
	read_note(&is, text.data, text.len, true);
	compare_notes((struct comparing){seed, note->path, false}, &was, &is);
	buffer_free(&text);
	read_note_free(&was);
	read_note_free(&is);
}

START_TEST(case_blanks_and_line_ends_mean_nothing)
{
	for (size_t i = 0; i < notes.len; i++)
		for (uint64_t seed = 0; seed < WAYS_OF_EACH; seed++)
			try_other_way(&notes.at[i], seed);
}
END_TEST

START_TEST(nor_in_a_note_made_at_random)
{
	for (size_t i = 0; i < made.len; i++)
		for (uint64_t seed = 0; seed < WAYS_OF_EACH; seed++)
			try_other_way(&made.at[i], seed);
}
END_TEST

TCase *
properties_meaning(void)
{
	TCase *tc = tcase_create("what means nothing");

	tcase_add_unchecked_fixture(tc, set_up, tear_down);
	tcase_set_timeout(tc, 120);
	tcase_add_test(tc, case_blanks_and_line_ends_mean_nothing);
	tcase_add_test(tc, nor_in_a_note_made_at_random);
	return tc;
}
