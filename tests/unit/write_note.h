/*
 * A session made by hand, for the tests of the writers: nothing here depends
 * on the reader of the text. All people and readings are invented.
 */
#ifndef WRITE_NOTE_H
#define WRITE_NOTE_H

#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "record/record.h"
#include "text/mem.h"

#define COUNT(array) ((int)(sizeof(array) / sizeof(*(array))))

TCase *write_csv_case(void);
TCase *write_findings_case(void);
TCase *write_compare_case(void);
TCase *write_summary_case(void);

/* --- a note ----------------------------------------------------------------
 */

struct note {
	struct intern pool;
	struct person person;
	struct session s;
	struct sink sink;
	struct buffer out;
};

static inline uint32_t
word(struct note *n, const char *text)
{
	return intern_id(&n->pool, text, strlen(text));
}

static inline int32_t
day(const char *text)
{
	int32_t value = 0;

	ck_assert_int_eq(date_parse(text, strlen(text), &value), 0);
	return value;
}

static inline struct text_ref
text_at(struct note *n, const char *text)
{
	struct text_ref ref = {(uint32_t)n->s.text.len, (uint32_t)strlen(text)};

	buffer_puts(&n->s.text, text);
	buffer_putc(&n->s.text, '\n');
	return ref;
}

static inline struct note *
note_new(void)
{
	struct note *n = mem_zero(sizeof(*n));

	intern_id(&n->pool, "", 0);
	n->person.said = SAID;
	n->person.code = word(n, "WR-0192");
	n->s.pool = &n->pool;
	n->s.file = "clinic.range";
	n->s.person = &n->person;
	n->s.said = SAID;
	n->s.day = day("2026-05-04");
	n->s.time = TIME_NONE;
	n->s.line = 11;
	return n;
}

static inline void
headers_free(struct headers *h)
{
	free(h->opposites.at);
	free(h->precautions.at);
	free(h->goals.at);
	free(h->remarks.at);
}

static inline void
note_free(struct note *n)
{
	headers_free(&n->person.headers);
	headers_free(&n->s.headers);
	free(n->s.readings.at);
	free(n->s.trials.at);
	free(n->s.texts.at);
	buffer_free(&n->s.text);
	buffer_free(&n->out);
	sink_free(&n->sink);
	intern_free(&n->pool);
	free(n);
}

static inline void
involve(struct note *n, int joint, bool right, bool left)
{
	n->person.headers.involved.said = SAID;
	n->person.headers.involved.value = 1;
	joint_set_add(&n->person.headers.involved_joints, UINT64_C(1) << joint,
	    right, left);
}

/* One trial: 0-52, 131, 85 less 38. Returns what follows it. */
static inline char *
add_trial(struct note *n, struct reading *r, const char *text)
{
	struct trial *t = MEM_PUSH(&n->s.trials);
	char *rest;
	int32_t first = (int32_t)(strtod(text, &rest) * 10 + 0.5);

	r->trials++;
	*t = (struct trial){NO_VALUE, first, NO_VALUE};
	if (*rest == '-') {
		t->start = first;
		t->end = (int32_t)(strtod(rest + 1, &rest) * 10 + 0.5);
	} else if (strncmp(rest, " less ", 6) == 0) {
		t->minuend = first;
		t->end -= (int32_t)(strtod(rest + 6, &rest) * 10 + 0.5);
	} else if (r->kind == KIND_LACKS) {
		t->end = -first;
	} else if (r->kind == KIND_FIXED) {
		t->start = first;
	} else if (r->kind == KIND_MEASURED && r->unit == VOCAB_UNIT_DEG) {
		r->kind = KIND_END_ONLY;
		t->start = 0;
	}
	return rest;
}

