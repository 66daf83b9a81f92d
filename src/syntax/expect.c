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

/* Lists what may stand here, each name once, into OUT. */
static void
list_names(const bool *may_stand, char *out, size_t size)
{
	const char *last = "";
	size_t n = 0;

	out[0] = '\0';
	for (size_t i = 0; i < NAME_COUNT; i++) {
		size_t len = strlen(names[i].name);

		if (!may_stand[names[i].kind] ||
		    strcmp(last, names[i].name) == 0)
			continue;
		if (n + len + 4 > size)
			return;
		if (n > 0) {
			memcpy(out + n, ", ", 3);
			n += 2;
		}
		memcpy(out + n, names[i].name, len + 1);
		n += len;
		last = names[i].name;
	}
}

/* Classes of words that may stand where the parser is, for a suggestion. */
static uint32_t
near_classes(const struct parse *ps, const struct token *t)
{
	uint32_t classes = tokens_classes(ps->tokens.header);

	if (t == ps->tokens.at)
		classes |= UINT32_C(1) << VOCAB_CLASS_HEADER;
	if (t > ps->tokens.at && t[-1].kind == T_STOPPED_BY)
		classes = UINT32_C(1) << VOCAB_CLASS_CAUSE;
	if (t > ps->tokens.at && t[-1].kind == T_WITH)
		classes = UINT32_C(1) << VOCAB_CLASS_INSTRUMENT;
	return classes;
}

static void
unknown_word(struct parse *ps, const struct token *t)
{
	const char *near = vocab_nearest(
	    ps->text + t->beg, (size_t)(t->end - t->beg), near_classes(ps, t));

	parse_fail(ps, t, RULE_UNKNOWN_WORD, "'%.*s' is not a known word",
	    QUOTE(ps, t));
	if (near)
		parse_hint(ps, "did you mean '%s'?", near);
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

static void
bad_number(struct parse *ps, const struct token *t)
{
	const char *saying = t->kind == T_BAD ? t->saying : NULL;

	parse_fail(ps, t, RULE_NUMBER_FORM, "'%.*s': %s", QUOTE(ps, t),
	    saying ? saying : "not a number as the notation writes it");
	parse_hint(ps,
	    "write start-end, as 8-131; lacks 8 for what stops short of "
	    "zero; one decimal at most, behind a point");
}

/* A token that is wrong in itself, wherever it stands. */
static void
bad_token(struct parse *ps, const struct token *t)
{
	switch (t->id) {
	case RULE_UNKNOWN_WORD:
		unknown_word(ps, t);
		return;
	case RULE_OPEN_QUOTE:
		parse_fail(ps, t, RULE_OPEN_QUOTE,
		    "this text has no closing quotation mark");
		parse_hint(ps, "close it on the same line");
		return;
	case RULE_NUMBER_FORM:
	case RULE_DATE_FORM:
		bad_number(ps, t);
		return;
	case RULE_ENCODING:
		parse_fail(ps, t, RULE_ENCODING, "%s", t->saying);
		parse_hint(
		    ps, "save the file as UTF-8 and type the sign again");
		return;
	default:
		parse_fail(ps, t, RULE_SYNTAX, "'%.*s': %s", QUOTE(ps, t),
		    t->saying ? t->saying : "this sign means nothing here");
	}
}

static void
misplaced(struct parse *ps, const struct token *t, const bool *may_stand)
{
	char list[400];

	list_names(may_stand, list, sizeof(list));
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
	else if (t->number && ps->tokens.header < 0)
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
		bad_token(ps, t);
	else if (t->kind == T_DATE || t->kind == T_TIME)
		bad_number(ps, t);
	else
		misplaced(ps, t, may_stand);
}
