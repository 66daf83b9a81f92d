/*
 * Runs programs and says what they cost: `measure ROUNDS <table`. Each line of
 * the table is a name, then the words of a command, parted by tabs. In every
 * round each command runs once, in the order of the table, so that whatever
 * else the machine does meets all of them alike. Output is thrown away.
 *
 * Prints a line for each: name, median wall time and median processor time in
 * microseconds, greatest memory in KiB; parted by tabs. A command that cannot
 * be run, is killed or ends with a status of 2 or more (rangeline and the
 * others end with 1 where they merely found something) makes it stop with
 * status 2: the time of a failure is no figure.
 */
#include <fcntl.h>
#include <spawn.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { MOST_COMMANDS = 32, MOST_WORDS = 32, MOST_ROUNDS = 10000 };

struct command {
	char line[4096];
	char *words[MOST_WORDS + 1]; /* the first is the name */
	int64_t wall[MOST_ROUNDS];
	int64_t cpu[MOST_ROUNDS];
	long memory;
};

extern char **environ;

static struct command commands[MOST_COMMANDS];

static void
give_up(const char *what, const char *name)
{
	fprintf(stderr, "measure: %s: %s\n", name, what);
	exit(2);
}

static int64_t
now(void)
{
	struct timespec t;

	clock_gettime(CLOCK_MONOTONIC, &t);
	return t.tv_sec * INT64_C(1000000000) + t.tv_nsec;
}

static int64_t
microseconds(struct timeval t)
{
	return t.tv_sec * INT64_C(1000000) + t.tv_usec;
}

static void
run(struct command *c, int round, const posix_spawn_file_actions_t *files)
{
	int64_t start = now();
	struct rusage usage;
	int status;
	pid_t pid;

	if (posix_spawnp(
		&pid, c->words[1], files, NULL, &c->words[1], environ) != 0)
		give_up("cannot be run", c->words[0]);
	if (wait4(pid, &status, 0, &usage) != pid)
		give_up("cannot be waited for", c->words[0]);
	c->wall[round] = (now() - start) / 1000;
	c->cpu[round] =
	    microseconds(usage.ru_utime) + microseconds(usage.ru_stime);
	if (usage.ru_maxrss > c->memory)
		c->memory = usage.ru_maxrss;
	if (!WIFEXITED(status) || WEXITSTATUS(status) > 1)
		give_up("failed", c->words[0]);
}

static int
read_table(void)
{
	int n = 0;

	while (n < MOST_COMMANDS &&
	       fgets(commands[n].line, sizeof(commands[n].line), stdin)) {
		struct command *c = &commands[n];
		char *word = strtok(c->line, "\t\n");
		int words = 0;

		for (; word && words < MOST_WORDS; word = strtok(NULL, "\t\n"))
			c->words[words++] = word;
		if (words < 2)
			give_up("no command", words ? c->words[0] : "?");
		n++;
	}
	return n;
}

static int
by_size(const void *a, const void *b)
{
	int64_t x = *(const int64_t *)a, y = *(const int64_t *)b;

	return (x > y) - (x < y);
}

static long long
median(int64_t *figures, int n)
{
	qsort(figures, (size_t)n, sizeof(*figures), by_size);
	return n % 2 ? figures[n / 2]
		     : (figures[n / 2 - 1] + figures[n / 2]) / 2;
}

int
main(int argc, char **argv)
{
	int rounds = argc == 2 ? atoi(argv[1]) : 0;
	posix_spawn_file_actions_t files;
	int n;

	if (rounds < 1 || rounds > MOST_ROUNDS)
		give_up("usage: measure ROUNDS <table", "ROUNDS");
	posix_spawn_file_actions_init(&files);
	posix_spawn_file_actions_addopen(&files, 0, "/dev/null", O_RDONLY, 0);
	posix_spawn_file_actions_addopen(&files, 1, "/dev/null", O_WRONLY, 0);
	posix_spawn_file_actions_addopen(&files, 2, "/dev/null", O_WRONLY, 0);
	n = read_table();
	for (int round = 0; round < rounds; round++)
		for (int i = 0; i < n; i++)
			run(&commands[i], round, &files);
	for (int i = 0; i < n; i++)
		printf("%s\t%lld\t%lld\t%ld\n", commands[i].words[0],
		    median(commands[i].wall, rounds),
		    median(commands[i].cpu, rounds), commands[i].memory);
	posix_spawn_file_actions_destroy(&files);
	return fflush(stdout) == 0 ? 0 : 2;
}
