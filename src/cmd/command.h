/*
 * The commands and their options: each is listed in one table, from which the
 * parsing, the help and the shell completions come.
 */
#ifndef CMD_COMMAND_H
#define CMD_COMMAND_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "diag/rule.h"

/* Exit statuses. */
enum {
	STATUS_CLEAN = 0,   /* nothing at level warning or error */
	STATUS_FOUND = 1,   /* at least one; something could not be read */
	STATUS_TROUBLE = 2, /* usage, unreadable file, full disk */
};

/* What --format asks for. */
enum format { FORMAT_TEXT, FORMAT_CSV, FORMAT_JSON, FORMAT_SARIF };

/* All that the options of any command can say. */
struct options {
	const char *const *files; /* count of them; none: standard input */
	size_t file_count;
	const char *stdin_name;
	int32_t today;
	bool today_said;	       /* by the option, not the clock */
	int32_t tolerance;	       /* tenths of a degree */
	enum level levels[RULE_COUNT]; /* LEVEL_UNSET: as it was made */
	enum format format;
	const char *to;
	const char *rows;
	const char *spelling;
	const char *require;
	const char *source;
	const char *reference;
	const char *plot;
	const char *colour;
	size_t jobs; /* 0: one a processor */
	bool brief;
	bool watch;
	bool in_place;
	bool verify;
	bool diff;
	bool help;
	bool version;
};

struct command {
	const char *name;
	const char *arguments;			   /* for the help */
	const char *does;			   /* one line */
	int (*run)(const struct options *options); /* gives an exit status */

	/* With which options it writes files; NULL: with none. */
	bool (*writes)(const struct options *options);
};

/* Ends with a row whose name is NULL. */
extern const struct command commands[];

const struct command *command_find(const char *name);

/*
 * Reads the words behind the command's name into *OPTIONS. ARGV is permuted.
 * Returns 0, or -1 after saying what is wrong on standard error.
 */
int options_parse(struct options *options, const struct command *command,
    int argc, char **argv);

/* An option as the help and the completions show it. */
struct option_info {
	const char *name;
	const char *argument; /* NULL: takes none */
	const char
	    *choices; /* allowed words, each between two blanks, or NULL */
	const char *help;
};

/* Option number N (from 0) of COMMAND; false behind the last. */
bool options_of(
    const struct command *command, size_t n, struct option_info *info);

/* Help of one command, or of the program (COMMAND NULL), to standard output. */
int help_print(const struct command *command);

/* Today: of SOURCE_DATE_EPOCH where it is set, else of the clock. */
int32_t options_day_of_clock(void);

/* Is standard output to be coloured? */
bool options_colour(const struct options *options);

int cmd_check(const struct options *options);
int cmd_summary(const struct options *options);
int cmd_convert(const struct options *options);
int cmd_tidy(const struct options *options);
int cmd_progress(const struct options *options);
int cmd_guide(const struct options *options);
int cmd_blank(const struct options *options);
int cmd_sources(const struct options *options);
int cmd_language_server(const struct options *options);
int cmd_rules(const struct options *options);

#endif
