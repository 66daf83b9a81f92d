/*
 * The notes that a command is given: files, folders, standard input. One bad
 * file does not keep the others from being read.
 */
#ifndef CMD_INPUTS_H
#define CMD_INPUTS_H

struct options;

/*
 * Called with each note: an open descriptor, its name for findings and rows,
 * and its path (NULL for standard input). Returns an exit status.
 */
typedef int input_note(void *arg, int fd, const char *name, const char *path);

/*
 * Calls EACH for every note in order: folders in byte order of path, hidden
 * names and linked folders passed over. Returns the greatest status.
 */
int inputs_each(const struct options *options, input_note *each, void *arg);

#endif
