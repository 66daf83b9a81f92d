/*
 * Header lines: what all share, those that begin a person or a session, and
 * what one that cannot be read leaves unknown. Each call comes when the whole
 * line has been read, so a header that is unreadable changes nothing but
 * becomes unknown.
 */
#include "syntax/header.h"

#include <stdlib.h>
#include <string.h>

#include "vocab/vocab.h"

void
header_line_begin(struct parse *ps)
{
	ps->header = (struct header_line){.digit = NONE,
	    .precaution = {.motion = NONE,
		.mode = NONE,
		.unit = NONE,
		.from = DATE_NONE,
		.until = DATE_NONE},
	    .goal = {.mode = NONE, .unit = NONE, .by = DATE_NONE}};
}

void
headers_reset(struct headers *h)
{
	struct headers keep = *h;

	*h = (struct headers){.arena = keep.arena};
	arena_reset(&h->arena);
	h->opposites.at = keep.opposites.at;
	h->opposites.cap = keep.opposites.cap;
	h->precautions.at = keep.precautions.at;
	h->precautions.cap = keep.precautions.cap;
	h->goals.at = keep.goals.at;
	h->goals.cap = keep.goals.cap;
	h->remarks.at = keep.remarks.at;
	h->remarks.cap = keep.remarks.cap;
}

void
headers_free(struct headers *h)
{
	free(h->opposites.at);
	free(h->precautions.at);
	free(h->goals.at);
	free(h->remarks.at);
	arena_free(&h->arena);
}

struct headers *
header_scope(struct parse *ps)
{
	return ps->session->said == SAID_NOTHING ? &ps->session->person->headers
						 : &ps->session->headers;
}

struct place
header_place(struct parse *ps, struct headers *h, const struct token *t)
{
	struct place place = parse_place(ps, t);

	place.text = arena_text(&h->arena, place.text, place.len);
	return place;
}

const char *
header_text(struct parse *ps, struct headers *h, const struct token *t)
{
	struct text_ref ref;

	if (!t)
		return NULL;
	ref = parse_text_ref(ps, t);
	return arena_text(&h->arena, session_text(ps->session, ref), ref.len);
}

bool
header_session(struct parse *ps, const struct token *date,
    const struct token *time, const struct token *label)
{
	struct session *s = ps->session;

	s->said = SAID;
	s->day = date->day;
	s->time = time ? time->minutes : TIME_NONE;
	if (label)
		s->label = parse_text_ref(ps, label);
	s->date_beg = date->beg;
	s->date_end = date->end;
	return true;
}

bool
header_subject(struct parse *ps, const struct token *code)
{
	struct person *p = ps->session->person;

	p->said = SAID;
	p->code = intern_id(
	    ps->pool, ps->text + code->beg, (size_t)(code->end - code->beg));
	return true;
}

static void
forget_session(struct parse *ps)
{
	struct session *s = ps->session;
	const struct token *t = &ps->tokens.at[ps->tokens.len > 1 ? 1 : 0];

	s->said = SAID_UNREADABLE;
	s->date_beg = t->beg;
	s->date_end = t->end;
}

void
header_unreadable(struct parse *ps, int header)
{
	/* 1 + where the value of a header of the person stands. */
	static const size_t fact_of[VOCAB_HEADER_COUNT] = {
	    [VOCAB_HEADER_BORN] = 1 + FACT(born),
	    [VOCAB_HEADER_AGE] = 1 + FACT(age),
	    [VOCAB_HEADER_SEX] = 1 + FACT(sex),
	    [VOCAB_HEADER_DOMINANT] = 1 + FACT(dominant),
	    [VOCAB_HEADER_SURGERY] = 1 + FACT(surgery),
	    [VOCAB_HEADER_INVOLVED] = 1 + FACT(involved)};
	struct measuring *m = &ps->measuring;

	if (header == VOCAB_HEADER_SESSION) {
		forget_session(ps);
		return;
	}
	if (header == VOCAB_HEADER_SUBJECT) {
		ps->session->person->said = SAID_UNREADABLE;
		return;
	}
	if (fact_of[header]) {
		char *h = (char *)header_scope(ps);

		((struct fact *)(h + fact_of[header] - 1))->said =
		    SAID_UNREADABLE;
		return;
	}
	switch (header) {
	case VOCAB_HEADER_RATER:
		m->rater = UNKNOWN_TEXT;
		break;
	case VOCAB_HEADER_INSTRUMENT:
		for (int i = 0; i < 2; i++)
			m->instrument[i].id = UNKNOWN;
		break;
	case VOCAB_HEADER_MODE:
		m->mode = UNKNOWN;
		break;
	case VOCAB_HEADER_POSITION:
		m->positions = (struct positions){.said = SAID_UNREADABLE};
		break;
	case VOCAB_HEADER_REQUIRE:
		m->require = 0;
		break;
	default: /* those that add up have no one value to lose */
		break;
	}
}

void
header_warn(struct parse *ps, int header)
{
	/* Somebody who wrote one of these relies on it. */
	static const char *const lost_with[VOCAB_HEADER_COUNT] = {
	    [VOCAB_HEADER_PRECAUTION] =
		"no reading is held against the precaution",
	    [VOCAB_HEADER_SUBJECT] = "the readings below it belong to nobody",
	    [VOCAB_HEADER_SESSION] = "the readings below it have no date"};
	static const char until[] = "until this line can be read, ";
	struct finding *f;
	const char *hint, *link;

	if (!lost_with[header] || ps->sink->len == 0)
		return;
	f = ps->sink->at[ps->sink->len - 1];
	hint = f->hint ? f->hint : "";
	link = !*hint ? "" : strstr(hint, until) ? ", and " : "; ";
	sink_hint(ps->sink, f, "%s%s%s%s", hint, link,
	    strstr(hint, until) ? "" : until, lost_with[header]);
}
