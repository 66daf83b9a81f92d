/*
 * The rules of completeness: what is missed, once for what, where, and what
 * is never asked for. All readings are invented.
 */
#include "lint_note.h"

#define REQUIRE(name) (uint8_t)(1u << VOCAB_REQUIREMENT_##name)

static void
involve(uint64_t joints, bool right, bool left)
{
	person.headers.involved.said = SAID;
	joint_set_add(&person.headers.involved_joints, joints, right, left);
}

#define JOINT(name) (UINT64_C(1) << VOCAB_JOINT_##name)

static struct precaution *
forbid(uint64_t joints, bool right, bool left)
{
	struct precaution *p = MEM_PUSH(&person.headers.precautions);

	*p = (struct precaution){.motion = NONE,
	    .mode = NONE,
	    .forbids = true,
	    .unit = NONE,
	    .from = DATE_NONE,
	    .until = DATE_NONE};
	joint_set_add(&p->joints, joints, right, left);
	return p;
}

static void
say(struct reading *r, const char *words)
{
	*MEM_PUSH(&s.texts) = (struct reading_text){
	    {(uint32_t)s.text.len, (uint32_t)strlen(words)}, false};
	buffer_puts(&s.text, words);
	buffer_putc(&s.text, '\n');
	line++;
	r->texts = 1;
}

static void
done(void)
{
	free(person.headers.opposites.at);
	tear_down();
}

/* What the other side has, and whether it answers for it. */
static const struct {
	enum kind kind;
	const char *reason;
	int expected;
} answers[] = {{KIND_MEASURED, NULL, 0}, {KIND_END_ONLY, NULL, 0},
    {KIND_WNL, NULL, 0}, {KIND_WFL, NULL, 0}, {KIND_NOT_TESTED, NULL, 1},
    {KIND_NOT_TESTED, "in a cast", 0}, {KIND_NOT_TESTED, "", 1},
    {KIND_NOT_TESTED, "  ", 1}};

START_TEST(opposite_answers)
{
	struct reading *r;

	involve(JOINT(FOREARM), true, false);
	add(M(FOREARM_SUPINATION), R, A, 0, 62);
	r = add_bare(M(FOREARM_SUPINATION), L, A, answers[_i].kind);
	if (answers[_i].kind == KIND_MEASURED ||
	    answers[_i].kind == KIND_END_ONLY)
		add_trial(0, 81);
	if (answers[_i].reason)
		say(r, answers[_i].reason);
	ck_assert_int_eq(times(RULE_MISSING_OPPOSITE), answers[_i].expected);
	ck_assert_int_eq(
	    count_on(RULE_MISSING_OPPOSITE, 0), answers[_i].expected);
}
END_TEST

START_TEST(opposite_in_any_mode_and_its_setting)
{
	involve(JOINT(SHOULDER), true, false);
	add(M(SHOULDER_EXTERNAL_ROTATION), R, A, 0, 40);
	add(M(SHOULDER_EXTERNAL_ROTATION), L, P, 0, 80);
	ck_assert_int_eq(times(RULE_MISSING_OPPOSITE), 0);
	add(M(SHOULDER_EXTERNAL_ROTATION), R, A, 0, 60)->setting =
	    text("abducted-90");
	judge();
	ck_assert_int_eq(count(RULE_MISSING_OPPOSITE), 1);
	ck_assert_int_eq(count_on(RULE_MISSING_OPPOSITE, 2), 1);
	ck_assert_str_eq(first(RULE_MISSING_OPPOSITE)->message,
	    "shoulder external rotation (abducted-90): measured on the right "
	    "only");
}
END_TEST

