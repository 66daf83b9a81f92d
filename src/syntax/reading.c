/*
 * A line of readings: its head, what carries along it, and the step from a
 * reading that the parser has seen whole to records of the session.
 */
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include "parser.h"
#include "syntax/parse.h"
#include "text/mem.h"
#include "vocab/vocab.h"

static void
pending_reset(struct parse *ps)
{
	struct pending *now = &ps->reading.now;

	now->begun = false;
	now->first = now->side = now->mode = now->part = now->by = NULL;
	now->measurement[0] = now->measurement[1] = NONE;
	now->unit = NONE;
	for (int i = 0; i < 2; i++) {
		now->out[i].made = false;
		now->out[i].trials.len = 0; /* the memory is used again */
		now->end_feel[i] = NONE;
	}
	memset(now->seen, 0, sizeof(now->seen));
	now->stopped_by = now->with = NONE;
	now->pain = now->onset = now->reps = NO_VALUE;
	now->arc_low = now->arc_high = NO_VALUE;
	ps->texts.len = 0;
}

void
reading_line_begin(struct parse *ps)
{
	struct reading_line *l = &ps->reading;
	struct named *n = &l->named;

	/* The reading at hand stands last: it keeps its memory. */
	memset(l, 0, offsetof(struct reading_line, now));
	n->joint = n->digit = n->part = NONE;
	n->motion = n->motion2 = n->measure = NONE;
	l->side = l->part = NONE;
	l->mode = ps->measuring.mode;
	pending_reset(ps);
}

void
reading_drop(struct parse *ps)
{
	const struct pending *now = &ps->reading.now;

	if (now->mode)
		reading_skip(ps, now->mode);
	if (now->part)
		reading_skip(ps, now->part);
	pending_reset(ps);
}

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

