/*
 * Completion scripts for shells, made from the command and option tables, the
 * rules and the vocabulary: no list of them is kept elsewhere.
 */
#ifndef CMD_COMPLETION_H
#define CMD_COMPLETION_H

/*
 * Prints the script of SHELL (bash, zsh or fish) to standard output. Returns
 * an exit status: 2, after saying so, where SHELL is NULL or none of them.
 */
int completion_print(const char *shell);

#endif
