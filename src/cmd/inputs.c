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

static struct input *
add(struct inputs *list, enum input_kind kind, const char *path)
{
	struct input *item = MEM_PUSH(list);

	*item = (struct input){.kind = kind};
	item->path = mem_text(path, strlen(path));
	return item;
}

static void
add_trouble(struct inputs *list, const char *path)
{
	int error = errno;

	add(list, INPUT_TROUBLE, path)->error = error;
}

/* ST may be NULL: reading it will tell why. */
static void
add_file(struct inputs *list, const char *path, const struct stat *st)
{
	struct input *item = add(list, INPUT_FILE, path);

	if (!st)
		return;
	item->device = st->st_dev;
	item->number = st->st_ino;
	item->size = st->st_size > 0 ? (uint64_t)st->st_size : 0;
	list->in_order |= !S_ISREG(st->st_mode);
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

bool
inputs_is_note(const char *name)
{
	static const char ending[] = ".range";
	size_t len = strlen(name), tail = sizeof(ending) - 1;

	return len > tail && strcmp(name + len - tail, ending) == 0;
}

/* Reads the names in FOLDER; false where it cannot be read. */
static bool
read_names(const char *folder, struct names *names)
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

static void walk_folder(struct inputs *list, const char *folder);

static void
walk_entry(struct inputs *list, const char *folder, const char *name)
{
	char *path = join(folder, name);
	struct stat st;

	if (lstat(path, &st) != 0) {
		add_trouble(list, path);
	} else if (S_ISDIR(st.st_mode)) {
		walk_folder(list, path);
	} else if (inputs_is_note(name)) {
		bool there = !S_ISLNK(st.st_mode) || stat(path, &st) == 0;

		if (!there || !S_ISDIR(st.st_mode))
			add_file(list, path, there ? &st : NULL);
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
walk_folder(struct inputs *list, const char *folder)
{
	struct names names = {0};

	if (!read_names(folder, &names))
		add_trouble(list, folder);
	sort_names(folder, &names);
	for (size_t i = 0; i < names.len; i++) {
		size_t len = strlen(names.at[i]);

		if (names.at[i][len - 1] == '/')
			names.at[i][len - 1] = '\0';
		walk_entry(list, folder, names.at[i]);
	}
	names_free(&names);
}

static void
add_stdin(struct inputs *list, const struct options *options)
{
	add(list, INPUT_STDIN, options->stdin_name ? options->stdin_name : "-");
	list->in_order = true;
}

static void
add_path(struct inputs *list, const char *path)
{
	size_t before = list->len;
	struct stat st;

	if (stat(path, &st) != 0) {
		add_file(list, path, NULL);
	} else if (!S_ISDIR(st.st_mode)) {
		add_file(list, path, &st);
	} else {
		walk_folder(list, path);
		if (list->len == before)
			add(list, INPUT_EMPTY_FOLDER, path);
	}
}

void
inputs_list(const struct options *options, struct inputs *list)
{
	if (options->file_count == 0)
		add_stdin(list, options);
	for (size_t i = 0; i < options->file_count; i++) {
		if (strcmp(options->files[i], "-") == 0)
			add_stdin(list, options);
		else
			add_path(list, options->files[i]);
	}
}

void
inputs_free(struct inputs *list)
{
	for (size_t i = 0; i < list->len; i++)
		free(list->at[i].path);
	free(list->at);
	*list = (struct inputs){0};
}

static int
cannot(const char *path, int error)
{
	trouble("%s: %s", path, strerror(error));
	return STATUS_TROUBLE;
}

/*
 * O_NONBLOCK, so that opening a pipe that nobody writes does not wait for
 * ever; reading from it does wait.
 */
static int
read_file(const char *path, input_note *each, void *arg)
{
	int fd = open(path, O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY);
	int flags, status;

	if (fd < 0)
		return cannot(path, errno);
	flags = fcntl(fd, F_GETFL);
	if (flags >= 0)
		fcntl(fd, F_SETFL, flags & ~O_NONBLOCK);
	status = each(arg, fd, path, path);
	close(fd);
	return status;
}

/* At a terminal nothing would show that it waits, and for what. */
static int
read_standard(const char *name, input_note *each, void *arg)
{
	if (isatty(STDIN_FILENO))
		trouble("the note is read from the keyboard; Ctrl-D on a line "
			"of its own ends it");
	return each(arg, STDIN_FILENO, name, NULL);
}

int
inputs_read(const struct input *item, input_note *each, void *arg)
{
	switch (item->kind) {
	case INPUT_FILE:
		return read_file(item->path, each, arg);
	case INPUT_STDIN:
		return read_standard(item->path, each, arg);
	case INPUT_TROUBLE:
		return cannot(item->path, item->error);
	case INPUT_EMPTY_FOLDER:
		break;
	}
	trouble("%s: no .range file in this folder", item->path);
	return STATUS_TROUBLE;
}
