/* tidy: the same note, aligned; to standard output or into the file itself. */
#include <errno.h>
#include <string.h>
#include <unistd.h>

#include "cmd/command.h"
#include "cmd/jobs.h"
#include "cmd/notes.h"
#include "cmd/output.h"
#include "text/buffer.h"
#include "text/file.h"
#include "text/intern.h"
#include "text/save.h"
#include "write/diff.h"
#include "write/tidy.h"

struct tidying {
	const struct options *options;
	struct tidy *tidy;
	struct buffer was;
	struct buffer now;
	bool on_screen; /* what is written ends there, through pipes or not */
	int status;
};

/* What could not be read is kept to the byte, and said. */
static void
on_session(void *arg, struct session *s, struct sink *sink)
{
	struct tidying *t = arg;

	sink_sort(sink);
	if (notes_report_unread(s, sink) != STATUS_CLEAN)
		t->status = STATUS_FOUND;
}

static bool
changes(const struct tidying *t)
{
	return t->was.len != t->now.len ||
	       (t->now.len > 0 &&
		   memcmp(t->was.data, t->now.data, t->now.len) != 0);
}

/* Whoever came first may have made it just as tidy. */
static int
replace(
    struct tidying *t, const struct input_note *note, const struct file_at *at)
{
	struct save_seen seen = {note->was};
	char why[256];

	if (save_replace(at, &seen, &t->now, why, sizeof(why)) == 0 ||
	    save_holds(at, &t->now))
		return STATUS_CLEAN;
	trouble("%s: %s", note->path, why);
	return STATUS_TROUBLE;
}

static int
in_place(struct tidying *t, const struct input_note *note)
{
	struct file_at at;
	int status;

	if (!changes(t))
		return STATUS_CLEAN;
	if (note->at)
		return replace(t, note, note->at);
	if (file_find(&at, note->path) != 0) {
		trouble("%s: %s", note->path, strerror(errno));
		return STATUS_TROUBLE;
	}
	status = replace(t, note, &at);
	file_leave(&at);
	return status;
}

static int
on_output(struct tidying *t, const char *name)
{
	if (t->options->diff) {
		struct buffer out = {0};

		diff_unified(&out, name, &t->was, &t->now);
		output_show(&out, t->on_screen);
		buffer_free(&out);
	}
	if (t->options->verify && changes(t)) {
		if (!t->options->diff)
			trouble("%s: would change", name);
		return STATUS_FOUND;
	}
	if (!t->options->diff && !t->options->verify)
		output_show(&t->now, t->on_screen);
	return STATUS_CLEAN;
}

static int
tidy_note(void *arg, const struct input_note *note)
{
	struct tidying *t = arg;

	t->was.len = t->now.len = 0;
	if (t->options->in_place && !note->path) {
		trouble("tidy: --in-place needs files, not standard input");
		return STATUS_TROUBLE;
	}
	if (tidy_file(t->tidy, note->fd, note->name, &t->was, &t->now) != 0) {
		trouble("%s: %s", note->name, strerror(errno));
		return STATUS_TROUBLE;
	}
	if (inputs_kept(note) != STATUS_CLEAN)
		return STATUS_TROUBLE;
	return t->options->in_place ? in_place(t, note)
				    : on_output(t, note->name);
}

static int
tidy_done(void *arg, uint64_t *told)
{
	struct tidying *t = arg;

	(void)told;
	return t->status;
}

int
cmd_tidy(const struct options *options)
{
	enum tidy_spelling spelling = TIDY_LONG;
	struct tidying t = {.options = options, .status = STATUS_CLEAN};
	struct jobs_work work = {
	    .each = tidy_note, .arg = &t, .done = tidy_done};
	int status;

	if (options->spelling && strcmp(options->spelling, "short") == 0)
		spelling = TIDY_SHORT;
	if (options->spelling && strcmp(options->spelling, "keep") == 0)
		spelling = TIDY_KEEP;
	if (options->in_place && (options->verify || options->diff)) {
		trouble("tidy: --in-place goes without --verify and --diff");
		return STATUS_TROUBLE;
	}
	t.on_screen = isatty(STDOUT_FILENO);
	t.tidy = tidy_new(spelling, on_session, &t);
	status = jobs_each(options, &work, NULL);
	tidy_free(t.tidy);
	buffer_free(&t.was);
	buffer_free(&t.now);
	return status;
}
