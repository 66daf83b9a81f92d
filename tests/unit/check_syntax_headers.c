/*
 * Header lines: what each says, how long it holds, and that one which cannot
 * be read makes its value unknown, never the former one. Invented people.
 */
#include "read_example.h"

enum { RATER = 26, INSTRUMENT = 27, TIME = 1 };

/* --- headers that are wrong
 * -------------------------------------------------------- */

static const struct example wrong[] = {
    {"subject", "", "1:8:syntax"},
    {"subject WR 0193", "", "1:12:number-form"},
    {"subject -1", "", "1:9:number-form"},
    {"subject 2026-05-04", "", "1:9:number-form"},
    {"born 88", "", "1:6:number-form"},
    {"born 1988-05-04", "", "1:6:number-form"},
    {"age 3.5", "", "1:5:number-form"},
    {"age old", "", "1:5:unknown-word"},
    {"sex W", "", "1:5:unknown-word"},
    {"dominant both", "", "1:10:syntax"},
    {"involved", "", "1:9:syntax"},
    {"involved knee", "", "1:10:side-not-of-motion"},
    {"involved right kne", "", "1:16:unknown-word"},
    {"involved none\ninvolved right knee", "", "2:10:syntax"},
    {"opposite left knee", "", "1:19:syntax"},
    {"opposite knee unavailable", "", "1:10:side-not-of-motion"},
    {"opposite right cervical unavailable\nsession 2026-05-04\n"
     "cervical rotation L A 0-60",
	"cervical rotation left active measured 0..60", NULL},
    {"opposite right cervical unavailable\nsession 2026-05-04\n"
     "cervical rotation R A 0-60",
	"cervical rotation right active measured 0..60", "1:1:syntax"},
    {"surgery 31.03.2026", "", "1:9:date-form"},
    {"surgery 2026-02-30", "", "1:9:date-form"},
    {"surgery \"knee\"", "", "1:9:syntax"},
    {"precaution right forearm max 40", "", "1:26:syntax"},
    {"precaution right knee max", "", "1:26:syntax"},
    {"precaution right knee", "", "1:22:syntax"},
    {"goal right knee flexion active", "", "1:31:syntax"},
    {"goal right knee flexion 130", "", "1:25:syntax"},
    {"goal knee flexion active 130", "", "1:26:side-not-of-motion"},
    {"remark sleeps badly", "", "1:8:unknown-word"},
    {"remark \"sleeps badly", "", "1:8:open-quote"},
    {"rater", "", "1:6:syntax"},
    {"rater 2026-05-04", "", "1:7:number-form"},
    {"instrument goniometr", "", "1:12:unknown-word"},
    {"instrument goniometer step", "", "1:27:syntax"},
    {"instrument tape step 1", "", "1:22:number-form"},
    {"instrument goniometer step 1 mm", "", "1:30:number-form"},
    {"mode", "", "1:5:syntax"},
    {"mode fast", "", "1:6:unknown-word"},
    {"position", "", "1:9:syntax"},
    {"position knee", "", "1:10:syntax"},
    {"require", "", "1:8:syntax"},
    {"require everything", "", "1:9:unknown-word"},
    {"session", "", "1:8:syntax"},
    {"session 2026-05-04 24:00", "", "1:20:date-form"},
    {"session 2026-05-04 week 8", "", "1:20:unknown-word"},
    {"sex F\nsex M", "", "2:5:syntax"},
    {"sex F\nsex F", "", NULL},
    {"sex F\nsession 2026-05-04\nsex M", "", NULL},
};

START_TEST(a_wrong_header_is_told)
{
	expect_example("", &wrong[_i]);
}
END_TEST

/* --- what each says, in the cells of a reading below it
 * ----------------------------- */

