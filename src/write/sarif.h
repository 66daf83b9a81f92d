/*
 * Findings in the Static Analysis Results Interchange Format, SARIF 2.1.0 of
 * OASIS, which code hosts and editors read. Nothing is kept from one finding
 * to the next, so memory does not grow with them: begin, each result, end.
 */
#ifndef WRITE_SARIF_H
#define WRITE_SARIF_H

#include <stdbool.h>

#include "diag/diag.h"
#include "text/buffer.h"

/* What stands before the first result: the program and all its rules. */
void sarif_begin(struct buffer *out);

/*
 * F, which stands in FILE; FIRST: no result stands before it. An accepted
 * finding is one that is suppressed in the source. OUT may be emptied between
 * two results.
 */
void sarif_result(
    struct buffer *out, const char *file, const struct finding *f, bool first);

/* What stands behind the last result; STATUS is that of the exit. */
void sarif_end(struct buffer *out, int status, bool could_do_it);

/* FILE as a URI reference: relative where it is, every odd byte as %XX. */
void sarif_uri(struct buffer *out, const char *file);

#endif
