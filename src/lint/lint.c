/*
 * Runs the rules over each session in turn: the table below is their order.
 * The rules of values come first, since they mark the readings that the
 * others leave out; acceptances come last, since they see all findings; and
 * only then is the session remembered, so that "earlier" means earlier.
 */
#include "lint/lint.h"

#include <stdio.h>
#include <stdlib.h>

#include "calc/value.h"
#include "lint/internal.h"
#include "text/mem.h"

static lint_rules *const rules[] = {lint_values, lint_rounded, lint_axis,
    lint_active_passive, lint_history, lint_missing, lint_headers, lint_safety,
    lint_privacy, lint_dates};

struct lint *
lint_new(const struct lint_options *options)
{
	struct lint *lint = mem_zero(sizeof(*lint));

	lint->options = *options;
	lint->history = history_new();
	return lint;
}

void
lint_free(struct lint *lint)
{
	if (!lint)
		return;
	groups_free(&lint->groups);
	lookup_free(&lint->lookup);
	history_free(lint->history);
	free(lint);
}

void
lint_reset(struct lint *lint)
{
	history_reset(lint->history);
	lint->said_no_subject = false;
	lint->said_no_session = false;
	lint->future_surgery_line = 0;
}

void
lint_session(struct lint *lint, struct session *s, struct sink *sink)
{
	groups_build(&lint->groups, s);
	for (size_t i = 0; i < sizeof(rules) / sizeof(rules[0]); i++)
		rules[i](lint, s, sink);
	lint_acceptances(s, sink);
	history_update(lint, s);
}

/* A step is known only where the header in force gives it. */
static int32_t
at_least_step(int32_t tolerance, const struct reading *r)
{
	int32_t step;

	if (r->step == NO_VALUE)
		return tolerance;
	step = lint_base(r->step, r->unit);
	return step > tolerance ? step : tolerance;
}

int32_t
lint_tolerance_base(
    const struct lint *lint, const struct reading *a, const struct reading *b)
{
	enum vocab_in in = reading_measurement(a)->in;

	if (in == VOCAB_IN_SCORE || in == VOCAB_IN_LEVEL)
		return 0;
	return at_least_step(at_least_step(lint->options.tolerance, a), b);
}

int32_t
lint_tolerance(
    const struct lint *lint, const struct reading *a, const struct reading *b)
{
	int32_t tolerance = lint_tolerance_base(lint, a, b);

	return a->unit == VOCAB_UNIT_CM ? tolerance / 10 : tolerance;
}

static struct lint_label
label_of(const struct reading *r, const char *motion)
{
	const char *part[] = {
	    r->side == NONE ? "" : vocab_name(VOCAB_CLASS_SIDE, r->side),
	    reading_measurement(r)->joint_name, motion,
	    r->mode == NONE ? "" : vocab_name(VOCAB_CLASS_MODE, r->mode)};
	struct lint_label label = {""};
	size_t n = 0;

	for (size_t i = 0; i < sizeof(part) / sizeof(part[0]); i++) {
		if (n > 0 && *part[i])
			label.text[n++] = ' ';
		for (const char *p = part[i]; *p && n + 2 < sizeof(label.text);
		     p++)
			label.text[n++] = *p;
	}
	label.text[n] = '\0';
	return label;
}

struct lint_label
lint_label(const struct reading *r)
{
	return label_of(r, reading_measurement(r)->motion_name);
}

struct lint_label
lint_label_written(const struct reading *r)
{
	return label_of(r, r->twin ? "" : reading_measurement(r)->motion_name);
}

struct lint_figure
lint_figure(int64_t hundredths, int unit)
{
	struct lint_figure figure;
	char number[24];

	number_text(hundredths, number);
	if (unit == VOCAB_UNIT_MM || unit == VOCAB_UNIT_CM)
		snprintf(figure.text, sizeof(figure.text), "%s %s", number,
		    vocab_name(VOCAB_CLASS_UNIT, unit));
	else
		snprintf(figure.text, sizeof(figure.text), "%s", number);
	return figure;
}
