/*
 * What the files of the totals in the text summary share.
 */
#ifndef WRITE_SUMMARY_TOTALS_PARTS_H
#define WRITE_SUMMARY_TOTALS_PARTS_H

#include "calc/totals.h"
#include "write/summary_internal.h"

struct totals_text {
	struct summary *sum;
	const struct totals *all;
	struct buffer *line; /* the entry at hand */
	unsigned systems;    /* that may grade this session */
	size_t indent;
};

/* Which total: "right index active, wrist-neutral: ". */
void totals_head(struct totals_text *text, const struct total *t);

/* Writes the line as one entry, and empties it. */
void totals_entry(struct totals_text *text, struct buffer *out);

/* The differences between the sides, once a pair: at the first of it. */
void totals_rotation(struct totals_text *text, struct buffer *out, size_t i);

/* The parts of the laxity score, where two of its three joints are there. */
void totals_laxity(struct totals_text *text, struct buffer *out);

/* Where all that was told of comes from. */
void totals_sources(struct totals_text *text, struct buffer *out);

#endif
