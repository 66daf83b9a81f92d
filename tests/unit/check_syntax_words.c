/*
 * What a slip is answered with: the words that a therapist reads. Each case
 * is a line that people type, what the message says, and what to do about it.
 * All readings are invented.
 */
#include <check.h>
#include <string.h>

#include "parser.h"
#include "syntax/note.h"
#include "syntax/tokens.h"

Suite *syntax_words_suite(void);

#define NO_PRECAUTION                                                          \
	"until this line can be read, no reading is held against the "         \
	"precaution"

static const struct {
	const char *line;
	enum rule rule;
	const char *message; /* is part of it */
	const char *hint;    /* the same; "" is none */
} slips[] = {
    {"shoulder ER at 90 L A 0-40", RULE_SYNTAX,
	"'at' cannot stand here; here may stand a side (R, L), a mode (A, P), "
	"a position, a value",
	"one word, as abducted-90"},
    {"hip R IR A 35 ER 40", RULE_SYNTAX,
	"'ER' cannot stand here; here may stand a side (R, L), a mode (A, P), "
	"a value, a word on the reading",
	"begin a new line for another motion"},
    {"knee R P 0-100 supine", RULE_SYNTAX, "'supine' cannot stand here",
	"before the first value"},
    {"knee R P 0-100 firm end feel", RULE_SYNTAX, "'end feel'",
	"one word behind the passive value"},
    {"knee flexion prone supine R A 0-120", RULE_SYNTAX,
	"'supine' and 'prone' cannot both be meant", ""},
    {"position sitting standing", RULE_SYNTAX,
	"'standing' and 'sitting' cannot both be meant", ""},
    {"right knee", RULE_SYNTAX, "the line ends too early",
	"a joint alone is no heading"},
    {"hand R A WNL", RULE_SYNTAX, "'hand' cannot stand here",
	"this is a group: name the joint"},
    {"forearm rotation R A 0-70", RULE_MOTION_NOT_OF_JOINT,
	"the forearm has no rotation",
	"the forearm has: pronation, supination"},
    {"knee dorsiflexion R A 0-10", RULE_MOTION_NOT_OF_JOINT,
	"the knee has no dorsiflexion",
	"dorsiflexion is a motion of the ankle"},
    {"knee A 5-118", RULE_SIDE_NOT_OF_MOTION,
	"on which side the knee joint was measured", "write R or L before it"},
    {"hip flexion A 0-90", RULE_SIDE_NOT_OF_MOTION,
	"on which side hip flexion was measured", "write R or L before it"},
    {"index R MCP A 0-88 P 0-90 PIP A 0-100 P 0-99", RULE_SYNTAX,
	"which joint of the index", "the joint before each value"},
    {"knee (R) A 0-100", RULE_SYNTAX, "'(': this sign means nothing here",
	"take this sign out"},
    {"knee R A 5\xe2\x80\x91"
     "110",
	RULE_NUMBER_FORM, "this dash is not the one of the keyboard",
	"write start-end"},
    {"knee R A 5-118.", RULE_NUMBER_FORM, "no full stop behind it",
	"write start-end"},
    {"knee R A 0-100 painful-arc 60", RULE_SYNTAX,
	"here may stand a range (60-110)", ""},
    {"knee R A 0-100 pain 3-4", RULE_SYNTAX, "here may stand a number, at",
	"write pain 4 (0 to 10)"},
    {"knee R P NT pain", RULE_SYNTAX, "the line ends too early",
	"the reason in quotation marks"},
    {"precaution left elbow flexion 90", RULE_SYNTAX, "'90' cannot stand here",
	"write max before the limit, as max 90; until this line can be read"},
    {"subject KN 204", RULE_SYNTAX, "'204' cannot stand here",
	"a code has no blanks"},
    {"rater Anna Berg", RULE_UNKNOWN_WORD, "'Berg'", "a code has no blanks"},
    {"elbow ROM R 10-120", RULE_UNKNOWN_WORD, "'ROM' is not a known word",
	"'rangeline guide' lists what can be measured"},
    {"elbow L A 10-120 tight", RULE_UNKNOWN_WORD, "'tight'",
	"a remark goes behind #"},
    {"knee R A 0-100 after 0 reps", RULE_NUMBER_FORM,
	"a whole number from 1 on", ""},
    {"knee R A 0-100 \xe2\x80\x9cstiff\xe2\x80\x9d", RULE_UNKNOWN_WORD,
	"is not a known word", "plain quotation mark"},
    {"sex man", RULE_UNKNOWN_WORD, "'man' is not a known word",
	"here may stand F, M or X"},
    {"born 1970-01-01", RULE_NUMBER_FORM, "'1970-01-01'",
	"here may stand a number"},
    {"rater 2026-05-04", RULE_NUMBER_FORM, "'2026-05-04'",
	"here may stand a code"},
    {"precaution right knee passive max 90 untill 2026-07-01",
	RULE_UNKNOWN_WORD, "'untill' is not a known word",
	"did you mean 'until'?; until this line can be read, no reading is "
	"held against the precaution"},
    {"precaution right knee < 30", RULE_SYNTAX, "'<'",
	"write max before the limit, as max 90; until this line can be read, "
	"no reading is held against the precaution"},
    /* what is lost with the line, wherever in it the word stands */
    {"1. precaution right knee max 90", RULE_NUMBER_FORM, "'1.'",
	"take this out; " NO_PRECAUTION},
    {"1) precaution right knee max 90", RULE_SYNTAX, "')'", NO_PRECAUTION},
    {"\xe2\x80\xa2 precaution right knee max 90", RULE_UNKNOWN_WORD, "",
	NO_PRECAUTION},
    {"new precautions right knee max 90", RULE_UNKNOWN_WORD, "'new'",
	NO_PRECAUTION},
    {"precausion right knee max 90", RULE_UNKNOWN_WORD, "'precausion'",
	"did you mean 'precaution'?; " NO_PRECAUTION},
    {"precaution: right knee max 90", RULE_SYNTAX, "':'", NO_PRECAUTION},
    {"1) subject B-2", RULE_SYNTAX, "')'",
	"; until this line can be read, the readings below it belong to "
	"nobody"},
    {"subject: B-2", RULE_SYNTAX, "':'", "belong to nobody"},
    {"new session 2026-05-05", RULE_UNKNOWN_WORD, "'new'",
	"; until this line can be read, the readings below it have no date"},
    /* how a person and a session begin */
    {"patient B-2", RULE_UNKNOWN_WORD, "'patient'", "subject WR-0192"},
    {"B-2", RULE_UNKNOWN_WORD, "'B-2'", "subject WR-0192"},
    {"2026-05-05", RULE_NUMBER_FORM, "a date cannot stand here",
	"session 2026-05-05; until this line"},
    {"date 2026-05-05", RULE_UNKNOWN_WORD, "'date'", "session 2026-05-05;"},
    {"2026-05-05 knee R A 0-120", RULE_NUMBER_FORM, "a date",
	"holds for the lines below: session 2026-05-04"},
    /* numbers */
    {"1ittle R A MCP 0-84", RULE_NUMBER_FORM, "letters in a number",
	"did you mean 'little'?"},
    {"L1 flexion A 0-131", RULE_SYNTAX, "'L1' is a vertebra", ""},
    {"knee R A 3 \xe2\x80\x94 124", RULE_NUMBER_FORM,
	"this dash is not the one of the keyboard: type - again",
	"write start-end"},
    {"knee R A 0-124 \xe2\x80\x94 sore", RULE_UNKNOWN_WORD,
	"is not a known word", "a remark goes behind #"},
    {"knee R A 5 -118", RULE_NUMBER_FORM, "on both sides of it, or on neither",
	"write start-end"},
    {"knee R A 5- 118", RULE_NUMBER_FORM, "on both sides of it, or on neither",
	"write start-end"},
    {"knee R A -5", RULE_NUMBER_FORM, "read in two ways", "lacks 8"},
    {"Knee ext right A -5", RULE_NUMBER_FORM, "read in two ways",
	"write lacks 5 (short of straight) or hyper 5 (beyond it)"},
    {"knee extension R A -5-120", RULE_NUMBER_FORM, "read in two ways",
	"write start-end"},
    {"index PIP extension R A -5", RULE_NUMBER_FORM, "read in two ways",
	"hyper 5"},
    {"index extension R A PIP -5", RULE_NUMBER_FORM, "read in two ways",
	"hyper 5"},
    {"thumb CMC extension R A -5", RULE_NUMBER_FORM, "read in two ways",
	"write start-end"},
    {"hip extension R A -5", RULE_NUMBER_FORM, "read in two ways",
	"write start-end"},
    {"goal right knee flexion active 130 2026-06-01", RULE_NUMBER_FORM,
	"a date cannot stand here", "as by 2026-06-01"},
    {"precaution right knee max 90 2026-06-01", RULE_NUMBER_FORM,
	"a date cannot stand here", "as until 2026-06-01"},
    {"\"knee\" R A 0-120", RULE_SYNTAX, "'\"knee\"' cannot stand here",
	"without quotation marks"},
    /* signs that cannot be seen */
    {"\xef\xbb\xbf"
     "knee R A 0-120",
	RULE_UNKNOWN_WORD, "a sign that cannot be seen stands in",
	"type the word anew"},
    {"su\xc2\xad"
     "bject B-2",
	RULE_UNKNOWN_WORD, "a sign that cannot be seen",
	"type the word anew; until this line can be read"},
    {"knee\xe2\x80\xa8 R A 0-120", RULE_UNKNOWN_WORD,
	"a sign that cannot be seen", "delete it"},
    {"knee \xe2\x80\x8e R A 0-120", RULE_UNKNOWN_WORD,
	"a sign that cannot be seen stands here", "delete it"},
    {"knee R A 0-1\xe2\x80\x8b"
     "20",
	RULE_UNKNOWN_WORD, "a sign that cannot be seen stands in", "delete it"},
};

