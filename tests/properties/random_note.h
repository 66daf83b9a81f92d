/*
 * Sound notes that are put together at random. A made note is what was meant:
 * it is written in the plain way or in any other that means the same, it says
 * which readings must come out of it, and what it holds can be counted.
 */
#ifndef PROPERTIES_RANDOM_NOTE_H
#define PROPERTIES_RANDOM_NOTE_H

#include "corpus.h"
#include "vocab/vocab.h"

enum {
	MOST_TRIALS = 3,
	MOST_VALUES = 12, /* two sides, two modes, three joints of a digit */
	MOST_LINES = 6,
	MOST_SESSIONS = 3,
	MOST_SETTINGS = 2
};

enum { MADE_BOTH = VOCAB_SIDE_COUNT }; /* beside enum vocab_side_id */

enum made_form {
	MADE_RANGE,
	MADE_END,
	MADE_LACKS,
	MADE_HYPER,
	MADE_FIXED,
	MADE_TRIPLE, /* of a hinge: hyperextension, 0, flexion */
	MADE_LESS,   /* of two inclinometers: start + end, start */
	MADE_NOT_TESTED,
	MADE_WNL,
	MADE_WFL,
	MADE_LENGTH,
	MADE_LENGTH_RANGE,
	MADE_SCORE,
	MADE_LEVEL,
	MADE_FORMS
};

struct made_value {
	int measurement;
	int side; /* enum vocab_side_id, MADE_BOTH, or -1 */
	int mode; /* enum vocab_mode_id, or -1 */
	enum made_form form;
	uint32_t trials;
	int start[MOST_TRIALS]; /* tenths */
	int end[MOST_TRIALS];	/* the same; enum vocab_level_id of a level */
	bool cm;		/* a length, else in mm */
	int pain;		/* -1: not written */
	bool firm;
};

struct made_setting {
	enum vocab_class class; /* a plain one, an angle, or that of a part */
	int id;
	int state;   /* of a part */
	int degrees; /* -1: not written */
};

struct made_positions {
	int posture; /* enum vocab_posture_id, or -1 */
	uint32_t n;
	struct made_setting settings[MOST_SETTINGS]; /* each of its own kind */
};

struct made_line {
	struct made_positions header; /* a line above it; of nothing: none */
	struct made_positions positions;
	int digit;  /* values name its joints; -1: one joint, in the head */
	bool whole; /* hinges without their motion */
	uint32_t n;
	struct made_value values[MOST_VALUES];
};

struct made_session {
	uint32_t month, day;
	uint32_t n;
	struct made_line lines[MOST_LINES];
};

/* A person; it stands for itself: every header that it needs is written. */
struct made_note {
	uint32_t number;
	uint32_t n;
	struct made_session sessions[MOST_SESSIONS];
};

static inline const struct vocab_measurement *
made_measurement(const struct made_value *v)
{
	return &vocab_measurements[v->measurement];
}

static inline bool
made_positions_empty(const struct made_positions *p)
{
	return p->posture < 0 && p->n == 0;
}

/* NT, WNL, WFL */
bool made_is_outcome(const struct made_value *v);

/* It needs none; but where there is no side, the mode begins the reading. */
bool made_is_without_mode(const struct made_value *v);

/* The mode of value I: its own, or that of the head until another is named. */
int made_mode_of(const struct made_line *line, uint32_t i);

void made_note_at_random(struct made_note *made, struct random *r, uint32_t n);

/* --- settings ---------------------------------------------------------------
 */

/* The VOCAB_*_BIT of its family. */
uint64_t made_setting_family(const struct made_setting *s);

/* Its uniform spelling. */
void made_setting_name(struct buffer *out, const struct made_setting *s);

/* Does one of P stand where a setting of FAMILY would? */
bool made_positions_exclude(const struct made_positions *p, uint64_t family);

/* --- writing ----------------------------------------------------------------
 */

/* What may be written another way and mean the same. */
enum made_way {
	WAY_UPPER_CASE,
	WAY_COMMA,
	WAY_SEMICOLON,
	WAY_ANY_ORDER,	   /* the words of a head, or before a value */
	WAY_ONE_WORD,	   /* `RA` */
	WAY_CARRIED_SIDE,  /* not written again */
	WAY_CARRIED_MODE,  /* the same */
	WAY_CARRIED_JOINT, /* of a digit */
	WAY_EQUAL_ENDS,	   /* `30-30`: fixed 30 */
	WAY_FROM_ZERO,	   /* `0-10`: hyper 10 */
	WAY_ZERO_BEFORE,   /* `0-5-118`: 5-118 */
	MADE_WAYS
};

extern const char *const made_way_names[MADE_WAYS];

/* The dice for it, and how often each way was taken. */
struct made_ways {
	struct random random;
	size_t taken[MADE_WAYS];
};

/* Writes it; in the plain way where WAYS is NULL, else in any. */
void made_note_write(
    struct buffer *out, const struct made_note *made, struct made_ways *ways);

/* Adds N of them to CORPUS, every second in any way. */
void made_notes_add(struct corpus *corpus, uint32_t n);

/* --- what must come out -----------------------------------------------------
 */

/*
 * The readings that must come out of it, a line each: cells parted by tabs,
 * SUBJECT SESSION JOINT MOTION SETTING POSITION SIDE MODE KIND UNIT PAIN
 * END-FEEL, then `START:END` of each trial.
 * Returns their number.
 */
size_t made_note_expect(struct buffer *out, const struct made_note *made);

/* --- what was made ----------------------------------------------------------
 */

enum made_kind {
	HOLDS_LINE_SETTING,
	HOLDS_LINE_SETTINGS, /* two on one line */
	HOLDS_HEADER_SETTING,
	HOLDS_HEADER_NOT_SERVING, /* the motion has no such setting */
	HOLDS_HEADER_GIVES_WAY,	  /* to one of its kind on the line */
	HOLDS_HEADER_ADDED,	  /* to another kind on the line */
	HOLDS_HEADER_ENDED,	  /* by the next session */
	HOLDS_HEADER_POSTURE,
	HOLDS_LINE_POSTURE, /* on a line, in the place of the header's */
	HOLDS_DIGIT_WHOLE,  /* several joints of a digit, no motion */
	HOLDS_DIGIT_MOTION, /* the same, of one motion */
	HOLDS_DIGIT_SETTING,
	HOLDS_DIGIT_BOTH_SIDES,
	HOLDS_DIGIT_BOTH_MODES,
	HOLDS_MOTION_NOT_TESTED,
	HOLDS_MOTION_WNL,
	HOLDS_MOTION_WFL,
	HOLDS_WHOLE_NOT_TESTED,
	HOLDS_WHOLE_WNL,
	HOLDS_WHOLE_WFL,
	HOLDS_MEASURE_NOT_TESTED,
	HOLDS_MEASURE_WNL,
	HOLDS_MEASURE_WFL,
	HOLDS_BOTH_OUTCOME, /* `B WNL` */
	HOLDS_BOTH_ZERO,    /* `B A 0` */
	MADE_KINDS
};

extern const char *const made_kind_names[MADE_KINDS];

struct made_counts {
	size_t kinds[MADE_KINDS];
	size_t forms[MADE_FORMS];
	size_t digits[VOCAB_DIGIT_COUNT]; /* lines of joints of each */
	size_t measurements[VOCAB_MEASUREMENT_COUNT];
};

/* Adds what MADE holds. */
void made_note_count(struct made_counts *counts, const struct made_note *made);

#endif
