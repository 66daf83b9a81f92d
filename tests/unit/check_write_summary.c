/*
 * The summary in its three formats.
 */
#include "write/summary.h"
#include "write_note.h"

/* A source that has no usual values, so that those tests stand alone. */
static const struct summary_options no_usual = {.source = "none"};

static void
summarize(struct note *n, const struct summary_options *options)
{
	struct summary *sum = summary_new(options);

	n->out.len = 0;
	summary_begin(sum, &n->out);
	summary_session(sum, &n->out, &n->s, &n->sink);
	summary_end(sum, &n->out);
	summary_free(sum);
}

START_TEST(summary_lays_the_sides_side_by_side)
{
	struct note *n = note_new();
	struct reading *r;

	involve(n, VOCAB_JOINT_FOREARM, true, false);
	n->person.headers.age = (struct fact){.said = SAID, .value = 38};
	n->person.headers.sex =
	    (struct fact){.said = SAID, .value = VOCAB_SEX_F};
	n->person.headers.surgery =
	    (struct fact){.said = SAID, .value = day("2026-03-28")};
	n->person.headers.surgery_text = "head fixation";
	n->s.label = text_at(n, "week 5");
	n->s.time = 570;
	r = add(n, VOCAB_MEASUREMENT_FOREARM_PRONATION, R, A, "0-52 0-54 0-53");
	r->pain = 30;
	r->pain_onset = 500;
	add(n, VOCAB_MEASUREMENT_FOREARM_PRONATION, R, P, "0-61")->end_feel =
	    VOCAB_END_FEEL_FIRM;
	add(n, VOCAB_MEASUREMENT_FOREARM_PRONATION, L, A, "0-78");
	add(n, VOCAB_MEASUREMENT_FOREARM_PRONATION, L, P, "0-84");
	add(n, VOCAB_MEASUREMENT_FOREARM_SUPINATION, R,
	    VOCAB_MODE_PLACE_AND_HOLD, "0-30");
	for (size_t i = 0; i < n->s.readings.len; i++) {
		n->s.readings.at[i].rater = word(n, "dk");
		n->s.readings.at[i].instrument = VOCAB_INSTRUMENT_GONIOMETER;
		n->s.readings.at[i].step = 10;
	}
	summarize(n, &no_usual);
	check_text(&n->out,
	    "WR-0192, session 2026-05-04 09:30 \"week 5\"\n"
	    "  age 38; sex F; involved: right forearm\n"
	    "  surgery 2026-03-28 \"head fixation\", 5 weeks 2 days before\n"
	    "  rater dk; goniometer step 1\n"
	    "\n"
	    "                                right     left  R-L  end feel  "
	    "pain\n"
	    "                                                     R/L       "
	    "R/L\n"
	    "  forearm\n"
	    "    pronation   active          0-53 (3)  0-78  -25            "
	    "3 at 50/-\n"
	    "                passive         0-61      0-84  -23  firm/-\n"
	    "                P-A             +8        +6\n"
	    "    supination  place-and-hold  0-30\n"
	    "  R-L: the involved side less the other\n"
	    "  P-A: passive less active\n"
	    "  (3): the mean of 3 trials\n");
	note_free(n);
}
END_TEST

START_TEST(summary_shows_values_as_measured)
{
	struct note *n = note_new();

	add(n, VOCAB_MEASUREMENT_ELBOW_EXTENSION, R, A, "lacks 8");
	add(n, VOCAB_MEASUREMENT_ELBOW_EXTENSION, L, A, "lacks 0");
	add(n, VOCAB_MEASUREMENT_ELBOW_FLEXION, R, NONE, "fixed 30");
	add(n, VOCAB_MEASUREMENT_ELBOW_FLEXION, L, A, "131");
	add(n, VOCAB_MEASUREMENT_KNEE_FLEXION, R, A, "WNL");
	add(n, VOCAB_MEASUREMENT_KNEE_FLEXION, L, A, "WFL");
	add_in(n, VOCAB_MEASUREMENT_INDEX_TIP_TO_CREASE, R, A, VOCAB_UNIT_CM,
	    "3.5");
	add_in(
	    n, VOCAB_MEASUREMENT_INDEX_TIP_TO_CREASE, L, A, VOCAB_UNIT_CM, "1");
	add(n, VOCAB_MEASUREMENT_INDEX_PIP_FLEXION, R, A, "14-86");
	add(n, VOCAB_MEASUREMENT_SHOULDER_HAND_BEHIND_BACK, R, NONE,
	    "level 13");
	add(n, VOCAB_MEASUREMENT_SHOULDER_HAND_BEHIND_BACK, L, NONE,
	    "level 10");
	add(n, VOCAB_MEASUREMENT_CERVICAL_FLEXION, NONE, A, "85 less 38");
	summarize(n, &no_usual);
	check_holds(
	    &n->out, "extension         active  lacks 8   0            -8\n");
	check_holds(
	    &n->out, "flexion           active  fixed 30  131          -101\n");
	check_holds(&n->out, "flexion           active  WNL       WFL\n");
	check_holds(&n->out,
	    "  index\n"
	    "    tip-to-crease     active  3.5 cm    1 cm         +2.5 cm\n"
	    "      less is better\n"
	    "    PIP flexion       active  14-86\n");
	check_holds(&n->out, "hand-behind-back          T7        T4\n");
	check_holds(&n->out, "flexion           active                  47\n"
			     "      active: 85 less 38\n");
	check_holds(&n->out,
	    "R-L: right less left, as both sides or neither are involved\n");
	note_free(n);
}
END_TEST

