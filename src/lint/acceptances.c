/*
 * Accepting a finding in place: a comment names the rules that it accepts on
 * its line, or on the next one. What could not be read is never accepted. The
 * findings of this file can be accepted too, except those about accepting
 * them, or a comment could vouch for itself.
 */
#include <stdlib.h>

#include "lint/internal.h"
#include "text/mem.h"

static int
compare_key(const struct acceptance *a, uint32_t line, int rule)
{
	if (a->target != line)
		return a->target < line ? -1 : 1;
	return (a->rule > rule) - (a->rule < rule);
}

static int
by_target(const void *pa, const void *pb)
{
	const struct acceptance *a = *(struct acceptance *const *)pa;
	const struct acceptance *b = *(struct acceptance *const *)pb;
	int cmp = compare_key(a, b->target, b->rule);

	return cmp ? cmp : (a > b) - (a < b);
}

/* The first of N that accepts RULE on LINE, or N. */
static size_t
find_first(struct acceptance *const *sorted, size_t n, uint32_t line, int rule)
{
	size_t low = 0, high = n;

	while (low < high) {
		size_t mid = low + (high - low) / 2;

		if (compare_key(sorted[mid], line, rule) < 0)
			low = mid + 1;
		else
			high = mid;
	}
	if (low < n && compare_key(sorted[low], line, rule) == 0)
		return low;
	return n;
}

/* Marks the findings from number FIRST on, and what accepts them. */
static void
accept_findings(
    struct acceptance **sorted, size_t n, struct sink *sink, size_t first)
{
	for (size_t i = first; i < sink->len; i++) {
		struct finding *f = sink->at[i];
		size_t k;

		if (rule_table[f->rule].group == RULES_READING)
			continue;
		k = find_first(sorted, n, f->line, (int)f->rule);
		if (k < n)
			f->accepted = sorted[k]->used = true;
	}
	/* Said twice, it is accepted twice. */
	for (size_t k = 1; k < n; k++)
		if (sorted[k - 1]->used &&
		    compare_key(sorted[k], sorted[k - 1]->target,
			sorted[k - 1]->rule) == 0)
			sorted[k]->used = true;
}

static void
report_unused(
    const struct session *s, const struct acceptance *a, struct sink *sink)
{
	struct place place =
	    session_place(s, a->line, a->line_at, a->beg, a->end);
	struct finding *f;

	if (a->rule < 0) {
		f = sink_add(sink, RULE_ACCEPTANCE_UNUSED, &place, NO_READING,
		    "no rule is called `%.*s`, so nothing is accepted",
		    (int)(place.end - place.beg), place.text + place.beg);
		sink_hint(sink, f,
		    "write the name that stands in brackets behind the "
		    "finding");
	} else if (rule_table[a->rule].group == RULES_READING) {
		f = sink_add(sink, RULE_ACCEPTANCE_UNUSED, &place, NO_READING,
		    "%s cannot be accepted: what was not read would be lost",
		    rule_table[a->rule].name);
		sink_hint(sink, f, "correct the line that was not read");
	} else if (a->target == 0) {
		f = sink_add(sink, RULE_ACCEPTANCE_UNUSED, &place, NO_READING,
		    "no line follows in which %s could be accepted",
		    rule_table[a->rule].name);
		sink_hint(sink, f,
		    "write it at the end of the line that it is about, or "
		    "take it out");
	} else {
		f = sink_add(sink, RULE_ACCEPTANCE_UNUSED, &place, NO_READING,
		    "there is no %s to accept in line %u",
		    rule_table[a->rule].name, (unsigned)a->target);
		sink_hint(sink, f,
		    "take the acceptance out, so that it hides nothing later");
	}
}

static void
report_bare(
    const struct session *s, const struct acceptance *a, struct sink *sink)
{
	struct place place =
	    session_place(s, a->line, a->line_at, a->beg, a->end);
	struct finding *f =
	    sink_add(sink, RULE_ACCEPTANCE_WITHOUT_REASON, &place, NO_READING,
		"%s is accepted without a reason", rule_table[a->rule].name);

	sink_hint(sink, f, "say why it is right: # accept %s: measured twice",
	    rule_table[a->rule].name);
}

static bool
is_about_accepting(const struct acceptance *a)
{
	return a->rule >= 0 && rule_table[a->rule].group == RULES_ACCEPTANCE;
}

/* A session with a lost reading reports none of these: it may once more. */
static bool
is_held_back(const struct session *s, const struct acceptance *a)
{
	return s->lost && a->rule >= 0 &&
	       rule_table[a->rule].group == RULES_MISSING;
}

/* Says what is wrong with those that are, or are not, ABOUT accepting. */
static void
report(const struct session *s, struct sink *sink, bool about)
{
	for (size_t i = 0; i < s->acceptances.len; i++) {
		const struct acceptance *a = &s->acceptances.at[i];

		if (is_about_accepting(a) != about)
			continue;
		if (!a->used && is_held_back(s, a))
			continue;
		if (!a->used)
			report_unused(s, a, sink);
		else if (!a->has_reason)
			report_bare(s, a, sink);
	}
}

void
lint_acceptances(struct session *s, struct sink *sink)
{
	size_t n = s->acceptances.len, first;
	struct acceptance **sorted;

	if (n == 0)
		return;
	sorted = mem_resize(NULL, n, sizeof(*sorted));
	for (size_t i = 0; i < n; i++)
		sorted[i] = &s->acceptances.at[i];
	qsort(sorted, n, sizeof(*sorted), by_target);
	accept_findings(sorted, n, sink, 0);
	first = sink->len;
	report(s, sink, false);
	accept_findings(sorted, n, sink, first);
	report(s, sink, true);
	free(sorted);
}
