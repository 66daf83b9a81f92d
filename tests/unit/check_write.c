/*
 * The CSV of readings and the text table. The other files of the writers are
 * part of this suite.
 */
#include "write/csv.h"
#include "write/table.h"
#include "write_note.h"

static const char header[] =
    "session,time,label,subject,age,sex,joint,motion,setting,position,side,"
    "mode,kind,start,end,arc,unit,trials,spread,pain,pain_onset,painful_arc,"
    "end_feel,stopped_by,repetitions,involved,rater,instrument,remark,"
    "findings,file,line\r\n";

static void
check_rows(struct note *n, bool by_trial, const char *expected)
{
	csv_session(&n->out, &n->s, &n->sink, by_trial);
	check_text(&n->out, expected);
	note_free(n);
}

START_TEST(csv_has_the_columns_in_order)
{
	struct buffer out = {0};

	csv_header(&out, false);
	check_text(&out, header);
	out.len = 0;
	csv_header(&out, true);
	check_holds(&out, ",trials,trial,spread,");
	buffer_free(&out);
}
END_TEST

START_TEST(csv_writes_a_full_row)
{
	struct note *n = note_new();
	struct reading *r;

	n->s.time = 9 * 60 + 5;
	n->s.label = text_at(n, "week 8");
	n->person.headers.age = (struct fact){.said = SAID, .value = 38};
	n->person.headers.sex =
	    (struct fact){.said = SAID, .value = VOCAB_SEX_F};
	involve(n, VOCAB_JOINT_ELBOW, true, false);
	r = add(n, VOCAB_MEASUREMENT_ELBOW_FLEXION, R, P, "8-131");
	r->setting = word(n, "forearm-supinated");
	r->posture = word(n, "supine");
	r->pain = 35;
	r->pain_onset = 1000;
	r->arc_low = 600;
	r->arc_high = 1105;
	r->end_feel = VOCAB_END_FEEL_FIRM;
	r->stopped_by = VOCAB_CAUSE_PAIN;
	r->reps = 3;
	r->rater = word(n, "dk");
	r->instrument = VOCAB_INSTRUMENT_GONIOMETER;
	add_text(n, r, "sharp", false);
	check_rows(n, false,
	    "2026-05-04,09:05,week 8,WR-0192,38,F,elbow,flexion,"
	    "forearm-supinated,supine,right,passive,measured,8,131,123,deg,1,,"
	    "3.5,100,60-110.5,firm,pain,3,yes,dk,goniometer,sharp,,"
	    "clinic.range,12\r\n");
}
END_TEST

START_TEST(csv_leaves_empty_what_nobody_said)
{
	struct note *n = note_new();

	n->s.said = SAID_NOTHING;
	n->person.said = SAID_NOTHING;
	n->s.line = 0;
	n->s.file = NULL;
	add(n, VOCAB_MEASUREMENT_CERVICAL_FLEXION, NONE, A, "45");
	check_rows(n, false,
	    ",,,,,,cervical,flexion,,,,active,end-only,0,45,45,deg,1,,,,,,,,,"
	    ",,,,,12\r\n");
}
END_TEST

