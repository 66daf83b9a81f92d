/*
 * A new file in the folder of the old one is written, brought to the disk and
 * renamed. Until the rename the old file is not touched. Where the file system
 * can do it, the new file has no name until it is whole, so that a program
 * that is ended in between leaves nothing behind. Nothing is allocated here:
 * running out of memory would end the program half way.
 */

#include "text/save.h"

#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <linux/limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/xattr.h>
#include <unistd.h>

#include "text/file.h"

static const char changed_message[] =
    "somebody else changed the file in the meantime; nothing was written";
static const char not_regular_message[] =
    "this is no regular file; nothing was written";
static const char access_list[] = "system.posix_acl_access";
static const char many_names_message[] =
    "the same file stands under another name too (a hard link), which would "
    "keep the old content; nothing was written; make a copy and use that";

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
	else if (now.st_nlink > 1)
		status = refused(why, size, many_names_message);
	else if (!file_same(&now, &seen->stat))
		status = refused(why, size, changed_message);
	close(fd);
	return status;
}

/* The new content on its way: NAME is empty while the file has none. */
struct fresh {
	int fd;
	char folder[PATH_MAX]; /* with its last slash */
	char name[PATH_MAX];
};

/* A name of a file in the folder; "" where it would be too long. */
static void
set_name(struct fresh *new, const char *name)
{
	size_t folder = strlen(new->folder), len = strlen(name);

	new->name[0] = '\0';
	if (folder + len >= sizeof(new->name))
		return;
	memcpy(new->name, new->folder, folder);
	memcpy(new->name + folder, name, len + 1);
}

static void
set_folder(struct fresh *new, const char *target)
{
	size_t len = (size_t)(strrchr(target, '/') - target) + 1;

	memcpy(new->folder, target, len);
	new->folder[len] = '\0';
}

/* A name begins with a point, so that walks over a folder pass it over. */
static int
open_named(struct fresh *new)
{
	set_name(new, ".rangeline-XXXXXX");
	new->fd = mkstemp(new->name);
	if (new->fd < 0)
		new->name[0] = '\0';
	return new->fd < 0 ? -1 : 0;
}

static int
open_nameless(struct fresh *new)
{
	new->name[0] = '\0';
	new->fd = open(new->folder, O_TMPFILE | O_WRONLY | O_CLOEXEC, 0600);
	return new->fd < 0 ? -1 : 0;
}

/* Gives the file a name, if it has none; 0 or -1. */
static int
give_name(struct fresh *new)
{
	char by_fd[32], name[64];

	if (new->name[0])
		return 0;
	snprintf(by_fd, sizeof(by_fd), "/proc/self/fd/%d", new->fd);
	for (int i = 0; i < 100; i++) {
		snprintf(
		    name, sizeof(name), ".rangeline-%ld-%d", (long)getpid(), i);
		set_name(new, name);
		if (linkat(AT_FDCWD, by_fd, AT_FDCWD, new->name,
			AT_SYMLINK_FOLLOW) == 0)
			return 0;
		if (errno != EEXIST)
			break;
	}
	new->name[0] = '\0';
	return -1;
}

/* Closes it; where that fails it is as good as not written. */
static int
close_fresh(struct fresh *new)
{
	int fd = new->fd;

	new->fd = -1;
	return fd < 0 ? 0 : close(fd);
}

