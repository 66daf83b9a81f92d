#include "text/file.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <poll.h>
#include <stdlib.h>
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

/* Reading FD waits for what comes. */
static bool
make_waiting(int fd)
{
	int flags = fcntl(fd, F_GETFL);

	return flags >= 0 && fcntl(fd, F_SETFL, flags & ~O_NONBLOCK) == 0;
}

static bool
make_ready(int fd)
{
	struct stat st;

	if (fstat(fd, &st) != 0)
		return false;
	if (S_ISFIFO(st.st_mode) && !wait_for_writer(fd)) {
		errno = ETIMEDOUT;
		return false;
	}
	return make_waiting(fd);
}

static bool
make_ready_if_regular(int fd)
{
	struct stat st;

	if (fstat(fd, &st) != 0)
		return false;
	if (!S_ISREG(st.st_mode)) {
		errno = EINVAL;
		return false;
	}
	return make_waiting(fd);
}

/*
 * O_NONBLOCK, since opening a pipe might wait for ever. Where it fails for
 * that, somebody such as a file server has a lease on the file: what can still
 * be written is waited for then.
 */
static int
open_in(int folder, const char *path, int flags, bool (*make)(int fd))
{
	int fd;

	flags |= O_RDONLY | O_CLOEXEC | O_NOCTTY;
	fd = openat(folder, path, flags | O_NONBLOCK);
	if (fd < 0 && errno == EAGAIN)
		fd = openat(folder, path, flags);
	if (fd < 0 || make(fd))
		return fd;
	close_quietly(fd);
	return -1;
}

int
file_open(const char *path)
{
	return open_in(AT_FDCWD, path, 0, make_ready);
}

int
file_open_at(const struct file_at *at)
{
	return open_in(at->folder, at->name, O_NOFOLLOW, make_ready_if_regular);
}

const char *
file_error(int error)
{
	return error == ETIMEDOUT ? "a pipe into which nobody writes; start "
				    "first what writes into it"
				  : strerror(error);
}

void
file_leave(struct file_at *at)
{
	close_quietly(at->folder);
	at->folder = -1;
}

static bool
set_name(struct file_at *at, const char *name, size_t len)
{
	if (len >= sizeof(at->name)) {
		errno = ENAMETOOLONG;
		return false;
	}
	memcpy(at->name, name, len);
	at->name[len] = '\0';
	return true;
}

/* What only finds a file needs no right to read the folder. */
static const int finding = O_PATH | O_DIRECTORY | O_CLOEXEC;

int
file_find(struct file_at *at, const char *path)
{
	char way[PATH_MAX];
	const char *name;
	size_t len;

	if (!realpath(path, way)) {
		len = strlen(path);
		if (errno != ENOENT || len >= sizeof(way))
			return -1;
		memcpy(way, path, len + 1);
	}
	name = strrchr(way, '/');
	name = name ? name + 1 : way;
	if (!set_name(at, name, strlen(name)))
		return -1;
	way[name - way] = '\0';
	at->folder = open(way[0] ? way : ".", finding);
	return at->folder < 0 ? -1 : 0;
}

/* Into the folder of LEN bytes; the one before it is left. */
static void
step_into(struct file_at *at, const char *name, size_t len)
{
	int before = at->folder;

	at->folder = set_name(at, name, len)
			 ? openat(before, at->name, finding | O_NOFOLLOW)
			 : -1;
	close_quietly(before);
}

/* Folder by folder, since the system itself follows links on the way. */
int
file_below(struct file_at *at, const char *root, const char *below)
{
	const char *slash;

	at->folder = open(root, finding);
	for (; at->folder >= 0 && (slash = strchr(below, '/'));
	     below = slash + 1)
		step_into(at, below, (size_t)(slash - below));
	if (at->folder >= 0 && !set_name(at, below, strlen(below)))
		file_leave(at);
	return at->folder < 0 ? -1 : 0;
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
