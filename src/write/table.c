/*
 * A text table. All cells lie one behind the other in one buffer, and each
 * column grows as its cells come, so that writing is one pass.
 */
#include "write/table.h"

#include <stdlib.h>

#include "text/mem.h"
#include "text/utf8.h"

enum { GAP = 2 };

#define ACROSS UINT32_MAX /* cells of a line across the columns */

void
table_reset(struct table *t, size_t columns, size_t headings)
{
	t->text.len = 0;
	t->len = 0;
	t->done = 0;
	t->columns = columns;
	t->column = 0;
	t->headings = headings;
	for (size_t i = 0; i < TABLE_COLUMNS; i++) {
		t->width[i] = 0;
		t->filled[i] = false;
	}
}

/* Most cells are ASCII, one screen cell a byte. */
static uint32_t
cells_of(const char *text, size_t len)
{
	for (size_t i = 0; i < len; i++)
		if (text[i] & 0x80)
			return (uint32_t)utf8_cells(text, len);
	return (uint32_t)len;
}

static struct table_cell *
push(struct table *t)
{
	struct table_cell *cell = MEM_PUSH(t);

	cell->at = (uint32_t)t->done;
	cell->len = (uint32_t)(t->text.len - t->done);
	t->done = t->text.len;
	return cell;
}

void
table_next(struct table *t)
{
	struct table_cell *cell = push(t);
	size_t row = (t->len - 1) / t->columns;

	cell->cells =
	    cell->len == 0 ? 0 : cells_of(t->text.data + cell->at, cell->len);
	if (cell->cells > t->width[t->column])
		t->width[t->column] = cell->cells;
	if (cell->len > 0 && row >= t->headings)
		t->filled[t->column] = true;
	t->column++;
}

void
table_puts(struct table *t, const char *text)
{
	buffer_puts(&t->text, text);
	table_next(t);
}

void
table_row(struct table *t)
{
	while (t->column < t->columns)
		table_next(t);
	t->column = 0;
}

void
table_across(struct table *t)
{
	push(t)->cells = ACROSS;
	for (size_t i = 1; i < t->columns; i++)
		push(t)->cells = ACROSS;
}

static void
write_row(
    struct buffer *out, const struct table *t, const struct table_cell *row)
{
	size_t blanks = 0;

	if (row->cells == ACROSS) {
		buffer_add(out, t->text.data + row->at, row->len);
		return;
	}
	for (size_t i = 0; i < t->columns; i++) {
		if (!t->filled[i])
			continue;
		if (row[i].len > 0) {
			buffer_pad(out, ' ', blanks);
			buffer_add(out, t->text.data + row[i].at, row[i].len);
			blanks = t->width[i] - row[i].cells;
		} else {
			blanks += t->width[i];
		}
		blanks += GAP;
	}
}

/* A row that has nothing in any column that is shown. */
static bool
is_blank(const struct table *t, const struct table_cell *row)
{
	for (size_t i = 0; i < t->columns; i++)
		if (row[i].len > 0 && t->filled[i])
			return false;
	return row->cells != ACROSS;
}

void
table_write(struct buffer *out, const struct table *t, size_t indent)
{
	for (size_t i = 0; i < t->len; i += t->columns) {
		if (is_blank(t, &t->at[i]))
			continue;
		buffer_pad(out, ' ', indent);
		write_row(out, t, &t->at[i]);
		buffer_putc(out, '\n');
	}
}

void
table_free(struct table *t)
{
	free(t->at);
	buffer_free(&t->text);
	*t = (struct table){0};
}
