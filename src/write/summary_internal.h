/*
 * What the formats of the summary share. A line is what one comparison holds
 * in one mode; every format shows the figures of a line and makes none of its
 * own, so that the three can never differ.
 */
#ifndef WRITE_SUMMARY_INTERNAL_H
#define WRITE_SUMMARY_INTERNAL_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "calc/compare.h"
#include "calc/totals.h"
#include "write/summary.h"
#include "write/table.h"

/* A source of usual values that the session's table names by a number. */
struct summary_source {
	const char *key;
	const char *population;
	const char *verified;
};

/*
 * What was shown, as bits of summary.told; the end of the summary explains it.
 * The first two are followed by one for each band system and each total.
 */
enum {
	TOLD_SYSTEM = 0,
	TOLD_DEFINITION = BAND_SYSTEMS_MOST,
	TOLD_THRESHOLDS = 48, /* of shoulder rotation */
	TOLD_LAXITY,
	TOLD_USUAL /* values of other people */
};

static inline uint64_t
told_bit(size_t bit)
{
	return UINT64_C(1) << bit;
}

struct summary {
	const struct summary_options *options;
	const struct session *s; /* at hand */
	const struct sink *sink;
	struct ref_person person; /* at the session */
	bool several_raters;
	bool several_instruments;
	bool several_postures;
	struct comparisons comparisons;
	struct table table;
	struct buffer scratch;
	struct {
		struct summary_source *at;
		size_t len, cap;
	} sources;
	/* 1 + first comparison that holds it; for goals, made when needed */
	uint32_t (*first)[COMPARE_MODES][COMPARE_SIDES];
	bool first_known;
	size_t sessions; /* so far */
	uint64_t told;
};

struct summary_line {
	const struct session *s;
	const struct comparison *c;
	int mode; /* enum vocab_mode_id or COMPARE_NO_MODE */
	const struct reading *reading[COMPARE_SIDES];
	struct mean difference; /* n 0: none */
	int unit;		/* of the difference */
	bool has_usual;
	struct ref_usual usual;
};

void summary_line_fill(struct summary *sum, const struct comparison *c,
    int mode, struct summary_line *line);

/* The unit of comparison_modes(), where there is such a figure. */
int summary_modes_unit(
    const struct summary *sum, const struct comparison *c, int side);

/* The number, from 1, by which the session's text names the source. */
size_t summary_source_number(
    struct summary *sum, const struct ref_usual *usual);

/* What is left to a goal on one side. */
struct summary_goal {
	const struct reading *reading; /* NULL: not measured */
	const struct comparison *c;    /* that holds it */
	struct mean to_go;	       /* n 0: no figure */
};

enum { SUMMARY_GOAL_MATCHES = 4 };

/*
 * The readings that GOAL speaks of on SIDE, at most SUMMARY_GOAL_MATCHES, to
 * OUT; returns how many. A goal names no setting, so each setting has its own.
 */
size_t summary_goal_matches(struct summary *sum, const struct goal *goal,
    int side, struct summary_goal *out);

/* The headers of the person (I 0), then those of the session (I 1). */
#define SUMMARY_HEADERS(s, i) ((i) == 0 ? &(s)->person->headers : &(s)->headers)

/* Days since the surgery in force; false where there is no such number. */
bool summary_days_since_surgery(const struct session *s, int32_t *days);

/* --- words: the notation's own ------------------------------------------- */

/* As it was measured: 0-53 (3), lacks 8, fixed 30, 38 mm, NT, T7. */
void summary_value(
    struct buffer *out, const struct session *s, const struct reading *r);
void summary_number(struct buffer *out, struct mean m);

/* Nothing for NO_VALUE, and for what is no id of CLASS. */
void summary_tenths(struct buffer *out, int32_t tenths);
void summary_word(struct buffer *out, enum vocab_class class, int id);

/* With its sign: +8, 0, -25. */
void summary_signed(struct buffer *out, struct mean m);

/* " mm" or " cm"; degrees go without. */
void summary_unit(struct buffer *out, int unit);
void summary_joints(struct buffer *out, const struct joint_set *set);
void summary_involved(struct buffer *out, const struct session *s);
void summary_precaution(struct buffer *out, const struct precaution *p);

/* SIDE NONE for a goal without a side. */
void summary_goal_words(struct buffer *out, const struct goal *goal, int side);
void summary_usual_value(struct buffer *out, const struct ref_usual *usual);
void summary_pain(struct buffer *out, const struct reading *r);
void summary_time(struct buffer *out, int minutes);
const char *summary_text_of(const struct session *s, uint32_t id);
const char *summary_mode_name(int mode);
const char *summary_subject(const struct session *s); /* NULL: none known */

/* "deg", "mm" or "": the unit of the usual values of a measurement. */
const char *summary_usual_unit(int measurement);

/* --- formats -------------------------------------------------------------- */

void summary_text_session(struct summary *sum, struct buffer *out);
void summary_rows_header(struct buffer *out);
void summary_rows_session(struct summary *sum, struct buffer *out);

#endif
