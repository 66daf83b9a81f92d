/*
 * The totals of a session in the text summary: of digits, spine and shoulder
 * rotation, and the parts of the laxity score.
 */
#ifndef WRITE_SUMMARY_TOTALS_H
#define WRITE_SUMMARY_TOTALS_H

#include "text/buffer.h"

struct summary;

/* A section of the text: its entries, or nothing. */
void summary_totals(struct summary *sum, struct buffer *out);

/* What the totals of all sessions are made of, once at the end. */
void summary_totals_legend(struct summary *sum, struct buffer *out);

#endif
