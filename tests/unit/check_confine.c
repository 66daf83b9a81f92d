/*
 * What a confined process can no longer do, and what it still can: each is
 * tried in a process of its own.
 */
#include <check.h>
#include <errno.h>
#include <fcntl.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/ioctl.h>
#include <sys/ptrace.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

#include "cmd/confine.h"

Suite *confine_suite(void);

static char folder[] = "/tmp/check-confine-XXXXXX";
static char file[64];

static void
setup(void)
{
	int fd;

	ck_assert_ptr_nonnull(mkdtemp(folder));
	snprintf(file, sizeof(file), "%s/note.range", folder);
	fd = open(file, O_WRONLY | O_CREAT, 0666);
	ck_assert_int_ge(fd, 0);
	ck_assert_int_eq(close(fd), 0);
}

static void
teardown(void)
{
	unlink(file);
	rmdir(folder);
	snprintf(folder, sizeof(folder), "/tmp/check-confine-XXXXXX");
}

static int
open_with(int flags)
{
	int fd = open(file, flags, 0666);

	return fd < 0 ? -1 : close(fd);
}

static int
try_write(void)
{
	return open_with(O_WRONLY);
}

static int
try_read_and_write(void)
{
	return open_with(O_RDWR);
}

static int
try_truncate_at_open(void)
{
	return open_with(O_RDONLY | O_TRUNC);
}

static int
try_create(void)
{
	int fd;
	char path[80];

	snprintf(path, sizeof(path), "%s/new", folder);
	fd = open(path, O_RDONLY | O_CREAT, 0666);
	if (fd < 0)
		return -1;
	unlink(path);
	return close(fd);
}

static int
try_truncate(void)
{
	return truncate(file, 0);
}

static int
try_remove(void)
{
	return unlink(file);
}

static int
try_rename(void)
{
	return rename(file, file);
}

static int
try_folder(void)
{
	char path[80];

	snprintf(path, sizeof(path), "%s/sub", folder);
	return mkdir(path, 0777) != 0 ? -1 : rmdir(path);
}

static int
try_mode(void)
{
	return chmod(file, 0644);
}

/* TRY on the file, opened for reading. */
static int
on_open_file(int (*try)(int))
{
	int fd = open(file, O_RDONLY), result, error;

	if (fd < 0)
		return -1;
	result = try(fd);
	error = errno;
	close(fd);
	errno = error;
	return result;
}

static int
give_mode(int fd)
{
	return fchmod(fd, 0644);
}

static int
try_mode_of_open_file(void)
{
	return on_open_file(give_mode);
}

static int
give_owner(int fd)
{
	return fchown(fd, getuid(), getgid());
}

static int
try_owner_of_open_file(void)
{
	return on_open_file(give_owner);
}

static int
give_time(int fd)
{
	return futimens(fd, NULL);
}

static int
try_time_of_open_file(void)
{
	return on_open_file(give_time);
}

static int
try_time(void)
{
	return utimensat(AT_FDCWD, file, NULL, 0);
}

static int
how_much(int fd)
{
	int n;

	return ioctl(fd, FIONREAD, &n);
}

static int
try_control(void)
{
	return on_open_file(how_much);
}

static int
try_program(void)
{
	char *words[] = {(char *)"true", NULL};

	execv("/bin/true", words); /* where it works, the status is 0 too */
	return -1;
}

static int
try_socket(int domain)
{
	int fd = socket(domain, SOCK_STREAM, 0);

	return fd < 0 ? -1 : close(fd);
}

static int
try_network(void)
{
	return try_socket(AF_INET);
}

static int
try_local_socket(void)
{
	return try_socket(AF_UNIX);
}

#ifndef CONFINE_TRACED
static int
try_trace(void)
{
	return (int)ptrace(PTRACE_TRACEME, 0, NULL, NULL);
}
#endif

static int (*const refused[])(void) = {
    try_write,
    try_read_and_write,
    try_truncate_at_open,
    try_create,
    try_truncate,
    try_remove,
    try_rename,
    try_folder,
    try_mode,
    try_mode_of_open_file,
    try_owner_of_open_file,
    try_time,
    try_time_of_open_file,
    try_control,
    try_program,
    try_network,
    try_local_socket,
#ifndef CONFINE_TRACED
    try_trace,
#endif
};

enum { REFUSED = sizeof(refused) / sizeof(refused[0]), DONE = 0, OTHER = 200 };

/* errno of what TRY could not do, DONE where it could. */
static int
outcome(int (*try)(void), bool confined)
{
	pid_t pid = fork();
	int how = 0;

	ck_assert_int_ge(pid, 0);
	if (pid == 0) {
		if (confined)
			confine();
		_exit(try() == 0 ? DONE : errno);
	}
	ck_assert_int_eq(waitpid(pid, &how, 0), pid);
	return WIFEXITED(how) ? WEXITSTATUS(how) : OTHER;
}

static int
how_far(void)
{
	pid_t pid = fork();
	int how = 0;

	if (pid == 0)
		_exit(confine());
	ck_assert_int_eq(waitpid(pid, &how, 0), pid);
	return WEXITSTATUS(how);
}

