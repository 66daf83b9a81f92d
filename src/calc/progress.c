/*
 * Collecting what progress is made of: everything a session says that later
 * sessions are held against is copied, the session itself is let go.
 *
 * A person is a subject's code, in whatever file; readings without a subject
 * are of one person in each file. Under a subject that could not be read
 * nobody knows whose they are, so those sessions are left out, and counted.
 */
#include "calc/progress.h"

#include <stdlib.h>
#include <string.h>

#include "calc/progress_internal.h"
#include "text/mem.h"

struct progress *
progress_new(void)
{
	struct progress *p = mem_zero(sizeof(*p));

	p->keys = mem_zero(sizeof(*p->keys));
	return p;
}

void
progress_free(struct progress *p)
{
	intern_free(&p->pool);
	free(p->persons.at);
	free(p->sessions.at);
	free(p->series.at);
	free(p->points.at);
	free(p->goals.at);
	free(p->precautions.at);
	free(p->totals.at);
	free(p->trends.at);
	totals_free(&p->keys->totals);
	intern_free(&p->keys->pool);
	free(p->keys->value);
	free(p->keys);
	free(p);
}

uint32_t
progress_keep(struct progress *p, const char *text)
{
	return text ? intern_id(&p->pool, text, strlen(text)) : 0;
}

uint32_t
progress_keep_id(struct progress *p, const struct session *s, uint32_t id)
{
	if (id == 0 || id == UNKNOWN_TEXT)
		return id;
	return progress_keep(p, intern_text(s->pool, id));
}

static uint32_t
person_of(struct progress *p, const struct session *s, uint32_t file)
{
	uint32_t code = progress_keep_id(p, s, s->person->code);
	struct progress_key key = {
	    {PROGRESS_OF_PERSON, code, code == 0 ? file : 0}};
	uint32_t *value = progress_key_value(p->keys, &key);

	if (*value == PROGRESS_NONE) {
		*value = (uint32_t)p->persons.len;
		*MEM_PUSH(&p->persons) =
		    (struct progress_person){.code = code, .file = file};
	}
	return *value;
}

/* --- goals ---------------------------------------------------------------- */

static void
add_goal(
    struct progress *p, const struct goal *goal, const struct progress_key *key)
{
	uint32_t *at = progress_key_value(p->keys, key);
	uint32_t id = (uint32_t)p->goals.len, last;

	*MEM_PUSH(&p->goals) = (struct progress_goal){.end = goal->end,
	    .by = goal->by,
	    .unit = goal->unit,
	    .next = PROGRESS_NONE,
	    .last = id};
	if (*at == PROGRESS_NONE) {
		*at = id;
		return;
	}
	last = p->goals.at[*at].last;
	p->goals.at[last].next = id;
	p->goals.at[*at].last = id;
}

static void
add_goals(struct progress *p, const struct headers *h, enum progress_of of,
    uint32_t headers)
{
	for (size_t i = 0; i < h->goals.len; i++) {
		const struct goal *goal = &h->goals.at[i];
		bool sided = goal->side[0] || goal->side[1];

		for (int side = NONE; side < VOCAB_SIDE_COUNT; side++) {
			struct progress_key key = progress_goal_key(
			    of, headers, goal->measurement, side, goal->mode);

			if (side == NONE ? !sided : goal->side[side])
				add_goal(p, goal, &key);
		}
	}
}

/*
 * The headers of a person stand for all sessions below their subject line, so
 * they are taken once.
 */
static uint32_t
headers_of(struct progress *p, const struct session *s, uint32_t file)
{
	struct progress_keys *k = p->keys;

	if (k->headers_known && k->headers_file == file &&
	    k->headers_line == s->person->line)
		return k->headers;
	k->headers += k->headers_known;
	k->headers_known = true;
	k->headers_file = file;
	k->headers_line = s->person->line;
	add_goals(p, &s->person->headers, PROGRESS_OF_GOAL, k->headers);
	k->precautions =
	    progress_take_precautions(p, &s->person->headers, DATE_NONE);
	return k->headers;
}

/* --- sessions ------------------------------------------------------------- */

static uint32_t
add_session(struct progress *p, const struct session *s)
{
	const struct fact *surgery = SESSION_FACT(s, surgery);
	const char *text = s->headers.surgery.said != SAID_NOTHING
			       ? s->headers.surgery_text
			       : s->person->headers.surgery_text;
	uint32_t id = (uint32_t)p->sessions.len;
	uint32_t file = progress_keep(p, s->file);
	struct progress_session *to;

	*MEM_PUSH(&p->sessions) =
	    (struct progress_session){.person = person_of(p, s, file),
		.file = file,
		.day = s->day,
		.time = s->time,
		.surgery = DATE_NONE,
		.headers = headers_of(p, s, file),
		.number = id};
	to = &p->sessions.at[id];
	if (s->label.len > 0)
		to->label = intern_id(
		    &p->pool, session_text(s, s->label), s->label.len);
	if (surgery->said == SAID) {
		to->surgery = surgery->value;
		to->surgery_text = progress_keep(p, text);
	}
	add_goals(p, &s->headers, PROGRESS_OF_OWN_GOAL, id);
	to->precautions[0] = p->keys->precautions;
	to->precautions[1] = progress_take_precautions(p, &s->headers, s->day);
	return id;
}

