/*
 * The queries over limits and usual values: which row answers, and what happens
 * where none does. That the figures are those of their sources is the business
 * of tests/published.
 */
#include <check.h>
#include <string.h>

#include "reference/reference.h"
#include "vocab/vocab.h"

Suite *reference_suite(void);

#define M(name) VOCAB_MEASUREMENT_##name

/* ---- limits */

static struct ref_bound
limits(int measurement, const char *setting)
{
	struct ref_bound bound;

	ref_limits(measurement, setting, false, &bound);
	return bound;
}

START_TEST(limits_take_the_very_setting)
{
	ck_assert_int_eq(
	    limits(M(SHOULDER_EXTERNAL_ROTATION), "abducted-45").usual, 1200);
	ck_assert_int_eq(limits(M(HIP_FLEXION), "knee-straight").usual, 1100);
	ck_assert_int_eq(limits(M(HIP_FLEXION), "").usual, 1570);
	/* 45 is the bound of both words together, 46 that of weight-bearing. */
	ck_assert_int_eq(
	    limits(M(ANKLE_DORSIFLEXION), "knee-straight weight-bearing").usual,
	    450);
	ck_assert_int_eq(
	    limits(M(ANKLE_DORSIFLEXION), "weight-bearing").usual, 460);
	ck_assert_int_eq(limits(M(CERVICAL_EXTENSION), "").usual, 1055);
}
END_TEST

START_TEST(limits_take_the_greatest_of_partly_fitting_rows)
{
	struct ref_bound bound =
	    limits(M(ANKLE_DORSIFLEXION), "knee-bent weight-bearing");

	/* knee-bent has 39 and 80, weight-bearing 46 and 75. */
	ck_assert_int_eq(bound.usual, 460);
	ck_assert_int_eq(bound.possible, 800);
	ck_assert_ptr_nonnull(strstr(bound.basis_usual, "33.8"));
	ck_assert_str_eq(bound.basis_possible, "as without setting");
	ck_assert_str_eq(bound.verified_possible, "from memory");
}
END_TEST

START_TEST(limits_fall_back_to_no_setting)
{
	ck_assert_int_eq(
	    limits(M(SHOULDER_EXTERNAL_ROTATION), "abducted-30").usual, 1220);
	ck_assert_int_eq(limits(M(KNEE_FLEXION), "hip-extended").usual, 1630);
	/* A word that only begins like one of the row is another setting. */
	ck_assert_int_eq(
	    limits(M(SHOULDER_EXTERNAL_ROTATION), "abducted-4").usual, 1220);
	ck_assert_int_eq(limits(M(HIP_FLEXION), "knee-straight-5").usual, 1570);
}
END_TEST

START_TEST(limits_are_silent_where_nothing_is_known)
{
	struct ref_bound bound = limits(M(SHOULDER_HAND_BEHIND_BACK), "");

	ck_assert(!bound.has_usual && !bound.has_possible && !bound.has_lacks);
	bound = limits(M(INDEX_MCP_ADDUCTION), "");
	ck_assert(!bound.has_usual && bound.has_possible);
	ck_assert_int_eq(bound.possible, 600);
	bound = limits(M(KNEE_FLEXION), "");
	ck_assert(bound.has_usual && !bound.has_lacks);
	bound = limits(-1, "");
	ck_assert(!bound.has_usual && !bound.has_possible);
	bound = limits(VOCAB_MEASUREMENT_COUNT, "");
	ck_assert(!bound.has_usual && !bound.has_possible);
}
END_TEST

START_TEST(limits_of_schober_are_of_the_difference_or_the_end)
{
	struct ref_bound bound;

	ref_limits(M(LUMBAR_SCHOBER), "", true, &bound);
	ck_assert(bound.has_usual);
	ck_assert_int_eq(bound.usual, 1010);
	ck_assert_int_eq(bound.possible, 1500);
	ref_limits(M(LUMBAR_SCHOBER), "", false, &bound);
	ck_assert(!bound.has_usual);
	ck_assert_int_eq(bound.possible, 3000);
	/* Elsewhere a difference is a value like any other. */
	ref_limits(M(CERVICAL_FLEXION), "", true, &bound);
	ck_assert_int_eq(bound.usual, 800);
}
END_TEST

