/*
 * What published tables say of totals: bands with their gaps, thresholds, the
 * parts of the laxity score. All people and readings are invented.
 */
#include <check.h>

#include "calc/totals.h"
#include "lint_note.h"

Suite *totals_tables_suite(void);

/* --- what tables say ------------------------------------------------------ */

static const struct band_system *
system_of(const char *name, bool percent, enum total_kind kind)
{
	for (size_t i = 0; i < band_system_count; i++)
		if (strcmp(band_systems[i].name, name) == 0 &&
		    band_systems[i].percent == percent &&
		    band_systems[i].kinds >> kind & 1)
			return &band_systems[i];
	ck_abort_msg("no bands of %s", name);
}

static const struct {
	const char *name;
	enum total_kind kind;
	bool percent;
	int degrees;
	const char *grade; /* NULL: in no band */
} graded[] = {
    {"ASSH", TOTAL_KIND_FINGER, true, 260, "excellent"},
    {"ASSH", TOTAL_KIND_FINGER, true, 259, "good"},
    {"ASSH", TOTAL_KIND_FINGER, true, 195, NULL}, /* 75 % */
    {"ASSH", TOTAL_KIND_FINGER, true, 131, "fair"},
    {"ASSH", TOTAL_KIND_FINGER, true, 130, NULL}, /* 50 % */
    {"ASSH", TOTAL_KIND_FINGER, true, 129, "poor"},
    {"ASSH", TOTAL_KIND_FINGER, true, 261, NULL},
    {"total motion table", TOTAL_KIND_FINGER, false, 130, "fair"},
    {"total motion table", TOTAL_KIND_THUMB, false, 97, NULL},
    {"total motion table", TOTAL_KIND_THUMB, false, 98, "good"},
    {"total motion table", TOTAL_KIND_THUMB, false, 79, "fair"},
    {"Strickland-Glogovac 1980", TOTAL_KIND_TWO_JOINTS, true, 149, "excellent"},
    {"Strickland-Glogovac 1980", TOTAL_KIND_TWO_JOINTS, false, 149, "good"},
    {"Strickland-Glogovac 1980", TOTAL_KIND_TWO_JOINTS, false, 150, NULL},
    {"Strickland-Glogovac 1980", TOTAL_KIND_TWO_JOINTS, false, 151,
	"excellent"},
    {"Strickland-Glogovac 1980", TOTAL_KIND_TWO_JOINTS, false, 178,
	"excellent"}, /* "over 150" ends nowhere, 85-100 % does */
    {"Strickland-Glogovac 1980", TOTAL_KIND_TWO_JOINTS, true, 178, NULL},
    {"Strickland-Glogovac 1980", TOTAL_KIND_TWO_JOINTS, true, 148, NULL},
    {"Strickland-Glogovac 1980", TOTAL_KIND_TWO_JOINTS, true, 120, "fair"},
    {"Strickland-Glogovac 1980", TOTAL_KIND_TWO_JOINTS, true, 80, "poor"},
};

START_TEST(bands_are_as_printed)
{
	static const int definitions[] = {[TOTAL_KIND_FINGER] = TOTAL_INDEX,
	    [TOTAL_KIND_THUMB] = TOTAL_THUMB,
	    [TOTAL_KIND_TWO_JOINTS] = TOTAL_INDEX_TWO_JOINTS};
	struct total t = {.definition = definitions[graded[_i].kind],
	    .sum = {graded[_i].degrees * 10, 1}};
	const struct band *band = total_band(&t,
	    system_of(graded[_i].name, graded[_i].percent, graded[_i].kind));

	if (graded[_i].grade)
		ck_assert_str_eq(band ? band->grade : "none", graded[_i].grade);
	else
		ck_assert_msg(!band, "%s", band ? band->grade : "");
}
END_TEST

