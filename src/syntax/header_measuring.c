/* Headers of the measuring: they hold from their line on. */
#include "syntax/header.h"
#include "vocab/vocab.h"

bool
header_rater(struct parse *ps, const struct token *code)
{
	ps->measuring.rater = intern_id(
	    ps->pool, ps->text + code->beg, (size_t)(code->end - code->beg));
	return true;
}

bool
header_instrument(struct parse *ps, const struct token *name,
    const struct token *step, const struct token *unit)
{
	bool linear = vocab_instrument_linear[name->id];
	int32_t tenths = NO_VALUE;

	if (step) {
		tenths = step->tenths[0];
		if (tenths == 0 || tenths > 2000)
			return parse_fail(ps, step, RULE_NUMBER_FORM,
			    "'%.*s': a step is more than 0, and 200 at most",
			    QUOTE(ps, step));
		if (linear != (unit && unit->id != VOCAB_UNIT_DEG)) {
			parse_fail(ps, unit ? unit : step, RULE_NUMBER_FORM,
			    linear ? "'%.*s': the step of a %s is in mm or cm"
				   : "'%.*s': the step of a %s is in degrees",
			    QUOTE(ps, unit ? unit : step),
			    vocab_name(VOCAB_CLASS_INSTRUMENT, name->id));
			return false;
		}
		if (unit && unit->id == VOCAB_UNIT_CM)
			tenths *= 10;
	}
	ps->measuring.instrument[linear].id = name->id;
	ps->measuring.instrument[linear].step = tenths;
	return true;
}

bool
header_mode(struct parse *ps, const struct token *mode)
{
	ps->measuring.mode = mode->id;
	return true;
}

bool
header_position_word(struct parse *ps, const struct token *t)
{
	return positions_add(ps, &ps->header.positions, t);
}

bool
header_position(struct parse *ps)
{
	ps->measuring.positions = ps->header.positions;
	return true;
}

bool
header_requirement(struct parse *ps, const struct token *t)
{
	ps->header.require |= 1u << t->id;
	return true;
}

bool
header_require(struct parse *ps)
{
	ps->measuring.require = ps->header.require;
	return true;
}
