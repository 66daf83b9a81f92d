/*
 * The sources, as a list that fits 80 columns, or one source with its figures.
 * How far each was seen is part of the entry: a figure that is known from
 * memory alone is not better than that.
 */
#include "write/sources.h"

#include <string.h>

#include "reference/reference.h"
#include "write/sources_rows.h"
#include "write/summary_internal.h"
#include "write/wrap.h"

enum { KEY_WIDTH = 22 };

/* --- how many figures ----------------------------------------------------- */

struct count {
	size_t figures;
	size_t from_memory;
};

static bool
cell_is(const struct buffer *cell, const char *text)
{
	return cell->len == strlen(text) &&
	       (cell->len == 0 || memcmp(cell->data, text, cell->len) == 0);
}

static void
count_row(void *arg, const struct sources_row *row)
{
	struct count *count = arg;

	count->figures++;
	count->from_memory +=
	    cell_is(&row->cell[SOURCES_VERIFIED], "from memory");
}

static struct count
count_of(const struct ref_source *s)
{
	struct count count = {0, 0};

	sources_rows(s->key, count_row, &count);
	return count;
}

/* --- one entry as text ---------------------------------------------------- */

/* A sentence: FIRST, TEXT and a full stop; nothing for an empty text. */
static void
sentence(struct buffer *line, const char *first, const char *text)
{
	if (!text[0])
		return;
	if (line->len > 0)
		buffer_putc(line, ' ');
	buffer_puts(line, first);
	buffer_puts(line, text);
	buffer_putc(line, '.');
}

static void
add_people(struct buffer *line, const struct ref_source *s)
{
	struct buffer people = {0};

	buffer_puts(&people, s->people);
	if (s->sex >= 0)
		buffer_printf(&people, "%ssex %s", people.len ? ", " : "",
		    vocab_name(VOCAB_CLASS_SEX, s->sex));
	if (s->age_lo >= 0 || s->age_hi >= 0)
		buffer_printf(&people, "%sage %d-%d", people.len ? ", " : "",
		    s->age_lo, s->age_hi);
	if (s->mode >= 0)
		buffer_printf(&people, "%s%s", people.len ? ", " : "",
		    vocab_name(VOCAB_CLASS_MODE, s->mode));
	if (s->number[0])
		buffer_printf(
		    &people, "%sn %s", people.len ? ", " : "", s->number);
	buffer_putc(&people, '\0');
	sentence(line, "People: ", people.data);
	buffer_free(&people);
}

static void
add_count(struct buffer *line, const struct ref_source *s)
{
	struct count count = count_of(s);

	buffer_printf(line, " %zu figure%s", count.figures,
	    count.figures == 1 ? "" : "s");
	if (count.from_memory > 0)
		buffer_printf(
		    line, ", %zu of them from memory", count.from_memory);
	buffer_putc(line, '.');
	if (s->asked)
		buffer_puts(line, " Only taken where it is asked for.");
}

static void
put_entry(struct buffer *out, const struct ref_source *s)
{
	struct buffer line = {0};
	size_t len = strlen(s->key);

	buffer_printf(&line, "%s%s%s%s%s", s->author,
	    s->author[0] && s->year[0] ? " " : "", s->year,
	    s->published[0] ? ", " : "", s->published);
	buffer_printf(&line, "%s%s.", line.len > 0 ? ": " : "", s->about);
	add_people(&line, s);
	sentence(&line, "Seen: ", s->read);
	add_count(&line, s);
	buffer_puts(out, s->key);
	if (len < KEY_WIDTH) {
		buffer_pad(out, ' ', KEY_WIDTH - len);
	} else {
		buffer_putc(out, '\n');
		buffer_pad(out, ' ', KEY_WIDTH);
	}
	wrap_text(out, line.data, line.len, KEY_WIDTH, KEY_WIDTH);
	buffer_putc(out, '\n');
	buffer_free(&line);
}

/* --- one entry as cells --------------------------------------------------- */

enum {
	KEY,
	GROUP,
	AUTHOR,
	YEAR,
	PUBLISHED,
	ABOUT,
	MODE,
	SEX,
	AGE_LO,
	AGE_HI,
	PEOPLE,
	NUMBER,
	READ,
	ASKED,
	FIGURES,
	FROM_MEMORY,
	CELLS
};

static const char *const names[CELLS] = {"key", "group", "author", "year",
    "published", "about", "mode", "sex", "age_lo", "age_hi", "people", "number",
    "seen", "only_where_asked", "figures", "from_memory"};

static void
fill(struct buffer *cell, const struct ref_source *s)
{
	struct count count = count_of(s);
	const char *const texts[CELLS] = {[KEY] = s->key,
	    [GROUP] = s->group,
	    [AUTHOR] = s->author,
	    [YEAR] = s->year,
	    [PUBLISHED] = s->published,
	    [ABOUT] = s->about,
	    [PEOPLE] = s->people,
	    [NUMBER] = s->number,
	    [READ] = s->read,
	    [ASKED] = s->asked ? "yes" : "no",
	    [MODE] = s->mode < 0 ? "" : vocab_name(VOCAB_CLASS_MODE, s->mode),
	    [SEX] = s->sex < 0 ? "" : vocab_name(VOCAB_CLASS_SEX, s->sex)};

	for (int i = 0; i < CELLS; i++) {
		cell[i].len = 0;
		if (texts[i])
			buffer_puts(&cell[i], texts[i]);
	}
	if (s->age_lo >= 0)
		buffer_printf(&cell[AGE_LO], "%d", s->age_lo);
	if (s->age_hi >= 0)
		buffer_printf(&cell[AGE_HI], "%d", s->age_hi);
	buffer_uint(&cell[FIGURES], count.figures);
	buffer_uint(&cell[FROM_MEMORY], count.from_memory);
}

