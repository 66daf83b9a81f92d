/* Document symbols and folding, from the outline. */
#include "lsp/outline.h"
#include "lsp/server.h"
#include "write/json.h"

/* Symbol kinds of the protocol, by enum outline_kind. */
static const unsigned kinds[] = {
    [OUTLINE_PERSON] = 5, [OUTLINE_SESSION] = 24, [OUTLINE_JOINT] = 8};

struct listing {
	const struct lsp *lsp;
	const struct document *d;
	const struct outline *outline;
	size_t at; /* the next item */
	struct buffer *out;
};

/* From the first byte of its first row to the end of its last. */
static void
put_whole(const struct listing *l, const struct outline_item *item)
{
	struct document_row last = document_row(l->d, item->last);

	document_put_range(l->out, l->d, l->lsp->client.encoding,
	    document_row(l->d, item->row).at, last.at + last.len);
}

static void
put_name(const struct listing *l, const struct outline_item *item)
{
	json_item(l->out);
	buffer_putc(l->out, '{');
	json_text_of(l->out, "name", l->outline->text.data + item->name);
	json_uint_of(l->out, "kind", kinds[item->kind]);
}

/* The items of lesser kinds than ABOVE that follow, each with its own. */
static void
put_children(struct listing *l, int above)
{
	while (l->at < l->outline->len) {
		const struct outline_item *item = &l->outline->at[l->at];

		if (item->kind != OUTLINE_COMMENT && (int)item->kind <= above)
			return;
		l->at++;
		if (item->kind == OUTLINE_COMMENT)
			continue;
		put_name(l, item);
		json_name(l->out, "range");
		put_whole(l, item);
		json_name(l->out, "selectionRange");
		document_put_range(l->out, l->d, l->lsp->client.encoding,
		    item->beg, item->end);
		json_name(l->out, "children");
		buffer_putc(l->out, '[');
		put_children(l, (int)item->kind);
		buffer_puts(l->out, "]}");
	}
}

/* For clients that know no children: each with the name of what it is in. */
static void
put_flat(struct listing *l)
{
	const struct outline_item *in[OUTLINE_COMMENT] = {NULL};

	for (; l->at < l->outline->len; l->at++) {
		const struct outline_item *item = &l->outline->at[l->at];
		const struct outline_item *holder = NULL;

		if (item->kind == OUTLINE_COMMENT)
			continue;
		for (int k = OUTLINE_PERSON; k < OUTLINE_COMMENT; k++) {
			if (k >= (int)item->kind)
				in[k] = NULL;
			else if (in[k])
				holder = in[k];
		}
		in[item->kind] = item;
		put_name(l, item);
		json_name(l->out, "location");
		buffer_putc(l->out, '{');
		json_text_of(l->out, "uri", l->d->uri);
		json_name(l->out, "range");
		put_whole(l, item);
		buffer_putc(l->out, '}');
		if (holder)
			json_text_of(l->out, "containerName",
			    l->outline->text.data + holder->name);
		buffer_putc(l->out, '}');
	}
}

enum lsp_error
lsp_document_symbol(
    struct lsp *lsp, const struct json_t *params, struct buffer *result)
{
	const struct document *d = lsp_document(lsp, params);
	struct outline outline = {0};
	struct listing l = {lsp, d, &outline, 0, result};

	if (!d)
		return LSP_OK;
	outline_build(&outline, d);
	buffer_putc(result, '[');
	if (lsp->client.hierarchy)
		put_children(&l, -1);
	else
		put_flat(&l);
	buffer_putc(result, ']');
	outline_free(&outline);
	return LSP_OK;
}

static void
put_fold(const struct lsp *lsp, const struct document *d,
    const struct outline_item *item, struct buffer *out)
{
	enum position_encoding encoding = lsp->client.encoding;
	size_t first = document_row(d, item->row).at;
	size_t last = document_row(d, item->last).at;

	json_item(out);
	buffer_putc(out, '{');
	json_uint_of(out, "startLine", document_place(d, encoding, first).line);
	json_uint_of(out, "endLine", document_place(d, encoding, last).line);
	json_text_of(
	    out, "kind", item->kind == OUTLINE_COMMENT ? "comment" : "region");
	buffer_putc(out, '}');
}

enum lsp_error
lsp_folding_range(
    struct lsp *lsp, const struct json_t *params, struct buffer *result)
{
	const struct document *d = lsp_document(lsp, params);
	struct outline outline = {0};

	if (!d)
		return LSP_OK;
	outline_build(&outline, d);
	buffer_putc(result, '[');
	for (size_t i = 0; i < outline.len; i++)
		if (outline.at[i].last > outline.at[i].row)
			put_fold(lsp, d, &outline.at[i], result);
	buffer_putc(result, ']');
	outline_free(&outline);
	return LSP_OK;
}