/* The cells from kind to spread, of every form of a value. */
static const struct {
	int measurement;
	int unit;
	const char *value;
	const char *cells;
} forms[] = {
    {VOCAB_MEASUREMENT_KNEE_FLEXION, 0, "8-131", "measured,8,131,123,deg,1,,"},
    {VOCAB_MEASUREMENT_KNEE_FLEXION, 0, "131", "end-only,0,131,131,deg,1,,"},
    {VOCAB_MEASUREMENT_KNEE_EXTENSION, 0, "lacks 8", "lacks,,-8,,deg,1,,"},
    {VOCAB_MEASUREMENT_KNEE_EXTENSION, 0, "lacks 0", "lacks,,0,,deg,1,,"},
    {VOCAB_MEASUREMENT_KNEE_EXTENSION, 0, "0-0", "measured,0,0,0,deg,1,,"},
    {VOCAB_MEASUREMENT_KNEE_FLEXION, 0, "fixed 30", "fixed,30,30,0,deg,1,,"},
    {VOCAB_MEASUREMENT_KNEE_FLEXION, NONE, "NT", "not-tested,,,,,0,,"},
    {VOCAB_MEASUREMENT_KNEE_FLEXION, NONE, "WNL", "WNL,,,,,0,,"},
    {VOCAB_MEASUREMENT_KNEE_FLEXION, NONE, "WFL", "WFL,,,,,0,,"},
    {VOCAB_MEASUREMENT_INDEX_TIP_TO_CREASE, VOCAB_UNIT_MM, "38",
	"measured,,38,,mm,1,,"},
    {VOCAB_MEASUREMENT_LUMBAR_SCHOBER, VOCAB_UNIT_CM, "15-21.5",
	"measured,15,21.5,6.5,cm,1,,"},
    {VOCAB_MEASUREMENT_THUMB_OPPOSITION, NONE, "score 6", "score,,6,,,1,,"},
    {VOCAB_MEASUREMENT_SHOULDER_HAND_BEHIND_BACK, NONE, "level 13",
	"level,,T7,,,1,,"},
    {VOCAB_MEASUREMENT_LUMBAR_FLEXION, 0, "85 less 38",
	"measured,,47,,deg,1,,"},
    /* 52, 53, 53: the mean is 52.666... */
    {VOCAB_MEASUREMENT_KNEE_FLEXION, 0, "0-52 1-53 1-53",
	"measured,0.67,52.67,52,deg,3,1,"},
    {VOCAB_MEASUREMENT_KNEE_FLEXION, 0, "0-52.5 0-50",
	"measured,0,51.25,51.25,deg,2,2.5,"},
};

START_TEST(csv_writes_each_form_of_value)
{
	struct note *n = note_new();

	add_in(n, forms[_i].measurement, NONE, NONE, forms[_i].unit,
	    forms[_i].value);
	csv_session(&n->out, &n->s, &n->sink, false);
	check_holds(&n->out, forms[_i].cells);
	note_free(n);
}
END_TEST

START_TEST(csv_rounds_half_away_from_zero)
{
	struct note *n = note_new();
	struct reading *r =
	    add(n, VOCAB_MEASUREMENT_KNEE_EXTENSION, R, A, "lacks 5");

	for (int i = 0; i < 7; i++)
		add_trial(n, r, i < 6 ? "5" : "4.9");
	/* -39.9 / 8 = -4.9875; of 8 trials -5 ... -4.9 */
	csv_session(&n->out, &n->s, &n->sink, false);
	check_holds(&n->out, ",lacks,,-4.99,,deg,8,0.1,");
	note_free(n);
}
END_TEST

START_TEST(csv_puts_pairs_first_in_the_remark)
{
	struct note *n = note_new();
	struct reading *r = add(n, VOCAB_MEASUREMENT_LUMBAR_FLEXION, NONE, A,
	    "85 less 38 80.5 less 38");

	add_text(n, r, "slow", false);
	add_text(n, r, "knees bent", true);
	csv_session(&n->out, &n->s, &n->sink, false);
	check_holds(&n->out,
	    ",85 less 38; 80.5 less 38; slow; knees bent,,clinic.range,");
	n->out.len = 0;
	csv_session(&n->out, &n->s, &n->sink, true);
	check_holds(&n->out, ",47,,deg,2,1,4.5,");
	check_holds(&n->out, ",85 less 38; slow; knees bent,");
	check_holds(&n->out, ",42.5,,deg,2,2,4.5,");
	check_holds(&n->out, ",80.5 less 38; slow; knees bent,");
	note_free(n);
}
END_TEST

START_TEST(csv_gives_each_trial_a_row)
{
	struct note *n = note_new();

	add(n, VOCAB_MEASUREMENT_KNEE_FLEXION, R, A, "0-52 2-54");
	add(n, VOCAB_MEASUREMENT_KNEE_FLEXION, L, NONE, "NT");
	check_rows(n, true,
	    "2026-05-04,,,WR-0192,,,knee,flexion,,,right,active,measured,0,52,"
	    "52,deg,2,1,2,,,,,,,,,,,,clinic.range,12\r\n"
	    "2026-05-04,,,WR-0192,,,knee,flexion,,,right,active,measured,2,54,"
	    "52,deg,2,2,2,,,,,,,,,,,,clinic.range,12\r\n"
	    "2026-05-04,,,WR-0192,,,knee,flexion,,,left,,not-tested,,,,,0,,,,,,"
	    ","
	    ",,,,,,,clinic.range,13\r\n");
}
END_TEST

