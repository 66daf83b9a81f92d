/*
 * walk PROGRAM SHIM NOTE: makes the first, second, third ... allocation and
 * system call of each command fail, or be cut short, until a run ends
 * untouched. A run that was hit either goes on as if nothing had been, or ends
 * with status 2 and a message; it never dies by a signal, leaves no other file
 * behind and keeps the note whole. What is merely interrupted or cut short is
 * done again: it changes nothing. Closes with `N passed, N failed`.
 */
#include <errno.h>
#include <fcntl.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/wait.h>
#include <unistd.h>

#include "folder.h"

enum { LONGEST = 20 /* seconds */, MOST_SHOWN = 40, MOST_CALLS = 100000 };

/* The words behind the program's name; the note is called a.range. */
struct job {
	const char *words[6];
	bool serves;  /* standard input is the session of an editor */
	bool writes;  /* into the note */
	bool in_pipe; /* standard input is the note */
};

static const struct job jobs[] = {
    {{"check", "--today", "2026-08-01", "a.range"}, false, false, false},
    {{"check", "--today", "2026-08-01", "."}, false, false, false},
    {{"check", "--format", "json"}, false, false, true},
    {{"summary", "a.range"}, false, false, false},
    {{"convert", "--to", "csv", "a.range"}, false, false, false},
    {{"tidy", "a.range"}, false, false, false},
    {{"tidy", "--diff", "a.range"}, false, false, false},
    {{"tidy", "--in-place", "a.range"}, false, true, false},
    {{"progress", "a.range"}, false, false, false},
    {{"progress", "--plot", "b.svg", "a.range"}, false, false, false},
    {{"guide", "knee", "flexion"}, false, false, false},
    {{"language-server"}, true, false, false},
};

struct fault {
	const char *call, *how;
	bool again; /* it must be done again: nothing may change */
	bool every; /* every call is hit, in one run */
};

static const struct fault faults[] = {
    {"alloc", "ENOMEM", false, false},
    {"read", "EIO", false, false},
    {"read", "EINTR", true, false},
    {"read", "short", true, false},
    {"read", "short", true, true},
    {"write", "EIO", false, false},
    {"write", "ENOSPC", false, false},
    {"write", "EINTR", true, false},
    {"write", "short", true, false},
    {"write", "short", true, true},
    {"poll", "EINTR", true, false},
    {"open", "EIO", false, false},
    {"open", "EMFILE", false, false},
    {"close", "EIO", false, false},
    {"fsync", "EIO", false, false},
    {"fsync", "ENOSPC", false, false},
    {"renameat", "EIO", false, false},
    {"renameat", "ENOSPC", false, false},
    {"linkat", "EIO", false, false},
    {"getrandom", "EIO", false, false},
    {"flistxattr", "EIO", false, false},
    {"fstat", "EIO", false, false},
    {"stat", "EIO", false, false},
    {"fstatat", "EIO", false, false},
    {"fchmod", "EIO", false, false},
    {"fchown", "EIO", false, false},
    {"fcntl", "EIO", false, false},
    {"realpath", "ENOMEM", false, false},
    {"fdopendir", "EMFILE", false, false},
    {"readdir", "EIO", false, false},
};

enum { FAULTS = sizeof(faults) / sizeof(*faults) };

struct walker {
	const char *program, *shim, *folder;
	struct bytes note, tidied, session;
	int tell[2];
	size_t met[FAULTS]; /* runs that a fault has hit */
	size_t passed, failed;
};

/* What a run came to. */
struct result {
	int status; /* as wait() has it */
	struct bytes out, err;
	bool hit;    /* the fault was met */
	bool silent; /* and met standard error */
};

static void
result_free(struct result *r)
{
	free(r->out.data);
	free(r->err.data);
}

static int
memory_file(const struct bytes *bytes)
{
	int fd = memfd_create("faults", 0);

	if (fd < 0 || (bytes && (write(fd, bytes->data, bytes->len) !=
					(ssize_t)bytes->len ||
				    lseek(fd, 0, SEEK_SET) != 0))) {
		perror("memfd_create");
		exit(2);
	}
	return fd;
}

static struct bytes
memory_read(int fd)
{
	char path[64];
	struct bytes bytes;

	snprintf(path, sizeof(path), "/proc/self/fd/%d", fd);
	bytes = folder_read(path);
	close(fd);
	return bytes;
}

