/*
 * Findings as SARIF: addresses of files, columns, what a message may hold.
 * That the whole is SARIF is the business of tests/sarif.sh.
 */
#include "write/sarif.h"
#include "write_note.h"

Suite *sarif_suite(void);

static const struct {
	const char *file;
	const char *uri;
} files[] = {
    {"note.range", "note.range"},
    {"notes/may/note.range", "notes/may/note.range"},
    {"../note.range", "../note.range"},
    {"-", "-"},
    {"a b.range", "a%20b.range"},
    {"50%.range", "50%25.range"},
    {"a:b.range", "a%3Ab.range"},
    {"a?b#c.range", "a%3Fb%23c.range"},
    {"h\xc3\xbc"
     "fte.range",
	"h%C3%BCfte.range"},
    {"\xff\n.range", "%FF%0A.range"},
    {"/notes/a b.range", "file:///notes/a%20b.range"},
};

START_TEST(sarif_names_files_by_uri)
{
	struct buffer out = {0};

	sarif_uri(&out, files[_i].file);
	check_text(&out, files[_i].uri);
	buffer_free(&out);
}
END_TEST

/* The knee of the line below, bytes BEG up to END, and its columns. */
static const struct {
	const char *line;
	uint32_t beg, end;
	const char *region;
} places[] = {
    {"knew R A 0-52", 0, 4, "\"startColumn\":1,\"endLine\":12,\"endColumn\":5"},
    {"knee R A", 8, 8, "\"startColumn\":9,\"endLine\":12,\"endColumn\":9"},
    {"\"8\xc2\xb0\" knew", 6, 10,
	"\"startColumn\":6,\"endLine\":12,\"endColumn\":10"},
    {"\"\xe2\x89\xa5\" knew", 6, 10,
	"\"startColumn\":5,\"endLine\":12,\"endColumn\":9"},
    {"\"\xf0\x9f\xa6\xb5\" knew", 7, 11,
	"\"startColumn\":6,\"endLine\":12,\"endColumn\":10"},
    {"\xff\xfe knew", 3, 7, "\"startColumn\":4,\"endLine\":12,\"endColumn\":8"},
};

START_TEST(sarif_counts_columns_in_utf16)
{
	struct note *n = note_new();
	struct finding *f = find(n, RULE_UNKNOWN_WORD, places[_i].line,
	    places[_i].beg, places[_i].end, NO_READING);

	sarif_result(&n->out, n->s.file, f, true);
	check_holds(&n->out, "\"region\":{\"startLine\":12,");
	check_holds(&n->out, places[_i].region);
	note_free(n);
}
END_TEST

START_TEST(sarif_writes_a_result_a_line)
{
	struct note *n = note_new();
	struct finding *f =
	    find(n, RULE_UNKNOWN_WORD, "knew R A 0-52", 0, 4, NO_READING);
	char expected[512];

	f->unread = 1;
	sink_hint(&n->sink, f, "write knee");
	sarif_result(&n->out, n->s.file, f, true);
	snprintf(expected, sizeof(expected),
	    "\n{\"ruleId\":\"unknown-word\",\"ruleIndex\":%d,"
	    "\"level\":\"error\",\"message\":{\"text\":\"a message; 1 more "
	    "line that continues it was not read; write knee\"},"
	    "\"locations\":[{\"physicalLocation\":{\"artifactLocation\":"
	    "{\"uri\":\"clinic.range\"},\"region\":{\"startLine\":12,"
	    "\"startColumn\":1,\"endLine\":12,\"endColumn\":5}}}]}",
	    (int)RULE_UNKNOWN_WORD);
	check_text(&n->out, expected);
	n->out.len = 0;
	sarif_result(&n->out, n->s.file, f, false);
	ck_assert_mem_eq(n->out.data, ",\n{", 3);
	note_free(n);
}
END_TEST

START_TEST(sarif_suppresses_what_was_accepted)
{
	struct note *n = note_new();
	struct finding *f = find(
	    n, RULE_OFF_SCALE, "knee flexion R A 0-52", 17, 21, NO_READING);

	sarif_result(&n->out, n->s.file, f, true);
	ck_assert(!holds(&n->out, "suppressions"));
	f->accepted = true;
	n->out.len = 0;
	sarif_result(&n->out, n->s.file, f, true);
	check_holds(&n->out, "\"suppressions\":[{\"kind\":\"inSource\"}]}");
	note_free(n);
}
END_TEST

static const struct {
	const char *hint;
	const char *text;
} said[] = {
    {"write {0}", "a message; write {{0}}\"}"},
    {"[here](there)", "a message; \\\\[here\\\\](there)\"}"},
    {"pain N[/10]", "a message; pain N[/10]\"}"},
    {"a \"b\" \\", "a message; a \\\"b\\\" \\\\\"}"},
    {"\xff\033[m", "a message; \xef\xbf\xbd\xef\xbf\xbd[m\"}"},
};

START_TEST(sarif_messages_are_plain)
{
	struct note *n = note_new();
	struct finding *f = find(n, RULE_OFF_SCALE, "knee", 0, 4, NO_READING);

	sink_hint(&n->sink, f, "%s", said[_i].hint);
	sarif_result(&n->out, n->s.file, f, true);
	check_holds(&n->out, said[_i].text);
	note_free(n);
}
END_TEST

START_TEST(sarif_says_how_it_ended)
{
	struct buffer out = {0};

	sarif_begin(&out);
	check_holds(&out, "\"version\":\"2.1.0\"");
	check_holds(&out, "\"columnKind\":\"utf16CodeUnits\"");
	for (int i = 0; i < RULE_COUNT; i++) {
		char id[64];

		snprintf(
		    id, sizeof(id), "\n{\"id\":\"%s\",", rule_table[i].name);
		check_holds(&out, id);
	}
	out.len = 0;
	sarif_end(&out, 1, true);
	check_text(&out, "],\"invocations\":[{\"executionSuccessful\":true,"
			 "\"exitCode\":1}]}]}\n");
	out.len = 0;
	sarif_end(&out, 2, false);
	check_holds(&out, "\"executionSuccessful\":false,\"exitCode\":2");
	buffer_free(&out);
}
END_TEST

Suite *
sarif_suite(void)
{
	Suite *suite = suite_create("sarif");
	TCase *tc = tcase_create("sarif");

	tcase_add_loop_test(tc, sarif_names_files_by_uri, 0, COUNT(files));
	tcase_add_loop_test(
	    tc, sarif_counts_columns_in_utf16, 0, COUNT(places));
	tcase_add_test(tc, sarif_writes_a_result_a_line);
	tcase_add_test(tc, sarif_suppresses_what_was_accepted);
	tcase_add_loop_test(tc, sarif_messages_are_plain, 0, COUNT(said));
	tcase_add_test(tc, sarif_says_how_it_ended);
	suite_add_tcase(suite, tc);
	return suite;
}
