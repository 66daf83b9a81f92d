/*
 * The model: which header is in force, who and what is involved, where a
 * reading stands. All people are invented.
 */
#include <check.h>
#include <stdlib.h>
#include <string.h>

#include "record/record.h"
#include "text/mem.h"

enum { R = VOCAB_SIDE_RIGHT, L = VOCAB_SIDE_LEFT };

static struct session s;
static struct person person;

static void
set_up(void)
{
	s = (struct session){.person = &person, .said = SAID};
	person = (struct person){.said = SAID};
	ck_assert_int_eq(date_parse("2026-05-04", 10, &s.day), 0);
}

static void
tear_down(void)
{
	free(s.headers.opposites.at);
	free(person.headers.opposites.at);
	buffer_free(&s.text);
}

static uint64_t
bit(int joint)
{
	return UINT64_C(1) << joint;
}

static struct fact
said(int32_t value)
{
	return (struct fact){.said = SAID, .value = value};
}

/* --- sets of joints
 * ----------------------------------------------------------- */

START_TEST(a_set_keeps_its_sides_apart)
{
	struct joint_set set = {0, 0, 0};

	ck_assert(joint_set_empty(&set));
	joint_set_add(
	    &set, bit(VOCAB_JOINT_KNEE) | bit(VOCAB_JOINT_HIP), true, false);
	joint_set_add(&set, bit(VOCAB_JOINT_HIP), false, true);
	ck_assert(!joint_set_empty(&set));
	ck_assert(joint_set_has(&set, VOCAB_JOINT_KNEE, R));
	ck_assert(!joint_set_has(&set, VOCAB_JOINT_KNEE, L));
	ck_assert(joint_set_has(&set, VOCAB_JOINT_KNEE, NONE));
	ck_assert(joint_set_has(&set, VOCAB_JOINT_HIP, L));
	ck_assert(!joint_set_has(&set, VOCAB_JOINT_ANKLE, NONE));
}
END_TEST

/* A side of the spine is a direction: the joint itself has none. */
START_TEST(a_joint_in_the_midline_is_involved_as_a_whole)
{
	struct joint_set set = {0, 0, 0};

	joint_set_add(&set, bit(VOCAB_JOINT_CERVICAL), true, false);
	ck_assert(joint_set_has(&set, VOCAB_JOINT_CERVICAL, L));
	ck_assert(joint_set_has(&set, VOCAB_JOINT_CERVICAL, NONE));
	ck_assert_uint_eq(set.right | set.left, 0);
	for (int j = 0; j < VOCAB_JOINT_COUNT; j++)
		ck_assert_int_eq(joint_is_midline(j),
		    j >= VOCAB_JOINT_CERVICAL && j <= VOCAB_JOINT_JAW);
}
END_TEST

/* --- headers in force
 * ---------------------------------------------------------- */

START_TEST(a_session_says_it_better_than_the_person)
{
	ck_assert_int_eq(session_sex(&s), NONE);
	person.headers.sex = said(VOCAB_SEX_F);
	ck_assert_int_eq(session_sex(&s), VOCAB_SEX_F);
	s.headers.sex = said(VOCAB_SEX_X);
	ck_assert_int_eq(session_sex(&s), VOCAB_SEX_X);
	s.headers.sex.said = SAID_UNREADABLE; /* unknown, not the former one */
	ck_assert_int_eq(session_sex(&s), NONE);
}
END_TEST

START_TEST(age_is_written_or_reckoned)
{
	ck_assert_int_eq(session_age(&s), -1);
	person.headers.born = said(1988);
	ck_assert_int_eq(session_age(&s), 38);
	person.headers.age = said(37);
	ck_assert_int_eq(session_age(&s), 37);
	s.headers.age = said(0);
	ck_assert_int_eq(session_age(&s), 0);
	s.headers.age = person.headers.age = (struct fact){0};
	person.headers.born = said(2026);
	ck_assert_int_eq(session_age(&s), 0);
	person.headers.born = said(2027); /* not yet */
	ck_assert_int_eq(session_age(&s), -1);
	person.headers.born = said(1988);
	s.said = SAID_UNREADABLE; /* no day, no age */
	ck_assert_int_eq(session_age(&s), -1);
}
END_TEST

