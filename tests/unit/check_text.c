/*
 * Bytes: memory, buffers, UTF-8, days, interned texts.
 */
#include <check.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "text/arena.h"
#include "text/buffer.h"
#include "text/date.h"
#include "text/intern.h"
#include "text/mem.h"
#include "text/utf8.h"

/* --- arena ------------------------------------------------------------------
 */

START_TEST(an_arena_gives_aligned_bytes_that_do_not_overlap)
{
	struct arena arena = {0};
	unsigned char *at[500];

	for (int round = 0; round < 3; round++) {
		for (size_t i = 0; i < 500; i++) {
			at[i] = arena_alloc(&arena, i);
			ck_assert_uint_eq(
			    (uintptr_t)at[i] % _Alignof(max_align_t), 0);
			memset(at[i], (int)(i % 251), i);
		}
		for (size_t i = 0; i < 500; i++)
			for (size_t k = 0; k < i; k++)
				if (at[i][k] != i % 251)
					ck_abort_msg("item %zu is not what "
						     "was put there",
					    i);
		arena_reset(&arena);
	}
	arena_free(&arena);
}
END_TEST

START_TEST(an_arena_takes_what_is_larger_than_a_block)
{
	struct arena arena = {0};
	size_t huge = 1024 * 1024;
	char *small = arena_text(&arena, "before", 6);
	char *large = arena_alloc(&arena, huge);
	char *after = arena_text(&arena, "after", 5);

	memset(large, 'x', huge);
	ck_assert_str_eq(small, "before");
	ck_assert_str_eq(after, "after");
	ck_assert_str_eq(arena_text(&arena, "cut off", 3), "cut");
	arena_reset(&arena);
	large = arena_alloc(&arena, huge);
	memset(large, 'y', huge);
	arena_free(&arena);
	ck_assert_ptr_null(arena.first);
}
END_TEST

/* --- buffer -----------------------------------------------------------------
 */

static void
expect_buffer(const struct buffer *buf, const char *text)
{
	ck_assert_uint_eq(buf->len, strlen(text));
	ck_assert_int_eq(memcmp(buf->data, text, buf->len), 0);
}

START_TEST(a_buffer_holds_what_was_added)
{
	struct buffer buf = {0};

	buffer_puts(&buf, "a");
	buffer_putc(&buf, ' ');
	buffer_add(&buf, "bcd", 2);
	buffer_pad(&buf, '.', 3);
	buffer_pad(&buf, '!', 0);
	buffer_printf(&buf, "%s=%d", "x", -7);
	expect_buffer(&buf, "a bc...x=-7");
	buffer_free(&buf);
}
END_TEST

static const struct {
	uint64_t number;
	const char *text;
} numbers[] = {{0, "0"}, {9, "9"}, {10, "10"}, {4096, "4096"},
    {UINT64_MAX, "18446744073709551615"}};

START_TEST(a_buffer_writes_numbers)
{
	struct buffer buf = {0};

	buffer_uint(&buf, numbers[_i].number);
	expect_buffer(&buf, numbers[_i].text);
	buffer_free(&buf);
}
END_TEST

/* Longer than any first guess of the room that it takes. */
START_TEST(a_buffer_prints_long_texts)
{
	struct buffer buf = {0};
	char *text = mem_zero(100001);

	memset(text, 'q', 100000);
	for (int i = 0; i < 3; i++)
		buffer_printf(&buf, "<%s>", text);
	ck_assert_uint_eq(buf.len, 3 * 100002);
	ck_assert_int_eq(memcmp(buf.data + 100002, "<qq", 3), 0);
	ck_assert_int_eq(buf.data[buf.len - 1], '>');
	free(text);
	buffer_free(&buf);
}
END_TEST

