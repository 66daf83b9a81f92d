/* Sound notes, made at random: what is meant, not how it is written. */
#include "random_note.h"

static bool
is_hinge(const struct vocab_measurement *m)
{
	return m->measure < 0 && vocab_joints[m->joint].hinge;
}

bool
made_is_outcome(const struct made_value *v)
{
	return v->form == MADE_NOT_TESTED || v->form == MADE_WNL ||
	       v->form == MADE_WFL;
}

bool
made_is_without_mode(const struct made_value *v)
{
	return v->mode < 0 ||
	       (v->side >= 0 && (made_is_outcome(v) || v->form == MADE_FIXED));
}

/* --- positions ---------------------------------------------------------------
 */

uint64_t
made_setting_family(const struct made_setting *s)
{
	switch (s->class) {
	case VOCAB_CLASS_SETTING:
		return VOCAB_SETTING_BIT(s->id);
	case VOCAB_CLASS_SETTING_ANGLE:
		return VOCAB_ANGLE_BIT(s->id);
	default:
		return VOCAB_PART_BIT(s->id);
	}
}

/* With or without weight: one alone can be. */
static uint64_t
kind_of(uint64_t family)
{
	uint64_t load = VOCAB_SETTING_BIT(VOCAB_SETTING_WEIGHT_BEARING) |
			VOCAB_SETTING_BIT(VOCAB_SETTING_NON_WEIGHT_BEARING);

	return family & load ? load : family;
}

bool
made_positions_exclude(const struct made_positions *p, uint64_t family)
{
	for (uint32_t i = 0; i < p->n; i++)
		if (kind_of(made_setting_family(&p->settings[i])) ==
		    kind_of(family))
			return true;
	return false;
}

void
made_setting_name(struct buffer *out, const struct made_setting *s)
{
	buffer_puts(out, vocab_name(s->class, s->id));
	if (s->class == VOCAB_CLASS_SETTING_PART) {
		buffer_putc(out, '-');
		buffer_puts(
		    out, vocab_name(VOCAB_CLASS_SETTING_STATE, s->state));
	}
	if (s->degrees >= 0)
		buffer_printf(out, "-%d", s->degrees);
}

static void
make_setting(struct made_setting *s, struct random *r)
{
	static const struct {
		enum vocab_class class;
		uint32_t n;
	} of[] = {{VOCAB_CLASS_SETTING, VOCAB_SETTING_COUNT},
	    {VOCAB_CLASS_SETTING_ANGLE, VOCAB_SETTING_ANGLE_COUNT},
	    {VOCAB_CLASS_SETTING_PART, VOCAB_SETTING_PART_COUNT}};
	uint32_t which = random_below(r, 3);
	bool angle = of[which].class == VOCAB_CLASS_SETTING_ANGLE;
	bool part = of[which].class == VOCAB_CLASS_SETTING_PART;

	*s = (struct made_setting){.class = of[which].class,
	    .id = (int)random_below(r, of[which].n),
	    .degrees = -1};
	if (part)
		s->state = (int)random_below(r, VOCAB_SETTING_STATE_COUNT);
	if (angle || (part && random_one_in(r, 3)))
		s->degrees = (int)random_below(r, 181);
}

/* Adds a setting of one of FAMILIES that P does not have; 0: of any. */
static void
add_setting(struct made_positions *p, struct random *r, uint64_t families)
{
	struct made_setting s;
	uint64_t family;

	for (uint32_t tries = 0; tries < 400; tries++) {
		make_setting(&s, r);
		family = made_setting_family(&s);
		if (made_positions_exclude(p, family) ||
		    (families && !(family & families)))
			continue;
		p->settings[p->n++] = s;
		return;
	}
}

static void
make_positions(struct made_positions *p, struct random *r, uint64_t families)
{
	p->posture = random_one_in(r, 4)
			 ? (int)random_below(r, VOCAB_POSTURE_COUNT)
			 : -1;
	for (p->n = 0; families && p->n < MOST_SETTINGS && random_one_in(r, 3);)
		add_setting(p, r, families);
}

/* A header may name what LINE below it has not, or has a kind of itself. */
static void
make_header(struct made_line *line, struct random *r, uint64_t families)
{
	struct made_positions *p = &line->header;

	p->posture = -1;
	if (!random_one_in(r, 3))
		return;
	if (random_one_in(r, 2))
		p->posture = (int)random_below(r, VOCAB_POSTURE_COUNT);
	if (p->posture < 0 || random_one_in(r, 2))
		add_setting(p, r, random_one_in(r, 3) ? 0 : families);
}

