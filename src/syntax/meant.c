/*
 * Which headers a damaged line was meant to be. A `session` line with a slip
 * in it must not leave the old session on: the readings below it would stand
 * under another day, and behind `subject` under another person.
 */
#include <string.h>

#include "parser.h"
#include "syntax/parse.h"
#include "text/ascii.h"
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
	return ascii_is_letter(c) || ascii_is_digit(c) || (c & 0x80);
}

static int
header_of(const char *word, size_t len)
{
	const struct vocab_row *row =
	    vocab_match_class(vocab_find(word, len), VOCAB_CLASS_HEADER);

	return row ? row->id : NONE;
}

/*
 * The blank behind the header word was lost: `session2026-05-04`. *LEN is cut
 * down to that word. What is glued to it has a digit, unlike `Subjective`, or
 * is a header too: `remarksubject`.
 */
static int
header_glued(const char *word, size_t *len)
{
	bool digit = false;

	for (size_t n = *len; n-- > 3;) {
		int header = header_of(word, n);

		digit |= ascii_is_digit(word[n]);
		if (header == NONE ||
		    (!digit && header_of(word + n, *len - n) == NONE))
			continue;
		*len = strlen(vocab_name(VOCAB_CLASS_HEADER, header));
		return header;
	}
	return NONE;
}

/* Where the comment begins, or the line ends. */
static const char *
words_end(const struct parse *ps)
{
	const struct tokens *tokens = &ps->tokens;

	return ps->text + (tokens->comment_beg < tokens->comment_end
				  ? tokens->comment_beg
				  : ps->len);
}

/* Passes signs that begin no word at P; what is in a text is no word. */
static const char *
pass_signs(const struct parse *ps, const char *p)
{
	const char *end = words_end(ps);

	while (p < end && !begins_word(*p)) {
		if (*p == '"' && p > ps->text + ps->tokens.at[0].beg)
			return end;
		p++;
	}
	return p;
}

/* The word that the line may begin with, behind a bullet or `2.` of a list. */
static const char *
first_word(const struct parse *ps)
{
	const char *end = words_end(ps), *word = pass_signs(ps, ps->text), *p;

	for (p = word; p < end && in_first_word(*p) && !ascii_is_letter(*p);
	     p++)
		;
	return p < end && in_first_word(*p) ? word : pass_signs(ps, p);
}

/* The last byte of a blank that is one of several bytes counts as one. */
static bool
is_blank(char c)
{
	return c == ' ' || c == '\t' || c == ',' || c == '\xa0' || c == '\xaf';
}

/* A word of the line, bytes BEG .. END; empty where there is none. */
struct word {
	size_t beg, end;
};

static struct word
word_behind(const struct parse *ps, size_t at)
{
	struct word word;

	while (at < ps->len && (is_blank(ps->text[at]) || ps->text[at] == ':'))
		at++;
	for (word.beg = at; at < ps->len && !is_blank(ps->text[at]); at++)
		;
	word.end = at;
	return word;
}

static struct word
word_before(const struct parse *ps, size_t at)
{
	struct word word;

	while (at > 0 && is_blank(ps->text[at - 1]))
		at--;
	word.end = at;
	while (at > 0 && !is_blank(ps->text[at - 1]))
		at--;
	word.beg = at;
	return word;
}

static bool
has_digit(const struct parse *ps, struct word word)
{
	for (size_t i = word.beg; i < word.end; i++)
		if (ascii_is_digit(ps->text[i]))
			return true;
	return false;
}

/* A digit and two signs between others, as in 2026-05-04 or 4.5.26. */
static bool
may_be_date(const struct parse *ps, struct word word)
{
	int signs = 0;

	for (size_t i = word.beg; i < word.end; i++)
		signs += strchr("-./", ps->text[i]) != NULL;
	return signs >= 2 && ascii_is_digit(ps->text[word.beg]);
}

/* Not `tired`: a code has a digit in it, or no small letter. */
static bool
may_be_code(const struct parse *ps, struct word word)
{
	bool small = false;

	for (size_t i = word.beg; i < word.end; i++) {
		char c = ps->text[i];

		if (!tokens_in_code(c))
			return false;
		small |= c >= 'a' && c <= 'z';
	}
	return word.beg < word.end && (!small || has_digit(ps, word));
}

/* Does nothing follow byte AT, but perhaps a text or a comment? */
static bool
is_last(const struct parse *ps, size_t at)
{
	while (at < ps->len && is_blank(ps->text[at]))
		at++;
	return at >= ps->len || ps->text[at] == '"' || ps->text[at] == '#';
}

