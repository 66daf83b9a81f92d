#include "cmd/inputs.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cmd/command.h"
#include "cmd/output.h"
#include "text/mem.h"

struct walk {
	input_note *each;
	void *arg;
	int status;
	size_t notes; /* found below the folder at hand */
};

static void
raise_status(struct walk *w, int status)
{
	if (status > w->status)
		w->status = status;
}

static void
cannot(struct walk *w, const char *path)
{
	trouble("%s: %s", path, strerror(errno));
	raise_status(w, STATUS_TROUBLE);
}

/*
 * O_NONBLOCK, so that opening a pipe that nobody writes does not wait for
 * ever; reading from it does wait.
 */
static void
read_file(struct walk *w, const char *path)
{
	int fd = open(path, O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY);
	int flags;

	if (fd < 0) {
		cannot(w, path);
		return;
	}
	flags = fcntl(fd, F_GETFL);
	if (flags >= 0)
		fcntl(fd, F_SETFL, flags & ~O_NONBLOCK);
	raise_status(w, w->each(w->arg, fd, path, path));
	close(fd);
}

struct names {
	char **at;
	size_t len, cap;
};

static int
by_bytes(const void *a, const void *b)
{
	return strcmp(*(char *const *)a, *(char *const *)b);
}

static void
names_free(struct names *names)
{
	for (size_t i = 0; i < names->len; i++)
		free(names->at[i]);
	free(names->at);
}

/* FOLDER/NAME; a slash at the end of FOLDER serves. The caller frees it. */
static char *
join(const char *folder, const char *name)
{
	size_t a = strlen(folder), b = strlen(name);
	char *path = mem_resize(NULL, a + b + 2, 1);

	while (a > 1 && folder[a - 1] == '/')
		a--;
	memcpy(path, folder, a);
	if (path[a - 1] != '/')
		path[a++] = '/';
	memcpy(path + a, name, b + 1);
	return path;
}

static bool
is_note(const char *name)
{
	static const char ending[] = ".range";
	size_t len = strlen(name), tail = sizeof(ending) - 1;

	return len > tail && strcmp(name + len - tail, ending) == 0;
}

/* Reads the names in FOLDER; false where it cannot be read. */
static bool
list(const char *folder, struct names *names)
{
	DIR *dir = opendir(folder);
	struct dirent *entry;
	int error;

	if (!dir)
		return false;
	for (errno = 0; (entry = readdir(dir)); errno = 0)
		if (entry->d_name[0] != '.')
			*MEM_PUSH(names) =
			    mem_text(entry->d_name, strlen(entry->d_name));
	error = errno;
	closedir(dir);
	errno = error;
	return error == 0;
}

static void walk_folder(struct walk *w, const char *folder);

static void
walk_entry(struct walk *w, const char *folder, const char *name)
{
	char *path = join(folder, name);
	struct stat st;

	if (lstat(path, &st) != 0) {
		cannot(w, path);
	} else if (S_ISDIR(st.st_mode)) {
		walk_folder(w, path);
	} else if (is_note(name)) {
		bool link_to_folder = S_ISLNK(st.st_mode) &&
				      stat(path, &st) == 0 &&
				      S_ISDIR(st.st_mode);

		if (!link_to_folder) {
			w->notes++;
			read_file(w, path);
		}
	}
	free(path);
}

/*
 * Sorts the names so that the paths below come in byte order: a folder counts
 * with the slash that follows it in a path.
 */
static void
sort_names(const char *folder, struct names *names)
{
	for (size_t i = 0; i < names->len; i++) {
		char *path = join(folder, names->at[i]);
		struct stat st;

		if (lstat(path, &st) == 0 && S_ISDIR(st.st_mode)) {
			char *marked = join(names->at[i], "");

			free(names->at[i]);
			names->at[i] = marked;
		}
		free(path);
	}
	if (names->len > 1)
		qsort(names->at, names->len, sizeof(*names->at), by_bytes);
}

static void
walk_folder(struct walk *w, const char *folder)
{
	struct names names = {0};

	if (!list(folder, &names))
		cannot(w, folder);
	sort_names(folder, &names);
	for (size_t i = 0; i < names.len; i++) {
		size_t len = strlen(names.at[i]);

		if (names.at[i][len - 1] == '/')
			names.at[i][len - 1] = '\0';
		walk_entry(w, folder, names.at[i]);
	}
	names_free(&names);
}

static void
read_folder(struct walk *w, const char *folder)
{
	int before = w->status;

	w->notes = 0;
	w->status = STATUS_CLEAN;
	walk_folder(w, folder);
	if (w->notes == 0 && w->status == STATUS_CLEAN) {
		trouble("%s: no .range file in this folder", folder);
		raise_status(w, STATUS_TROUBLE);
	}
	raise_status(w, before);
}

int
inputs_each(const struct options *options, input_note *each, void *arg)
{
	struct walk w = {.each = each, .arg = arg};
	const char *name = options->stdin_name ? options->stdin_name : "-";

	if (options->file_count == 0)
		raise_status(&w, each(arg, STDIN_FILENO, name, NULL));
	for (size_t i = 0; i < options->file_count; i++) {
		const char *path = options->files[i];
		struct stat st;

		if (strcmp(path, "-") == 0)
			raise_status(&w, each(arg, STDIN_FILENO, name, NULL));
		else if (stat(path, &st) == 0 && S_ISDIR(st.st_mode))
			read_folder(&w, path);
		else
			read_file(&w, path);
	}
	return w.status;
}
