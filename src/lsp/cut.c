/* Tokens of rows, as the reader of notes cuts them. */
#include "lsp/cut.h"

#include "parser.h"
#include "record/record.h"
#include "syntax/note.h"
#include "text/utf8.h"
#include "vocab/vocab.h"

/* Keeps in mind whether the rows below go on with levels. */
static void
set_levels(struct cut *cut)
{
	const struct tokens *tokens = &cut->tokens;

	if (tokens->header == VOCAB_HEADER_SESSION ||
	    tokens->header == VOCAB_HEADER_SUBJECT)
		cut->levels = false;
	if (tokens->header >= 0)
		return;
	for (size_t i = 0; i < tokens->len; i++) {
		const struct token *t = &tokens->at[i];

		if (t->kind == T_JOINT || t->kind == T_DIGIT)
			cut->levels = false;
		if (t->kind == T_MEASURE)
			cut->levels = t->id == VOCAB_MEASURE_HAND_BEHIND_BACK;
	}
}

void
cut_part(struct cut *cut, const struct document *d, uint32_t row, size_t len)
{
	struct document_row r = document_row(d, row);
	size_t bad;

	len = len < r.len ? len : r.len;
	len = len < LONGEST_LINE ? len : LONGEST_LINE;
	len = utf8_check(r.text, len, &bad);
	cut->line.len = 0;
	buffer_add(&cut->line, r.text, len);
	buffer_putc(&cut->line, '\n');
	cut->len = len;
	cut->at = r.at;
	tokens_cut(&cut->tokens, cut->line.data, len, cut->levels);
	cut->comment = cut->tokens.len == 0 &&
		       cut->tokens.comment_beg < cut->tokens.comment_end;
	set_levels(cut);
}

void
cut_row(struct cut *cut, const struct document *d, uint32_t row)
{
	cut_part(cut, d, row, SIZE_MAX);
}

void
cut_free(struct cut *cut)
{
	buffer_free(&cut->line);
	tokens_free(&cut->tokens);
}

static void
settle(struct cut_head *h)
{
	if (h->joint == NONE && h->digit != NONE && h->part != NONE)
		h->joint = vocab_digit_joint(h->digit, h->part);
	if (h->measure != NONE)
		h->measurement = vocab_named_measurement(h->measure, h->digit);
	else if (h->joint != NONE && h->motion != NONE)
		h->measurement = vocab_measurement(h->joint, h->motion);
	if (h->measurement != NONE && h->joint == NONE)
		h->joint = vocab_measurements[h->measurement].joint;
}

struct cut_head
cut_head(const struct cut *cut, size_t count)
{
	struct cut_head h = {NONE, NONE, NONE, NONE, NONE, NONE};

	for (size_t i = 0; i < count && i < cut->tokens.len; i++) {
		const struct token *t = &cut->tokens.at[i];

		if (t->kind == T_JOINT)
			h.joint = t->id;
		else if (t->kind == T_DIGIT)
			h.digit = t->id;
		else if (t->kind == T_PART)
			h.part = t->id;
		else if (t->kind == T_MOTION && h.motion == NONE)
			h.motion = t->id;
		else if (t->kind == T_MEASURE)
			h.measure = t->id;
	}
	settle(&h);
	return h;
}

const char *
cut_joint_name(const struct cut_head *h)
{
	if (h->digit != NONE)
		return vocab_name(VOCAB_CLASS_DIGIT, h->digit);
	if (h->joint != NONE && vocab_joints[h->joint].digit >= 0)
		return vocab_name(
		    VOCAB_CLASS_DIGIT, vocab_joints[h->joint].digit);
	if (h->joint != NONE)
		return vocab_joints[h->joint].name;
	return NULL;
}

bool
cut_may_be(const struct cut_head *h, int m)
{
	const struct vocab_measurement *is = &vocab_measurements[m];
	int digit = is->joint >= 0 ? vocab_joints[is->joint].digit : is->digit;

	if (is->measure >= 0 && is->digit >= 0)
		digit = is->digit;
	if (h->joint != NONE)
		return is->joint == h->joint;
	if (h->digit != NONE)
		return digit == h->digit;
	return true;
}
