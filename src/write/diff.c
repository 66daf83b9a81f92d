/*
 * A unified diff of texts that go line by line: no search for what moved. One
 * pass keeps the places of a few lines of context, so any length is quick.
 */
#include "write/diff.h"

#include <stdbool.h>
#include <string.h>

enum { CONTEXT = 3 };

/* A line of a text; len 0: there is none. */
struct diff_line {
	const char *text;
	size_t len; /* with its LF */
};

/* The two texts, read side by side. */
struct pair {
	const char *at[2];
	const char *end[2];
	size_t line; /* of the next line, from 0 */
};

static struct diff_line
next_line(struct pair *p, int which)
{
	const char *at = p->at[which];
	size_t left = (size_t)(p->end[which] - at);
	const char *lf = left ? memchr(at, '\n', left) : NULL;
	struct diff_line line = {at, lf ? (size_t)(lf - at) + 1 : left};

	if (left)
		p->at[which] += line.len;
	return line;
}

/* Reads one line of each; false where both are at their end. */
static bool
next_pair(struct pair *p, bool *same)
{
	struct diff_line was = next_line(p, 0), now = next_line(p, 1);

	if (was.len == 0 && now.len == 0)
		return false;
	*same = was.len == now.len && memcmp(was.text, now.text, was.len) == 0;
	p->line++;
	return true;
}

static void
put_line(struct buffer *out, char sign, struct diff_line line)
{
	if (line.len == 0)
		return;
	buffer_putc(out, sign);
	buffer_add(out, line.text, line.len);
	if (line.text[line.len - 1] != '\n')
		buffer_puts(out, "\n\\ No newline at end of file\n");
}

/* Lines FROM up to TO of one text, in a hunk header. */
static void
put_extent(struct buffer *out, char sign, size_t from, size_t count)
{
	buffer_printf(out, "%c%zu", sign, count ? from + 1 : from);
	if (count != 1)
		buffer_printf(out, ",%zu", count);
}

/* How many lines one text has among the next N. */
static size_t
count_lines(struct pair p, int which, size_t n)
{
	size_t count = 0;

	for (size_t i = 0; i < n; i++)
		count += next_line(&p, which).len > 0;
	return count;
}

/* The first lines of P that differ: how many, of at most N. */
static size_t
changed_run(struct pair p, size_t n)
{
	size_t run = 0;
	bool same;

	while (run < n && next_pair(&p, &same) && !same)
		run++;
	return run;
}

/* The hunk of N lines that begins at P. */
static void
put_hunk(struct buffer *out, struct pair p, size_t n)
{
	buffer_puts(out, "@@ ");
	put_extent(out, '-', p.line, count_lines(p, 0, n));
	buffer_putc(out, ' ');
	put_extent(out, '+', p.line, count_lines(p, 1, n));
	buffer_puts(out, " @@\n");
	while (n > 0) {
		size_t run = changed_run(p, n);

		for (size_t i = 0; i < run; i++)
			put_line(out, '-', next_line(&p, 0));
		for (size_t i = 0; i < run; i++)
			put_line(out, '+', next_line(&p, 1));
		if (run == 0) {
			put_line(out, ' ', next_line(&p, 0));
			next_line(&p, 1);
			run = 1;
		}
		p.line += run;
		n -= run;
	}
}

/* A name with control characters would not stay on its line. */
static void
put_name(struct buffer *out, const char *sign, const char *name)
{
	buffer_puts(out, sign);
	for (const char *p = name; *p; p++)
		buffer_putc(
		    out, (unsigned char)*p < 0x20 || *p == 0x7f ? '?' : *p);
	buffer_putc(out, '\n');
}

void
diff_unified(struct buffer *out, const char *name, const struct buffer *was,
    const struct buffer *now)
{
	struct pair p = {{was->data, now->data},
	    {was->len ? was->data + was->len : was->data,
		now->len ? now->data + now->len : now->data},
	    0};
	struct pair context[CONTEXT] = {p, p, p}; /* the last lines read */
	struct pair hunk = p;
	bool open = false, any = false, same;
	size_t behind = 0; /* equal lines since the last that differs */
	struct pair at = p;

	while (next_pair(&p, &same)) {
		if (!same && !open) {
			size_t before = at.line < CONTEXT ? at.line : CONTEXT;

			if (!any) {
				put_name(out, "--- ", name);
				put_name(out, "+++ ", name);
			}
			hunk =
			    before ? context[(at.line - before) % CONTEXT] : at;
			open = any = true;
		}
		behind = same ? behind + 1 : 0;
		if (open && behind == 2 * CONTEXT + 1) {
			put_hunk(
			    out, hunk, p.line - hunk.line - behind + CONTEXT);
			open = false;
		}
		context[at.line % CONTEXT] = at;
		at = p;
	}
	if (open)
		put_hunk(out, hunk,
		    p.line - hunk.line -
			(behind > CONTEXT ? behind - CONTEXT : 0));
}
