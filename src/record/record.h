/*
 * The model: what a note says, read but not judged. A note is a sequence of
 * persons, a person a sequence of sessions, a session its readings. One
 * session at a time is in memory; a person's headers live until the next
 * `subject` line.
 *
 * Numbers are whole tenths of the unit that was written (52 is 520, 21.5 is
 * 215), so every sum is exact. Every item says where it stands in the text.
 */
#ifndef RECORD_RECORD_H
#define RECORD_RECORD_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "diag/diag.h"
#include "text/arena.h"
#include "text/buffer.h"
#include "text/date.h"
#include "text/intern.h"
#include "vocab/vocab.h"

enum { NONE = -1, UNKNOWN = -2 }; /* in fields that hold a vocabulary id */

#define NO_VALUE INT32_MIN	/* in fields that hold tenths */
#define UNKNOWN_TEXT UINT32_MAX /* an interned text that was unreadable */

enum kind {
	KIND_MEASURED,
	KIND_END_ONLY, /* the start was not written: it is taken as 0 */
	KIND_LACKS,    /* stops short of zero; end is negative, no start */
	KIND_FIXED,    /* no motion: start and end are equal */
	KIND_NOT_TESTED,
	KIND_WNL,
	KIND_WFL,
	KIND_SCORE, /* end in tenths of a point, no start */
	KIND_LEVEL, /* end is an enum vocab_level_id, no start */
	KIND_COUNT
};

/* The word for a kind in tables and CSV. */
extern const char *const kind_names[KIND_COUNT];

/* One trial, in the direction of the named motion. */
struct trial {
	int32_t start; /* NO_VALUE where there is none */
	int32_t end;
	int32_t minuend; /* of `85 less 38`: 850, end 470; else NO_VALUE */
};

/* A run of bytes of the session's text. */
struct text_ref {
	uint32_t at;
	uint32_t len;
};

/* A text of a reading. */
struct reading_text {
	struct text_ref text;
	bool substitution;
};

struct reading {
	uint32_t line;	  /* in the file, from 1 */
	uint32_t line_at; /* where that line begins in the session's text */
	uint16_t beg;	  /* first token, byte offset in the line */
	uint16_t end;	  /* behind the last token */

	int16_t measurement; /* enum vocab_measurement_id */
	int8_t side;	     /* enum vocab_side_id, or NONE */
	int8_t mode;	     /* enum vocab_mode_id, or NONE */
	uint8_t kind;	     /* enum kind */
	int8_t unit;	     /* enum vocab_unit_id, or NONE */
	int8_t end_feel;     /* enum vocab_end_feel_id, or NONE */
	int8_t stopped_by;   /* enum vocab_cause_id, or NONE */
	int8_t instrument;   /* enum vocab_instrument_id, NONE or UNKNOWN */
	uint8_t require;     /* 1 << enum vocab_requirement_id, in force */
	int8_t twin;	     /* +1 or -1 to the other of a hinge's pair, or 0 */
	bool left_out;	     /* of comparisons; set by the checker */

	uint32_t first_trial; /* in the session's trials */
	uint32_t trials;      /* 0 for not-tested, WNL, WFL */
	uint32_t first_text;  /* in the session's reading_texts */
	uint32_t texts;
	uint32_t
	    setting; /* interned: words sorted, one blank between; 0 none */
	uint32_t posture; /* interned, the same */
	uint32_t rater;	  /* interned; 0 none; UNKNOWN_TEXT */
	int32_t step; /* of the instrument, in the reading's unit; NO_VALUE */
	int32_t pain; /* score in tenths, NO_VALUE */
	int32_t pain_onset;
	int32_t arc_low; /* painful arc */
	int32_t arc_high;
	int32_t reps; /* after N reps (plain number), NO_VALUE */
};

/* Joints with their sides; joints in the midline stand in `middle`. */
struct joint_set {
	uint64_t right; /* bit 1 << enum vocab_joint_id */
	uint64_t left;
	uint64_t middle;
};

/* What a header line may have said. */
enum said { SAID_NOTHING, SAID, SAID_UNREADABLE };

