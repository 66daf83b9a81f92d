/*
 * Figures: what each form of a value means for the motion that was named, and
 * for the two ends of an axis.
 */
#include <string.h>

#include "parser.h"
#include "syntax/parse.h"
#include "vocab/vocab.h"

enum {
	MOST_DEGREES = 2000, /* tenths; centimetres too */
	MOST_MILLIMETRES = 20000,
	POINT = 10 /* tenths of a point of a score */
};

/* The value at hand. */
struct value {
	struct parse *ps;
	const int *measurement;
	const struct vocab_measurement *m; /* of the first */
	enum form form;
	const struct token *a;
	const struct token *figure; /* the token that holds the number */
	const struct token *unit;
	struct outcome *out;
};

static bool
bad_number(struct value *v, const struct token *t, const char *why)
{
	return parse_fail(
	    v->ps, t, RULE_NUMBER_FORM, "'%.*s': %s", QUOTE(v->ps, t), why);
}

static void
make(struct value *v, int which, enum kind kind, int32_t start, int32_t end)
{
	struct outcome *out = &v->out[which];

	out->made = true;
	out->measurement = v->measurement[which];
	out->kind = kind;
	if (kind == KIND_NOT_TESTED || kind == KIND_WNL || kind == KIND_WFL)
		return;
	out->trials.at[0] = (struct trial){start, end, NO_VALUE};
	out->trials.len = 1;
}

/* From one angle to another; equal ones, but for 0-0, are no motion. */
static void
make_range(struct value *v, int which, int32_t start, int32_t end)
{
	bool fixed = start == end && start != 0 && v->m->in == VOCAB_IN_DEG;

	make(v, which, fixed ? KIND_FIXED : KIND_MEASURED, start, end);
}

static bool
check_unit(struct value *v)
{
	int unit = v->unit ? v->unit->id : NONE;

	switch (v->m->in) {
	case VOCAB_IN_DEG:
		if (unit == NONE || unit == VOCAB_UNIT_DEG)
			return true;
		parse_fail(v->ps, v->figure, RULE_NUMBER_FORM,
		    "'%.*s %.*s': this motion is measured in degrees",
		    QUOTE(v->ps, v->figure), QUOTE(v->ps, v->unit));
		return false;
	case VOCAB_IN_LENGTH:
		if (unit == VOCAB_UNIT_MM || unit == VOCAB_UNIT_CM)
			return true;
		bad_number(v, v->figure,
		    "this is a length, and its unit is not mm or cm");
		parse_hint(v->ps, "write mm or cm behind the number");
		return false;
	default:
		if (unit == NONE)
			return true;
		return bad_number(v, v->figure, "a score has no unit");
	}
}

static bool
check_bounds(struct value *v, const struct token *t, int n)
{
	bool mm = v->unit && v->unit->id == VOCAB_UNIT_MM;
	int32_t most = mm ? MOST_MILLIMETRES : MOST_DEGREES;

	for (int i = 0; i < n; i++) {
		if (t->tenths[i] > most)
			return bad_number(v, t,
			    mm ? "a number is from 0 to 2000 millimetres"
			       : "a number is from 0 to 200");
		if (v->m->in == VOCAB_IN_SCORE && t->tenths[i] % POINT)
			return bad_number(v, t, "a score is a whole number");
	}
	return true;
}

static bool
is_hinge_extension(int measurement)
{
	const struct vocab_measurement *m = &vocab_measurements[measurement];

	return m->joint >= 0 && vocab_joints[m->joint].hinge &&
	       m->motion == VOCAB_MOTION_EXTENSION;
}

