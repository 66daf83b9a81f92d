/*
 * The step from a reading that the parser has seen whole to records of the
 * session: one, or two where a value is of two motions or of both sides.
 */
#include "parser.h"
#include "syntax/parse.h"
#include "text/mem.h"
#include "vocab/vocab.h"

int
reading_main(const struct pending *now)
{
	if (!now->out[0].made)
		return 1;
	if (!now->out[1].made)
		return 0;
	return vocab_measurements[now->out[1].measurement].motion ==
		       VOCAB_MOTION_FLEXION
		   ? 1
		   : 0;
}

static void
commit_texts(struct parse *ps, struct reading *r)
{
	struct session *s = ps->session;

	r->first_text = (uint32_t)s->texts.len;
	for (size_t i = 0; i < ps->texts.len; i++) {
		struct reading_text *text = MEM_PUSH(&s->texts);

		text->text = parse_text_ref(ps, ps->texts.at[i].token);
		text->substitution = ps->texts.at[i].substitution;
		for (size_t k = s->prose.len; k-- > 0;) {
			if (s->prose.at[k].line != ps->line)
				break;
			if (s->prose.at[k].beg ==
			    ps->texts.at[i].token->beg + 1)
				s->prose.at[k].reading =
				    (int)s->readings.len - 1;
		}
	}
	r->texts = (uint32_t)ps->texts.len;
}

static void
commit_instrument(const struct parse *ps, struct reading *r)
{
	const struct vocab_measurement *m = reading_measurement(r);
	int with = ps->reading.now.with;
	int which = m->in == VOCAB_IN_LENGTH;

	r->step = NO_VALUE;
	r->instrument = NONE;
	if (m->in == VOCAB_IN_DEG || m->in == VOCAB_IN_LENGTH)
		r->instrument = (int8_t)ps->measuring.instrument[which].id;
	if (with != NONE && with != r->instrument) {
		r->instrument = (int8_t)with;
		return;
	}
	if (r->instrument >= 0)
		r->step = ps->measuring.instrument[which].step;
	/* A step in centimetres that is no whole tenth cannot be held. */
	if (r->unit == VOCAB_UNIT_CM && r->step != NO_VALUE)
		r->step = r->step % 10 ? NO_VALUE : r->step / 10;
}

static int8_t
unit_of(const struct reading *r, int written)
{
	if (r->kind == KIND_NOT_TESTED || r->kind == KIND_WNL ||
	    r->kind == KIND_WFL)
		return NONE;
	switch (reading_measurement(r)->in) {
	case VOCAB_IN_DEG:
		return VOCAB_UNIT_DEG;
	case VOCAB_IN_LENGTH:
		return (int8_t)written;
	default:
		return NONE;
	}
}

static void
commit_one(struct parse *ps, int which, int side, int mode)
{
	struct session *s = ps->session;
	const struct pending *now = &ps->reading.now;
	const struct outcome *out = &now->out[which];
	bool chief = which == reading_main(now);
	struct reading *r = MEM_PUSH(&s->readings);

	*r = (struct reading){.line = ps->line,
	    .line_at = ps->line_at,
	    .beg = now->first->beg,
	    .end = ps->tokens.at[ps->at - 2].end,
	    .measurement = (int16_t)out->measurement,
	    .side = (int8_t)side,
	    .mode = (int8_t)mode,
	    .kind = (uint8_t)out->kind,
	    .end_feel = (int8_t)now->end_feel[which],
	    .stopped_by = chief ? (int8_t)now->stopped_by : NONE,
	    .require = (uint8_t)ps->measuring.require,
	    .first_trial = (uint32_t)s->trials.len,
	    .trials = (uint32_t)out->trials.len,
	    .pain = chief ? now->pain : NO_VALUE,
	    .pain_onset = chief ? now->onset : NO_VALUE,
	    .arc_low = chief ? now->arc_low : NO_VALUE,
	    .arc_high = chief ? now->arc_high : NO_VALUE,
	    .reps = now->reps};
	r->unit = unit_of(r, now->unit);
	for (size_t i = 0; i < out->trials.len; i++)
		*MEM_PUSH(&s->trials) = out->trials.at[i];
	r->rater = now->by ? intern_id(ps->pool, ps->text + now->by->beg,
				 (size_t)(now->by->end - now->by->beg))
			   : ps->measuring.rater;
	commit_instrument(ps, r);
	positions_of(ps, which, r);
	if (chief)
		commit_texts(ps, r);
}

/* Flexion before extension, else in the order named. */
static void
commit_side(struct parse *ps, int side, int mode)
{
	struct pending *now = &ps->reading.now;
	int first = ps->reading.axis == AXIS_HINGE ? 1 : 0;
	bool pair = now->out[0].made && now->out[1].made;

	for (int i = 0; i < 2; i++) {
		int which = i == 0 ? first : 1 - first;

		if (!now->out[which].made)
			continue;
		commit_one(ps, which, side, mode);
		if (pair)
			ps->session->readings.at[ps->session->readings.len - 1]
			    .twin = i == 0 ? 1 : -1;
	}
}

void
reading_commit(struct parse *ps, int mode)
{
	const struct reading_line *l = &ps->reading;

	if (!vocab_measurements[l->now.measurement[0]].sided) {
		commit_side(ps, NONE, mode);
	} else if (l->side == SIDE_BOTH) {
		commit_side(ps, VOCAB_SIDE_RIGHT, mode);
		commit_side(ps, VOCAB_SIDE_LEFT, mode);
	} else {
		commit_side(ps, l->side, mode);
	}
}
