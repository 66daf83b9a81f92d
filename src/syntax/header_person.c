/*
 * Headers of the person or session that say one thing, where a second one in
 * the same place must agree, and remarks.
 */
#include "syntax/header.h"
#include "text/mem.h"
#include "vocab/vocab.h"

enum { EARLIEST_YEAR = 1850, LATEST_YEAR = 2200 };

/* Sets a header with one value; another one in the same place stays. */
static bool
set_fact(struct parse *ps, size_t offset, const struct token *t, int32_t value)
{
	struct headers *h = header_scope(ps);
	struct fact *fact = (struct fact *)((char *)h + offset);

	if (fact->said == SAID && fact->value != value) {
		ps->first_stays = true;
		parse_fail(ps, t, RULE_SYNTAX,
		    "'%.*s' disagrees with line %u, which says otherwise of "
		    "the same person and session",
		    QUOTE(ps, t), fact->place.line);
		parse_hint(ps, "correct one of the two; the first one holds");
		return false;
	}
	if (fact->said != SAID) {
		fact->said = SAID;
		fact->value = value;
		fact->place = header_place(ps, h, t);
	}
	return true;
}

/* A whole number between LO and HI. */
static bool
whole_number(struct parse *ps, const struct token *t, int32_t lo, int32_t hi,
    const char *what)
{
	if (t->tenths[0] % 10 == 0 && t->tenths[0] / 10 >= lo &&
	    t->tenths[0] / 10 <= hi)
		return true;
	return parse_fail(
	    ps, t, RULE_NUMBER_FORM, "'%.*s' is not %s", QUOTE(ps, t), what);
}

bool
header_born(struct parse *ps, const struct token *year)
{
	return whole_number(ps, year, EARLIEST_YEAR, LATEST_YEAR,
		   "a year of birth in four digits") &&
	       set_fact(ps, FACT(born), year, year->tenths[0] / 10);
}

bool
header_age(struct parse *ps, const struct token *years)
{
	return whole_number(ps, years, 0, 999, "an age in whole years") &&
	       set_fact(ps, FACT(age), years, years->tenths[0] / 10);
}

bool
header_sex(struct parse *ps, const struct token *sex)
{
	return set_fact(ps, FACT(sex), sex, sex->id);
}

bool
header_dominant(struct parse *ps, const struct token *side)
{
	return set_fact(ps, FACT(dominant), side, side->id);
}

bool
header_surgery(
    struct parse *ps, const struct token *date, const struct token *text)
{
	struct headers *h = header_scope(ps);
	bool first = h->surgery.said != SAID;

	if (!set_fact(ps, FACT(surgery), date, date->day))
		return false;
	if (first)
		h->surgery_text = header_text(ps, h, text);
	return true;
}

bool
header_remark(struct parse *ps, const struct token *text)
{
	struct headers *h = header_scope(ps);
	struct remark *r = MEM_PUSH(&h->remarks);

	r->text = header_text(ps, h, text);
	r->place = header_place(ps, h, text);
	return true;
}
