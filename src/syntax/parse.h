/*
 * What the parser, the reading lines and the headers share while a line is
 * read, and the calls of reading lines; header.h has those of headers. Private
 * to src/syntax and grammar/parser.y.
 */
#ifndef SYNTAX_PARSE_H
#define SYNTAX_PARSE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "diag/diag.h"
#include "record/record.h"
#include "syntax/tokens.h"

/* Postures and settings: most that one line or header may name. */
enum { MOST_POSITIONS = 8 };

struct positions {
	enum said said;
	size_t len;
	struct {
		uint32_t name;	 /* interned uniform spelling */
		uint64_t family; /* VOCAB_*_BIT of a setting; 0: a posture */
	} at[MOST_POSITIONS];
};

/* The headers of the measuring: they hold from their line on. */
struct measuring {
	uint32_t rater; /* interned; 0, UNKNOWN_TEXT */
	int mode;	/* enum vocab_mode_id, NONE, UNKNOWN */
	struct {
		int id;	      /* enum vocab_instrument_id, NONE, UNKNOWN */
		int32_t step; /* tenths of a degree or millimetre, NO_VALUE */
	} instrument[2];      /* of angles, of lengths */
	struct positions positions;
	unsigned require; /* 1 << enum vocab_requirement_id */
};

/* What the head of a line names. */
struct head {
	const struct token *joint;
	const struct token *digit;
	const struct token *part;
	const struct token *motion;
	const struct token *motion2;
	const struct token *measure;
	const struct token *side;
	const struct token *mode;
	struct positions positions;
};

/* How the figures of a line lie on the axis of the joint. */
enum axis_form {
	AXIS_ONE,   /* one motion was named, or a measure */
	AXIS_HINGE, /* a hinge without motion: low end first */
	AXIS_BOTH   /* MOTION/MOTION: in the order named */
};

/* JOINT, MOTION and positions, as they stay in force for further lines. */
struct named {
	int joint; /* enum vocab_joint_id, or NONE */
	int digit; /* enum vocab_digit_id of a digit line, or NONE */
	int part;  /* its joint where one alone was named, or NONE */
	int motion;
	int motion2;
	int measure;
	struct positions positions;
};

enum in_force { FORCE_NOTHING, FORCE_NAMED, FORCE_FAILED };

enum form {
	FORM_END,
	FORM_RANGE,
	FORM_TRIPLE,
	FORM_HYPER,
	FORM_LACKS,
	FORM_FIXED,
	FORM_LESS,
	FORM_OUTCOME,
	FORM_LEVEL
};

enum { SIDE_BOTH = 2 }; /* beside enum vocab_side_id, while reading */

/* Qualifiers that may stand once in a reading. */
enum qualifier {
	QUALIFIER_END_FEEL,
	QUALIFIER_PAIN,
	QUALIFIER_PAINFUL_ARC,
	QUALIFIER_STOPPED_BY,
	QUALIFIER_AFTER,
	QUALIFIER_BY,
	QUALIFIER_WITH,
	QUALIFIERS
};

/* One of the two readings that a value can make. */
struct outcome {
	bool made;
	int measurement;
	enum kind kind;
	struct {
		struct trial *at;
		size_t len, cap;
	} trials;
};

/* The reading at hand; nothing of it counts before reading_end(). */
struct pending {
	bool begun;
	const struct token *first; /* of its tokens */
	const struct token *side;  /* as written for this reading, or NULL */
	const struct token *mode;
	const struct token *part;
	int measurement[2]; /* [1] is NONE but for two motions of one axis */
	enum form form;
	int unit;
	struct outcome out[2];
	const struct token *seen[QUALIFIERS]; /* at most once each */
	int end_feel[2];
	int stopped_by;
	int32_t pain, onset, arc_low, arc_high, reps;
	const struct token *by;
	int with; /* enum vocab_instrument_id, NONE */
};

/* The line of readings at hand. */
struct reading_line {
	struct head head;
	bool head_read;	  /* the first value has come */
	bool named_joint; /* the head tried to name one */
	struct named named;
	enum axis_form axis;
	int side;	/* carried along the line; SIDE_BOTH; NONE */
	int mode;	/* from the head or a header; NONE, UNKNOWN */
	unsigned modes; /* all named so far, 1 << mode */
	int part;
	bool parts; /* a second joint of the digit was named */
	struct {
		int measurement; /* 1 + its id; 0: none yet */
		uint32_t setting, posture;
	} placed[2]; /* the last of each motion of the axis, for the next */
	unsigned char used[2 + 1][VOCAB_DIGIT_JOINT_COUNT + 1];
	struct pending now; /* the last: see reading_line_begin() */
};