/* A header with one value. The place is that of the value. */
struct fact {
	enum said said;
	int32_t value;
	struct place place;
};

struct opposite {
	/* the side that cannot be measured; of the spine a direction, so
	   that nothing stands in the middle */
	struct joint_set joints;
	const char *reason; /* may be NULL */
	struct place place; /* of the header word */
	bool contradicted;  /* it was measured, and that was reported */
};

struct precaution {
	struct joint_set joints;
	int16_t motion; /* enum vocab_motion_id, or NONE: every motion */
	int8_t mode;	/* enum vocab_mode_id, or NONE: every mode */
	bool forbids;	/* `no`: not at all; else no further than limit */
	int32_t limit;	/* tenths in the motion's direction; lacks: negative */
	int8_t unit;
	int32_t from; /* days, DATE_NONE */
	int32_t until;
	const char *reason; /* may be NULL */
	struct place place; /* of the header word */
};

struct goal {
	int16_t measurement;
	bool side[2]; /* by enum vocab_side_id; both false: no side */
	int8_t mode;
	int8_t unit;
	int32_t end; /* tenths in the motion's direction; a level its id */
	int32_t by;  /* day, DATE_NONE */
	struct place place;
};

struct remark {
	const char *text;
	struct place place;
};

/*
 * The headers of a person, written before the first session, or those that a
 * session adds or sets for itself.
 */
struct headers {
	struct fact born;     /* year */
	struct fact age;      /* years */
	struct fact sex;      /* enum vocab_sex_id */
	struct fact dominant; /* enum vocab_side_id */
	struct fact surgery;  /* day */
	const char *surgery_text;
	struct fact involved; /* value 0: `involved none` */
	struct joint_set involved_joints;
	struct {
		struct opposite *at;
		size_t len, cap;
	} opposites;
	struct joint_set unavailable; /* of all opposites */
	struct joint_set unmeasured;  /* of those not contradicted */
	struct {
		struct precaution *at;
		size_t len, cap;
	} precautions;
	struct {
		struct goal *at;
		size_t len, cap;
	} goals;
	struct {
		struct remark *at;
		size_t len, cap;
	} remarks;
	struct arena arena; /* owns the texts and the lines of the places */
};

struct person {
	enum said said;
	uint32_t code; /* interned; 0 unless said is SAID */
	uint32_t line; /* of the subject line, 0 = begun at the top */
	struct headers headers;
};

/* A comment that accepts one rule on one line. */
struct acceptance {
	uint32_t target; /* the line whose finding is accepted */
	int rule;	 /* enum rule, or -1: no such rule */
	bool has_reason;
	bool used;
	uint32_t line; /* of the comment */
	uint32_t line_at;
	uint16_t beg; /* of the rule name */
	uint16_t end;
};

/* A text or a comment: words of prose, which may identify a person. */
struct prose {
	uint32_t line;
	uint32_t line_at;
	uint16_t beg; /* behind the quote or the # */
	uint16_t end;
	int reading; /* to which it belongs, or NO_READING */
};

/*
 * One session with all its lines. Readings before any session line, or under
 * one that could not be read, make a session too: `said` tells.
 */
struct session {
	struct intern *pool; /* of all interned texts */
	const char *file;    /* as findings and rows name it */
	struct person *person;

	enum said said;
	int32_t day; /* valid where said is SAID */
	int time;    /* minutes, TIME_NONE */
	struct text_ref label;
	uint32_t line; /* of the session line; 0 where there is none */
	uint32_t line_at;
	uint16_t date_beg; /* where its DATE stands */
	uint16_t date_end;

	struct headers headers; /* its own */
	struct buffer text;	/* its lines without their ends, LF between */
	bool lost;		/* a reading of it could not be read */

	struct {
		struct reading *at;
		size_t len, cap;
	} readings;
	struct {
		struct trial *at;
		size_t len, cap;
	} trials;
	struct {
		struct reading_text *at;
		size_t len, cap;
	} texts;
	struct {
		struct acceptance *at;
		size_t len, cap;
	} acceptances;
	struct {
		struct prose *at;
		size_t len, cap;
	} prose;
};