START_TEST(summary_marks_what_is_doubtful)
{
	struct note *n = note_new();

	add(n, VOCAB_MEASUREMENT_KNEE_FLEXION, R, A, "0-190")->left_out = true;
	add(n, VOCAB_MEASUREMENT_KNEE_FLEXION, L, A, "0-140");
	summarize(n, &no_usual);
	check_holds(&n->out, "flexion  active  0-190!  0-140\n");
	check_holds(&n->out, "  !: doubtful, see the findings; not used in "
			     "differences\n");
	note_free(n);
}
END_TEST

START_TEST(summary_notes_conditions_that_differ)
{
	struct note *n = note_new();
	struct reading *r;

	r = add(n, VOCAB_MEASUREMENT_HIP_FLEXION, R, A, "0-100");
	r->posture = word(n, "supine");
	r->rater = word(n, "ab");
	r = add(n, VOCAB_MEASUREMENT_HIP_FLEXION, L, A, "0-120");
	r->posture = word(n, "sitting");
	r->rater = word(n, "dk");
	r->instrument = VOCAB_INSTRUMENT_GONIOMETER;
	r = add(n, VOCAB_MEASUREMENT_KNEE_FLEXION, R, A, "0-120");
	r->posture = word(n, "supine");
	r->rater = word(n, "dk");
	r->instrument = VOCAB_INSTRUMENT_VISUAL;
	r->arc_low = 600;
	r->arc_high = 1100;
	r->stopped_by = VOCAB_CAUSE_PAIN;
	r->reps = 10;
	add_text(n, r, "leans back", true);
	summarize(n, &no_usual);
	check_holds(&n->out, "rater ab; rater dk; goniometer; visual\n");
	check_holds(&n->out,
	    "      posture differs: right active supine; left active sitting\n"
	    "      rater differs: right active ab; left active dk\n"
	    "      instrument differs: right active not named; left active "
	    "goniometer\n");
	check_holds(&n->out,
	    "    after 10 reps\n      supine; rater dk; visual\n"
	    "      right active: painful arc 60-110; stopped by pain; "
	    "substitution \"leans\n        back\"\n");
	note_free(n);
}
END_TEST

START_TEST(summary_says_what_was_not_tested)
{
	struct note *n = note_new();

	add_text(n, add(n, VOCAB_MEASUREMENT_KNEE_FLEXION, R, NONE, "NT"),
	    "too sore", false);
	add(n, VOCAB_MEASUREMENT_KNEE_EXTENSION, R, P, "NT");
	*MEM_PUSH(&n->s.headers.opposites) =
	    (struct opposite){.joints = {0, UINT64_C(1) << VOCAB_JOINT_KNEE, 0},
		.reason = "cast"};
	summarize(n, &no_usual);
	check_holds(&n->out,
	    "\n  not tested\n"
	    "    knee flexion right: \"too sore\"\n"
	    "    knee extension right passive: no reason given\n"
	    "    left knee: cannot be measured \"cast\"\n");
	note_free(n);
}
END_TEST

START_TEST(summary_names_precautions_in_force)
{
	struct note *n = note_new();

	precaution(n, -300, DATE_NONE, day("2026-05-04"));
	precaution(n, 100, day("2026-05-05"), DATE_NONE);
	precaution(n, NO_VALUE, day("2026-05-04"), DATE_NONE);
	precaution(n, 200, DATE_NONE, day("2026-05-03"));
	summarize(n, &no_usual);
	check_holds(&n->out,
	    "\n  precautions in force\n"
	    "    both elbow extension passive max lacks 30 until 2026-05-04 "
	    "\"protocol\"\n"
	    "    both elbow no extension passive from 2026-05-04 "
	    "\"protocol\"\n");
	ck_assert(!holds(&n->out, "max 10"));
	ck_assert(!holds(&n->out, "max 20"));
	note_free(n);
}
END_TEST

