/*
 * Replacing a file at one stroke: what it keeps, and that a failure leaves
 * the file whole and no other file behind.
 */
#include <check.h>
#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include "text/file.h"
#include "text/save.h"

Suite *save_suite(void);

static char folder[] = "/tmp/check-save-XXXXXX";
static char file[64], link_to[64];
static char why[256];
static struct save_seen seen;

static void
write_file(const char *path, const char *text)
{
	FILE *f = fopen(path, "wb");

	ck_assert_ptr_nonnull(f);
	fputs(text, f);
	fclose(f);
}

static void
assert_file(const char *path, const char *text)
{
	char got[64] = "";
	FILE *f = fopen(path, "rb");

	ck_assert_ptr_nonnull(f);
	got[fread(got, 1, sizeof(got) - 1, f)] = '\0';
	fclose(f);
	ck_assert_str_eq(got, text);
}

/* Names in the folder, but for . and .. */
static int
names(void)
{
	DIR *dir = opendir(folder);
	int n = -2;

	ck_assert_ptr_nonnull(dir);
	while (readdir(dir))
		n++;
	closedir(dir);
	return n;
}

static void
look(void)
{
	int fd = open(file, O_RDONLY);

	ck_assert_int_ge(fd, 0);
	ck_assert_int_eq(save_look(fd, &seen, why, sizeof(why)), 0);
	close(fd);
}

static void
setup(void)
{
	strcpy(folder, "/tmp/check-save-XXXXXX");
	ck_assert_ptr_nonnull(mkdtemp(folder));
	snprintf(file, sizeof(file), "%s/note.range", folder);
	snprintf(link_to, sizeof(link_to), "%s/link", folder);
	write_file(file, "old");
	look();
}

static void
teardown(void)
{
	unlink(file);
	unlink(link_to);
	rmdir(folder);
}

static int
save(const char *path, const char *text)
{
	struct buffer content = {0};
	struct file_at at;
	int status;

	buffer_puts(&content, text);
	ck_assert_int_eq(file_find(&at, path), 0);
	status = save_replace(&at, &seen, &content, why, sizeof(why));
	file_leave(&at);
	buffer_free(&content);
	return status;
}

static bool
holds(const char *path, const char *text)
{
	struct buffer content = {0};
	struct file_at at;
	bool same;

	buffer_puts(&content, text);
	ck_assert_int_eq(file_find(&at, path), 0);
	same = save_holds(&at, &content);
	file_leave(&at);
	buffer_free(&content);
	return same;
}

START_TEST(replaces_and_keeps_the_mode)
{
	static const mode_t modes[] = {0600, 0644, 0664, 0750, 0640};
	struct stat now;

	ck_assert_int_eq(chmod(file, modes[_i]), 0);
	look();
	ck_assert_msg(save(file, "new") == 0, "%s", why);
	assert_file(file, "new");
	ck_assert_int_eq(stat(file, &now), 0);
	ck_assert_uint_eq(now.st_mode & 07777, modes[_i]);
	ck_assert_uint_eq(now.st_uid, seen.stat.st_uid);
	ck_assert_uint_eq(now.st_gid, seen.stat.st_gid);
	ck_assert_uint_ne(now.st_ino, seen.stat.st_ino);
	ck_assert_int_eq(names(), 1);
}
END_TEST

START_TEST(may_be_empty_or_long)
{
	char *text = malloc(300000);
	struct stat now;

	ck_assert_int_eq(save(file, ""), 0);
	assert_file(file, "");
	look();
	memset(text, 'x', 299999);
	text[299999] = '\0';
	ck_assert_int_eq(save(file, text), 0);
	ck_assert_int_eq(stat(file, &now), 0);
	ck_assert_int_eq(now.st_size, 299999);
	free(text);
}
END_TEST

START_TEST(follows_links)
{
	struct stat now;

	ck_assert_int_eq(symlink("note.range", link_to), 0);
	ck_assert_int_eq(save(link_to, "new"), 0);
	assert_file(file, "new");
	ck_assert_int_eq(lstat(link_to, &now), 0);
	ck_assert(S_ISLNK(now.st_mode));
	ck_assert_int_eq(names(), 2);
}
END_TEST

START_TEST(refuses_what_has_another_name)
{
	ck_assert_int_eq(link(file, link_to), 0);
	look();
	ck_assert_int_eq(save(file, "new"), -1);
	ck_assert_ptr_nonnull(strstr(why, "another name too (a hard link)"));
	assert_file(file, "old");
	assert_file(link_to, "old");
	ck_assert_int_eq(names(), 2);
}
END_TEST

START_TEST(tells_what_a_file_holds)
{
	static const struct {
		const char *text;
		bool same;
	} cases[] = {{"old", true}, {"ol", false}, {"olds", false},
	    {"odd", false}, {"", false}};

	ck_assert_int_eq(holds(file, cases[_i].text), cases[_i].same);
	ck_assert(!holds(link_to, cases[_i].text));
	ck_assert(!holds(folder, cases[_i].text));
}
END_TEST

static int
make(const char *text)
{
	struct buffer content = {0};
	struct file_at at;
	int status;

	buffer_puts(&content, text);
	ck_assert_int_eq(file_find(&at, file), 0);
	status = save_new(&at, &content, why, sizeof(why));
	file_leave(&at);
	buffer_free(&content);
	return status;
}

START_TEST(makes_a_new_file)
{
	mode_t mask = umask(0027);
	struct stat now;

	ck_assert_int_eq(unlink(file), 0);
	ck_assert_msg(make("new") == 0, "%s", why);
	umask(mask);
	assert_file(file, "new");
	ck_assert_int_eq(stat(file, &now), 0);
	ck_assert_uint_eq(now.st_mode & 07777, 0640);
	ck_assert_uint_eq(now.st_nlink, 1);
	ck_assert_int_eq(names(), 1);
}
END_TEST