static const struct {
	const char *text;
	int column;
	const char *cell; /* of the last row */
} said[] = {
    {"subject WR-0192\nsession 2026-05-04\n", COL_SUBJECT, "WR-0192"},
    {"subject 7\nsession 2026-05-04\n", COL_SUBJECT, "7"},
    {"subject session\nsession 2026-05-04\n", COL_SUBJECT, "session"},
    {"session 2026-05-04 09:30 \"week 8\"\n", TIME, "09:30"},
    {"session 2026-05-04 09:30 \"week 8\"\n", COL_LABEL, "week 8"},
    {"session 2026-05-04 \"week 8\"\n", COL_SESSION, "2026-05-04"},
    {"born 1988\nsession 2026-05-04\n", COL_AGE, "38"},
    {"age 44\nborn 1980\nsession 2026-05-04\n", COL_AGE, "44"},
    {"sex f\nsession 2026-05-04\n", COL_SEX, "F"},
    {"sex female\nsession 2026-05-04\n", COL_SEX, "F"},
    {"session 2026-05-04\n", COL_INVOLVED, ""},
    {"involved right hip\nsession 2026-05-04\n", COL_INVOLVED, "yes"},
    {"involved right\nsession 2026-05-04\n", COL_INVOLVED, "yes"},
    {"involved left hip\nsession 2026-05-04\n", COL_INVOLVED, "no"},
    {"involved both hip\nsession 2026-05-04\n", COL_INVOLVED, "yes"},
    {"involved right knee, hip\nsession 2026-05-04\n", COL_INVOLVED, "yes"},
    {"involved left knee right ankle hip\nsession 2026-05-04\n", COL_INVOLVED,
	"yes"},
    {"involved cervical right hip\nsession 2026-05-04\n", COL_INVOLVED, "yes"},
    {"involved none\nsession 2026-05-04\n", COL_INVOLVED, "no"},
    {"involved left knee\nsession 2026-05-04\ninvolved right hip\n",
	COL_INVOLVED, "yes"},
    {"rater PF\nsession 2026-05-04\n", RATER, "PF"},
    {"rater session\nsession 2026-05-04\n", RATER, "session"},
    {"session 2026-05-04\nrater a\nrater b\n", RATER, "b"},
    {"rater a\nsubject A-1\nsession 2026-05-04\n", RATER, "a"},
    {"instrument inclinometer step 0.5\nsession 2026-05-04\n", INSTRUMENT,
	"inclinometer"},
    {"instrument tape step 1 mm\nsession 2026-05-04\n", INSTRUMENT, ""},
    {"instrument visual\ninstrument ruler step 1 mm\nsession 2026-05-04\n",
	INSTRUMENT, "visual"},
    {"session 2026-05-04\nposition supine knee-bent\n", COL_SETTING,
	"knee-bent"},
    {"session 2026-05-04\nposition supine knee-bent\n", COL_SETTING + 1,
	"supine"},
    /* a setting that hips do not have serves only what has it */
    {"session 2026-05-04\nposition supine abducted-90\n", COL_SETTING, ""},
    {"position supine\nsession 2026-05-04\nhip flexion R A 0-1\n"
     "session 2026-05-05\n",
	COL_SETTING + 1, ""},
    /* unreadable: unknown, not the former */
    {"rater a\nsession 2026-05-04\nrater -\n", RATER, ""},
    {"instrument goniometer\nsession 2026-05-04\ninstrument goniometr\n",
	INSTRUMENT, ""},
    {"sex F\nsession 2026-05-04\nsex W\n", COL_SEX, ""},
    {"born 1988\nsession 2026-05-04\nborn 88\n", COL_AGE, ""},
    {"subject A-1\nsession 2026-05-04\nsubject A 2\nsession 2026-05-05\n",
	COL_SUBJECT, ""},
    {"subject A-1\nsession 2026-05-04\nsession 4.5.2026\n", COL_SESSION, ""},
    {"subject A-1\nsession 2026-05-04\nsesion 2026-05-05\n", COL_SESSION, ""},
    {"subject A-1\nsession 2026-05-04\nsubjekt A-2\nsession 2026-05-05\n",
	COL_SUBJECT, ""},
    /* also where the slip stands in its first word */
    {"subject A-1\nsession 2026-05-04\nsessi\xf3n 2026-05-05\n", COL_SESSION,
	""},
    {"subject A-1\nsession 2026-05-04\n\xffsession 2026-05-05\n", COL_SESSION,
	""},
    {"subject A-1\nsession 2026-05-04\nsession2026-05-05\n", COL_SESSION, ""},
    {"subject A-1\nsession 2026-05-04\n-session 2026-05-05\n", COL_SESSION, ""},
    {"subject A-1\nsession 2026-05-04\n;session 2026-05-05\n", COL_SESSION, ""},
    {"subject A-1\nsession 2026-05-04\n2session 2026-05-05\n", COL_SESSION, ""},
    {"subject A-1\nsession 2026-05-04\n\"session 2026-05-05\n", COL_SESSION,
	""},
    {"subject A-1\nsession 2026-05-04\nsubjectA-2\nsession 2026-05-05\n",
	COL_SUBJECT, ""},
    {"rater a\nsession 2026-05-04\n.rater b\n", RATER, ""},
    /* a new person has none of the headers of the last */
    {"sex F\nborn 1980\ninvolved right hip\nsubject A-1\nsubject A-2\n"
     "session 2026-05-04\n",
	COL_SEX, ""},
    {"subject A-1\ninvolved right hip\nsession 2026-05-04\nsubject A-2\n"
     "session 2026-05-04\n",
	COL_INVOLVED, ""},
    /* the first subject names who was begun at the top */
    {"sex F\nsubject A-1\nsession 2026-05-04\n", COL_SEX, "F"},
    /* a session's own word wins, and is gone after it */
    {"sex F\nsession 2026-05-04\nsex M\n", COL_SEX, "M"},
    {"sex F\nsession 2026-05-04\nsex M\nsession 2026-05-05\n", COL_SEX, "F"},
};

