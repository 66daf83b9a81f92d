/*
 * The readings of a session laid side by side: which of them may be held
 * against each other, and the differences. Nothing here judges or prints, and
 * nothing is a mean over raters, settings or sides.
 */
#ifndef CALC_COMPARE_H
#define CALC_COMPARE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "calc/value.h"
#include "record/record.h"

enum {
	COMPARE_NO_MODE = VOCAB_MODE_COUNT,
	COMPARE_MODES, /* by enum vocab_mode_id, then those without one */
	COMPARE_NO_SIDE = VOCAB_SIDE_COUNT,
	COMPARE_SIDES /* by enum vocab_side_id, then those without one */
};

/*
 * Readings of one measurement in one setting after as many repetitions, at
 * most one a mode and side. What was measured twice, or by a second rater or
 * instrument or in a second posture, stands in a comparison of its own;
 * where only the one side was taken so, it is set against the other all the
 * same, and the differing condition shows in the readings.
 */
struct comparison {
	int16_t measurement;
	uint32_t setting;  /* interned */
	int32_t reps;	   /* NO_VALUE where none were named */
	int8_t from;	   /* side that a difference begins with */
	bool one_involved; /* FROM is the involved side, the other is not */
	bool first;	   /* of its measurement, setting and repetitions */
	int32_t reading[COMPARE_MODES][COMPARE_SIDES]; /* index, or -1 */
	uint32_t next; /* scratch of comparisons_build() */
};

/*
 * Zeroed it is empty and ready; it may serve any number of sessions. The
 * comparisons come by joint (a digit with all its joints), then measurement,
 * then setting, each in the order of the note.
 */
struct comparisons {
	struct comparison *at;
	size_t len, cap;

	/* scratch */
	struct comparison *made;
	size_t made_len, made_cap;
	struct compare_strand *strands;
	size_t strands_len, strands_cap;
	struct compare_family *families;
	size_t families_len, families_cap;
	uint32_t *slots;
	size_t slots_cap;
};

/* Linear in the readings, but for sorting the different measurements. */
void comparisons_build(struct comparisons *all, const struct session *s);
void comparisons_free(struct comparisons *all);

/* Was a reading in MODE taken on any side? */
bool comparison_has(const struct comparison *c, int mode);

/*
 * Has MODE a line of its own? COMPARE_NO_MODE has none where its readings
 * stand in for those of a mode.
 */
bool comparison_shows(
    const struct session *s, const struct comparison *c, int mode);

/*
 * The reading of MODE and SIDE, or NULL. Where there is none, one that was
 * written without a mode and holds for every mode stands in: not tested, WNL,
 * WFL, fixed.
 */
const struct reading *comparison_reading(
    const struct session *s, const struct comparison *c, int mode, int side);

/*
 * The involved side less the other; right less left where both or neither are
 * involved. n is 0 where there is no such figure: a side is missing, has no
 * number or is left out. It is in the unit of both, see unit_of_both().
 */
struct mean comparison_sides(
    const struct session *s, const struct comparison *c, int mode);

/*
 * Passive less active of SIDE, in the unit of both; n is 0 where there is no
 * such figure, and where posture or rater differ.
 */
struct mean comparison_modes(
    const struct session *s, const struct comparison *c, int side);

/* Is it a figure that differences may be taken of? */
bool compare_is_figure(const struct reading *r);

/* The joint or digit under which a measurement is listed. */
enum { COMPARE_HEADINGS = VOCAB_DIGIT_COUNT + VOCAB_JOINT_COUNT };
int compare_heading(int measurement);
const char *compare_heading_name(int heading);

#endif
