/*
 * Header lines. Each call comes when the whole line has been read, so a
 * header that is unreadable changes nothing but becomes unknown.
 */
#include <string.h>

#include "parser.h"
#include "syntax/parse.h"
#include "text/mem.h"
#include "vocab/vocab.h"

enum { EARLIEST_YEAR = 1850, LATEST_YEAR = 2200 };

/* Where a header of the person or session goes. */
static struct headers *
scope(struct parse *ps)
{
	return ps->session->said == SAID_NOTHING ? &ps->session->person->headers
						 : &ps->session->headers;
}

/* The place of a token, with a copy of the line that lives with HEADERS. */
static struct place
lasting_place(struct parse *ps, struct headers *h, const struct token *t)
{
	struct place place = parse_place(ps, t);

	place.text = arena_text(&h->arena, place.text, place.len);
	return place;
}

static const char *
lasting_text(struct parse *ps, struct headers *h, const struct token *t)
{
	struct text_ref ref;

	if (!t)
		return NULL;
	ref = parse_text_ref(ps, t);
	return arena_text(&h->arena, session_text(ps->session, ref), ref.len);
}

/* Sets a header with one value; another one in the same place stays. */
static bool
set_fact(struct parse *ps, size_t offset, const struct token *t, int32_t value)
{
	struct headers *h = scope(ps);
	struct fact *fact = (struct fact *)((char *)h + offset);

	if (fact->said == SAID && fact->value != value) {
		ps->first_stays = true;
		parse_fail(ps, t, RULE_SYNTAX,
		    "'%.*s' disagrees with line %u, which says otherwise of "
		    "the same person and session",
		    QUOTE(ps, t), fact->place.line);
		parse_hint(ps, "correct one of the two; the first one holds");
		return false;
	}
	if (fact->said != SAID) {
		fact->said = SAID;
		fact->value = value;
		fact->place = lasting_place(ps, h, t);
	}
	return true;
}

#define FACT(name) offsetof(struct headers, name)

bool
header_session(struct parse *ps, const struct token *date,
    const struct token *time, const struct token *label)
{
	struct session *s = ps->session;

	s->said = SAID;
	s->day = date->day;
	s->time = time ? time->minutes : TIME_NONE;
	if (label)
		s->label = parse_text_ref(ps, label);
	s->date_beg = date->beg;
	s->date_end = date->end;
	return true;
}

bool
header_subject(struct parse *ps, const struct token *code)
{
	struct person *p = ps->session->person;

	p->said = SAID;
	p->code = intern_id(
	    ps->pool, ps->text + code->beg, (size_t)(code->end - code->beg));
	return true;
}

/* A whole number between LO and HI. */
static bool
whole_number(struct parse *ps, const struct token *t, int32_t lo, int32_t hi,
    const char *what)
{
	if (t->tenths[0] % 10 == 0 && t->tenths[0] / 10 >= lo &&
	    t->tenths[0] / 10 <= hi)
		return true;
	return parse_fail(
	    ps, t, RULE_NUMBER_FORM, "'%.*s' is not %s", QUOTE(ps, t), what);
}

bool
header_born(struct parse *ps, const struct token *year)
{
	return whole_number(ps, year, EARLIEST_YEAR, LATEST_YEAR,
		   "a year of birth in four digits") &&
	       set_fact(ps, FACT(born), year, year->tenths[0] / 10);
}

bool
header_age(struct parse *ps, const struct token *years)
{
	return whole_number(ps, years, 0, 999, "an age in whole years") &&
	       set_fact(ps, FACT(age), years, years->tenths[0] / 10);
}

bool
header_sex(struct parse *ps, const struct token *sex)
{
	return set_fact(ps, FACT(sex), sex, sex->id);
}

bool
header_dominant(struct parse *ps, const struct token *side)
{
	return set_fact(ps, FACT(dominant), side, side->id);
}

bool
header_surgery(
    struct parse *ps, const struct token *date, const struct token *text)
{
	struct headers *h = scope(ps);
	bool first = h->surgery.said != SAID;

	if (!set_fact(ps, FACT(surgery), date, date->day))
		return false;
	if (first)
		h->surgery_text = lasting_text(ps, h, text);
	return true;
}

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

static uint64_t
whole_digit(int digit)
{
	uint64_t joints = 0;

	for (int j = 0; j < VOCAB_JOINT_COUNT; j++)
		if (vocab_joints[j].digit == digit)
			joints |= UINT64_C(1) << j;
	return joints;
}

