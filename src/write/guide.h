/*
 * How a motion is measured, on one screen: from the guide, with usual and
 * functional values beside their sources.
 */
#ifndef WRITE_GUIDE_H
#define WRITE_GUIDE_H

#include <stdbool.h>
#include <stdint.h>

#include "text/buffer.h"

/* MEASUREMENT as text; COLOUR makes what may forbid it stand out. */
void guide_text(struct buffer *out, int measurement, bool colour);

/* The same as one JSON object and a LF. */
void guide_json(struct buffer *out, int measurement);

/* What can be measured at each of JOINTS, one line a joint. */
void guide_motions(struct buffer *out, uint64_t joints);

/*
 * The reading that shows how to write it, with the joint's own name where the
 * row serves several joints.
 */
void guide_example(struct buffer *out, int measurement);

#endif
