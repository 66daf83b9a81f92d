/*
 * The tokens of one line: shapes from the lexer, words looked up in the
 * vocabulary. A spelling that means two things is settled here by the line it
 * stands in.
 */
#ifndef SYNTAX_TOKENS_H
#define SYNTAX_TOKENS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "diag/rule.h"

struct token {
	int16_t kind; /* enum line_tokentype of the generated parser.h */
	int16_t id;   /* of words: within their class; of BAD: enum rule */
	uint16_t beg; /* byte offsets in the line */
	uint16_t end;
	bool stops;  /* BAD: nothing behind it is read */
	bool number; /* looks like a number or a date */
	union {
		int32_t tenths[3];  /* of NUMBER, RANGE, TRIPLE */
		int32_t day;	    /* of DATE */
		int32_t minutes;    /* of TIME */
		uint64_t setting;   /* of SETTING: the bit of its family */
		const char *saying; /* of BAD: what is wrong; may be NULL */
	};
};

struct tokens {
	struct token *at; /* len tokens, then one of kind EOL */
	size_t len;
	size_t cap;
	int header;	      /* enum vocab_header_id of the line, or -1 */
	uint32_t comment_beg; /* of the #; equal to comment_end: no comment */
	uint32_t comment_end;
};

/*
 * Cuts TEXT of LEN bytes (at most 65,535; valid UTF-8 without controls; a LF
 * or NUL must follow it) into tokens; a LF or NUL within it begins nothing.
 * LEVELS: the line may continue one of hand-behind-back, whose values are
 * vertebrae. The memory is used again for each line.
 */
void tokens_cut(
    struct tokens *tokens, const char *text, size_t len, bool levels);

/*
 * Ends the tokens with one that cannot be read, bytes BEG .. END, for the
 * reason SAYING (not copied). A token that it cuts short is taken out.
 */
void tokens_end_bad(struct tokens *tokens, enum rule rule, size_t beg,
    size_t end, const char *saying);

void tokens_free(struct tokens *tokens);

/* May C stand in a code? */
bool tokens_in_code(char c);

/* Classes of words (1 << class) that a line may hold; HEADER -1: readings. */
uint32_t tokens_classes(int header);

#endif
