/*
 * Quick fixes. None makes a figure or changes one: a word is respelled, a
 * word is put before a figure, or a place is made where the user goes on.
 */
#include <string.h>

#include "lsp/cut.h"
#include "lsp/server.h"
#include "parser.h"
#include "syntax/acceptance.h"
#include "vocab/vocab.h"
#include "write/json.h"

/* One edit of the note, and where the cursor goes. */
struct fix {
	char title[160];
	size_t beg, end; /* what is replaced */
	char text[160];
	bool to_cursor; /* the user goes on behind the text */
	bool preferred;
};

struct fixing {
	struct lsp *lsp;
	const struct document *d;
	const struct finding *f;
	struct cut cut; /* the row of the finding */
	struct buffer *out;
};

/* --- writing an action --- */

/* Where the cursor is once the fix is made: behind its text. */
static void
put_cursor(const struct fixing *x, const struct fix *fix)
{
	struct document_place at =
	    document_place(x->d, x->lsp->client.encoding, fix->beg);
	const char *last_line = strrchr(fix->text, '\n');
	/* A text that makes a line of its own is followed by what was there. */
	size_t len = last_line ? strcspn(fix->text, "\r\n") : strlen(fix->text);

	json_name(x->out, "command");
	buffer_putc(x->out, '{');
	json_text_of(x->out, "title", fix->title);
	json_text_of(x->out, "command", lsp_show_place);
	json_name(x->out, "arguments");
	buffer_putc(x->out, '[');
	json_item(x->out);
	json_puts(x->out, x->d->uri);
	buffer_printf(x->out, ",%zu,%zu]}", at.line, at.character + len);
}

static void
put_fix(struct fixing *x, const struct fix *fix)
{
	struct buffer *out = x->out;

	json_item(out);
	buffer_putc(out, '{');
	json_text_of(out, "title", fix->title);
	json_text_of(out, "kind", "quickfix");
	if (fix->preferred)
		buffer_puts(out, ",\"isPreferred\":true");
	json_name(out, "diagnostics");
	buffer_putc(out, '[');
	lsp_put_finding(x->lsp, out, x->d, x->f);
	buffer_puts(out, "}],\"edit\":{\"changes\":{");
	json_puts(out, x->d->uri);
	buffer_puts(out, ":[{");
	json_name(out, "range");
	document_put_range(
	    out, x->d, x->lsp->client.encoding, fix->beg, fix->end);
	json_text_of(out, "newText", fix->text);
	buffer_puts(out, "}]}}");
	if (fix->to_cursor && x->lsp->client.show_document)
		put_cursor(x, fix);
	buffer_putc(out, '}');
}

static void
set(char *out, size_t size, const char *a, const char *b, const char *c)
{
	struct buffer text = {0};
	size_t len;

	buffer_puts(&text, a);
	buffer_puts(&text, b);
	buffer_puts(&text, c);
	buffer_putc(&text, '\0');
	len = text.len < size ? text.len : size;
	memcpy(out, text.data, len);
	out[len - 1] = '\0';
	buffer_free(&text);
}
#define SET(field, a, b, c) set(field, sizeof(field), a, b, c)

/* --- where things are in the row --- */

/* The token at the finding, or NULL. */
static const struct token *
token_of(const struct fixing *x)
{
	for (size_t i = 0; i < x->cut.tokens.len; i++)
		if (x->cut.tokens.at[i].beg == x->f->beg)
			return &x->cut.tokens.at[i];
	return NULL;
}

/* Behind the last byte of the row's part BEG .. END that is no blank. */
static size_t
trimmed(const struct fixing *x, size_t end)
{
	const char *text = x->cut.line.data;

	while (end > 0 && (text[end - 1] == ' ' || text[end - 1] == '\t'))
		end--;
	return end;
}

/* --- the fixes --- */

/* The nearest known spelling, as the message itself names it. */
static void
fix_spelling(struct fixing *x)
{
	const struct token *t = token_of(x);
	struct fix fix = {.preferred = true};
	const char *near;
	uint32_t classes;

	if (!t)
		return;
	classes = tokens_classes(x->cut.tokens.header);
	if (t == x->cut.tokens.at)
		classes |= UINT32_C(1) << VOCAB_CLASS_HEADER;
	else if (t[-1].kind == T_STOPPED_BY)
		classes = UINT32_C(1) << VOCAB_CLASS_CAUSE;
	else if (t[-1].kind == T_WITH)
		classes = UINT32_C(1) << VOCAB_CLASS_INSTRUMENT;
	near = vocab_nearest(
	    x->cut.line.data + t->beg, (size_t)(t->end - t->beg), classes);
	if (!near)
		return;
	SET(fix.title, "Write '", near, "'");
	SET(fix.text, near, "", "");
	fix.beg = cut_beg(&x->cut, t);
	fix.end = cut_end(&x->cut, t);
	put_fix(x, &fix);
}

