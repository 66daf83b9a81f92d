/*
 * What the columns of the CSV table and the code that walks them share.
 */
#ifndef WRITE_CSV_COLUMNS_H
#define WRITE_CSV_COLUMNS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "calc/value.h"
#include "record/record.h"
#include "text/buffer.h"

enum {
	CSV_ANY_SIDE = VOCAB_SIDE_COUNT,
	CSV_NOT_ASKED = 2, /* beside 1, 0 and -1 of session_involves() */

	/* More than all cells of bounded length, commas and CRLF together. */
	CSV_BOUNDED = 1024,
	CSV_TRIAL_ROOM = 96, /* a level in `end`, a pair in `remark` */
	CSV_RULE_ROOM = 48
};

/* The cell of an interned text, which readings in a row often share. */
struct csv_known {
	uint32_t id; /* 0, the empty text, has an empty cell */
	struct buffer cell;
};

struct csv_line {
	uint32_t number; /* 0: none yet */
	char text[12];
	size_t len;
};

/*
 * Cells of the session that stand side by side, with their commas: at the
 * first of them, the others being empty.
 */
struct csv_run {
	uint32_t at; /* in csv_row.shared */
	uint32_t len;
};

enum { CSV_COLUMNS = 33 };

struct csv_row {
	/* the same in all rows of a session */
	const struct session *s;
	bool by_trial;
	struct csv_run runs[CSV_COLUMNS];
	struct buffer shared;

	/* of the row at hand */
	const struct reading *r;
	const struct trial *trial; /* of a row of one trial, else NULL */
	struct mean start;
	struct mean end;
	uint64_t rules; /* bit 1 << enum rule */
	struct csv_known setting;
	struct csv_known posture;
	struct csv_known rater;
	struct csv_line line;
	int8_t involved[VOCAB_MEASUREMENT_COUNT][VOCAB_SIDE_COUNT + 1];
};

/*
 * Writes the cell at P, where there is room for the row, and returns its end.
 */
typedef char *csv_cell(char *p, struct csv_row *row);

enum csv_column_of { CSV_OF_SESSION, CSV_OF_READING, CSV_OF_TRIAL };

struct csv_column {
	const char *name;
	csv_cell *cell;
	enum csv_column_of of; /* of a session: the same in all its rows */
};

extern const struct csv_column csv_columns[CSV_COLUMNS];

/*
 * Writes the row of ROW at P, where there is room for it, and returns its end;
 * what the session's cells are must stand in ROW.
 */
char *csv_put_row(char *p, struct csv_row *row);

#endif
