/*
 * A temporary file in the folder of the old one is written, brought to the
 * disk and renamed. Until the rename the old file is not touched.
 */

#include "text/save.h"

#include <errno.h>
#include <fcntl.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "text/mem.h"

static const char changed_message[] =
    "somebody else changed the file in the meantime; nothing was written";
static const char not_regular_message[] =
    "this is no regular file; nothing was written";

/* Says what failed, and why; returns -1, for the caller to return. */
static int
failed(char *why, size_t size, const char *what)
{
	snprintf(why, size, "%s: %s", what, strerror(errno));
	return -1;
}

static int
refused(char *why, size_t size, const char *message)
{
	snprintf(why, size, "%s", message);
	return -1;
}

static bool
is_same(const struct stat *a, const struct stat *b)
{
	return a->st_dev == b->st_dev && a->st_ino == b->st_ino &&
	       a->st_size == b->st_size &&
	       a->st_mtim.tv_sec == b->st_mtim.tv_sec &&
	       a->st_mtim.tv_nsec == b->st_mtim.tv_nsec;
}

int
save_look(int fd, struct save_seen *seen, char *why, size_t size)
{
	if (fstat(fd, &seen->stat) != 0)
		return failed(why, size, "cannot look at the file");
	if (!S_ISREG(seen->stat.st_mode))
		return refused(why, size, not_regular_message);
	return 0;
}

/*
 * May the file be written, and is it the one that was read? Opening it tells
 * what its mode alone does not; nothing is written through this descriptor.
 */
static int
check_target(
    const char *target, const struct save_seen *seen, char *why, size_t size)
{
	struct stat now;
	int status = 0;
	int fd = open(target, O_WRONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);

	if (fd < 0)
		return failed(why, size, "cannot write the file");
	if (fstat(fd, &now) != 0)
		status = failed(why, size, "cannot look at the file");
	else if (!S_ISREG(now.st_mode))
		status = refused(why, size, not_regular_message);
	else if (!is_same(&now, &seen->stat))
		status = refused(why, size, changed_message);
	close(fd);
	return status;
}

/* The folder of TARGET, an absolute path, with its last slash. */
static size_t
folder_len(const char *target)
{
	return (size_t)(strrchr(target, '/') - target) + 1;
}

/* The name begins with a point, so that walks over a folder pass it over. */
static char *
temporary_name(const char *target)
{
	static const char name[] = ".rangeline-XXXXXX";
	size_t folder = folder_len(target);
	char *path = mem_zero(folder + sizeof(name));

	memcpy(path, target, folder);
	memcpy(path + folder, name, sizeof(name));
	return path;
}

static int
write_all(int fd, const struct buffer *content)
{
	size_t done = 0;

	while (done < content->len) {
		ssize_t n =
		    write(fd, content->data + done, content->len - done);

		if (n < 0 && errno == EINTR)
			continue;
		if (n < 0)
			return -1;
		done += (size_t)n;
	}
	return 0;
}

/*
 * Owner, group and mode of the old file. Where the group cannot be kept, its
 * rights are not given to another one.
 */
static int
take_over(int fd, const struct stat *old)
{
	mode_t mode = old->st_mode & 07777;
	struct stat made;

	if (fchown(fd, old->st_uid, old->st_gid) != 0 &&
	    fchown(fd, (uid_t)-1, old->st_gid) != 0) {
		if (fstat(fd, &made) != 0)
			return -1;
		if (made.st_gid != old->st_gid)
			mode &= (mode_t) ~(S_IRWXG | S_ISGID);
	}
	return fchmod(fd, mode);
}

/* Fills the temporary file and closes it. */
static int
fill(int fd, const struct save_seen *seen, const struct buffer *content)
{
	int status = 0, error;

	if (fcntl(fd, F_SETFD, FD_CLOEXEC) != 0 ||
	    write_all(fd, content) != 0 || take_over(fd, &seen->stat) != 0 ||
	    fsync(fd) != 0)
		status = -1;
	error = errno;
	if (close(fd) != 0)
		return -1;
	errno = error;
	return status;
}

/*
 * Brings the new name to the disk. A file system that cannot do this for
 * folders does it in its own time.
 */
static void
settle_folder(const char *target)
{
	char *folder = mem_text(target, folder_len(target));
	int fd = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);

	if (fd >= 0) {
		fsync(fd);
		close(fd);
	}
	free(folder);
}

/* Puts TEMPORARY, which is complete, in the place of TARGET. */
static int
put_in_place(const char *temporary, const char *target,
    const struct save_seen *seen, char *why, size_t size)
{
	if (check_target(target, seen, why, size) != 0)
		return -1;
	if (rename(temporary, target) != 0)
		return failed(why, size, "cannot replace the file");
	settle_folder(target);
	return 0;
}

static int
replace(const char *target, const struct save_seen *seen,
    const struct buffer *content, char *why, size_t size)
{
	char *temporary;
	int fd, status;

	if (check_target(target, seen, why, size) != 0)
		return -1;
	temporary = temporary_name(target);
	fd = mkstemp(temporary);
	if (fd < 0) {
		status = failed(why, size,
		    "cannot make a temporary file in the same folder");
	} else {
		status =
		    fill(fd, seen, content) != 0
			? failed(why, size, "cannot write a temporary file")
			: put_in_place(temporary, target, seen, why, size);
		if (status != 0)
			unlink(temporary);
	}
	free(temporary);
	return status;
}

int
save_replace(const char *path, const struct save_seen *seen,
    const struct buffer *content, char *why, size_t size)
{
	char *target = realpath(path, NULL);
	int status;

	if (!target)
		return failed(why, size, "cannot find the file");
	status = replace(target, seen, content, why, size);
	free(target);
	return status;
}
