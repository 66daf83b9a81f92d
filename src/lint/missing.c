/*
 * The rules of completeness: what a reader of the note would look for and not
 * find. They go by the groups of the session (motion and setting): one pass
 * over the readings says of each group and side what was measured and what
 * was answered for, the rules then look at the groups alone.
 *
 * What a precaution rules out is never asked for. In a session without a
 * date nobody knows whether a dated precaution holds, so here it holds:
 * nobody shall be asked to do what may be forbidden.
 */
#include <stdlib.h>

#include "lint/missing.h"
#include "text/buffer.h"
#include "text/mem.h"

/* Joints, then the digits, for the measures of a whole digit. */
enum { KEYS = VOCAB_JOINT_COUNT + VOCAB_DIGIT_COUNT };

#define NO_GROUP UINT32_MAX

/* What the session has of one motion and setting. */
struct tally {
	struct {
		int32_t first[KINDS]; /* reading with a figure, or -1 */
		uint8_t answered;     /* 1 << kind: figure, WNL, NT + reason */
		uint8_t require;      /* of the readings with a figure */
	} side[SIDES];
	uint32_t next; /* group in the list of a struct lack */
};

/* What one finding will name: groups of one joint that lack something. */
struct lack {
	uint32_t first; /* group */
	uint32_t last;
	int reading; /* the first one concerned */
	int side; /* that lacks it; BOTH where it is now one, now the other */
	bool required;
	uint32_t *slot;
};

struct missing {
	struct lint *lint;
	const struct session *s;
	struct sink *sink;
	struct tally *tallies; /* by group */
	struct ruled_out *ruled_out;
	struct {
		struct lack *at;
		size_t len, cap;
	} lacks;
	uint32_t slot[KEYS][SIDES]; /* 1 + index in lacks, 0 none */
	bool taken[KINDS];	    /* anywhere in the session */
	bool none_involved;
};

/* The joint, or the digit of a measure of a whole digit, as one number. */
static int
joint_key(const struct vocab_measurement *v)
{
	return v->joint >= 0 ? v->joint : VOCAB_JOINT_COUNT + v->digit;
}

/* A motion of a limb: neither spine, nor jaw, nor a named measure. */
static bool
of_limb(const struct vocab_measurement *v)
{
	return v->motion >= 0 && !joint_is_midline(v->joint);
}

/* R answers for these kinds of the motion and side of TALLY. */
static void
count_answer(struct tally *tally, const struct reading *r)
{
	unsigned kinds = 1u << ANY | 1u << missing_kind(r);

	/* a fixed joint has no other motion; no mode answers for all */
	if (r->mode == NONE || r->kind == KIND_FIXED)
		kinds |= 1u << ACTIVE | 1u << PASSIVE;
	tally->side[missing_side(r)].answered |= (uint8_t)kinds;
}

/* The tally of MEASUREMENT in the setting of R, or NULL. */
static struct tally *
tally_of(struct missing *m, int measurement, const struct reading *r)
{
	uint32_t g = groups_find(&m->lint->groups, measurement, r->setting);

	return g == LOOKUP_NONE ? NULL : &m->tallies[g];
}

static void
count_reading(struct missing *m, const struct reading *r, int i)
{
	struct tally *t = &m->tallies[m->lint->groups.group_of[i]];
	int side = missing_side(r), kind = missing_kind(r);
	int other_end = missing_other_end(r);

	if (r->kind != KIND_NOT_TESTED)
		m->taken[kind] = true;
	if (!missing_is_answer(m->s, r))
		return;
	count_answer(t, r);
	if (!missing_has_figure(r)) {
		t = other_end >= 0 ? tally_of(m, other_end, r) : NULL;
		if (t)
			count_answer(t, r);
		return;
	}
	t->side[side].require |= r->require;
	if (t->side[side].first[ANY] < 0)
		t->side[side].first[ANY] = i;
	if (t->side[side].first[kind] < 0)
		t->side[side].first[kind] = i;
}