START_TEST(opposite_once_a_joint)
{
	involve(
	    JOINT(FOREARM) | JOINT(INDEX_MCP) | JOINT(INDEX_PIP), true, false);
	add(M(FOREARM_SUPINATION), L, A, 0, 80);
	add(M(INDEX_MCP_FLEXION), R, A, 0, 70);
	add(M(FOREARM_PRONATION), L, A, 0, 80);
	add(M(INDEX_PIP_FLEXION), R, A, 0, 70);
	judge();
	ck_assert_int_eq(count(RULE_MISSING_OPPOSITE), 3);
	ck_assert_str_eq(first(RULE_MISSING_OPPOSITE)->message,
	    "forearm supination, pronation: measured on the left only");
	ck_assert_int_eq(count_on(RULE_MISSING_OPPOSITE, 0), 1);
	ck_assert_int_eq(count_on(RULE_MISSING_OPPOSITE, 1), 1);
	ck_assert_int_eq(count_on(RULE_MISSING_OPPOSITE, 3), 1);
}
END_TEST

START_TEST(opposite_now_one_side_now_the_other)
{
	involve(JOINT(FOREARM), true, false);
	add(M(FOREARM_SUPINATION), R, A, 0, 80);
	add(M(FOREARM_PRONATION), L, A, 0, 80);
	judge();
	ck_assert_int_eq(count(RULE_MISSING_OPPOSITE), 1);
	ck_assert_str_eq(first(RULE_MISSING_OPPOSITE)->message,
	    "forearm supination, pronation: measured on one side only");
}
END_TEST

START_TEST(opposite_of_involved_joints_only)
{
	add(M(KNEE_FLEXION), R, A, 0, 118);
	ck_assert_int_eq(times(RULE_MISSING_OPPOSITE), 0);
	involve(JOINT(HIP), true, false);
	person.code = text("WR-0194");
	ck_assert_int_eq(times(RULE_MISSING_OPPOSITE), 0);
}
END_TEST

START_TEST(opposite_required_where_nothing_is_involved)
{
	add(M(KNEE_FLEXION), R, A, 0, 118)->require = REQUIRE(OPPOSITE);
	person.headers.involved.said = SAID; /* involved none */
	ck_assert_int_eq(times(RULE_MISSING_OPPOSITE), 1);
	person.code = text("WR-0194");
	person.headers.involved.said = SAID_UNREADABLE;
	ck_assert_int_eq(times(RULE_MISSING_OPPOSITE), 0);
	person.code = text("WR-0195");
	involve(JOINT(HIP), true, false);
	ck_assert_int_eq(times(RULE_MISSING_OPPOSITE), 0);
}
END_TEST

START_TEST(opposite_in_an_earlier_session)
{
	involve(JOINT(KNEE), true, false);
	add(M(KNEE_FLEXION), L, A, 0, 140);
	ck_assert_int_eq(times(RULE_MISSING_OPPOSITE), 1);
	begin_session(19007);
	add(M(KNEE_FLEXION), R, A, 0, 110);
	ck_assert_int_eq(times(RULE_MISSING_OPPOSITE), 0);
	begin_session(19008);
	add(M(KNEE_FLEXION), R, A, 0, 110)->setting = text("weight-bearing");
	ck_assert_int_eq(times(RULE_MISSING_OPPOSITE), 1);
	person.code = text("WR-0194");
	begin_session(19009);
	add(M(KNEE_FLEXION), R, A, 0, 110);
	ck_assert_int_eq(times(RULE_MISSING_OPPOSITE), 1);
}
END_TEST

START_TEST(opposite_without_a_figure_in_an_earlier_session)
{
	involve(JOINT(KNEE), true, false);
	add_bare(M(KNEE_FLEXION), L, NONE, KIND_WNL);
	judge();
	begin_session(19007);
	add_pair(M(KNEE_FLEXION), R, A, 5, 118);
	ck_assert_int_eq(times(RULE_MISSING_OPPOSITE), 0);
	begin_session(19008); /* a figure speaks of its own end alone */
	add(M(KNEE_FLEXION), L, A, 0, 140)->setting = text("weight-bearing");
	judge();
	begin_session(19009);
	add_pair(M(KNEE_FLEXION), R, A, 5, 118);
	s.readings.at[0].setting = s.readings.at[1].setting =
	    text("weight-bearing");
	judge();
	ck_assert_str_eq(first(RULE_MISSING_OPPOSITE)->message,
	    "knee extension (weight-bearing): measured on the right only");
}
END_TEST

