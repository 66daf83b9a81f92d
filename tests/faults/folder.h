/*
 * A folder of its own for one run of the program: a note in it, the run, and
 * what is found there afterwards.
 */
#ifndef FAULTS_FOLDER_H
#define FAULTS_FOLDER_H

#include <stdbool.h>
#include <stddef.h>
#include <sys/types.h>

/* Bytes, NUL-terminated behind len. */
struct bytes {
	char *data;
	size_t len;
};

/* The whole of a file; data is NULL where it cannot be read. */
struct bytes folder_read(const char *path);

/* Gives PATH these bytes. Ends the program where that fails. */
void folder_write(const char *path, const struct bytes *bytes);

bool folder_same(const struct bytes *a, const struct bytes *b);

/* The number of names in FOLDER, . and .. not counted. */
int folder_names(const char *folder);

/* Removes every file in FOLDER but `keep` (may be NULL). */
void folder_clear(const char *folder, const char *keep);

/* A new, empty folder below the one for temporary files; its path. */
const char *folder_make(void);

#endif
