/*
 * Standard output and error of the commands. Where the output cannot be
 * written there is nothing more to do: the program says so and ends.
 */
#ifndef CMD_OUTPUT_H
#define CMD_OUTPUT_H

#include <stdbool.h>

struct buffer;

/* Prints `rangeline: ` and the message on standard error. */
void trouble(const char *format, ...) __attribute__((format(printf, 1, 2)));

/*
 * Writes BUF to standard output and empties it. Where that fails (a full
 * disk, a reader that went away) the program ends with status 2.
 */
void output_write(struct buffer *buf);

/*
 * The same for lines of a note as they stand: ON_SCREEN nothing is written
 * that a terminal would obey, elsewhere each byte. Ask isatty() before the
 * work is divided: the pipe of a job may lead to a terminal.
 */
void output_show(struct buffer *buf, bool on_screen);

/* As output_write(), but only once BUF holds much. */
void output_flush_some(struct buffer *buf);

/* Closes standard output. Returns 0, or 2 where the last bytes were lost. */
int output_close(void);

#endif
