/*
 * Progress as text and as rows, and the words that it may never use.
 */
#include "progress_note.h"

static const char knee[] =
    "subject     PG-01\n"
    "involved    right knee\n"
    "surgery     2026-04-07 \"total knee replacement\"\n"
    "goal        right knee flexion active 120 by 2026-07-01\n"
    "rater       ab\n"
    "instrument  goniometer step 1\n"
    "instrument  tape step 1 mm\n"
    "session 2026-04-21 \"week 2\"\n"
    "knee flexion  supine R A 9-82  P 6-89  L A 0-128\n"
    "ring tip-to-crease L 31 mm\n"
    "session 2026-05-05\n"
    "knee flexion  supine R A 6-97 by cd\n"
    "session 2026-05-26\n"
    "knee flexion  supine R A 4-111\n"
    "knee flexion  sitting R P 3-116\n"
    "ring tip-to-crease L 26 mm\n";

START_TEST(text_as_a_whole)
{
	follow_note(knee);
	ck_assert_str_eq(printed(PROGRESS_TEXT, true),
	    "PG-01, 3 sessions from 2026-04-21 to 2026-05-26\n"
	    "  surgery 2026-04-07 \"total knee replacement\"\n"
	    "\n"
	    "              session     after    value  change   error      "
	    "beyond\n"
	    "                          surgery         to this             "
	    "error\n"
	    "  knee flexion, right active, supine  "
	    "\xe2\x96\x81\xe2\x96\x85\xe2\x96\x88\n"
	    "    first     2026-04-21  2w       9-82   +29      10-14 [1]  "
	    "yes\n"
	    "    previous  2026-05-05  4w       6-97   +14      10-14 [2]  "
	    "unknown\n"
	    "    this      2026-05-26  7w       4-111\n"
	    "    since previous: rater cd, now ab\n"
	    "    unknown: the change lies between the figures of the source\n"
	    "    goal 120 by 2026-07-01: 9 to go (session of 2026-05-26)\n"
	    "  knee flexion, right passive  \xe2\x96\x81\xe2\x96\x88\n"
	    "    first     2026-04-21  2w       6-89   +27                 "
	    "unknown\n"
	    "    this      2026-05-26  7w       3-116\n"
	    "    since first: position supine, now sitting\n"
	    "    unknown: no published figure of error covers a change of "
	    "position\n"
	    "  ring tip-to-crease, left (less is better)  "
	    "\xe2\x96\x85\xe2\x96\x81\n"
	    "    first     2026-04-21  2w       31 mm  -5 mm    5 mm [3]   "
	    "no\n"
	    "    this      2026-05-26  7w       26 mm\n"
	    "\n"
	    "  no second session to compare with\n"
	    "    knee flexion, left active, supine: 0-128 on 2026-04-21\n"
	    "\n"
	    "  error of measuring\n"
	    "    [1] Hancock2018: minimum significant difference; taken for "
	    "one rater,\n"
	    "      goniometer\n"
	    "    [2] Hancock2018: minimum significant difference; taken for "
	    "two raters,\n"
	    "      goniometer\n"
	    "    [3] project_tolerance: a rule of thumb, for want of a figure "
	    "(own rule);\n"
	    "      taken for one rater\n"
	    "\n"
	    "Change to this: + is a gain of motion; where less is better, - "
	    "is the gain.\n"
	    "Beyond error: more than measuring alone may make. Figures of "
	    "error are other\n"
	    "people's. Licensed judgement and local protocols decide.\n");
}
END_TEST

