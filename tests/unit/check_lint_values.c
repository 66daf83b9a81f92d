/*
 * The rules on single figures and on what was written twice or not at all,
 * each with a note that it reports and the nearest that it does not. All
 * readings are invented.
 */
#include "lint_note.h"

START_TEST(swapped_figures_are_told_once)
{
	add_pair(M(ELBOW_FLEXION), R, A, 131, 8);
	ck_assert_int_eq(times(RULE_END_BEFORE_START), 1);
	ck_assert_str_eq(first(RULE_END_BEFORE_START)->message,
	    "right elbow flexion active ends at 8, before its start at 131");
	ck_assert(s.readings.at[0].left_out && s.readings.at[1].left_out);
	begin_session(19001);
	add_pair(M(ELBOW_FLEXION), R, A, 8, 131);
	add(M(KNEE_FLEXION), R, A, 30, 30)->kind = KIND_FIXED;
	add(M(LUMBAR_FLEXION), NONE, A, NO_VALUE, 47);
	s.trials.at[s.trials.len - 1].minuend = 850; /* 85 less 38 */
	add_lacks(M(KNEE_EXTENSION), L, A, 47);
	ck_assert_int_eq(times(RULE_END_BEFORE_START), 0);
	add(M(LUMBAR_FLEXION), NONE, P, NO_VALUE, -47);
	s.trials.at[s.trials.len - 1].minuend = 380;
	ck_assert_int_eq(times(RULE_END_BEFORE_START), 1);
	ck_assert_str_eq(first(RULE_END_BEFORE_START)->message,
	    "lumbar flexion passive: 38 less 85 is below 0");
}
END_TEST

/* Bounds of elbow flexion: usual 160, possible 175; it lacks up to 175. */
START_TEST(impossible_beyond_the_bound_only)
{
	add(M(ELBOW_FLEXION), R, A, 0, 175);
	add_lacks(M(ELBOW_EXTENSION), R, P, 175);
	ck_assert_int_eq(times(RULE_IMPOSSIBLE_ANGLE), 0);
	begin_session(19001);
	add(M(ELBOW_FLEXION), R, A, 0, 140);
	add_trial(0, 176);
	add_lacks(M(ELBOW_EXTENSION), R, P, 176);
	ck_assert_int_eq(times(RULE_IMPOSSIBLE_ANGLE), 2);
	ck_assert_ptr_nonnull(strstr(first(RULE_IMPOSSIBLE_ANGLE)->message,
	    "right elbow flexion active 176 is beyond what this joint can do"));
	ck_assert_str_eq(first(RULE_IMPOSSIBLE_ANGLE)->hint,
	    "check joint, motion and figure and measure again: at most 175, "
	    "this program's own bound, generous on purpose");
	ck_assert(s.readings.at[0].left_out && s.readings.at[1].left_out);
	/* Told once: not unusual as well, nor do its trials disagree. */
	ck_assert_int_eq(count(RULE_UNUSUAL_ANGLE), 0);
	ck_assert_int_eq(count(RULE_TRIALS_DISAGREE), 0);
}
END_TEST

START_TEST(schober_is_judged_by_its_difference)
{
	add(M(LUMBAR_SCHOBER), NONE, NONE, 100, 240);
	add(M(LUMBAR_SCHOBER), NONE, NONE, NO_VALUE, 240);
	ck_assert_int_eq(times(RULE_IMPOSSIBLE_ANGLE), 0);
	begin_session(19001);
	add(M(LUMBAR_SCHOBER), NONE, NONE, 100, 260);
	ck_assert_int_eq(times(RULE_IMPOSSIBLE_ANGLE), 1);
	begin_session(19002);
	add(M(LUMBAR_SCHOBER), NONE, NONE, 10, 26)->unit = VOCAB_UNIT_CM;
	ck_assert_int_eq(times(RULE_IMPOSSIBLE_ANGLE), 1);
	ck_assert_ptr_nonnull(
	    strstr(first(RULE_IMPOSSIBLE_ANGLE)->message, "16 cm"));
}
END_TEST

static const struct {
	int other; /* end of the left side, 0: not measured */
	int mode;  /* of it */
	int age;   /* 0: not said, else years and 1 */
	int expected;
} unusual[] = {{0, A, 0, 1}, {162, A, 0, 0}, {161, A, 0, 1}, {167, P, 0, 1},
    {0, A, 2, 0}, {0, A, 3, 1}};

