/*
 * The list of sources: that it fits the screen, that no figure of the tables
 * goes without a source, that a figure comes once.
 */
#include <check.h>
#include <stdlib.h>
#include <string.h>

#include "note_text.h"
#include "reference/reference.h"
#include "text/utf8.h"
#include "write/sources.h"
#include "write/sources_rows.h"

Suite *sources_suite(void);

START_TEST(the_list_fits)
{
	struct buffer out = {0};
	size_t beg = 0;

	sources_list(&out, SOURCES_TEXT);
	for (size_t i = 0; i < out.len; i++)
		if (out.data[i] == '\n') {
			ck_assert_uint_le(
			    utf8_cells(out.data + beg, i - beg), 80);
			beg = i + 1;
		}
	ck_assert_uint_eq(beg, out.len);
	buffer_free(&out);
}
END_TEST

struct tally {
	size_t all, usual, tasks;
};

static void
tally_row(void *arg, const struct sources_row *row)
{
	const struct buffer *table = &row->cell[SOURCES_TABLE];
	struct tally *tally = arg;

	tally->all++;
	tally->usual +=
	    strncmp(table->data, sources_tables[0], table->len) == 0;
	tally->tasks +=
	    strncmp(table->data, sources_tables[1], table->len) == 0;
	ck_assert_uint_gt(row->cell[SOURCES_VALUE].len, 0);
	ck_assert_uint_gt(row->cell[SOURCES_JOINT].len, 0);
}

/* Every figure of the tables is a figure of one of the sources listed. */
START_TEST(no_figure_without_a_source)
{
	struct tally tally = {0, 0, 0};
	size_t usual = 0, tasks = 0, n;

	for (size_t i = 0; i < ref_source_count(); i++)
		sources_rows(ref_source_get(i)->key, tally_row, &tally);
	for (int i = 0; i < VOCAB_MEASUREMENT_COUNT; i++) {
		ref_usual_rows(i, &n);
		usual += n;
		ref_functional(i, &n);
		tasks += n;
	}
	ck_assert_uint_gt(usual, 200);
	ck_assert_uint_eq(tally.usual, usual);
	ck_assert_uint_eq(tally.tasks, tasks);
}
END_TEST

/* A figure of a limb stands with each of its motions, and is told once. */
START_TEST(a_figure_of_a_limb_comes_once)
{
	struct tally tally = {0, 0, 0};

	sources_rows("Boone1978", tally_row, &tally);
	ck_assert_uint_eq(tally.all, 4);
}
END_TEST

START_TEST(one_source)
{
	struct buffer out = {0};
	char *text;

	ck_assert(sources_one(&out, "Rowe2000", SOURCES_TEXT));
	text = text_of(&out);
	ck_assert_ptr_nonnull(strstr(
	    text, "\n    knee flexion: 90-120 deg, stairs and chairs\n"));
	ck_assert_ptr_nonnull(strstr(text, "Seen:"));
	free(text);
}
END_TEST

START_TEST(from_memory_is_told)
{
	struct buffer out = {0};
	char *text;

	ck_assert(sources_one(&out, "JohnstonSmidt1970", SOURCES_TEXT));
	text = text_of(&out);
	ck_assert_ptr_nonnull(strstr(
	    text, "hip abduction: 20 deg, common activities; from memory"));
	free(text);
}
END_TEST

/* How many of its figures are known from memory is the last cell. */
START_TEST(from_memory_is_counted)
{
	struct buffer out = {0};
	char *text, *line;

	sources_list(&out, SOURCES_CSV);
	text = text_of(&out);
	line = strstr(text, "\r\nJohnstonSmidt1970,");
	ck_assert_ptr_nonnull(line);
	line[2 + strcspn(line + 2, "\r")] = '\0';
	ck_assert_str_eq(line + strlen(line) - 7, ",no,2,2");
	free(text);
}
END_TEST

START_TEST(a_group_of_sources)
{
	struct buffer out = {0};
	char *text;

	ck_assert(sources_one(&out, "Soucie2011", SOURCES_CSV));
	text = text_of(&out);
	ck_assert_int_eq(strncmp(text, "source,table,joint,", 19), 0);
	ck_assert_ptr_nonnull(strstr(text, "\r\nSoucie2011_CDC,"));
	ck_assert_ptr_nonnull(strstr(text, "\r\nSoucie2011_CDC_mean_only,"));
	ck_assert_ptr_null(strstr(strstr(text, "\r\n"), "source,table"));
	free(text);
}
END_TEST

START_TEST(no_such_source)
{
	struct buffer out = {0};

	ck_assert(!sources_one(&out, "Boone", SOURCES_TEXT));
	ck_assert_uint_eq(out.len, 0);
	ck_assert_str_eq(sources_nearest("boonea"), "BooneAzen1979");
	ck_assert_ptr_null(sources_nearest("zz"));
	buffer_free(&out);
}
END_TEST

Suite *
sources_suite(void)
{
	Suite *suite = suite_create("sources");
	TCase *sources = tcase_create("sources");

	tcase_add_test(sources, the_list_fits);
	tcase_add_test(sources, no_figure_without_a_source);
	tcase_add_test(sources, a_figure_of_a_limb_comes_once);
	tcase_add_test(sources, one_source);
	tcase_add_test(sources, from_memory_is_told);
	tcase_add_test(sources, from_memory_is_counted);
	tcase_add_test(sources, a_group_of_sources);
	tcase_add_test(sources, no_such_source);
	suite_add_tcase(suite, sources);
	return suite;
}