START_TEST(what_a_header_says)
{
	struct buffer text = {0};
	struct read_note n;

	buffer_puts(&text, said[_i].text);
	buffer_puts(&text, "hip flexion R A 0-112\n");
	read_note(&n, text.data, text.len, false);
	ck_assert_uint_ge(n.rows.len, 1);
	ck_assert_str_eq(
	    n.rows.at[n.rows.len - 1].cell[said[_i].column], said[_i].cell);
	read_note_free(&n);
	buffer_free(&text);
}
END_TEST

/* Nor does a line that is too long, wherever its first word stands. */
START_TEST(a_long_session_line_makes_the_session_unknown)
{
	struct buffer text = {0};
	struct read_note n;

	buffer_puts(&text, "session 2026-05-04\n");
	buffer_pad(&text, ' ', (size_t)_i);
	buffer_puts(&text, "session 2026-05-05 \"");
	buffer_pad(&text, 'x', 5000);
	buffer_puts(&text, "\"\nhip flexion R A 0-112\n");
	read_note(&n, text.data, text.len, false);
	ck_assert_uint_eq(n.rows.len, 1);
	ck_assert_str_eq(n.rows.at[0].cell[COL_SESSION], "");
	read_note_free(&n);
	buffer_free(&text);
}
END_TEST

/* A header of the session counts for readings above it too. */
START_TEST(a_header_written_last_still_counts)
{
	static const char text[] = "subject A-1\nsession 2026-05-04\n"
				   "hip flexion R A 0-112\n"
				   "involved right hip\nsex X\nage 30\n";
	struct read_note n;

	read_note(&n, text, strlen(text), false);
	ck_assert_uint_eq(n.rows.len, 1);
	ck_assert_str_eq(n.rows.at[0].cell[COL_INVOLVED], "yes");
	ck_assert_str_eq(n.rows.at[0].cell[COL_SEX], "X");
	ck_assert_str_eq(n.rows.at[0].cell[COL_AGE], "30");
	read_note_free(&n);
}
END_TEST

/* --- precautions and goals, as the model holds them
 * ---------------------------------- */

static struct precaution precaution;
static struct goal goal;
static size_t precautions, goals;

static void
take_last(void *arg, struct session *s, struct sink *sink)
{
	const struct headers *h = &s->person->headers;

	(void)arg;
	(void)sink;
	precautions = h->precautions.len;
	goals = h->goals.len;
	if (precautions)
		precaution = h->precautions.at[precautions - 1];
	if (goals)
		goal = h->goals.at[goals - 1];
}

