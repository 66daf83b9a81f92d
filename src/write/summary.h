/*
 * The summary: what a reader of the chart wants of each session, both sides
 * side by side, with differences, usual values and what is open. As text, or
 * as rows: CSV, or JSON, one object a line.
 */
#ifndef WRITE_SUMMARY_H
#define WRITE_SUMMARY_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "diag/diag.h"
#include "record/record.h"
#include "reference/reference.h"
#include "text/buffer.h"

enum summary_format { SUMMARY_TEXT, SUMMARY_CSV, SUMMARY_JSON };

struct summary_options {
	enum summary_format format;
	bool colour;		     /* of the text */
	const char *source;	     /* of usual values; NULL: the best fit */
	const struct ref_site *site; /* may be NULL */
};

struct summary;

/* OPTIONS must outlive it. The caller frees it with summary_free(). */
struct summary *summary_new(const struct summary_options *options);

/* Before the first session. */
void summary_begin(struct summary *sum, struct buffer *out);

/*
 * Adds S, whose findings SINK holds, sorted. Call it after the session was
 * judged, since doubtful readings must be marked by then.
 */
void summary_session(struct summary *sum, struct buffer *out,
    const struct session *s, const struct sink *sink);

/* After the last session: says whose the usual values are, if any was shown. */
void summary_end(struct summary *sum, struct buffer *out);

/*
 * What summary_end() will explain, as bits; and that it has to explain as much
 * again, which others have shown.
 */
uint64_t summary_told(const struct summary *sum);
void summary_tell(struct summary *sum, uint64_t told);

/*
 * From now on a session is written as one behind another, since it is to be
 * put behind what others wrote. Returns the bytes that it then begins with
 * and the first of all does not.
 */
size_t summary_divide(struct summary *sum);

void summary_free(struct summary *sum);

#endif
