/*
 * What a single reading says for the rules of completeness; what is reported
 * only where `require` asks for it (position, weight-bearing, repetition); and
 * postures that differ between readings to be compared.
 */
#include <string.h>

#include "lint/missing.h"

const char *const missing_side_words[SIDES] = {"right ", "left ", ""};

static const uint8_t kind_of_mode[] = {ACTIVE, PASSIVE, ANY, ACTIVE};

int
missing_kind(const struct reading *r)
{
	return r->mode == NONE ? ANY : kind_of_mode[r->mode];
}

/* Does NT say why? Its text is the reason. */
static bool
has_reason(const struct session *s, const struct reading *r)
{
	for (uint32_t i = 0; i < r->texts; i++) {
		const struct reading_text *t = &s->texts.at[r->first_text + i];

		if (t->substitution)
			continue;
		for (uint32_t j = 0; j < t->text.len; j++)
			if (session_text(s, t->text)[j] != ' ')
				return true;
	}
	return false;
}

bool
missing_is_answer(const struct session *s, const struct reading *r)
{
	return r->kind != KIND_NOT_TESTED || has_reason(s, r);
}

int
missing_other_end(const struct reading *r)
{
	const struct vocab_measurement *v = reading_measurement(r);

	if (missing_has_figure(r) || v->motion != VOCAB_MOTION_FLEXION ||
	    !vocab_joints[v->joint].hinge)
		return NONE;
	return v->opposite;
}

/* One rule at one token is reported once: a hinge's pair is one token. */
static bool
is_said_of_twin(const struct sink *sink, enum rule rule,
    const struct session *s, const struct reading *r)
{
	const struct finding *last = sink->len ? sink->at[sink->len - 1] : NULL;

	return r->twin != 0 && last && last->rule == rule &&
	       last->reading == (int)(r - s->readings.at) + r->twin;
}

/* "knee flexion"; "knee" for a hinge's pair, whose motion is not written. */
static const char *
motion_word(const struct reading *r)
{
	return r->twin ? "" : reading_measurement(r)->motion_name;
}

static const char *
mode_word(const struct reading *r)
{
	return r->mode == NONE ? "" : vocab_name(VOCAB_CLASS_MODE, r->mode);
}

static void
missing_position(const struct session *s, struct sink *sink)
{
	for (size_t i = 0; i < s->readings.len; i++) {
		const struct reading *r = &s->readings.at[i];
		struct place place;
		struct finding *f;

		if (!missing_requires(r->require, VOCAB_REQUIREMENT_POSITION) ||
		    !missing_has_figure(r) || r->setting || r->posture ||
		    is_said_of_twin(sink, RULE_MISSING_POSITION, s, r))
			continue;
		place = reading_place(s, r);
		f = sink_add(sink, RULE_MISSING_POSITION, &place, (int)i,
		    "%s: the position is not named",
		    lint_label_written(r).text);
		sink_hint(sink, f,
		    "name the posture or setting before the value, such as "
		    "supine or sitting, or in a position line above");
	}
}

static bool
is_weight_bearing(const struct session *s, const struct reading *r)
{
	static const char word[] = "weight-bearing";
	const char *text = intern_text(s->pool, r->setting);

	while (*text) {
		size_t len = strcspn(text, " ");

		if (len == sizeof(word) - 1 && memcmp(text, word, len) == 0)
			return true;
		text += len;
		text += strspn(text, " ");
	}
	return false;
}

static bool
can_bear_weight(const struct reading *r)
{
	const struct vocab_measurement *v = reading_measurement(r);

	return v->motion >= 0 &&
	       vocab_joints[v->joint].region == VOCAB_REGION_LOWER;
}

static bool
is_repeated(const struct session *s, const struct reading *r)
{
	(void)s;
	return r->reps != NO_VALUE;
}

static bool
can_repeat(const struct reading *r)
{
	return reading_measurement(r)->motion >= 0 && r->mode != NONE &&
	       r->kind != KIND_FIXED;
}

/* A kind of reading that `require` asks for, once for each motion and side. */
static const struct demand {
	enum rule rule;
	enum vocab_requirement_id requirement;
	bool (*concerns)(const struct reading *r);
	bool (*answers)(const struct session *s, const struct reading *r);
	bool each_mode;
	const char *lacks;
	const char *hint;
} demands[] = {
    {RULE_MISSING_WEIGHT_BEARING, VOCAB_REQUIREMENT_WEIGHT_BEARING,
	can_bear_weight, is_weight_bearing, false,
	"no weight-bearing reading in this session",
	"measure it under load too and write weight-bearing before the value, "
	"or write weight-bearing NT with the reason"},
    {RULE_MISSING_REPETITION, VOCAB_REQUIREMENT_REPETITION, can_repeat,
	is_repeated, true, "no reading after repeated motion",
	"measure it again after repeated motion and write behind the value "
	"how often, such as: after 3 reps"},
};

/* Which reading of a motion it is: side, and mode where that counts. */
static uint16_t
cell(const struct demand *d, const struct reading *r)
{
	int mode = d->each_mode && r->mode != NONE ? r->mode + 1 : 0;

	if (mode == VOCAB_MODE_PLACE_AND_HOLD + 1)
		mode = VOCAB_MODE_ACTIVE + 1;
	return (
	    uint16_t)(1u << (missing_side(r) + SIDES * (mode == 0 ? 0 : mode)));
}

/* May the reading that is asked for not be taken at all? */
static bool
is_forbidden(const struct ruled_out *out, const struct reading *r)
{
	int kind = missing_kind(r);

	if (kind != ANY)
		return precaution_rules_out(out, r->measurement, r->side,
		    kind == ACTIVE ? RULED_ACTIVE : RULED_PASSIVE);
	return precaution_rules_out(
		   out, r->measurement, r->side, RULED_ACTIVE) &&
	       precaution_rules_out(
		   out, r->measurement, r->side, RULED_PASSIVE);
}

