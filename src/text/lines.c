#include "text/lines.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "text/mem.h"

enum { BUFFER_SIZE = 64 * 1024 };

void
lines_open(struct lines *lines, int fd)
{
	*lines =
	    (struct lines){.fd = fd, .data = mem_resize(NULL, BUFFER_SIZE, 1)};
}

void
lines_close(struct lines *lines)
{
	free(lines->data);
	*lines = (struct lines){0};
}

/* Reads more behind what is there. Returns -1 where that fails. */
static int
fill(struct lines *lines)
{
	ssize_t n;

	memmove(lines->data, lines->data + lines->beg, lines->end - lines->beg);
	lines->end -= lines->beg;
	lines->beg = 0;
	do
		n = read(lines->fd, lines->data + lines->end,
		    BUFFER_SIZE - lines->end);
	while (n < 0 && errno == EINTR);
	if (n < 0)
		return -1;
	lines->eof = n == 0;
	lines->end += (size_t)n;
	return 0;
}

/* Gives the bytes up to END and goes on at NEXT. */
static int
give(struct lines *lines, size_t end, size_t next, const char **text,
    size_t *len)
{
	*text = lines->data + lines->beg;
	*len = end - lines->beg;
	lines->beg = next;
	return 1;
}

int
lines_next(struct lines *lines, const char **text, size_t *len)
{
	size_t seen = 0;

	for (;;) {
		const char *from = lines->data + lines->beg + seen;
		size_t left = lines->end - lines->beg - seen;
		const char *lf = left ? memchr(from, '\n', left) : NULL;

		if (lf) {
			size_t at = (size_t)(lf - lines->data);

			if (!lines->skipping)
				return give(lines, at, at + 1, text, len);
			lines->skipping = false;
			lines->beg = at + 1;
			seen = 0;
			continue;
		}
		seen = lines->end - lines->beg;
		if (lines->skipping) {
			lines->beg = lines->end;
			seen = 0;
		} else if (seen == BUFFER_SIZE) {
			lines->skipping = true;
			return give(lines, lines->end, lines->end, text, len);
		}
		if (lines->eof)
			return seen ? give(lines, lines->end, lines->end, text,
					  len)
				    : 0;
		if (fill(lines) != 0)
			return -1;
	}
}