static void
count_readings(struct missing *m)
{
	size_t n = m->lint->groups.len;

	m->tallies = mem_resize(NULL, n, sizeof(*m->tallies));
	for (size_t g = 0; g < n; g++) {
		m->tallies[g] = (struct tally){.next = NO_GROUP};
		for (int side = 0; side < SIDES; side++)
			for (int kind = 0; kind < KINDS; kind++)
				m->tallies[g].side[side].first[kind] = -1;
	}
	for (size_t i = 0; i < m->s->readings.len; i++)
		count_reading(m, &m->s->readings.at[i], (int)i);
}

/*
 * Is SIDE (or NONE: any) of the joint involved? Where nothing is, as with a
 * healthy volunteer, what is required is required of every joint.
 */
static bool
is_concerned(const struct missing *m, int measurement, int side, bool required)
{
	int joint = vocab_measurements[measurement].joint;

	if (required && m->none_involved)
		return true;
	if (joint >= 0)
		return session_involved(m->s, joint, side) == 1;
	return session_involves(m->s, measurement, side) == 1;
}

static bool
is_unavailable(const struct session *s, int measurement, int side)
{
	uint64_t joints = measurement_joints(measurement);

	for (int j = 0; j < VOCAB_JOINT_COUNT; j++)
		if (joints >> j & 1 && session_unavailable(s, j, side))
			return true;
	return false;
}

/* Group G lacks it on SIDE, seen at READING: one entry a joint and slot. */
static void
add_lack(
    struct missing *m, size_t g, int slot, int side, int reading, bool required)
{
	int measurement = m->lint->groups.at[g].measurement;
	uint32_t *found =
	    &m->slot[joint_key(&vocab_measurements[measurement])][slot];
	struct lack *l;

	if (!*found) {
		l = MEM_PUSH(&m->lacks);
		*l = (struct lack){
		    (uint32_t)g, (uint32_t)g, reading, side, required, found};
		*found = (uint32_t)m->lacks.len;
		return;
	}
	l = &m->lacks.at[*found - 1];
	m->tallies[l->last].next = (uint32_t)g;
	l->last = (uint32_t)g;
	l->required |= required;
	if (l->side != side)
		l->side = BOTH;
	if (reading < l->reading)
		l->reading = reading;
}

static void
forget_lacks(struct missing *m)
{
	for (size_t i = 0; i < m->lacks.len; i++) {
		struct lack *l = &m->lacks.at[i];

		for (uint32_t g = l->first, next; g != NO_GROUP; g = next) {
			next = m->tallies[g].next;
			m->tallies[g].next = NO_GROUP;
		}
		*l->slot = 0;
	}
	m->lacks.len = 0;
}

/* "forearm pronation, supination" to MOTIONS, in the order written. */
static const char *
name_motions(
    const struct missing *m, const struct lack *l, struct buffer *motions)
{
	motions->len = 0;
	if (m->sink->names_only)
		return "";
	for (uint32_t g = l->first; g != NO_GROUP; g = m->tallies[g].next) {
		const struct group *group = &m->lint->groups.at[g];
		const struct vocab_measurement *v =
		    &vocab_measurements[group->measurement];

		buffer_puts(motions, g == l->first ? v->joint_name : ",");
		buffer_printf(motions, " %s", v->motion_name);
		if (group->setting)
			buffer_printf(motions, " (%s)",
			    intern_text(m->s->pool, group->setting));
	}
	buffer_putc(motions, '\0');
	return motions->data;
}

static struct place
place_of(const struct missing *m, int reading)
{
	return reading_place(m->s, &m->s->readings.at[reading]);
}

static void
report_opposite(struct missing *m, const struct lack *l, struct buffer *motions)
{
	int measurement = m->s->readings.at[l->reading].measurement;
	const struct vocab_measurement *v = &vocab_measurements[measurement];
	struct place place = place_of(m, l->reading);
	const char *word = missing_side_words[l->side];
	struct finding *f;

	if (l->side == BOTH)
		f = sink_add(m->sink, RULE_MISSING_OPPOSITE, &place, l->reading,
		    "%s: measured on one side only",
		    name_motions(m, l, motions));
	else
		f = sink_add(m->sink, RULE_MISSING_OPPOSITE, &place, l->reading,
		    "%s: measured %s %s only", name_motions(m, l, motions),
		    v->directed ? "to the" : "on the",
		    l->side == VOCAB_SIDE_RIGHT ? "left" : "right");
	if (v->directed)
		sink_hint(m->sink, f,
		    "measure the motion to the other side too, or write NT "
		    "with the reason");
	else
		sink_hint(m->sink, f,
		    "measure the other side too, or write NT with the reason; "
		    "if it cannot serve for comparison, say so in a header: "
		    "opposite %s%s unavailable \"reason\"",
		    l->side == BOTH ? "SIDE " : word, v->joint_name);
}

