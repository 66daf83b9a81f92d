/*
 * Readings side by side: what is held against what, and what never is.
 */
#include "calc/compare.h"
#include "write_note.h"

static struct comparisons
compared(struct note *n)
{
	struct comparisons all = {0};

	comparisons_build(&all, &n->s);
	return all;
}

static void
check_mean(struct mean m, int64_t hundredths)
{
	ck_assert_int_gt(m.n, 0);
	ck_assert_int_eq(mean_hundredths(m), hundredths);
}

START_TEST(compare_takes_the_involved_side_first)
{
	struct note *n = note_new();
	struct comparisons all;

	involve(n, VOCAB_JOINT_KNEE, false, true);
	involve(n, VOCAB_JOINT_ELBOW, true, true);
	add(n, VOCAB_MEASUREMENT_KNEE_FLEXION, R, A, "0-140");
	add(n, VOCAB_MEASUREMENT_KNEE_FLEXION, L, A, "5-90 5-91");
	add(n, VOCAB_MEASUREMENT_ELBOW_EXTENSION, R, A, "lacks 10");
	add(n, VOCAB_MEASUREMENT_ELBOW_EXTENSION, L, A, "0-3");
	add(n, VOCAB_MEASUREMENT_HIP_FLEXION, R, A, "0-100");
	add(n, VOCAB_MEASUREMENT_HIP_FLEXION, L, A, "0-100");
	all = compared(n);
	ck_assert_uint_eq(all.len, 3);
	ck_assert_int_eq(all.at[0].from, L);
	ck_assert(all.at[0].one_involved);
	check_mean(comparison_sides(&n->s, &all.at[0], A), -4950);
	ck_assert_int_eq(all.at[1].from, R);
	ck_assert(!all.at[1].one_involved);
	check_mean(comparison_sides(&n->s, &all.at[1], A), -1300);
	ck_assert(!all.at[2].one_involved);
	check_mean(comparison_sides(&n->s, &all.at[2], A), 0);
	comparisons_free(&all);
	note_free(n);
}
END_TEST

START_TEST(compare_has_no_figure_where_none_is_due)
{
	static const struct {
		const char *right, *left;
		int unit;
	} pairs[] = {{"WNL", "0-140", 0}, {"NT", "0-140", 0},
	    {"0-100", "WFL", 0}, {"38", "39", VOCAB_UNIT_CM},
	    {"level 13", "level 14", NONE}};
	struct note *n = note_new();
	struct comparisons all;

	for (size_t i = 0; i < sizeof(pairs) / sizeof(*pairs); i++) {
		n->s.readings.len = 0;
		add(n, VOCAB_MEASUREMENT_KNEE_FLEXION, R, A, pairs[i].right);
		add_in(n, VOCAB_MEASUREMENT_KNEE_FLEXION, L, A, pairs[i].unit,
		    pairs[i].left);
		all = compared(n);
		ck_assert_uint_eq(all.len, 1);
		ck_assert_int_eq(comparison_sides(&n->s, all.at, A).n, 0);
		comparisons_free(&all);
	}
	n->s.readings.len = 0;
	add(n, VOCAB_MEASUREMENT_KNEE_FLEXION, R, A, "0-100");
	add(n, VOCAB_MEASUREMENT_KNEE_FLEXION, L, A, "0-120");
	all = compared(n);
	check_mean(comparison_sides(&n->s, all.at, A), -2000);
	n->s.readings.at[1].left_out = true;
	ck_assert_int_eq(comparison_sides(&n->s, all.at, A).n, 0);
	comparisons_free(&all);
	note_free(n);
}
END_TEST

