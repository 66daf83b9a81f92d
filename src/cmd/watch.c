/*
 * check --watch. Folders are watched rather than files, since many an editor
 * saves by writing another file and renaming it: then the file that one began
 * to watch is gone.
 *
 * For each round everything is watched anew, then checked, then waited for.
 * What happens before the watching begins is seen by the check, what happens
 * afterwards wakes the next round; so no save is lost, and folders that come
 * and go need no keeping of books.
 */
#include "cmd/watch.h"

#include <errno.h>
#include <fts.h>
#include <poll.h>
#include <signal.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>
#include <sys/inotify.h>
#include <sys/signalfd.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "cmd/command.h"
#include "cmd/folder.h"
#include "cmd/output.h"
#include "text/buffer.h"
#include "text/mem.h"

enum {
	SETTLE = 50, /* milliseconds: an editor saves in several steps */
	EVENTS = IN_CLOSE_WRITE | IN_CREATE | IN_DELETE | IN_MOVED_FROM |
		 IN_MOVED_TO | IN_ATTRIB | IN_DELETE_SELF | IN_MOVE_SELF |
		 IN_ONLYDIR
};

/* What counts in a watched folder. */
struct folder {
	bool notes; /* every note and every folder in it */
	struct {
		char **at;
		size_t len, cap;
	} names; /* these */
};

struct watch {
	int inotify;
	/*
	 * By watch descriptor: those of a new inotify instance count up
	 * from 1.
	 */
	struct {
		struct folder *at;
		size_t len;
	} folders;
};

static void
watch_close(struct watch *w)
{
	for (size_t i = 0; i < w->folders.len; i++) {
		struct folder *folder = &w->folders.at[i];

		for (size_t k = 0; k < folder->names.len; k++)
			free(folder->names.at[k]);
		free(folder->names.at);
	}
	free(w->folders.at);
	if (w->inotify >= 0)
		close(w->inotify);
	*w = (struct watch){.inotify = -1};
}

/* Room for descriptor WD, and as much again; what is new is zeroed. */
static void
make_room(struct watch *w, size_t wd)
{
	size_t len = w->folders.len;

	if (wd < len)
		return;
	w->folders.len = 2 * (wd + 1);
	w->folders.at =
	    mem_resize(w->folders.at, w->folders.len, sizeof(*w->folders.at));
	memset(w->folders.at + len, 0,
	    (w->folders.len - len) * sizeof(*w->folders.at));
}

/* NULL with errno set where it cannot be watched. */
static struct folder *
add_folder(struct watch *w, const char *path)
{
	int wd = inotify_add_watch(w->inotify, path, EVENTS);

	if (wd < 0)
		return NULL;
	make_room(w, (size_t)wd);
	return &w->folders.at[wd];
}

static int
cannot(const char *path)
{
	if (errno == ENOSPC)
		trouble("%s: cannot be watched: the system watches no more "
			"folders; name fewer of them",
		    path);
	else
		trouble("%s: cannot be watched: %s", path, strerror(errno));
	return -1;
}

/* The length of the folder's part of PATH, 0 where it names none. */
static size_t
folder_part(const char *path, const char **name)
{
	const char *slash = strrchr(path, '/');
	size_t len = slash ? (size_t)(slash - path) : 0;

	*name = slash ? slash + 1 : path;
	while (len > 1 && path[len - 1] == '/')
		len--;
	return slash && len == 0 ? 1 : len;
}

/*
 * Watches the folder that holds PATH for its name. Where there is no such
 * folder (any more), it is waited for by the same way, and then tried once
 * more: it may have been made in between.
 */
static int
add_name(struct watch *w, const char *path)
{
	const char *name;
	size_t len = folder_part(path, &name);
	char *above = len ? mem_text(path, len) : mem_text(".", 1);
	struct folder *folder = add_folder(w, above);
	int status = 0;

	if (!folder && len > 0 && (errno == ENOENT || errno == ENOTDIR)) {
		status = add_name(w, above);
		folder = add_folder(w, above);
	} else if (!folder) {
		status = cannot(path);
	}
	if (folder)
		*MEM_PUSH(&folder->names) = mem_text(name, strlen(name));
	free(above);
	return status;
}

