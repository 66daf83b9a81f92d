/*
 * The columns of the CSV table: one list, each with its name and the function
 * that writes its cell. A column is named here and nowhere else.
 */
#include "write/csv_columns.h"

#include <string.h>

#include "text/date.h"
#include "text/utf8.h"
#include "write/csv.h"
#include "write/rule_names.h"

static inline char *
put(char *p, const char *text, size_t len)
{
	memcpy(p, text, len);
	return p + len;
}

/* Words are short: a loop beats asking for the length first. */
static inline char *
put_word(char *p, const char *word)
{
	while (*word)
		*p++ = *word++;
	return p;
}

_Static_assert(VOCAB_NAME_SIZE <= 24,
    "CSV_BOUNDED and CSV_TRIAL_ROOM have room for names of this size");

/* A name of the vocabulary: a copy of one size is a few stores. */
static inline char *
put_name(char *p, const char name[VOCAB_NAME_SIZE], uint8_t length)
{
	memcpy(p, name, VOCAB_NAME_SIZE);
	return p + length;
}

static inline char *
put_uint(char *p, uint32_t number)
{
	char *end = p + 1;

	for (uint64_t limit = 10; number >= limit; limit *= 10)
		end++;
	for (char *d = end; d > p; number /= 10)
		*--d = (char)('0' + number % 10);
	return end;
}

static inline char *
put_mean(char *p, struct mean m)
{
	if (m.n == 0)
		return p;
	/* Nearly every figure is one trial in whole units. */
	if (m.n == 1 && m.sum >= 0 && m.sum < 10000 && m.sum % 10 == 0)
		return put_uint(p, (uint32_t)(m.sum / 10));
	return p + number_text(mean_hundredths(m), p);
}

static inline char *
put_tenths(char *p, int32_t tenths)
{
	return tenths == NO_VALUE ? p : put_mean(p, (struct mean){tenths, 1});
}

/* Word ID of CLASS, or nothing where ID is NONE. */
static inline char *
put_vocab(char *p, enum vocab_class class, int id)
{
	const struct vocab_row *word;

	if (id < 0)
		return p;
	word = vocab_word(class, id);
	return put_name(p, word->name, word->name_length);
}

static char *
put_text(char *p, const char *text, size_t len)
{
	return len == 0 ? p : csv_finish(p, put(p, text, len));
}

/* --- cells that are the same for a whole session ------------------------- */

static char *
cell_session(char *p, struct csv_row *row)
{
	char date[16];

	if (row->s->said != SAID)
		return p;
	return put_word(p, date_format(row->s->day, date));
}

static char *
cell_time(char *p, struct csv_row *row)
{
	int time = row->s->time;

	if (row->s->said != SAID || time == TIME_NONE)
		return p;
	*p++ = (char)('0' + time / 600);
	*p++ = (char)('0' + time / 60 % 10);
	*p++ = ':';
	*p++ = (char)('0' + time % 60 / 10);
	*p++ = (char)('0' + time % 10);
	return p;
}

static char *
cell_label(char *p, struct csv_row *row)
{
	struct text_ref label = row->s->label;

	if (label.len == 0)
		return p;
	return put_text(p, session_text(row->s, label), label.len);
}

static const char *
subject_code(const struct session *s)
{
	return s->person->said == SAID ? intern_text(s->pool, s->person->code)
				       : "";
}

static char *
cell_subject(char *p, struct csv_row *row)
{
	const char *code = subject_code(row->s);

	return put_text(p, code, strlen(code));
}

static char *
cell_age(char *p, struct csv_row *row)
{
	int age = session_age(row->s);

	return age < 0 ? p : put_uint(p, (uint32_t)age);
}

static char *
cell_sex(char *p, struct csv_row *row)
{
	int sex = session_sex(row->s);

	return put_vocab(p, VOCAB_CLASS_SEX, sex);
}

/* A terminal may obey it; a cell of RFC 4180 holds line ends and tabs. */
static bool
is_control(uint32_t code)
{
	return (code < 0x20 && code != '\n' && code != '\r' && code != '\t') ||
	       (code >= 0x7f && code < 0xa0);
}

/* The table is UTF-8 whatever the bytes of the name are. */
static char *
cell_file(char *p, struct csv_row *row)
{
	const char *name = row->s->file ? row->s->file : "";
	size_t left = strlen(name), size;
	char *beg = p;

	for (; left > 0; name += size, left -= size) {
		uint32_t code = utf8_decode(name, left, &size);

		if (code == 0xfffd || is_control(code))
			p = put(p, "\xef\xbf\xbd", 3);
		else
			p = put(p, name, size);
	}
	return csv_finish(beg, p);
}

/* --- cells of a reading -------------------------------------------------- */

