/*
 * Reads a note from text, for tests: its rows as the CSV has them, cell by
 * cell, and its findings, both kept beyond their sessions. Each test file
 * that includes it has its own copy.
 */
#ifndef READ_NOTE_H
#define READ_NOTE_H

#include <check.h>
#include <stdlib.h>
#include <string.h>

#include "diag/diag.h"
#include "lint/lint.h"
#include "record/record.h"
#include "syntax/note.h"
#include "text/arena.h"
#include "text/buffer.h"
#include "text/date.h"
#include "text/mem.h"
#include "write/csv.h"
#include "write/csv_columns.h"

/* ck_assert_msg() tells each success to a file: too slow for every row. */
#define EXPECT(that, ...)                                                      \
	do {                                                                   \
		if (!(that))                                                   \
			ck_abort_msg(__VA_ARGS__);                             \
	} while (0)

/* The columns of the CSV that tests name. */
enum {
	COL_SESSION = 0,
	COL_LABEL = 2,
	COL_SUBJECT = 3,
	COL_AGE = 4,
	COL_SEX = 5,
	COL_JOINT = 6,
	COL_MOTION = 7,
	COL_SETTING = 8,
	COL_SIDE = 10,
	COL_MODE = 11,
	COL_KIND = 12,
	COL_START = 13,
	COL_END = 14,
	COL_TRIALS = 17,
	COL_INVOLVED = 25,
	COL_FINDINGS = 29,
	COL_FILE = 30,
	COL_LINE = 31,
	COLUMNS
};

/* Its name; `trial` stands only in rows of one trial. */
#define COLUMN_NAME(i) (csv_columns[(i) + ((i) > COL_TRIALS)].name)

struct row {
	uint32_t line;
	uint32_t person; /* line of the subject; 0 where it is not known */
	const char *cell[COLUMNS];
};

struct told {
	enum rule rule;
	enum level level;
	uint32_t line, beg, end, unread;
	bool accepted;
	const char *message;
};

struct read_note {
	struct {
		struct row *at;
		size_t len, cap;
	} rows;
	struct {
		struct told *at;
		size_t len, cap;
	} findings;
	struct arena arena;
	bool judged;
	struct buffer csv;
	note_session *also; /* called with each session, judged; may be NULL */
	void *arg;
};

/* The reader, made once: tests read many thousand notes. */
static struct {
	struct intern pool;
	struct note *note;
	struct lint *lint;
} read_note_with;
static struct read_note *read_note_now;

/* One cell of RFC 4180 from P on; returns what is behind it. */
static inline const char *
read_note_cell(struct read_note *n, const char *p, const char **cell)
{
	struct buffer text = {0};

	if (*p == '"') {
		for (p++; *p != '"' || *++p == '"'; p++)
			buffer_putc(&text, *p);
	} else {
		for (; *p != ',' && *p != '\r'; p++)
			buffer_putc(&text, *p);
	}
	*cell = arena_text(&n->arena, text.len ? text.data : "", text.len);
	buffer_free(&text);
	return p;
}

static inline void
read_note_rows(struct read_note *n, const struct session *s)
{
	const char *p, *end;
	uint32_t person = s->person->said == SAID ? s->person->line : 0;

	buffer_putc(&n->csv, '\0');
	p = n->csv.data;
	end = p + n->csv.len - 1;
	while (p < end) {
		struct row *row = MEM_PUSH(&n->rows);

		row->person = person;
		for (int i = 0; i < COLUMNS; i++) {
			p = read_note_cell(n, p, &row->cell[i]);
			EXPECT(*p == (i + 1 < COLUMNS ? ',' : '\r'),
			    "%.40s: no end of a cell", p);
			p++;
		}
		EXPECT(*p == '\n', "%.40s: no end of a row", p);
		p++;
		row->line = (uint32_t)strtoul(row->cell[COL_LINE], NULL, 10);
	}
	n->csv.len = 0;
}

static inline void
read_note_session(void *arg, struct session *s, struct sink *sink)
{
	struct read_note *n = read_note_now;

	(void)arg;
	if (n->judged)
		lint_session(read_note_with.lint, s, sink);
	sink_sort(sink);
	csv_session(&n->csv, s, sink, false);
	read_note_rows(n, s);
	for (size_t i = 0; i < sink->len; i++) {
		const struct finding *f = sink->at[i];

		if (i > 0 && finding_same(f, sink->at[i - 1]))
			continue;
		*MEM_PUSH(&n->findings) = (struct told){f->rule, f->level,
		    f->line, f->beg, f->end, f->unread, f->accepted,
		    arena_text(&n->arena, f->message, strlen(f->message))};
	}
	if (n->also)
		n->also(n->arg, s, sink);
}

/* The day that tests take for today. */
static inline int32_t
read_note_today(void)
{
	int32_t day = 0;

	date_parse("2026-06-01", 10, &day);
	return day;
}

/* Reads TEXT of LEN bytes; read_note_free() ends it. */
static inline void
read_note_also(struct read_note *n, const char *text, size_t len, bool judged,
    note_session *also, void *arg)
{
	struct lint_options options = {read_note_today(), 50};
	struct note *note = read_note_with.note;
	const char *end = text + len;

	*n = (struct read_note){.judged = judged, .also = also, .arg = arg};
	if (!note) {
		note = note_new(&read_note_with.pool, read_note_session, NULL);
		read_note_with.note = note;
		read_note_with.lint = lint_new(&options);
	}
	read_note_now = n;
	lint_reset(read_note_with.lint);
	note_begin(note, "invented.range", false);
	while (text < end) {
		const char *lf = memchr(text, '\n', (size_t)(end - text));
		const char *stop = lf ? lf : end;

		note_line(note, text, (size_t)(stop - text));
		text = lf ? lf + 1 : end;
	}
	note_end(note);
}

static inline void
read_note(struct read_note *n, const char *text, size_t len, bool judged)
{
	read_note_also(n, text, len, judged, NULL, NULL);
}

static inline void
read_note_free(struct read_note *n)
{
	free(n->rows.at);
	free(n->findings.at);
	buffer_free(&n->csv);
	arena_free(&n->arena);
}

/* Gives back what all readings share; in the tear-down of a test case. */
static inline void
read_note_end(void)
{
	if (!read_note_with.note)
		return;
	note_free(read_note_with.note);
	lint_free(read_note_with.lint);
	intern_free(&read_note_with.pool);
	memset(&read_note_with, 0, sizeof(read_note_with));
}

#endif
