/* language-server: notes as an editor has them open. */
#include <errno.h>
#include <string.h>
#include <unistd.h>

#include "cmd/command.h"
#include "cmd/output.h"
#include "lsp/lsp.h"

int
cmd_language_server(const struct options *options)
{
	struct lsp_options how = {.today = options->today,
	    .tolerance = options->tolerance,
	    .version = RANGELINE_VERSION};
	int status;

	if (options->file_count > 0) {
		trouble("language-server: it takes no files; the editor opens "
			"them");
		return STATUS_TROUBLE;
	}
	memcpy(how.levels, options->levels, sizeof(how.levels));
	status = lsp_run(STDIN_FILENO, STDOUT_FILENO, &how);
	if (status >= 0)
		return status;
	trouble("language-server: cannot %s the editor: %s",
	    status == LSP_CANNOT_READ ? "read what comes from" : "write to",
	    strerror(errno));
	return STATUS_TROUBLE;
}
