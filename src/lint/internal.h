/*
 * What the files of rules share. One file a group of rules; each exports one
 * function, called by lint_session() in the order of the table in lint.c.
 */
#ifndef LINT_INTERNAL_H
#define LINT_INTERNAL_H

#include <stdbool.h>
#include <stdint.h>

#include "lint/lint.h"

/*
 * Values by key, found in one step, so that no rule searches. A key is three
 * pairs of whatever its user puts there: see lookup_pair().
 */
struct lookup_key {
	uint64_t pair[3];
};

static inline uint64_t
lookup_pair(uint32_t a, uint32_t b)
{
	return (uint64_t)a << 32 | b;
}

struct lookup_entry {
	struct lookup_key key;
	uint32_t value;
};

struct lookup {
	struct lookup_entry *at;
	size_t len, cap;
	uint32_t *slots; /* 1 + entry, 0 = empty */
	size_t slot_cap; /* allocated */
	size_t size;	 /* in use, a power of 2 */
};

#define LOOKUP_NONE UINT32_MAX

/* Forgets all keys; costs as much as the number of keys that is EXPECTED. */
void lookup_begin(struct lookup *lookup, size_t expected);

/* The value of KEY, LOOKUP_NONE where it has none. */
uint32_t lookup_get(const struct lookup *lookup, const struct lookup_key *key);

/*
 * Where the value of KEY stands, LOOKUP_NONE if it is new; valid until the
 * next call.
 */
uint32_t *lookup_put(struct lookup *lookup, const struct lookup_key *key);

void lookup_free(struct lookup *lookup);

/* Fields in which readings must be alike for a comparison. */
enum like {
	LIKE_POSTURE = 1,
	LIKE_RATER = 2,
	LIKE_INSTRUMENT = 4,
	LIKE_REPS = 8
};

/*
 * The key of readings of one MEASUREMENT, setting, side and MODE that are like
 * R in FIELDS (enum like).
 */
struct lookup_key lint_key(
    const struct reading *r, int measurement, int mode, unsigned fields);

/*
 * The readings of one measurement and setting, in the order written. A
 * comparison is between readings of one group.
 */
struct group {
	int16_t measurement;
	uint32_t setting;
	uint32_t first; /* in groups.order */
	uint32_t count;
};

/* Groups in the order of their first reading; one pass builds them. */
struct groups {
	struct group *at;
	size_t len, cap;
	uint32_t *order; /* reading indices, group after group */
	size_t order_cap;
	uint32_t *group_of; /* by reading index */
	size_t group_of_cap;
	struct lookup lookup; /* by measurement and setting */
};

void groups_build(struct groups *groups, const struct session *s);

/* The group of MEASUREMENT in SETTING, LOOKUP_NONE where it has none. */
uint32_t groups_find(
    const struct groups *groups, int measurement, uint32_t setting);

void groups_free(struct groups *groups);

struct history; /* of the persons of a file: history.c */

struct lint {
	struct lint_options options;
	struct groups groups; /* of the session at hand */
	struct lookup lookup; /* scratch of one rule at a time */
	struct history *history;
	bool said_no_subject;	      /* once a file */
	bool said_no_session;	      /* once until the next session line */
	uint32_t future_surgery_line; /* of the last person judged */
};

/* Each judges the session at hand; lint->groups is built. */
typedef void lint_rules(
    struct lint *lint, struct session *s, struct sink *sink);
lint_rules lint_values, lint_rounded, lint_axis, lint_active_passive,
    lint_history, lint_missing, lint_headers, lint_safety, lint_privacy,
    lint_dates;

/* Marks accepted findings, reports acceptances that are unused or bare. */
void lint_acceptances(struct session *s, struct sink *sink);

/*
 * The tolerance between two readings of one measurement, in tenths of the
 * unit of A: the greater of the option and one step of either instrument; 0
 * for scores and levels. Centimetres: the option is read as millimetres.
 */
int32_t lint_tolerance(
    const struct lint *lint, const struct reading *a, const struct reading *b);

/* The same in tenths of the base unit: millimetres also for centimetres. */
int32_t lint_tolerance_base(
    const struct lint *lint, const struct reading *a, const struct reading *b);

/* Tenths of the base unit: millimetres for centimetres. */
static inline int32_t
lint_base(int32_t tenths, int unit)
{
	return unit == VOCAB_UNIT_CM ? tenths * 10 : tenths;
}

/* A figure as messages write it: `52`, `21.5 cm`. */
struct lint_figure {
	char text[32];
};

struct lint_figure lint_figure(int64_t hundredths, int unit);

/* "right forearm supination passive": what a message says of whose figure. */
struct lint_label {
	char text[96];
};

struct lint_label lint_label(const struct reading *r);

/* The same as it was written: a hinge's pair names no motion. */
struct lint_label lint_label_written(const struct reading *r);

struct history *history_new(void);
void history_free(struct history *history);
void history_reset(struct history *history);

/* Remembers S for later sessions, once all rules have judged it. */
void history_update(struct lint *lint, const struct session *s);

/*
 * What earlier sessions of this person in the file measured, for
 * missing-opposite: true where MEASUREMENT in SETTING was seen on SIDE, or
 * accounted for (WNL, WFL, or NT with a reason).
 */
bool history_seen(const struct lint *lint, const struct session *s,
    int measurement, uint32_t setting, int side);

/*
 * The day of the last session of this person above S in the file that has
 * one; false where there is none.
 */
bool history_last_day(
    const struct lint *lint, const struct session *s, int32_t *day);

/* Once a person: true the first time it is asked for this person and what. */
enum once { ONCE_NO_INVOLVED, ONCE_AGE_CONFLICT };
bool history_once(struct lint *lint, const struct session *s, enum once what);

#endif
