/*
 * The rules of headers and dates, and what only `require` asks for. All
 * readings are invented.
 */
#include "lint_note.h"

#define REQUIRE(name) (uint8_t)(1u << VOCAB_REQUIREMENT_##name)
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

/* missing-header findings of one level */
static int
headers_missing(enum level level)
{
	int n = 0;

	for (size_t i = 0; i < sink.len; i++)
		n += sink.at[i]->rule == RULE_MISSING_HEADER &&
		     sink.at[i]->level == level;
	return n;
}

START_TEST(headers)
{
	struct reading *r = add(M(KNEE_FLEXION), R, A, 0, 96);

	person.said = SAID_NOTHING;
	judge(); /* no subject, no involved; no rater, no instrument */
	ck_assert_int_eq(headers_missing(LEVEL_WARNING), 2);
	ck_assert_int_eq(headers_missing(LEVEL_NOTE), 2);
	ck_assert_int_eq(count_on(RULE_MISSING_HEADER, NO_READING), 4);
	ck_assert_uint_eq(first(RULE_MISSING_HEADER)->line, s.line);
	judge(); /* once a file, once a person; once a session */
	ck_assert_int_eq(headers_missing(LEVEL_WARNING), 0);
	ck_assert_int_eq(headers_missing(LEVEL_NOTE), 2);
	r->rater = UNKNOWN_TEXT;
	r->instrument = UNKNOWN;
	ck_assert_int_eq(times(RULE_MISSING_HEADER), 0);
	person.said = SAID;
	person.code = text("WR-0195");
	ck_assert_int_eq(times(RULE_MISSING_HEADER), 1); /* no involved */
	person.code = text("WR-0196");
	s.headers.involved.said = SAID_UNREADABLE;
	ck_assert_int_eq(times(RULE_MISSING_HEADER), 0);
}
END_TEST

/* Once until the next session line, be it one without readings. */
START_TEST(readings_without_a_session)
{
	uint32_t session_line = s.line;

	add(M(KNEE_FLEXION), R, A, 0, 96);
	s.line = 0;
	judge();
	ck_assert_int_eq(headers_missing(LEVEL_ERROR), 1);
	judge();
	ck_assert_int_eq(headers_missing(LEVEL_ERROR), 0);
	s.line = session_line;
	s.readings.len = 0;
	judge();
	add(M(KNEE_FLEXION), R, A, 0, 96);
	s.line = 0;
	judge();
	ck_assert_int_eq(headers_missing(LEVEL_ERROR), 1);
}
END_TEST

START_TEST(headers_of_what_needs_none)
{
	person.headers.involved.said = SAID;
	add_bare(M(KNEE_FLEXION), R, A, KIND_NOT_TESTED);
	ck_assert_int_eq(times(RULE_MISSING_HEADER), 0);
	add_bare(M(KNEE_FLEXION), R, A, KIND_WNL)->rater = text("ab");
	add(M(THUMB_OPPOSITION), R, NONE, NO_VALUE, 9)->rater = text("ab");
	ck_assert_int_eq(times(RULE_MISSING_HEADER), 0);
	add(M(INDEX_TIP_TO_CREASE), R, NONE, NO_VALUE, 9)->rater = text("ab");
	ck_assert_int_eq(times(RULE_MISSING_HEADER), 1);
}
END_TEST

START_TEST(header_of_the_session)
{
	add(M(KNEE_FLEXION), R, A, 0, 96);
	add(M(KNEE_FLEXION), L, A, 0, 96);
	s.said = SAID_NOTHING;
	s.line = 0;
	judge();
	ck_assert_int_eq(count(RULE_MISSING_HEADER), 1);
	ck_assert_int_eq(count_on(RULE_MISSING_HEADER, 0), 1);
	ck_assert_int_eq(first(RULE_MISSING_HEADER)->level, LEVEL_ERROR);
	s.said = SAID_UNREADABLE;
	ck_assert_int_eq(times(RULE_MISSING_HEADER), 0);
}
END_TEST

START_TEST(involved_is_measured)
{
	person.headers.involved.said = SAID;
	add(M(KNEE_FLEXION), L, A, 0, 96);
	ck_assert_int_eq(times(RULE_INVOLVED_NOT_MEASURED), 0);
	joint_set_add(
	    &person.headers.involved_joints, JOINT(KNEE), true, false);
	judge();
	ck_assert_int_eq(count_on(RULE_INVOLVED_NOT_MEASURED, NO_READING), 1);
	ck_assert_uint_eq(first(RULE_INVOLVED_NOT_MEASURED)->line, s.line);
	s.lost = true;
	ck_assert_int_eq(times(RULE_INVOLVED_NOT_MEASURED), 0);
	s.lost = false;
	forbid(JOINT(KNEE), true, false);
	ck_assert_int_eq(times(RULE_INVOLVED_NOT_MEASURED), 0);
	person.headers.precautions.at[0].mode = P;
	ck_assert_int_eq(times(RULE_INVOLVED_NOT_MEASURED), 1);
	add_bare(M(KNEE_FLEXION), R, NONE, KIND_NOT_TESTED);
	ck_assert_int_eq(times(RULE_INVOLVED_NOT_MEASURED), 0);
}
END_TEST

