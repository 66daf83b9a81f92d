/*
 * Totals: what is added, what is taken off, and above all what is not added
 * up. All people and readings are invented.
 */
#include <check.h>
#include <stdio.h>

#include "calc/totals.h"
#include "lint_note.h"

Suite *totals_suite(void);

static struct totals totals;

static void
begin(void)
{
	set_up();
	totals_build(&totals, &s);
}

static void
end(void)
{
	totals_free(&totals);
	tear_down();
}

/* The total of DEFINITION, SIDE and MODE, or NULL. */
static const struct total *
total_of(int definition, int side, int mode)
{
	totals_build(&totals, &s);
	for (size_t i = 0; i < totals.len; i++)
		if (totals.at[i].definition == definition &&
		    totals.at[i].side == side && totals.at[i].mode == mode)
			return &totals.at[i];
	return NULL;
}

static void
check_sum(const struct total *t, int tenths)
{
	ck_assert_ptr_nonnull(t);
	ck_assert_int_gt(t->sum.n, 0);
	ck_assert_int_eq(mean_compare_to(t->sum, tenths), 0);
}

static void
add_index(int side, int mode)
{
	add_pair(M(INDEX_MCP_FLEXION), side, mode, 0, 72);
	add_pair(M(INDEX_PIP_FLEXION), side, mode, 14, 86);
	add_pair(M(INDEX_DIP_FLEXION), side, mode, 4, 41);
}

/* --- digits --------------------------------------------------------------- */

START_TEST(flexion_less_what_is_lacked)
{
	add_index(R, A);
	check_sum(total_of(TOTAL_INDEX, R, A), 1810);
	check_sum(total_of(TOTAL_INDEX_TWO_JOINTS, R, A), 1090);
	ck_assert_ptr_null(total_of(TOTAL_INDEX, R, P));
	ck_assert_ptr_null(total_of(TOTAL_INDEX, L, A));
	ck_assert_ptr_null(total_of(TOTAL_MIDDLE, R, A));
}
END_TEST

START_TEST(beyond_straight_adds_nothing)
{
	add_pair(M(INDEX_PIP_FLEXION), R, A, 14, 86);
	add_pair(M(INDEX_DIP_FLEXION), R, A, 4, 41);
	add(M(INDEX_MCP_FLEXION), R, A, 0, 72);
	add(M(INDEX_MCP_EXTENSION), R, A, 0, 25);
	check_sum(total_of(TOTAL_INDEX, R, A), 1810);
}
END_TEST

/* Each part is the mean of its trials, and the sum of these is exact. */
START_TEST(trials_are_exact)
{
	add_index(R, A);
	add(M(THUMB_MCP_FLEXION), R, A, 0, 50);
	add_trial(0, 51);
	add_trial(0, 51);
	add_lacks(M(THUMB_MCP_EXTENSION), R, A, 1);
	add_trial(NO_VALUE, -2);
	add_pair(M(THUMB_IP_FLEXION), R, A, 0, 60);
	/* 50 2/3 - 1 1/2 + 60 = 109 1/6 */
	ck_assert_int_eq(
	    mean_hundredths(total_of(TOTAL_THUMB, R, A)->sum), 10917);
}
END_TEST

/* A missing joint is never 0: there is no total, and it is known why. */
START_TEST(a_missing_joint_gives_no_total)
{
	const struct total *t;

	add_pair(M(INDEX_MCP_FLEXION), R, A, 0, 72);
	add_pair(M(INDEX_PIP_FLEXION), R, A, 14, 86);
	t = total_of(TOTAL_INDEX, R, A);
	ck_assert_int_eq(t->sum.n, 0);
	ck_assert_int_eq(t->present, 4);
	ck_assert_int_eq(t->part[2].state, PART_MISSING);
	ck_assert_int_eq(t->part[5].state, PART_MISSING);
	ck_assert_int_eq(total_of(TOTAL_INDEX_TWO_JOINTS, R, A)->sum.n, 0);
}
END_TEST

/* Nor is the start of a flexion an extension that nobody measured. */
START_TEST(a_missing_end_gives_no_total)
{
	add_pair(M(INDEX_MCP_FLEXION), R, A, 0, 72);
	add_pair(M(INDEX_PIP_FLEXION), R, A, 14, 86);
	add(M(INDEX_DIP_FLEXION), R, A, 4, 41);
	ck_assert_int_eq(total_of(TOTAL_INDEX, R, A)->sum.n, 0);
}
END_TEST

static const struct {
	enum kind kind;
	enum part_state state;
} outcomes[] = {{KIND_NOT_TESTED, PART_NOT_TESTED}, {KIND_WNL, PART_NO_NUMBER},
    {KIND_WFL, PART_NO_NUMBER}};

