/*
 * One line: runs the parser over its tokens and decides what an error costs.
 * One bad reading costs only itself: reading goes on at the next reading that
 * leaves no doubt about its side and mode; where a word was not understood,
 * nothing behind it is read, since it may have named another joint.
 */
#include "syntax/line.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>
#include <strings.h>

#include "parser.h"
#include "syntax/header.h"
#include "syntax/parse.h"
#include "vocab/vocab.h"

enum { LONGEST_QUOTE = 40 };

int
token_quote_len(const struct token *t)
{
	int len = t->end - t->beg;

	return len > LONGEST_QUOTE ? LONGEST_QUOTE : len;
}

bool
token_is(const struct parse *ps, const struct token *t, const char *word)
{
	size_t len = (size_t)(t->end - t->beg);

	return strlen(word) == len &&
	       strncasecmp(ps->text + t->beg, word, len) == 0;
}

struct place
parse_place(const struct parse *ps, const struct token *t)
{
	return (struct place){
	    ps->line, t->beg, t->end, ps->text, (uint32_t)ps->len};
}

struct text_ref
parse_text_ref(const struct parse *ps, const struct token *t)
{
	return (struct text_ref){
	    ps->line_at + t->beg + 1u, (uint32_t)(t->end - t->beg - 2)};
}

bool
parse_fail(struct parse *ps, const struct token *t, enum rule rule,
    const char *format, ...)
{
	char message[640];
	struct place place = parse_place(ps, t);
	va_list args;

	if (ps->failed)
		return false;
	va_start(args, format);
	vsnprintf(message, sizeof(message), format, args);
	va_end(args);
	ps->failed =
	    sink_add(ps->sink, rule, &place, NO_READING, "%s", message);
	ps->failed_at = t;
	return false;
}

void
parse_hint(struct parse *ps, const char *format, ...)
{
	char hint[640];
	va_list args;

	if (!ps->failed || ps->failed->hint)
		return;
	va_start(args, format);
	vsnprintf(hint, sizeof(hint), format, args);
	va_end(args);
	sink_hint(ps->sink, ps->failed, "%s", hint);
}

const struct token *
parse_token(struct parse *ps)
{
	static const struct token resume = {.kind = T_RESUME, .id = NONE};

	if (ps->resume) {
		ps->resume = false;
		return &resume;
	}
	return &ps->tokens.at[ps->at < ps->tokens.len
				  ? ps->at++
				  : (ps->at = ps->tokens.len + 1) - 1];
}

bool
parse_is_whole(const struct parse *ps)
{
	return ps->at >= ps->tokens.len;
}

/* Words that may have meant another joint, motion or line altogether. */
static bool
is_of_joint(int kind)
{
	return kind == T_JOINT || kind == T_DIGIT || kind == T_GROUP ||
	       kind == T_MOTION || kind == T_MEASURE || kind == T_HEADER;
}

static bool
is_position(int kind)
{
	return kind == T_POSTURE || kind == T_SETTING;
}

/* A SIDE, MODE or joint of a digit: words that begin a further reading. */
static bool
is_switch(int kind)
{
	return kind == T_SIDE || kind == T_BOTH || kind == T_MODE ||
	       kind == T_PART;
}

/* Does this error leave the rest of the line in doubt? */
static bool
stops(const struct parse *ps)
{
	const struct token *t = ps->failed_at;

	if (t->kind == T_BAD)
		return t->stops;
	if (t->kind == T_EOL || ps->head_failed)
		return true;
	/* A second joint of the digit where one may stand is out of place. */
	if (t->kind == T_PART || t->kind == T_TEXT)
		return true;
	/* What follows a date may have been measured on that day. */
	if (t->kind == T_DATE)
		return true;
	return is_of_joint(t->kind) ||
	       (ps->failed->rule == RULE_SIDE_NOT_OF_MOTION && !t->number);
}

/* The reading that begins at token I, a switch word: is it beyond doubt? */
static bool
is_certain(const struct parse *ps, size_t i)
{
	const struct reading_line *l = &ps->reading;
	unsigned modes = l->modes;
	bool side = false, mode = false;

	for (; is_switch(ps->tokens.at[i].kind); i++) {
		const struct token *t = &ps->tokens.at[i];

		if (t->kind == T_SIDE || t->kind == T_BOTH)
			side = true;
		if (t->kind == T_MODE) {
			mode = true;
			modes |= 1u << t->id;
		}
	}
	if (modes & (modes - 1))
		return side && mode;
	return side && (mode || l->mode >= 0);
}

bool
parse_in_head(const struct parse *ps, const struct token *t)
{
	for (const struct token *v = ps->tokens.at; v < t; v++)
		if (v->number || v->kind == T_OUTCOME || v->kind == T_LEVEL)
			return false;
	return true;
}

/*
 * After an error before the first value: were all words that could name the
 * joint, the motion or a position read?
 */
static bool
head_is_known(const struct parse *ps)
{
	const struct token *t = ps->failed_at;

	if (!parse_in_head(ps, t))
		return true;
	/* `at 90` and `neutral` are a position in other words. */
	if (t->kind == T_AT || t->kind == T_OTHER || t->kind == T_TEXT)
		return false;
	for (; t->kind != T_EOL && !t->number; t++)
		if (is_of_joint(t->kind) || is_position(t->kind) ||
		    t->kind == T_PART || t->kind == T_SLASH ||
		    (t->kind == T_BAD && t->stops))
			return false;
	return true;
}