bool
reading_side(struct parse *ps, const struct token *t)
{
	struct reading_line *l = &ps->reading;
	const struct token **slot = l->head_read ? &l->now.side : &l->head.side;

	if (*slot) {
		twice(ps, t, *slot, "side");
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
reading_mode(struct parse *ps, const struct token *t)
{
	struct reading_line *l = &ps->reading;
	const struct token **slot = l->head_read ? &l->now.mode : &l->head.mode;

	if (*slot) {
		twice(ps, t, *slot, "mode");
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
reading_position(struct parse *ps, const struct token *t)
{
	return positions_add(ps, &ps->reading.head.positions, t);
}

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

static int
side_id(const struct token *t)
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
		l->side = side_id(h->side);
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

/* What this reading measures, and how its figures lie on the axis. */
static bool
measurement_of(struct parse *ps, const struct token *value)
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

static bool
side_of(struct parse *ps, const struct token *value)
{
	struct reading_line *l = &ps->reading;
	const struct vocab_measurement *m =
	    &vocab_measurements[l->now.measurement[0]];
	const struct token *written = l->now.side ? l->now.side : l->head.side;

	if (l->now.side)
		l->side = side_id(l->now.side);
	if (!m->sided && written) {
		parse_fail(ps, written, RULE_SIDE_NOT_OF_MOTION,
		    "%s %s has no side", m->joint_name, m->motion_name);
		parse_hint(ps, "leave '%.*s' out", QUOTE(ps, written));
		return false;
	}
	if (m->sided && l->side == NONE) {
		bool hinge = l->axis == AXIS_HINGE;

		parse_fail(ps, value, RULE_SIDE_NOT_OF_MOTION,
		    "this value does not say on which side %s%s %s was "
		    "measured",
		    hinge ? "the " : "", m->joint_name,
		    hinge ? "joint" : m->motion_name);
		parse_hint(ps, "write R or L before it");
		return false;
	}
	return true;
}

/* Did SIDE (or one of both) have MODE on this line? Notes that it has now. */
static bool
mode_was_used(struct reading_line *l, int mode)
{
	unsigned char bit = (unsigned char)(1u << mode);
	bool was = false;

	for (int side = 0; side <= 2; side++) {
		unsigned char *used = &l->used[side][l->part + 1];

		if (side != l->side && !(l->side == SIDE_BOTH && side < 2) &&
		    !(l->side == NONE && side == 2))
			continue;
		was = was || (*used & bit);
		*used |= bit;
	}
	return was;
}

/* Equal start and end is the same as fixed, which has no mode. */
static bool
says_fixed(enum form form, const struct token *value)
{
	const int32_t *n = value->tenths;

	if (form == FORM_RANGE)
		return n[0] == n[1] && n[0] != 0;
	/* 0-20-20 and 20-20-0; 0-0-0 moves nowhere but is a measurement */
	return form == FORM_TRIPLE && n[1] != 0 &&
	       ((n[0] == 0 && n[1] == n[2]) || (n[2] == 0 && n[1] == n[0]));
}

static bool
needs_mode(const struct pending *now, enum form form, const struct token *value)
{
	if (says_fixed(form, value))
		return false;
	return form != FORM_FIXED && form != FORM_OUTCOME &&
	       vocab_measurements[now->measurement[0]].measure < 0;
}

/* More than one mode on the line: then each reading names its own. */
static bool
modes_differ(const struct reading_line *l)
{
	return l->modes & (l->modes - 1);
}

/* MODE is NONE or UNKNOWN. */
static bool
no_mode(struct parse *ps, const struct token *value, int mode)
{
	parse_fail(ps, value, RULE_SYNTAX,
	    mode == UNKNOWN
		? "this value does not say whether it is active or passive, "
		  "and the mode line above could not be read"
		: "this value does not say whether it is active or passive");
	parse_hint(ps,
	    "write A (active), P (passive), AA (assisted) or place-and-hold "
	    "before it");
	return false;
}

static bool
mode_of(struct parse *ps, enum form form, const struct token *value)
{
	struct reading_line *l = &ps->reading;
	const struct token *written = l->now.mode;
	int mode;

	if (written)
		l->modes |= 1u << written->id;
	mode = written ? written->id : modes_differ(l) ? NONE : l->mode;
	if (mode < 0 && needs_mode(&l->now, form, value))
		return no_mode(ps, value, mode);
	if (!written)
		written = l->now.part;
	if (mode >= 0 && mode_was_used(l, mode) && written && !l->now.side &&
	    l->side != NONE) {
		parse_fail(ps, written, RULE_SYNTAX,
		    "'%.*s' comes a second time for this side",
		    QUOTE(ps, written));
		parse_hint(ps,
		    "if the other side begins here, write R or L before it; "
		    "repeated trials stand side by side without a mode");
		return false;
	}
	return true;
}

/* The mode that a reading of the line has; NONE where none is said. */
static int
mode_in_force(const struct reading_line *l)
{
	if (l->now.mode)
		return l->now.mode->id;
	return modes_differ(l) || l->mode < 0 ? NONE : l->mode;
}

static bool
both_is_meant(struct parse *ps, enum form form, const struct token *value)
{
	const struct reading_line *l = &ps->reading;

	if (l->side != SIDE_BOTH || form == FORM_OUTCOME ||
	    (form == FORM_END && value->tenths[0] == 0))
		return true;
	parse_fail(ps, value, RULE_SYNTAX,
	    "'both' cannot stand for a figure: each side has its own");
	parse_hint(ps, "measure and write R and L each");
	return false;
}

static bool
reading_begin(struct parse *ps, enum form form, const struct token *value)
{
	struct reading_line *l = &ps->reading;

	if (!l->head_read && !resolve_head(ps))
		return false;
	if (!l->now.first)
		l->now.first = value;
	if (!measurement_of(ps, value)) {
		ps->head_failed = true;
		return false;
	}
	if (!side_of(ps, value) || !mode_of(ps, form, value) ||
	    !both_is_meant(ps, form, value))
		return false;
	l->now.begun = true;
	l->now.form = form;
	return true;
}

bool
reading_of_goal(struct parse *ps, enum form form, const struct token *value)
{
	return resolve_head(ps) && measurement_of(ps, value) &&
	       side_of(ps, value) && mode_of(ps, form, value);
}

/* From angle to angle, no motion, or short of zero: one form can say each. */
static bool
is_range_kind(enum kind kind)
{
	return kind == KIND_MEASURED || kind == KIND_FIXED ||
	       kind == KIND_LACKS;
}

/*
 * What trials of two kinds are together: no longer fixed, and short of zero
 * where their mean end is.
 */
static enum kind
joint_kind(const struct outcome *out, enum kind kind, int32_t end)
{
	int64_t sum = end;

	if (out->trials.len == 0 || kind == out->kind)
		return kind;
	for (size_t i = 0; i < out->trials.len; i++)
		sum += out->trials.at[i].end;
	return sum < 0 ? KIND_LACKS : KIND_MEASURED;
}

/* Trials of one reading are written in one form and unit. */
static bool
same_form(struct parse *ps, enum form form, const struct outcome out[2],
    const struct token *value, int unit)
{
	const struct pending *now = &ps->reading.now;
	bool alone =
	    form == FORM_OUTCOME || form == FORM_FIXED || form == FORM_LEVEL;
	bool same = form == now->form && unit == now->unit && !alone;

	for (int i = 0; i < 2; i++)
		if (out[i].made != now->out[i].made ||
		    (out[i].made && out[i].kind != now->out[i].kind &&
			!(is_range_kind(out[i].kind) &&
			    is_range_kind(now->out[i].kind))))
			same = false;
	if (same)
		return true;
	parse_fail(ps, value, RULE_SYNTAX,
	    alone ? "a second value stands where one may stand"
		  : "this trial is written in another form than the one "
		    "before it");
	parse_hint(ps,
	    "write trials of one reading alike; a further reading begins "
	    "with R, L, A or P");
	return false;
}

bool
reading_trial(struct parse *ps, enum form form, const struct token *a,
    const struct token *b, const struct token *unit)
{
	struct pending *now = &ps->reading.now;
	struct outcome out[2] = {{0}, {0}};
	struct trial one[2][1];
	/* Degrees may be left out: they are the same unit. */
	int unit_id = unit && unit->id != VOCAB_UNIT_DEG ? unit->id : NONE;
	bool more = now->begun;

	if (!more && !reading_begin(ps, form, a))
		return false;
	for (int i = 0; i < 2; i++) {
		out[i].trials.at = one[i];
		out[i].trials.cap = 1;
	}
	if (!value_read(
		ps, ps->reading.axis, now->measurement, form, a, b, unit, out))
		return false;
	if (more && !same_form(ps, form, out, a, unit_id))
		return false;
	/* A first trial that was fixed needed no mode; a further one may. */
	if (more && mode_in_force(&ps->reading) < 0 && needs_mode(now, form, a))
		return no_mode(ps, a, ps->reading.mode);
	now->unit = unit_id;
	for (int i = 0; i < 2; i++) {
		now->out[i].made = out[i].made;
		now->out[i].kind =
		    joint_kind(&now->out[i], out[i].kind, one[i][0].end);
		now->out[i].measurement = out[i].measurement;
		if (out[i].trials.len > 0)
			*MEM_PUSH(&now->out[i].trials) = one[i][0];
	}
	return true;
}

void
reading_skip(struct parse *ps, const struct token *t)
{
	struct reading_line *l = &ps->reading;

	if (t->kind == T_MODE)
		l->modes |= 1u << t->id;
	if (t->kind == T_PART) {
		if (l->part != NONE && l->part != t->id)
			l->parts = true;
		l->part = t->id;
	}
}

int
reading_main(const struct pending *now)
{
	if (!now->out[0].made)
		return 1;
	if (!now->out[1].made)
		return 0;
	return vocab_measurements[now->out[1].measurement].motion ==
		       VOCAB_MOTION_FLEXION
		   ? 1
		   : 0;
}

static void
commit_texts(struct parse *ps, struct reading *r)
{
	struct session *s = ps->session;

	r->first_text = (uint32_t)s->texts.len;
	for (size_t i = 0; i < ps->texts.len; i++) {
		struct reading_text *text = MEM_PUSH(&s->texts);

		text->text = parse_text_ref(ps, ps->texts.at[i].token);
		text->substitution = ps->texts.at[i].substitution;
		for (size_t k = s->prose.len; k-- > 0;) {
			if (s->prose.at[k].line != ps->line)
				break;
			if (s->prose.at[k].beg ==
			    ps->texts.at[i].token->beg + 1)
				s->prose.at[k].reading =
				    (int)s->readings.len - 1;
		}
	}
	r->texts = (uint32_t)ps->texts.len;
}

static void
commit_instrument(const struct parse *ps, struct reading *r)
{
	const struct vocab_measurement *m = reading_measurement(r);
	int with = ps->reading.now.with;
	int which = m->in == VOCAB_IN_LENGTH;

	r->step = NO_VALUE;
	r->instrument = NONE;
	if (m->in == VOCAB_IN_DEG || m->in == VOCAB_IN_LENGTH)
		r->instrument = (int8_t)ps->measuring.instrument[which].id;
	if (with != NONE && with != r->instrument) {
		r->instrument = (int8_t)with;
		return;
	}
	if (r->instrument >= 0)
		r->step = ps->measuring.instrument[which].step;
	/* A step in centimetres that is no whole tenth cannot be held. */
	if (r->unit == VOCAB_UNIT_CM && r->step != NO_VALUE)
		r->step = r->step % 10 ? NO_VALUE : r->step / 10;
}

static int8_t
unit_of(const struct reading *r, int written)
{
	if (r->kind == KIND_NOT_TESTED || r->kind == KIND_WNL ||
	    r->kind == KIND_WFL)
		return NONE;
	switch (reading_measurement(r)->in) {
	case VOCAB_IN_DEG:
		return VOCAB_UNIT_DEG;
	case VOCAB_IN_LENGTH:
		return (int8_t)written;
	default:
		return NONE;
	}
}

static void
commit_one(struct parse *ps, int which, int side)
{
	struct session *s = ps->session;
	struct reading_line *l = &ps->reading;
	struct pending *now = &l->now;
	const struct outcome *out = &now->out[which];
	bool chief = which == reading_main(now);
	struct reading *r = MEM_PUSH(&s->readings);

	*r = (struct reading){.line = ps->line,
	    .line_at = ps->line_at,
	    .beg = now->first->beg,
	    .end = ps->tokens.at[ps->at - 2].end,
	    .measurement = (int16_t)out->measurement,
	    .side = (int8_t)side,
	    .mode = (int8_t)mode_in_force(l),
	    .kind = (uint8_t)out->kind,
	    .end_feel = (int8_t)now->end_feel[which],
	    .stopped_by = chief ? (int8_t)now->stopped_by : NONE,
	    .require = (uint8_t)ps->measuring.require,
	    .first_trial = (uint32_t)s->trials.len,
	    .trials = (uint32_t)out->trials.len,
	    .pain = chief ? now->pain : NO_VALUE,
	    .pain_onset = chief ? now->onset : NO_VALUE,
	    .arc_low = chief ? now->arc_low : NO_VALUE,
	    .arc_high = chief ? now->arc_high : NO_VALUE,
	    .reps = now->reps};
	r->unit = unit_of(r, now->unit);
	for (size_t i = 0; i < out->trials.len; i++)
		*MEM_PUSH(&s->trials) = out->trials.at[i];
	r->rater = now->by ? intern_id(ps->pool, ps->text + now->by->beg,
				 (size_t)(now->by->end - now->by->beg))
			   : ps->measuring.rater;
	commit_instrument(ps, r);
	positions_of(ps, which, r);
	if (chief)
		commit_texts(ps, r);
}

/* Flexion before extension, else in the order named. */
static void
commit_side(struct parse *ps, int side)
{
	struct pending *now = &ps->reading.now;
	int first = ps->reading.axis == AXIS_HINGE ? 1 : 0;
	bool pair = now->out[0].made && now->out[1].made;

	for (int i = 0; i < 2; i++) {
		int which = i == 0 ? first : 1 - first;

		if (!now->out[which].made)
			continue;
		commit_one(ps, which, side);
		if (pair)
			ps->session->readings.at[ps->session->readings.len - 1]
			    .twin = i == 0 ? 1 : -1;
	}
}

bool
reading_end(struct parse *ps)
{
	struct reading_line *l = &ps->reading;

	if (!vocab_measurements[l->now.measurement[0]].sided) {
		commit_side(ps, NONE);
	} else if (l->side == SIDE_BOTH) {
		commit_side(ps, VOCAB_SIDE_RIGHT);
		commit_side(ps, VOCAB_SIDE_LEFT);
	} else {
		commit_side(ps, l->side);
	}
	pending_reset(ps);
	return true;
}
