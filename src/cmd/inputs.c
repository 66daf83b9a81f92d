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
add_refused(struct inputs *list, const char *path, const char *why)
{
	add(list, INPUT_REFUSED, path)->why = mem_text(why, strlen(why));
}

/*
 * Ends the program where output or messages go into a note that is to be read:
 * reading would never come to an end, and whatever is written spoils the note.
 */
static void
end_if_written(
    const struct inputs *list, const char *path, const struct stat *st)
{
	for (size_t i = 0; i < 2; i++) {
		if (!S_ISREG(st->st_mode) ||
		    st->st_dev != list->written[i].st_dev ||
		    st->st_ino != list->written[i].st_ino)
			continue;
		trouble("%s: what the command writes goes into this file, so "
			"nothing was read%s; write to another file (to tidy a "
			"note itself there is tidy --in-place)",
		    path,
		    st->st_size > 0 ? ""
				    : "; it is empty now: > emptied it before "
				      "the command began");
		exit(STATUS_TROUBLE);
	}
}

static const char no_file[] =
    "this is a pipe or a device, not a file; in a folder, and by tidy "
    "--in-place, only files are read";

static const char leads_out[] =
    "this link leads out of the folder; name it by itself to have it read";

static const char now_a_link[] =
    "since the folder was looked through, somebody put a link on the way to "
    "this file, so it was not read; look what is there, then run the command "
    "once more";

