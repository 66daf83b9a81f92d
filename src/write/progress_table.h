/*
 * The table of the text: what progress_table.c shares with progress_text.c,
 * which writes all that stands around it.
 */
#ifndef WRITE_PROGRESS_TABLE_H
#define WRITE_PROGRESS_TABLE_H

#include "calc/progress.h"
#include "text/buffer.h"
#include "text/intern.h"
#include "write/progress.h"
#include "write/table.h"

enum { PROGRESS_COLUMNS = 7, PROGRESS_INDENT = 2, PROGRESS_DEEPER = 4 };

struct progress_table {
	struct buffer *out;
	const struct progress *p;
	const struct progress_style *how;
	struct table table;
	struct buffer line;    /* scratch */
	struct intern sources; /* a number each, from 1 */
};

void progress_table_headings(struct table *table);

/* The lines of a series that has two sessions or more. */
void progress_table_series(
    struct progress_table *t, const struct progress_series *series);

/*
 * What is left to the goals that hold for SERIES, as of its last session, a
 * line each: END is called for each with the line in the scratch.
 */
void progress_table_goals(struct progress_table *t,
    const struct progress_series *series, uint32_t point, size_t indent,
    void (*end)(struct progress_table *t, size_t indent));

/*
 * The same for the precautions that limit what SERIES measures, in force at
 * the last session of the person.
 */
void progress_table_precautions(struct progress_table *t,
    const struct progress_series *series, size_t indent,
    void (*end)(struct progress_table *t, size_t indent));

/*
 * The beginning of a line: WHICH, the session's date (its time too where TIME
 * is set) and how long after surgery. The value is to follow.
 */
void progress_table_begin(
    struct progress_table *t, const char *which, uint32_t session, bool time);

/* The same of the last session; by whom, where SEVERAL measured in it. */
void progress_table_this(struct progress_table *t, bool several, uint32_t rater,
    uint32_t session, bool time);

/* What lies in the scratch becomes a line across the columns. */
void progress_table_across(struct progress_table *t, size_t indent);

/* The totals of digits that WHO has in two sessions or more; false: none. */
bool progress_table_totals(
    struct progress_table *t, const struct progress_person *who);

/* Has any person such totals? */
bool progress_has_totals(const struct progress *p);

/* "elbow flexion, right active, supine" */
void progress_name_words(struct buffer *out, const struct progress *p,
    const struct progress_series *series);

/* A reading that is shown and not compared: NT "pain", doubtful ... */
void progress_mention_words(struct buffer *out, const struct progress *p,
    const struct progress_point *point);

#endif
