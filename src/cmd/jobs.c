/*
 * The list of inputs is cut into parts, each read by a process of its own
 * (struct child), a copy of this one in which nothing has been read. What a
 * child writes comes through two pipes. This process passes on what the child
 * at the head writes, then the next one's: so the order is that of the list,
 * and what waits is held by the pipes, which bounds the memory.
 */
#include "cmd/jobs.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <sched.h>
#include <stdatomic.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/wait.h>
#include <unistd.h>

#include "cmd/command.h"
#include "cmd/output.h"
#include "text/buffer.h"
#include "text/mem.h"

enum {
	PART_SIZE = 256 * 1024, /* bytes; starting a child costs far less */
	PART_FILES = 64,
	PIPE_SIZE = 1024 * 1024, /* a part's output, so that no child waits */
	PASS_SIZE = 128 * 1024,
	WAITING = 4 /* children a job, most of them done, not passed on yet */
};

struct child {
	pid_t pid;
	int pipes[2]; /* of its standard output and error; -1: ended */
	bool at_work;
	size_t beg, end; /* the inputs */
};

enum { OUT, ERR };

struct crew {
	const struct jobs_work *work;
	const struct inputs *list;
	size_t next; /* input that no child has */
	size_t jobs;
	size_t at_work;
	struct child *ring; /* of SIZE; HEAD is passed on */
	size_t size, head, len;
	struct pollfd *polled; /* one a pipe of the head, one a child */
	struct buffer passed;
	size_t cut;		/* bytes yet to be left out */
	_Atomic uint64_t *told; /* by all children: shared with them */
	int result;
};

static int
worse(int a, int b)
{
	return a > b ? a : b;
}

static int
read_part(const struct jobs_work *work, const struct inputs *list, size_t beg,
    size_t end, uint64_t *told)
{
	int status = STATUS_CLEAN;

	for (size_t i = beg; i < end; i++)
		status = worse(
		    status, inputs_read(&list->at[i], work->each, work->arg));
	return work->done ? worse(status, work->done(work->arg, told)) : status;
}

static size_t
part_end(const struct inputs *list, size_t beg)
{
	uint64_t size = 0;
	size_t end = beg;

	while (end < list->len && end - beg < PART_FILES && size < PART_SIZE)
		size += list->at[end++].size;
	return end;
}

static struct child *
child_at(struct crew *crew, size_t i)
{
	return &crew->ring[(crew->head + i) % crew->size];
}

/* In the child. The pipes of its elder siblings are none of its business. */
static void
child_run(struct crew *crew, const struct child *child, const int ends[2])
{
	uint64_t told = 0;
	int status;

	for (size_t i = 0; i < crew->len; i++)
		for (int k = OUT; k <= ERR; k++)
			if (child_at(crew, i)->pipes[k] >= 0)
				close(child_at(crew, i)->pipes[k]);
	if (dup2(ends[OUT], STDOUT_FILENO) < 0 ||
	    dup2(ends[ERR], STDERR_FILENO) < 0)
		_exit(STATUS_TROUBLE);
	for (int k = OUT; k <= ERR; k++) {
		close(child->pipes[k]);
		if (ends[k] > STDERR_FILENO)
			close(ends[k]);
	}
	status =
	    read_part(crew->work, crew->list, child->beg, child->end, &told);
	atomic_fetch_or(crew->told, told);
	_exit(status);
}

/* Both pipes, or none and false. */
static bool
open_pipes(int reads[2], int writes[2])
{
	int pair[2];

	for (int k = OUT; k <= ERR; k++) {
		if (pipe2(pair, O_CLOEXEC) != 0) {
			int error = errno;

			if (k == ERR) {
				close(reads[OUT]);
				close(writes[OUT]);
			}
			errno = error;
			return false;
		}
		/* Where that is not allowed, a child may have to wait. */
		fcntl(pair[1], F_SETPIPE_SZ, PIPE_SIZE);
		reads[k] = pair[0];
		writes[k] = pair[1];
	}
	return true;
}

