/*
 * Findings as people read them and as programs do.
 */
#ifndef WRITE_FINDINGS_H
#define WRITE_FINDINGS_H

#include <stdbool.h>

#include "diag/diag.h"
#include "text/buffer.h"

struct findings_style {
	bool brief;  /* the message line alone */
	bool json;   /* one object a line */
	bool colour; /* of the text */
};

/* Escape sequences for a terminal; each may be "". */
struct findings_colours {
	const char *place;    /* file, line, column */
	const char *level[4]; /* by enum level */
	const char *rule;
	const char *caret;
	const char *note;
	const char *reset;
};

extern const struct findings_colours findings_plain;
extern const struct findings_colours findings_coloured;

/* Writes F, which stands in FILE. */
void findings_write(struct buffer *out, const char *file,
    const struct finding *f, const struct findings_style *style);

/* Accepted findings, and those whose level is off, are not for showing. */
static inline bool
findings_shown(const struct finding *f)
{
	return !f->accepted && f->level != LEVEL_OFF;
}

/*
 * Was finding I of SINK, which is sorted, told with the one before it? A value
 * of a hinge is two readings, and one finding.
 */
static inline bool
findings_told(const struct sink *sink, size_t i)
{
	return i > 0 && finding_same(sink->at[i], sink->at[i - 1]);
}

/* The message and how many further lines it cost; nothing a terminal obeys. */
void findings_message(struct buffer *out, const struct finding *f);

/*
 * LEN bytes with U+FFFD for each byte that is not UTF-8 and each character
 * that a terminal would obey; tabs become blanks.
 */
void findings_safe(struct buffer *out, const char *text, size_t len);

#endif
