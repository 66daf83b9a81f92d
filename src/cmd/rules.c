/* rules: the catalogue, or one rule with its reason and examples. */
#include <string.h>

#include "cmd/command.h"
#include "cmd/output.h"
#include "text/buffer.h"
#include "write/findings.h"
#include "write/wrap.h"

enum { TITLE = 38 /* cells before the title in the list */ };

static const char *const groups[] = {
    [RULES_READING] = "Reading the text",
    [RULES_VALUES] = "Impossible or doubtful values",
    [RULES_ACTIVE_PASSIVE] = "Active against passive",
    [RULES_MISSING] = "Missing comparisons",
    [RULES_SAFETY] = "Safety and privacy",
    [RULES_DATES] = "Dates",
    [RULES_ACCEPTANCE] = "Acceptances",
};

static void
list_rules(struct buffer *out)
{
	int group = -1;

	for (int i = 0; i < RULE_COUNT; i++) {
		const struct rule_info *rule = &rule_table[i];

		if ((int)rule->group != group) {
			buffer_printf(
			    out, "%s%s\n", i ? "\n" : "", groups[rule->group]);
			group = (int)rule->group;
		}
		buffer_printf(out, "  %-7s  %-25s  ", level_name(rule->level),
		    rule->name);
		wrap_text(out, rule->title, strlen(rule->title), TITLE, TITLE);
		buffer_putc(out, '\n');
	}
}

/* An example, each line set in; long lines are cut. */
static void
put_example(struct buffer *out, const char *text)
{
	enum { LONGEST = 72 };

	while (*text) {
		size_t len = strcspn(text, "\n");

		buffer_puts(out, len ? "    " : "");
		findings_safe(out, text, len > LONGEST ? LONGEST : len);
		buffer_puts(out, len > LONGEST ? "...\n" : "\n");
		text += len + (text[len] == '\n');
	}
}

/* LABEL and TEXT, wrapped below the text. */
static void
put_labelled(struct buffer *out, const char *label, const char *text)
{
	size_t width = strlen(label) + 2;

	buffer_printf(out, "%s: ", label);
	wrap_text(out, text, strlen(text), width, width);
	buffer_putc(out, '\n');
}

static void
explain(struct buffer *out, const struct rule_info *rule)
{
	put_labelled(out, rule->name, rule->title);
	buffer_printf(out, "Level: %s\n\n", level_name(rule->level));
	put_labelled(out, "Why", rule->reason);
	put_labelled(out, "Source", rule->source);
	buffer_puts(out, "\nReported here:\n");
	put_example(out, rule->reported);
	buffer_puts(out, "\nNot here:\n");
	put_example(out, rule->clean);
	if (rule->group == RULES_READING)
		buffer_puts(out,
		    "\nIt can be neither accepted nor lowered: what could "
		    "not be read is lost.\n");
	else
		buffer_printf(out,
		    "\nTo accept it where it is right: # accept %s: reason\n",
		    rule->name);
}

int
cmd_rules(const struct options *options)
{
	struct buffer out = {0};

	if (options->file_count == 0)
		list_rules(&out);
	for (size_t i = 0; i < options->file_count; i++) {
		const char *name = options->files[i];
		int rule = rule_find(name, strlen(name));

		if (rule < 0) {
			trouble("rules: there is no rule '%s'; 'rangeline "
				"rules' lists them",
			    name);
			buffer_free(&out);
			return STATUS_TROUBLE;
		}
		if (i > 0)
			buffer_putc(&out, '\n');
		explain(&out, &rule_table[rule]);
	}
	output_write(&out);
	buffer_free(&out);
	return STATUS_CLEAN;
}