static struct input *
add_file(struct inputs *list, const char *path, const struct stat *st)
{
	struct input *item;

	end_if_written(list, path, st);
	item = add(list, INPUT_FILE, path);
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

/* The length of FOLDER without the slashes at its end. */
static size_t
folder_len(const char *folder)
{
	size_t len = strlen(folder);

	while (len > 0 && folder[len - 1] == '/')
		len--;
	return len;
}

/* FOLDER/NAME, with one slash between them. The caller frees it. */
static char *
join(const char *folder, const char *name)
{
	size_t a = folder_len(folder), b = strlen(name);
	char *path = mem_resize(NULL, a + b + 2, 1);

	memcpy(path, folder, a);
	path[a] = '/';
	memcpy(path + a + 1, name, b + 1);
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

/* REAL is where a link leads, else NULL; it is copied. */
static void
add_walked(struct inputs *list, const struct input_named *folder,
    const char *path, const char *real, const struct stat *st)
{
	struct input *item;

	if (!S_ISREG(st->st_mode)) {
		add_refused(list, path, no_file);
		return;
	}
	item = add_file(list, path, st);
	item->folder = folder;
	if (real)
		item->real = mem_text(real, strlen(real));
}

/* Is the file REAL, a path without links, below the folder ROOT? */
static bool
is_below(const char *real, const char *root)
{
	size_t len = folder_len(root);

	return strncmp(real, root, len) == 0 && real[len] == '/';
}

/* The folder that is named and below which it stands, or NULL. */
static const struct input_named *
folder_of(struct inputs *list, const char *real)
{
	for (size_t i = 0; i < list->options->file_count; i++) {
		struct input_named *named = &list->named[i];

		if (!S_ISDIR(named->is.st_mode))
			continue;
		if (!named->real)
			named->real = realpath(named->path, NULL);
		if (named->real && is_below(real, named->real))
			return named;
	}
	return NULL;
}

/* A link in a folder, called like a note; one to a folder is passed over. */
static void
add_link(struct inputs *list, const char *path)
{
	char *real = realpath(path, NULL);
	const struct input_named *folder;
	struct stat st;

	if (!real || stat(real, &st) != 0)
		add_refused(list, path, strerror(errno));
	else if (!S_ISDIR(st.st_mode) && (folder = folder_of(list, real)))
		add_walked(list, folder, path, real, &st);
	else if (!S_ISDIR(st.st_mode))
		add_refused(list, path, leads_out);
	free(real);
}

static void walk_folder(
    struct inputs *list, const struct input_named *top, const char *folder);

static void
walk_entry(struct inputs *list, const struct input_named *top,
    const char *folder, const char *name)
{
	char *path = join(folder, name);
	struct stat st;

	if (lstat(path, &st) != 0)
		add_refused(list, path, strerror(errno));
	else if (S_ISDIR(st.st_mode))
		walk_folder(list, top, path);
	else if (inputs_is_note(name) && S_ISLNK(st.st_mode))
		add_link(list, path);
	else if (inputs_is_note(name))
		add_walked(list, top, path, NULL, &st);
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
walk_folder(
    struct inputs *list, const struct input_named *top, const char *folder)
{
	struct names names = {0};

	if (!read_names(folder, &names))
		add_refused(list, folder, strerror(errno));
	sort_names(folder, &names);
	for (size_t i = 0; i < names.len; i++) {
		size_t len = strlen(names.at[i]);

		if (names.at[i][len - 1] == '/')
			names.at[i][len - 1] = '\0';
		walk_entry(list, top, folder, names.at[i]);
	}
	names_free(&names);
}

static void
add_stdin(struct inputs *list)
{
	const char *said = list->options->stdin_name;
	const char *name = said ? said : "-";
	struct stat st;

	if (fstat(STDIN_FILENO, &st) == 0)
		end_if_written(list, name, &st);
	add(list, INPUT_STDIN, name);
	list->in_order = true;
}

static void
add_named(struct inputs *list, const struct input_named *named)
{
	const char *path = named->path;
	size_t before = list->len;

	if (strcmp(path, "-") == 0)
		add_stdin(list);
	else if (named->error)
		add_refused(list, path, strerror(named->error));
	else if (S_ISDIR(named->is.st_mode))
		walk_folder(list, named, path);
	else if (list->options->in_place && !S_ISREG(named->is.st_mode))
		add_refused(list, path, no_file);
	else
		add_file(list, path, &named->is);
	if (list->len == before)
		add_refused(list, path, "no .range file in this folder");
}

static void
look_up(struct input_named *named, const char *path)
{
	named->path = path;
	if (strcmp(path, "-") != 0 && stat(path, &named->is) != 0)
		named->error = errno;
}

void
inputs_list(const struct options *options, struct inputs *list)
{
	size_t count = options->file_count;

	fstat(STDOUT_FILENO, &list->written[0]);
	fstat(STDERR_FILENO, &list->written[1]);
	list->options = options;
	list->named = mem_zero(count * sizeof(*list->named));
	for (size_t i = 0; i < count; i++)
		look_up(&list->named[i], options->files[i]);
	for (size_t i = 0; i < count; i++)
		add_named(list, &list->named[i]);
	if (count == 0)
		add_stdin(list);
}

void
inputs_free(struct inputs *list)
{
	for (size_t i = 0; i < list->len; i++) {
		free(list->at[i].path);
		free(list->at[i].real);
		free(list->at[i].why);
	}
	for (size_t i = 0; i < list->options->file_count; i++)
		free(list->named[i].real);
	free(list->named);
	free(list->at);
	*list = (struct inputs){0};
}

static int
refuse(const char *name, const char *why)
{
	trouble("%s: %s", name, why);
	return STATUS_TROUBLE;
}

static int
read_note(const struct input *item, int fd, input_each *each, void *arg)
{
	struct input_note note = {.fd = fd,
	    .name = item->path,
	    .path = item->kind == INPUT_STDIN ? NULL : item->path};

	if (fstat(fd, &note.was) != 0)
		return refuse(item->path, strerror(errno));
	if (item->folder && !S_ISREG(note.was.st_mode))
		return refuse(item->path, no_file);
	return each(arg, &note);
}

/*
 * What was found without links on its way is read without: somebody may have
 * put one there since.
 */
static int
open_walked(const struct input *item)
{
	const struct input_named *folder = item->folder;
	const char *below = item->real
				? item->real + folder_len(folder->real) + 1
				: item->path + folder_len(folder->path) + 1;
	int top = open(folder->path, O_PATH | O_DIRECTORY | O_CLOEXEC);
	int fd = top < 0 ? -1 : file_open_below(top, below), error = errno;

	if (top >= 0)
		close(top);
	errno = error;
	return fd;
}

static int
read_file(const struct input *item, input_each *each, void *arg)
{
	int fd = item->folder ? open_walked(item) : file_open(item->path);
	int status;

	if (fd < 0 && item->folder && (errno == ELOOP || errno == ENOTDIR))
		return refuse(item->path, now_a_link);
	if (fd < 0)
		return refuse(item->path, file_error(errno));
	status = read_note(item, fd, each, arg);
	close(fd);
	return status;
}

/* At a terminal nothing would show that it waits, and for what. */
static int
read_standard(const struct input *item, input_each *each, void *arg)
{
	if (isatty(STDIN_FILENO))
		trouble("the note is read from the keyboard; Ctrl-D on a line "
			"of its own ends it");
	return read_note(item, STDIN_FILENO, each, arg);
}

int
inputs_read(const struct input *item, input_each *each, void *arg)
{
	switch (item->kind) {
	case INPUT_FILE:
		return read_file(item, each, arg);
	case INPUT_STDIN:
		return read_standard(item, each, arg);
	case INPUT_REFUSED:
		break;
	}
	return refuse(item->path, item->why);
}

int
inputs_kept(const struct input_note *note)
{
	if (file_kept(note->fd, &note->was))
		return STATUS_CLEAN;
	return refuse(note->name,
	    "somebody changed the file while it was read, so what was told of "
	    "it may be wrong; run the command once more");
}