struct told {
	size_t n;
	enum rule rule;
	char message[700];
	char hint[700];
};

static void
on_session(void *arg, struct session *s, struct sink *sink)
{
	struct told *told = arg;

	(void)s;
	told->n += sink->len;
	if (sink->len == 0)
		return;
	told->rule = sink->at[0]->rule;
	strcpy(told->message, sink->at[0]->message);
	strcpy(told->hint, sink->at[0]->hint ? sink->at[0]->hint : "");
}

START_TEST(a_slip_is_answered)
{
	static const char head[] = "session 2026-05-04";
	const char *line = slips[_i].line;
	struct intern pool = {0};
	struct told told = {0};
	struct note *note = note_new(&pool, on_session, &told);

	note_begin(note, "invented.range", false);
	note_line(note, head, strlen(head));
	note_line(note, line, strlen(line));
	note_end(note);
	ck_assert_uint_eq(told.n, 1);
	ck_assert_int_eq(told.rule, slips[_i].rule);
	ck_assert_msg(strstr(told.message, slips[_i].message), "%s: %s", line,
	    told.message);
	ck_assert_msg(
	    strstr(told.hint, slips[_i].hint), "%s: %s", line, told.hint);
	ck_assert_msg(
	    *slips[_i].hint || !*told.hint, "%s: %s", line, told.hint);
	note_free(note);
	intern_free(&pool);
}
END_TEST

