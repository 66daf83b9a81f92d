/*
 * Progress: change from session to session, person by person. As text, as
 * rows (CSV, or JSON, one object a line), or drawn. The figures are those of
 * calc/progress; nothing here makes one of its own, and nothing says whether
 * a change is good.
 */
#ifndef WRITE_PROGRESS_H
#define WRITE_PROGRESS_H

#include <stdbool.h>
#include <stddef.h>

#include "calc/progress.h"
#include "text/buffer.h"

enum progress_format { PROGRESS_TEXT, PROGRESS_CSV, PROGRESS_JSON };

struct progress_style {
	enum progress_format format;
	bool colour;	/* of the text */
	bool sparkline; /* in the text */
	int32_t today;	/* by which a goal's date has passed or not */
};

/* Before the first person, after the last; P is finished. */
void progress_write_begin(struct buffer *out, const struct progress_style *how);
void progress_write_end(struct buffer *out, const struct progress *p,
    const struct progress_style *how);

/* Person number PERSON, all of it. */
void progress_write_person(struct buffer *out, const struct progress *p,
    size_t person, const struct progress_style *how);

/*
 * One SVG with a chart for each motion that was measured in two sessions or
 * more, both sides in one.
 */
void progress_plot(struct buffer *out, const struct progress *p);

/* Do these LEN bytes begin such a drawing? 512 of it are enough to tell. */
bool progress_begins_plot(const char *text, size_t len);

#endif