/* Gives the next part to a new child; false with errno set where it cannot. */
static bool
child_start(struct crew *crew)
{
	struct child child = {.at_work = true, .beg = crew->next};
	int writes[2], error;

	child.end = part_end(crew->list, child.beg);
	if (!open_pipes(child.pipes, writes))
		return false;
	child.pid = fork();
	if (child.pid == 0)
		child_run(crew, &child, writes);
	error = errno;
	for (int k = OUT; k <= ERR; k++) {
		close(writes[k]);
		if (child.pid < 0)
			close(child.pipes[k]);
	}
	errno = error;
	if (child.pid < 0)
		return false;
	crew->next = child.end;
	crew->at_work++;
	*child_at(crew, crew->len++) = child;
	return true;
}

/* What cannot be started now is tried again when a child has ended. */
static void
fill_up(struct crew *crew)
{
	while (crew->next < crew->list->len && crew->at_work < crew->jobs &&
	       crew->len < crew->size)
		if (!child_start(crew))
			return;
}

static void
leave_work(struct crew *crew, struct child *child)
{
	if (child->at_work)
		crew->at_work--;
	child->at_work = false;
}

/* Passes on what is in a pipe of the head. */
static void
pass_on(struct crew *crew, int stream)
{
	struct child *head = child_at(crew, 0);
	struct buffer *passed = &crew->passed;
	char *room = buffer_room(passed, PASS_SIZE);
	ssize_t n = read(head->pipes[stream], room, PASS_SIZE);
	size_t cut;

	if (n < 0 && errno == EINTR)
		return;
	if (n <= 0) {
		close(head->pipes[stream]);
		head->pipes[stream] = -1;
		return;
	}
	cut = stream == OUT ? crew->cut : 0;
	if (cut > (size_t)n)
		cut = (size_t)n;
	passed->len = (size_t)n - cut;
	if (cut > 0) {
		crew->cut -= cut;
		memmove(room, room + cut, passed->len);
	}
	if (stream == OUT)
		output_write(passed);
	else if (buffer_write(passed, STDERR_FILENO) != 0)
		crew->result = worse(crew->result, STATUS_TROUBLE);
	passed->len = 0;
}

/*
 * Waits until the head has written something, or another child has ended,
 * whose pipe then hangs up though all that it wrote is still to be read.
 */
static void
wait_for_one(struct crew *crew)
{
	struct child *head = child_at(crew, 0);
	struct pollfd *polled = crew->polled;

	for (int k = OUT; k <= ERR; k++)
		polled[k] = (struct pollfd){head->pipes[k], POLLIN, 0};
	for (size_t i = 1; i < crew->len; i++) {
		struct child *child = child_at(crew, i);

		polled[ERR + i] = (struct pollfd){
		    child->at_work ? child->pipes[OUT] : -1, 0, 0};
	}
	if (poll(polled, ERR + crew->len, -1) < 0)
		return;
	for (int k = OUT; k <= ERR; k++)
		if (polled[k].revents)
			pass_on(crew, k);
	for (size_t i = 1; i < crew->len; i++)
		if (polled[ERR + i].revents)
			leave_work(crew, child_at(crew, i));
}

static void
tell_broken_off(const struct crew *crew, const struct child *child, int sig)
{
	const char *first = crew->list->at[child->beg].path;
	const char *last = crew->list->at[child->end - 1].path;

	trouble("%s%s%s: reading was broken off (%s); what is told of it may "
		"not be all",
	    first, child->end - child->beg > 1 ? " to " : "",
	    child->end - child->beg > 1 ? last : "", strsignal(sig));
}

