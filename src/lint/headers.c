/*
 * What the header lines of a session should say: who, when, by whom, with
 * what, and of which joint; and whether the session has anything of the joint
 * that they name. A header that could not be read is unknown, not missing: it
 * has been reported where it stands.
 */
#include <stdlib.h>

#include "lint/internal.h"
#include "lint/precaution.h"

static void
missing_session(const struct session *s, struct sink *sink)
{
	struct place place = reading_place(s, &s->readings.at[0]);
	struct finding *f = sink_add(sink, RULE_MISSING_HEADER, &place, 0,
	    "these readings have no session line above them, so nobody knows "
	    "on which day they were taken");

	f->level = LEVEL_ERROR;
	sink_hint(sink, f,
	    "write a line above them with the day: session YYYY-MM-DD");
}

static void
missing_subject(const struct place *place, struct sink *sink)
{
	struct finding *f = sink_add(sink, RULE_MISSING_HEADER, place,
	    NO_READING, "no subject: nobody knows whose readings these are");

	sink_hint(sink, f,
	    "write a line above the session with the code of the person, "
	    "never a name: subject CODE");
}

static void
missing_involved(const struct place *place, struct sink *sink)
{
	struct finding *f =
	    sink_add(sink, RULE_MISSING_HEADER, place, NO_READING,
		"no involved line: nobody knows which side to compare with "
		"which");

	sink_hint(sink, f,
	    "name side and joint above the session, such as: involved right "
	    "knee; or write: involved none");
}

/* An instrument serves degrees and lengths; scores and levels need none. */
static bool
needs_instrument(const struct reading *r)
{
	enum vocab_in in = reading_measurement(r)->in;

	return reading_is_number(r) &&
	       (in == VOCAB_IN_DEG || in == VOCAB_IN_LENGTH);
}

static void
missing_measuring(
    const struct session *s, const struct place *place, struct sink *sink)
{
	const struct reading *no_rater = NULL, *no_instrument = NULL;
	struct finding *f;

	for (size_t i = 0; i < s->readings.len; i++) {
		const struct reading *r = &s->readings.at[i];

		if (!no_rater && r->rater == 0 && r->kind != KIND_NOT_TESTED)
			no_rater = r;
		if (!no_instrument && r->instrument == NONE &&
		    needs_instrument(r))
			no_instrument = r;
	}
	if (no_rater) {
		f = sink_add(sink, RULE_MISSING_HEADER, place, NO_READING,
		    "no rater: who measured is not said, first on line %u",
		    (unsigned)no_rater->line);
		f->level = LEVEL_NOTE;
		sink_hint(sink, f,
		    "write the code of the one who measured above the "
		    "readings: rater CODE");
	}
	if (no_instrument) {
		f = sink_add(sink, RULE_MISSING_HEADER, place, NO_READING,
		    "no instrument: with what was measured is not said, "
		    "first on line %u",
		    (unsigned)no_instrument->line);
		f->level = LEVEL_NOTE;
		sink_hint(sink, f,
		    "write it above the readings, such as: instrument %s",
		    reading_measurement(no_instrument)->in == VOCAB_IN_DEG
			? "goniometer step 1"
			: "tape");
	}
}

/*
 * The involved joints that may be measured; false where no header says which
 * are involved, where none is, or where precautions rule all of them out.
 */
static bool
has_involved(const struct session *s)
{
	const struct headers *own = &s->headers;
	const struct headers *of_person = &s->person->headers;
	const struct joint_set *a = &own->involved_joints;
	const struct joint_set *b = &of_person->involved_joints;
	struct ruled_out *out;
	struct joint_set still;

	if (own->involved.said == SAID_UNREADABLE ||
	    of_person->involved.said == SAID_UNREADABLE)
		return false;
	out = precaution_ruled_out(s);
	still = precaution_still(out);
	free(out);
	return ((a->right | b->right) & ~still.right) ||
	       ((a->left | b->left) & ~still.left) ||
	       ((a->middle | b->middle) & ~still.middle);
}

/* Many readings of few joints: each joint and side is asked for once. */
static bool
measures_involved(const struct session *s)
{
	bool asked[VOCAB_MEASUREMENT_COUNT][VOCAB_SIDE_COUNT + 1] = {{false}};

	for (size_t i = 0; i < s->readings.len; i++) {
		const struct reading *r = &s->readings.at[i];
		bool *done = &asked[r->measurement][r->side - NONE];

		if (!*done && session_involves(s, r->measurement, r->side) == 1)
			return true;
		*done = true;
	}
	return false;
}

static void
involved_not_measured(
    const struct session *s, const struct place *place, struct sink *sink)
{
	struct finding *f;

	if (!has_involved(s) || measures_involved(s))
		return;
	f = sink_add(sink, RULE_INVOLVED_NOT_MEASURED, place, NO_READING,
	    "this session measures only joints or sides other than the "
	    "involved ones");
	sink_hint(sink, f,
	    "measure the involved joint, write NT with the reason, or correct "
	    "the involved line");
}

void
lint_headers(struct lint *lint, struct session *s, struct sink *sink)
{
	struct place place = session_date_place(s);

	if (s->line != 0) /* a session without readings is one too */
		lint->said_no_session = false;
	if (s->readings.len == 0 && !s->lost)
		return;
	if (s->line == 0) {
		if (s->readings.len > 0 && !lint->said_no_session)
			missing_session(s, sink);
		lint->said_no_session |= s->readings.len > 0;
		return; /* the rest would stand at the session's date */
	}
	if (s->person->said == SAID_NOTHING && !lint->said_no_subject) {
		lint->said_no_subject = true;
		missing_subject(&place, sink);
	}
	if (SESSION_FACT(s, involved)->said == SAID_NOTHING &&
	    history_once(lint, s, ONCE_NO_INVOLVED))
		missing_involved(&place, sink);
	missing_measuring(s, &place, sink);
	if (!s->lost) /* it may be the one that was lost */
		involved_not_measured(s, &place, sink);
}