START_TEST(makes_no_file_in_the_place_of_another)
{
	ck_assert_int_eq(make("new"), -1);
	ck_assert_int_eq(errno, EEXIST);
	ck_assert_str_eq(
	    why, "cannot make the file: File exists; nothing was written");
	assert_file(file, "old");
	ck_assert_int_eq(names(), 1);
}
END_TEST

/* Gives the file the time that it had, with these bits changed. */
static void
set_time(long bits)
{
	struct timespec times[2] = {seen.stat.st_atim, seen.stat.st_mtim};

	times[1].tv_nsec ^= bits;
	ck_assert_int_eq(utimensat(AT_FDCWD, file, times, 0), 0);
}

START_TEST(refuses_what_somebody_changed)
{
	switch (_i) {
	case 0: /* another size */
		write_file(file, "their");
		set_time(0);
		break;
	case 1: /* another time */
		write_file(file, "own");
		set_time(1);
		break;
	default: /* another file, alike in all else */
		ck_assert_int_eq(rename(file, link_to), 0);
		write_file(file, "own");
		set_time(0);
	}
	ck_assert_int_eq(save(file, "new"), -1);
	ck_assert_str_eq(why, "somebody else changed the file in the meantime; "
			      "nothing was written");
	assert_file(file, _i == 0 ? "their" : "own");
	ck_assert_int_eq(names(), _i == 2 ? 2 : 1);
}
END_TEST

START_TEST(refuses_what_is_no_regular_file)
{
	int ends[2];

	ck_assert_int_eq(pipe(ends), 0);
	ck_assert_int_eq(save_look(ends[0], &seen, why, sizeof(why)), -1);
	ck_assert_str_eq(why, "this is no regular file; nothing was written");
	close(ends[0]);
	close(ends[1]);
	look();
	unlink(file);
	ck_assert_int_eq(mkfifo(file, 0600), 0);
	/* With a reader, so that opening it succeeds. */
	ends[0] = open(file, O_RDONLY | O_NONBLOCK);
	ck_assert_int_eq(save(file, "new"), -1);
	ck_assert_str_eq(why, "this is no regular file; nothing was written");
	close(ends[0]);
	ck_assert_int_eq(save(folder, "new"), -1);
	ck_assert_str_eq(
	    why, "cannot write the file: Is a directory; nothing was written");
	ck_assert_int_eq(names(), 1);
}
END_TEST

START_TEST(says_that_it_is_gone)
{
	unlink(file);
	ck_assert_int_eq(save(file, "new"), -1);
	ck_assert_str_eq(why, "cannot write the file: No such file or "
			      "directory; nothing was written");
	ck_assert_int_eq(names(), 0);
}
END_TEST

/* No room: writing the temporary file stops half way. */
START_TEST(a_full_disk_leaves_the_old)
{
	struct rlimit limit;
	char text[9000];

	memset(text, 'x', sizeof(text) - 1);
	text[sizeof(text) - 1] = '\0';
	ck_assert_int_eq(getrlimit(RLIMIT_FSIZE, &limit), 0);
	limit.rlim_cur = 4096;
	signal(SIGXFSZ, SIG_IGN);
	ck_assert_int_eq(setrlimit(RLIMIT_FSIZE, &limit), 0);
	ck_assert_int_eq(save(file, text), -1);
	limit.rlim_cur = limit.rlim_max;
	setrlimit(RLIMIT_FSIZE, &limit);
	ck_assert_str_eq(why, "cannot write a temporary file: File too large; "
			      "nothing was written");
	assert_file(file, "old");
	ck_assert_int_eq(names(), 1);
}
END_TEST

/* Root may write everywhere: then there is nothing to see. */
START_TEST(needs_the_right_to_write)
{
	if (geteuid() == 0)
		return;
	ck_assert_int_eq(chmod(file, 0444), 0);
	look();
	ck_assert_int_eq(save(file, "new"), -1);
	ck_assert_str_eq(why,
	    "cannot write the file: Permission denied; nothing was written");
	ck_assert_int_eq(chmod(file, 0644), 0);
	look();
	ck_assert_int_eq(chmod(folder, 0555), 0);
	ck_assert_int_eq(save(file, "new"), -1);
	ck_assert_int_eq(chmod(folder, 0755), 0);
	assert_file(file, "old");
	ck_assert_int_eq(names(), 1);
}
END_TEST

Suite *
save_suite(void)
{
	Suite *suite = suite_create("save");
	TCase *replace = tcase_create("replace");

	tcase_add_checked_fixture(replace, setup, teardown);
	tcase_add_loop_test(replace, replaces_and_keeps_the_mode, 0, 5);
	tcase_add_test(replace, may_be_empty_or_long);
	tcase_add_test(replace, follows_links);
	tcase_add_test(replace, refuses_what_has_another_name);
	tcase_add_loop_test(replace, tells_what_a_file_holds, 0, 5);
	tcase_add_test(replace, makes_a_new_file);
	tcase_add_test(replace, makes_no_file_in_the_place_of_another);
	tcase_add_loop_test(replace, refuses_what_somebody_changed, 0, 3);
	tcase_add_test(replace, refuses_what_is_no_regular_file);
	tcase_add_test(replace, says_that_it_is_gone);
	tcase_add_test(replace, a_full_disk_leaves_the_old);
	tcase_add_test(replace, needs_the_right_to_write);
	suite_add_tcase(suite, replace);
	return suite;
}
