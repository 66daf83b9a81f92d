/* The completion of bash: one function that knows every command. */
#include "cmd/completion_internal.h"

#include "cmd/command.h"
#include "text/buffer.h"

static const char bash_begin[] =
    "# Completion of rangeline for bash; `rangeline --completion bash` "
    "prints it.\n\n"
    "_rangeline()\n"
    "{\n"
    "\tlocal word=${COMP_WORDS[COMP_CWORD]} IFS=$' \\t\\n' i\n"
    "\tlocal current previous before value option='' options='' takes=''\n"
    "\tlocal -a line=() found=()\n\n"
    "\t# bash parts words at =; here they are put together again.\n"
    "\tfor ((i = 0; i <= COMP_CWORD; i++)); do\n"
    "\t\tif ((i > 1)) && [[ ${COMP_WORDS[i]} == = ||\n"
    "\t\t    ${COMP_WORDS[i - 1]} == = ]]; then\n"
    "\t\t\tline[${#line[@]} - 1]+=${COMP_WORDS[i]}\n"
    "\t\telse\n"
    "\t\t\tline+=(\"${COMP_WORDS[i]}\")\n"
    "\t\tfi\n"
    "\tdone\n"
    "\t[[ $word == = ]] && word=\n"
    "\tcurrent=${line[${#line[@]} - 1]}\n"
    "\tprevious=${line[${#line[@]} - 2]}\n"
    "\tbefore=${current%\"$word\"}\n"
    "\tvalue=$current\n\n"
    "\tcase ${line[1]} in\n";

static const char bash_place[] =
    "\tesac\n"
    "\tif ((${#line[@]} < 3)); then\n"
    "\t\ttakes=command\n"
    "\telif [[ \" ${line[*]:2:${#line[@]} - 3} \" == *' -- '* ]]; then\n"
    "\t\t: # behind -- nothing is an option\n"
    "\telif [[ $current == --*=* ]]; then\n"
    "\t\toption=${current%%=*}=\n"
    "\t\tvalue=${current#*=}\n"
    "\telif [[ \" $options \" == *\" $previous= \"* ]]; then\n"
    "\t\toption=$previous=\n"
    "\telif [[ $current == -* ]]; then\n"
    "\t\ttakes=$options\n"
    "\tfi\n"
    "\tif [[ $option ]]; then\n"
    "\t\tcase ${line[1]}$option in\n";

static const char bash_words[] = "\t\t*) takes='' ;;\n"
				 "\t\tesac\n"
				 "\tfi\n\n"
				 "\tcase $takes in\n";

static const char bash_end[] =
    "\tesac\n"
    "\tcase $takes in\n"
    "\tnote | file)\n"
    "\t\tcompopt -o filenames\n"
    "\t\tmapfile -t found < <(\n"
    "\t\t\tcompgen -d -- \"$value\"\n"
    "\t\t\t[[ $takes == note ]] && i='!*.range' || i=''\n"
    "\t\t\tcompgen -f -X \"$i\" -- \"$value\"\n"
    "\t\t)\n"
    "\t\t;;\n"
    "\t*) mapfile -t found < <(compgen -W \"$takes\" -- \"$value\") ;;\n"
    "\tesac\n\n"
    "\t# Of what is found bash wants the part behind the last =.\n"
    "\t[[ $current == --*=* ]] && found=(\"${found[@]/#/$option}\")\n"
    "\tCOMPREPLY=(\"${found[@]#\"$before\"}\")\n"
    "\t[[ ${COMPREPLY[0]} == *= ]] && compopt -o nospace\n"
    "\treturn 0\n"
    "}\n\n"
    "complete -F _rangeline rangeline\n";

/* takes= for KIND. */
static void
put_bash_takes(struct buffer *out, enum completion kind, const char *choices)
{
	buffer_puts(out, "takes='");
	if (kind == TAKES_CHOICE)
		completion_choices(out, choices);
	else
		buffer_puts(out, completion_names[kind]);
	buffer_putc(out, '\'');
}

/* What the kinds stand for: takes= becomes the words themselves. */
static void
put_bash_words(struct buffer *out)
{
	buffer_puts(out, "\tcommand)\n\t\ttakes='");
	for (const struct command *c = commands; c->name; c++)
		buffer_printf(out, "%s%s", c == commands ? "" : " ", c->name);
	buffer_puts(out, "'\n\t\t[[ $current == -* ]] &&\n"
			 "\t\t\ttakes='--help --version --completion'\n"
			 "\t\t;;\n");
	for (enum completion kind = TAKES_RULE; kind <= TAKES_JOINT; kind++) {
		buffer_printf(out, "\t%s)\n\t\ttakes='\n\t\t    ",
		    completion_names[kind]);
		completion_words(out, kind, "\n\t\t    ");
		buffer_puts(out, "'\n");
		if (kind == TAKES_LEVEL)
			buffer_puts(out,
			    "\t\t[[ $value == *=* ]] && "
			    "takes='error warning note off'\n"
			    "\t\tfor word in $takes; do\n"
			    "\t\t\t[[ $value == *=* ]] &&\n"
			    "\t\t\t\tword=${value%%=*}=$word || word+==\n"
			    "\t\t\tfound+=(\"$word\")\n"
			    "\t\tdone\n"
			    "\t\ttakes=${found[*]}\n");
		buffer_puts(out, "\t\t;;\n");
	}
}

void
completion_bash(struct buffer *out)
{
	struct option_info o;

	buffer_puts(out, bash_begin);
	for (const struct command *c = commands; c->name; c++) {
		buffer_printf(out, "\t%s)\n\t\toptions='", c->name);
		for (size_t n = 0; options_of(c, n, &o); n++)
			buffer_printf(out, "%s--%s%s", n ? " " : "", o.name,
			    o.argument ? "=" : "");
		buffer_puts(out, "'\n\t\t");
		put_bash_takes(out, completion_of_command(c), "");
		buffer_puts(out, "\n\t\t;;\n");
	}
	buffer_puts(out, "\t--completion) takes='bash zsh fish' ;;\n");
	buffer_puts(out, bash_place);
	for (const struct command *c = commands; c->name; c++)
		for (size_t n = 0; options_of(c, n, &o); n++)
			if (completion_of_option(&o) > TAKES_TEXT) {
				buffer_printf(
				    out, "\t\t%s--%s=) ", c->name, o.name);
				put_bash_takes(
				    out, completion_of_option(&o), o.choices);
				buffer_puts(out, " ;;\n");
			}
	buffer_puts(out, bash_words);
	put_bash_words(out);
	buffer_puts(out, bash_end);
}
