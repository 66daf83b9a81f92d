/*
 * The tidy writer: the same note with its columns aligned and its words
 * spelled in one way. It changes no measured value, order, comment, text or
 * blank line; a line that the reader of notes did not read whole is kept to
 * the byte, and so are the end of each line, the byte-order mark and a
 * missing last LF. Line I stays line I. Tidying twice changes nothing more.
 *
 * Memory depends on the longest session, not on the file: a session is
 * written when the line that ends it has come.
 */
#ifndef WRITE_TIDY_H
#define WRITE_TIDY_H

#include <stdbool.h>
#include <stddef.h>

#include "diag/diag.h"
#include "record/record.h"
#include "syntax/note.h"
#include "text/buffer.h"

enum tidy_spelling {
	TIDY_LONG,  /* the uniform names of the vocabulary */
	TIDY_SHORT, /* its short names, where they are shorter */
	TIDY_KEEP   /* words, numbers and units as they were typed */
};

struct tidy;

/*
 * ON_SESSION (may be NULL) is called with each session and what could not be
 * read of it, as the reader of notes calls it. The caller frees the writer
 * with tidy_free().
 */
struct tidy *tidy_new(
    enum tidy_spelling spelling, note_session *on_session, void *arg);
void tidy_free(struct tidy *tidy);

/*
 * One note after another: begin, its bytes in any pieces, end. What is ready
 * is added to OUT. FILE names the note in findings and must live until
 * tidy_end().
 */
void tidy_begin(struct tidy *tidy, const char *file);
void tidy_text(
    struct tidy *tidy, const char *bytes, size_t len, struct buffer *out);
void tidy_end(struct tidy *tidy, struct buffer *out);

/*
 * All of that for what can be read from descriptor FD (not closed). The bytes
 * as they came are added to WAS (may be NULL), tidied to OUT. Returns 0, or
 * -1 with errno set where reading failed: then OUT is not whole.
 */
int tidy_file(struct tidy *tidy, int fd, const char *file, struct buffer *was,
    struct buffer *out);

/*
 * Each session is read again as it was written, and is compared. True where
 * one of this note came out with another meaning: it and all behind it were
 * then copied to the byte. No note is known that does this.
 */
bool tidy_gave_up(const struct tidy *tidy);

/*
 * Adds to OUT all that S says, with the findings of SINK by line and rule, and
 * the headers of the person if PERSON; nothing tells where in a line it
 * stands. Sessions of one pool are the same where these bytes are equal.
 */
void tidy_records(struct buffer *out, const struct session *s,
    const struct sink *sink, bool person);

#endif
