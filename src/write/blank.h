/*
 * An empty note for a planned examination. It holds no reading: every line
 * that waits for figures is a comment until its # is taken away, so the note
 * reads without a finding at any time.
 */
#ifndef WRITE_BLANK_H
#define WRITE_BLANK_H

#include <stdbool.h>
#include <stdint.h>

#include "text/buffer.h"

struct blank {
	uint64_t joints;  /* bit 1 << enum vocab_joint_id */
	int32_t day;	  /* of the session */
	unsigned require; /* 1 << enum vocab_requirement_id */
};

void blank_write(struct buffer *out, const struct blank *blank);

/*
 * Adds the requirements named in WORDS, parted by commas or blanks, to
 * *REQUIRE. Returns false after writing to WRONG what is wrong with them.
 */
bool blank_require(const char *words, unsigned *require, struct buffer *wrong);

#endif