/* --- values ------------------------------------------------------------------
 */

/* Whole units, and now and then a half. */
static int
any_tenths(struct random *r, uint32_t most)
{
	return (int)random_below(r, most) * 10 + random_one_in(r, 8) * 5;
}

enum { WHOLE_HINGE, HINGE_EXTENSION, MOTION, LENGTH, SCORE, LEVEL };

static int
kind_of_value(const struct made_line *line, const struct vocab_measurement *m)
{
	static const int of_unit[] = {[VOCAB_IN_LENGTH] = LENGTH,
	    [VOCAB_IN_SCORE] = SCORE,
	    [VOCAB_IN_LEVEL] = LEVEL};

	if (m->in != VOCAB_IN_DEG)
		return of_unit[m->in];
	if (line->whole)
		return WHOLE_HINGE;
	return is_hinge(m) && m->motion == VOCAB_MOTION_EXTENSION
		   ? HINGE_EXTENSION
		   : MOTION;
}

enum { FORMS = 6 };

static const enum made_form forms_of[][FORMS] = {
    [WHOLE_HINGE] = {MADE_RANGE, MADE_TRIPLE, MADE_END, MADE_LACKS, MADE_HYPER,
	MADE_FIXED},
    [HINGE_EXTENSION] = {MADE_RANGE, MADE_HYPER, MADE_HYPER, MADE_LACKS,
	MADE_LACKS, MADE_FIXED},
    [MOTION] = {MADE_RANGE, MADE_RANGE, MADE_END, MADE_FIXED, MADE_LACKS,
	MADE_LESS},
    [LENGTH] = {MADE_LENGTH, MADE_LENGTH_RANGE, MADE_LENGTH, MADE_LENGTH_RANGE,
	MADE_LENGTH, MADE_LENGTH_RANGE},
    [SCORE] = {MADE_SCORE, MADE_SCORE, MADE_SCORE, MADE_SCORE, MADE_SCORE,
	MADE_SCORE},
    [LEVEL] = {MADE_LEVEL, MADE_LEVEL, MADE_LEVEL, MADE_LEVEL, MADE_LEVEL,
	MADE_LEVEL},
};

static const bool may_be_repeated[MADE_FORMS] = {[MADE_RANGE] = true,
    [MADE_END] = true,
    [MADE_LACKS] = true,
    [MADE_HYPER] = true,
    [MADE_TRIPLE] = true,
    [MADE_LESS] = true,
    [MADE_LENGTH] = true,
    [MADE_LENGTH_RANGE] = true};

static enum made_form
any_outcome(struct random *r)
{
	return (enum made_form)(MADE_NOT_TESTED + (int)random_below(r, 3));
}

static void
make_trials(struct made_value *v, struct random *r, bool from_zero)
{
	v->trials =
	    may_be_repeated[v->form] ? 1 + random_below(r, MOST_TRIALS) : 1;
	for (uint32_t i = 0; i < v->trials; i++) {
		v->start[i] = from_zero || random_one_in(r, 4)
				  ? 0
				  : 10 + any_tenths(r, 40);
		v->end[i] = v->start[i] + 10 + any_tenths(r, 90);
	}
	if (v->form == MADE_SCORE)
		v->end[0] = (int)random_below(r, 11) * 10;
	if (v->form == MADE_LEVEL)
		v->end[0] = (int)random_below(r, VOCAB_LEVEL_COUNT);
}

/* `B` stands with an outcome or with 0 alone. */
static void
make_both(struct made_value *v, struct random *r, int kind)
{
	static const enum made_form zero[] = {[WHOLE_HINGE] = MADE_END,
	    [HINGE_EXTENSION] = MADE_END,
	    [MOTION] = MADE_END,
	    [LENGTH] = MADE_LENGTH,
	    [SCORE] = MADE_SCORE};

	v->side = MADE_BOTH;
	v->form =
	    kind == LEVEL || random_one_in(r, 2) ? any_outcome(r) : zero[kind];
	v->trials = 1;
	v->start[0] = v->end[0] = 0;
}

