/* Comments that accept findings. */
#ifndef SYNTAX_ACCEPTANCE_H
#define SYNTAX_ACCEPTANCE_H

#include <stdint.h>

#include "record/record.h"

/*
 * Reads a comment of session S: bytes BEG .. END of line LINE, which begins
 * at LINE_AT in the session's text, the # included. Where it reads `# accept
 * RULE[, RULE]: reason`, its rules are added to the session with TARGET (0:
 * still to be set). Any other comment is prose.
 */
void acceptance_read(struct session *s, uint32_t line, uint32_t line_at,
    uint32_t beg, uint32_t end, uint32_t target);

/*
 * Behind the last rule name of the comment that begins with the # at COMMENT
 * and ends before STOP; NULL where it is prose.
 */
const char *acceptance_names_end(const char *comment, const char *stop);

#endif
