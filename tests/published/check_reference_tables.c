/*
 * Holds the limits and the end feels as compiled against the tables as they
 * were taken down, and the list of rows left out against those it names.
 */
#include <check.h>
#include <string.h>

#include "reference/reference.h"
#include "reference_tables.h"
#include "vocab/vocab.h"

Suite *published_reference_suite(void);

static const char *const figure_files[] = {"norms_38cfr.tsv",
    "norms_cdc_2011.tsv", "norms_aaos_and_studies.tsv", "jaw.tsv",
    "functional_arcs.tsv", "measurement_error.tsv"};

/* How many rows of the tables ROW of the list of rows left out names. */
static int
rows_named(const struct line *row)
{
	int named = 0;

	for (size_t f = 0; f < sizeof(figure_files) / sizeof(*figure_files);
	     f++) {
		struct table table;

		if (strcmp(figure_files[f], row->cell[0]) != 0)
			continue;
		table = taken_read(figure_files[f]);
		for (size_t i = 0; i < table.len; i++)
			named +=
			    strcmp(table.at[i].cell[KEY], row->cell[1]) == 0 &&
			    strcmp(table.at[i].cell[JOINT], row->cell[2]) ==
				0 &&
			    strcmp(table.at[i].cell[MOTION], row->cell[3]) ==
				0 &&
			    strcmp(table.at[i].cell[VALUE], row->cell[4]) == 0;
		taken_free(&table);
	}
	return named;
}

/* The list may not outlive the rows that it names, and each has a reason. */
START_TEST(rows_left_out_exist_and_have_a_reason)
{
	for (size_t i = 0; i < taken_not.len; i++) {
		const struct line *row = &taken_not.at[i];

		ck_assert_int_eq(row->cells, 6);
		ck_assert_str_ne(row->cell[5], "");
		if (strcmp(row->cell[0], "limits.tsv") != 0)
			ck_assert_msg(rows_named(row) == 1, "%s %s %s",
			    row->cell[1], row->cell[2], row->cell[3]);
	}
}
END_TEST

/* ---- limits.tsv */

enum {
	L_JOINT,
	L_MOTION,
	L_SETTING,
	L_UNIT,
	L_USUAL,
	L_USUAL_BASIS,
	L_POSSIBLE,
	L_POSSIBLE_BASIS,
	L_VERIFIED,
	L_POSSIBLE_VERIFIED,
	L_LACKS,
	L_LACKS_BASIS
};

static int
measurement(const char *joint, const char *motion)
{
	for (int m = 0; m < VOCAB_MEASUREMENT_COUNT; m++)
		if (strcmp(vocab_measurements[m].joint_name, joint) == 0 &&
		    strcmp(vocab_measurements[m].motion_name, motion) == 0)
			return m;
	ck_abort_msg("no such measurement: %s %s", joint, motion);
	return -1;
}

static void
check_bound(bool has, int32_t bound, const char *cell)
{
	ck_assert_int_eq(has, cell[0] != '\0');
	if (has)
		ck_assert_int_eq(bound, taken_figure(cell).low);
}

/* The words of a reading are sorted; the one row of two words here is not. */
static const char *
our_setting(const char *theirs)
{
	if (strcmp(theirs, "weight-bearing knee-straight") == 0)
		return "knee-straight weight-bearing";
	return theirs[0] == '(' ? "" : theirs;
}