/* The group has figures on SIDE; does it lack the other one? */
static bool
lacks_opposite(const struct missing *m, const struct group *g,
    const struct tally *t, int side)
{
	int other = !side;
	bool required =
	    missing_requires(t->side[side].require, VOCAB_REQUIREMENT_OPPOSITE);

	return !(t->side[other].answered >> ANY & 1) &&
	       is_concerned(m, g->measurement, NONE, required) &&
	       !is_unavailable(m->s, g->measurement, other) &&
	       !(precaution_rules_out(
		     m->ruled_out, g->measurement, other, RULED_ACTIVE) &&
		   precaution_rules_out(
		       m->ruled_out, g->measurement, other, RULED_PASSIVE)) &&
	       !history_seen(m->lint, m->s, g->measurement, g->setting, other);
}

static void
missing_opposite(struct missing *m, struct buffer *motions)
{
	for (size_t i = 0; i < m->lint->groups.len; i++) {
		const struct group *g = &m->lint->groups.at[i];
		const struct tally *t = &m->tallies[i];
		const struct vocab_measurement *v =
		    &vocab_measurements[g->measurement];

		if (!v->sided ||
		    (v->directed && v->motion != VOCAB_MOTION_ROTATION &&
			v->motion != VOCAB_MOTION_LATERAL_FLEXION))
			continue;
		for (int side = 0; side < VOCAB_SIDE_COUNT; side++)
			if (t->side[side].first[ANY] >= 0 &&
			    lacks_opposite(m, g, t, side))
				add_lack(m, i, BOTH, !side,
				    t->side[side].first[ANY], false);
	}
	for (size_t i = 0; i < m->lacks.len; i++)
		report_opposite(m, &m->lacks.at[i], motions);
	forget_lacks(m);
}

/*
 * The side has the other mode only. Where the session took this mode
 * somewhere, or it is required, it is missed for each joint and side; else
 * one note says that the whole session has none of it.
 */
static int
find_mode(struct missing *m, int kind, enum vocab_requirement_id requirement)
{
	int other = kind == PASSIVE ? ACTIVE : PASSIVE;
	enum ruling ruling = kind == PASSIVE ? RULED_PASSIVE : RULED_ACTIVE;
	int untaken = NO_READING;

	for (size_t i = 0; i < m->lint->groups.len; i++) {
		int measurement = m->lint->groups.at[i].measurement;

		if (!of_limb(&vocab_measurements[measurement]))
			continue;
		for (int side = 0; side < VOCAB_SIDE_COUNT; side++) {
			const struct tally *t = &m->tallies[i];
			int first = t->side[side].first[other];
			bool required = missing_requires(
			    t->side[side].require, requirement);

			if (first < 0 || t->side[side].answered >> kind & 1 ||
			    !is_concerned(m, measurement, side, required) ||
			    precaution_rules_out(
				m->ruled_out, measurement, side, ruling))
				continue;
			if (required || m->taken[kind])
				add_lack(m, i, side, side, first, required);
			else if (untaken == NO_READING || first < untaken)
				untaken = first;
		}
	}
	return untaken;
}

static const struct mode_words {
	enum rule rule;
	enum vocab_requirement_id requirement;
	const char *has;
	const char *lacks;
	const char *hint;
} mode_words[KINDS] = {
    [ACTIVE] = {RULE_MISSING_ACTIVE, VOCAB_REQUIREMENT_ACTIVE, "passive",
	"active",
	"measure the active motion too where the person may do it, or write "
	"A NT with the reason"},
    [PASSIVE] = {RULE_MISSING_PASSIVE, VOCAB_REQUIREMENT_PASSIVE, "active",
	"passive",
	"measure the passive motion too where it is allowed, or write P NT "
	"with the reason"},
};