START_TEST(summary_says_what_is_left_to_a_goal)
{
	struct note *n = note_new();

	add(n, VOCAB_MEASUREMENT_KNEE_FLEXION, R, A, "0-100 0-101");
	add(n, VOCAB_MEASUREMENT_KNEE_EXTENSION, R, A, "lacks 10");
	add(n, VOCAB_MEASUREMENT_HIP_FLEXION, R, P, "0-118");
	add(n, VOCAB_MEASUREMENT_ANKLE_DORSIFLEXION, R, A, "0-5")->setting =
	    word(n, "knee-bent");
	add(n, VOCAB_MEASUREMENT_ANKLE_DORSIFLEXION, R, A, "lacks 5")->setting =
	    word(n, "knee-straight");
	add_in(n, VOCAB_MEASUREMENT_INDEX_TIP_TO_CREASE, R, A, VOCAB_UNIT_MM,
	    "38");
	add(n, VOCAB_MEASUREMENT_SHOULDER_HAND_BEHIND_BACK, R, NONE,
	    "level 13");
	goal(n, VOCAB_MEASUREMENT_KNEE_FLEXION, A, 0, 1200);
	goal(n, VOCAB_MEASUREMENT_KNEE_EXTENSION, A, 0, -50);
	goal(n, VOCAB_MEASUREMENT_HIP_FLEXION, P, 0, 1100);
	goal(n, VOCAB_MEASUREMENT_HIP_FLEXION, A, 0, 1100);
	goal(n, VOCAB_MEASUREMENT_ANKLE_DORSIFLEXION, A, 0, 100);
	goal(n, VOCAB_MEASUREMENT_INDEX_TIP_TO_CREASE, A, VOCAB_UNIT_MM, 100);
	goal(n, VOCAB_MEASUREMENT_SHOULDER_HAND_BEHIND_BACK, NONE, NONE,
	    VOCAB_LEVEL_T4);
	n->s.headers.goals.at[0].by = day("2026-06-30");
	summarize(n, &no_usual);
	check_holds(&n->out,
	    "\n  goals\n"
	    "    right knee flexion active 120 by 2026-06-30: now 0-100.5 "
	    "(2), 19.5 to go\n"
	    "    right knee extension active lacks 5: now lacks 10, 5 to go\n"
	    "    right hip flexion passive 110: now 0-118, reached, 8 beyond "
	    "it\n"
	    "    right hip flexion active 110: not measured in this session\n"
	    "    right ankle dorsiflexion active 10: now 0-5 knee-bent, 5 to "
	    "go; now lacks 5\n      knee-straight, 15 to go\n"
	    "    right index tip-to-crease active 10 mm: now 38 mm, 28 mm to "
	    "go (less is\n      better)\n"
	    "    right shoulder hand-behind-back T4: now T7\n");
	note_free(n);
}
END_TEST

START_TEST(summary_lists_open_findings)
{
	struct note *n = note_new();

	add(n, VOCAB_MEASUREMENT_KNEE_FLEXION, R, A, "0-100");
	find(n, RULE_OFF_SCALE, "x", 0, 1, 0);
	find(n, RULE_UNUSUAL_ANGLE, "x", 0, 1, 0)->accepted = true;
	find(n, RULE_START_NOT_WRITTEN, "x", 0, 1, 0)->level = LEVEL_OFF;
	*MEM_PUSH(&n->person.headers.remarks) =
	    (struct remark){.text = "sleeps badly"};
	summarize(n, &no_usual);
	check_holds(&n->out, "\n  remarks\n    sleeps badly\n"
			     "\n  open findings\n"
			     "    line 12: warning: a message [off-scale]\n");
	ck_assert(!holds(&n->out, "unusual-angle"));
	ck_assert(!holds(&n->out, "start-not-written"));
	note_free(n);
}
END_TEST

