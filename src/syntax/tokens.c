/*
 * Cutting a line: which shape stands next, codes, texts, and what is none of
 * them. Figures are cut by figures.c, words by words.c.
 */
#include "syntax/tokens.h"

#include <stdlib.h>

#include "parser.h"
#include "syntax/cutter.h"
#include "text/ascii.h"
#include "text/date.h"
#include "text/mem.h"

struct token *
cutter_put(struct cutter *c, int kind, const char *beg, const char *end)
{
	struct token *t = MEM_PUSH(c->out);

	*t = (struct token){.kind = (int16_t)kind,
	    .id = -1,
	    .beg = (uint16_t)(beg - c->text),
	    .end = (uint16_t)(end - c->text)};
	return t;
}

struct token *
cutter_put_bad(struct cutter *c, enum rule rule, bool stops, const char *beg,
    const char *end, const char *saying)
{
	struct token *t = cutter_put(c, T_BAD, beg, end);

	t->id = (int16_t)rule;
	t->stops = stops;
	t->saying = saying;
	return t;
}

int
cutter_last_kind(const struct cutter *c)
{
	return c->out->len ? c->out->at[c->out->len - 1].kind : T_EOL;
}

bool
tokens_in_code(char c)
{
	return ascii_is_letter(c) || ascii_is_digit(c) || c == '.' ||
	       c == '_' || c == '-';
}

/*
 * A code at *P, where one must stand: after subject, rater, and by in a line
 * of readings. False where there is none: then the ordinary rules hold.
 */
static bool
put_code(struct cutter *c, const char **p)
{
	const char *end = *p, *behind;
	int32_t day;

	while (end < c->end && tokens_in_code(*end))
		end++;
	if (end == *p || end - *p > 64 || **p == '.' || **p == '_' ||
	    **p == '-')
		return false;
	behind = end;
	if (end < c->end && *end != ';' && lexer_next(&behind) != SHAPE_BLANK)
		return false;
	if (date_parse(*p, (size_t)(end - *p), &day) == 0)
		return false;
	if (cutter_last_kind(c) == T_BY && end - *p == 1) {
		struct vocab_match match = vocab_find(*p, 1);

		if (vocab_match_class(match, VOCAB_CLASS_SIDE) ||
		    vocab_match_class(match, VOCAB_CLASS_MODE) ||
		    vocab_match_class(match, VOCAB_CLASS_BOTH))
			return false;
	}
	cutter_put(c, T_CODE, *p, end);
	*p = end;
	return true;
}

static bool
wants_code(const struct cutter *c)
{
	int last = cutter_last_kind(c);

	return last == T_SUBJECT || last == T_RATER ||
	       (last == T_BY && c->out->header < 0);
}

/* A run of bytes that mean nothing is one token. */
static void
put_stray(struct cutter *c, const char *beg, const char *end)
{
	struct token *last = c->out->len ? &c->out->at[c->out->len - 1] : NULL;

	if (last && last->kind == T_BAD && last->id == RULE_SYNTAX &&
	    last->end == beg - c->text)
		last->end = (uint16_t)(end - c->text);
	else
		cutter_put_bad(c, RULE_SYNTAX, true, beg, end, NULL);
}

/* A text keeps its place without the quotation marks: see token_text(). */
static void
put_shape(struct cutter *c, enum shape shape, const char *beg, const char **end)
{
	switch (shape) {
	case SHAPE_TEXT:
		cutter_put(c, T_TEXT, beg, *end);
		break;
	case SHAPE_OPEN_TEXT:
		cutter_put_bad(c, RULE_OPEN_QUOTE, true, beg, *end, NULL);
		break;
	case SHAPE_DATE:
	case SHAPE_TIME:
	case SHAPE_NUMBER:
	case SHAPE_FRACTION:
	case SHAPE_RANGE:
	case SHAPE_TRIPLE:
	case SHAPE_NUMBER_LIKE:
		cutter_figure(c, shape, beg, *end);
		break;
	case SHAPE_WORD:
		cutter_word(c, beg, end);
		break;
	case SHAPE_SLASH:
		cutter_put(c, T_SLASH, beg, *end);
		break;
	case SHAPE_SEMICOLON:
		cutter_put(c, T_SEMICOLON, beg, *end);
		break;
	default:
		put_stray(c, beg, *end);
	}
}

void
tokens_cut(struct tokens *tokens, const char *text, size_t len, bool levels)
{
	struct cutter c = {.out = tokens,
	    .text = text,
	    .end = text + len,
	    .levels = levels,
	    .classes = tokens_classes(-1)};
	const char *p = text;
	bool after_blank = true;

	tokens->len = 0;
	tokens->header = -1;
	tokens->comment_beg = tokens->comment_end = (uint32_t)len;
	while (p < c.end) {
		const char *beg = p;
		enum shape shape;

		/* Half of all tokens are one blank: no need of the lexer. */
		if (*p == ' ' || *p == '\t' || *p == ',') {
			after_blank = true;
			p++;
			continue;
		}
		if (wants_code(&c) && *p != '#' && put_code(&c, &p)) {
			after_blank = false;
			continue;
		}
		shape = lexer_next(&p);
		if (shape == SHAPE_BLANK) {
			after_blank = true;
			continue;
		}
		if (shape == SHAPE_COMMENT && after_blank) {
			tokens->comment_beg = (uint32_t)(beg - text);
			break;
		}
		/* Where the lexer stops before the end, one byte is passed. */
		if (shape == SHAPE_COMMENT || shape == SHAPE_END) {
			shape = SHAPE_STRAY;
			p = beg + 1;
		}
		put_shape(&c, shape, beg, &p);
		after_blank = false;
	}
	if (c.doubtful)
		cutter_settle_doubt(&c);
	cutter_put(
	    &c, T_EOL, text + tokens->comment_beg, text + tokens->comment_beg);
	tokens->len--;
	/* The end of the line is where its last token ends. */
	if (tokens->len > 0)
		tokens->at[tokens->len].beg = tokens->at[tokens->len].end =
		    tokens->at[tokens->len - 1].end;
}

void
tokens_end_bad(struct tokens *tokens, enum rule rule, size_t beg, size_t end,
    const char *saying)
{
	struct token bad = {.kind = T_BAD,
	    .id = (int16_t)rule,
	    .beg = (uint16_t)beg,
	    .end = (uint16_t)end,
	    .stops = true,
	    .saying = saying};
	struct token eol = {.kind = T_EOL,
	    .id = -1,
	    .beg = (uint16_t)end,
	    .end = (uint16_t)end};

	if (tokens->len > (tokens->header >= 0) &&
	    tokens->at[tokens->len - 1].end == beg)
		tokens->len--;
	*MEM_PUSH(tokens) = bad;
	*MEM_PUSH(tokens) = eol;
	tokens->len--; /* the end stands behind the last one */
}

void
tokens_free(struct tokens *tokens)
{
	free(tokens->at);
	*tokens = (struct tokens){0};
}
