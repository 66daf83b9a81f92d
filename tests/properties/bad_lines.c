/*
 * A bad line between good ones costs only itself: no other row changes and no
 * other finding, but for what is missing in that session.
 */
#include "properties.h"

#include "../unit/read_note.h"

#include "compare.h"
#include "random_line.h"
#include "random_note.h"

enum { MADE_NOTES = 200, TRIES = 200 };

static struct corpus notes;
static struct corpus made; /* at random */

static void
set_up(void)
{
	made_notes_add(&made, MADE_NOTES);
	corpus_add_readable(&notes);
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
	uint32_t line;	   /* the bad one, from 1 */
	uint32_t from, to; /* its session, from 1; TO is behind it */
	bool own;	   /* it has readings of its own */
	struct buffer what;
};

static bool
is_missing(enum rule rule)
{
	return rule_table[rule].group == RULES_MISSING &&
	       rule != RULE_MISSING_HEADER &&
	       strncmp(rule_table[rule].name, "missing-", 8) == 0;
}

/* A reading more may be compared with any. */
static bool
is_any(enum rule rule)
{
	(void)rule;
	return true;
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
    const struct read_note *is)
{
	struct comparing c = {t->seed, t->what.data, false};
	size_t k = 0;

	for (size_t i = 0; i < is->rows.len; i++) {
		const struct row *b = &is->rows.at[i];
		bool in_session = b->line >= t->from && b->line < t->to;

		if (b->line == t->line)
			continue;
		EXPECT(k < was->rows.len &&
			   was->rows.at[k].line +
				   (was->rows.at[k].line >= t->line) ==
			       b->line,
		    "seed %llu, %s: a row more or less at line %u",
		    (unsigned long long)c.seed, c.what, (unsigned)b->line);
		compare_row(c, &was->rows.at[k++], b,
		    t->own && b->line >= t->from ? is_any
		    : in_session		 ? is_missing
						 : NULL);
	}
	EXPECT(k == was->rows.len, "seed %llu, %s: %zu of %zu rows are left",
	    (unsigned long long)c.seed, c.what, k, was->rows.len);
}

/*
 * A line that could not be read may hold what is missing, or what is involved:
 * then neither is reported of its session, and an acceptance of it accepts
 * nothing.
 */
static bool
is_aside(const struct trying *t, const struct told *f, bool was)
{
	uint32_t line = f->line + (was && f->line >= t->line);

	return line >= t->from && line < t->to &&
	       (is_missing(f->rule) || f->rule == RULE_INVOLVED_NOT_MEASURED ||
		   f->rule == RULE_ACCEPTANCE_UNUSED);
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

		if (b && (b->line == t->line || is_aside(t, b, false)))
			continue;
		while (k < was->findings.len &&
		       is_aside(t, &was->findings.at[k], true))
			k++;
		a = k < was->findings.len ? &was->findings.at[k++] : NULL;
		if (a && b && b->unread == a->unread + more && more)
			more = 0; /* this is the cause */
		else if (a && b && a->unread != b->unread)
			b = NULL;
		EXPECT(a ? b && a->rule == b->rule && a->beg == b->beg &&
			       a->level == b->level &&
			       a->accepted == b->accepted &&
			       a->line + (a->line >= t->line) == b->line
			 : !b,
		    "seed %llu, %s: was %s at line %u, is %s at line %u",
		    (unsigned long long)t->seed, t->what.data,
		    a ? rule_table[a->rule].name : "nothing",
		    a ? (unsigned)a->line : 0,
		    b ? rule_table[b->rule].name : "nothing",
		    b ? (unsigned)b->line : 0);
	}
	EXPECT(more == 0, "seed %llu, %s is lost in silence",
	    (unsigned long long)t->seed, t->what.data);
}

/* Does it end a session, and begin another? */
static bool
parts_sessions(struct corpus_line line)
{
	struct tokens tokens = {0};
	int header;

	corpus_cut(&tokens, line);
	header = tokens.header;
	tokens_free(&tokens);
	return header == VOCAB_HEADER_SESSION || header == VOCAB_HEADER_SUBJECT;
}

/*
 * The session round the line that is put before line I of the note; comments
 * right above its `session` line accept what is said of it.
 */
static void
find_session(struct trying *t, size_t i)
{
	const struct corpus_note *note = t->note;
	size_t from = i, to = i;

	while (from > 0 && !parts_sessions(note->lines.at[from - 1]))
		from--;
	from -= from > 0;
	while (from > 0 && corpus_is_empty(note->lines.at[from - 1]))
		from--;
	while (to < note->lines.len && !parts_sessions(note->lines.at[to]))
		to++;
	t->line = (uint32_t)i + 1;
	t->from = (uint32_t)from + 1;
	t->to = (uint32_t)to + 2;
}

/* In one of the notes AMONG. Were all other findings compared? */
static bool
try_bad_line(uint64_t seed, const struct corpus *among)
{
	struct random r = random_from(seed);
	struct read_note was, is;
	struct buffer text = {0};
	struct trying t = {.seed = seed};
	size_t i, at;

	do {
		t.note = random_note(&r, among);
		i = random_below(&r, (uint32_t)t.note->lines.len);
	} while (!is_place(t.note, i));
	find_session(&t, i);
	corpus_put_lines(&text, t.note, 0, t.note->lines.len);
	read_note(&was, text.data, text.len, true);
	text.len = 0;
	corpus_put_lines(&text, t.note, 0, i);
	at = text.len;
	random_bad_line(&text, &r, &notes);
	buffer_printf(&t.what, "%s, line %zu: ", t.note->path, i + 1);
	buffer_add(&t.what, text.data + at, text.len - at);
	buffer_putc(&t.what, '\0');
	buffer_putc(&text, '\n');
	corpus_put_lines(&text, t.note, i, t.note->lines.len);
	read_note(&is, text.data, text.len, true);
	for (size_t k = 0; k < is.rows.len; k++)
		t.own = t.own || is.rows.at[k].line == t.line;
	expect_rows_but(&t, &was, &is);
	if (!t.own)
		expect_findings_but(&t, &was, &is);
	buffer_free(&t.what);
	buffer_free(&text);
	read_note_free(&was);
	read_note_free(&is);
	return !t.own;
}

static void
try_bad_lines(uint64_t from, const struct corpus *among)
{
	uint32_t compared = 0;

	for (uint64_t i = 0; i < TRIES; i++)
		compared += try_bad_line(from + i, among);
	ck_assert_uint_gt(compared, TRIES / 2);
}

START_TEST(a_bad_line_costs_only_itself)
{
	try_bad_lines((uint64_t)_i * TRIES, &notes);
}
END_TEST

START_TEST(nor_more_in_a_note_made_at_random)
{
	try_bad_lines((uint64_t)_i * TRIES, &made);
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
