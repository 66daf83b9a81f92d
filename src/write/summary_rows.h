/*
 * The summary as rows, for CSV and JSON alike: what their columns share with
 * the code that walks a session.
 */
#ifndef WRITE_SUMMARY_ROWS_H
#define WRITE_SUMMARY_ROWS_H

#include <stdbool.h>

#include "write/summary_internal.h"

/* What a row says; its word stands in the column `row`. */
enum summary_row_kind {
	SUMMARY_MEASURED,
	SUMMARY_GOAL,
	SUMMARY_PRECAUTION,
	SUMMARY_UNAVAILABLE,
	SUMMARY_REMARK,
	SUMMARY_FINDING,
	SUMMARY_ACCEPTED /* a finding that is told all the same */
};

struct summary_row {
	struct summary *sum;
	enum summary_row_kind kind;
	struct summary_line line;	  /* measured, goal; else c is NULL */
	struct mean modes[COMPARE_SIDES]; /* passive less active */
	bool has_modes;			  /* one of them at least */
	int modes_unit;			  /* of all of them */
	int goal_side;			  /* of a goal, or NONE */
	const struct goal *goal;
	struct mean to_go;
	const struct finding *finding;
	struct text_ref reason;	   /* of an accepted one */
	uint32_t at_line;	   /* of the note, 0 where several */
	const struct buffer *text; /* of the rest, may be empty */
};

struct summary_column {
	const char *name;
	bool number; /* in JSON; else a text */
	/* One of the two; it writes the bare value, or nothing. */
	void (*cell)(struct buffer *out, const struct summary_row *row);
	void (*of_side)(struct buffer *out, const struct session *s,
	    const struct reading *r);
	int side; /* of the reading that of_side() gets */
};

extern const struct summary_column summary_columns[];
extern const size_t summary_column_count;

#endif
