/*
 * Loaded before the C library (LD_PRELOAD): makes one call of the program
 * fail, or be cut short, as the environment says:
 *
 *	FAULT_CALL=read FAULT_AT=3 FAULT_HOW=EIO
 *
 * FAULT_CALL is a name of the table below, FAULT_AT counts its calls from 1
 * (0: every call), FAULT_HOW is what happens: the name of an error, or `short`:
 * one byte is moved. Every fault is told by a byte on descriptor FAULT_TELL,
 * `e` where it hit standard error, so that who counts knows when a run was not
 * touched and when no message can be asked for. The allocations that
 * the C library makes for the program (fdopendir, realpath) count as well.
 */
#include <dirent.h>
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/random.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/xattr.h>
#include <unistd.h>

static const struct {
	const char *name;
	int error;
} errors[] = {
    {"EIO", EIO},
    {"ENOSPC", ENOSPC},
    {"EINTR", EINTR},
    {"EACCES", EACCES},
    {"ENOMEM", ENOMEM},
    {"EMFILE", EMFILE},
    {"short", 0},
};

static const char *target; /* the call that fails; NULL: none yet */
static unsigned long fault_at, seen;
static int fault_error, tell;

__attribute__((constructor)) static void
begin(void)
{
	const char *name = getenv("FAULT_CALL"), *at = getenv("FAULT_AT");
	const char *how = getenv("FAULT_HOW"), *fd = getenv("FAULT_TELL");

	if (!name || !at || !how || !fd)
		return;
	fault_at = strtoul(at, NULL, 10);
	tell = atoi(fd);
	for (size_t i = 0; i < sizeof(errors) / sizeof(*errors); i++)
		if (strcmp(errors[i].name, how) == 0) {
			fault_error = errors[i].error;
			target = name;
		}
}

/* Is this call the one? Says so to who counts. */
static bool
strikes_at(const char *name, int fd)
{
	int error = errno;

	if (!target || strcmp(target, name) != 0)
		return false;
	seen++;
	if (fault_at != 0 && seen != fault_at)
		return false;
	syscall(SYS_write, tell, fd == STDERR_FILENO ? "e" : "!", 1);
	errno = fault_error ? fault_error : error;
	return true;
}

static bool
strikes(const char *name)
{
	return strikes_at(name, -1);
}

/* The function of that name behind this one. */
#define BEHIND(name)                                                           \
	static __typeof__(name) *behind;                                       \
	if (!behind)                                                           \
	*(void **)&behind = dlsym(RTLD_NEXT, #name)

void *__libc_malloc(size_t size);
void *__libc_calloc(size_t n, size_t size);
void *__libc_realloc(void *ptr, size_t size);

void *
malloc(size_t size)
{
	return strikes("alloc") ? NULL : __libc_malloc(size);
}

void *
calloc(size_t n, size_t size)
{
	return strikes("alloc") ? NULL : __libc_calloc(n, size);
}

void *
realloc(void *ptr, size_t size)
{
	return strikes("alloc") ? NULL : __libc_realloc(ptr, size);
}

/* A call of N bytes that is cut short moves one; one that fails, none. */
ssize_t
read(int fd, void *data, size_t n)
{
	BEHIND(read);
	if (!strikes("read"))
		return behind(fd, data, n);
	return fault_error ? -1 : behind(fd, data, n ? 1 : 0);
}

ssize_t
write(int fd, const void *data, size_t n)
{
	BEHIND(write);
	if (!strikes_at("write", fd))
		return behind(fd, data, n);
	return fault_error ? -1 : behind(fd, data, n ? 1 : 0);
}

int
open(const char *path, int flags, ...)
{
	va_list args;
	mode_t mode;

	BEHIND(open);
	va_start(args, flags);
	mode = flags & (O_CREAT | O_TMPFILE) ? va_arg(args, mode_t) : 0;
	va_end(args);
	return strikes("open") ? -1 : behind(path, flags, mode);
}

int
openat(int folder, const char *path, int flags, ...)
{
	va_list args;
	mode_t mode;

	BEHIND(openat);
	va_start(args, flags);
	mode = flags & (O_CREAT | O_TMPFILE) ? va_arg(args, mode_t) : 0;
	va_end(args);
	return strikes("open") ? -1 : behind(folder, path, flags, mode);
}

int
fcntl(int fd, int command, ...)
{
	va_list args;
	long arg;

	BEHIND(fcntl);
	va_start(args, command);
	arg = va_arg(args, long);
	va_end(args);
	return strikes("fcntl") ? -1 : behind(fd, command, arg);
}

/* As on a real system, the descriptor is gone though closing it failed. */
int
close(int fd)
{
	int result;

	BEHIND(close);
	result = behind(fd);
	return strikes("close") ? -1 : result;
}

#define FAILING(result, failed, name, parameters, arguments)                   \
	result name parameters                                                 \
	{                                                                      \
		BEHIND(name);                                                  \
		return strikes(#name) ? (failed) : behind arguments;           \
	}

FAILING(int, -1, fsync, (int fd), (fd))
FAILING(int, -1, fstat, (int fd, struct stat *st), (fd, st))
FAILING(int, -1, stat, (const char *path, struct stat *st), (path, st))
FAILING(int, -1, fchmod, (int fd, mode_t mode), (fd, mode))
FAILING(int, -1, fchown, (int fd, uid_t uid, gid_t gid), (fd, uid, gid))
FAILING(int, -1, renameat,
    (int from_dir, const char *from, int to_dir, const char *to),
    (from_dir, from, to_dir, to))
FAILING(int, -1, linkat,
    (int from_dir, const char *from, int to_dir, const char *to, int flags),
    (from_dir, from, to_dir, to, flags))
FAILING(int, -1, unlinkat, (int dir, const char *path, int flags),
    (dir, path, flags))
FAILING(int, -1, fstatat,
    (int dir, const char *path, struct stat *st, int flags),
    (dir, path, st, flags))
FAILING(
    ssize_t, -1, flistxattr, (int fd, char *names, size_t n), (fd, names, n))
FAILING(ssize_t, -1, getrandom, (void *data, size_t n, unsigned int flags),
    (data, n, flags))
FAILING(int, -1, poll, (struct pollfd * p, nfds_t n, int wait), (p, n, wait))
FAILING(DIR *, NULL, fdopendir, (int fd), (fd))
FAILING(struct dirent *, NULL, readdir, (DIR * dir), (dir))
FAILING(char *, NULL, realpath, (const char *path, char *to), (path, to))

/* As these calls are named where the program is built with _FORTIFY_SOURCE. */
int __open_2(const char *path, int flags);
int __openat_2(int folder, const char *path, int flags);
char *__realpath_chk(const char *path, char *to, size_t size);

int
__open_2(const char *path, int flags)
{
	return open(path, flags);
}

int
__openat_2(int folder, const char *path, int flags)
{
	return openat(folder, path, flags);
}

char *
__realpath_chk(const char *path, char *to, size_t size)
{
	(void)size;
	return realpath(path, to);
}