/* --- readings ------------------------------------------------------------- */

uint32_t
progress_series_like(struct progress *p, const struct progress_series *like)
{
	struct progress_series series = *like;
	struct progress_key key =
	    progress_series_key(&series, series.side, series.mode);
	struct progress_key conditions = key, motion = {{0}};
	uint32_t number = progress_key_number(p->keys, &key);

	if (p->keys->value[number] != PROGRESS_NONE)
		return p->keys->value[number];
	p->keys->value[number] = (uint32_t)p->series.len;
	conditions.word[0] = PROGRESS_OF_CONDITIONS;
	conditions.word[PROGRESS_WORDS - 1] = 0; /* either side */
	motion.word[0] = PROGRESS_OF_MEASUREMENT;
	motion.word[1] = series.person;
	motion.word[2] = (uint32_t)series.measurement;
	series.rank[0] = progress_key_number(p->keys, &motion);
	series.rank[2] = progress_key_number(p->keys, &conditions);
	conditions.word[4] = 0; /* in any posture */
	series.rank[1] = progress_key_number(p->keys, &conditions);
	series.rank[3] = number;
	*MEM_PUSH(&p->series) = series;
	return p->keys->value[number];
}

/* In any posture: those that are to stand apart are parted in the end. */
static uint32_t
series_of(struct progress *p, const struct session *s, const struct reading *r,
    uint32_t person)
{
	struct progress_series series = {.person = person,
	    .measurement = r->measurement,
	    .side = r->side,
	    .mode = r->mode,
	    .unit = NONE,
	    .setting = progress_keep_id(p, s, r->setting),
	    .reps = r->reps,
	    .seen = PROGRESS_NONE,
	    .other = PROGRESS_NONE,
	    .before = PROGRESS_NONE};

	return progress_series_like(p, &series);
}

/* Levels as written; a level of trials that differ has no one figure. */
static void
take_levels(struct progress *p, struct progress_point *point,
    const struct trial *t, uint32_t n)
{
	struct buffer words = {0};
	bool same = true;

	for (uint32_t i = 0; i < n; i++) {
		if (i > 0)
			buffer_putc(&words, ' ');
		buffer_puts(&words, vocab_name(VOCAB_CLASS_LEVEL, t[i].end));
		same &= t[i].end == t[0].end;
	}
	if (n > 0) {
		point->words = intern_id(&p->pool, words.data, words.len);
		point->end = (struct mean){t[0].end, same ? 1 : 0};
	}
	buffer_free(&words);
}

static void
add_point(struct progress *p, const struct session *s, const struct reading *r,
    uint32_t session)
{
	uint32_t person = p->sessions.at[session].person;
	struct progress_point point = {.series = series_of(p, s, r, person),
	    .session = session,
	    .line = r->line,
	    .posture = progress_keep_id(p, s, r->posture),
	    .rater = progress_keep_id(p, s, r->rater),
	    .trials = r->trials,
	    .step = r->step,
	    .kind = r->kind,
	    .unit = r->unit,
	    .instrument = r->instrument,
	    .involved = (int8_t)session_involves(s, r->measurement, r->side),
	    .left_out = r->left_out,
	    .first = PROGRESS_NONE,
	    .previous = PROGRESS_NONE,
	    .trend = PROGRESS_NONE};

	if (r->kind == KIND_LEVEL) {
		take_levels(p, &point, reading_trials(s, r), r->trials);
	} else if (reading_is_number(r)) {
		point.start = mean_start(s, r);
		point.end = mean_end(s, r);
	} else if (r->texts > 0) {
		struct text_ref text = s->texts.at[r->first_text].text;

		point.words =
		    intern_id(&p->pool, session_text(s, text), text.len);
	}
	point.usable = point.end.n > 0 && !r->left_out;
	progress_note_posture(p, &point);
	*MEM_PUSH(&p->points) = point;
}

/* The points of a session stand as its readings do, from FIRST on. */
static void
add_rules(struct progress *p, size_t first, const struct sink *sink)
{
	for (size_t i = 0; i < sink->len; i++) {
		const struct finding *f = sink->at[i];
		struct progress_point *point;

		if (f->reading == NO_READING)
			continue;
		point = &p->points.at[first + (size_t)f->reading];
		point->rules |= UINT64_C(1) << f->rule;
		if (f->accepted)
			point->accepted |= UINT64_C(1) << f->rule;
	}
}

void
progress_add(
    struct progress *p, const struct session *s, const struct sink *sink)
{
	size_t first = p->points.len;
	uint32_t session;

	if (s->readings.len == 0)
		return;
	if (s->person->said == SAID_UNREADABLE) {
		p->nameless++;
		return;
	}
	if (s->said != SAID) {
		p->undated++;
		return;
	}
	session = add_session(p, s);
	for (size_t i = 0; i < s->readings.len; i++)
		add_point(p, s, &s->readings.at[i], session);
	add_rules(p, first, sink);
	progress_take_totals(p, s, session);
}
