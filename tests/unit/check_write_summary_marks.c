/*
 * What the table of the text summary says below itself, its empty rows, goals
 * whose figure may be meant in two ways, and the names of sources. All people
 * and readings are invented.
 */
#include "write/summary.h"
#include "write_note.h"

Suite *write_summary_marks_suite(void);

static void
summarize_from(struct note *n, const char *source)
{
	struct summary_options options = {.source = source};
	struct summary *sum = summary_new(&options);

	n->out.len = 0;
	summary_session(sum, &n->out, &n->s, &n->sink);
	summary_end(sum, &n->out);
	summary_free(sum);
}

static void
summarize(struct note *n)
{
	summarize_from(n, "none");
}

START_TEST(the_number_of_trials_is_that_of_the_cells)
{
	struct note *n = note_new();

	add(n, VOCAB_MEASUREMENT_KNEE_FLEXION, R, A, "0-100 0-102");
	add(n, VOCAB_MEASUREMENT_KNEE_FLEXION, L, A, "0-110 0-112");
	summarize(n);
	check_holds(&n->out, "0-101 (2)  0-111 (2)");
	check_holds(&n->out, "\n  (2): the mean of 2 trials\n");
	add(n, VOCAB_MEASUREMENT_HIP_FLEXION, R, A, "0-90 0-91 0-92");
	summarize(n);
	check_holds(&n->out, "0-91 (3)");
	check_holds(&n->out, "\n  (2): the mean of 2 trials, and so on\n");
	n->s.readings.len = 0;
	add(n, VOCAB_MEASUREMENT_HIP_FLEXION, R, A, "0-90");
	summarize(n);
	ck_assert(!holds(&n->out, "trials"));
	note_free(n);
}
END_TEST

/* The second row of headings has words for columns that are not shown. */
START_TEST(no_row_of_blanks)
{
	struct note *n = note_new();

	add(n, VOCAB_MEASUREMENT_KNEE_FLEXION, R, A, "0-100");
	summarize(n);
	check_text(&n->out, "WR-0192, session 2026-05-04\n"
			    "  involved: not said\n"
			    "\n"
			    "                     right\n"
			    "  knee\n"
			    "    flexion  active  0-100\n");
	note_free(n);
}
END_TEST

/* 21 cm may be the mark of 15-21, or how far the marks are to part. */
START_TEST(a_goal_of_schober_is_not_guessed)
{
	struct note *n = note_new();

	add_in(n, VOCAB_MEASUREMENT_LUMBAR_SCHOBER, NONE, NONE, VOCAB_UNIT_CM,
	    "15-20.5");
	goal(n, VOCAB_MEASUREMENT_LUMBAR_SCHOBER, NONE, VOCAB_UNIT_CM, 210);
	n->s.headers.goals.at[0].side[VOCAB_SIDE_RIGHT] = false;
	summarize(n);
	check_holds(&n->out, "lumbar schober 21 cm: now 15-20.5 cm\n");
	note_free(n);
}
END_TEST

/* A length alone can only be held against the mark. */
START_TEST(a_goal_of_schober_without_a_start)
{
	struct note *n = note_new();

	add_in(n, VOCAB_MEASUREMENT_LUMBAR_SCHOBER, NONE, NONE, VOCAB_UNIT_CM,
	    "20.5");
	goal(n, VOCAB_MEASUREMENT_LUMBAR_SCHOBER, NONE, VOCAB_UNIT_CM, 210);
	n->s.headers.goals.at[0].side[VOCAB_SIDE_RIGHT] = false;
	summarize(n);
	check_holds(
	    &n->out, "lumbar schober 21 cm: now 20.5 cm, 0.5 cm to go\n");
	note_free(n);
}
END_TEST

/* Author and year, else where it was published, else the key. */
START_TEST(a_source_has_the_name_of_a_paper)
{
	static const struct {
		int measurement, mode;
		const char *source, *text;
	} cases[] = {{VOCAB_MEASUREMENT_KNEE_FLEXION, A, "AAOS_1994_measured",
			 "[1] AAOS 1994: the source gives no age or sex\n"},
	    {VOCAB_MEASUREMENT_JAW_OPENING, P, "Walker2000",
		"[1] Walker 2000: people without"},
	    {VOCAB_MEASUREMENT_JAW_PROTRUSION, A, "Hindawi751768_T8",
		"[1] ISRN 2012/751768: adults\n"},
	    {VOCAB_MEASUREMENT_HIP_FLEXION, A, "ISOM_SFTR", "[1] ISOM_SFTR: "}};

	for (int i = 0; i < COUNT(cases); i++) {
		bool jaw = vocab_measurements[cases[i].measurement].in ==
			   VOCAB_IN_LENGTH;
		struct note *n = note_new();

		add_in(n, cases[i].measurement, jaw ? NONE : R, cases[i].mode,
		    jaw ? VOCAB_UNIT_MM : VOCAB_UNIT_DEG, jaw ? "40" : "0-80");
		summarize_from(n, cases[i].source);
		check_holds(&n->out, cases[i].text);
		note_free(n);
	}
}
END_TEST

