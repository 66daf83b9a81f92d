/* The option table and what reads it. */
#include <getopt.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "cmd/command.h"
#include "cmd/folder.h"
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

static const char *
read_today(struct options *o, const char *word)
{
	o->today_said = true;
	return date_parse(word, strlen(word), &o->today) == 0
		   ? NULL
		   : "a day is written 2026-05-04";
}

/* N, or N.N: tenths of a degree. strtod() alone would take 0x10 and 1e1 too. */
static const char *
read_tolerance(struct options *o, const char *word)
{
	static const char digits[] = "0123456789";
	static const char why[] = "a number of degrees from 0 to 90, such as "
				  "5 or 2.5";
	size_t whole = strspn(word, digits), rest = 0;
	double n;

	if (word[whole] == '.')
		rest = strspn(word + whole + 1, digits) + 1;
	if (whole == 0 || rest == 1 || word[whole + rest] != '\0')
		return why;
	n = strtod(word, NULL);
	if (!(n <= MOST_TOLERANCE))
		return why;
	o->tolerance = (int32_t)(n * TENTHS + 0.5);
	return NULL;
}

static const char *
read_jobs(struct options *o, const char *word)
{
	size_t n = 0;

	for (; *word >= '0' && *word <= '9' && n <= MOST_JOBS; word++)
		n = n * 10 + (size_t)(*word - '0');
	if (*word != '\0' || n == 0 || n > MOST_JOBS)
		return "a whole number from 1 to 256";
	o->jobs = n;
	return NULL;
}

/* The choices of the table have let these words alone through. */
static const char *
read_format(struct options *o, const char *word)
{
	o->format = strcmp(word, "json") == 0	 ? FORMAT_JSON
		    : strcmp(word, "csv") == 0	 ? FORMAT_CSV
		    : strcmp(word, "sarif") == 0 ? FORMAT_SARIF
						 : FORMAT_TEXT;
	return NULL;
}

/* RULE=LEVEL */
static const char *
read_level(struct options *options, const char *word)
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

#define AT(name) offsetof(struct options, name)

/*
 * COMMANDS are those that take it, each between two blanks; "*" is all. What
 * comes behind it goes through READ, which returns why it cannot be, or NULL.
 * Where there is no READ, AT is the place in struct options: of the word, or,
 * where it takes none, of a bool.
 */
static const struct {
	const char *name;
	const char *argument; /* NULL: takes none */
	const char *choices;  /* allowed words, each between two blanks */
	const char *commands;
	const char *help;
	size_t at;
	const char *(*read)(struct options *options, const char *word);
} table[] = {
    {"stdin-name", "NAME", NULL, " check summary convert tidy progress ",
	"what to call standard input in findings and rows", AT(stdin_name),
	NULL},
    {"today", "DATE", NULL,
	" check summary convert progress blank language-server ",
	"take DATE for today", 0, read_today},
    {"tolerance", "N", NULL, " check summary convert language-server ",
	"degrees that measuring itself makes (5; 0 for teaching)", 0,
	read_tolerance},
    {"level", "RULE=LEVEL", NULL, " check language-server ",
	"report RULE as error, warning, note, or not at all (off)", 0,
	read_level},
    {"format", "FORMAT", " text json sarif ", " check ",
	"text (the default), json, sarif", 0, read_format},
    {"format", "FORMAT", " text json ", " guide ", "text (the default), json",
	0, read_format},
    {"format", "FORMAT", " text csv json ", " summary progress sources ",
	"text (the default), csv, json", 0, read_format},
    {"to", "FORMAT", " csv ", " convert ",
	"csv (JSON comes from check, summary and progress)", AT(to), NULL},
    {"rows", "WHAT", " reading trial ", " convert ",
	"reading (the default) or trial: what has a row", AT(rows), NULL},
    {"spelling", "HOW", " long short keep ", " tidy ",
	"long (the default), short, keep", AT(spelling), NULL},
    {"require", "WORD,...", NULL, " blank ",
	"what the note shall ask for: active, passive, opposite ...",
	AT(require), NULL},
    {"source", "SOURCE", NULL, " summary ",
	"take usual values from this source", AT(source), NULL},
    {"reference", "FILE", NULL, " summary ",
	"usual values of your own, before the built-in ones", AT(reference),
	NULL},
    {"color", "WHEN", " auto always never ", " check summary progress guide ",
	"auto (the default: on a terminal), always, never", AT(colour), NULL},
    {"plot", "FILE.svg", NULL, " progress ",
	"draw it as well, a chart a motion", AT(plot), NULL},
    {"jobs", "N", NULL, " check summary convert tidy ",
	"work on N parts of the files at once (one a processor)", 0, read_jobs},
    {"brief", NULL, NULL, " check ", "one line a finding", AT(brief), NULL},
    {"watch", NULL, NULL, " check ",
	"check again whenever a note is saved, until Ctrl-C", AT(watch), NULL},
    {"in-place", NULL, NULL, " tidy ", "write the files themselves",
	AT(in_place), NULL},
    {"verify", NULL, NULL, " tidy ",
	"change nothing; exit 1 where something would change", AT(verify),
	NULL},
    {"diff", NULL, NULL, " tidy ", "show what would change", AT(diff), NULL},
    {"help", NULL, NULL, "*", "show this help", AT(help), NULL},
};

enum { OPT_COUNT = sizeof(table) / sizeof(*table) };

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

static int
set(struct options *o, const struct command *command, int id, const char *word)
{
	const char *name = table[id].name, *why = NULL;
	char *at = (char *)o + table[id].at;

	if (table[id].choices && !is_choice(table[id].choices, word)) {
		char only[128]; /* the help has no verb */

		snprintf(
		    only, sizeof(only), "it can only be %s", table[id].help);
		return wrong(command->name, name, word, only);
	}
	if (table[id].read)
		why = table[id].read(o, word);
	else if (table[id].argument)
		*(const char **)(void *)at = word;
	else
		*(bool *)at = true;
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

/* The word that getopt_long() could not take: there are no short options. */
static const char *
word_not_taken(char **argv)
{
	for (char **word = argv + 1; optopt && *word; word++)
		if ((*word)[0] == '-' && (*word)[1] == optopt)
			return *word;
	return argv[optind - 1];
}

static int
not_taken(const struct command *command, int c, char **argv)
{
	const char *word = c == ':' ? argv[optind - 1] : word_not_taken(argv);
	struct buffer why = {0};

	if (c == ':')
		buffer_printf(&why, ": '%s' needs a word behind it", word);
	else if (folder_is_note(word))
		buffer_printf(&why,
		    ": '%s' is taken for an option: write ./ before the name "
		    "of the file",
		    word);
	else
		buffer_printf(
		    &why, " has no option %.*s", (int)strcspn(word, "="), word);
	trouble("%s%.*s\nTry 'rangeline %s --help'.", command->name,
	    (int)why.len, why.data, command->name);
	buffer_free(&why);
	return -1;
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
		return not_taken(command, c, argv);
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
