/*
 * Persons who have nothing to do with each other, and sessions of one person,
 * mean the same in any order; and what is said of many persons in one note is
 * what is said of each alone.
 */
#include "properties.h"

#include "../unit/read_note.h"

#include "compare.h"
#include "corpus.h"
#include "random_note.h"

#include "parser.h"

static struct corpus notes;
static struct tokens cut;

static void
set_up(void)
{
	corpus_add_readable(&notes);
}

static void
tear_down(void)
{
	corpus_free(&notes);
	read_note_end();
	tokens_free(&cut);
	cut = (struct tokens){0};
}

/* --- the order of persons ----------------------------------------------------
 */

struct block {
	const struct corpus_note *note;
	size_t from, to; /* lines; the first is that of the subject */
	uint32_t lines;	 /* as put_block() writes it */
	struct read_note alone;
};

struct blocks {
	struct block *at;
	size_t len, cap;
};

static int
header_of(struct corpus_line line)
{
	corpus_cut(&cut, line);
	return cut.header;
}

/*
 * A block stands for itself where no header of measuring goes on behind it:
 * rater and goniometer are said anew in each (see put_block), the others
 * cannot be unsaid.
 */
static bool
stands_alone(const struct block *b)
{
	bool session = false;

	for (size_t i = b->from; i < b->to; i++) {
		int header = header_of(b->note->lines.at[i]);

		if (header == VOCAB_HEADER_MODE ||
		    header == VOCAB_HEADER_REQUIRE)
			return false;
		if (header == VOCAB_HEADER_INSTRUMENT && cut.len > 1 &&
		    (cut.at[1].kind != T_INSTRUMENT ||
			vocab_instrument_linear[cut.at[1].id]))
			return false;
		session = session || header == VOCAB_HEADER_SESSION;
	}
	return session;
}

static struct corpus_line
code_of(const struct block *b)
{
	struct corpus_line line = b->note->lines.at[b->from];

	corpus_cut(&cut, line);
	if (cut.len != 2 || cut.at[1].kind != T_CODE)
		return (struct corpus_line){NULL, 0};
	return (struct corpus_line){
	    line.text + cut.at[1].beg, (size_t)(cut.at[1].end - cut.at[1].beg)};
}

static void
add_block(struct blocks *blocks, const struct block *b)
{
	struct corpus_line code = code_of(b);

	if (code.len == 0 || !stands_alone(b))
		return;
	for (size_t i = 0; i < blocks->len; i++) {
		struct corpus_line other = code_of(&blocks->at[i]);

		if (other.len == code.len &&
		    memcmp(other.text, code.text, code.len) == 0)
			return; /* the same person again */
	}
	*MEM_PUSH(blocks) = *b;
}

static void
find_blocks(struct blocks *blocks)
{
	for (size_t k = 0; k < notes.len; k++) {
		const struct corpus_note *note = &notes.at[k];
		size_t from = note->lines.len;

		for (size_t i = 0; i < note->lines.len; i++) {
			if (header_of(note->lines.at[i]) !=
			    VOCAB_HEADER_SUBJECT)
				continue;
			if (from < i)
				add_block(blocks,
				    &(struct block){
					.note = note, .from = from, .to = i});
			from = i;
		}
		if (from < note->lines.len)
			add_block(blocks, &(struct block){.note = note,
					      .from = from,
					      .to = note->lines.len});
	}
}

/* Returns the number of its lines. */
static uint32_t
put_block(struct buffer *out, const struct block *b)
{
	corpus_put_lines(out, b->note, b->from, b->from + 1);
	buffer_puts(out, "rater zz\ninstrument goniometer step 1\n");
	corpus_put_lines(out, b->note, b->from + 1, b->to);
	return (uint32_t)(b->to - b->from) + 2;
}

static void
shuffle(struct blocks *blocks, struct random *r)
{
	for (size_t i = blocks->len - 1; i > 0; i--) {
		size_t k = random_below(r, (uint32_t)i + 1);
		struct block b = blocks->at[i];

		blocks->at[i] = blocks->at[k];
		blocks->at[k] = b;
	}
}

