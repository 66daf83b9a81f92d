/*
 * What progress tells beside the figures: the precautions in force, what check
 * warns of without leaving it out, totals of digits. All people are invented.
 */
#include "progress_note.h"

#define TWO                                                                    \
	"session 2026-05-04\nhip flexion R A 0-80 P 0-82 L A 0-90\n"           \
	"hip extension R A 0-5\n"                                              \
	"session 2026-05-11\nhip flexion R A 0-85 P 0-88 L A 0-91\n"           \
	"hip extension R A 0-6\n"

#define FORCE "    precaution in force on 2026-05-11: "

static bool
told(const char *part)
{
	return strstr(printed(PROGRESS_TEXT, false), part) != NULL;
}

/* A precaution, its line below the heading, and how many series have it. */
static const struct {
	const char *header, *line;
	int series;
} limits[] = {
    {"right hip flexion max 100 until 2026-06-30 \"surgeon\"",
	FORCE "right hip flexion max 100 until\n"
	      "      2026-06-30 \"surgeon\"\n",
	2},
    {"right hip flexion passive max 100",
	FORCE "right hip flexion passive max 100\n", 1},
    {"hip flexion active max 100 until 2026-05-11",
	FORCE "both hip flexion active max 100 until\n      2026-05-11\n", 2},
    {"left hip no extension", FORCE, 0},
    {"left hip no active from 2026-05-11",
	FORCE "left hip no active motion from 2026-05-11\n", 1},
    {"right hip no from 2026-05-01", FORCE "right hip no motion from", 3},
    {"right hip flexion max 100 until 2026-05-10", FORCE, 0},
    {"right hip flexion max 100 from 2026-05-12", FORCE, 0},
    {"right knee flexion max 90", FORCE, 0},
    {"right hip extension max 10", FORCE "right hip extension max 10\n", 1},
    /* flexion may not start below 10 then */
    {"right hip extension max lacks 10",
	FORCE "right hip extension max lacks 10\n", 3},
};

START_TEST(a_precaution_stands_where_it_holds)
{
	struct buffer note = {0};
	const char *text;
	int n = 0;

	buffer_printf(&note, HEAD "precaution %s\n" TWO, limits[_i].header);
	buffer_putc(&note, '\0');
	follow_note(note.data);
	text = printed(PROGRESS_TEXT, false);
	for (const char *at = text; (at = strstr(at, limits[_i].line)); at++)
		n++;
	ck_assert_msg(n == limits[_i].series, "%d of it in:\n%s", n, text);
	buffer_free(&note);
}
END_TEST

/* What limits a passive motion may be why nobody measured it any more. */
START_TEST(the_last_session_says_what_is_in_force)
{
	follow_note(HEAD "session 2026-05-04\nhip flexion R A 0-80 P 0-82\n"
			 "precaution right hip flexion max 85\n"
			 "session 2026-05-11\nhip flexion R A 0-81 P 0-83\n"
			 "session 2026-05-18\nprecaution right hip no passive\n"
			 "hip flexion R A 0-85\nhip extension R P NT\n");
	today = 0;
	ck_assert(!told("max 85"));
	ck_assert(told("  hip flexion, right passive\n"
		       "    precaution in force on 2026-05-18: right hip no "
		       "passive motion\n"
		       "    first     2026-05-04"));
	ck_assert(told("    hip extension, right passive: NT on 2026-05-18\n"
		       "      precaution in force on 2026-05-18: right hip no "
		       "passive motion\n"));
}
END_TEST

START_TEST(a_day_that_has_passed_is_told)
{
	static const char note[] =
	    HEAD "precaution right hip flexion max 95 until 2026-06-30\n" TWO;

	follow_note(note);
	ck_assert_int_eq(date_parse("2026-06-30", 10, &today), 0);
	ck_assert(!told("has passed"));
	today++;
	ck_assert(told("last day has passed\n"));
}
END_TEST

/* Nothing is left out in silence. */
START_TEST(many_precautions_are_not_all_told)
{
	struct buffer note = {0};

	buffer_puts(&note, HEAD);
	for (int i = 0; i < 300; i++)
		buffer_puts(&note, "precaution left knee max 90\n");
	buffer_puts(&note, TWO);
	buffer_putc(&note, '\0');
	follow_note(note.data);
	ck_assert(told("    there may be further precautions: see the note\n"));
	buffer_free(&note);
}
END_TEST

