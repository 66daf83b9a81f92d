/*
 * A bad line between good ones costs only itself: no other row changes and no
 * other finding, but for what is missing in that session.
 */
#include "properties.h"

#include "../unit/read_note.h"

#include "random_line.h"
#include "random_note.h"

enum { MADE_NOTES = 200 };

static struct corpus notes;
static struct corpus made; /* at random */

static void
set_up(void)
{
	made_notes_add(&made, MADE_NOTES);
	corpus_add(&notes, "corpus/demo/*.range");
	corpus_add(&notes, "corpus/valid/*.range");
	corpus_add(&notes, "corpus/rules/*/*.range");
}

static void
tear_down(void)
{
	corpus_free(&notes);
	corpus_free(&made);
	read_note_end();
}

/* What two notes are compared with, for a message. */
struct trying {
	uint64_t seed;
	const struct corpus_note *note;
	size_t line; /* from 1 */
	const char *text;
};

static bool
is_missing(enum rule rule)
{
	return rule_table[rule].group == RULES_MISSING &&
	       rule != RULE_MISSING_HEADER &&
	       strncmp(rule_table[rule].name, "missing-", 8) == 0;
}

/* The same list of rules, but for those of what is missing? */
static bool
same_rules(const char *a, const char *b)
{
	for (;;) {
		size_t an = strcspn(a, " "), bn = strcspn(b, " ");
		int rule = rule_find(a, an);

		if (an > 0 && rule >= 0 && is_missing((enum rule)rule))
			a += an + (a[an] == ' ');
		else if (bn > 0 && (rule = rule_find(b, bn)) >= 0 &&
			 is_missing((enum rule)rule))
			b += bn + (b[bn] == ' ');
		else if (an != bn || memcmp(a, b, an) != 0)
			return false;
		else if (an == 0)
			return true;
		else {
			a += an + (a[an] == ' ');
			b += bn + (b[bn] == ' ');
		}
	}
}

enum { ALL_FINDINGS, NOT_MISSING, NO_FINDINGS };

static void
expect_same_row(const struct trying *t, const struct row *a,
    const struct row *b, int findings)
{
	for (int i = 0; i < COL_FILE; i++) {
		bool same = strcmp(a->cell[i], b->cell[i]) == 0;

		if (i == COL_FINDINGS)
			same = findings == NO_FINDINGS || same ||
			       (findings == NOT_MISSING &&
				   same_rules(a->cell[i], b->cell[i]));
		EXPECT(same,
		    "seed %llu, %s, at line %zu %s: the row of line %u had "
		    "%s '%s', now '%s'",
		    (unsigned long long)t->seed, t->note->path, t->line,
		    t->text, (unsigned)a->line, COLUMN_NAME(i), a->cell[i],
		    b->cell[i]);
	}
}

/* May a line be put before line I, so that it changes nothing there? */
static bool
is_place(const struct corpus_note *note, size_t i)
{
	if (!corpus_names_joint(note->lines.at[i]))
		return false;
	while (i-- > 0 && corpus_is_empty(note->lines.at[i])) {
		struct corpus_line line = note->lines.at[i];

		if (memmem(line.text, line.len, "accept", 6))
			return false; /* it accepts on the next line */
	}
	return true;
}

static void
expect_rows_but(const struct trying *t, const struct read_note *was,
    const struct read_note *is, bool own)
{
	size_t k = 0;

	for (size_t i = 0; i < is->rows.len; i++) {
		const struct row *b = &is->rows.at[i];

		if (b->line == t->line)
			continue;
		EXPECT(k < was->rows.len &&
			   was->rows.at[k].line +
				   (was->rows.at[k].line >= t->line) ==
			       b->line,
		    "seed %llu, %s, at line %zu %s: a row more or less at "
		    "line %u",
		    (unsigned long long)t->seed, t->note->path, t->line,
		    t->text, (unsigned)b->line);
		expect_same_row(
		    t, &was->rows.at[k++], b, own ? NO_FINDINGS : NOT_MISSING);
	}
	EXPECT(k == was->rows.len,
	    "seed %llu, %s, at line %zu %s: %zu of %zu rows are left",
	    (unsigned long long)t->seed, t->note->path, t->line, t->text, k,
	    was->rows.len);
}

