/*
 * Whether a line that could not be read named a joint: then the lines below it
 * continue that one, never the joint above.
 */
#include <string.h>

#include "parser.h"
#include "syntax/parse.h"
#include "text/ascii.h"
#include "vocab/vocab.h"

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

		if (!ascii_is_letter(*word))
			continue;
		while (p < end && (ascii_is_letter(*p) || *p == '-'))
			p++;
		if (holds_joint(word, (size_t)(p - word), t->number))
			return true;
	}
	return false;
}

bool
number_of_list(const char *text, size_t len)
{
	size_t i = 0, dots = 0;

	while (i < len &&
	       (ascii_is_digit(text[i]) || (text[i] == '.' && i + 1 < len &&
					       !ascii_is_letter(text[i + 1]))))
		dots += text[i++] == '.';
	if (i == len)
		return dots > 1;
	if (i + 1 == len)
		return strchr(".:/-", text[i]);
	return i + 1 < len && strchr(".:/", text[i]) &&
	       ascii_is_letter(text[i + 1]);
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
		       number_of_list(text, len);
	default: /* a text, a date, a word that belongs elsewhere */
		return true;
	}
}
