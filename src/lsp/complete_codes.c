/*
 * Completion of what no vocabulary holds: codes of people and raters that
 * stand in the note already, and the date of today.
 */
#include "lsp/complete.h"
#include "parser.h"
#include "record/record.h"
#include "text/date.h"
#include "text/intern.h"

void
complete_today(struct completing *c)
{
	char text[16];
	struct candidate candidate = {.label = text,
	    .detail = "today",
	    .kind = ITEM_VALUE,
	    .class = -1,
	    .measurement = NONE};

	date_format(lsp_today(c->lsp), text);
	complete_put(c, &candidate);
}

/* Cheaply: can a code of this kind stand in the row? */
static bool
may_have_code(const struct document_row *r, bool person)
{
	size_t i = 0;

	while (i < r->len && (r->text[i] == ' ' || r->text[i] == '\t'))
		i++;
	if (i == r->len)
		return false;
	if (person)
		return r->text[i] == 's' || r->text[i] == 'S';
	if (r->text[i] == 'r' || r->text[i] == 'R')
		return true;
	for (; i + 1 < r->len; i++)
		if ((r->text[i] == 'b' || r->text[i] == 'B') &&
		    (r->text[i + 1] == 'y' || r->text[i + 1] == 'Y'))
			return true;
	return false;
}

/* The code at token T for completion behind one like AFTER. */
static bool
is_like(const struct token *t, int after)
{
	return t->kind == T_CODE &&
	       (t[-1].kind == T_SUBJECT) == (after == T_SUBJECT);
}

static void
put_code(
    struct completing *c, struct intern *pool, const char *text, size_t len)
{
	size_t before = pool->len;
	struct candidate candidate = {.detail = "in this note",
	    .kind = ITEM_REFERENCE,
	    .class = -1,
	    .measurement = NONE};

	candidate.label = intern_text(pool, intern_id(pool, text, len));
	if (pool->len > before)
		complete_put(c, &candidate);
}

/*
 * The codes of the note that stand where this one will: of people, or of
 * raters. Each once; POOL knows which were seen.
 */
static void
put_codes(struct completing *c, int after)
{
	struct intern pool = {0};
	struct cut cut = {0};

	intern_id(&pool, "", 0);
	for (uint32_t row = 1; row <= document_row_count(c->d); row++) {
		struct document_row r = document_row(c->d, row);

		if (row == c->row || !may_have_code(&r, after == T_SUBJECT))
			continue;
		cut_row(&cut, c->d, row);
		for (size_t i = 1; i < cut.tokens.len; i++) {
			const struct token *t = &cut.tokens.at[i];

			if (is_like(t, after))
				put_code(c, &pool, cut.line.data + t->beg,
				    (size_t)(t->end - t->beg));
		}
	}
	cut_free(&cut);
	intern_free(&pool);
}

bool
complete_codes(struct completing *c)
{
	const struct tokens *t = &c->cut.tokens;
	int after = t->len ? t->at[t->len - 1].kind : T_EOL;

	if (after != T_SUBJECT && after != T_RATER &&
	    !(after == T_BY && t->header < 0))
		return false;
	put_codes(c, after);
	return true;
}