static void
read_headers(const char *text)
{
	struct read_note n;

	precautions = goals = 0;
	read_note_also(&n, text, strlen(text), false, take_last, NULL);
	ck_assert_uint_eq(n.findings.len, 0);
	read_note_free(&n);
}

static const struct {
	const char *text;
	int motion, mode;
	bool forbids;
	int32_t limit;
} rules_out[] = {
    {"right forearm supination passive max 40", VOCAB_MOTION_SUPINATION,
	VOCAB_MODE_PASSIVE, false, 400},
    {"right forearm passive supination max 40", VOCAB_MOTION_SUPINATION,
	VOCAB_MODE_PASSIVE, false, 400},
    {"right forearm supination max lacks 10", VOCAB_MOTION_SUPINATION, NONE,
	false, -100},
    {"right elbow max 90", VOCAB_MOTION_FLEXION, NONE, false, 900},
    {"right forearm no passive", NONE, VOCAB_MODE_PASSIVE, true, 0},
    {"right forearm no active supination", VOCAB_MOTION_SUPINATION,
	VOCAB_MODE_ACTIVE, true, 0},
    {"right forearm no supination active", VOCAB_MOTION_SUPINATION,
	VOCAB_MODE_ACTIVE, true, 0},
    {"right forearm, elbow no", NONE, NONE, true, 0},
};

START_TEST(a_precaution_rules_out)
{
	struct buffer text = {0};

	buffer_printf(&text,
	    "precaution %s from 2026-05-04 until 2026-05-15 \"why\"\n",
	    rules_out[_i].text);
	buffer_putc(&text, '\0');
	read_headers(text.data);
	buffer_free(&text);
	ck_assert_uint_eq(precautions, 1);
	ck_assert_int_eq(precaution.motion, rules_out[_i].motion);
	ck_assert_int_eq(precaution.mode, rules_out[_i].mode);
	ck_assert_int_eq(precaution.forbids, rules_out[_i].forbids);
	if (!precaution.forbids)
		ck_assert_int_eq(precaution.limit, rules_out[_i].limit);
	ck_assert_int_eq(precaution.from, 20577);
	ck_assert_int_eq(precaution.until, 20588);
	ck_assert(joint_set_has(&precaution.joints,
	    strstr(rules_out[_i].text, "elbow") ? VOCAB_JOINT_ELBOW
						: VOCAB_JOINT_FOREARM,
	    VOCAB_SIDE_RIGHT));
	ck_assert(!joint_set_has(
	    &precaution.joints, VOCAB_JOINT_FOREARM, VOCAB_SIDE_LEFT));
}
END_TEST

/* Whoever spares the foot spares its toes. */
START_TEST(a_precaution_of_a_group_is_of_its_members)
{
	read_headers("precaution left foot no active\n");
	ck_assert_uint_eq(precautions, 1);
	ck_assert(joint_set_has(
	    &precaution.joints, VOCAB_JOINT_SUBTALAR, VOCAB_SIDE_LEFT));
	ck_assert(joint_set_has(
	    &precaution.joints, VOCAB_JOINT_GREAT_TOE_MTP, VOCAB_SIDE_LEFT));
	ck_assert(!joint_set_has(
	    &precaution.joints, VOCAB_JOINT_GREAT_TOE_MTP, VOCAB_SIDE_RIGHT));
	ck_assert(!joint_set_has(
	    &precaution.joints, VOCAB_JOINT_ANKLE, VOCAB_SIDE_LEFT));
}
END_TEST

static const struct {
	const char *text;
	int measurement, mode;
	int32_t end;
	bool right, left;
} wanted[] = {
    {"right forearm pronation active 70", VOCAB_MEASUREMENT_FOREARM_PRONATION,
	VOCAB_MODE_ACTIVE, 700, true, false},
    {"both hip flexion passive 110.5", VOCAB_MEASUREMENT_HIP_FLEXION,
	VOCAB_MODE_PASSIVE, 1105, true, true},
    {"left knee extension active lacks 5", VOCAB_MEASUREMENT_KNEE_EXTENSION,
	VOCAB_MODE_ACTIVE, -50, false, true},
    {"cervical flexion active 45", VOCAB_MEASUREMENT_CERVICAL_FLEXION,
	VOCAB_MODE_ACTIVE, 450, false, false},
};