START_TEST(opposite_that_cannot_be_measured)
{
	struct opposite o = {.reason = NULL};

	joint_set_add(&o.joints, JOINT(INDEX_PIP), false, true);
	headers_add_opposite(&person.headers, &o);
	involve(JOINT(INDEX_PIP) | JOINT(INDEX_MCP), true, false);
	add(M(INDEX_PIP_FLEXION), R, A, 0, 90);
	add(M(INDEX_TIP_TO_CREASE), R, NONE, NO_VALUE, 20);
	ck_assert_int_eq(times(RULE_MISSING_OPPOSITE), 0);
	add(M(INDEX_MCP_FLEXION), R, A, 0, 90);
	ck_assert_int_eq(times(RULE_MISSING_OPPOSITE), 1);
	ck_assert_int_eq(count_on(RULE_MISSING_OPPOSITE, 2), 1);
}
END_TEST

/* A precaution on the other side, and whether the opposite is still asked. */
START_TEST(opposite_that_is_ruled_out)
{
	struct precaution *p;

	involve(JOINT(KNEE), true, false);
	p = forbid(JOINT(KNEE), false, true);
	add(M(KNEE_FLEXION), R, A, 0, 118);
	ck_assert_int_eq(times(RULE_MISSING_OPPOSITE), 0);
	p->mode = VOCAB_MODE_PASSIVE; /* active motion may be measured */
	ck_assert_int_eq(times(RULE_MISSING_OPPOSITE), 1);
	p->mode = NONE;
	p->until = s.day - 1;
	ck_assert_int_eq(times(RULE_MISSING_OPPOSITE), 1);
	s.said = SAID_UNREADABLE; /* it may be in force */
	ck_assert_int_eq(times(RULE_MISSING_OPPOSITE), 0);
	s.said = SAID;
	p->until = DATE_NONE;
	p->motion = VOCAB_MOTION_EXTENSION;
	ck_assert_int_eq(times(RULE_MISSING_OPPOSITE), 1);
	p->motion = VOCAB_MOTION_FLEXION;
	p->forbids = false; /* max: it may be measured up to there */
	ck_assert_int_eq(times(RULE_MISSING_OPPOSITE), 1);
}
END_TEST

static const struct {
	int measurement;
	uint64_t joint;
	int side;
	int expected;
} midline[] = {
    {M(CERVICAL_ROTATION), JOINT(CERVICAL), R, 1},
    {M(LUMBAR_LATERAL_FLEXION), JOINT(LUMBAR), L, 1},
    {M(CERVICAL_FLEXION), JOINT(CERVICAL), NONE, 0},
    {M(JAW_OPENING), JOINT(JAW), NONE, 0},
    {M(JAW_LATERAL_EXCURSION), JOINT(JAW), R, 0},
    {M(THUMB_OPPOSITION), JOINT(THUMB_CMC), R, 1},
    {M(SHOULDER_HAND_BEHIND_BACK), JOINT(SHOULDER), R, 1},
};

START_TEST(opposite_of_the_midline)
{
	involve(midline[_i].joint, true, false);
	add(midline[_i].measurement, midline[_i].side, A, 0, 9);
	ck_assert_int_eq(times(RULE_MISSING_OPPOSITE), midline[_i].expected);
	if (_i == 0)
		ck_assert_str_eq(first(RULE_MISSING_OPPOSITE)->message,
		    "cervical rotation: measured to the right only");
}
END_TEST

START_TEST(mode_missed_where_taken_elsewhere)
{
	involve(JOINT(FOREARM) | JOINT(ELBOW), true, false);
	add(M(FOREARM_SUPINATION), R, A, 0, 62);
	add(M(FOREARM_PRONATION), R, VOCAB_MODE_PLACE_AND_HOLD, 0, 62);
	add(M(FOREARM_SUPINATION), L, A, 0, 62); /* not involved */
	add(M(ELBOW_FLEXION), R, P, 0, 140);
	judge();
	ck_assert_int_eq(count(RULE_MISSING_PASSIVE), 1);
	ck_assert_int_eq(count_on(RULE_MISSING_PASSIVE, 0), 1);
	ck_assert_str_eq(first(RULE_MISSING_PASSIVE)->message,
	    "right forearm supination, pronation: active motion only, the "
	    "passive one was not measured");
	ck_assert_int_eq(first(RULE_MISSING_PASSIVE)->level, LEVEL_WARNING);
	ck_assert_int_eq(count(RULE_MISSING_ACTIVE), 1);
	ck_assert_int_eq(count_on(RULE_MISSING_ACTIVE, 3), 1);
}
END_TEST

