/*
 * The language server: notes as an editor has them open, over the Language
 * Server Protocol 3.17. It judges what `check` judges, formats as `tidy` does
 * and knows the words of the vocabulary; it has no rules and no words of its
 * own.
 */
#ifndef LSP_LSP_H
#define LSP_LSP_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "diag/rule.h"
#include "text/buffer.h"

struct lsp_options {
	int32_t today;	   /* of the start; moves on at midnight */
	int32_t tolerance; /* tenths of a degree */
	enum level levels[RULE_COUNT];
	const char *version; /* of the program */
};

enum { LSP_CANNOT_READ = -1, LSP_CANNOT_WRITE = -2 };

/*
 * Serves the client behind the descriptors until it says `exit` or goes away.
 * Returns 0 where it had said `shutdown`, 1 where it had not or went away in
 * the middle of a message, or one of the above with errno set. Messages that
 * cannot be read are told on standard error.
 */
int lsp_run(int in, int out, const struct lsp_options *options);

/* The same without descriptors, for tests: bytes in, bytes out. */
struct lsp;

/* OPTIONS is copied. The caller frees it with lsp_free(). */
struct lsp *lsp_new(const struct lsp_options *options);
void lsp_free(struct lsp *lsp);

/* Takes bytes from the client: any piece of its stream. */
void lsp_feed(struct lsp *lsp, const char *bytes, size_t len);

/*
 * Answers one message that has come whole, or else publishes the findings of
 * one note that has changed; answers go to the end of lsp_output(). False
 * where there is nothing to do.
 */
bool lsp_step(struct lsp *lsp);

/* Has so much come that it should be answered before more is read? */
bool lsp_is_busy(const struct lsp *lsp);

/*
 * What is to be sent, and what standard error is to say; the caller takes it
 * and sets its length to 0.
 */
struct buffer *lsp_output(struct lsp *lsp);
struct buffer *lsp_troubles(struct lsp *lsp);

/* -1 while it serves; then the exit status. */
int lsp_status(const struct lsp *lsp);

/* The exit status where the client goes away without `exit`. */
int lsp_end(struct lsp *lsp);

#endif
