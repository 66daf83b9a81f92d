/*
 * The beginning and the end: what the client can do, what the server can do,
 * what the user has set.
 */
#include <string.h>

#include "lsp/server.h"
#include "text/date.h"
#include "write/json.h"

/*
 * The first encoding of the client's list that there is; UTF-16 where it has
 * no list, as the protocol asks.
 */
static enum position_encoding
choose_encoding(const struct json_t *list)
{
	for (size_t i = 0; i < in_count(list); i++)
		for (int e = 0; e < POSITION_ENCODINGS; e++)
			if (in_is(in_at(list, i), position_names[e]))
				return (enum position_encoding)e;
	return POSITION_UTF16;
}

static bool
can(const struct json_t *capabilities, const char *path)
{
	return in_bool(in_get(capabilities, path), false);
}

static void
take_client(struct client *client, const struct json_t *c)
{
	const struct json_t *text = in_get(c, "textDocument");

	*client = (struct client){
	    .encoding = choose_encoding(in_get(c, "general.positionEncodings")),
	    .related = can(text, "publishDiagnostics.relatedInformation"),
	    .tags = in_get(text, "publishDiagnostics.tagSupport.valueSet"),
	    .hover_markdown =
		in_has(in_get(text, "hover.contentFormat"), "markdown"),
	    .item_markdown = in_has(
		in_get(text, "completion.completionItem.documentationFormat"),
		"markdown"),
	    .hierarchy =
		can(text, "documentSymbol.hierarchicalDocumentSymbolSupport"),
	    .action_objects =
		in_get(text, "codeAction.codeActionLiteralSupport"),
	    .show_document = can(c, "window.showDocument.support"),
	    .hint_refresh = can(c, "workspace.inlayHint.refreshSupport"),
	};
}

/* Settings that say nothing, or something else, change nothing. */
void
lsp_take_settings(struct lsp *lsp, const struct json_t *settings)
{
	static const struct {
		const char *name;
		enum tidy_spelling spelling;
	} spellings[] = {
	    {"long", TIDY_LONG}, {"short", TIDY_SHORT}, {"keep", TIDY_KEEP}};
	const struct json_t *spelling = in_get(settings, "spelling");
	int64_t tolerance = in_tenths(in_get(settings, "tolerance"), -1);

	lsp->settings.inlay_hints =
	    in_bool(in_get(settings, "inlayHints"), lsp->settings.inlay_hints);
	for (size_t i = 0; i < sizeof(spellings) / sizeof(*spellings); i++)
		if (in_is(spelling, spellings[i].name))
			lsp->settings.spelling = spellings[i].spelling;
	if (tolerance >= 0 && tolerance <= 900)
		lsp->options.tolerance = (int32_t)tolerance;
}

enum lsp_error
lsp_initialize(
    struct lsp *lsp, const struct json_t *params, struct buffer *result)
{
	if (!in_is_object(params))
		return LSP_INVALID_PARAMS;
	take_client(&lsp->client, in_get(params, "capabilities"));
	lsp_take_settings(lsp, in_get(params, "initializationOptions"));
	lsp->state = LSP_SERVING;
	json_item(result);
	buffer_puts(result, "{\"capabilities\":{");
	lsp_put_capabilities(lsp, result);
	buffer_puts(result, "},\"serverInfo\":{");
	json_text_of(result, "name", "rangeline");
	json_text_of(result, "version", lsp->options.version);
	buffer_puts(result, "}}");
	return LSP_OK;
}

enum lsp_error
lsp_initialized(
    struct lsp *lsp, const struct json_t *params, struct buffer *result)
{
	(void)lsp;
	(void)params;
	(void)result;
	return LSP_OK;
}

enum lsp_error
lsp_shutdown(
    struct lsp *lsp, const struct json_t *params, struct buffer *result)
{
	(void)params;
	(void)result;
	lsp->state = LSP_SHUT_DOWN;
	return LSP_OK;
}

enum lsp_error
lsp_exit(struct lsp *lsp, const struct json_t *params, struct buffer *result)
{
	(void)params;
	(void)result;
	lsp->status = lsp->state == LSP_SHUT_DOWN ? 0 : 1;
	return LSP_OK;
}

/* The settings stand under the name of the program, or bare. */
enum lsp_error
lsp_did_change_configuration(
    struct lsp *lsp, const struct json_t *params, struct buffer *result)
{
	const struct json_t *settings = in_get(params, "settings");
	const struct json_t *own = in_get(settings, "rangeline");
	bool hints = lsp->settings.inlay_hints;

	(void)result;
	lsp_take_settings(lsp, own ? own : settings);
	for (size_t i = 0; i < lsp->documents.len; i++)
		lsp->documents.at[i]->judged = lsp->documents.at[i]->published =
		    false;
	if (hints != lsp->settings.inlay_hints && lsp->client.hint_refresh) {
		lsp_begin_request(lsp, "workspace/inlayHint/refresh");
		buffer_puts(&lsp->body, "{}");
		lsp_end_message(lsp);
	}
	return LSP_OK;
}
