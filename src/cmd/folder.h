/* What stands in a folder that is walked for notes. */
#ifndef CMD_FOLDER_H
#define CMD_FOLDER_H

#include <stdbool.h>
#include <stddef.h>
#include <sys/stat.h>

/* A folder, or what is called like a note. */
struct folder_entry {
	char *name; /* a folder's ends in a slash, as in the paths below it */
	struct stat st;
	int error; /* errno where it cannot be looked at, else 0 */
};

struct folder_entries {
	struct folder_entry *at;
	size_t len, cap;
};

/*
 * Fills ENTRIES, which is zeroed, in byte order of the paths below, but for
 * hidden names: from the folder BELOW, to which no link leads on the way from
 * the folder ROOT; as for file_below(), BELOW is empty or ends in a slash.
 * Returns 0, or an errno where it could not be read to its end. The caller
 * frees them with folder_free() then too.
 */
int folder_read(
    struct folder_entries *entries, const char *root, const char *below);
void folder_free(struct folder_entries *entries);

/* Is a file of this name read where it stands in a folder? */
bool folder_is_note(const char *name);

#endif
