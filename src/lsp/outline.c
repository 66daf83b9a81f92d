/* One pass over the rows: which begins a person, a session, a joint. */
#include "lsp/outline.h"

#include <stdlib.h>
#include <string.h>

#include "lsp/cut.h"
#include "parser.h"
#include "text/mem.h"
#include "vocab/vocab.h"

#define NOTHING SIZE_MAX

struct outlining {
	struct outline *out;
	size_t open[OUTLINE_COMMENT + 1]; /* item of each kind, NOTHING */
	uint32_t row;
	uint32_t last; /* the last row with something on it */
};

static void
close_kind(struct outlining *o, enum outline_kind kind)
{
	for (int k = (int)kind; k <= OUTLINE_JOINT; k++) {
		if (o->open[k] != NOTHING)
			o->out->at[o->open[k]].last = o->last;
		o->open[k] = NOTHING;
	}
}

static void
end_comment(struct outlining *o)
{
	o->open[OUTLINE_COMMENT] = NOTHING;
}

static struct outline_item *
open_item(struct outlining *o, enum outline_kind kind, size_t beg, size_t end)
{
	struct outline_item *item = MEM_PUSH(o->out);

	*item = (struct outline_item){.kind = kind,
	    .row = o->row,
	    .last = o->row,
	    .name = o->out->text.len,
	    .beg = beg,
	    .end = end};
	o->open[kind] = o->out->len - 1;
	return item;
}

/* Names the item just opened. */
static void
name_item(struct outlining *o, const char *text, size_t len)
{
	buffer_add(&o->out->text, text, len);
	buffer_putc(&o->out->text, '\0');
}

/* A line that begins a person or a session: named by what follows the word */
static void
begin(struct outlining *o, const struct cut *cut, enum outline_kind kind)
{
	const struct tokens *t = &cut->tokens;
	const struct token *last = &t->at[t->len - 1];

	close_kind(o, kind);
	open_item(o, kind, cut_beg(cut, &t->at[0]), cut_end(cut, last));
	if (t->len > 1)
		name_item(o, cut->line.data + t->at[1].beg,
		    (size_t)(last->end - t->at[1].beg));
	else
		name_item(o, cut->line.data + t->at[0].beg,
		    (size_t)(t->at[0].end - t->at[0].beg));
}

/* The same joint again, or none: the line belongs to the joint above it. */
static void
add_readings(struct outlining *o, const struct cut *cut)
{
	struct cut_head head = cut_head(cut, cut->tokens.len);
	const char *name = cut_joint_name(&head);
	size_t open = o->open[OUTLINE_JOINT];

	if (!name)
		return;
	if (open != NOTHING &&
	    strcmp(o->out->text.data + o->out->at[open].name, name) == 0)
		return;
	close_kind(o, OUTLINE_JOINT);
	open_item(o, OUTLINE_JOINT, cut_beg(cut, &cut->tokens.at[0]),
	    cut_end(cut, &cut->tokens.at[cut->tokens.len - 1]));
	name_item(o, name, strlen(name));
}

static void
add_comment(struct outlining *o)
{
	size_t open = o->open[OUTLINE_COMMENT];

	if (open == NOTHING) {
		open_item(o, OUTLINE_COMMENT, 0, 0);
		name_item(o, "", 0);
	} else {
		o->out->at[open].last = o->row;
	}
}

static void
add_row(struct outlining *o, const struct cut *cut)
{
	if (cut->comment)
		add_comment(o);
	else
		end_comment(o);
	if (cut->tokens.len == 0)
		return;
	if (cut->tokens.header == VOCAB_HEADER_SUBJECT)
		begin(o, cut, OUTLINE_PERSON);
	else if (cut->tokens.header == VOCAB_HEADER_SESSION)
		begin(o, cut, OUTLINE_SESSION);
	else if (cut->tokens.header < 0)
		add_readings(o, cut);
}

void
outline_build(struct outline *outline, const struct document *d)
{
	struct outlining o = {
	    .out = outline, .open = {NOTHING, NOTHING, NOTHING, NOTHING}};
	struct cut cut = {0};

	outline->len = 0;
	outline->text.len = 0;
	for (o.row = 1; o.row <= document_row_count(d); o.row++) {
		cut_row(&cut, d, o.row);
		add_row(&o, &cut);
		if (cut.tokens.len > 0)
			o.last = o.row;
	}
	close_kind(&o, OUTLINE_PERSON);
	cut_free(&cut);
}

void
outline_free(struct outline *outline)
{
	free(outline->at);
	buffer_free(&outline->text);
}