/* Together they say what each says alone, one behind the other. */
static void
try_order(struct blocks *blocks, uint64_t seed)
{
	struct random r = random_from(seed);
	struct buffer text = {0};
	struct read_note all;
	size_t rows = 0, findings = 0;
	uint32_t line = 0;

	shuffle(blocks, &r);
	for (size_t i = 0; i < blocks->len; i++)
		put_block(&text, &blocks->at[i]);
	read_note(&all, text.data, text.len, true);
	for (size_t i = 0; i < blocks->len; i++) {
		const struct block *b = &blocks->at[i];
		struct comparing c = {seed, b->note->path, true};

		compare_rows(c, &b->alone, &all, rows, line);
		compare_findings(c, &b->alone, &all, findings, line);
		rows += b->alone.rows.len;
		findings += b->alone.findings.len;
		line += b->lines;
	}
	ck_assert_uint_eq(rows, all.rows.len);
	ck_assert_uint_eq(findings, all.findings.len);
	buffer_free(&text);
	read_note_free(&all);
}

START_TEST(the_order_of_persons_means_nothing)
{
	struct blocks blocks = {0};
	struct buffer text = {0};
	size_t findings = 0;

	find_blocks(&blocks);
	ck_assert_uint_gt(blocks.len, 15);
	for (size_t i = 0; i < blocks.len; i++) {
		text.len = 0;
		blocks.at[i].lines = put_block(&text, &blocks.at[i]);
		read_note(&blocks.at[i].alone, text.data, text.len, true);
		findings += blocks.at[i].alone.findings.len;
	}
	ck_assert_uint_gt(findings, blocks.len);
	for (uint64_t seed = 0; seed < 20; seed++)
		try_order(&blocks, seed);
	for (size_t i = 0; i < blocks.len; i++)
		read_note_free(&blocks.at[i].alone);
	buffer_free(&text);
	free(blocks.at);
}
END_TEST

/* --- the order of sessions ---------------------------------------------------
 */

/* They look at the sessions above: what they say depends on the order. */
static bool
looks_back(enum rule rule)
{
	return rule == RULE_DROP_FROM_LAST || rule == RULE_MISSING_OPPOSITE;
}

/* The next row of the session of A's day from *I on, or NULL. */
static const struct row *
next_of_day(const struct read_note *n, const struct row *a, size_t *i)
{
	while (*i < n->rows.len) {
		const struct row *b = &n->rows.at[(*i)++];

		if (strcmp(a->cell[COL_SESSION], b->cell[COL_SESSION]) == 0)
			return b;
	}
	return NULL;
}

static void
try_sessions(uint64_t seed, size_t *turned)
{
	struct comparing c = {seed, "sessions in another order", false};
	struct random r = random_from(seed);
	struct buffer text = {0};
	struct read_note was, is;
	struct made_note made;

	made_note_at_random(&made, &r, (uint32_t)seed);
	made_note_write(&text, &made, NULL);
	read_note(&was, text.data, text.len, true);
	for (uint32_t i = made.n - 1; i > 0; i--) {
		uint32_t k = random_below(&r, i + 1);
		struct made_session s = made.sessions[i];

		*turned += i != k;
		made.sessions[i] = made.sessions[k];
		made.sessions[k] = s;
	}
	text.len = 0;
	made_note_write(&text, &made, NULL);
	read_note(&is, text.data, text.len, true);
	EXPECT(was.rows.len == is.rows.len, "seed %llu: %zu rows, now %zu",
	    (unsigned long long)seed, was.rows.len, is.rows.len);
	for (size_t i = 0, k = 0; i < was.rows.len; i++) {
		const struct row *a = &was.rows.at[i], *b;

		if (i == 0 ||
		    strcmp(a->cell[COL_SESSION], a[-1].cell[COL_SESSION]) != 0)
			k = 0; /* another day: it may be anywhere */
		b = next_of_day(&is, a, &k);
		EXPECT(b != NULL, "seed %llu: the row of line %u is lost",
		    (unsigned long long)seed, (unsigned)a->line);
		compare_row(c, a, b, looks_back);
	}
	buffer_free(&text);
	read_note_free(&was);
	read_note_free(&is);
}

START_TEST(the_order_of_sessions_means_nothing)
{
	size_t turned = 0;

	for (uint64_t seed = 0; seed < 400; seed++)
		try_sessions(seed, &turned);
	ck_assert_uint_gt(turned, 100);
}
END_TEST

TCase *
properties_orders(void)
{
	TCase *tc = tcase_create("orders");

	tcase_add_unchecked_fixture(tc, set_up, tear_down);
	tcase_set_timeout(tc, 120);
	tcase_add_test(tc, the_order_of_persons_means_nothing);
	tcase_add_test(tc, the_order_of_sessions_means_nothing);
	return tc;
}
