/* language-server: notes as an editor has them open. */
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

	if (options->file_count > 0) {
		trouble("language-server: it takes no files; the editor opens "
			"them");
		return STATUS_TROUBLE;
	}
	memcpy(how.levels, options->levels, sizeof(how.levels));
	return lsp_run(STDIN_FILENO, STDOUT_FILENO, &how);
}