/* The reader hands none of these on; cutting them comes to an end anyhow. */
static const struct {
	const char *text;
	size_t len;
	uint16_t bad; /* where the byte stands that begins nothing */
} stops[] = {{"\0", 1, 0}, {"knee\0R A 0-140", 14, 4}, {"knee R \n A 0", 12, 7},
    {"subject \0\0", 10, 8}, {"by \n", 4, 3}};

START_TEST(a_byte_that_ends_a_line_is_one_token)
{
	struct tokens tokens = {0};
	size_t bad = 0;

	tokens_cut(&tokens, stops[_i].text, stops[_i].len, false);
	ck_assert_int_eq(tokens.at[tokens.len].kind, T_EOL);
	for (size_t i = 0; i < tokens.len; i++) {
		if (tokens.at[i].kind != T_BAD ||
		    tokens.at[i].id != RULE_SYNTAX)
			continue;
		bad++;
		ck_assert_uint_eq(tokens.at[i].beg, stops[_i].bad);
		ck_assert(tokens.at[i].stops);
	}
	ck_assert_uint_eq(bad, 1);
	tokens_free(&tokens);
}
END_TEST

Suite *
syntax_words_suite(void)
{
	Suite *suite = suite_create("syntax: words");
	TCase *slip = tcase_create("slips");

	tcase_add_loop_test(
	    slip, a_slip_is_answered, 0, (int)(sizeof(slips) / sizeof(*slips)));
	tcase_add_loop_test(slip, a_byte_that_ends_a_line_is_one_token, 0,
	    (int)(sizeof(stops) / sizeof(*stops)));
	suite_add_tcase(suite, slip);
	return suite;
}
