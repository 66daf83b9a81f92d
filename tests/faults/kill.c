/*
 * kill MOST PROGRAM NOTE: ends `tidy --in-place` (SIGKILL) before and after
 * every system call in turn. Whenever it ends, the file holds the old content
 * or the new, never a mix. Another file may be left only by at most MOST of
 * the runs, and only with the whole new content. Closes with
 * `N passed, N failed`.
 */
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ptrace.h>
#include <sys/wait.h>
#include <unistd.h>

#include "folder.h"

static pid_t
start(const char *program)
{
	pid_t pid = fork();

	if (pid == 0) {
		ptrace(PTRACE_TRACEME, 0, NULL, NULL);
		/* What it says of lines that cannot be read is not asked. */
		if (freopen("/dev/null", "w", stderr))
			execl(program, program, "tidy", "--in-place", "a.range",
			    (char *)NULL);
		_exit(126);
	}
	return pid;
}

/*
 * Lets the program run to its STOPth stop at a system call and kills it there;
 * false where it ended before.
 */
static bool
run_until(const char *program, unsigned long stop)
{
	pid_t pid = start(program);
	int status;

	for (unsigned long n = 0; waitpid(pid, &status, 0) == pid; n++) {
		if (WIFEXITED(status) || WIFSIGNALED(status))
			return false;
		if (n == stop) {
			kill(pid, SIGKILL);
			waitpid(pid, &status, 0);
			return true;
		}
		ptrace(PTRACE_SYSCALL, pid, NULL, NULL);
	}
	perror("waitpid");
	exit(2);
}

/* The bytes of the one file left beside the note. */
static struct bytes
left_behind(void)
{
	struct bytes none = {0};
	char path[64];
	FILE *names = popen("ls -A | grep -vx a.range", "r");

	if (!names || !fgets(path, sizeof(path), names))
		path[0] = '\0';
	if (names)
		pclose(names);
	path[strcspn(path, "\n")] = '\0';
	return path[0] ? folder_read(path) : none;
}

static const char *
judge(const char *folder, const struct bytes *was, const struct bytes *tidied,
    unsigned long *leftovers, bool whole_only)
{
	struct bytes now = folder_read("a.range");
	bool sound = folder_same(&now, was) || folder_same(&now, tidied);
	int others = folder_names(folder) - 1;

	free(now.data);
	if (!sound)
		return "the file is neither old nor new";
	if (others > 1)
		return "left more than one file behind";
	if (others == 1) {
		struct bytes left = left_behind();
		bool whole = folder_same(&left, tidied);

		free(left.data);
		++*leftovers;
		if (whole_only && !whole)
			return "left a part behind";
	}
	return NULL;
}

static unsigned long
kill_everywhere(const char *program, const struct bytes *was,
    const struct bytes *tidied, unsigned long most, unsigned long *passed)
{
	char folder[4096];
	unsigned long failed = 0, leftovers = 0;
	bool killed = true;

	if (!getcwd(folder, sizeof(folder)))
		exit(2);
	for (unsigned long stop = 0; killed; stop++) {
		const char *wrong;

		folder_clear(folder, NULL);
		folder_write("a.range", was);
		killed = run_until(program, stop);
		wrong = judge(folder, was, tidied, &leftovers, most < 10);
		if (wrong)
			printf("killed at stop %lu: %s\n", stop, wrong);
		failed += wrong != NULL;
		*passed += wrong == NULL;
	}
	printf("%lu of the runs left a file behind\n", leftovers);
	if (leftovers > most) {
		printf("more than %lu runs left a file behind\n", most);
		failed++;
	}
	return failed;
}

int
main(int argc, char **argv)
{
	struct bytes was, tidied;
	unsigned long passed = 0, failed;
	const char *folder = folder_make();
	char *program;

	if (argc != 4 || !(program = realpath(argv[2], NULL))) {
		fputs("usage: kill MOST PROGRAM NOTE\n", stderr);
		return 2;
	}
	was = folder_read(argv[3]);
	if (!was.data || chdir(folder) != 0) {
		perror(argv[3]);
		return 2;
	}
	folder_write("a.range", &was);
	run_until(program, (unsigned long)-1);
	tidied = folder_read("a.range");
	if (!tidied.data || folder_same(&was, &tidied)) {
		puts("the note is tidy already: nothing is tested");
		return 2;
	}
	failed = kill_everywhere(
	    program, &was, &tidied, strtoul(argv[1], NULL, 10), &passed);
	folder_clear(folder, NULL);
	rmdir(folder);
	printf("%lu passed, %lu failed\n", passed, failed);
	return failed != 0;
}
