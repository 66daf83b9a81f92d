/*
 * What a damaged line was meant to be: which headers, and whether it named a
 * joint. A `session` line with a slip in it must not leave the old session
 * on: the readings below it would stand under another day, and behind
 * `subject` under another person.
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

/*
 * The blank behind the header word was lost: `session2026-05-04`. *LEN is cut
 * down to that word, which is no plural: see `remarksubject`.
 */
static int
header_glued(const char *word, size_t *len)
{
	for (size_t n = *len; n-- > 3;) {
		int header = header_of(word, n);

		if (header == NONE)
			continue;
		*len = strlen(vocab_name(VOCAB_CLASS_HEADER, header));
		return header;
	}
	return NONE;
}

static bool
is_letter(char c)
{
	return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
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

	for (p = word; p < end && in_first_word(*p) && !is_letter(*p); p++)
		;
	return p < end && in_first_word(*p) ? word : pass_signs(ps, p);
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
	size_t len = 0;
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
	header = header_of(word, len);
	if (header == NONE) {
		near = vocab_nearest(word, len,
		    UINT32_C(1) << VOCAB_CLASS_HEADER | tokens_classes(NONE));
		header = near ? header_of(near, strlen(near))
			      : header_glued(word, &len);
	}
	if (header != NONE)
		*behind = (size_t)(word - ps->text) + len;
	return header;
}

/* --- headers further on in the line --------------------------------------- */

/* The last byte of a blank that is one of several bytes counts as one. */
static bool
is_blank(char c)
{
	return c == ' ' || c == '\t' || c == ',' || c == '\xa0' || c == '\xaf';
}

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

/* Is there a digit in the word behind byte AT, blanks and a colon passed? */
static bool
is_before_digit(const struct parse *ps, size_t at)
{
	while (at < ps->len && (is_blank(ps->text[at]) || ps->text[at] == ':'))
		at++;
	for (; at < ps->len && !is_blank(ps->text[at]); at++)
		if (ps->text[at] >= '0' && ps->text[at] <= '9')
			return true;
	return false;
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

	/* A remark without its quotation marks is prose nevertheless. */
	if (ps->tokens.header == VOCAB_HEADER_REMARK &&
	    !is_before_digit(ps, end))
		return;
	for (size_t n = SHORTEST; n <= LONGEST && n <= end - beg; n++) {
		int header = header_of(ps->text + end - n, n);

		if (header == NONE)
			continue;
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
	for (gap = beg; gap < end && is_letter(*gap); gap++)
		;
	for (p = gap; p < end && (is_blank(*p) || *p == ';'); p++)
		;
	first = (size_t)(gap - beg);
	for (second = 0; p + second < end && is_letter(p[second]); second++)
		;
	if (first == 0 || second == 0 || gap == p ||
	    first + 1 + second > sizeof(joined))
		return;
	memcpy(joined, beg, first);
	joined[first] = '?'; /* may stand for a letter or for none */
	memcpy(joined + first + 1, p, second);
	near = vocab_nearest(joined, first + 1 + second,
	    UINT32_C(1) << VOCAB_CLASS_HEADER | tokens_classes(NONE));
	if (near)
		note_header(m, header_of(near, strlen(near)),
		    (size_t)(beg - ps->text), (size_t)(p - ps->text) + second);
}

/* `2.`, `2:`, `2.R`, `2.1.2`: the number of a line in a list. */
static bool
is_list_number(const char *text, size_t len)
{
	size_t i = 0, dots = 0;

	while (i < len &&
	       ((text[i] >= '0' && text[i] <= '9') ||
		   (text[i] == '.' && i + 1 < len && !is_letter(text[i + 1]))))
		dots += text[i++] == '.';
	if (i == len)
		return dots > 1;
	if (i + 1 == len)
		return strchr(".:/-", text[i]);
	return i + 1 < len && strchr(".:/", text[i]) && is_letter(text[i + 1]);
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
		if (is_letter(text[i]) || (text[i] >= '0' && text[i] <= '9'))
			return is_list_number(text, len);
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
	bool after_blank = false;

	*m = (struct headers_meant){0};
	if (date)
		note_header(m, VOCAB_HEADER_SESSION, date->beg, date->end);
	else if (behind == 0)
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
		} else if (is_letter(ps->text[beg])) {
			while (i < ps->len && is_letter(ps->text[i]))
				i++;
			note_letters(m, ps, beg, i);
		}
	}
}

