/*
 * The parts of the language server: positions and lines, what may stand at a
 * place, framing, JSON.
 */
#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "lsp/cut.h"
#include "lsp/document.h"
#include "lsp/expect.h"
#include "lsp/frame.h"
#include "lsp/in.h"
#include "lsp/position.h"
#include "record/record.h"

Suite *lsp_suite(void);

/* --- positions --- */

/* e, e acute, en dash, a bone beyond the basic plane */
#define MIXED "e\xc3\xa9\xe2\x80\x93\xf0\x9f\xa6\xb4z"

static const struct {
	enum position_encoding encoding;
	size_t units[6]; /* before each character and at the end */
} counts[] = {{POSITION_UTF8, {0, 1, 3, 6, 10, 11}},
    {POSITION_UTF16, {0, 1, 2, 3, 5, 6}}, {POSITION_UTF32, {0, 1, 2, 3, 4, 5}}};

START_TEST(units_there_and_back)
{
	static const size_t bytes[] = {0, 1, 3, 6, 10, 11};
	enum position_encoding e = counts[_i].encoding;

	for (int k = 0; k < 6; k++) {
		ck_assert_uint_eq(
		    position_units(e, MIXED, bytes[k]), counts[_i].units[k]);
		ck_assert_uint_eq(
		    position_bytes(e, MIXED, 11, counts[_i].units[k]),
		    bytes[k]);
	}
	ck_assert_uint_eq(position_bytes(e, MIXED, 11, UINT64_MAX), 11);
}
END_TEST

START_TEST(within_a_character_is_before_it)
{
	ck_assert_uint_eq(position_bytes(POSITION_UTF8, MIXED, 11, 2), 1);
	ck_assert_uint_eq(position_bytes(POSITION_UTF8, MIXED, 11, 9), 6);
	ck_assert_uint_eq(position_bytes(POSITION_UTF16, MIXED, 11, 4), 6);
}
END_TEST

/* --- documents --- */

static struct document *
document_of(const char *text)
{
	struct document *d = document_new("file:///a");

	document_splice(d, 0, 0, text, strlen(text));
	document_changed(d);
	return d;
}

START_TEST(lines_end_three_ways_rows_one)
{
	struct document *d = document_of("a\r\nb\rc\nd");
	struct document_place p = document_place(d, POSITION_UTF8, 5);

	ck_assert_uint_eq(d->lines.len, 4);
	ck_assert_uint_eq(d->rows.len, 3);
	ck_assert_uint_eq(p.line, 2);
	ck_assert_uint_eq(p.character, 0);
	ck_assert_uint_eq(document_row_of(d, 5), 2);
	ck_assert_uint_eq(document_row(d, 2).len, 3);
	ck_assert_uint_eq(document_row(d, 1).len, 1);
	ck_assert_str_eq(document_line_end(d), "\r\n");
	document_free(d);
}
END_TEST

START_TEST(offsets_stay_within_line_and_text)
{
	struct document *d = document_of("ab\r\ncd");

	ck_assert_uint_eq(document_offset(d, POSITION_UTF8, 0, 9), 2);
	ck_assert_uint_eq(document_offset(d, POSITION_UTF8, 1, 1), 5);
	ck_assert_uint_eq(document_offset(d, POSITION_UTF8, 7, 0), 6);
	ck_assert_uint_eq(document_offset(d, POSITION_UTF8, -1, 3), 0);
	ck_assert_uint_eq(document_offset(d, POSITION_UTF8, 1, -4), 4);
	document_free(d);
}
END_TEST

START_TEST(a_last_line_end_makes_no_row)
{
	static const struct {
		const char *text;
		uint32_t rows;
	} cases[] = {{"", 0}, {"a", 1}, {"a\n", 1}, {"a\n\n", 2}, {"\n", 1}};

	for (size_t i = 0; i < sizeof(cases) / sizeof(*cases); i++) {
		struct document *d = document_of(cases[i].text);

		ck_assert_uint_eq(document_row_count(d), cases[i].rows);
		document_free(d);
	}
}
END_TEST

START_TEST(a_byte_order_mark_is_no_part_of_its_row)
{
	struct document *d = document_of("\xef\xbb\xbfknee\n\xef\xbb\xbf");

	ck_assert_uint_eq(document_row(d, 1).at, 3);
	ck_assert_uint_eq(document_row(d, 1).len, 4);
	ck_assert_uint_eq(document_row(d, 2).len, 3);
	ck_assert_uint_eq(document_at(d, 1, 2), 5);
	ck_assert_uint_eq(document_at(d, 9, 2), 2);
	document_free(d);
}
END_TEST

