/*
 * The rows of an open note as tokens, one after another. Private to src/lsp.
 */
#ifndef LSP_CUT_H
#define LSP_CUT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "lsp/document.h"
#include "syntax/tokens.h"
#include "text/buffer.h"

/* Zeroed it is ready for the first row; the memory is used for each row. */
struct cut {
	struct buffer line; /* the part of the row that can be read, and a LF */
	struct tokens tokens;
	bool levels;  /* what was cut last goes on with vertebrae */
	size_t len;   /* of the part that can be read */
	size_t at;    /* its offset in the note */
	bool comment; /* there is nothing but a comment */
};

/* Cuts row ROW; rows that are cut in turn know what they go on with. */
void cut_row(struct cut *cut, const struct document *d, uint32_t row);

/* The same for the first LEN bytes of the row. */
void cut_part(
    struct cut *cut, const struct document *d, uint32_t row, size_t len);
void cut_free(struct cut *cut);

/* Where a token begins and ends in the note. */
static inline size_t
cut_beg(const struct cut *cut, const struct token *t)
{
	return cut->at + t->beg;
}

static inline size_t
cut_end(const struct cut *cut, const struct token *t)
{
	return cut->at + t->end;
}

/* What the head of a line names; NONE (record.h) where it does not. */
struct cut_head {
	int joint;
	int digit;
	int part;
	int motion;
	int measure;
	int measurement; /* where these settle it */
};

/* Of the tokens before token COUNT. */
struct cut_head cut_head(const struct cut *cut, size_t count);

/* The joint or digit that it is listed under, NULL where it names none. */
const char *cut_joint_name(const struct cut_head *head);

/* Has measurement M the joint and digit of HEAD? */
bool cut_may_be(const struct cut_head *head, int m);

#endif