static void
missing_mode(struct missing *m, int kind, struct buffer *motions)
{
	const struct mode_words *w = &mode_words[kind];
	int untaken = find_mode(m, kind, w->requirement);
	struct finding *f;
	struct place place;

	for (size_t i = 0; i < m->lacks.len; i++) {
		const struct lack *l = &m->lacks.at[i];

		place = place_of(m, l->reading);
		f = sink_add(m->sink, w->rule, &place, l->reading,
		    "%s%s: %s motion only, the %s one was not measured",
		    missing_side_words[l->side], name_motions(m, l, motions),
		    w->has, w->lacks);
		sink_hint(m->sink, f, "%s", w->hint);
	}
	forget_lacks(m);
	if (untaken == NO_READING || m->s->line == 0)
		return;
	place = session_date_place(m->s);
	f = sink_add(m->sink, w->rule, &place, NO_READING,
	    "%s motion only: no %s motion was measured in this session", w->has,
	    w->lacks);
	f->level = LEVEL_NOTE;
	sink_hint(m->sink, f, "%s", w->hint);
}

/*
 * A passive reading to whose end one went and of which nobody says how it
 * felt. One end feel on a hinge's pair serves both: it was written there.
 */
static bool
lacks_end_feel(const struct missing *m, int i)
{
	const struct reading *r = &m->s->readings.at[i];

	return r->mode == VOCAB_MODE_PASSIVE && missing_has_figure(r) &&
	       r->kind != KIND_FIXED && r->end_feel == NONE &&
	       (r->twin == 0 || r[r->twin].end_feel == NONE) &&
	       !precaution_rules_out(
		   m->ruled_out, r->measurement, r->side, RULED_END_FEEL);
}

static void
missing_end_feel(struct missing *m, struct buffer *motions)
{
	const struct groups *groups = &m->lint->groups;

	for (size_t g = 0; g < groups->len; g++) {
		const uint32_t *order = groups->order + groups->at[g].first;
		int first = NO_READING;
		bool required = false;

		if (!of_limb(&vocab_measurements[groups->at[g].measurement]))
			continue;
		for (uint32_t i = 0; i < groups->at[g].count; i++) {
			if (!lacks_end_feel(m, (int)order[i]))
				continue;
			if (first == NO_READING)
				first = (int)order[i];
			required |= missing_requires(
			    m->s->readings.at[order[i]].require,
			    VOCAB_REQUIREMENT_END_FEEL);
		}
		if (first != NO_READING)
			add_lack(m, g, BOTH, BOTH, first, required);
	}
	for (size_t i = 0; i < m->lacks.len; i++) {
		const struct lack *l = &m->lacks.at[i];
		struct place place = place_of(m, l->reading);
		struct finding *f =
		    sink_add(m->sink, RULE_MISSING_END_FEEL, &place, l->reading,
			"%s: passive motion without an end feel",
			name_motions(m, l, motions));

		if (l->required)
			f->level = LEVEL_WARNING;
		sink_hint(m->sink, f,
		    "write behind the passive figure how the end felt: soft, "
		    "firm, hard, or one of empty, springy, guarding, boggy");
	}
	forget_lacks(m);
}

static bool
is_none_involved(const struct session *s)
{
	const struct headers *both[] = {&s->headers, &s->person->headers};

	for (int i = 0; i < 2; i++)
		if (both[i]->involved.said == SAID_UNREADABLE ||
		    !joint_set_empty(&both[i]->involved_joints))
			return false;
	return true;
}

void
lint_missing(struct lint *lint, struct session *s, struct sink *sink)
{
	struct missing m = {.lint = lint, .s = s, .sink = sink};
	struct buffer motions = {0};

	if (s->readings.len == 0)
		return;
	missing_postures(lint, s, sink);
	if (s->lost) /* what seems to be missing may be what was lost */
		return;
	m.ruled_out = precaution_ruled_out(s);
	m.none_involved = is_none_involved(s);
	count_readings(&m);
	missing_opposite(&m, &motions);
	missing_mode(&m, PASSIVE, &motions);
	missing_mode(&m, ACTIVE, &motions);
	missing_end_feel(&m, &motions);
	missing_required(s, m.ruled_out, sink);
	free(m.tallies);
	free(m.lacks.at);
	free(m.ruled_out);
	buffer_free(&motions);
}
