/*
 * The queries over end feels, tasks, errors of measuring, sources and guides.
 */
#include <check.h>
#include <string.h>

#include "reference/reference.h"
#include "vocab/vocab.h"

Suite *reference_facts_suite(void);

#define M(name) VOCAB_MEASUREMENT_##name

#define FEEL(name) (1u << VOCAB_END_FEEL_##name)

START_TEST(end_feels_name_all_schools_and_what_is_from_memory)
{
	const char *source;

	ck_assert_uint_eq(ref_end_feels(M(ELBOW_EXTENSION), NULL), FEEL(HARD));
	ck_assert_uint_eq(
	    ref_end_feels(M(KNEE_EXTENSION), &source), FEEL(FIRM) | FEEL(HARD));
	ck_assert_str_eq(source, "Norkin&White-style");
	ck_assert_uint_eq(ref_end_feels(M(WRIST_FLEXION), &source), FEEL(FIRM));
	ck_assert_str_eq(source, "Norkin&White-style, from memory");
	ck_assert_uint_eq(ref_end_feels(M(ANKLE_PLANTARFLEXION), &source),
	    FEEL(FIRM) | FEEL(HARD));
	ck_assert_str_eq(source, "Norkin&White-style; hard from memory");
	ck_assert_uint_eq(ref_end_feels(M(JAW_OPENING), &source), 0);
	ck_assert_ptr_null(source);
	ck_assert_uint_eq(ref_end_feels(-1, &source), 0);
	ck_assert_ptr_null(source);
	for (int m = 0; m < VOCAB_MEASUREMENT_COUNT; m++)
		for (int feel = 0; feel < VOCAB_END_FEEL_COUNT; feel++)
			if (ref_end_feels(m, NULL) >> feel & 1)
				ck_assert(!vocab_end_feel_abnormal[feel]);
}
END_TEST

START_TEST(functional_lists_the_tasks_of_a_measurement)
{
	size_t n;
	const struct ref_functional *f = ref_functional(M(ELBOW_FLEXION), &n);

	ck_assert_uint_eq(n, 1);
	ck_assert_int_eq(f->kind, REF_ARC);
	ck_assert_int_eq(f->low, 300);
	ck_assert_int_eq(f->high, 1300);
	ref_functional(M(ELBOW_EXTENSION), &n);
	ck_assert_uint_eq(n, 0);
	ref_functional(-1, &n);
	ck_assert_uint_eq(n, 0);
}
END_TEST

static struct ref_error
error(int measurement, int instrument, bool same_rater)
{
	struct ref_error out;

	ref_error(measurement, instrument, same_rater, &out);
	return out;
}

START_TEST(error_takes_the_narrowest_figure_of_its_kind)
{
	/* Limbs: Boone 1978, whose instrument was the goniometer. */
	struct ref_error e = error(M(FOREARM_PRONATION), -1, true);

	ck_assert_str_eq(e.source, "Boone1978");
	ck_assert_int_eq(e.low, 30);
	ck_assert_int_eq(e.high, 40);
	ck_assert(!e.fallback);
	e = error(M(FOREARM_PRONATION), VOCAB_INSTRUMENT_GONIOMETER, false);
	ck_assert_int_eq(e.high, 50);
	e = error(M(HIP_FLEXION), VOCAB_INSTRUMENT_GONIOMETER, false);
	ck_assert_int_eq(e.high, 60);
	/* A joint of its own figure, by instrument and raters. */
	e = error(
	    M(SHOULDER_EXTERNAL_ROTATION), VOCAB_INSTRUMENT_INCLINOMETER, true);
	ck_assert_str_eq(e.source, "Kolber2009_inclinometer");
	ck_assert_int_eq(e.high, 50);
	e = error(M(SHOULDER_EXTERNAL_ROTATION), VOCAB_INSTRUMENT_INCLINOMETER,
	    false);
	ck_assert_str_eq(e.source, "Kolber2011_inclinometer");
	ck_assert_int_eq(e.high, 90);
	e = error(M(RING_PIP_FLEXION), -1, false);
	ck_assert_str_eq(e.source, "EllisBruton2002");
	ck_assert_int_eq(e.low, 70);
	ck_assert_int_eq(e.high, 90);
	e = error(M(KNEE_FLEXION), VOCAB_INSTRUMENT_VISUAL, true);
	ck_assert_int_eq(e.high, 140);
	/* Two of one source, long arm and short, are one span. */
	e = error(M(KNEE_FLEXION), VOCAB_INSTRUMENT_GONIOMETER, true);
	ck_assert_str_eq(e.source, "Hancock2018");
	ck_assert_int_eq(e.low, 100);
	ck_assert_int_eq(e.high, 140);
}
END_TEST

