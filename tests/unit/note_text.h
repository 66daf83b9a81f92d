/*
 * A note read from text, and what was found in it: for tests of what the
 * program itself writes in the notation.
 */
#ifndef NOTE_TEXT_H
#define NOTE_TEXT_H

#include <string.h>

#include "syntax/note.h"
#include "text/mem.h"

struct seen {
	size_t findings;
	size_t syntax; /* of them */
	size_t readings;
	size_t not_tested; /* of them */
	int measurement;   /* of the first reading, or -1 */
	struct buffer told;
};

static inline void
read_note_session(void *arg, struct session *s, struct sink *sink)
{
	struct seen *seen = arg;

	seen->findings += sink->len;
	for (size_t i = 0; i < sink->len; i++) {
		seen->syntax += sink->at[i]->rule == RULE_SYNTAX;
		buffer_printf(&seen->told, "%u: %s\n",
		    (unsigned)sink->at[i]->line, sink->at[i]->message);
	}
	if (s->readings.len > 0 && seen->readings == 0)
		seen->measurement = s->readings.at[0].measurement;
	seen->readings += s->readings.len;
	for (size_t i = 0; i < s->readings.len; i++)
		seen->not_tested += s->readings.at[i].kind == KIND_NOT_TESTED;
}

static inline void
read_text(const char *text, size_t len, struct seen *seen)
{
	struct intern pool = {0};
	struct note *note = note_new(&pool, read_note_session, seen);
	const char *end = text + len;

	*seen = (struct seen){.measurement = -1};
	note_begin(note, "invented.range", false);
	while (text < end) {
		const char *lf = memchr(text, '\n', (size_t)(end - text));
		size_t line = lf ? (size_t)(lf - text) : (size_t)(end - text);

		note_line(note, text, line);
		text += line + (lf != NULL);
	}
	note_end(note);
	note_free(note);
	intern_free(&pool);
}

/* The text of OUT, which is freed; the caller frees the text. */
static inline char *
text_of(struct buffer *out)
{
	char *text = mem_text(out->data, out->len);

	buffer_free(out);
	return text;
}

#endif
