/*
 * Lines of a file or pipe, read through one buffer: memory does not depend on
 * the size of either.
 */
#ifndef TEXT_LINES_H
#define TEXT_LINES_H

#include <stdbool.h>
#include <stddef.h>

struct lines {
	int fd; /* not owned */
	char *data;
	size_t beg;
	size_t end;
	bool eof;
	bool skipping; /* the rest of a line that was too long */
};

void lines_open(struct lines *lines, int fd);
void lines_close(struct lines *lines);

/*
 * The next line, without its LF, valid until the next call. Of a line longer
 * than the buffer (64 KiB) only the first part is given. Returns 1, or 0 at
 * the end, or -1 with errno set where reading failed.
 */
int lines_next(struct lines *lines, const char **text, size_t *len);

#endif
