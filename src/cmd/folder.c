#include "cmd/folder.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "text/file.h"
#include "text/mem.h"

bool
folder_is_note(const char *name)
{
	static const char ending[] = ".range";
	size_t len = strlen(name), tail = sizeof(ending) - 1;

	return len > tail && strcmp(name + len - tail, ending) == 0;
}

/* What is no note and no folder may come and go, and be closed to us. */
static bool
may_matter(const struct dirent *found)
{
	return found->d_name[0] != '.' &&
	       (found->d_type == DT_DIR || found->d_type == DT_UNKNOWN ||
		   folder_is_note(found->d_name));
}

static void
add(struct folder_entries *entries, int folder, const char *name)
{
	struct folder_entry entry = {0};
	size_t len = strlen(name);
	bool is_folder;

	if (fstatat(folder, name, &entry.st, AT_SYMLINK_NOFOLLOW) != 0)
		entry.error = errno;
	is_folder = !entry.error && S_ISDIR(entry.st.st_mode);
	if (!folder_is_note(name) && !is_folder &&
	    (!entry.error || entry.error == ENOENT))
		return;
	entry.name = mem_resize(NULL, len + 2, 1);
	memcpy(entry.name, name, len);
	if (is_folder)
		entry.name[len++] = '/';
	entry.name[len] = '\0';
	*MEM_PUSH(entries) = entry;
}

/* Opens it for reading; NULL with errno set. */
static DIR *
open_below(const char *root, const char *below)
{
	struct file_at at;
	DIR *dir;
	int fd;

	if (file_below(&at, root, below) != 0)
		return NULL;
	fd = openat(at.folder, ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
	file_leave(&at);
	if (fd < 0)
		return NULL;
	dir = fdopendir(fd);
	if (!dir)
		close(fd);
	return dir;
}

static int
by_name(const void *a, const void *b)
{
	const struct folder_entry *x = a, *y = b;

	return strcmp(x->name, y->name);
}

int
folder_read(struct folder_entries *entries, const char *root, const char *below)
{
	DIR *dir = open_below(root, below);
	struct dirent *found;
	int error;

	if (!dir)
		return errno;
	for (errno = 0; (found = readdir(dir)); errno = 0)
		if (may_matter(found))
			add(entries, dirfd(dir), found->d_name);
	error = errno;
	closedir(dir);
	if (entries->len > 1)
		qsort(entries->at, entries->len, sizeof(*entries->at), by_name);
	return error;
}

void
folder_free(struct folder_entries *entries)
{
	for (size_t i = 0; i < entries->len; i++)
		free(entries->at[i].name);
	free(entries->at);
	*entries = (struct folder_entries){0};
}
