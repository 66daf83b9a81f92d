/*
 * Semantic tokens: each word by what it is, told by the lexer and the
 * vocabulary, so that a misspelt word stays uncoloured.
 */
#include "parser.h"
#include "lsp/cut.h"
#include "lsp/server.h"
#include "write/json.h"

enum colour {
	COLOUR_HEADER,
	COLOUR_JOINT,
	COLOUR_MOTION,
	COLOUR_SIDE,
	COLOUR_POSITION,
	COLOUR_NUMBER,
	COLOUR_TEXT,
	COLOUR_COMMENT,
	COLOUR_END_FEEL,
	COLOUR_TYPE,
	COLOUR_CODE,
	COLOURS
};

/* Token types of the protocol, which every theme has a colour for. */
static const char *const names[COLOURS] = {[COLOUR_HEADER] = "keyword",
    [COLOUR_JOINT] = "class",
    [COLOUR_MOTION] = "function",
    [COLOUR_SIDE] = "enumMember",
    [COLOUR_POSITION] = "property",
    [COLOUR_NUMBER] = "number",
    [COLOUR_TEXT] = "string",
    [COLOUR_COMMENT] = "comment",
    [COLOUR_END_FEEL] = "modifier",
    [COLOUR_TYPE] = "type",
    [COLOUR_CODE] = "variable"};

static const struct {
	int kind;
	enum colour colour;
} kinds[] = {
    {T_SESSION, COLOUR_HEADER},
    {T_SUBJECT, COLOUR_HEADER},
    {T_BORN, COLOUR_HEADER},
    {T_AGE, COLOUR_HEADER},
    {T_SEX_HEADER, COLOUR_HEADER},
    {T_DOMINANT, COLOUR_HEADER},
    {T_INVOLVED, COLOUR_HEADER},
    {T_OPPOSITE, COLOUR_HEADER},
    {T_SURGERY, COLOUR_HEADER},
    {T_PRECAUTION, COLOUR_HEADER},
    {T_GOAL, COLOUR_HEADER},
    {T_REMARK, COLOUR_HEADER},
    {T_RATER, COLOUR_HEADER},
    {T_INSTRUMENT_HEADER, COLOUR_HEADER},
    {T_MODE_HEADER, COLOUR_HEADER},
    {T_POSITION, COLOUR_HEADER},
    {T_REQUIRE, COLOUR_HEADER},
    {T_LACKS, COLOUR_HEADER},
    {T_HYPER, COLOUR_HEADER},
    {T_FIXED, COLOUR_HEADER},
    {T_LESS, COLOUR_HEADER},
    {T_PAIN, COLOUR_HEADER},
    {T_AT, COLOUR_HEADER},
    {T_PAINFUL_ARC, COLOUR_HEADER},
    {T_STOPPED_BY, COLOUR_HEADER},
    {T_AFTER, COLOUR_HEADER},
    {T_REPS, COLOUR_HEADER},
    {T_SUBSTITUTION, COLOUR_HEADER},
    {T_BY, COLOUR_HEADER},
    {T_WITH, COLOUR_HEADER},
    {T_MAX, COLOUR_HEADER},
    {T_NO, COLOUR_HEADER},
    {T_FROM, COLOUR_HEADER},
    {T_UNTIL, COLOUR_HEADER},
    {T_STEP, COLOUR_HEADER},
    {T_NONE, COLOUR_HEADER},
    {T_UNAVAILABLE, COLOUR_HEADER},
    {T_JOINT, COLOUR_JOINT},
    {T_DIGIT, COLOUR_JOINT},
    {T_PART, COLOUR_JOINT},
    {T_GROUP, COLOUR_JOINT},
    {T_MOTION, COLOUR_MOTION},
    {T_MEASURE, COLOUR_MOTION},
    {T_SIDE, COLOUR_SIDE},
    {T_BOTH, COLOUR_SIDE},
    {T_MODE, COLOUR_SIDE},
    {T_SEX, COLOUR_SIDE},
    {T_REQUIREMENT, COLOUR_SIDE},
    {T_OUTCOME, COLOUR_SIDE},
    {T_POSTURE, COLOUR_POSITION},
    {T_SETTING, COLOUR_POSITION},
    {T_DATE, COLOUR_NUMBER},
    {T_TIME, COLOUR_NUMBER},
    {T_NUMBER, COLOUR_NUMBER},
    {T_RANGE, COLOUR_NUMBER},
    {T_TRIPLE, COLOUR_NUMBER},
    {T_LEVEL, COLOUR_NUMBER},
    {T_TEXT, COLOUR_TEXT},
    {T_END_FEEL, COLOUR_END_FEEL},
    {T_CAUSE, COLOUR_END_FEEL},
    {T_UNIT, COLOUR_TYPE},
    {T_INSTRUMENT, COLOUR_TYPE},
    {T_CODE, COLOUR_CODE},
};