/* A row has what held at its own session. */
START_TEST(a_row_has_the_precautions_of_its_day)
{
	const char *rows;

	follow_note(HEAD "precaution right hip flexion max 100 until "
			 "2026-05-10 \"a, b\"\n"
			 "precaution hip no passive\n"
			 "session 2026-05-04\nhip flexion R A 0-80\n"
			 "session 2026-05-11\nhip flexion R A 0-85 P 0-90\n");
	rows = printed(PROGRESS_CSV, false);
	ck_assert_ptr_nonnull(strstr(rows, ",line,precautions,findings\r\n"));
	ck_assert_ptr_nonnull(
	    strstr(rows, ",invented.range,9,\"right hip flexion max 100 until "
			 "2026-05-10 \"\"a, b\"\"\","));
	ck_assert_ptr_nonnull(strstr(rows, ",invented.range,11,,"));
	ck_assert_ptr_nonnull(
	    strstr(rows, ",invented.range,11,both hip no passive motion,"
			 "precaution-exceeded\r\n"));
}
END_TEST

/* --- what check warns of -------------------------------------------------- */

/* A second session, and what is told of its reading. */
static const struct {
	const char *reading, *value, *told;
} warned[] = {
    {"hip flexion R A 0-80 P 0-60", "0-60?",
	"0-60 of 2026-05-11 [passive-below-active]\n"},
    {"hip flexion R A 0-80 P 0-77", "0-77", NULL}, /* a note alone */
    {"hip flexion R A 0-35", "0-35?", "0-35 of 2026-05-11 [drop-from-last]\n"},
    {"hip flexion R A 0-80.5 0-70", "0-75.25 (2)?",
	"0-75.25 (2) of 2026-05-11 [off-scale, trials-disagree]\n"},
    {"hip flexion R A 0-80.5 # accept off-scale: read twice", "0-80.5", NULL},
    {"hip flexion R P 0-100", "0-100?",
	"0-100 of 2026-05-11 [precaution-exceeded]\n"},
    {"hip flexion R P 0-100 # accept precaution-exceeded: asked", "0-100?",
	"0-100 of 2026-05-11 [precaution-exceeded: accepted]\n"},
};

START_TEST(what_check_warns_of_is_marked)
{
	static const char first[] =
	    HEAD "precaution right hip flexion max 90\n"
		 "session 2026-05-04\nhip flexion R A 0-80 P 0-82 L A 0-80\n"
		 "session 2026-05-11\n";
	const char *text, *at;
	struct buffer note = {0};

	buffer_printf(&note, "%s%s", first, warned[_i].reading);
	buffer_putc(&note, '\0');
	follow_note(note.data);
	text = printed(PROGRESS_TEXT, false);
	buffer_free(&note);
	buffer_printf(&note, "2026-05-11  %s", warned[_i].value);
	buffer_putc(&note, '\0');
	at = strstr(text, note.data);
	ck_assert_msg(at != NULL, "no %s in:\n%s", note.data, text);
	ck_assert_int_ne(at[note.len - 1], '?');
	ck_assert_int_eq(
	    strstr(text, "?: check warns") != NULL, warned[_i].told != NULL);
	if (warned[_i].told) {
		at = strstr(text, "    check warns of ");
		ck_assert_ptr_nonnull(at);
		at += strlen("    check warns of ");
		ck_assert_msg(
		    strncmp(at, warned[_i].told, strlen(warned[_i].told)) == 0,
		    "%.80s", at);
		ck_assert_ptr_null(strstr(at, "    check warns of "));
	} else {
		ck_assert_ptr_null(strstr(text, "check warns"));
	}
	buffer_free(&note);
}
END_TEST

/* Left out or alone in its series, a reading has its rule beside it. */
START_TEST(a_mention_names_the_rule)
{
	follow_note(HEAD "session 2026-05-04\nhip flexion R A 0-80\n"
			 "session 2026-05-11\nhip flexion R A 90-70\n"
			 "session 2026-05-18\nhip flexion R A 0-82\n"
			 "elbow flexion R A 0-100.5\n");
	ck_assert(told("    2026-05-11: 90-70 [end-before-start] (doubtful, "
		       "not compared: see check)\n"));
	ck_assert(
	    told("    elbow flexion, right active: 0-100.5 [off-scale] on "
		 "2026-05-18\n"));
	ck_assert(!told("?"));
	printed(PROGRESS_CSV, false);
	ck_assert_ptr_nonnull(strstr(out.data, ",,end-before-start\r\n"));
	ck_assert_ptr_nonnull(
	    strstr(out.data, ",,missing-opposite off-scale\r\n"));
}
END_TEST

/* --- totals of digits ----------------------------------------------------- */

#define INDEX "index R A MCP 11-72 PIP 14-86 DIP 4-41\n"

