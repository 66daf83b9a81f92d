/*
 * Lines: what carries along one and on to the next, what an error costs, and
 * that a reading never lands under a joint, side or mode that its writer did
 * not name. All readings are invented.
 */
#include "read_example.h"

#define BEFORE "session 2026-05-04\n"

/* --- heads
 * -------------------------------------------------------------------------- */

static const struct example heads[] = {
    {"knee flexion R A 0-120", "knee flexion right active measured 0..120",
	NULL},
    {"R knee flex AROM 0-120", "knee flexion right active measured 0..120",
	NULL},
    {"active flexion knee right 0-120",
	"knee flexion right active measured 0..120", NULL},
    {"KNEE Flexion r a 0-120", "knee flexion right active measured 0..120",
	NULL},
    {"knee flexion RA 0-120 RP 0-130",
	"knee flexion right active measured 0..120; "
	"knee flexion right passive measured 0..130",
	NULL},
    {"hip, flexion, R, A, 0-120", "hip flexion right active measured 0..120",
	NULL},
    {"ankle DF supine knee-bent R P 0-12",
	"ankle dorsiflexion knee-bent supine right passive measured 0..12",
	NULL},
    {"hip flexion supine hook-lying R P 0-100",
	"hip flexion hook-lying supine right passive measured 0..100", NULL},
    {"supine shoulder abducted-90 ER R P 0-80",
	"shoulder external rotation abducted-90 supine right passive "
	"measured 0..80",
	NULL},
    {"c-spine LF R A 0-30",
	"cervical lateral flexion right active measured 0..30", NULL},
    {"LF PIP flexion R A 0-30",
	"little PIP flexion right active measured 0..30", NULL},
    {"great toe MTP extension R P 0-60",
	"great-toe MTP extension right passive measured 0..60", NULL},
    {"knee flexion R AA 0-120 L place-and-hold 0-110",
	"knee flexion right assisted measured 0..120; "
	"knee flexion left place-and-hold measured 0..110",
	NULL},
    {"cervical flexion A 0-40", "cervical flexion active measured 0..40", NULL},
    {"jaw lateral excursion R A 9 mm L A 8 mm",
	"jaw lateral excursion right active measured 9 mm; "
	"jaw lateral excursion left active measured 8 mm",
	NULL},
    /* a digit and its joints */
    {"index R A MCP 11-0-72 PIP 14-86",
	"index MCP flexion right active measured 0..72; "
	"index MCP extension right active measured 0..11; "
	"index PIP flexion right active measured 14..86; "
	"index PIP extension right active lacks -14",
	NULL},
    {"index flexion R A MCP 0-72 PIP 0-86",
	"index MCP flexion right active measured 0..72; "
	"index PIP flexion right active measured 0..86",
	NULL},
    {"thumb CMC palmar abduction R A 0-45",
	"thumb CMC palmar abduction right active measured 0..45", NULL},
    /* wrong ones */
    {"knee flexion A 0-120", "", "2:16:side-not-of-motion"},
    {"cervical flexion R A 0-40", "", "2:18:side-not-of-motion"},
    {"cervical rotation A 0-40", "", "2:21:side-not-of-motion"},
    {"knee flexion R 0-120", "", "2:16:syntax"},
    {"hip R A 0-120", "", "2:9:syntax"},
    {"flexion R A 0-120", "", "2:1:syntax"},
    {"R A 0-120", "", "2:1:syntax"},
    {"elbow supination R A 0-60", "", "2:7:motion-not-of-joint"},
    {"thumb PIP R A 0-60", "", "2:7:syntax"},
    {"knee hip flexion R A 0-60", "", "2:6:syntax"},
    {"knee flexion extension R A 0-60", "", "2:14:syntax"},
    {"knee flexion R L A 0-60", "", "2:16:syntax"},
    {"knee flexion R A P 0-60", "", "2:18:syntax"},
    {"kne flexion R A 0-60", "", "2:1:unknown-word"},
    {"knee flexion R A", "", "2:17:syntax"},
    {"knee", "", "2:5:syntax"},
    {"tip-to-crease R 12 mm", "", "2:1:syntax"},
    /* the reading before a word out of place may be meant by it */
    {"knee flexion R A 0-120 hip flexion L A 0-110", "", "2:24:syntax"},
    {"knee flexion R A 0-120 session", "", "2:24:syntax"},
};

