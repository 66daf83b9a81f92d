/*
 * Completion: finds the place and what is typed there already, and writes the
 * list. It is asked for by typing letters or by hand, never by a blank: a list
 * that opens at the end of a line could be taken by the line end that is
 * typed next, and would put a word into the record.
 */
#include "lsp/complete.h"

#include <string.h>
#include <strings.h>

#include "lsp/facts.h"
#include "parser.h"
#include "record/record.h"
#include "write/json.h"

/* Words of the longest spelling that has blanks in it. */
enum { MOST_WORDS = 3 };

static bool
ends_word(char byte)
{
	return byte == ' ' || byte == '\t' || byte == ',' || byte == ';' ||
	       byte == '/' || byte == '"' || byte == ':' || byte == '#';
}

/*
 * Does some spelling begin with the LEN bytes of TEXT and go on? The joints of
 * a finger are two words, each completed by itself.
 */
static bool
begins_spelling(const char *text, size_t len)
{
	for (size_t i = 0; i < vocab_row_count; i++)
		if (vocab_rows[i].class != VOCAB_CLASS_JOINT &&
		    strlen(vocab_rows[i].name) > len &&
		    strncasecmp(vocab_rows[i].name, text, len) == 0)
			return true;
	return false;
}

/*
 * Where the word at the cursor begins: at the last blank, or further back
 * where the words up to the cursor are the beginning of one spelling.
 */
static size_t
word_start(const char *text, size_t len)
{
	size_t start = len, found;

	while (start > 0 && !ends_word(text[start - 1]))
		start--;
	found = start;
	for (int words = 1; words < MOST_WORDS; words++) {
		if (start < 2 || text[start - 1] != ' ')
			break;
		start--;
		while (start > 0 && !ends_word(text[start - 1]))
			start--;
		if (start + 1 < len &&
		    begins_spelling(text + start, len - start))
			found = start;
	}
	return found;
}

static bool
begins(const struct completing *c, const char *word)
{
	return word && strncasecmp(word, c->typed, c->typed_len) == 0;
}

/* Of several words typed, those that go on with them are meant alone. */
static bool
is_meant(const struct completing *c, const struct candidate *candidate)
{
	return !memchr(c->typed, ' ', c->typed_len) ||
	       begins(c, candidate->label) || begins(c, candidate->short_name);
}

static void
put_filter(struct completing *c, const struct candidate *candidate)
{
	if (c->typed_len > 0 && begins(c, candidate->short_name) &&
	    !begins(c, candidate->label))
		json_text_of(c->out, "filterText", candidate->short_name);
}

void
complete_put(struct completing *c, const struct candidate *candidate)
{
	struct buffer *out = c->out;

	if (!is_meant(c, candidate))
		return;
	json_item(out);
	buffer_putc(out, '{');
	json_text_of(out, "label", candidate->label);
	json_uint_of(out, "kind", (uint64_t)candidate->kind);
	if (candidate->detail)
		json_text_of(out, "detail", candidate->detail);
	buffer_printf(out, ",\"sortText\":\"%c%04u\"",
	    candidate->first ? '0' : '1', c->order++);
	put_filter(c, candidate);
	json_name(out, "textEdit");
	buffer_putc(out, '{');
	json_name(out, "range");
	document_put_range(out, c->d, c->lsp->client.encoding, c->beg, c->end);
	json_text_of(out, "newText", candidate->label);
	buffer_putc(out, '}');
	if (candidate->class >= 0)
		buffer_printf(out,
		    ",\"data\":{\"class\":%d,\"id\":%d,\"measurement\":%d}",
		    candidate->class, candidate->id, candidate->measurement);
	buffer_putc(out, '}');
}

/* Behind `# accept` and before the colon. */
bool
complete_in_acceptance(const struct completing *c)
{
	const struct tokens *t = &c->cut.tokens;
	const char *p = c->cut.line.data + t->comment_beg;
	size_t len = t->comment_end - t->comment_beg;

	if (len == 0)
		return false;
	for (p++, len--; len > 0 && (*p == ' ' || *p == '\t'); len--)
		p++;
	return len > 6 && memcmp(p, "accept", 6) == 0 &&
	       (p[6] == ' ' || p[6] == '\t') && !memchr(p, ':', len);
}