/* Notes of which text is printed that must hold each of these lines. */
static const struct {
	const char *note, *line;
} lines[] = {
    {HEAD "session 2026-05-04\nelbow extension R A lacks 10\n"
	  "session 2026-05-11\nelbow extension R A 0-3\n",
	"    first  2026-05-04  lacks 10  +13      3-4 [1]  yes\n"},
    {HEAD "session 2026-05-04\nhand-behind-back L L5\n"
	  "session 2026-05-11\nhand-behind-back L T12\n",
	"    first  2026-05-04  L5     higher\n"},
    {HEAD "session 2026-05-04\nhip flexion R A 0-80\n"
	  "session 2026-05-11\nhip flexion R A 0-90 with inclinometer\n",
	"    first  2026-05-04  0-80   +10      >=5 [1]  unknown\n"},
    {HEAD "session 2026-05-04\nhip flexion R A 0-80\n"
	  "session 2026-05-11\nhip flexion R A 0-90 with inclinometer\n",
	"    since first: instrument goniometer step 1, now inclinometer\n"},
    {HEAD "session 2026-05-04\nhip flexion R A 0-80\n"
	  "session 2026-05-11\nhip flexion R A 0-90 with inclinometer\n",
	"    unknown: no figure of error is known for a change of "
	"instrument\n"},
    {HEAD "session 2026-05-04\nhip flexion R A 0-80\n"
	  "session 2026-05-08\nhip flexion R A NT \"fever\"\n"
	  "session 2026-05-11\nhip flexion R A 0-90\n",
	"    2026-05-08: NT \"fever\"\n"},
    {HEAD "session 2026-05-04\nhip flexion R A 0-80\n"
	  "session 2026-05-08\nhip flexion R A 90-30\n"
	  "session 2026-05-11\nhip flexion R A 0-90\n",
	"    2026-05-08: 90-30 [end-before-start] (doubtful, not compared: see "
	"check)\n"},
    {HEAD "session 2026-05-04 09:00\nhip flexion R A 0-80\n"
	  "session 2026-05-04 16:30\nhip flexion R A 0-90\n",
	"    this   2026-05-04 16:30  0-90\n"},
    {HEAD "session 2026-05-04\nhip flexion R A 0-80\n"
	  "session 2026-05-11\nhip flexion R A 0-82\n"
	  "session 2026-05-18\nhip flexion R A 0-84\n"
	  "session 2026-05-25\nhip flexion R A 0-87\n",
	"    from 2026-05-04 to 2026-05-25 it was +2.3 degrees a week (95 % "
	"interval 1.55\n      to 3.05; least squares over 4 sessions)\n"},
    {HEAD "session 2026-05-04\nhip flexion R A 0-80\n"
	  "session 2026-05-11\nhip flexion R A 0-82\n"
	  "session 2026-05-18\nhip flexion R A 0-84\n"
	  "session 2026-05-25\nhip flexion R A 0-87 by cd\n",
	"    no slope: fewer than four sessions on three days by one rater "
	"with one\n      instrument\n"},
    {HEAD "session 2026-05-04\nknee-to-wall R 5.2 cm\n"
	  "session 2026-05-11\nknee-to-wall R 6.2 cm\n"
	  "session 2026-05-18\nknee-to-wall R 7.2 cm\n"
	  "session 2026-05-25\nknee-to-wall R 8.2 cm\n",
	" it was +1 cm a week (all on one line, so no\n"
	"      interval; least squares over 4 sessions)\n"},
    {HEAD "session 2026-05-04\nopposition L 7\n"
	  "session 2026-05-11\nopposition L 9\n",
	"    unknown: no figure of error is known for it\n"},
    {HEAD "goal left hand-behind-back T8\nsession 2026-05-04\n"
	  "hand-behind-back L L5\nsession 2026-05-11\n"
	  "hand-behind-back L T9\n",
	"    goal T8: not reached (session of 2026-05-11)\n"},
    {HEAD "goal right elbow extension active lacks 5\n"
	  "session 2026-05-04\nelbow extension R A lacks 9\n"
	  "session 2026-05-11\nelbow extension R A 0-2\n",
	"    goal lacks 5: reached, 7 beyond it (session of 2026-05-11)\n"},
    {"session 2026-05-04\nhip flexion R A 0-80\n"
     "session 2026-05-11\nhip flexion R A 0-90\n",
	"subject not known, 2 sessions from 2026-05-04 to 2026-05-11\n"
	"  no subject named in invented.range\n"},
    {"subject PG-01\nsession 4.5.2026\nhip flexion R A 0-80\n"
     "session 2026-05-11\nhip flexion R A 0-90\n",
	"1 session left out: without its date it has no place in the "
	"order.\n"},
    {"subject PG-01\nsession 2026-05-04\nhip flexion R A 0-80\n"
     "session 2026-05-11\nhip flexion R A 0-86\n",
	"    [1] Boone1978: change must exceed; taken for two raters, as one "
	"is not\n      known; instrument not named, the usual one taken\n"},
};

