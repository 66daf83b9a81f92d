/*
 * What is known of joints: bounds, usual values, end feels, what everyday
 * tasks take, how far measuring itself errs, how to measure. Everything comes
 * from the tables beside this file, each row with its source, compiled in;
 * only ref_load() reads a file. All queries are pure.
 *
 * A measurement is an enum vocab_measurement_id. A setting is its uniform
 * words, sorted, one blank between, "" for none. Figures are in tenths of the
 * unit: degrees, millimetres for lengths, points for scores. A `verified` text
 * is never empty; "from memory" means that nobody has seen the figure in its
 * source, and whoever prints the figure prints that too.
 */
#ifndef REFERENCE_REFERENCE_H
#define REFERENCE_REFERENCE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "text/arena.h"

/* The bounds of unusual-angle and impossible-angle (limits.tsv). */
struct ref_bound {
	bool has_usual, has_possible, has_lacks;
	int32_t usual, possible, lacks;
	const char *basis_usual, *basis_possible, *basis_lacks;
	const char *verified; /* of the usual bound */
	const char
	    *verified_possible; /* "own bound": the project's judgement */
};

/*
 * Fills *OUT; every has_ is false where nothing is known. The row of the very
 * setting; else the rows whose words are all in SETTING, the greatest of each
 * bound; else the row without a setting. DIFFERENCE: the value is end less
 * start, which has bounds of its own for schober.
 */
void ref_limits(int measurement, const char *setting, bool difference,
    struct ref_bound *out);

struct ref_person {
	int age; /* whole years, -1 unknown */
	int sex; /* enum vocab_sex_id, -1 unknown */
};

/* One row of usual.tsv, or of a site's own table, for one measurement. */
struct ref_usual_row {
	int measurement;
	int mode;   /* enum vocab_mode_id, -1 where the source states none */
	int sex;    /* enum vocab_sex_id, -1 any */
	int age_lo; /* -1 no limit */
	int age_hi; /* -1 no limit */
	int32_t low, high; /* equal for one figure */
	bool at_least;
	int source_id;	     /* of ref_source_get(), -1 for a site's row */
	const char *setting; /* "" where the source states none */
	const char *spread;  /* "sd 5.4", "ci 23.9-28.5" or "" */
	const char *source;  /* key */
	const char *population;
	const char *where_read;
	const char *verified;
};

/* A site's own rows. Zeroed it is empty and ready. */
struct ref_site {
	struct ref_usual_row *at;
	size_t len;
	size_t cap;
	struct arena arena; /* the texts of the rows */
};

struct ref_usual {
	int32_t low, high; /* equal for one figure */
	bool at_least;
	const char *source;	/* key */
	const char *population; /* "women 20-44, passive" */
	const char *verified;
	const struct ref_usual_row *row; /* all the rest of it */
};

/*
 * The usual value that fits best. Returns false where there is none.
 *
 * A row fits where its mode is MODE or unstated (MODE -1 fits all,
 * place-and-hold counts as active) and PERSON is known to be within its age
 * and sex: an unknown age or sex fits no row that names one. PERSON may be
 * NULL, which knows neither. SOURCE, a key or the group of several keys,
 * fixes the source; NULL lets the program choose. SITE may be NULL.
 *
 * Of the rows that fit, in this order:
 *   1. setting: the very one; else rows whose words are all in SETTING, the
 *      most words first; else rows without one, but not where limits.tsv has
 *      another usual bound for SETTING than without: there the setting is
 *      known to change the range (hip flexion knee-straight);
 *   2. a site's row before a built-in one, of several the last loaded;
 *   3. a row of the person's age and sex, then of either, then of all people;
 *   4. the order of sources.tsv: Soucie (passive), Walker (65-85), Boone and
 *      Azen (active males), AAOS (its ranges, then those it measured), 38 CFR
 *      with its worksheets, AMA, the rest; a source marked `asked` there only
 *      where SOURCE names it;
 *   5. the narrower age band, then the order of usual.tsv.
 *
 * No row speaks of patients. A value of 0 is a value; no value is negative.
 */
bool ref_usual(int measurement, const char *setting, int mode,
    const struct ref_person *person, const char *source,
    const struct ref_site *site, struct ref_usual *out);

/* The *N built-in usual rows of a measurement, in the order of usual.tsv. */
const struct ref_usual_row *ref_usual_rows(int measurement, size_t *n);

/* Told of each fault of a site's table; line and column count from 1. */
typedef void ref_complain(
    void *arg, size_t line, size_t column, const char *message);

/*
 * Adds the rows of the table at PATH, with the columns of usual.tsv, to SITE.
 * Returns 0; 1 where it has faults: each was told, and none of its rows is
 * kept; -1 where it cannot be read, with errno set as by file_open(), EFBIG
 * where it has more than 16 MiB.
 */