/* Is a finding of this rule on the row, or on the one below it? */
static bool
is_found(const struct completing *c, int rule)
{
	for (size_t i = 0; c->d->judged && i < c->d->findings.len; i++) {
		const struct finding *f = &c->d->findings.at[i].finding;

		if ((int)f->rule == rule &&
		    (f->line == c->row || f->line == c->row + 1))
			return true;
	}
	return false;
}

void
complete_rules(struct completing *c)
{
	for (int rule = 0; rule < RULE_COUNT; rule++) {
		struct candidate candidate = {.label = rule_table[rule].name,
		    .detail = rule_table[rule].title,
		    .kind = ITEM_RULE,
		    .class = -1,
		    .measurement = NONE,
		    .first = is_found(c, rule)};

		if (rule_table[rule].group != RULES_READING)
			complete_put(c, &candidate);
	}
}

/* In a text or any other comment there is nothing to complete. */
static void
put_list(struct completing *c)
{
	const struct tokens *t = &c->cut.tokens;
	bool comment = t->comment_beg < t->comment_end;
	bool open = t->len > 0 && t->at[t->len - 1].kind == T_BAD &&
		    t->at[t->len - 1].id == RULE_OPEN_QUOTE;

	if (comment && complete_in_acceptance(c))
		complete_rules(c);
	else if (!comment && !open)
		complete_words(c);
}

enum lsp_error
lsp_completion(
    struct lsp *lsp, const struct json_t *params, struct buffer *result)
{
	struct document *d = lsp_document(lsp, params);
	struct completing c = {.lsp = lsp, .d = d, .out = result};
	struct document_row r;
	size_t len;

	if (!d)
		return LSP_OK;
	if (!lsp_offset(lsp, d, in_get(params, "position"), &c.end))
		return LSP_INVALID_PARAMS;
	c.row = document_row_of(d, c.end);
	r = document_row(d, c.row);
	c.end = c.end > r.at ? c.end : r.at;
	len = c.end - r.at < r.len ? c.end - r.at : r.len;
	c.beg = r.at + word_start(r.text, len);
	c.typed = r.text + (c.beg - r.at);
	c.typed_len = r.at + len - c.beg;
	expect_begin(&c.expect, d, c.row, c.beg - r.at);
	c.cut.levels = c.expect.above.measure == VOCAB_MEASURE_HAND_BEHIND_BACK;
	cut_part(&c.cut, d, c.row, c.beg - r.at);
	c.own = c.head = cut_head(&c.cut, c.cut.tokens.len);
	buffer_puts(result, "{\"isIncomplete\":true,\"items\":[");
	put_list(&c);
	buffer_puts(result, "]}");
	cut_free(&c.cut);
	expect_free(&c.expect);
	return LSP_OK;
}

/* What is known of the word and of what it would measure here. */
static void
document_item(struct wording *p, int class, int id, int measurement)
{
	facts_word(p, (enum vocab_class) class, id);
	if (measurement != NONE)
		facts_all(p, measurement);
}

/* The item as it came back, and its documentation. */
enum lsp_error
lsp_completion_resolve(
    struct lsp *lsp, const struct json_t *params, struct buffer *result)
{
	const struct json_t *data = in_get(params, "data");
	int64_t class = in_integer(in_get(data, "class"), -1);
	int64_t id = in_integer(in_get(data, "id"), -1);
	int64_t m = in_integer(in_get(data, "measurement"), NONE);
	struct wording p = {.markdown = lsp->client.item_markdown};

	if (!in_is_object(params))
		return LSP_INVALID_PARAMS;
	in_echo(result, params);
	if (class >= 0 && class < VOCAB_CLASSES && id >= 0 && id < 1000)
		document_item(&p, (int)class, (int)id,
		    m >= 0 && m < VOCAB_MEASUREMENT_COUNT ? (int)m : NONE);
	if (p.text.len > 0 && !in_get(params, "documentation")) {
		result->len--;
		json_name(result, "documentation");
		facts_put(result, &p);
		buffer_putc(result, '}');
	}
	buffer_free(&p.text);
	return LSP_OK;
}
