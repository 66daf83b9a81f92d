/*
 * The columns of a block of reading lines: the head in the first, then one
 * reading below the other. Readings are counted from where the side changes,
 * so the second side begins in one column even where the lines name unlike
 * many readings of the first.
 */
#include <stdlib.h>

#include "parser.h"
#include "text/mem.h"
#include "text/utf8.h"
#include "vocab/vocab.h"
#include "write/tidy_internal.h"

enum {
	GAP = 2,	  /* blanks between columns */
	WIDEST_HEAD = 50, /* a wider one moves no column but its own */
	WIDEST_CELL = 40,
	WIDEST_LINE = 120, /* columns that need more are given up */
	NO_SIDE = -1
};

static bool
is_switch(int kind)
{
	return kind == T_SIDE || kind == T_BOTH || kind == T_MODE ||
	       kind == T_PART;
}

static bool
begins_value(int kind)
{
	return kind == T_NUMBER || kind == T_RANGE || kind == T_TRIPLE ||
	       kind == T_LACKS || kind == T_HYPER || kind == T_FIXED ||
	       kind == T_OUTCOME || kind == T_LEVEL;
}

static bool
names_what(int kind)
{
	return kind == T_JOINT || kind == T_DIGIT || kind == T_MOTION ||
	       kind == T_MEASURE || kind == T_POSTURE || kind == T_SETTING;
}

/* The first word of the first value. */
static size_t
first_value(const struct tidy_words *w)
{
	size_t i = 0;

	while (i < w->list.len && !begins_value(w->list.at[i].kind))
		i++;
	return i;
}

/*
 * How many words the head has. SIDE and MODE right before the value belong to
 * its reading; so does a joint of a digit that no SIDE or MODE follows, unless
 * it stands behind its digit, where the two are one joint.
 */
static size_t
head_words(const struct tidy_words *w, size_t value)
{
	const struct tidy_word *word = w->list.at;
	size_t n = 0;

	for (size_t i = 0; i < value; i++)
		if (names_what(word[i].kind))
			n = i + 1;
	while (n < value && word[n].kind == T_PART &&
	       ((n > 0 && word[n - 1].kind == T_DIGIT) ||
		   (n + 1 < value && word[n + 1].kind != T_PART)))
		n++;
	return n;
}

bool
tidy_names_joint(const struct tidy_words *w)
{
	size_t value = first_value(w);

	for (size_t i = 0; i < value; i++) {
		int kind = w->list.at[i].kind;

		if (kind == T_JOINT || kind == T_DIGIT || kind == T_MEASURE)
			return true;
	}
	return false;
}

/* A SIDE among words FROM .. TO - 1, or BEFORE. */
static int
side_among(const struct tidy_words *w, size_t from, size_t to, int before)
{
	for (size_t i = from; i < to; i++) {
		const struct tidy_word *word = &w->list.at[i];

		if (word->kind == T_BOTH)
			before = VOCAB_SIDE_COUNT;
		else if (word->kind == T_SIDE)
			before = word->id;
	}
	return before;
}

static uint32_t
width_from(const struct buffer *text, uint32_t at)
{
	return (uint32_t)utf8_cells(text->data + at, text->len - at);
}

static void
add_cell(struct tidy_block *b, const struct tidy_words *w, size_t from,
    size_t to, uint32_t group, uint32_t index)
{
	struct tidy_cell *cell = MEM_PUSH(&b->cells);

	*cell = (struct tidy_cell){
	    .at = (uint32_t)b->text.len, .group = group, .index = index};
	tidy_join(w, from, to, &b->text);
	cell->len = (uint32_t)b->text.len - cell->at;
	cell->width = width_from(&b->text, cell->at);
}

/* Readings begin at words that a reading before them cannot hold. */
static void
add_cells(
    struct tidy_block *b, const struct tidy_words *w, size_t head, size_t value)
{
	const struct tidy_word *word = w->list.at;
	int side = side_among(w, 0, head, NO_SIDE);
	uint32_t group = 0, index = 0;
	size_t from = head, i = value;

	side = side_among(w, head, value, side);
	for (;;) {
		size_t switches;
		int next;

		while (i < w->list.len && !is_switch(word[i].kind))
			i++;
		add_cell(b, w, from, i, group, index);
		if (i == w->list.len)
			return;
		from = switches = i;
		while (i < w->list.len && is_switch(word[i].kind))
			i++;
		next = side_among(w, switches, i, side);
		index = next == side ? index + 1 : 0;
		group += next != side;
		side = next;
	}
}

void
tidy_block_add(struct tidy_block *b, const struct tidy_words *w, size_t line)
{
	size_t value = first_value(w);
	size_t head = head_words(w, value), comment_len;
	const char *comment = tidy_comment(w, &comment_len);
	struct tidy_row row = {.line = line,
	    .head_at = (uint32_t)b->text.len,
	    .first = (uint32_t)b->cells.len};

	tidy_join(w, 0, head, &b->text);
	row.head_len = (uint32_t)b->text.len - row.head_at;
	if (row.head_len > 0)
		row.head_width = width_from(&b->text, row.head_at);
	add_cells(b, w, head, value);
	row.cells = (uint32_t)b->cells.len - row.first;
	row.comment_at = (uint32_t)b->text.len;
	row.comment_len = (uint32_t)comment_len;
	buffer_add(&b->text, comment, comment_len);
	*MEM_PUSH(&b->rows) = row;
}

