/* The completion of fish: a line an option. */
#include "cmd/completion_internal.h"

#include "cmd/command.h"
#include "text/buffer.h"

/* The rest of a line: -a and what can stand there. */
static void
put_fish_takes(struct buffer *out, enum completion kind, const char *choices)
{
	if (kind == TAKES_CHOICE) {
		buffer_puts(out, " -x -a '");
		completion_choices(out, choices);
		buffer_putc(out, '\'');
	} else if (kind == TAKES_FILE) {
		buffer_puts(out, " -r -F");
	} else if (kind == TAKES_TEXT) {
		buffer_puts(out, " -x");
	} else if (kind != TAKES_NOTHING) {
		buffer_printf(
		    out, " -x -a '(__rangeline_%s)'", completion_names[kind]);
	}
}

static void
put_fish_lists(struct buffer *out)
{
	for (enum completion kind = TAKES_RULE; kind <= TAKES_JOINT; kind++) {
		bool level = kind == TAKES_LEVEL;

		buffer_printf(out, "function __rangeline_%s\n    %s",
		    completion_names[kind],
		    level ? "for rule in " : "printf '%s\\n' ");
		completion_words(out, kind, " \\\n        ");
		buffer_puts(out, level
				     ? "\n        printf '%s\\n' "
				       "$rule={error,warning,note,off}\n    end"
				     : "");
		buffer_puts(out, "\nend\n\n");
	}
	buffer_puts(out, "function __rangeline_note\n"
			 "    __fish_complete_suffix .range\n"
			 "end\n\n");
}

void
completion_fish(struct buffer *out)
{
	struct option_info o;

	buffer_puts(out, "# Completion of rangeline for fish; `rangeline "
			 "--completion fish` prints it.\n\n");
	put_fish_lists(out);
	buffer_puts(out,
	    "complete -c rangeline -f\n"
	    "complete -c rangeline -n __fish_use_subcommand -l help "
	    "-d 'show the commands'\n"
	    "complete -c rangeline -n __fish_use_subcommand -l version "
	    "-d 'show the version'\n"
	    "complete -c rangeline -n __fish_use_subcommand -l completion "
	    "-x -a 'bash zsh fish' -d 'print a script like this'\n");
	for (const struct command *c = commands; c->name; c++) {
		buffer_printf(out,
		    "\ncomplete -c rangeline -n __fish_use_subcommand -a %s "
		    "-d ",
		    c->name);
		completion_quoted(out, c->does, "\\", "\\'");
		buffer_putc(out, '\n');
		for (size_t n = 0; options_of(c, n, &o); n++) {
			buffer_printf(out,
			    "complete -c rangeline -n "
			    "'__fish_seen_subcommand_from %s' -l %s",
			    c->name, o.name);
			put_fish_takes(
			    out, completion_of_option(&o), o.choices);
			buffer_puts(out, " -d ");
			completion_quoted(out, o.help, "\\", "\\'");
			buffer_putc(out, '\n');
		}
		if (completion_of_command(c) > TAKES_TEXT)
			buffer_printf(out,
			    "complete -c rangeline -n "
			    "'__fish_seen_subcommand_from %s' -k "
			    "-a '(__rangeline_%s)'\n",
			    c->name,
			    completion_names[completion_of_command(c)]);
	}
}