/* 2.2 cm are 22 mm: exactly so, whichever side has which. */
START_TEST(compare_holds_lengths_together)
{
	struct note *n = note_new();
	struct comparisons all;
	int m = VOCAB_MEASUREMENT_RING_TIP_TO_CREASE;

	add_in(n, m, R, A, VOCAB_UNIT_CM, "2.2 2.3");
	add_in(n, m, R, P, VOCAB_UNIT_MM, "20.1");
	add_in(n, m, L, A, VOCAB_UNIT_MM, "4.1");
	add_in(n, m, L, P, VOCAB_UNIT_MM, "4");
	all = compared(n);
	ck_assert_uint_eq(all.len, 1);
	check_mean(comparison_sides(&n->s, all.at, A), 1840);
	check_mean(comparison_sides(&n->s, all.at, P), 1610);
	check_mean(comparison_modes(&n->s, all.at, R), -240);
	check_mean(comparison_modes(&n->s, all.at, L), -10);
	comparisons_free(&all);
	note_free(n);
}
END_TEST

START_TEST(compare_keeps_settings_and_repetitions_apart)
{
	struct note *n = note_new();
	struct comparisons all;
	int m = VOCAB_MEASUREMENT_ANKLE_DORSIFLEXION;

	add(n, m, R, A, "0-10")->setting = word(n, "knee-bent");
	add(n, VOCAB_MEASUREMENT_KNEE_FLEXION, R, A, "0-120");
	add(n, m, L, A, "0-5")->setting = word(n, "knee-straight");
	add(n, m, L, A, "0-12")->setting = word(n, "knee-bent");
	add(n, m, R, A, "0-9")->setting = word(n, "knee-bent");
	n->s.readings.at[4].reps = 10;
	all = compared(n);
	ck_assert_uint_eq(all.len, 4);
	/* by joint, though the knee was written in between */
	ck_assert_int_eq(all.at[0].measurement, m);
	check_mean(comparison_sides(&n->s, &all.at[0], A), -200);
	ck_assert_int_eq(all.at[1].reading[A][L], 2);
	ck_assert_int_eq(comparison_sides(&n->s, &all.at[1], A).n, 0);
	ck_assert_int_eq(all.at[2].reps, 10);
	ck_assert_int_eq(comparison_sides(&n->s, &all.at[2], A).n, 0);
	ck_assert_int_eq(all.at[3].measurement, VOCAB_MEASUREMENT_KNEE_FLEXION);
	comparisons_free(&all);
	note_free(n);
}
END_TEST

/* Nothing is ever a mean over two readings. */
START_TEST(compare_gives_a_second_reading_its_own_place)
{
	struct note *n = note_new();
	struct comparisons all;
	int m = VOCAB_MEASUREMENT_KNEE_FLEXION;

	add(n, m, R, A, "0-100");
	add(n, m, L, A, "0-140");
	add(n, m, R, A, "0-90");
	add(n, m, R, A, "0-80")->rater = word(n, "ab");
	all = compared(n);
	ck_assert_uint_eq(all.len, 3);
	ck_assert(all.at[0].first);
	check_mean(comparison_sides(&n->s, &all.at[0], A), -4000);
	ck_assert_int_eq(all.at[1].reading[A][R], 2);
	ck_assert_int_eq(all.at[2].reading[A][R], 3);
	ck_assert(!all.at[1].first && !all.at[2].first);
	comparisons_free(&all);
	note_free(n);
}
END_TEST

START_TEST(compare_sets_differing_conditions_against_each_other)
{
	struct note *n = note_new();
	struct comparisons all;
	int m = VOCAB_MEASUREMENT_HIP_FLEXION;

	add(n, m, R, A, "0-100")->posture = word(n, "supine");
	add(n, m, L, A, "0-120")->posture = word(n, "sitting");
	add(n, m, R, P, "0-110")->posture = word(n, "sitting");
	all = compared(n);
	ck_assert_uint_eq(all.len, 1);
	check_mean(comparison_sides(&n->s, all.at, A), -2000);
	/* but not passive against active */
	ck_assert_int_eq(comparison_modes(&n->s, all.at, R).n, 0);
	n->s.readings.at[2].posture = word(n, "supine");
	comparisons_build(&all, &n->s);
	check_mean(comparison_modes(&n->s, all.at, R), 1000);
	n->s.readings.at[2].rater = word(n, "ab");
	comparisons_build(&all, &n->s);
	ck_assert_int_eq(comparison_modes(&n->s, all.at, R).n, 0);
	comparisons_free(&all);
	note_free(n);
}
END_TEST

