/*
 * Sound notes put together at random: the readings that were meant come out,
 * by a reader of CSV that is not ours too; writing them another way, or tidied,
 * changes nothing; and the findings of many persons in one note are those of
 * each alone, in any order.
 */
#include "properties.h"

#include "../unit/read_note.h"

#include <stdio.h>
#include <unistd.h>

#include "compare.h"
#include "random_note.h"
#include "write/tidy.h"

enum { NOTES = 400, PERSONS = 60, FEWEST = 20 };

static void
tear_down(void)
{
	read_note_end();
}

static void
make(struct made_note *made, uint64_t seed)
{
	struct random r = random_from(seed);

	made_note_at_random(made, &r, (uint32_t)seed);
}

/* By reading, and by trial. */
struct tables {
	struct buffer rows, trials;
};

static void
keep_rows(void *arg, struct session *s, struct sink *sink)
{
	struct tables *tables = arg;

	csv_session(&tables->rows, s, sink, false);
	csv_session(&tables->trials, s, sink, true);
}

/* In a file of its own, whose name is kept in PATH. */
static void
write_file(char *path, struct buffer *text)
{
	int fd = mkstemp(path);

	ck_assert_msg(fd >= 0, "cannot make %s", path);
	ck_assert_int_eq(buffer_write(text, fd), 0);
	close(fd);
	buffer_free(text);
}

static void
expect_as_meant(struct tables *tables, struct buffer *wanted)
{
	char trials_path[] = "build/trials-XXXXXX";
	char rows_path[] = "build/rows-XXXXXX";
	char wanted_path[] = "build/wanted-XXXXXX";
	char command[256];
	int status;

	write_file(rows_path, &tables->rows);
	write_file(trials_path, &tables->trials);
	write_file(wanted_path, wanted);
	snprintf(command, sizeof(command),
	    "python3 tests/properties/same_readings.py %s %s %s >&2", rows_path,
	    trials_path, wanted_path);
	status = system(command);
	unlink(rows_path);
	unlink(trials_path);
	unlink(wanted_path);
	ck_assert_msg(
	    status == 0, "these are not the readings that were meant");
}

START_TEST(what_was_meant_is_read)
{
	struct buffer text = {0}, wanted = {0};
	struct tables tables = {{0}, {0}};
	struct read_note n;
	size_t readings = 0;

	for (uint64_t seed = 0; seed < NOTES; seed++) {
		struct made_ways ways = {.random = random_from(seed + NOTES)};
		struct made_note made;

		make(&made, seed);
		made_note_write(&text, &made, seed % 2 ? &ways : NULL);
		readings += made_note_expect(&wanted, &made);
	}
	csv_header(&tables.rows, false);
	csv_header(&tables.trials, true);
	read_note_also(&n, text.data, text.len, true, keep_rows, &tables);
	for (size_t i = 0; i < n.findings.len; i++)
		EXPECT(rule_table[n.findings.at[i].rule].group != RULES_READING,
		    "line %u: %s", (unsigned)n.findings.at[i].line,
		    n.findings.at[i].message);
	ck_assert_uint_eq(n.rows.len, readings);
	expect_as_meant(&tables, &wanted);
	buffer_free(&text);
	read_note_free(&n);
}
END_TEST

START_TEST(another_way_of_writing_means_the_same)
{
	for (uint64_t seed = 0; seed < NOTES; seed++) {
		struct made_ways ways = {.random = random_from(seed + 1000000)};
		struct buffer plain = {0}, other = {0};
		struct read_note was, is;
		struct made_note made;

		make(&made, seed);
		made_note_write(&plain, &made, NULL);
		made_note_write(&other, &made, &ways);
		read_note(&was, plain.data, plain.len, true);
		read_note(&is, other.data, other.len, true);
		compare_notes(
		    (struct comparing){seed, "another way", false}, &was, &is);
		read_note_free(&was);
		read_note_free(&is);
		buffer_free(&plain);
		buffer_free(&other);
	}
}
END_TEST

START_TEST(tidied_means_the_same)
{
	for (uint64_t seed = 0; seed < NOTES; seed++) {
		struct made_ways ways = {.random = random_from(seed + 2000000)};
		struct tidy *tidy = tidy_new(
		    (enum tidy_spelling)(seed % (TIDY_KEEP + 1)), NULL, NULL);
		struct buffer text = {0}, made_tidy = {0};
		struct read_note was, is;
		struct made_note made;

		make(&made, seed);
		made_note_write(&text, &made, &ways);
		tidy_begin(tidy, "invented.range");
		tidy_text(tidy, text.data, text.len, &made_tidy);
		tidy_end(tidy, &made_tidy);
		EXPECT(!tidy_gave_up(tidy), "seed %llu: tidy gave up",
		    (unsigned long long)seed);
		read_note(&was, text.data, text.len, true);
		read_note(&is, made_tidy.data, made_tidy.len, true);
		compare_notes(
		    (struct comparing){seed, "tidied", false}, &was, &is);
		read_note_free(&was);
		read_note_free(&is);
		buffer_free(&text);
		buffer_free(&made_tidy);
		tidy_free(tidy);
	}
}
END_TEST

