/*
 * The words that the formats of progress share.
 */
#ifndef WRITE_PROGRESS_WORDS_H
#define WRITE_PROGRESS_WORDS_H

#include <stdbool.h>
#include <stdint.h>

#include "calc/progress.h"
#include "text/buffer.h"

/* As it was measured: 0-53 (3), lacks 8, fixed 30, 38 mm, NT, T7. */
void progress_value_words(struct buffer *out, const struct progress *p,
    const struct progress_point *point);

/* The names of RULES, in their order, with BETWEEN between them. */
void progress_rules_words(
    struct buffer *out, uint64_t rules, const char *between);

/* " [off-scale]": what check warns of at POINT; nothing if nothing. */
void progress_warned_words(
    struct buffer *out, const struct progress_point *point);

/*
 * Behind the value of a reading that check warns of though it is compared.
 * Another sign than that of summary for one which is not used.
 */
#define PROGRESS_WARNED "?"

/* Does AT bear that sign? */
bool progress_is_marked(const struct progress_point *at);

/*
 * "0-60 of 2026-05-11 [off-scale]; ...": the readings of SERIES with that
 * sign. False, and nothing is written, where there are none.
 */
bool progress_marked_words(struct buffer *out, const struct progress *p,
    const struct progress_series *series);

/* A figure of the base unit, as SERIES shows it; the unit unless degrees. */
void progress_figure_words(
    struct buffer *out, const struct progress_series *series, struct mean m);

/* The same with its sign, + but before 0. */
void progress_signed_words(
    struct buffer *out, const struct progress_series *series, struct mean m);

/* "higher", "the same", "lower", of a level that is compared. */
const char *progress_level_word(int levels);

/* "elbow flexion", "index PIP flexion" */
void progress_motion_words(
    struct buffer *out, const struct progress_series *series);

/* "right active, abducted-90, supine, after 10 reps"; without a side: NONE. */
void progress_condition_words(struct buffer *out, const struct progress *p,
    const struct progress_series *series, int side);

/* "3-4", "11-15 mm", ">=14" */
void progress_error_words(struct buffer *out,
    const struct progress_series *series, const struct progress_error *error);

/* Where the figure of error is from, and for what it holds. */
void progress_source_words(
    struct buffer *out, const struct progress_change *change);

/* Why a change cannot be told from error. */
const char *progress_why_words(enum progress_why why);
const char *progress_beyond_word(enum progress_beyond beyond);

/* The code of a rater, or that there is none to be had. */
void progress_rater_words(
    struct buffer *out, const struct progress *p, uint32_t rater);

/* "rater dk, now mv; position supine, now sitting"; nothing if nothing. */
void progress_changed_words(struct buffer *out, const struct progress *p,
    uint32_t from, uint32_t to, const struct progress_change *change);

/* "135 by 2026-07-31" */
void progress_goal_words(struct buffer *out,
    const struct progress_series *series, const struct progress_goal *goal);

/* As the note has it: "right knee flexion max 90 until 2026-06-30". */
void progress_precaution_words(struct buffer *out, const struct progress *p,
    const struct progress_precaution *precaution);

/* The same behind the day of SESSION, on which it is in force. */
void progress_in_force_words(struct buffer *out, const struct progress *p,
    uint32_t session, const struct progress_precaution *precaution);

/* What is left to it, of POINT: "8 to go", "reached, 2 beyond it". */
void progress_left_words(struct buffer *out, const struct progress *p,
    uint32_t point, const struct progress_goal *goal);

/* "position supine before, now sitting"; of a series with `before`. */
void progress_before_words(struct buffer *out, const struct progress *p,
    const struct progress_series *series);

/* "WR-0192", or who it is as far as is known. */
void progress_person_words(
    struct buffer *out, const struct progress *p, size_t person);

/* Hundredths of the unit shown a week, of a slope in base units. */
int64_t progress_slope(const struct progress_series *series, double slope);

/* The date of the session of a point. */
void progress_date_words(struct buffer *out, const struct progress *p,
    const struct progress_point *point);

const char *progress_mode_name(int mode);

static inline const struct progress_series *
progress_series_of(const struct progress *p, uint32_t point)
{
	return &p->series.at[p->points.at[point].series];
}

static inline const struct progress_session *
progress_session_of(const struct progress *p, uint32_t point)
{
	return &p->sessions.at[p->points.at[point].session];
}

#endif
