/*
 * A note that is cut anywhere is read without a crash; what stands on the
 * lines that are whole is read as before.
 */
#include "properties.h"

#include "../unit/read_note.h"

#include "corpus.h"
#include "random_note.h"

enum { MADE_NOTES = 50 };

static struct corpus notes; /* of the corpus, and made at random */

static void
set_up(void)
{
	corpus_add_readable(&notes);
	corpus_add(&notes, "corpus/broken/*.range");
	made_notes_add(&notes, MADE_NOTES);
}

static void
tear_down(void)
{
	corpus_free(&notes);
	read_note_end();
}

/* Headers below a line still say these of it. */
static bool
may_change(int column)
{
	return column == COL_AGE || column == COL_SEX ||
	       column == COL_INVOLVED || column == COL_FINDINGS ||
	       column == COL_SUBJECT;
}

/* The rows of the first BYTES, up to line LAST, are the first of ALL. */
static void
expect_prefix(const struct corpus_note *note, const struct read_note *all,
    size_t bytes, uint32_t last)
{
	struct read_note n;
	size_t k;

	read_note(&n, note->text.data, bytes, true);
	for (k = 0; k < n.rows.len && n.rows.at[k].line <= last; k++) {
		const struct row *a = &n.rows.at[k], *b = &all->rows.at[k];

		EXPECT(k < all->rows.len, "%s: a row more of %zu bytes",
		    note->path, bytes);
		for (int i = 0; i < COLUMNS; i++)
			EXPECT(may_change(i) ||
				   strcmp(a->cell[i], b->cell[i]) == 0,
			    "%s: of %zu bytes line %u has %s '%s', of all "
			    "'%s'",
			    note->path, bytes, (unsigned)a->line,
			    COLUMN_NAME(i), a->cell[i], b->cell[i]);
	}
	EXPECT(k == all->rows.len || all->rows.at[k].line > last,
	    "%s: of %zu bytes line %u has lost a row", note->path, bytes,
	    k < all->rows.len ? (unsigned)all->rows.at[k].line : 0);
	read_note_free(&n);
}

static void
cut_everywhere(const struct corpus_note *note)
{
	struct read_note all;
	uint32_t whole = 0; /* lines that are whole */

	read_note(&all, note->text.data, note->text.len, true);
	for (size_t bytes = 0; bytes <= note->text.len; bytes++) {
		bool at_end = bytes > 0 && note->text.data[bytes - 1] == '\n';

		whole += at_end;
		/* Very long lines: their inside need not be cut each byte. */
		if (at_end || note->text.len < 4000 || bytes % 97 == 0)
			expect_prefix(note, &all, bytes, whole);
	}
	read_note_free(&all);
}

START_TEST(every_beginning_is_a_note)
{
	for (size_t i = 0; i < notes.len; i++)
		cut_everywhere(&notes.at[i]);
}
END_TEST

TCase *
properties_beginnings(void)
{
	TCase *tc = tcase_create("beginnings");

	tcase_add_unchecked_fixture(tc, set_up, tear_down);
	tcase_set_timeout(tc, 120);
	tcase_add_test(tc, every_beginning_is_a_note);
	return tc;
}