static _Noreturn void
be_the_program(const struct walker *w, const struct job *job,
    const struct fault *fault, unsigned long at, const int fds[3])
{
	const char *argv[8] = {w->program};
	char number[24], tell[24];

	for (int i = 0; i < 3; i++)
		dup2(fds[i], i);
	memcpy(argv + 1, job->words, sizeof(job->words));
	if (fault) {
		snprintf(number, sizeof(number), "%lu", at);
		snprintf(tell, sizeof(tell), "%d", w->tell[1]);
		setenv("FAULT_CALL", fault->call, 1);
		setenv("FAULT_AT", number, 1);
		setenv("FAULT_HOW", fault->how, 1);
		setenv("FAULT_TELL", tell, 1);
		setenv("LD_PRELOAD", w->shim, 1);
	}
	alarm(LONGEST);
	execv(w->program, (char *const *)argv);
	_exit(126);
}

/* Takes what the shim told from the pipe. */
static void
listen_to(const struct walker *w, struct result *r)
{
	char told[4096];
	ssize_t n;

	while ((n = read(w->tell[0], told, sizeof(told))) > 0) {
		r->hit = true;
		r->silent |= memchr(told, 'e', (size_t)n) != NULL;
	}
}

static struct result
run(const struct walker *w, const struct job *job, const struct fault *fault,
    unsigned long at)
{
	struct result r = {0};
	int fds[3] = {memory_file(job->serves	 ? &w->session
				  : job->in_pipe ? &w->note
						 : NULL),
	    memory_file(NULL), memory_file(NULL)};
	pid_t pid = fork();

	if (pid == 0)
		be_the_program(w, job, fault, at, fds);
	/* A run in which every call is hit tells more than a pipe holds. */
	while (waitpid(pid, &r.status, WNOHANG) == 0) {
		listen_to(w, &r);
		usleep(200);
	}
	listen_to(w, &r);
	close(fds[0]);
	r.out = memory_read(fds[1]);
	r.err = memory_read(fds[2]);
	return r;
}

/* A drawing that is whole may stay; it is of the notes that could be read. */
static bool
has_drawing(void)
{
	struct bytes svg = folder_read("b.svg");
	bool whole = svg.data && strstr(svg.data, "</svg>");

	free(svg.data);
	return whole;
}

/* What is wrong with run R, compared with the one WITHOUT a fault, or NULL. */
static const char *
judge(const struct walker *w, const struct job *job, const struct fault *fault,
    const struct result *r, const struct result *without)
{
	struct bytes now = folder_read("a.range");
	bool whole = folder_same(&now, &w->note);
	bool tidied = folder_same(&now, &w->tidied);
	bool untouched = r->status == without->status &&
			 folder_same(&r->out, &without->out) &&
			 (r->silent || folder_same(&r->err, &without->err));
	int others = folder_names(w->folder) - 1;
	bool trouble = WIFEXITED(r->status) && WEXITSTATUS(r->status) == 2;

	free(now.data);
	if (!WIFEXITED(r->status))
		return "died by a signal";
	if (!untouched && (fault->again || !trouble))
		return "neither as without the fault nor status 2";
	if (!untouched && !r->silent && !strstr(r->err.data, "rangeline: "))
		return "status 2 without a message";
	if (others != (has_drawing() ? 1 : 0))
		return "left a file behind";
	if (!job->writes)
		return whole ? NULL : "changed the note";
	if (trouble && !whole && strcmp(fault->call, "close") != 0)
		return "status 2, but the note was changed";
	return whole || tidied ? NULL : "the note is neither old nor new";
}

static void
report(struct walker *w, const struct job *job, const struct fault *fault,
    unsigned long at, const struct result *r, const char *wrong)
{
	if (!wrong) {
		w->passed++;
		return;
	}
	if (w->failed++ >= MOST_SHOWN)
		return;
	printf("%s %s:", job->words[0], job->words[1] ? job->words[1] : "");
	printf(" %s %lu %s: %s (status %#x)\n%s\n", fault->call, at, fault->how,
	    wrong, (unsigned int)r->status, r->err.data);
}

/* One fault at the first, second ... call of a job. */
static void
walk(struct walker *w, const struct job *job, const struct fault *fault,
    const struct result *without)
{
	bool hit = true;
	const char *wrong;

	for (unsigned long at = fault->every ? 0 : 1; hit && at < MOST_CALLS;
	     at++) {
		struct result r;

		folder_clear(w->folder, NULL);
		folder_write("a.range", &w->note);
		r = run(w, job, fault, at);
		w->met[fault - faults] += r.hit;
		hit = r.hit && !fault->every;
		wrong = judge(w, job, fault, &r, without);
		report(w, job, fault, at, &r, wrong);
		result_free(&r);
	}
}

