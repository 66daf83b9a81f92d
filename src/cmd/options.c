/* The option table and what reads it. */
#include <getopt.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "cmd/command.h"
#include "cmd/output.h"
#include "text/buffer.h"
#include "text/date.h"
#include "text/mem.h"

enum { TENTHS = 10, DEFAULT_TOLERANCE = 5 * TENTHS, MOST_TOLERANCE = 90 };
enum { MOST_JOBS = 256 };

/* Above every byte, so that no option is taken for a letter. */
enum { FIRST_OPTION = 257 };

/* Taken behind any command, though it is the program's: a habit of many. */
enum { OPTION_VERSION = FIRST_OPTION - 1 };

enum { LAST_DAY = 2932896 /* 9999-12-31: later ones cannot be written */ };

enum option_id {
	OPT_STDIN_NAME,
	OPT_TODAY,
	OPT_TOLERANCE,
	OPT_LEVEL,
	OPT_FORMAT_CHECK,
	OPT_FORMAT_GUIDE,
	OPT_FORMAT,
	OPT_TO,
	OPT_ROWS,
	OPT_SPELLING,
	OPT_REQUIRE,
	OPT_SOURCE,
	OPT_REFERENCE,
	OPT_COLOR,
	OPT_PLOT,
	OPT_JOBS,
	OPT_BRIEF,
	OPT_WATCH,
	OPT_IN_PLACE,
	OPT_VERIFY,
	OPT_DIFF,
	OPT_HELP,
	OPT_COUNT
};

/* COMMANDS are those that take it, each between two blanks; "*" is all. */
static const struct {
	const char *name;
	const char *argument; /* NULL: takes none */
	const char *choices;  /* allowed words, each between two blanks */
	const char *commands;
	const char *help;
} table[OPT_COUNT] = {
    [OPT_STDIN_NAME] = {"stdin-name", "NAME", NULL,
	" check summary convert tidy progress ",
	"what to call standard input in findings and rows"},
    [OPT_TODAY] = {"today", "DATE", NULL,
	" check summary convert progress blank language-server ",
	"take DATE for today"},
    [OPT_TOLERANCE] = {"tolerance", "N", NULL,
	" check summary convert language-server ",
	"degrees that measuring itself makes (5; 0 for teaching)"},
    [OPT_LEVEL] = {"level", "RULE=LEVEL", NULL, " check language-server ",
	"report RULE as error, warning, note, or not at all (off)"},
    [OPT_FORMAT_CHECK] = {"format", "FORMAT", " text json sarif ", " check ",
	"text (the default), json, sarif"},
    [OPT_FORMAT_GUIDE] = {"format", "FORMAT", " text json ", " guide ",
	"text (the default), json"},
    [OPT_FORMAT] = {"format", "FORMAT", " text csv json ",
	" summary progress sources ", "text (the default), csv, json"},
    [OPT_TO] = {"to", "FORMAT", " csv ", " convert ", "csv"},
    [OPT_ROWS] = {"rows", "WHAT", " reading trial ", " convert ",
	"one row a reading (the default), or a trial"},
    [OPT_SPELLING] = {"spelling", "HOW", " long short keep ", " tidy ",
	"long (the default), short, keep"},
    [OPT_REQUIRE] = {"require", "WORD,...", NULL, " blank ",
	"what the note shall ask for: active, passive, opposite ..."},
    [OPT_SOURCE] = {"source", "SOURCE", NULL, " summary ",
	"take usual values from this source"},
    [OPT_REFERENCE] = {"reference", "FILE", NULL, " summary ",
	"usual values of your own, before the built-in ones"},
    [OPT_COLOR] = {"color", "WHEN", " auto always never ",
	" check summary progress guide ",
	"auto (the default: on a terminal), always, never"},
    [OPT_PLOT] = {"plot", "FILE.svg", NULL, " progress ",
	"draw it as well, a chart a motion"},
    [OPT_JOBS] = {"jobs", "N", NULL, " check summary convert tidy ",
	"work on N parts of the files at once (one a processor)"},
    [OPT_BRIEF] = {"brief", NULL, NULL, " check ", "one line a finding"},
    [OPT_WATCH] = {"watch", NULL, NULL, " check ",
	"check again whenever a note is saved, until Ctrl-C"},
    [OPT_IN_PLACE] = {"in-place", NULL, NULL, " tidy ",
	"write the files themselves"},
    [OPT_VERIFY] = {"verify", NULL, NULL, " tidy ",
	"change nothing; exit 1 where something would change"},
    [OPT_DIFF] = {"diff", NULL, NULL, " tidy ", "show what would change"},
    [OPT_HELP] = {"help", NULL, NULL, "*", "show this help"},
};

