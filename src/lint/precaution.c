/*
 * Reads the precautions of person and session into sets of joints by motion,
 * so that asking costs the same however many there are.
 */
#include "lint/precaution.h"

#include "text/mem.h"

static void
rule_out(struct ruled_out *out, const struct precaution *p)
{
	struct joint_set *of = out->of[precaution_motion(p) + 1];
	bool passive = p->mode == NONE || p->mode == VOCAB_MODE_PASSIVE;

	if (p->forbids && (p->mode == NONE || p->mode == VOCAB_MODE_ACTIVE))
		joint_set_join(&of[RULED_ACTIVE], &p->joints);
	if (p->forbids && passive)
		joint_set_join(&of[RULED_PASSIVE], &p->joints);
	if (passive)
		joint_set_join(&of[RULED_END_FEEL], &p->joints);
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
	return joint_set_meets(&out->of[0][ruling], joints, side) ||
	       joint_set_meets(&out->of[motion + 1][ruling], joints, side);
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
