/*
 * The list that completion makes: candidates for a place, each one once.
 * Private to src/lsp.
 */
#ifndef LSP_COMPLETE_H
#define LSP_COMPLETE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "lsp/cut.h"
#include "lsp/document.h"
#include "lsp/expect.h"
#include "lsp/server.h"
#include "text/buffer.h"
#include "vocab/vocab.h"

struct completing {
	struct lsp *lsp;
	const struct document *d;
	uint32_t row;
	size_t beg, end;   /* what is replaced, in the note */
	const char *typed; /* these bytes of the note */
	size_t typed_len;
	struct cut cut; /* the line before BEG */
	struct expect expect;
	struct cut_head own;  /* what this line names */
	struct cut_head head; /* the same, or of the line it goes on with */
	unsigned order;	      /* of the next item */
	struct buffer *out;
};

/* CompletionItemKind of the protocol. */
enum complete_item {
	ITEM_FUNCTION = 3,
	ITEM_CLASS = 7,
	ITEM_PROPERTY = 10,
	ITEM_UNIT = 11,
	ITEM_VALUE = 12,
	ITEM_RULE = 13,
	ITEM_KEYWORD = 14,
	ITEM_REFERENCE = 18,
	ITEM_MEMBER = 20
};

/* One candidate. */
struct candidate {
	const char *label;
	const char
	    *short_name;    /* another spelling that may be typed; or NULL */
	const char *detail; /* or NULL */
	int kind;	    /* CompletionItemKind */
	int class;	    /* enum vocab_class and id, for its */
	int id;		    /* documentation; class -1: none */
	int measurement;    /* the same; NONE */
	bool first;	    /* before the others */
};

void complete_put(struct completing *c, const struct candidate *candidate);

/* The candidates at the place, asked of the reader of notes. */
void complete_words(struct completing *c);

/*
 * What stands in no vocabulary: the codes of the note, where one must stand
 * (else false), and the date of today.
 */
bool complete_codes(struct completing *c);
void complete_today(struct completing *c);

/* Where the text that is typed is a rule name of `# accept`. */
void complete_rules(struct completing *c);

/* True where the place lies behind a # and rule names may stand there. */
bool complete_in_acceptance(const struct completing *c);

#endif
