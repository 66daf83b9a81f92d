/*
 * Change from session to session. The readings of all sessions are collected,
 * then brought into series: what was measured of one person under one
 * identity, bar rater, instrument and, as a rule, posture. Each figure knows
 * the one that it is to be held against; what changed beside the figure is
 * told, never smoothed over. Nothing here judges or prints, nothing is a mean
 * over raters, settings or sides, and nothing looks beyond the last session.
 *
 * All texts are copied, so no session needs to outlive its progress_add().
 * Memory grows with the readings.
 */
#ifndef CALC_PROGRESS_H
#define CALC_PROGRESS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "calc/trend.h"
#include "calc/value.h"
#include "diag/diag.h"
#include "record/record.h"
#include "reference/reference.h"

#define PROGRESS_NONE UINT32_MAX

/* Some that follow one another in a list. */
struct progress_run {
	uint32_t from;
	uint32_t count;
};

struct progress_session {
	uint32_t person;
	uint32_t file; /* interned */
	uint32_t label;
	int32_t day;
	int time;	 /* minutes, TIME_NONE */
	int32_t surgery; /* the day in force, DATE_NONE */
	uint32_t surgery_text;
	uint32_t headers; /* those of the person whose goals hold */
	uint32_t number;  /* in the order added */
	struct progress_run precautions[2]; /* of the person, its own */
};

/* One reading in a series. */
struct progress_point {
	uint32_t series;
	uint32_t session;
	uint32_t line;
	uint32_t posture; /* interned; 0 where none is written */
	uint32_t rater;	  /* 0 none; UNKNOWN_TEXT */
	uint32_t trials;
	uint32_t words; /* the levels; the reason of a reading without figure */
	int32_t step;	/* of the instrument, in the reading's unit; NO_VALUE */
	uint8_t kind;	/* enum kind */
	int8_t unit;
	int8_t instrument; /* enum vocab_instrument_id, NONE or UNKNOWN */
	int8_t involved;   /* 1 yes, 0 no, -1 not known */
	bool left_out;	   /* doubtful: shown, never computed with */
	bool usable;	   /* has a figure (or level) to be held against */
	uint64_t rules;	   /* 1 << enum rule: what was found at it */
	uint64_t accepted; /* those that the note accepts */
	struct mean start; /* as written */
	struct mean end;   /* a level: its number, n 1 */
	uint32_t first;	   /* the point of the first session to hold it to */
	uint32_t previous; /* the same of the session before; or NONE */
	uint32_t trend;	   /* of the readings like it, up to it; or NONE */
};

struct progress_series {
	uint32_t person;
	int16_t measurement;
	int8_t side; /* enum vocab_side_id, or NONE */
	int8_t mode; /* enum vocab_mode_id, or NONE */
	int8_t unit; /* in which figures are shown: that of all, or mm */
	uint32_t setting;
	uint32_t posture; /* of all its points; 0 where one differs */
	bool postures;	  /* its points name more than one */
	bool newest;	  /* no session after its last has the motion */
	int32_t reps;	  /* NO_VALUE */
	uint32_t seen;	  /* the last session with a figure while adding */
	uint32_t seen_posture;
	uint32_t rank[4]; /* when its motion, its conditions in any posture and
			     in its own, and itself came */
	uint32_t point;	  /* first of its points, by session */
	uint32_t points;
	uint32_t sessions; /* that have a usable point */
	uint32_t last;	   /* the usable points of the last of them */
	uint32_t last_count;
	uint32_t other;	 /* the same on the other side, or NONE */
	uint32_t before; /* in another posture or setting until it began */
};

/* The total motion of a digit in one session. */
struct progress_total {
	uint32_t person;
	uint32_t session;
	int8_t definition; /* of calc/totals.h */
	int8_t side;
	int8_t mode;
	uint32_t setting;
	int32_t reps; /* NO_VALUE */
	uint32_t rater;
	struct mean sum; /* tenths of a degree; n 0 where a part is missing */
};

struct progress_person {
	uint32_t code;	 /* interned; 0 where there is no subject */
	uint32_t file;	 /* the first */
	uint32_t series; /* the first of its series */
	uint32_t series_count;
	uint32_t session; /* the first of its sessions */
	uint32_t session_count;
	struct progress_run totals;
};

struct progress_goal {
	int32_t end; /* tenths of its unit; a level its number */
	int32_t by;  /* day, DATE_NONE */
	int8_t unit;
	uint32_t next; /* for the same reading, or NONE */
	uint32_t last; /* the last for it, kept by the first */
};

struct progress_precaution {
	struct precaution as; /* without its reason and place */
	uint32_t reason;      /* interned; 0 none */
	int32_t since;	      /* the first day that it is known for; or
				 DATE_NONE */
};

struct progress_trend {
	struct trend line; /* base units (mm for cm) a week */
	uint32_t from;	   /* first point of it */
	uint32_t to;
};

/*
 * Once finished, sessions stand person by person and by day, series person by
 * person and by motion in the order first seen, points series by series and
 * by session, totals person by person, those alike by session and rater.
 */