static inline const struct vocab_measurement *
reading_measurement(const struct reading *r)
{
	return &vocab_measurements[r->measurement];
}

/* Its trials, r->trials of them; NULL where there are none. */
static inline const struct trial *
reading_trials(const struct session *s, const struct reading *r)
{
	return r->trials > 0 ? s->trials.at + r->first_trial : NULL;
}

/*
 * True where R, if it names no mode, holds for every one: fixed, not tested,
 * WNL, WFL.
 */
bool reading_holds_for_modes(const struct reading *r);

/* True where it has a figure that can be compared: degrees, lengths, scores. */
bool reading_is_number(const struct reading *r);

/* Where it stands, for a finding. The text is valid while S is. */
struct place reading_place(const struct session *s, const struct reading *r);

/* Where BEG .. END of the line that begins at LINE_AT stands. */
struct place session_place(const struct session *s, uint32_t line,
    uint32_t line_at, uint32_t beg, uint32_t end);

/* Where the session's DATE stands (line 0 if it has no session line). */
struct place session_date_place(const struct session *s);

/* A text of the session: not NUL-terminated, text.len bytes. */
static inline const char *
session_text(const struct session *s, struct text_ref text)
{
	return s->text.data + text.at;
}

/*
 * Headers in force: what the session says itself wins over what stands with
 * the person.
 */
static inline const struct fact *
fact_in_force(const struct fact *own, const struct fact *of_person)
{
	return own->said != SAID_NOTHING ? own : of_person;
}
#define SESSION_FACT(s, name)                                                  \
	fact_in_force(&(s)->headers.name, &(s)->person->headers.name)

/* Age in whole years at the session: as written, else year less born; -1. */
int session_age(const struct session *s);

/* enum vocab_sex_id, or NONE. */
int session_sex(const struct session *s);

/*
 * Is SIDE (enum vocab_side_id, or NONE) of JOINT involved? 1 yes, 0 no, -1
 * where no header says (or one is unreadable). A side of a joint in the
 * midline is a direction: the whole joint is meant.
 */
int session_involved(const struct session *s, int joint, int side);

/* Adds OPPOSITE to those of H. */
void headers_add_opposite(struct headers *h, const struct opposite *opposite);

/* Is it declared that SIDE of JOINT cannot be measured for comparison? */
bool session_unavailable(const struct session *s, int joint, int side);

/* Membership; SIDE NONE asks for any part of the joint. */
bool joint_set_has(const struct joint_set *set, int joint, int side);
void joint_set_add(
    struct joint_set *set, uint64_t joints, bool right, bool left);
void joint_set_join(struct joint_set *set, const struct joint_set *more);
bool joint_set_empty(const struct joint_set *set);

/* True where SET has any of JOINTS (bits) on SIDE (NONE: on any side). */
bool joint_set_meets(const struct joint_set *set, uint64_t joints, int side);

/* --- precautions ---------------------------------------------------------- */

/* Is P in force on DAY? From and until are inclusive. */
bool precaution_on_day(const struct precaution *p, int32_t day);

/*
 * Is P in force at the session? Without a date of the session nobody knows of
 * a dated precaution: then the answer is IN_DOUBT.
 */
bool precaution_holds(
    const struct precaution *p, const struct session *s, bool in_doubt);

/* The motion of P: `max` without one is flexion; NONE is every motion. */
int precaution_motion(const struct precaution *p);

/*
 * Active means place-and-hold too, else a mode is that mode alone; without
 * one, every mode is meant.
 */
bool precaution_covers_mode(const struct precaution *p, int mode);

/* True for a joint without a right and a left: spine and jaw. */
static inline bool
joint_is_midline(int joint)
{
	return vocab_joints[joint].region == VOCAB_REGION_SPINE ||
	       vocab_joints[joint].region == VOCAB_REGION_JAW;
}

/*
 * The same for a measurement: a measure of a whole finger (tip-to-crease)
 * is involved where any joint of the finger is.
 */
int session_involves(const struct session *s, int measurement, int side);

/* The joints that a measurement belongs to, as bits. */
uint64_t measurement_joints(int measurement);

#endif