START_TEST(limits_of_every_measurement_make_sense)
{
	const struct vocab_measurement *m = &vocab_measurements[_i];
	struct ref_bound bound;

	ref_limits(_i, "", true, &bound);
	ck_assert(bound.has_possible || m->in == VOCAB_IN_LEVEL);
	if (bound.has_usual)
		ck_assert_int_le(bound.usual, bound.possible);
	if (m->in == VOCAB_IN_DEG)
		ck_assert_int_le(bound.possible, 2000);
	if (bound.has_possible)
		ck_assert_str_ne(bound.basis_possible, "");
	if (bound.has_lacks)
		ck_assert_str_ne(bound.basis_lacks, "");
	/* Whatever may lack has a bound for it. */
	ck_assert(bound.has_lacks || !m->lacks);
}
END_TEST

/* ---- usual values */

static struct ref_usual
usual(int measurement, const char *setting, int mode, int age, int sex,
    const char *source)
{
	struct ref_person person = {age, sex};
	struct ref_usual out = {.low = -1, .source = "none", .population = ""};

	ref_usual(measurement, setting, mode, &person, source, NULL, &out);
	return out;
}

/* A plain question: nobody known, no mode, no setting. */
static struct ref_usual
plain(int measurement)
{
	struct ref_usual out = {.low = -1, .source = "none"};

	ref_usual(measurement, "", -1, NULL, NULL, NULL, &out);
	return out;
}

START_TEST(usual_of_nobody_known_is_of_the_general_tables)
{
	ck_assert_str_eq(plain(M(FOREARM_PRONATION)).source, "AAOS");
	ck_assert_int_eq(plain(M(FOREARM_PRONATION)).low, 800);
	/* What the Academy measured; then 38 CFR, the Guides, the others. */
	ck_assert_str_eq(plain(M(KNEE_FLEXION)).source, "AAOS_1994_measured");
	ck_assert_int_eq(plain(M(KNEE_FLEXION)).low, 1410);
	ck_assert_str_eq(plain(M(KNEE_EXTENSION)).source,
	    "VA_normals_worksheet2005_PlatesI_II");
	ck_assert_str_eq(
	    plain(M(THORACOLUMBAR_FLEXION)).source, "CFR_38_4_71a_spine_note2");
	ck_assert_str_eq(
	    plain(M(CERVICAL_ROTATION)).source, "CFR_38_4_71a_spine_note2");
	ck_assert_str_eq(plain(M(SECOND_TOE_MTP_FLEXION)).source,
	    "published_norm_unlabelled");
	/* Young, old, female: the age bands need an age, the sexes a sex. */
	ck_assert_str_eq(
	    usual(M(HIP_FLEXION), "", -1, 30, -1, NULL).source, "AAOS");
	ck_assert_str_eq(
	    usual(M(HIP_FLEXION), "", -1, -1, VOCAB_SEX_F, NULL).source,
	    "AAOS");
	ck_assert_str_eq(
	    usual(M(HIP_FLEXION), "", -1, 30, VOCAB_SEX_X, NULL).source,
	    "AAOS");
	ck_assert_str_eq(
	    usual(M(HIP_FLEXION), "", -1, 70, VOCAB_SEX_F, NULL).source,
	    "AAOS");
}
END_TEST

START_TEST(usual_of_a_person_is_of_their_age_and_sex)
{
	struct ref_usual u =
	    usual(M(HIP_FLEXION), "", -1, 30, VOCAB_SEX_F, NULL);

	ck_assert_int_eq(u.low, 1338);
	ck_assert_str_eq(u.source, "Soucie2011_CDC_mean_only");
	ck_assert_str_eq(u.population, "women 20-44, passive");
	ck_assert_str_eq(u.verified, "yes");
	u = usual(M(KNEE_FLEXION), "", -1, 5, VOCAB_SEX_M, NULL);
	ck_assert_int_eq(u.low, 1478);
	ck_assert_str_eq(u.population, "boys 2-8, passive");
	ck_assert_str_eq(u.row->spread, "ci 146.6-149.0");
	u = usual(M(SHOULDER_EXTENSION), "", -1, 72, -1, NULL);
	ck_assert_int_eq(u.low, 440);
	ck_assert_str_eq(u.source, "Walker1984");
	ck_assert_str_eq(u.population, "people 65-85");
	/* The ends of a band are in it, the years beside them not. */
	ck_assert_str_eq(
	    usual(M(SHOULDER_EXTENSION), "", -1, 65, -1, NULL).source,
	    "Walker1984");
	ck_assert_str_eq(
	    usual(M(SHOULDER_EXTENSION), "", -1, 85, -1, NULL).source,
	    "Walker1984");
	ck_assert_str_eq(
	    usual(M(SHOULDER_EXTENSION), "", -1, 64, -1, NULL).source, "AAOS");
	ck_assert_str_eq(
	    usual(M(SHOULDER_EXTENSION), "", -1, 86, -1, NULL).source, "AAOS");
	u = usual(M(CERVICAL_EXTENSION), "", -1, 93, -1, NULL);
	ck_assert_int_eq(u.low, 645);
	ck_assert_str_eq(u.population, "people 50 and over");
}
END_TEST

