/*
 * Cutting figures: numbers, ranges, triples, dates and times, and what begins
 * as one and is none.
 */
#include <string.h>

#include "parser.h"
#include "syntax/cutter.h"
#include "text/date.h"

const char cutter_other_dash[] =
    "this dash is not the one of the keyboard: type - again";

/* A number of this many tenths or more is beyond any bound. */
enum { HUGE_NUMBER = 100000000 };

bool
cutter_before_number(const struct cutter *c, const char *p)
{
	while (p < c->end && (*p == ' ' || *p == '\t'))
		p++;
	return p < c->end && *p >= '0' && *p <= '9';
}

/*
 * Reads a run of digits with at most one decimal at *P into tenths. Returns
 * what is wrong with it, or NULL.
 */
static const char *
read_number(const char **p, const char *end, int32_t *tenths)
{
	const char *beg = *p;
	int64_t value = 0;
	int decimals = 0;

	while (*p < end && **p >= '0' && **p <= '9') {
		if (value < HUGE_NUMBER)
			value = value * 10 + (**p - '0');
		(*p)++;
	}
	if (*p - beg > 1 && *beg == '0')
		return "a number has no zero in front";
	value *= 10;
	if (*p < end && **p == '.') {
		for ((*p)++; *p < end && **p >= '0' && **p <= '9'; (*p)++)
			if (decimals++ == 0)
				value += **p - '0';
		if (decimals > 1)
			return "a number has one decimal at most";
	}
	*tenths = (int32_t)(value < HUGE_NUMBER ? value : HUGE_NUMBER);
	return NULL;
}

/* The N numbers of a shape; the rest of the shape is a glued unit. */
static void
put_numbers(struct cutter *c, int kind, int n, const char *beg, const char *end)
{
	const char *p = beg, *wrong = NULL, *behind = beg;
	int32_t tenths[3] = {0, 0, 0};
	struct token *t;

	for (int i = 0; i < n && !wrong; i++) {
		while (p < end && (*p < '0' || *p > '9'))
			p++;
		wrong = read_number(&p, end, &tenths[i]);
		behind = p;
	}
	if (wrong) {
		t = cutter_put_bad(c, RULE_NUMBER_FORM, false, beg, end, wrong);
		t->number = true;
		return;
	}
	t = cutter_put(c, kind, beg, behind);
	t->number = true;
	memcpy(t->tenths, tenths, sizeof(tenths));
	if (behind < end) {
		const struct vocab_row *unit = vocab_match_class(
		    vocab_find(behind, (size_t)(end - behind)),
		    VOCAB_CLASS_UNIT);

		cutter_put(c, T_UNIT, behind, end)->id = (int16_t)unit->id;
	}
}

/* 3/10: two numbers and the slash between them. */
static void
put_fraction(struct cutter *c, const char *beg, const char *end)
{
	const char *slash = memchr(beg, '/', (size_t)(end - beg));

	put_numbers(c, T_NUMBER, 1, beg, slash);
	cutter_put(c, T_SLASH, slash, slash + 1);
	put_numbers(c, T_NUMBER, 1, slash + 1, end);
}

static const char one_blank[] =
    "the dash between two numbers has a blank on one side alone: write blanks "
    "on both sides of it, or on neither";

/*
 * Something that begins as a number and is none. Letters in it stop the line:
 * nobody knows what the writer meant.
 */
static void
put_number_like(struct cutter *c, const char *beg, const char *end)
{
	const char *saying = NULL;
	bool letters = false;
	bool after_number =
	    c->out->len > 0 && c->out->at[c->out->len - 1].number;
	struct token *t;

	if (end[-1] == '.')
		saying = "a number has no full stop behind it";
	for (const char *p = beg; p < end; p++) {
		if (p > beg && (*p == '\xe2'))
			saying = cutter_other_dash;
		if ((*p >= 'A' && *p <= 'Z') || (*p >= 'a' && *p <= 'z') ||
		    *p == '_')
			letters = true;
		if (*p == ',')
			saying = "a comma between two digits: write the "
				 "decimal point, or a blank between readings";
	}
	if (letters)
		saying = "letters in a number";
	else if (*beg < '0' || *beg > '9')
		saying = after_number && *beg == '-'
			     ? one_blank
			     : "a sign before a number is read in two ways";
	else if (end[-1] == '-' && cutter_before_number(c, end))
		saying = one_blank;
	t = cutter_put_bad(c, RULE_NUMBER_FORM, letters, beg, end, saying);
	t->number = true;
}

static void
put_date(struct cutter *c, const char *beg, const char *end)
{
	int32_t day;

	if (date_parse(beg, (size_t)(end - beg), &day) == 0) {
		struct token *t = cutter_put(c, T_DATE, beg, end);

		t->day = day;
		t->number = true;
	} else {
		cutter_put_bad(
		    c, RULE_DATE_FORM, false, beg, end, "there is no such day")
		    ->number = true;
	}
}

static void
put_time(struct cutter *c, const char *beg, const char *end)
{
	int minutes;

	if (time_parse(beg, (size_t)(end - beg), &minutes) == 0) {
		struct token *t = cutter_put(c, T_TIME, beg, end);

		t->minutes = minutes;
		t->number = true;
	} else {
		cutter_put_bad(
		    c, RULE_DATE_FORM, false, beg, end, "there is no such time")
		    ->number = true;
	}
}

void
cutter_figure(
    struct cutter *c, enum shape shape, const char *beg, const char *end)
{
	switch (shape) {
	case SHAPE_DATE:
		put_date(c, beg, end);
		break;
	case SHAPE_TIME:
		put_time(c, beg, end);
		break;
	case SHAPE_NUMBER:
		put_numbers(c, T_NUMBER, 1, beg, end);
		break;
	case SHAPE_FRACTION:
		put_fraction(c, beg, end);
		break;
	case SHAPE_RANGE:
		put_numbers(c, T_RANGE, 2, beg, end);
		break;
	case SHAPE_TRIPLE:
		put_numbers(c, T_TRIPLE, 3, beg, end);
		break;
	default:
		put_number_like(c, beg, end);
	}
}