START_TEST(future_days)
{
	person.headers.surgery = (struct fact){SAID, 20001, {2, 0, 4, "a", 1}};
	s.day = 20000;
	judge(); /* the surgery, once a person */
	ck_assert_int_eq(count(RULE_FUTURE_DATE), 1);
	ck_assert_uint_eq(first(RULE_FUTURE_DATE)->line, 2);
	ck_assert_int_eq(times(RULE_FUTURE_DATE), 0);
	s.headers.surgery = (struct fact){SAID, 20002, {9, 0, 4, "a", 1}};
	judge(); /* that of a session does not bring it back */
	ck_assert_int_eq(count(RULE_FUTURE_DATE), 1);
	ck_assert_uint_eq(first(RULE_FUTURE_DATE)->line, 9);
	s.headers.surgery = (struct fact){0};
	ck_assert_int_eq(times(RULE_FUTURE_DATE), 0);
	s.headers.surgery = (struct fact){SAID, 19000, {9, 0, 4, "a", 1}};
	person.headers.surgery.place.line = 5;
	judge(); /* nor does it hide that of the person */
	ck_assert_int_eq(count(RULE_FUTURE_DATE), 1);
	ck_assert_uint_eq(first(RULE_FUTURE_DATE)->line, 5);
	s.headers.surgery = (struct fact){0};
	s.day = 20001;
	judge();
	ck_assert_int_eq(count(RULE_FUTURE_DATE), 1);
	ck_assert_uint_eq(first(RULE_FUTURE_DATE)->line, s.line);
}
END_TEST

START_TEST(order_of_sessions)
{
	ck_assert_int_eq(times(RULE_SESSIONS_OUT_OF_ORDER), 0);
	ck_assert_int_eq(times(RULE_SESSIONS_OUT_OF_ORDER), 0);
	s.day--;
	ck_assert_int_eq(times(RULE_SESSIONS_OUT_OF_ORDER), 1);
	s.day--;
	person.code = text("WR-0194");
	ck_assert_int_eq(times(RULE_SESSIONS_OUT_OF_ORDER), 0);
}
END_TEST

/* Day 19000 is in 2022. */
static const struct {
	int born, age; /* 0: not said */
	int expected;
} ages[] = {{1990, 32, 0}, {1990, 31, 0}, {1990, 33, 0}, {1990, 34, 1},
    {1990, 30, 1}, {1990, 0, 0}, {0, 40, 0}, {0, 121, 1}, {0, 120, 0},
    {1901, 0, 1}, {1902, 0, 0}, {2023, 0, 1}, {2022, 0, 0}};

START_TEST(age_conflicts)
{
	if (ages[_i].born)
		person.headers.born =
		    (struct fact){SAID, ages[_i].born, {2, 0, 4, "a", 1}};
	if (ages[_i].age)
		person.headers.age =
		    (struct fact){SAID, ages[_i].age, {3, 0, 4, "a", 1}};
	s.line = 9;
	judge();
	ck_assert_int_eq(count(RULE_AGE_CONFLICT), ages[_i].expected);
	if (ages[_i].expected)
		ck_assert_uint_eq(
		    first(RULE_AGE_CONFLICT)->line, ages[_i].born ? 9 : 3);
	ck_assert_int_eq(times(RULE_AGE_CONFLICT), 0); /* once a person */
}
END_TEST

START_TEST(age_of_the_person_at_the_first_session)
{
	person.headers.born = (struct fact){SAID, 1990, {2, 0, 4, "a", 1}};
	person.headers.age = (struct fact){SAID, 32, {3, 0, 4, "a", 1}};
	ck_assert_int_eq(times(RULE_AGE_CONFLICT), 0);
	s.day += 3 * 365;
	ck_assert_int_eq(times(RULE_AGE_CONFLICT), 0);
	s.headers.age = (struct fact){SAID, 32, {99, 0, 4, "a", 1}};
	judge();
	ck_assert_int_eq(count(RULE_AGE_CONFLICT), 1);
	ck_assert_uint_eq(first(RULE_AGE_CONFLICT)->line, 99);
}
END_TEST

