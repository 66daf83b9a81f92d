/*
 * Each word is put behind the beginning of the line, and the lines that bear
 * on it before that: the mode header in force, and the row that the line may
 * go on with. A word stands where nothing up to its end is found wrong; what
 * is still missing behind it does not count.
 */
#include "lsp/expect.h"

#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "parser.h"
#include "record/record.h"
#include "syntax/note.h"
#include "text/mem.h"

/* Every word is tried in a session of its own, so none bears on another. */
static const char session[] = "session 2001-01-01";

/* Does the row begin with WORD, followed by a blank? */
static bool
begins_with(const struct document_row *r, const char *word)
{
	size_t len = strlen(word), i = 0;

	while (i < r->len && (r->text[i] == ' ' || r->text[i] == '\t'))
		i++;
	return r->len - i > len && strncasecmp(r->text + i, word, len) == 0 &&
	       (r->text[i + len] == ' ' || r->text[i + len] == '\t');
}

static void
find_mode(struct expect *e, const struct document *d, uint32_t row)
{
	for (uint32_t above = row - 1; above > 0 && e->mode_row == 0; above--) {
		struct document_row r = document_row(d, above);

		if (begins_with(&r, "mode"))
			e->mode_row = above;
	}
}

/* The last row above that names a joint, in this session. */
static void
find_joint(struct expect *e, const struct document *d, uint32_t row)
{
	struct cut cut = {0};

	for (uint32_t above = row - 1; above > 0 && e->joint_row == 0;
	     above--) {
		cut_row(&cut, d, above);
		if (cut.tokens.header == VOCAB_HEADER_SESSION ||
		    cut.tokens.header == VOCAB_HEADER_SUBJECT)
			break;
		if (cut.tokens.header >= 0)
			continue;
		e->above = cut_head(&cut, cut.tokens.len);
		if (cut_joint_name(&e->above))
			e->joint_row = above;
	}
	cut_free(&cut);
}

void
expect_begin(
    struct expect *e, const struct document *d, uint32_t row, size_t len)
{
	struct document_row r = document_row(d, row);

	buffer_add(&e->before, r.text, len < r.len ? len : r.len);
	e->above = (struct cut_head){NONE, NONE, NONE, NONE, NONE, NONE};
	find_mode(e, d, row);
	find_joint(e, d, row);
}

size_t
expect_add(struct expect *e, const char *word)
{
	struct expect_probe *p = MEM_PUSH(e);

	*p = (struct expect_probe){e->words.len, strlen(word), true};
	buffer_puts(&e->words, word);
	return e->len - 1;
}

/* How the trial is laid out: equally many lines for each word. */
struct trying {
	struct expect *e;
	uint32_t first;	 /* line of the first word */
	uint32_t period; /* lines from word to word */
};

static void
on_session(void *arg, struct session *s, struct sink *sink)
{
	struct trying *t = arg;

	(void)s;
	for (size_t i = 0; i < sink->len; i++) {
		const struct finding *f = sink->at[i];
		uint32_t line = f->line - t->first + t->period;
		size_t which = line / t->period;
		struct expect_probe *p;

		if (f->line + t->period < t->first + 1)
			continue;
		if (line % t->period != 0) {
			t->e->above_failed = true;
			continue;
		}
		if (which == 0 || which > t->e->len)
			continue;
		p = &t->e->at[which - 1];
		if (f->beg < t->e->before.len + p->len)
			p->stands = false;
	}
}

static void
feed_row(struct note *note, const struct document *d, uint32_t row)
{
	struct document_row r = document_row(d, row);

	note_line(note, r.text, r.len);
}

static void
try_all(struct expect *e, const struct document *d)
{
	struct trying t = {e, e->mode_row ? 3 : 2, 2};
	struct intern pool = {0};
	struct note *note = note_new(&pool, on_session, &t);
	struct buffer line = {0};

	t.first += e->joint_row != 0;
	t.period += e->joint_row != 0;
	note_begin(note, "", true);
	if (e->mode_row)
		feed_row(note, d, e->mode_row);
	for (size_t i = 0; i < e->len; i++) {
		note_line(note, session, sizeof(session) - 1);
		if (e->joint_row)
			feed_row(note, d, e->joint_row);
		line.len = 0;
		buffer_add(&line, e->before.data, e->before.len);
		buffer_add(&line, e->words.data + e->at[i].word, e->at[i].len);
		note_line(note, line.data, line.len);
	}
	note_end(note);
	note_free(note);
	intern_free(&pool);
	buffer_free(&line);
}

/*
 * Under a row that could not be read nothing is reported, so nothing can be
 * asked: then the line is tried as one that must name its joint.
 */
void
expect_run(struct expect *e, const struct document *d)
{
	try_all(e, d);
	if (!e->above_failed || e->joint_row == 0)
		return;
	e->joint_row = 0;
	e->above = (struct cut_head){NONE, NONE, NONE, NONE, NONE, NONE};
	for (size_t i = 0; i < e->len; i++)
		e->at[i].stands = true;
	try_all(e, d);
}

void
expect_free(struct expect *e)
{
	buffer_free(&e->before);
	buffer_free(&e->words);
	free(e->at);
}