static char *
cell_joint(char *p, struct csv_row *row)
{
	const struct vocab_measurement *m = reading_measurement(row->r);

	return put_name(p, m->joint_name, m->joint_length);
}

static char *
cell_motion(char *p, struct csv_row *row)
{
	const struct vocab_measurement *m = reading_measurement(row->r);

	return put_name(p, m->motion_name, m->motion_length);
}

static inline char *
put_known(char *p, const struct csv_known *known)
{
	return known->cell.len == 0 ? p
				    : put(p, known->cell.data, known->cell.len);
}

static char *
cell_setting(char *p, struct csv_row *row)
{
	return put_known(p, &row->setting);
}

static char *
cell_position(char *p, struct csv_row *row)
{
	return put_known(p, &row->posture);
}

static char *
cell_side(char *p, struct csv_row *row)
{
	return put_vocab(p, VOCAB_CLASS_SIDE, row->r->side);
}

static char *
cell_mode(char *p, struct csv_row *row)
{
	return put_vocab(p, VOCAB_CLASS_MODE, row->r->mode);
}

static char *
cell_kind(char *p, struct csv_row *row)
{
	return put_word(p, kind_names[row->r->kind]);
}

static char *
cell_start(char *p, struct csv_row *row)
{
	return put_mean(p, row->start);
}

/* Levels are ordered, not added: of several trials each is named. */
static char *
put_levels(char *p, const struct csv_row *row)
{
	const struct trial *t =
	    row->trial ? row->trial : reading_trials(row->s, row->r);
	uint32_t n = row->trial ? 1 : row->r->trials;

	for (uint32_t i = 0; i < n; i++) {
		if (i > 0)
			*p++ = ' ';
		p = put_vocab(p, VOCAB_CLASS_LEVEL, t[i].end);
	}
	return p;
}

static char *
cell_end(char *p, struct csv_row *row)
{
	if (row->r->kind == KIND_LEVEL)
		return put_levels(p, row);
	return put_mean(p, row->end);
}

static char *
cell_arc(char *p, struct csv_row *row)
{
	return put_mean(p, mean_less(row->end, row->start));
}

static char *
cell_unit(char *p, struct csv_row *row)
{
	return put_vocab(p, VOCAB_CLASS_UNIT, row->r->unit);
}

static char *
cell_trials(char *p, struct csv_row *row)
{
	return put_uint(p, row->r->trials);
}

static char *
cell_trial(char *p, struct csv_row *row)
{
	if (!row->trial)
		return p;
	return put_uint(
	    p, (uint32_t)(row->trial - reading_trials(row->s, row->r)) + 1);
}

static char *
cell_spread(char *p, struct csv_row *row)
{
	int32_t least, greatest;

	if (row->r->trials < 2 || row->r->kind == KIND_LEVEL ||
	    !trial_ends(row->s, row->r, &least, &greatest))
		return p;
	return put_tenths(p, greatest - least);
}

static char *
cell_pain(char *p, struct csv_row *row)
{
	return put_tenths(p, row->r->pain);
}

static char *
cell_pain_onset(char *p, struct csv_row *row)
{
	return put_tenths(p, row->r->pain_onset);
}

static char *
cell_painful_arc(char *p, struct csv_row *row)
{
	if (row->r->arc_low == NO_VALUE)
		return p;
	p = put_tenths(p, row->r->arc_low);
	*p++ = '-';
	return put_tenths(p, row->r->arc_high);
}

static char *
cell_end_feel(char *p, struct csv_row *row)
{
	return put_vocab(p, VOCAB_CLASS_END_FEEL, row->r->end_feel);
}

static char *
cell_stopped_by(char *p, struct csv_row *row)
{
	return put_vocab(p, VOCAB_CLASS_CAUSE, row->r->stopped_by);
}

static char *
cell_repetitions(char *p, struct csv_row *row)
{
	int32_t reps = row->r->reps;

	return reps == NO_VALUE ? p : put_uint(p, (uint32_t)reps);
}

static char *
cell_involved(char *p, struct csv_row *row)
{
	const struct reading *r = row->r;
	int8_t *known = &row->involved[r->measurement]
				      [r->side < 0 ? CSV_ANY_SIDE : r->side];

	if (*known == CSV_NOT_ASKED)
		*known =
		    (int8_t)session_involves(row->s, r->measurement, r->side);
	if (*known < 0)
		return p;
	return put_word(p, *known ? "yes" : "no");
}

static char *
cell_rater(char *p, struct csv_row *row)
{
	return put_known(p, &row->rater);
}

static char *
cell_instrument(char *p, struct csv_row *row)
{
	return put_vocab(p, VOCAB_CLASS_INSTRUMENT, row->r->instrument);
}

