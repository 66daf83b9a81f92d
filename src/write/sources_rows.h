/*
 * The figures of one source, whichever table they stand in, as cells of text;
 * and lines of such cells as CSV or JSON.
 */
#ifndef WRITE_SOURCES_ROWS_H
#define WRITE_SOURCES_ROWS_H

#include <stdbool.h>
#include <stddef.h>

#include "reference/reference.h"
#include "text/buffer.h"

/* What a figure is told in. */
enum sources_cell {
	SOURCES_SOURCE,
	SOURCES_TABLE,
	SOURCES_JOINT,
	SOURCES_MOTION,
	SOURCES_SETTING,
	SOURCES_MODE,
	SOURCES_PEOPLE,
	SOURCES_VALUE,
	SOURCES_UNIT,
	SOURCES_SPREAD,
	SOURCES_WHAT, /* the task, the statistic */
	SOURCES_WHERE_READ,
	SOURCES_VERIFIED,
	SOURCES_CELLS
};

struct sources_row {
	struct buffer cell[SOURCES_CELLS];
};

extern const char *const sources_cell_names[SOURCES_CELLS];

/* The tables, in their order, as SOURCES_TABLE names them. */
enum { SOURCES_TABLES = 4 };
extern const char *const sources_tables[SOURCES_TABLES];

typedef void sources_row_fn(void *arg, const struct sources_row *row);

/* Calls EACH with every figure of the source KEY. */
void sources_rows(const char *key, sources_row_fn *each, void *arg);

/* One line; CELLS of them, named by NAMES. */
void sources_put_csv(
    struct buffer *out, const struct buffer *cell, size_t cells);
void sources_put_json(struct buffer *out, const char *const *names,
    const struct buffer *cell, size_t cells);
void sources_put_names(
    struct buffer *out, const char *const *names, size_t cells);

#endif