START_TEST(a_buffer_is_written_and_emptied)
{
	struct buffer buf = {0};
	char back[8] = "";
	int ends[2];

	ck_assert_int_eq(pipe(ends), 0);
	buffer_puts(&buf, "words");
	ck_assert_int_eq(buffer_write(&buf, ends[1]), 0);
	ck_assert_uint_eq(buf.len, 0);
	ck_assert_int_eq(buffer_write(&buf, ends[1]), 0);
	ck_assert_int_eq(read(ends[0], back, sizeof(back)), 5);
	ck_assert_str_eq(back, "words");
	close(ends[0]);
	close(ends[1]);
	buffer_puts(&buf, "lost");
	ck_assert_int_eq(buffer_write(&buf, ends[1]), -1);
	ck_assert_int_eq(errno, EBADF);
	buffer_free(&buf);
}
END_TEST

START_TEST(a_full_disk_is_told)
{
	struct buffer buf = {0};
	int fd = open("/dev/full", O_WRONLY);

	if (fd < 0)
		return; /* no such device here */
	buffer_puts(&buf, "words");
	ck_assert_int_eq(buffer_write(&buf, fd), -1);
	ck_assert_int_eq(errno, ENOSPC);
	close(fd);
	buffer_free(&buf);
}
END_TEST

/* --- days -------------------------------------------------------------------
 */

static const struct {
	const char *text;
	int32_t day;
} days[] = {{"1970-01-01", 0}, {"1969-12-31", -1}, {"2000-02-29", 11016},
    {"2000-03-01", 11017}, {"2026-05-04", 20577}, {"2024-12-31", 20088},
    {"2025-01-01", 20089}, {"0001-01-01", -719162}, {"9999-12-31", 2932896},
    {"1900-02-28", -25509}, {"1900-03-01", -25508}};

/* Day numbers from `date -u -d DAY +%s`, divided by 86,400. */
START_TEST(days_are_counted_from_1970)
{
	char out[16];
	int32_t day;

	ck_assert_int_eq(date_parse(days[_i].text, 10, &day), 0);
	ck_assert_int_eq(day, days[_i].day);
	ck_assert_str_eq(date_format(day, out), days[_i].text);
	ck_assert_int_eq(date_year(day), atoi(days[_i].text));
}
END_TEST

/* Midnight may pass between two looks at the clock. */
START_TEST(today_is_the_day_of_the_clock)
{
	int32_t before, day, after;

	ck_assert_int_eq(setenv("TZ", "UTC0", 1), 0);
	tzset();
	before = (int32_t)(time(NULL) / 86400);
	day = date_today();
	after = (int32_t)(time(NULL) / 86400);
	ck_assert_int_ge(day, before);
	ck_assert_int_le(day, after);
	ck_assert_int_eq(unsetenv("TZ"), 0);
	tzset();
}
END_TEST

START_TEST(every_day_follows_the_one_before)
{
	char out[16];
	int32_t day;

	for (int32_t i = -719162; i <= 2932896; i++) {
		date_format(i, out);
		if (date_parse(out, 10, &day) != 0 || day != i)
			ck_abort_msg("day %d is written %s", (int)i, out);
		i += i % 7 == 0 ? 400 : 0; /* not every one of 10,000 years */
	}
}
END_TEST

static const char *const no_days[] = {"2026-02-29", "1900-02-29", "2026-04-31",
    "2026-13-01", "2026-00-01", "2026-01-00", "2026-01-32", "0000-01-01",
    "26-05-04", "2026-5-4", "2026/05/04", "20260504", "2026-05-04 ",
    "2026-05-0x", "+026-05-04", "04.05.2026", ""};

START_TEST(no_such_day)
{
	int32_t day;

	ck_assert_int_eq(
	    date_parse(no_days[_i], strlen(no_days[_i]), &day), -1);
}
END_TEST

static const struct {
	const char *text;
	int minutes; /* -1: none */
} times[] = {{"00:00", 0}, {"09:30", 570}, {"23:59", 1439}, {"24:00", -1},
    {"09:60", -1}, {"9:30", -1}, {"09.30", -1}, {"09:3x", -1}, {"09:30:00", -1},
    {"", -1}};

START_TEST(times_of_day)
{
	int minutes = -1;

	ck_assert_int_eq(
	    time_parse(times[_i].text, strlen(times[_i].text), &minutes),
	    times[_i].minutes < 0 ? -1 : 0);
	ck_assert_int_eq(minutes, times[_i].minutes);
}
END_TEST

/* --- interned texts ----------------------------------------------------------
 */