/* The bodies of an editor's session, framed. */
static void
frame_session(struct walker *w)
{
	static const char *const bodies[] = {
	    "{\"jsonrpc\":\"2.0\",\"id\":1,\"method\":\"initialize\","
	    "\"params\":{\"capabilities\":{}}}",
	    "{\"jsonrpc\":\"2.0\",\"method\":\"initialized\",\"params\":{}}",
	    "{\"jsonrpc\":\"2.0\",\"method\":\"textDocument/didOpen\","
	    "\"params\":{\"textDocument\":{\"uri\":\"file:///a.range\","
	    "\"languageId\":\"rangeline\",\"version\":1,\"text\":"
	    "\"subject X-1\\nsession 2026-05-04\\nknee  R A 5-118 P 3-12x\\n"
	    "elbw R A 0-9\\n\"}}}",
	    "{\"jsonrpc\":\"2.0\",\"id\":2,\"method\":"
	    "\"textDocument/formatting\",\"params\":{\"textDocument\":{"
	    "\"uri\":\"file:///a.range\"},\"options\":{\"tabSize\":8,"
	    "\"insertSpaces\":true}}}",
	    "{\"jsonrpc\":\"2.0\",\"id\":3,\"method\":\"textDocument/hover\","
	    "\"params\":{\"textDocument\":{\"uri\":\"file:///a.range\"},"
	    "\"position\":{\"line\":2,\"character\":12}}}",
	    "{\"jsonrpc\":\"2.0\",\"id\":4,\"method\":"
	    "\"textDocument/completion\",\"params\":{\"textDocument\":{"
	    "\"uri\":\"file:///a.range\"},\"position\":{\"line\":3,"
	    "\"character\":2}}}",
	    "{\"jsonrpc\":\"2.0\",\"id\":5,\"method\":\"shutdown\"}",
	    "{\"jsonrpc\":\"2.0\",\"method\":\"exit\"}",
	};
	FILE *to = open_memstream(&w->session.data, &w->session.len);

	if (!to)
		exit(2);
	for (size_t i = 0; i < sizeof(bodies) / sizeof(*bodies); i++)
		fprintf(to, "Content-Length: %zu\r\n\r\n%s", strlen(bodies[i]),
		    bodies[i]);
	fclose(to);
}

/* The runs without a fault come first: what every other is held against. */
static void
walk_all(struct walker *w)
{
	for (const struct job *job = jobs;
	     job < jobs + sizeof(jobs) / sizeof(*jobs); job++) {
		struct result without;

		folder_clear(w->folder, NULL);
		folder_write("a.range", &w->note);
		without = run(w, job, NULL, 0);
		if (job->writes)
			w->tidied = folder_read("a.range");
		if (!WIFEXITED(without.status) ||
		    WEXITSTATUS(without.status) > 1)
			report(w, job, faults, 0, &without, "without a fault");
		for (size_t i = 0; i < FAULTS; i++)
			walk(w, job, &faults[i], &without);
		result_free(&without);
	}
}

/* A fault that no run has met was never tried: the shim does not see it. */
static void
ask_for_all(struct walker *w)
{
	for (size_t i = 0; i < FAULTS; i++) {
		if (w->met[i] > 0) {
			w->passed++;
			continue;
		}
		w->failed++;
		printf("%s %s: no run has met it\n", faults[i].call,
		    faults[i].how);
	}
}

int
main(int argc, char **argv)
{
	struct walker w = {0};

	if (argc != 4) {
		fputs("usage: walk PROGRAM SHIM NOTE\n", stderr);
		return 2;
	}
	w.program = realpath(argv[1], NULL);
	w.shim = realpath(argv[2], NULL);
	w.note = folder_read(argv[3]);
	w.folder = folder_make();
	if (!w.program || !w.shim || !w.note.data || chdir(w.folder) != 0 ||
	    pipe2(w.tell, O_NONBLOCK) != 0) {
		perror("walk");
		return 2;
	}
	frame_session(&w);
	walk_all(&w);
	ask_for_all(&w);
	folder_clear(w.folder, NULL);
	rmdir(w.folder);
	printf("%zu passed, %zu failed\n", w.passed, w.failed);
	return w.failed != 0;
}
