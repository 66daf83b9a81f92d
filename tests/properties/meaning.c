/*
 * Line ends, a byte-order mark, letter case, blanks and commas mean nothing;
 * nor does the order of persons who have nothing to do with each other.
 */
#include "properties.h"

#include "../unit/read_note.h"

#include "corpus.h"

#include "parser.h"
#include "text/utf8.h"

static struct corpus notes;
static struct tokens cut;

static void
set_up(void)
{
	corpus_add(&notes, "corpus/demo/*.range");
	corpus_add(&notes, "corpus/valid/*.range");
	corpus_add(&notes, "corpus/rules/*/*.range");
}

static void
tear_down(void)
{
	corpus_free(&notes);
	read_note_end();
	tokens_free(&cut);
	cut = (struct tokens){0};
}

/* The same in every column but those of the file. */
static void
expect_same_row(
    uint64_t seed, const char *what, const struct row *a, const struct row *b)
{
	for (int i = 0; i < COL_FILE; i++)
		EXPECT(strcmp(a->cell[i], b->cell[i]) == 0,
		    "seed %llu, %s: the row of line %u had %s '%s', now '%s'",
		    (unsigned long long)seed, what, (unsigned)a->line,
		    COLUMN_NAME(i), a->cell[i], b->cell[i]);
}

/* Blanks, tabs and, where WITH_COMMAS, a comma that is not between digits. */
static void
put_gap(struct buffer *out, struct random *r, bool with_commas)
{
	static const char *const gaps[] = {" ", "  ", "\t", " \t ", "     "};

	if (with_commas && random_one_in(r, 4))
		buffer_puts(out, random_one_in(r, 2) ? " ," : ",");
	buffer_puts(out, gaps[random_below(r, 5)]);
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
		buffer_puts(&text, seed % 3 ? "\r\n" : "\n");
	}
	read_note(&is, text.data, text.len, true);
	for (size_t i = 0; i < was.rows.len; i++) {
		EXPECT(i < is.rows.len &&
			   was.rows.at[i].line == is.rows.at[i].line,
		    "seed %llu, %s: the rows of line %u differ\n%.*s",
		    (unsigned long long)seed, note->path,
		    (unsigned)was.rows.at[i].line, (int)text.len, text.data);
		expect_same_row(
		    seed, note->path, &was.rows.at[i], &is.rows.at[i]);
	}
	EXPECT(was.rows.len == is.rows.len, "seed %llu, %s: rows more",
	    (unsigned long long)seed, note->path);
	EXPECT(was.findings.len == is.findings.len,
	    "seed %llu, %s: %zu findings, now %zu\n%.*s",
	    (unsigned long long)seed, note->path, was.findings.len,
	    is.findings.len, (int)text.len, text.data);
	buffer_free(&text);
	read_note_free(&was);
	read_note_free(&is);
}

START_TEST(case_blanks_and_line_ends_mean_nothing)
{
	for (size_t i = 0; i < notes.len; i++)
		for (uint64_t seed = 0; seed < 20; seed++)
			try_other_way(&notes.at[i], seed);
}
END_TEST

/* --- the order of persons ----------------------------------------------------
 */

struct block {
	const struct corpus_note *note;
	size_t from, to; /* lines; the first is that of the subject */
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
add_block(struct blocks *blocks, struct block b)
{
	struct corpus_line code = code_of(&b);

	if (code.len == 0 || !stands_alone(&b))
		return;
	for (size_t i = 0; i < blocks->len; i++) {
		struct corpus_line other = code_of(&blocks->at[i]);

		if (other.len == code.len &&
		    memcmp(other.text, code.text, code.len) == 0)
			return; /* the same person again */
	}
	*MEM_PUSH(blocks) = b;
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
				add_block(
				    blocks, (struct block){note, from, i});
			from = i;
		}
		if (from < note->lines.len)
			add_block(blocks,
			    (struct block){note, from, note->lines.len});
	}
}

static void
put_block(struct buffer *out, const struct block *b)
{
	corpus_put_lines(out, b->note, b->from, b->from + 1);
	buffer_puts(out, "rater zz\ninstrument goniometer step 1\n");
	corpus_put_lines(out, b->note, b->from + 1, b->to);
}

/* The next row of the person CODE from *I on, or NULL. */
static const struct row *
next_of(const struct read_note *n, struct corpus_line code, size_t *i)
{
	for (; *i < n->rows.len; ++*i) {
		const struct row *row = &n->rows.at[*i];

		if (strlen(row->cell[COL_SUBJECT]) == code.len &&
		    memcmp(row->cell[COL_SUBJECT], code.text, code.len) == 0)
			return &n->rows.at[(*i)++];
	}
	return NULL;
}

static void
try_order(struct blocks *blocks, const struct read_note *was, uint64_t seed)
{
	struct random r = random_from(seed);
	struct buffer text = {0};
	struct read_note is;

	for (size_t i = blocks->len - 1; i > 0; i--) {
		size_t k = random_below(&r, (uint32_t)i + 1);
		struct block b = blocks->at[i];

		blocks->at[i] = blocks->at[k];
		blocks->at[k] = b;
	}
	for (size_t i = 0; i < blocks->len; i++)
		put_block(&text, &blocks->at[i]);
	read_note(&is, text.data, text.len, true);
	for (size_t i = 0; i < blocks->len; i++) {
		struct corpus_line code = code_of(&blocks->at[i]);
		size_t ka = 0, kb = 0;
		const struct row *a, *b;

		while ((a = next_of(was, code, &ka))) {
			b = next_of(&is, code, &kb);
			EXPECT(b != NULL, "seed %llu, %.*s: rows lost",
			    (unsigned long long)seed, (int)code.len, code.text);
			expect_same_row(seed, a->cell[COL_SUBJECT], a, b);
		}
	}
	ck_assert_uint_eq(was->rows.len, is.rows.len);
	ck_assert_uint_eq(was->findings.len, is.findings.len);
	buffer_free(&text);
	read_note_free(&is);
}

START_TEST(the_order_of_persons_means_nothing)
{
	struct blocks blocks = {0};
	struct buffer text = {0};
	struct read_note was;

	find_blocks(&blocks);
	ck_assert_uint_gt(blocks.len, 15);
	for (size_t i = 0; i < blocks.len; i++)
		put_block(&text, &blocks.at[i]);
	read_note(&was, text.data, text.len, true);
	for (uint64_t seed = 0; seed < 20; seed++)
		try_order(&blocks, &was, seed);
	read_note_free(&was);
	buffer_free(&text);
	free(blocks.at);
}
END_TEST

TCase *
properties_meaning(void)
{
	TCase *tc = tcase_create("what means nothing");

	tcase_add_unchecked_fixture(tc, set_up, tear_down);
	tcase_set_timeout(tc, 120);
	tcase_add_test(tc, case_blanks_and_line_ends_mean_nothing);
	tcase_add_test(tc, the_order_of_persons_means_nothing);
	return tc;
}
