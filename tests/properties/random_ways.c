#include "random_ways.h"

const char *const made_way_names[MADE_WAYS] = {[WAY_UPPER_CASE] = "upper case",
    [WAY_COMMA] = "a comma for a blank",
    [WAY_SEMICOLON] = "a semicolon",
    [WAY_ANY_ORDER] = "words in another order",
    [WAY_ONE_WORD] = "side and mode in one word",
    [WAY_CARRIED_SIDE] = "a side that is carried",
    [WAY_CARRIED_MODE] = "a mode that is carried",
    [WAY_CARRIED_JOINT] = "a joint of a digit that is carried",
    [WAY_EQUAL_ENDS] = "fixed as equal ends",
    [WAY_FROM_ZERO] = "hyper as a range from 0",
    [WAY_ZERO_BEFORE] = "a range with 0 before it"};

uint32_t
ways_pick(struct made_ways *ways, uint32_t n)
{
	return ways ? random_below(&ways->random, n) : 0;
}

bool
ways_take(struct made_ways *ways, enum made_way way, uint32_t n, bool may)
{
	if (!may || !ways || !random_one_in(&ways->random, n))
		return false;
	ways->taken[way]++;
	return true;
}

void
ways_gap(struct buffer *out, struct made_ways *ways)
{
	static const char *const gaps[] = {
	    " ", "  ", "\t", "    ", " \t ", "\xc2\xa0"};
	static const char *const commas[] = {", ", " ,", " , "};

	if (ways_take(ways, WAY_COMMA, 8, true))
		buffer_puts(out, commas[ways_pick(ways, 3)]);
	else
		buffer_puts(out, gaps[ways_pick(ways, 6)]);
}

void
ways_word(struct buffer *out, struct made_ways *ways, const char *word)
{
	bool upper = ways_take(ways, WAY_UPPER_CASE, 3, true);

	for (; *word; word++)
		buffer_putc(out, upper && *word >= 'a' && *word <= 'z'
				     ? (char)(*word ^ 0x20)
				     : *word);
}

void
ways_name(
    struct buffer *out, struct made_ways *ways, enum vocab_class class, int id)
{
	ways_word(out, ways,
	    ways_pick(ways, 2) ? vocab_short_name(class, id)
			       : vocab_name(class, id));
}
