/*
 * What a file said of a person before the session at hand: where each motion
 * ended last, which were measured at all, the day of the last session. Memory
 * grows with persons and what was measured of them, not with sessions.
 *
 * Readings before any `subject` line are of one person without a code. A
 * person whose `subject` line could not be read is like nobody: nothing is
 * compared with other sessions, since nobody knows whose they are.
 */
#include <stdlib.h>
#include <string.h>

#include "calc/value.h"
#include "lint/internal.h"
#include "lint/missing.h"
#include "lint/past.h"
#include "text/mem.h"

/* A lost digit takes more than this, in tenths of a degree. */
#define DROP 400

#define NOBODY UINT32_MAX

/* A person of more items is not packed: persons may come in turns. */
#define PACKED_MOST 256

/*
 * Items of two kinds stand in one list: the last end of a motion, by its
 * identity; and of a group, in `n`, the sides that were seen, as bits
 * 1 << (1 + side).
 */
enum subject { OF_GROUP, OF_IDENTITY };

/* One person; what is known of the one at hand is in history.open. */
struct person_past {
	struct past_list *large; /* of more than PACKED_MOST items, or NULL */
	char *packed;		 /* else: past_pack() */
	uint32_t packed_len;
	int32_t day;   /* of the last session; DATE_NONE */
	unsigned told; /* bits 1 << enum once */
};

struct history {
	struct lookup persons; /* by code */
	struct person_past *at;
	size_t len, cap;

	struct past_list open;
	uint32_t open_person; /* whose it is; NOBODY */
	struct buffer packing;

	/* By reading of the session at hand: its past, LOOKUP_NONE if none. */
	uint32_t *past_of;
	size_t past_of_cap;

	uint32_t unknown_line; /* of the last person without a readable code */
	unsigned unknown_told;
};

struct history *
history_new(void)
{
	struct history *history = mem_zero(sizeof(*history));

	history->open_person = NOBODY;
	return history;
}

void
history_free(struct history *history)
{
	history_reset(history);
	lookup_free(&history->persons);
	past_free(&history->open);
	buffer_free(&history->packing);
	free(history->at);
	free(history->past_of);
	free(history);
}

void
history_reset(struct history *history)
{
	for (size_t i = 0; i < history->len; i++) {
		struct person_past *person = &history->at[i];

		free(person->packed);
		if (person->large)
			past_free(person->large);
		free(person->large);
	}
	lookup_begin(&history->persons, 0);
	history->len = 0;
	history->open_person = NOBODY;
	history->unknown_line = 0;
	history->unknown_told = 0;
}

static bool
person_known(const struct session *s)
{
	return s->person->said != SAID_UNREADABLE;
}

/* The person of S, or NULL where nothing is known. */
static struct person_past *
person_find(const struct history *history, const struct session *s)
{
	struct lookup_key key = {{s->person->code}};
	uint32_t found =
	    person_known(s) ? lookup_get(&history->persons, &key) : LOOKUP_NONE;

	return found == LOOKUP_NONE ? NULL : &history->at[found];
}

/* The same, new if need be; valid until the next call. */
static struct person_past *
person_find_or_add(struct history *history, const struct session *s)
{
	struct lookup_key key = {{s->person->code}};
	uint32_t *value = lookup_put(&history->persons, &key);

	if (*value == LOOKUP_NONE) {
		*value = (uint32_t)history->len;
		*MEM_PUSH(history) = (struct person_past){.day = DATE_NONE};
	}
	return &history->at[*value];
}

/* Puts away what is open, whose person is left. */
static void
close_person(struct history *history)
{
	struct person_past *person = &history->at[history->open_person];

	if (history->open.len > PACKED_MOST) {
		person->large = mem_zero(sizeof(*person->large));
		*person->large = history->open;
		history->open = (struct past_list){0};
		return;
	}
	history->packing.len = 0;
	past_pack(&history->open, &history->packing);
	person->packed_len = (uint32_t)history->packing.len;
	person->packed = mem_resize(person->packed, history->packing.len, 1);
	if (person->packed_len)
		memcpy(
		    person->packed, history->packing.data, person->packed_len);
}

/* What is known of PERSON, open. */
static struct past_list *
open_person(struct history *history, struct person_past *person)
{
	uint32_t i = (uint32_t)(person - history->at);

	if (i == history->open_person)
		return &history->open;
	if (history->open_person != NOBODY)
		close_person(history);
	history->open_person = i;
	if (person->large) {
		past_free(&history->open);
		history->open = *person->large;
		free(person->large);
		person->large = NULL;
		return &history->open;
	}
	past_reset(&history->open);
	past_unpack(&history->open, person->packed, person->packed_len);
	return &history->open;
}

static struct lookup_key
group_key(int measurement, uint32_t setting)
{
	return (struct lookup_key){{lookup_pair((uint32_t)measurement, setting),
	    0, lookup_pair(OF_GROUP, 0)}};
}

static struct lookup_key
identity_key(const struct reading *r)
{
	struct lookup_key key =
	    lint_key(r, r->measurement, r->mode, LIKE_POSTURE | LIKE_REPS);

	key.pair[2] |= lookup_pair(OF_IDENTITY, 0);
	return key;
}

/* "ends at 11", "lacks 50": never a minus sign, which is read both ways. */
static const char *
end_verb(struct mean *end, const char *ends, const char *lacks)
{
	if (mean_compare_to(*end, 0) >= 0)
		return ends;
	end->sum = -end->sum;
	return lacks;
}

