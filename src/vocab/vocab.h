/*
 * The words of the notation. Everything here comes from one table,
 * grammar/vocabulary.tsv, compiled in: lexer, checker, formatter, guide and
 * manual read this table and no other list. All data are constant; all
 * functions are pure.
 *
 * A "measurement" is one joint and one motion (or a named measure such as
 * opposition): the unit to which readings, limits and usual values belong.
 */
#ifndef VOCAB_H
#define VOCAB_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "vocab_ids.h"

enum vocab_region {
	VOCAB_REGION_UPPER, /* shoulder to fingers */
	VOCAB_REGION_LOWER, /* hip to toes */
	VOCAB_REGION_SPINE,
	VOCAB_REGION_JAW
};

enum vocab_in { VOCAB_IN_DEG, VOCAB_IN_LENGTH, VOCAB_IN_SCORE, VOCAB_IN_LEVEL };

/* What a header line speaks of, and so how long it holds. */
enum vocab_scope {
	VOCAB_SCOPE_START,    /* subject, session */
	VOCAB_SCOPE_PERSON,   /* of the person or session */
	VOCAB_SCOPE_MEASURING /* from its line on */
};

/*
 * One word or one measurement of the table. Uniform names stand in the tables
 * themselves, all in VOCAB_NAME_SIZE bytes, so that a writer of many rows can
 * copy that much and then go on by their length.
 */
struct vocab_row {
	enum vocab_class class;
	uint16_t id; /* within its class: the enum of that class */
	uint8_t name_length;
	char name[VOCAB_NAME_SIZE]; /* the uniform spelling */
	const char *short_name;	    /* the short spelling */
};

struct vocab_joint {
	const char *name;
	int digit; /* enum vocab_digit, or -1 */
	int part;  /* enum vocab_digit_joint, or -1 */
	enum vocab_region region;
	bool hinge; /* without MOTION it is its flexion-extension axis */
};

struct vocab_measurement {
	char joint_name[VOCAB_NAME_SIZE];
	char motion_name[VOCAB_NAME_SIZE];
	uint8_t joint_length; /* of the names */
	uint8_t motion_length;
	int joint;    /* enum vocab_joint; -1 for a measure of a whole digit */
	int digit;    /* enum vocab_digit of such a measure, else -1 */
	int motion;   /* enum vocab_motion, or -1 for a named measure */
	int measure;  /* enum vocab_measure, or -1 */
	int opposite; /* the measurement at the other end of the axis, or -1 */
	enum vocab_in in;
	bool sided;    /* must name a side; else must not */
	bool directed; /* spine or jaw: the side is a direction */
	bool lacks;    /* `lacks N` may be written */
	bool less_is_better;
	uint64_t settings; /* VOCAB_*_BIT of the setting families it has */
};

/* Setting families: plain ones, PART-STATE by part, WORD-N by word. */
#define VOCAB_SETTING_BIT(id) (UINT64_C(1) << (id))
#define VOCAB_ANGLE_BIT(id) (UINT64_C(1) << (16 + (id)))
#define VOCAB_PART_BIT(id) (UINT64_C(1) << (32 + (id)))

extern const struct vocab_row vocab_rows[];
extern const size_t vocab_row_count;
extern const uint16_t vocab_class_first[];	/* by enum vocab_class */
extern const struct vocab_joint vocab_joints[]; /* _JOINT_COUNT */
extern const struct vocab_measurement vocab_measurements[]; /* _MEASUREMENT_ */
extern const uint64_t vocab_group_joints[]; /* bit 1 << joint, by group */
extern const bool vocab_end_feel_abnormal[];
extern const bool vocab_instrument_linear[];
extern const enum vocab_scope vocab_header_scope[];

/* The words one text can mean: rows first[0] .. first[n - 1] of a run. */
struct vocab_match {
	const struct vocab_spelling *first;
	size_t n;
	size_t phrase; /* most words of a spelling beginning with it */
};

/*
 * Looks TEXT of LEN bytes up, letter case ignored; words of a spelling are
 * parted by one blank. n is 0 where it is not in the table.
 */
struct vocab_match vocab_find(const char *text, size_t len);

/* Row number I (0 .. n - 1) of a match. */
const struct vocab_row *vocab_match_row(struct vocab_match match, size_t i);

/* The row of a match that is of CLASS, or NULL. */
const struct vocab_row *vocab_match_class(
    struct vocab_match match, enum vocab_class class);

/* The row of word ID of CLASS. */
const struct vocab_row *vocab_word(enum vocab_class class, int id);

/* Its uniform and its short name. */
const char *vocab_name(enum vocab_class class, int id);
const char *vocab_short_name(enum vocab_class class, int id);

/* The measurement of JOINT and MOTION, or -1 where the joint lacks it. */
int vocab_measurement(int joint, int motion);

/* The named MEASURE; DIGIT (or -1) tells those of the fingers apart. */
int vocab_named_measurement(int measure, int digit);

/* True where MEASURE is one of a finger and so needs its digit. */
bool vocab_measure_needs_digit(int measure);

/* The joint of a digit and its part, or -1 where that digit has none. */
int vocab_digit_joint(int digit, int part);

/* The joints of DIGIT, 1 << joint; of -1, those that are of none. */
uint64_t vocab_digit_joints(int digit);

/*
 * Reads a setting (`knee-bent`, `abducted-90`) from TEXT of LEN bytes and
 * writes its uniform spelling, NUL-terminated, to OUT of SIZE bytes (32 is
 * enough). Returns the VOCAB_*_BIT of its family, 0 where it is none.
 */
uint64_t vocab_setting(const char *text, size_t len, char *out, size_t size);

/*
 * The digits, 1 << digit, of which a spelling of several words ends in TEXT of
 * LEN bytes: those of `finger`, those of `toe`.
 */
uint32_t vocab_digits_called(const char *text, size_t len);

/*
 * The header that TEXT, an everyday word and none of the notation, means:
 * `subject` for patient; else NULL.
 */
const char *vocab_everyday(const char *text, size_t len);

/*
 * The known spelling nearest to TEXT, or of the same meaning, among the classes
 * of MASK (1 << class), or NULL where none is near. Costs one pass over the
 * table.
 */
const char *vocab_nearest(const char *text, size_t len, uint32_t mask);

#endif
