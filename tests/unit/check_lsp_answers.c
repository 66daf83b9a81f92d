/*
 * What the language server answers about notes in which one place speaks of
 * several readings: each answer must say of which one it is.
 */
#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "lsp/lsp.h"
#include "text/date.h"
#include "text/mem.h"

Suite *lsp_answers_suite(void);

#define HEAD                                                                   \
	"subject T1\ninvolved right\nrater dk\n"                               \
	"instrument goniometer step 1\nsession 2026-05-04\n"

static void
feed(struct lsp *lsp, const char *body)
{
	char head[64];

	snprintf(
	    head, sizeof(head), "Content-Length: %zu\r\n\r\n", strlen(body));
	lsp_feed(lsp, head, strlen(head));
	lsp_feed(lsp, body, strlen(body));
}

/* A note has neither quotes nor backslashes here. */
static void
open_note(struct lsp *lsp, const char *note)
{
	struct buffer body = {0};

	buffer_puts(&body,
	    "{\"jsonrpc\":\"2.0\",\"method\":\"textDocument/didOpen\","
	    "\"params\":{\"textDocument\":{\"uri\":\"u\",\"version\":1,"
	    "\"languageId\":\"range\",\"text\":\"");
	for (; *note; note++)
		buffer_puts(&body, *note == '\n' ? "\\n" : (char[]){*note, 0});
	buffer_puts(&body, "\"}}}");
	buffer_putc(&body, '\0');
	feed(lsp, body.data);
	buffer_free(&body);
}

/*
 * All that is answered to METHOD with PARAMS about NOTE, NUL-terminated; the
 * caller frees it.
 */
static char *
ask(const char *note, const char *method, const char *params)
{
	struct lsp_options options = {.tolerance = 50, .version = "test"};
	struct buffer body = {0};
	struct lsp *lsp;
	char *text;

	date_parse("2026-06-01", 10, &options.today);
	for (int i = 0; i < RULE_COUNT; i++)
		options.levels[i] = rule_table[i].level;
	lsp = lsp_new(&options);
	feed(lsp, "{\"jsonrpc\":\"2.0\",\"id\":1,\"method\":\"initialize\","
		  "\"params\":{\"capabilities\":{\"textDocument\":{"
		  "\"publishDiagnostics\":{\"relatedInformation\":true}}},"
		  "\"initializationOptions\":{\"inlayHints\":true}}}");
	open_note(lsp, note);
	buffer_printf(&body,
	    "{\"jsonrpc\":\"2.0\",\"id\":2,\"method\":\"%s\",\"params\":"
	    "{\"textDocument\":{\"uri\":\"u\"},%s}}",
	    method, params);
	buffer_putc(&body, '\0');
	feed(lsp, body.data);
	buffer_free(&body);
	while (lsp_step(lsp))
		;
	text = mem_text(lsp_output(lsp)->data, lsp_output(lsp)->len);
	lsp_free(lsp);
	return text;
}

static char *
hints(const char *note)
{
	return ask(note, "textDocument/inlayHint",
	    "\"range\":{\"start\":{\"line\":0,\"character\":0},"
	    "\"end\":{\"line\":99,\"character\":0}}");
}

static size_t
times(const char *text, const char *word)
{
	size_t n = 0;

	while ((text = strstr(text, word))) {
		text += strlen(word);
		n++;
	}
	return n;
}

/* --- inlay hints --- */

START_TEST(hints_of_a_hinge_name_the_motion)
{
	char *text = hints(HEAD "knee R A 5-118 L A 3-0-140\n");

	ck_assert_uint_eq(times(text, "\"label\""), 2);
	ck_assert_uint_eq(
	    times(text, "\"label\":\"flexion, right less left -22\""), 1);
	ck_assert_uint_eq(
	    times(text, "\"label\":\"extension, right less left -8\""), 1);
	free(text);
}
END_TEST

START_TEST(what_has_no_mode_is_compared_once)
{
	char *text = hints(HEAD "knee flexion R fixed 30 L fixed 20\n");

	ck_assert_uint_eq(times(text, "\"label\""), 1);
	ck_assert_uint_eq(times(text, "\"label\":\"right less left +10\""), 1);
	free(text);
}
END_TEST

START_TEST(what_has_no_mode_names_those_it_is_held_against)
{
	char *text = hints(HEAD "knee flexion L A 0-120 P 0-125 R fixed 30\n");

	ck_assert_uint_eq(times(text, "right less left"), 2);
	ck_assert_uint_eq(
	    times(text, "\"label\":\"active, right less left -90\""), 1);
	ck_assert_uint_eq(
	    times(text, "\"label\":\"passive, right less left -95\""), 1);
	free(text);
}
END_TEST

/* --- hover --- */

/* Over the first WORD of the last line of HEAD with LINE. */
static char *
hover(const char *line, const char *word)
{
	struct buffer note = {0};
	char params[96], *text;

	buffer_puts(&note, HEAD);
	buffer_puts(&note, line);
	buffer_putc(&note, '\0');
	snprintf(params, sizeof(params),
	    "\"position\":{\"line\":5,\"character\":%zu}",
	    (size_t)(strstr(line, word) - line));
	text = ask(note.data, "textDocument/hover", params);
	buffer_free(&note);
	return text;
}

