/*
 * A command that only reads gives up, before it reads the first note, what it
 * does not need: so even a fault that a note provokes can write no file,
 * start no program and reach no network.
 */
#ifndef CMD_CONFINE_H
#define CMD_CONFINE_H

/* What could be given up. */
enum {
	CONFINE_FILES = 1, /* changing files or folders, by Landlock */
	CONFINE_CALLS = 2, /* by a filter of system calls */
};

/*
 * Confines this process and those that it starts, for ever. Reading, and
 * writing to what is open already, stay. Returns the CONFINE_ bits of what the
 * system could do; a system that can do neither is no reason to stop.
 */
int confine(void);

#endif
