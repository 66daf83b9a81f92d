/*
 * Reads the precautions of person and session into sets of joints by motion,
 * so that asking costs the same however many there are.
 */
#include "lint/precaution.h"

#include "text/mem.h"

bool
precaution_holds(
    const struct precaution *p, const struct session *s, bool in_doubt)
{
	if (p->from == DATE_NONE && p->until == DATE_NONE)
		return true;
	if (s->said != SAID)
		return in_doubt;
	return (p->from == DATE_NONE || p->from <= s->day) &&
	       (p->until == DATE_NONE || s->day <= p->until);
}

int
precaution_motion(const struct precaution *p)
{
	if (!p->forbids && p->motion == NONE)
		return VOCAB_MOTION_FLEXION;
	return p->motion;
}

bool
precaution_meets(const struct joint_set *set, uint64_t joints, int side)
{
	uint64_t in = set->middle;

	if (side != VOCAB_SIDE_LEFT)
		in |= set->right;
	if (side != VOCAB_SIDE_RIGHT)
		in |= set->left;
	return in & joints;
}

static void
add_joints(struct joint_set *set, const struct joint_set *more)
{
	set->right |= more->right;
	set->left |= more->left;
	set->middle |= more->middle;
}

static void
rule_out(struct ruled_out *out, const struct precaution *p)
{
	struct joint_set *of = out->of[precaution_motion(p) + 1];
	bool passive = p->mode == NONE || p->mode == VOCAB_MODE_PASSIVE;

	if (p->forbids && (p->mode == NONE || p->mode == VOCAB_MODE_ACTIVE))
		add_joints(&of[RULED_ACTIVE], &p->joints);
	if (p->forbids && passive)
		add_joints(&of[RULED_PASSIVE], &p->joints);
	if (passive)
		add_joints(&of[RULED_END_FEEL], &p->joints);
}

struct ruled_out *
precaution_ruled_out(const struct session *s)
{
	const struct headers *both[] = {&s->person->headers, &s->headers};
	struct ruled_out *out = NULL;

	for (int h = 0; h < 2; h++)
		for (size_t i = 0; i < both[h]->precautions.len; i++) {
			const struct precaution *p =
			    &both[h]->precautions.at[i];

			if (!precaution_holds(p, s, true))
				continue;
			if (!out)
				out = mem_zero(sizeof(*out));
			rule_out(out, p);
		}
	return out;
}

bool
precaution_rules_out(
    const struct ruled_out *out, int measurement, int side, enum ruling ruling)
{
	int motion = vocab_measurements[measurement].motion;
	uint64_t joints;

	if (!out)
		return false;
	joints = measurement_joints(measurement);
	return precaution_meets(&out->of[0][ruling], joints, side) ||
	       precaution_meets(&out->of[motion + 1][ruling], joints, side);
}

struct joint_set
precaution_still(const struct ruled_out *out)
{
	const struct joint_set *active, *passive;

	if (!out)
		return (struct joint_set){0};
	active = &out->of[0][RULED_ACTIVE];
	passive = &out->of[0][RULED_PASSIVE];
	return (struct joint_set){active->right & passive->right,
	    active->left & passive->left, active->middle & passive->middle};
}
