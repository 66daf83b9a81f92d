/*
 * The head of a line of readings: the words of joint, motion, side, mode and
 * position as the parser meets them, and what they name together, alone or by
 * going on with the line above.
 */
#include "parser.h"
#include "syntax/parse.h"
#include "vocab/vocab.h"

/* Two words of one kind where one may stand. */
static bool
twice(struct parse *ps, const struct token *t, const struct token *before,
    const char *what)
{
	parse_fail(ps, t, RULE_SYNTAX,
	    "'%.*s' is a second %s: '%.*s' stands before it", QUOTE(ps, t),
	    what, QUOTE(ps, before));
	return false;
}

bool
reading_joint(struct parse *ps, const struct token *t)
{
	struct head *h = &ps->reading.head;

	if (h->joint || h->digit) {
		twice(ps, t, h->joint ? h->joint : h->digit, "joint");
		parse_hint(ps, "begin a new line for each joint");
		return false;
	}
	h->joint = t;
	return true;
}

bool
reading_digit(struct parse *ps, const struct token *t)
{
	struct head *h = &ps->reading.head;

	if (h->joint || h->digit) {
		twice(ps, t, h->joint ? h->joint : h->digit, "joint");
		parse_hint(ps, "begin a new line for each finger or toe");
		return false;
	}
	h->digit = t;
	return true;
}

bool
reading_part(struct parse *ps, const struct token *t)
{
	struct reading_line *l = &ps->reading;

	if (!l->head_read) {
		if (l->head.part)
			return twice(ps, t, l->head.part, "joint");
		l->head.part = t;
		return true;
	}
	if (l->named.digit == NONE || l->named.measure != NONE)
		return parse_fail(ps, t, RULE_SYNTAX,
		    "'%.*s' is a joint of a finger or toe, and this line is "
		    "not of one",
		    QUOTE(ps, t));
	if (l->now.part)
		return twice(ps, t, l->now.part, "joint");
	if (!l->now.first)
		l->now.first = t;
	l->now.part = t;
	return true;
}

bool
reading_motion(struct parse *ps, const struct token *t)
{
	struct head *h = &ps->reading.head;

	if (h->motion)
		return twice(ps, t, h->motion, "motion");
	if (h->measure)
		return twice(ps, t, h->measure, "motion");
	h->motion = t;
	return true;
}

bool
reading_second_motion(
    struct parse *ps, const struct token *slash, const struct token *t)
{
	struct head *h = &ps->reading.head;

	if (!h->motion || h->motion != slash - 1 || h->motion2)
		return parse_fail(ps, slash, RULE_SYNTAX,
		    "'/' stands between the two motions of one axis alone");
	h->motion2 = t;
	return true;
}

bool
reading_measure(struct parse *ps, const struct token *t)
{
	struct head *h = &ps->reading.head;

	if (h->measure)
		return twice(ps, t, h->measure, "measure");
	if (h->motion)
		return twice(ps, t, h->motion, "motion");
	h->measure = t;
	return true;
}

/* The SIDE or MODE of the head, or of the reading at hand behind it. */
static bool
take_switch(struct parse *ps, const struct token *t, const struct token **slot,
    const char *what)
{
	struct reading_line *l = &ps->reading;

	if (*slot) {
		twice(ps, t, *slot, what);
		parse_hint(ps,
		    "a value is missing between them, or one of the two is "
		    "wrong");
		return false;
	}
	*slot = t;
	if (l->head_read && !l->now.first)
		l->now.first = t;
	return true;
}

bool
reading_side(struct parse *ps, const struct token *t)
{
	struct reading_line *l = &ps->reading;

	return take_switch(
	    ps, t, l->head_read ? &l->now.side : &l->head.side, "side");
}

bool
reading_mode(struct parse *ps, const struct token *t)
{
	struct reading_line *l = &ps->reading;

	return take_switch(
	    ps, t, l->head_read ? &l->now.mode : &l->head.mode, "mode");
}

bool
reading_position(struct parse *ps, const struct token *t)
{
	return positions_add(ps, &ps->reading.head.positions, t);
}