static char *
put_pairs(char *p, const struct csv_row *row)
{
	const struct trial *t =
	    row->trial ? row->trial : reading_trials(row->s, row->r);
	uint32_t n = row->trial ? 1 : row->r->trials;
	const char *gap = "";

	for (uint32_t i = 0; i < n; i++) {
		if (t[i].minuend == NO_VALUE)
			continue;
		p = put_word(p, gap);
		p = put_tenths(p, t[i].minuend);
		p = put_word(p, " less ");
		p = put_tenths(p, t[i].minuend - t[i].end);
		gap = "; ";
	}
	return p;
}

static char *
cell_remark(char *p, struct csv_row *row)
{
	const struct reading *r = row->r;
	char *beg = p;

	if (row->r->trials > 0)
		p = put_pairs(p, row);
	for (uint32_t i = 0; i < r->texts; i++) {
		struct text_ref text = row->s->texts.at[r->first_text + i].text;

		if (p > beg)
			p = put(p, "; ", 2);
		p = put(p, session_text(row->s, text), text.len);
	}
	return p > beg ? csv_finish(beg, p) : p;
}

static char *
cell_findings(char *p, struct csv_row *row)
{
	const char *names[RULE_COUNT];
	size_t n = rule_names(row->rules, names);

	for (size_t i = 0; i < n; i++) {
		if (i > 0)
			*p++ = ' ';
		p = put_word(p, names[i]);
	}
	return p;
}

/* Several readings stand on a line. */
static char *
cell_line(char *p, struct csv_row *row)
{
	struct csv_line *line = &row->line;

	if (line->number != row->r->line) {
		line->number = row->r->line;
		line->len =
		    (size_t)(put_uint(line->text, line->number) - line->text);
	}
	memcpy(p, line->text, sizeof(line->text));
	return p + line->len;
}

/* --- the table ----------------------------------------------------------- */

/* COLUMN(its name, and after cell_ its function; what it is of) */
#define TABLE(COLUMN)                                                          \
	COLUMN(session, SESSION)                                               \
	COLUMN(time, SESSION)                                                  \
	COLUMN(label, SESSION)                                                 \
	COLUMN(subject, SESSION)                                               \
	COLUMN(age, SESSION)                                                   \
	COLUMN(sex, SESSION)                                                   \
	COLUMN(joint, READING)                                                 \
	COLUMN(motion, READING)                                                \
	COLUMN(setting, READING)                                               \
	COLUMN(position, READING)                                              \
	COLUMN(side, READING)                                                  \
	COLUMN(mode, READING)                                                  \
	COLUMN(kind, READING)                                                  \
	COLUMN(start, READING)                                                 \
	COLUMN(end, READING)                                                   \
	COLUMN(arc, READING)                                                   \
	COLUMN(unit, READING)                                                  \
	COLUMN(trials, READING)                                                \
	COLUMN(trial, TRIAL)                                                   \
	COLUMN(spread, READING)                                                \
	COLUMN(pain, READING)                                                  \
	COLUMN(pain_onset, READING)                                            \
	COLUMN(painful_arc, READING)                                           \
	COLUMN(end_feel, READING)                                              \
	COLUMN(stopped_by, READING)                                            \
	COLUMN(repetitions, READING)                                           \
	COLUMN(involved, READING)                                              \
	COLUMN(rater, READING)                                                 \
	COLUMN(instrument, READING)                                            \
	COLUMN(remark, READING)                                                \
	COLUMN(findings, READING)                                              \
	COLUMN(file, SESSION)                                                  \
	COLUMN(line, READING)

const struct csv_column csv_columns[] = {
#define COLUMN(name, of) {#name, cell_##name, CSV_OF_##of},
    TABLE(COLUMN)
#undef COLUMN
};

_Static_assert(sizeof(csv_columns) / sizeof(*csv_columns) == CSV_COLUMNS,
    "CSV_COLUMNS counts the columns");

/* Whatever is known when it is compiled is decided then. */
static inline char *
put_cell(char *p, struct csv_row *row, const struct csv_run *run,
    csv_cell *cell, enum csv_column_of of)
{
	if (of == CSV_OF_SESSION) {
		if (run->len > 0)
			p = put(p, row->shared.data + run->at, run->len);
		return p;
	}
	if (of == CSV_OF_TRIAL && !row->by_trial)
		return p;
	p = cell(p, row);
	*p++ = ',';
	return p;
}

/*
 * The table walked once and for all, by the compiler: a loop that calls each
 * cell by its address takes some 300 instructions a row more.
 */
char *
csv_put_row(char *p, struct csv_row *row)
{
	const struct csv_run *run = row->runs;

#define COLUMN(name, of) p = put_cell(p, row, run++, cell_##name, CSV_OF_##of);
	TABLE(COLUMN)
#undef COLUMN
	p[-1] = '\r';
	*p++ = '\n';
	return p;
}