START_TEST(usual_of_a_mode_is_not_of_another)
{
	/* Soucie measured passively, Boone and Azen actively. */
	struct ref_usual u = usual(
	    M(ELBOW_FLEXION), "", VOCAB_MODE_ACTIVE, 30, VOCAB_SEX_M, NULL);

	ck_assert_int_eq(u.low, 1430);
	ck_assert_str_eq(u.source, "BooneAzen1979");
	ck_assert_str_eq(u.population, "males 1-54, active");
	u = usual(M(ELBOW_FLEXION), "", VOCAB_MODE_PLACE_AND_HOLD, 30,
	    VOCAB_SEX_M, NULL);
	ck_assert_str_eq(u.source, "BooneAzen1979");
	u = usual(
	    M(ELBOW_FLEXION), "", VOCAB_MODE_PASSIVE, 30, VOCAB_SEX_M, NULL);
	ck_assert_int_eq(u.low, 1446);
	ck_assert_str_eq(u.source, "Soucie2011_CDC_mean_only");
	u = usual(
	    M(ELBOW_FLEXION), "", VOCAB_MODE_ASSISTED, 30, VOCAB_SEX_M, NULL);
	ck_assert_str_eq(u.source, "AAOS");
	u = usual(M(ELBOW_FLEXION), "", -1, 30, VOCAB_SEX_M, NULL);
	ck_assert_str_eq(u.source, "Soucie2011_CDC_mean_only");
	u = usual(
	    M(ELBOW_FLEXION), "", VOCAB_MODE_ACTIVE, 30, VOCAB_SEX_F, NULL);
	ck_assert_str_eq(u.source, "AAOS");
}
END_TEST

START_TEST(usual_of_a_setting_is_not_of_another)
{
	struct ref_usual u =
	    usual(M(ANKLE_DORSIFLEXION), "knee-bent", -1, -1, -1, NULL);

	ck_assert_int_eq(u.low, 130);
	ck_assert_str_eq(u.row->setting, "knee-bent");
	ck_assert_int_eq(plain(M(ANKLE_DORSIFLEXION)).low, 200);
	/* limits.tsv knows these to be other ranges. */
	ck_assert_int_eq(
	    usual(M(ANKLE_DORSIFLEXION), "weight-bearing", -1, -1, -1, NULL)
		.low,
	    -1);
	ck_assert_int_eq(
	    usual(M(HIP_FLEXION), "knee-straight", -1, -1, -1, NULL).low, -1);
	ck_assert_int_eq(
	    usual(M(SHOULDER_EXTERNAL_ROTATION), "abducted-0", -1, -1, -1, NULL)
		.low,
	    -1);
	/* And these as the same. */
	ck_assert_int_eq(usual(M(SHOULDER_EXTERNAL_ROTATION), "abducted-90", -1,
			     -1, -1, NULL)
			     .low,
	    900);
	ck_assert_int_eq(
	    usual(M(HIP_FLEXION), "knee-bent", -1, -1, -1, NULL).low, 1200);
	/* A row of some of the words fits before one of none. */
	ck_assert_int_eq(usual(M(ANKLE_DORSIFLEXION),
			     "knee-bent non-weight-bearing", -1, -1, -1, NULL)
			     .low,
	    130);
}
END_TEST

