/*
 * Formatting is what `tidy` does. Line I stays line I, so what is sent are
 * edits of the lines that change, and a part of the note can be asked for.
 */
#include <string.h>

#include "lsp/server.h"
#include "write/json.h"
#include "write/tidy.h"

/* The note as tidy writes it. */
static void
tidied(const struct lsp *lsp, const struct document *d, struct buffer *out)
{
	struct tidy *tidy = tidy_new(lsp->settings.spelling, NULL, NULL);

	tidy_begin(tidy, d->uri);
	tidy_text(tidy, d->text.len ? d->text.data : "", d->text.len, out);
	tidy_end(tidy, out);
	tidy_free(tidy);
}

/* What differs of one line; both without their LF. */
static void
put_edit(const struct lsp *lsp, const struct document *d, size_t at, size_t len,
    const char *now, size_t now_len, struct buffer *out)
{
	const char *was = d->text.data + at;

	if (len == now_len && (len == 0 || memcmp(was, now, len) == 0))
		return;
	json_item(out);
	buffer_putc(out, '{');
	json_name(out, "range");
	/* A CR belongs to the end of the line, which never changes. */
	if (len > 0 && now_len > 0 && was[len - 1] == '\r' &&
	    now[now_len - 1] == '\r') {
		len--;
		now_len--;
	}
	document_put_range(out, d, lsp->client.encoding, at, at + len);
	json_name(out, "newText");
	json_string(out, now, now_len);
	buffer_putc(out, '}');
}

/* The edits of rows FIRST .. LAST. */
static void
put_edits(const struct lsp *lsp, const struct document *d, uint32_t first,
    uint32_t last, struct buffer *result)
{
	struct buffer now = {0};
	size_t at = 0;

	tidied(lsp, d, &now);
	buffer_putc(result, '[');
	for (uint32_t row = 1; row <= d->rows.len && at <= now.len; row++) {
		size_t beg = d->rows.at[row - 1];
		size_t end =
		    row < d->rows.len ? d->rows.at[row] - 1u : d->text.len;
		const char *text = now.len ? now.data + at : "";
		const char *lf = memchr(text, '\n', now.len - at);
		size_t len = lf ? (size_t)(lf - text) : now.len - at;

		if (row >= first && row <= last)
			put_edit(lsp, d, beg, end - beg, text, len, result);
		at += len + 1;
	}
	buffer_putc(result, ']');
	buffer_free(&now);
}

enum lsp_error
lsp_formatting(
    struct lsp *lsp, const struct json_t *params, struct buffer *result)
{
	const struct document *d = lsp_document(lsp, params);

	if (d)
		put_edits(lsp, d, 1, UINT32_MAX, result);
	return LSP_OK;
}

enum lsp_error
lsp_range_formatting(
    struct lsp *lsp, const struct json_t *params, struct buffer *result)
{
	const struct document *d = lsp_document(lsp, params);
	size_t beg, end;

	if (!d)
		return LSP_OK;
	if (!lsp_range(lsp, d, in_get(params, "range"), &beg, &end))
		return LSP_INVALID_PARAMS;
	/* A selection of whole lines ends where the next one begins. */
	if (end > beg && document_row(d, document_row_of(d, end)).at == end)
		end--;
	put_edits(
	    lsp, d, document_row_of(d, beg), document_row_of(d, end), result);
	return LSP_OK;
}

/* Behind the line end that was typed: the line that it ended. */
enum lsp_error
lsp_on_type_formatting(
    struct lsp *lsp, const struct json_t *params, struct buffer *result)
{
	const struct document *d = lsp_document(lsp, params);
	size_t at;
	uint32_t row;

	if (!d)
		return LSP_OK;
	if (!lsp_offset(lsp, d, in_get(params, "position"), &at))
		return LSP_INVALID_PARAMS;
	row = document_row_of(d, at);
	if (row > 1 && in_is(in_get(params, "ch"), "\n"))
		put_edits(lsp, d, row - 1, row - 1, result);
	return LSP_OK;
}
