/* What the parts of the tidy writer share. Private to src/write/tidy*.c. */
#ifndef WRITE_TIDY_INTERNAL_H
#define WRITE_TIDY_INTERNAL_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "syntax/tokens.h"
#include "text/buffer.h"
#include "text/intern.h"
#include "write/tidy.h"

/* A word, number or text of a line as it will be written. */
struct tidy_word {
	uint32_t at; /* in the text of its words */
	uint32_t len;
	int16_t kind; /* of its token */
	int16_t id;
	bool glued; /* no blank before it */
};

/* The words of one line; the memory is used again for each line. */
struct tidy_words {
	struct buffer source; /* the line and a LF */
	struct buffer text;
	struct {
		struct tidy_word *at;
		size_t len, cap;
	} list;
	struct tokens tokens; /* of the line as it came */
	struct tokens again;  /* as it will be written */
	struct buffer joined;
	size_t fallbacks; /* lines not spelled as was asked */
};

/*
 * Spells the line TEXT of LEN bytes, which was read whole. LEVELS: it is one
 * of hand-behind-back. False where no spelling gives the same tokens: then
 * the line must be kept.
 */
bool tidy_spell(struct tidy_words *words, const char *text, size_t len,
    bool levels, enum tidy_spelling spelling);
void tidy_words_free(struct tidy_words *words);

/* Adds words FROM .. TO - 1 to OUT, one blank between. */
void tidy_join(
    const struct tidy_words *words, size_t from, size_t to, struct buffer *out);

/* The comment of the line, # included; *LEN is 0 where there is none. */
const char *tidy_comment(const struct tidy_words *words, size_t *len);

/* A line of readings in a block of such lines. */
struct tidy_row {
	size_t line;	  /* whose it is: any number of the caller */
	uint32_t head_at; /* in the text of the block */
	uint32_t head_len;
	uint32_t head_width; /* screen cells */
	uint32_t first;	     /* of its cells */
	uint32_t cells;
	uint32_t comment_at;
	uint32_t comment_len;
};

/* One reading of a row. */
struct tidy_cell {
	uint32_t at;
	uint32_t len;
	uint32_t width;
	uint32_t group; /* 0 until the side changes, then 1 ... */
	uint32_t index; /* within the group */
};

/* Lines of readings whose columns are aligned with each other. */
struct tidy_block {
	struct buffer text;
	struct {
		struct tidy_row *at;
		size_t len, cap;
	} rows;
	struct {
		struct tidy_cell *at;
		size_t len, cap;
	} cells;
};

/* True where the line names its joint, not going on with one above. */
bool tidy_names_joint(const struct tidy_words *words);

void tidy_block_add(
    struct tidy_block *block, const struct tidy_words *words, size_t line);

/* Where the readings of a block begin; then each row to OUT, without LF. */
enum { TIDY_GROUPS = 4, TIDY_CELLS = 12 };
struct tidy_columns {
	size_t start[TIDY_GROUPS][TIDY_CELLS]; /* 0: nowhere in particular */
};
void tidy_block_columns(
    const struct tidy_block *block, struct tidy_columns *columns);
void tidy_block_row(const struct tidy_block *block,
    const struct tidy_columns *columns, const struct tidy_row *row,
    struct buffer *out);
void tidy_block_reset(struct tidy_block *block);
void tidy_block_free(struct tidy_block *block);

/* A line of the session at hand. */
struct tidy_line {
	size_t at;    /* in the raw bytes */
	size_t len;   /* with its CR and LF */
	bool finding; /* something in it could not be read */
	bool reading; /* a reading of it could */
	bool levels;  /* of hand-behind-back */
	bool again;   /* the second reader has had it */
	bool made;    /* it is written anew */
	size_t made_at;
	size_t made_len;
};

struct tidy {
	enum tidy_spelling spelling;
	note_session *on_session;
	void *arg;
	/* Writes the lines anew; tests put a faulty one here. */
	void (*render)(struct tidy *tidy, size_t lines);

	struct intern pool;
	struct note *reader;	  /* reads the note as it came */
	struct note *proof;	  /* reads it as it is written */
	struct buffer records[2]; /* what the two last handed on */
	uint32_t person[2];	  /* whose headers are in the records already */
	bool ended;		  /* the reader has just handed a session on */
	bool gave_up;

	struct buffer raw; /* lines not yet written */
	size_t scanned;	   /* bytes of raw that belong to lines */
	struct {
		struct tidy_line *at;
		size_t len, cap;
	} lines;
	uint32_t first_line; /* number of lines.at[0] */

	struct tidy_words words;
	struct tidy_block block;
	struct buffer made;
	struct buffer ready; /* the session as it will be written */
};

/* Writes the first LINES lines of the session anew, where that can be. */
void tidy_render(struct tidy *tidy, size_t lines);

#endif
