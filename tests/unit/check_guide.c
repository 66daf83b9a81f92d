/*
 * The guide: that nothing of the vocabulary lacks one, that each example reads
 * as a note, that words find what they mean.
 */
#include <check.h>
#include <stdlib.h>
#include <string.h>

#include "note_text.h"
#include "reference/reference.h"
#include "text/utf8.h"
#include "vocab/vocab.h"
#include "write/asked.h"
#include "write/guide.h"

Suite *guide_suite(void);

#define M(name) VOCAB_MEASUREMENT_##name
#define COUNT(array) (sizeof(array) / sizeof(*(array)))

/* --- the guide ------------------------------------------------------------ */

START_TEST(every_measurement_has_a_guide)
{
	const struct vocab_measurement *m = &vocab_measurements[_i];
	const struct ref_guide *guide = ref_guide(_i);

	ck_assert_msg(
	    guide, "no guide to %s %s", m->joint_name, m->motion_name);
	ck_assert_msg(strlen(guide->do_not) > 20,
	    "when not to measure %s %s is not said", m->joint_name,
	    m->motion_name);
	ck_assert_str_eq(guide->motion, m->motion_name);
}
END_TEST

/* The reading of the example is one of the very measurement. */
START_TEST(every_example_reads)
{
	const struct vocab_measurement *m = &vocab_measurements[_i];
	struct buffer text = {0};
	struct seen seen;

	buffer_puts(&text, "subject WR-0193\nsession 2026-05-04\n");
	guide_example(&text, _i);
	read_text(text.data, text.len, &seen);
	ck_assert_msg(seen.findings == 0, "%s %s: %.*s", m->joint_name,
	    m->motion_name, (int)seen.told.len, seen.told.data);
	ck_assert_msg(seen.readings > 0, "%s %s: no reading", m->joint_name,
	    m->motion_name);
	ck_assert_int_eq(seen.measurement, _i);
	buffer_free(&seen.told);
	buffer_free(&text);
}
END_TEST

START_TEST(the_test_of_examples_can_fail)
{
	static const char text[] = "subject WR-0193\nsession 2026-05-04\n"
				   "knee flexion R A lacks 8\n";
	struct seen seen;

	read_text(text, sizeof(text) - 1, &seen);
	ck_assert_uint_eq(seen.findings, 1);
	buffer_free(&seen.told);
}
END_TEST

static size_t
widest(const struct buffer *out)
{
	size_t most = 0;

	for (size_t i = 0, beg = 0; i < out->len; i++)
		if (out->data[i] == '\n') {
			size_t cells = utf8_cells(out->data + beg, i - beg);

			most = cells > most ? cells : most;
			beg = i + 1;
		}
	return most;
}

static size_t
lines_of(const struct buffer *out)
{
	size_t n = 0;

	for (size_t i = 0; i < out->len; i++)
		n += out->data[i] == '\n';
	return n;
}

START_TEST(a_guide_fits_a_screen)
{
	struct buffer out = {0};

	guide_text(&out, _i, false);
	ck_assert_uint_le(widest(&out), 80);
	ck_assert_uint_le(lines_of(&out), 40);
	ck_assert_ptr_null(memchr(out.data, '\033', out.len));
	buffer_free(&out);
}
END_TEST

/* What may forbid the measurement stands before how it is done. */
START_TEST(caution_comes_first)
{
	struct buffer out = {0};
	char *text;

	guide_text(&out, M(KNEE_FLEXION), false);
	text = text_of(&out);
	ck_assert_ptr_nonnull(strstr(text, "\nCAUTION"));
	ck_assert(strstr(text, "\nCAUTION") < strstr(text, "\nposition"));
	free(text);
}
END_TEST

/* A figure that nobody has seen in its source says so beside it. */
START_TEST(memory_is_told)
{
	struct buffer out = {0};
	char *text;

	guide_text(&out, M(HIP_ABDUCTION), false);
	text = text_of(&out);
	ck_assert_ptr_nonnull(strstr(text, "(JohnstonSmidt1970, from memory)"));
	free(text);
	guide_text(&out, M(SHOULDER_ADDUCTION), false);
	text = text_of(&out);
	ck_assert_ptr_nonnull(strstr(text, "how to measure: from memory"));
	free(text);
}
END_TEST

START_TEST(example_names_the_digit)
{
	struct buffer out = {0};
	char *text;

	guide_example(&out, M(MIDDLE_PIP_FLEXION));
	text = text_of(&out);
	ck_assert_int_eq(strncmp(text, "middle PIP flexion R ", 21), 0);
	free(text);
	guide_example(&out, M(RING_TIP_TO_CREASE));
	text = text_of(&out);
	ck_assert_int_eq(strncmp(text, "ring tip-to-crease R ", 21), 0);
	free(text);
}
END_TEST

/* --- words ---------------------------------------------------------------- */

/* WORDS, one argument; -1 where there is no one measurement; *WRONG is told. */
static int
measurement_of(const char *words, struct buffer *wrong)
{
	struct asked asked;

	if (!asked_read(&asked, ASKED_MOTION, &words, 1, wrong))
		return -1;
	if (asked.motion < 0 && asked.measure < 0)
		return -2;
	return asked_measurement(&asked, wrong);
}