/* Where a cell goes: its column, or two blanks behind what is before it. */
static size_t
place_of(
    const struct tidy_columns *c, const struct tidy_cell *cell, size_t behind)
{
	size_t start = 0;

	if (cell->group < TIDY_GROUPS && cell->index < TIDY_CELLS)
		start = c->start[cell->group][cell->index];
	if (behind > 0)
		behind += GAP;
	return start > behind ? start : behind;
}

static void
raise(size_t *most, size_t value)
{
	if (value > *most)
		*most = value;
}

/*
 * One pass over the cells of one group settles where its next column starts;
 * INDEX is that of the column before it. A row counts only where it has a
 * cell for the new column.
 */
static void
column_within(const struct tidy_block *b, struct tidy_columns *c,
    uint32_t group, uint32_t index)
{
	size_t start = c->start[group][index], most = 0;

	for (size_t i = 0; i + 1 < b->cells.len; i++) {
		const struct tidy_cell *cell = &b->cells.at[i];

		if (cell->group == group && cell->index == index &&
		    cell[1].group == group && cell[1].index == index + 1 &&
		    cell->width <= WIDEST_CELL)
			raise(&most, start + cell->width + GAP);
	}
	c->start[group][index + 1] = most;
}

/* Where the next group starts: behind all rows that have one. */
static void
column_of_group(
    const struct tidy_block *b, struct tidy_columns *c, uint32_t group)
{
	size_t most = 0;

	for (size_t r = 0; r < b->rows.len; r++) {
		const struct tidy_row *row = &b->rows.at[r];
		size_t behind = 0;
		bool wide = false;

		for (uint32_t i = 0; i < row->cells; i++) {
			const struct tidy_cell *cell =
			    &b->cells.at[row->first + i];

			if (cell->group == group + 1 && !wide)
				raise(&most, behind + GAP);
			if (cell->group > group)
				break;
			if (cell->group < group)
				continue;
			behind = place_of(c, cell, behind) + cell->width;
			wide = wide || cell->width > WIDEST_CELL;
		}
	}
	c->start[group + 1][0] = most;
}

/* The widest row that these columns give, comments aside. */
static size_t
widest(const struct tidy_block *b, const struct tidy_columns *c)
{
	size_t most = 0;

	for (size_t r = 0; r < b->rows.len; r++) {
		const struct tidy_row *row = &b->rows.at[r];
		size_t behind = row->head_width;

		for (uint32_t i = 0; i < row->cells; i++) {
			const struct tidy_cell *cell =
			    &b->cells.at[row->first + i];

			behind = place_of(c, cell, behind) + cell->width;
		}
		raise(&most, behind);
	}
	return most;
}

/* Only the head is a column: what a block takes that is aligned no further. */
static struct tidy_columns
columns_of_heads(const struct tidy_block *b)
{
	struct tidy_columns c = {.start = {{0}}};
	size_t most = 0;

	for (size_t r = 0; r < b->rows.len; r++)
		if (b->rows.at[r].head_width <= WIDEST_HEAD)
			raise(&most, b->rows.at[r].head_width);
	c.start[0][0] = most ? most + GAP : 0;
	return c;
}

void
tidy_block_columns(const struct tidy_block *b, struct tidy_columns *columns)
{
	const struct tidy_columns plain = columns_of_heads(b);
	size_t limit = widest(b, &plain);

	if (limit < WIDEST_LINE)
		limit = WIDEST_LINE;
	/* First the readings of each side too, then the sides alone. */
	for (int within = 1; within >= 0; within--) {
		*columns = plain;
		for (uint32_t g = 0; g < TIDY_GROUPS; g++) {
			for (uint32_t i = 0; within && i + 1 < TIDY_CELLS; i++)
				column_within(b, columns, g, i);
			if (g + 1 < TIDY_GROUPS)
				column_of_group(b, columns, g);
		}
		if (widest(b, columns) <= limit)
			return;
	}
	*columns = plain;
}

void
tidy_block_row(const struct tidy_block *b, const struct tidy_columns *c,
    const struct tidy_row *row, struct buffer *out)
{
	size_t behind = row->head_width;

	buffer_add(out, b->text.data + row->head_at, row->head_len);
	for (uint32_t i = 0; i < row->cells; i++) {
		const struct tidy_cell *cell = &b->cells.at[row->first + i];
		size_t at = place_of(c, cell, behind);

		buffer_pad(out, ' ', at - behind);
		buffer_add(out, b->text.data + cell->at, cell->len);
		behind = at + cell->width;
	}
	if (row->comment_len == 0)
		return;
	buffer_pad(out, ' ', GAP);
	buffer_add(out, b->text.data + row->comment_at, row->comment_len);
}

void
tidy_block_reset(struct tidy_block *b)
{
	b->text.len = 0;
	b->rows.len = 0;
	b->cells.len = 0;
}

void
tidy_block_free(struct tidy_block *b)
{
	buffer_free(&b->text);
	free(b->rows.at);
	free(b->cells.at);
}