/* Of a digit line with several joints, each tells of itself. */
START_TEST(hover_is_about_the_joint_under_the_cursor)
{
	static const char line[] = "index R A MCP 11-0-72 PIP 14-86 DIP 4-41\n";
	static const char *const parts[] = {"MCP", "PIP", "DIP"};
	char *text, own[32];

	for (int i = 0; i < 3; i++) {
		text = hover(line, parts[i]);
		for (int k = 0; k < 3; k++) {
			snprintf(
			    own, sizeof(own), "index %s flexion\\n", parts[k]);
			ck_assert_uint_eq(times(text, own), i == k);
		}
		free(text);
	}
	text = hover(line, "index");
	ck_assert_uint_eq(times(text, "How it is measured"), 0);
	free(text);
	text = hover("index MCP R A 11-0-72\n", "index");
	ck_assert_uint_eq(times(text, "index MCP flexion\\n"), 1);
	free(text);
}
END_TEST

START_TEST(hover_calls_measured_what_was)
{
	char *text = hover("knee flexion R A 5-118\n", "5-118");

	ck_assert_uint_eq(times(text, "- measured: 5-118"), 1);
	free(text);
	text = hover("knee flexion R A 5-118 L WNL\n", "WNL");
	ck_assert_uint_eq(times(text, "measured:"), 0);
	ck_assert_uint_eq(times(text, "- written: WNL"), 1);
	free(text);
	text = hover("knee flexion R A 5-118 L NT\n", "NT");
	ck_assert_uint_eq(times(text, "measured:"), 0);
	ck_assert_uint_eq(times(text, "- written: NT"), 1);
	free(text);
}
END_TEST

START_TEST(lengths_are_told_in_the_unit_of_both)
{
	char *text =
	    hints(HEAD "ring tip-to-crease R A 2.3 cm P 20 mm L A 5 mm\n");

	ck_assert_uint_eq(
	    times(text, "\"label\":\"right less left +18 mm\""), 1);
	ck_assert_uint_eq(
	    times(text, "\"label\":\"passive less active -3 mm\""), 1);
	free(text);
	text = hover("ring tip-to-crease R A 2.3 cm P 20 mm L A 5 mm\n", "2.3");
	ck_assert_uint_eq(times(text, "right less left +18 mm"), 1);
	ck_assert_uint_eq(times(text, "passive less active: -3 mm"), 1);
	free(text);
}
END_TEST

/* A difference between two raters or postures is not told as one of one. */
START_TEST(hover_says_what_was_otherwise)
{
	char *text = hover("knee flexion R A supine 5-118 by bb\n"
			   "knee flexion L A prone 0-140 with inclinometer\n",
	    "5-118");

	ck_assert_uint_eq(times(text, "- left: 0-140, prone, by dk, with "
				      "inclinometer; right less left -22"),
	    1);
	free(text);
	text = hover("knee flexion R A 5-118 L A 0-140\n", "5-118");
	ck_assert_uint_eq(times(text, "- left: 0-140; right less left -22"), 1);
	free(text);
	text = hover("knee flexion R A 5-118 by bb\n"
		     "session 2026-05-11\n"
		     "knee flexion R A 5-120\n",
	    "5-118");
	ck_assert_uint_eq(times(text, "last session"), 0);
	free(text);
	text = ask(HEAD "knee flexion R A 5-118 by bb\n"
			"session 2026-05-11\n"
			"knee flexion R A 5-120\n",
	    "textDocument/hover", "\"position\":{\"line\":7,\"character\":18}");
	ck_assert_uint_eq(
	    times(
		text, "- last session: 5-118 on 2026-05-04, by bb; change +2"),
	    1);
	free(text);
}
END_TEST

/* --- what else a finding speaks of --- */

/* The other place that the finding of RULE names, "line:character". */
static const char *
other_of(const char *note, const char *rule, char place[16])
{
	char *text = ask(note, "textDocument/foldingRange", "\"x\":0");
	char code[64], *at;
	int line = -1, character = -1;

	snprintf(code, sizeof(code), "\"code\":\"%s\"", rule);
	at = strstr(text, code);
	ck_assert_ptr_nonnull(at);
	at = strstr(at, "\"relatedInformation\"");
	ck_assert_ptr_nonnull(at);
	at = strstr(at, "{\"line\":");
	ck_assert_int_eq(
	    sscanf(at, "{\"line\":%d,\"character\":%d", &line, &character), 2);
	snprintf(place, 16, "%d:%d", line, character);
	free(text);
	return place;
}

START_TEST(the_other_reading_is_the_one_that_was_compared)
{
	char place[16];

	/* Assisted motion stands between, of which the rule does not speak. */
	ck_assert_str_eq(
	    other_of(HEAD "knee flexion R P 0-100 firm AA 0-120 A 0-130\n",
		"passive-below-active", place),
	    "5:17");
	ck_assert_str_eq(other_of(HEAD "knee flexion R A 0-130\n"
				       "knee flexion R A 0-131 by else\n"
				       "knee flexion R A 0-132\n",
			     "repeated-reading", place),
	    "5:17");
}
END_TEST

