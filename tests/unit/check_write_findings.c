/*
 * Findings as text and as JSON, and the pieces of JSON.
 */
#include "write/findings.h"
#include "write/json.h"
#include "write_note.h"

/* --- JSON -------------------------------------------------------------------
 */

static const struct {
	const char *text;
	const char *json;
} strings[] = {
    {"", "\"\""},
    {"knee", "\"knee\""},
    {"a\"b\\c", "\"a\\\"b\\\\c\""},
    {"a\nb\tc", "\"a\\nb\\tc\""},
    {"\x01\x1b[m\x7f", "\"\\u0001\\u001b[m\\u007f\""},
    {"\xc2\x9b", "\"\\u009b\""},
    {"8\xc2\xb0", "\"8\xc2\xb0\""},
    {"a\xff"
     "b\xc3",
	"\"a\xef\xbf\xbd"
	"b\xef\xbf\xbd\""},
    {"\xed\xa0\x80", "\"\xef\xbf\xbd\xef\xbf\xbd\xef\xbf\xbd\""},
};

START_TEST(json_strings_are_valid)
{
	struct buffer out = {0};

	json_puts(&out, strings[_i].text);
	check_text(&out, strings[_i].json);
	buffer_free(&out);
}
END_TEST

START_TEST(json_places_its_commas)
{
	struct buffer out = {0};

	buffer_putc(&out, '{');
	json_text_of(&out, "a", "x");
	json_uint_of(&out, "b", 1);
	json_name(&out, "c");
	buffer_putc(&out, '[');
	json_item(&out);
	json_hundredths(&out, -50);
	json_item(&out);
	json_puts(&out, "[");
	buffer_puts(&out, "]");
	json_text_of(&out, "d", NULL);
	buffer_puts(&out, "}\n");
	json_item(&out);
	check_text(
	    &out, "{\"a\":\"x\",\"b\":1,\"c\":[-0.5,\"[\"],\"d\":null}\n");
	buffer_free(&out);
}
END_TEST

/* --- findings ---------------------------------------------------------------
 */

static void
check_finding(struct note *n, const struct finding *f,
    struct findings_style style, const char *expected)
{
	n->out.len = 0;
	findings_write(&n->out, n->s.file, f, &style);
	check_text(&n->out, expected);
}

START_TEST(findings_show_the_line_and_what_to_do)
{
	struct note *n = note_new();
	struct finding *f = find(
	    n, RULE_OFF_SCALE, "knee flexion R A 0-52", 17, 21, NO_READING);

	sink_hint(&n->sink, f, "was it %s?", "estimated");
	check_finding(n, f, (struct findings_style){0},
	    "clinic.range:12:18: warning: a message [off-scale]\n"
	    "    knee flexion R A 0-52\n"
	    "                     ^~~~\n"
	    "  note: was it estimated?\n");
	check_finding(n, f, (struct findings_style){.brief = true},
	    "clinic.range:12:18: warning: a message [off-scale]\n");
	check_finding(n, f, (struct findings_style){.json = true},
	    "{\"file\":\"clinic.range\",\"line\":12,\"column\":18,"
	    "\"end_line\":12,\"end_column\":22,\"level\":\"warning\","
	    "\"rule\":\"off-scale\",\"message\":\"a message\","
	    "\"hint\":\"was it estimated?\"}\n");
	check_finding(n, f,
	    (struct findings_style){.brief = true, .colour = true},
	    "\033[1mclinic.range:12:18:\033[0m \033[1;35mwarning:\033[0m "
	    "a message \033[2m[off-scale]\033[0m\n");
	note_free(n);
}
END_TEST

START_TEST(findings_count_the_lines_that_were_lost)
{
	struct note *n = note_new();
	struct finding *f =
	    find(n, RULE_UNKNOWN_WORD, "knew R A 0-52", 0, 4, NO_READING);

	f->unread = 1;
	check_finding(n, f, (struct findings_style){.brief = true},
	    "clinic.range:12:1: error: a message; 1 more line that continues "
	    "it was not read [unknown-word]\n");
	f->unread = 3;
	check_finding(n, f, (struct findings_style){.json = true},
	    "{\"file\":\"clinic.range\",\"line\":12,\"column\":1,"
	    "\"end_line\":12,\"end_column\":5,\"level\":\"error\","
	    "\"rule\":\"unknown-word\",\"message\":\"a message; 3 more lines "
	    "that continue it were not read\",\"hint\":\"\"}\n");
	note_free(n);
}
END_TEST