/* A side with no joint behind it is the whole side. */
static void
close_side(struct header_line *h)
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

	close_side(h);
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
		return add_joints(ps, t, whole_digit(t->id));
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
	struct headers *h = scope(ps);
	const struct headers *person = &ps->session->person->headers;

	close_side(&ps->header);
	if ((h->involved.said == SAID && h->involved.value == 0) ||
	    (person->involved.said == SAID && person->involved.value == 0))
		return involved_and_none(ps, word + 1);
	if (h->involved.said == SAID_NOTHING)
		h->involved.said = SAID;
	h->involved.value = 1;
	h->involved.place = lasting_place(ps, h, word);
	h->involved_joints.right |= ps->header.set.right;
	h->involved_joints.left |= ps->header.set.left;
	h->involved_joints.middle |= ps->header.set.middle;
	return true;
}

bool
header_involved_none(struct parse *ps, const struct token *word)
{
	struct headers *h = scope(ps);
	const struct headers *person = &ps->session->person->headers;

	if ((h->involved.said == SAID && h->involved.value == 1) ||
	    (person->involved.said == SAID && person->involved.value == 1))
		return involved_and_none(ps, word + 1);
	h->involved.said = SAID;
	h->involved.value = 0;
	h->involved.place = lasting_place(ps, h, word);
	return true;
}

bool
header_opposite(
    struct parse *ps, const struct token *word, const struct token *reason)
{
	struct headers *h = scope(ps);
	struct opposite o;

	close_side(&ps->header);
	if (!ps->header.side_said)
		return parse_fail(ps, word + 1, RULE_SYNTAX,
		    "this line does not say which side cannot be measured");
	o = (struct opposite){ps->header.set, lasting_text(ps, h, reason),
	    lasting_place(ps, h, word), false};
	headers_add_opposite(h, &o);
	return true;
}

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

	close_side(h);
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
	struct headers *h = scope(ps);
	struct header_line *line = &ps->header;
	struct precaution *p = &line->precaution;

	p->joints = line->set;
	p->mode = (int8_t)(line->mode ? line->mode->id : NONE);
	p->reason = lasting_text(ps, h, reason);
	p->place = lasting_place(ps, h, word);
	*MEM_PUSH(&h->precautions) = *p;
	return true;
}

/* A goal is a head and a value: read as a line of readings is. */
bool
header_value(struct parse *ps, enum form form, const struct token *a,
    const struct token *b, const struct token *unit)
{
	struct reading_line *l = &ps->reading;
	struct goal *goal = &ps->header.goal;
	struct outcome out[2] = {{0}, {0}};
	struct trial one[2] = {{0}};

	if (!l->head.joint && !l->head.digit && !l->head.measure)
		return parse_fail(ps, a, RULE_SYNTAX,
		    "this goal does not say of which joint it is");
	if (l->head.positions.len > 0)
		return parse_fail(ps, a, RULE_SYNTAX,
		    "a goal names no position: it holds for every one");
	for (int i = 0; i < 2; i++)
		out[i].trials.at = &one[i];
	if (!reading_of_goal(ps, form, a))
		return false;
	if (!value_read(ps, l->axis, l->now.measurement, form, a, b, unit, out))
		return false;
	for (int i = 1; i >= 0; i--)
		if (out[i].made) {
			goal->measurement = (int16_t)out[i].measurement;
			goal->end = one[i].end;
			break;
		}
	goal->unit = (int8_t)(unit ? unit->id : NONE);
	if (unit == NULL &&
	    vocab_measurements[goal->measurement].in == VOCAB_IN_DEG)
		goal->unit = VOCAB_UNIT_DEG;
	goal->side[VOCAB_SIDE_RIGHT] =
	    l->side == VOCAB_SIDE_RIGHT || l->side == SIDE_BOTH;
	goal->side[VOCAB_SIDE_LEFT] =
	    l->side == VOCAB_SIDE_LEFT || l->side == SIDE_BOTH;
	goal->mode = (int8_t)(l->mode < 0 ? NONE : l->mode);
	return true;
}

bool
header_goal(struct parse *ps, const struct token *word, const struct token *by)
{
	struct headers *h = scope(ps);
	struct goal *goal = &ps->header.goal;

	goal->by = by ? by->day : DATE_NONE;
	goal->place = lasting_place(ps, h, word);
	*MEM_PUSH(&h->goals) = *goal;
	return true;
}

bool
header_remark(struct parse *ps, const struct token *text)
{
	struct headers *h = scope(ps);
	struct remark *r = MEM_PUSH(&h->remarks);

	r->text = lasting_text(ps, h, text);
	r->place = lasting_place(ps, h, text);
	return true;
}

