/*
 * Reads a note line by line and hands each session on as it ends, so that
 * memory depends on the longest session, not on the file.
 */
#ifndef SYNTAX_NOTE_H
#define SYNTAX_NOTE_H

#include <stddef.h>

#include "diag/diag.h"
#include "record/record.h"

/* A longer line is not read. */
enum { LONGEST_LINE = 4096 };

struct note;

/*
 * Called with each session (or run of headers) as it ends, and the findings
 * of reading its text. Both are valid until it returns; it may add findings,
 * and may take the sink's content (leaving it zeroed).
 */
typedef void note_session(void *arg, struct session *s, struct sink *sink);

/*
 * A reader for notes. POOL (not owned) holds the interned texts of all of
 * them. The caller frees the reader with note_free().
 */
struct note *note_new(struct intern *pool, note_session *on_session, void *arg);
void note_free(struct note *note);

/*
 * Begins a file: FILE is its name in findings and rows; it must live until
 * note_end(). NAMES_ONLY leaves out the messages of findings, but of reading
 * the text.
 */
void note_begin(struct note *note, const char *file, bool names_only);

/*
 * Reads one line of LEN bytes, without its LF; a CR at its end is dropped. Of
 * a line longer than LONGEST_LINE the first LONGEST_LINE + 1 bytes are enough.
 */
void note_line(struct note *note, const char *text, size_t len);

/* Ends the file: hands the last session on. */
void note_end(struct note *note);

#endif
