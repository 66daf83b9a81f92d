/*
 * What can stand where is asked of the tables, and written down in the
 * language of each shell. A script holds everything it needs, so that the
 * program is not run at each touch of the tab key.
 */
#include "cmd/completion.h"

#include <string.h>

#include "cmd/command.h"
#include "cmd/completion_internal.h"
#include "cmd/output.h"
#include "diag/rule.h"
#include "reference/reference.h"
#include "text/buffer.h"
#include "vocab/vocab.h"

/* How the help calls what is taken: the first row that it contains. */
static const struct {
	const char *word;
	enum completion of_option;
	enum completion of_command;
} kinds[] = {
    {"FILE", TAKES_FILE, TAKES_NOTE},
    {"LEVEL", TAKES_LEVEL, TAKES_TEXT},
    {"RULE", TAKES_RULE, TAKES_RULE},
    {"SOURCE", TAKES_SOURCE, TAKES_TEXT},
    {"JOINT", TAKES_JOINT, TAKES_JOINT},
    {"", TAKES_TEXT, TAKES_TEXT},
};

enum completion
completion_of_option(const struct option_info *option)
{
	size_t i = 0;

	if (!option->argument)
		return TAKES_NOTHING;
	if (option->choices)
		return TAKES_CHOICE;
	while (!strstr(option->argument, kinds[i].word))
		i++;
	return kinds[i].of_option;
}

enum completion
completion_of_command(const struct command *command)
{
	size_t i = 0;

	while (!strstr(command->arguments, kinds[i].word))
		i++;
	return kinds[i].of_command;
}

/* A list of words in lines of bearable length, BREAK between lines. */
struct list {
	struct buffer *out;
	const char *line_break;
	size_t begins; /* of its line */
	size_t first;  /* byte of the list */
};

static void
list_add(struct list *list, const char *word, size_t len)
{
	enum { WIDTH = 72 };

	if (list->out->len - list->begins + len > WIDTH) {
		buffer_puts(list->out, list->line_break);
		list->begins = list->out->len;
	} else if (list->out->len > list->first) {
		buffer_putc(list->out, ' ');
	}
	buffer_add(list->out, word, len);
}

/* Each word of TEXT, but those that the list holds. */
static void
list_add_new(struct list *list, const char *text)
{
	while (*text) {
		size_t len = strcspn(text, " ");
		const char *held = list->out->data + list->first;
		size_t left = list->out->len - list->first;
		bool is_new = true;

		for (; is_new && left >= len; held++, left--)
			is_new =
			    memcmp(held, text, len) != 0 ||
			    (held > list->out->data + list->first &&
				strchr(" \n\t", held[-1]) == NULL) ||
			    (left > len && strchr(" \n\t", held[len]) == NULL);
		if (is_new)
			list_add(list, text, len);
		text += len + (text[len] == ' ');
	}
}

static void
add_joints(struct list *list)
{
	static const enum vocab_class classes[] = {VOCAB_CLASS_JOINT,
	    VOCAB_CLASS_DIGIT, VOCAB_CLASS_DIGIT_JOINT, VOCAB_CLASS_GROUP,
	    VOCAB_CLASS_MOTION, VOCAB_CLASS_MEASURE};

	for (size_t c = 0; c < sizeof(classes) / sizeof(*classes); c++)
		for (size_t i = 0; i < vocab_row_count; i++)
			if (vocab_rows[i].class == classes[c])
				list_add_new(list, vocab_rows[i].name);
}

void
completion_words(
    struct buffer *out, enum completion kind, const char *line_break)
{
	struct list list = {out, line_break, out->len, out->len};

	switch (kind) {
	case TAKES_RULE:
	case TAKES_LEVEL:
		for (int i = 0; i < RULE_COUNT; i++)
			if (kind == TAKES_RULE ||
			    rule_table[i].group != RULES_READING)
				list_add(&list, rule_table[i].name,
				    strlen(rule_table[i].name));
		break;
	case TAKES_SOURCE:
		for (size_t i = 0; i < ref_source_count(); i++) {
			const char *key = ref_source_get(i)->key;

			if (ref_source_has_usual(key))
				list_add(&list, key, strlen(key));
		}
		break;
	case TAKES_JOINT:
		add_joints(&list);
		break;
	default:
		break;
	}
}

void
completion_choices(struct buffer *out, const char *choices)
{
	size_t len = strlen(choices);

	if (len > 2)
		buffer_add(out, choices + 1, len - 2);
}

void
completion_quoted(struct buffer *out, const char *text, const char *special,
    const char *apostrophe)
{
	buffer_putc(out, '\'');
	for (; *text; text++)
		if (*text == '\'') {
			buffer_puts(out, apostrophe);
		} else {
			if (strchr(special, *text))
				buffer_putc(out, '\\');
			buffer_putc(out, *text);
		}
	buffer_putc(out, '\'');
}

const char *const completion_names[] = {
    [TAKES_NOTHING] = "",
    [TAKES_TEXT] = "",
    [TAKES_CHOICE] = "",
    [TAKES_FILE] = "file",
    [TAKES_NOTE] = "note",
    [TAKES_RULE] = "rule",
    [TAKES_LEVEL] = "level",
    [TAKES_SOURCE] = "source",
    [TAKES_JOINT] = "joint",
};

int
completion_print(const char *shell)
{
	static const struct {
		const char *name;
		void (*put)(struct buffer *out);
	} shells[] = {{"bash", completion_bash}, {"zsh", completion_zsh},
	    {"fish", completion_fish}};
	struct buffer out = {0};

	for (size_t i = 0; shell && i < sizeof(shells) / sizeof(*shells); i++) {
		if (strcmp(shell, shells[i].name) != 0)
			continue;
		shells[i].put(&out);
		output_write(&out);
		buffer_free(&out);
		return STATUS_CLEAN;
	}
	trouble("--completion: say for which shell: bash, zsh or fish\n"
		"Try 'rangeline --help'.");
	return STATUS_TROUBLE;
}
