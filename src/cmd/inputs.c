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
#include "text/file.h"
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

/* Is the file where the output goes? Then reading would never come to an end.
 */
static bool
is_output(const struct stat *st)
{
	struct stat out;

	return S_ISREG(st->st_mode) && fstat(STDOUT_FILENO, &out) == 0 &&
	       out.st_dev == st->st_dev && out.st_ino == st->st_ino;
}

/* ST may be NULL: reading it will tell why. */
static struct input *
add_file(struct inputs *list, const char *path, const char *root,
    const struct stat *st)
{
	struct input *item = add(list, INPUT_FILE, path);

	item->root = root;
	if (!st)
		return item;
	if (is_output(st))
		item->kind = INPUT_OUTPUT;
	item->device = st->st_dev;
	item->number = st->st_ino;
	item->size = st->st_size > 0 ? (uint64_t)st->st_size : 0;
	list->in_order |= !S_ISREG(st->st_mode);
	return item;
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

static void walk_folder(
    struct inputs *list, const char *folder, const char *root);

static void
walk_entry(
    struct inputs *list, const char *folder, const char *root, const char *name)
{
	char *path = join(folder, name);
	struct stat st;

	if (lstat(path, &st) != 0) {
		add_trouble(list, path);
	} else if (S_ISDIR(st.st_mode)) {
		walk_folder(list, path, root);
	} else if (inputs_is_note(name)) {
		bool there = !S_ISLNK(st.st_mode) || stat(path, &st) == 0;

		if (!there || !S_ISDIR(st.st_mode))
			add_file(list, path, root, there ? &st : NULL);
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
walk_folder(struct inputs *list, const char *folder, const char *root)
{
	struct names names = {0};

	if (!read_names(folder, &names))
		add_trouble(list, folder);
	sort_names(folder, &names);
	for (size_t i = 0; i < names.len; i++) {
		size_t len = strlen(names.at[i]);

		if (names.at[i][len - 1] == '/')
			names.at[i][len - 1] = '\0';
		walk_entry(list, folder, root, names.at[i]);
	}
	names_free(&names);
}

static void
add_stdin(struct inputs *list, const struct options *options)
{
	const char *name = options->stdin_name ? options->stdin_name : "-";
	struct stat st;
	bool output = fstat(STDIN_FILENO, &st) == 0 && is_output(&st);

	add(list, output ? INPUT_OUTPUT : INPUT_STDIN, name);
	list->in_order = true;
}

static void
add_folder(struct inputs *list, const char *path)
{
	size_t before = list->len;
	char *root = realpath(path, NULL);

	if (!root) {
		add_trouble(list, path);
		return;
	}
	*MEM_PUSH(&list->roots) = root;
	walk_folder(list, path, root);
	if (list->len == before)
		add(list, INPUT_EMPTY_FOLDER, path);
}

static void
add_path(struct inputs *list, const struct options *options, const char *path)
{
	struct stat st;
	bool there = stat(path, &st) == 0;

	if (there && S_ISDIR(st.st_mode))
		add_folder(list, path);
	else
		add_file(list, path, NULL, there ? &st : NULL)->waits =
		    !options->in_place;
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
			add_path(list, options, options->files[i]);
	}
}

void
inputs_free(struct inputs *list)
{
	for (size_t i = 0; i < list->len; i++)
		free(list->at[i].path);
	for (size_t i = 0; i < list->roots.len; i++)
		free(list->roots.at[i]);
	free(list->roots.at);
	free(list->at);
	*list = (struct inputs){0};
}

static int
refuse(const char *name, const char *why)
{
	trouble("%s: %s", name, why);
	return STATUS_TROUBLE;
}

/* Is the file REAL, a path without links, below the folder ROOT? */
static bool
is_below(const char *real, const char *root)
{
	size_t len = strlen(root);

	while (len > 0 && root[len - 1] == '/')
		len--;
	return strncmp(real, root, len) == 0 && real[len] == '/';
}

/*
 * Opens what the command line names, as it is: a pipe waits for its writer.
 * What was found in a folder may be anything, put there by anybody: neither
 * may a link lead elsewhere, nor a pipe be waited for.
 */
static int
open_item(const struct input *item)
{
	char *real;
	int fd, error;

	if (!item->root)
		return file_open(item->path, item->waits ? 0 : O_NONBLOCK);
	real = realpath(item->path, NULL);
	if (!real)
		return -1;
	errno = EXDEV;
	fd = is_below(real, item->root)
		 ? file_open(real, O_NOFOLLOW | O_NONBLOCK)
		 : -1;
	error = errno;
	free(real);
	errno = error;
	return fd;
}

/* What is read of a file that changes meanwhile may never have been in it. */
static int
read_whole(const struct input *item, int fd, const char *path, input_note *each,
    void *arg)
{
	struct stat was;
	int status;

	if (fstat(fd, &was) != 0)
		return refuse(item->path, strerror(errno));
	if (item->root && !S_ISREG(was.st_mode))
		return refuse(item->path,
		    "this is no regular file: it is read only where the "
		    "command names it");
	status = each(arg, fd, item->path, path);
	if (status == STATUS_TROUBLE || file_kept(fd, &was))
		return status;
	return refuse(item->path,
	    "somebody changed the file while it was read, so what was told of "
	    "it may be wrong; run the command once more");
}

static int
read_file(const struct input *item, input_note *each, void *arg)
{
	int fd = open_item(item), status;

	if (fd < 0 && errno == EXDEV)
		return refuse(item->path,
		    "this link leads out of the folder: it is followed only "
		    "where the command names it");
	if (fd < 0)
		return refuse(item->path, file_error(errno));
	status = read_whole(item, fd, item->path, each, arg);
	close(fd);
	return status;
}

/* At a terminal nothing would show that it waits, and for what. */
static int
read_standard(const struct input *item, input_note *each, void *arg)
{
	if (isatty(STDIN_FILENO))
		trouble("the note is read from the keyboard; Ctrl-D on a line "
			"of its own ends it");
	return read_whole(item, STDIN_FILENO, NULL, each, arg);
}

int
inputs_read(const struct input *item, input_note *each, void *arg)
{
	switch (item->kind) {
	case INPUT_FILE:
		return read_file(item, each, arg);
	case INPUT_STDIN:
		return read_standard(item, each, arg);
	case INPUT_TROUBLE:
		return refuse(item->path, strerror(item->error));
	case INPUT_OUTPUT:
		return refuse(item->path,
		    "the output goes into this file itself: it is not read; "
		    "send the output to another file");
	case INPUT_EMPTY_FOLDER:
		break;
	}
	return refuse(item->path, "no .range file in this folder");
}