START_TEST(equal_texts_have_equal_numbers)
{
	struct intern pool = {0};
	uint32_t ids[2000];
	char text[16];

	ck_assert_uint_eq(intern_id(&pool, "", 0), 0);
	for (int round = 0; round < 2; round++)
		for (int i = 0; i < 2000; i++) {
			int len = snprintf(text, sizeof(text), "WR-%d", i);
			uint32_t id = intern_id(&pool, text, (size_t)len);

			if (round == 0)
				ids[i] = id;
			ck_assert_uint_eq(id, ids[i]);
			ck_assert_uint_eq(id, (uint32_t)i + 1);
			ck_assert_str_eq(intern_text(&pool, id), text);
		}
	ck_assert_uint_ne(intern_id(&pool, "dk", 2), intern_id(&pool, "DK", 2));
	ck_assert_uint_eq(
	    intern_id(&pool, "dk of more", 2), intern_id(&pool, "dk", 2));
	ck_assert_str_eq(intern_text(&pool, 0), "");
	intern_free(&pool);
}
END_TEST

/* --- memory ------------------------------------------------------------------
 */

START_TEST(memory_grows_and_keeps_what_it_holds)
{
	struct {
		int *at;
		size_t len, cap;
	} vec = {0};
	char *zero = mem_zero(1000), *copy;

	for (int i = 0; i < 10000; i++)
		*MEM_PUSH(&vec) = i;
	ck_assert_uint_eq(vec.len, 10000);
	ck_assert_uint_ge(vec.cap, vec.len);
	for (int i = 0; i < 10000; i++)
		ck_assert_int_eq(vec.at[i], i);
	for (int i = 0; i < 1000; i++)
		ck_assert_int_eq(zero[i], 0);
	copy = mem_text("a code of more", 6);
	ck_assert_str_eq(copy, "a code");
	free(copy);
	free(zero);
	free(vec.at);
}
END_TEST

#ifndef __SANITIZE_ADDRESS__ /* which ends the program itself */
/* More memory than there is ends the program with status 2 and one line. */
START_TEST(no_memory_ends_the_program)
{
	int ends[2], status;
	char said[256];
	ssize_t n;
	pid_t child;

	ck_assert_int_eq(pipe(ends), 0);
	child = fork();
	ck_assert_int_ge(child, 0);
	if (child == 0) {
		dup2(ends[1], STDERR_FILENO);
		mem_resize(NULL, SIZE_MAX / 16, 8);
		_exit(77);
	}
	close(ends[1]);
	n = read(ends[0], said, sizeof(said));
	close(ends[0]);
	ck_assert_int_eq(waitpid(child, &status, 0), child);
	ck_assert(WIFEXITED(status));
	ck_assert_int_eq(WEXITSTATUS(status), 2);
	ck_assert_int_gt(n, 0);
	ck_assert_int_eq(said[n - 1], '\n');
	ck_assert_ptr_null(memchr(said, '\n', (size_t)n - 1));
}
END_TEST
#endif

/* --- UTF-8
 * -------------------------------------------------------------------- */

/* Well-formed or not, after table 3-7 of the Unicode Standard. */
static const struct {
	const char *text;
	size_t good, bad; /* as utf8_check gives them */
} utf8[] = {{"knee \xc2\xb0\xe2\x80\x93", 10, 0}, {"", 0, 0}, {"a\tb", 3, 0},
    {"a\x01z", 1, 1}, {"a\x7fz", 1, 1}, {"a\rb", 1, 1}, {"a\x1b[0m", 1, 1},
    {"a\xc2\x85z", 1, 2}, {"\x80z", 0, 1}, {"a\xff", 1, 1}, {"\xc0\x80", 0, 1},
    {"\xc1\xbf", 0, 1}, {"\xe0\x9f\xbf", 0, 1}, {"\xe0\xa0\x80", 3, 0},
    {"\xed\x9f\xbf", 3, 0}, {"\xed\xa0\x80", 0, 1}, {"\xee\x80\x80", 3, 0},
    {"\xf0\x8f\xbf\xbf", 0, 1}, {"\xf0\x90\x80\x80", 4, 0},
    {"\xf4\x8f\xbf\xbf", 4, 0}, {"\xf4\x90\x80\x80", 0, 1},
    {"\xf5\x80\x80\x80", 0, 1}, {"ab\xe2\x80", 2, 1}, {"ab\xc3", 2, 1}};

