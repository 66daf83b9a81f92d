/* progress: change from session to session, as a table, rows, or drawn. */
#include "calc/progress.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cmd/command.h"
#include "cmd/notes.h"
#include "cmd/output.h"
#include "text/buffer.h"
#include "text/file.h"
#include "text/save.h"
#include "write/progress.h"

struct following {
	struct progress *progress;
	int status;
};

static void
on_session(void *arg, struct session *s, struct sink *sink)
{
	struct following *following = arg;

	if (notes_report_unread(s, sink) != STATUS_CLEAN)
		following->status = STATUS_FOUND;
	progress_add(following->progress, s, sink);
}

static const enum progress_format formats[] = {[FORMAT_TEXT] = PROGRESS_TEXT,
    [FORMAT_CSV] = PROGRESS_CSV,
    [FORMAT_JSON] = PROGRESS_JSON};

/* Nobody's note is to be overwritten by a slip of the tongue. */
static bool
may_plot(const char *path)
{
	static const char ending[] = ".svg";
	size_t len = path ? strlen(path) : 0, tail = sizeof(ending) - 1;

	if (!path || (len > tail && strcmp(path + len - tail, ending) == 0))
		return true;
	trouble("progress: --plot '%s': the name of the drawing ends in .svg\n"
		"Try 'rangeline progress --help'.",
	    path);
	return false;
}

/* XML begins with this, a note never does. What is empty may become one. */
static bool
may_hold_drawing(int fd)
{
	char first = '<';
	ssize_t n;

	do
		n = read(fd, &first, 1);
	while (n < 0 && errno == EINTR);
	return n >= 0 && first == '<';
}

/*
 * The new file PATH goes away, unless somebody has put another there. SEEN is
 * zero where it could not even be looked at.
 */
static void
take_away(const char *path, const struct save_seen *seen)
{
	struct stat now;

	if (seen->stat.st_ino == 0 ||
	    (lstat(path, &now) == 0 && file_same(&now, &seen->stat)))
		unlink(path);
}

/*
 * Writes the drawing as a whole: a file that is there keeps its content until
 * the new one is complete, one that is new goes away where that fails.
 */
static int
write_plot(const char *path, const struct buffer *plot)
{
	int fd = open(path, O_RDONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
	bool created = fd >= 0;
	struct save_seen seen = {0};
	char why[256];
	int result;

	if (fd < 0 && errno == EEXIST)
		fd = open(path, O_RDONLY | O_NONBLOCK | O_NOCTTY | O_CLOEXEC);
	if (fd < 0) {
		trouble("%s: %s", path, strerror(errno));
		return STATUS_TROUBLE;
	}
	result = save_look(fd, &seen, why, sizeof(why));
	if (result == 0 && !may_hold_drawing(fd)) {
		snprintf(why, sizeof(why),
		    "this file is no drawing, so it is not replaced by one");
		result = -1;
	}
	close(fd);
	if (result == 0)
		result = save_replace(path, &seen, plot, why, sizeof(why));
	/* Whoever came first may have made the same drawing. */
	if (result == 0 || save_holds(path, plot))
		return STATUS_CLEAN;
	if (created) /* before anything else can end the program */
		take_away(path, &seen);
	trouble("%s: %s", path, why);
	return STATUS_TROUBLE;
}

/* A sparkline is for a screen; --color=always wants what a screen gets. */
static bool
wants_sparkline(const struct options *options)
{
	return isatty(STDOUT_FILENO) || strcmp(options->colour, "always") == 0;
}

static int
write_all(struct progress *p, const struct options *options,
    const struct progress_style *how)
{
	struct buffer out = {0};
	int status = STATUS_CLEAN;

	progress_write_begin(&out, how);
	for (size_t i = 0; i < p->persons.len; i++) {
		progress_write_person(&out, p, i, how);
		output_flush_some(&out);
	}
	progress_write_end(&out, p, how);
	output_write(&out);
	if (options->plot) {
		progress_plot(&out, p);
		status = write_plot(options->plot, &out);
	}
	buffer_free(&out);
	return status;
}

int
cmd_progress(const struct options *options)
{
	struct progress_style how = {.format = formats[options->format]};
	struct following following = {.status = STATUS_CLEAN};
	struct notes_handler handler = {
	    .arg = &following, .session = on_session, .names_only = true};
	int status, plotted;

	if (!may_plot(options->plot))
		return STATUS_TROUBLE;
	how.colour = options_colour(options);
	how.today = options->today;
	how.sparkline = wants_sparkline(options);
	following.progress = progress_new();
	status = notes_each(options, &handler, NULL);
	progress_finish(following.progress);
	plotted = write_all(following.progress, options, &how);
	progress_free(following.progress);
	if (status < following.status)
		status = following.status;
	return plotted > status ? plotted : status;
}
