/*
 * The totals of digits in the table of progress: held against the first and
 * the previous session that has them, like a motion, but with no figure of
 * error, since none is known for a total.
 */
#include <stdlib.h>

#include "calc/totals.h"
#include "write/progress_table.h"
#include "write/progress_words.h"
#include "write/summary_internal.h"

/* Totals that are alike, by session and rater. */
struct alike {
	const struct progress_total *at;
	uint32_t n;
};

/* Those of one session, from the first with a figure on. */
struct visit {
	const struct progress_total *at;
	uint32_t n;
	const struct progress_total *last; /* with a figure */
};

/* The first, the previous and the last session; how many have a figure. */
struct course {
	struct visit first, previous, last;
	uint32_t sessions;
};

static struct alike
alike_from(const struct progress *p, uint32_t from, uint32_t end)
{
	const struct progress_total *at = &p->totals.at[from];
	uint32_t n = 1;

	while (from + n < end && progress_totals_alike(at, &at[n]))
		n++;
	return (struct alike){at, n};
}

/* Of the first session with a figure from *I on, if any; *I moves behind it. */
static struct visit
next_visit(struct alike all, uint32_t *i)
{
	struct visit found = {NULL, 0, NULL};

	while (*i < all.n && all.at[*i].sum.n == 0)
		++*i;
	found.at = all.at + *i;
	for (; *i < all.n && all.at[*i].session == found.at->session; ++*i) {
		if (all.at[*i].sum.n > 0)
			found.last = &all.at[*i];
		found.n++;
	}
	return found;
}

static struct course
course_of(struct alike all)
{
	struct course c = {0};

	for (uint32_t i = 0;;) {
		struct visit now = next_visit(all, &i);

		if (now.n == 0)
			return c;
		if (c.sessions++ == 0)
			c.first = now;
		c.previous = c.last;
		c.last = now;
	}
}

static int
by_rater(const void *rater, const void *total)
{
	const uint32_t *a = rater;
	const struct progress_total *b = total;

	return (*a > b->rater) - (*a < b->rater);
}

/* The one that TO is held against: by the same rater, else the last. */
static const struct progress_total *
match(const struct visit *of, const struct progress_total *to)
{
	const struct progress_total *same =
	    bsearch(&to->rater, of->at, of->n, sizeof(*of->at), by_rater);

	return same && same->sum.n > 0 ? same : of->last;
}

static void
add_heading(struct progress_table *t, const struct progress_total *total)
{
	struct buffer *line = &t->line;

	buffer_printf(line, "%s, %s: total %s motion",
	    total_definitions[total->definition].name,
	    vocab_name(VOCAB_CLASS_SIDE, total->side),
	    progress_mode_name(total->mode));
	if (total->setting != 0)
		buffer_printf(
		    line, ", %s", progress_text(t->p, total->setting));
	if (total->reps != NO_VALUE)
		buffer_printf(line, ", after %d reps", (int)total->reps);
	progress_table_across(t, PROGRESS_INDENT);
}

static void
add_earlier(struct progress_table *t, const char *which,
    const struct progress_total *from, const struct progress_total *to,
    bool time)
{
	progress_table_begin(t, which, from->session, time);
	summary_number(&t->table.text, from->sum);
	table_next(&t->table);
	summary_signed(&t->table.text, mean_less(to->sum, from->sum));
	table_next(&t->table);
	table_next(&t->table);
	buffer_puts(&t->table.text, progress_beyond_word(PROGRESS_DOUBT));
	table_row(&t->table);
}

static void
add_rater(struct progress_table *t, const char *since,
    const struct progress_total *from, const struct progress_total *to)
{
	if (from->rater == to->rater && to->rater != UNKNOWN_TEXT)
		return;
	buffer_printf(&t->line, "since %s: rater ", since);
	progress_rater_words(&t->line, t->p, from->rater);
	buffer_puts(&t->line, ", now ");
	progress_rater_words(&t->line, t->p, to->rater);
	progress_table_across(t, PROGRESS_DEEPER);
}

/* One total of the last session and what it is held against. */
static void
add_this(struct progress_table *t, const struct course *c,
    const struct progress_total *to, bool time)
{
	const struct progress_total *first = match(&c->first, to);
	const struct progress_total *previous =
	    c->sessions > 2 ? match(&c->previous, to) : NULL;

	add_earlier(t, "first", first, to, time);
	if (previous)
		add_earlier(t, "previous", previous, to, time);
	progress_table_this(t, c->last.n > 1, to->rater, to->session, time);
	summary_number(&t->table.text, to->sum);
	table_row(&t->table);
	add_rater(t, "first", first, to);
	if (previous)
		add_rater(t, "previous", previous, to);
}

/* A missing joint is never 0. */
static void
add_incomplete(struct progress_table *t, struct alike all)
{
	char day[16];

	for (uint32_t i = 0; i < all.n; i++) {
		const struct progress_total *at = &all.at[i];

		if (at->sum.n > 0)
			continue;
		buffer_printf(&t->line, "%s: no total (summary tells why)",
		    date_format(t->p->sessions.at[at->session].day, day));
		progress_table_across(t, PROGRESS_DEEPER);
	}
}

static void
add_course(struct progress_table *t, struct alike all, const struct course *c)
{
	const struct progress_session *s = t->p->sessions.at;
	int32_t first = s[c->first.at->session].day;
	int32_t previous = s[c->previous.at->session].day;
	int32_t last = s[c->last.at->session].day;
	bool time = previous == last || (c->sessions > 2 && first == previous);

	add_heading(t, all.at);
	for (uint32_t i = 0; i < c->last.n; i++)
		if (c->last.at[i].sum.n > 0)
			add_this(t, c, &c->last.at[i], time);
	buffer_puts(&t->line, "unknown: no figure of error is known for it");
	progress_table_across(t, PROGRESS_DEEPER);
	add_incomplete(t, all);
}

bool
progress_table_totals(
    struct progress_table *t, const struct progress_person *who)
{
	uint32_t end = who->totals.from + who->totals.count;
	bool any = false;

	for (uint32_t i = who->totals.from; i < end;) {
		struct alike all = alike_from(t->p, i, end);
		struct course c = course_of(all);

		if (c.sessions > 1) {
			add_course(t, all, &c);
			any = true;
		}
		i += all.n;
	}
	return any;
}

bool
progress_has_totals(const struct progress *p)
{
	uint32_t end = (uint32_t)p->totals.len;

	for (uint32_t i = 0; i < end;) {
		struct alike all = alike_from(p, i, end);

		if (course_of(all).sessions > 1)
			return true;
		i += all.n;
	}
	return false;
}
