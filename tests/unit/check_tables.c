/*
 * One table for each kind of thing: nothing stands in one twice, and what
 * stands in one stands in the manual pages and the corpus too.
 */
#include <check.h>
#include <glob.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "cmd/command.h"
#include "diag/rule.h"
#include "reference/reference.h"
#include "text/buffer.h"
#include "vocab/vocab.h"
#include "write/csv_columns.h"

/* The file at PATH, NUL at its end. The caller frees it; NULL: none. */
static char *
file_text(const char *path)
{
	FILE *file = fopen(path, "rb");
	struct buffer text = {0};
	size_t n;

	if (!file)
		return NULL;
	while ((n = fread(buffer_room(&text, 4096), 1, 4096, file)) > 0)
		text.len += n;
	fclose(file);
	buffer_putc(&text, '\0');
	return text.data;
}

/* Does a line of TEXT begin with WORDS? */
static bool
has_line(const char *text, const char *words)
{
	size_t len = strlen(words);

	for (const char *p = text; p; p = strchr(p, '\n')) {
		p += *p == '\n';
		if (strncmp(p, words, len) == 0)
			return true;
		if (*p == '\0')
			break;
	}
	return false;
}

/* --- rules
 * ----------------------------------------------------------------------- */

START_TEST(every_rule_is_complete)
{
	for (int i = 0; i < RULE_COUNT; i++) {
		const struct rule_info *rule = &rule_table[i];

		ck_assert_uint_eq(
		    strspn(rule->name, "abcdefghijklmnopqrstuvwxyz-"),
		    strlen(rule->name));
		ck_assert_str_ne(rule->title, "");
		ck_assert_str_ne(rule->reason, "");
		ck_assert_str_ne(rule->source, "");
		ck_assert_str_ne(rule->reported, "");
		ck_assert_str_ne(rule->clean, "");
		ck_assert_int_ne(rule->level, LEVEL_OFF);
		if (rule->group == RULES_READING)
			ck_assert_int_eq(rule->level, LEVEL_ERROR);
		for (int k = 0; k < i; k++)
			ck_assert_str_ne(rule->name, rule_table[k].name);
	}
}
END_TEST

/* Messages are lower case without a full stop; so are titles. */
START_TEST(titles_are_written_alike)
{
	for (int i = 0; i < RULE_COUNT; i++) {
		const char *title = rule_table[i].title;

		ck_assert_msg(title[0] < 'A' || title[0] > 'Z' ||
				  (title[1] >= 'A' && title[1] <= 'Z'),
		    "%s: %s", rule_table[i].name, title);
		ck_assert_msg(title[strlen(title) - 1] != '.', "%s: %s",
		    rule_table[i].name, title);
	}
}
END_TEST

START_TEST(every_rule_has_its_examples)
{
	static const char *const files[] = {
	    "reported.range", "reported.findings", "clean.range"};
	char path[128];
	glob_t found;

	for (int i = 0; i < RULE_COUNT; i++)
		for (int k = 0; k < 3; k++) {
			snprintf(path, sizeof(path), "corpus/rules/%s/%s",
			    rule_table[i].name, files[k]);
			ck_assert_msg(
			    access(path, R_OK) == 0, "there is no %s", path);
		}
	ck_assert_int_eq(glob("corpus/rules/*", GLOB_ONLYDIR, NULL, &found), 0);
	for (size_t i = 0; i < found.gl_pathc; i++) {
		const char *name = strrchr(found.gl_pathv[i], '/') + 1;

		ck_assert_msg(rule_find(name, strlen(name)) >= 0,
		    "%s is of no rule", found.gl_pathv[i]);
	}
	globfree(&found);
}
END_TEST

/* The example reports the rule itself, and the other one does not. */
START_TEST(every_example_is_of_its_rule)
{
	for (int i = 0; i < RULE_COUNT; i++) {
		char path[128], word[64];
		char *findings;

		snprintf(path, sizeof(path),
		    "corpus/rules/%s/reported.findings", rule_table[i].name);
		findings = file_text(path);
		snprintf(word, sizeof(word), " %s\n", rule_table[i].name);
		ck_assert_msg(findings && strstr(findings, word),
		    "%s does not report it", path);
		free(findings);
		snprintf(path, sizeof(path), "corpus/rules/%s/clean.findings",
		    rule_table[i].name);
		findings = file_text(path);
		ck_assert_msg(!findings || !strstr(findings, word),
		    "%s reports it", path);
		free(findings);
	}
}
END_TEST

