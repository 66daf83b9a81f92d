/*
 * Totals over several readings of a session: of a digit, of the spine, the arc
 * of shoulder rotation; and what published tables say of them. A total is of
 * one side, mode, setting, rater and number of repetitions. A part that has no
 * figure is missing, never 0, and then there is no total.
 */
#ifndef CALC_TOTALS_H
#define CALC_TOTALS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "calc/value.h"
#include "record/record.h"

enum {
	TOTAL_INDEX,
	TOTAL_MIDDLE,
	TOTAL_RING,
	TOTAL_LITTLE,
	TOTAL_THUMB,
	TOTAL_INDEX_TWO_JOINTS, /* PIP and DIP alone */
	TOTAL_MIDDLE_TWO_JOINTS,
	TOTAL_RING_TWO_JOINTS,
	TOTAL_LITTLE_TWO_JOINTS,
	TOTAL_CERVICAL,
	TOTAL_THORACOLUMBAR,
	TOTAL_SHOULDER_ROTATION, /* at abducted-90 */
	TOTAL_GLENOHUMERAL_ROTATION,
	TOTAL_DEFINITIONS
};

enum total_kind {
	TOTAL_KIND_FINGER,
	TOTAL_KIND_THUMB,
	TOTAL_KIND_TWO_JOINTS,
	TOTAL_KIND_SPINE,
	TOTAL_KIND_ROTATION
};

enum total_role {
	TOTAL_ADD, /* its end; what it lacks is taken off */
	TOTAL_LACK /* what it lacks is taken off; beyond zero adds nothing */
};

enum { TOTAL_PARTS = 6 };

struct total_definition {
	enum total_kind kind;
	const char *name; /* "index", "cervical" */
	int parts;
	struct {
		int measurement;
		int side; /* of a direction; NONE: the side of the total */
		enum total_role role;
	} part[TOTAL_PARTS];
	int32_t reference; /* tenths, to which a source sets it; 0 none */
	const char *reference_parts; /* "85 + 110 + 65" */
	const char *source;
	const char *state; /* read, or from memory */
};

extern const struct total_definition total_definitions[TOTAL_DEFINITIONS];

/* Why a part has no figure. */
enum part_state {
	PART_FIGURE,
	PART_MISSING,
	PART_NOT_TESTED,
	PART_NO_NUMBER, /* WNL, WFL */
	PART_DOUBTFUL,	/* left out of comparisons */
	PART_FIXED,	/* no motion to add to a range */
	PART_TWICE	/* two readings under the same conditions */
};

struct total_part {
	enum part_state state;
	struct mean end;   /* as measured, of PART_FIGURE */
	struct mean value; /* what it adds: below 0 where it takes off */
};

struct total {
	int definition;
	int side; /* enum vocab_side_id, or NONE */
	int mode; /* enum vocab_mode_id */
	uint32_t setting;
	uint32_t rater;
	int32_t reps;
	int present; /* parts with a figure */
	struct total_part part[TOTAL_PARTS];
	struct mean sum; /* n is 0 unless it is complete */
};

/* Zeroed it is empty and ready; it may serve any number of sessions. */
struct totals {
	/* By definition, then mode, right before left where both are there. */
	struct total *at;
	size_t len, cap;
	struct {
		struct total_entry *at;
		size_t len, cap;
	} entries; /* scratch */
};

/* Linear in the readings, but for sorting those that belong to a total. */
void totals_build(struct totals *all, const struct session *s);
void totals_free(struct totals *all);

/* A in percent of OF tenths, in tenths of a percent; n is 0 where OF is 0. */
struct mean total_percent(struct mean a, int32_t of);

/* A in percent of B; n is 0 where B is 0 or has no figure. */
struct mean total_percent_of(struct mean a, struct mean b);

/* The other side of AT[I] under the same conditions, or NULL. */
const struct total *total_opposite(const struct totals *all, size_t i);

/* --- published bands ------------------------------------------------------ */

/* One system of bands that a source gives for a kind of total. */
struct band {
	int32_t lower, upper; /* tenths of a degree or percent */
	bool above;	      /* LOWER itself is not in it */
	bool below;	      /* UPPER itself is not in it */
	const char *grade;    /* the source's word; NULL: end of the list */
	const char *range;    /* as it is printed: "over 50 to 75" */
};

enum { BANDS = 5 };

struct band_system {
	const char *name;   /* whose bands */
	unsigned kinds;	    /* 1u << enum total_kind; active motion alone */
	bool percent;	    /* of the total's reference; else degrees */
	const char *rule;   /* what is special at its boundaries */
	const char *source; /* NULL: none was seen */
	const char *state;  /* how far the bands were seen */
	struct band bands[BANDS + 1];
	const char *people; /* whom alone it grades; NULL: anybody */
	const char *word;   /* by which a text tells of them; NULL */
};

enum { BAND_SYSTEMS_MOST = 16 };

extern const struct band_system band_systems[];
extern const size_t band_system_count;

/*
 * The systems that may grade a hand of S, as bits 1u << index: those for
 * anybody, and those whose people the surgery in force or a remark tells of.
 */
unsigned bands_for(const struct session *s);

/*
 * Is it a digit that a band may be said of? Its motion is active, its side is
 * involved, and no part of it is missing.
 */
bool total_is_graded(const struct session *s, const struct total *t);

/*
 * The band of SYSTEM that T falls in, or NULL where it falls in none: between
 * two, or above the highest.
 */
const struct band *total_band(
    const struct total *t, const struct band_system *system);

/* --- differences of shoulder rotation ------------------------------------- */

enum threshold_of {
	THRESHOLD_INTERNAL_LOSS, /* of internal rotation, degrees */
	THRESHOLD_INTERNAL_LOSS_PERCENT,
	THRESHOLD_ARC_LOSS,
	THRESHOLD_ARC_LOSS_PERCENT
};

struct threshold {
	enum threshold_of of;
	int32_t low, high; /* tenths; they differ where the source says 18-20 */
	bool or_equal;	   /* it is reached at the figure itself */
	const char *range; /* "20 or more" */
	const char *source;
	const char *state;
};

extern const struct threshold thresholds[];
extern const size_t threshold_count;

enum reach { REACH_NO, REACH_WITHIN, REACH_YES }; /* WITHIN a span 18-20 */
enum reach threshold_reach(const struct threshold *t, struct mean value);

/* --- generalised joint laxity --------------------------------------------- */

/* Six of the nine parts are readings; the notation has no word for three. */
enum { LAXITY_PARTS = 6, LAXITY_POINTS = 9 };

struct laxity_part {
	int measurement;
	int side;
	int mode; /* of the reading, or NONE */
	enum part_state state;
	struct mean end;
	int32_t limit; /* tenths */
	bool over;     /* more than the limit */
	bool reached;  /* the limit or more: the other published reading */
};

struct laxity {
	struct laxity_part part[LAXITY_PARTS];
	int recorded;
	int over;
	int reached;
	int joints; /* of elbow, knee and fifth MCP: how many are recorded */
};

void laxity_read(struct laxity *laxity, const struct session *s);

/* A published cut-off of the score of nine. */
struct laxity_cutoff {
	const char *people;
	int points; /* or more */
	const char *source;
	const char *state;
};

extern const struct laxity_cutoff laxity_cutoffs[];
extern const size_t laxity_cutoff_count;

#endif
