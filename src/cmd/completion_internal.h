/* What the completion scripts of all shells are made from. */
#ifndef CMD_COMPLETION_INTERNAL_H
#define CMD_COMPLETION_INTERNAL_H

struct buffer;
struct command;
struct option_info;

/* What an option takes, or a command. */
enum completion {
	TAKES_NOTHING,
	TAKES_TEXT, /* nobody knows what */
	TAKES_CHOICE,
	TAKES_FILE,
	TAKES_NOTE,
	TAKES_RULE,  /* from here on it can be listed */
	TAKES_LEVEL, /* RULE=LEVEL: the rules whose level can be changed */
	TAKES_SOURCE,
	TAKES_JOINT
};

/* What the scripts call it; "" for what they need no name for. */
extern const char *const completion_names[];

enum completion completion_of_option(const struct option_info *option);
enum completion completion_of_command(const struct command *command);

/* All that KIND allows, where it can be listed, LINE_BREAK between lines. */
void completion_words(
    struct buffer *out, enum completion kind, const char *line_break);

/* The words of the choices of an option, without the blanks around them. */
void completion_choices(struct buffer *out, const char *choices);

/*
 * TEXT in single quotes: APOSTROPHE for one inside it, a backslash before
 * every character of SPECIAL.
 */
void completion_quoted(struct buffer *out, const char *text,
    const char *special, const char *apostrophe);

void completion_bash(struct buffer *out);
void completion_zsh(struct buffer *out);
void completion_fish(struct buffer *out);

#endif
