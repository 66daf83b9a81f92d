/*
 * Headers that name joints: the sides and joints of such a line, and of them
 * which are involved and which side cannot be measured.
 */
#include "parser.h"
#include "syntax/header.h"
#include "vocab/vocab.h"

/* Adds the joints named last, on the side they were named for. */
static bool
add_joints(struct parse *ps, const struct token *t, uint64_t joints)
{
	struct header_line *h = &ps->header;
	struct joint_set sided = {0, 0, 0};

	h->joints |= joints;
	h->any_joint = true;
	joint_set_add(&sided, joints, true, true);
	if (sided.right && !h->side_said &&
	    ps->tokens.header != VOCAB_HEADER_PRECAUTION) {
		parse_fail(ps, t, RULE_SIDE_NOT_OF_MOTION,
		    "'%.*s' does not say which side", QUOTE(ps, t));
		parse_hint(ps, "write right, left or both before it");
		return false;
	}
	/* Of the spine one direction alone is unavailable. */
	if (ps->tokens.header == VOCAB_HEADER_OPPOSITE) {
		h->set.right |= h->right ? joints : 0;
		h->set.left |= h->left ? joints : 0;
		return true;
	}
	joint_set_add(&h->set, joints, h->right || !h->side_said,
	    h->left || !h->side_said);
	return true;
}

void
header_close_side(struct header_line *h)
{
	if (!h->side_said || h->joints != 0)
		return;
	for (int j = 0; j < VOCAB_JOINT_COUNT; j++)
		if (!joint_is_midline(j))
			joint_set_add(
			    &h->set, UINT64_C(1) << j, h->right, h->left);
}

bool
header_side(struct parse *ps, const struct token *t)
{
	struct header_line *h = &ps->header;

	header_close_side(h);
	h->side_said = true;
	h->right = t->kind == T_BOTH || t->id == VOCAB_SIDE_RIGHT;
	h->left = t->kind == T_BOTH || t->id == VOCAB_SIDE_LEFT;
	h->joints = 0;
	return true;
}

/* JOINT, GROUP, DIGIT, or a joint of the digit before it. */
bool
header_joint(struct parse *ps, const struct token *t)
{
	struct header_line *h = &ps->header;
	const struct token *next = t + 1;
	int joint;

	if (t->kind == T_PART) {
		if (h->digit == NONE)
			return parse_fail(ps, t, RULE_SYNTAX,
			    "'%.*s' does not say of which finger or toe",
			    QUOTE(ps, t));
		joint = vocab_digit_joint(h->digit, t->id);
		if (joint < 0)
			return parse_fail(ps, t, RULE_SYNTAX,
			    "the %s has no %s joint",
			    vocab_name(VOCAB_CLASS_DIGIT, h->digit),
			    vocab_name(VOCAB_CLASS_DIGIT_JOINT, t->id));
		if (!add_joints(ps, t, UINT64_C(1) << joint))
			return false;
		if (next->kind != T_PART)
			h->digit = NONE;
		return true;
	}
	if (t->kind == T_DIGIT && next->kind == T_PART) {
		h->digit = t->id;
		return true;
	}
	if (t->kind == T_JOINT && next->kind == T_PART)
		h->digit = vocab_joints[t->id].digit;
	if (t->kind == T_DIGIT)
		return add_joints(ps, t, vocab_digit_joints(t->id));
	if (t->kind == T_GROUP)
		return add_joints(ps, t, vocab_group_joints[t->id]);
	return add_joints(ps, t, UINT64_C(1) << t->id);
}

static bool
involved_and_none(struct parse *ps, const struct token *t)
{
	ps->first_stays = true;
	parse_fail(ps, t, RULE_SYNTAX,
	    "'involved none' stands beside another 'involved'");
	parse_hint(ps, "keep the one that is true");
	return false;
}

bool
header_involved(struct parse *ps, const struct token *word)
{
	struct headers *h = header_scope(ps);
	const struct headers *person = &ps->session->person->headers;

	header_close_side(&ps->header);
	if ((h->involved.said == SAID && h->involved.value == 0) ||
	    (person->involved.said == SAID && person->involved.value == 0))
		return involved_and_none(ps, word + 1);
	if (h->involved.said == SAID_NOTHING)
		h->involved.said = SAID;
	h->involved.value = 1;
	h->involved.place = header_place(ps, h, word);
	h->involved_joints.right |= ps->header.set.right;
	h->involved_joints.left |= ps->header.set.left;
	h->involved_joints.middle |= ps->header.set.middle;
	return true;
}

bool
header_involved_none(struct parse *ps, const struct token *word)
{
	struct headers *h = header_scope(ps);
	const struct headers *person = &ps->session->person->headers;

	if ((h->involved.said == SAID && h->involved.value == 1) ||
	    (person->involved.said == SAID && person->involved.value == 1))
		return involved_and_none(ps, word + 1);
	h->involved.said = SAID;
	h->involved.value = 0;
	h->involved.place = header_place(ps, h, word);
	return true;
}

bool
header_opposite(
    struct parse *ps, const struct token *word, const struct token *reason)
{
	struct headers *h = header_scope(ps);
	struct opposite o;

	header_close_side(&ps->header);
	if (!ps->header.side_said)
		return parse_fail(ps, word + 1, RULE_SYNTAX,
		    "this line does not say which side cannot be measured");
	o = (struct opposite){ps->header.set, header_text(ps, h, reason),
	    header_place(ps, h, word), false};
	headers_add_opposite(h, &o);
	return true;
}
