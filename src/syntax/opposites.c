/*
 * The header `opposite ... unavailable` against what was measured. The
 * readings are looked at once a session, however many such lines there are.
 */
#include "syntax/opposites.h"

/* What a session measures of a joint and side: the first reading of each. */
struct measured {
	const struct reading *first[VOCAB_JOINT_COUNT][VOCAB_SIDE_COUNT];
	struct joint_set joints;
};

static void
find_measured(struct measured *m, const struct session *s)
{
	*m = (struct measured){.joints = {0}};
	for (size_t i = 0; i < s->readings.len; i++) {
		const struct reading *r = &s->readings.at[i];
		int joint = reading_measurement(r)->joint;

		if (joint < 0 || r->side == NONE ||
		    r->kind == KIND_NOT_TESTED || r->kind == KIND_WNL ||
		    r->kind == KIND_WFL || m->first[joint][r->side])
			continue;
		m->first[joint][r->side] = r;
		if (r->side == VOCAB_SIDE_RIGHT)
			m->joints.right |= UINT64_C(1) << joint;
		else
			m->joints.left |= UINT64_C(1) << joint;
	}
}

/* The first reading of what SET names, or NULL. */
static const struct reading *
measured_of(const struct measured *m, const struct joint_set *set)
{
	const struct reading *first = NULL;

	for (int j = 0; j < VOCAB_JOINT_COUNT; j++)
		for (int side = 0; side < VOCAB_SIDE_COUNT; side++) {
			const struct reading *r = m->first[j][side];

			if (r && (!first || r < first) &&
			    joint_set_has(set, j, side))
				first = r;
		}
	return first;
}

/*
 * `opposite ... unavailable` of a side that was measured all the same. The
 * list is gone through only where one of them is contradicted anew: for each
 * joint and side that can happen once.
 */
static void
check_opposites(struct headers *h, const struct measured *m, struct sink *sink)
{
	struct joint_set still = {0};

	if (!((h->unmeasured.right | h->unmeasured.middle) & m->joints.right) &&
	    !((h->unmeasured.left | h->unmeasured.middle) & m->joints.left))
		return;
	for (size_t i = 0; i < h->opposites.len; i++) {
		struct opposite *o = &h->opposites.at[i];
		const struct reading *r;
		struct finding *f;

		if (o->contradicted)
			continue;
		r = measured_of(m, &o->joints);
		if (!r) {
			joint_set_join(&still, &o->joints);
			continue;
		}
		o->contradicted = true;
		f = sink_add(sink, RULE_SYNTAX, &o->place, NO_READING,
		    "line %u measures the %s %s, which this line calls "
		    "unavailable",
		    r->line, vocab_name(VOCAB_CLASS_SIDE, r->side),
		    vocab_joints[reading_measurement(r)->joint].name);
		sink_hint(sink, f,
		    "take this line out, or correct the side of one of the "
		    "two");
	}
	h->unmeasured = still;
}

void
opposites_check(struct session *s, struct sink *sink)
{
	struct headers *both[] = {&s->headers, &s->person->headers};
	struct measured m;

	if (joint_set_empty(&both[0]->unmeasured) &&
	    joint_set_empty(&both[1]->unmeasured))
		return;
	find_measured(&m, s);
	for (int i = 0; i < 2; i++)
		check_opposites(both[i], &m, sink);
}
