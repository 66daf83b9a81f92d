/*
 * What to say where a token does not fit: what it is, what may stand there,
 * and a hint for the classic slips.
 */
#include <string.h>

#include "parser.h"
#include "syntax/parse.h"
#include "vocab/vocab.h"

/*
 * What each kind of token is called. Kinds of one name are one thing to the
 * reader of a message. In the order in which they are listed.
 */
static const struct {
	int kind;
	const char *name;
} names[] = {
    {T_JOINT, "a joint"},
    {T_DIGIT, "a joint"},
    {T_GROUP, "a joint"},
    {T_PART, "a joint of the digit"},
    {T_MOTION, "a motion"},
    {T_MEASURE, "a motion"},
    {T_SIDE, "a side (R, L)"},
    {T_BOTH, "a side (R, L)"},
    {T_MODE, "a mode (A, P)"},
    {T_POSTURE, "a position"},
    {T_SETTING, "a position"},
    {T_NUMBER, "a value"},
    {T_RANGE, "a value"},
    {T_TRIPLE, "a value"},
    {T_HYPER, "a value"},
    {T_LACKS, "a value"},
    {T_FIXED, "a value"},
    {T_OUTCOME, "a value"},
    {T_LEVEL, "a value"},
    {T_UNIT, "a unit (deg, mm, cm)"},
    {T_LESS, "less"},
    {T_REPS, "reps"},
    {T_AT, "at"},
    {T_STEP, "step"},
    {T_MAX, "max"},
    {T_NO, "no"},
    {T_UNAVAILABLE, "unavailable"},
    {T_FROM, "from"},
    {T_UNTIL, "until"},
    {T_DATE, "a date (2026-05-04)"},
    {T_TIME, "a time (09:30)"},
    {T_CODE, "a code (letters, digits, . _ -)"},
    {T_NONE, "none"},
    {T_SEX, "F, M or X"},
    {T_INSTRUMENT, "an instrument"},
    {T_REQUIREMENT, "what is required"},
    {T_CAUSE, "what stopped it (pain, stiffness, weakness, guarding, "
	      "apprehension, swelling)"},
    {T_END_FEEL, "a word on the reading (end feel, pain ...)"},
    {T_PAIN, "a word on the reading (end feel, pain ...)"},
    {T_PAINFUL_ARC, "a word on the reading (end feel, pain ...)"},
    {T_STOPPED_BY, "a word on the reading (end feel, pain ...)"},
    {T_AFTER, "a word on the reading (end feel, pain ...)"},
    {T_SUBSTITUTION, "a word on the reading (end feel, pain ...)"},
    {T_WITH, "a word on the reading (end feel, pain ...)"},
    {T_BY, "by"},
    {T_TEXT, "a text in quotation marks"},
    {T_EOL, "the end of the line"},
};

enum { NAME_COUNT = sizeof(names) / sizeof(*names) };

/*
 * What the grammar lets stand but nobody would write there: a second joint, a
 * joint of the digit where none is named, the unit of an angle.
 */
static bool
is_of_use(const struct parse *ps, int kind)
{
	const struct head *head = &ps->reading.head;

	if (ps->tokens.header >= 0)
		return true;
	switch (kind) {
	case T_JOINT:
	case T_DIGIT:
		return !head->joint && !head->digit && !head->measure;
	case T_PART:
		return head->digit;
	case T_MOTION:
	case T_MEASURE:
		return !head->motion && !head->measure;
	case T_UNIT:
		return head->measure;
	case T_LESS:
	case T_BY:
		return false;
	default:
		return true;
	}
}

/* A number alone, or a range alone, is called so. */
static const char *
name_of(size_t i, const bool *may_stand)
{
	if (names[i].kind == T_NUMBER && !may_stand[T_RANGE])
		return "a number";
	if (names[i].kind == T_RANGE && !may_stand[T_NUMBER])
		return "a range (60-110)";
	return names[i].name;
}

/* Lists what may stand here, each name once, into OUT. */
static void
list_names(
    const struct parse *ps, const bool *may_stand, char *out, size_t size)
{
	const char *last = "";
	size_t n = 0;

	out[0] = '\0';
	for (size_t i = 0; i < NAME_COUNT; i++) {
		const char *name = name_of(i, may_stand);
		size_t len = strlen(name);

		if (!may_stand[names[i].kind] || strcmp(last, name) == 0 ||
		    !is_of_use(ps, names[i].kind))
			continue;
		if (n + len + 4 > size)
			return;
		if (n > 0) {
			memcpy(out + n, ", ", 3);
			n += 2;
		}
		memcpy(out + n, name, len + 1);
		n += len;
		last = name;
	}
}

