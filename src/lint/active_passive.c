/*
 * Active against passive, and what was felt at the end. Readings are compared
 * with the last one like them in the session, so the work grows with the
 * number of readings alone. Place-and-hold counts as active, assisted motion
 * as neither.
 */
#include <stdio.h>
#include <string.h>

#include "calc/value.h"
#include "lint/internal.h"
#include "reference/reference.h"

struct check {
	struct lint *lint;
	struct session *s;
	struct sink *sink;
	struct place place; /* of the finding at hand */
};

static const struct place *
at(struct check *c, const struct reading *r)
{
	c->place = reading_place(c->s, r);
	return &c->place;
}

static int
index_of(const struct check *c, const struct reading *r)
{
	return (int)(r - c->s->readings.at);
}

static bool
is_active(const struct reading *r)
{
	return r->mode == VOCAB_MODE_ACTIVE ||
	       r->mode == VOCAB_MODE_PLACE_AND_HOLD;
}

/* How far it went, greater where the joint did more. */
static struct mean
reach(const struct session *s, const struct reading *r)
{
	struct mean m = mean_in_base_unit(mean_end(s, r), r->unit);

	if (reading_measurement(r)->less_is_better)
		m.sum = -m.sum;
	return m;
}

/* Does P hold the examiner back in the passive motion of R? */
static bool
speaks_of(const struct precaution *p, const struct session *s,
    const struct reading *r)
{
	int motion = precaution_motion(p);

	return (motion == NONE || motion == reading_measurement(r)->motion) &&
	       (p->mode == NONE || p->mode == VOCAB_MODE_PASSIVE) &&
	       precaution_holds(p, s, true) &&
	       joint_set_meets(
		   &p->joints, measurement_joints(r->measurement), r->side);
}

/*
 * A limit explains a passive motion that stopped short where going as far as
 * the active one would have come near it or passed it.
 */
static bool
held_back(const struct headers *h, const struct session *s,
    const struct reading *passive, struct mean active, int32_t tolerance)
{
	for (size_t i = 0; i < h->precautions.len; i++) {
		const struct precaution *p = &h->precautions.at[i];

		if (speaks_of(p, s, passive) &&
		    (p->forbids ||
			mean_compare_to(active,
			    lint_base(p->limit, p->unit) - tolerance) >= 0))
			return true;
	}
	return false;
}

/*
 * What a passive reading says of its stopping short. On a hinge written
 * without motion `stopped-by` is a word on flexion; each end has its end feel.
 */
static bool
is_explained(const struct check *c, const struct reading *passive,
    struct mean active, int32_t tolerance)
{
	return passive->stopped_by != NONE ||
	       passive->end_feel == VOCAB_END_FEEL_GUARDING ||
	       passive->end_feel == VOCAB_END_FEEL_EMPTY ||
	       held_back(&c->s->headers, c->s, passive, active, tolerance) ||
	       held_back(
		   &c->s->person->headers, c->s, passive, active, tolerance);
}

static void
compare(struct check *c, const struct reading *active,
    const struct reading *passive)
{
	struct mean reached = reach(c->s, active);
	struct mean under = mean_less(reached, reach(c->s, passive));
	int32_t tolerance = lint_tolerance_base(c->lint, active, passive);
	const struct reading *later = active > passive ? active : passive;
	int unit = later->unit == VOCAB_UNIT_CM ? VOCAB_UNIT_MM : later->unit;
	struct finding *f;
	bool just;

	if (mean_compare_to(under, 0) <= 0)
		return;
	just = mean_compare_to(under, tolerance) <= 0;
	if (!just && is_explained(c, passive, reached, tolerance))
		return;
	f = sink_add(c->sink,
	    just ? RULE_PASSIVE_JUST_BELOW_ACTIVE : RULE_PASSIVE_BELOW_ACTIVE,
	    at(c, later), index_of(c, later), "%s is %s less than %s",
	    lint_label(passive).text,
	    lint_figure(mean_hundredths(under), unit).text,
	    active->mode == VOCAB_MODE_ACTIVE ? "active" : "place-and-hold");
	f->other = index_of(c, later == active ? passive : active);
	sink_hint(c->sink, f,
	    just ? "as close as measuring itself allows, yet the passive "
		   "motion is expected to go at least as far"
		 : "measure both again: the trunk may have moved in the "
		   "active motion, guarding may have stopped the passive one; "
		   "if something did, write it: stopped-by pain");
}

/* The last reading like R, in MODE, or NULL. */
static const struct reading *
last_like(const struct check *c, const struct reading *r, int mode)
{
	struct lookup_key key = lint_key(
	    r, r->measurement, mode, LIKE_POSTURE | LIKE_RATER | LIKE_REPS);
	uint32_t found = lookup_get(&c->lint->lookup, &key);

	return found == LOOKUP_NONE ? NULL : &c->s->readings.at[found];
}