START_TEST(a_head_names_what_is_measured)
{
	expect_example(BEFORE, &heads[_i]);
}
END_TEST

/* --- along a line
 * -------------------------------------------------------------------- */

static const struct example carried[] = {
    {"hip flexion R A 0-110 P 0-118 L A 0-112 P 0-119",
	"hip flexion right active measured 0..110; "
	"hip flexion right passive measured 0..118; "
	"hip flexion left active measured 0..112; "
	"hip flexion left passive measured 0..119",
	NULL},
    {"hip flexion A R 0-110 L 0-112",
	"hip flexion right active measured 0..110; "
	"hip flexion left active measured 0..112",
	NULL},
    {"mode active\nhip flexion R 0-110 L 0-112",
	"hip flexion right active measured 0..110; "
	"hip flexion left active measured 0..112",
	NULL},
    {"mode active\nhip flexion R P 0-110",
	"hip flexion right passive measured 0..110", NULL},
    {"hip flexion R A 0-110; R P 0-118; L A 0-112;",
	"hip flexion right active measured 0..110; "
	"hip flexion right passive measured 0..118; "
	"hip flexion left active measured 0..112",
	NULL},
    /* a side is lost */
    {"hip flexion R A 0-110 P 0-118 A 0-112 P 0-119",
	"hip flexion right active measured 0..110; "
	"hip flexion right passive measured 0..118",
	"2:31:syntax"},
    {"hip flexion R A 0-110 A 0-112",
	"hip flexion right active measured 0..110", "2:23:syntax"},
    /* a mode is lost */
    {"hip flexion R A 0-110 P 0-118 L 0-112",
	"hip flexion right active measured 0..110; "
	"hip flexion right passive measured 0..118",
	"2:33:syntax"},
    {"mode active\nhip flexion R 0-110 P 0-118 L 0-112",
	"hip flexion right active measured 0..110; "
	"hip flexion right passive measured 0..118",
	"3:31:syntax"},
    /* a joint of the digit is lost */
    {"index R A MCP 0-72 PIP 0-86 L 0-90",
	"index MCP flexion right active measured 0..72; "
	"index MCP extension right active lacks 0; "
	"index PIP flexion right active measured 0..86; "
	"index PIP extension right active lacks 0",
	"2:31:syntax"},
};

START_TEST(what_carries_along_a_line)
{
	expect_example(BEFORE, &carried[_i]);
}
END_TEST

/* --- on to the next line
 * ---------------------------------------------------------------- */

#define HIP "hip flexion R A 0-110\n"
#define R_A "hip flexion right active measured 0..110"
#define L_A "hip flexion left active measured 0..112"
#define RING                                                                   \
	"ring MCP flexion right active measured 0..81; "                       \
	"ring MCP extension right active lacks 0; "                            \
	"ring PIP flexion right active measured 0..99; "                       \
	"ring PIP extension right active lacks 0"
#define PRONATION "forearm pronation right active measured 0..41"

