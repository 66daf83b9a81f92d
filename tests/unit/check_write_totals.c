/*
 * The totals in the text summary: formula, parts and source are told, and what
 * must never be told is not. All people and readings are invented.
 */
#include "write/summary_totals.h"

#include "calc/totals.h"
#include "write/summary.h"
#include "write/summary_internal.h"
#include "write_note.h"

Suite *write_totals_suite(void);

#define M(name) VOCAB_MEASUREMENT_##name

static void
write_totals(struct note *n)
{
	struct summary_options options = {.format = SUMMARY_TEXT};
	struct summary *sum = summary_new(&options);

	sum->s = &n->s;
	summary_totals(sum, &n->out);
	summary_totals_legend(sum, &n->out);
	summary_free(sum);
	/* One line, so that a wrap hides nothing. */
	for (size_t i = 0; i + 1 < n->out.len; i++)
		if (n->out.data[i] == '\n' && n->out.data[i + 1] == ' ')
			n->out.data[i] = ' ';
}

/* The text with every run of blanks as one. */
static void
squeeze(struct note *n)
{
	size_t to = 0;

	for (size_t i = 0; i < n->out.len; i++)
		if (n->out.data[i] != ' ' || to == 0 ||
		    n->out.data[to - 1] != ' ')
			n->out.data[to++] = n->out.data[i];
	n->out.len = to;
}

static void
add_digit(struct note *n, int side, int mode)
{
	add(n, M(INDEX_MCP_FLEXION), side, mode, "0-72");
	add(n, M(INDEX_PIP_FLEXION), side, mode, "14-86");
	add(n, M(INDEX_DIP_FLEXION), side, mode, "4-41");
	add(n, M(INDEX_MCP_EXTENSION), side, mode, "0-11");
	add(n, M(INDEX_PIP_EXTENSION), side, mode, "lacks 14");
	add(n, M(INDEX_DIP_EXTENSION), side, mode, "lacks 4");
}

START_TEST(nothing_to_add_up)
{
	struct note *n = note_new();

	add(n, M(KNEE_FLEXION), R, A, "0-120");
	add(n, M(KNEE_EXTENSION), R, P, "0-12");
	write_totals(n);
	ck_assert_uint_eq(n->out.len, 0);
	note_free(n);
}
END_TEST

START_TEST(a_digit_with_its_parts)
{
	struct note *n = note_new();

	add_digit(n, R, A);
	write_totals(n);
	squeeze(n);
	check_holds(&n->out,
	    "right index: total active motion 181 = 72 + 86 + 41 - 0 - 14 - 4; "
	    "69.62 % of 260 right index active: two joints");
	check_holds(&n->out, "260 = 85 + 110 + 65 (a medical formula page "
			     "(after Johnson et al), read)");
	check_holds(
	    &n->out, "two joints (86 + 41 - 14 - 4) / 175 x 100 = 62.29 %\n");
	ck_assert(!holds(&n->out, "bands:"));
	ck_assert(!holds(&n->out, "ASSH"));
	note_free(n);
}
END_TEST

/* Of the involved side, and of a tendon or a burn only where one is told of. */
START_TEST(bands_where_they_can_apply)
{
	struct note *n = note_new();

	add_digit(n, R, A);
	add_digit(n, L, A);
	involve(n, VOCAB_JOINT_INDEX_MCP, true, false);
	involve(n, VOCAB_JOINT_INDEX_PIP, true, false);
	write_totals(n);
	squeeze(n);
	check_holds(&n->out,
	    "100 % of the left; bands: ASSH fair, total motion table good "
	    "left index: total active motion 181 = 72 + 86 + 41 - 0 - 14 - 4; "
	    "69.62 % of 260 right index active: two joints (86 + 41 - 14 - 4) "
	    "/ 175 x 100 = 62.29 % left index");
	check_holds(&n->out, "75 and 50 themselves are in no band");
	ck_assert(!holds(&n->out, "burn rating"));
	ck_assert(!holds(&n->out, "Strickland-Glogovac 1980:"));
	n->person.headers.surgery =
	    (struct fact){.said = SAID, .value = n->s.day - 7};
	n->person.headers.surgery_text = "Flexor Tendon repair";
	n->out.len = 0;
	write_totals(n);
	squeeze(n);
	check_holds(&n->out,
	    "= 62.29 %; bands: Strickland-Glogovac 1980 fair, by degrees "
	    "fair, Strickland adjusted 1985 good (from memory, not verified)");
	ck_assert(!holds(&n->out, "burn rating"));
	/* a surgery that is still to come, and a remark */
	n->person.headers.surgery.value = n->s.day + 1;
	*MEM_PUSH(&n->s.headers.remarks) =
	    (struct remark){.text = "hand burned in autumn; suntendon"};
	n->out.len = 0;
	write_totals(n);
	squeeze(n);
	check_holds(&n->out, "total motion table good, burn rating good");
	check_holds(&n->out, "burn rating, of a burned hand: full range 260");
	ck_assert(!holds(&n->out, "1980 fair"));
	note_free(n);
}
END_TEST