static bool
takes(const struct command *command, int id)
{
	char word[32];

	if (strcmp(table[id].commands, "*") == 0)
		return true;
	snprintf(word, sizeof(word), " %s ", command->name);
	return strstr(table[id].commands, word);
}

bool
options_of(const struct command *command, size_t n, struct option_info *info)
{
	for (int id = 0; id < OPT_COUNT; id++)
		if (takes(command, id) && n-- == 0) {
			*info = (struct option_info){table[id].name,
			    table[id].argument, table[id].choices,
			    table[id].help};
			return true;
		}
	return false;
}

static bool
is_choice(const char *choices, const char *word)
{
	char padded[32];

	if (strlen(word) + 3 > sizeof(padded) || strchr(word, ' '))
		return false;
	snprintf(padded, sizeof(padded), " %s ", word);
	return strstr(choices, padded);
}

static int
wrong(
    const char *command, const char *option, const char *word, const char *why)
{
	trouble("%s: --%s '%s': %s\nTry 'rangeline %s --help'.", command,
	    option, word, why, command);
	return -1;
}

/*
 * N, or N.N: tenths of a degree. -1 where it is no such number; strtod() would
 * take 0x10 and 1e1 too.
 */
static int32_t
read_tolerance(const char *word)
{
	static const char digits[] = "0123456789";
	size_t whole = strspn(word, digits), rest = 0;
	double n;

	if (word[whole] == '.')
		rest = strspn(word + whole + 1, digits) + 1;
	if (whole == 0 || rest == 1 || word[whole + rest] != '\0')
		return -1;
	n = strtod(word, NULL);
	if (!(n <= MOST_TOLERANCE))
		return -1;
	return (int32_t)(n * TENTHS + 0.5);
}

/* From 1 to MOST_JOBS; 0 where it is no such number. */
static size_t
read_jobs(const char *word)
{
	size_t n = 0;

	for (; *word >= '0' && *word <= '9' && n <= MOST_JOBS; word++)
		n = n * 10 + (size_t)(*word - '0');
	return *word == '\0' && n <= MOST_JOBS ? n : 0;
}

/* The option table has let these words alone through. */
static enum format
read_format(const char *word)
{
	return strcmp(word, "json") == 0    ? FORMAT_JSON
	       : strcmp(word, "csv") == 0   ? FORMAT_CSV
	       : strcmp(word, "sarif") == 0 ? FORMAT_SARIF
					    : FORMAT_TEXT;
}

/* RULE=LEVEL. Returns why it cannot be, or NULL. */
static const char *
set_level(struct options *options, const char *word)
{
	const char *equals = strchr(word, '=');
	int rule;

	if (!equals)
		return "write RULE=error, warning, note or off";
	rule = rule_find(word, (size_t)(equals - word));
	if (rule < 0)
		return "there is no such rule; 'rangeline rules' lists them";
	if (rule_table[rule].group == RULES_READING)
		return "what cannot be read is always an error";
	for (int level = LEVEL_OFF; level <= LEVEL_ERROR; level++)
		if (strcmp(equals + 1, level_name((enum level)level)) == 0) {
			options->levels[rule] = (enum level)level;
			return NULL;
		}
	return "a level is error, warning, note or off";
}

static int
set(struct options *o, const struct command *command, int id, const char *word)
{
	const char *name = table[id].name, *why = NULL;

	if (table[id].choices && !is_choice(table[id].choices, word))
		return wrong(command->name, name, word, table[id].help);
	switch ((enum option_id)id) {
	case OPT_STDIN_NAME:
		o->stdin_name = word;
		break;
	case OPT_TODAY:
		if (date_parse(word, strlen(word), &o->today) != 0)
			why = "a day is written 2026-05-04";
		o->today_said = true;
		break;
	case OPT_TOLERANCE:
		o->tolerance = read_tolerance(word);
		if (o->tolerance < 0)
			why = "a number of degrees from 0 to 90, such as 5 "
			      "or 2.5";
		break;
	case OPT_LEVEL:
		why = set_level(o, word);
		break;
	case OPT_FORMAT_CHECK:
	case OPT_FORMAT_GUIDE:
	case OPT_FORMAT:
		o->format = read_format(word);
		break;
	case OPT_TO:
		o->to = word;
		break;
	case OPT_ROWS:
		o->rows = word;
		break;
	case OPT_SPELLING:
		o->spelling = word;
		break;
	case OPT_REQUIRE:
		o->require = word;
		break;
	case OPT_SOURCE:
		o->source = word;
		break;
	case OPT_REFERENCE:
		o->reference = word;
		break;
	case OPT_COLOR:
		o->colour = word;
		break;
	case OPT_PLOT:
		o->plot = word;
		break;
	case OPT_JOBS:
		o->jobs = read_jobs(word);
		if (o->jobs == 0)
			why = "a whole number from 1 to 256";
		break;
	case OPT_BRIEF:
		o->brief = true;
		break;
	case OPT_WATCH:
		o->watch = true;
		break;
	case OPT_IN_PLACE:
		o->in_place = true;
		break;
	case OPT_VERIFY:
		o->verify = true;
		break;
	case OPT_DIFF:
		o->diff = true;
		break;
	case OPT_HELP:
		o->help = true;
		break;
	case OPT_COUNT:
		break;
	}
	return why ? wrong(command->name, name, word, why) : 0;
}

