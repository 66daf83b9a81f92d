/*
 * People, sessions and joints of an open note, by the words of its lines, so
 * that a line which cannot be read whole keeps its place. Private to src/lsp.
 */
#ifndef LSP_OUTLINE_H
#define LSP_OUTLINE_H

#include <stddef.h>
#include <stdint.h>

#include "lsp/document.h"
#include "text/buffer.h"

enum outline_kind {
	OUTLINE_PERSON,
	OUTLINE_SESSION,
	OUTLINE_JOINT,
	OUTLINE_COMMENT /* a run of comments; stands beside the others */
};

struct outline_item {
	enum outline_kind kind;
	uint32_t row;	 /* the first */
	uint32_t last;	 /* the last that is not blank */
	size_t name;	 /* in the text of the outline, NUL-terminated */
	size_t beg, end; /* of what names it, in the note */
};

/* In the order of their first rows, each before what lies in it. */
struct outline {
	struct outline_item *at;
	size_t len, cap;
	struct buffer text;
};

void outline_build(struct outline *outline, const struct document *d);
void outline_free(struct outline *outline);

#endif
