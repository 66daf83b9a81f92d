/*
 * A text table whose columns line up on the screen, whatever letters the cells
 * hold. Columns that are empty below the headings are left out, and so are rows
 * that have nothing in the others.
 */
#ifndef WRITE_TABLE_H
#define WRITE_TABLE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "text/buffer.h"

enum { TABLE_COLUMNS = 16 };

struct table_cell {
	uint32_t at; /* in the text */
	uint32_t len;
	uint32_t cells; /* on the screen */
};

/* Zeroed it is empty and ready; table_reset() keeps the memory. */
struct table {
	struct buffer text; /* write the next cell here */
	struct table_cell *at;
	size_t len, cap;
	size_t done; /* bytes of text that are in cells */
	size_t columns;
	size_t column;	 /* next of the row */
	size_t headings; /* rows of headings */
	uint32_t width[TABLE_COLUMNS];
	bool filled[TABLE_COLUMNS];
};

/* COLUMNS is at most TABLE_COLUMNS; HEADINGS rows of headings come first. */
void table_reset(struct table *t, size_t columns, size_t headings);

/* Ends the cell that was written to t->text. */
void table_next(struct table *t);

/* A whole cell. */
void table_puts(struct table *t, const char *text);

/* Ends the row; what it lacks stays empty. */
void table_row(struct table *t);

/* What was written to t->text is a line across the columns. */
void table_across(struct table *t);

/* Writes each line with INDENT blanks before it. */
void table_write(struct buffer *out, const struct table *t, size_t indent);
void table_free(struct table *t);

#endif
