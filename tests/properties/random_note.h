/*
 * Sound notes that are put together at random. A made note is what was meant:
 * it is written in the plain way or in any other that means the same, and it
 * says which readings must come out of it.
 */
#ifndef PROPERTIES_RANDOM_NOTE_H
#define PROPERTIES_RANDOM_NOTE_H

#include "corpus.h"
#include "vocab/vocab.h"

enum { MOST_TRIALS = 3, MOST_VALUES = 4, MOST_LINES = 6, MOST_SESSIONS = 3 };

enum made_form {
	MADE_RANGE,
	MADE_END,
	MADE_LACKS,
	MADE_HYPER,
	MADE_FIXED,
	MADE_TRIPLE, /* of a hinge: hyperextension, 0, flexion */
	MADE_NOT_TESTED,
	MADE_WNL,
	MADE_LENGTH,
	MADE_LENGTH_RANGE,
	MADE_SCORE,
	MADE_LEVEL
};

struct made_value {
	int side; /* enum vocab_side_id, or -1 */
	int mode; /* enum vocab_mode_id, or -1 */
	enum made_form form;
	uint32_t trials;
	int start[MOST_TRIALS]; /* tenths */
	int end[MOST_TRIALS];	/* the same; enum vocab_level_id of a level */
	bool cm;		/* a length, else in mm */
	int pain;		/* -1: not written */
	bool firm;
};

struct made_line {
	int measurement;
	bool whole;  /* a hinge without its motion */
	int posture; /* enum vocab_posture_id, or -1 */
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
made_measurement(const struct made_line *line)
{
	return &vocab_measurements[line->measurement];
}

/* It needs none; but where there is no side, the mode begins the reading. */
bool made_is_without_mode(const struct made_value *v);

void made_note_at_random(struct made_note *made, struct random *r, uint32_t n);

/* Writes it; in the plain way where R is NULL, else in any. */
void made_note_write(
    struct buffer *out, const struct made_note *made, struct random *r);

/*
 * The readings that must come out of it, a line each: cells parted by tabs,
 * SUBJECT SESSION JOINT MOTION POSITION SIDE MODE KIND UNIT, then `START:END`
 * of each trial.
 * Returns their number.
 */
size_t made_note_expect(struct buffer *out, const struct made_note *made);

#endif