START_TEST(every_rule_stands_in_the_manual)
{
	char *page = file_text("man/rangeline-rules.7");

	ck_assert_msg(page != NULL, "there is no man/rangeline-rules.7");
	for (int i = 0; i < RULE_COUNT; i++) {
		char words[64];

		snprintf(words, sizeof(words), ".It Sy %s Pq %s",
		    rule_table[i].name, level_name(rule_table[i].level));
		ck_assert_msg(has_line(page, words),
		    "man/rangeline-rules.7 does not have: %s", words);
	}
	free(page);
}
END_TEST

/* --- commands
 * -------------------------------------------------------------------- */

START_TEST(every_command_is_complete)
{
	char *page = file_text("man/rangeline.1");
	int n = 0;

	ck_assert_msg(page != NULL, "there is no man/rangeline.1");
	for (const struct command *c = commands; c->name; c++, n++) {
		char words[64];

		ck_assert_ptr_eq(command_find(c->name), c);
		ck_assert(c->run != NULL);
		ck_assert_str_ne(c->does, "");
		ck_assert_ptr_nonnull(c->arguments);
		snprintf(words, sizeof(words), ".Cm %s", c->name);
		ck_assert_msg(strstr(page, words) != NULL,
		    "man/rangeline.1 does not have: %s", words);
	}
	ck_assert_int_ge(n, 4);
	ck_assert_ptr_null(command_find("chekc"));
	ck_assert_ptr_null(command_find(""));
	free(page);
}
END_TEST

/* --- columns, sources, words
 * ----------------------------------------------------- */

START_TEST(the_columns_are_those_of_the_notation)
{
	static const char names[] =
	    "session,time,label,subject,age,sex,joint,motion,setting,position,"
	    "side,mode,kind,start,end,arc,unit,trials,trial,spread,pain,"
	    "pain_onset,painful_arc,end_feel,stopped_by,repetitions,involved,"
	    "rater,instrument,remark,findings,file,line";
	struct buffer all = {0};

	for (int i = 0; i < CSV_COLUMNS; i++) {
		ck_assert(csv_columns[i].cell != NULL);
		buffer_printf(&all, "%s%s", i ? "," : "", csv_columns[i].name);
	}
	ck_assert_uint_eq(all.len, strlen(names));
	ck_assert_int_eq(memcmp(all.data, names, all.len), 0);
	buffer_free(&all);
}
END_TEST

START_TEST(every_source_has_a_key_of_its_own)
{
	ck_assert_uint_gt(ref_source_count(), 10);
	for (size_t i = 0; i < ref_source_count(); i++) {
		const struct ref_source *source = ref_source_get(i);

		ck_assert_str_ne(source->key, "");
		ck_assert_str_ne(source->read, "");
		ck_assert_ptr_eq(ref_source_find(source->key), source);
	}
	ck_assert_ptr_null(ref_source_find("no such source"));
}
END_TEST

/* Of one class, no two words have one name or one short name. */
START_TEST(every_word_has_a_name_of_its_own)
{
	for (size_t i = 0; i < vocab_row_count; i++) {
		const struct vocab_row *a = &vocab_rows[i];

		ck_assert_str_ne(a->name, "");
		ck_assert_str_ne(a->short_name, "");
		if (a->class == VOCAB_CLASS_MEASUREMENT)
			continue;
		ck_assert_str_eq(vocab_name(a->class, a->id), a->name);
		ck_assert_str_eq(
		    vocab_short_name(a->class, a->id), a->short_name);
		for (size_t k = 0; k < i; k++) {
			const struct vocab_row *b = &vocab_rows[k];

			if (b->class != a->class)
				continue;
			ck_assert_uint_ne(a->id, b->id);
			ck_assert_str_ne(a->name, b->name);
			ck_assert_str_ne(a->short_name, b->short_name);
		}
	}
}
END_TEST

Suite *tables_suite(void);

Suite *
tables_suite(void)
{
	Suite *suite = suite_create("tables");
	TCase *tc = tcase_create("tables");

	tcase_add_test(tc, every_rule_is_complete);
	tcase_add_test(tc, titles_are_written_alike);
	tcase_add_test(tc, every_rule_has_its_examples);
	tcase_add_test(tc, every_example_is_of_its_rule);
	tcase_add_test(tc, every_rule_stands_in_the_manual);
	tcase_add_test(tc, every_command_is_complete);
	tcase_add_test(tc, the_columns_are_those_of_the_notation);
	tcase_add_test(tc, every_source_has_a_key_of_its_own);
	tcase_add_test(tc, every_word_has_a_name_of_its_own);
	suite_add_tcase(suite, tc);
	return suite;
}