/* The header line at hand; committed when the whole line was read. */
struct header_line {
	bool right, left, side_said, any_joint;
	uint64_t joints; /* of the side said last */
	struct joint_set set;
	int digit; /* whose joints may follow, or NONE */
	const struct token *motion, *measure, *mode;
	struct precaution precaution;
	struct goal goal;
	struct positions positions;
	unsigned require;
};

/* A text of the reading at hand. */
struct parse_text {
	const struct token *token;
	bool substitution;
};

struct parse {
	/* the line */
	const char *text;
	size_t len;
	uint32_t line;
	uint32_t line_at;
	struct tokens tokens;
	size_t at; /* the next token */
	bool resume;

	/* where it goes */
	struct intern *pool;
	struct session *session;
	struct measuring measuring;
	struct sink *sink;

	/* state of the line */
	struct reading_line reading;
	struct header_line header;
	struct {
		struct parse_text *at;
		size_t len, cap;
	} texts; /* of the reading at hand */

	/* the finding that ended the parse, or NULL */
	struct finding *failed;
	const struct token *failed_at;
	bool failed_by_parser; /* no rule of the grammar took the token */
	bool first_stays;      /* the header disagreed with an earlier one */
	bool head_failed;      /* joint, motion or positions were not read */

	/* what is in force for lines without a joint */
	enum in_force force;
	struct named named;
	struct finding *cause; /* of FORCE_FAILED; may be NULL */
};

/* For the parser: the next token; EOL again and again at the end. */
const struct token *parse_token(struct parse *ps);

/* For the parser: has every token of the line been taken? */
bool parse_is_whole(const struct parse *ps);

/* Does token T of a line of readings stand before the first value? */
bool parse_in_head(const struct parse *ps, const struct token *t);

/* For the parser: the last token given does not fit; these kinds would. */
void parse_unexpected(struct parse *ps, const bool *may_stand);

/*
 * Reports RULE at token T, unless the parse has failed already. Always
 * returns false, so that a call can end with it.
 */
bool parse_fail(struct parse *ps, const struct token *t, enum rule rule,
    const char *format, ...) __attribute__((format(printf, 4, 5)));

