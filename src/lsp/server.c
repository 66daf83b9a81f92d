/*
 * Messages: from bytes to the one table of methods, and answers back. Every
 * request gets exactly one answer; no notification gets any.
 */
#include "lsp/server.h"

#include <stdlib.h>
#include <string.h>

#include "text/date.h"
#include "text/mem.h"
#include "write/json.h"

/* More waiting than this is answered before more is read. */
enum { MOST_WAITING = 256 };

/* Where all that comes is rubbish, a log needs no more of it. */
enum { MOST_REPORTS = 16 };

/* When a method may be called. */
enum when { BEFORE = 1, WHILE = 2, AFTER = 4, ALWAYS = 7 };

/* Every method there is; all others are answered "method not found". */
static const struct {
	const char *name;
	lsp_method *method;
	bool is_request;
	unsigned when;
} methods[] = {
    {"initialize", lsp_initialize, true, BEFORE},
    {"initialized", lsp_initialized, false, WHILE},
    {"shutdown", lsp_shutdown, true, WHILE},
    {"exit", lsp_exit, false, ALWAYS},
    {"textDocument/didOpen", lsp_did_open, false, WHILE},
    {"textDocument/didChange", lsp_did_change, false, WHILE},
    {"textDocument/didClose", lsp_did_close, false, WHILE},
    {"workspace/didChangeConfiguration", lsp_did_change_configuration, false,
	WHILE},
    {"textDocument/completion", lsp_completion, true, WHILE},
    {"completionItem/resolve", lsp_completion_resolve, true, WHILE},
    {"textDocument/hover", lsp_hover, true, WHILE},
    {"textDocument/codeAction", lsp_code_action, true, WHILE},
    {"workspace/executeCommand", lsp_execute_command, true, WHILE},
    {"textDocument/documentSymbol", lsp_document_symbol, true, WHILE},
    {"textDocument/foldingRange", lsp_folding_range, true, WHILE},
    {"textDocument/semanticTokens/full", lsp_semantic_full, true, WHILE},
    {"textDocument/semanticTokens/range", lsp_semantic_range, true, WHILE},
    {"textDocument/formatting", lsp_formatting, true, WHILE},
    {"textDocument/rangeFormatting", lsp_range_formatting, true, WHILE},
    {"textDocument/onTypeFormatting", lsp_on_type_formatting, true, WHILE},
    {"textDocument/inlayHint", lsp_inlay_hint, true, WHILE},
};

static const struct {
	enum lsp_error error;
	const char *message;
} errors[] = {
    {LSP_INVALID_REQUEST, "the message is no request that may stand here"},
    {LSP_METHOD_NOT_FOUND, "there is no such method"},
    {LSP_INVALID_PARAMS, "the parameters are not those of the method"},
    {LSP_NOT_INITIALIZED, "the first request must be initialize"},
    {LSP_REQUEST_CANCELLED, "the request was cancelled"},
};

struct lsp *
lsp_new(const struct lsp_options *options)
{
	struct lsp *lsp = mem_zero(sizeof(*lsp));

	lsp->options = *options;
	lsp->day_of_start = date_today();
	lsp->status = -1;
	lsp->client.encoding = POSITION_UTF16;
	return lsp;
}

void
lsp_free(struct lsp *lsp)
{
	if (!lsp)
		return;
	frames_free(&lsp->frames);
	for (size_t i = lsp->queue_at; i < lsp->queue.len; i++)
		in_free(lsp->queue.at[i].json);
	free(lsp->queue.at);
	for (size_t i = 0; i < lsp->documents.len; i++)
		document_free(lsp->documents.at[i]);
	free(lsp->documents.at);
	buffer_free(&lsp->out);
	buffer_free(&lsp->troubles);
	buffer_free(&lsp->body);
	buffer_free(&lsp->result);
	free(lsp);
}

struct buffer *
lsp_output(struct lsp *lsp)
{
	return &lsp->out;
}

struct buffer *
lsp_troubles(struct lsp *lsp)
{
	return &lsp->troubles;
}

int
lsp_status(const struct lsp *lsp)
{
	return lsp->status;
}

