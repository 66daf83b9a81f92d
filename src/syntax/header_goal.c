/* Goals: each is a head and a value, read as a line of readings is. */
#include "syntax/header.h"
#include "text/mem.h"
#include "vocab/vocab.h"

bool
header_value(struct parse *ps, enum form form, const struct token *a,
    const struct token *b, const struct token *unit)
{
	struct reading_line *l = &ps->reading;
	struct goal *goal = &ps->header.goal;
	struct outcome out[2] = {{0}, {0}};
	struct trial one[2] = {{0}};

	if (!l->head.joint && !l->head.digit && !l->head.measure)
		return parse_fail(ps, a, RULE_SYNTAX,
		    "this goal does not say of which joint it is");
	if (l->head.positions.len > 0)
		return parse_fail(ps, a, RULE_SYNTAX,
		    "a goal names no position: it holds for every one");
	for (int i = 0; i < 2; i++)
		out[i].trials.at = &one[i];
	if (!reading_of_goal(ps, form, a))
		return false;
	if (!value_read(ps, l->axis, l->now.measurement, form, a, b, unit, out))
		return false;
	for (int i = 1; i >= 0; i--)
		if (out[i].made) {
			goal->measurement = (int16_t)out[i].measurement;
			goal->end = one[i].end;
			break;
		}
	goal->unit = (int8_t)(unit ? unit->id : NONE);
	if (unit == NULL &&
	    vocab_measurements[goal->measurement].in == VOCAB_IN_DEG)
		goal->unit = VOCAB_UNIT_DEG;
	goal->side[VOCAB_SIDE_RIGHT] =
	    l->side == VOCAB_SIDE_RIGHT || l->side == SIDE_BOTH;
	goal->side[VOCAB_SIDE_LEFT] =
	    l->side == VOCAB_SIDE_LEFT || l->side == SIDE_BOTH;
	goal->mode = (int8_t)(l->mode < 0 ? NONE : l->mode);
	return true;
}

bool
header_goal(struct parse *ps, const struct token *word, const struct token *by)
{
	struct headers *h = header_scope(ps);
	struct goal *goal = &ps->header.goal;

	goal->by = by ? by->day : DATE_NONE;
	goal->place = header_place(ps, h, word);
	*MEM_PUSH(&h->goals) = *goal;
	return true;
}
