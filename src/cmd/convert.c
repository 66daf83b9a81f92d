/* convert: one row a reading, or a trial. */
#include <string.h>

#include "cmd/command.h"
#include "cmd/notes.h"
#include "cmd/output.h"
#include "text/buffer.h"
#include "write/csv.h"

struct convert {
	struct buffer out;
	bool by_trial;
	int status;
};

static void
on_session(void *arg, struct session *s, struct sink *sink)
{
	struct convert *convert = arg;

	if (notes_report_unread(s, sink) != STATUS_CLEAN)
		convert->status = STATUS_FOUND;
	csv_session(&convert->out, s, sink, convert->by_trial);
	output_flush_some(&convert->out);
}

int
cmd_convert(const struct options *options)
{
	struct convert convert = {.status = STATUS_CLEAN};
	struct notes_handler handler = {
	    .arg = &convert, .session = on_session, .names_only = true};
	int status;

	if (!options->to) {
		trouble("convert: say to what: --to csv\n"
			"Try 'rangeline convert --help'.");
		return STATUS_TROUBLE;
	}
	convert.by_trial = options->rows && strcmp(options->rows, "trial") == 0;
	csv_header(&convert.out, convert.by_trial);
	status = notes_each(options, &handler);
	output_write(&convert.out);
	buffer_free(&convert.out);
	return status > convert.status ? status : convert.status;
}