START_TEST(position_required)
{
	add_pair(M(KNEE_FLEXION), R, A, 5, 118);
	add(M(HIP_FLEXION), R, A, 0, 100)->posture = text("supine");
	add(M(HIP_FLEXION), R, P, 0, 100)->setting = text("knee-bent");
	add_bare(M(HIP_FLEXION), L, P, KIND_NOT_TESTED);
	for (size_t i = 0; i < s.readings.len; i++)
		s.readings.at[i].require = REQUIRE(POSITION);
	ck_assert_int_eq(times(RULE_MISSING_POSITION), 1);
	ck_assert_int_eq(count_on(RULE_MISSING_POSITION, 0), 1);
	s.readings.at[0].require = s.readings.at[1].require = 0;
	ck_assert_int_eq(times(RULE_MISSING_POSITION), 0);
}
END_TEST

START_TEST(weight_bearing_required)
{
	struct reading *r;

	add(M(ANKLE_DORSIFLEXION), R, A, 0, 14);
	add(M(ANKLE_DORSIFLEXION), R, P, 0, 18);
	add(M(ANKLE_DORSIFLEXION), L, P, 0, 18)->setting =
	    text("non-weight-bearing");
	add(M(WRIST_FLEXION), L, P, 0, 18);
	for (size_t i = 0; i < s.readings.len; i++)
		s.readings.at[i].require = REQUIRE(WEIGHT_BEARING);
	judge();
	ck_assert_int_eq(count(RULE_MISSING_WEIGHT_BEARING), 2);
	ck_assert_int_eq(count_on(RULE_MISSING_WEIGHT_BEARING, 0), 1);
	ck_assert_int_eq(count_on(RULE_MISSING_WEIGHT_BEARING, 2), 1);
	add(M(ANKLE_DORSIFLEXION), R, A, 0, 30)->setting =
	    text("knee-bent weight-bearing");
	r = add_bare(M(ANKLE_DORSIFLEXION), L, NONE, KIND_NOT_TESTED);
	r->setting = text("weight-bearing");
	ck_assert_int_eq(times(RULE_MISSING_WEIGHT_BEARING), 1);
	say(&s.readings.at[s.readings.len - 1], "may not stand");
	ck_assert_int_eq(times(RULE_MISSING_WEIGHT_BEARING), 0);
}
END_TEST

START_TEST(repetition_required)
{
	add(M(KNEE_FLEXION), R, A, 0, 118)->require = REQUIRE(REPETITION);
	add(M(KNEE_FLEXION), R, P, 0, 118)->require = REQUIRE(REPETITION);
	add(M(KNEE_FLEXION), R, P, 0, 112)->reps = 3;
	ck_assert_int_eq(times(RULE_MISSING_REPETITION), 1);
	ck_assert_str_eq(first(RULE_MISSING_REPETITION)->message,
	    "right knee flexion active: no reading after repeated motion");
	add(M(KNEE_FLEXION), R, VOCAB_MODE_PLACE_AND_HOLD, 0, 112)->reps = 3;
	ck_assert_int_eq(times(RULE_MISSING_REPETITION), 0);
}
END_TEST

START_TEST(required_but_ruled_out)
{
	add(M(KNEE_FLEXION), R, A, 0, 118)->require =
	    REQUIRE(REPETITION) | REQUIRE(WEIGHT_BEARING);
	forbid(JOINT(KNEE), true, false)->mode = VOCAB_MODE_ACTIVE;
	judge();
	ck_assert_int_eq(count(RULE_MISSING_REPETITION), 0);
	ck_assert_int_eq(count(RULE_MISSING_WEIGHT_BEARING), 0);
	person.headers.precautions.len = 0;
	judge();
	ck_assert_int_eq(count(RULE_MISSING_REPETITION), 1);
	ck_assert_int_eq(count(RULE_MISSING_WEIGHT_BEARING), 1);
}
END_TEST

#define LOOP(tests, table)                                                     \
	tcase_add_loop_test(                                                   \
	    tc, tests, 0, (int)(sizeof(table) / sizeof((table)[0])))

Suite *lint_headers_suite(void);

Suite *
lint_headers_suite(void)
{
	Suite *suite = suite_create("lint: headers, dates, requirements");
	TCase *tc = tcase_create("all");

	tcase_add_checked_fixture(tc, set_up, tear_down);
	tcase_add_test(tc, headers);
	tcase_add_test(tc, readings_without_a_session);
	tcase_add_test(tc, headers_of_what_needs_none);
	tcase_add_test(tc, header_of_the_session);
	tcase_add_test(tc, involved_is_measured);
	tcase_add_test(tc, future_days);
	tcase_add_test(tc, order_of_sessions);
	LOOP(age_conflicts, ages);
	tcase_add_test(tc, age_of_the_person_at_the_first_session);
	tcase_add_test(tc, position_required);
	tcase_add_test(tc, weight_bearing_required);
	tcase_add_test(tc, repetition_required);
	tcase_add_test(tc, required_but_ruled_out);
	suite_add_tcase(suite, tc);
	return suite;
}