/* Classes of words that may stand where the parser is, for a suggestion. */
static uint32_t
near_classes(
    const struct parse *ps, const struct token *t, const bool *may_stand)
{
	uint32_t classes = tokens_classes(ps->tokens.header);

	/* Behind sex, mode and their like no keyword ever follows. */
	if (ps->tokens.header >= 0 && t == ps->tokens.at + 1 &&
	    !may_stand[T_SIDE] && !may_stand[T_NONE])
		classes &= ~(UINT32_C(1) << VOCAB_CLASS_KEYWORD);

	if (t == ps->tokens.at)
		classes |= UINT32_C(1) << VOCAB_CLASS_HEADER;
	if (t > ps->tokens.at && t[-1].kind == T_STOPPED_BY)
		classes = UINT32_C(1) << VOCAB_CLASS_CAUSE;
	if (t > ps->tokens.at && t[-1].kind == T_WITH)
		classes = UINT32_C(1) << VOCAB_CLASS_INSTRUMENT;
	return classes;
}

#define CODE_HINT                                                              \
	"a code has no blanks, as KN-204; a name does not belong in a note"

/* `subject KN 204`: what stands behind the code of a person or rater. */
static bool
is_behind_code(const struct parse *ps, const struct token *t)
{
	return (ps->tokens.header == VOCAB_HEADER_SUBJECT ||
		   ps->tokens.header == VOCAB_HEADER_RATER) &&
	       t >= ps->tokens.at + 2;
}

/* Quotation marks of a word processor, which begin no text here. */
static bool
is_curly(const char *word, size_t len)
{
	static const char *const marks[] = {"\xe2\x80\x9c", "\xe2\x80\x9d",
	    "\xe2\x80\x9e", "\xe2\x80\x98", "\xe2\x80\x99", "\xc2\xab",
	    "\xc2\xbb"};

	for (size_t i = 0; i < sizeof(marks) / sizeof(*marks); i++)
		if (len >= strlen(marks[i]) &&
		    memcmp(word, marks[i], strlen(marks[i])) == 0)
			return true;
	return false;
}

/*
 * How many bytes of the word are signs that show nothing, as they come along
 * with text from elsewhere.
 */
static size_t
invisible_bytes(const char *word, size_t len)
{
	static const char *const signs[] = {"\xc2\xad", "\xe2\x80\x8b",
	    "\xe2\x80\x8c", "\xe2\x80\x8d", "\xe2\x80\x8e", "\xe2\x80\x8f",
	    "\xe2\x80\xa8", "\xe2\x80\xa9", "\xe2\x81\xa0", "\xef\xbb\xbf"};

	size_t bytes = 0;

	for (size_t at = 0; at < len; at++)
		for (size_t i = 0; i < sizeof(signs) / sizeof(*signs); i++)
			if (strncmp(word + at, signs[i], strlen(signs[i])) == 0)
				bytes += strlen(signs[i]);
	return bytes;
}

/* False where it holds none. */
static bool
invisible_sign(struct parse *ps, const struct token *t)
{
	size_t len = (size_t)(t->end - t->beg);
	size_t bytes = invisible_bytes(ps->text + t->beg, len);

	if (bytes == 0)
		return false;
	if (bytes == len)
		parse_fail(ps, t, RULE_UNKNOWN_WORD,
		    "a sign that cannot be seen stands here");
	else
		parse_fail(ps, t, RULE_UNKNOWN_WORD,
		    "a sign that cannot be seen stands in '%.*s'",
		    QUOTE(ps, t));
	parse_hint(ps, "delete it, and type the word anew");
	return true;
}