START_TEST(utf8_is_checked)
{
	size_t bad = 99;

	ck_assert_uint_eq(
	    utf8_check(utf8[_i].text, strlen(utf8[_i].text), &bad),
	    utf8[_i].good);
	ck_assert_uint_eq(bad, utf8[_i].bad);
}
END_TEST

START_TEST(nul_is_a_control_character)
{
	size_t bad;

	ck_assert_uint_eq(utf8_check("ab\0c", 4, &bad), 2);
	ck_assert_uint_eq(bad, 1);
}
END_TEST

static const struct {
	const char *text;
	uint32_t code;
	size_t size;
} codes[] = {{"A", 'A', 1}, {"\xc2\xb0", 0xb0, 2}, {"\xe2\x80\x93", 0x2013, 3},
    {"\xf0\x9f\xa6\xb5", 0x1f9b5, 4}, {"\xf4\x8f\xbf\xbf", 0x10ffff, 4},
    {"\xff", 0xfffd, 1}, {"\xe2\x80", 0xfffd, 1}, {"\xed\xa0\x80", 0xfffd, 1}};

START_TEST(utf8_is_decoded)
{
	size_t size;

	ck_assert_uint_eq(
	    utf8_decode(codes[_i].text, strlen(codes[_i].text), &size),
	    codes[_i].code);
	ck_assert_uint_eq(size, codes[_i].size);
}
END_TEST

START_TEST(cells_are_counted)
{
	const char *text = "e\xcc\x81 \xe8\x86\x9d\tx\xff"; /* e + accent */

	ck_assert_int_eq(utf8_cells_of('A'), 1);
	ck_assert_int_eq(utf8_cells_of(0x301), 0);
	ck_assert_int_eq(utf8_cells_of(0x819d), 2);
	ck_assert_int_eq(utf8_cells_of(0xff1d), 2);
	ck_assert_uint_eq(
	    utf8_cells(text, strlen(text)), 1 + 1 + 2 + 1 + 1 + 1);
	ck_assert_uint_eq(utf8_cells("", 0), 0);
}
END_TEST

#define LOOP(tc, test, table)                                                  \
	tcase_add_loop_test(                                                   \
	    tc, test, 0, (int)(sizeof(table) / sizeof(*(table))))

Suite *text_suite(void);

Suite *
text_suite(void)
{
	Suite *suite = suite_create("text");
	TCase *tc = tcase_create("text");

	tcase_set_timeout(tc, 60);
	tcase_add_test(tc, an_arena_gives_aligned_bytes_that_do_not_overlap);
	tcase_add_test(tc, an_arena_takes_what_is_larger_than_a_block);
	tcase_add_test(tc, a_buffer_holds_what_was_added);
	LOOP(tc, a_buffer_writes_numbers, numbers);
	tcase_add_test(tc, a_buffer_prints_long_texts);
	tcase_add_test(tc, a_buffer_is_written_and_emptied);
	tcase_add_test(tc, a_full_disk_is_told);
	LOOP(tc, days_are_counted_from_1970, days);
	tcase_add_test(tc, today_is_the_day_of_the_clock);
	tcase_add_test(tc, every_day_follows_the_one_before);
	LOOP(tc, no_such_day, no_days);
	LOOP(tc, times_of_day, times);
	tcase_add_test(tc, equal_texts_have_equal_numbers);
	tcase_add_test(tc, memory_grows_and_keeps_what_it_holds);
#ifndef __SANITIZE_ADDRESS__
	tcase_add_test(tc, no_memory_ends_the_program);
#endif
	LOOP(tc, utf8_is_checked, utf8);
	tcase_add_test(tc, nul_is_a_control_character);
	LOOP(tc, utf8_is_decoded, codes);
	tcase_add_test(tc, cells_are_counted);
	suite_add_tcase(suite, tc);
	return suite;
}
