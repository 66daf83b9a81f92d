/*
 * All that a session says, as bytes that can be compared. Where something
 * stands in its line is left out, since that is what tidying changes.
 */
#include <string.h>

#include "write/tidy.h"

static void
put(struct buffer *out, int64_t number)
{
	buffer_add(out, (const char *)&number, sizeof(number));
}

static void
put_bytes(struct buffer *out, const char *text, size_t len)
{
	put(out, (int64_t)len);
	buffer_add(out, text, len);
}

static void
put_text(struct buffer *out, const char *text)
{
	put(out, text != NULL);
	if (text)
		put_bytes(out, text, strlen(text));
}

static void
put_joints(struct buffer *out, const struct joint_set *set)
{
	put(out, (int64_t)set->right);
	put(out, (int64_t)set->left);
	put(out, (int64_t)set->middle);
}

static void
put_fact(struct buffer *out, const struct fact *fact)
{
	put(out, fact->said);
	put(out, fact->said == SAID ? fact->value : 0);
	put(out, fact->said == SAID ? fact->place.line : 0);
}

static void
put_precaution(struct buffer *out, const struct precaution *p)
{
	put_joints(out, &p->joints);
	put(out, p->motion);
	put(out, p->mode);
	put(out, p->forbids);
	put(out, p->limit);
	put(out, p->unit);
	put(out, p->from);
	put(out, p->until);
	put_text(out, p->reason);
	put(out, p->place.line);
}

static void
put_goal(struct buffer *out, const struct goal *goal)
{
	put(out, goal->measurement);
	put(out, goal->side[0]);
	put(out, goal->side[1]);
	put(out, goal->mode);
	put(out, goal->unit);
	put(out, goal->end);
	put(out, goal->by);
	put(out, goal->place.line);
}

static void
put_headers(struct buffer *out, const struct headers *h)
{
	put_fact(out, &h->born);
	put_fact(out, &h->age);
	put_fact(out, &h->sex);
	put_fact(out, &h->dominant);
	put_fact(out, &h->surgery);
	put_text(out, h->surgery_text);
	put_fact(out, &h->involved);
	put_joints(out, &h->involved_joints);
	put(out, (int64_t)h->opposites.len);
	for (size_t i = 0; i < h->opposites.len; i++) {
		put_joints(out, &h->opposites.at[i].joints);
		put_text(out, h->opposites.at[i].reason);
		put(out, h->opposites.at[i].place.line);
	}
	put(out, (int64_t)h->precautions.len);
	for (size_t i = 0; i < h->precautions.len; i++)
		put_precaution(out, &h->precautions.at[i]);
	put(out, (int64_t)h->goals.len);
	for (size_t i = 0; i < h->goals.len; i++)
		put_goal(out, &h->goals.at[i]);
	put(out, (int64_t)h->remarks.len);
	for (size_t i = 0; i < h->remarks.len; i++) {
		put_text(out, h->remarks.at[i].text);
		put(out, h->remarks.at[i].place.line);
	}
}

static void
put_reading(
    struct buffer *out, const struct session *s, const struct reading *r)
{
	const int64_t numbers[] = {r->line, r->measurement, r->side, r->mode,
	    r->kind, r->unit, r->end_feel, r->stopped_by, r->instrument,
	    r->require, r->twin, r->trials, r->texts, r->setting, r->posture,
	    r->rater, r->step, r->pain, r->pain_onset, r->arc_low, r->arc_high,
	    r->reps};

	for (size_t i = 0; i < sizeof(numbers) / sizeof(*numbers); i++)
		put(out, numbers[i]);
	for (uint32_t i = 0; i < r->trials; i++) {
		const struct trial *t = &s->trials.at[r->first_trial + i];

		put(out, t->start);
		put(out, t->end);
		put(out, t->minuend);
	}
	for (uint32_t i = 0; i < r->texts; i++) {
		const struct reading_text *t = &s->texts.at[r->first_text + i];

		put(out, t->substitution);
		put_bytes(out, session_text(s, t->text), t->text.len);
	}
}

/* Comments and texts to the byte, and what the comments accept. */
static void
put_prose(struct buffer *out, const struct session *s)
{
	put(out, (int64_t)s->acceptances.len);
	for (size_t i = 0; i < s->acceptances.len; i++) {
		const struct acceptance *a = &s->acceptances.at[i];

		put(out, a->target);
		put(out, a->rule);
		put(out, a->has_reason);
		put(out, a->line);
	}
	put(out, (int64_t)s->prose.len);
	for (size_t i = 0; i < s->prose.len; i++) {
		const struct prose *p = &s->prose.at[i];

		put(out, p->line);
		put(out, p->reading);
		put_bytes(out, s->text.data + p->line_at + p->beg,
		    (size_t)(p->end - p->beg));
	}
}

void
tidy_records(struct buffer *out, const struct session *s,
    const struct sink *sink, bool person)
{
	put(out, s->person->said);
	put(out, s->person->code);
	put(out, s->person->line);
	if (person)
		put_headers(out, &s->person->headers);
	put_headers(out, &s->headers);
	put(out, s->said);
	put(out, s->said == SAID ? s->day : 0);
	put(out, s->time);
	put(out, s->label.len);
	if (s->label.len)
		buffer_add(out, session_text(s, s->label), s->label.len);
	put(out, s->line);
	put(out, s->lost);
	put(out, (int64_t)s->readings.len);
	for (size_t i = 0; i < s->readings.len; i++)
		put_reading(out, s, &s->readings.at[i]);
	put_prose(out, s);
	put(out, (int64_t)sink->len);
	for (size_t i = 0; i < sink->len; i++) {
		put(out, sink->at[i]->rule);
		put(out, sink->at[i]->line);
		put(out, sink->at[i]->unread);
	}
}