/* Both meanings; the user alone knows which it was. */
static void
fix_extension(struct fixing *x)
{
	static const char *const words[][2] = {
	    {"lacks ", ": stops that far short of straight"},
	    {"hyper ", ": goes that far beyond straight"}};
	const struct token *t = token_of(x);
	char number[40];
	size_t len;

	if (!t || t->kind != T_NUMBER)
		return;
	len = (size_t)(t->end - t->beg);
	if (len >= sizeof(number))
		return;
	memcpy(number, x->cut.line.data + t->beg, len);
	number[len] = '\0';
	for (int i = 0; i < 2; i++) {
		struct fix fix = {
		    .beg = cut_beg(&x->cut, t), .end = cut_beg(&x->cut, t)};

		SET(fix.text, words[i][0], "", "");
		SET(fix.title, "Write '", words[i][0], number);
		SET(fix.title, fix.title, "'", words[i][1]);
		put_fix(x, &fix);
	}
}

/*
 * Is the comment of the row an acceptance, as the reader of notes reads one?
 * Then where its rule names end.
 */
static bool
acceptance(const struct fixing *x, size_t *names_end)
{
	const struct tokens *t = &x->cut.tokens;
	const char *text = x->cut.line.data, *end = NULL;

	if (t->comment_beg < t->comment_end)
		end = acceptance_names_end(
		    text + t->comment_beg, text + t->comment_end);
	if (end)
		*names_end = (size_t)(end - text);
	return end != NULL;
}

/*
 * Behind the line; where a comment stands there already, into it if it
 * accepts, else on a line of its own above.
 */
static void
fix_accept(struct fixing *x)
{
	const struct tokens *t = &x->cut.tokens;
	const char *rule = rule_table[x->f->rule].name;
	struct fix fix = {.to_cursor = true};
	size_t names_end, indent = 0;

	if (t->len == 0)
		return;
	SET(fix.title, "Accept ", rule, " here, and give the reason");
	if (t->comment_beg == t->comment_end) {
		fix.beg = x->cut.at + trimmed(x, x->cut.len);
		fix.end = x->cut.at + x->cut.len;
		SET(fix.text, "  # accept ", rule, ": ");
	} else if (acceptance(x, &names_end)) {
		fix.beg = fix.end = x->cut.at + names_end;
		SET(fix.title, "Accept ", rule, " here too");
		SET(fix.text, ", ", rule, "");
		fix.to_cursor = false;
	} else {
		indent = t->at[0].beg < 40 ? t->at[0].beg : 0;
		fix.beg = fix.end = x->cut.at;
		SET(fix.text, "# accept ", rule, ": ");
		memmove(fix.text + indent, fix.text, strlen(fix.text) + 1);
		memcpy(fix.text, x->cut.line.data, indent);
		strcat(fix.text, document_line_end(x->d));
	}
	put_fix(x, &fix);
}

/* The last token of KIND that begins at or before byte BYTE, or NULL. */
static const struct token *
last_of(const struct fixing *x, int kind, size_t byte)
{
	const struct token *found = NULL;

	for (size_t i = 0; i < x->cut.tokens.len; i++)
		if (x->cut.tokens.at[i].kind == kind &&
		    x->cut.tokens.at[i].beg <= byte)
			found = &x->cut.tokens.at[i];
	return found;
}

/* Where the value of the reading at the finding stands. */
static size_t
value_of(const struct fixing *x)
{
	for (size_t i = 0; i < x->cut.tokens.len; i++) {
		const struct token *t = &x->cut.tokens.at[i];

		if (t->beg >= x->f->beg &&
		    (t->number || t->kind == T_OUTCOME || t->kind == T_LEVEL))
			return t->beg;
	}
	return x->f->end;
}

