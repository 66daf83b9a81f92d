/*
 * A note as an editor has it open: its text, where its lines begin, and the
 * findings of its present state.
 */
#ifndef LSP_DOCUMENT_H
#define LSP_DOCUMENT_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "diag/diag.h"
#include "lsp/position.h"
#include "text/arena.h"
#include "text/buffer.h"

/* Offsets in the text at which lines begin; there is always one. */
struct line_starts {
	uint32_t *at;
	size_t len, cap;
};

/* A finding, and what else of the note it speaks of. */
struct noted {
	struct finding finding;
	uint32_t other_row; /* 0: nothing */
	uint32_t other_beg;
	uint32_t other_end;
	const char *other; /* what stands there */
};

/*
 * The protocol ends a line at LF, CRLF or CR; the notation at LF alone (a CR
 * before it is part of the end). So there are two tables; the lines of the
 * notation are called rows, and count from 1.
 */
struct document {
	char *uri;
	int64_t version;
	struct buffer text;
	struct line_starts lines;
	struct line_starts rows;

	bool judged;	/* the findings are those of the text */
	bool published; /* and the client has them */
	struct {
		struct noted *at;
		size_t len, cap;
	} findings;
	struct arena arena; /* the words of the findings */
};

struct document *document_new(const char *uri);
void document_free(struct document *d);

/* Replaces bytes BEG .. END by LEN bytes of TEXT (not its own). */
void document_splice(
    struct document *d, size_t beg, size_t end, const char *text, size_t len);

/* Call it after the last of several splices: the lines are found anew. */
void document_changed(struct document *d);

/* Offset of a position; one beyond its line or the text is at the end of it */
size_t document_offset(const struct document *d,
    enum position_encoding encoding, int64_t line, int64_t character);

struct document_place {
	size_t line;
	size_t character;
};
struct document_place document_place(
    const struct document *d, enum position_encoding encoding, size_t offset);

/* Row ROW without its end, and without a byte-order mark. */
struct document_row {
	const char *text;
	size_t len;
	size_t at; /* offset of text */
};
struct document_row document_row(const struct document *d, uint32_t row);

/* How many rows the reader of notes sees; the row of an offset. */
uint32_t document_row_count(const struct document *d);
uint32_t document_row_of(const struct document *d, size_t offset);

/* Offset of byte BYTE of row ROW. */
size_t document_at(const struct document *d, uint32_t row, size_t byte);

/* "\r\n" where the first line ends so, else "\n". */
const char *document_line_end(const struct document *d);

/* Writes a position, a range, as JSON. */
void document_put_position(struct buffer *out, const struct document *d,
    enum position_encoding encoding, size_t offset);
void document_put_range(struct buffer *out, const struct document *d,
    enum position_encoding encoding, size_t beg, size_t end);

#endif
