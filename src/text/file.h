/*
 * Opening what is to be read, finding where it stands, and whether somebody
 * changed it meanwhile.
 */
#ifndef TEXT_FILE_H
#define TEXT_FILE_H

#include <limits.h>
#include <linux/limits.h>
#include <stdbool.h>
#include <sys/stat.h>

/* Where a file stands, or would: its name in a folder that is open. */
struct file_at {
	int folder;
	char name[NAME_MAX + 1];
};

/*
 * Opens PATH for reading. A pipe is waited for, three seconds at most, until
 * somebody opens it for writing. Returns a descriptor that the caller closes,
 * or -1 with errno set.
 */
int file_open(const char *path);

/* What to say of an errno of file_open(). */
const char *file_error(int error);

/*
 * Finds where PATH leads, links followed; a file that is not there would stand
 * where PATH says. Returns 0, and the caller calls file_leave(), or -1 with
 * errno set.
 */
int file_find(struct file_at *at, const char *path);

/*
 * Goes down from the folder ROOT, which may be a link, to where BELOW stands:
 * a path from there, without empty parts and points. No folder on that way may
 * be a link: errno is ENOTDIR then. Where BELOW is empty or ends in a slash,
 * so does the way, and the name is empty. Returns as file_find() does.
 */
int file_below(struct file_at *at, const char *root, const char *below);

void file_leave(struct file_at *at);

/*
 * Opens the file AT for reading, a regular one: errno is ELOOP for a link and
 * EINVAL for what else is none. Returns as file_open() does.
 */
int file_open_at(const struct file_at *at);

/* The same file in the same state: nothing but its reading came between. */
bool file_same(const struct stat *a, const struct stat *b);

/*
 * Has the regular file FD the content that it had when WAS was filled? By size
 * and time of writing; a new name or mode is none of its content. True too of
 * all that is no regular file: what flows past has no state.
 */
bool file_kept(int fd, const struct stat *was);

#endif