START_TEST(unusual_unless_the_other_side_agrees)
{
	person.headers.age.said = unusual[_i].age ? SAID : SAID_NOTHING;
	person.headers.age.value = unusual[_i].age - 1;
	add(M(ELBOW_FLEXION), R, A, 0, 167);
	if (unusual[_i].other)
		add(M(ELBOW_FLEXION), L, unusual[_i].mode, 0,
		    unusual[_i].other);
	judge();
	ck_assert_int_eq(count_on(RULE_UNUSUAL_ANGLE, 0), unusual[_i].expected);
}
END_TEST

START_TEST(unusual_but_for_its_setting)
{
	/* knee-straight: usual 110, else 157 */
	add(M(HIP_FLEXION), R, P, 0, 120);
	ck_assert_int_eq(times(RULE_UNUSUAL_ANGLE), 0);
	s.readings.at[0].setting = text("knee-straight");
	ck_assert_int_eq(times(RULE_UNUSUAL_ANGLE), 1);
}
END_TEST

START_TEST(pain_scores)
{
	add(M(KNEE_FLEXION), R, A, 0, 100)->pain = 100;
	add(M(KNEE_FLEXION), L, A, 0, 100)->pain = 0;
	ck_assert_int_eq(times(RULE_IMPOSSIBLE_PAIN), 0);
	s.readings.at[0].pain = 110;
	ck_assert_int_eq(times(RULE_IMPOSSIBLE_PAIN), 1);
	add_bare(M(KNEE_FLEXION), L, P, KIND_NOT_TESTED)->pain = 120;
	ck_assert_int_eq(times(RULE_IMPOSSIBLE_PAIN), 2);
}
END_TEST

static const struct {
	int measurement;
	enum kind kind;
	int start, end, onset, low, high; /* -1: none */
	int expected;
} pain[] = {{M(KNEE_FLEXION), KIND_MEASURED, 10, 100, 10, -1, -1, 0},
    {M(KNEE_FLEXION), KIND_MEASURED, 10, 100, 9, -1, -1, 1},
    {M(KNEE_FLEXION), KIND_MEASURED, 10, 100, 100, -1, -1, 0},
    {M(KNEE_FLEXION), KIND_MEASURED, 10, 100, 101, -1, -1, 1},
    {M(SHOULDER_ABDUCTION), KIND_MEASURED, 0, 150, -1, 60, 110, 0},
    {M(SHOULDER_ABDUCTION), KIND_MEASURED, 0, 100, -1, 60, 110, 1},
    {M(KNEE_EXTENSION), KIND_LACKS, -1, -8, 20, -1, -1, 0},
    {M(KNEE_EXTENSION), KIND_LACKS, -1, -8, 5, -1, -1, 1},
    {M(JAW_OPENING), KIND_MEASURED, -1, 38, 30, -1, -1, 0},
    {M(JAW_OPENING), KIND_MEASURED, -1, 38, 40, -1, -1, 1},
    {M(INDEX_TIP_TO_CREASE), KIND_MEASURED, -1, 20, 30, -1, -1, 0},
    {M(INDEX_TIP_TO_CREASE), KIND_MEASURED, -1, 20, 10, -1, -1, 1}};

static int32_t
tenths(int n)
{
	return n < 0 ? NO_VALUE : n * 10;
}

START_TEST(pain_within_the_motion)
{
	struct reading *r;

	r = add_bare(pain[_i].measurement, R, A, pain[_i].kind);
	r->pain_onset = tenths(pain[_i].onset);
	r->arc_low = tenths(pain[_i].low);
	r->arc_high = tenths(pain[_i].high);
	add_trial(pain[_i].start < 0 ? NO_VALUE : pain[_i].start, pain[_i].end);
	ck_assert_int_eq(times(RULE_PAIN_OUTSIDE_RANGE), pain[_i].expected);
}
END_TEST

START_TEST(pain_by_the_widest_of_the_trials)
{
	add(M(KNEE_FLEXION), R, A, 10, 100)->pain_onset = 1040;
	add_trial(5, 104);
	ck_assert_int_eq(times(RULE_PAIN_OUTSIDE_RANGE), 0);
	s.readings.at[0].pain_onset = 50;
	ck_assert_int_eq(times(RULE_PAIN_OUTSIDE_RANGE), 0);
	s.readings.at[0].pain_onset = 40;
	ck_assert_int_eq(times(RULE_PAIN_OUTSIDE_RANGE), 1);
}
END_TEST