static const struct example continued[] = {
    {"forearm pronation R A 0-41\nR P 0-47 firm",
	PRONATION "; forearm pronation right passive measured 0..47", NULL},
    {"forearm pronation R A 0-41\n\n# a comment\nrater dk\nR P 0-47",
	PRONATION "; forearm pronation right passive measured 0..47", NULL},
    {"ankle DF knee-bent R A 0-9\nL A 0-11\nsupine knee-straight R A 0-4",
	"ankle dorsiflexion knee-bent right active measured 0..9; "
	"ankle dorsiflexion knee-bent left active measured 0..11; "
	"ankle dorsiflexion knee-straight supine right active measured "
	"0..4",
	NULL},
    {"index R A MCP 0-72\nR A PIP 0-86",
	"index MCP flexion right active measured 0..72; "
	"index MCP extension right active lacks 0; "
	"index PIP flexion right active measured 0..86; "
	"index PIP extension right active lacks 0",
	NULL},
    {"hand-behind-back R T7\nL T5",
	"shoulder hand-behind-back right level T7; "
	"shoulder hand-behind-back left level T5",
	NULL},
    /* neither side nor mode is taken */
    {"forearm pronation R A 0-41\nA 0-47", PRONATION, "3:3:side-not-of-motion"},
    {"forearm pronation R A 0-41\nR 0-47", PRONATION, "3:3:syntax"},
    /* a motion without its joint */
    {"forearm pronation R A 0-41\nsupination R A 0-47\nL A 0-40", PRONATION,
	"3:1:syntax+1"},
    /* cleared by session and subject */
    {"forearm pronation R A 0-41\nsession 2026-05-05\nR P 0-47", PRONATION,
	"4:1:syntax"},
    {"forearm pronation R A 0-41\nsubject A-1\nR P 0-47", PRONATION,
	"4:1:syntax"},
    /* under a line that failed: never the joint above it */
    {"forearm pronation R A 0-41\nforearm suppination R A 0-47\nL A 0-40\n"
     "L P 0-45",
	PRONATION, "3:9:unknown-word+2"},
    {"forearm pronation R A 0-41\nkne R A 0-47\nL A 0-40", PRONATION,
	"3:1:unknown-word+1"},
    {"forearm pronation R A 0-41\nforearm flexion R A 0-47\nL A 0-40",
	PRONATION, "3:9:motion-not-of-joint+1"},
    {"forearm pronation R A 0-41\nforearm wobbling R A 0-47\nL A 0-40\n"
     "knee flexion L A 0-120\nR A 0-118",
	PRONATION "; knee flexion left active measured 0..120; "
		  "knee flexion right active measured 0..118",
	"3:9:unknown-word+1"},
    /* a line that may have named a joint: a list, letters in a number */
    {"ring R A MCP 0-81 PIP 0-99\n1ittle R A MCP 0-84\nL A MCP 0-86", RING,
	"3:1:number-form+1"},
    {HIP "1umbar rotation R A 0-8\nL A 0-9", R_A, "3:1:number-form+1"},
    {HIP "2. knee L A 0-131 P 0-134\nR A 0-138", R_A, "3:1:number-form+1"},
    {HIP "2) knee L A 0-131\nR A 0-138", R_A, "3:2:syntax+1"},
    {HIP "2. R A 0-131\nR A 0-138", R_A, "3:1:number-form+1"},
    {HIP "2.R A 0-131\nR A 0-138", R_A, "3:1:number-form+1"},
    {HIP "L1 flexion A 0-131\nL A 0-138", R_A, "3:1:syntax+1"},
    {HIP "2026-05-05 R A 0-131\nR A 0-138", R_A, "3:1:number-form+1"},
    {HIP "kne R A 0-131\n1umbar rotation R A 0-8\nL A 0-9", R_A,
	"3:1:unknown-word 4:1:number-form+1"},
    {HIP "2.1. R A 0-131\nR A 0-138", R_A, "3:1:number-form+1"},
    {HIP "2 kneeR A 0-131\nR A 0-138", R_A, "3:3:unknown-word+1"},
    {HIP "5.12.2026 R A 0-131\nR A 0-138", R_A, "3:1:number-form+1"},
    {HIP "5/12/2026 R A 0-131\nR A 0-138", R_A, "3:1:side-not-of-motion+1"},
    {HIP "0-9x R A 0-131\nR A 0-138", R_A, "3:1:number-form+1"},
    {HIP "1R A 0-131\nR A 0-138", R_A, "3:1:number-form+1"},
    {HIP "No R A 0-131\nR A 0-138", R_A, "3:1:syntax+1"},
    /* a joint in what was not read of it */
    {"hip flexion R A 0-110 P 0-121knee L A 0-131\nR A 0-138", R_A,
	"2:25:number-form+1"},
    {"hip flexion R A 0-110 P 0-121great toe MTP R A 0-31\nR A 0-38", R_A,
	"2:25:number-form+1"},
    {"hip flexion R A 0-110 P 0-1lknee L A 0-131\nR A 0-138", R_A,
	"2:25:number-form+1"},
    {"hip flexion R A 0-110 P 0-121 softknee L A 0-131\nR A 0-138", R_A,
	"2:31:unknown-word+1"},
    {"hip flexion R A 0-110 P 0-121 firmgreat toe L A 0-131\nR A 0-138", R_A,
	"2:31:unknown-word+1"},
    {"hip flexion R A 0-110 P 0-121 \"knee L A 0-131\nR A 0-138", R_A,
	"2:31:open-quote+1"},
    {"hip flexion R A 0-110 P 0-9x knee L A 0-131\nR A 0-138", R_A,
	"2:25:number-form+1"},
    {"hip flexion R A 0-110 P 0-9x extension L A 0-9\nR A 0-8", R_A,
	"2:25:number-form+1"},
    {"index R A PIP 0-9x DIP 0-40\nL A 0-50", "",
	"2:15:number-form 3:5:syntax"},
    {"index R A 0-9x DIP 0-40\nL A 0-50", "", "2:11:number-form 3:5:syntax"},
    {HIP "instrument goniometer step 1knee R A 0-131\nR A 0-138", R_A,
	"3:28:number-form+1"},
    {HIP "rater dk knee R A 0-131\nR A 0-138", R_A, "3:10:syntax+1"},
    {HIP "rater dk ab\nposition knee\nremark sore knee\nL A 0-112",
	R_A "; " L_A, "3:10:unknown-word 4:10:syntax 5:8:unknown-word"},
    /* a text in the head is no word of it */
    {HIP "\"knee\" L A 0-131\nR A 0-138", R_A, "3:1:syntax+1"},
    {HIP "R \"knee\" A 0-131 L A 0-99\nR A 0-138", R_A, "3:3:syntax+1"},
    /* none of these names one */
    {HIP "L A 0-9x\nL A 0-112", R_A "; " L_A, "3:5:number-form"},
    {HIP "L A 0-9x pain 3 wobbling\nL A 0-112", R_A "; " L_A,
	"3:5:number-form"},
    {HIP "L A 0-9 \"along\nL A 0-112", R_A "; " L_A, "3:9:open-quote"},
    {HIP "pain 3\nL A 0-112", R_A "; " L_A, "3:1:syntax"},
    {HIP "firm L A 0-112", R_A "; " L_A, "3:1:syntax"},
    {"mode active\nhip flexion R 0-110\n118,5 L 0-112", R_A "; " L_A,
	"4:1:number-form"},
    /* a figure gone wrong leaves the joint as it was named */
    {"forearm pronation R A 0-4x\nL A 0-40",
	"forearm pronation left active measured 0..40", "2:23:number-form"},
};

