/*
 * What the formats offer to progress.c, which chooses.
 */
#ifndef WRITE_PROGRESS_TEXT_H
#define WRITE_PROGRESS_TEXT_H

#include "write/progress.h"

void progress_text_person(struct buffer *out, const struct progress *p,
    size_t person, const struct progress_style *how);
void progress_text_end(struct buffer *out, const struct progress *p);

void progress_rows_header(struct buffer *out);
void progress_rows_person(struct buffer *out, const struct progress *p,
    size_t person, const struct progress_style *how);

/*
 * The figures of SERIES, one a session, as blocks of eight heights. A change
 * that measuring alone may make fills no more than it deserves.
 */
void progress_sparkline(struct buffer *out, const struct progress *p,
    const struct progress_series *series);

#endif