START_TEST(splices_put_in_take_out_and_replace)
{
	struct document *d = document_of("hip knee");

	document_splice(d, 3, 3, " R", 2);
	document_splice(d, 0, 3, "ankle", 5);
	document_splice(d, 7, 12, "", 0);
	document_changed(d);
	ck_assert_uint_eq(d->text.len, 7);
	ck_assert_mem_eq(d->text.data, "ankle R", 7);
	document_free(d);
}
END_TEST

/* --- framing --- */

/* Feeds TEXT in pieces of SIZE bytes; what comes, one letter an event. */
static void
frames_told(const char *text, size_t size, char *told)
{
	struct frames f = {0};
	size_t len = strlen(text);

	for (size_t at = 0; at < len; at += size) {
		enum frame_event e;

		frames_feed(&f, text + at, at + size > len ? len - at : size);
		while ((e = frames_next(&f)) != FRAME_NOTHING) {
			if (e == FRAME_LOST) {
				*told++ = '!';
				continue;
			}
			memcpy(told, f.body, f.len);
			told += f.len;
			*told++ = '.';
		}
	}
	*told = '\0';
	frames_free(&f);
}

static const struct {
	const char *text;
	const char *told;
} framings[] = {
    {"Content-Length: 2\r\n\r\nab", "ab."},
    {"Content-Length: 0\r\n\r\nContent-Length: 1\r\n\r\nx", ".x."},
    {"content-length:3\n\nabcContent-Length: 1\r\n\r\nz", "abc.z."},
    {"Content-Type: x\r\nContent-Length: 1\r\n\r\na", "a."},
    {"Content-Length: 2\r\nContent-Length: 2\r\n\r\nab", "ab."},
    {"Content-Length: 2\r\nX: y\r\ncontent-length:02\r\n\r\nab", "ab."},
    {"Content-Length: 1\r\nContent-Length: 2\r\n\r\nab", "!"},
    {"Content-Length: 2\r\nContent-Length: 1\r\n\r\nab"
     "Content-Length: 1\r\n\r\na",
	"!a."},
    {"Content-Length: x\r\nContent-Length: 1\r\n\r\na", "!"},
    {"Content-Length: 1\r\nContent-Length: x\r\n\r\na", "!"},
    {"Content-Length: 1, 1\r\n\r\na", "!"},
    {"Content-Length: 1\r\nContent-Length: 2\r\n\r\nab"
     "Content-Length: 1\r\nContent-Length: 2\r\n\r\nab",
	"!!"},
    {"Content-Length: x\r\n\r\n1\r\n\r\n2\r\n\r\nContent-Length: 1\r\n\r\na",
	"!a."},
    {"x\r\n\r\nContent-Length: 1\r\n"
     "Content-Type: application/vscode-jsonrpc; charset=utf-8\r\n\r\na",
	"!a."},
    {"\r\n", "!"},
    {"Content-Type: x\r\n\r\n", "!"},
    {"Content-Length: 1x\r\n\r\n", "!"},
    {"Content-Length: -1\r\n\r\nContent-Length: 1\r\n\r\na", "!a."},
    {"Content-Length: \r\n\r\n{}Content-Length: 1\r\n\r\na", "!a."},
    {"rubbish\r\n\r\nrubbish Content-Length: 1\r\n\r\na", "!a."},
    {"rubbish\r\nContent-Length: 1\r\n\r\naContent-Length: 1\r\n\r\nb", "!b."},
    {"Content-Length: 2\r\n\r\na", ""},
    {"Content-Length: 2\r\n", ""},
};

START_TEST(frames_in_pieces_of_any_size)
{
	for (size_t size = 1; size <= strlen(framings[_i].text); size++) {
		char told[256];

		frames_told(framings[_i].text, size, told);
		ck_assert_str_eq(told, framings[_i].told);
	}
}
END_TEST

static const struct {
	const char *text;
	const char *why; /* of the last that was lost, or NULL */
	bool cut;
} ends[] = {
    {"", NULL, false},
    {"Content-Length: 1\r\n\r\na", NULL, false},
    {"Content-Length: 2\r\n\r\na", NULL, true},
    {"Content-Length: 2\r\n\r\n", NULL, true},
    {"Content-Length: 2\r\n", NULL, true},
    {"Content-Type: x\r\n", NULL, true},
    {"Cont", NULL, true},
    {"Content-Length: 1\r\n\r\naC", NULL, true},
    {"Content-Length: 1\r\nContent-Length: 2\r\n\r\nab",
	"its header says two lengths that differ", false},
    {"Content-Length: x\r\n\r\n{}",
	"its header says a length that is no number", false},
    {"Content-Length: x\r\n\r\n{}Content-Length: 2\r\n",
	"its header says a length that is no number", true},
    {"Content-Type: x\r\n\r\n", "its header says no length", false},
    {"rubbish\r\n\r\n", "a line of its header is none", false},
    {"Content-Length: 67108865\r\n\r\n{}", "it is longer than 64 MiB", true},
};

