/*
 * What reading costs at least: `bare NOTE` cuts every line into tokens and
 * runs the parser over them, and does nothing else: no records, no rules, no
 * output. The calls of the grammar are empty. A line that the parser does not
 * take ends it with status 2, so that the time is that of a whole pass.
 */
#include <fcntl.h>
#include <stdio.h>
#include <unistd.h>

#include "parser.h"
#include "syntax/parse.h"
#include "text/lines.h"

static size_t readings;

const struct token *
parse_token(struct parse *ps)
{
	const struct tokens *t = &ps->tokens;

	return &t->at[ps->at < t->len ? ps->at++ : t->len];
}

bool
parse_is_whole(const struct parse *ps)
{
	return ps->at >= ps->tokens.len;
}

void
parse_unexpected(struct parse *ps, const bool *may_stand)
{
	(void)ps;
	(void)may_stand;
}

bool
reading_end(struct parse *ps)
{
	(void)ps;
	readings++;
	return true;
}

#define TOKEN const struct token *

/* A call of the grammar that takes one, two, three tokens and does nothing. */
#define CALL1(name)                                                            \
	bool name(struct parse *ps, TOKEN a)                                   \
	{                                                                      \
		(void)ps, (void)a;                                             \
		return true;                                                   \
	}
#define CALL2(name)                                                            \
	bool name(struct parse *ps, TOKEN a, TOKEN b)                          \
	{                                                                      \
		(void)ps, (void)a, (void)b;                                    \
		return true;                                                   \
	}
#define CALL3(name)                                                            \
	bool name(struct parse *ps, TOKEN a, TOKEN b, TOKEN c)                 \
	{                                                                      \
		(void)ps, (void)a, (void)b, (void)c;                           \
		return true;                                                   \
	}
#define FIGURES(name)                                                          \
	bool name(struct parse *ps, enum form form, TOKEN a, TOKEN b, TOKEN c) \
	{                                                                      \
		(void)ps, (void)form, (void)a, (void)b, (void)c;               \
		return true;                                                   \
	}

/* clang-format off */
CALL1(reading_joint) CALL1(reading_digit) CALL1(reading_part)
CALL1(reading_motion) CALL1(reading_measure) CALL1(reading_side)
CALL1(reading_mode) CALL1(reading_position) CALL1(reading_score)
CALL2(reading_second_motion) CALL2(reading_end_feel)
CALL2(reading_painful_arc) CALL2(reading_stopped_by) CALL2(reading_after)
CALL2(reading_by) CALL2(reading_with) CALL3(reading_pain)
FIGURES(reading_trial) FIGURES(header_value)
CALL1(header_subject) CALL1(header_born) CALL1(header_age) CALL1(header_sex)
CALL1(header_dominant) CALL1(header_involved) CALL1(header_involved_none)
CALL1(header_remark) CALL1(header_rater) CALL1(header_mode)
CALL1(header_side) CALL1(header_joint) CALL1(header_forbid)
CALL1(header_motion) CALL1(header_of_mode) CALL1(header_position_word)
CALL1(header_requirement)
CALL2(header_opposite) CALL2(header_surgery) CALL2(header_precaution)
CALL2(header_goal) CALL2(header_from) CALL2(header_until)
CALL3(header_session) CALL3(header_instrument)
    /* clang-format on */

    bool reading_text(struct parse *ps, TOKEN text, bool substitution)
{
	(void)ps, (void)text, (void)substitution;
	return true;
}

bool
header_limit(struct parse *ps, TOKEN word, TOKEN number, TOKEN unit, bool lacks)
{
	(void)ps, (void)word, (void)number, (void)unit, (void)lacks;
	return true;
}

bool
header_position(struct parse *ps)
{
	(void)ps;
	return true;
}

bool
header_require(struct parse *ps)
{
	(void)ps;
	return true;
}

int
main(int argc, char **argv)
{
	static struct parse ps;
	struct lines lines;
	const char *text;
	size_t len, tokens = 0, n = 0;
	int fd = argc == 2 ? open(argv[1], O_RDONLY) : -1;

	if (fd < 0) {
		fprintf(stderr, "usage: bare NOTE\n");
		return 2;
	}
	lines_open(&lines, fd);
	while (lines_next(&lines, &text, &len) > 0) {
		n++;
		tokens_cut(&ps.tokens, text, len, false);
		tokens += ps.tokens.len;
		ps.at = 0;
		if (ps.tokens.len > 0 && line_parse(&ps) != 0) {
			fprintf(stderr, "bare: line %zu is not read\n", n);
			return 2;
		}
	}
	printf("%zu lines, %zu tokens, %zu values\n", n, tokens, readings);
	lines_close(&lines);
	tokens_free(&ps.tokens);
	close(fd);
	return 0;
}
