/*
 * What every textbook says, held against what the program does. Figures name
 * their source; all else is common practice. People and readings are invented.
 */
#include "../unit/read_note.h"

#include "reference/reference.h"

#define HEAD                                                                   \
	"subject CP-01\ninvolved right forearm\nrater ab\n"                    \
	"instrument goniometer step 1\nsession 2026-05-04\n"

static struct read_note note;

static void
read_lines(const char *lines)
{
	struct buffer text = {0};

	buffer_puts(&text, HEAD);
	buffer_puts(&text, lines);
	read_note(&note, text.data, text.len, true);
	buffer_free(&text);
}

static void
tear_down(void)
{
	read_note_free(&note);
	note = (struct read_note){.judged = false};
	read_note_end();
}

static const struct told *
told(enum rule rule)
{
	for (size_t i = 0; i < note.findings.len; i++)
		if (note.findings.at[i].rule == rule)
			return &note.findings.at[i];
	return NULL;
}

/* --- forearm pronation is normally 80 and functionally 50 degrees
 * ------------------- */

/* AAOS, as given in a textbook's table of normal values. */
START_TEST(pronation_is_normally_80)
{
	struct ref_person unknown = {-1, -1};
	struct ref_usual usual;

	ck_assert(ref_usual(VOCAB_MEASUREMENT_FOREARM_PRONATION, "",
	    VOCAB_MODE_ACTIVE, &unknown, "AAOS", NULL, &usual));
	ck_assert_int_eq(usual.low, 800);
	ck_assert_int_eq(usual.high, 800);
	ck_assert_str_eq(usual.source, "AAOS");
	ck_assert_str_eq(usual.verified, "yes");
}
END_TEST

/* Morrey 1981: what everyday tasks take. */
START_TEST(pronation_is_functionally_50)
{
	size_t n, found = 0;
	const struct ref_functional *f =
	    ref_functional(VOCAB_MEASUREMENT_FOREARM_PRONATION, &n);

	for (size_t i = 0; i < n; i++)
		if (strcmp(f[i].source, "Morrey1981") == 0) {
			found++;
			ck_assert_int_eq(f[i].low, 500);
			ck_assert_int_eq(f[i].high, 500);
			ck_assert_int_eq(f[i].kind, REF_REACH);
			ck_assert_str_eq(f[i].verified, "yes");
		}
	ck_assert_uint_eq(found, 1);
}
END_TEST

/* --- the active range is measured again where it exceeds the passive
 * ---------------- */

START_TEST(active_beyond_passive_is_measured_again)
{
	const struct told *f;

	read_lines("forearm pronation R A 0-70 P 0-60 firm "
		   "L A 0-78 P 0-84 firm\n");
	f = told(RULE_PASSIVE_BELOW_ACTIVE);
	ck_assert_ptr_nonnull(f);
	ck_assert_int_eq(f->level, LEVEL_WARNING);
	ck_assert_uint_eq(f->line, 6);
	ck_assert_str_ne(rule_table[f->rule].reason, "");
}
END_TEST

START_TEST(passive_beyond_active_is_as_it_should_be)
{
	read_lines("forearm pronation R A 0-60 P 0-70 firm "
		   "L A 0-78 P 0-84 firm\n");
	ck_assert_ptr_null(told(RULE_PASSIVE_BELOW_ACTIVE));
	ck_assert_ptr_null(told(RULE_PASSIVE_JUST_BELOW_ACTIVE));
}
END_TEST

/* Within the difference that measuring itself makes it is a remark. */
START_TEST(active_just_beyond_passive_is_a_remark)
{
	read_lines("forearm pronation R A 0-70 P 0-66 firm "
		   "L A 0-78 P 0-84 firm\n");
	ck_assert_ptr_null(told(RULE_PASSIVE_BELOW_ACTIVE));
	ck_assert_ptr_nonnull(told(RULE_PASSIVE_JUST_BELOW_ACTIVE));
	ck_assert_int_eq(
	    told(RULE_PASSIVE_JUST_BELOW_ACTIVE)->level, LEVEL_NOTE);
}
END_TEST

/* Where pain stopped the examiner there is nothing to measure again. */
START_TEST(pain_explains_a_short_passive_range)
{
	read_lines("forearm pronation R A 0-70 P 0-60 stopped-by pain "
		   "L A 0-78 P 0-84 firm\n");
	ck_assert_ptr_null(told(RULE_PASSIVE_BELOW_ACTIVE));
}
END_TEST

