/*
 * A reading at hand and what carries along its line: sides, modes, joints of a
 * digit, and the trials that belong to one reading.
 */
#include <stddef.h>
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

static bool
side_of(struct parse *ps, const struct token *value)
{
	struct reading_line *l = &ps->reading;
	const struct vocab_measurement *m =
	    &vocab_measurements[l->now.measurement[0]];
	const struct token *written = l->now.side ? l->now.side : l->head.side;

	if (l->now.side)
		l->side = reading_side_id(l->now.side);
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

	/* `L1 flexion`: no value at all, but a joint that was mistyped. */
	if (form == FORM_LEVEL && value == ps->tokens.at &&
	    line_begins_unclear(ps))
		return value_no_level(ps, value);
	if (!reading_take_head(ps))
		return false;
	if (!l->now.first)
		l->now.first = value;
	if (!reading_measures(ps, value)) {
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
	return reading_take_head(ps) && reading_measures(ps, value) &&
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
	struct trial one[2][1] = {{{0}}};
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

bool
reading_end(struct parse *ps)
{
	reading_commit(ps, mode_in_force(&ps->reading));
	pending_reset(ps);
	return true;
}
