/*
 * The language server without a client: the order of its answers, and a
 * recorded session that is played again.
 */
#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "lsp/lsp.h"
#include "text/date.h"
#include "text/mem.h"

Suite *lsp_server_suite(void);

static struct lsp *
server_at(enum level missing_header)
{
	struct lsp_options options = {.tolerance = 50, .version = "recorded"};

	date_parse("2026-06-01", 10, &options.today);
	for (int i = 0; i < RULE_COUNT; i++)
		options.levels[i] = LEVEL_UNSET;
	options.levels[RULE_MISSING_HEADER] = missing_header;
	return lsp_new(&options);
}

static struct lsp *
server(void)
{
	return server_at(LEVEL_UNSET);
}

static void
feed(struct lsp *lsp, const char *body)
{
	char head[64];

	snprintf(
	    head, sizeof(head), "Content-Length: %zu\r\n\r\n", strlen(body));
	lsp_feed(lsp, head, strlen(head));
	lsp_feed(lsp, body, strlen(body));
}

/* All that it answers, NUL-terminated; the caller frees it. */
static char *
answers(struct lsp *lsp)
{
	struct buffer *out = lsp_output(lsp);
	char *text;

	while (lsp_step(lsp))
		;
	text = mem_text(out->len ? out->data : "", out->len);
	out->len = 0;
	return text;
}

static const char initialize[] =
    "{\"jsonrpc\":\"2.0\",\"id\":1,\"method\":\"initialize\","
    "\"params\":{\"capabilities\":{}}}";