/*
 * Prose speaks of sessions and subjects too. But a session has a date beside
 * it, and a person a code, whichever is first, and nothing more. The word is
 * bytes BEG .. END.
 */
static bool
has_its_value(const struct parse *ps, int header, size_t beg, size_t end)
{
	struct word behind = word_behind(ps, end),
		    before = word_before(ps, beg);

	switch (header) {
	case VOCAB_HEADER_SESSION:
		return may_be_date(ps, behind) || may_be_date(ps, before);
	case VOCAB_HEADER_SUBJECT:
		return (may_be_code(ps, behind) && is_last(ps, behind.end)) ||
		       (has_digit(ps, before) && is_last(ps, end));
	default:
		return true;
	}
}

/* Is T, the first token, no word, or the number of a list: `2)`? */
static bool
may_be_damaged(const struct token *t)
{
	if (t->kind == T_NUMBER)
		return t[1].kind == T_BAD && t[1].beg == t->end;
	return t->kind == T_BAD || t->kind == T_SEMICOLON || t->kind == T_SLASH;
}

int
header_meant(const struct parse *ps, size_t *behind)
{
	const struct token *t = ps->tokens.at;
	const char *word, *end = words_end(ps), *near;
	size_t len = 0, beg;
	int header;

	*behind = 0;
	if (ps->tokens.header >= 0) {
		*behind = t->end;
		return ps->tokens.header;
	}
	if (ps->tokens.len == 0 || !may_be_damaged(t))
		return NONE;
	word = first_word(ps);
	while (word + len < end && in_first_word(word[len]))
		len++;
	while (len > 0 && word[len - 1] == ':')
		len--;
	beg = (size_t)(word - ps->text);
	header = header_of(word, len);
	if (header == NONE) {
		near = vocab_nearest(word, len,
		    UINT32_C(1) << VOCAB_CLASS_HEADER | tokens_classes(NONE));
		if (!near) /* which takes no word as short as `pt` */
			near = vocab_everyday(word, len);
		header = near ? header_of(near, strlen(near)) : NONE;
		/* `patient B-2` begins a person, `patient was tired` none. */
		if (!near || !has_its_value(ps, header, beg, beg + len))
			header = header_glued(word, &len);
	}
	if (header != NONE)
		*behind = beg + len;
	return header;
}

/* --- headers further on in the line --------------------------------------- */

/* Notes that bytes BEG .. END of the line were meant to be HEADER. */
static void
note_header(struct headers_meant *m, int header, size_t beg, size_t end)
{
	if (header != VOCAB_HEADER_SUBJECT && header != VOCAB_HEADER_SESSION &&
	    header != VOCAB_HEADER_PRECAUTION)
		return;
	if (!m->any)
		m->beg = beg;
	m->any = true;
	m->precaution |= header == VOCAB_HEADER_PRECAUTION;
	if (header == VOCAB_HEADER_PRECAUTION)
		return;
	/* A person behind a session ends it. */
	m->subject |= header == VOCAB_HEADER_SUBJECT;
	m->session = header == VOCAB_HEADER_SESSION;
	if (m->session) {
		m->session_beg = beg;
		m->session_end = end;
	}
}

/*
 * A run of letters, bytes BEG .. END: the end of a word or number may have
 * been glued to it, where a last line without its end met another file.
 */
static void
note_letters(
    struct headers_meant *m, const struct parse *ps, size_t beg, size_t end)
{
	enum { SHORTEST = 7, LONGEST = 11 }; /* session, precautions */

	for (size_t n = SHORTEST; n <= LONGEST && n <= end - beg; n++) {
		int header = header_of(ps->text + end - n, n);

		if (header == NONE)
			continue;
		/* A remark without its quotation marks is prose. */
		if (has_its_value(ps, header, end - n, end) &&
		    (ps->tokens.header != VOCAB_HEADER_REMARK ||
			n < end - beg || header != VOCAB_HEADER_PRECAUTION))
			note_header(m, header, end - n, end);
		return;
	}
}

/*
 * The letters of one word with a blank or comma put between them, or in the
 * place of one: `s ubject`, `su,ject`.
 */