/* A lone number: the end, the start being taken as 0. */
static bool
read_end(struct value *v, enum axis_form axis)
{
	int32_t n = v->figure->tenths[0];

	if (v->m->in == VOCAB_IN_SCORE || v->m->in == VOCAB_IN_LENGTH) {
		make(v, 0,
		    v->m->in == VOCAB_IN_SCORE ? KIND_SCORE : KIND_MEASURED,
		    NO_VALUE, n);
		return true;
	}
	if (axis == AXIS_HINGE) {
		make(v, 1, KIND_END_ONLY, 0, n);
		return true;
	}
	if (is_hinge_extension(v->measurement[0]) && n != 0) {
		parse_fail(v->ps, v->figure, RULE_AMBIGUOUS_EXTENSION,
		    "%s extension %.*s: some read it as so far short of "
		    "straight, some as so far beyond",
		    v->m->joint_name, QUOTE(v->ps, v->figure));
		parse_hint(v->ps,
		    "write lacks %.*s (short of straight) or hyper %.*s "
		    "(beyond it)",
		    QUOTE(v->ps, v->figure), QUOTE(v->ps, v->figure));
		return false;
	}
	make(v, 0, KIND_END_ONLY, 0, n);
	return true;
}

static bool
read_range(struct value *v, enum axis_form axis)
{
	int32_t start = v->figure->tenths[0], end = v->figure->tenths[1];

	if (v->m->in == VOCAB_IN_SCORE)
		return bad_number(v, v->figure, "a score is one number");
	if (axis == AXIS_HINGE) {
		make(v, 0, KIND_LACKS, NO_VALUE, -start);
		make_range(v, 1, start, end);
		return true;
	}
	make_range(v, 0, start, end);
	return true;
}

/*
 * a-b-c on the axis of two motions (neutral-zero method): zero in the middle
 * is passed; else an outer zero marks the motion that is never reached.
 */
static bool
read_triple(struct value *v, enum axis_form axis)
{
	const int32_t *n = v->figure->tenths;

	if (axis == AXIS_ONE) {
		bad_number(v, v->figure, "three numbers need both motions");
		parse_hint(v->ps,
		    "name both (flexion/extension), or write start-end of "
		    "the one");
		return false;
	}
	if (n[1] == 0) {
		make(v, 0, KIND_MEASURED, 0, n[0]);
		make(v, 1, KIND_MEASURED, 0, n[2]);
	} else if (n[0] != 0 && n[2] == 0) {
		make_range(v, 0, n[1], n[0]);
		make(v, 1, KIND_LACKS, NO_VALUE, -n[1]);
	} else if (n[0] == 0 && n[2] != 0) {
		make(v, 0, KIND_LACKS, NO_VALUE, -n[1]);
		make_range(v, 1, n[1], n[2]);
	} else {
		bad_number(v, v->figure,
		    "where zero is not passed, one outer number is 0 and the "
		    "other is the end of the motion");
		parse_hint(v->ps,
		    "write 3-0-140 (zero is passed) or 0-5-118 (it is not)");
		return false;
	}
	return true;
}

static bool
read_hyper(struct value *v, enum axis_form axis)
{
	if (!is_hinge_extension(v->measurement[0]) || axis == AXIS_BOTH)
		return bad_number(v, v->a,
		    "it is for the extension of elbow, knee and the joints "
		    "of fingers, thumb and toes alone");
	make(v, 0, KIND_MEASURED, 0, v->figure->tenths[0]);
	return true;
}

static bool
read_lacks(struct value *v, enum axis_form axis)
{
	if (!v->m->lacks || axis == AXIS_BOTH) {
		bad_number(v, v->a,
		    "it is for extension, dorsiflexion, pronation, "
		    "supination and rotation of shoulder or hip alone");
		parse_hint(v->ps, "write start-end of the motion instead");
		return false;
	}
	make(v, 0, KIND_LACKS, NO_VALUE, -v->figure->tenths[0]);
	return true;
}

static bool
read_fixed(struct value *v, enum axis_form axis)
{
	int32_t n = v->figure->tenths[0];

	if (v->m->in != VOCAB_IN_DEG || axis == AXIS_BOTH)
		return bad_number(
		    v, v->a, "it needs one motion, and its angle in degrees");
	if (axis == AXIS_HINGE)
		make(v, 0, KIND_LACKS, NO_VALUE, -n);
	make(v, axis == AXIS_HINGE ? 1 : 0, KIND_FIXED, n, n);
	return true;
}

