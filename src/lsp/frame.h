/*
 * Where a message begins and ends: header lines, a blank line, then as many
 * bytes as Content-Length says.
 */
#ifndef LSP_FRAME_H
#define LSP_FRAME_H

#include <stdbool.h>
#include <stddef.h>

#include "text/buffer.h"

enum {
	FRAME_LONGEST_LINE = 1024,	      /* of a header */
	FRAME_LONGEST_BODY = 64 * 1024 * 1024 /* of a message */
};

enum frame_event {
	FRAME_NOTHING, /* more bytes are needed */
	FRAME_MESSAGE, /* body and len are set */
	FRAME_LOST     /* a message that cannot be read; why is set */
};

/* A zeroed struct frames is empty and ready. */
struct frames {
	struct buffer bytes;
	size_t at; /* bytes before it are done with */

	bool in_body;
	bool begun;	   /* a line of a header has come */
	bool has_length;   /* and one that names a length */
	const char *fault; /* what is wrong with this header, or NULL */
	bool lost;	   /* where headers begin: look for the next length */
	size_t length;	   /* of the body */
	size_t skip;	   /* bytes of a body that is not kept */

	const char *why;  /* static; of the last FRAME_LOST */
	const char *body; /* valid until the next call */
	size_t len;
};

void frames_feed(struct frames *f, const char *bytes, size_t len);
enum frame_event frames_next(struct frames *f);

/* If nothing more comes: has a message been begun and not ended? */
bool frames_are_cut(const struct frames *f);
void frames_free(struct frames *f);

#endif