static void
note_parted(struct headers_meant *m, const struct parse *ps)
{
	const char *end = words_end(ps), *beg = ps->text, *gap, *p;
	char joined[16];
	size_t first, second;
	const char *near;

	while (beg < end && is_blank(*beg))
		beg++;
	for (gap = beg; gap < end && ascii_is_letter(*gap); gap++)
		;
	for (p = gap; p < end && (is_blank(*p) || *p == ';'); p++)
		;
	first = (size_t)(gap - beg);
	for (second = 0; p + second < end && ascii_is_letter(p[second]);
	     second++)
		;
	if (first == 0 || second == 0 || gap == p ||
	    first + 1 + second > sizeof(joined))
		return;
	memcpy(joined, beg, first);
	joined[first] = '?'; /* may stand for a letter or for none */
	memcpy(joined + first + 1, p, second);
	near = vocab_nearest(joined, first + 1 + second,
	    UINT32_C(1) << VOCAB_CLASS_HEADER | tokens_classes(NONE));
	if (near &&
	    has_its_value(ps, header_of(near, strlen(near)),
		(size_t)(beg - ps->text), (size_t)(p - ps->text) + second))
		note_header(m, header_of(near, strlen(near)),
		    (size_t)(beg - ps->text), (size_t)(p - ps->text) + second);
}

/* What may stand before or behind the date of a session without its word. */
static bool
is_trimming(const struct parse *ps, const struct token *t)
{
	static const char *const words[] = {"date", "visit"};
	const char *text = ps->text + t->beg;
	size_t len = (size_t)(t->end - t->beg);

	if (t->kind != T_BAD)
		return t->kind == T_NUMBER;
	for (size_t i = 0; i < sizeof(words) / sizeof(*words); i++)
		if (token_is(ps, t, words[i]))
			return true;
	for (size_t i = 0; i < len; i++)
		if (ascii_is_letter(text[i]) || ascii_is_digit(text[i]))
			return number_of_list(text, len);
	return t->id != RULE_OPEN_QUOTE;
}

static bool
is_date(const struct token *t)
{
	return t->kind == T_DATE ||
	       (t->kind == T_BAD && t->id == RULE_DATE_FORM &&
		   t->beg + 10 == t->end);
}

const struct token *
session_date_meant(const struct parse *ps)
{
	const struct token *t = ps->tokens.at, *date;

	if (ps->tokens.header >= 0)
		return NULL;
	while (is_trimming(ps, t))
		t++;
	if (!is_date(t))
		return NULL;
	date = t++;
	t += t->kind == T_TIME;
	t += t->kind == T_TEXT;
	while (t->kind == T_BAD && is_trimming(ps, t))
		t++;
	return t->kind == T_EOL ? date : NULL;
}

void
headers_meant(const struct parse *ps, size_t behind, struct headers_meant *m)
{
	const struct token *date = session_date_meant(ps);
	size_t i = behind;
	bool after_blank = true;

	*m = (struct headers_meant){0};
	if (date)
		note_header(m, VOCAB_HEADER_SESSION, date->beg, date->end);
	else if (ps->tokens.header < 0)
		note_parted(m, ps);
	while (i < ps->len && !(ps->text[i] == '#' && after_blank)) {
		size_t beg = i++;
		const char *closing;

		after_blank = is_blank(ps->text[beg]);
		if (ps->text[beg] == '"') {
			closing = memchr(ps->text + i, '"', ps->len - i);
			if (!closing)
				return;
			i = (size_t)(closing - ps->text) + 1;
		} else if (ascii_is_letter(ps->text[beg])) {
			while (i < ps->len && ascii_is_letter(ps->text[i]))
				i++;
			note_letters(m, ps, beg, i);
		}
	}
}

/* A code alone, or what others call a person. */
static bool
names_person(const struct parse *ps, const struct token *t)
{
	const char *meant =
	    vocab_everyday(ps->text + t->beg, (size_t)(t->end - t->beg));

	if (ps->tokens.header >= 0 || t != ps->tokens.at)
		return false;
	if (meant && strcmp(meant, "subject") == 0)
		return true;
	return ps->tokens.len == 1 &&
	       has_digit(ps, (struct word){t->beg, t->end});
}

bool
hint_of_header(struct parse *ps, const struct token *t)
{
	const struct token *date = session_date_meant(ps);

	if (t != ps->tokens.at)
		return false;
	if (date && date->kind == T_DATE)
		parse_hint(ps, "a session begins with its word: session %.*s",
		    QUOTE(ps, date));
	else if (date || t->kind == T_DATE)
		parse_hint(ps,
		    "a session begins with its word, and holds for the lines "
		    "below: session 2026-05-04");
	else if (t->kind == T_BAD && t->id == RULE_UNKNOWN_WORD &&
		 names_person(ps, t))
		parse_hint(ps,
		    "a person begins with subject and a code, never a name: "
		    "subject WR-0192");
	else
		return false;
	return true;
}