static void
drop(const struct session *s, const struct reading *r, struct sink *sink,
    const struct past *past)
{
	struct mean before = {past->sum, past->n};
	struct mean now = mean_end(s, r);
	const char *ends, *ended;
	struct place place;
	struct finding *f;
	char day[16];

	if (mean_compare_to(mean_less(before, now), DROP) <= 0)
		return;
	ends = end_verb(&now, "ends at", "lacks");
	ended = end_verb(&before, "ended at", "lacked");
	place = reading_place(s, r);
	f = sink_add(sink, RULE_DROP_FROM_LAST, &place,
	    (int)(r - s->readings.at),
	    "%s %s %s; in the session of %s it %s %s", lint_label(r).text, ends,
	    lint_figure(mean_hundredths(now), r->unit).text,
	    date_format(past->day, day), ended,
	    lint_figure(mean_hundredths(before), r->unit).text);
	sink_hint(sink, f,
	    "was a digit lost, such as 15 for 150? if the loss is real, tell "
	    "the referring practitioner and accept this with the reason");
}

/*
 * Looks each reading of degrees up once; history_update() goes by the numbers
 * found here. Undated sessions have no place in the order of sessions.
 */
void
lint_history(struct lint *lint, struct session *s, struct sink *sink)
{
	struct history *history = lint->history;
	struct past_list *known = NULL;
	size_t n = s->readings.len;

	if (n > history->past_of_cap) {
		history->past_of_cap = n + n / 2;
		history->past_of = mem_resize(history->past_of,
		    history->past_of_cap, sizeof(*history->past_of));
	}
	if (s->said == SAID && person_known(s))
		known = open_person(history, person_find_or_add(history, s));
	for (size_t i = 0; i < n; i++) {
		const struct reading *r = &s->readings.at[i];
		const struct past *past;
		struct lookup_key key;

		history->past_of[i] = LOOKUP_NONE;
		if (!known || r->left_out || !reading_is_number(r) ||
		    !r->trials || r->unit != VOCAB_UNIT_DEG)
			continue;
		key = identity_key(r);
		past = past_find_or_add(known, &key);
		history->past_of[i] = (uint32_t)(past - known->at);
		if (past->n)
			drop(s, r, sink, past);
	}
}

/* The sides of a group that were measured or accounted for. */
struct sides {
	unsigned seen;
	unsigned other_end; /* those that speak of a hinge's extension too */
};

static struct sides
sides_seen(
    const struct lint *lint, const struct session *s, const struct group *g)
{
	const uint32_t *order = lint->groups.order + g->first;
	struct sides sides = {0, 0};

	for (uint32_t i = 0; i < g->count; i++) {
		const struct reading *r = &s->readings.at[order[i]];

		if (!missing_is_answer(s, r))
			continue;
		sides.seen |= 1u << (1 + r->side);
		if (missing_other_end(r) >= 0)
			sides.other_end |= 1u << (1 + r->side);
	}
	return sides;
}

static void
remember_sides(
    struct past_list *known, int measurement, uint32_t setting, unsigned seen)
{
	struct lookup_key key = group_key(measurement, setting);

	if (seen)
		past_find_or_add(known, &key)->n |= seen;
}

void
history_update(struct lint *lint, const struct session *s)
{
	struct history *history = lint->history;
	struct person_past *person;
	struct past_list *known;

	if (!person_known(s))
		return;
	person = person_find_or_add(history, s);
	known = open_person(history, person);
	for (size_t g = 0; g < lint->groups.len; g++) {
		const struct group *group = &lint->groups.at[g];
		struct sides sides = sides_seen(lint, s, group);

		remember_sides(
		    known, group->measurement, group->setting, sides.seen);
		remember_sides(known,
		    vocab_measurements[group->measurement].opposite,
		    group->setting, sides.other_end);
	}
	if (s->said != SAID)
		return;
	person->day = s->day;
	for (size_t i = 0; i < s->readings.len; i++) {
		struct past *past;
		struct mean end;

		if (history->past_of[i] == LOOKUP_NONE)
			continue;
		end = mean_end(s, &s->readings.at[i]);
		past = &known->at[history->past_of[i]];
		past->day = s->day;
		past->sum = (int32_t)end.sum;
		past->n = (uint32_t)end.n;
	}
}

bool
history_seen(const struct lint *lint, const struct session *s, int measurement,
    uint32_t setting, int side)
{
	struct person_past *person = person_find(lint->history, s);
	struct lookup_key key = group_key(measurement, setting);
	const struct past *past =
	    person ? past_find(open_person(lint->history, person), &key) : NULL;

	return past && past->n & 1u << (1 + side);
}

bool
history_last_day(const struct lint *lint, const struct session *s, int32_t *day)
{
	const struct person_past *person = person_find(lint->history, s);

	if (!person || person->day == DATE_NONE)
		return false;
	*day = person->day;
	return true;
}

/* Two persons with unreadable codes are told apart by their lines alone. */
static unsigned *
told_of(struct history *history, const struct session *s)
{
	if (person_known(s))
		return &person_find_or_add(history, s)->told;
	if (history->unknown_line != s->person->line) {
		history->unknown_line = s->person->line;
		history->unknown_told = 0;
	}
	return &history->unknown_told;
}

bool
history_once(struct lint *lint, const struct session *s, enum once what)
{
	unsigned *told = told_of(lint->history, s);
	unsigned bit = 1u << what;
	bool first = !(*told & bit);

	*told |= bit;
	return first;
}