static void
unknown_word(struct parse *ps, const struct token *t, const bool *may_stand)
{
	const char *word = ps->text + t->beg, *near = NULL;
	size_t len = (size_t)(t->end - t->beg);
	char list[400];

	if (invisible_sign(ps, t))
		return;
	parse_fail(ps, t, RULE_UNKNOWN_WORD, "'%.*s' is not a known word",
	    QUOTE(ps, t));
	if (hint_of_header(ps, t))
		return;
	if (is_curly(word, len)) {
		parse_hint(ps, "write the plain quotation mark \" before and "
			       "behind a text");
		return;
	}
	near = vocab_nearest(word, len, near_classes(ps, t, may_stand));
	list_names(ps, may_stand, list, sizeof(list));
	if (near)
		parse_hint(ps, "did you mean '%s'?", near);
	else if (ps->tokens.header >= 0 && !may_stand[T_TEXT] &&
		 !is_behind_code(ps, t))
		parse_hint(ps, "here may stand %s", list);
	else if (is_behind_code(ps, t))
		parse_hint(ps, CODE_HINT);
	else if (ps->tokens.header < 0 && parse_in_head(ps, t))
		parse_hint(ps,
		    "'rangeline guide' lists what can be measured; a remark "
		    "goes behind # or between quotation marks");
	else
		parse_hint(
		    ps, "a remark goes behind # or between quotation marks");
}

static void
bad_date(struct parse *ps, const struct token *t)
{
	const char *saying =
	    t->kind == T_BAD && t->id == RULE_DATE_FORM
		? t->saying
		: "not a date or time as the notation writes it";

	parse_fail(ps, t, RULE_DATE_FORM, "'%.*s': %s", QUOTE(ps, t), saying);
	parse_hint(ps, "write year-month-day, as 2026-05-04, and a time as "
		       "09:30");
}

/* `-5`, and neither `-5-120` nor `-5x`. */
static bool
is_minus(const char *text, int len)
{
	if (len < 2 || *text != '-')
		return false;
	for (int i = 1; i < len; i++)
		if ((text[i] < '0' || text[i] > '9') && text[i] != '.')
			return false;
	return true;
}

/* What to do about a number that cannot stand where readings are. */
static void
hint_of_number(struct parse *ps, const struct token *t)
{
	const char *text = ps->text + t->beg;
	const char *near = NULL;

	if (hint_of_header(ps, t))
		return;
	if (t == ps->tokens.at && line_begins_unclear(ps))
		near = vocab_nearest(
		    text, (size_t)(t->end - t->beg), tokens_classes(NONE));
	if (near) {
		parse_hint(ps, "did you mean '%s'?", near);
	} else if (t == ps->tokens.at && line_begins_unclear(ps) && !t->stops) {
		parse_hint(ps,
		    "a line begins with its joint, its side or the word of a "
		    "header: take this out");
	} else if (is_minus(text, token_quote_len(t)) &&
		   reading_is_hinge_extension(ps)) {
		int len = token_quote_len(t) - 1;

		parse_hint(ps,
		    "write lacks %.*s (short of straight) or hyper %.*s "
		    "(beyond it)",
		    len, text + 1, len, text + 1);
	} else {
		parse_hint(ps,
		    "write start-end, as 8-131; lacks 8 for what stops short "
		    "of zero; one decimal at most, behind a point");
	}
}

/* What word a date needs before it here, or NULL. */
static const char *
word_before_date(const bool *may_stand)
{
	if (may_stand[T_UNTIL])
		return "from or until";
	return may_stand[T_BY] ? "by" : NULL;
}

static void
bad_number(struct parse *ps, const struct token *t, const bool *may_stand)
{
	const char *saying = t->kind == T_BAD ? t->saying : NULL;
	const char *word = word_before_date(may_stand);
	bool reading =
	    ps->tokens.header < 0 || ps->tokens.header == VOCAB_HEADER_GOAL;
	char list[400];

	if (!saying)
		saying = t->kind == T_DATE
			     ? "a date cannot stand here"
			     : "not a number as the notation writes it";
	parse_fail(ps, t, RULE_NUMBER_FORM, "'%.*s': %s", QUOTE(ps, t), saying);
	list_names(ps, may_stand, list, sizeof(list));
	if (t->kind == T_DATE && ps->tokens.header >= 0 && word)
		parse_hint(ps, "write %s before it, as %s %.*s", word,
		    may_stand[T_UNTIL] ? "until" : word, QUOTE(ps, t));
	else if (reading)
		hint_of_number(ps, t);
	else
		parse_hint(ps, "here may stand %s", list);
}

#define LIMIT_HINT "write max before the limit, as max 90"