START_TEST(compare_lets_not_tested_stand_in_for_each_mode)
{
	struct note *n = note_new();
	struct comparisons all;
	int m = VOCAB_MEASUREMENT_KNEE_FLEXION;

	add(n, m, R, NONE, "fixed 30");
	add(n, m, L, A, "0-140");
	add(n, m, L, P, "0-145");
	all = compared(n);
	ck_assert_uint_eq(all.len, 1);
	ck_assert_ptr_eq(
	    comparison_reading(&n->s, all.at, A, R), &n->s.readings.at[0]);
	check_mean(comparison_sides(&n->s, all.at, P), -11500);
	ck_assert_int_eq(comparison_modes(&n->s, all.at, R).n, 0);
	ck_assert(!comparison_shows(&n->s, all.at, COMPARE_NO_MODE));
	ck_assert(comparison_shows(&n->s, all.at, A));
	ck_assert(!comparison_shows(&n->s, all.at, VOCAB_MODE_ASSISTED));
	n->s.readings.len = 1;
	comparisons_build(&all, &n->s);
	ck_assert(comparison_shows(&n->s, all.at, COMPARE_NO_MODE));
	comparisons_free(&all);
	note_free(n);
}
END_TEST

/* Each reading is in exactly one comparison, whatever the session holds. */
START_TEST(compare_loses_no_reading)
{
	enum { MANY = 20000 };
	struct note *n = note_new();
	struct comparisons all;
	unsigned char *seen = mem_zero(MANY);
	uint32_t random = 1;

	for (int i = 0; i < MANY; i++) {
		struct reading *r;

		random = random * 1664525u + 1013904223u;
		r = add(n, (int)(random >> 24) % 3, (int)(random >> 20) % 3 - 1,
		    (int)(random >> 17) % 5 - 1, "0-50");
		r->posture = (random >> 15) % 2 ? word(n, "sitting") : 0;
		r->rater = (random >> 13) % 2 ? word(n, "ab") : 0;
		r->reps = (random >> 11) % 4 ? NO_VALUE : 3;
	}
	all = compared(n);
	for (size_t i = 0; i < all.len; i++)
		for (int m = 0; m < COMPARE_MODES; m++)
			for (int side = 0; side < COMPARE_SIDES; side++) {
				int32_t at = all.at[i].reading[m][side];
				const struct reading *r;

				if (at < 0)
					continue;
				r = &n->s.readings.at[at];
				seen[at]++;
				ck_assert_int_eq(
				    r->measurement, all.at[i].measurement);
				ck_assert_int_eq(r->reps, all.at[i].reps);
				ck_assert_int_eq(
				    r->mode < 0 ? COMPARE_NO_MODE : r->mode, m);
				ck_assert_int_eq(
				    r->side < 0 ? COMPARE_NO_SIDE : r->side,
				    side);
			}
	for (int i = 0; i < MANY; i++)
		ck_assert_int_eq(seen[i], 1);
	free(seen);
	comparisons_free(&all);
	note_free(n);
}
END_TEST

TCase *
write_compare_case(void)
{
	TCase *tc = tcase_create("compare");

	tcase_add_test(tc, compare_takes_the_involved_side_first);
	tcase_add_test(tc, compare_has_no_figure_where_none_is_due);
	tcase_add_test(tc, compare_holds_lengths_together);
	tcase_add_test(tc, compare_keeps_settings_and_repetitions_apart);
	tcase_add_test(tc, compare_gives_a_second_reading_its_own_place);
	tcase_add_test(
	    tc, compare_sets_differing_conditions_against_each_other);
	tcase_add_test(tc, compare_lets_not_tested_stand_in_for_each_mode);
	tcase_add_test(tc, compare_loses_no_reading);
	return tc;
}