/* A cm of one side is held against the mm of the other, and a goal in cm. */
START_TEST(lengths_are_told_with_the_unit_of_both)
{
	struct summary_options rows = {
	    .source = "none", .format = SUMMARY_JSON};
	struct note *n = note_new();
	int m = VOCAB_MEASUREMENT_RING_TIP_TO_CREASE;
	struct summary *sum;

	add_in(n, m, R, A, VOCAB_UNIT_MM, "23");
	add_in(n, m, R, P, VOCAB_UNIT_CM, "1.5");
	add_in(n, m, L, A, VOCAB_UNIT_CM, "0.5");
	add_in(n, m, L, P, VOCAB_UNIT_CM, "0.3");
	goal(n, m, NONE, VOCAB_UNIT_CM, 15);
	goal(n, m, A, VOCAB_UNIT_MM, 235);
	summarize(n);
	check_holds(&n->out, "active   23 mm   0.5 cm   +18 mm\n");
	check_holds(&n->out, "passive  1.5 cm  0.3 cm   +1.2 cm\n");
	check_holds(&n->out, "P-A      -8 mm   -0.2 cm\n");
	check_holds(&n->out,
	    "    right ring tip-to-crease 1.5 cm: now active 23 mm, 0.8 cm to "
	    "go (less is\n      better); now passive 1.5 cm, reached (less is "
	    "better)\n"
	    "    right ring tip-to-crease active 23.5 mm: now 23 mm, reached, "
	    "0.5 mm beyond\n      it (less is better)\n");
	sum = summary_new(&rows);
	n->out.len = 0;
	summary_session(sum, &n->out, &n->s, &n->sink);
	summary_free(sum);
	check_holds(&n->out, "\"difference\":18,");
	check_holds(&n->out, "\"difference_unit\":\"mm\"}");
	check_holds(&n->out, "\"right_passive_less_active\":-8,"
			     "\"left_passive_less_active\":-2,");
	check_holds(&n->out, "\"difference_unit\":\"cm\","
			     "\"passive_less_active_unit\":\"mm\"}");
	check_holds(&n->out, "\"mode\":\"passive\",\"right\":\"1.5 cm\","
			     "\"right_end\":1.5,\"right_unit\":\"cm\","
			     "\"right_trials\":1,\"right_doubtful\":\"no\","
			     "\"right_line\":13,\"less_is_better\":\"yes\","
			     "\"goal_side\":\"right\",\"goal\":\"1.5\","
			     "\"goal_unit\":\"cm\",\"to_go\":0,");
	note_free(n);
}
END_TEST

/* The comment TEXT accepts RULE on line TARGET. */
static void
accept(struct note *n, enum rule rule, uint32_t target, const char *text)
{
	struct text_ref ref = text_at(n, text);
	const char *name = strstr(text, rule_table[rule].name);

	*MEM_PUSH(&n->s.acceptances) = (struct acceptance){.target = target,
	    .rule = (int)rule,
	    .has_reason = strchr(text, ':') != NULL,
	    .line_at = ref.at,
	    .beg = (uint16_t)(name - text),
	    .end =
		(uint16_t)(name - text + (long)strlen(rule_table[rule].name))};
}

static void
pass_limit(struct note *n, uint32_t line)
{
	struct finding *f =
	    find(n, RULE_PRECAUTION_EXCEEDED, "x", 0, 1, NO_READING);

	f->line = line;
	f->accepted = true;
}