static void
compare_with_last(struct check *c, const struct reading *r)
{
	const struct reading *other, *held;

	if (is_active(r)) {
		other = last_like(c, r, VOCAB_MODE_PASSIVE);
		if (other)
			compare(c, r, other);
		return;
	}
	other = last_like(c, r, VOCAB_MODE_ACTIVE);
	held = last_like(c, r, VOCAB_MODE_PLACE_AND_HOLD);
	if (!other ||
	    (held && mean_compare(reach(c->s, held), reach(c->s, other)) > 0))
		other = held;
	if (other)
		compare(c, other, r);
}

/* What is unknown is not the same as anything. */
static bool
is_comparable(const struct reading *r)
{
	return (is_active(r) || r->mode == VOCAB_MODE_PASSIVE) &&
	       !r->left_out && r->rater != UNKNOWN_TEXT &&
	       reading_is_number(r) && r->trials;
}

static void
end_feel_on_active(struct check *c, const struct reading *r)
{
	struct finding *f;

	if (!is_active(r))
		return;
	f = sink_add(c->sink, RULE_END_FEEL_ON_ACTIVE, at(c, r), index_of(c, r),
	    "%s: an end feel, `%s`, stands with an active motion",
	    lint_label(r).text, vocab_name(VOCAB_CLASS_END_FEEL, r->end_feel));
	sink_hint(c->sink, f,
	    "end feel is felt at the end of passive motion: write it with the "
	    "passive reading; what stopped the person is written stopped-by");
}

static void
empty_end_feel(struct check *c, const struct reading *r)
{
	struct finding *f;

	if (r->end_feel != VOCAB_END_FEEL_EMPTY)
		return;
	f = sink_add(c->sink, RULE_EMPTY_END_FEEL, at(c, r), index_of(c, r),
	    "empty end feel of %s: pain stopped it before any resistance",
	    lint_label(r).text);
	sink_hint(c->sink, f,
	    "do not press on; tell the referring practitioner, as your "
	    "practice and local protocol ask");
}

/* "soft or firm", in OUT of SIZE bytes. */
static const char *
feel_words(unsigned feels, char *out, size_t size)
{
	size_t len = 0;

	for (int i = 0; i < VOCAB_END_FEEL_COUNT && len < size; i++)
		if (feels >> i & 1)
			len += (size_t)snprintf(out + len, size - len, "%s%s",
			    len ? " or " : "",
			    vocab_name(VOCAB_CLASS_END_FEEL, i));
	return out;
}

static bool
is_near_usual(const struct check *c, const struct reading *r)
{
	struct ref_person person = {session_age(c->s), session_sex(c->s)};
	struct ref_usual usual;
	struct mean end = mean_in_base_unit(mean_end(c->s, r), r->unit);

	return ref_usual(r->measurement, intern_text(c->s->pool, r->setting),
		   r->mode, &person, NULL, NULL, &usual) &&
	       mean_compare_to(
		   end, usual.low - lint_tolerance_base(c->lint, r, r)) >= 0;
}

/* SOURCE is a key, and behind it what is not certain: `, from memory`. */
static void
report_end_feel(struct check *c, const struct reading *r, unsigned feels,
    const char *source)
{
	int key = (int)strcspn(source, ",;");
	struct finding *f;
	char words[96];

	f = sink_add(c->sink, RULE_UNEXPECTED_END_FEEL, at(c, r),
	    index_of(c, r), "%s near its usual range ended %s; usual is %s%s",
	    lint_label(r).text, vocab_name(VOCAB_CLASS_END_FEEL, r->end_feel),
	    feel_words(feels, words, sizeof(words)), source + key);
	sink_hint(c->sink, f,
	    "feel it again, and say in a text what you felt; schools differ, "
	    "so this is a remark (`rangeline sources '%.*s'`)",
	    key, source);
}

/* An empty end feel, and one on an active motion, have rules of their own. */
static void
unexpected_end_feel(struct check *c, const struct reading *r)
{
	const char *source;
	unsigned feels = ref_end_feels(r->measurement, &source);

	if (feels == 0 || !source || feels >> r->end_feel & 1 || is_active(r) ||
	    r->end_feel == VOCAB_END_FEEL_EMPTY || r->left_out ||
	    !reading_is_number(r) || !r->trials ||
	    reading_measurement(r)->less_is_better || !is_near_usual(c, r))
		return;
	report_end_feel(c, r, feels, source);
}

void
lint_active_passive(struct lint *lint, struct session *s, struct sink *sink)
{
	struct check c = {.lint = lint, .s = s, .sink = sink};

	lookup_begin(&lint->lookup, s->readings.len);
	for (size_t i = 0; i < s->readings.len; i++) {
		const struct reading *r = &s->readings.at[i];
		struct lookup_key key;

		if (r->end_feel != NONE) {
			end_feel_on_active(&c, r);
			empty_end_feel(&c, r);
			unexpected_end_feel(&c, r);
		}
		if (!is_comparable(r))
			continue;
		compare_with_last(&c, r);
		key = lint_key(r, r->measurement, r->mode,
		    LIKE_POSTURE | LIKE_RATER | LIKE_REPS);
		*lookup_put(&lint->lookup, &key) = (uint32_t)i;
	}
}