START_TEST(what_goes_on_to_the_next_line)
{
	expect_example(BEFORE, &continued[_i]);
}
END_TEST

/* --- what an error costs
 * ------------------------------------------------------------------ */

#define L_P "hip flexion left passive measured 0..119"

static const struct example resumed[] = {
    /* a number: on at the next reading with its side and mode */
    {"hip flexion R A 0-999 P 0-118 L A 0-112 P 0-119", L_A "; " L_P,
	"2:17:number-form"},
    {"hip flexion R A 0-110 P 118,5 L A 0-112 P 0-119", R_A "; " L_A "; " L_P,
	"2:25:number-form"},
    /* the mode of the head serves */
    {"hip flexion A R 0-999 L 0-112", L_A, "2:17:number-form"},
    {"mode active\nhip flexion R 0-999 L 0-112", L_A, "3:15:number-form"},
    /* but not once a second mode was named */
    {"mode active\nhip flexion R 0-110 P 0-999 L 0-112", R_A,
	"3:23:number-form"},
    {"hip flexion R A 0-999 P 0-118 L 0-112", "", "2:17:number-form"},
    /* a misplaced known word */
    {"hip flexion R A 0-110 max L A 0-112", L_A, "2:23:syntax"},
    {"knee extension R A 10 L A lacks 3", "knee extension left active lacks -3",
	"2:20:ambiguous-extension"},
    /* the word that was misplaced may be the side itself */
    {"hip flexion R A 0-110 L A 0-112 A 0-999 L P 0-119", R_A "; " L_A "; " L_P,
	"2:33:syntax"},
    /* after these nothing more is read */
    {"hip flexion R A 0-110 P 0-118 2026-05-06 L A 0-112", R_A,
	"2:31:number-form"},
    {"hip flexion R A 0-110 L \"knee\" A 0-112 R P 0-119", R_A, "2:25:syntax"},
    {"hip flexion R A 0-110 wobble L A 0-112", "", "2:23:unknown-word"},
    {"hip flexion R A 0-11O L A 0-112", "", "2:17:number-form"},
    {"hip flexion R A 0-110 \"sore L A 0-112", "", "2:23:open-quote"},
    {"hip flexion R A 0-110 P 0-118 knee L A 0-112", R_A, "2:31:syntax"},
    {"hip flexion R A 0-110 extension L A 0-112", "", "2:23:syntax"},
    {"hip flexion R A 0-110 P 0-118 rater L A 0-112", R_A, "2:31:syntax"},
};

