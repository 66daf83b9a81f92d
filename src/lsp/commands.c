/* Commands that a client runs on the server. */
#include <string.h>

#include "lsp/server.h"
#include "write/json.h"
#include "write/summary.h"

const char lsp_show_place[] = "rangeline.showPlace";
static const char summary_command[] = "rangeline.summary";

void
lsp_put_commands(struct buffer *out)
{
	json_name(out, "commands");
	buffer_putc(out, '[');
	json_item(out);
	json_puts(out, summary_command);
	json_item(out);
	json_puts(out, lsp_show_place);
	buffer_putc(out, ']');
}

struct summing {
	const struct summary_options *how;
	struct summary *summary;
	struct buffer text;
	uint32_t row;  /* of the session that is wanted; 0: all */
	uint32_t last; /* the line of the session before */
};

static void
begin(struct summing *m)
{
	if (m->summary)
		summary_free(m->summary);
	m->summary = summary_new(m->how);
	m->text.len = 0;
	summary_begin(m->summary, &m->text);
}

/*
 * A session is wanted where ROW lies between its line and the next; sessions
 * are handed on as they end, so the wanted one is the last that begins above.
 * The headers of a person belong to the first session below them, and never
 * to that of the person above.
 */
static void
on_session(void *arg, struct session *s, struct sink *sink)
{
	struct summing *m = arg;
	uint32_t begins = s->person->line > m->last ? s->person->line : s->line;

	sink_sort(sink);
	m->last = s->line;
	if (m->row > 0 && begins <= m->row)
		begin(m);
	if (m->row == 0 || begins <= m->row)
		summary_session(m->summary, &m->text, s, sink);
}

/* [uri] or [uri, line]: the summary of the note or of one session, as text. */
static enum lsp_error
summarize(
    struct lsp *lsp, const struct json_t *arguments, struct buffer *result)
{
	const struct document *d =
	    lsp_document_of(lsp, in_text(in_at(arguments, 0), NULL));
	int64_t line = in_integer(in_at(arguments, 1), -1);
	struct summary_options how = {.format = SUMMARY_TEXT};
	struct summing m = {.how = &how};
	struct visit visit = {
	    .on_session = on_session, .arg = &m, .judge = true};

	if (!d)
		return LSP_INVALID_PARAMS;
	if (line >= 0)
		m.row = document_row_of(
		    d, document_offset(d, lsp->client.encoding, line, 0));
	begin(&m);
	lsp_visit(lsp, d, &visit);
	summary_end(m.summary, &m.text);
	json_item(result);
	json_string(result, m.text.len ? m.text.data : "", m.text.len);
	summary_free(m.summary);
	buffer_free(&m.text);
	return LSP_OK;
}

/* [uri, line, character]: asks the client to put the cursor there. */
static enum lsp_error
show_place(struct lsp *lsp, const struct json_t *arguments)
{
	const char *uri = in_text(in_at(arguments, 0), NULL);
	int64_t line = in_integer(in_at(arguments, 1), -1);
	int64_t character = in_integer(in_at(arguments, 2), -1);
	struct buffer *out = &lsp->body;

	if (!uri || line < 0 || character < 0)
		return LSP_INVALID_PARAMS;
	if (!lsp->client.show_document)
		return LSP_OK;
	lsp_begin_request(lsp, "window/showDocument");
	buffer_putc(out, '{');
	json_text_of(out, "uri", uri);
	buffer_puts(out, ",\"takeFocus\":true,\"selection\":{");
	for (int i = 0; i < 2; i++) {
		json_name(out, i == 0 ? "start" : "end");
		buffer_putc(out, '{');
		json_uint_of(out, "line", (uint64_t)line);
		json_uint_of(out, "character", (uint64_t)character);
		buffer_putc(out, '}');
	}
	buffer_puts(out, "}}");
	lsp_end_message(lsp);
	return LSP_OK;
}

enum lsp_error
lsp_execute_command(
    struct lsp *lsp, const struct json_t *params, struct buffer *result)
{
	const struct json_t *command = in_get(params, "command");
	const struct json_t *arguments = in_get(params, "arguments");

	if (in_is(command, summary_command))
		return summarize(lsp, arguments, result);
	if (in_is(command, lsp_show_place))
		return show_place(lsp, arguments);
	return LSP_INVALID_PARAMS;
}