START_TEST(pain_on_either_scale_of_two_inclinometers)
{
	add(M(LUMBAR_FLEXION), NONE, A, NO_VALUE, 47)->pain_onset = 600;
	ck_assert_int_eq(times(RULE_PAIN_OUTSIDE_RANGE), 1);
	s.trials.at[0].minuend = 850; /* 85 less 38 */
	ck_assert_int_eq(times(RULE_PAIN_OUTSIDE_RANGE), 0);
}
END_TEST

START_TEST(off_the_scale_of_the_instrument)
{
	add(M(KNEE_FLEXION), R, A, 5, 100)->step = 50;
	add_lacks(M(KNEE_EXTENSION), R, A, 5)->step = 50;
	ck_assert_int_eq(times(RULE_OFF_SCALE), 0);
	add(M(KNEE_FLEXION), L, A, 3, 100)->step = 50;
	ck_assert_int_eq(times(RULE_OFF_SCALE), 1);
	ck_assert_str_eq(first(RULE_OFF_SCALE)->message,
	    "left knee flexion active: 3 cannot be read off an instrument in "
	    "steps of 5");
	add(M(KNEE_FLEXION), R, P, 0, 101);
	add_lacks(M(KNEE_EXTENSION), L, P, 4)->step = 50;
	ck_assert_int_eq(times(RULE_OFF_SCALE), 2);
	/* 86 less 38: the difference is 48, the two readings are even */
	add(M(CERVICAL_FLEXION), NONE, A, NO_VALUE, 50)->step = 20;
	s.trials.at[s.trials.len - 1].minuend = 850;
	ck_assert_int_eq(times(RULE_OFF_SCALE), 3);
	s.trials.at[s.trials.len - 1].minuend = 860;
	ck_assert_int_eq(times(RULE_OFF_SCALE), 2);
}
END_TEST

START_TEST(eight_rounded_readings)
{
	for (int i = 0; i < 7; i++)
		add(M(KNEE_FLEXION), R, A, 0, 100 + 5 * i)->step = 10;
	ck_assert_int_eq(times(RULE_ROUNDED_READINGS), 0);
	add(M(KNEE_FLEXION), L, A, 0, 105)->step = 10;
	ck_assert_int_eq(times(RULE_ROUNDED_READINGS), 1);
	ck_assert_uint_eq(first(RULE_ROUNDED_READINGS)->line, s.line);
	ck_assert_int_eq(first(RULE_ROUNDED_READINGS)->reading, NO_READING);
	s.readings.at[7].step = 50;
	ck_assert_int_eq(times(RULE_ROUNDED_READINGS), 0);
	s.readings.at[7].step = 10;
	s.trials.at[7].end = 1060;
	ck_assert_int_eq(times(RULE_ROUNDED_READINGS), 0);
	s.trials.at[7].end = 1050;
	s.trials.at[7].start = 30;
	ck_assert_int_eq(times(RULE_ROUNDED_READINGS), 0);
}
END_TEST

/* Four values of a hinge are eight readings; nobody typed eight. */
START_TEST(rounded_values_are_counted_as_typed)
{
	for (int i = 0; i < 4; i++) {
		add_pair(M(KNEE_FLEXION), i & 1, i & 2 ? A : P, 0, 100);
		s.readings.at[s.readings.len - 2].step = 10;
		s.readings.at[s.readings.len - 1].step = 10;
	}
	ck_assert_int_eq(times(RULE_ROUNDED_READINGS), 1);
	ck_assert_str_eq(first(RULE_ROUNDED_READINGS)->message,
	    "all 4 values of an instrument that shows single degrees end in 0 "
	    "or 5");
	add(M(HIP_FLEXION), R, A, 0, 105)->step = 10;
	ck_assert_int_eq(times(RULE_ROUNDED_READINGS), 1);
	ck_assert_ptr_nonnull(
	    strstr(first(RULE_ROUNDED_READINGS)->message, "all 5 values"));
}
END_TEST