START_TEST(error_falls_back_and_says_so)
{
	struct ref_error e = error(M(CERVICAL_ROTATION), -1, true);

	ck_assert(e.fallback);
	ck_assert_str_eq(e.source, "trade_rule");
	ck_assert_int_eq(e.low, 50);
	ck_assert_int_eq(e.high, 50);
	/* What Boone measured was no estimate by eye. */
	e = error(M(FOREARM_PRONATION), VOCAB_INSTRUMENT_VISUAL, true);
	ck_assert_str_eq(e.source, "trade_rule");
	e = error(M(JAW_OPENING), VOCAB_INSTRUMENT_RULER, true);
	ck_assert(e.fallback);
	ck_assert_str_eq(e.source, "project_tolerance");
	e = error(M(ANKLE_KNEE_TO_WALL), -1, true);
	ck_assert_str_eq(e.source, "Konor2012");
	ck_assert_int_eq(e.low, 110);
	ck_assert_int_eq(e.high, 150);
	e = error(M(THUMB_OPPOSITION), -1, true);
	ck_assert(e.fallback);
	ck_assert_int_eq(e.high, 0);
	ck_assert_str_eq(e.source, "");
	e = error(-1, -1, true);
	ck_assert(e.fallback);
}
END_TEST

START_TEST(error_rows_stand_from_joint_to_all)
{
	for (int m = 0; m < VOCAB_MEASUREMENT_COUNT; m++) {
		size_t n;
		const struct ref_error_row *row = ref_error_rows(m, &n);

		for (size_t i = 1; i < n; i++)
			ck_assert_int_ge(row[i - 1].width, row[i].width);
		/* Whatever ref_error() may take has no people of a condition.
		 */
		for (size_t i = 0; i < n; i++)
			ck_assert(!row[i].chosen || row[i].people[0] == '\0');
		if (vocab_measurements[m].in <= VOCAB_IN_LENGTH)
			ck_assert_uint_gt(n, 0);
	}
}
END_TEST

START_TEST(sources_are_found_by_key)
{
	const struct ref_source *s = ref_source_find("Morrey1981");

	ck_assert_str_eq(s->published, "JBJS Am 63:872-877");
	ck_assert_str_eq(s->year, "1981");
	ck_assert_ptr_null(ref_source_find("Morrey"));
	ck_assert_ptr_null(ref_source_find(""));
	for (size_t i = 0; i < ref_source_count(); i++)
		ck_assert_ptr_eq(
		    ref_source_find(ref_source_get(i)->key), ref_source_get(i));
	ck_assert(ref_source_has_usual("AAOS"));
	ck_assert(ref_source_has_usual("38CFR"));
	ck_assert(ref_source_has_usual("TAM_components"));
	ck_assert(!ref_source_has_usual("Morrey1981"));
	ck_assert(!ref_source_has_usual(""));
}
END_TEST

/* How many figures name KEY as their source. */
static size_t
uses_of(const char *key)
{
	size_t uses = 0, n;
	const char *feel;

	for (int m = 0; m < VOCAB_MEASUREMENT_COUNT; m++) {
		const struct ref_usual_row *usual = ref_usual_rows(m, &n);

		for (size_t i = 0; i < n; i++)
			uses += strcmp(usual[i].source, key) == 0;

		const struct ref_functional *task = ref_functional(m, &n);

		for (size_t i = 0; i < n; i++)
			uses += strcmp(task[i].source, key) == 0;

		const struct ref_error_row *err = ref_error_rows(m, &n);

		for (size_t i = 0; i < n; i++)
			uses += strcmp(err[i].source, key) == 0;
		if (ref_end_feels(m, &feel))
			uses += strncmp(feel, key, strlen(key)) == 0;
	}
	return uses;
}

START_TEST(sources_are_all_used)
{
	for (size_t i = 0; i < ref_source_count(); i++)
		ck_assert_msg(uses_of(ref_source_get(i)->key) > 0,
		    "no figure of %s", ref_source_get(i)->key);
}
END_TEST

/* A row of the guide is of the measurement that it is found by. */
START_TEST(guide_has_every_measurement)
{
	const struct vocab_measurement *m = &vocab_measurements[_i];
	const struct ref_guide *guide = ref_guide(_i);

	ck_assert_msg(
	    guide, "no guide to %s %s", m->joint_name, m->motion_name);
	ck_assert_ptr_nonnull(strstr(guide->joint, m->joint_name));
	ck_assert_str_eq(guide->motion, m->motion_name);
	ck_assert_str_ne(guide->purpose, "");
	ck_assert_str_ne(guide->write, "");
	ck_assert_str_ne(guide->basis, "");
}
END_TEST

START_TEST(guide_of_nothing)
{
	ck_assert_ptr_null(ref_guide(-1));
	ck_assert_ptr_null(ref_guide(VOCAB_MEASUREMENT_COUNT));
}
END_TEST

Suite *
reference_facts_suite(void)
{
	Suite *suite = suite_create("reference facts");
	TCase *tc = tcase_create("facts");

	tcase_add_test(tc, end_feels_name_all_schools_and_what_is_from_memory);
	tcase_add_test(tc, functional_lists_the_tasks_of_a_measurement);
	tcase_add_test(tc, error_takes_the_narrowest_figure_of_its_kind);
	tcase_add_test(tc, error_falls_back_and_says_so);
	tcase_add_test(tc, error_rows_stand_from_joint_to_all);
	tcase_add_test(tc, sources_are_found_by_key);
	tcase_add_test(tc, sources_are_all_used);
	tcase_add_loop_test(
	    tc, guide_has_every_measurement, 0, VOCAB_MEASUREMENT_COUNT);
	tcase_add_test(tc, guide_of_nothing);
	suite_add_tcase(suite, tc);
	return suite;
}
