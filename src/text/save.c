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
#include <inttypes.h>
#include <linux/limits.h>
#include <stdio.h>
#include <string.h>
#include <sys/random.h>
#include <sys/xattr.h>
#include <unistd.h>

#include "text/file.h"

static const char changed_message[] =
    "somebody else changed the file in the meantime; nothing was written";
static const char not_regular_message[] =
    "this is no regular file; nothing was written";
static const char temporary_failed[] = "cannot write a temporary file";
static const char nowhere[] = "cannot make a temporary file in the same folder";
static const char access_list[] = "system.posix_acl_access";
static const char many_names_message[] =
    "the same file stands under another name too (a hard link), which would "
    "keep the old content; nothing was written; make a copy and use that";

/* Says what failed, and why; returns -1, for the caller to return. */
static int
failed(char *why, size_t size, const char *what)
{
	snprintf(
	    why, size, "%s: %s; nothing was written", what, strerror(errno));
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
check_target(const struct file_at *at, const struct save_seen *seen, char *why,
    size_t size)
{
	struct stat now;
	int status = 0;
	int fd = openat(at->folder, at->name,
	    O_WRONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);

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

/* The new content on its way, in the folder of what it is for. */
struct fresh {
	int fd;
	const struct file_at *at;
	char name[32]; /* empty while the file has none */
};

/*
 * A name that nobody can guess. It begins with a point, so that walks over a
 * folder pass it over.
 */
static int
make_name(char *name, size_t size)
{
	uint64_t number;

	if (getrandom(&number, sizeof(number), 0) != sizeof(number))
		return -1;
	snprintf(name, size, ".rangeline-%016" PRIx64, number);
	return 0;
}

static int
open_named(struct fresh *new, mode_t mode)
{
	if (make_name(new->name, sizeof(new->name)) != 0)
		return -1;
	new->fd = openat(new->at->folder, new->name,
	    O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, mode);
	if (new->fd < 0)
		new->name[0] = '\0';
	return new->fd < 0 ? -1 : 0;
}

static int
open_nameless(struct fresh *new, mode_t mode)
{
	new->name[0] = '\0';
	new->fd = openat(
	    new->at->folder, ".", O_TMPFILE | O_WRONLY | O_CLOEXEC, mode);
	return new->fd < 0 ? -1 : 0;
}

/* Gives the file the NAME, beside the one that it has; 0 or -1. */
static int
link_to(const struct fresh *new, const char *name)
{
	char by_fd[32];
	int folder = new->at->folder;

	if (new->name[0])
		return linkat(folder, new->name, folder, name, 0);
	snprintf(by_fd, sizeof(by_fd), "/proc/self/fd/%d", new->fd);
	return linkat(AT_FDCWD, by_fd, folder, name, AT_SYMLINK_FOLLOW);
}

/* Gives the file a name, if it has none; 0 or -1. */
static int
give_name(struct fresh *new)
{
	char name[sizeof(new->name)];

	if (new->name[0])
		return 0;
	if (make_name(name, sizeof(name)) != 0 || link_to(new, name) != 0)
		return -1;
	memcpy(new->name, name, sizeof(name));
	return 0;
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
		unlinkat(new->at->folder, new->name, 0);
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
 * Extended attributes of the file OLD. An access list must come along: the bits
 * of the group are the bound of the list, and without it would be the group's
 * own. Nor may it speak of another group.
 */
static int
take_over_attributes(int fd, int old, const struct stat *st)
{
	char names[XATTR_LIST_MAX], value[XATTR_SIZE_MAX];
	ssize_t len = flistxattr(old, names, sizeof(names)), size;
	struct stat made;

	if (len < 0)
		return errno == ENOTSUP ? 0 : -1;
	if (fstat(fd, &made) != 0)
		return -1;
	for (const char *name = names; name < names + len;
	     name += strlen(name) + 1) {
		bool is_list = strcmp(name, access_list) == 0;

		errno = EPERM;
		if (is_list && made.st_gid != st->st_gid)
			return -1;
		size = fgetxattr(old, name, value, sizeof(value));
		if ((size < 0 ||
			fsetxattr(fd, name, value, (size_t)size, 0) != 0) &&
		    is_list)
			return -1;
	}
	return 0;
}

/* What the new file has of the old one, beside its name. */
static int
take_over_all(const struct fresh *new, const struct stat *st)
{
	int old = file_open_at(new->at), status;

	if (old < 0)
		return -1;
	status = drop_access_list(new->fd) != 0 ||
			 take_over(new->fd, st) != 0 ||
			 take_over_attributes(new->fd, old, st) != 0
		     ? -1
		     : 0;
	close(old);
	return status;
}

/* Brings the new content to the disk; has nobody changed AT meanwhile? */
static int
fill_and_check(const struct fresh *new, const struct save_seen *seen,
    const struct buffer *content, char *why, size_t size)
{
	if (buffer_write_kept(content, new->fd) != 0 ||
	    take_over_all(new, &seen->stat) != 0 || fsync(new->fd) != 0)
		return failed(why, size, temporary_failed);
	return check_target(new->at, seen, why, size);
}

/*
 * Brings the new name to the disk. A file system that cannot do this for
 * folders does it in its own time.
 */
static void
settle_folder(const struct file_at *at)
{
	int fd = openat(at->folder, ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);

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
make(struct fresh *new, const struct save_seen *seen,
    const struct buffer *content, char *why, size_t size)
{
	if (open_nameless(new, 0600) == 0) {
		if (fill_and_check(new, seen, content, why, size) != 0)
			return -1;
		if (give_name(new) == 0)
			return 0;
		drop(new);
	}
	if (open_named(new, 0600) != 0)
		return failed(why, size, nowhere);
	return fill_and_check(new, seen, content, why, size);
}

/* Puts the new file, which is complete, in the place of the old one. */
static int
put_in_place(struct fresh *new, char *why, size_t size)
{
	const struct file_at *at = new->at;

	if (close_fresh(new) != 0)
		return failed(why, size, temporary_failed);
	if (renameat(at->folder, new->name, at->folder, at->name) != 0)
		return failed(why, size, "cannot replace the file");
	new->name[0] = '\0';
	settle_folder(at);
	return 0;
}

int
save_replace(const struct file_at *at, const struct save_seen *seen,
    const struct buffer *content, char *why, size_t size)
{
	struct fresh new = {.fd = -1, .at = at};
	int status;

	if (check_target(at, seen, why, size) != 0)
		return -1;
	status = make(&new, seen, content, why, size);
	if (status == 0)
		status = put_in_place(&new, why, size);
	if (status != 0)
		drop(&new);
	return status;
}

/* Makes the file by the way to OPEN the new content; 0 or -1 with errno set. */
static int
make_new(const struct file_at *at, int (*open)(struct fresh *, mode_t),
    const struct buffer *content, char *why, size_t size)
{
	struct fresh new = {.fd = -1, .at = at};
	const char *wrong = NULL;
	int error;

	if (open(&new, 0666) != 0)
		wrong = nowhere;
	else if (buffer_write_kept(content, new.fd) != 0 || fsync(new.fd) != 0)
		wrong = temporary_failed;
	else if (link_to(&new, at->name) != 0)
		wrong = "cannot make the file";
	error = errno;
	if (wrong)
		failed(why, size, wrong);
	drop(&new);
	errno = error;
	return wrong ? -1 : 0;
}

int
save_new(const struct file_at *at, const struct buffer *content, char *why,
    size_t size)
{
	if (make_new(at, open_nameless, content, why, size) != 0 &&
	    (errno == EEXIST ||
		make_new(at, open_named, content, why, size) != 0))
		return -1;
	settle_folder(at);
	return 0;
}

bool
save_holds(const struct file_at *at, const struct buffer *content)
{
	int fd = file_open_at(at);
	char bytes[4096];
	size_t held = 0;
	ssize_t n;

	if (fd < 0)
		return false;
	while ((n = read(fd, bytes, sizeof(bytes))) > 0 &&
	       (size_t)n <= content->len - held &&
	       memcmp(bytes, content->data + held, (size_t)n) == 0)
		held += (size_t)n;
	close(fd);
	return n == 0 && held == content->len;
}