static const struct {
	const char *words;
	int measurement;
} meanings[] = {
    {"knee flex", M(KNEE_FLEXION)},
    {"flex knee", M(KNEE_FLEXION)},
    {"KNEE, FLEXION", M(KNEE_FLEXION)},
    {"R knee AROM flexion", M(KNEE_FLEXION)},
    {"index PIP flexion", M(INDEX_PIP_FLEXION)},
    {"PIP index flexion", M(INDEX_PIP_FLEXION)},
    {"IF MCP ext", M(INDEX_MCP_EXTENSION)},
    {"long finger DIPJ flx", M(MIDDLE_DIP_FLEXION)},
    {"opposition", M(THUMB_OPPOSITION)},
    {"thumb kapandji", M(THUMB_OPPOSITION)},
    {"hip IR", M(HIP_INTERNAL_ROTATION)},
    {"shoulder ext rot", M(SHOULDER_EXTERNAL_ROTATION)},
    {"shoulder ext", M(SHOULDER_EXTENSION)},
    {"LF MCP ext", M(LITTLE_MCP_EXTENSION)},
    {"lumbar LF", M(LUMBAR_LATERAL_FLEXION)},
    {"LF neck", M(CERVICAL_LATERAL_FLEXION)},
    {"pronation", M(FOREARM_PRONATION)},
    {"index abd", M(INDEX_MCP_ABDUCTION)},
    {"little toe PIP flexion", M(FIFTH_TOE_PIP_FLEXION)},
    {"foot inv", M(FOOT_INVERSION)},
    {"pinky tip to crease", M(LITTLE_TIP_TO_CREASE)},
    {"schober", M(LUMBAR_SCHOBER)},
    {"HBB", M(SHOULDER_HAND_BEHIND_BACK)},
};

START_TEST(words_mean)
{
	struct buffer wrong = {0};
	int found = measurement_of(meanings[_i].words, &wrong);

	ck_assert_msg(found == meanings[_i].measurement, "%s: %d, %.*s",
	    meanings[_i].words, found, (int)wrong.len, wrong.data);
	buffer_free(&wrong);
}
END_TEST

static const struct {
	const char *words;
	const char *told; /* is in the message */
} refusals[] = {
    {"LF", "LF can mean lateral flexion or the little finger"},
    {"kne flexion", "'kne' is no joint or motion; did you mean 'knee'?"},
    {"knee flexon", "did you mean 'flexion'?"},
    {"latral flexion neck", "did you mean 'lateral flexion'?"},
    {"knee abduction", "knee has no abduction; it has: flexion, extension"},
    {"flexion", "; name one of them"},
    {"index flexion", "index MCP, index PIP, index DIP; name one"},
    {"thumb PIP flexion", "thumb has no PIP; it has: CMC, MCP, IP"},
    {"MCP flexion", "MCP of which digit?"},
    {"tip-to-table", "index, middle, ring, little; name one"},
    {"knee knee-to-wall", "knee-to-wall is measured at: ankle"},
    {"knee flexion extension", "one motion at a time"},
    {"supine knee flexion", "'supine' is no joint or motion"},
    {"zzz", "'zzz' is no joint or motion"},
    {"finger MCP flexion",
	"'finger' is no joint or motion; name the digit: index, middle, ring, "
	"little"},
    {"Fingers", "name the digit: index, middle, ring, little"},
    {"toe flexion",
	"name the digit: great-toe, second-toe, third-toe, fourth-toe, "
	"fifth-toe"},
    {"shoulder external", "did you mean 'external rotation'?"},
};

START_TEST(words_are_refused)
{
	struct buffer wrong = {0};
	int found = measurement_of(refusals[_i].words, &wrong);
	char *text = text_of(&wrong);

	ck_assert_int_eq(found, -1);
	ck_assert_msg(strstr(text, refusals[_i].told), "%s: %s",
	    refusals[_i].words, text);
	free(text);
}
END_TEST

START_TEST(a_joint_alone_lists)
{
	struct buffer out = {0};
	char *text;

	ck_assert_int_eq(measurement_of("knee", &out), -2);
	guide_motions(&out, UINT64_C(1) << VOCAB_JOINT_KNEE);
	text = text_of(&out);
	ck_assert_str_eq(text, "knee: flexion, extension\n");
	free(text);
	guide_motions(&out, UINT64_C(1) << VOCAB_JOINT_INDEX_DIP);
	text = text_of(&out);
	ck_assert_str_eq(text, "index DIP: flexion, extension\n"
			       "index: tip-to-crease, tip-to-table\n");
	free(text);
}
END_TEST

Suite *
guide_suite(void)
{
	Suite *suite = suite_create("guide");
	TCase *guide = tcase_create("guide"), *words = tcase_create("words");

	tcase_add_loop_test(
	    guide, every_measurement_has_a_guide, 0, VOCAB_MEASUREMENT_COUNT);
	tcase_add_loop_test(
	    guide, every_example_reads, 0, VOCAB_MEASUREMENT_COUNT);
	tcase_add_test(guide, the_test_of_examples_can_fail);
	tcase_add_loop_test(
	    guide, a_guide_fits_a_screen, 0, VOCAB_MEASUREMENT_COUNT);
	tcase_add_test(guide, caution_comes_first);
	tcase_add_test(guide, memory_is_told);
	tcase_add_test(guide, example_names_the_digit);
	suite_add_tcase(suite, guide);
	tcase_add_loop_test(words, words_mean, 0, (int)COUNT(meanings));
	tcase_add_loop_test(words, words_are_refused, 0, (int)COUNT(refusals));
	tcase_add_test(words, a_joint_alone_lists);
	suite_add_tcase(suite, words);
	return suite;
}
