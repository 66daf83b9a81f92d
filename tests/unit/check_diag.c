/* Findings: what the sink keeps, in which order, and the rules by name. */
#include <check.h>
#include <string.h>

#include "diag/diag.h"

static struct sink sink;

static struct finding *
add(enum rule rule, uint32_t line, uint32_t beg, int reading)
{
	struct place place = {line, beg, beg + 3, "knee R A 0-120", 14};

	return sink_add(&sink, rule, &place, reading, "%s", "words");
}

static void
tear_down(void)
{
	sink_free(&sink);
	sink = (struct sink){0};
}

START_TEST(the_sink_copies_what_it_is_given)
{
	char line[] = "knee R A 0-13x # words";
	char word[] = "0-13x";
	struct place place = {7, 9, 14, line, (uint32_t)strlen(line)};
	struct finding *f = sink_add(&sink, RULE_NUMBER_FORM, &place, 3,
	    "'%s' has letters in it, %d", word, 1);

	sink_hint(&sink, f, "write %s", word);
	memset(line, '?', strlen(line));
	memset(word, '?', strlen(word));
	ck_assert_int_eq(f->rule, RULE_NUMBER_FORM);
	ck_assert_int_eq(f->level, LEVEL_ERROR);
	ck_assert_uint_eq(f->line, 7);
	ck_assert_uint_eq(f->beg, 9);
	ck_assert_uint_eq(f->end, 14);
	ck_assert_int_eq(f->reading, 3);
	ck_assert_uint_eq(f->unread, 0);
	ck_assert(!f->accepted);
	ck_assert_str_eq(f->message, "'0-13x' has letters in it, 1");
	ck_assert_str_eq(f->hint, "write 0-13x");
	ck_assert_uint_eq(f->source_len, 22);
	ck_assert_int_eq(memcmp(f->source, "knee R A 0-13x # words", 22), 0);
}
END_TEST

START_TEST(long_messages_are_kept_whole)
{
	char words[3001];
	struct place place = {1, 0, 1, "x", 1};
	struct finding *f;

	memset(words, 'w', 3000);
	words[3000] = '\0';
	f = sink_add(&sink, RULE_SYNTAX, &place, NO_READING, "<%s>", words);
	ck_assert_uint_eq(strlen(f->message), 3002);
	ck_assert_int_eq(f->message[3001], '>');
	ck_assert_ptr_null(f->hint);
}
END_TEST

START_TEST(findings_of_one_line_share_its_copy)
{
	struct finding *a = add(RULE_SYNTAX, 4, 0, 0);
	struct finding *b = add(RULE_SYNTAX, 4, 5, 1);

	ck_assert_ptr_eq(a->source, b->source);
}
END_TEST

/* In the order of line, column, rule name. */
START_TEST(findings_are_sorted)
{
	static const struct {
		enum rule rule;
		uint32_t line, beg;
	} sorted[] = {{RULE_UNUSUAL_ANGLE, 1, 30}, {RULE_SYNTAX, 2, 0},
	    {RULE_END_FEEL_ON_ACTIVE, 2, 9}, {RULE_OFF_SCALE, 2, 9},
	    {RULE_UNKNOWN_WORD, 2, 9}, {RULE_AXIS_CONTRADICTION, 2, 10},
	    {RULE_ACCEPTANCE_UNUSED, 10, 2}, {RULE_SYNTAX, 10, 2}};
	enum { N = sizeof(sorted) / sizeof(*sorted) };

	for (size_t first = 0; first < N; first++) {
		sink_reset(&sink);
		for (size_t i = 0; i < N; i++) {
			size_t k = (first + i * 5) % N; /* 5 and 8: each once */

			add(sorted[k].rule, sorted[k].line, sorted[k].beg, 0);
		}
		sink_sort(&sink);
		ck_assert_uint_eq(sink.len, N);
		for (size_t i = 0; i < N; i++) {
			ck_assert_int_eq(sink.at[i]->rule, sorted[i].rule);
			ck_assert_uint_eq(sink.at[i]->line, sorted[i].line);
			ck_assert_uint_eq(sink.at[i]->beg, sorted[i].beg);
		}
	}
}
END_TEST

