/*
 * Precautions: the motion and mode that one names, its limit or what it
 * forbids, and its days.
 */
#include "parser.h"
#include "syntax/header.h"
#include "text/mem.h"
#include "vocab/vocab.h"

bool
header_motion(struct parse *ps, const struct token *t)
{
	struct header_line *h = &ps->header;

	if (h->motion || h->measure)
		return parse_fail(ps, t, RULE_SYNTAX,
		    "'%.*s' is a second motion", QUOTE(ps, t));
	if (t->kind == T_MEASURE)
		h->measure = t;
	else
		h->motion = t;
	return true;
}

bool
header_of_mode(struct parse *ps, const struct token *t)
{
	if (ps->header.mode)
		return parse_fail(ps, t, RULE_SYNTAX, "'%.*s' is a second mode",
		    QUOTE(ps, t));
	ps->header.mode = t;
	return true;
}

/* Joints of a precaution as bits, whatever their side. */
static uint64_t
joints_of(const struct joint_set *set)
{
	return set->right | set->left | set->middle;
}

/*
 * The motion of a precaution must be one of some of its joints, else it
 * would watch over nothing. Without a motion a limit is one of flexion.
 */
static bool
check_motion(struct parse *ps, const struct token *word, bool limit)
{
	struct header_line *h = &ps->header;
	uint64_t joints;
	int motion = h->motion ? h->motion->id : NONE;

	header_close_side(h);
	joints = joints_of(&h->set);
	if (!h->any_joint) {
		parse_fail(ps, word, RULE_SYNTAX,
		    "this precaution does not say of which joint it is");
		parse_hint(ps, "name the joint or the group before '%.*s'",
		    QUOTE(ps, word));
		return false;
	}
	if (limit && motion == NONE) {
		for (int j = 0; j < VOCAB_JOINT_COUNT; j++)
			if (joints >> j & 1 && !vocab_joints[j].hinge) {
				parse_fail(ps, word, RULE_SYNTAX,
				    "this limit does not say of which motion "
				    "of the %s",
				    vocab_joints[j].name);
				parse_hint(ps, "name the motion before 'max'");
				return false;
			}
		motion = VOCAB_MOTION_FLEXION;
	}
	h->precaution.motion = (int16_t)motion;
	if (motion == NONE)
		return true;
	for (int j = 0; j < VOCAB_JOINT_COUNT; j++)
		if (joints >> j & 1 && vocab_measurement(j, motion) >= 0)
			return true;
	return parse_fail(ps, h->motion ? h->motion : word,
	    RULE_MOTION_NOT_OF_JOINT, "no joint of this line has %s",
	    vocab_name(VOCAB_CLASS_MOTION, motion));
}

/* Which way a limit is measured: by the first joint that has the motion. */
static const struct vocab_measurement *
limited(const struct header_line *h)
{
	uint64_t joints = joints_of(&h->set);

	for (int j = 0; j < VOCAB_JOINT_COUNT; j++) {
		int m = joints >> j & 1
			    ? vocab_measurement(j, h->precaution.motion)
			    : NONE;

		if (m >= 0)
			return &vocab_measurements[m];
	}
	return NULL;
}

bool
header_limit(struct parse *ps, const struct token *word,
    const struct token *number, const struct token *unit, bool lacks)
{
	struct header_line *h = &ps->header;
	const struct vocab_measurement *m;
	bool length;

	if (!check_motion(ps, word, true))
		return false;
	m = limited(h);
	length = m && m->in == VOCAB_IN_LENGTH;
	if (length != (unit && unit->id != VOCAB_UNIT_DEG))
		return parse_fail(ps, unit ? unit : number, RULE_NUMBER_FORM,
		    length ? "'%.*s': this limit is a length, in mm or cm"
			   : "'%.*s': this limit is an angle, in degrees",
		    QUOTE(ps, unit ? unit : number));
	if (lacks && m && !m->lacks)
		return parse_fail(ps, number - 1, RULE_NUMBER_FORM,
		    "'%.*s': %s %s has no lacks", QUOTE(ps, number - 1),
		    m->joint_name, m->motion_name);
	if (number->tenths[0] > 2000 && !(unit && unit->id == VOCAB_UNIT_MM))
		return parse_fail(ps, number, RULE_NUMBER_FORM,
		    "'%.*s': a number is from 0 to 200", QUOTE(ps, number));
	h->precaution.forbids = false;
	h->precaution.limit = lacks ? -number->tenths[0] : number->tenths[0];
	h->precaution.unit = (int8_t)(unit ? unit->id : VOCAB_UNIT_DEG);
	return true;
}

bool
header_forbid(struct parse *ps, const struct token *word)
{
	if (!check_motion(ps, word, false))
		return false;
	ps->header.precaution.forbids = true;
	ps->header.precaution.unit = NONE;
	return true;
}

static bool
set_day(struct parse *ps, int32_t *day, const struct token *word,
    const struct token *date)
{
	if (*day != DATE_NONE)
		return parse_fail(ps, word, RULE_SYNTAX,
		    "'%.*s' stands a second time", QUOTE(ps, word));
	*day = date->day;
	return true;
}

bool
header_from(
    struct parse *ps, const struct token *word, const struct token *date)
{
	return set_day(ps, &ps->header.precaution.from, word, date);
}

bool
header_until(
    struct parse *ps, const struct token *word, const struct token *date)
{
	return set_day(ps, &ps->header.precaution.until, word, date);
}

bool
header_precaution(
    struct parse *ps, const struct token *word, const struct token *reason)
{
	struct headers *h = header_scope(ps);
	struct header_line *line = &ps->header;
	struct precaution *p = &line->precaution;

	p->joints = line->set;
	p->mode = (int8_t)(line->mode ? line->mode->id : NONE);
	p->reason = header_text(ps, h, reason);
	p->place = header_place(ps, h, word);
	*MEM_PUSH(&h->precautions) = *p;
	return true;
}
