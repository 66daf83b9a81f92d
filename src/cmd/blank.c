/* blank: an empty note for a planned examination. */
#include "write/blank.h"

#include "cmd/command.h"
#include "cmd/output.h"
#include "write/asked.h"

int
cmd_blank(const struct options *options)
{
	struct blank blank = {.day = options->today};
	struct buffer out = {0}, wrong = {0};
	struct asked asked;
	bool good = asked_read(
	    &asked, ASKED_JOINTS, options->files, options->file_count, &wrong);

	if (good && asked.joints == 0) {
		buffer_puts(&wrong, "say which joints");
		good = false;
	}
	if (good && options->require)
		good = blank_require(options->require, &blank.require, &wrong);
	if (good) {
		blank.joints = asked.joints;
		blank_write(&out, &blank);
		output_write(&out);
	} else {
		trouble("blank: %.*s\n"
			"Try 'rangeline blank knee', 'rangeline blank hand', "
			"'rangeline blank \"index MCP\"'.",
		    (int)wrong.len, wrong.data);
	}
	buffer_free(&out);
	buffer_free(&wrong);
	return good ? STATUS_CLEAN : STATUS_TROUBLE;
}
