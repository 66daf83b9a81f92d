/*
 * Readings of one session beside each other: the same one twice, two ends of
 * one axis that exclude each other, a flexion of which nothing tells where it
 * began. Each looks for the last reading alike, so the work grows with the
 * number of readings alone.
 */
#include "calc/value.h"
#include "lint/internal.h"

static struct lookup_key
identity(const struct reading *r)
{
	return lint_key(r, r->measurement, r->mode,
	    LIKE_POSTURE | LIKE_RATER | LIKE_INSTRUMENT | LIKE_REPS);
}

/* What is unknown is not the same as anything. */
static bool
identity_known(const struct reading *r)
{
	return !r->left_out && r->rater != UNKNOWN_TEXT &&
	       r->instrument != UNKNOWN;
}

static void
repeated_readings(struct lint *lint, struct session *s, struct sink *sink)
{
	lookup_begin(&lint->lookup, s->readings.len);
	for (size_t i = 0; i < s->readings.len; i++) {
		const struct reading *r = &s->readings.at[i];
		struct lookup_key key;
		struct place place;
		struct finding *f;
		uint32_t *last;

		if (!identity_known(r))
			continue;
		key = identity(r);
		last = lookup_put(&lint->lookup, &key);
		if (*last != LOOKUP_NONE) {
			place = reading_place(s, r);
			f = sink_add(sink, RULE_REPEATED_READING, &place,
			    (int)i, "%s stands already in line %u",
			    lint_label(r).text,
			    (unsigned)s->readings.at[*last].line);
			f->other = (int)*last;
			sink_hint(sink, f,
			    "is one of the two of the other side, another "
			    "motion or another position? repeated trials are "
			    "written side by side: 0-52 0-54");
		}
		*last = (uint32_t)i;
	}
}

/* The end of an axis that R, or its OPPOSITE, would be compared at. */
static struct lookup_key
axis_key(const struct reading *r, int measurement)
{
	return lint_key(r, measurement, r->mode, LIKE_POSTURE | LIKE_REPS);
}

static bool
on_axis(const struct reading *r)
{
	return reading_measurement(r)->opposite >= 0 && !r->left_out &&
	       reading_is_number(r) && r->trials;
}

/*
 * A starts at s of its own motion; B, the opposite motion, reaches e on the
 * axis of A. They exclude each other where s and e part and one of them says
 * that zero was not passed.
 */
static bool
exclude(const struct lint *lint, const struct session *s,
    const struct reading *a, const struct reading *b, struct mean *apart)
{
	struct mean start = mean_start(s, a), end = mean_end(s, b);
	int32_t tolerance = lint_tolerance(lint, a, b);

	if (a->kind == KIND_END_ONLY || start.n == 0)
		return false;
	if (mean_compare_to(start, 0) <= 0 && mean_compare_to(end, 0) >= 0)
		return false;
	end.sum = -end.sum;
	*apart = mean_less(start, end);
	if (apart->sum < 0)
		apart->sum = -apart->sum;
	return mean_compare_to(*apart, tolerance) > 0;
}

static void
contradiction(struct sink *sink, const struct session *s,
    const struct reading *a, const struct reading *b, struct mean apart)
{
	const struct reading *later = a > b ? a : b;
	int64_t end = mean_hundredths(mean_end(s, b));
	struct place place = reading_place(s, later);
	struct finding *f;

	f = sink_add(sink, RULE_AXIS_CONTRADICTION, &place,
	    (int)(later - s->readings.at),
	    "%s starts at %s, yet %s %s%s: they exclude each other by %s",
	    lint_label(a).text,
	    lint_figure(mean_hundredths(mean_start(s, a)), a->unit).text,
	    reading_measurement(b)->motion_name,
	    end < 0 ? "lacks " : "reaches ",
	    lint_figure(end < 0 ? -end : end, b->unit).text,
	    lint_figure(mean_hundredths(apart), a->unit).text);
	f->other = (int)((later == a ? b : a) - s->readings.at);
	sink_hint(sink, f,
	    "one of the two was misread, or they were taken in different "
	    "positions: measure both again, or name the position");
}