/* A file, and where it is a link also what it leads to. */
static int
add_file(struct watch *w, const char *path)
{
	struct stat st;
	char *real = NULL;
	int status = add_name(w, path);

	if (status == 0 && lstat(path, &st) == 0 && S_ISLNK(st.st_mode))
		real = realpath(path, NULL);
	if (real)
		status = add_name(w, real);
	free(real);
	return status;
}

/*
 * A folder and those below it that check would read. Each is watched before
 * it is listed. Where a link in it leads is not watched: most often to a note
 * that is.
 */
static int
add_tree(struct watch *w, const char *path)
{
	char *copy = mem_text(path, strlen(path));
	char *const roots[] = {copy, NULL};
	FTS *fts =
	    fts_open(roots, FTS_PHYSICAL | FTS_COMFOLLOW | FTS_NOCHDIR, NULL);
	FTSENT *entry;
	int status = fts ? 0 : cannot(path);

	while (status == 0 && (entry = fts_read(fts))) {
		struct folder *folder;

		if (entry->fts_level > 0 && entry->fts_name[0] == '.') {
			fts_set(fts, entry, FTS_SKIP);
		} else if (entry->fts_info == FTS_D) {
			folder = add_folder(w, entry->fts_path);
			if (folder)
				folder->notes = true;
			else if (errno != ENOENT && errno != EACCES)
				status = cannot(entry->fts_path);
		}
	}
	if (fts)
		fts_close(fts);
	free(copy);
	return status;
}

static bool
is_folder(const char *path)
{
	struct stat st;

	return stat(path, &st) == 0 && S_ISDIR(st.st_mode);
}

static int
watch_open(struct watch *w, const struct options *options)
{
	int status = 0;

	*w = (struct watch){.inotify = inotify_init1(IN_CLOEXEC | IN_NONBLOCK)};
	if (w->inotify < 0)
		return cannot(options->files[0]);
	for (size_t i = 0; status == 0 && i < options->file_count; i++) {
		const char *path = options->files[i];

		/* A folder may come while its name is being watched for. */
		if (!is_folder(path))
			status = add_file(w, path);
		if (status == 0 && is_folder(path))
			status = add_tree(w, path);
	}
	return status;
}

/* --- waiting ----------------------------------------------------------------
 */

/* Does it concern what is checked? */
static bool
counts(const struct watch *w, const struct inotify_event *event)
{
	const struct folder *folder;

	if (event->mask &
	    (IN_Q_OVERFLOW | IN_UNMOUNT | IN_DELETE_SELF | IN_MOVE_SELF))
		return true;
	if (event->len == 0 || event->wd < 0 ||
	    (size_t)event->wd >= w->folders.len)
		return false;
	folder = &w->folders.at[event->wd];
	if (folder->notes && event->name[0] != '.' &&
	    (event->mask & IN_ISDIR || folder_is_note(event->name)))
		return true;
	for (size_t i = 0; i < folder->names.len; i++)
		if (strcmp(folder->names.at[i], event->name) == 0)
			return true;
	return false;
}

/* Reads what has happened; true where some of it counts. */
static bool
happened(const struct watch *w)
{
	_Alignas(struct inotify_event) char events[16 * 1024];
	ssize_t len;

	while ((len = read(w->inotify, events, sizeof(events))) > 0)
		for (char *at = events; at < events + len;) {
			const struct inotify_event *event = (const void *)at;

			if (counts(w, event))
				return true;
			at += sizeof(*event) + event->len;
		}
	return false;
}

/*
 * Waits for a save; false where a signal ended the waiting, or nobody reads
 * any more what the next check would write.
 */