START_TEST(what_is_involved_adds_up)
{
	ck_assert_int_eq(session_involved(&s, VOCAB_JOINT_KNEE, R), -1);
	person.headers.involved = said(1);
	joint_set_add(&person.headers.involved_joints, bit(VOCAB_JOINT_KNEE),
	    true, false);
	ck_assert_int_eq(session_involved(&s, VOCAB_JOINT_KNEE, R), 1);
	ck_assert_int_eq(session_involved(&s, VOCAB_JOINT_KNEE, L), 0);
	ck_assert_int_eq(session_involved(&s, VOCAB_JOINT_HIP, L), 0);
	s.headers.involved = said(1);
	joint_set_add(
	    &s.headers.involved_joints, bit(VOCAB_JOINT_HIP), false, true);
	ck_assert_int_eq(session_involved(&s, VOCAB_JOINT_HIP, L), 1);
	ck_assert_int_eq(session_involved(&s, VOCAB_JOINT_KNEE, R), 1);
}
END_TEST

/* What is said is involved; of all else nobody knows. */
START_TEST(an_unreadable_involved_line_leaves_the_rest_unknown)
{
	person.headers.involved = said(1);
	joint_set_add(&person.headers.involved_joints, bit(VOCAB_JOINT_KNEE),
	    true, false);
	s.headers.involved.said = SAID_UNREADABLE;
	ck_assert_int_eq(session_involved(&s, VOCAB_JOINT_KNEE, R), 1);
	ck_assert_int_eq(session_involved(&s, VOCAB_JOINT_KNEE, L), -1);
}
END_TEST

START_TEST(nothing_is_involved)
{
	person.headers.involved = said(0);
	for (int j = 0; j < VOCAB_JOINT_COUNT; j++)
		ck_assert_int_eq(session_involved(&s, j, R), 0);
}
END_TEST

START_TEST(a_measure_of_a_finger_goes_with_its_joints)
{
	int measure = VOCAB_MEASUREMENT_RING_TIP_TO_CREASE;

	ck_assert_int_eq(session_involves(&s, measure, L), -1);
	person.headers.involved = said(1);
	joint_set_add(&person.headers.involved_joints,
	    bit(VOCAB_JOINT_RING_PIP), false, true);
	ck_assert_int_eq(session_involves(&s, measure, L), 1);
	ck_assert_int_eq(session_involves(&s, measure, R), 0);
	ck_assert_int_eq(
	    session_involves(&s, VOCAB_MEASUREMENT_LITTLE_TIP_TO_CREASE, L), 0);
	ck_assert_int_eq(
	    session_involves(&s, VOCAB_MEASUREMENT_RING_PIP_FLEXION, L), 1);
	ck_assert_uint_eq(measurement_joints(measure),
	    bit(VOCAB_JOINT_RING_MCP) | bit(VOCAB_JOINT_RING_PIP) |
		bit(VOCAB_JOINT_RING_DIP));
	ck_assert_uint_eq(measurement_joints(VOCAB_MEASUREMENT_ELBOW_FLEXION),
	    bit(VOCAB_JOINT_ELBOW));
}
END_TEST

START_TEST(a_side_that_cannot_be_measured)
{
	struct opposite o = {.reason = NULL};

	joint_set_add(&o.joints, bit(VOCAB_JOINT_KNEE), false, true);
	headers_add_opposite(&person.headers, &o);
	ck_assert(session_unavailable(&s, VOCAB_JOINT_KNEE, L));
	ck_assert(!session_unavailable(&s, VOCAB_JOINT_KNEE, R));
	ck_assert(!session_unavailable(&s, VOCAB_JOINT_HIP, L));
	o = (struct opposite){.reason = NULL};
	joint_set_add(&o.joints, bit(VOCAB_JOINT_HIP), false, true);
	headers_add_opposite(&s.headers, &o);
	ck_assert(session_unavailable(&s, VOCAB_JOINT_HIP, L));
}
END_TEST