static void
open_note(struct lsp *lsp, const char *text)
{
	char body[512];

	snprintf(body, sizeof(body),
	    "{\"jsonrpc\":\"2.0\",\"method\":\"textDocument/didOpen\","
	    "\"params\":{\"textDocument\":{\"uri\":\"u\",\"languageId\":\"\","
	    "\"version\":1,\"text\":\"%s\"}}}",
	    text);
	feed(lsp, body);
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

START_TEST(edits_that_wait_are_judged_once)
{
	struct lsp *lsp = server();
	char *text;

	feed(lsp, initialize);
	free(answers(lsp));
	open_note(lsp, "knee");
	for (int version = 2; version < 50; version++) {
		char body[256];

		snprintf(body, sizeof(body),
		    "{\"jsonrpc\":\"2.0\",\"method\":"
		    "\"textDocument/didChange\",\"params\":{\"textDocument\":"
		    "{\"uri\":\"u\",\"version\":%d},\"contentChanges\":[{"
		    "\"text\":\"knee %d\"}]}}",
		    version, version);
		feed(lsp, body);
	}
	text = answers(lsp);
	ck_assert_uint_eq(times(text, "publishDiagnostics"), 1);
	ck_assert_uint_eq(times(text, "\"version\":49"), 1);
	free(text);
	lsp_free(lsp);
}
END_TEST

/* What is asked holds, also where it is what the catalogue says. */
START_TEST(a_level_is_held_to)
{
	static const enum level asked[] = {LEVEL_UNSET, LEVEL_WARNING};
	static const size_t warnings[] = {2, 4};

	for (int i = 0; i < 2; i++) {
		struct lsp *lsp = server_at(asked[i]);
		char *text;

		feed(lsp, initialize);
		free(answers(lsp));
		open_note(lsp, "session 2026-05-04\\nknee R A 0-120\\n");
		text = answers(lsp);
		ck_assert_uint_eq(times(text, "\"missing-header\""), 4);
		ck_assert_uint_eq(
		    times(text, "\"severity\":2,\"code\":\"missing-header\""),
		    warnings[i]);
		free(text);
		lsp_free(lsp);
	}
}
END_TEST

START_TEST(requests_that_wait_come_before_findings)
{
	struct lsp *lsp = server();
	char *text;

	feed(lsp, initialize);
	open_note(lsp, "knee");
	feed(lsp, "{\"jsonrpc\":\"2.0\",\"id\":2,\"method\":"
		  "\"textDocument/foldingRange\",\"params\":{\"textDocument\":{"
		  "\"uri\":\"u\"}}}");
	text = answers(lsp);
	ck_assert_ptr_nonnull(strstr(text, "\"id\":2"));
	ck_assert(
	    strstr(text, "\"id\":2") < strstr(text, "publishDiagnostics"));
	free(text);
	lsp_free(lsp);
}
END_TEST

/* Bytes that do not belong are a finding, never a note that is not opened. */
static const struct {
	const char *text;
	const char *says; /* the range and the rule of the first finding */
} odd_bytes[] = {
    {"knee \\u0000", "[{\"range\":{\"start\":{\"line\":0,\"character\":5},"
		     "\"end\":{\"line\":0,\"character\":6}},"
		     "\"severity\":1,\"code\":\"encoding\""},
    {"\\ud800 knee", "[{\"range\":{\"start\":{\"line\":0,\"character\":0},"
		     "\"end\":{\"line\":0,\"character\":1}},"
		     "\"severity\":1,\"code\":\"unknown-word\""},
    {"remark \\\"\\ud83e \\udd00\\\" knee",
	"[{\"range\":{\"start\":{\"line\":0,\"character\":13},"
	"\"end\":{\"line\":0,\"character\":17}},"
	"\"severity\":1,\"code\":\"syntax\""},
};

START_TEST(bytes_that_do_not_belong_are_a_finding)
{
	struct lsp *lsp = server();
	char change[256], *text;

	feed(lsp, initialize);
	free(answers(lsp));
	open_note(lsp, odd_bytes[_i].text);
	text = answers(lsp);
	ck_assert_msg(
	    strstr(text, odd_bytes[_i].says) != NULL, "opened: %s", text);
	free(text);
	open_note(lsp, "");
	free(answers(lsp));
	snprintf(change, sizeof(change),
	    "{\"jsonrpc\":\"2.0\",\"method\":\"textDocument/didChange\","
	    "\"params\":{\"textDocument\":{\"uri\":\"u\",\"version\":2},"
	    "\"contentChanges\":[{\"text\":\"%s\"}]}}",
	    odd_bytes[_i].text);
	feed(lsp, change);
	text = answers(lsp);
	ck_assert_msg(
	    strstr(text, odd_bytes[_i].says) != NULL, "changed: %s", text);
	free(text);
	lsp_free(lsp);
}
END_TEST

/* What standard error would say, NUL-terminated; the caller frees it. */
static char *
troubles(struct lsp *lsp)
{
	struct buffer *said = lsp_troubles(lsp);
	char *text = mem_text(said->len ? said->data : "", said->len);

	said->len = 0;
	return text;
}

static const struct {
	const char *bytes;
	const char *says;
} unreadable[] = {
    {"Content-Length: 1\r\nContent-Length: 2\r\n\r\n{}",
	"its header says two lengths that differ"},
    {"Content-Length: two\r\n\r\n{}",
	"its header says a length that is no number"},
    {"Content-Length: 1\r\n\r\n{", "it cannot be read as JSON in UTF-8"},
    {"Content-Length: 3\r\n\r\n\"\xff\"", "it cannot be read as JSON in UTF-8"},
    {"Content-Length: 13\r\n\r\n{\"\\u0000\":{}}",
	"it cannot be read as JSON in UTF-8"},
};

START_TEST(a_message_that_is_lost_is_told_to_all)
{
	struct lsp *lsp = server();
	char *text, *said;

	feed(lsp, initialize);
	free(answers(lsp));
	lsp_feed(lsp, unreadable[_i].bytes, strlen(unreadable[_i].bytes));
	text = answers(lsp);
	said = troubles(lsp);
	ck_assert_uint_eq(times(text, "\"id\":null,\"error\""), 1);
	ck_assert_uint_eq(times(text, "\"window/showMessage\""), 1);
	ck_assert_uint_eq(times(text, "\"window/logMessage\""), 1);
	ck_assert_uint_eq(times(text, unreadable[_i].says), 2);
	ck_assert_uint_eq(times(said, unreadable[_i].says), 1);
	ck_assert_uint_eq(
	    times(said, "rangeline: language-server: a message was passed"), 1);
	free(text);
	free(said);
	/* And nothing else is lost. */
	open_note(lsp, "knee \\u0000");
	text = answers(lsp);
	ck_assert_uint_eq(times(text, "\"encoding\""), 1);
	ck_assert_uint_eq(lsp_troubles(lsp)->len, 0);
	free(text);
	lsp_free(lsp);
}
END_TEST

START_TEST(rubbish_does_not_fill_a_log)
{
	struct lsp *lsp = server();
	char *said, *text;

	feed(lsp, initialize);
	for (int i = 0; i < 1000; i++)
		feed(lsp, "{");
	text = answers(lsp);
	said = troubles(lsp);
	ck_assert_uint_eq(times(text, "\"window/showMessage\""), 1000);
	ck_assert_uint_eq(times(said, "\n"), 16);
	free(said);
	lsp_feed(lsp, "Content-Length: 9\r\n\r\n{", 22);
	ck_assert_int_eq(lsp_end(lsp), 1);
	said = troubles(lsp);
	ck_assert_uint_eq(times(said, "in the middle of a message"), 1);
	free(said);
	free(text);
	lsp_free(lsp);
}
END_TEST

START_TEST(an_end_without_exit)
{
	static const char shutdown[] =
	    "{\"jsonrpc\":\"2.0\",\"id\":2,\"method\":\"shutdown\"}";
	struct lsp *lsp = server();

	feed(lsp, initialize);
	free(answers(lsp));
	ck_assert_int_eq(lsp_end(lsp), 1);
	ck_assert_uint_eq(lsp_troubles(lsp)->len, 0);
	feed(lsp, shutdown);
	free(answers(lsp));
	ck_assert_int_eq(lsp_end(lsp), 0);
	ck_assert_uint_eq(lsp_troubles(lsp)->len, 0);
	lsp_feed(lsp, "Content-", 8);
	ck_assert_int_eq(lsp_end(lsp), 1);
	ck_assert_uint_gt(lsp_troubles(lsp)->len, 0);
	lsp_free(lsp);
}
END_TEST

START_TEST(it_is_busy_before_it_is_full)
{
	struct lsp *lsp = server();

	for (int i = 0; i < 1000 && !lsp_is_busy(lsp); i++)
		feed(lsp, initialize);
	ck_assert(lsp_is_busy(lsp));
	while (lsp_step(lsp))
		;
	ck_assert(!lsp_is_busy(lsp));
	lsp_free(lsp);
}
END_TEST

START_TEST(it_ends_with_what_waits_unread)
{
	struct lsp *lsp = server();

	feed(lsp, initialize);
	feed(lsp, "{\"jsonrpc\":\"2.0\",\"method\":\"exit\"}");
	feed(lsp, initialize);
	ck_assert_int_eq(lsp_status(lsp), -1);
	free(answers(lsp));
	ck_assert_int_eq(lsp_status(lsp), 1);
	ck_assert(!lsp_step(lsp));
	lsp_free(lsp);
}
END_TEST

START_TEST(a_cancellation_overtakes_its_request_alone)
{
	static const char request[] =
	    "{\"jsonrpc\":\"2.0\",\"id\":%s,\"method\":\"none\"}";
	struct lsp *lsp = server();
	char body[128], *text;

	feed(lsp, initialize);
	snprintf(body, sizeof(body), request, "5");
	feed(lsp, body);
	snprintf(body, sizeof(body), request, "\"5\"");
	feed(lsp, body);
	feed(lsp, "{\"jsonrpc\":\"2.0\",\"method\":\"$/cancelRequest\","
		  "\"params\":{\"id\":5}}");
	text = answers(lsp);
	ck_assert_uint_eq(times(text, "-32800"), 1);
	ck_assert_uint_eq(times(text, "-32601"), 1);
	ck_assert(strstr(text, "-32800") < strstr(text, "-32601"));
	free(text);
	lsp_free(lsp);
}
END_TEST

/* --- a recorded session --- */

static const char recorded[] = "tests/lsp/session.txt";

/*
 * Lines that begin with `> ` are what an editor sent, those with `< ` what was
 * answered, all others prose. With RECORD set, a file of that name is written
 * with what is answered now, to be looked at.
 */
START_TEST(a_recorded_session)
{
	struct lsp *lsp = server();
	FILE *in = fopen(recorded, "r");
	const char *record = getenv("RECORD");
	FILE *out = record ? fopen(record, "w") : NULL;
	static char line[1 << 20];
	char *left = NULL, *at = NULL;
	int sent = 0, got = 0, number = 0;

	ck_assert_msg(in != NULL, "%s: run from the root", recorded);
	while (fgets(line, sizeof(line), in)) {
		number++;
		line[strcspn(line, "\n")] = '\0';
		if (out && strncmp(line, "< ", 2) != 0)
			fprintf(out, "%s\n", line);
		if (strncmp(line, "> ", 2) == 0) {
			ck_assert_msg(out || !at || !*at,
			    "line %d: answered and not recorded: %.300s",
			    number, at);
			free(left);
			feed(lsp, line + 2);
			at = left = answers(lsp);
			sent++;
			while (out && *at) {
				size_t n = strtoul(at + 16, NULL, 10);

				at = strstr(at, "\r\n\r\n") + 4;
				fprintf(out, "< %.*s\n", (int)n, at);
				at += n;
			}
		} else if (strncmp(line, "< ", 2) == 0 && !out) {
			size_t n;

			ck_assert_msg(at && *at,
			    "line %d: recorded and not answered", number);
			n = strtoul(at + 16, NULL, 10);
			at = strstr(at, "\r\n\r\n") + 4;
			ck_assert_msg(strlen(line + 2) == n &&
					  memcmp(line + 2, at, n) == 0,
			    "line %d: answered now: %.*s", number, (int)n, at);
			at += n;
			got++;
		}
	}
	ck_assert_msg(out || !at || !*at, "answered and not recorded: %s", at);
	ck_assert_int_eq(lsp_status(lsp), 0);
	ck_assert_int_ge(sent, 10);
	ck_assert_int_ge(got, out ? 0 : 10);
	free(left);
	fclose(in);
	if (out)
		fclose(out);
	lsp_free(lsp);
}
END_TEST

Suite *
lsp_server_suite(void)
{
	Suite *s = suite_create("lsp server");
	TCase *tc = tcase_create("messages");

	tcase_add_test(tc, edits_that_wait_are_judged_once);
	tcase_add_test(tc, a_level_is_held_to);
	tcase_add_test(tc, requests_that_wait_come_before_findings);
	tcase_add_loop_test(tc, bytes_that_do_not_belong_are_a_finding, 0,
	    (int)(sizeof(odd_bytes) / sizeof(*odd_bytes)));
	tcase_add_loop_test(tc, a_message_that_is_lost_is_told_to_all, 0,
	    (int)(sizeof(unreadable) / sizeof(*unreadable)));
	tcase_add_test(tc, rubbish_does_not_fill_a_log);
	tcase_add_test(tc, an_end_without_exit);
	tcase_add_test(tc, it_is_busy_before_it_is_full);
	tcase_add_test(tc, it_ends_with_what_waits_unread);
	tcase_add_test(tc, a_cancellation_overtakes_its_request_alone);
	tcase_add_test(tc, a_recorded_session);
	suite_add_tcase(s, tc);
	return s;
}
