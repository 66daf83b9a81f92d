/*
 * What the columns of the CSV table and the code that walks them share.
 */
#ifndef WRITE_CSV_COLUMNS_H
#define WRITE_CSV_COLUMNS_H

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

struct csv_row {
	const struct session *s;
	const struct reading *r;
	const struct trial *trial; /* of a row of one trial, else NULL */
	struct mean start;
	struct mean end;
	uint64_t rules; /* bit 1 << enum rule */
	struct csv_known setting;
	struct csv_known posture;
	struct csv_known rater;
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

enum { CSV_COLUMNS = 33 };
extern const struct csv_column csv_columns[CSV_COLUMNS];

#endif