/* Told with the reason of its own line, and none is made up. */
START_TEST(a_limit_that_was_passed_is_told_with_its_reason)
{
	struct summary_options rows = {
	    .source = "none", .format = SUMMARY_JSON};
	struct note *n = note_new();
	struct summary *sum;

	pass_limit(n, 12);
	pass_limit(n, 13);
	pass_limit(n, 15);
	find(n, RULE_OFF_SCALE, "x", 0, 1, NO_READING)->accepted = true;
	accept(n, RULE_OFF_SCALE, 12, "# accept off-scale: old tool");
	accept(n, RULE_PRECAUTION_EXCEEDED, 12,
	    "x # accept precaution-exceeded, off-scale :\tsurgeon: \"go on\" ");
	accept(n, RULE_PRECAUTION_EXCEEDED, 13, "# accept precaution-exceeded");
	accept(n, RULE_PRECAUTION_EXCEEDED, 15, "# accept precaution-exceeded");
	accept(n, RULE_PRECAUTION_EXCEEDED, 15,
	    "# accept precaution-exceeded: told\x1b[1m");
	accept(n, RULE_PRECAUTION_EXCEEDED, 0,
	    "# accept precaution-exceeded: no line below");
	summarize(n);
	check_holds(&n->out,
	    "\n  beyond a precaution, accepted in the note\n"
	    "    line 12: error: a message [precaution-exceeded]; accepted: "
	    "\"surgeon: \"go\n      on\"\"\n"
	    "    line 13: error: a message [precaution-exceeded]; accepted "
	    "without a reason\n"
	    "    line 15: error: a message [precaution-exceeded]; accepted: "
	    "\"told\xef\xbf\xbd[1m\"\n");
	ck_assert(!holds(&n->out, "old tool"));
	ck_assert(!holds(&n->out, "no line below"));
	sum = summary_new(&rows);
	n->out.len = 0;
	summary_session(sum, &n->out, &n->s, &n->sink);
	summary_free(sum);
	check_holds(&n->out,
	    "{\"row\":\"accepted-finding\",\"session\":\"2026-05-04\","
	    "\"subject\":\"WR-0192\",\"level\":\"error\","
	    "\"rule\":\"precaution-exceeded\",\"text\":\"a message\","
	    "\"file\":\"clinic.range\",\"line\":12,"
	    "\"reason\":\"surgeon: \\\"go on\\\"\"}\n");
	check_holds(&n->out, "\"line\":13}\n");
	ck_assert(!holds(&n->out, "off-scale\""));
	free(n->s.acceptances.at);
	note_free(n);
}
END_TEST

static int
times_in(const struct buffer *out, const char *part)
{
	size_t len = strlen(part);
	int n = 0;

	for (size_t i = 0; i + len <= out->len; i++)
		n += memcmp(out->data + i, part, len) == 0;
	return n;
}

/* One value of a hinge is two readings, which check reports once. */
START_TEST(a_finding_of_both_halves_is_one)
{
	static const char line[] = "elbow R A 8-131 A 9-131 P 9-140";
	struct summary_options rows = {
	    .source = "none", .format = SUMMARY_JSON};
	struct note *n = note_new();
	struct summary *sum;

	find(n, RULE_REPEATED_READING, line, 6, 13, 0);
	find(n, RULE_REPEATED_READING, line, 6, 13, 1);
	find(n, RULE_REPEATED_READING, line, 14, 21, 2);
	find(n, RULE_PRECAUTION_EXCEEDED, line, 22, 29, 0)->accepted = true;
	find(n, RULE_PRECAUTION_EXCEEDED, line, 22, 29, 1)->accepted = true;
	summarize(n);
	ck_assert_int_eq(times_in(&n->out, "[repeated-reading]"), 2);
	ck_assert_int_eq(times_in(&n->out, "[precaution-exceeded]"), 1);
	sum = summary_new(&rows);
	n->out.len = 0;
	summary_session(sum, &n->out, &n->s, &n->sink);
	summary_free(sum);
	ck_assert_int_eq(times_in(&n->out, "\"row\":\"finding\""), 2);
	ck_assert_int_eq(times_in(&n->out, "\"row\":\"accepted-finding\""), 1);
	note_free(n);
}
END_TEST

Suite *
write_summary_marks_suite(void)
{
	Suite *suite = suite_create("write summary marks");
	TCase *marks = tcase_create("marks");

	tcase_add_test(marks, the_number_of_trials_is_that_of_the_cells);
	tcase_add_test(marks, no_row_of_blanks);
	tcase_add_test(marks, a_goal_of_schober_is_not_guessed);
	tcase_add_test(marks, a_goal_of_schober_without_a_start);
	tcase_add_test(marks, a_source_has_the_name_of_a_paper);
	tcase_add_test(marks, a_limit_that_was_passed_is_told_with_its_reason);
	tcase_add_test(marks, lengths_are_told_with_the_unit_of_both);
	tcase_add_test(marks, a_finding_of_both_halves_is_one);
	suite_add_tcase(suite, marks);
	return suite;
}
