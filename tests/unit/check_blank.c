/*
 * The blank note: that it reads at any time, and never gives a reading that
 * nobody has taken.
 */
#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "note_text.h"
#include "vocab/vocab.h"
#include "write/asked.h"
#include "write/blank.h"

Suite *blank_suite(void);

#define COUNT(array) (sizeof(array) / sizeof(*(array)))

static const uint64_t every_joint = (UINT64_C(1) << VOCAB_JOINT_COUNT) - 1;

static char *
blank_of(uint64_t joints, unsigned require)
{
	struct blank blank = {joints, 20577, require}; /* 2026-05-04 */
	struct buffer out = {0};

	blank_write(&out, &blank);
	return text_of(&out);
}

/* No finding and no figure, whatever joint it is for: all is not tested. */
START_TEST(a_blank_reads)
{
	uint64_t joints =
	    _i < VOCAB_JOINT_COUNT ? UINT64_C(1) << _i : every_joint;
	char *text = blank_of(joints, 3);
	struct seen seen;

	read_text(text, strlen(text), &seen);
	ck_assert_msg(
	    seen.findings == 0, "%.*s", (int)seen.told.len, seen.told.data);
	ck_assert_uint_gt(seen.readings, 0);
	ck_assert_uint_eq(seen.readings, seen.not_tested);
	ck_assert_ptr_nonnull(strstr(text, "\nsession 2026-05-04\n"));
	ck_assert_ptr_nonnull(strstr(text, "\nrequire active passive\n"));
	buffer_free(&seen.told);
	free(text);
}
END_TEST

/* TEXT with each PLACE of it filled in. */
static void
fill(struct buffer *out, const char *line, const char *place, const char *with)
{
	const char *at;

	while ((at = strstr(line, place)) != NULL) {
		buffer_add(out, line, (size_t)(at - line));
		buffer_puts(out, with);
		line = at + strlen(place);
	}
	buffer_puts(out, line);
}

static const struct {
	int joint;
	const char *line; /* begins so */
	const char *figure;
	size_t readings;
} filled[] = {
    {VOCAB_JOINT_KNEE, "\nknee ", "0-10", 8},
    {VOCAB_JOINT_FOREARM, "\nforearm pronation ", "0-10", 4},
    {VOCAB_JOINT_LUMBAR, "\nlumbar lateral flexion", "0-12", 2},
    {VOCAB_JOINT_ANKLE, "\nknee-to-wall", "9 cm", 2},
};

START_TEST(a_filled_line_reads)
{
	char *text = blank_of(UINT64_C(1) << filled[_i].joint, 0);
	char *line = strstr(text, filled[_i].line);
	struct buffer note = {0};
	struct seen seen;

	ck_assert_ptr_nonnull(line);
	line[strcspn(line + 1, "\n") + 2] = '\0';
	buffer_puts(&note, "session 2026-05-04");
	fill(&note, line, "NT", filled[_i].figure);
	read_text(note.data, note.len, &seen);
	ck_assert_msg(seen.findings == 0, "%.*s\n%.*s", (int)note.len,
	    note.data, (int)seen.told.len, seen.told.data);
	ck_assert_uint_eq(seen.readings, filled[_i].readings);
	ck_assert_uint_eq(seen.not_tested, 0);
	buffer_free(&note);
	buffer_free(&seen.told);
	free(text);
}
END_TEST

/* The person stands, sits, lies on the back, then on the front. */
START_TEST(the_person_is_moved_least)
{
	static const char *const postures[] = {
	    "\n# standing\n", "\n# sitting\n", "\n# supine\n", "\n# prone\n"};
	char *text = blank_of(every_joint, 0);
	const char *last = text;

	for (size_t i = 0; i < COUNT(postures); i++) {
		const char *at = strstr(text, postures[i]);

		ck_assert_ptr_nonnull(at);
		ck_assert(at > last);
		ck_assert_ptr_null(strstr(at + 1, postures[i]));
		last = at;
	}
	free(text);
}
END_TEST