struct progress {
	struct intern pool; /* of the texts */
	struct {
		struct progress_person *at;
		size_t len, cap;
	} persons;
	struct {
		struct progress_session *at;
		size_t len, cap;
	} sessions;
	struct {
		struct progress_series *at;
		size_t len, cap;
	} series;
	struct {
		struct progress_point *at;
		size_t len, cap;
	} points;
	struct {
		struct progress_goal *at;
		size_t len, cap;
	} goals;
	struct {
		struct progress_precaution *at;
		size_t len, cap;
	} precautions;
	struct {
		struct progress_total *at;
		size_t len, cap;
	} totals;
	struct {
		struct progress_trend *at;
		size_t len, cap;
	} trends;
	size_t undated;	 /* sessions without a day: they have no place */
	size_t nameless; /* sessions whose subject could not be read */
	struct progress_keys *keys;
};

struct progress *progress_new(void);

/* Adds the readings of S, once it was judged; SINK holds what was found. */
void progress_add(
    struct progress *p, const struct session *s, const struct sink *sink);

/* Once, after the last session: brings everything into order. */
void progress_finish(struct progress *p);
void progress_free(struct progress *p);

/* Was a second reading taken by the same rater, with the same instrument? */
enum progress_same {
	PROGRESS_SAME,
	PROGRESS_CHANGED,
	PROGRESS_UNNAMED, /* neither reading names one */
	PROGRESS_UNKNOWN  /* one of them does not, or could not be read */
};

enum progress_beyond { PROGRESS_NO, PROGRESS_YES, PROGRESS_DOUBT };

/* Why nobody can say whether a change is beyond error. */
enum progress_why {
	PROGRESS_NO_DOUBT,
	PROGRESS_NO_FIGURE,	/* of error, for such a measurement */
	PROGRESS_NO_INSTRUMENT, /* it changed, or one is not known */
	PROGRESS_NO_POSTURE,	/* it changed */
	PROGRESS_BETWEEN	/* the figures of the source differ */
};

/*
 * How far two readings may differ by measuring alone, tenths of the base unit.
 * Two raters err no less than one, two instruments no less than the worse of
 * them: of several figures that of the greatest high end is taken.
 */
struct progress_error {
	bool known;
	int32_t low, high;
	bool at_least; /* instruments differ: the true figure may be greater */
	bool by_step;  /* one step of the instrument is more than the figure */
	bool two_raters; /* the figure taken is that of two */
	int instrument;	 /* for which it holds, or NONE */
	struct ref_error of;
};

struct progress_change {
	struct mean by; /* base units; n 0 where there is no figure */
	int levels;	/* of a level: 1 higher, 0 the same, -1 lower */
	enum progress_same rater;
	enum progress_same instrument;
	bool posture; /* both are written, and they differ */
	bool step;    /* the instrument's step is another */
	bool surgery; /* lies between */
	struct progress_error error;
	enum progress_beyond beyond;
	enum progress_why why;
};

/* From point FROM to point TO of one series. */
void progress_change(const struct progress *p, uint32_t from, uint32_t to,
    struct progress_change *out);

/*
 * The figure that is followed, in the base unit: the end; for schober, where
 * both marks are written, how far they part. n is 0 where there is none.
 */
struct mean progress_figure(
    const struct progress_series *series, const struct progress_point *point);

/* A figure of the base unit in the unit in which SERIES is shown. */
struct mean progress_shown(const struct progress_series *series, struct mean m);

/*
 * The goals in force at the session of POINT for its reading, in the order of
 * the note: at most N go to OUT. Returns how many there are, at most N + 1.
 */
size_t progress_goals(const struct progress *p, uint32_t point,
    const struct progress_goal **out, size_t n);

/* What is left to GOAL, base units; 0 or less where it is reached. */
struct mean progress_to_go(
    const struct progress *p, uint32_t point, const struct progress_goal *goal);

/* Is the level of POINT that of GOAL, or a better one? */
bool progress_level_reached(
    const struct progress_point *point, const struct progress_goal *goal);

/*
 * The precautions in force at session SESSION on what SERIES measures, in the
 * order of the note: at most N go to OUT. Returns how many did; MORE tells
 * that there may be others.
 */
size_t progress_precautions(const struct progress *p, uint32_t session,
    const struct progress_series *series,
    const struct progress_precaution **out, size_t n, bool *more);

/*
 * Is it a limit to how far SERIES may go? Else it forbids, or says where the
 * motion may start.
 */
bool progress_limits_end(const struct progress_precaution *precaution,
    const struct progress_series *series);

/* The last session of the person of SERIES. */
static inline uint32_t
progress_last_session(
    const struct progress *p, const struct progress_series *series)
{
	const struct progress_person *who = &p->persons.at[series->person];

	return who->session + who->session_count - 1;
}

/*
 * What casts a doubt on the figure of POINT, as bits: the warnings that are
 * about a value, and a precaution that was passed even where that is accepted.
 */
uint64_t progress_warned(const struct progress_point *point);

/* Are they of one digit, measured alike, whoever did and whenever? */
bool progress_totals_alike(
    const struct progress_total *a, const struct progress_total *b);

/* Days from the surgery in force to the session; false where unknown. */
bool progress_days_since_surgery(
    const struct progress_session *s, int32_t *days);

static inline const char *
progress_text(const struct progress *p, uint32_t id)
{
	return id == UNKNOWN_TEXT ? "unknown" : intern_text(&p->pool, id);
}

#endif