START_TEST(a_goal_is_read)
{
	struct buffer text = {0};

	buffer_printf(&text, "goal %s by 2026-06-30\n", wanted[_i].text);
	buffer_putc(&text, '\0');
	read_headers(text.data);
	buffer_free(&text);
	ck_assert_uint_eq(goals, 1);
	ck_assert_int_eq(goal.measurement, wanted[_i].measurement);
	ck_assert_int_eq(goal.mode, wanted[_i].mode);
	ck_assert_int_eq(goal.end, wanted[_i].end);
	ck_assert_int_eq(goal.side[VOCAB_SIDE_RIGHT], wanted[_i].right);
	ck_assert_int_eq(goal.side[VOCAB_SIDE_LEFT], wanted[_i].left);
	ck_assert_int_eq(goal.by, 20634);
}
END_TEST

#define LOOP(tc, test, table)                                                  \
	tcase_add_loop_test(                                                   \
	    tc, test, 0, (int)(sizeof(table) / sizeof(*(table))))

static size_t denied[2]; /* findings, the line that the first one names */

static void
count_denied(void *arg, struct session *s, struct sink *sink)
{
	(void)arg;
	(void)s;
	for (size_t i = 0; i < sink->len; i++)
		if (denied[0]++ == 0)
			denied[1] = strtoul(
			    strchr(sink->at[i]->message, ' '), NULL, 10);
}

static void
read_denied(const char *text, size_t len)
{
	struct read_note note;

	denied[0] = denied[1] = 0;
	read_note_also(&note, text, len, false, count_denied, NULL);
	read_note_free(&note);
}

/* Once a line, at the first session and reading that deny it. */
START_TEST(an_opposite_is_contradicted_once)
{
	static const char text[] =
	    "opposite left knee, ankle unavailable\n"
	    "opposite left hip unavailable\n"
	    "session 2026-05-04\nopposite left knee unavailable\n"
	    "knee L NT \"cast\"\nankle dorsiflexion L A 0-9\n"
	    "knee L A 0-90\nknee R A 0-130\n"
	    "session 2026-05-11\nknee L A 0-91\nhip flexion L A 0-80\n";

	read_denied(text, sizeof(text) - 1);
	ck_assert_uint_eq(denied[0], 3);
	ck_assert_uint_eq(denied[1], 6); /* the ankle: NT is no measuring */
}
END_TEST

/* Each of many lines held against each of many readings takes too long. */
START_TEST(many_opposites_cost_no_more_each)
{
	enum { MANY = 60000 };
	struct buffer text = {0};

	for (int i = 0; i < MANY; i++)
		buffer_puts(&text, "opposite left hip unavailable\n");
	buffer_puts(&text, "session 2026-05-04\n");
	for (int i = 0; i < MANY; i++)
		buffer_puts(&text, "knee flexion L A 0-90\n");
	read_denied(text.data, text.len);
	buffer_free(&text);
	ck_assert_uint_eq(denied[0], 0);
}
END_TEST

Suite *syntax_headers_suite(void);

Suite *
syntax_headers_suite(void)
{
	Suite *suite = suite_create("syntax headers");
	TCase *tc = tcase_create("headers");

	tcase_add_checked_fixture(tc, NULL, read_note_end);
	LOOP(tc, a_wrong_header_is_told, wrong);
	LOOP(tc, what_a_header_says, said);
	tcase_add_loop_test(
	    tc, a_long_session_line_makes_the_session_unknown, 0, 80);
	tcase_add_test(tc, a_header_written_last_still_counts);
	LOOP(tc, a_precaution_rules_out, rules_out);
	tcase_add_test(tc, a_precaution_of_a_group_is_of_its_members);
	LOOP(tc, a_goal_is_read, wanted);
	tcase_add_test(tc, an_opposite_is_contradicted_once);
	tcase_add_test(tc, many_opposites_cost_no_more_each);
	suite_add_tcase(suite, tc);
	return suite;
}
