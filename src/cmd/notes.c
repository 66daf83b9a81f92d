#include "cmd/notes.h"

#include <errno.h>
#include <string.h>
#include <unistd.h>

#include "cmd/command.h"
#include "cmd/jobs.h"
#include "cmd/output.h"
#include "lint/lint.h"
#include "syntax/note.h"
#include "text/buffer.h"
#include "text/lines.h"
#include "write/findings.h"

struct notes {
	const struct notes_handler *handler;
	struct intern pool;
	struct note *note;
	struct lint *lint;
};

static void
judge_session(void *arg, struct session *s, struct sink *sink)
{
	struct notes *notes = arg;

	lint_session(notes->lint, s, sink);
	sink_sort(sink);
	notes->handler->session(notes->handler->arg, s, sink);
}

static int
read_note(void *arg, const struct input_note *input)
{
	struct notes *notes = arg;
	const struct notes_handler *handler = notes->handler;
	struct lines lines;
	const char *text;
	size_t len;
	int more, error;

	lint_reset(notes->lint);
	note_begin(notes->note, input->name, handler->names_only);
	lines_open(&lines, input->fd);
	while ((more = lines_next(&lines, &text, &len)) > 0)
		note_line(notes->note, text, len);
	error = errno;
	lines_close(&lines);
	note_end(notes->note);
	if (handler->file_end)
		handler->file_end(handler->arg, input->name);
	if (more == 0)
		return inputs_kept(input);
	trouble("%s: %s", input->name, strerror(error));
	return STATUS_TROUBLE;
}

static int
notes_done(void *arg, uint64_t *told)
{
	struct notes *notes = arg;

	return notes->handler->done(notes->handler->arg, told);
}

static size_t
notes_divide(void *arg)
{
	struct notes *notes = arg;

	return notes->handler->divide(notes->handler->arg);
}

int
notes_each(const struct options *options, const struct notes_handler *handler,
    uint64_t *told)
{
	struct lint_options lint = {options->today, options->tolerance};
	struct notes notes = {.handler = handler};
	struct jobs_work work = {.each = read_note,
	    .arg = &notes,
	    .done = handler->done ? notes_done : NULL,
	    .divide = handler->divide ? notes_divide : NULL};
	int status;

	notes.lint = lint_new(&lint);
	notes.note = note_new(&notes.pool, judge_session, &notes);
	status = jobs_each(options, &work, told);
	note_free(notes.note);
	lint_free(notes.lint);
	intern_free(&notes.pool);
	return status;
}

int
notes_report_unread(const struct session *s, const struct sink *sink)
{
	static const struct findings_style style = {.brief = false};
	struct buffer out = {0};
	int status = STATUS_CLEAN;

	for (size_t i = 0; i < sink->len; i++) {
		const struct finding *f = sink->at[i];

		if (rule_table[f->rule].group != RULES_READING)
			continue;
		if (i > 0 && finding_same(f, sink->at[i - 1]))
			continue;
		findings_write(&out, s->file, f, &style);
		status = STATUS_FOUND;
	}
	if (status != STATUS_CLEAN && buffer_write(&out, STDERR_FILENO) != 0)
		status = STATUS_TROUBLE;
	buffer_free(&out);
	return status;
}