START_TEST(summary_names_the_source_of_usual_values)
{
	struct note *n = note_new();
	struct ref_usual_row row = {
	    .measurement = VOCAB_MEASUREMENT_KNEE_FLEXION,
	    .mode = A,
	    .sex = NONE,
	    .age_lo = -1,
	    .age_hi = -1,
	    .low = 1350,
	    .high = 1400,
	    .source_id = -1,
	    .setting = "",
	    .spread = "",
	    .source = "own_table",
	    .population = "invented people",
	    .where_read = "",
	    .verified = "from memory"};
	struct ref_site site = {.at = &row, .len = 1, .cap = 1};
	struct summary_options options = {.site = &site};

	add(n, VOCAB_MEASUREMENT_KNEE_FLEXION, R, A, "0-100");
	add(n, VOCAB_MEASUREMENT_KNEE_FLEXION, R, VOCAB_MODE_ASSISTED, "0-105");
	add(n, VOCAB_MEASUREMENT_KNEE_FLEXION, L, P, "NT");
	summarize(n, &options);
	check_holds(&n->out, "active    0-100        135-140 [1]\n");
	check_holds(&n->out, "assisted  0-105\n");
	check_holds(&n->out, "passive          NT\n");
	check_holds(&n->out, "\n  usual values\n    [1] own_table: invented "
			     "people (from memory)\n");
	check_holds(&n->out, "\nUsual values are other people's.");
	row.at_least = true;
	row.high = row.low;
	row.verified = "yes";
	summarize(n, &options);
	check_holds(&n->out, " >=135 [1]\n");
	check_holds(&n->out, "own_table: invented people\n");
	options.source = "none";
	options.site = NULL;
	summarize(n, &options);
	ck_assert(!holds(&n->out, "sual"));
	note_free(n);
}
END_TEST

START_TEST(summary_names_the_joints_of_a_header)
{
	static const struct {
		uint64_t right, left, middle;
		const char *words;
	} sets[] = {
	    {UINT64_C(1) << VOCAB_JOINT_KNEE, 0, 0, "right knee"},
	    {UINT64_C(1) << VOCAB_JOINT_KNEE, UINT64_C(1) << VOCAB_JOINT_KNEE,
		0, "both knee"},
	    {0, 0, UINT64_C(1) << VOCAB_JOINT_JAW, "jaw"},
	};
	static const char *const answers[] = {
	    "involved: not said\n", "involved: none\n", "involved: unknown\n"};
	const uint64_t ring_and_wrist = UINT64_C(1) << VOCAB_JOINT_RING_MCP |
					UINT64_C(1) << VOCAB_JOINT_RING_PIP |
					UINT64_C(1) << VOCAB_JOINT_RING_DIP |
					UINT64_C(1) << VOCAB_JOINT_WRIST;
	struct note *n = note_new();

	for (size_t i = 0; i < sizeof(sets) / sizeof(*sets); i++) {
		n->person.headers.involved_joints = (struct joint_set){
		    sets[i].right, sets[i].left, sets[i].middle};
		summarize(n, &no_usual);
		check_holds(&n->out, sets[i].words);
	}
	n->person.headers.involved_joints = (struct joint_set){
	    vocab_group_joints[VOCAB_GROUP_HAND], ring_and_wrist, 0};
	summarize(n, &no_usual);
	check_holds(&n->out,
	    "involved: both ring, right thumb, right index, right middle, "
	    "right little,\n    left wrist\n");
	n->person.headers.involved_joints.left = 0;
	summarize(n, &no_usual);
	check_holds(&n->out, "involved: right hand\n");
	n->person.headers.involved_joints.right = 0;
	for (int said = SAID_NOTHING; said <= SAID_UNREADABLE; said++) {
		n->person.headers.involved.said = (enum said)said;
		summarize(n, &no_usual);
		check_holds(&n->out, answers[said]);
	}
	note_free(n);
}
END_TEST

/* The cells of the row that begins at *LINE, which moves behind it. */
static size_t
count_cells(const char **line)
{
	bool quoted = false;
	size_t n = 1;

	for (; **line && (quoted || **line != '\n'); ++*line) {
		quoted ^= **line == '"';
		n += **line == ',' && !quoted;
	}
	*line += **line == '\n';
	return n;
}