START_TEST(an_end_of_all_bytes)
{
	struct frames f = {0};

	frames_feed(&f, ends[_i].text, strlen(ends[_i].text));
	while (frames_next(&f) != FRAME_NOTHING)
		;
	ck_assert_pstr_eq(f.why, ends[_i].why);
	ck_assert_int_eq(frames_are_cut(&f), ends[_i].cut);
	frames_free(&f);
}
END_TEST

START_TEST(a_body_that_is_too_long_takes_no_memory)
{
	static char bytes[1 << 20];
	struct frames f = {0};
	char head[64];
	size_t left = (size_t)FRAME_LONGEST_BODY + 1;

	snprintf(head, sizeof(head), "Content-Length: %zu\r\n\r\n", left);
	frames_feed(&f, head, strlen(head));
	ck_assert_int_eq(frames_next(&f), FRAME_LOST);
	while (left > 0) {
		size_t n = left < sizeof(bytes) ? left : sizeof(bytes);

		frames_feed(&f, bytes, n);
		left -= n;
		ck_assert_int_eq(frames_next(&f), FRAME_NOTHING);
	}
	ck_assert_uint_lt(f.bytes.cap, sizeof(bytes));
	frames_feed(&f, "Content-Length: 1\r\n\r\na", 22);
	ck_assert_int_eq(frames_next(&f), FRAME_MESSAGE);
	frames_free(&f);
}
END_TEST

START_TEST(frames_give_their_memory_back)
{
	static const char message[] = "Content-Length: 6\r\n\r\nabcdef";
	struct frames f = {0};

	for (int i = 0; i < 100000; i++) {
		frames_feed(&f, message, sizeof(message) - 1);
		ck_assert_int_eq(frames_next(&f), FRAME_MESSAGE);
	}
	ck_assert_uint_lt(f.bytes.cap, 4096);
	frames_free(&f);
}
END_TEST

/* --- JSON --- */

START_TEST(questions_about_json)
{
	static const char text[] =
	    "{\"a\":{\"b\":[1,\"two\",true]},\"n\":2.26,\"z\":\"x\\u0000y\"}";
	struct json_t *v = in_parse(text, sizeof(text) - 1);
	const struct json_t *list = in_get(v, "a.b");
	size_t len;

	ck_assert_uint_eq(in_count(list), 3);
	ck_assert_int_eq(in_integer(in_at(list, 0), 7), 1);
	ck_assert_int_eq(in_integer(in_at(list, 1), 7), 7);
	ck_assert(in_has(list, "two"));
	ck_assert(!in_has(list, "three"));
	ck_assert(in_bool(in_at(list, 2), false));
	ck_assert(in_bool(in_at(list, 0), true));
	ck_assert_int_eq(in_tenths(in_get(v, "n"), -1), 23);
	ck_assert_int_eq(in_tenths(in_get(v, "z"), -1), -1);
	ck_assert_ptr_nonnull(in_text(in_get(v, "z"), &len));
	ck_assert_uint_eq(len, 3);
	ck_assert_ptr_null(in_get(v, "a.b.c"));
	ck_assert_ptr_null(in_get(NULL, "a"));
	ck_assert_uint_eq(in_count(NULL), 0);
	in_free(v);
}
END_TEST

#define REPLACED "\xef\xbf\xbd"

static const struct {
	const char *json;
	const char *text;
	size_t len;
} escapes[] = {
    {"\"a\\u0000b\"", "a\0b", 3},
    {"\"\\u0000\"", "\0", 1},
    {"\"\\ud83e\\uddb4\"", "\xf0\x9f\xa6\xb4", 4},
    {"\"\\uD83E\\uDDB4\"", "\xf0\x9f\xa6\xb4", 4},
    {"\"\\ud800\"", REPLACED, 3},
    {"\"\\uDFFF\"", REPLACED, 3},
    {"\"\\udc00\\ud800\"", REPLACED REPLACED, 6},
    {"\"\\ud83e\\ud83e\\uddb4\"", REPLACED "\xf0\x9f\xa6\xb4", 7},
    {"\"\\ud83e\\u0041\"", REPLACED "A", 4},
    {"\"\\ud83e\\\\uddb4\"", REPLACED "\\uddb4", 9},
    {"\"\\\\ud83e\"", "\\ud83e", 6},
    {"\"\\ud7ff\\ue000\"", "\xed\x9f\xbf\xee\x80\x80", 6},
};

START_TEST(every_escape_of_json_is_a_text)
{
	const char *json = escapes[_i].json;
	struct json_t *v = in_parse(json, strlen(json));
	size_t len;
	const char *text = in_text(v, &len);

	ck_assert_msg(text != NULL, "%s", json);
	ck_assert_uint_eq(len, escapes[_i].len);
	ck_assert_mem_eq(text, escapes[_i].text, len);
	in_free(v);
}
END_TEST

