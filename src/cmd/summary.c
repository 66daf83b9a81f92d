/* summary: what a reader of the chart wants, session by session. */
#include <errno.h>
#include <string.h>

#include "cmd/command.h"
#include "cmd/jobs.h"
#include "cmd/notes.h"
#include "cmd/output.h"
#include "reference/reference.h"
#include "text/buffer.h"
#include "text/file.h"
#include "write/summary.h"

struct summing {
	struct summary *summary;
	struct buffer out;
	int status;
};

static void
on_session(void *arg, struct session *s, struct sink *sink)
{
	struct summing *summing = arg;

	if (notes_report_unread(s, sink) != STATUS_CLEAN)
		summing->status = STATUS_FOUND;
	summary_session(summing->summary, &summing->out, s, sink);
	output_flush_some(&summing->out);
}

/* What a job has left, at the end of its files. */
static int
on_done(void *arg, uint64_t *told)
{
	struct summing *summing = arg;

	output_write(&summing->out);
	*told |= summary_told(summing->summary);
	return summing->status;
}

/* The header row stands before the rows of all jobs. */
static size_t
on_divide(void *arg)
{
	struct summing *summing = arg;

	output_write(&summing->out);
	return summary_divide(summing->summary);
}

static const enum summary_format formats[] = {[FORMAT_TEXT] = SUMMARY_TEXT,
    [FORMAT_CSV] = SUMMARY_CSV,
    [FORMAT_JSON] = SUMMARY_JSON};

static void
complain(void *arg, size_t line, size_t column, const char *message)
{
	trouble(
	    "%s:%zu:%zu: error: %s", (const char *)arg, line, column, message);
}

/* --reference: a table of the site's own; false where it is not sound. */
static bool
load_reference(const char *path, struct ref_site *site)
{
	char *name = (char *)path;
	int result;

	if (!path)
		return true;
	result = ref_load(path, site, complain, name);
	if (result < 0)
		trouble("%s: %s", path,
		    errno == EFBIG ? "more than 16 MiB: this is no table"
				   : file_error(errno));
	return result == 0;
}

int
cmd_summary(const struct options *options)
{
	struct ref_site site = {0};
	struct summary_options how = {.format = formats[options->format],
	    .source = options->source,
	    .site = &site};
	struct summing summing = {.status = STATUS_CLEAN};
	struct notes_handler handler = {.arg = &summing,
	    .session = on_session,
	    .done = on_done,
	    .divide = on_divide};
	uint64_t told = 0;
	int status;

	if (!load_reference(options->reference, &site))
		return STATUS_TROUBLE;
	if (options->source && !ref_source_has_usual(options->source)) {
		trouble("summary: --source '%s': %s\n"
			"Try 'rangeline sources', which lists them.",
		    options->source,
		    ref_source_find(options->source)
			? "this source has no usual values"
			: "there is no such source of usual values");
		ref_site_free(&site);
		return STATUS_TROUBLE;
	}
	how.colour = options_colour(options);
	summing.summary = summary_new(&how);
	summary_begin(summing.summary, &summing.out);
	status = notes_each(options, &handler, &told);
	summary_tell(summing.summary, told);
	summary_end(summing.summary, &summing.out);
	output_write(&summing.out);
	summary_free(summing.summary);
	buffer_free(&summing.out);
	ref_site_free(&site);
	return status;
}