/* --- the involved side is compared with the uninvolved
 * ------------------------------ */

START_TEST(the_involved_side_asks_for_the_other)
{
	read_lines("forearm pronation R A 0-41 P 0-47 firm\n");
	ck_assert_ptr_nonnull(told(RULE_MISSING_OPPOSITE));
	ck_assert_uint_eq(told(RULE_MISSING_OPPOSITE)->line, 6);
}
END_TEST

START_TEST(measured_on_both_sides_nothing_is_missing)
{
	read_lines("forearm pronation R A 0-41 P 0-47 firm "
		   "L A 0-78 P 0-84 firm\n");
	ck_assert_ptr_null(told(RULE_MISSING_OPPOSITE));
	ck_assert_str_eq(note.rows.at[0].cell[COL_INVOLVED], "yes");
	ck_assert_str_eq(note.rows.at[2].cell[COL_INVOLVED], "no");
}
END_TEST

START_TEST(the_uninvolved_joint_asks_for_nothing)
{
	read_lines("forearm pronation R A 0-41 P 0-47 firm "
		   "L A 0-78 P 0-84 firm\nwrist flexion L A 0-70\n");
	ck_assert_ptr_null(told(RULE_MISSING_OPPOSITE));
}
END_TEST

/* --- active motion is against gravity
 * ------------------------------------------------ */

/* Unless it says so; and then it is another measurement. */
START_TEST(gravity_eliminated_is_another_measurement)
{
	read_lines("shoulder abduction R A 0-60 L A 0-170\n"
		   "shoulder abduction gravity-eliminated R A 0-110\n");
	ck_assert_uint_eq(note.rows.len, 3);
	ck_assert_str_eq(note.rows.at[0].cell[COL_SETTING], "");
	ck_assert_str_eq(
	    note.rows.at[2].cell[COL_SETTING], "gravity-eliminated");
	ck_assert_ptr_null(told(RULE_REPEATED_READING));
}
END_TEST

/* It is held neither against passive motion nor against the other side. */
START_TEST(gravity_eliminated_is_compared_with_its_like)
{
	read_lines("shoulder abduction gravity-eliminated R A 0-110\n"
		   "shoulder abduction R P 0-90 firm\n");
	ck_assert_ptr_null(told(RULE_PASSIVE_BELOW_ACTIVE));
	tear_down();
	read_lines("shoulder abduction R A 0-110\n"
		   "shoulder abduction R P 0-90 firm\n");
	ck_assert_ptr_nonnull(told(RULE_PASSIVE_BELOW_ACTIVE));
}
END_TEST

/* --- a gain is a gain on the axis, whatever it is called
 * ------------------------------- */

/* From 10 short of straight to 5 short is 5, from 5 short to 3 beyond 8. */
START_TEST(what_is_short_of_straight_counts_below_zero)
{
	static const char *const ends[] = {"-10", "-5", "3"};

	read_lines("knee extension R A lacks 10\nknee extension L A lacks 5\n"
		   "knee extension R P 0-3\n");
	for (int i = 0; i < 3; i++)
		ck_assert_str_eq(note.rows.at[i].cell[COL_END], ends[i]);
}
END_TEST

Suite *published_practice_suite(void);

Suite *
published_practice_suite(void)
{
	Suite *suite = suite_create("common practice");
	TCase *tc = tcase_create("practice");

	tcase_add_checked_fixture(tc, NULL, tear_down);
	tcase_add_test(tc, pronation_is_normally_80);
	tcase_add_test(tc, pronation_is_functionally_50);
	tcase_add_test(tc, active_beyond_passive_is_measured_again);
	tcase_add_test(tc, passive_beyond_active_is_as_it_should_be);
	tcase_add_test(tc, active_just_beyond_passive_is_a_remark);
	tcase_add_test(tc, pain_explains_a_short_passive_range);
	tcase_add_test(tc, the_involved_side_asks_for_the_other);
	tcase_add_test(tc, measured_on_both_sides_nothing_is_missing);
	tcase_add_test(tc, the_uninvolved_joint_asks_for_nothing);
	tcase_add_test(tc, gravity_eliminated_is_another_measurement);
	tcase_add_test(tc, gravity_eliminated_is_compared_with_its_like);
	tcase_add_test(tc, what_is_short_of_straight_counts_below_zero);
	suite_add_tcase(suite, tc);
	return suite;
}