bool
header_rater(struct parse *ps, const struct token *code)
{
	ps->measuring.rater = intern_id(
	    ps->pool, ps->text + code->beg, (size_t)(code->end - code->beg));
	return true;
}

bool
header_instrument(struct parse *ps, const struct token *name,
    const struct token *step, const struct token *unit)
{
	bool linear = vocab_instrument_linear[name->id];
	int32_t tenths = NO_VALUE;

	if (step) {
		tenths = step->tenths[0];
		if (tenths == 0 || tenths > 2000)
			return parse_fail(ps, step, RULE_NUMBER_FORM,
			    "'%.*s': a step is more than 0, and 200 at most",
			    QUOTE(ps, step));
		if (linear != (unit && unit->id != VOCAB_UNIT_DEG)) {
			parse_fail(ps, unit ? unit : step, RULE_NUMBER_FORM,
			    linear ? "'%.*s': the step of a %s is in mm or cm"
				   : "'%.*s': the step of a %s is in degrees",
			    QUOTE(ps, unit ? unit : step),
			    vocab_name(VOCAB_CLASS_INSTRUMENT, name->id));
			return false;
		}
		if (unit && unit->id == VOCAB_UNIT_CM)
			tenths *= 10;
	}
	ps->measuring.instrument[linear].id = name->id;
	ps->measuring.instrument[linear].step = tenths;
	return true;
}

bool
header_mode(struct parse *ps, const struct token *mode)
{
	ps->measuring.mode = mode->id;
	return true;
}

bool
header_position_word(struct parse *ps, const struct token *t)
{
	return positions_add(ps, &ps->header.positions, t);
}

bool
header_position(struct parse *ps)
{
	ps->measuring.positions = ps->header.positions;
	return true;
}

bool
header_requirement(struct parse *ps, const struct token *t)
{
	ps->header.require |= 1u << t->id;
	return true;
}

bool
header_require(struct parse *ps)
{
	ps->measuring.require = ps->header.require;
	return true;
}

void
header_line_begin(struct parse *ps)
{
	ps->header = (struct header_line){.digit = NONE,
	    .precaution = {.motion = NONE,
		.mode = NONE,
		.unit = NONE,
		.from = DATE_NONE,
		.until = DATE_NONE},
	    .goal = {.mode = NONE, .unit = NONE, .by = DATE_NONE}};
}

static void
forget_session(struct parse *ps)
{
	struct session *s = ps->session;
	const struct token *t = &ps->tokens.at[ps->tokens.len > 1 ? 1 : 0];

	s->said = SAID_UNREADABLE;
	s->date_beg = t->beg;
	s->date_end = t->end;
}

/* A header that could not be read makes its value unknown. */
void
header_unreadable(struct parse *ps, int header)
{
	/* 1 + where the value of a header of the person stands. */
	static const size_t fact_of[VOCAB_HEADER_COUNT] = {
	    [VOCAB_HEADER_BORN] = 1 + FACT(born),
	    [VOCAB_HEADER_AGE] = 1 + FACT(age),
	    [VOCAB_HEADER_SEX] = 1 + FACT(sex),
	    [VOCAB_HEADER_DOMINANT] = 1 + FACT(dominant),
	    [VOCAB_HEADER_SURGERY] = 1 + FACT(surgery),
	    [VOCAB_HEADER_INVOLVED] = 1 + FACT(involved)};
	struct measuring *m = &ps->measuring;

	if (header == VOCAB_HEADER_SESSION) {
		forget_session(ps);
		return;
	}
	if (header == VOCAB_HEADER_SUBJECT) {
		ps->session->person->said = SAID_UNREADABLE;
		return;
	}
	if (fact_of[header]) {
		((struct fact *)((char *)scope(ps) + fact_of[header] - 1))
		    ->said = SAID_UNREADABLE;
		return;
	}
	switch (header) {
	case VOCAB_HEADER_RATER:
		m->rater = UNKNOWN_TEXT;
		break;
	case VOCAB_HEADER_INSTRUMENT:
		for (int i = 0; i < 2; i++)
			m->instrument[i].id = UNKNOWN;
		break;
	case VOCAB_HEADER_MODE:
		m->mode = UNKNOWN;
		break;
	case VOCAB_HEADER_POSITION:
		m->positions = (struct positions){.said = SAID_UNREADABLE};
		break;
	case VOCAB_HEADER_REQUIRE:
		m->require = 0;
		break;
	default: /* those that add up have no one value to lose */
		break;
	}
}
