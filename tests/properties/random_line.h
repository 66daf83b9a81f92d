/*
 * Lines that are put together at random: broken ones, halves of real ones,
 * salads of words and of bytes.
 */
#ifndef PROPERTIES_RANDOM_LINE_H
#define PROPERTIES_RANDOM_LINE_H

#include "corpus.h"

/* Appends a line (no LF) of any kind; NOTES lends words and halves. */
void random_line(
    struct buffer *out, struct random *r, const struct corpus *notes);

/* The same, but neither blank nor a comment nor meant as a header. */
void random_bad_line(
    struct buffer *out, struct random *r, const struct corpus *notes);

const struct corpus_note *random_note(
    struct random *r, const struct corpus *notes);

#endif
