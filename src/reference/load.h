/*
 * Private to the reading of a site's table: its columns, and the state that
 * load.c (lines and rows) shares with cell.c (what stands in one cell).
 */
#ifndef REFERENCE_LOAD_H
#define REFERENCE_LOAD_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "reference/reference.h"

enum column {
	JOINT,
	MOTION,
	SETTING,
	MODE,
	SEX,
	AGE_LO,
	AGE_HI,
	VALUE,
	SPREAD,
	SOURCE,
	WHERE_READ,
	VERIFIED,
	COLUMNS
};

struct ref_load_column {
	const char *name;
	bool needed; /* the column, and a text in each of its cells */
};

extern const struct ref_load_column ref_load_columns[COLUMNS];

/* More of them than that are no table of ours. */
enum { MOST_CELLS = 64, MOST_JOINTS = 32 };

struct ref_slice {
	const char *text;
	size_t len;
};

struct ref_loader {
	struct ref_site *site;
	size_t first; /* of the rows of this table */
	ref_complain *complain;
	void *arg;
	struct ref_slice line;
	size_t line_number;
	size_t faults;
	size_t width;			 /* cells of a row */
	int column_of[MOST_CELLS];	 /* enum column of each cell */
	struct ref_slice cells[COLUMNS]; /* of the row at hand */
	int joints[MOST_JOINTS];	 /* its measurements */
	size_t joint_count;
	struct {
		size_t *at; /* the line of each row */
		size_t len, cap;
	} lines;
};

/* Tells of a fault at AT, a byte of the line. */
void ref_load_fault(struct ref_loader *in, const char *at, const char *format,
    ...) __attribute__((format(printf, 3, 4)));

bool ref_slice_is(struct ref_slice s, const char *text);
struct ref_slice ref_slice_trim(struct ref_slice s);

/* Takes what stands before the next MARK off *REST; false at its end. */
bool ref_slice_next(struct ref_slice *rest, char mark, struct ref_slice *out);

/* How much of a cell a message quotes: not all of a long one. */
size_t ref_slice_quoted(struct ref_slice s);

#define QUOTED(s) (int)ref_slice_quoted(s), (s).text

/* Finds the measurements of the row: joints may be a list with commas. */
void ref_load_joints(struct ref_loader *in);

/*
 * Fills what ROW holds of its cells, all but the population and the texts.
 * Faults are told; the caller counts them.
 */
void ref_load_cells(struct ref_loader *in, struct ref_usual_row *row);

#endif