START_TEST(usual_of_a_source_is_of_that_source)
{
	struct ref_usual u =
	    usual(M(SHOULDER_FLEXION), "", -1, -1, -1, "AMA_Guides");

	ck_assert_int_eq(u.low, 1800);
	ck_assert(u.at_least);
	ck_assert(!plain(M(SHOULDER_FLEXION)).at_least);
	/* A group stands for all its keys. */
	u = usual(M(HIP_EXTENSION), "", -1, -1, -1, "38CFR");
	ck_assert_str_eq(u.source, "VA_worksheet_2005");
	u = usual(M(INDEX_DIP_FLEXION), "", -1, -1, -1, "38CFR");
	ck_assert_int_eq(u.low, 700);
	ck_assert_int_eq(u.high, 800);
	u = usual(M(KNEE_FLEXION), "", -1, 5, VOCAB_SEX_F, "Soucie2011");
	ck_assert_int_eq(u.low, 1526);
	/* It has nothing for a person it did not measure. */
	u = usual(M(KNEE_FLEXION), "", -1, -1, -1, "Soucie2011");
	ck_assert_int_eq(u.low, -1);
	u = usual(M(ELBOW_FLEXION), "", -1, 30, VOCAB_SEX_F, "BooneAzen1979");
	ck_assert_int_eq(u.low, -1);
	u = usual(M(KNEE_FLEXION), "", -1, -1, -1, "no such source");
	ck_assert_int_eq(u.low, -1);
	/* Small samples and parts of formulas are given only when asked for. */
	u = usual(M(WRIST_FLEXION), "", -1, 25, VOCAB_SEX_F, NULL);
	ck_assert_str_eq(u.source, "AAOS");
	u = usual(M(WRIST_FLEXION), "", -1, 25, VOCAB_SEX_F,
	    "Fan2019_dominant_neutral_n30");
	ck_assert_int_eq(u.low, 797);
}
END_TEST

START_TEST(usual_zero_is_a_value_and_nothing_is_below_it)
{
	struct ref_usual u = plain(M(ELBOW_EXTENSION));
	size_t n;

	ck_assert_int_eq(u.low, 0);
	ck_assert_int_eq(u.high, 0);
	for (int m = 0; m < VOCAB_MEASUREMENT_COUNT; m++) {
		const struct ref_usual_row *row = ref_usual_rows(m, &n);

		for (size_t i = 0; i < n; i++) {
			ck_assert_int_eq(row[i].measurement, m);
			ck_assert_int_ge(row[i].low, 0);
			ck_assert_int_ge(row[i].high, row[i].low);
			ck_assert_str_ne(row[i].where_read, "");
			ck_assert_str_eq(row[i].source,
			    ref_source_get((size_t)row[i].source_id)->key);
		}
	}
	ck_assert_int_eq(usual(-1, "", -1, -1, -1, NULL).low, -1);
	ref_usual_rows(VOCAB_MEASUREMENT_COUNT, &n);
	ck_assert_uint_eq(n, 0);
}
END_TEST

START_TEST(usual_from_memory_says_so_and_gives_way)
{
	ck_assert_str_eq(
	    plain(M(SHOULDER_HORIZONTAL_ADDUCTION)).verified, "from memory");
	for (int m = 0; m < VOCAB_MEASUREMENT_COUNT; m++) {
		size_t n, read = 0, memory = 0;
		const struct ref_usual_row *row = ref_usual_rows(m, &n);

		for (size_t i = 0; i < n; i++)
			if (strcmp(row[i].verified, "yes") == 0)
				read++;
			else
				memory++;
		/* A figure from memory only where none was read. */
		ck_assert(read == 0 || memory == 0);
	}
}
END_TEST

static void
add_limits(Suite *suite)
{
	TCase *tc = tcase_create("limits");

	tcase_add_test(tc, limits_take_the_very_setting);
	tcase_add_test(tc, limits_take_the_greatest_of_partly_fitting_rows);
	tcase_add_test(tc, limits_fall_back_to_no_setting);
	tcase_add_test(tc, limits_are_silent_where_nothing_is_known);
	tcase_add_test(tc, limits_of_schober_are_of_the_difference_or_the_end);
	tcase_add_loop_test(tc, limits_of_every_measurement_make_sense, 0,
	    VOCAB_MEASUREMENT_COUNT);
	suite_add_tcase(suite, tc);
}

static void
add_usual(Suite *suite)
{
	TCase *tc = tcase_create("usual");

	tcase_add_test(tc, usual_of_nobody_known_is_of_the_general_tables);
	tcase_add_test(tc, usual_of_a_person_is_of_their_age_and_sex);
	tcase_add_test(tc, usual_of_a_mode_is_not_of_another);
	tcase_add_test(tc, usual_of_a_setting_is_not_of_another);
	tcase_add_test(tc, usual_of_a_source_is_of_that_source);
	tcase_add_test(tc, usual_zero_is_a_value_and_nothing_is_below_it);
	tcase_add_test(tc, usual_from_memory_says_so_and_gives_way);
	suite_add_tcase(suite, tc);
}

Suite *
reference_suite(void)
{
	Suite *suite = suite_create("reference");

	add_limits(suite);
	add_usual(suite);
	return suite;
}
