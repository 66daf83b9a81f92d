#include "text/file.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <poll.h>
#include <string.h>
#include <unistd.h>

enum { LONGEST_WAIT = 3000 /* milliseconds */ };

/* errno stays what it is. */
static void
close_quietly(int fd)
{
	int error = errno;

	close(fd);
	errno = error;
}

/*
 * Has the pipe FD a writer, or what one wrote? Copying a byte of it into
 * another pipe tells, and takes nothing out.
 */
static bool
has_writer(int fd)
{
	int scratch[2];
	bool has;
	ssize_t n;

	if (pipe2(scratch, O_CLOEXEC) != 0)
		return false;
	n = tee(fd, scratch[1], 1, SPLICE_F_NONBLOCK);
	has = n > 0 || (n < 0 && errno == EAGAIN);
	close(scratch[0]);
	close(scratch[1]);
	return has;
}

/* False where nobody has opened the pipe FD for writing in time. */
static bool
wait_for_writer(int fd)
{
	struct pollfd polled = {fd, POLLIN, 0};
	int n;

	do
		n = poll(&polled, 1, LONGEST_WAIT);
	while (n < 0 && errno == EINTR);
	return n != 0 || has_writer(fd);
}

/* The open file FD as who reads it wants it: reading waits, for a writer. */
static bool
make_ready(int fd)
{
	struct stat st;
	int flags = fcntl(fd, F_GETFL);

	if (flags < 0 || fstat(fd, &st) != 0)
		return false;
	if (S_ISFIFO(st.st_mode) && !wait_for_writer(fd)) {
		errno = ETIMEDOUT;
		return false;
	}
	return fcntl(fd, F_SETFL, flags & ~O_NONBLOCK) == 0;
}

/*
 * O_NONBLOCK, since opening a pipe might wait for ever. Where it fails for
 * that, somebody such as a file server has a lease on the file: what can still
 * be written is waited for then.
 */
static int
open_in(int folder, const char *path, int flags)
{
	int fd;

	flags |= O_RDONLY | O_CLOEXEC | O_NOCTTY;
	fd = openat(folder, path, flags | O_NONBLOCK);
	if (fd < 0 && errno == EAGAIN)
		fd = openat(folder, path, flags);
	if (fd < 0 || make_ready(fd))
		return fd;
	close_quietly(fd);
	return -1;
}

int
file_open(const char *path)
{
	return open_in(AT_FDCWD, path, 0);
}

/* The folder whose name the LEN bytes at NAME are; -1 with errno set. */
static int
step_into(int folder, const char *name, size_t len)
{
	char step[NAME_MAX + 1];

	if (len >= sizeof(step)) {
		errno = ENAMETOOLONG;
		return -1;
	}
	memcpy(step, name, len);
	step[len] = '\0';
	return openat(
	    folder, step, O_PATH | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC);
}

/* Folder by folder, since the system itself follows links on the way. */
int
file_open_below(int folder, const char *path)
{
	int at = folder, next, fd;

	for (const char *slash; (slash = strchr(path, '/')); path = slash + 1) {
		next = step_into(at, path, (size_t)(slash - path));
		if (at != folder)
			close_quietly(at);
		if (next < 0)
			return -1;
		at = next;
	}
	fd = open_in(at, path, O_NOFOLLOW);
	if (at != folder)
		close_quietly(at);
	return fd;
}

const char *
file_error(int error)
{
	return error == ETIMEDOUT ? "a pipe into which nobody writes; start "
				    "first what writes into it"
				  : strerror(error);
}

static bool
same_content(const struct stat *a, const struct stat *b)
{
	return a->st_size == b->st_size &&
	       a->st_mtim.tv_sec == b->st_mtim.tv_sec &&
	       a->st_mtim.tv_nsec == b->st_mtim.tv_nsec;
}

bool
file_same(const struct stat *a, const struct stat *b)
{
	return a->st_dev == b->st_dev && a->st_ino == b->st_ino &&
	       same_content(a, b) && a->st_ctim.tv_sec == b->st_ctim.tv_sec &&
	       a->st_ctim.tv_nsec == b->st_ctim.tv_nsec;
}

bool
file_kept(int fd, const struct stat *was)
{
	struct stat now;

	return !S_ISREG(was->st_mode) ||
	       (fstat(fd, &now) == 0 && same_content(&now, was));
}
