/*
 * Lines that cannot be read and may have begun a person or a session: what
 * stands below them is of nobody known and of no known day, and what stands
 * above them keeps both. Invented people.
 */
#include "read_example.h"

#define SUBJECT_LOST                                                           \
	{                                                                      \
		"", ""                                                         \
	}
#define SESSION_LOST                                                           \
	{                                                                      \
		"A-1", ""                                                      \
	}
#define NOTHING_LOST                                                           \
	{                                                                      \
		"A-1", "2026-05-04"                                            \
	}

static const struct {
	const char *line;
	struct {
		const char *subject, *session;
	} below;
} astray[] = {
    {"1) subject B-2", SUBJECT_LOST},
    {"2. subject B-2", SUBJECT_LOST},
    {"2: subject B-2", SUBJECT_LOST},
    {"1 subject B-2", SUBJECT_LOST},
    {"new subject B-2", SUBJECT_LOST},
    {"No SUBJECT B-2", SUBJECT_LOST},
    {"R subject B-2", SUBJECT_LOST},
    {"knee subject B-2", SUBJECT_LOST},
    {"1) subjct B-2", SUBJECT_LOST},
    {"2.subject B-2", SUBJECT_LOST},
    {"su,ject B-2", SUBJECT_LOST},
    {"s ubject B-2", SUBJECT_LOST},
    {"sub ject B-2", SUBJECT_LOST},
    {"\xe2\x80\xa2 subject B-2", SUBJECT_LOST},
    {"rater dksubject B-2", SUBJECT_LOST},
    {"ratersubject B-2", SUBJECT_LOST},
    {"remarksubject B-2", SUBJECT_LOST},
    {"remark subject: B-2", SUBJECT_LOST},
    {"remark \"x\"subject B-2", SUBJECT_LOST},
    {"knee R A 0-130subject B-2", SUBJECT_LOST},
    {"knee R P 0-130 firmsubject B-2", SUBJECT_LOST},
    {"knee R A 0-130 \"x\"subject B-2", SUBJECT_LOST},
    {"knee R A 0-130 \xffsubject B-2", SUBJECT_LOST},
    {"session 2026-05-05subject B-2", SUBJECT_LOST},
    {"subject B-2session 2026-05-05", SUBJECT_LOST},
    {"kne R A 0-130\nR A 0-130subject B-2", SUBJECT_LOST},
    {"patient B-2", SUBJECT_LOST},
    {"Patient: B-2", SUBJECT_LOST},
    {"id B-2", SUBJECT_LOST},
    {"new subject BX", SUBJECT_LOST},
    {"subjct BX", SUBJECT_LOST},
    {"1) session 2026-05-05", SESSION_LOST},
    {"2 session 2026-05-05", SESSION_LOST},
    {"new session 2026-05-05", SESSION_LOST},
    {"R session 2026-05-05", SESSION_LOST},
    {"rater cd session 2026-05-05", SESSION_LOST},
    {"sess ion 2026-05-05", SESSION_LOST},
    {"knee R A 0-130session 2026-05-05", SESSION_LOST},
    {"kne R A 0-130\nR session 2026-05-05", SESSION_LOST},
    {"2026-05-05", SESSION_LOST},
    {"2026-05-05 09:30 \"week 2\"", SESSION_LOST},
    {"2026-02-30", SESSION_LOST},
    {"Date 2026-05-05", SESSION_LOST},
    {"visit 2026-05-05 \"week 2\"", SESSION_LOST},
    {"kne R A 0-130\n2026-05-05", SESSION_LOST},
    {"Date: 2026-05-05", SESSION_LOST},
    {"2) 2026-05-05", SESSION_LOST},
    {"visit 2: 2026-05-05", SESSION_LOST},
    {"\xe2\x80\xa2 2026-05-05", SESSION_LOST},
    {"3. sesion 2026-05-05", SESSION_LOST},
    /* prose, and lines that are sound */
    {"kne R A 0-130 \"the subject of a session\"", NOTHING_LOST},
    {"kne R A 0-130 # subject B-2", NOTHING_LOST},
    {"kne R A 0-130 \"a session", NOTHING_LOST},
    {"2. # session 2026-05-05", NOTHING_LOST},
    {"- # session 2026-05-05", NOTHING_LOST},
    {"2. \"session 2026-05-05\"", NOTHING_LOST},
    {"remark tired this session, said the subject", NOTHING_LOST},
    {"patient was tired", NOTHING_LOST},
    {"Pt tired this session, stopped early", NOTHING_LOST},
    {"the subject could not relax", NOTHING_LOST},
    {"R A 0-9x as in the last session", NOTHING_LOST},
    {"rater session", NOTHING_LOST},
    {"knee R A 0-130 by subject", NOTHING_LOST},
    {"surgery 2026-05-01 2026-05-02", NOTHING_LOST},
    {"2026-05-05 knee R A 0-130", NOTHING_LOST},
    {"ses sion 2026-05-05", SESSION_LOST},
    {"# last session 2026-05-05", NOTHING_LOST},
    {"remark session 5 went well", NOTHING_LOST},
    {"rater session zz9", NOTHING_LOST},
    {"rater subject dk", NOTHING_LOST},
    {"goal right hip flexion active 120 by session 12", NOTHING_LOST},
    {"Subjective: pain at night", NOTHING_LOST},
    {"Object lifted", NOTHING_LOST},
    {"The subject declined", NOTHING_LOST},
    {"Home programme 3x10 subject to pain", NOTHING_LOST},
    {"Patient 3/10 pain", NOTHING_LOST},
    {"Pt 3x/week, next visit soon", NOTHING_LOST},
    {"Sensation normal", NOTHING_LOST},
    {"Tension in trapezius", NOTHING_LOST},
    {"Visit 4 of 12", NOTHING_LOST},
    {"Seen in session 4", NOTHING_LOST},
    {"B-2", NOTHING_LOST},
};