/* Moves to the next reading that is certain; false where there is none. */
static bool
find_resumption(struct parse *ps)
{
	size_t i = (size_t)(ps->failed_at - ps->tokens.at);
	/* Behind `by` a lone R is a code gone wrong, not a side. */
	bool side_itself =
	    ps->failed_by_parser &&
	    (ps->failed_at->kind == T_SIDE || ps->failed_at->kind == T_BOTH) &&
	    !(i > 0 && ps->tokens.at[i - 1].kind == T_BY);

	if (!side_itself)
		i++;
	while (i < ps->tokens.len) {
		const struct token *t = &ps->tokens.at[i];

		if (is_of_joint(t->kind) || (t->kind == T_BAD && t->stops))
			return false;
		if (!is_switch(t->kind)) {
			i++;
			continue;
		}
		if (is_certain(ps, i)) {
			ps->at = i;
			return true;
		}
		for (; is_switch(ps->tokens.at[i].kind); i++)
			reading_skip(ps, &ps->tokens.at[i]);
	}
	return false;
}

static int
parse_once(struct parse *ps)
{
	ps->failed = NULL;
	ps->failed_at = NULL;
	ps->failed_by_parser = false;
	return line_parse(ps);
}

/* Does the line try to name a joint: then it does not go on with another. */
static bool
names_joint(const struct parse *ps)
{
	if (line_begins_unclear(ps))
		return true;
	for (size_t i = 0; i < ps->tokens.len; i++) {
		const struct token *t = &ps->tokens.at[i];

		if ((is_of_joint(t->kind) && t->kind != T_MOTION) ||
		    (t->kind == T_BAD && t->id != RULE_NUMBER_FORM))
			return true;
		if (t->number || t->kind == T_LACKS || t->kind == T_HYPER ||
		    t->kind == T_FIXED || t->kind == T_OUTCOME)
			return false;
	}
	return false;
}

/* May it begin a person or session? Then its writer must be told of it. */
static bool
begins_another(const struct parse *ps)
{
	struct headers_meant meant;

	headers_meant(ps, 0, &meant);
	return meant.any;
}

/*
 * Does what was not read behind the last error name a joint or a motion?
 * Joints of a digit that stand there count as named.
 */
static bool
rest_names_joint(struct parse *ps)
{
	bool names = false;
	size_t i = ps->failed_by_parser
		       ? (size_t)(ps->failed_at - ps->tokens.at)
		       : ps->at - 1;

	for (; i < ps->tokens.len; i++) {
		const struct token *t = &ps->tokens.at[i];

		if (t->kind == T_BAD
			? joint_meant(ps, t)
			: is_of_joint(t->kind) && t->kind != T_HEADER)
			names = true;
		if (t->kind == T_PART && t->id != ps->reading.part)
			ps->reading.parts = true;
	}
	return names;
}

/*
 * What is in force for the lines below. An error before the first value
 * leaves words of the head unread; a joint or motion out of place may have
 * meant the rest of the line.
 */
static void
set_force(struct parse *ps, struct finding *first, const struct token *at)
{
	struct reading_line *l = &ps->reading;
	bool failed = first && (!l->head_read || ps->head_failed ||
				   is_of_joint(at->kind));

	if (ps->failed && rest_names_joint(ps))
		failed = true;
	if (failed) {
		ps->force = FORCE_FAILED;
		ps->cause = first;
	} else if (l->named_joint) {
		ps->force = FORCE_NAMED;
		ps->named = l->named;
		if (l->parts)
			ps->named.part = NONE;
		else if (l->named.digit != NONE && l->named.measure == NONE)
			ps->named.part = l->part;
		ps->cause = NULL;
	}
}

/* Was the whole line read? */
static bool
read_readings(struct parse *ps)
{
	struct finding *first = NULL;
	const struct token *first_at = NULL;
	int status;

	if (ps->force == FORCE_FAILED && !names_joint(ps) &&
	    !begins_another(ps)) {
		ps->session->lost = true;
		if (ps->cause)
			ps->cause->unread++;
		return false;
	}
	reading_line_begin(ps);
	ps->head_failed = false;
	ps->at = 0;
	ps->resume = false;
	status = parse_once(ps);
	while (status != 0) {
		ps->session->lost = true;
		reading_drop(ps);
		if (!first) {
			first = ps->failed;
			first_at = ps->failed_at;
		}
		if (is_of_joint(ps->failed_at->kind) || line_begins_unclear(ps))
			ps->head_failed = true;
		if (!ps->reading.head_read && !ps->head_failed &&
		    head_is_known(ps))
			reading_take_head(ps);
		if (stops(ps) || !ps->reading.head_read || !find_resumption(ps))
			break;
		ps->resume = true;
		status = parse_once(ps);
	}
	set_force(ps, first, first_at);
	return !first;
}

/* Is the word of a joint at home in this header? */
static bool
may_name_joint(int header)
{
	return header == VOCAB_HEADER_REMARK ||
	       header == VOCAB_HEADER_POSITION ||
	       tokens_classes(header) & UINT32_C(1) << VOCAB_CLASS_JOINT;
}

/* Was the whole line read? */
static bool
read_header(struct parse *ps)
{
	reading_line_begin(ps);
	header_line_begin(ps);
	ps->at = 0;
	ps->resume = false;
	ps->first_stays = false;
	ps->head_failed = false;
	if (parse_once(ps) == 0 || ps->first_stays)
		return true;
	header_unreadable(ps, ps->tokens.header);
	header_warn(ps, ps->tokens.header);
	if (!may_name_joint(ps->tokens.header) && rest_names_joint(ps)) {
		ps->force = FORCE_FAILED;
		ps->cause = ps->failed;
	}
	return false;
}

bool
line_read(struct parse *ps)
{
	if (ps->tokens.len == 0)
		return true;
	return ps->tokens.header >= 0 ? read_header(ps) : read_readings(ps);
}
