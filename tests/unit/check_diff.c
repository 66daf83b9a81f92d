/* Unified diffs of texts that go line by line. */
#include <check.h>
#include <string.h>

#include "write/diff.h"

#define COUNT(array) (sizeof(array) / sizeof(*(array)))

Suite *diff_suite(void);

static const struct {
	const char *was, *now, *diff;
} diffs[] = {
    {"a\nb\n", "a\nb\n", ""},
    {"", "", ""},
    {"a\n", "b\n", "--- n\n+++ n\n@@ -1 +1 @@\n-a\n+b\n"},
    {/* runs of changed lines stay together */
	"1\n2\n3\n4\n5\n6\n7\n", "1\n2\n3\n4\nv\nw\n7\n",
	"--- n\n+++ n\n@@ -2,6 +2,6 @@\n 2\n 3\n 4\n-5\n-6\n+v\n+w\n 7\n"},
    {/* six lines between: one hunk */
	"a\n1\n2\n3\n4\n5\n6\nb\n", "A\n1\n2\n3\n4\n5\n6\nB\n",
	"--- n\n+++ n\n@@ -1,8 +1,8 @@\n-a\n+A\n 1\n 2\n 3\n 4\n 5\n 6\n"
	"-b\n+B\n"},
    {/* seven: two */
	"a\n1\n2\n3\n4\n5\n6\n7\nb\n", "A\n1\n2\n3\n4\n5\n6\n7\nB\n",
	"--- n\n+++ n\n@@ -1,4 +1,4 @@\n-a\n+A\n 1\n 2\n 3\n"
	"@@ -6,4 +6,4 @@\n 5\n 6\n 7\n-b\n+B\n"},
    {/* three lines behind the last change, not all */
	"a\n1\n2\n3\n4\n", "A\n1\n2\n3\n4\n",
	"--- n\n+++ n\n@@ -1,4 +1,4 @@\n-a\n+A\n 1\n 2\n 3\n"},
    {/* no LF at the end */
	"a\nb", "a\nc",
	"--- n\n+++ n\n@@ -1,2 +1,2 @@\n a\n-b\n\\ No newline at end of "
	"file\n+c\n\\ No newline at end of file\n"},
    {"a\nb", "c\nb",
	"--- n\n+++ n\n@@ -1,2 +1,2 @@\n-a\n+c\n b\n\\ No newline at end of "
	"file\n"},
    {"a\n", "a\nb\n", "--- n\n+++ n\n@@ -1 +1,2 @@\n a\n+b\n"},
    {"a\n", "", "--- n\n+++ n\n@@ -1 +0,0 @@\n-a\n"},
};

static struct buffer
text_of(const char *text)
{
	struct buffer buf = {0};

	buffer_puts(&buf, text);
	return buf;
}

static void
assert_diff(
    const char *name, const char *was, const char *now, const char *want)
{
	struct buffer texts[2] = {text_of(was), text_of(now)}, out = {0};

	diff_unified(&out, name, &texts[0], &texts[1]);
	buffer_putc(&out, '\0');
	ck_assert_str_eq(out.data, want);
	buffer_free(&out);
	buffer_free(&texts[0]);
	buffer_free(&texts[1]);
}

START_TEST(shows_what_changed)
{
	assert_diff("n", diffs[_i].was, diffs[_i].now, diffs[_i].diff);
}
END_TEST

START_TEST(a_name_stays_on_its_line)
{
	assert_diff("a\n+b\x1b", "x\n", "y\n",
	    "--- a?+b?\n+++ a?+b?\n@@ -1 +1 @@\n-x\n+y\n");
}
END_TEST

Suite *
diff_suite(void)
{
	Suite *suite = suite_create("diff");
	TCase *unified = tcase_create("unified");

	tcase_add_loop_test(unified, shows_what_changed, 0, (int)COUNT(diffs));
	tcase_add_test(unified, a_name_stays_on_its_line);
	suite_add_tcase(suite, unified);
	return suite;
}