START_TEST(an_outcome_is_no_number)
{
	const struct total *t;

	add_pair(M(THUMB_MCP_FLEXION), R, A, 0, 50);
	add_lacks(M(THUMB_IP_EXTENSION), R, A, 0);
	add_bare(M(THUMB_IP_FLEXION), R, NONE, outcomes[_i].kind);
	t = total_of(TOTAL_THUMB, R, A);
	ck_assert_int_eq(t->sum.n, 0);
	ck_assert_int_eq(t->part[1].state, outcomes[_i].state);
}
END_TEST

START_TEST(a_doubtful_reading_is_left_out)
{
	const struct total *t;

	add_index(R, A);
	s.readings.at[0].left_out = true;
	t = total_of(TOTAL_INDEX, R, A);
	ck_assert_int_eq(t->sum.n, 0);
	ck_assert_int_eq(t->part[0].state, PART_DOUBTFUL);
}
END_TEST

/* Nobody knows which of two to take, and their mean is nobody's reading. */
START_TEST(two_readings_of_a_part_give_no_total)
{
	const struct total *t;

	add_index(R, A);
	add(M(INDEX_DIP_FLEXION), R, A, 0, 50);
	t = total_of(TOTAL_INDEX, R, A);
	ck_assert_int_eq(t->sum.n, 0);
	ck_assert_int_eq(t->part[2].state, PART_TWICE);
}
END_TEST

/* Sides, modes, settings, raters and repetitions are never mixed. */
START_TEST(nothing_is_mixed)
{
	struct reading *r;

	add_pair(M(INDEX_MCP_FLEXION), R, A, 0, 72);
	add_pair(M(INDEX_PIP_FLEXION), R, A, 14, 86);
	r = add_pair(
	    M(INDEX_DIP_FLEXION), _i == 0 ? L : R, _i == 1 ? P : A, 4, 41);
	for (int k = 0; k < 2; k++) {
		r[k].setting = _i == 2 ? text("wrist-flexed") : 0;
		r[k].rater = _i == 3 ? text("dk") : 0;
		r[k].reps = _i == 4 ? 10 : NO_VALUE;
	}
	totals_build(&totals, &s);
	ck_assert_uint_gt(totals.len, 0);
	for (size_t i = 0; i < totals.len; i++)
		ck_assert_int_eq(totals.at[i].sum.n == 0, _i < 5);
}
END_TEST

/* A fixed joint holds for every mode, and lacks what it is fixed at. */
START_TEST(a_fixed_joint_adds_nothing)
{
	add_pair(M(THUMB_MCP_FLEXION), R, A, 5, 50);
	add_pair(M(THUMB_MCP_FLEXION), R, P, 3, 55);
	add_bare(M(THUMB_IP_FLEXION), R, NONE, KIND_FIXED);
	add_trial(30, 30);
	check_sum(total_of(TOTAL_THUMB, R, A), 450);
	check_sum(total_of(TOTAL_THUMB, R, P), 520);
}
END_TEST

START_TEST(percentages)
{
	struct mean a = {1250, 1}, zero = {0, 1}, none = {0, 0};

	ck_assert_int_eq(mean_hundredths(total_percent(a, 2600)), 4808);
	ck_assert_int_eq(total_percent(a, 0).n, 0);
	ck_assert_int_eq(total_percent(none, 2600).n, 0);
	ck_assert_int_eq(total_percent_of(a, zero).n, 0);
	ck_assert_int_eq(total_percent_of(a, none).n, 0);
	ck_assert_int_eq(
	    mean_hundredths(total_percent_of(a, (struct mean){5000, 2})), 5000);
}
END_TEST

START_TEST(the_other_side)
{
	add_index(R, A);
	add_index(L, A);
	add_index(R, P);
	totals_build(&totals, &s);
	for (size_t i = 0; i < totals.len; i++) {
		const struct total *other = total_opposite(&totals, i);

		if (totals.at[i].mode == P) {
			ck_assert_ptr_null(other);
			continue;
		}
		ck_assert_ptr_nonnull(other);
		ck_assert_int_ne(other->side, totals.at[i].side);
		ck_assert_int_eq(other->mode, totals.at[i].mode);
	}
}
END_TEST

/* --- spine and shoulder --------------------------------------------------- */

static void
add_cervical(void)
{
	add(M(CERVICAL_FLEXION), NONE, A, 0, 40);
	add(M(CERVICAL_EXTENSION), NONE, A, 0, 38);
	add(M(CERVICAL_LATERAL_FLEXION), R, A, 0, 30);
	add(M(CERVICAL_LATERAL_FLEXION), L, A, 0, 35);
	add(M(CERVICAL_ROTATION), R, A, 0, 60);
}