/* As in the three tests above. */
static void
take_ways(struct made_ways *all, const struct made_note *made, uint64_t seed)
{
	const uint64_t from[] = {NOTES, 1000000, 2000000};

	for (size_t i = 0; i < 3; i++) {
		struct made_ways ways = {.random = random_from(seed + from[i])};
		struct buffer text = {0};

		if (i > 0 || seed % 2)
			made_note_write(&text, made, &ways);
		for (int k = 0; k < MADE_WAYS; k++)
			all->taken[k] += ways.taken[k];
		buffer_free(&text);
	}
}

/* What is never made is never tried: each kind must come often. */
START_TEST(every_kind_is_made)
{
	struct made_counts counts = {0};
	struct made_ways ways = {0};

	for (uint64_t seed = 0; seed < NOTES; seed++) {
		struct made_note made;

		make(&made, seed);
		made_note_count(&counts, &made);
		take_ways(&ways, &made, seed);
	}
	for (int i = 0; i < MADE_KINDS; i++)
		EXPECT(counts.kinds[i] >= FEWEST, "%s was made %zu times",
		    made_kind_names[i], counts.kinds[i]);
	for (int i = 0; i < MADE_WAYS; i++)
		EXPECT(ways.taken[i] >= FEWEST, "%s was written %zu times",
		    made_way_names[i], ways.taken[i]);
	for (int i = 0; i < MADE_FORMS; i++)
		EXPECT(counts.forms[i] >= FEWEST, "form %d was made %zu times",
		    i, counts.forms[i]);
	for (int i = 0; i < VOCAB_DIGIT_COUNT; i++)
		EXPECT(counts.digits[i] >= FEWEST,
		    "joints of the %s stand on %zu lines",
		    vocab_name(VOCAB_CLASS_DIGIT, i), counts.digits[i]);
	for (int i = 0; i < VOCAB_MEASUREMENT_COUNT; i++)
		EXPECT(counts.measurements[i] > 0, "%s %s was never made",
		    vocab_measurements[i].joint_name,
		    vocab_measurements[i].motion_name);
}
END_TEST

static uint32_t
count_lines(const struct buffer *text, size_t from)
{
	uint32_t lines = 0;

	for (size_t i = from; i < text->len; i++)
		lines += text->data[i] == '\n';
	return lines;
}

/* PERSONS of them in one note, in an order made by SEED. */
static void
try_together(uint64_t seed)
{
	struct comparing c = {seed, "together", true};
	struct random r = random_from(seed);
	uint32_t order[PERSONS], line = 0;
	size_t rows = 0, findings = 0;
	struct buffer all = {0}, one = {0};
	struct read_note together, alone;
	struct made_note made;

	for (uint32_t i = 0; i < PERSONS; i++) {
		uint32_t k = random_below(&r, i + 1);

		order[i] = order[k];
		order[k] = i;
	}
	for (uint32_t i = 0; i < PERSONS; i++) {
		make(&made, order[i]);
		made_note_write(&all, &made, NULL);
	}
	read_note(&together, all.data, all.len, true);
	for (uint32_t i = 0; i < PERSONS; i++) {
		one.len = 0;
		make(&made, order[i]);
		made_note_write(&one, &made, NULL);
		read_note(&alone, one.data, one.len, true);
		compare_rows(c, &alone, &together, rows, line);
		compare_findings(c, &alone, &together, findings, line);
		rows += alone.rows.len;
		findings += alone.findings.len;
		line += count_lines(&one, 0);
		read_note_free(&alone);
	}
	ck_assert_uint_gt(findings, PERSONS);
	ck_assert_uint_eq(rows, together.rows.len);
	ck_assert_uint_eq(findings, together.findings.len);
	read_note_free(&together);
	buffer_free(&all);
	buffer_free(&one);
}

START_TEST(persons_together_are_persons_alone)
{
	for (uint64_t seed = 0; seed < 20; seed++)
		try_together(seed);
}
END_TEST

TCase *
properties_generated(void)
{
	TCase *tc = tcase_create("generated notes");

	tcase_add_unchecked_fixture(tc, NULL, tear_down);
	tcase_set_timeout(tc, 120);
	tcase_add_test(tc, what_was_meant_is_read);
	tcase_add_test(tc, another_way_of_writing_means_the_same);
	tcase_add_test(tc, tidied_means_the_same);
	tcase_add_test(tc, every_kind_is_made);
	tcase_add_test(tc, persons_together_are_persons_alone);
	return tc;
}
