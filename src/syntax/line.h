/* One line of a note, from bytes to records. Private to src/syntax. */
#ifndef SYNTAX_LINE_H
#define SYNTAX_LINE_H

#include <stdbool.h>

struct parse;

/*
 * Reads the line at hand, whose tokens have been cut: its readings go to the
 * session, its headers where they hold, what is wrong to the sink. False where
 * something of it was not read.
 */
bool line_read(struct parse *ps);

#endif
