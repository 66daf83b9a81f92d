/*
 * How long an editor waits: `bench PROGRAM NOTE` starts the language server,
 * opens the note and prints a table: time from a keystroke to its findings,
 * time to a completion list, memory over many edits. Times are taken in this
 * process, from the write of a message to the read of its answer; figures and
 * aims stand side by side, and a missed aim is told, never a failure.
 *
 *   EDITS=100000   how many for the memory; KEYS=2000 keystrokes and lists
 */
#include <errno.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { BATCH = 100 };

static const char uri[] = "file:///invented/bench.range";

struct server {
	pid_t pid;
	int in;	   /* to it */
	FILE *out; /* from it */
	char *body;
	size_t cap;
};

static void
die(const char *what)
{
	fprintf(stderr, "bench: %s: %s\n", what, strerror(errno));
	exit(2);
}

static void
start(struct server *s, const char *program)
{
	int to[2], from[2];

	if (pipe(to) != 0 || pipe(from) != 0)
		die("pipe");
	s->pid = fork();
	if (s->pid == 0) {
		dup2(to[0], 0);
		dup2(from[1], 1);
		close(to[1]);
		close(from[0]);
		execl(program, program, "language-server", "--today",
		    "2026-06-01", (char *)NULL);
		_exit(127);
	}
	close(to[0]);
	close(from[1]);
	s->in = to[1];
	s->out = fdopen(from[0], "r");
	s->body = NULL;
	s->cap = 0;
}

static void
send_message(struct server *s, const char *body, size_t len)
{
	char head[64];
	int n =
	    snprintf(head, sizeof(head), "Content-Length: %zu\r\n\r\n", len);
	char *all = malloc((size_t)n + len);
	size_t size = (size_t)n + len;

	memcpy(all, head, (size_t)n);
	memcpy(all + n, body, len);
	for (size_t done = 0; done < size;) {
		ssize_t w = write(s->in, all + done, size - done);

		if (w <= 0)
			die("write");
		done += (size_t)w;
	}
	free(all);
}

static const char *
receive(struct server *s)
{
	char line[256];
	size_t len = 0;

	while (fgets(line, sizeof(line), s->out) && line[0] != '\r')
		if (strncmp(line, "Content-Length: ", 16) == 0)
			len = strtoul(line + 16, NULL, 10);
	if (len == 0) {
		fprintf(stderr, "bench: the server went away\n");
		exit(2);
	}
	if (len + 1 > s->cap) {
		s->cap = 2 * len + 1;
		s->body = realloc(s->body, s->cap);
	}
	if (fread(s->body, 1, len, s->out) != len)
		die("read");
	s->body[len] = '\0';
	return s->body;
}

static void
wait_for(struct server *s, const char *word)
{
	while (!strstr(receive(s), word))
		;
}

static double
now(void)
{
	struct timespec t;

	clock_gettime(CLOCK_MONOTONIC, &t);
	return (double)t.tv_sec * 1e3 + (double)t.tv_nsec / 1e6;
}

static long
memory(const struct server *s)
{
	char path[64], line[256];
	long kib = 0;
	FILE *f;

	snprintf(path, sizeof(path), "/proc/%d/status", (int)s->pid);
	f = fopen(path, "r");
	while (f && fgets(line, sizeof(line), f))
		if (sscanf(line, "VmRSS: %ld", &kib) == 1)
			break;
	if (f)
		fclose(f);
	return kib;
}

static unsigned
chance(unsigned below)
{
	static uint32_t state = 1;

	state = state * 1664525u + 1013904223u;
	return (unsigned)((uint64_t)state * below >> 32);
}

static int
by_size(const void *a, const void *b)
{
	double x = *(const double *)a, y = *(const double *)b;

	return (x > y) - (x < y);
}

static void
row(const char *what, double *ms, size_t n, double aim)
{
	qsort(ms, n, sizeof(*ms), by_size);
	printf("%-34s %8.2f %8.2f %8.2f   aim %g ms: %s\n", what, ms[n / 2],
	    ms[n * 99 / 100], ms[n - 1], aim,
	    ms[n * 99 / 100] <= aim ? "met" : "MISSED");
}

/* The note as a JSON string; *LINES counts its lines. */
static char *
read_note(const char *path, unsigned *lines)
{
	FILE *f = fopen(path, "r");
	size_t len = 0, cap = 1 << 20;
	char *text = malloc(cap);
	int c;

	if (!f)
		die(path);
	*lines = 0;
	while ((c = getc(f)) != EOF) {
		if (len + 8 > cap)
			text = realloc(text, cap *= 2);
		if (c == '"' || c == '\\')
			text[len++] = '\\';
		if (c == '\n') {
			text[len++] = '\\';
			c = 'n';
			++*lines;
		} else if (c == '\t') {
			c = ' ';
		}
		text[len++] = (char)c;
	}
	text[len] = '\0';
	fclose(f);
	return text;
}

