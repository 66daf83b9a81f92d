/*
 * What the parts of the text summary share.
 */
#ifndef WRITE_SUMMARY_TEXT_H
#define WRITE_SUMMARY_TEXT_H

#include "write/summary_internal.h"

enum { SUMMARY_INDENT = 2 };

/* The table of the session's readings, and what its marks mean. */
void summary_table(struct summary *sum, struct buffer *out);

/* Below the lines of C in the table: what does not fit into columns. */
void summary_notes(struct summary *sum, const struct comparison *c);

/* What follows the table: not tested, precautions, goals, findings ... */
void summary_sections(struct summary *sum, struct buffer *out);

/* Which reading: "right active". */
void summary_name_reading(struct buffer *out, const struct reading *r);

#endif
