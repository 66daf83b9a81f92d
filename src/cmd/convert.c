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

/* What a job has left, at the end of its files. */
static int
on_done(void *arg, uint64_t *told)
{
	struct convert *convert = arg;

	(void)told;
	output_write(&convert->out);
	return convert->status;
}

/* The header row stands before the rows of all jobs. */
static size_t
on_divide(void *arg)
{
	struct convert *convert = arg;

	output_write(&convert->out);
	return 0;
}

int
cmd_convert(const struct options *options)
{
	struct convert convert = {.status = STATUS_CLEAN};
	struct notes_handler handler = {.arg = &convert,
	    .session = on_session,
	    .done = on_done,
	    .divide = on_divide,
	    .names_only = true};
	int status;

	if (!options->to) {
		trouble("convert: say to what: --to csv\n"
			"Try 'rangeline convert --help'.");
		return STATUS_TROUBLE;
	}
	convert.by_trial = options->rows && strcmp(options->rows, "trial") == 0;
	csv_header(&convert.out, convert.by_trial);
	status = notes_each(options, &handler, NULL);
	buffer_free(&convert.out);
	return status;
}