/* A token that is wrong in itself, wherever it stands. */
static void
bad_token(struct parse *ps, const struct token *t, const bool *may_stand)
{
	switch (t->id) {
	case RULE_UNKNOWN_WORD:
		unknown_word(ps, t, may_stand);
		return;
	case RULE_OPEN_QUOTE:
		parse_fail(ps, t, RULE_OPEN_QUOTE,
		    "this text has no closing quotation mark");
		parse_hint(ps, "close it on the same line");
		return;
	case RULE_NUMBER_FORM:
	case RULE_DATE_FORM: /* where no date may stand */
		bad_number(ps, t, may_stand);
		return;
	case RULE_ENCODING:
		parse_fail(ps, t, RULE_ENCODING, "%s", t->saying);
		parse_hint(
		    ps, "save the file as UTF-8 and type the sign again");
		return;
	default:
		parse_fail(ps, t, RULE_SYNTAX, "'%.*s': %s", QUOTE(ps, t),
		    t->saying ? t->saying : "this sign means nothing here");
		if (!t->saying && may_stand[T_MAX])
			parse_hint(ps, LIMIT_HINT);
		else if (!t->saying)
			parse_hint(ps, "take this sign out; a remark goes "
				       "behind # or between quotation marks");
	}
}

/* Slips of a line of readings: what a word means that cannot stand there. */
static const struct {
	int kind;
	bool in_head; /* before the first value; else behind it */
	const char *hint;
} slips[] = {
    {T_EOL, true,
	"every line of readings needs a value: a joint alone is no heading "
	"for the lines below"},
    {T_AT, true,
	"a position that makes another measurement is one word, as "
	"abducted-90"},
    {T_OTHER, true,
	"a position that makes another measurement is one word, as "
	"abducted-90"},
    {T_GROUP, true, "this is a group: name the joint"},
    {T_TEXT, true,
	"a text stands behind the value that it is on; write joint and motion "
	"without quotation marks"},
    {T_JOINT, false, "begin a new line for another joint"},
    {T_DIGIT, false, "begin a new line for another joint"},
    {T_MOTION, false, "begin a new line for another motion"},
    {T_MEASURE, false, "begin a new line for another motion"},
    {T_POSTURE, false, "a position stands before the first value"},
    {T_SETTING, false, "a position stands before the first value"},
    {T_REQUIREMENT, false,
	"an end feel is one word behind the passive value: soft, firm, hard"},
};

static const char *
hint_of_slip(const struct parse *ps, const struct token *t)
{
	bool in_head = parse_in_head(ps, t);

	for (size_t i = 0; i < sizeof(slips) / sizeof(*slips); i++)
		if (slips[i].kind == t->kind && slips[i].in_head == in_head)
			return slips[i].hint;
	return NULL;
}

static void
misplaced(struct parse *ps, const struct token *t, const bool *may_stand)
{
	const char *hint = ps->tokens.header < 0 ? hint_of_slip(ps, t) : NULL;
	char list[400];

	list_names(ps, may_stand, list, sizeof(list));
	if (t->kind == T_EOL)
		parse_fail(ps, t, RULE_SYNTAX,
		    "the line ends too early: here may stand %s", list);
	else
		parse_fail(ps, t, RULE_SYNTAX,
		    "'%.*s' cannot stand here; here may stand %s", QUOTE(ps, t),
		    list);
	if (may_stand[T_CODE] && ps->tokens.header == VOCAB_HEADER_SUBJECT)
		parse_hint(
		    ps, "a person is a code, never a name: subject WR-0192");
	else if (t->kind == T_HEADER)
		parse_hint(ps, "a header begins a line of its own");
	else if (is_behind_code(ps, t))
		parse_hint(ps, CODE_HINT);
	else if (t->number && may_stand[T_MAX])
		parse_hint(ps, LIMIT_HINT);
	else if (t > ps->tokens.at && t[-1].kind == T_PAIN)
		parse_hint(ps, "write pain 4 (0 to 10) or pain at 90, or the "
			       "reason in quotation marks");
	else if (hint)
		parse_hint(ps, "%s", hint);
	else if (t->number && ps->tokens.header < 0 && may_stand[T_EOL])
		parse_hint(ps,
		    "trials come right behind the value, before any word on "
		    "it; a further reading begins with R, L, A or P");
}

void
parse_unexpected(struct parse *ps, const bool *may_stand)
{
	const struct token *t = &ps->tokens.at[ps->at - 1];
	bool date_may_stand = may_stand[T_DATE] || may_stand[T_TIME];

	ps->failed_by_parser = true;
	if (t->number && date_may_stand)
		bad_date(ps, t);
	else if (t->kind == T_BAD)
		bad_token(ps, t, may_stand);
	else if (t->kind == T_DATE || t->kind == T_TIME)
		bad_number(ps, t, may_stand);
	else
		misplaced(ps, t, may_stand);
}
