/*
 * What people are told that is no finding: the user, by messages that the
 * editor shows or keeps, and whoever reads standard error.
 */
#include <string.h>

#include "lsp/server.h"
#include "write/json.h"

void
lsp_tell(
    struct lsp *lsp, enum lsp_told where, const char *uri, const char *text)
{
	static const char *const methods[] = {
	    [LSP_LOG] = "window/logMessage", [LSP_SHOW] = "window/showMessage"};
	const char *slash = uri ? strrchr(uri, '/') : NULL;
	struct buffer message = {0};

	buffer_puts(&message, "rangeline: ");
	if (uri) {
		buffer_puts(&message, slash ? slash + 1 : uri);
		buffer_puts(&message, ": ");
	}
	buffer_puts(&message, text);
	lsp_begin_notification(lsp, methods[where]);
	buffer_puts(&lsp->body, "{\"type\":1");
	json_name(&lsp->body, "message");
	json_string(&lsp->body, message.data, message.len);
	buffer_putc(&lsp->body, '}');
	lsp_end_message(lsp);
	buffer_free(&message);
}

void
lsp_report(struct lsp *lsp, const char *text)
{
	buffer_puts(&lsp->troubles, "rangeline: language-server: ");
	buffer_puts(&lsp->troubles, text);
	buffer_putc(&lsp->troubles, '\n');
}
