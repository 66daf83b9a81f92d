/*
 * Work on many inputs at a time. Standard output, standard error and the exit
 * status are the same for any number of jobs, byte for byte.
 */
#ifndef CMD_JOBS_H
#define CMD_JOBS_H

#include <stddef.h>
#include <stdint.h>

#include "cmd/inputs.h"

struct options;

struct jobs_work {
	input_each *each;
	void *arg;

	/*
	 * Writes what is left to be written of a part and returns its status.
	 * Sets bits of its own in *TOLD, for whoever ends the whole. Called
	 * once, or once in the process of each part. NULL where all inputs
	 * must be seen by this process.
	 */
	int (*done)(void *arg, uint64_t *told);

	/*
	 * Called before parts are given to other processes: writes what stands
	 * before all of them. Returns how many bytes, such as an empty line,
	 * each part begins with that the first must not. May be NULL.
	 */
	size_t (*divide)(void *arg);
};

/*
 * Reads all inputs. Returns the greatest status; adds what all parts told to
 * *TOLD, unless that is NULL.
 */
int jobs_each(const struct options *options, const struct jobs_work *work,
    uint64_t *told);

#endif