void
lsp_put_legend(struct buffer *out)
{
	json_name(out, "tokenTypes");
	buffer_putc(out, '[');
	for (int i = 0; i < COLOURS; i++) {
		json_item(out);
		json_puts(out, names[i]);
	}
	buffer_puts(out, "],\"tokenModifiers\":[]");
}

/* The stream of numbers: each place counts from the one before it. */
struct painting {
	const struct lsp *lsp;
	const struct document *d;
	struct buffer *out;
	struct document_place last;
};

static void
paint(struct painting *p, size_t beg, size_t end, enum colour colour)
{
	enum position_encoding encoding = p->lsp->client.encoding;
	struct document_place place = document_place(p->d, encoding, beg);
	size_t lines = place.line - p->last.line;
	size_t characters =
	    lines ? place.character : place.character - p->last.character;

	if (beg == end)
		return;
	json_item(p->out);
	buffer_uint(p->out, lines);
	buffer_putc(p->out, ',');
	buffer_uint(p->out, characters);
	buffer_putc(p->out, ',');
	buffer_uint(
	    p->out, position_units(encoding, p->d->text.data + beg, end - beg));
	buffer_putc(p->out, ',');
	buffer_uint(p->out, (uint64_t)colour);
	buffer_puts(p->out, ",0");
	p->last = place;
}

static void
paint_row(struct painting *p, const struct cut *cut)
{
	for (size_t i = 0; i < cut->tokens.len; i++) {
		const struct token *t = &cut->tokens.at[i];

		for (size_t k = 0; k < sizeof(kinds) / sizeof(*kinds); k++)
			if (kinds[k].kind == t->kind)
				paint(p, cut_beg(cut, t), cut_end(cut, t),
				    kinds[k].colour);
	}
	if (cut->tokens.comment_beg < cut->tokens.comment_end)
		paint(p, cut->at + cut->tokens.comment_beg,
		    cut->at + cut->tokens.comment_end, COLOUR_COMMENT);
}

/* All rows are cut, since each may go on with the one above it. */
static void
put_rows(const struct lsp *lsp, const struct document *d, uint32_t first,
    uint32_t last, struct buffer *result)
{
	struct painting p = {lsp, d, result, {0, 0}};
	struct cut cut = {0};

	buffer_puts(result, "{\"data\":[");
	for (uint32_t row = 1; row <= last; row++) {
		cut_row(&cut, d, row);
		if (row >= first)
			paint_row(&p, &cut);
	}
	buffer_puts(result, "]}");
	cut_free(&cut);
}

enum lsp_error
lsp_semantic_full(
    struct lsp *lsp, const struct json_t *params, struct buffer *result)
{
	const struct document *d = lsp_document(lsp, params);

	if (d)
		put_rows(lsp, d, 1, document_row_count(d), result);
	return LSP_OK;
}

enum lsp_error
lsp_semantic_range(
    struct lsp *lsp, const struct json_t *params, struct buffer *result)
{
	const struct document *d = lsp_document(lsp, params);
	size_t beg, end;

	if (!d)
		return LSP_OK;
	if (!lsp_range(lsp, d, in_get(params, "range"), &beg, &end))
		return LSP_INVALID_PARAMS;
	put_rows(
	    lsp, d, document_row_of(d, beg), document_row_of(d, end), result);
	return LSP_OK;
}
