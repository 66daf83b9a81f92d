/* What may follow a value: end feel, pain, what stopped it, by whom ... */
#include "parser.h"
#include "syntax/parse.h"
#include "text/mem.h"

enum { FULL_TURN = 2000 /* tenths: no angle of a joint is beyond it */ };

/* Each qualifier stands at most once in a reading. */
static bool
once(struct parse *ps, enum qualifier which, const struct token *t)
{
	const struct token **seen = &ps->reading.now.seen[which];

	if (*seen) {
		parse_fail(ps, t, RULE_SYNTAX,
		    "'%.*s' says again what '%.*s' said of this reading",
		    QUOTE(ps, t), QUOTE(ps, *seen));
		parse_hint(ps, "keep one of the two");
		return false;
	}
	*seen = t;
	return true;
}

static bool
check_angle(struct parse *ps, const struct token *t, int n)
{
	for (int i = 0; i < n; i++)
		if (t->tenths[i] > FULL_TURN)
			return parse_fail(ps, t, RULE_NUMBER_FORM,
			    "'%.*s': a number is from 0 to 200", QUOTE(ps, t));
	return true;
}

bool
reading_end_feel(struct parse *ps, const struct token *a, const struct token *b)
{
	struct pending *now = &ps->reading.now;

	if (!once(ps, QUALIFIER_END_FEEL, a))
		return false;
	if (!b) {
		now->end_feel[reading_main(now)] = a->id;
		return true;
	}
	if (!now->out[0].made || !now->out[1].made)
		return parse_fail(ps, b, RULE_SYNTAX,
		    "'%.*s' is a second end feel, and this value is of one "
		    "motion",
		    QUOTE(ps, b));
	now->end_feel[0] = a->id;
	now->end_feel[1] = b->id;
	return true;
}

bool
reading_pain(struct parse *ps, const struct token *word,
    const struct token *score, const struct token *onset)
{
	struct pending *now = &ps->reading.now;

	if (!once(ps, QUALIFIER_PAIN, word))
		return false;
	if (score)
		now->pain = score->tenths[0];
	if (onset) {
		if (!check_angle(ps, onset, 1))
			return false;
		now->onset = onset->tenths[0];
	}
	return true;
}

bool
reading_score(struct parse *ps, const struct token *scale)
{
	if (scale->tenths[0] == 100)
		return true;
	return parse_fail(ps, scale, RULE_NUMBER_FORM,
	    "'%.*s': pain is scored out of 10", QUOTE(ps, scale));
}

bool
reading_painful_arc(
    struct parse *ps, const struct token *word, const struct token *range)
{
	struct pending *now = &ps->reading.now;

	if (!once(ps, QUALIFIER_PAINFUL_ARC, word) ||
	    !check_angle(ps, range, 2))
		return false;
	now->arc_low = range->tenths[0];
	now->arc_high = range->tenths[1];
	return true;
}

bool
reading_stopped_by(
    struct parse *ps, const struct token *word, const struct token *cause)
{
	if (!once(ps, QUALIFIER_STOPPED_BY, word))
		return false;
	ps->reading.now.stopped_by = cause->id;
	return true;
}

bool
reading_after(
    struct parse *ps, const struct token *word, const struct token *count)
{
	if (!once(ps, QUALIFIER_AFTER, word))
		return false;
	if (count->tenths[0] % 10 || count->tenths[0] == 0)
		return parse_fail(ps, count, RULE_NUMBER_FORM,
		    "'%.*s': repetitions are a whole number from 1 on",
		    QUOTE(ps, count));
	ps->reading.now.reps = count->tenths[0] / 10;
	return true;
}

bool
reading_text(struct parse *ps, const struct token *text, bool substitution)
{
	*MEM_PUSH(&ps->texts) = (struct parse_text){text, substitution};
	return true;
}

bool
reading_by(struct parse *ps, const struct token *word, const struct token *code)
{
	if (!once(ps, QUALIFIER_BY, word))
		return false;
	ps->reading.now.by = code;
	return true;
}

bool
reading_with(
    struct parse *ps, const struct token *word, const struct token *instrument)
{
	struct pending *now = &ps->reading.now;
	enum vocab_in in = vocab_measurements[now->measurement[0]].in;
	bool linear = vocab_instrument_linear[instrument->id];

	if (!once(ps, QUALIFIER_WITH, word))
		return false;
	if (linear ? in != VOCAB_IN_LENGTH : in == VOCAB_IN_LENGTH)
		return parse_fail(ps, instrument, RULE_SYNTAX,
		    linear ? "a %s measures lengths, and this is none"
			   : "a %s measures angles, and this is a length",
		    vocab_name(VOCAB_CLASS_INSTRUMENT, instrument->id));
	now->with = instrument->id;
	return true;
}