START_TEST(summary_rows_have_the_same_figures)
{
	struct note *n = note_new();
	struct summary_options csv = no_usual, json = no_usual;
	const char *at;
	size_t rows = 0;
	char *text;

	csv.format = SUMMARY_CSV;
	json.format = SUMMARY_JSON;
	involve(n, VOCAB_JOINT_KNEE, false, true);
	n->s.label = text_at(n, "a, \"b\"");
	add(n, VOCAB_MEASUREMENT_KNEE_FLEXION, R, A, "0-120");
	add(n, VOCAB_MEASUREMENT_KNEE_FLEXION, L, A, "0-90 0-91");
	add(n, VOCAB_MEASUREMENT_KNEE_FLEXION, L, P, "0-95");
	add_text(n, add(n, VOCAB_MEASUREMENT_HIP_FLEXION, L, NONE, "NT"),
	    "=sore", false);
	goal(n, VOCAB_MEASUREMENT_KNEE_FLEXION, A, 0, 1300);
	precaution(n, 100, DATE_NONE, DATE_NONE);
	find(n, RULE_OFF_SCALE, "x", 0, 1, 0);
	summarize(n, &csv);
	check_holds(&n->out,
	    ",0 to 120,0 to 90.5 (2),,0,0,,120,90.5,,deg,deg,,1,2,,"
	    "no,no,,-29.5,left less right,");
	check_holds(&n->out, ",'=sore,");
	text = mem_text(n->out.data, n->out.len);
	at = text;
	for (size_t columns = count_cells(&at); *at; rows++)
		ck_assert_uint_eq(count_cells(&at), columns);
	ck_assert_uint_eq(rows, 6);
	free(text);
	summarize(n, &json);
	check_holds(&n->out,
	    "\"right\":\"0-120\",\"left\":\"0-90.5 (2)\",\"right_start\":0,"
	    "\"left_start\":0,\"right_end\":120,\"left_end\":90.5,");
	check_holds(&n->out,
	    "\"difference\":-29.5,\"difference_of\":\"left less right\",");
	check_holds(&n->out, "\"left_passive_less_active\":4.5,");
	check_holds(&n->out, "\"goal_side\":\"right\",\"goal\":\"130\","
			     "\"goal_unit\":\"deg\",\"to_go\":10,");
	check_holds(&n->out, "\"label\":\"a, \\\"b\\\"\",");
	note_free(n);
}
END_TEST

/*
 * Never a verdict or a share of a usual value. One source is asked for, as the
 * key of another happens to hold the word.
 */
START_TEST(summary_says_no_forbidden_word)
{
	static const char *const forbidden[] = {"improved", "normal", "Normal",
	    "abnormal", "impairment", "disab", "forecast"};
	struct note *n = note_new();

	for (int m = 0; m < VOCAB_MEASUREMENT_COUNT; m++) {
		if (vocab_measurements[m].in != VOCAB_IN_DEG)
			continue;
		add(n, m, R, A, "0-20");
		add(n, m, L, A, "0-10");
		add(n, m, R, P, "WNL");
	}
	for (int format = SUMMARY_TEXT; format <= SUMMARY_JSON; format++) {
		struct summary_options options = {
		    .format = (enum summary_format)format, .source = "AAOS"};

		summarize(n, &options);
		ck_assert(holds(&n->out, "WNL"));
		ck_assert(holds(&n->out, "AAOS"));
		/* A share of 260 or 175 stands in the totals alone. */
		ck_assert(!holds(&n->out, "%") ||
			  (format == SUMMARY_TEXT && holds(&n->out, "totals")));
		ck_assert(!holds(&n->out, "% of 0"));
		for (size_t i = 0; i < sizeof(forbidden) / sizeof(*forbidden);
		     i++)
			ck_assert_msg(!holds(&n->out, forbidden[i]),
			    "\"%s\" in format %d", forbidden[i], format);
	}
	note_free(n);
}
END_TEST

START_TEST(summary_shows_a_session_without_readings)
{
	struct note *n = note_new();

	n->person.said = SAID_UNREADABLE;
	n->s.said = SAID_UNREADABLE;
	summarize(n, &no_usual);
	check_text(&n->out, "subject not known, session date not known\n"
			    "  involved: not said\n");
	note_free(n);
}
END_TEST

TCase *
write_summary_case(void)
{
	TCase *tc = tcase_create("summary");

	tcase_add_test(tc, summary_lays_the_sides_side_by_side);
	tcase_add_test(tc, summary_shows_values_as_measured);
	tcase_add_test(tc, summary_marks_what_is_doubtful);
	tcase_add_test(tc, summary_notes_conditions_that_differ);
	tcase_add_test(tc, summary_says_what_was_not_tested);
	tcase_add_test(tc, summary_names_precautions_in_force);
	tcase_add_test(tc, summary_says_what_is_left_to_a_goal);
	tcase_add_test(tc, summary_lists_open_findings);
	tcase_add_test(tc, summary_names_the_source_of_usual_values);
	tcase_add_test(tc, summary_names_the_joints_of_a_header);
	tcase_add_test(tc, summary_rows_have_the_same_figures);
	tcase_add_test(tc, summary_says_no_forbidden_word);
	tcase_add_test(tc, summary_shows_a_session_without_readings);
	return tc;
}