/* The bands are of active motion. */
START_TEST(passive_motion_has_no_grade)
{
	struct note *n = note_new();

	add_digit(n, R, P);
	involve(n, VOCAB_JOINT_INDEX_MCP, true, false);
	write_totals(n);
	squeeze(n);
	check_holds(&n->out, "right index: total passive motion 181 = ");
	ck_assert(!holds(&n->out, "ASSH"));
	ck_assert(!holds(&n->out, "Strickland-Glogovac 1980 "));
	note_free(n);
}
END_TEST

START_TEST(percent_of_the_other_side)
{
	struct note *n = note_new();

	add_digit(n, R, A);
	add_digit(n, L, A);
	involve(n, VOCAB_JOINT_INDEX_MCP, true, false);
	write_totals(n);
	squeeze(n);
	check_holds(&n->out, "69.62 % of 260; 100 % of the left; bands:");
	ck_assert(!holds(&n->out, "of the right"));
	note_free(n);
}
END_TEST

START_TEST(what_is_missing_is_named)
{
	struct note *n = note_new();

	add_digit(n, R, A);
	n->s.readings.at[2].kind = KIND_NOT_TESTED;
	n->s.readings.len--;
	write_totals(n);
	squeeze(n);
	check_holds(&n->out,
	    "right index: no total active motion: DIP flexion not tested, DIP "
	    "extension not measured");
	ck_assert(!holds(&n->out, "%"));
	note_free(n);
}
END_TEST

START_TEST(rotation_at_the_edges)
{
	struct note *n = note_new();
	static const char *const figures[2][2] = {
	    {"0-52", "0-132"}, {"0-72", "0-117"}};

	for (int side = 0; side < 2; side++) {
		add(n, M(SHOULDER_INTERNAL_ROTATION), side, P, figures[side][0])
		    ->setting = word(n, "abducted-90");
		add(n, M(SHOULDER_EXTERNAL_ROTATION), side, P, figures[side][1])
		    ->setting = word(n, "abducted-90");
	}
	write_totals(n);
	squeeze(n);
	check_holds(&n->out,
	    "internal rotation right 52, left 72: 20 less on the right; "
	    "reaches 20 or more (Wilk 2011); lies within 18-20 (Manske 2013); "
	    "does not reach 25 or more");
	check_holds(&n->out,
	    "rotation arc right 184, left 189: 5 less on the right; does not "
	    "reach over 5 (Wilk 2011, Manske 2013)");
	check_holds(&n->out, "(Burkhart 2003; from memory, not verified)");
	note_free(n);
}
END_TEST

START_TEST(a_loss_from_nothing_is_no_percentage)
{
	struct note *n = note_new();

	add(n, M(SHOULDER_INTERNAL_ROTATION), R, P, "0-0")->setting =
	    word(n, "abducted-90");
	add(n, M(SHOULDER_INTERNAL_ROTATION), L, P, "lacks 10")->setting =
	    word(n, "abducted-90");
	write_totals(n);
	squeeze(n);
	check_holds(&n->out, "right 0, left lacks 10: 10 less on the left");
	ck_assert(!holds(&n->out, "that is"));
	note_free(n);
}
END_TEST

START_TEST(parts_of_the_laxity_score)
{
	struct note *n = note_new();

	add(n, M(ELBOW_EXTENSION), R, P, "0-11");
	add(n, M(ELBOW_EXTENSION), L, P, "0-10");
	add(n, M(KNEE_EXTENSION), R, P, "lacks 3");
	write_totals(n);
	squeeze(n);
	check_holds(&n->out, "3 of the 6 parts that are readings");
	check_holds(&n->out, "left elbow extension 10 (passive), at 10");
	check_holds(
	    &n->out, "right knee extension lacks 3 (passive), not over");
	check_holds(&n->out,
	    "1 over their limits, 2 where the limit itself counts as well");
	check_holds(&n->out, "no score of 9");
	note_free(n);
}
END_TEST

START_TEST(lines_fit)
{
	struct summary_options options = {.format = SUMMARY_TEXT};
	struct summary *sum = summary_new(&options);
	struct note *n = note_new();
	size_t beg = 0;

	add_digit(n, R, A);
	add_digit(n, L, A);
	sum->s = &n->s;
	summary_totals(sum, &n->out);
	for (size_t i = 0; i < n->out.len; i++)
		if (n->out.data[i] == '\n') {
			ck_assert_uint_le(i - beg, 80);
			beg = i + 1;
		}
	summary_free(sum);
	note_free(n);
}
END_TEST

Suite *
write_totals_suite(void)
{
	Suite *suite = suite_create("write totals");
	TCase *text = tcase_create("text");

	tcase_add_test(text, nothing_to_add_up);
	tcase_add_test(text, a_digit_with_its_parts);
	tcase_add_test(text, bands_where_they_can_apply);
	tcase_add_test(text, passive_motion_has_no_grade);
	tcase_add_test(text, percent_of_the_other_side);
	tcase_add_test(text, what_is_missing_is_named);
	tcase_add_test(text, rotation_at_the_edges);
	tcase_add_test(text, a_loss_from_nothing_is_no_percentage);
	tcase_add_test(text, parts_of_the_laxity_score);
	tcase_add_test(text, lines_fit);
	suite_add_tcase(suite, text);
	return suite;
}
