/*
 * The cells of the summary's rows that there are of each side. Each writes the
 * bare value of a reading, or nothing.
 */
#ifndef WRITE_SUMMARY_SIDES_H
#define WRITE_SUMMARY_SIDES_H

#include "record/record.h"
#include "text/buffer.h"

void summary_side_end(
    struct buffer *out, const struct session *s, const struct reading *r);
void summary_side_start(
    struct buffer *out, const struct session *s, const struct reading *r);
void summary_side_unit(
    struct buffer *out, const struct session *s, const struct reading *r);
void summary_side_trials(
    struct buffer *out, const struct session *s, const struct reading *r);
void summary_side_doubtful(
    struct buffer *out, const struct session *s, const struct reading *r);
void summary_side_end_feel(
    struct buffer *out, const struct session *s, const struct reading *r);
void summary_side_pain(
    struct buffer *out, const struct session *s, const struct reading *r);
void summary_side_pain_onset(
    struct buffer *out, const struct session *s, const struct reading *r);
void summary_side_position(
    struct buffer *out, const struct session *s, const struct reading *r);
void summary_side_rater(
    struct buffer *out, const struct session *s, const struct reading *r);
void summary_side_instrument(
    struct buffer *out, const struct session *s, const struct reading *r);
void summary_side_texts(
    struct buffer *out, const struct session *s, const struct reading *r);
void summary_side_line(
    struct buffer *out, const struct session *s, const struct reading *r);

#endif
