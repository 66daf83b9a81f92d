/*
 * The notes that a command is given: files, folders, standard input. They are
 * listed first and read one by one then. One bad file does not keep the
 * others from being read.
 */
#ifndef CMD_INPUTS_H
#define CMD_INPUTS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <sys/types.h>

struct options;

/*
 * Called with each note: an open descriptor, its name for findings and rows,
 * and its path (NULL for standard input). Returns an exit status.
 */
typedef int input_note(void *arg, int fd, const char *name, const char *path);

enum input_kind {
	INPUT_FILE,
	INPUT_STDIN,
	INPUT_TROUBLE, /* what could not be walked */
	INPUT_OUTPUT,  /* where the output goes */
	INPUT_EMPTY_FOLDER
};

struct input {
	enum input_kind kind;
	int error;  /* errno of INPUT_TROUBLE */
	char *path; /* of INPUT_STDIN: its name */
	/* The folder whose walk found it, a path without links; or NULL. */
	const char *root;
	bool waits;    /* until somebody writes, where it is a pipe */
	uint64_t size; /* in bytes as far as known */
	dev_t device;  /* 0 where there is no such file */
	ino_t number;
};

struct inputs {
	struct input *at;
	size_t len;
	size_t cap;
	struct {
		char **at;
		size_t len, cap;
	} roots;       /* of all items */
	bool in_order; /* holds what can be read but once, such as a pipe */
};

/*
 * Fills LIST, which is zeroed, in order: folders in byte order of path, hidden
 * names and linked folders passed over. What cannot be walked has its place
 * in the list too. The caller frees it with inputs_free().
 */
void inputs_list(const struct options *options, struct inputs *list);
void inputs_free(struct inputs *list);

/*
 * Calls EACH for one item, or says why not. What was found in a folder must be
 * a regular file in that folder, also where a link leads to it. A file that
 * somebody changes meanwhile is trouble. Returns an exit status.
 */
int inputs_read(const struct input *item, input_note *each, void *arg);

/* Is a file of this name read where it stands in a folder? */
bool inputs_is_note(const char *name);

#endif