START_TEST(text_holds_the_line)
{
	const char *text;

	follow_note(lines[_i].note);
	text = printed(PROGRESS_TEXT, false);
	ck_assert_msg(strstr(text, lines[_i].line), "no \"%s\" in:\n%s",
	    lines[_i].line, text);
}
END_TEST

/* No line is wider than a screen of 80 columns; all is ASCII but for blocks. */
START_TEST(text_fits_the_screen)
{
	const char *line;

	follow_note(knee);
	line = printed(PROGRESS_TEXT, false);
	for (const char *end; (end = strchr(line, '\n')); line = end + 1) {
		ck_assert_msg(end - line <= 80, "too wide: %.*s",
		    (int)(end - line), line);
		for (const char *c = line; c < end; c++)
			ck_assert_int_gt(*c, 31);
		ck_assert(end == line || end[-1] != ' ');
	}
	ck_assert_str_eq(line, "");
}
END_TEST

START_TEST(no_verdict_and_no_forecast)
{
	static const char *const never[] = {"improved", "normal", "worse",
	    "expected", "forecast", "predict", "will ", "should", "percent",
	    "disab", "impair", "average", "mean "};
	static const enum progress_format formats[] = {
	    PROGRESS_TEXT, PROGRESS_CSV, PROGRESS_JSON};

	follow_note(knee);
	for (int f = 0; f < 3; f++) {
		const char *text = printed(formats[f], true);

		for (size_t i = 0; i < sizeof(never) / sizeof(*never); i++)
			ck_assert_msg(!strstr(text, never[i]), "%s in:\n%s",
			    never[i], text);
	}
}
END_TEST

/* --- rows ----------------------------------------------------------------- */

START_TEST(a_row_as_a_whole)
{
	const char *rows, *row;

	follow_note(knee);
	rows = printed(PROGRESS_CSV, false);
	ck_assert(strncmp(rows,
		      "subject,joint,motion,setting,position,side,mode,"
		      "repetitions,involved,less_is_better,session,time,label,"
		      "weeks_since_surgery,rater,instrument,kind,reading,value,"
		      "unit,doubtful,first_session,first_reading,first_value,"
		      "since_first,first_error_low,first_error_high,"
		      "first_error_source,first_beyond_error,first_changed,"
		      "previous_session,previous_reading,previous_value,"
		      "since_previous,previous_error_low,previous_error_high,"
		      "previous_error_source,previous_beyond_error,"
		      "previous_changed,goal,goal_by,to_go,trend_per_week,"
		      "trend_low,trend_high,trend_sessions,file,line,"
		      "precautions,findings\r\n",
		      strcspn(rows, "\n") + 1) == 0);
	row = strstr(rows, "2026-05-26,,,7,ab");
	ck_assert_ptr_nonnull(row);
	while (row[-1] != '\n')
		row--;
	row = strndup(row, strcspn(row, "\n") + 1);
	ck_assert_str_eq(row,
	    "PG-01,knee,flexion,,supine,right,active,,yes,no,2026-05-26,,,7,"
	    "ab,goniometer,measured,4 to 111,111,deg,no,2026-04-21,9 to "
	    "82,82,29,"
	    "10,14,\"Hancock2018: minimum significant difference; taken for "
	    "one rater, goniometer\",yes,,2026-05-05,6 to 97,97,14,10,14,"
	    "\"Hancock2018: minimum significant difference; taken for two "
	    "raters, goniometer\",unknown,\"rater cd, now ab\",120,2026-07-01,"
	    "9,,,,,invented.range,14,,\r\n");
	free((char *)row);
}
END_TEST

