/* The value of a reading made at random, in any way that means the same. */
#include "random_ways.h"

static void
put_figure(struct buffer *out, int tenths)
{
	buffer_uint(out, (uint64_t)tenths / 10);
	if (tenths % 10)
		buffer_printf(out, ".%d", tenths % 10);
}

static void
put_range(struct buffer *out, struct made_ways *ways, int start, int end)
{
	static const char *const dashes[] = {
	    "-", "\xe2\x80\x93", " - ", " to ", "\xc2\xb0-"};
	static const char *const ends[] = {"", "", "\xc2\xb0", " deg"};

	put_figure(out, start);
	buffer_puts(out, dashes[ways_pick(ways, 5)]);
	put_figure(out, end);
	buffer_puts(out, ends[ways_pick(ways, 4)]);
}

static void
put_triple(struct buffer *out, struct made_ways *ways, int a, int b, int c)
{
	char dash = ways_pick(ways, 3) == 1 ? '/' : '-';

	put_figure(out, a);
	buffer_putc(out, dash);
	put_figure(out, b);
	buffer_putc(out, dash);
	put_figure(out, c);
}

/* A length: its unit stands behind the last figure. */
static void
put_length(struct buffer *out, struct made_ways *ways,
    const struct made_value *v, uint32_t i)
{
	if (v->form == MADE_LENGTH_RANGE) {
		put_figure(out, v->start[i]);
		buffer_puts(out, ways_pick(ways, 2) ? " to " : "-");
	}
	put_figure(out, v->end[i]);
	buffer_puts(out, ways_pick(ways, 2) ? "" : " ");
	ways_word(out, ways, v->cm ? "cm" : "mm");
}

static void
put_outcome(
    struct buffer *out, struct made_ways *ways, const struct made_value *v)
{
	static const int outcomes[] = {
	    [MADE_NOT_TESTED] = VOCAB_OUTCOME_NOT_TESTED,
	    [MADE_WNL] = VOCAB_OUTCOME_WNL,
	    [MADE_WFL] = VOCAB_OUTCOME_WFL};

	ways_name(out, ways, VOCAB_CLASS_OUTCOME, outcomes[v->form]);
	if (v->form == MADE_NOT_TESTED)
		buffer_puts(out, " \"invented reason\"");
}

static void
put_trial(struct buffer *out, struct made_ways *ways,
    const struct made_value *v, uint32_t i)
{
	static const char *const before[MADE_FORMS] = {[MADE_LACKS] = "lacks ",
	    [MADE_HYPER] = "hyper ",
	    [MADE_FIXED] = "fixed "};

	switch (v->form) {
	case MADE_RANGE:
		put_range(out, ways, v->start[i], v->end[i]);
		break;
	case MADE_TRIPLE:
		put_triple(out, ways, v->start[i], 0, v->end[i]);
		break;
	case MADE_LESS:
		put_figure(out, v->start[i] + v->end[i]);
		ways_word(out, ways, " less ");
		put_figure(out, v->start[i]);
		break;
	case MADE_NOT_TESTED:
	case MADE_WNL:
	case MADE_WFL:
		put_outcome(out, ways, v);
		break;
	case MADE_END:
	case MADE_SCORE:
		put_figure(out, v->end[i]);
		break;
	case MADE_LENGTH:
	case MADE_LENGTH_RANGE:
		put_length(out, ways, v, i);
		break;
	case MADE_LEVEL:
		ways_name(out, ways, VOCAB_CLASS_LEVEL, v->end[i]);
		break;
	default:
		ways_word(out, ways, before[v->form]);
		put_figure(out, v->end[i]);
	}
}

static bool
starts_above_zero(const struct made_value *v)
{
	for (uint32_t i = 0; i < v->trials; i++)
		if (v->start[i] == 0)
			return false;
	return true;
}

/* All trials of a value are of one form, also where it is another one. */
static void
put_trials(struct buffer *out, struct made_ways *ways, bool whole,
    const struct made_value *v)
{
	bool equal = ways_take(ways, WAY_EQUAL_ENDS, 2, v->form == MADE_FIXED);
	bool from_zero =
	    ways_take(ways, WAY_FROM_ZERO, 2, v->form == MADE_HYPER && !whole);
	bool zero = ways_take(ways, WAY_ZERO_BEFORE, 4,
	    v->form == MADE_RANGE && whole && starts_above_zero(v));

	for (uint32_t i = 0; i < v->trials; i++) {
		if (i > 0)
			ways_gap(out, ways);
		if (equal)
			put_range(out, ways, v->end[i], v->end[i]);
		else if (from_zero)
			put_range(out, ways, 0, v->end[i]);
		else if (zero)
			put_triple(out, ways, 0, v->start[i], v->end[i]);
		else
			put_trial(out, ways, v, i);
	}
}

static void
put_qualifiers(
    struct buffer *out, struct made_ways *ways, const struct made_value *v)
{
	bool firm_first = ways_pick(ways, 2);

	for (int i = 0; i < 2; i++) {
		if (v->firm && (i == 0) == firm_first) {
			ways_gap(out, ways);
			ways_name(out, ways, VOCAB_CLASS_END_FEEL,
			    VOCAB_END_FEEL_FIRM);
		} else if (v->pain >= 0 && (i == 0) != firm_first) {
			ways_gap(out, ways);
			ways_word(out, ways, "pain");
			buffer_printf(out,
			    ways_pick(ways, 2) ? " %d/10" : " %d", v->pain);
		}
	}
}

void
ways_value(struct buffer *out, struct made_ways *ways, bool whole,
    const struct made_value *v)
{
	put_trials(out, ways, whole, v);
	put_qualifiers(out, ways, v);
}
