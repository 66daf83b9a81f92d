/*
 * What a word that is none of the notation was meant to be: a slip of the pen,
 * an everyday word, the first part of another.
 */
#include <check.h>
#include <string.h>

#include "vocab/vocab.h"

static const struct {
	const char *text;
	enum vocab_class class;
	const char *nearest; /* NULL: none is near */
} slips[] = {{"kne", VOCAB_CLASS_JOINT, "knee"},
    {"frim", VOCAB_CLASS_END_FEEL, "firm"},
    {"sholder", VOCAB_CLASS_JOINT, "shoulder"},
    {"flextion", VOCAB_CLASS_MOTION, "flexion"},
    {"supniation", VOCAB_CLASS_MOTION, "supination"},
    {"sesion", VOCAB_CLASS_HEADER, "session"},
    {"KNEE", VOCAB_CLASS_JOINT, "knee"}, {"kn", VOCAB_CLASS_JOINT, NULL},
    {"wobble", VOCAB_CLASS_JOINT, NULL}, {"kne", VOCAB_CLASS_POSTURE, NULL},
    {"and", VOCAB_CLASS_JOINT, NULL}, {"tip", VOCAB_CLASS_JOINT, NULL},
    {"tight", VOCAB_CLASS_SIDE, NULL}, {"rihgt", VOCAB_CLASS_SIDE, "right"},
    {"elft", VOCAB_CLASS_SIDE, "left"}, {"rom", VOCAB_CLASS_MODE, NULL},
    {"ater", VOCAB_CLASS_HEADER, "rater"},
    {"houlder", VOCAB_CLASS_JOINT, "shoulder"}, {"", VOCAB_CLASS_JOINT, NULL},
    /* words that are no slips */
    {"person", VOCAB_CLASS_HEADER, "subject"},
    {"person", VOCAB_CLASS_MOTION, NULL},
    {"Patient", VOCAB_CLASS_HEADER, "subject"},
    {"subj", VOCAB_CLASS_HEADER, "subject"},
    {"subj", VOCAB_CLASS_KEYWORD, NULL}, {"code", VOCAB_CLASS_HEADER, NULL},
    {"caution", VOCAB_CLASS_HEADER, "precaution"},
    {"caution", VOCAB_CLASS_MOTION, NULL}, {"note", VOCAB_CLASS_KEYWORD, NULL},
    {"note", VOCAB_CLASS_HEADER, "remark"},
    {"affected", VOCAB_CLASS_SETTING_ANGLE, NULL},
    {"lying", VOCAB_CLASS_DIGIT, NULL}, {"arm", VOCAB_CLASS_MODE, NULL},
    {"cautio", VOCAB_CLASS_HEADER, NULL},
    /* the first part of words */
    {"external", VOCAB_CLASS_MOTION, "external rotation"},
    {"Ulnar", VOCAB_CLASS_MOTION, "ulnar deviation"},
    {"external", VOCAB_CLASS_JOINT, NULL},
    {"lateral", VOCAB_CLASS_MOTION, NULL}, /* rotation, flexion, ... */
    {"lateral", VOCAB_CLASS_BOTH, "bilateral"}};

START_TEST(digits_have_a_name_in_common)
{
	const uint32_t fingers = UINT32_C(1) << VOCAB_DIGIT_INDEX |
				 UINT32_C(1) << VOCAB_DIGIT_MIDDLE |
				 UINT32_C(1) << VOCAB_DIGIT_RING |
				 UINT32_C(1) << VOCAB_DIGIT_LITTLE;

	ck_assert_uint_eq(vocab_digits_called("Finger", 6), fingers);
	ck_assert_uint_ne(vocab_digits_called("toe", 3), 0);
	ck_assert_uint_eq(vocab_digits_called("toe", 3) & fingers, 0);
	ck_assert_uint_eq(vocab_digits_called("inger", 5), 0);
	ck_assert_uint_eq(vocab_digits_called("index finger", 12), 0);
	ck_assert_uint_eq(vocab_digits_called("", 0), 0);
	ck_assert_uint_eq(vocab_digits_called("floor", 5), 0);
}
END_TEST

/* What another word is taken for is a header; and no other is a word of ours.
 */
static const char *const other_words[] = {"person", "client", "date", "visit",
    "restriction", "notes", "comment", "examiner", "assessor", "therapist",
    "tester", "device", "tool", "target", "operation", "injured", "birth",
    "dob", "gender"};

START_TEST(other_words_mean_a_header)
{
	const char *word = other_words[_i];
	const char *ours = vocab_nearest(word, strlen(word), UINT32_MAX);

	ck_assert_ptr_nonnull(ours);
	ck_assert_ptr_nonnull(vocab_match_class(
	    vocab_find(ours, strlen(ours)), VOCAB_CLASS_HEADER));
	ck_assert_uint_eq(vocab_find(word, strlen(word)).n, 0);
	ck_assert_ptr_null(vocab_nearest(
	    word, strlen(word), ~(UINT32_C(1) << VOCAB_CLASS_HEADER)));
}
END_TEST

START_TEST(slips_have_a_nearest_word)
{
	const char *near = vocab_nearest(slips[_i].text, strlen(slips[_i].text),
	    UINT32_C(1) << slips[_i].class);

	if (slips[_i].nearest)
		ck_assert_str_eq(near, slips[_i].nearest);
	else
		ck_assert_ptr_null(near);
}
END_TEST

#define LOOP(tc, test, table)                                                  \
	tcase_add_loop_test(                                                   \
	    tc, test, 0, (int)(sizeof(table) / sizeof(*(table))))

Suite *vocab_near_suite(void);

Suite *
vocab_near_suite(void)
{
	Suite *suite = suite_create("vocab: near");
	TCase *tc = tcase_create("near");

	LOOP(tc, slips_have_a_nearest_word, slips);
	LOOP(tc, other_words_mean_a_header, other_words);
	tcase_add_test(tc, digits_have_a_name_in_common);
	suite_add_tcase(suite, tc);
	return suite;
}