START_TEST(refuses)
{
	int got;

	/* Without the filter there is nothing to hold it to. */
	if (!(how_far() & CONFINE_CALLS))
		return;
	got = outcome(refused[_i], true);
	ck_assert_msg(got == EPERM || got == EACCES, "try %d: %d", _i, got);
	/* And it is the confining that refuses. */
	if (refused[_i] != try_network)
		ck_assert_int_eq(outcome(refused[_i], false), DONE);
}
END_TEST

/*
 * Calls by their numbers alone. No argument of theirs is right, so without the
 * filter none does anything, and none but those of root's fails by EPERM.
 */
static const struct {
	const char *name;
	long number;
	int error; /* by which it is refused */
	bool of_root;
} calls[] = {
#define CALL(name)                                                             \
	{                                                                      \
#name, SYS_##name, EPERM, false                                \
	}
    CALL(openat2),
    {"open_by_handle_at", SYS_open_by_handle_at, EPERM, true},
    CALL(execve),
    CALL(execveat),
    CALL(socketpair),
    CALL(process_vm_writev),
    CALL(pidfd_getfd),
    CALL(unlinkat),
    CALL(renameat2),
    CALL(linkat),
    CALL(symlinkat),
    CALL(mkdirat),
    CALL(mknodat),
    CALL(truncate),
    CALL(fchmod),
    CALL(fchmodat),
    CALL(fchown),
    CALL(fchownat),
    CALL(setxattr),
    CALL(lsetxattr),
    CALL(fsetxattr),
    CALL(removexattr),
    CALL(lremovexattr),
    CALL(fremovexattr),
    CALL(utimensat),
    CALL(ioctl),
#ifdef SYS_creat
    CALL(renameat),
    CALL(creat),
    CALL(unlink),
    CALL(rmdir),
    CALL(rename),
    CALL(link),
    CALL(symlink),
    CALL(mkdir),
    CALL(mknod),
    CALL(chmod),
    CALL(chown),
    CALL(lchown),
    CALL(utime),
    CALL(utimes),
    CALL(futimesat),
#endif
#undef CALL
    {"fchmodat2", 452, ENOSYS, false},
    {"setxattrat", 463, ENOSYS, false},
};

enum { CALLS = sizeof(calls) / sizeof(calls[0]) };

static long called; /* which of them; a child gets it with all else */

static int
try_call(void)
{
	return (int)syscall(called, -1L, -1L, -1L, -1L, -1L, -1L);
}

START_TEST(refuses_calls)
{
	if (!(how_far() & CONFINE_CALLS))
		return;
	called = calls[_i].number;
	ck_assert_msg(
	    outcome(try_call, true) == calls[_i].error, "%s", calls[_i].name);
	if (calls[_i].error == EPERM && !calls[_i].of_root)
		ck_assert_msg(outcome(try_call, false) != EPERM,
		    "%s: it is "
		    "not the filter that refuses",
		    calls[_i].name);
}
END_TEST

static int terminal; /* opened before anything is given up */

static int
try_terminal(void)
{
	struct winsize size;

	return isatty(terminal) ? ioctl(terminal, TIOCGWINSZ, &size) : -1;
}

static int
try_reading(void)
{
	char byte;
	int fd = open(file, O_RDONLY | O_CLOEXEC);

	return fd < 0 || read(fd, &byte, 1) != 0 ? -1 : close(fd);
}

static int
try_listing(void)
{
	int fd = open(folder, O_RDONLY | O_DIRECTORY);

	return fd < 0 ? -1 : close(fd);
}

static int
try_child_and_pipe(void)
{
	int ends[2], how = 0;
	pid_t pid;

	if (pipe(ends) != 0 || (pid = fork()) < 0)
		return -1;
	if (pid == 0)
		_exit(write(ends[1], "x", 1) == 1 && try_write() != 0 ? 7 : 1);
	return waitpid(pid, &how, 0) == pid && WEXITSTATUS(how) == 7 ? 0 : -1;
}

static int (*const kept[])(void) = {
    try_reading, try_listing, try_child_and_pipe, try_terminal};

enum { KEPT = sizeof(kept) / sizeof(kept[0]) };

START_TEST(keeps)
{
	terminal = posix_openpt(O_RDWR | O_NOCTTY);
	ck_assert_int_ge(terminal, 0);
	if (how_far() != 0)
		ck_assert_int_eq(outcome(kept[_i], true), DONE);
	close(terminal);
}
END_TEST

Suite *
confine_suite(void)
{
	Suite *suite = suite_create("confine");
	TCase *each = tcase_create("each");

	tcase_add_checked_fixture(each, setup, teardown);
	tcase_add_loop_test(each, refuses, 0, REFUSED);
	tcase_add_loop_test(each, refuses_calls, 0, CALLS);
	tcase_add_loop_test(each, keeps, 0, KEPT);
	suite_add_tcase(suite, each);
	return suite;
}