START_TEST(what_an_error_costs)
{
	expect_example(BEFORE, &resumed[_i]);
}
END_TEST

/* --- bytes
 * ------------------------------------------------------------------------------
 */

static const struct example bytes[] = {
    {"\r\n  \t\n# words\r\nhip flexion R A 0-110\r\n", R_A, NULL},
    {"hip flexion R A 0-110# words", "", "2:22:syntax"},
    {"hip flexion R A 0-110 # words", R_A, NULL},
    {"hip flexion R A 0-110 \"# no comment\" # one", R_A, NULL},
    {"hip flexion R A 0-110 \xff", "", "2:23:encoding"},
    {"hip flexion R A 0-110 \x01 L A 0-112", "", "2:23:encoding"},
    {"hip flexion R A 0-110 # \xff", R_A, "2:25:encoding"},
    {"\xff\nhip flexion R A 0-110", R_A, "2:1:encoding"},
};

START_TEST(bytes_that_are_no_words)
{
	expect_example(BEFORE, &bytes[_i]);
}
END_TEST

static void
expect_long_line(size_t len, const char *rows, const char *findings)
{
	struct buffer text = {0};
	struct example e = {NULL, rows, findings};

	buffer_puts(&text, "hip flexion R A 0-110");
	buffer_pad(&text, ' ', len - text.len);
	buffer_putc(&text, '\0');
	e.text = text.data;
	expect_example(BEFORE, &e);
	buffer_free(&text);
}

START_TEST(the_longest_line)
{
	expect_long_line(4096, R_A, NULL);
	expect_long_line(4097, "", "2:1:line-too-long");
	expect_long_line(70000, "", "2:1:line-too-long");
}
END_TEST

START_TEST(a_byte_order_mark_begins_the_file_alone)
{
	static const struct example first = {
	    "\xef\xbb\xbfhip flexion R A 0-110", R_A, NULL};
	static const struct example second = {
	    "\n\xef\xbb\xbfhip flexion R A 0-110", "", "2:1:unknown-word"};

	expect_example("", &first);
	expect_example("", &second);
}
END_TEST

#define LOOP(tc, test, table)                                                  \
	tcase_add_loop_test(                                                   \
	    tc, test, 0, (int)(sizeof(table) / sizeof(*(table))))

Suite *syntax_lines_suite(void);

Suite *
syntax_lines_suite(void)
{
	Suite *suite = suite_create("syntax lines");
	TCase *tc = tcase_create("lines");

	tcase_add_checked_fixture(tc, NULL, read_note_end);
	LOOP(tc, a_head_names_what_is_measured, heads);
	LOOP(tc, what_carries_along_a_line, carried);
	LOOP(tc, what_goes_on_to_the_next_line, continued);
	LOOP(tc, what_an_error_costs, resumed);
	LOOP(tc, bytes_that_are_no_words, bytes);
	tcase_add_test(tc, the_longest_line);
	tcase_add_test(tc, a_byte_order_mark_begins_the_file_alone);
	suite_add_tcase(suite, tc);
	return suite;
}