START_TEST(mode_missed_each_side)
{
	involve(JOINT(FOREARM), true, true);
	add(M(FOREARM_SUPINATION), R, A, 0, 62);
	add(M(FOREARM_SUPINATION), L, A, 0, 62);
	add(M(KNEE_FLEXION), R, P, 0, 62);
	ck_assert_int_eq(times(RULE_MISSING_PASSIVE), 2);
}
END_TEST

START_TEST(mode_never_taken_is_one_note)
{
	involve(JOINT(FOREARM) | JOINT(ELBOW), true, false);
	add(M(FOREARM_SUPINATION), R, A, 0, 62);
	add(M(ELBOW_FLEXION), R, A, 0, 62);
	judge();
	ck_assert_int_eq(count(RULE_MISSING_PASSIVE), 1);
	ck_assert_int_eq(count_on(RULE_MISSING_PASSIVE, NO_READING), 1);
	ck_assert_int_eq(first(RULE_MISSING_PASSIVE)->level, LEVEL_NOTE);
	ck_assert_uint_eq(first(RULE_MISSING_PASSIVE)->line, s.line);
	ck_assert_int_eq(count(RULE_MISSING_ACTIVE), 0);
	s.readings.at[1].require = REQUIRE(PASSIVE);
	judge();
	ck_assert_int_eq(count(RULE_MISSING_PASSIVE), 2);
	ck_assert_int_eq(count_on(RULE_MISSING_PASSIVE, 1), 1);
	s.readings.at[0].require = REQUIRE(PASSIVE);
	judge();
	ck_assert_int_eq(count_on(RULE_MISSING_PASSIVE, NO_READING), 0);
	ck_assert_int_eq(first(RULE_MISSING_PASSIVE)->level, LEVEL_WARNING);
}
END_TEST

/* What stands beside an active reading that needs no passive one. */
static const struct {
	int mode;
	enum kind kind;
	const char *reason;
	int expected;
} others[] = {{P, KIND_MEASURED, NULL, 0}, {P, KIND_WNL, NULL, 0},
    {NONE, KIND_WNL, NULL, 0}, {P, KIND_NOT_TESTED, "pain", 0},
    {P, KIND_NOT_TESTED, NULL, 1}, {NONE, KIND_NOT_TESTED, "pain", 0},
    {NONE, KIND_FIXED, NULL, 0}, {A, KIND_FIXED, NULL, 0},
    {VOCAB_MODE_ASSISTED, KIND_MEASURED, NULL, 1}};

START_TEST(mode_answers)
{
	struct reading *r;

	involve(JOINT(FOREARM), true, false);
	add(M(WRIST_FLEXION), R, P, 0, 62);
	add(M(FOREARM_SUPINATION), R, A, 0, 62);
	r = add_bare(
	    M(FOREARM_SUPINATION), R, others[_i].mode, others[_i].kind);
	if (others[_i].kind == KIND_MEASURED || others[_i].kind == KIND_FIXED)
		add_trial(60, 60);
	if (others[_i].reason)
		say(r, others[_i].reason);
	ck_assert_int_eq(times(RULE_MISSING_PASSIVE), others[_i].expected);
}
END_TEST

START_TEST(mode_ruled_out_or_not_of_a_limb)
{
	involve(
	    JOINT(FOREARM) | JOINT(CERVICAL) | JOINT(SHOULDER), true, false);
	forbid(JOINT(FOREARM), true, false)->mode = VOCAB_MODE_PASSIVE;
	add(M(FOREARM_SUPINATION), R, A, 0, 62);
	add(M(CERVICAL_FLEXION), NONE, A, 0, 40);
	add(M(SHOULDER_HAND_BEHIND_BACK), R, A, 0, 40);
	add(M(KNEE_FLEXION), L, P, 0, 140);
	ck_assert_int_eq(times(RULE_MISSING_PASSIVE), 0);
	ck_assert_int_eq(times(RULE_MISSING_ACTIVE), 0);
}
END_TEST

