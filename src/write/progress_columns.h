/*
 * The columns of progress as rows: what they share with the code that walks
 * the series.
 */
#ifndef WRITE_PROGRESS_COLUMNS_H
#define WRITE_PROGRESS_COLUMNS_H

#include <stdbool.h>
#include <stddef.h>

#include "calc/progress.h"
#include "text/buffer.h"

struct progress_row {
	const struct progress *p;
	uint32_t point;
	const struct progress_point *at;
	const struct progress_series *series;
	const struct progress_session *session;
	struct progress_change first; /* where at->first is one */
	struct progress_change previous;
	const struct progress_goal *goal; /* the first, or NULL */
};

struct progress_column {
	const char *name;
	bool number; /* in JSON; else a text */
	/* One of the three; it writes the bare value, or nothing. */
	void (*own)(struct buffer *out, const struct progress_row *row);
	void (*first)(struct buffer *out, const struct progress_row *row,
	    uint32_t from, const struct progress_change *change);
	void (*previous)(struct buffer *out, const struct progress_row *row,
	    uint32_t from, const struct progress_change *change);
};

extern const struct progress_column progress_columns[];
extern const size_t progress_column_count;

/* Does it hold a reading as it was measured? */
bool progress_column_is_value(const struct progress_column *column);

#endif