/* Source lines, spans, and the two lines that are shown of them. */
static const struct {
	const char *line;
	uint32_t beg, end;
	const char *shown;
} spans[] = {
    {"\tknee\tR A", 6, 7, "    \tknee\tR A\n    \t    \t^\n"},
    {"knee R", 6, 6, "    knee R\n          ^\n"},
    {"knee R", 9, 12, "    knee R\n          ^\n"},
    /* wide letters take two cells, combining marks none */
    {"\"\xe8\x86\x9d\" R", 6, 7, "    \"\xe8\x86\x9d\" R\n         ^\n"},
    {"\xe8\x86\x9d R", 0, 3, "    \xe8\x86\x9d R\n    ^~\n"},
    {"e\xcc\x81 R", 4, 5, "    e\xcc\x81 R\n      ^\n"},
    /* nothing that a terminal obeys gets through */
    {"a\x1b[2J\xc2\x9b"
     "b\xff R",
	10, 11,
	"    a\xef\xbf\xbd[2J\xef\xbf\xbd"
	"b\xef\xbf\xbd R\n"
	"             ^\n"},
    {"\xe2\x80\xae"
     "abc",
	3, 6,
	"    \xef\xbf\xbd"
	"abc\n     ^~~\n"},
    /* a tab within the span: 4 + "a" + tab to 8 + "b" */
    {"a\tb", 0, 3, "    a\tb\n    ^~~~~\n"},
};

START_TEST(findings_underline_the_span)
{
	struct note *n = note_new();
	struct finding *f = find(n, RULE_SYNTAX, spans[_i].line, spans[_i].beg,
	    spans[_i].end, NO_READING);
	struct buffer expected = {0};
	char *text;

	buffer_printf(&expected,
	    "clinic.range:12:%u: error: a message [syntax]\n%s",
	    spans[_i].beg + 1, spans[_i].shown);
	text = mem_text(expected.data, expected.len);
	check_finding(n, f, (struct findings_style){0}, text);
	free(text);
	buffer_free(&expected);
	note_free(n);
}
END_TEST

START_TEST(findings_cut_a_long_line_around_the_span)
{
	struct note *n = note_new();
	char line[1001], shown[400], *second;
	struct finding *f;

	for (int i = 0; i < 1000; i++)
		line[i] = (char)('a' + i % 26);
	line[1000] = '\0';
	f = find(n, RULE_SYNTAX, line, 500, 503, NO_READING);
	findings_write(&n->out, "f", f, &(struct findings_style){0});
	snprintf(shown, sizeof(shown), "    ...%.120s...\n%47s^~~\n",
	    line + 460, "");
	check_holds(&n->out, shown);
	n->out.len = 0;
	f = find(n, RULE_SYNTAX, line, 998, 1000, NO_READING);
	findings_write(&n->out, "f", f, &(struct findings_style){0});
	snprintf(shown, sizeof(shown), "    ...%s\n%47s^~\n", line + 958, "");
	check_holds(&n->out, shown);
	n->out.len = 0;
	f = find(n, RULE_SYNTAX, line, 3, 900, NO_READING);
	findings_write(&n->out, "f", f, &(struct findings_style){0});
	snprintf(shown, sizeof(shown), "    %.120s...\n       ^~", line);
	check_holds(&n->out, shown);
	second = memchr(n->out.data, '^', n->out.len);
	ck_assert_ptr_nonnull(second);
	ck_assert_uint_eq((size_t)(n->out.data + n->out.len - second), 117 + 1);
	note_free(n);
}
END_TEST

START_TEST(findings_keep_bad_bytes_from_the_terminal)
{
	struct note *n = note_new();
	struct place place = {1, 0, 1, "x", 1};
	struct finding *f = sink_add(&n->sink, RULE_UNKNOWN_WORD, &place,
	    NO_READING, "what is \"%s\"", "\x1b[2J\xff\tz");

	n->s.file = "a\nb\x1b\xff.range";
	check_finding(n, f, (struct findings_style){.brief = true},
	    "a\xef\xbf\xbd"
	    "b\xef\xbf\xbd\xef\xbf\xbd.range:1:1: error: what "
	    "is \"\xef\xbf\xbd[2J\xef\xbf\xbd z\" [unknown-word]\n");
	note_free(n);
}
END_TEST

START_TEST(findings_without_message_show_the_title)
{
	struct note *n = note_new();
	struct finding *f;

	n->sink.names_only = true;
	f = find(n, RULE_OFF_SCALE, "x", 0, 1, 0);
	check_finding(n, f, (struct findings_style){0},
	    "clinic.range:12:1: warning: a value that the instrument cannot "
	    "show [off-scale]\n");
	note_free(n);
}
END_TEST

START_TEST(findings_accepted_or_off_are_not_shown)
{
	struct finding f = {.level = LEVEL_WARNING};

	ck_assert(findings_shown(&f));
	f.accepted = true;
	ck_assert(!findings_shown(&f));
	f = (struct finding){.level = LEVEL_OFF};
	ck_assert(!findings_shown(&f));
}
END_TEST

TCase *
write_findings_case(void)
{
	TCase *tc = tcase_create("findings");

	tcase_add_loop_test(tc, json_strings_are_valid, 0, COUNT(strings));
	tcase_add_test(tc, json_places_its_commas);
	tcase_add_test(tc, findings_show_the_line_and_what_to_do);
	tcase_add_test(tc, findings_count_the_lines_that_were_lost);
	tcase_add_loop_test(tc, findings_underline_the_span, 0, COUNT(spans));
	tcase_add_test(tc, findings_cut_a_long_line_around_the_span);
	tcase_add_test(tc, findings_keep_bad_bytes_from_the_terminal);
	tcase_add_test(tc, findings_without_message_show_the_title);
	tcase_add_test(tc, findings_accepted_or_off_are_not_shown);
	return tc;
}