/*
 * A line that could not be read may hold what is missing, or what is involved:
 * then neither is reported, and an acceptance of it accepts nothing.
 */
static bool
is_aside(const struct told *f)
{
	return is_missing(f->rule) || f->rule == RULE_INVOLVED_NOT_MEASURED ||
	       f->rule == RULE_ACCEPTANCE_UNUSED;
}

/* Under a line that failed, a line without a joint adds to its cause. */
static bool
is_counted_above(const struct trying *t, const struct read_note *is)
{
	for (size_t i = 0; i < is->findings.len; i++)
		if (is->findings.at[i].line == t->line)
			return false;
	return true;
}

static void
expect_findings_but(const struct trying *t, const struct read_note *was,
    const struct read_note *is)
{
	size_t k = 0, more = is_counted_above(t, is);

	for (size_t i = 0; i <= is->findings.len; i++) {
		const struct told *b =
		    i < is->findings.len ? &is->findings.at[i] : NULL;
		const struct told *a;

		if (b && (b->line == t->line || is_aside(b)))
			continue;
		while (k < was->findings.len && is_aside(&was->findings.at[k]))
			k++;
		a = k < was->findings.len ? &was->findings.at[k++] : NULL;
		if (a && b && b->unread == a->unread + more && more)
			more = 0; /* this is the cause */
		else if (a && b && a->unread != b->unread)
			b = NULL;
		EXPECT(a ? b && a->rule == b->rule && a->beg == b->beg &&
			       a->accepted == b->accepted &&
			       a->line + (a->line >= t->line) == b->line
			 : !b,
		    "seed %llu, %s, at line %zu %s: was %s at line %u, is %s "
		    "at line %u",
		    (unsigned long long)t->seed, t->note->path, t->line,
		    t->text, a ? rule_table[a->rule].name : "nothing",
		    a ? (unsigned)a->line : 0,
		    b ? rule_table[b->rule].name : "nothing",
		    b ? (unsigned)b->line : 0);
	}
	EXPECT(more == 0, "seed %llu, %s, line %zu is lost in silence: %s",
	    (unsigned long long)t->seed, t->note->path, t->line, t->text);
}

/* In one of the notes AMONG. */
static void
try_bad_line(uint64_t seed, const struct corpus *among)
{
	struct random r = random_from(seed);
	const struct corpus_note *note;
	struct read_note was, is;
	struct buffer text = {0};
	struct trying t = {.seed = seed};
	size_t i, at, own = 0;

	do {
		note = random_note(&r, among);
		i = random_below(&r, (uint32_t)note->lines.len);
	} while (!is_place(note, i));
	corpus_put_lines(&text, note, 0, note->lines.len);
	read_note(&was, text.data, text.len, true);
	text.len = 0;
	corpus_put_lines(&text, note, 0, i);
	at = text.len;
	random_bad_line(&text, &r, &notes);
	buffer_putc(&text, '\n');
	t.note = note;
	t.line = i + 1;
	t.text = mem_text(text.data + at, text.len - at - 1);
	corpus_put_lines(&text, note, i, note->lines.len);
	read_note(&is, text.data, text.len, true);
	for (size_t k = 0; k < is.rows.len; k++)
		own += is.rows.at[k].line == t.line;
	expect_rows_but(&t, &was, &is, own > 0);
	if (own == 0)
		expect_findings_but(&t, &was, &is);
	free((char *)t.text);
	buffer_free(&text);
	read_note_free(&was);
	read_note_free(&is);
}

START_TEST(a_bad_line_costs_only_itself)
{
	for (uint64_t i = 0; i < 200; i++)
		try_bad_line((uint64_t)_i * 200 + i, &notes);
}
END_TEST

START_TEST(nor_more_in_a_note_made_at_random)
{
	for (uint64_t i = 0; i < 200; i++)
		try_bad_line((uint64_t)_i * 200 + i, &made);
}
END_TEST

TCase *
properties_bad_lines(void)
{
	TCase *tc = tcase_create("bad lines");

	tcase_add_unchecked_fixture(tc, set_up, tear_down);
	tcase_set_timeout(tc, 120);
	tcase_add_loop_test(tc, a_bad_line_costs_only_itself, 0, 20);
	tcase_add_loop_test(tc, nor_more_in_a_note_made_at_random, 0, 20);
	return tc;
}
