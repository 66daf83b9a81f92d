/*
 * What may stand at a place of a note: the reader of notes is asked, word by
 * word, so that completion can never offer what `check` would refuse. Private
 * to src/lsp.
 */
#ifndef LSP_EXPECT_H
#define LSP_EXPECT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "lsp/cut.h"
#include "lsp/document.h"
#include "text/buffer.h"

struct expect_probe {
	size_t word; /* in the text of the words */
	size_t len;
	bool stands; /* the answer */
};

/* A place, and the words that are tried there. Zeroed it is ready. */
struct expect {
	struct buffer before;  /* the beginning of the line */
	uint32_t mode_row;     /* of the mode header in force, 0: none */
	uint32_t joint_row;    /* that the line may go on with, 0: none */
	struct cut_head above; /* what that row names */
	struct buffer words;
	struct expect_probe *at;
	size_t len, cap;
	bool above_failed; /* the row it goes on with could not be read */
};

/* The place behind the first LEN bytes of row ROW. */
void expect_begin(
    struct expect *e, const struct document *d, uint32_t row, size_t len);

/* WORD may hold what must follow it: `lacks 5`. Returns its number. */
size_t expect_add(struct expect *e, const char *word);

/* Answers for all words added. */
void expect_run(struct expect *e, const struct document *d);
void expect_free(struct expect *e);

#endif