START_TEST(hinge_without_a_figure_answers_for_both_ends)
{
	involve(JOINT(KNEE), true, false);
	add_pair(M(KNEE_FLEXION), R, A, 5, 118);
	add(M(HIP_FLEXION), L, P, 0, 100);
	add_bare(M(KNEE_FLEXION), L, NONE, KIND_WNL);
	say(add_bare(M(KNEE_FLEXION), R, P, KIND_NOT_TESTED), "pain");
	ck_assert_int_eq(times(RULE_MISSING_OPPOSITE), 0);
	ck_assert_int_eq(times(RULE_MISSING_PASSIVE), 0);
	s.readings.at[3].measurement = M(KNEE_EXTENSION);
	s.readings.at[4].setting = text("weight-bearing");
	person.code = text("WR-0194");
	judge();
	ck_assert_str_eq(first(RULE_MISSING_OPPOSITE)->message,
	    "knee flexion: measured on the right only");
	ck_assert_str_eq(first(RULE_MISSING_PASSIVE)->message,
	    "right knee flexion, extension: active motion only, the passive "
	    "one was not measured");
}
END_TEST

START_TEST(end_feel_once_a_joint)
{
	add(M(FOREARM_SUPINATION), R, A, 0, 62);
	add(M(FOREARM_SUPINATION), R, P, 0, 70)->end_feel = VOCAB_END_FEEL_FIRM;
	add(M(FOREARM_PRONATION), R, P, 0, 70);
	add(M(FOREARM_SUPINATION), L, P, 0, 80)->require = REQUIRE(END_FEEL);
	add(M(WRIST_FLEXION), L, P, 0, 80);
	add(M(CERVICAL_FLEXION), NONE, P, 0, 40);
	add_bare(M(KNEE_FLEXION), L, P, KIND_WNL);
	judge();
	ck_assert_int_eq(count(RULE_MISSING_END_FEEL), 2);
	ck_assert_int_eq(count_on(RULE_MISSING_END_FEEL, 2), 1);
	ck_assert_int_eq(count_on(RULE_MISSING_END_FEEL, 4), 1);
	ck_assert_int_eq(first(RULE_MISSING_END_FEEL)->level, LEVEL_WARNING);
	s.readings.at[3].require = 0;
	judge();
	ck_assert_int_eq(first(RULE_MISSING_END_FEEL)->level, LEVEL_NOTE);
}
END_TEST

START_TEST(end_feel_not_asked)
{
	struct precaution *p = forbid(JOINT(FOREARM), true, false);

	add_pair(M(KNEE_FLEXION), R, P, 5, 118)->end_feel =
	    VOCAB_END_FEEL_FIRM; /* one for the pair */
	add(M(FOREARM_SUPINATION), R, P, 0, 38);
	p->forbids = false; /* max: nobody goes to the end */
	p->limit = 400;
	p->motion = VOCAB_MOTION_SUPINATION;
	ck_assert_int_eq(times(RULE_MISSING_END_FEEL), 0);
	p->mode = VOCAB_MODE_ACTIVE;
	ck_assert_int_eq(times(RULE_MISSING_END_FEEL), 1);
}
END_TEST

START_TEST(nothing_missed_where_a_reading_was_lost)
{
	involve(JOINT(FOREARM), true, false);
	add(M(FOREARM_SUPINATION), R, A, 0, 62)->require = 0xff;
	add(M(WRIST_FLEXION), R, P, 0, 62);
	s.lost = true;
	judge();
	ck_assert_int_eq(count(RULE_MISSING_OPPOSITE), 0);
	ck_assert_int_eq(count(RULE_MISSING_PASSIVE), 0);
	ck_assert_int_eq(count(RULE_MISSING_END_FEEL), 0);
	ck_assert_int_eq(count(RULE_MISSING_POSITION), 0);
	ck_assert_int_gt(count(RULE_MISSING_HEADER), 0);
	s.lost = false;
	judge();
	ck_assert_int_eq(count(RULE_MISSING_PASSIVE), 1);
	ck_assert_int_eq(count(RULE_MISSING_POSITION), 1);
}
END_TEST