START_TEST(trials_within_tolerance)
{
	add(M(KNEE_FLEXION), R, A, 0, 100);
	add_trial(0, 105);
	ck_assert_int_eq(times(RULE_TRIALS_DISAGREE), 0);
	add_trial(0, 99);
	ck_assert_int_eq(times(RULE_TRIALS_DISAGREE), 1);
	s.readings.at[0].step = 60; /* a coarse instrument errs more */
	ck_assert_int_eq(times(RULE_TRIALS_DISAGREE), 0);
	begin_session(19001);
	add(M(JAW_OPENING), NONE, A, NO_VALUE, 4)->unit = VOCAB_UNIT_CM;
	add_trial(NO_VALUE, 5); /* 10 mm */
	ck_assert_int_eq(times(RULE_TRIALS_DISAGREE), 1);
}
END_TEST

START_TEST(the_same_reading_twice)
{
	struct reading *r;

	add(M(KNEE_FLEXION), R, A, 0, 100);
	add(M(KNEE_FLEXION), R, P, 0, 100);
	add(M(KNEE_FLEXION), L, A, 0, 100);
	add(M(KNEE_FLEXION), R, A, 0, 100)->posture = text("supine");
	add(M(KNEE_FLEXION), R, A, 0, 100)->setting = text("weight-bearing");
	add(M(KNEE_FLEXION), R, A, 0, 100)->rater = text("dk");
	add(M(KNEE_FLEXION), R, A, 0, 100)->reps = 10;
	add(M(KNEE_FLEXION), R, A, 0, 100)->instrument =
	    VOCAB_INSTRUMENT_INCLINOMETER;
	add(M(KNEE_FLEXION), R, A, 0, 100)->rater = UNKNOWN_TEXT;
	add(M(KNEE_FLEXION), R, A, 0, 100)->rater = UNKNOWN_TEXT;
	add(M(KNEE_FLEXION), R, A, 100, 0); /* left out */
	add_bare(M(KNEE_FLEXION), R, NONE, KIND_NOT_TESTED);
	ck_assert_int_eq(times(RULE_REPEATED_READING), 0);
	r = add(M(KNEE_FLEXION), R, A, 0, 130);
	ck_assert_int_eq(times(RULE_REPEATED_READING), 1);
	ck_assert_uint_eq(first(RULE_REPEATED_READING)->line, r->line);
	ck_assert_str_eq(first(RULE_REPEATED_READING)->message,
	    "right knee flexion active stands already in line 2");
	add_bare(M(KNEE_FLEXION), R, NONE, KIND_WNL);
	ck_assert_int_eq(times(RULE_REPEATED_READING), 2);
}
END_TEST

/* Each says whose figure it is, so that a list of messages alone will do. */
START_TEST(a_message_names_side_and_mode)
{
	add(M(THUMB_OPPOSITION), L, NONE, NO_VALUE, 11)->kind = KIND_SCORE;
	s.readings.at[0].unit = NONE;
	add(M(KNEE_FLEXION), R, A, 0, 100)->pain = 110;
	add(M(KNEE_FLEXION), R, P, 0, 100)->pain_onset = 1100;
	add(M(HIP_FLEXION), R, P, 0, 100);
	add_trial(0, 120);
	add_bare(M(LUMBAR_FLEXION), NONE, NONE, KIND_WNL);
	add(M(KNEE_FLEXION), L, P, 0, 131)->kind = KIND_END_ONLY;
	judge();
	ck_assert_str_eq(first(RULE_IMPOSSIBLE_ANGLE)->message,
	    "left thumb opposition 11 is beyond what can be measured here");
	ck_assert_str_eq(first(RULE_IMPOSSIBLE_PAIN)->message,
	    "right knee flexion active: a pain score of 11 is outside the "
	    "scale of 0 to 10");
	ck_assert_str_eq(first(RULE_PAIN_OUTSIDE_RANGE)->message,
	    "right knee flexion passive: pain at 110 is outside the motion, "
	    "which ended at 100");
	ck_assert_str_eq(first(RULE_TRIALS_DISAGREE)->message,
	    "the trials of right hip flexion passive end 20 apart (100 and "
	    "120)");
	ck_assert_str_eq(first(RULE_NOT_A_MEASUREMENT)->message,
	    "WNL gives no figure of lumbar flexion");
	ck_assert_str_eq(first(RULE_START_NOT_WRITTEN)->message,
	    "where left knee flexion passive started is not written");
}
END_TEST