/* Adds what to do to the finding of the parse_fail() just made. */
void parse_hint(struct parse *ps, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* For messages: length (cut at 40 bytes) and text of a token. */
#define QUOTE(ps, t) token_quote_len(t), (ps)->text + (t)->beg
int token_quote_len(const struct token *t);

/* Is T the word WORD, in lower case, whatever the case it is written in? */
bool token_is(const struct parse *ps, const struct token *t, const char *word);

/* The place of a token. */
struct place parse_place(const struct parse *ps, const struct token *t);

/* A TEXT token without its quotation marks, in the session's text. */
struct text_ref parse_text_ref(const struct parse *ps, const struct token *t);

/* head.c: calls of the grammar, and of line.c */
bool reading_joint(struct parse *ps, const struct token *t);
bool reading_digit(struct parse *ps, const struct token *t);
bool reading_part(struct parse *ps, const struct token *t);
bool reading_motion(struct parse *ps, const struct token *t);
bool reading_second_motion(
    struct parse *ps, const struct token *slash, const struct token *t);
bool reading_measure(struct parse *ps, const struct token *t);
bool reading_side(struct parse *ps, const struct token *t);
bool reading_mode(struct parse *ps, const struct token *t);
bool reading_position(struct parse *ps, const struct token *t);

/*
 * Takes the head as read, unless it has been: before the first value, or after
 * an error in it behind which no word of the head was lost. False where it
 * names nothing.
 */
bool reading_take_head(struct parse *ps);

/* The side that a token of kind SIDE or BOTH names. */
int reading_side_id(const struct token *t);

/* motion.c: what VALUE measures, and how its figures lie on the axis */
bool reading_measures(struct parse *ps, const struct token *value);

/*
 * For a message: is the value at hand, which cannot be read, of the extension
 * of a hinge, which ends on either side of zero?
 */
bool reading_is_hinge_extension(const struct parse *ps);

/* reading.c: calls of the grammar, and of line.c */
void reading_line_begin(struct parse *ps);
bool reading_trial(struct parse *ps, enum form form, const struct token *a,
    const struct token *b, const struct token *unit);
bool reading_end(struct parse *ps);

/* For a goal, which is a head and one value: finds what it measures. */
bool reading_of_goal(
    struct parse *ps, enum form form, const struct token *value);

/* Forgets the reading at hand, which held an error. */
void reading_drop(struct parse *ps);

/* The words of a reading that was passed over count as named. */
void reading_skip(struct parse *ps, const struct token *t);

/* commit.c: adds the records of the reading at hand; MODE may be NONE */
void reading_commit(struct parse *ps, int mode);

/*
 * Which of the two readings of a value has the texts and the qualifiers that
 * belong to one: that of flexion, else the first.
 */
int reading_main(const struct pending *now);

/*
 * value.c: reads one value of MEASUREMENT (and the OTHER of its axis, or NONE)
 * into OUT[2]; what is no value for it is reported. The caller owns the trials.
 */
bool value_read(struct parse *ps, enum axis_form axis, const int measurement[2],
    enum form form, const struct token *a, const struct token *b,
    const struct token *unit, struct outcome out[2]);

/* Reports that T, a vertebra, is no value here; returns false. */
bool value_no_level(struct parse *ps, const struct token *t);

/* qualifier.c */
bool reading_end_feel(
    struct parse *ps, const struct token *a, const struct token *b);
bool reading_pain(struct parse *ps, const struct token *word,
    const struct token *score, const struct token *onset);
bool reading_score(struct parse *ps, const struct token *scale);
bool reading_painful_arc(
    struct parse *ps, const struct token *word, const struct token *range);
bool reading_stopped_by(
    struct parse *ps, const struct token *word, const struct token *cause);
bool reading_after(
    struct parse *ps, const struct token *word, const struct token *count);
bool reading_text(
    struct parse *ps, const struct token *text, bool substitution);
bool reading_by(
    struct parse *ps, const struct token *word, const struct token *code);
bool reading_with(
    struct parse *ps, const struct token *word, const struct token *instrument);

/* position.c */
bool positions_add(
    struct parse *ps, struct positions *list, const struct token *t);

/* Puts the words of MORE in the place of those of LIST they exclude. */
void positions_change(struct positions *list, const struct positions *more);

/* Gives R, of motion WHICH of the axis, its setting and posture. */
void positions_of(struct parse *ps, int which, struct reading *r);

/*
 * meant.c: the header of the line (enum vocab_header_id), also where a slip
 * in its first word hides it, and where that word ends; NONE and 0 where it
 * is no header.
 */
int header_meant(const struct parse *ps, size_t *behind);

/* Headers that words further on in a line were meant to be. */
struct headers_meant {
	bool any;
	bool subject, precaution;
	bool session; /* and no subject behind it */
	size_t beg;   /* of the first, byte offset in the line */
	size_t session_beg, session_end;
};

/*
 * For a line that could not be read: what its words from byte BEHIND on,
 * texts and the comment left out, were meant to begin.
 */
void headers_meant(
    const struct parse *ps, size_t behind, struct headers_meant *m);

/*
 * The date of a line that has nothing else, but perhaps a word for a session,
 * a time and a text; NULL where it is another line.
 */
const struct token *session_date_meant(const struct parse *ps);

/*
 * Hints at the header that a line beginning with T, which cannot be read, may
 * have been meant for; false where none is seen.
 */
bool hint_of_header(struct parse *ps, const struct token *t);

/* Is TEXT `2.`, `2:`, `2.R` or `2.1.2`: the number of a line in a list? */
bool number_of_list(const char *text, size_t len);

/* Does T, a token that cannot be read, hold the word of a joint or motion? */
bool joint_meant(const struct parse *ps, const struct token *t);

/*
 * Does a line that could not be read begin with what is neither a word that
 * may begin a continuation nor a value? Then it may have named a joint.
 */
bool line_begins_unclear(const struct parse *ps);

/* The generated parser. 0: the whole line was read. */
int line_parse(struct parse *ps);

#endif
