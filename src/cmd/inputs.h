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
#include <sys/stat.h>
#include <sys/types.h>

struct file_at;
struct options;

/* A note that has been opened. */
struct input_note {
	int fd;
	const char *name;	  /* for findings and rows */
	const char *path;	  /* NULL for standard input */
	const struct file_at *at; /* NULL unless found in a folder */
	struct stat was;	  /* before anything was read */
};

/* Called with each note. Returns an exit status. */
typedef int input_each(void *arg, const struct input_note *note);

enum input_kind { INPUT_FILE, INPUT_STDIN, INPUT_REFUSED };

/* A path of the command line: a file, a folder, or - for standard input. */
struct input_root {
	const char *path;
	struct stat st;
	int error;  /* errno where there is no such file, else 0 */
	char *real; /* a folder's path without links, once a link asks for it */
};

struct input {
	enum input_kind kind;
	char *path; /* of INPUT_STDIN: its name */
	char *why;  /* of INPUT_REFUSED */
	char *real; /* where a link in a folder leads; else NULL */
	const struct input_root *root; /* the folder below which it stands, or
					  NULL where it is named itself */
	uint64_t size;		       /* in bytes as far as known */
	dev_t device;		       /* 0 where there is no such file */
	ino_t number;
};

struct inputs {
	struct input *at;
	size_t len;
	size_t cap;
	bool in_order; /* holds what can be read but once, such as a pipe */
	struct input_root *roots; /* as many as the options have files */
	const struct options *options;
	struct stat written[2]; /* standard output and error */
};

/*
 * Fills LIST, which is zeroed, in order: folders in byte order of path, hidden
 * names and linked folders passed over. Of a folder only regular files are
 * read, also by a link, but not by one that leads out of all that are named.
 * What cannot or must not be read has its place in the list too; only a note
 * into which the output goes ends the program. The caller frees the list with
 * inputs_free().
 */
void inputs_list(const struct options *options, struct inputs *list);
void inputs_free(struct inputs *list);

/* Calls EACH for one item, or says why not. Returns an exit status. */
int inputs_read(const struct input *item, input_each *each, void *arg);

/*
 * To be asked when NOTE has been read to its end: STATUS_TROUBLE, having said
 * so, where somebody changed it meanwhile, for then the text that was read may
 * never have been in it. Else STATUS_CLEAN.
 */
int inputs_kept(const struct input_note *note);

#endif