bool
lsp_is_busy(const struct lsp *lsp)
{
	return lsp->queue.len - lsp->queue_at >= MOST_WAITING;
}

/* --- writing --- */

void
lsp_begin_notification(struct lsp *lsp, const char *method)
{
	lsp->body.len = 0;
	buffer_puts(&lsp->body, "{\"jsonrpc\":\"2.0\"");
	json_text_of(&lsp->body, "method", method);
	json_name(&lsp->body, "params");
}

void
lsp_begin_request(struct lsp *lsp, const char *method)
{
	lsp->body.len = 0;
	buffer_puts(&lsp->body, "{\"jsonrpc\":\"2.0\"");
	json_uint_of(&lsp->body, "id", ++lsp->last_request);
	json_text_of(&lsp->body, "method", method);
	json_name(&lsp->body, "params");
}

void
lsp_end_message(struct lsp *lsp)
{
	buffer_putc(&lsp->body, '}');
	buffer_puts(&lsp->out, "Content-Length: ");
	buffer_uint(&lsp->out, lsp->body.len);
	buffer_puts(&lsp->out, "\r\n\r\n");
	buffer_add(&lsp->out, lsp->body.data, lsp->body.len);
}

static void
begin_answer(struct lsp *lsp, const struct json_t *id)
{
	lsp->body.len = 0;
	buffer_puts(&lsp->body, "{\"jsonrpc\":\"2.0\"");
	json_name(&lsp->body, "id");
	in_echo(&lsp->body, id);
}

static void
answer_that(struct lsp *lsp, const struct json_t *id, enum lsp_error error,
    const char *message)
{
	begin_answer(lsp, id);
	buffer_printf(&lsp->body, ",\"error\":{\"code\":%d", (int)error);
	json_text_of(&lsp->body, "message", message);
	buffer_putc(&lsp->body, '}');
	lsp_end_message(lsp);
}

static void
answer_error(struct lsp *lsp, const struct json_t *id, enum lsp_error error)
{
	const char *message = "";

	for (size_t i = 0; i < sizeof(errors) / sizeof(*errors); i++)
		if (errors[i].error == error)
			message = errors[i].message;
	answer_that(lsp, id, error, message);
}

static void
answer_result(struct lsp *lsp, const struct json_t *id)
{
	begin_answer(lsp, id);
	json_name(&lsp->body, "result");
	if (lsp->result.len == 0)
		buffer_puts(&lsp->body, "null");
	else
		buffer_add(&lsp->body, lsp->result.data, lsp->result.len);
	lsp_end_message(lsp);
}

/* --- reading --- */

/* A request that waits is marked; one that was answered is past it. */
static void
cancel(struct lsp *lsp, const struct json_t *id)
{
	for (size_t i = lsp->queue_at; i < lsp->queue.len; i++) {
		struct message *m = &lsp->queue.at[i];

		if (m->is_request && in_same(in_get(m->json, "id"), id))
			m->cancelled = true;
	}
}

static void
forget_answered(struct lsp *lsp)
{
	size_t left = lsp->queue.len - lsp->queue_at;

	if (lsp->queue_at == 0 || left > lsp->queue_at)
		return;
	memmove(lsp->queue.at, lsp->queue.at + lsp->queue_at,
	    left * sizeof(*lsp->queue.at));
	lsp->queue.len = left;
	lsp->queue_at = 0;
}

/* Takes a message in, or why it is none; a cancellation works at once. */
static void
take(struct lsp *lsp, struct json_t *json, const char *lost)
{
	struct message *m;

	if (in_is(in_get(json, "method"), "$/cancelRequest") &&
	    !in_get(json, "id")) {
		cancel(lsp, in_get(json, "params.id"));
		in_free(json);
		return;
	}
	forget_answered(lsp);
	m = MEM_PUSH(&lsp->queue);
	*m = (struct message){.json = json,
	    .lost = lost,
	    .is_request = in_get(json, "id") && in_get(json, "method")};
}

void
lsp_feed(struct lsp *lsp, const char *bytes, size_t len)
{
	enum frame_event event;

	frames_feed(&lsp->frames, bytes, len);
	while ((event = frames_next(&lsp->frames)) != FRAME_NOTHING) {
		struct json_t *json = NULL;
		const char *lost = lsp->frames.why;

		if (event == FRAME_MESSAGE) {
			json = in_parse(lsp->frames.body, lsp->frames.len);
			lost =
			    json ? NULL : "it cannot be read as JSON in UTF-8";
		}
		take(lsp, json, lost);
	}
}