int
reading_side_id(const struct token *t)
{
	return t->kind == T_BOTH ? SIDE_BOTH : t->id;
}

/* A measure stands for joint and motion; a joint beside it must be its own. */
static bool
resolve_measure(struct parse *ps, struct named *n)
{
	const struct head *h = &ps->reading.head;
	int measure = h->measure->id;
	int digit = h->digit ? h->digit->id : NONE;
	int m = vocab_named_measurement(measure, digit);

	if (m < 0) {
		parse_fail(ps, h->measure, RULE_SYNTAX,
		    "'%.*s' does not say of which finger",
		    QUOTE(ps, h->measure));
		parse_hint(ps,
		    "name the finger before it: index, middle, ring or "
		    "little");
		return false;
	}
	if ((h->digit && vocab_measurements[m].digit != digit) ||
	    (h->joint && vocab_measurements[m].joint != h->joint->id) ||
	    h->part)
		return parse_fail(ps, h->measure, RULE_MOTION_NOT_OF_JOINT,
		    "'%.*s' is a measure of the %s", QUOTE(ps, h->measure),
		    vocab_measurements[m].joint_name);
	n->measure = measure;
	n->digit = vocab_measurements[m].digit;
	n->joint = vocab_measurements[m].joint;
	return true;
}

/* The joint that the head names. */
static void
resolve_joint(const struct head *h, struct named *n)
{
	if (h->digit) {
		n->digit = h->digit->id;
	} else {
		n->joint = h->joint->id;
		n->digit = vocab_joints[n->joint].digit;
		n->part = vocab_joints[n->joint].part;
	}
	if (h->part)
		n->part = h->part->id;
	n->motion = h->motion ? h->motion->id : NONE;
	n->motion2 = h->motion2 ? h->motion2->id : NONE;
}

/* A line without a joint goes on with the one in force. */
static bool
resolve_continuation(struct parse *ps, struct named *n)
{
	const struct head *h = &ps->reading.head;
	const struct token *first = &ps->tokens.at[0];

	if (ps->force != FORCE_NAMED) {
		parse_fail(ps, first, RULE_SYNTAX,
		    "no joint is named here, and none above it in this "
		    "session");
		parse_hint(ps, "begin the line with its joint and motion");
		return false;
	}
	if (h->motion) {
		parse_fail(ps, h->motion, RULE_SYNTAX,
		    "'%.*s' stands without its joint", QUOTE(ps, h->motion));
		parse_hint(ps, "name the joint on this line too");
		return false;
	}
	*n = ps->named;
	if (h->part && n->measure != NONE)
		return parse_fail(ps, h->part, RULE_SYNTAX,
		    "'%.*s' stands without its finger or toe",
		    QUOTE(ps, h->part));
	if (h->part)
		n->part = h->part->id;
	return true;
}

static bool
resolve_head(struct parse *ps)
{
	struct reading_line *l = &ps->reading;
	const struct head *h = &l->head;
	struct named *n = &l->named;
	bool read = true;

	l->named_joint = h->joint || h->digit || h->measure;
	if (h->joint && h->part)
		read = parse_fail(ps, h->part, RULE_SYNTAX,
		    "'%.*s' is a second joint", QUOTE(ps, h->part));
	else if (h->measure)
		read = resolve_measure(ps, n);
	else if (h->joint || h->digit)
		resolve_joint(h, n);
	else
		read = resolve_continuation(ps, n);
	if (!read) {
		ps->head_failed = true;
		return false;
	}
	if (l->named_joint)
		n->positions = h->positions;
	else
		positions_change(&n->positions, &h->positions);
	l->part = n->part;
	if (h->side)
		l->side = reading_side_id(h->side);
	if (h->mode)
		l->mode = h->mode->id;
	if (l->mode >= 0)
		l->modes |= 1u << l->mode;
	l->head_read = true;
	return true;
}

bool
reading_take_head(struct parse *ps)
{
	return ps->reading.head_read || resolve_head(ps);
}
