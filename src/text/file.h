/* Opening what is to be read, and whether somebody changed it meanwhile. */
#ifndef TEXT_FILE_H
#define TEXT_FILE_H

#include <stdbool.h>
#include <sys/stat.h>

/*
 * Opens PATH for reading. A pipe is waited for, three seconds at most, until
 * somebody opens it for writing. Returns a descriptor that the caller closes,
 * or -1 with errno set.
 */
int file_open(const char *path);

/*
 * The same for PATH, which begins in the open folder FOLDER, but no part of it
 * may be a link: errno is ENOTDIR or ELOOP then.
 */
int file_open_below(int folder, const char *path);

/* What to say of an errno of these. */
const char *file_error(int error);

/* The same file in the same state: nothing but its reading came between. */
bool file_same(const struct stat *a, const struct stat *b);

/*
 * Has the regular file FD the content that it had when WAS was filled? By size
 * and time of writing; a new name or mode is none of its content. True too of
 * all that is no regular file: what flows past has no state.
 */
bool file_kept(int fd, const struct stat *was);

#endif