int ref_load(
    const char *path, struct ref_site *site, ref_complain *complain, void *arg);

/* The same from TEXT of LEN bytes; never -1. */
int ref_load_text(const char *text, size_t len, struct ref_site *site,
    ref_complain *complain, void *arg);

void ref_site_free(struct ref_site *site);

/*
 * The normal end feels, bits 1u << enum vocab_end_feel_id, of any setting;
 * several where schools differ, 0 where nothing is known. *SOURCE, unless
 * SOURCE is NULL, becomes what to name as their source, or NULL.
 */
unsigned ref_end_feels(int measurement, const char **source);

enum ref_functional_kind {
	REF_ARC,    /* the tasks work from low to high */
	REF_REACH,  /* they take low, or low to high, of the motion */
	REF_BELOW,  /* they take less than high */
	REF_POSTURE /* the joint is held at low, or between low and high */
};

/* What a task takes of a joint (functional.tsv). */
struct ref_functional {
	enum ref_functional_kind kind;
	int32_t low, high; /* equal for one figure */
	const char *setting;
	const char *spread;
	const char *task;
	const char *source; /* key */
	const char *where_read;
	const char *verified;
};

/* The *N tasks known of a measurement. */
const struct ref_functional *ref_functional(int measurement, size_t *n);

enum ref_rater { REF_RATER_UNSTATED, REF_RATER_SAME, REF_RATER_DIFFERENT };

/* How widely a figure of error was stated. */
enum ref_width { REF_OF_ALL, REF_OF_LIMB, REF_OF_JOINT };

/*
 * One published figure of measuring error (error.tsv). They are not
 * interchangeable: the statistic, rater, instrument and people are part of it.
 */
struct ref_error_row {
	enum ref_width width;
	enum ref_rater rater;
	int instrument;	   /* enum vocab_instrument_id, -1 unstated */
	int mode;	   /* enum vocab_mode_id, -1 unstated */
	bool chosen;	   /* ref_error() may take it */
	int32_t low, high; /* limits of agreement may be below 0 */
	bool either_way;   /* the source writes +/- */
	const char *setting;
	const char *people; /* "" healthy or unstated */
	const char *what;   /* the source's words for what was measured */
	const char *statistic;
	const char *source; /* key */
	const char *where_read;
	const char *verified;
};

/* The *N figures known of a measurement, those of its limb and all at last. */
const struct ref_error_row *ref_error_rows(int measurement, size_t *n);

struct ref_error {
	int32_t low, high; /* a change above HIGH is more than error by it */
	bool fallback;	   /* a rule of thumb, not a figure for this joint */
	const char *statistic;
	const char *what;
	const char *source; /* key, or "" where nothing is known */
	const char *where_read;
	const char *verified;
};

/*
 * How far two readings may differ by measuring alone. Takes only figures of
 * change in people without the condition of a study, of one measurement or
 * joint before those of the limb (Boone 1978), these before the rule of thumb
 * of five degrees; several of one source become one span. A figure of another
 * instrument or of other raters is never taken; INSTRUMENT -1, not told, is
 * read as a goniometer for angles and a tape for lengths. Always fills *OUT;
 * scores and levels have no error: 0, with source "" and fallback.
 */
void ref_error(
    int measurement, int instrument, bool same_rater, struct ref_error *out);

/* Where figures come from (sources.tsv). A cell that is not known is "". */
struct ref_source {
	const char *key;
	const char *group; /* one name for the keys of one origin, or "" */
	const char *author;
	const char *year;
	const char *published;
	const char *about; /* our own words, not a title */
	const char *people;
	const char *number; /* of people */
	const char *read;   /* where the figures were seen, and how far */
	int mode;	    /* enum vocab_mode_id, -1 unstated */
	int sex;	    /* enum vocab_sex_id, -1 any */
	int age_lo, age_hi; /* -1 unstated */
	bool asked;	    /* usual values of it only where it is asked for */
};

size_t ref_source_count(void);
const struct ref_source *ref_source_get(size_t i);

/* The source of KEY, or NULL. */
const struct ref_source *ref_source_find(const char *key);

/* True where KEY is a source or a group of them that has usual values. */
bool ref_source_has_usual(const char *key);

/* How a motion is measured (guide.tsv). */
struct ref_guide {
	const char *joint; /* may name several, parted by commas */
	const char *motion;
	const char *purpose;
	const char *test_position;
	const char *expose;
	const char *stabilise;
	const char *fulcrum;
	const char *stationary_arm;
	const char *moving_arm;
	const char *landmarks;
	const char *start;
	const char *end;
	const char *substitutions;
	const char *settings;
	const char *do_not;
	const char *write;
	const char *basis;
};

/* The row of a measurement, or NULL. */
const struct ref_guide *ref_guide(int measurement);

#endif