/* 72 + 86 + 41 - 11 - 14 - 4 is 170; what lacks a part has no total. */
START_TEST(a_total_is_held_against_its_like)
{
	follow_note(HEAD "session 2026-05-04\n" INDEX
			 "session 2026-05-11\nindex R A MCP 11-74 PIP 14-88\n"
			 "session 2026-05-18\nrater cd\n"
			 "index R A MCP 10-74 PIP 14-88 DIP 4-45.5\n"
			 "index L A MCP 0-90 PIP 0-100 DIP 0-70\n"
			 "session 2026-05-25\nrater cd\n"
			 "index R A MCP 10-80 PIP 10-90 DIP 0-50\n"
			 "index R P MCP 10-80 PIP 10-90 DIP 0-50\n");

	ck_assert(told("  index, right: total active motion\n"
		       "    first     2026-05-04  170       +30               "
		       "unknown\n"
		       "    previous  2026-05-18  179.5     +20.5             "
		       "unknown\n"
		       "    this      2026-05-25  200\n"
		       "    since first: rater ab, now cd\n"
		       "    unknown: no figure of error is known for it\n"
		       "    2026-05-11: no total (summary tells why)\n\n"));
	ck_assert(told("\nTotal motion of a digit: the flexion of its joints"));
	ck_assert(!told("total passive motion"));
	ck_assert(!told("index, left: total"));
}
END_TEST

/* In one session each rater has a total; each is held against their own. */
START_TEST(a_total_is_of_one_rater)
{
	follow_note(HEAD "session 2026-05-04\n" INDEX "rater cd\n"
			 "index R A MCP 0-72 PIP 14-86 DIP 4-41\n"
			 "session 2026-05-11\n"
			 "index R A MCP 0-73 PIP 14-86 DIP 4-41\nrater ab\n"
			 "index R A MCP 11-74 PIP 14-86 DIP 4-41\n"
			 "rater a b\n"
			 "index R A MCP 11-75 PIP 14-86 DIP 4-41\n");
	ck_assert(
	    told("  index, right: total active motion\n"
		 "    first                         2026-05-04  170       +2"
		 "                unknown\n"
		 "    this, by ab                   2026-05-11  172\n"
		 "    first                         2026-05-04  181       +1"
		 "                unknown\n"
		 "    this, by cd                   2026-05-11  182\n"
		 "    first                         2026-05-04  181       -8"
		 "                unknown\n"
		 "    this, by an unreadable rater  2026-05-11  173\n"
		 "    since first: rater cd, now not readable\n"
		 "    unknown: no figure"));
}
END_TEST

/* Of one session, in another setting or doubtful: nothing is held together. */
static const char *const no_course[] = {HEAD "session 2026-05-04\n" INDEX,
    HEAD "session 2026-05-04\n" INDEX "session 2026-05-11\n"
	 "index wrist-flexed R A MCP 11-72 PIP 14-86 DIP 4-41\n",
    HEAD "session 2026-05-04\n" INDEX "session 2026-05-11\n"
	 "index R A MCP 72-11 PIP 14-86 DIP 4-41\n",
    HEAD "session 2026-05-04\n" INDEX "session 2026-05-11\n"
	 "index R A MCP 11-72 PIP WNL DIP 4-41\n",
    HEAD "session 2026-05-04\n" INDEX "subject PG-02\nsession 2026-05-11\n"
	 "index R A MCP 11-72 PIP 14-86 DIP 4-41\n"};

START_TEST(no_total_is_made_up)
{
	follow_note(no_course[_i]);
	ck_assert(!told("total active"));
	ck_assert(!told("Total motion"));
	ck_assert(told("index MCP flexion, right"));
}
END_TEST

TCase *
progress_told_case(void)
{
	TCase *tcase = tcase_create("told");

	tcase_add_checked_fixture(tcase, NULL, tear_down_progress);
	tcase_add_loop_test(tcase, a_precaution_stands_where_it_holds, 0,
	    (int)(sizeof(limits) / sizeof(*limits)));
	tcase_add_test(tcase, the_last_session_says_what_is_in_force);
	tcase_add_test(tcase, a_day_that_has_passed_is_told);
	tcase_add_test(tcase, many_precautions_are_not_all_told);
	tcase_add_test(tcase, a_row_has_the_precautions_of_its_day);
	tcase_add_loop_test(tcase, what_check_warns_of_is_marked, 0,
	    (int)(sizeof(warned) / sizeof(*warned)));
	tcase_add_test(tcase, a_mention_names_the_rule);
	tcase_add_test(tcase, a_total_is_held_against_its_like);
	tcase_add_test(tcase, a_total_is_of_one_rater);
	tcase_add_loop_test(tcase, no_total_is_made_up, 0,
	    (int)(sizeof(no_course) / sizeof(*no_course)));
	return tcase;
}
