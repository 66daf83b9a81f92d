/*
 * What a value measures: its joint and motion, or both ends of an axis, and
 * the words of the findings where that cannot be told.
 */
#include <stdio.h>
#include <string.h>

#include "parser.h"
#include "syntax/parse.h"
#include "vocab/vocab.h"

/* Adds ", " and NAME to LIST where it has room. */
static void
add_name(char *list, size_t size, const char *name)
{
	size_t n = strlen(list);

	snprintf(list + n, size - n, "%s%s", n ? ", " : "", name);
}

/* Names the motions that JOINT has, for a message. */
static void
hint_motions(struct parse *ps, int joint)
{
	char list[400] = "";

	for (int i = 0; i < VOCAB_MEASUREMENT_COUNT; i++)
		if (vocab_measurements[i].joint == joint)
			add_name(list, sizeof(list),
			    vocab_measurements[i].motion_name);
	parse_hint(ps, "the %s has: %s", vocab_joints[joint].name, list);
}

/* The joint of this reading on a line of a digit. */
static bool
joint_of_digit(struct parse *ps, const struct token *value, int *joint)
{
	struct reading_line *l = &ps->reading;
	const char *digit = vocab_name(VOCAB_CLASS_DIGIT, l->named.digit);
	const struct token *part = l->now.part;

	if (part) {
		if (l->part != NONE && l->part != part->id)
			l->parts = true;
		l->part = part->id;
	} else if (l->parts || l->part == NONE) {
		parse_fail(ps, value, RULE_SYNTAX,
		    "this value does not say which joint of the %s it is of",
		    digit);
		parse_hint(ps, "write the joint before each value, or a line "
			       "for each mode");
		return false;
	}
	*joint = vocab_digit_joint(l->named.digit, l->part);
	if (*joint >= 0)
		return true;
	return parse_fail(ps,
	    part	   ? part
	    : l->head.part ? l->head.part
			   : value,
	    RULE_SYNTAX, "the %s has no %s joint", digit,
	    vocab_name(VOCAB_CLASS_DIGIT_JOINT, l->part));
}

/* The joint lacks the motion: names those it has, and one that has it. */
static bool
no_such_motion(struct parse *ps, const struct token *t, int joint, int motion)
{
	const char *name = vocab_name(VOCAB_CLASS_MOTION, motion);
	char list[400] = "";
	const char *other = NULL;
	int others = 0;

	for (int i = 0; i < VOCAB_MEASUREMENT_COUNT; i++) {
		const struct vocab_measurement *m = &vocab_measurements[i];

		if (m->joint == joint)
			add_name(list, sizeof(list), m->motion_name);
		if (m->motion == motion) {
			other = m->joint_name;
			others++;
		}
	}
	parse_fail(ps, t, RULE_MOTION_NOT_OF_JOINT, "the %s has no %s",
	    vocab_joints[joint].name, name);
	if (others == 1)
		parse_hint(ps, "the %s has: %s; %s is a motion of the %s",
		    vocab_joints[joint].name, list, name, other);
	else
		parse_hint(
		    ps, "the %s has: %s", vocab_joints[joint].name, list);
	return false;
}

bool
reading_measures(struct parse *ps, const struct token *value)
{
	struct reading_line *l = &ps->reading;
	const struct named *n = &l->named;
	const struct head *h = &l->head;
	int *m = l->now.measurement;
	int joint = n->joint;

	l->axis = AXIS_ONE;
	if (n->measure != NONE) {
		m[0] = vocab_named_measurement(n->measure, n->digit);
		return true;
	}
	if (n->digit != NONE && !joint_of_digit(ps, value, &joint))
		return false;
	if (n->motion == NONE) {
		if (!vocab_joints[joint].hinge) {
			parse_fail(ps, value, RULE_SYNTAX,
			    "this value does not say which motion of the %s "
			    "it is of",
			    vocab_joints[joint].name);
			hint_motions(ps, joint);
			return false;
		}
		l->axis = AXIS_HINGE;
		m[0] = vocab_measurement(joint, VOCAB_MOTION_EXTENSION);
		m[1] = vocab_measurement(joint, VOCAB_MOTION_FLEXION);
		return true;
	}
	m[0] = vocab_measurement(joint, n->motion);
	if (m[0] < 0)
		return no_such_motion(
		    ps, h->motion ? h->motion : value, joint, n->motion);
	if (n->motion2 == NONE)
		return true;
	l->axis = AXIS_BOTH;
	m[1] = vocab_measurement(joint, n->motion2);
	if (m[1] < 0)
		return no_such_motion(
		    ps, h->motion2 ? h->motion2 : value, joint, n->motion2);
	if (vocab_measurements[m[0]].opposite != m[1])
		return parse_fail(ps, h->motion2 ? h->motion2 : value,
		    RULE_SYNTAX, "%s and %s are not the two ends of one axis",
		    vocab_name(VOCAB_CLASS_MOTION, n->motion),
		    vocab_name(VOCAB_CLASS_MOTION, n->motion2));
	return true;
}

bool
reading_is_hinge_extension(const struct parse *ps)
{
	const struct head *h = &ps->reading.head;
	const struct token *part =
	    ps->reading.now.part ? ps->reading.now.part : h->part;
	struct named n = ps->named;

	if (h->joint || h->digit) {
		n = (struct named){.joint = h->joint ? h->joint->id : NONE,
		    .digit = h->digit ? h->digit->id : NONE,
		    .part = NONE,
		    .motion = h->motion ? h->motion->id : NONE};
	} else if (ps->force != FORCE_NAMED) {
		return false;
	}
	if (n.digit != NONE)
		n.joint = vocab_digit_joint(n.digit, part ? part->id : n.part);
	return n.motion == VOCAB_MOTION_EXTENSION && n.joint >= 0 &&
	       vocab_joints[n.joint].hinge;
}
