/* rangeline: joint range of motion, one reading to a line. */
#include <fcntl.h>
#include <signal.h>
#include <string.h>
#include <unistd.h>

#include "cmd/command.h"
#include "cmd/completion.h"
#include "cmd/confine.h"
#include "cmd/output.h"
#include "text/buffer.h"

static int
version(void)
{
	struct buffer out = {0};

	buffer_puts(&out,
	    "rangeline " RANGELINE_VERSION "\n"
	    "License GPL-3.0-or-later; there is no warranty.\n"
	    "This is no medical device. Licensed practice and local "
	    "protocols decide.\n");
	output_write(&out);
	buffer_free(&out);
	return STATUS_CLEAN;
}

static int
run(int argc, char **argv)
{
	static const char completion[] = "--completion=";
	const struct command *command;
	struct options options;

	if (argc < 2) {
		trouble("say what to do: rangeline COMMAND [FILE...]\n"
			"Try 'rangeline --help'.");
		return STATUS_TROUBLE;
	}
	if (strcmp(argv[1], "--help") == 0 || strcmp(argv[1], "-h") == 0)
		return help_print(NULL);
	if (strcmp(argv[1], "--version") == 0)
		return version();
	if (strcmp(argv[1], "--completion") == 0)
		return completion_print(argc > 2 ? argv[2] : NULL);
	if (strncmp(argv[1], completion, sizeof(completion) - 1) == 0)
		return completion_print(argv[1] + sizeof(completion) - 1);
	command = command_find(argv[1]);
	if (!command) {
		trouble("'%s' is no command\nTry 'rangeline --help'.", argv[1]);
		return STATUS_TROUBLE;
	}
	if (options_parse(&options, command, argc - 1, argv + 1) != 0)
		return STATUS_TROUBLE;
	if (options.version)
		return version();
	if (!command->writes || !command->writes(&options))
		confine();
	return options.help ? help_print(command) : command->run(&options);
}

/*
 * A file that is opened must not become standard output or error: messages
 * would go into it. What stands in for what was closed can do nothing.
 */
static void
hold_standard(void)
{
	for (int fd = STDIN_FILENO; fd <= STDERR_FILENO; fd++)
		if (fcntl(fd, F_GETFD) < 0)
			open("/dev/null",
			    fd == STDIN_FILENO ? O_WRONLY : O_RDONLY);
}

int
main(int argc, char **argv)
{
	int status, closed;

	hold_standard();
	/* A reader that goes away, or a limit, is an error of writing. */
	signal(SIGPIPE, SIG_IGN);
	signal(SIGXFSZ, SIG_IGN);
	status = run(argc, argv);
	closed = output_close();
	return closed > status ? closed : status;
}
