/*
 * Where a bound comes from, in words: whoever reads a hint has not seen the
 * limits table. The tables are the real ones, all readings are invented.
 */
#include "lint_note.h"

#include "lint/bound_words.h"
#include "reference/table.h"

/* A reading of one trial, and what its hint says behind `at most`. */
static const struct {
	int measurement, mode, end; /* end below 0: lacks */
	enum kind kind;
	const char *most;
} impossible[] = {
    {M(ELBOW_FLEXION), A, 176, KIND_MEASURED,
	"at most 175, this program's own bound, generous on purpose"},
    {M(ELBOW_EXTENSION), A, -176, KIND_LACKS,
	"at most 175, as far as the opposite motion can go"},
    {M(THUMB_OPPOSITION), NONE, 11, KIND_SCORE,
	"at most 10, the top of the scale"},
    {M(THUMB_MCP_FLEXION), A, 141, KIND_MEASURED,
	"at most 140, a published extreme that was read, with a margin"},
};

START_TEST(what_is_possible_says_by_whom)
{
	const char *hint;

	add_bare(impossible[_i].measurement, R, impossible[_i].mode,
	    impossible[_i].kind);
	add_trial(NO_VALUE, impossible[_i].end);
	ck_assert_int_eq(times(RULE_IMPOSSIBLE_ANGLE), 1);
	hint = first(RULE_IMPOSSIBLE_ANGLE)->hint;
	ck_assert_msg(strstr(hint, impossible[_i].most) != NULL, "%s", hint);
}
END_TEST

static const struct {
	const char *basis, *verified, *words;
} usual[] = {
    {"BooneAzen1979 26.9 + 2 x SD 4.1", "derived",
	"26.9 by Boone & Azen 1979, and two standard deviations more "
	"(`rangeline sources BooneAzen1979`)"},
    {"AAOS 45 (from memory) + 2 x SD of 10 assumed, common practice",
	"from memory",
	"45 by AAOS, and two standard deviations more, assumed where none is "
	"known, from memory (`rangeline sources AAOS`)"},
    {"published_norm_unlabelled 90 + 2 x SD 5", "read",
	"90, and two standard deviations more (`rangeline sources "
	"published_norm_unlabelled`)"},
    {"Yoshida2003 (200 thumbs) 77 , range 40-126 -/+ 2 SD", "read",
	"Yoshida 2003 77, range 40-126, and two standard deviations more"},
    {"top of 20-45 (secondary page, weak)", "read", "top of 20-45"},
    {"Basel_TMD_500 8.8", "read", "Basel TMD 500 8.8"},
};

START_TEST(what_is_usual_says_by_whom)
{
	struct ref_bound bound = {.has_usual = true,
	    .basis_usual = usual[_i].basis,
	    .verified = usual[_i].verified};
	struct buffer words = {0};

	bound_usual_words(&words, &bound);
	buffer_putc(&words, '\0');
	ck_assert_str_eq(words.data, usual[_i].words);
	buffer_free(&words);
}
END_TEST

/* No row of the table leaves a bracket, a key or a sum of letters. */
START_TEST(every_bound_has_words)
{
	int n = 0;

	for (int i = 0; i < ref_limit_first[VOCAB_MEASUREMENT_COUNT]; i++) {
		const struct ref_limit_row *row = &ref_limit_rows[i];
		struct ref_bound bound = {.basis_usual = row->basis_usual,
		    .verified = row->verified,
		    .verified_possible = row->verified_possible};
		struct reading r = {.measurement = M(KNEE_FLEXION)};
		struct buffer words = {0};
		size_t plain;

		if (row->possible >= 0)
			ck_assert_str_ne(bound_possible_words(&r, &bound),
			    row->verified_possible);
		if (row->usual < 0)
			continue;
		bound_usual_words(&words, &bound);
		buffer_putc(&words, '\0');
		plain = strcspn(words.data, "(");
		ck_assert_msg(plain > 0 && !memchr(words.data, '_', plain) &&
				  !memchr(words.data, '+', plain),
		    "%s", words.data);
		if (strcmp(row->verified, "from memory") == 0)
			ck_assert_ptr_nonnull(
			    strstr(words.data, "from memory"));
		buffer_free(&words);
		n++;
	}
	ck_assert_int_gt(n, 100);
}
END_TEST

START_TEST(a_hint_names_the_source)
{
	add(M(HIP_ADDUCTION), R, A, 0, 40);
	ck_assert_int_eq(times(RULE_UNUSUAL_ANGLE), 1);
	ck_assert_str_eq(first(RULE_UNUSUAL_ANGLE)->hint,
	    "measure again, and the other side in the same way; usual is up "
	    "to 35: 26.9 by Boone & Azen 1979, and two standard deviations "
	    "more (`rangeline sources BooneAzen1979`)");
}
END_TEST

Suite *lint_bounds_suite(void);

Suite *
lint_bounds_suite(void)
{
	Suite *suite = suite_create("lint: bounds");
	TCase *tc = tcase_create("words");

	tcase_add_checked_fixture(tc, set_up, tear_down);
	tcase_add_loop_test(tc, what_is_possible_says_by_whom, 0,
	    sizeof(impossible) / sizeof(impossible[0]));
	tcase_add_loop_test(tc, what_is_usual_says_by_whom, 0,
	    sizeof(usual) / sizeof(usual[0]));
	tcase_add_test(tc, every_bound_has_words);
	tcase_add_test(tc, a_hint_names_the_source);
	suite_add_tcase(suite, tc);
	return suite;
}
