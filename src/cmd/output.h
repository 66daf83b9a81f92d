/*
 * Standard output and error of the commands. Where the output cannot be
 * written there is nothing more to do: the program says so and ends.
 */
#ifndef CMD_OUTPUT_H
#define CMD_OUTPUT_H

struct buffer;

/* Prints `rangeline: ` and the message on standard error. */
void trouble(const char *format, ...) __attribute__((format(printf, 1, 2)));

/*
 * Writes BUF to standard output and empties it. Where that fails (a full
 * disk, a reader that went away) the program ends with status 2.
 */
void output_write(struct buffer *buf);

/*
 * The same for lines of a note as they stand: a file or pipe gets each byte, a
 * terminal nothing that it would obey.
 */
void output_show(struct buffer *buf);

/* As output_write(), but only once BUF holds much. */
void output_flush_some(struct buffer *buf);

/* Closes standard output. Returns 0, or 2 where the last bytes were lost. */
int output_close(void);

#endif