static void
make_value(struct made_value *v, struct random *r, const struct made_line *line)
{
	const struct vocab_measurement *m = made_measurement(v);
	int kind = kind_of_value(line, m);

	if (v->side >= 0 && random_one_in(r, 12)) {
		make_both(v, r, kind);
	} else {
		v->form = random_one_in(r, 5)
			      ? any_outcome(r)
			      : forms_of[kind][random_below(r, FORMS)];
		if (v->form == MADE_LACKS && !line->whole && !m->lacks)
			v->form = MADE_RANGE;
		make_trials(
		    v, r, kind == HINGE_EXTENSION && v->form == MADE_RANGE);
	}
	v->cm = random_one_in(r, 2);
	v->pain = random_one_in(r, 4) ? (int)random_below(r, 11) : -1;
	v->firm = v->mode == VOCAB_MODE_PASSIVE && random_one_in(r, 2);
	if (made_is_outcome(v)) {
		v->pain = -1;
		v->firm = false;
	}
}

/* --- lines -------------------------------------------------------------------
 */

enum { MOST_JOINTS = 3 };

/* One in four is not of degrees, though few measurements are such. */
static uint32_t
choose_joint(struct made_line *line, struct random *r, int *of)
{
	bool of_degrees = !random_one_in(r, 4);
	const struct vocab_measurement *m;

	do {
		*of = (int)random_below(r, VOCAB_MEASUREMENT_COUNT);
		m = &vocab_measurements[*of];
	} while ((m->in == VOCAB_IN_DEG) != of_degrees);
	line->digit = -1;
	line->whole = is_hinge(m) && random_one_in(r, 2);
	if (line->whole)
		*of = vocab_measurement(m->joint, VOCAB_MOTION_FLEXION);
	return 1;
}

/* The joints of a digit that have one motion, or are hinges. */
static uint32_t
choose_joints(struct made_line *line, struct random *r, int *of)
{
	uint32_t n = 0;

	line->digit = (int)random_below(r, VOCAB_DIGIT_COUNT);
	line->whole = random_one_in(r, 2);
	while (n == 0) {
		int motion = random_one_in(r, 4)
				 ? (int)random_below(r, VOCAB_MOTION_COUNT)
			     : !line->whole && random_one_in(r, 2)
				 ? VOCAB_MOTION_EXTENSION
				 : VOCAB_MOTION_FLEXION;

		if (line->whole)
			motion = VOCAB_MOTION_FLEXION;
		for (int j = 0; j < VOCAB_JOINT_COUNT; j++) {
			int m = vocab_measurement(j, motion);

			if (vocab_joints[j].digit == line->digit && m >= 0 &&
			    n < MOST_JOINTS &&
			    (!line->whole || vocab_joints[j].hinge))
				of[n++] = m;
		}
	}
	return n;
}

static void
make_values(struct made_line *line, struct random *r, const int *of, uint32_t n)
{
	const struct vocab_measurement *m = &vocab_measurements[of[0]];
	bool joints_first = random_one_in(r, 2);
	uint32_t sides = m->sided ? 2 : 1, modes = m->measure < 0 ? 2 : 1;

	for (uint32_t i = 0; i < sides * modes * n; i++) {
		struct made_value *v = &line->values[line->n];
		uint32_t mode = joints_first ? i / n % modes : i % modes;

		if (random_one_in(r, 3))
			continue;
		v->measurement = of[joints_first ? i % n : i / modes % n];
		v->side = m->sided ? (int)(i / (modes * n)) : -1;
		v->mode = m->measure < 0 ? VOCAB_MODE_ACTIVE + (int)mode : -1;
		make_value(v, r, line);
		line->n++;
	}
}

static void
make_line(struct made_line *line, struct random *r)
{
	int of[MOST_JOINTS];
	uint64_t families;
	uint32_t n;

	*line = (struct made_line){.n = 0};
	n = random_one_in(r, 3) ? choose_joints(line, r, of)
				: choose_joint(line, r, of);
	families = vocab_measurements[of[0]].settings;
	make_header(line, r, families);
	for (uint32_t i = 1; i < n; i++)
		families &= vocab_measurements[of[i]].settings;
	make_positions(&line->positions, r, families);
	make_values(line, r, of, n);
}

void
made_note_at_random(struct made_note *made, struct random *r, uint32_t number)
{
	*made = (struct made_note){.number = number};
	made->n = 1 + random_below(r, MOST_SESSIONS);
	for (uint32_t i = 0; i < made->n; i++) {
		struct made_session *s = &made->sessions[i];

		s->month = 1 + i;
		s->day = 1 + random_below(r, 28);
		s->n = 1 + random_below(r, MOST_LINES);
		for (uint32_t k = 0; k < s->n; k++)
			make_line(&s->lines[k], r);
	}
}