/* A name that is cut at a NUL would be another name. */
START_TEST(a_text_with_a_nul_is_no_name)
{
	static const char text[] = "[\"exit\\u0000\",\"exit\"]";
	struct json_t *v = in_parse(text, sizeof(text) - 1);

	ck_assert_ptr_null(in_text(in_at(v, 0), NULL));
	ck_assert(!in_is(in_at(v, 0), "exit"));
	ck_assert(in_is(in_at(v, 1), "exit"));
	in_free(v);
}
END_TEST

START_TEST(what_is_no_json)
{
	static const char *const texts[] = {"", "{", "{} {}", "\"\xff\"",
	    "\"\\ud800", "\"\\ud80\"", "\"\\ud80g\"", "\"\\", "\\", "\\ud800",
	    "[1,]", "1e999", "99999999999999999999"};

	for (size_t i = 0; i < sizeof(texts) / sizeof(*texts); i++)
		ck_assert_msg(
		    !in_parse(texts[i], strlen(texts[i])), "%s", texts[i]);
}
END_TEST

START_TEST(deep_json_is_refused_not_followed)
{
	enum { DEPTH = 100000 };
	char *text = malloc(DEPTH);

	memset(text, '[', DEPTH);
	ck_assert_ptr_null(in_parse(text, DEPTH));
	free(text);
}
END_TEST

/* --- what may stand --- */

static const struct {
	const char *note; /* the last row is asked about */
	const char *word;
	bool stands;
} places[] = {
    {"", "knee", true},
    {"", "firm", false},
    {"knee R A 0-10 ", "firm", true},
    {"knee R A 0-10 ", "knee", false},
    {"knee extension R A ", "lacks 5", true},
    {"hip flexion R A ", "lacks 5", false},
    {"knee R A 0-10\nL A 0-9 ", "pain 3", true},
    {"L A 0-9 ", "pain 3", false},
    {"knee R A 0-10\n# x\n\nL A 0-9 ", "pain 3", true},
    {"knee R A 0-10\nsession 2026-01-01\nL A 0-9 ", "pain 3", false},
    {"mode active\nknee R 0-9 ", "pain 3", true},
    {"knee R 0-9 ", "pain 3", false},
    {"kne R A 0-10\nL A 0-9 ", "pain 3", false},
    {"sex ", "F", true},
    {"sex ", "R", false},
    {"subject A\nsex F\nsex ", "M", true},
    {"involved none\ninvolved ", "jaw", true},
    {"involved ", "knee", false},
};

START_TEST(words_that_stand)
{
	struct document *d = document_of(places[_i].note);
	struct expect e = {0};
	uint32_t row = (uint32_t)d->rows.len;
	size_t other, probe;

	expect_begin(&e, d, row, SIZE_MAX);
	other = expect_add(&e, "\"x");
	probe = expect_add(&e, places[_i].word);
	expect_run(&e, d);
	ck_assert(!e.at[other].stands);
	ck_assert_int_eq(e.at[probe].stands, places[_i].stands);
	expect_free(&e);
	document_free(d);
}
END_TEST

#define COUNT(table) ((int)(sizeof(table) / sizeof(*(table))))

Suite *
lsp_suite(void)
{
	Suite *s = suite_create("lsp");
	TCase *tc = tcase_create("places");

	tcase_add_loop_test(tc, units_there_and_back, 0, COUNT(counts));
	tcase_add_test(tc, within_a_character_is_before_it);
	tcase_add_test(tc, lines_end_three_ways_rows_one);
	tcase_add_test(tc, offsets_stay_within_line_and_text);
	tcase_add_test(tc, a_last_line_end_makes_no_row);
	tcase_add_test(tc, a_byte_order_mark_is_no_part_of_its_row);
	tcase_add_test(tc, splices_put_in_take_out_and_replace);
	tcase_add_loop_test(tc, words_that_stand, 0, COUNT(places));
	suite_add_tcase(s, tc);
	tc = tcase_create("messages");
	tcase_add_loop_test(
	    tc, frames_in_pieces_of_any_size, 0, COUNT(framings));
	tcase_add_loop_test(tc, an_end_of_all_bytes, 0, COUNT(ends));
	tcase_add_test(tc, a_body_that_is_too_long_takes_no_memory);
	tcase_add_test(tc, frames_give_their_memory_back);
	tcase_add_test(tc, questions_about_json);
	tcase_add_loop_test(
	    tc, every_escape_of_json_is_a_text, 0, COUNT(escapes));
	tcase_add_test(tc, a_text_with_a_nul_is_no_name);
	tcase_add_test(tc, what_is_no_json);
	tcase_add_test(tc, deep_json_is_refused_not_followed);
	suite_add_tcase(s, tc);
	return s;
}
