/* What the server can do; nothing stands here that it does not do. */
#include "lsp/server.h"
#include "write/json.h"

enum { SYNC_INCREMENTAL = 2 };

static void
put_raw(struct buffer *out, const char *name, const char *json)
{
	json_name(out, name);
	buffer_puts(out, json);
}

void
lsp_put_capabilities(const struct lsp *lsp, struct buffer *out)
{
	json_text_of(
	    out, "positionEncoding", position_names[lsp->client.encoding]);
	json_name(out, "textDocumentSync");
	buffer_printf(
	    out, "{\"openClose\":true,\"change\":%d}", SYNC_INCREMENTAL);
	put_raw(out, "completionProvider", "{\"resolveProvider\":true}");
	put_raw(out, "hoverProvider", "true");
	if (lsp->client.action_objects)
		put_raw(out, "codeActionProvider",
		    "{\"codeActionKinds\":[\"quickfix\"]}");
	json_name(out, "executeCommandProvider");
	buffer_putc(out, '{');
	lsp_put_commands(out);
	buffer_putc(out, '}');
	put_raw(out, "documentSymbolProvider", "true");
	put_raw(out, "foldingRangeProvider", "true");
	json_name(out, "semanticTokensProvider");
	buffer_puts(out, "{\"legend\":{");
	lsp_put_legend(out);
	buffer_puts(out, "},\"full\":true,\"range\":true}");
	put_raw(out, "documentFormattingProvider", "true");
	put_raw(out, "documentRangeFormattingProvider", "true");
	put_raw(out, "documentOnTypeFormattingProvider",
	    "{\"firstTriggerCharacter\":\"\\n\"}");
	put_raw(out, "inlayHintProvider", "true");
}
