#include "write/progress.h"

#include "write/progress_text.h"

void
progress_write_begin(struct buffer *out, const struct progress_style *how)
{
	if (how->format == PROGRESS_CSV)
		progress_rows_header(out);
}

void
progress_write_person(struct buffer *out, const struct progress *p,
    size_t person, const struct progress_style *how)
{
	if (how->format == PROGRESS_TEXT)
		progress_text_person(out, p, person, how);
	else
		progress_rows_person(out, p, person, how);
}

void
progress_write_end(struct buffer *out, const struct progress *p,
    const struct progress_style *how)
{
	if (how->format == PROGRESS_TEXT)
		progress_text_end(out, p);
}
