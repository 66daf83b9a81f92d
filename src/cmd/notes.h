/*
 * What check, summary and convert have in common: every note read, every
 * session judged and handed on with its findings.
 */
#ifndef CMD_NOTES_H
#define CMD_NOTES_H

#include <stdbool.h>
#include <stddef.h>

#include "diag/diag.h"
#include "record/record.h"

struct options;

struct notes_handler {
	void *arg;

	/*
	 * A session that has been judged. The findings are sorted. It may
	 * take the sink's content, leaving it zeroed.
	 */
	void (*session)(void *arg, struct session *s, struct sink *sink);

	/* After the last session of a file; may be NULL. */
	void (*file_end)(void *arg, const char *file);

	/*
	 * After the last file, or the last of each part where the files are
	 * divided among jobs: see struct jobs_work. Without DONE all is read
	 * by one job. Both may be NULL.
	 */
	int (*done)(void *arg, uint64_t *told);
	size_t (*divide)(void *arg);

	bool names_only; /* messages of reading the text alone are wanted */
};

/*
 * Reads all inputs. Returns 2 where something could not be read at all, else
 * what done() gave, else 0. What done() told is added to *TOLD, unless that is
 * NULL.
 */
int notes_each(const struct options *options,
    const struct notes_handler *handler, uint64_t *told);

/*
 * For commands that do not judge: reports the findings of reading the text on
 * standard error. Returns 1 where there were some, else 0.
 */
int notes_report_unread(const struct session *s, const struct sink *sink);

#endif
