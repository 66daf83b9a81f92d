#include "record/record.h"

#include "text/mem.h"

#include <string.h>

const char *const kind_names[KIND_COUNT] = {"measured", "end-only", "lacks",
    "fixed", "not-tested", "WNL", "WFL", "score", "level"};

bool
reading_holds_for_modes(const struct reading *r)
{
	return r->kind == KIND_FIXED || r->kind == KIND_NOT_TESTED ||
	       r->kind == KIND_WNL || r->kind == KIND_WFL;
}

bool
reading_is_number(const struct reading *r)
{
	return r->kind != KIND_NOT_TESTED && r->kind != KIND_WNL &&
	       r->kind != KIND_WFL && r->kind != KIND_LEVEL;
}

struct place
session_place(const struct session *s, uint32_t line, uint32_t line_at,
    uint32_t beg, uint32_t end)
{
	const char *text = s->text.data + line_at;
	const char *stop = memchr(text, '\n', s->text.len - line_at);
	size_t len = stop ? (size_t)(stop - text) : s->text.len - line_at;

	return (struct place){line, beg, end, text, (uint32_t)len};
}

struct place
reading_place(const struct session *s, const struct reading *r)
{
	return session_place(s, r->line, r->line_at, r->beg, r->end);
}

struct place
session_date_place(const struct session *s)
{
	if (s->line == 0)
		return (struct place){0, 0, 0, "", 0};
	return session_place(s, s->line, s->line_at, s->date_beg, s->date_end);
}

int
session_age(const struct session *s)
{
	const struct fact *age = SESSION_FACT(s, age);
	const struct fact *born = SESSION_FACT(s, born);

	if (age->said == SAID)
		return age->value;
	if (born->said == SAID && s->said == SAID &&
	    date_year(s->day) >= born->value)
		return date_year(s->day) - born->value;
	return -1;
}

int
session_sex(const struct session *s)
{
	const struct fact *sex = SESSION_FACT(s, sex);

	return sex->said == SAID ? sex->value : NONE;
}

bool
joint_set_has(const struct joint_set *set, int joint, int side)
{
	uint64_t bit = UINT64_C(1) << joint;

	if (set->middle & bit)
		return true;
	if (side == VOCAB_SIDE_RIGHT)
		return set->right & bit;
	if (side == VOCAB_SIDE_LEFT)
		return set->left & bit;
	return (set->right | set->left) & bit;
}

void
joint_set_add(struct joint_set *set, uint64_t joints, bool right, bool left)
{
	uint64_t middle = 0;

	for (int j = 0; j < VOCAB_JOINT_COUNT; j++)
		if (joint_is_midline(j))
			middle |= UINT64_C(1) << j;
	set->middle |= joints & middle;
	if (right)
		set->right |= joints & ~middle;
	if (left)
		set->left |= joints & ~middle;
}

void
joint_set_join(struct joint_set *set, const struct joint_set *more)
{
	set->right |= more->right;
	set->left |= more->left;
	set->middle |= more->middle;
}

bool
joint_set_empty(const struct joint_set *set)
{
	return !(set->right | set->left | set->middle);
}

bool
joint_set_meets(const struct joint_set *set, uint64_t joints, int side)
{
	uint64_t in = set->middle;

	if (side != VOCAB_SIDE_LEFT)
		in |= set->right;
	if (side != VOCAB_SIDE_RIGHT)
		in |= set->left;
	return in & joints;
}

bool
precaution_on_day(const struct precaution *p, int32_t day)
{
	return (p->from == DATE_NONE || p->from <= day) &&
	       (p->until == DATE_NONE || day <= p->until);
}

bool
precaution_holds(
    const struct precaution *p, const struct session *s, bool in_doubt)
{
	if (p->from == DATE_NONE && p->until == DATE_NONE)
		return true;
	return s->said == SAID ? precaution_on_day(p, s->day) : in_doubt;
}

int
precaution_motion(const struct precaution *p)
{
	if (!p->forbids && p->motion == NONE)
		return VOCAB_MOTION_FLEXION;
	return p->motion;
}

bool
precaution_covers_mode(const struct precaution *p, int mode)
{
	return p->mode == NONE || p->mode == mode ||
	       (p->mode == VOCAB_MODE_ACTIVE &&
		   mode == VOCAB_MODE_PLACE_AND_HOLD);
}

int
session_involved(const struct session *s, int joint, int side)
{
	const struct headers *own = &s->headers;
	const struct headers *of_person = &s->person->headers;

	if (joint_set_has(&own->involved_joints, joint, side) ||
	    joint_set_has(&of_person->involved_joints, joint, side))
		return 1;
	if (own->involved.said == SAID_UNREADABLE ||
	    of_person->involved.said == SAID_UNREADABLE)
		return -1;
	return own->involved.said == SAID || of_person->involved.said == SAID
		   ? 0
		   : -1;
}

void
headers_add_opposite(struct headers *h, const struct opposite *opposite)
{
	*MEM_PUSH(&h->opposites) = *opposite;
	joint_set_join(&h->unavailable, &opposite->joints);
	joint_set_join(&h->unmeasured, &opposite->joints);
}

bool
session_unavailable(const struct session *s, int joint, int side)
{
	return joint_set_has(&s->headers.unavailable, joint, side) ||
	       joint_set_has(&s->person->headers.unavailable, joint, side);
}

uint64_t
measurement_joints(int measurement)
{
	const struct vocab_measurement *m = &vocab_measurements[measurement];

	return m->joint >= 0 ? UINT64_C(1) << m->joint
			     : vocab_digit_joints(m->digit);
}

int
session_involves(const struct session *s, int measurement, int side)
{
	int joint = vocab_measurements[measurement].joint;
	uint64_t joints;
	int involved = 0;

	if (joint >= 0)
		return session_involved(s, joint, side);
	joints = measurement_joints(measurement);
	for (int j = 0; j < VOCAB_JOINT_COUNT; j++)
		if (joints >> j & 1 && involved <= 0)
			involved = session_involved(s, j, side);
	return involved;
}
