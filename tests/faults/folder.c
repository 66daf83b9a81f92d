/* Files of one run: see folder.h. What fails here ends the test. */
#include "folder.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static _Noreturn void
broken(const char *what)
{
	perror(what);
	exit(2);
}

struct bytes
folder_read(const char *path)
{
	struct bytes bytes = {0};
	FILE *file = fopen(path, "rb");
	long len;

	if (!file)
		return bytes;
	if (fseek(file, 0, SEEK_END) != 0 || (len = ftell(file)) < 0)
		broken(path);
	rewind(file);
	bytes.len = (size_t)len;
	bytes.data = calloc(1, bytes.len + 1);
	if (!bytes.data || fread(bytes.data, 1, bytes.len, file) != bytes.len)
		broken(path);
	fclose(file);
	return bytes;
}

void
folder_write(const char *path, const struct bytes *bytes)
{
	FILE *file = fopen(path, "wb");

	if (!file || fwrite(bytes->data, 1, bytes->len, file) != bytes->len ||
	    fclose(file) != 0)
		broken(path);
}

bool
folder_same(const struct bytes *a, const struct bytes *b)
{
	return a->data && b->data && a->len == b->len &&
	       memcmp(a->data, b->data, a->len) == 0;
}

static bool
is_dots(const char *name)
{
	return strcmp(name, ".") == 0 || strcmp(name, "..") == 0;
}

int
folder_names(const char *folder)
{
	DIR *dir = opendir(folder);
	struct dirent *entry;
	int n = 0;

	if (!dir)
		broken(folder);
	while ((entry = readdir(dir)))
		n += !is_dots(entry->d_name);
	closedir(dir);
	return n;
}

void
folder_clear(const char *folder, const char *keep)
{
	DIR *dir = opendir(folder);
	struct dirent *entry;

	if (!dir)
		broken(folder);
	while ((entry = readdir(dir)))
		if (!is_dots(entry->d_name) &&
		    (!keep || strcmp(entry->d_name, keep) != 0))
			unlinkat(dirfd(dir), entry->d_name, 0);
	closedir(dir);
}

const char *
folder_make(void)
{
	static char path[4096];
	const char *base = getenv("TMPDIR");

	snprintf(path, sizeof(path), "%s/faults-XXXXXX", base ? base : "/tmp");
	if (!mkdtemp(path))
		broken(path);
	return path;
}
