/*
 * The readings as CSV (RFC 4180): one row a reading, or one a trial.
 */
#ifndef WRITE_CSV_H
#define WRITE_CSV_H

#include <stdbool.h>
#include <stddef.h>

#include "diag/diag.h"
#include "record/record.h"
#include "text/buffer.h"

void csv_header(struct buffer *out, bool by_trial);

/* The rows of S; SINK holds its findings, accepted ones and notes too. */
void csv_session(struct buffer *out, const struct session *s,
    const struct sink *sink, bool by_trial);

/* For other tables: a text as one cell, guarded and quoted where needed. */
void csv_text(struct buffer *out, const char *text, size_t len);

/*
 * The same for a value as it was measured: a range is written `5 to 12`, as
 * the notation allows too, since a spreadsheet takes 5-12 for a day.
 */
void csv_value(struct buffer *out, const char *text, size_t len);

/*
 * Guards and quotes, in place, the text cell that was written raw from BEG to
 * END, and returns its new end. Needs room for twice its length and
 * CSV_FINISH_ROOM.
 */
enum { CSV_FINISH_ROOM = 3 };
char *csv_finish(char *beg, char *end);

#endif