START_TEST(six_directions)
{
	add_cervical();
	ck_assert_int_eq(total_of(TOTAL_CERVICAL, NONE, A)->sum.n, 0);
	ck_assert_int_eq(
	    total_of(TOTAL_CERVICAL, NONE, A)->part[5].state, PART_MISSING);
	add(M(CERVICAL_ROTATION), L, A, 0, 71);
	check_sum(total_of(TOTAL_CERVICAL, NONE, A), 2740);
}
END_TEST

START_TEST(a_lack_is_taken_off_the_range)
{
	add_cervical();
	add(M(CERVICAL_ROTATION), L, A, 0, 71);
	s.trials.at[s.readings.at[1].first_trial].end = -50;
	check_sum(total_of(TOTAL_CERVICAL, NONE, A), 2310);
}
END_TEST

START_TEST(a_fixed_spine_has_no_range)
{
	add_cervical();
	add_bare(M(CERVICAL_ROTATION), L, NONE, KIND_FIXED);
	add_trial(20, 20);
	ck_assert_int_eq(total_of(TOTAL_CERVICAL, NONE, A)->sum.n, 0);
	ck_assert_int_eq(
	    total_of(TOTAL_CERVICAL, NONE, A)->part[5].state, PART_FIXED);
}
END_TEST

static void
add_rotation(const char *internal, const char *external)
{
	add(M(SHOULDER_INTERNAL_ROTATION), R, P, 0, 52)->setting =
	    text(internal);
	add(M(SHOULDER_EXTERNAL_ROTATION), R, P, 0, 132)->setting =
	    text(external);
}

static const struct {
	const char *internal, *external;
	bool total;
} settings[] = {
    {"abducted-90", "abducted-90", true},
    {"abducted-90 elbow-bent", "abducted-90 elbow-bent", true},
    {"abducted-0", "abducted-0", false},
    {"", "", false},
    {"abducted-90", "abducted-0", false},
    {"abducted-90", "abducted-90 elbow-bent", false},
};

START_TEST(rotation_is_of_one_setting)
{
	const struct total *t;

	add_rotation(settings[_i].internal, settings[_i].external);
	t = total_of(TOTAL_SHOULDER_ROTATION, R, P);
	if (settings[_i].total)
		check_sum(t, 1840);
	else
		ck_assert(!t || t->sum.n == 0);
}
END_TEST

/* --- many ----------------------------------------------------------------- */

/* As many settings as readings, which a quadratic search would not finish. */
START_TEST(many_readings)
{
	enum { MANY = 60000 };

	for (int i = 0; i < MANY; i++) {
		char setting[32];

		snprintf(setting, sizeof(setting), "wrist-flexed-%d", i);
		add(M(INDEX_PIP_FLEXION), R, A, 0, 50)->setting = text(setting);
	}
	totals_build(&totals, &s);
	ck_assert_uint_eq(totals.len, 2 * MANY);
}
END_TEST

static TCase *
digit_case(void)
{
	TCase *digit = tcase_create("digits");

	tcase_add_checked_fixture(digit, begin, end);
	tcase_add_test(digit, flexion_less_what_is_lacked);
	tcase_add_test(digit, beyond_straight_adds_nothing);
	tcase_add_test(digit, trials_are_exact);
	tcase_add_test(digit, a_missing_joint_gives_no_total);
	tcase_add_test(digit, a_missing_end_gives_no_total);
	tcase_add_loop_test(digit, an_outcome_is_no_number, 0, 3);
	tcase_add_test(digit, a_doubtful_reading_is_left_out);
	tcase_add_test(digit, two_readings_of_a_part_give_no_total);
	tcase_add_loop_test(digit, nothing_is_mixed, 0, 6);
	tcase_add_test(digit, a_fixed_joint_adds_nothing);
	tcase_add_test(digit, percentages);
	tcase_add_test(digit, the_other_side);
	tcase_add_test(digit, many_readings);
	return digit;
}

Suite *
totals_suite(void)
{
	Suite *suite = suite_create("totals");
	TCase *range = tcase_create("ranges");

	suite_add_tcase(suite, digit_case());
	tcase_add_checked_fixture(range, begin, end);
	tcase_add_test(range, six_directions);
	tcase_add_test(range, a_lack_is_taken_off_the_range);
	tcase_add_test(range, a_fixed_spine_has_no_range);
	tcase_add_loop_test(range, rotation_is_of_one_setting, 0,
	    (int)(sizeof(settings) / sizeof(*settings)));
	suite_add_tcase(suite, range);
	return suite;
}
