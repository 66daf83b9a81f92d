/*
 * What the words of a command line ask for: joints, digits and groups in any
 * spelling of the vocabulary, and perhaps one motion or named measure.
 */
#ifndef WRITE_ASKED_H
#define WRITE_ASKED_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "text/buffer.h"

struct asked {
	uint64_t joints; /* bit 1 << enum vocab_joint_id */
	int motion;	 /* enum vocab_motion_id, or -1 */
	int measure;	 /* enum vocab_measure_id, or -1 */
};

enum asked_for {
	ASKED_MOTION, /* joints and a motion; `foot` is the joint */
	ASKED_JOINTS  /* joints alone; `foot` is the group */
};

/*
 * Reads N WORDS, each of which may hold several. Returns false after writing
 * to WRONG what is wrong with them: lower case, no full stop.
 */
bool asked_read(struct asked *asked, enum asked_for what,
    const char *const *words, size_t n, struct buffer *wrong);

/*
 * The one measurement that was asked for; -1 where there is none or several,
 * after writing to WRONG what there is.
 */
int asked_measurement(const struct asked *asked, struct buffer *wrong);

/* "flexion, extension": what is measured at JOINT, named measures too. */
void asked_motions(struct buffer *out, int joint);

/* The same of a whole DIGIT, nothing where it has no measure. */
void asked_digit_measures(struct buffer *out, int digit);

#endif