/* Every measurement has its line: a hinge axis or a digit counts as two. */
START_TEST(a_blank_leaves_nothing_out)
{
	const struct vocab_measurement *m = &vocab_measurements[_i];
	uint64_t joints = m->joint >= 0 ? UINT64_C(1) << m->joint : every_joint;
	char *text = blank_of(joints, 0), head[64];

	if (m->joint >= 0 && vocab_joints[m->joint].hinge &&
	    (m->motion == VOCAB_MOTION_FLEXION ||
		m->motion == VOCAB_MOTION_EXTENSION))
		snprintf(head, sizeof(head), "\n%s ", m->joint_name);
	else if (m->measure >= 0)
		snprintf(head, sizeof(head), "%s ", m->motion_name);
	else
		snprintf(head, sizeof(head), "\n%s %s ", m->joint_name,
		    m->motion_name);
	ck_assert_msg(strstr(text, head), "no '%s' in\n%s", head, text);
	free(text);
}
END_TEST

static uint64_t
joints_of(const char *words)
{
	struct buffer wrong = {0};
	struct asked asked;

	if (!asked_read(&asked, ASKED_JOINTS, &words, 1, &wrong))
		asked.joints = 0;
	buffer_free(&wrong);
	return asked.joints;
}

#define J(name) (UINT64_C(1) << VOCAB_JOINT_##name)

START_TEST(joints_are_asked_for)
{
	ck_assert_uint_eq(joints_of("knee hip"), J(KNEE) | J(HIP));
	ck_assert_uint_eq(joints_of("index MCP"), J(INDEX_MCP));
	ck_assert_uint_eq(
	    joints_of("index PIP DIP"), J(INDEX_PIP) | J(INDEX_DIP));
	ck_assert_uint_eq(
	    joints_of("LF"), J(LITTLE_MCP) | J(LITTLE_PIP) | J(LITTLE_DIP));
	ck_assert_uint_eq(
	    joints_of("hand"), vocab_group_joints[VOCAB_GROUP_HAND]);
	ck_assert_uint_eq(
	    joints_of("foot"), vocab_group_joints[VOCAB_GROUP_FOOT]);
	ck_assert_uint_eq(
	    joints_of("spine"), vocab_group_joints[VOCAB_GROUP_SPINE]);
	ck_assert_uint_eq(joints_of("knee flexion"), 0);
	ck_assert_uint_eq(joints_of("right knee"), 0);
}
END_TEST

START_TEST(requirements_are_read)
{
	struct buffer wrong = {0};
	unsigned require = 0;
	char *text;

	ck_assert(blank_require("active,end-feel", &require, &wrong));
	ck_assert_uint_eq(require,
	    1u << VOCAB_REQUIREMENT_ACTIVE | 1u << VOCAB_REQUIREMENT_END_FEEL);
	ck_assert(!blank_require("pasive", &require, &wrong));
	text = text_of(&wrong);
	ck_assert_str_eq(
	    text, "'pasive' cannot be required; did you mean 'passive'?");
	free(text);
	wrong.len = 0;
	ck_assert(!blank_require("opp", &require, &wrong));
	text = text_of(&wrong);
	ck_assert_str_eq(text,
	    "'opp' cannot be required; what can: active, passive, opposite, "
	    "end-feel, position, weight-bearing, repetition");
	free(text);
}
END_TEST

Suite *
blank_suite(void)
{
	Suite *suite = suite_create("blank");
	TCase *blank = tcase_create("blank");

	tcase_add_loop_test(blank, a_blank_reads, 0, VOCAB_JOINT_COUNT + 1);
	tcase_add_loop_test(blank, a_filled_line_reads, 0, (int)COUNT(filled));
	tcase_add_test(blank, the_person_is_moved_least);
	tcase_add_loop_test(
	    blank, a_blank_leaves_nothing_out, 0, VOCAB_MEASUREMENT_COUNT);
	tcase_add_test(blank, joints_are_asked_for);
	tcase_add_test(blank, requirements_are_read);
	suite_add_tcase(suite, blank);
	return suite;
}
