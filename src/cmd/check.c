/* check: findings on standard output. */
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

#include "cmd/command.h"
#include "cmd/notes.h"
#include "cmd/output.h"
#include "cmd/watch.h"
#include "text/buffer.h"
#include "text/mem.h"
#include "write/findings.h"
#include "write/sarif.h"

struct check {
	const struct options *options;
	struct findings_style style;
	struct buffer out;
	const char *file;
	int status;
	bool written; /* a finding already */

	/*
	 * Findings come in the order of lines. A header of the person that
	 * later sessions can contradict holds them back until the person
	 * ends.
	 */
	struct {
		struct sink *at;
		size_t len, cap;
	} held;
	uint32_t held_person; /* line of the subject */
};

/* SARIF tells what was accepted too, as suppressed; it does not count. */
static bool
is_wanted(const struct check *check, const struct finding *f)
{
	return findings_shown(f) || (check->options->format == FORMAT_SARIF &&
					f->level != LEVEL_OFF);
}

static void
write_finding(struct check *check, const struct finding *f)
{
	if (check->options->format == FORMAT_SARIF)
		sarif_result(&check->out, check->file, f, !check->written);
	else
		findings_write(&check->out, check->file, f, &check->style);
	check->written = true;
	output_flush_some(&check->out);
}

static void
write_findings(struct check *check, const struct sink *sink)
{
	const struct finding *last = NULL;

	for (size_t i = 0; i < sink->len; i++) {
		struct finding *f = sink->at[i];

		if (check->options->levels[f->rule] != LEVEL_UNSET)
			f->level = check->options->levels[f->rule];
		if (!is_wanted(check, f) || (last && finding_same(f, last)))
			continue;
		last = f;
		if (f->level >= LEVEL_WARNING && !f->accepted)
			check->status = STATUS_FOUND;
		write_finding(check, f);
	}
}

/* Writes what was held back, sorted as one. */
static void
write_held(struct check *check)
{
	struct sink all = {0};

	for (size_t i = 0; i < check->held.len; i++)
		for (size_t k = 0; k < check->held.at[i].len; k++)
			*MEM_PUSH(&all) = check->held.at[i].at[k];
	sink_sort(&all);
	write_findings(check, &all);
	free(all.at);
	for (size_t i = 0; i < check->held.len; i++)
		sink_free(&check->held.at[i]);
	check->held.len = 0;
}

static void
on_session(void *arg, struct session *s, struct sink *sink)
{
	struct check *check = arg;

	check->file = s->file;
	if (check->held.len > 0 && check->held_person != s->person->line)
		write_held(check);
	if (s->person->headers.opposites.len == 0) {
		write_findings(check, sink);
		return;
	}
	check->held_person = s->person->line;
	*MEM_PUSH(&check->held) = *sink;
	*sink = (struct sink){0};
}

static void
on_file_end(void *arg, const char *file)
{
	struct check *check = arg;

	check->file = file;
	write_held(check);
}

/* What a job has left, at the end of its files. */
static int
on_done(void *arg, uint64_t *told)
{
	struct check *check = arg;

	(void)told;
	output_write(&check->out);
	return check->status;
}

static int
check_once(const struct options *options)
{
	struct check check = {.options = options,
	    .status = STATUS_CLEAN,
	    .style = {.brief = options->brief}};
	struct notes_handler handler = {.arg = &check,
	    .session = on_session,
	    .file_end = on_file_end,
	    .done = options->format == FORMAT_SARIF ? NULL : on_done};
	int status;

	check.style.json = options->format == FORMAT_JSON;
	check.style.colour =
	    options->format == FORMAT_TEXT && options_colour(options);
	if (options->format == FORMAT_SARIF)
		sarif_begin(&check.out);
	status = notes_each(options, &handler, NULL);
	if (status < check.status)
		status = check.status;
	if (options->format == FORMAT_SARIF) {
		sarif_end(&check.out, status, status != STATUS_TROUBLE);
		output_write(&check.out);
	}
	buffer_free(&check.out);
	free(check.held.at);
	return status;
}

int
cmd_check(const struct options *options)
{
	return options->watch ? watch(options, check_once)
			      : check_once(options);
}