START_TEST(limits_are_those_of_the_table)
{
	struct table table = taken_read("limits.tsv");
	size_t levels = 0;

	for (size_t i = 0; i < table.len; i++) {
		char **cell = table.at[i].cell;
		struct ref_bound bound;

		if (strcmp(cell[L_UNIT], "level") == 0) {
			levels++; /* named in reference_left_out.tsv */
			continue;
		}
		ref_limits(measurement(cell[L_JOINT], cell[L_MOTION]),
		    our_setting(cell[L_SETTING]),
		    strcmp(cell[L_SETTING], "(end less start)") == 0, &bound);
		check_bound(bound.has_usual, bound.usual, cell[L_USUAL]);
		check_bound(
		    bound.has_possible, bound.possible, cell[L_POSSIBLE]);
		check_bound(bound.has_lacks, bound.lacks, cell[L_LACKS]);
		if (bound.has_usual) {
			ck_assert_str_eq(
			    bound.basis_usual, cell[L_USUAL_BASIS]);
			ck_assert_str_eq(bound.verified, cell[L_VERIFIED]);
		}
		ck_assert_str_eq(bound.basis_possible, cell[L_POSSIBLE_BASIS]);
		ck_assert_str_eq(
		    bound.verified_possible, cell[L_POSSIBLE_VERIFIED]);
		if (bound.has_lacks)
			ck_assert_str_eq(
			    bound.basis_lacks, cell[L_LACKS_BASIS]);
	}
	ck_assert_uint_eq(levels, 1);
	taken_free(&table);
}
END_TEST

/* ---- end_feel_and_capsular.tsv */

static const struct {
	const char *word;
	unsigned feel;
} feel_words[] = {
    {"soft", 1u << VOCAB_END_FEEL_SOFT},
    {"firm", 1u << VOCAB_END_FEEL_FIRM},
    {"capsular", 1u << VOCAB_END_FEEL_FIRM},
    {"hard", 1u << VOCAB_END_FEEL_HARD},
    {"bony", 1u << VOCAB_END_FEEL_HARD},
};

static unsigned
feels_in(const char *text)
{
	unsigned feels = 0;

	for (size_t i = 0; i < sizeof(feel_words) / sizeof(*feel_words); i++)
		if (strstr(text, feel_words[i].word))
			feels |= feel_words[i].feel;
	return feels;
}

/* Capsular patterns are no end feels; abduction of the thumb is palmar. */
static bool
is_feel_of(const struct line *line, int m)
{
	const struct vocab_measurement *of = &vocab_measurements[m];
	const char *motion = line->cell[MOTION];

	if (!says(line->cell[KEY], "Norkin&White-style") ||
	    !taken_lists(taken_joints(line->cell[JOINT]), of->joint_name))
		return false;
	if (says(motion, "flexion / lateral_flexion"))
		return says(of->motion_name, "flexion") ||
		       says(of->motion_name, "lateral flexion");
	if (says(line->cell[JOINT], "thumb_CMC") && says(motion, "abduction"))
		return says(of->motion_name, "palmar abduction");
	return says(of->motion_name, taken_motion(motion).name);
}

START_TEST(end_feels_are_those_of_the_table)
{
	struct table table = taken_read("end_feel_and_capsular.tsv");
	size_t with_feels = 0;

	for (int m = 0; m < VOCAB_MEASUREMENT_COUNT; m++) {
		unsigned all = 0;
		bool read = false;
		const char *source;

		for (size_t i = 0; i < table.len; i++) {
			const struct line *line = &table.at[i];

			if (!is_feel_of(line, m))
				continue;
			/* Some are said beside the figure: "hard possible". */
			all |= feels_in(line->cell[VALUE]);
			if (strstr(line->cell[WHERE], "hard"))
				all |= 1u << VOCAB_END_FEEL_HARD;
			read |= says(line->cell[VERIFIED], "yes");
		}
		ck_assert_uint_eq(ref_end_feels(m, &source), all);
		with_feels += all != 0;
		if (all && !read)
			ck_assert_ptr_nonnull(strstr(source, ", from memory"));
	}
	ck_assert_uint_gt(with_feels, 50);
	taken_free(&table);
}
END_TEST

Suite *
published_reference_suite(void)
{
	Suite *suite = suite_create("published reference");
	TCase *tc = tcase_create("tables");

	tcase_add_checked_fixture(tc, taken_set_up, taken_tear_down);
	tcase_add_test(tc, rows_left_out_exist_and_have_a_reason);
	tcase_add_test(tc, limits_are_those_of_the_table);
	tcase_add_test(tc, end_feels_are_those_of_the_table);
	suite_add_tcase(suite, tc);
	return suite;
}
