/*
 * Findings and the sink that collects them. Nothing here prints: writers do.
 * So the command, the language server and the tests see the same findings.
 */
#ifndef DIAG_DIAG_H
#define DIAG_DIAG_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "diag/rule.h"
#include "text/arena.h"

/* A run of bytes of one line, and that line. */
struct place {
	uint32_t line;	  /* from 1 */
	uint32_t beg;	  /* byte offset in the line, from 0 */
	uint32_t end;	  /* behind the last byte; may equal beg */
	const char *text; /* the line, without its end */
	uint32_t len;	  /* of the line */
};

enum { NO_READING = -1 };

struct finding {
	enum rule rule;
	enum level level; /* of the catalogue, unless the maker changed it */
	uint32_t line;
	uint32_t beg;
	uint32_t end;
	int reading;	     /* index in its session, or NO_READING */
	int other;	     /* the reading that it is held against, the same */
	uint32_t header;     /* line of the header that it goes by; 0: none */
	uint32_t unread;     /* further lines that were lost by it */
	bool accepted;	     /* by a comment in the note */
	const char *message; /* NUL-terminated; NULL where none was wanted */
	const char *hint;    /* what to do; may be NULL */
	const char *source;  /* the line it stands in, not NUL-terminated */
	uint32_t source_len;
};

/* The findings of one session (or of one person), in the order made. */
struct sink {
	struct finding **at;
	size_t len;
	size_t cap;
	struct arena arena;
	bool names_only; /* leave messages out, but of reading the text */
	const char *last_text;
	uint32_t last_line; /* whose copy last_text is, 0 = none */
};

/* A zeroed struct sink is empty and ready. */
void sink_free(struct sink *sink);

/* Forgets the findings; they are no longer valid. */
void sink_reset(struct sink *sink);

/*
 * Adds a finding of RULE at PLACE (copied). READING is an index or
 * NO_READING. The message starts in lower case and has no full stop. The
 * result is never NULL and valid until sink_reset().
 */
struct finding *sink_add(struct sink *sink, enum rule rule,
    const struct place *place, int reading, const char *format, ...)
    __attribute__((format(printf, 5, 6)));

/* Says what to do about a finding of this sink. */
void sink_hint(struct sink *sink, struct finding *finding, const char *format,
    ...) __attribute__((format(printf, 3, 4)));

/* Below, at or above 0: by line, column, rule name, reading. */
int finding_order(const struct finding *a, const struct finding *b);

/* Sorts by finding_order(). */
void sink_sort(struct sink *sink);

/*
 * True where B is the same rule at the same place as A, which the readings of
 * one value make. Findings that are of no reading are each of their own cause.
 */
bool finding_same(const struct finding *a, const struct finding *b);

#endif