/* --- places
 * -------------------------------------------------------------------- */

START_TEST(a_place_holds_its_line)
{
	struct reading r = {.line = 9, .line_at = 6, .beg = 5, .end = 10};
	struct place p;

	buffer_puts(&s.text, "first\nknee 0-120\nlast");
	p = reading_place(&s, &r);
	ck_assert_uint_eq(p.line, 9);
	ck_assert_uint_eq(p.beg, 5);
	ck_assert_uint_eq(p.end, 10);
	ck_assert_uint_eq(p.len, 10);
	ck_assert_int_eq(memcmp(p.text, "knee 0-120", 10), 0);
	p = session_place(&s, 10, 17, 0, 4);
	ck_assert_uint_eq(p.len, 4); /* the last line has no end */
	ck_assert_int_eq(memcmp(p.text, "last", 4), 0);
}
END_TEST

/* The reader has taken the CR of a line end: one that is left is of the line */
START_TEST(a_place_never_ends_behind_its_line)
{
	struct place p;

	buffer_puts(&s.text, "session 2026-05-04\r\n");
	s.line = 1;
	s.date_beg = 18;
	s.date_end = 19;
	p = session_date_place(&s);
	ck_assert_uint_eq(p.len, 19);
	ck_assert_uint_le(p.end, p.len);
}
END_TEST

START_TEST(a_session_without_a_line_has_no_place)
{
	ck_assert_uint_eq(session_date_place(&s).line, 0);
	buffer_puts(&s.text, "session 2026-05-04\n");
	s.line = 5;
	s.date_beg = 8;
	s.date_end = 18;
	ck_assert_uint_eq(session_date_place(&s).line, 5);
	ck_assert_uint_eq(session_date_place(&s).beg, 8);
	ck_assert_uint_eq(session_date_place(&s).end, 18);
}
END_TEST

START_TEST(figures_and_what_is_none)
{
	static const bool number[KIND_COUNT] = {[KIND_MEASURED] = true,
	    [KIND_END_ONLY] = true,
	    [KIND_LACKS] = true,
	    [KIND_FIXED] = true,
	    [KIND_SCORE] = true};
	static const char *const names[KIND_COUNT] = {"measured", "end-only",
	    "lacks", "fixed", "not-tested", "WNL", "WFL", "score", "level"};

	for (int kind = 0; kind < KIND_COUNT; kind++) {
		struct reading r = {.kind = (uint8_t)kind};

		ck_assert_int_eq(reading_is_number(&r), number[kind]);
		ck_assert_str_eq(kind_names[kind], names[kind]);
	}
}
END_TEST

Suite *record_suite(void);

Suite *
record_suite(void)
{
	Suite *suite = suite_create("record");
	TCase *tc = tcase_create("record");

	tcase_add_checked_fixture(tc, set_up, tear_down);
	tcase_add_test(tc, a_set_keeps_its_sides_apart);
	tcase_add_test(tc, a_joint_in_the_midline_is_involved_as_a_whole);
	tcase_add_test(tc, a_session_says_it_better_than_the_person);
	tcase_add_test(tc, age_is_written_or_reckoned);
	tcase_add_test(tc, what_is_involved_adds_up);
	tcase_add_test(tc, an_unreadable_involved_line_leaves_the_rest_unknown);
	tcase_add_test(tc, nothing_is_involved);
	tcase_add_test(tc, a_measure_of_a_finger_goes_with_its_joints);
	tcase_add_test(tc, a_side_that_cannot_be_measured);
	tcase_add_test(tc, a_place_holds_its_line);
	tcase_add_test(tc, a_place_never_ends_behind_its_line);
	tcase_add_test(tc, a_session_without_a_line_has_no_place);
	tcase_add_test(tc, figures_and_what_is_none);
	suite_add_tcase(suite, tc);
	return suite;
}
