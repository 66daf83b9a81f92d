#include "cmd/command.h"

#include <string.h>

static bool
tidy_writes(const struct options *options)
{
	return options->in_place;
}

static bool
progress_writes(const struct options *options)
{
	return options->plot;
}

const struct command commands[] = {
    {"check", "[FILE...]", "say what is wrong or doubtful in notes", cmd_check,
	NULL},
    {"summary", "[FILE...]", "lay sessions out, both sides side by side",
	cmd_summary, NULL},
    {"convert", "--to csv [FILE...]", "one row a reading, for spreadsheets",
	cmd_convert, NULL},
    {"tidy", "[FILE...]", "align columns and make the spelling uniform",
	cmd_tidy, tidy_writes},
    {"progress", "[FILE...]", "tell the change from session to session",
	cmd_progress, progress_writes},
    {"guide", "JOINT MOTION", "say how a motion is measured", cmd_guide, NULL},
    {"blank", "JOINT...", "write an empty note for these joints to fill in",
	cmd_blank, NULL},
    {"sources", "[KEY]", "list where the figures come from", cmd_sources, NULL},
    {"rules", "[RULE]", "list the rules, or explain one", cmd_rules, NULL},
    {"language-server", "", "serve an editor over standard input and output",
	cmd_language_server, NULL},
    {NULL, NULL, NULL, NULL, NULL},
};

const struct command *
command_find(const char *name)
{
	for (const struct command *c = commands; c->name; c++)
		if (strcmp(c->name, name) == 0)
			return c;
	return NULL;
}