START_TEST(what_may_have_begun_another_ends_what_is_above)
{
	struct buffer text = {0};
	struct read_note n;
	const struct row *last;

	buffer_printf(&text,
	    "subject A-1\ninvolved none\nsession 2026-05-04\n"
	    "hip flexion R A 0-108\n%s\nhip flexion R A 0-110\n",
	    astray[_i].line);
	read_note(&n, text.data, text.len, true);
	ck_assert_str_eq(n.rows.at[0].cell[COL_SUBJECT], "A-1");
	ck_assert_str_eq(n.rows.at[0].cell[COL_SESSION], "2026-05-04");
	last = &n.rows.at[n.rows.len - 1];
	EXPECT(
	    strcmp(last->cell[COL_END], "110") == 0 &&
		strcmp(last->cell[COL_SUBJECT], astray[_i].below.subject) ==
		    0 &&
		strcmp(last->cell[COL_SESSION], astray[_i].below.session) == 0,
	    "%s: '%s', '%s'", astray[_i].line, last->cell[COL_SUBJECT],
	    last->cell[COL_SESSION]);
	read_note_free(&n);
	buffer_free(&text);
}
END_TEST

/* What was read on the line before the word stays where it was written. */
START_TEST(readings_before_the_word_keep_person_and_day)
{
	static const char text[] =
	    "subject A-1\nsession 2026-05-04\n"
	    "hip flexion R A 0-110 P 0-118subject B-2\nsession 2026-05-05\n"
	    "hip flexion R A 0-99 P 0-104session 2026-05-06\n";
	struct read_note n;

	read_note(&n, text, sizeof(text) - 1, false);
	ck_assert_uint_eq(n.rows.len, 2);
	ck_assert_str_eq(n.rows.at[0].cell[COL_SUBJECT], "A-1");
	ck_assert_str_eq(n.rows.at[0].cell[COL_SESSION], "2026-05-04");
	ck_assert_str_eq(n.rows.at[1].cell[COL_SUBJECT], "");
	ck_assert_str_eq(n.rows.at[1].cell[COL_SESSION], "2026-05-05");
	read_note_free(&n);
}
END_TEST

/* Headers below an unknown session are of that session, not of the person. */
START_TEST(an_unknown_session_has_headers_of_its_own)
{
	static const char text[] = "subject A-1\nnew session 2026-05-04\n"
				   "involved right hip\nsession 2026-05-05\n"
				   "hip flexion R A 0-110\n";
	struct read_note n;

	read_note(&n, text, sizeof(text) - 1, false);
	ck_assert_uint_eq(n.rows.len, 1);
	ck_assert_str_eq(n.rows.at[0].cell[COL_INVOLVED], "");
	read_note_free(&n);
}
END_TEST

/* The number of a list hides no other header either. */
START_TEST(headers_of_the_measuring_in_a_list_are_unknown)
{
	static const char text[] = "subject A-1\nsession 2026-05-04\n"
				   "rater dk\n1. rater ab\n"
				   "mode active\n2) mode passive\n"
				   "hip flexion R 0-110 R A 0-112\n";
	struct read_note n;

	read_note(&n, text, sizeof(text) - 1, false);
	ck_assert_uint_eq(n.rows.len, 1);
	ck_assert_str_eq(n.rows.at[0].cell[COL_END], "112");
	ck_assert_str_eq(n.rows.at[0].cell[COL_INVOLVED + 1], "");
	ck_assert_uint_eq(n.findings.len, 3);
	read_note_free(&n);
}
END_TEST

Suite *syntax_meant_suite(void);

Suite *
syntax_meant_suite(void)
{
	Suite *suite = suite_create("syntax: meant");
	TCase *tc = tcase_create("meant");

	tcase_add_checked_fixture(tc, NULL, read_note_end);
	tcase_add_loop_test(tc, what_may_have_begun_another_ends_what_is_above,
	    0, (int)(sizeof(astray) / sizeof(*astray)));
	tcase_add_test(tc, readings_before_the_word_keep_person_and_day);
	tcase_add_test(tc, an_unknown_session_has_headers_of_its_own);
	tcase_add_test(tc, headers_of_the_measuring_in_a_list_are_unknown);
	suite_add_tcase(suite, tc);
	return suite;
}
