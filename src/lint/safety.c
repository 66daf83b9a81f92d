/*
 * Readings beyond a precaution in force on the day of the session. A reading
 * is held against its greatest trial, on the axis of the joint: knee flexion
 * that starts at 10 was at `extension lacks 10`.
 *
 * In a session without a date only precautions without from and until are
 * known to be in force; the missing date is an error of its own.
 */
#include <stdlib.h>
#include <string.h>

#include "lint/internal.h"
#include "text/mem.h"

enum { SIDES = VOCAB_SIDE_COUNT + 1, MODES = VOCAB_MODE_COUNT + 1 };

/* The strictest precautions on one measurement, side and mode; or NULL. */
struct bound {
	const struct precaution *no;
	const struct precaution *max;
	const struct precaution *max_opposite; /* on the other motion */
};

/* Made when the first reading of a measurement comes. */
struct bounds {
	const struct session *s;
	bool known[VOCAB_MEASUREMENT_COUNT];
	struct bound of[VOCAB_MEASUREMENT_COUNT][SIDES][MODES];
};

static void
take_stricter(const struct precaution **at, const struct precaution *p)
{
	if (!*at ||
	    lint_base(p->limit, p->unit) < lint_base((*at)->limit, (*at)->unit))
		*at = p;
}

static void
put(struct bound *bound, const struct precaution *p,
    const struct vocab_measurement *v)
{
	int motion = precaution_motion(p);

	if (p->forbids) {
		if (!bound->no && (motion == NONE || motion == v->motion))
			bound->no = p;
	} else if (motion == v->motion) {
		take_stricter(&bound->max, p);
	} else if (v->opposite >= 0 &&
		   motion == vocab_measurements[v->opposite].motion) {
		take_stricter(&bound->max_opposite, p);
	}
}

static void
put_all(struct bounds *b, const struct headers *h, int measurement)
{
	uint64_t joints = measurement_joints(measurement);

	for (size_t i = 0; i < h->precautions.len; i++) {
		const struct precaution *p = &h->precautions.at[i];

		if (!precaution_holds(p, b->s, false))
			continue;
		for (int side = NONE; side < VOCAB_SIDE_COUNT; side++) {
			if (!joint_set_meets(&p->joints, joints, side))
				continue;
			for (int mode = NONE; mode < VOCAB_MODE_COUNT; mode++)
				if (precaution_covers_mode(p, mode))
					put(&b->of[measurement][side + 1]
						  [mode + 1],
					    p,
					    &vocab_measurements[measurement]);
		}
	}
}

static const struct bound *
bound_of(struct bounds *b, const struct reading *r)
{
	int m = r->measurement;

	if (!b->known[m]) {
		b->known[m] = true;
		memset(b->of[m], 0, sizeof(b->of[m]));
		put_all(b, &b->s->person->headers, m);
		put_all(b, &b->s->headers, m);
	}
	return &b->of[m][r->side + 1][r->mode + 1];
}

/* How far the joint came: in its own motion, and in the opposite one. */
struct reach {
	bool known;
	int32_t own;
	int32_t opposite;
	bool by_start; /* opposite is that of a written start */
};

static struct reach
reach_of(const struct session *s, const struct reading *r)
{
	bool start_written = r->kind != KIND_END_ONLY;
	struct reach reach = {.known = false};
	const struct trial *t;

	if (!reading_is_number(r) || r->trials == 0)
		return reach;
	t = reading_trials(s, r);
	for (uint32_t i = 0; i < r->trials; i++) {
		bool start = start_written && t[i].start != NO_VALUE;
		int32_t opposite = start ? -t[i].start : -t[i].end;

		if (!reach.known || t[i].end > reach.own)
			reach.own = t[i].end;
		if (!reach.known || opposite > reach.opposite) {
			reach.opposite = opposite;
			reach.by_start = start;
		}
		reach.known = true;
	}
	return reach;
}

static bool
is_beyond(int32_t reached, const struct reading *r, const struct precaution *p)
{
	return p && lint_base(reached, r->unit) > lint_base(p->limit, p->unit);
}

