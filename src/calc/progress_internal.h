/*
 * What the files of progress share: progress.c collects, progress_series.c
 * orders, progress_postures.c tells postures apart, progress_trends.c fits
 * lines, progress_change.c compares, progress_precautions.c knows the limits in
 * force, progress_totals.c adds digits up, and progress_keys.c finds persons,
 * series and goals by key.
 */
#ifndef CALC_PROGRESS_INTERNAL_H
#define CALC_PROGRESS_INTERNAL_H

#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include "calc/progress.h"
#include "calc/totals.h"

/* What a key is of; it is the key's first word. */
enum progress_of {
	PROGRESS_OF_PERSON,	 /* subject, file where there is none */
	PROGRESS_OF_MEASUREMENT, /* person, measurement */
	PROGRESS_OF_CONDITIONS,	 /* that, setting, posture, repetitions, mode;
				    set where postures are series apart */
	PROGRESS_OF_SERIES,	 /* that, side */
	PROGRESS_OF_FAMILY,	 /* a series in any setting and posture */
	PROGRESS_OF_AIM,	 /* what one goal speaks of, of a person */
	PROGRESS_OF_GOAL,	 /* headers of a person, reading */
	PROGRESS_OF_OWN_GOAL	 /* session, reading */
};

enum { PROGRESS_WORDS = 8 };

struct progress_key {
	uint32_t word[PROGRESS_WORDS];
};

struct progress_keys {
	struct intern pool; /* of the keys */
	uint32_t *value;    /* by number of the key */
	size_t len, cap;

	/* The headers of the person at hand: told by file and line. */
	uint32_t headers;
	uint32_t headers_file;
	uint32_t headers_line;
	bool headers_known;
	struct progress_run precautions; /* of them */

	struct totals totals; /* scratch: of the session at hand */
};

/*
 * The number of KEY, the greater the later it was first asked for; what is
 * stored with it is k->value[number], PROGRESS_NONE until it is set.
 */
uint32_t progress_key_number(
    struct progress_keys *k, const struct progress_key *key);

/* Where the value of KEY stands; valid until the next call. */
uint32_t *progress_key_value(
    struct progress_keys *k, const struct progress_key *key);

/* The keys of a series; MODE and SIDE may differ from its own. */
struct progress_key progress_series_key(
    const struct progress_series *series, int side, int mode);
struct progress_key progress_goal_key(
    enum progress_of of, uint32_t headers, int measurement, int side, int mode);

/* Less than 0, 0, more than 0: for the functions that order. */
#define PROGRESS_ORDER(a, b) (((a) > (b)) - ((a) < (b)))

/* qsort(), but nothing may be nowhere. */
static inline void
progress_sort(
    void *at, size_t len, size_t size, int (*by)(const void *, const void *))
{
	if (len > 1)
		qsort(at, len, size, by);
}

/*
 * Takes the precautions of H: those of a session hold from its day SINCE on,
 * those of a person from DATE_NONE.
 */
struct progress_run progress_take_precautions(
    struct progress *p, const struct headers *h, int32_t since);

/* TEXT, or nothing for NULL, in the pool that stays. */
uint32_t progress_keep(struct progress *p, const char *text);

/* A text of the session's pool in the pool that stays. */
uint32_t progress_keep_id(
    struct progress *p, const struct session *s, uint32_t id);

/* Takes the totals of S, which is session SESSION. */
void progress_take_totals(
    struct progress *p, const struct session *s, uint32_t session);

/* Once sessions are ordered. */
void progress_order_totals(struct progress *p);

/* A point by who measured it with what. */
struct progress_alike {
	uint32_t rater;
	int32_t instrument;
	uint32_t point;
	uint32_t last_of_rater; /* the last by that rater up to here */
};

/* By rater, instrument, point. */
int progress_by_alike(const void *a, const void *b);

/* The series like SERIES in side, posture and so on: its number, maybe new. */
uint32_t progress_series_like(
    struct progress *p, const struct progress_series *like);

/* As points are added: notes where one session measures in two postures. */
void progress_note_posture(
    struct progress *p, const struct progress_point *point);

/* Once all are added: parts the series of which that was noted. */
void progress_part_postures(struct progress *p);

/* Once points are ordered and nothing is found by key any more. */
void progress_name_postures(struct progress *p);

/* The posture of SERIES at its last session, or the one named last. */
uint32_t progress_last_posture(
    const struct progress *p, const struct progress_series *series);

/* Once points are ordered and linked. */
void progress_find_trends(struct progress *p);

#endif