static inline void
add_value(struct note *n, struct reading *r, const char *value)
{
	static const struct {
		const char *word;
		enum kind kind;
	} words[] = {{"NT", KIND_NOT_TESTED}, {"WNL", KIND_WNL},
	    {"WFL", KIND_WFL}, {"lacks ", KIND_LACKS}, {"fixed ", KIND_FIXED},
	    {"level ", KIND_LEVEL}, {"score ", KIND_SCORE}};
	const char *rest = value;

	for (size_t i = 0; i < sizeof(words) / sizeof(*words); i++)
		if (strncmp(value, words[i].word, strlen(words[i].word)) == 0) {
			r->kind = (uint8_t)words[i].kind;
			rest += strlen(words[i].word);
		}
	if (r->kind == KIND_LEVEL) {
		*MEM_PUSH(&n->s.trials) = (struct trial){
		    NO_VALUE, (int32_t)strtol(rest, NULL, 10), NO_VALUE};
		r->trials = 1;
	}
	if (r->kind == KIND_LEVEL || r->kind == KIND_SCORE ||
	    !reading_is_number(r))
		r->unit = NONE;
	while (*rest && r->kind != KIND_LEVEL) {
		rest = add_trial(n, r, rest);
		rest += *rest == ' ';
	}
}

static inline struct reading *
add_in(struct note *n, int measurement, int side, int mode, int unit,
    const char *value)
{
	struct reading *r = MEM_PUSH(&n->s.readings);

	*r = (struct reading){.line = 11 + (uint32_t)n->s.readings.len,
	    .measurement = (int16_t)measurement,
	    .side = (int8_t)side,
	    .mode = (int8_t)mode,
	    .kind = KIND_MEASURED,
	    .unit = (int8_t)unit,
	    .end_feel = NONE,
	    .stopped_by = NONE,
	    .instrument = NONE,
	    .first_trial = (uint32_t)n->s.trials.len,
	    .first_text = (uint32_t)n->s.texts.len,
	    .step = NO_VALUE,
	    .pain = NO_VALUE,
	    .pain_onset = NO_VALUE,
	    .arc_low = NO_VALUE,
	    .arc_high = NO_VALUE,
	    .reps = NO_VALUE};
	add_value(n, r, value);
	return r;
}

enum { R = VOCAB_SIDE_RIGHT, L = VOCAB_SIDE_LEFT };
enum { A = VOCAB_MODE_ACTIVE, P = VOCAB_MODE_PASSIVE };

static inline struct reading *
add(struct note *n, int measurement, int side, int mode, const char *value)
{
	return add_in(n, measurement, side, mode, VOCAB_UNIT_DEG, value);
}

static inline void
add_text(struct note *n, struct reading *r, const char *text, bool substitution)
{
	struct text_ref ref = text_at(n, text);

	*MEM_PUSH(&n->s.texts) = (struct reading_text){ref, substitution};
	r->texts++;
}

static inline struct finding *
find(struct note *n, enum rule rule, const char *line, uint32_t beg,
    uint32_t end, int reading)
{
	struct place place = {12, beg, end, line, (uint32_t)strlen(line)};

	return sink_add(&n->sink, rule, &place, reading, "%s", "a message");
}

static inline void
precaution(struct note *n, int32_t limit, int32_t from, int32_t until)
{
	*MEM_PUSH(&n->person.headers.precautions) =
	    (struct precaution){.joints = {UINT64_C(1) << VOCAB_JOINT_ELBOW,
				    UINT64_C(1) << VOCAB_JOINT_ELBOW, 0},
		.motion = VOCAB_MOTION_EXTENSION,
		.mode = P,
		.forbids = limit == NO_VALUE,
		.limit = limit,
		.unit = VOCAB_UNIT_DEG,
		.from = from,
		.until = until,
		.reason = "protocol"};
}

static inline void
goal(struct note *n, int measurement, int mode, int unit, int32_t end)
{
	*MEM_PUSH(&n->s.headers.goals) =
	    (struct goal){.measurement = (int16_t)measurement,
		.side = {true, false},
		.mode = (int8_t)mode,
		.unit = (int8_t)unit,
		.end = end,
		.by = DATE_NONE};
}

static inline void
check_text(const struct buffer *out, const char *expected)
{
	char *text = mem_text(out->data, out->len);

	ck_assert_str_eq(text, expected);
	free(text);
}

static inline bool
holds(const struct buffer *out, const char *part)
{
	char *text = mem_text(out->data, out->len);
	bool found = strstr(text, part) != NULL;

	free(text);
	return found;
}

static inline void
check_holds(const struct buffer *out, const char *part)
{
	char *text = mem_text(out->data, out->len);

	ck_assert_msg(strstr(text, part), "no \"%s\" in:\n%s", part, text);
	free(text);
}

#endif
