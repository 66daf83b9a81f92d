/*
 * What the property tests work on: the notes of corpus/, cut into lines and
 * words, and random numbers that are the same in every run.
 */
#ifndef PROPERTIES_CORPUS_H
#define PROPERTIES_CORPUS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "syntax/tokens.h"
#include "text/buffer.h"

struct corpus_line {
	const char *text; /* without its LF; a CR at the end is left out too */
	size_t len;
};

struct corpus_note {
	char *path;
	struct buffer text; /* a byte-order mark is left out */
	struct {
		struct corpus_line *at;
		size_t len, cap;
	} lines;
};

struct corpus {
	struct corpus_note *at;
	size_t len, cap;
};

/* Adds the notes that PATTERN matches, below the folder tests run in. */
void corpus_add(struct corpus *corpus, const char *pattern);

/* Adds the demo, the valid notes and the examples of rules. */
void corpus_add_readable(struct corpus *corpus);

/* Adds a note made of TEXT, whose memory is the corpus' from then on. */
void corpus_add_text(
    struct corpus *corpus, const char *name, struct buffer text);

void corpus_free(struct corpus *corpus);

/* Appends the line and a LF. */
void corpus_put(struct buffer *out, struct corpus_line line);

/* Appends lines FROM .. TO - 1 of NOTE. */
void corpus_put_lines(
    struct buffer *out, const struct corpus_note *note, size_t from, size_t to);

/* Cuts LINE into words; TOKENS is used again. LEN may be any. */
void corpus_cut(struct tokens *tokens, struct corpus_line line);

/* Blank, or a comment alone. */
bool corpus_is_empty(struct corpus_line line);

/*
 * Does it begin with the word of a header, or with a slip of the pen that may
 * be taken for one? May it begin a person or session in any other way?
 */
bool corpus_may_be_header(struct corpus_line line);

/* Does it name the joint of its readings? */
bool corpus_names_joint(struct corpus_line line);

/* --- random numbers --------------------------------------------------------
 */

struct random {
	uint64_t state;
};

struct random random_from(uint64_t seed);
uint32_t random_below(struct random *r, uint32_t n); /* n > 0 */

static inline bool
random_one_in(struct random *r, uint32_t n)
{
	return random_below(r, n) == 0;
}

#endif
