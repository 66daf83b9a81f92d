/*
 * check --watch: the notes are checked again whenever one of them is saved.
 */
#ifndef CMD_WATCH_H
#define CMD_WATCH_H

struct options;

/*
 * Calls EACH at once, and again after each save of a file of OPTIONS or of a
 * note below one of its folders, until SIGINT or SIGTERM. Returns the last
 * status, or 2 where it cannot watch.
 */
int watch(
    const struct options *options, int (*each)(const struct options *options));

#endif