/* R against the last reading of the opposite motion. */
static void
check_axis(struct lint *lint, struct session *s, struct sink *sink,
    const struct reading *r)
{
	struct lookup_key key = axis_key(r, reading_measurement(r)->opposite);
	uint32_t found = lookup_get(&lint->lookup, &key);
	const struct reading *other;
	struct mean apart;

	if (found == LOOKUP_NONE)
		return;
	other = &s->readings.at[found];
	/* A pair is whole in itself: two pairs are two measurements. */
	if (other->left_out || (r->twin && other->twin))
		return;
	if (exclude(lint, s, r, other, &apart))
		contradiction(sink, s, r, other, apart);
	else if (exclude(lint, s, other, r, &apart))
		contradiction(sink, s, other, r, apart);
}

/* The first of a pair is put beside its other half, so as not to hide it. */
static void
axis_contradictions(struct lint *lint, struct session *s, struct sink *sink)
{
	lookup_begin(&lint->lookup, s->readings.len);
	for (size_t i = 0; i < s->readings.len; i++) {
		const struct reading *r = &s->readings.at[i];
		struct lookup_key key;

		if (on_axis(r))
			check_axis(lint, s, sink, r);
		if (r->twin > 0)
			continue;
		for (size_t k = r->twin < 0 ? i - 1 : i; k <= i; k++) {
			const struct reading *put = &s->readings.at[k];

			if (!on_axis(put))
				continue;
			key = axis_key(put, put->measurement);
			*lookup_put(&lint->lookup, &key) = (uint32_t)k;
		}
	}
}

/* Not tested, within limits, left out: told all the same. */
static void
put_without_figure(struct lint *lint, const struct session *s)
{
	for (size_t i = 0; i < s->readings.len; i++) {
		const struct reading *r = &s->readings.at[i];
		struct lookup_key key = axis_key(r, r->measurement);

		if (!on_axis(r))
			*lookup_put(&lint->lookup, &key) = (uint32_t)i;
	}
}

/* Is the other end of the axis of R told, in its mode or without any? */
static bool
other_end_told(struct lint *lint, const struct reading *r)
{
	struct reading like = *r;
	struct lookup_key key =
	    axis_key(&like, reading_measurement(r)->opposite);

	if (lookup_get(&lint->lookup, &key) != LOOKUP_NONE)
		return true;
	like.mode = NONE;
	key = axis_key(&like, reading_measurement(r)->opposite);
	return lookup_get(&lint->lookup, &key) != LOOKUP_NONE;
}

/* Adds to what axis_contradictions() gathered: is the extension told at all? */
static void
starts_not_written(struct lint *lint, struct session *s, struct sink *sink)
{
	put_without_figure(lint, s);
	for (size_t i = 0; i < s->readings.len; i++) {
		const struct reading *r = &s->readings.at[i];
		const struct vocab_measurement *m = reading_measurement(r);
		struct place place;
		struct finding *f;

		if (r->kind != KIND_END_ONLY ||
		    m->motion != VOCAB_MOTION_FLEXION || m->joint < 0 ||
		    !vocab_joints[m->joint].hinge)
			continue;
		if (other_end_told(lint, r))
			continue;
		place = reading_place(s, r);
		f = sink_add(sink, RULE_START_NOT_WRITTEN, &place, (int)i,
		    "where %s started is not written", lint_label(r).text);
		sink_hint(sink, f,
		    "write both ends: 0-118 starts at straight, 5-118 starts "
		    "5 short of it, 3-0-118 starts 3 beyond it");
	}
}

void
lint_axis(struct lint *lint, struct session *s, struct sink *sink)
{
	repeated_readings(lint, s, sink);
	axis_contradictions(lint, s, sink);
	starts_not_written(lint, s, sink);
}
