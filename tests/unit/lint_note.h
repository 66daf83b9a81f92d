/*
 * A note made by hand, for the tests of the rules: nothing here depends on
 * the reader of the text. Each test file that includes it has its own note.
 */
#ifndef LINT_NOTE_H
#define LINT_NOTE_H

#include <check.h>
#include <stdlib.h>
#include <string.h>

#include "lint/lint.h"
#include "text/mem.h"

#define M(name) VOCAB_MEASUREMENT_##name

enum { R = VOCAB_SIDE_RIGHT, L = VOCAB_SIDE_LEFT };
enum { A = VOCAB_MODE_ACTIVE, P = VOCAB_MODE_PASSIVE };

static struct intern pool;
static struct person person;
static struct session s;
static struct sink sink;
static struct lint *lint;
static uint32_t line;

static inline uint32_t
text(const char *words)
{
	return intern_id(&pool, words, strlen(words));
}

/* A line of the session, as long as the spans below need. */
static inline uint32_t
add_line(void)
{
	uint32_t at = (uint32_t)s.text.len;

	buffer_puts(&s.text, "a line with unusual-angle in it\n");
	line++;
	return at;
}

static inline void
begin_session(int32_t day)
{
	s.readings.len = s.trials.len = s.texts.len = s.acceptances.len = 0;
	s.text.len = 0;
	s.said = SAID;
	s.day = day;
	s.line_at = add_line();
	s.line = line;
	s.date_beg = 0;
	s.date_end = 4;
}

static inline void
set_up(void)
{
	struct lint_options options = {.today = 20000, .tolerance = 50};

	s.pool = &pool;
	s.file = "invented.range";
	s.person = &person;
	person.said = SAID;
	person.code = text("WR-0193");
	lint = lint_new(&options);
	begin_session(19000);
}

static inline void
tear_down(void)
{
	lint_free(lint);
	sink_free(&sink);
	intern_free(&pool);
	buffer_free(&s.text);
	free(s.readings.at);
	free(s.trials.at);
	free(s.texts.at);
	free(s.acceptances.at);
	free(person.headers.precautions.at);
	s = (struct session){0};
	person = (struct person){0};
	line = 0;
}

static inline void
add_trial(int32_t start, int32_t end)
{
	*MEM_PUSH(&s.trials) = (struct trial){
	    start == NO_VALUE ? NO_VALUE : start * 10, end * 10, NO_VALUE};
	s.readings.at[s.readings.len - 1].trials++;
}

/* A reading without figures, on a line of its own. Valid until the next. */
static inline struct reading *
add_bare(int measurement, int side, int mode, enum kind kind)
{
	static const int units[] = {VOCAB_UNIT_DEG, VOCAB_UNIT_MM, NONE, NONE};
	struct reading *r;
	uint32_t at = add_line();

	r = MEM_PUSH(&s.readings);
	*r = (struct reading){.line = line,
	    .line_at = at,
	    .end = 6,
	    .measurement = (int16_t)measurement,
	    .side = (int8_t)side,
	    .mode = (int8_t)mode,
	    .kind = (uint8_t)kind,
	    .unit = (int8_t)units[vocab_measurements[measurement].in],
	    .end_feel = NONE,
	    .stopped_by = NONE,
	    .instrument = NONE,
	    .first_trial = (uint32_t)s.trials.len,
	    .first_text = (uint32_t)s.texts.len,
	    .step = NO_VALUE,
	    .pain = NO_VALUE,
	    .pain_onset = NO_VALUE,
	    .arc_low = NO_VALUE,
	    .arc_high = NO_VALUE,
	    .reps = NO_VALUE};
	return r;
}

/* `8-131`; START NO_VALUE: a figure without a start. */
static inline struct reading *
add(int measurement, int side, int mode, int32_t start, int32_t end)
{
	struct reading *r = add_bare(measurement, side, mode, KIND_MEASURED);

	add_trial(start, end);
	return r;
}

static inline struct reading *
add_lacks(int measurement, int side, int mode, int32_t by)
{
	struct reading *r = add_bare(measurement, side, mode, KIND_LACKS);

	add_trial(NO_VALUE, -by);
	return r;
}

/* A hinge's `LOW-HIGH`: the flexion; its extension is behind it. */
static inline struct reading *
add_pair(int flexion, int side, int mode, int32_t low, int32_t high)
{
	struct reading *r;

	add(flexion, side, mode, low, high)->twin = 1;
	r = add_lacks(vocab_measurements[flexion].opposite, side, mode, low);
	r->twin = -1;
	r->line = r[-1].line;
	r->line_at = r[-1].line_at;
	return r - 1;
}

static inline void
judge(void)
{
	sink_reset(&sink);
	lint_session(lint, &s, &sink);
}

/* How often RULE was reported, accepted or not. */
static inline int
count(enum rule rule)
{
	int n = 0;

	for (size_t i = 0; i < sink.len; i++)
		n += sink.at[i]->rule == rule;
	return n;
}

/* The same on the reading of that number alone. */
static inline int
count_on(enum rule rule, int reading)
{
	int n = 0;

	for (size_t i = 0; i < sink.len; i++)
		n += sink.at[i]->rule == rule && sink.at[i]->reading == reading;
	return n;
}

static inline const struct finding *
first(enum rule rule)
{
	for (size_t i = 0; i < sink.len; i++)
		if (sink.at[i]->rule == rule)
			return sink.at[i];
	ck_abort_msg("%s was not reported", rule_table[rule].name);
}

static inline int
times(enum rule rule)
{
	judge();
	return count(rule);
}

#endif