int
lsp_end(struct lsp *lsp)
{
	if (frames_are_cut(&lsp->frames)) {
		lsp_report(lsp, "the editor went away in the middle of a "
				"message, which was not read");
		return 1;
	}
	return lsp->state == LSP_SHUT_DOWN ? 0 : 1;
}

static unsigned
now(const struct lsp *lsp)
{
	static const unsigned when[] = {[LSP_STARTING] = BEFORE,
	    [LSP_SERVING] = WHILE,
	    [LSP_SHUT_DOWN] = AFTER};

	return when[lsp->state];
}

static enum lsp_error
call(struct lsp *lsp, const char *name, bool is_request,
    const struct json_t *params)
{
	for (size_t i = 0; i < sizeof(methods) / sizeof(*methods); i++) {
		if (strcmp(methods[i].name, name) != 0)
			continue;
		if (methods[i].is_request != is_request)
			return LSP_INVALID_REQUEST;
		if (methods[i].when & now(lsp))
			return methods[i].method(lsp, params, &lsp->result);
		break;
	}
	if (lsp->state == LSP_STARTING)
		return LSP_NOT_INITIALIZED;
	if (lsp->state == LSP_SHUT_DOWN || strcmp(name, "initialize") == 0)
		return LSP_INVALID_REQUEST;
	return LSP_METHOD_NOT_FOUND;
}

/* The two sides may be apart now: the client, the user and a log are told. */
static void
answer_lost(struct lsp *lsp, const char *why)
{
	struct buffer text = {0};

	buffer_printf(&text, "a message was passed over: %s", why);
	buffer_putc(&text, '\0');
	answer_that(lsp, NULL, LSP_PARSE_ERROR, text.data);
	if (lsp->lost++ < MOST_REPORTS)
		lsp_report(lsp, text.data);
	if (lsp->state == LSP_SERVING) {
		lsp_tell(lsp, LSP_LOG, NULL, text.data);
		lsp_tell(lsp, LSP_SHOW, NULL,
		    "the editor sent a message that cannot be read, so what "
		    "is shown may not fit the note; save the note as UTF-8, "
		    "close it and open it again");
	}
	buffer_free(&text);
}

static void
answer(struct lsp *lsp, const struct message *m)
{
	const struct json_t *id = in_get(m->json, "id");
	const char *method = in_text(in_get(m->json, "method"), NULL);
	enum lsp_error error;

	if (!m->json) {
		answer_lost(lsp, m->lost);
		return;
	}
	/* An answer to a request of ours: none is waited for. */
	if (!in_get(m->json, "method") && id && in_is_object(m->json) &&
	    (in_get(m->json, "result") || in_get(m->json, "error")))
		return;
	if (!method || !in_is(in_get(m->json, "jsonrpc"), "2.0") ||
	    (id && !in_is_id(id))) {
		answer_error(
		    lsp, in_is_id(id) ? id : NULL, LSP_INVALID_REQUEST);
		return;
	}
	lsp->result.len = 0;
	error = m->cancelled
		    ? LSP_REQUEST_CANCELLED
		    : call(lsp, method, id != NULL, in_get(m->json, "params"));
	if (!id)
		return;
	if (error != LSP_OK)
		answer_error(lsp, id, error);
	else
		answer_result(lsp, id);
}

static bool
publish_one(struct lsp *lsp)
{
	for (size_t i = 0; i < lsp->documents.len; i++)
		if (!lsp->documents.at[i]->published) {
			lsp_publish(lsp, lsp->documents.at[i]);
			return true;
		}
	return false;
}

bool
lsp_step(struct lsp *lsp)
{
	struct message m;

	if (lsp->status >= 0)
		return false;
	if (lsp->queue_at == lsp->queue.len)
		return publish_one(lsp);
	m = lsp->queue.at[lsp->queue_at++];
	answer(lsp, &m);
	in_free(m.json);
	return true;
}