/* A code alone, or what others call a person. */
static bool
names_person(const struct parse *ps, const struct token *t)
{
	static const char *const words[] = {"patient", "client", "person",
	    "participant", "case", "pt", "name", "id"};

	if (ps->tokens.header >= 0 || t != ps->tokens.at)
		return false;
	for (size_t i = 0; i < sizeof(words) / sizeof(*words); i++)
		if (token_is(ps, t, words[i]))
			return true;
	for (uint16_t i = t->beg; ps->tokens.len == 1 && i < t->end; i++)
		if (ps->text[i] >= '0' && ps->text[i] <= '9')
			return true;
	return false;
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

/* --- joints --------------------------------------------------------------- */

/* Is it the word of a joint or motion, or with PHRASES the first of several? */
static bool
may_be_joint(const char *word, size_t len, bool phrases)
{
	static const enum vocab_class classes[] = {VOCAB_CLASS_JOINT,
	    VOCAB_CLASS_DIGIT, VOCAB_CLASS_GROUP, VOCAB_CLASS_MEASURE,
	    VOCAB_CLASS_MOTION};
	struct vocab_match match = vocab_find(word, len);

	for (size_t i = 0; i < sizeof(classes) / sizeof(*classes); i++)
		if (vocab_match_class(match, classes[i]))
			return true;
	return phrases && match.phrase > 1;
}

/*
 * Is the run of letters a joint, or a known word with a joint glued to it
 * (`softknee`)? What is GLUED to a number may have any letters before the
 * joint (`0-1lknee`), and may begin a name of several words.
 */
static bool
holds_joint(const char *word, size_t len, bool glued)
{
	enum { SHORTEST = 3, LONGEST = 40 };

	if (len < SHORTEST || len > LONGEST)
		return false;
	if (may_be_joint(word, len, glued))
		return true;
	/* `along` is no mode and a joint. */
	for (size_t n = glued ? 1 : 2; n + SHORTEST <= len; n++)
		if ((glued || vocab_find(word, n).n > 0) &&
		    may_be_joint(word + n, len - n, true))
			return true;
	return false;
}

bool
joint_meant(const struct parse *ps, const struct token *t)
{
	const char *p = ps->text + t->beg, *end = ps->text + t->end;

	while (p < end) {
		const char *word = p++;

		if (!is_letter(*word))
			continue;
		while (p < end && (is_letter(*p) || *p == '-'))
			p++;
		if (holds_joint(word, (size_t)(p - word), t->number))
			return true;
	}
	return false;
}

enum { FIRST_YEAR = 19000 /* in tenths */ };

bool
line_begins_unclear(const struct parse *ps)
{
	const struct token *t = ps->tokens.at;
	const char *text = ps->text + t->beg;
	size_t len = (size_t)(t->end - t->beg);

	switch (t->kind) {
	case T_SIDE:
	case T_BOTH:
	case T_MODE:
	case T_PART:
	case T_POSTURE:
	case T_SETTING:
	case T_RANGE:
	case T_LACKS:
	case T_HYPER:
	case T_FIXED:
	case T_OUTCOME:
	/* What belongs to the value above names no joint either. */
	case T_END_FEEL:
	case T_PAIN:
	case T_PAINFUL_ARC:
	case T_STOPPED_BY:
	case T_AFTER:
	case T_SUBSTITUTION:
	case T_BY:
	case T_WITH:
	case T_SEMICOLON:
	/* Those that do name one are seen by themselves. */
	case T_JOINT:
	case T_DIGIT:
	case T_GROUP:
	case T_MOTION:
	case T_MEASURE:
		return false;
	case T_LEVEL:
		return ps->force != FORCE_NAMED ||
		       ps->named.measure != VOCAB_MEASURE_HAND_BEHIND_BACK;
	case T_TRIPLE: /* 5/12/2026 */
		return t->tenths[2] >= FIRST_YEAR;
	case T_NUMBER: /* `2) R`, `2 kneeR` */
		return t[1].kind == T_BAD;
	case T_BAD:
		/* `1ittle` has letters, and so stops the line */
		return t->id != RULE_NUMBER_FORM || t->stops ||
		       is_list_number(text, len);
	default: /* a text, a date, a word that belongs elsewhere */
		return true;
	}
}