/* As many cells in each row as in the heading, whatever the texts hold. */
START_TEST(rows_are_of_one_width)
{
	size_t cells = 0, first = 0;
	bool quoted = false;

	follow_note("subject PG-01\nrater =ab\nsession 2026-05-04 \"a, b\"\n"
		    "hip flexion R A 0-80 0-81 0-81\nelbow R A fixed 30\n"
		    "hand-behind-back R T4 T5\nhip flexion R NT\n"
		    "session 2026-05-11 \"=1+1\"\nhip flexion R A 0-80\n");
	for (const char *c = printed(PROGRESS_CSV, false); *c; c++) {
		quoted ^= *c == '"';
		cells += !quoted && (*c == ',' || *c == '\n');
		if (quoted || *c != '\n')
			continue;
		first = first ? first : cells;
		ck_assert_uint_eq(cells, first);
		cells = 0;
	}
	ck_assert_uint_eq(first, 50);
	ck_assert_ptr_nonnull(strstr(out.data, ",'=1+1,"));
}
END_TEST

START_TEST(objects_hold_numbers_and_texts)
{
	const char *text;

	follow_note(knee);
	text = printed(PROGRESS_JSON, false);
	ck_assert_ptr_nonnull(
	    strstr(text, "\"reading\":\"26 mm\",\"value\":26,\"unit\":\"mm\","
			 "\"doubtful\":\"no\",\"first_session\":\"2026-04-21\","
			 "\"first_reading\":\"31 mm\",\"first_value\":31,"
			 "\"since_first\":-5,\"first_error_low\":5,"));
	ck_assert_ptr_nonnull(strstr(text, "\"label\":\"week 2\""));
	ck_assert_ptr_null(strstr(text, "\"time\""));
	ck_assert_ptr_null(strstr(text, ":,"));
}
END_TEST

/* Files in any order make the same rows, but for the order of persons. */
START_TEST(order_of_files_does_not_matter)
{
	static const char *const notes[] = {HEAD
	    "session 2026-05-04\nhip flexion R A 0-80\n",
	    HEAD "session 2026-05-11\nhip flexion R A 0-84 by cd\n",
	    HEAD "session 2026-05-18\nhip flexion R A 0-87\n"};
	static const int orders[6][3] = {
	    {0, 1, 2}, {0, 2, 1}, {1, 0, 2}, {1, 2, 0}, {2, 0, 1}, {2, 1, 0}};
	char *expected = NULL;

	for (int i = 0; i < 6; i++) {
		for (int k = 0; k < 3; k++)
			take_note(notes[orders[i][k]]);
		progress_finish(progress);
		printed(PROGRESS_CSV, false);
		if (!expected)
			expected = mem_text(out.data, out.len);
		ck_assert_str_eq(out.data, expected);
		progress_free(progress);
		progress = NULL;
	}
	free(expected);
}
END_TEST

TCase *
progress_write_case(void)
{
	TCase *tcase = tcase_create("write");

	tcase_add_checked_fixture(tcase, NULL, tear_down_progress);
	tcase_add_test(tcase, text_as_a_whole);
	tcase_add_loop_test(tcase, text_holds_the_line, 0,
	    (int)(sizeof(lines) / sizeof(*lines)));
	tcase_add_test(tcase, text_fits_the_screen);
	tcase_add_test(tcase, no_verdict_and_no_forecast);
	tcase_add_test(tcase, a_row_as_a_whole);
	tcase_add_test(tcase, rows_are_of_one_width);
	tcase_add_test(tcase, objects_hold_numbers_and_texts);
	tcase_add_test(tcase, order_of_files_does_not_matter);
	return tcase;
}
