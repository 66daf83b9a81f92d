/*
 * Giving a file its content at one stroke: whoever reads it finds the old
 * content or the new one, never a part, whatever fails in between.
 *
 * The new content is a new file under the old name, with the mode, owner and
 * group of the old one as far as that is permitted, and its access list. Other
 * extended attributes are carried over where the system lets them be. A file
 * with several names (hard links) is left alone: the others would keep the old
 * content.
 *
 * Of all that fails the reason goes to WHY, of SIZE bytes.
 */
#ifndef TEXT_SAVE_H
#define TEXT_SAVE_H

#include <stdbool.h>
#include <stddef.h>
#include <sys/stat.h>

#include "text/buffer.h"

struct file_at;

/* Which file was read, and in which state. */
struct save_seen {
	struct stat stat;
};

/*
 * To be called before the open file FD is read. Returns 0, or -1 where it is
 * no regular file or cannot be looked at.
 */
int save_look(int fd, struct save_seen *seen, char *why, size_t size);

/*
 * Gives the file AT, no link, the CONTENT. Returns 0, or -1: then the file is
 * as it was, also where somebody else has changed it since save_look().
 */
int save_replace(const struct file_at *at, const struct save_seen *seen,
    const struct buffer *content, char *why, size_t size);

/*
 * Makes the file AT with this CONTENT. Returns 0, or -1 with errno set: then
 * there is none, or, where errno is EEXIST, one of somebody else.
 */
int save_new(const struct file_at *at, const struct buffer *content, char *why,
    size_t size);

/* Has the file AT just this CONTENT? False too where it cannot be read. */
bool save_holds(const struct file_at *at, const struct buffer *content);

#endif
