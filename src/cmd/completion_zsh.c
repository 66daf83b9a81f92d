/* The completion of zsh: its own helpers, given the options of a command. */
#include "cmd/completion_internal.h"

#include "cmd/command.h"
#include "text/buffer.h"

static const char zsh_begin[] =
    "#compdef rangeline\n"
    "# Completion of rangeline for zsh; `rangeline --completion zsh` prints "
    "it.\n\n"
    "_rangeline_note() {\n"
    "\t_files -g '*.range(-.)'\n"
    "}\n\n"
    "_rangeline_file() {\n"
    "\t_files\n"
    "}\n\n";

static const char zsh_level[] = "\tif compset -P 1 '*='; then\n"
				"\t\tcompadd error warning note off\n"
				"\telse\n"
				"\t\tcompadd -S = -a words\n"
				"\tfi\n"
				"}\n\n";

/* [what it does]:its argument:what can stand there */
static void
put_zsh_option(struct buffer *out, const struct option_info *o)
{
	static const char special[] = "[]:\\";
	enum completion kind = completion_of_option(o);

	buffer_printf(out, " \\\n\t\t    %s--%s%s",
	    kind == TAKES_LEVEL ? "\\*" : "", o->name, kind ? "=" : "");
	buffer_puts(out, "'['");
	completion_quoted(out, o->help, special, "'\\''");
	buffer_puts(out, "']");
	if (kind != TAKES_NOTHING) {
		buffer_printf(out, ":%s:", o->argument);
		if (kind == TAKES_CHOICE) {
			buffer_putc(out, '(');
			completion_choices(out, o->choices);
			buffer_putc(out, ')');
		} else if (kind == TAKES_TEXT) {
			buffer_putc(out, ' ');
		} else {
			buffer_printf(
			    out, "_rangeline_%s", completion_names[kind]);
		}
	}
	buffer_putc(out, '\'');
}

void
completion_zsh(struct buffer *out)
{
	struct option_info o;

	buffer_puts(out, zsh_begin);
	for (enum completion kind = TAKES_RULE; kind <= TAKES_JOINT; kind++) {
		buffer_printf(out,
		    "_rangeline_%s() {\n\tlocal -a words=(\n\t    ",
		    completion_names[kind]);
		completion_words(out, kind, "\n\t    ");
		buffer_puts(out, ")\n");
		buffer_puts(out, kind == TAKES_LEVEL
				     ? zsh_level
				     : "\tcompadd -a words\n}\n\n");
	}
	buffer_puts(out, "_rangeline_command() {\n\tlocal -a commands=(");
	for (const struct command *c = commands; c->name; c++) {
		buffer_printf(out, "\n\t    %s:", c->name);
		completion_quoted(out, c->does, "", "'\\''");
	}
	buffer_puts(out, ")\n\t_describe command commands\n}\n\n"
			 "_rangeline() {\n"
			 "\tlocal context state state_descr line\n"
			 "\tlocal -A opt_args\n\n"
			 "\t_arguments -C \\\n"
			 "\t    '(- *)--help[show the commands]' \\\n"
			 "\t    '(- *)--version[show the version]' \\\n"
			 "\t    '(- *)--completion=[print a script like this]:"
			 "SHELL:(bash zsh fish)' \\\n"
			 "\t    '1:command:_rangeline_command' \\\n"
			 "\t    '*::argument:->argument' && return\n"
			 "\tcase $line[1] in\n");
	for (const struct command *c = commands; c->name; c++) {
		enum completion kind = completion_of_command(c);

		buffer_printf(out, "\t%s)\n\t\t_arguments -S", c->name);
		for (size_t n = 0; options_of(c, n, &o); n++)
			put_zsh_option(out, &o);
		if (kind > TAKES_TEXT)
			buffer_printf(out, " \\\n\t\t    '*:%s:_rangeline_%s'",
			    completion_names[kind], completion_names[kind]);
		buffer_puts(out, "\n\t\t;;\n");
	}
	buffer_puts(out, "\tesac\n}\n\n"
			 "if [[ $funcstack[1] == _rangeline ]]; then\n"
			 "\t_rangeline \"$@\"\n"
			 "else\n"
			 "\tcompdef _rangeline rangeline\n"
			 "fi\n");
}