START_TEST(start_of_a_lone_flexion)
{
	add(M(KNEE_FLEXION), R, A, 0, 131)->kind = KIND_END_ONLY;
	add(M(HIP_FLEXION), R, A, 0, 120)->kind = KIND_END_ONLY;
	add(M(KNEE_FLEXION), L, A, 0, 131);
	add_lacks(M(KNEE_EXTENSION), R, P, 3);
	ck_assert_int_eq(times(RULE_START_NOT_WRITTEN), 1);
	ck_assert_int_eq(first(RULE_START_NOT_WRITTEN)->reading, 0);
	add_lacks(M(KNEE_EXTENSION), R, A, 3);
	ck_assert_int_eq(times(RULE_START_NOT_WRITTEN), 0);
}
END_TEST

/* An extension without a figure, or a doubtful one, is told all the same. */
START_TEST(start_of_a_flexion_whose_extension_is_told)
{
	add(M(KNEE_FLEXION), R, A, 0, 122)->kind = KIND_END_ONLY;
	add_bare(M(KNEE_EXTENSION), R, A, KIND_NOT_TESTED);
	add(M(KNEE_FLEXION), L, A, 0, 122)->kind = KIND_END_ONLY;
	add(M(KNEE_EXTENSION), L, A, 0, 150);
	add(M(ELBOW_FLEXION), R, A, 0, 122)->kind = KIND_END_ONLY;
	add_bare(M(ELBOW_EXTENSION), R, NONE, KIND_WNL);
	ck_assert_int_eq(times(RULE_START_NOT_WRITTEN), 0);
	ck_assert(s.readings.at[3].left_out);
	add(M(ELBOW_FLEXION), L, A, 0, 122)->kind = KIND_END_ONLY;
	add_bare(M(ELBOW_EXTENSION), L, P, KIND_NOT_TESTED);
	ck_assert_int_eq(times(RULE_START_NOT_WRITTEN), 1);
}
END_TEST

START_TEST(words_instead_of_figures)
{
	add_bare(M(KNEE_FLEXION), R, NONE, KIND_WNL);
	add_bare(M(KNEE_FLEXION), L, NONE, KIND_WFL);
	add_bare(M(HIP_FLEXION), L, NONE, KIND_NOT_TESTED);
	ck_assert_int_eq(times(RULE_NOT_A_MEASUREMENT), 2);
}
END_TEST

/* 200,000 readings of one identity: searching for the last would not end. */
START_TEST(many_readings_alike)
{
	for (int i = 0; i < 200000; i++)
		add(M(ELBOW_FLEXION), i & 1, i & 2 ? A : P, 0, 167 - (i & 1))
		    ->end_feel = NONE;
	sink.names_only = true;
	ck_assert_int_eq(times(RULE_REPEATED_READING), 200000 - 4);
	sink.names_only = false;
}
END_TEST

Suite *lint_values_suite(void);

Suite *
lint_values_suite(void)
{
	Suite *suite = suite_create("lint: values");
	TCase *tc = tcase_create("values");

	tcase_add_checked_fixture(tc, set_up, tear_down);
	tcase_add_test(tc, swapped_figures_are_told_once);
	tcase_add_test(tc, impossible_beyond_the_bound_only);
	tcase_add_test(tc, schober_is_judged_by_its_difference);
	tcase_add_loop_test(tc, unusual_unless_the_other_side_agrees, 0,
	    sizeof(unusual) / sizeof(unusual[0]));
	tcase_add_test(tc, unusual_but_for_its_setting);
	tcase_add_test(tc, pain_scores);
	tcase_add_loop_test(
	    tc, pain_within_the_motion, 0, sizeof(pain) / sizeof(pain[0]));
	tcase_add_test(tc, pain_by_the_widest_of_the_trials);
	tcase_add_test(tc, pain_on_either_scale_of_two_inclinometers);
	tcase_add_test(tc, off_the_scale_of_the_instrument);
	tcase_add_test(tc, eight_rounded_readings);
	tcase_add_test(tc, rounded_values_are_counted_as_typed);
	tcase_add_test(tc, trials_within_tolerance);
	tcase_add_test(tc, the_same_reading_twice);
	tcase_add_test(tc, a_message_names_side_and_mode);
	tcase_add_test(tc, start_of_a_lone_flexion);
	tcase_add_test(tc, start_of_a_flexion_whose_extension_is_told);
	tcase_add_test(tc, words_instead_of_figures);
	tcase_add_test(tc, many_readings_alike);
	suite_add_tcase(suite, tc);
	return suite;
}