static void
find_demanded(const struct demand *d, const struct session *s,
    const struct ruled_out *out, struct sink *sink)
{
	uint16_t done[VOCAB_MEASUREMENT_COUNT] = {0};

	for (size_t i = 0; i < s->readings.len; i++) {
		const struct reading *r = &s->readings.at[i];

		int other_end = missing_other_end(r);

		if (!d->answers(s, r) || !missing_is_answer(s, r))
			continue;
		done[r->measurement] |= cell(d, r);
		if (other_end >= 0)
			done[other_end] |= cell(d, r);
	}
	for (size_t i = 0; i < s->readings.len; i++) {
		const struct reading *r = &s->readings.at[i];
		struct place place;
		struct finding *f;

		if (!missing_requires(r->require, d->requirement) ||
		    !missing_has_figure(r) || !d->concerns(r) ||
		    done[r->measurement] & cell(d, r) || is_forbidden(out, r))
			continue;
		done[r->measurement] |= cell(d, r);
		if (is_said_of_twin(sink, d->rule, s, r))
			continue;
		place = reading_place(s, r);
		f = sink_add(sink, d->rule, &place, (int)i, "%s%s%s%s%s%s: %s",
		    missing_side_words[missing_side(r)],
		    reading_measurement(r)->joint_name, r->twin ? "" : " ",
		    motion_word(r), d->each_mode ? " " : "",
		    d->each_mode ? mode_word(r) : "", d->lacks);
		sink_hint(sink, f, "%s", d->hint);
	}
}

void
missing_required(
    const struct session *s, const struct ruled_out *out, struct sink *sink)
{
	uint8_t require = 0;

	for (size_t i = 0; i < s->readings.len; i++)
		require |= s->readings.at[i].require;
	if (missing_requires(require, VOCAB_REQUIREMENT_POSITION))
		missing_position(s, sink);
	for (size_t i = 0; i < sizeof(demands) / sizeof(demands[0]); i++)
		if (missing_requires(require, demands[i].requirement))
			find_demanded(&demands[i], s, out, sink);
}

/* One bit for each side and kind of mode. */
static uint32_t
posture_cell(int side, int kind)
{
	return UINT32_C(1) << (side * KINDS + kind);
}

/* The readings that R is compared with: the other side, the other mode. */
static uint32_t
compared_with(const struct reading *r)
{
	int side = missing_side(r), kind = missing_kind(r);
	uint32_t cells = 0;

	if (side != BOTH)
		cells |= posture_cell(!side, kind);
	if (kind == ACTIVE)
		cells |= posture_cell(side, PASSIVE);
	if (kind == PASSIVE)
		cells |= posture_cell(side, ACTIVE);
	return cells;
}

static bool
names_posture(const struct reading *r)
{
	return r->posture && !r->left_out && missing_has_figure(r);
}

static bool
postures_differ(const struct session *s)
{
	uint32_t posture = 0;

	for (size_t i = 0; i < s->readings.len; i++) {
		const struct reading *r = &s->readings.at[i];

		if (!names_posture(r))
			continue;
		if (posture && posture != r->posture)
			return true;
		posture = r->posture;
	}
	return false;
}

/* The cells that GROUP has in the posture of R. */
static uint32_t *
in_posture(struct lint *lint, uint32_t group, const struct reading *r)
{
	const struct lookup_key key = {{lookup_pair(group, r->posture)}};
	uint32_t *cells = lookup_put(&lint->lookup, &key);

	if (*cells == LOOKUP_NONE)
		*cells = 0;
	return cells;
}

static void
report_posture(
    const struct session *s, const struct reading *r, struct sink *sink)
{
	struct place place = reading_place(s, r);
	struct finding *f = sink_add(sink, RULE_POSITION_DIFFERS, &place,
	    (int)(r - s->readings.at),
	    "%s: taken in %s, but what it is compared with in another "
	    "posture",
	    lint_label_written(r).text, intern_text(s->pool, r->posture));

	sink_hint(sink, f,
	    "measure both sides, and active and passive, in the same posture; "
	    "or accept it here with the reason");
}

/*
 * A reading is doubtful where one above that it is compared with names
 * another posture, and none of that kind names the same one. So a motion that
 * was measured in full in two postures is in order.
 */
void
missing_postures(struct lint *lint, const struct session *s, struct sink *sink)
{
	const struct groups *groups = &lint->groups;
	bool said[VOCAB_MEASUREMENT_COUNT] = {false};

	if (!postures_differ(s))
		return;
	lookup_begin(&lint->lookup, s->readings.len);
	for (size_t i = 0; i < s->readings.len; i++) {
		const struct reading *r = &s->readings.at[i];

		if (names_posture(r))
			*in_posture(lint, groups->group_of[i], r) |=
			    posture_cell(missing_side(r), missing_kind(r));
	}
	for (size_t g = 0; g < groups->len; g++) {
		uint32_t above = 0;

		for (uint32_t i = 0; i < groups->at[g].count; i++) {
			const struct reading *r =
			    &s->readings
				 .at[groups->order[groups->at[g].first + i]];

			if (!names_posture(r))
				continue;
			if (compared_with(r) & above &
				~*in_posture(lint, (uint32_t)g, r) &&
			    !said[r->measurement]) {
				said[r->measurement] = true;
				if (!is_said_of_twin(
					sink, RULE_POSITION_DIFFERS, s, r))
					report_posture(s, r, sink);
			}
			above |= posture_cell(missing_side(r), missing_kind(r));
		}
	}
}