START_TEST(no_findings_can_be_sorted)
{
	sink_sort(&sink);
	ck_assert_uint_eq(sink.len, 0);
}
END_TEST

START_TEST(the_same_finding_twice)
{
	const struct finding *a = add(RULE_SYNTAX, 4, 2, 0);

	ck_assert(finding_same(a, add(RULE_SYNTAX, 4, 2, 1)));
	ck_assert(!finding_same(a, add(RULE_SYNTAX, 5, 2, 0)));
	ck_assert(!finding_same(a, add(RULE_SYNTAX, 4, 3, 0)));
	ck_assert(!finding_same(a, add(RULE_ENCODING, 4, 2, 0)));
	/* of no reading: no rater, no instrument */
	a = add(RULE_MISSING_HEADER, 4, 2, NO_READING);
	ck_assert(!finding_same(a, add(RULE_MISSING_HEADER, 4, 2, NO_READING)));
}
END_TEST

/* What could not be read is told in full all the same. */
START_TEST(names_alone_leave_messages_out)
{
	struct finding *f;

	sink.names_only = true;
	f = add(RULE_UNUSUAL_ANGLE, 1, 0, 0);
	ck_assert_ptr_null(f->message);
	sink_hint(&sink, f, "no use");
	ck_assert_ptr_null(f->hint);
	f = add(RULE_SYNTAX, 1, 0, 0);
	ck_assert_str_eq(f->message, "words");
}
END_TEST

START_TEST(a_sink_is_used_again)
{
	for (int round = 0; round < 3; round++) {
		for (uint32_t i = 0; i < 1000; i++)
			add(RULE_SYNTAX, i + 1, 0, 0);
		ck_assert_uint_eq(sink.len, 1000);
		ck_assert_uint_eq(sink.at[999]->line, 1000);
		sink_reset(&sink);
		ck_assert_uint_eq(sink.len, 0);
	}
}
END_TEST

START_TEST(rules_are_found_by_their_whole_name)
{
	for (int i = 0; i < RULE_COUNT; i++) {
		const char *name = rule_table[i].name;

		ck_assert_int_eq(rule_find(name, strlen(name)), i);
		ck_assert_int_eq(rule_find(name, strlen(name) - 1), -1);
	}
	ck_assert_int_eq(rule_find("syntax-more", 11), -1);
	ck_assert_int_eq(rule_find("syntax-more", 6), RULE_SYNTAX);
	ck_assert_int_eq(rule_find("Syntax", 6), -1);
	ck_assert_int_eq(rule_find("", 0), -1);
}
END_TEST

START_TEST(levels_have_names)
{
	ck_assert_str_eq(level_name(LEVEL_OFF), "off");
	ck_assert_str_eq(level_name(LEVEL_NOTE), "note");
	ck_assert_str_eq(level_name(LEVEL_WARNING), "warning");
	ck_assert_str_eq(level_name(LEVEL_ERROR), "error");
	ck_assert_int_lt(LEVEL_NOTE, LEVEL_WARNING);
	ck_assert_int_lt(LEVEL_WARNING, LEVEL_ERROR);
}
END_TEST

Suite *diag_suite(void);

Suite *
diag_suite(void)
{
	Suite *suite = suite_create("diag");
	TCase *tc = tcase_create("diag");

	tcase_add_checked_fixture(tc, NULL, tear_down);
	tcase_add_test(tc, the_sink_copies_what_it_is_given);
	tcase_add_test(tc, long_messages_are_kept_whole);
	tcase_add_test(tc, findings_of_one_line_share_its_copy);
	tcase_add_test(tc, findings_are_sorted);
	tcase_add_test(tc, no_findings_can_be_sorted);
	tcase_add_test(tc, the_same_finding_twice);
	tcase_add_test(tc, names_alone_leave_messages_out);
	tcase_add_test(tc, a_sink_is_used_again);
	tcase_add_test(tc, rules_are_found_by_their_whole_name);
	tcase_add_test(tc, levels_have_names);
	suite_add_tcase(suite, tc);
	return suite;
}