int32_t
options_day_of_clock(void)
{
	const char *epoch = getenv("SOURCE_DATE_EPOCH");

	if (epoch && *epoch) {
		char *end;
		long long seconds = strtoll(epoch, &end, 10);

		if (*end == '\0' && seconds >= 0 && seconds / 86400 <= LAST_DAY)
			return (int32_t)(seconds / 86400);
	}
	return date_today();
}

static void
set_defaults(struct options *o)
{
	*o = (struct options){.today = options_day_of_clock(),
	    .tolerance = DEFAULT_TOLERANCE,
	    .colour = "auto"};
	for (int i = 0; i < RULE_COUNT; i++)
		o->levels[i] = LEVEL_UNSET;
}

int
options_parse(
    struct options *o, const struct command *command, int argc, char **argv)
{
	struct option longs[OPT_COUNT + 2] = {{0}};
	int n = 0, c;

	set_defaults(o);
	for (int id = 0; id < OPT_COUNT; id++)
		if (takes(command, id)) {
			longs[n].name = table[id].name;
			longs[n].has_arg = table[id].argument
					       ? required_argument
					       : no_argument;
			longs[n++].val = FIRST_OPTION + id;
		}
	longs[n].name = "version";
	longs[n].val = OPTION_VERSION;
	opterr = 0;
	optind = 1;
	while ((c = getopt_long(argc, argv, ":", longs, NULL)) != -1) {
		if (c >= FIRST_OPTION) {
			if (set(o, command, c - FIRST_OPTION, optarg) != 0)
				return -1;
			continue;
		}
		if (c == OPTION_VERSION) {
			o->version = true;
			continue;
		}
		trouble(c == ':' ? "%s: '%s' needs a word behind it\n"
				   "Try 'rangeline %s --help'."
				 : "%s: '%s' is no option of it\n"
				   "Try 'rangeline %s --help'.",
		    command->name, argv[optind - 1], command->name);
		return -1;
	}
	o->files = (const char *const *)argv + optind;
	o->file_count = (size_t)(argc - optind);
	return 0;
}

bool
options_colour(const struct options *options)
{
	const char *no = getenv("NO_COLOR");
	const char *term = getenv("TERM");
	const char *emacs = getenv("INSIDE_EMACS"); /* M-x compile */

	if (strcmp(options->colour, "auto") != 0)
		return strcmp(options->colour, "always") == 0;
	return isatty(STDOUT_FILENO) && !(no && *no) &&
	       !(term && strcmp(term, "dumb") == 0) &&
	       !(emacs && strstr(emacs, ",compile"));
}

static void
help_options(struct buffer *out, const struct command *command)
{
	for (int id = 0; id < OPT_COUNT; id++) {
		char left[40];

		if (!takes(command, id))
			continue;
		snprintf(left, sizeof(left), "--%s%s%s", table[id].name,
		    table[id].argument ? "=" : "",
		    table[id].argument ? table[id].argument : "");
		buffer_printf(out, "  %-20s  %s\n", left, table[id].help);
	}
}

int
help_print(const struct command *command)
{
	struct buffer out = {0};

	if (command) {
		buffer_printf(&out, "Usage: rangeline %s [OPTION...] %s\n",
		    command->name, command->arguments);
		buffer_printf(&out, "To %s.\n\n", command->does);
		help_options(&out, command);
	} else {
		buffer_puts(&out,
		    "Usage: rangeline COMMAND [OPTION...] [FILE...]\n"
		    "Joint range of motion, one reading to a line.\n\n");
		for (const struct command *c = commands; c->name; c++)
			buffer_printf(&out, "  %-16s  %s\n", c->name, c->does);
		buffer_puts(&out,
		    "\nNo FILE, or -, is standard input; a folder is every "
		    ".range file below it.\n"
		    "'rangeline COMMAND --help' lists the options of one.\n"
		    "--completion=bash, zsh or fish prints what completes it "
		    "there.\n"
		    "Exit status: 0 nothing to report, 1 something found or "
		    "unreadable, 2 trouble.\n\n"
		    "This is no medical device. Licensed practice and local "
		    "protocols decide.\n");
	}
	output_write(&out);
	buffer_free(&out);
	return STATUS_CLEAN;
}