START_TEST(no_verdict_in_bands)
{
	for (size_t i = 0; i < band_system_count; i++)
		for (const struct band *b = band_systems[i].bands; b->grade;
		     b++) {
			ck_assert_ptr_null(strstr(b->grade, "normal"));
			ck_assert_ptr_null(strstr(b->grade, "improved"));
		}
}
END_TEST

START_TEST(a_threshold_knows_its_edge)
{
	struct threshold over = {.low = 50, .high = 50};
	struct threshold from = {.low = 200, .high = 200, .or_equal = true};
	struct threshold span = {.low = 180, .high = 200};

	ck_assert_int_eq(
	    threshold_reach(&over, (struct mean){50, 1}), REACH_NO);
	ck_assert_int_eq(
	    threshold_reach(&over, (struct mean){101, 2}), REACH_YES);
	ck_assert_int_eq(
	    threshold_reach(&from, (struct mean){200, 1}), REACH_YES);
	ck_assert_int_eq(
	    threshold_reach(&from, (struct mean){399, 2}), REACH_NO);
	ck_assert_int_eq(
	    threshold_reach(&span, (struct mean){179, 1}), REACH_NO);
	ck_assert_int_eq(
	    threshold_reach(&span, (struct mean){190, 1}), REACH_WITHIN);
	ck_assert_int_eq(
	    threshold_reach(&span, (struct mean){201, 1}), REACH_YES);
}
END_TEST

/* --- laxity --------------------------------------------------------------- */

START_TEST(laxity_counts_what_is_recorded)
{
	struct laxity laxity;

	add(M(ELBOW_EXTENSION), R, P, 0, 11);
	add(M(ELBOW_EXTENSION), L, P, 0, 10);
	add(M(KNEE_EXTENSION), R, A, 0, 12);
	add_lacks(M(KNEE_EXTENSION), L, P, 3);
	laxity_read(&laxity, &s);
	ck_assert_int_eq(laxity.recorded, 4);
	ck_assert_int_eq(laxity.joints, 2);
	ck_assert_int_eq(laxity.over, 2);
	ck_assert_int_eq(laxity.reached, 3); /* the elbow at 10 */
}
END_TEST

/* The fifth finger is pressed back: an active reading does not count. */
START_TEST(laxity_of_the_finger_is_passive)
{
	struct laxity laxity;

	add(M(LITTLE_MCP_EXTENSION), R, A, 0, 95);
	laxity_read(&laxity, &s);
	ck_assert_int_eq(laxity.recorded, 0);
	add(M(LITTLE_MCP_EXTENSION), R, P, 0, 95);
	laxity_read(&laxity, &s);
	ck_assert_int_eq(laxity.recorded, 1);
	ck_assert_int_eq(laxity.over, 1);
}
END_TEST

START_TEST(laxity_takes_the_passive_reading)
{
	struct laxity laxity;

	add(M(KNEE_EXTENSION), R, A, 0, 8);
	add(M(KNEE_EXTENSION), R, P, 0, 12);
	laxity_read(&laxity, &s);
	ck_assert_int_eq(laxity.recorded, 1);
	ck_assert_int_eq(laxity.over, 1);
	add(M(KNEE_EXTENSION), R, P, 0, 13);
	laxity_read(&laxity, &s);
	ck_assert_int_eq(laxity.recorded, 0); /* which of the two? */
}
END_TEST

Suite *
totals_tables_suite(void)
{
	Suite *suite = suite_create("totals, tables");
	TCase *table = tcase_create("tables");

	tcase_add_checked_fixture(table, set_up, tear_down);
	tcase_add_loop_test(table, bands_are_as_printed, 0,
	    (int)(sizeof(graded) / sizeof(*graded)));
	tcase_add_test(table, no_verdict_in_bands);
	tcase_add_test(table, a_threshold_knows_its_edge);
	tcase_add_test(table, laxity_counts_what_is_recorded);
	tcase_add_test(table, laxity_of_the_finger_is_passive);
	tcase_add_test(table, laxity_takes_the_passive_reading);
	suite_add_tcase(suite, table);
	return suite;
}