/* " L A " at the end of the line: the figure is the user's to measure. */
static void
fix_opposite(struct fixing *x)
{
	size_t value = value_of(x);
	const struct token *side = last_of(x, T_SIDE, value);
	const struct token *mode = last_of(x, T_MODE, value);
	const struct token *part = last_of(x, T_PART, value);
	struct fix fix = {.to_cursor = true};
	size_t end = x->cut.tokens.comment_beg;
	char words[64];
	int other;

	if (!side)
		return;
	other =
	    side->id == VOCAB_SIDE_RIGHT ? VOCAB_SIDE_LEFT : VOCAB_SIDE_RIGHT;
	SET(words, "  ", vocab_short_name(VOCAB_CLASS_SIDE, other), " ");
	if (mode)
		SET(words, words, vocab_short_name(VOCAB_CLASS_MODE, mode->id),
		    " ");
	if (part)
		SET(words, words, vocab_name(VOCAB_CLASS_DIGIT_JOINT, part->id),
		    " ");
	SET(fix.text, words, "", "");
	SET(fix.title, "Make room for the ",
	    vocab_name(VOCAB_CLASS_SIDE, other), " side, to be measured");
	fix.beg = x->cut.at + trimmed(x, end);
	fix.end = fix.beg;
	put_fix(x, &fix);
}

/* Takes one rule name out, or the comment with the only one. */
static void
fix_unused(struct fixing *x)
{
	const char *text = x->cut.line.data;
	size_t beg = x->f->beg, end = x->f->end, names_end;
	struct fix fix = {.preferred = true};
	bool before, behind;

	if (end > x->cut.len || !acceptance(x, &names_end))
		return;
	while (beg > 0 && text[beg - 1] == ' ')
		beg--;
	while (end < names_end && text[end] == ' ')
		end++;
	before = beg > 0 && text[beg - 1] == ',';
	behind = end < names_end && text[end] == ',';
	if (before) {
		beg--;
		end = x->f->end;
	} else if (behind) {
		beg = x->f->beg;
		for (end++; end < names_end && text[end] == ' ';)
			end++;
	} else {
		beg = trimmed(x, x->cut.tokens.comment_beg);
		end = x->cut.len;
	}
	SET(fix.title, "Take this acceptance out", "", "");
	fix.beg = x->cut.at + beg;
	fix.end = x->cut.at + end;
	put_fix(x, &fix);
}

static void
fix_reason(struct fixing *x)
{
	size_t end = trimmed(x, x->cut.tokens.comment_end);
	struct fix fix = {.to_cursor = true};

	if (end == 0)
		return;
	SET(fix.title, "Give the reason", "", "");
	SET(fix.text, x->cut.line.data[end - 1] == ':' ? " " : ": ", "", "");
	fix.beg = x->cut.at + end;
	fix.end = x->cut.at + x->cut.len;
	put_fix(x, &fix);
}

/* The fixes of a rule, in the order in which they are offered. */
static const struct {
	enum rule rule;
	void (*fix)(struct fixing *x);
} fixes[] = {
    {RULE_UNKNOWN_WORD, fix_spelling},
    {RULE_AMBIGUOUS_EXTENSION, fix_extension},
    {RULE_MISSING_OPPOSITE, fix_opposite},
    {RULE_ACCEPTANCE_UNUSED, fix_unused},
    {RULE_ACCEPTANCE_WITHOUT_REASON, fix_reason},
};

static void
put_fixes(struct fixing *x)
{
	enum rule_group group = rule_table[x->f->rule].group;

	cut_row(&x->cut, x->d, x->f->line);
	for (size_t i = 0; i < sizeof(fixes) / sizeof(*fixes); i++)
		if (fixes[i].rule == x->f->rule)
			fixes[i].fix(x);
	if (group != RULES_READING && group != RULES_ACCEPTANCE)
		fix_accept(x);
}

/* Does the client want quick fixes among others? */
static bool
wants_fixes(const struct json_t *only)
{
	return !only || in_has(only, "quickfix") || in_has(only, "");
}

enum lsp_error
lsp_code_action(
    struct lsp *lsp, const struct json_t *params, struct buffer *result)
{
	struct document *d = lsp_document(lsp, params);
	struct fixing x = {.lsp = lsp, .d = d, .out = result};
	size_t beg, end;

	if (!d)
		return LSP_OK;
	if (!lsp_range(lsp, d, in_get(params, "range"), &beg, &end))
		return LSP_INVALID_PARAMS;
	buffer_putc(result, '[');
	lsp_judge(lsp, d);
	for (size_t i = 0; i < d->findings.len; i++) {
		x.f = &d->findings.at[i].finding;
		if (wants_fixes(in_get(params, "context.only")) &&
		    document_at(d, x.f->line, x.f->beg) <= end &&
		    document_at(d, x.f->line, x.f->end) >= beg)
			put_fixes(&x);
	}
	buffer_putc(result, ']');
	cut_free(&x.cut);
	return LSP_OK;
}
