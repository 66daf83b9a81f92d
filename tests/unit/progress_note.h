/*
 * Progress of notes given as text, for its tests. All people and readings are
 * invented.
 */
#ifndef PROGRESS_NOTE_H
#define PROGRESS_NOTE_H

#include "read_note.h"

#include "calc/progress.h"
#include "write/progress.h"

TCase *progress_postures_case(void);
TCase *progress_error_case(void);
TCase *progress_write_case(void);
TCase *progress_plot_case(void);
TCase *progress_told_case(void);

static struct progress *progress;
static struct buffer out;

static int32_t today; /* for what is printed */

/* The name of the file that notes are taken for; NULL: all the same. */
static const char *file_name;

static inline void
follow(void *arg, struct session *s, struct sink *sink)
{
	if (file_name)
		s->file = file_name;
	progress_add(arg, s, sink);
}

/* One note more. */
static inline void
take_note(const char *text)
{
	struct read_note note;

	if (!progress)
		progress = progress_new();
	read_note_also(&note, text, strlen(text), true, follow, progress);
	read_note_free(&note);
}

static inline void
follow_note(const char *text)
{
	take_note(text);
	progress_finish(progress);
}

static inline void
tear_down_progress(void)
{
	if (progress)
		progress_free(progress);
	progress = NULL;
	file_name = NULL;
	today = 0;
	buffer_free(&out);
	read_note_end();
}

/* The series of MEASUREMENT, SIDE and MODE, number N of them. */
static inline const struct progress_series *
series_of(int measurement, int side, int mode, int n)
{
	for (size_t i = 0; i < progress->series.len; i++) {
		const struct progress_series *s = &progress->series.at[i];

		if (s->measurement == measurement && s->side == side &&
		    s->mode == mode && n-- == 0)
			return s;
	}
	ck_abort_msg("no such series");
}

static inline uint32_t
last_of(const struct progress_series *s)
{
	return s->last + s->last_count - 1;
}

/* From the first session (or the previous one) to the last. */
static inline struct progress_change
since_first(const struct progress_series *s)
{
	struct progress_change change;
	uint32_t to = last_of(s);

	ck_assert_uint_ne(progress->points.at[to].first, PROGRESS_NONE);
	progress_change(progress, progress->points.at[to].first, to, &change);
	return change;
}

static inline struct progress_change
since_previous(const struct progress_series *s)
{
	struct progress_change change;
	uint32_t to = last_of(s);

	ck_assert_uint_ne(progress->points.at[to].previous, PROGRESS_NONE);
	progress_change(
	    progress, progress->points.at[to].previous, to, &change);
	return change;
}

static inline const char *
printed(enum progress_format format, bool sparkline)
{
	struct progress_style how = {
	    .format = format, .sparkline = sparkline, .today = today};

	out.len = 0;
	progress_write_begin(&out, &how);
	for (size_t i = 0; i < progress->persons.len; i++)
		progress_write_person(&out, progress, i, &how);
	progress_write_end(&out, progress, &how);
	buffer_putc(&out, '\0');
	out.len--;
	return out.data;
}

#define M(name) VOCAB_MEASUREMENT_##name

enum { R = VOCAB_SIDE_RIGHT, L = VOCAB_SIDE_LEFT };
enum { A = VOCAB_MODE_ACTIVE, P = VOCAB_MODE_PASSIVE };

#define HEAD                                                                   \
	"subject PG-01\ninvolved right elbow\nrater ab\n"                      \
	"instrument goniometer step 1\ninstrument tape step 1 mm\n"

#endif
