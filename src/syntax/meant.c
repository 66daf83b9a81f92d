/*
 * Which header a damaged line was meant to be. A `session` line with a slip
 * in its first word must not leave the old session on: the readings below it
 * would stand under another day, and behind `subject` under another person.
 */
#include <string.h>

#include "parser.h"
#include "syntax/parse.h"
#include "vocab/vocab.h"

/* A byte of a word; bytes that are no text may have been a letter. */
static bool
in_first_word(char c)
{
	return c != ' ' && c != '\t' && c != ',' && c != ';' && c != '"';
}

static bool
begins_word(char c)
{
	return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') ||
	       (c >= '0' && c <= '9') || (c & 0x80);
}

static int
header_of(const char *word, size_t len)
{
	const struct vocab_row *row =
	    vocab_match_class(vocab_find(word, len), VOCAB_CLASS_HEADER);

	return row ? row->id : NONE;
}

/* The blank behind the header word was lost: `session2026-05-04`. */
static int
header_glued(const char *word, size_t len)
{
	for (size_t n = len; n-- > 3;) {
		int header = header_of(word, n);

		if (header != NONE)
			return header;
	}
	return NONE;
}

int
header_meant(const struct parse *ps)
{
	const struct token *t = ps->tokens.at;
	const char *word, *end = ps->text + ps->len, *behind, *near;
	int header;

	if (ps->tokens.header >= 0)
		return ps->tokens.header;
	if (ps->tokens.len == 0 ||
	    (t->kind != T_BAD && t->kind != T_SEMICOLON && t->kind != T_SLASH))
		return NONE;
	for (word = ps->text; word < end && !begins_word(*word); word++)
		;
	for (behind = word; behind < end && in_first_word(*behind); behind++)
		;
	header = header_of(word, (size_t)(behind - word));
	if (header != NONE)
		return header;
	near = vocab_nearest(word, (size_t)(behind - word),
	    UINT32_C(1) << VOCAB_CLASS_HEADER | tokens_classes(NONE));
	return near ? header_of(near, strlen(near))
		    : header_glued(word, (size_t)(behind - word));
}
