/*
 * The total motion of a digit from session to session. A total is made within
 * one session, by calc/totals; one that lacks a part is kept as such, and never
 * held against another.
 */
#include "calc/progress.h"
#include "calc/progress_internal.h"
#include "text/mem.h"

#define ORDER PROGRESS_ORDER

/* Whole digits; with more than half of its parts it was meant to be a total. */
static bool
is_followed(const struct total *t)
{
	const struct total_definition *d = &total_definitions[t->definition];

	return (d->kind == TOTAL_KIND_FINGER || d->kind == TOTAL_KIND_THUMB) &&
	       2 * t->present > d->parts;
}

void
progress_take_totals(
    struct progress *p, const struct session *s, uint32_t session)
{
	struct totals *all = &p->keys->totals;

	totals_build(all, s);
	for (size_t i = 0; i < all->len; i++) {
		const struct total *t = &all->at[i];
		struct progress_total *to;

		if (!is_followed(t))
			continue;
		to = MEM_PUSH(&p->totals);
		*to = (struct progress_total){
		    .person = p->sessions.at[session].person,
		    .session = session,
		    .definition = (int8_t)t->definition,
		    .side = (int8_t)t->side,
		    .mode = (int8_t)t->mode,
		    .setting = progress_keep_id(p, s, t->setting),
		    .reps = t->reps,
		    .rater = progress_keep_id(p, s, t->rater),
		    .sum = t->sum};
	}
}

/* Apart from the session and the rater. */
static int
by_identity(const struct progress_total *a, const struct progress_total *b)
{
	if (a->person != b->person)
		return ORDER(a->person, b->person);
	if (a->definition != b->definition)
		return ORDER(a->definition, b->definition);
	if (a->mode != b->mode)
		return ORDER(a->mode, b->mode);
	if (a->setting != b->setting)
		return ORDER(a->setting, b->setting);
	if (a->reps != b->reps)
		return ORDER(a->reps, b->reps);
	return ORDER(a->side, b->side);
}

static int
by_total(const void *pa, const void *pb)
{
	const struct progress_total *a = pa, *b = pb;
	int order = by_identity(a, b);

	if (order != 0)
		return order;
	if (a->session != b->session)
		return ORDER(a->session, b->session);
	return ORDER(a->rater, b->rater); /* who has one in a session */
}

bool
progress_totals_alike(
    const struct progress_total *a, const struct progress_total *b)
{
	return by_identity(a, b) == 0;
}

void
progress_order_totals(struct progress *p)
{
	progress_sort(
	    p->totals.at, p->totals.len, sizeof(*p->totals.at), by_total);
	for (size_t i = 0; i < p->totals.len; i++) {
		struct progress_run *run =
		    &p->persons.at[p->totals.at[i].person].totals;

		if (run->count++ == 0)
			run->from = (uint32_t)i;
	}
}