START_TEST(postures)
{
	uint32_t supine = text("supine"), prone = text("prone");

	add(M(HIP_INTERNAL_ROTATION), R, A, 0, 40)->posture = supine;
	add(M(HIP_INTERNAL_ROTATION), R, A, 0, 40)->posture = prone;
	add(M(HIP_INTERNAL_ROTATION), L, A, 0, 40);
	ck_assert_int_eq(times(RULE_POSITION_DIFFERS), 0);
	s.readings.at[1].mode = P;
	judge();
	ck_assert_int_eq(count_on(RULE_POSITION_DIFFERS, 1), 1);
	ck_assert_str_eq(first(RULE_POSITION_DIFFERS)->message,
	    "right hip internal rotation passive: taken in prone, but what it "
	    "is compared "
	    "with in another posture");
	s.readings.at[2].posture = prone;
	ck_assert_int_eq(times(RULE_POSITION_DIFFERS), 1); /* once a motion */
	s.readings.at[1].mode = A; /* both sides prone, one also supine */
	ck_assert_int_eq(times(RULE_POSITION_DIFFERS), 0);
	s.readings.at[1].left_out = true;
	s.readings.at[1].kind = KIND_NOT_TESTED;
	ck_assert_int_eq(times(RULE_POSITION_DIFFERS), 1);
	ck_assert_int_eq(count_on(RULE_POSITION_DIFFERS, 2), 1);
	s.readings.at[2].setting = text("hip-flexed"); /* another measurement */
	ck_assert_int_eq(times(RULE_POSITION_DIFFERS), 0);
}
END_TEST

START_TEST(postures_of_a_pair_once)
{
	struct reading *r = add_pair(M(KNEE_FLEXION), R, A, 5, 118);

	r[0].posture = r[1].posture = text("supine");
	r = add_pair(M(KNEE_FLEXION), L, A, 5, 118);
	r[0].posture = r[1].posture = text("prone");
	ck_assert_int_eq(times(RULE_POSITION_DIFFERS), 1);
}
END_TEST

#define LOOP(tests, table)                                                     \
	tcase_add_loop_test(                                                   \
	    tc, tests, 0, (int)(sizeof(table) / sizeof((table)[0])))

Suite *lint_missing_suite(void);

Suite *
lint_missing_suite(void)
{
	Suite *suite = suite_create("lint: completeness");
	TCase *tc = tcase_create("all");

	tcase_add_checked_fixture(tc, set_up, done);
	LOOP(opposite_answers, answers);
	tcase_add_test(tc, opposite_in_any_mode_and_its_setting);
	tcase_add_test(tc, opposite_once_a_joint);
	tcase_add_test(tc, opposite_now_one_side_now_the_other);
	tcase_add_test(tc, opposite_of_involved_joints_only);
	tcase_add_test(tc, opposite_required_where_nothing_is_involved);
	tcase_add_test(tc, opposite_in_an_earlier_session);
	tcase_add_test(tc, opposite_without_a_figure_in_an_earlier_session);
	tcase_add_test(tc, opposite_that_cannot_be_measured);
	tcase_add_test(tc, opposite_that_is_ruled_out);
	LOOP(opposite_of_the_midline, midline);
	tcase_add_test(tc, mode_missed_where_taken_elsewhere);
	tcase_add_test(tc, mode_missed_each_side);
	tcase_add_test(tc, mode_never_taken_is_one_note);
	LOOP(mode_answers, others);
	tcase_add_test(tc, hinge_without_a_figure_answers_for_both_ends);
	tcase_add_test(tc, mode_ruled_out_or_not_of_a_limb);
	tcase_add_test(tc, end_feel_once_a_joint);
	tcase_add_test(tc, end_feel_not_asked);
	tcase_add_test(tc, nothing_missed_where_a_reading_was_lost);
	tcase_add_test(tc, postures);
	tcase_add_test(tc, postures_of_a_pair_once);
	suite_add_tcase(suite, tc);
	return suite;
}
