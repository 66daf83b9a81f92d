/*
 * Lines of a file or pipe, whatever pieces they come in.
 */
#include <check.h>
#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "text/lines.h"

enum { CHUNK = 64 * 1024 };

/* Writes TEXT into FD in pieces of STEP bytes, in a process of its own. */
static pid_t
feed(int fd, int unused, const char *text, size_t len, size_t step)
{
	pid_t child = fork();

	ck_assert_int_ge(child, 0);
	if (child > 0)
		return child;
	close(unused);
	while (len > 0) {
		size_t n = len < step ? len : step;

		if (write(fd, text, n) != (ssize_t)n)
			_exit(1);
		text += n;
		len -= n;
	}
	_exit(0);
}

/* Reads TEXT through a pipe in such pieces; the lines must be its lines. */
static void
expect_lines(const char *text, size_t len, size_t step)
{
	const char *p = text, *end = text + len, *line;
	struct lines lines;
	int ends[2], status;
	size_t n;
	pid_t child;

	ck_assert_int_eq(pipe(ends), 0);
	child = feed(ends[1], ends[0], text, len, step);
	close(ends[1]);
	lines_open(&lines, ends[0]);
	while (p < end) {
		const char *lf = memchr(p, '\n', (size_t)(end - p));
		size_t want = (size_t)((lf ? lf : end) - p);

		ck_assert_int_eq(lines_next(&lines, &line, &n), 1);
		ck_assert_uint_eq(n, want > CHUNK ? CHUNK : want);
		ck_assert_int_eq(memcmp(line, p, n), 0);
		p = lf ? lf + 1 : end;
	}
	ck_assert_int_eq(lines_next(&lines, &line, &n), 0);
	ck_assert_int_eq(lines_next(&lines, &line, &n), 0);
	lines_close(&lines);
	close(ends[0]);
	ck_assert_int_eq(waitpid(child, &status, 0), child);
	ck_assert_int_eq(status, 0);
}

static const char *const texts[] = {"", "\n", "\n\n", "one", "one\n",
    "one\ntwo", "one\n\ntwo\n", "\none\r\n\ntwo"};

START_TEST(lines_of_short_texts)
{
	for (size_t step = 1; step <= 8; step++)
		expect_lines(texts[_i], strlen(texts[_i]), step);
}
END_TEST

/* The end of a line in every place near the end of the reader's buffer. */
START_TEST(lines_at_every_boundary)
{
	static char text[3 * CHUNK];
	size_t first = (size_t)(CHUNK - 4 + _i);

	for (size_t second = 0; second < 4; second++) {
		memset(text, 'x', sizeof(text));
		text[first] = '\n';
		text[first + second + 1] = '\n';
		text[first + second + 100] = '\n';
		expect_lines(text, first + second + 150, CHUNK);
		expect_lines(text, first + second + 150, 4093);
		expect_lines(text, first + second + 101, CHUNK);
	}
}
END_TEST

/* Of a line longer than the buffer the first part, and then what follows. */
START_TEST(lines_that_are_too_long)
{
	static const size_t lengths[] = {CHUNK, CHUNK + 1, 2 * CHUNK - 1,
	    2 * CHUNK, 2 * CHUNK + 1, 3 * CHUNK + 17};
	static char text[4 * CHUNK];
	size_t len = lengths[_i];

	memset(text, 'x', len);
	memcpy(text + len, "\nafter\n", 7);
	expect_lines(text, len, 1000);
	expect_lines(text, len + 1, CHUNK);
	expect_lines(text, len + 7, CHUNK);
	expect_lines(text, len + 6, 777);
}
END_TEST

START_TEST(a_line_may_hold_nul)
{
	expect_lines("a\0b\n\0\nc", 8, 3);
}
END_TEST

START_TEST(reading_what_cannot_be_read_fails)
{
	struct lines lines;
	const char *line;
	size_t n;
	int folder = open("/", O_RDONLY);

	ck_assert_int_ge(folder, 0);
	lines_open(&lines, folder);
	ck_assert_int_eq(lines_next(&lines, &line, &n), -1);
	ck_assert_int_eq(errno, EISDIR);
	lines_close(&lines);
	close(folder);
}
END_TEST

Suite *lines_suite(void);

Suite *
lines_suite(void)
{
	Suite *suite = suite_create("lines");
	TCase *tc = tcase_create("lines");

	tcase_set_timeout(tc, 60);
	tcase_add_loop_test(
	    tc, lines_of_short_texts, 0, (int)(sizeof(texts) / sizeof(*texts)));
	tcase_add_loop_test(tc, lines_at_every_boundary, 0, 9);
	tcase_add_loop_test(tc, lines_that_are_too_long, 0, 6);
	tcase_add_test(tc, a_line_may_hold_nul);
	tcase_add_test(tc, reading_what_cannot_be_read_fails);
	suite_add_tcase(suite, tc);
	return suite;
}