void
sources_list(struct buffer *out, enum sources_format format)
{
	struct buffer cell[CELLS] = {{0}};

	if (format == SOURCES_CSV)
		sources_put_names(out, names, CELLS);
	for (size_t i = 0; i < ref_source_count(); i++) {
		const struct ref_source *s = ref_source_get(i);

		if (format == SOURCES_TEXT) {
			put_entry(out, s);
			continue;
		}
		fill(cell, s);
		if (format == SOURCES_CSV)
			sources_put_csv(out, cell, CELLS);
		else
			sources_put_json(out, names, cell, CELLS);
	}
	for (int i = 0; i < CELLS; i++)
		buffer_free(&cell[i]);
}

/* --- one source with its figures ------------------------------------------ */

struct figures {
	struct buffer *out;
	struct buffer line;
	enum sources_format format;
	char table[32]; /* whose heading was written */
};

static void
add_cell(struct buffer *line, const char *before, const struct buffer *cell)
{
	if (cell->len == 0)
		return;
	buffer_puts(line, before);
	buffer_add(line, cell->data, cell->len);
}

static void
put_heading(struct figures *f, const struct buffer *table)
{
	size_t len =
	    table->len < sizeof(f->table) ? table->len : sizeof(f->table) - 1;

	if (cell_is(table, f->table))
		return;
	memcpy(f->table, table->data, len);
	f->table[len] = '\0';
	buffer_printf(f->out, "\n  %s\n", f->table);
}

/* `knee flexion: 90-120 deg stairs and chairs; ...` */
static void
put_figure(struct figures *f, const struct sources_row *row)
{
	enum { FIRST = 4, REST = 6 };
	const struct buffer *verified = &row->cell[SOURCES_VERIFIED];
	struct buffer *line = &f->line;

	put_heading(f, &row->cell[SOURCES_TABLE]);
	line->len = 0;
	add_cell(line, "", &row->cell[SOURCES_JOINT]);
	add_cell(line, " ", &row->cell[SOURCES_MOTION]);
	add_cell(line, " ", &row->cell[SOURCES_SETTING]);
	add_cell(line, ": ", &row->cell[SOURCES_VALUE]);
	add_cell(line, " ", &row->cell[SOURCES_UNIT]);
	add_cell(line, ", ", &row->cell[SOURCES_SPREAD]);
	add_cell(line, ", ", &row->cell[SOURCES_WHAT]);
	add_cell(line, "; ", &row->cell[SOURCES_PEOPLE]);
	if (verified->len > 0 && !cell_is(verified, "yes"))
		add_cell(line, "; ", verified);
	buffer_pad(f->out, ' ', FIRST);
	wrap_text(f->out, line->data, line->len, FIRST, REST);
	buffer_putc(f->out, '\n');
}

static void
on_row(void *arg, const struct sources_row *row)
{
	struct figures *f = arg;

	if (f->format == SOURCES_TEXT)
		put_figure(f, row);
	else if (f->format == SOURCES_CSV)
		sources_put_csv(f->out, row->cell, SOURCES_CELLS);
	else
		sources_put_json(
		    f->out, sources_cell_names, row->cell, SOURCES_CELLS);
}

bool
sources_one(struct buffer *out, const char *key, enum sources_format format)
{
	struct figures f = {.out = out, .format = format};
	bool found = false;

	for (size_t i = 0; i < ref_source_count(); i++) {
		const struct ref_source *s = ref_source_get(i);

		if (strcmp(s->key, key) != 0 && strcmp(s->group, key) != 0)
			continue;
		if (format == SOURCES_CSV && !found)
			sources_put_names(
			    out, sources_cell_names, SOURCES_CELLS);
		if (format == SOURCES_TEXT) {
			if (found)
				buffer_putc(out, '\n');
			put_entry(out, s);
			f.table[0] = '\0';
		}
		sources_rows(s->key, on_row, &f);
		found = true;
	}
	buffer_free(&f.line);
	return found;
}

/* Letters of both that agree from the beginning, in either case. */
static size_t
same_letters(const char *a, const char *b)
{
	size_t n = 0;

	while (a[n] && (a[n] | 0x20) == (b[n] | 0x20))
		n++;
	return n;
}

const char *
sources_nearest(const char *key)
{
	enum { ENOUGH = 3 };
	const char *best = NULL;
	size_t most = ENOUGH - 1;

	for (size_t i = 0; i < ref_source_count(); i++) {
		const char *other = ref_source_get(i)->key;
		size_t same = same_letters(key, other);

		if (same > most) {
			most = same;
			best = other;
		}
	}
	return best;
}