static void
pass_on_head(struct crew *crew)
{
	struct child *head = child_at(crew, 0);
	int how = 0, result = STATUS_TROUBLE;
	pid_t pid;

	while (head->pipes[OUT] >= 0 || head->pipes[ERR] >= 0) {
		wait_for_one(crew);
		fill_up(crew);
	}
	do
		pid = waitpid(head->pid, &how, 0);
	while (pid < 0 && errno == EINTR);
	if (pid > 0 && WIFEXITED(how))
		result = WEXITSTATUS(how);
	else
		tell_broken_off(crew, head, pid > 0 ? WTERMSIG(how) : 0);
	crew->result = worse(crew->result, result);
	leave_work(crew, head);
	crew->head = (crew->head + 1) % crew->size;
	crew->len--;
}

static int
read_divided(const struct inputs *list, const struct jobs_work *work,
    size_t jobs, _Atomic uint64_t *told)
{
	struct crew crew = {.work = work,
	    .list = list,
	    .jobs = jobs,
	    .size = jobs * WAITING,
	    .told = told};

	crew.ring = mem_zero(crew.size * sizeof(*crew.ring));
	crew.polled = mem_zero((crew.size + 1) * sizeof(*crew.polled));
	if (work->divide)
		crew.cut = work->divide(work->arg);
	for (fill_up(&crew); crew.len > 0; fill_up(&crew))
		pass_on_head(&crew);
	if (crew.next < list->len) {
		trouble("%s and what follows: cannot start a process to read "
			"it: %s",
		    list->at[crew.next].path, strerror(errno));
		crew.result = worse(crew.result, STATUS_TROUBLE);
	}
	free(crew.ring);
	free(crew.polled);
	buffer_free(&crew.passed);
	return crew.result;
}

static int
by_file(const void *a, const void *b)
{
	const struct input *x = *(struct input *const *)a;
	const struct input *y = *(struct input *const *)b;

	if (x->device != y->device)
		return x->device < y->device ? -1 : 1;
	return x->number < y->number ? -1 : x->number > y->number;
}

/* Is a file there twice? Two children may not write it at the same time. */
static bool
names_one_twice(const struct inputs *list)
{
	struct input **at = mem_zero(list->len * sizeof(struct input *));
	bool twice = false;

	for (size_t i = 0; i < list->len; i++)
		at[i] = &list->at[i];
	qsort(at, list->len, sizeof(struct input *), by_file);
	for (size_t i = 1; i < list->len; i++)
		twice |= at[i]->number != 0 && by_file(&at[i - 1], &at[i]) == 0;
	free(at);
	return twice;
}

/* The processors that this process may use. */
static size_t
processors(void)
{
	cpu_set_t set;
	long n;

	if (sched_getaffinity(0, sizeof(set), &set) == 0)
		return (size_t)CPU_COUNT(&set);
	n = sysconf(_SC_NPROCESSORS_ONLN);
	return n > 1 ? (size_t)n : 1;
}

static size_t
count_jobs(const struct options *options, const struct inputs *list,
    const struct jobs_work *work)
{
	if (!work->done || list->in_order || part_end(list, 0) == list->len)
		return 1;
	if (options->in_place && names_one_twice(list))
		return 1;
	return options->jobs > 0 ? options->jobs : processors();
}

int
jobs_each(
    const struct options *options, const struct jobs_work *work, uint64_t *told)
{
	struct inputs list = {0};
	_Atomic uint64_t *shared = MAP_FAILED;
	uint64_t alone = 0;
	size_t jobs;
	int status;

	inputs_list(options, &list);
	jobs = count_jobs(options, &list, work);
	if (jobs > 1)
		shared = mmap(NULL, sizeof(*shared), PROT_READ | PROT_WRITE,
		    MAP_SHARED | MAP_ANONYMOUS, -1, 0);
	if (shared == MAP_FAILED) {
		status = read_part(work, &list, 0, list.len, &alone);
	} else {
		status = read_divided(&list, work, jobs, shared);
		alone = *shared;
		munmap(shared, sizeof(*shared));
	}
	if (told)
		*told |= alone;
	inputs_free(&list);
	return status;
}
