/*
 * The open notes: kept as the client changes them, read and judged anew when
 * there is time, with the readers and the rules that `check` uses.
 */
#include <stdlib.h>
#include <string.h>

#include "lint/lint.h"
#include "lsp/server.h"
#include "syntax/note.h"
#include "text/date.h"
#include "text/mem.h"

/* Beyond it, offsets would not fit; a note has thousands of bytes. */
enum { LONGEST_NOTE = 1024 * 1024 * 1024 };

static size_t
find(const struct lsp *lsp, const char *uri)
{
	size_t i = 0;

	while (i < lsp->documents.len &&
	       strcmp(lsp->documents.at[i]->uri, uri) != 0)
		i++;
	return i;
}

struct document *
lsp_document_of(const struct lsp *lsp, const char *uri)
{
	size_t i = uri ? find(lsp, uri) : lsp->documents.len;

	return i < lsp->documents.len ? lsp->documents.at[i] : NULL;
}

struct document *
lsp_document(const struct lsp *lsp, const struct json_t *params)
{
	return lsp_document_of(
	    lsp, in_text(in_get(params, "textDocument.uri"), NULL));
}

bool
lsp_offset(const struct lsp *lsp, const struct document *d,
    const struct json_t *position, size_t *offset)
{
	int64_t line = in_integer(in_get(position, "line"), -1);
	int64_t character = in_integer(in_get(position, "character"), -1);

	if (line < 0 || character < 0)
		return false;
	*offset = document_offset(d, lsp->client.encoding, line, character);
	return true;
}

bool
lsp_range(const struct lsp *lsp, const struct document *d,
    const struct json_t *range, size_t *beg, size_t *end)
{
	if (!lsp_offset(lsp, d, in_get(range, "start"), beg) ||
	    !lsp_offset(lsp, d, in_get(range, "end"), end))
		return false;
	return *beg <= *end;
}

enum lsp_error
lsp_did_open(
    struct lsp *lsp, const struct json_t *params, struct buffer *result)
{
	const struct json_t *item = in_get(params, "textDocument");
	const char *uri = in_text(in_get(item, "uri"), NULL);
	size_t len, i;
	const char *text = in_text(in_get(item, "text"), &len);
	struct document *d;

	(void)result;
	if (!uri || !text) {
		lsp_tell(lsp, LSP_SHOW, uri,
		    "the editor opened the note without its name or its text, "
		    "so nothing of it is checked; close it and open it again");
		return LSP_INVALID_PARAMS;
	}
	i = find(lsp, uri);
	if (i == lsp->documents.len)
		*MEM_PUSH(&lsp->documents) = document_new(uri);
	d = lsp->documents.at[i];
	document_splice(d, 0, d->text.len, text, len);
	document_changed(d);
	d->version = in_integer(in_get(item, "version"), 0);
	return LSP_OK;
}

/* One change: of a range, or of the whole text where it names none. */
static bool
apply(struct lsp *lsp, struct document *d, const struct json_t *change)
{
	size_t beg = 0, end = d->text.len, len;
	const char *text = in_text(in_get(change, "text"), &len);
	const struct json_t *range = in_get(change, "range");

	if (!text || (range && !lsp_range(lsp, d, range, &beg, &end)) ||
	    d->text.len + len > LONGEST_NOTE)
		return false;
	document_splice(d, beg, end, text, len);
	return true;
}

/*
 * The changes of one message count each on the text that the one before it
 * left. One that cannot be understood leaves the two sides apart: the user is
 * told, since from then on nothing that is shown can be relied on.
 */
enum lsp_error
lsp_did_change(
    struct lsp *lsp, const struct json_t *params, struct buffer *result)
{
	struct document *d = lsp_document(lsp, params);
	const struct json_t *changes = in_get(params, "contentChanges");

	(void)result;
	if (!d)
		return LSP_INVALID_PARAMS;
	for (size_t i = 0; i < in_count(changes); i++) {
		if (!apply(lsp, d, in_at(changes, i))) {
			lsp_tell(lsp, LSP_SHOW, d->uri,
			    "the editor sent a change that cannot be read; "
			    "close the note and open it again");
			return LSP_INVALID_PARAMS;
		}
		document_changed(d);
	}
	/* A version without a change is answered too. */
	d->published = false;
	d->version =
	    in_integer(in_get(params, "textDocument.version"), d->version);
	return LSP_OK;
}

enum lsp_error
lsp_did_close(
    struct lsp *lsp, const struct json_t *params, struct buffer *result)
{
	struct document *d = lsp_document(lsp, params);
	size_t i;

	(void)result;
	if (!d)
		return LSP_INVALID_PARAMS;
	i = find(lsp, d->uri);
	lsp_publish_none(lsp, d);
	document_free(d);
	lsp->documents.at[i] = lsp->documents.at[--lsp->documents.len];
	return LSP_OK;
}

/* A server may run for days: the day it was given moves on with the clock. */
int32_t
lsp_today(const struct lsp *lsp)
{
	return lsp->options.today + date_today() - lsp->day_of_start;
}

struct visiting {
	const struct visit *visit;
	struct lint *lint;
};

static void
on_session(void *arg, struct session *s, struct sink *sink)
{
	struct visiting *v = arg;

	if (v->lint)
		lint_session(v->lint, s, sink);
	v->visit->on_session(v->visit->arg, s, sink);
}

void
lsp_visit(
    const struct lsp *lsp, const struct document *d, const struct visit *visit)
{
	struct lint_options options = {lsp_today(lsp), lsp->options.tolerance};
	struct visiting v = {visit, visit->judge ? lint_new(&options) : NULL};
	struct intern pool = {0};
	struct note *note =
	    note_new(visit->pool ? visit->pool : &pool, on_session, &v);

	note_begin(note, d->uri, false);
	for (uint32_t row = 1; row <= document_row_count(d); row++) {
		size_t beg = d->rows.at[row - 1];
		size_t end =
		    row < d->rows.len ? d->rows.at[row] - 1u : d->text.len;

		note_line(note, d->text.data + beg, end - beg);
	}
	note_end(note);
	note_free(note);
	lint_free(v.lint);
	intern_free(&pool);
}