static bool
wait_for_save(const struct watch *w, int signals)
{
	struct pollfd fds[] = {{signals, POLLIN, 0}, {STDOUT_FILENO, 0, 0},
	    {w->inotify, POLLIN, 0}};

	do {
		if (poll(fds, 3, -1) < 0 && errno != EINTR)
			return false;
		if (fds[0].revents || fds[1].revents)
			return false;
	} while (!happened(w));
	return poll(fds, 2, SETTLE) <= 0;
}

/* --- the screen -------------------------------------------------------------
 */

static bool
is_screen(void)
{
	const char *term = getenv("TERM");

	return isatty(STDOUT_FILENO) && !(term && strcmp(term, "dumb") == 0);
}

static void
put(const char *text)
{
	struct buffer out = {0};

	buffer_puts(&out, text);
	output_write(&out);
	buffer_free(&out);
}

static void
end_screen(int status)
{
	static const char *const found[] = {
	    [STATUS_CLEAN] = "nothing at level warning or error",
	    [STATUS_FOUND] = "see above",
	    [STATUS_TROUBLE] = "not all could be read"};
	time_t now = time(NULL);
	struct buffer out = {0};
	char clock[16] = "";
	struct tm tm;

	if (localtime_r(&now, &tm))
		strftime(clock, sizeof(clock), " at %H:%M:%S", &tm);
	buffer_printf(&out,
	    "Checked%s: %s. The next save is checked too; Ctrl-C ends.\n",
	    clock, found[status]);
	output_write(&out);
	buffer_free(&out);
}

/* A file, a folder, or nothing yet; what flows past cannot be read again. */
static bool
can_watch(const struct options *options)
{
	bool input = options->file_count == 0;
	struct stat st;

	if (options->format != FORMAT_TEXT) {
		trouble("check: --watch shows text for people: leave --format "
			"out");
		return false;
	}
	for (size_t i = 0; !input && i < options->file_count; i++) {
		const char *path = options->files[i];

		input = strcmp(path, "-") == 0;
		if (input || stat(path, &st) != 0 || S_ISREG(st.st_mode) ||
		    S_ISDIR(st.st_mode))
			continue;
		trouble("check: --watch needs files or folders: '%s' is none",
		    path);
		return false;
	}
	if (input)
		trouble("check: --watch needs files or folders: nobody saves "
			"standard input");
	return !input;
}

/*
 * The signals that end it, as a descriptor, so that none is lost between the
 * check and the waiting. One that whoever started the program told it to
 * ignore stays ignored.
 */
static int
open_signals(void)
{
	static const int ends[] = {SIGINT, SIGTERM};
	struct sigaction action;
	sigset_t set;

	sigemptyset(&set);
	for (size_t i = 0; i < sizeof(ends) / sizeof(*ends); i++)
		if (sigaction(ends[i], NULL, &action) == 0 &&
		    action.sa_handler != SIG_IGN)
			sigaddset(&set, ends[i]);
	sigprocmask(SIG_BLOCK, &set, NULL);
	return signalfd(-1, &set, SFD_CLOEXEC);
}

int
watch(const struct options *options, int (*each)(const struct options *options))
{
	struct options now = *options;
	struct watch w = {.inotify = -1};
	bool first = true;
	int signals, status;

	if (!can_watch(options))
		return STATUS_TROUBLE;
	signals = open_signals();
	if (signals < 0) {
		trouble("check: --watch: %s", strerror(errno));
		return STATUS_TROUBLE;
	}
	do {
		watch_close(&w);
		if (watch_open(&w, options) != 0) {
			status = STATUS_TROUBLE;
			break;
		}
		/* It may watch past midnight. */
		if (!options->today_said)
			now.today = options_day_of_clock();
		if (is_screen())
			put("\033[H\033[2J");
		else if (!first)
			put("----\n");
		status = each(&now);
		end_screen(status);
		first = false;
	} while (wait_for_save(&w, signals));
	if (is_screen()) /* behind the ^C that it shows */
		put("\n");
	watch_close(&w);
	close(signals);
	return status;
}
