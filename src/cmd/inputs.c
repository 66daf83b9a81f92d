#include "cmd/inputs.h"

#include <errno.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "cmd/command.h"
#include "cmd/folder.h"
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

static const char other_now[] =
    "since the folder was looked through, something else was put in the place "
    "of this file or of a folder on the way to it, such as a link, so it was "
    "not read; look what is there, then run the command once more";

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

/* The length of FOLDER without the slashes at its end. */
static size_t
folder_len(const char *folder)
{
	size_t len = strlen(folder);

	while (len > 0 && folder[len - 1] == '/')
		len--;
	return len;
}

/* The first LEN bytes of PATH and TAIL. The caller frees it. */
static char *
join(const char *path, size_t len, const char *tail)
{
	size_t more = strlen(tail);
	char *joined = mem_resize(NULL, len + more + 1, 1);

	memcpy(joined, path, len);
	memcpy(joined + len, tail, more + 1);
	return joined;
}

/* The way from ROOT to PATH, which was found below it. */
static const char *
below(const struct input_root *root, const char *path)
{
	return path + folder_len(root->path) + 1;
}

/* REAL is where a link leads, else NULL; it is copied. */
static void
add_walked(struct inputs *list, const struct input_root *root, const char *path,
    const char *real, const struct stat *st)
{
	struct input *item;

	if (!S_ISREG(st->st_mode)) {
		add_refused(list, path, no_file);
		return;
	}
	item = add_file(list, path, st);
	item->root = root;
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
static const struct input_root *
root_of(struct inputs *list, const char *real)
{
	for (size_t i = 0; i < list->options->file_count; i++) {
		struct input_root *root = &list->roots[i];

		if (!S_ISDIR(root->st.st_mode))
			continue;
		if (!root->real)
			root->real = realpath(root->path, NULL);
		if (root->real && is_below(real, root->real))
			return root;
	}
	return NULL;
}

/* A link in a folder, called like a note; one to a folder is passed over. */
static void
add_link(struct inputs *list, const char *path)
{
	char *real = realpath(path, NULL);
	const struct input_root *root;
	struct stat st;

	if (!real || stat(real, &st) != 0)
		add_refused(list, path, strerror(errno));
	else if (S_ISDIR(st.st_mode))
		;
	else if ((root = root_of(list, real)))
		add_walked(list, root, path, real, &st);
	else
		add_refused(list, path, leads_out);
	free(real);
}

static void walk_folder(
    struct inputs *list, const struct input_root *root, const char *folder);

static void
walk_entry(struct inputs *list, const struct input_root *root, const char *path,
    const struct folder_entry *entry)
{
	if (entry->error)
		add_refused(list, path, strerror(entry->error));
	else if (S_ISDIR(entry->st.st_mode))
		walk_folder(list, root, path);
	else if (S_ISLNK(entry->st.st_mode))
		add_link(list, path);
	else
		add_walked(list, root, path, NULL, &entry->st);
}

/* FOLDER ends in a slash. */
static void
walk_folder(
    struct inputs *list, const struct input_root *root, const char *folder)
{
	struct folder_entries entries = {0};
	int error = folder_read(&entries, root->path, below(root, folder));

	if (error) {
		char *path = join(folder, folder_len(folder), "");

		add_refused(list, path, strerror(error));
		free(path);
	}
	for (size_t i = 0; i < entries.len; i++) {
		char *path = join(folder, strlen(folder), entries.at[i].name);

		walk_entry(list, root, path, &entries.at[i]);
		free(path);
	}
	folder_free(&entries);
}

static void
walk_root(struct inputs *list, const struct input_root *root)
{
	char *folder = join(root->path, folder_len(root->path), "/");
	size_t before = list->len;

	walk_folder(list, root, folder);
	if (list->len == before)
		add_refused(list, root->path, "no .range file in this folder");
	free(folder);
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
add_root(struct inputs *list, const struct input_root *root)
{
	if (strcmp(root->path, "-") == 0)
		add_stdin(list);
	else if (root->error)
		add_refused(list, root->path, strerror(root->error));
	else if (S_ISDIR(root->st.st_mode))
		walk_root(list, root);
	else if (list->options->in_place && !S_ISREG(root->st.st_mode))
		add_refused(list, root->path, no_file);
	else
		add_file(list, root->path, &root->st);
}

static struct input_root
look_at(const char *path)
{
	struct input_root root = {.path = path};

	if (strcmp(path, "-") != 0 && stat(path, &root.st) != 0)
		root.error = errno;
	return root;
}

/* All are looked at first, since a link in one may lead to another. */
void
inputs_list(const struct options *options, struct inputs *list)
{
	size_t count = options->file_count;

	fstat(STDOUT_FILENO, &list->written[0]);
	fstat(STDERR_FILENO, &list->written[1]);
	list->options = options;
	list->roots = mem_zero(count * sizeof(*list->roots));
	for (size_t i = 0; i < count; i++)
		list->roots[i] = look_at(options->files[i]);
	for (size_t i = 0; i < count; i++)
		add_root(list, &list->roots[i]);
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
		free(list->roots[i].real);
	free(list->roots);
	free(list->at);
	*list = (struct inputs){0};
}

static int
refuse(const char *name, const char *why)
{
	trouble("%s: %s", name, why);
	return STATUS_TROUBLE;
}

/* AT is where the note was found in a folder, else NULL. */
static int
read_note(const struct input *item, int fd, const struct file_at *at,
    input_each *each, void *arg)
{
	struct input_note note = {.fd = fd,
	    .name = item->path,
	    .path = item->kind == INPUT_STDIN ? NULL : item->path,
	    .at = at};

	if (fstat(fd, &note.was) != 0)
		return refuse(item->path, strerror(errno));
	return each(arg, &note);
}

static int
read_file(const struct input *item, input_each *each, void *arg)
{
	int fd = file_open(item->path), status;

	if (fd < 0)
		return refuse(item->path, file_error(errno));
	status = read_note(item, fd, NULL, each, arg);
	close(fd);
	return status;
}

static int
refuse_walked(const struct input *item)
{
	bool other = errno == ELOOP || errno == ENOTDIR || errno == EINVAL;

	return refuse(item->path, other ? other_now : strerror(errno));
}

/*
 * What was found without links on its way is read without: somebody may have
 * put one there since.
 */
static int
read_walked(const struct input *item, input_each *each, void *arg)
{
	const struct input_root *root = item->root;
	const char *way = item->real ? item->real + folder_len(root->real) + 1
				     : below(root, item->path);
	struct file_at at;
	int fd, status;

	if (file_below(&at, root->path, way) != 0)
		return refuse_walked(item);
	fd = file_open_at(&at);
	status =
	    fd < 0 ? refuse_walked(item) : read_note(item, fd, &at, each, arg);
	if (fd >= 0)
		close(fd);
	file_leave(&at);
	return status;
}

/* At a terminal nothing would show that it waits, and for what. */
static int
read_standard(const struct input *item, input_each *each, void *arg)
{
	if (isatty(STDIN_FILENO))
		trouble("the note is read from the keyboard; Ctrl-D on a line "
			"of its own ends it");
	return read_note(item, STDIN_FILENO, NULL, each, arg);
}

int
inputs_read(const struct input *item, input_each *each, void *arg)
{
	switch (item->kind) {
	case INPUT_FILE:
		return item->root ? read_walked(item, each, arg)
				  : read_file(item, each, arg);
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