static bool
read_less(struct value *v, enum axis_form axis)
{
	int which = axis == AXIS_HINGE ? 1 : 0;
	int32_t minuend = v->a->tenths[0];

	if (v->m->in == VOCAB_IN_SCORE || axis == AXIS_BOTH)
		return bad_number(v, v->a,
		    "two inclinometer readings need one motion, in degrees");
	make(v, which, KIND_MEASURED, NO_VALUE, minuend - v->figure->tenths[0]);
	v->out[which].trials.at[0].minuend = minuend;
	return true;
}

static bool
read_outcome(struct value *v, enum axis_form axis)
{
	static const enum kind kinds[] = {
	    [VOCAB_OUTCOME_NOT_TESTED] = KIND_NOT_TESTED,
	    [VOCAB_OUTCOME_WNL] = KIND_WNL,
	    [VOCAB_OUTCOME_WFL] = KIND_WFL};

	if (axis != AXIS_HINGE)
		make(v, 0, kinds[v->a->id], 0, 0);
	if (axis != AXIS_ONE)
		make(v, 1, kinds[v->a->id], 0, 0);
	return true;
}

static bool
read_level(struct value *v)
{
	make(v, 0, KIND_LEVEL, NO_VALUE, v->a->id);
	return true;
}

bool
value_no_level(struct parse *ps, const struct token *t)
{
	return parse_fail(ps, t, RULE_SYNTAX,
	    "'%.*s' is a vertebra: it is a value of hand-behind-back alone",
	    QUOTE(ps, t));
}

/* A level is one of the vertebrae, and they are values of nothing else. */
static bool
check_level(struct value *v)
{
	bool level = v->m->in == VOCAB_IN_LEVEL;

	if (v->form == FORM_OUTCOME || level == (v->form == FORM_LEVEL))
		return true;
	if (!level)
		return value_no_level(v->ps, v->a);
	bad_number(v, v->a, "hand-behind-back is a vertebra, not a number");
	parse_hint(v->ps, "write the level that the thumb reaches, as T9");
	return false;
}

bool
value_read(struct parse *ps, enum axis_form axis, const int measurement[2],
    enum form form, const struct token *a, const struct token *b,
    const struct token *unit, struct outcome out[2])
{
	static const int numbers[] = {[FORM_END] = 1,
	    [FORM_RANGE] = 2,
	    [FORM_TRIPLE] = 3,
	    [FORM_HYPER] = 1,
	    [FORM_LACKS] = 1,
	    [FORM_FIXED] = 1,
	    [FORM_LESS] = 1,
	    [FORM_OUTCOME] = 0,
	    [FORM_LEVEL] = 0};
	struct value v = {ps, measurement, &vocab_measurements[measurement[0]],
	    form, a, b ? b : a, unit, out};

	if (!check_level(&v))
		return false;
	if (numbers[form] > 0 &&
	    (!check_unit(&v) || !check_bounds(&v, v.figure, numbers[form])))
		return false;
	if (form == FORM_LESS && !check_bounds(&v, a, 1))
		return false;
	if (axis == AXIS_BOTH && (form == FORM_END || form == FORM_RANGE)) {
		bad_number(&v, a, "two motions of one axis take three numbers");
		parse_hint(ps, "write 130-0-5, in the order named");
		return false;
	}
	switch (form) {
	case FORM_END:
		return read_end(&v, axis);
	case FORM_RANGE:
		return read_range(&v, axis);
	case FORM_TRIPLE:
		return read_triple(&v, axis);
	case FORM_HYPER:
		return read_hyper(&v, axis);
	case FORM_LACKS:
		return read_lacks(&v, axis);
	case FORM_FIXED:
		return read_fixed(&v, axis);
	case FORM_LESS:
		return read_less(&v, axis);
	case FORM_OUTCOME:
		return read_outcome(&v, axis);
	case FORM_LEVEL:
		return read_level(&v);
	}
	return false;
}