START_TEST(csv_names_the_findings_of_a_reading)
{
	struct note *n = note_new();

	add(n, VOCAB_MEASUREMENT_KNEE_FLEXION, R, A, "0-52");
	add(n, VOCAB_MEASUREMENT_KNEE_FLEXION, L, A, "0-130");
	find(n, RULE_UNUSUAL_ANGLE, "x", 0, 1, 1);
	find(n, RULE_OFF_SCALE, "x", 0, 1, 1)->accepted = true;
	find(n, RULE_MISSING_END_FEEL, "x", 0, 1, 1)->level = LEVEL_NOTE;
	find(n, RULE_OFF_SCALE, "x", 0, 1, 1);
	find(n, RULE_TRIALS_DISAGREE, "x", 0, 1, 1)->level = LEVEL_OFF;
	find(n, RULE_FUTURE_DATE, "x", 0, 1, NO_READING);
	csv_session(&n->out, &n->s, &n->sink, false);
	check_holds(&n->out, ",,,,,,,clinic.range,12\r\n");
	check_holds(&n->out,
	    ",,missing-end-feel off-scale unusual-angle,clinic.range,13\r\n");
	note_free(n);
}
END_TEST

START_TEST(csv_says_whether_a_side_is_involved)
{
	struct note *n = note_new();

	involve(n, VOCAB_JOINT_KNEE, true, false);
	add(n, VOCAB_MEASUREMENT_KNEE_FLEXION, R, A, "0-52");
	add(n, VOCAB_MEASUREMENT_KNEE_FLEXION, L, A, "0-130");
	csv_session(&n->out, &n->s, &n->sink, false);
	check_holds(&n->out, ",52,52,deg,1,,,,,,,,yes,");
	check_holds(&n->out, ",130,130,deg,1,,,,,,,,no,");
	note_free(n);
}
END_TEST

static const struct {
	const char *text;
	const char *cell;
} cells[] = {
    {"", ""},
    {"plain", "plain"},
    {"a,b", "\"a,b\""},
    {"say \"ah\"", "\"say \"\"ah\"\"\""},
    {"\"\"", "\"\"\"\"\"\""},
    {"two\nlines", "\"two\nlines\""},
    {"a\rb", "\"a\rb\""},
    {"=1+1", "'=1+1"},
    {"+49", "'+49"},
    {"-5", "'-5"},
    {"@x", "'@x"},
    {"\tx", "'\tx"},
    {"\nx", "\"'\nx\""},
    {"=a,\"b\"", "\"'=a,\"\"b\"\"\""},
    {"\xef\xbc\x9d"
     "1",
	"'\xef\xbc\x9d"
	"1"},
    {"\xef\xbc\x8b"
     "1",
	"'\xef\xbc\x8b"
	"1"},
    {"\xef\xbc\x8d"
     "1",
	"'\xef\xbc\x8d"
	"1"},
    {"\xef\xbc\xa0"
     "1",
	"'\xef\xbc\xa0"
	"1"},
    {"\xef\xbc\xa1"
     "1",
	"\xef\xbc\xa1"
	"1"},
    {"a=1", "a=1"},
    {"a; b;", "a; b;"},
    {"a;=1", "\"a;=1\""},
    {"a;\xef\xbc\x8b"
     "1",
	"\"a;\xef\xbc\x8b"
	"1\""},
    {"a\t-1", "\"a\t-1\""},
    {" =1", " =1"},
    {"\xef\xbc", "\xef\xbc"},
};

START_TEST(csv_guards_and_quotes_a_text)
{
	struct buffer out = {0};

	csv_text(&out, cells[_i].text, strlen(cells[_i].text));
	check_text(&out, cells[_i].cell);
	buffer_free(&out);
}
END_TEST

/* No cell that a spreadsheet takes for a day. */
START_TEST(csv_writes_a_range_in_words)
{
	static const char *const values[][2] = {{"5-12", "5 to 12"},
	    {"0-90.5 (2)", "0 to 90.5 (2)"}, {"15-21.5 cm", "15 to 21.5 cm"},
	    {"lacks 5", "lacks 5"}, {"-5", "'-5"}, {"T7 T8", "T7 T8"},
	    {"", ""}};

	for (size_t i = 0; i < sizeof(values) / sizeof(*values); i++) {
		struct buffer out = {0};

		csv_value(&out, values[i][0], strlen(values[i][0]));
		check_text(&out, values[i][1]);
		buffer_free(&out);
	}
}
END_TEST

