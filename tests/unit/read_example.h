/*
 * Examples as tests: a few lines, the rows that they give and what is said of
 * them, each as one string.
 *
 * Rows are parted by "; ": joint motion [setting] [posture] [side] [mode]
 * kind start..end [unit] [xTRIALS], as in
 * "knee flexion right active measured 5..118". Findings are parted by blanks:
 * LINE:COLUMN:RULE, and +N where N further lines were lost.
 */
#ifndef READ_EXAMPLE_H
#define READ_EXAMPLE_H

#include "read_note.h"

struct example {
	const char *text;
	const char *rows;
	const char *findings; /* NULL: none */
};

static inline void
put_cell(struct buffer *out, const char *cell)
{
	if (*cell)
		buffer_printf(out, " %s", cell);
}

static inline void
put_row(struct buffer *out, const struct row *row)
{
	const char *start = row->cell[COL_START], *end = row->cell[COL_END];
	const char *unit = row->cell[COL_END + 2];

	buffer_puts(out, out->len ? "; " : "");
	buffer_puts(out, row->cell[COL_JOINT]);
	for (int i = COL_MOTION; i <= COL_KIND; i++)
		put_cell(out, row->cell[i]);
	if (*start)
		buffer_printf(out, " %s..%s", start, end);
	else
		put_cell(out, end);
	if (*unit && strcmp(unit, "deg") != 0)
		put_cell(out, unit);
	if (atoi(row->cell[COL_TRIALS]) > 1)
		buffer_printf(out, " x%s", row->cell[COL_TRIALS]);
}

static inline void
put_told(struct buffer *out, const struct told *f)
{
	buffer_printf(out, "%s%u:%u:%s", out->len ? " " : "", (unsigned)f->line,
	    (unsigned)f->beg + 1, rule_table[f->rule].name);
	if (f->unread)
		buffer_printf(out, "+%u", (unsigned)f->unread);
}

static inline void
expect_text_of(const struct buffer *got, const char *want, const char *text)
{
	if (got->len != strlen(want) ||
	    memcmp(got->data ? got->data : "", want, got->len) != 0)
		ck_abort_msg("of\n%s\nwas expected\n  %s\nbut is\n  %.*s", text,
		    want, (int)got->len, got->data ? got->data : "");
}

/* Reads BEFORE and the lines of E behind it, and compares. */
static inline void
expect_example(const char *before, const struct example *e)
{
	struct buffer text = {0}, got = {0};
	struct read_note n;

	buffer_puts(&text, before);
	buffer_puts(&text, e->text);
	read_note(&n, text.data, text.len, false);
	for (size_t i = 0; i < n.rows.len; i++)
		put_row(&got, &n.rows.at[i]);
	expect_text_of(&got, e->rows, e->text);
	got.len = 0;
	for (size_t i = 0; i < n.findings.len; i++)
		put_told(&got, &n.findings.at[i]);
	expect_text_of(&got, e->findings ? e->findings : "", e->text);
	read_note_free(&n);
	buffer_free(&got);
	buffer_free(&text);
}

#endif
