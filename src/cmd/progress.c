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

/* What is empty may become a drawing. */
static bool
may_hold_plot(int fd)
{
	char text[512];
	size_t len = 0;
	ssize_t n;

	while ((n = read(fd, text + len, sizeof(text) - len)) > 0 ||
	       (n < 0 && errno == EINTR))
		len += n > 0 ? (size_t)n : 0;
	return n == 0 && (len == 0 || progress_begins_plot(text, len));
}

/* Puts PLOT in the place of the open file FD, which stands AT. */
static int
replace_plot(const struct file_at *at, int fd, const struct buffer *plot,
    char *why, size_t size)
{
	struct save_seen seen;

	if (save_look(fd, &seen, why, size) != 0)
		return -1;
	if (!may_hold_plot(fd)) {
		snprintf(why, size,
		    "this file is no drawing of progress, so it is not "
		    "replaced by one");
		return -1;
	}
	return save_replace(at, &seen, plot, why, size);
}

static const char *
cannot_open(int error)
{
	if (error == EINVAL)
		return "this is no regular file; nothing was written";
	if (error == ELOOP)
		return "this is a link that leads nowhere; nothing was written";
	return strerror(error);
}

static int
save_plot(
    const struct file_at *at, const struct buffer *plot, char *why, size_t size)
{
	int fd = file_open_at(at), status = -1;

	if (fd >= 0) {
		status = replace_plot(at, fd, plot, why, size);
		close(fd);
	} else if (errno == ENOENT) {
		status = save_new(at, plot, why, size);
	} else {
		snprintf(why, size, "%s", cannot_open(errno));
	}
	/* Whoever came first may have made the same drawing. */
	return status == 0 || save_holds(at, plot) ? 0 : -1;
}

/*
 * Writes the drawing as a whole: who reads the file finds the one that was
 * there, if any, or the new one.
 */
static int
write_plot(const char *path, const struct buffer *plot)
{
	struct file_at at;
	char why[256];
	int status;

	if (file_find(&at, path) != 0) {
		trouble("%s: %s", path, strerror(errno));
		return STATUS_TROUBLE;
	}
	status = save_plot(&at, plot, why, sizeof(why));
	file_leave(&at);
	if (status == 0)
		return STATUS_CLEAN;
	trouble("%s: %s", path, why);
	return STATUS_TROUBLE;
}

/* One without the notes that could not be read may not replace a whole one. */
static int
plot_all(const struct progress *p, const char *path, int read)
{
	struct buffer plot = {0};
	int status;

	if (read >= STATUS_TROUBLE) {
		trouble("%s: not drawn, since not all that was to be read "
			"could be",
		    path);
		return STATUS_TROUBLE;
	}
	progress_plot(&plot, p);
	status = write_plot(path, &plot);
	buffer_free(&plot);
	return status;
}

/* A sparkline is for a screen; --color=always wants what a screen gets. */
static bool
wants_sparkline(const struct options *options)
{
	return isatty(STDOUT_FILENO) || strcmp(options->colour, "always") == 0;
}

static void
write_all(struct progress *p, const struct progress_style *how)
{
	struct buffer out = {0};

	progress_write_begin(&out, how);
	for (size_t i = 0; i < p->persons.len; i++) {
		progress_write_person(&out, p, i, how);
		output_flush_some(&out);
	}
	progress_write_end(&out, p, how);
	output_write(&out);
	buffer_free(&out);
}

int
cmd_progress(const struct options *options)
{
	struct progress_style how = {.format = formats[options->format]};
	struct following following = {.status = STATUS_CLEAN};
	struct notes_handler handler = {
	    .arg = &following, .session = on_session, .names_only = true};
	int status, plotted = STATUS_CLEAN;

	if (!may_plot(options->plot))
		return STATUS_TROUBLE;
	how.colour = options_colour(options);
	how.today = options->today;
	how.sparkline = wants_sparkline(options);
	following.progress = progress_new();
	status = notes_each(options, &handler, NULL);
	progress_finish(following.progress);
	write_all(following.progress, &how);
	if (options->plot)
		plotted = plot_all(following.progress, options->plot, status);
	progress_free(following.progress);
	if (status < following.status)
		status = following.status;
	return plotted > status ? plotted : status;
}
