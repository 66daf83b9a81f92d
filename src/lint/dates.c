/*
 * Days that have not come yet, sessions out of order, ages that do not fit.
 * The days of precautions and goals may lie ahead: that is their purpose.
 */
#include "lint/internal.h"

enum { OLDEST = 120 }; /* years */

static void
future_session(struct lint *lint, const struct session *s, struct sink *sink)
{
	struct place place;
	struct finding *f;
	char today[16];

	if (s->said != SAID || s->day <= lint->options.today)
		return;
	place = session_date_place(s);
	f = sink_add(sink, RULE_FUTURE_DATE, &place, NO_READING,
	    "this session is dated later than today, %s",
	    date_format(lint->options.today, today));
	sink_hint(sink, f, "correct the day of the session");
}

static void
future_surgery(
    const struct lint *lint, const struct fact *surgery, struct sink *sink)
{
	struct finding *f;
	char today[16];

	if (surgery->said != SAID || surgery->value <= lint->options.today)
		return;
	f = sink_add(sink, RULE_FUTURE_DATE, &surgery->place, NO_READING,
	    "this surgery is dated later than today, %s",
	    date_format(lint->options.today, today));
	sink_hint(sink, f,
	    "correct the day; a surgery that is only planned belongs in a "
	    "remark");
}

static void
out_of_order(
    const struct lint *lint, const struct session *s, struct sink *sink)
{
	struct place place;
	struct finding *f;
	char day[16];
	int32_t before;

	if (s->said != SAID || !history_last_day(lint, s, &before) ||
	    s->day >= before)
		return;
	place = session_date_place(s);
	f = sink_add(sink, RULE_SESSIONS_OUT_OF_ORDER, &place, NO_READING,
	    "this session is dated before the one above it, %s",
	    date_format(before, day));
	sink_hint(sink, f,
	    "correct the day, or move the session so that the oldest comes "
	    "first");
}

/*
 * A surgery line of the person is in force for many sessions: said once, with
 * the first of them, and also where all sessions have one of their own.
 */
static void
future_surgeries(struct lint *lint, const struct session *s, struct sink *sink)
{
	const struct fact *of_person = &s->person->headers.surgery;

	if (of_person->said == SAID &&
	    of_person->place.line != lint->future_surgery_line) {
		lint->future_surgery_line = of_person->place.line;
		future_surgery(lint, of_person, sink);
	}
	future_surgery(lint, &s->headers.surgery, sink);
}

/* The later of two places in the file. */
static struct place
later(struct place a, struct place b)
{
	return b.line > a.line ? b : a;
}

static void
report_age(struct lint *lint, const struct session *s, struct sink *sink,
    const struct place *place, const char *message)
{
	struct finding *f;

	if (!history_once(lint, s, ONCE_AGE_CONFLICT))
		return;
	f = sink_add(sink, RULE_AGE_CONFLICT, place, NO_READING, "%s", message);
	sink_hint(sink, f,
	    "compare born, age and the day of the session: one of them is "
	    "wrong, or the note is of somebody else");
}

/*
 * The age that the person's header gives was right once: at the first
 * session. An age that the session itself gives is held against that session.
 */
static void
age_conflict(struct lint *lint, const struct session *s, struct sink *sink)
{
	const struct fact *born = SESSION_FACT(s, born);
	const struct fact *age = SESSION_FACT(s, age);
	bool dated = s->said == SAID;
	struct place place = session_date_place(s);
	int32_t before, years;
	bool first = !history_last_day(lint, s, &before);

	if (age->said == SAID && age->value > OLDEST) {
		report_age(lint, s, sink, &age->place, "an age over 120");
		return;
	}
	if (born->said != SAID || !dated)
		return;
	years = date_year(s->day) - born->value;
	place = later(born->place, place);
	if (years < 0) {
		report_age(lint, s, sink, &place,
		    "the session is dated before the year of birth");
		return;
	}
	if (years > OLDEST) {
		report_age(lint, s, sink, &place,
		    "born and the day of the session make an age over 120");
		return;
	}
	if (age->said != SAID || (age != &s->headers.age && !first) ||
	    (age->value >= years - 1 && age->value <= years + 1))
		return;
	place = later(age->place, place);
	report_age(lint, s, sink, &place,
	    "born, age and the day of the session disagree by more than a "
	    "year");
}

void
lint_dates(struct lint *lint, struct session *s, struct sink *sink)
{
	future_session(lint, s, sink);
	future_surgeries(lint, s, sink);
	out_of_order(lint, s, sink);
	age_conflict(lint, s, sink);
}