/* `40`, or `lacks 30` for a limit short of zero. */
static struct lint_figure
limit_text(int32_t tenths, int unit, const char **word)
{
	*word = tenths < 0 ? "lacks " : "";
	return lint_figure((tenths < 0 ? -tenths : tenths) * INT64_C(10), unit);
}

/* Says by which precaution F was found. */
static struct finding *
going_by(struct finding *f, const struct precaution *p)
{
	f->header = p->place.line;
	return f;
}

static struct finding *
report_limit(struct sink *sink, const struct reading *r, int index,
    const struct place *place, const struct precaution *p, int32_t reached)
{
	const char *word, *limit_word;
	struct lint_figure figure = limit_text(reached, r->unit, &word);
	struct lint_figure limit = limit_text(p->limit, p->unit, &limit_word);

	return sink_add(sink, RULE_PRECAUTION_EXCEEDED, place, index,
	    "%s came to %s%s; the precaution on line %u allows no further "
	    "than %s%s",
	    lint_label(r).text, word, figure.text, (unsigned)p->place.line,
	    limit_word, limit.text);
}

/* A limit of the opposite motion: on its axis, R was at `reached`. */
static struct finding *
report_axis(struct sink *sink, const struct reading *r, int index,
    const struct place *place, const struct precaution *p,
    const struct reach *reach)
{
	const char *word, *limit_word;
	int opposite = reading_measurement(r)->opposite;
	struct lint_figure figure =
	    limit_text(-reach->opposite, r->unit, &word);
	struct lint_figure limit = limit_text(p->limit, p->unit, &limit_word);

	return sink_add(sink, RULE_PRECAUTION_EXCEEDED, place, index,
	    "%s %s at %s%s; the precaution on line %u allows %s no further "
	    "than %s%s",
	    lint_label(r).text, reach->by_start ? "starts" : "ends", word,
	    figure.text, (unsigned)p->place.line,
	    vocab_measurements[opposite].motion_name, limit_word, limit.text);
}

/* The finding for R, NULL where it keeps within all precautions. */
static struct finding *
judge(const struct session *s, struct sink *sink, const struct bound *bound,
    const struct reading *r)
{
	struct reach reach = reach_of(s, r);
	struct place place = reading_place(s, r);
	int index = (int)(r - s->readings.at);

	if (bound->no)
		return going_by(
		    sink_add(sink, RULE_PRECAUTION_EXCEEDED, &place, index,
			"%s: the precaution on line %u rules this motion out",
			lint_label(r).text, (unsigned)bound->no->place.line),
		    bound->no);
	if (!reach.known)
		return NULL;
	if (is_beyond(reach.own, r, bound->max))
		return going_by(
		    report_limit(sink, r, index, &place, bound->max, reach.own),
		    bound->max);
	if (is_beyond(reach.opposite, r, bound->max_opposite))
		return going_by(report_axis(sink, r, index, &place,
				    bound->max_opposite, &reach),
		    bound->max_opposite);
	return NULL;
}

static bool
any_in_force(const struct session *s, const struct headers *h)
{
	for (size_t i = 0; i < h->precautions.len; i++)
		if (precaution_holds(&h->precautions.at[i], s, false))
			return true;
	return false;
}

void
lint_safety(struct lint *lint, struct session *s, struct sink *sink)
{
	struct bounds *bounds;
	int said = NO_READING;

	(void)lint;
	if (s->readings.len == 0 || (!any_in_force(s, &s->headers) &&
					!any_in_force(s, &s->person->headers)))
		return;
	bounds = mem_resize(NULL, 1, sizeof(*bounds));
	bounds->s = s;
	memset(bounds->known, 0, sizeof(bounds->known));
	for (size_t i = 0; i < s->readings.len; i++) {
		const struct reading *r = &s->readings.at[i];
		const struct bound *bound = bound_of(bounds, r);
		struct finding *f;

		/* a hinge's pair is one token, said once */
		if (r->kind == KIND_NOT_TESTED ||
		    (r->twin && said == (int)i + r->twin))
			continue;
		f = judge(s, sink, bound, r);
		if (!f)
			continue;
		said = (int)i;
		sink_hint(sink, f,
		    "confirm the figure; if it is right, tell the surgeon or "
		    "the referring practitioner, then accept this with the "
		    "reason");
	}
	free(bounds);
}
