#include "text/file.h"

#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <string.h>
#include <unistd.h>

enum { LONGEST_WAIT = 3 /* seconds */ };

static void
wake_up(int signal)
{
	(void)signal;
}

int
file_open(const char *path, int flags)
{
	struct sigaction wake = {.sa_handler = wake_up}, old;
	int fd, error;

	/* Without SA_RESTART it breaks the waiting off. */
	sigaction(SIGALRM, &wake, &old);
	alarm(LONGEST_WAIT);
	fd = open(path, flags | O_RDONLY | O_CLOEXEC | O_NOCTTY);
	error = errno;
	alarm(0);
	sigaction(SIGALRM, &old, NULL);
	errno = error;
	return fd;
}

const char *
file_error(int error)
{
	return error == EINTR ? "a pipe into which nobody writes; start first "
				"what writes into it"
			      : strerror(error);
}

bool
file_same(const struct stat *a, const struct stat *b)
{
	return a->st_dev == b->st_dev && a->st_ino == b->st_ino &&
	       a->st_size == b->st_size &&
	       a->st_mtim.tv_sec == b->st_mtim.tv_sec &&
	       a->st_mtim.tv_nsec == b->st_mtim.tv_nsec;
}

bool
file_kept(int fd, const struct stat *was)
{
	struct stat now;

	return !S_ISREG(was->st_mode) ||
	       (fstat(fd, &now) == 0 && file_same(&now, was));
}