static void
type(struct server *s, unsigned version, unsigned line, bool in)
{
	char body[512];
	int n = snprintf(body, sizeof(body),
	    "{\"jsonrpc\":\"2.0\",\"method\":\"textDocument/didChange\","
	    "\"params\":{\"textDocument\":{\"uri\":\"%s\",\"version\":%u},"
	    "\"contentChanges\":[{\"range\":{\"start\":{\"line\":%u,"
	    "\"character\":0},\"end\":{\"line\":%u,\"character\":%d}},"
	    "\"text\":\"%s\"}]}}",
	    uri, version, line, line, in ? 0 : 1, in ? " " : "");

	send_message(s, body, (size_t)n);
}

static void
wait_for_version(struct server *s, unsigned version)
{
	char word[32];

	snprintf(word, sizeof(word), "\"version\":%u,", version);
	wait_for(s, word);
}

static void
open_note(struct server *s, const char *text)
{
	static const char opening[] =
	    "{\"jsonrpc\":\"2.0\",\"id\":0,\"method\":\"initialize\","
	    "\"params\":{\"capabilities\":{}}}";
	size_t size = strlen(text) + 256;
	char *body = malloc(size);
	int n;

	send_message(s, opening, sizeof(opening) - 1);
	wait_for(s, "\"id\":0");
	n = snprintf(body, size,
	    "{\"jsonrpc\":\"2.0\",\"method\":\"textDocument/didOpen\","
	    "\"params\":{\"textDocument\":{\"uri\":\"%s\",\"languageId\":"
	    "\"rangeline\",\"version\":1,\"text\":\"%s\"}}}",
	    uri, text);
	send_message(s, body, (size_t)n);
	wait_for_version(s, 1);
	free(body);
}

static unsigned
time_keys(struct server *s, unsigned lines, size_t keys)
{
	double *ms = malloc(keys * sizeof(*ms));
	unsigned version = 1, line = 0;

	for (size_t i = 0; i < keys; i++) {
		double before;

		if (i % 2 == 0)
			line = chance(lines);
		before = now();
		type(s, ++version, line, i % 2 == 0);
		wait_for_version(s, version);
		ms[i] = now() - before;
	}
	row("findings after a keystroke", ms, keys, 20);
	free(ms);
	return version;
}

static void
time_lists(struct server *s, unsigned lines, size_t keys, const char *method,
    const char *more, const char *what, double aim)
{
	double *ms = malloc(keys * sizeof(*ms));

	for (size_t i = 0; i < keys; i++) {
		unsigned line = chance(lines);
		char body[512], id[32];
		double before;
		int n = snprintf(body, sizeof(body),
		    "{\"jsonrpc\":\"2.0\",\"id\":%zu,\"method\":\"%s\","
		    "\"params\":{\"textDocument\":{\"uri\":\"%s\"},"
		    "\"position\":{\"line\":%u,\"character\":%u}%s}}",
		    i + 1, method, uri, line, chance(40), more);

		snprintf(id, sizeof(id), "\"id\":%zu,", i + 1);
		before = now();
		send_message(s, body, (size_t)n);
		wait_for(s, id);
		ms[i] = now() - before;
	}
	row(what, ms, keys, aim);
	free(ms);
}

/* Edits in batches: what an editor that types faster than we judge would do. */
static void
watch_memory(struct server *s, unsigned lines, unsigned version, size_t edits)
{
	long first = 0, greatest = 0, last;

	for (size_t i = 0; i < edits; i++) {
		static unsigned line;

		if (i % 2 == 0)
			line = chance(lines);
		type(s, ++version, line, i % 2 == 0);
		if (i % BATCH != BATCH - 1)
			continue;
		wait_for_version(s, version);
		last = memory(s);
		if (i < (size_t)10 * BATCH)
			first = last;
		greatest = last > greatest ? last : greatest;
	}
	last = memory(s);
	printf("memory over %zu edits: %ld KiB after 1,000, %ld at the end, "
	       "%ld at most\n",
	    edits, first, last, greatest);
}

static size_t
number_of(const char *name, size_t otherwise)
{
	const char *text = getenv(name);

	return text ? strtoul(text, NULL, 10) : otherwise;
}

int
main(int argc, char **argv)
{
	size_t keys = number_of("KEYS", 2000);
	size_t edits = number_of("EDITS", 100000);
	struct server s;
	unsigned lines, version;
	char *text;

	if (argc != 3 || keys < 2) {
		fprintf(stderr, "usage: bench PROGRAM NOTE\n");
		return 2;
	}
	text = read_note(argv[2], &lines);
	start(&s, argv[1]);
	open_note(&s, text);
	printf("a note of %u lines, %zu KiB; milliseconds, %zu rounds each\n"
	       "%-34s %8s %8s %8s\n",
	    lines, strlen(text) / 1024, keys, "", "median", "99 %", "most");
	version = time_keys(&s, lines, keys);
	time_lists(
	    &s, lines, keys, "textDocument/completion", "", "completion", 5);
	time_lists(&s, lines, keys, "textDocument/hover", "", "hover", 50);
	watch_memory(&s, lines, version, edits);
	close(s.in);
	waitpid(s.pid, NULL, 0);
	free(s.body);
	free(text);
	return 0;
}
