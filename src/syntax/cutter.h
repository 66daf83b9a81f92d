/*
 * What the files that cut a line into tokens share. Private to tokens.c,
 * figures.c, words.c and kinds.c of src/syntax.
 */
#ifndef SYNTAX_CUTTER_H
#define SYNTAX_CUTTER_H

#include <stdbool.h>
#include <stdint.h>

#include "diag/rule.h"
#include "syntax/lexer.h"
#include "syntax/tokens.h"
#include "vocab/vocab.h"

#define CLASS(name) (UINT32_C(1) << VOCAB_CLASS_##name)

/* What is known while the line is cut. */
struct cutter {
	struct tokens *out;
	const char *text;
	const char *end;
	uint32_t classes;
	bool levels;   /* hand-behind-back is measured */
	bool doubtful; /* a word that may be a digit or something else */
};

/* kinds.c: kinds of token; of keywords and headers by their id */
extern const int16_t cutter_kind_of_class[VOCAB_CLASSES];
extern const int16_t cutter_kind_of_keyword[VOCAB_KEYWORD_COUNT];
extern const int16_t cutter_kind_of_header[VOCAB_HEADER_COUNT];

/* tokens.c: adds a token of bytes BEG .. END, valid until the next is added */
struct token *cutter_put(
    struct cutter *c, int kind, const char *beg, const char *end);
struct token *cutter_put_bad(struct cutter *c, enum rule rule, bool stops,
    const char *beg, const char *end, const char *saying);

/* EOL where there is none yet. */
int cutter_last_kind(const struct cutter *c);

/* figures.c: what is wrong with a dash that is not the one of the keyboard */
extern const char cutter_other_dash[];

/* Does a number stand at P, or behind blanks there? */
bool cutter_before_number(const struct cutter *c, const char *p);

/* figures.c: adds what a shape from DATE to NUMBER_LIKE is */
void cutter_figure(
    struct cutter *c, enum shape shape, const char *beg, const char *end);

/*
 * words.c: adds the longest spelling that begins at BEG, where the word ends
 * at *END, and moves *END behind it.
 */
void cutter_word(struct cutter *c, const char *beg, const char **end);

/* Once the whole line is cut: settles its doubtful words by the others. */
void cutter_settle_doubt(struct cutter *c);

#endif
