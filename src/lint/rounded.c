/*
 * The rule on all figures of a session: an instrument that shows single
 * degrees, and not one figure that does.
 */
#include "lint/internal.h"

static bool
by_single_degrees(const struct reading *r)
{
	return r->unit == VOCAB_UNIT_DEG && r->step == 10 && r->trials;
}

static bool
is_rounded(const struct trial *t)
{
	return t->end % 50 == 0 &&
	       (t->start == NO_VALUE || t->start % 50 == 0) &&
	       (t->minuend == NO_VALUE || t->minuend % 50 == 0);
}

static bool
all_rounded(const struct session *s, const struct reading *r)
{
	const struct trial *t = reading_trials(s, r);

	for (uint32_t k = 0; k < r->trials; k++)
		if (!is_rounded(&t[k]))
			return false;
	return true;
}

/* Does R stand where LAST does? One value of a hinge is two readings. */
static bool
is_same_value(const struct reading *last, const struct reading *r)
{
	return last && last->line == r->line && last->beg == r->beg;
}

/* The rule goes by readings; what is told is what one can count in the note. */
void
lint_rounded(struct lint *lint, struct session *s, struct sink *sink)
{
	const struct reading *last = NULL;
	unsigned readings = 0, values = 0;
	struct place place;
	struct finding *f;

	(void)lint;
	for (size_t i = 0; i < s->readings.len; i++) {
		const struct reading *r = &s->readings.at[i];

		if (!by_single_degrees(r))
			continue;
		if (!all_rounded(s, r))
			return;
		readings++;
		values += !is_same_value(last, r);
		last = r;
	}
	if (readings < 8 || s->line == 0)
		return;
	place = session_date_place(s);
	f = sink_add(sink, RULE_ROUNDED_READINGS, &place, NO_READING,
	    "all %u values of an instrument that shows single degrees end in "
	    "0 or 5",
	    values);
	sink_hint(sink, f,
	    "write what the instrument shows, or `step 5` if it is read to "
	    "five degrees");
}