/* Nothing of it stays. */
static void
drop(struct fresh *new)
{
	close_fresh(new);
	if (new->name[0])
		unlink(new->name);
	new->name[0] = '\0';
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

/* A list that the folder gives to new files is none of the old one. */
static int
drop_access_list(int fd)
{
	if (fremovexattr(fd, access_list) == 0 || errno == ENODATA ||
	    errno == ENOTSUP)
		return 0;
	return -1;
}

/*
 * Extended attributes of TARGET. An access list must come along: the bits of
 * the group are the bound of the list, and without it would be the group's own.
 * Nor may it speak of another group.
 */
static int
take_over_attributes(int fd, const char *target, const struct stat *old)
{
	char names[XATTR_LIST_MAX], value[XATTR_SIZE_MAX];
	ssize_t len = listxattr(target, names, sizeof(names)), size;
	struct stat made;

	if (len < 0)
		return errno == ENOTSUP ? 0 : -1;
	if (fstat(fd, &made) != 0)
		return -1;
	for (const char *name = names; name < names + len;
	     name += strlen(name) + 1) {
		bool is_list = strcmp(name, access_list) == 0;

		errno = EPERM;
		if (is_list && made.st_gid != old->st_gid)
			return -1;
		size = getxattr(target, name, value, sizeof(value));
		if ((size < 0 ||
			fsetxattr(fd, name, value, (size_t)size, 0) != 0) &&
		    is_list)
			return -1;
	}
	return 0;
}

static int
fill(int fd, const char *target, const struct save_seen *seen,
    const struct buffer *content)
{
	if (fcntl(fd, F_SETFD, FD_CLOEXEC) != 0 ||
	    buffer_write_kept(content, fd) != 0 || drop_access_list(fd) != 0 ||
	    take_over(fd, &seen->stat) != 0 ||
	    take_over_attributes(fd, target, &seen->stat) != 0)
		return -1;
	return fsync(fd);
}

/* Brings the new content to the disk; has nobody changed TARGET meanwhile? */
static int
fill_and_check(struct fresh *new, const char *target,
    const struct save_seen *seen, const struct buffer *content, char *why,
    size_t size)
{
	if (fill(new->fd, target, seen, content) != 0)
		return failed(why, size, "cannot write a temporary file");
	return check_target(target, seen, why, size);
}

/*
 * Brings the new name to the disk. A file system that cannot do this for
 * folders does it in its own time.
 */
static void
settle_folder(const char *folder)
{
	int fd = open(folder, O_RDONLY | O_DIRECTORY | O_CLOEXEC);

	if (fd >= 0) {
		fsync(fd);
		close(fd);
	}
}

/*
 * Makes the whole new file, open and with a name. Without a name first; the
 * other way where the file system, or a system without /proc, cannot do that.
 */
static int
make(struct fresh *new, const char *target, const struct save_seen *seen,
    const struct buffer *content, char *why, size_t size)
{
	if (open_nameless(new) == 0) {
		if (fill_and_check(new, target, seen, content, why, size) != 0)
			return -1;
		if (give_name(new) == 0)
			return 0;
		drop(new);
	}
	if (open_named(new) != 0)
		return failed(why, size,
		    "cannot make a temporary file in the same folder");
	return fill_and_check(new, target, seen, content, why, size);
}

/* Puts the new file, which is complete, in the place of TARGET. */
static int
put_in_place(struct fresh *new, const char *target, char *why, size_t size)
{
	if (close_fresh(new) != 0)
		return failed(why, size, "cannot write a temporary file");
	if (rename(new->name, target) != 0)
		return failed(why, size, "cannot replace the file");
	new->name[0] = '\0';
	settle_folder(new->folder);
	return 0;
}

int
save_replace(const char *path, const struct save_seen *seen,
    const struct buffer *content, char *why, size_t size)
{
	struct fresh new = {.fd = -1};
	char target[PATH_MAX];
	int status;

	if (!realpath(path, target))
		return failed(why, size, "cannot find the file");
	if (check_target(target, seen, why, size) != 0)
		return -1;
	set_folder(&new, target);
	status = make(&new, target, seen, content, why, size);
	if (status == 0)
		status = put_in_place(&new, target, why, size);
	if (status != 0)
		drop(&new);
	return status;
}

bool
save_holds(const char *path, const struct buffer *content)
{
	int fd = open(path, O_RDONLY | O_NONBLOCK | O_CLOEXEC);
	char bytes[4096];
	size_t at = 0;
	ssize_t n;

	if (fd < 0)
		return false;
	while ((n = read(fd, bytes, sizeof(bytes))) > 0 &&
	       (size_t)n <= content->len - at &&
	       memcmp(bytes, content->data + at, (size_t)n) == 0)
		at += (size_t)n;
	close(fd);
	return n == 0 && at == content->len;
}