START_TEST(csv_guards_label_remark_and_file)
{
	struct note *n = note_new();
	struct reading *r;

	n->s.file = "=x\xff.range";
	n->s.label = text_at(n, "@home, \"first\"");
	r = add(n, VOCAB_MEASUREMENT_KNEE_FLEXION, R, A, "0-52");
	add_text(n, r, "+ a \"b\"", false);
	add_text(n, r, "c", false);
	csv_session(&n->out, &n->s, &n->sink, false);
	check_holds(&n->out, ",\"'@home, \"\"first\"\"\",WR-0192,");
	check_holds(&n->out, ",\"'+ a \"\"b\"\"; c\",");
	check_holds(&n->out, ",'=x\xef\xbf\xbd.range,12\r\n");
	note_free(n);
}
END_TEST

/* Room for a row is reckoned beforehand: the sanitizer watches it. */
START_TEST(csv_has_room_for_the_longest_row)
{
	struct note *n = note_new();
	struct reading *r;
	char quotes[4001];

	memset(quotes, '"', sizeof(quotes) - 1);
	quotes[sizeof(quotes) - 1] = '\0';
	n->s.label = text_at(n, quotes);
	r = add(n, VOCAB_MEASUREMENT_LUMBAR_FLEXION, NONE, A, "199.9 less 0.1");
	for (int i = 0; i < 300; i++)
		add_trial(n, r, "199.9 less 0.1");
	add_text(n, r, quotes, false);
	r->setting = word(n, quotes);
	for (int rule = 0; rule < RULE_COUNT; rule++)
		find(n, (enum rule)rule, "x", 0, 1, 0);
	csv_session(&n->out, &n->s, &n->sink, false);
	check_holds(&n->out, "; 199.9 less 0.1; \"\"\"\"");
	check_holds(&n->out, " unusual-angle,clinic.range,12\r\n");
	note_free(n);
}
END_TEST

START_TEST(table_lines_up_by_screen_cells)
{
	struct table t = {0};
	struct buffer out = {0};

	table_reset(&t, 4, 1);
	for (int i = 0; i < 4; i++)
		table_puts(&t, (const char *const[]){"a", "b", "c", "d"}[i]);
	table_row(&t);
	table_puts(&t, "\xe8\x86\x9d"); /* two cells */
	table_puts(&t, "");
	table_puts(&t, "");
	table_puts(&t, "x");
	table_row(&t);
	buffer_puts(&t.text, "a line across all of the table");
	table_across(&t);
	table_puts(&t, "1");
	table_puts(&t, "");
	table_puts(&t, "333");
	table_row(&t);
	table_write(&out, &t, 1);
	check_text(&out, " a   c    d\n"
			 " \xe8\x86\x9d       x\n"
			 " a line across all of the table\n"
			 " 1   333\n");
	buffer_free(&out);
	table_free(&t);
}
END_TEST

TCase *
write_csv_case(void)
{
	TCase *tc = tcase_create("csv");

	tcase_add_test(tc, csv_has_the_columns_in_order);
	tcase_add_test(tc, csv_writes_a_full_row);
	tcase_add_test(tc, csv_leaves_empty_what_nobody_said);
	tcase_add_loop_test(tc, csv_writes_each_form_of_value, 0, COUNT(forms));
	tcase_add_test(tc, csv_rounds_half_away_from_zero);
	tcase_add_test(tc, csv_puts_pairs_first_in_the_remark);
	tcase_add_test(tc, csv_gives_each_trial_a_row);
	tcase_add_test(tc, csv_names_the_findings_of_a_reading);
	tcase_add_test(tc, csv_says_whether_a_side_is_involved);
	tcase_add_loop_test(tc, csv_guards_and_quotes_a_text, 0, COUNT(cells));
	tcase_add_test(tc, csv_writes_a_range_in_words);
	tcase_add_test(tc, csv_guards_label_remark_and_file);
	tcase_add_test(tc, csv_has_room_for_the_longest_row);
	tcase_add_test(tc, table_lines_up_by_screen_cells);
	return tc;
}

Suite *write_suite(void);

Suite *
write_suite(void)
{
	Suite *suite = suite_create("write");

	suite_add_tcase(suite, write_csv_case());
	suite_add_tcase(suite, write_findings_case());
	suite_add_tcase(suite, write_compare_case());
	suite_add_tcase(suite, write_summary_case());
	return suite;
}