START_TEST(the_precaution_is_the_one_that_was_exceeded)
{
	char place[16];

	ck_assert_str_eq(other_of(HEAD "precaution right knee flexion max 90\n"
				       "precaution right knee flexion max 40\n"
				       "knee flexion R P 0-50 firm\n",
			     "precaution-exceeded", place),
	    "6:0");
	/* By the axis: one who starts at 20 was 20 short of straight. */
	ck_assert_str_eq(
	    other_of(HEAD "precaution right knee flexion max 90\n"
			  "precaution right knee extension max lacks 30\n"
			  "knee flexion R P 20-50 firm\n",
		"precaution-exceeded", place),
	    "6:0");
}
END_TEST

/* --- quick fixes --- */

/* Passive is 10 less than active; behind that comes COMMENT. */
static char *
fixes(const char *comment)
{
	struct buffer note = {0};
	char *text;

	buffer_puts(&note, HEAD "knee flexion R A 0-100 P 0-90 firm  ");
	buffer_puts(&note, comment);
	buffer_puts(&note, "\n");
	buffer_putc(&note, '\0');
	text = ask(note.data, "textDocument/codeAction",
	    "\"range\":{\"start\":{\"line\":5,\"character\":0},"
	    "\"end\":{\"line\":5,\"character\":30}},"
	    "\"context\":{\"diagnostics\":[]}");
	buffer_free(&note);
	return text;
}

/*
 * A rule name goes into a comment that accepts; into prose it would accept
 * nothing, so there a line of its own comes above.
 */
START_TEST(acceptances_go_where_they_are_read)
{
	static const struct {
		const char *comment;
		bool accepts;
	} notes[] = {{"# accept off-scale: so it is", true},
	    {"# accept off-scale", true},
	    {"#accept off-scale , unusual-angle:", true},
	    {"# accept off-scale guarded", false},
	    {"# accept off-scale, : so it is", false},
	    {"# accept: so it is", false}, {"# accepted: so it is", false},
	    {"# accept Off-scale: so it is", false}};

	for (size_t i = 0; i < sizeof(notes) / sizeof(*notes); i++) {
		char *text = fixes(notes[i].comment);

		ck_assert_uint_eq(
		    times(text, "\"newText\":\", passive-below-active\""),
		    notes[i].accepts);
		ck_assert_uint_eq(times(text, "\"newText\":\"# accept "
					      "passive-below-active: \\n\""),
		    !notes[i].accepts);
		free(text);
	}
}
END_TEST

/* --- summary --- */

/* Asked for in the headers of a person, it is that person's. */
START_TEST(summary_is_of_the_person_at_the_place)
{
	static const char note[] = "subject T1\n"
				   "session 2026-05-04\n"
				   "knee R A 5-118\n"
				   "session 2026-05-11\n"
				   "knee R A 5-120\n"
				   "subject T2\n"
				   "involved right knee\n"
				   "session 2026-05-05\n"
				   "knee R A 5-119\n";
	static const char *const is[] = {"T1, session 2026-05-04",
	    "T1, session 2026-05-04", "T1, session 2026-05-04",
	    "T1, session 2026-05-11", "T1, session 2026-05-11",
	    "T2, session 2026-05-05", "T2, session 2026-05-05",
	    "T2, session 2026-05-05", "T2, session 2026-05-05"};
	char params[96], *text;

	for (int line = 0; line < 9; line++) {
		snprintf(params, sizeof(params),
		    "\"command\":\"rangeline.summary\","
		    "\"arguments\":[\"u\",%d]",
		    line);
		text = ask(note, "workspace/executeCommand", params);
		ck_assert_uint_eq(times(text, ", session 2026"), 1);
		ck_assert_msg(
		    strstr(text, is[line]) != NULL, "%d: %s", line, text);
		free(text);
	}
}
END_TEST

Suite *
lsp_answers_suite(void)
{
	Suite *s = suite_create("lsp answers");
	TCase *tc = tcase_create("several readings at one place");

	tcase_add_test(tc, hints_of_a_hinge_name_the_motion);
	tcase_add_test(tc, what_has_no_mode_is_compared_once);
	tcase_add_test(tc, lengths_are_told_in_the_unit_of_both);
	tcase_add_test(tc, what_has_no_mode_names_those_it_is_held_against);
	tcase_add_test(tc, hover_is_about_the_joint_under_the_cursor);
	tcase_add_test(tc, hover_calls_measured_what_was);
	tcase_add_test(tc, the_other_reading_is_the_one_that_was_compared);
	tcase_add_test(tc, the_precaution_is_the_one_that_was_exceeded);
	tcase_add_test(tc, summary_is_of_the_person_at_the_place);
	tcase_add_test(tc, acceptances_go_where_they_are_read);
	tcase_add_test(tc, hover_says_what_was_otherwise);
	suite_add_tcase(s, tc);
	return s;
}
