/*
 * Reads a site's own usual values: a table with the columns of usual.tsv, in
 * any order, its words spelled as in a note. Every cell is checked with the
 * same care as a note, and a table with a fault is not used at all.
 */
#include "reference/load.h"

#include <errno.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "reference/table.h"
#include "text/buffer.h"
#include "text/file.h"
#include "text/mem.h"
#include "text/utf8.h"

enum {
	LONGEST_LINE = 4096, /* as of a note */
	LARGEST_TABLE = 16 * 1024 * 1024
};

const struct ref_load_column ref_load_columns[COLUMNS] = {
    [JOINT] = {"joint", true},
    [MOTION] = {"motion", true},
    [SETTING] = {"setting", false},
    [MODE] = {"mode", false},
    [SEX] = {"sex", false},
    [AGE_LO] = {"age_lo", false},
    [AGE_HI] = {"age_hi", false},
    [VALUE] = {"value", true},
    [SPREAD] = {"spread", false},
    [SOURCE] = {"source", true},
    [WHERE_READ] = {"where_read", false},
    [VERIFIED] = {"verified", false},
};

void
ref_load_fault(struct ref_loader *in, const char *at, const char *format, ...)
{
	char message[256];
	va_list args;

	va_start(args, format);
	vsnprintf(message, sizeof(message), format, args);
	va_end(args);
	in->faults++;
	in->complain(in->arg, in->line_number, (size_t)(at - in->line.text) + 1,
	    message);
}

size_t
ref_slice_quoted(struct ref_slice s)
{
	size_t n = s.len < 40 ? s.len : 40;

	while (n < s.len && n > 0 && (s.text[n] & 0xc0) == 0x80)
		n--;
	return n;
}

bool
ref_slice_is(struct ref_slice s, const char *text)
{
	return s.len == strlen(text) && memcmp(s.text, text, s.len) == 0;
}

struct ref_slice
ref_slice_trim(struct ref_slice s)
{
	while (s.len && s.text[0] == ' ') {
		s.text++;
		s.len--;
	}
	while (s.len && s.text[s.len - 1] == ' ')
		s.len--;
	return s;
}

bool
ref_slice_next(struct ref_slice *rest, char mark, struct ref_slice *out)
{
	const char *end;

	if (!rest->text)
		return false;
	end = memchr(rest->text, mark, rest->len);
	*out = *rest;
	if (end) {
		out->len = (size_t)(end - rest->text);
		rest->len -= out->len + 1;
		rest->text = end + 1;
	} else {
		rest->text = NULL;
	}
	return true;
}

static const char *
people(const struct ref_usual_row *row)
{
	static const char *const grown[] = {"women", "men"};
	static const char *const young[] = {"girls", "boys"};
	static const char *const any[] = {"females", "males"};
	int m = row->sex == VOCAB_SEX_M;

	if (row->sex == VOCAB_SEX_X)
		return "people of sex X";
	if (row->sex < 0)
		return "people";
	if (row->age_lo >= 18)
		return grown[m];
	return row->age_hi >= 0 && row->age_hi < 18 ? young[m] : any[m];
}

/* As generate.awk says it of the built-in rows. */
static const char *
population(struct ref_site *site, const struct ref_usual_row *row)
{
	char ages[32] = "", text[80];
	const char *who = people(row);
	int len;

	if (row->age_lo >= 0 && row->age_hi >= 0)
		snprintf(
		    ages, sizeof(ages), " %d-%d", row->age_lo, row->age_hi);
	else if (row->age_lo >= 0)
		snprintf(ages, sizeof(ages), " %d and over", row->age_lo);
	else if (row->age_hi >= 0)
		snprintf(ages, sizeof(ages), " up to %d", row->age_hi);
	else if (row->sex < 0)
		who = "the source gives no age or sex";
	len = snprintf(text, sizeof(text), "%s%s%s%s", who, ages,
	    row->mode < 0 ? "" : ", ",
	    row->mode < 0 ? "" : vocab_name(VOCAB_CLASS_MODE, row->mode));
	return arena_text(&site->arena, text, (size_t)len);
}

static void
add_rows(struct ref_loader *in, struct ref_usual_row *row)
{
	for (size_t i = 0; i < in->joint_count; i++) {
		row->measurement = in->joints[i];
		*MEM_PUSH(in->site) = *row;
		*MEM_PUSH(&in->lines) = in->line_number;
	}
}

/* A row and its line, while rows that stand twice are looked for. */
struct entry {
	const struct ref_usual_row *row;
	size_t line;
};

/* 0 where two rows would answer the same question. */
static int
compare_rows(const struct ref_usual_row *a, const struct ref_usual_row *b)
{
	int by[] = {a->measurement - b->measurement, a->mode - b->mode,
	    a->sex - b->sex, a->age_lo - b->age_lo, a->age_hi - b->age_hi,
	    strcmp(a->setting, b->setting), strcmp(a->source, b->source)};

	for (size_t i = 0; i < sizeof(by) / sizeof(by[0]); i++)
		if (by[i])
			return by[i];
	return 0;
}

static int
compare_entries(const void *left, const void *right)
{
	const struct entry *a = left, *b = right;
	int by_row = compare_rows(a->row, b->row);

	return by_row ? by_row : (a->line > b->line) - (a->line < b->line);
}

/* Tells of each row that says again what an earlier one of the table says. */
static void
find_twice(struct ref_loader *in)
{
	size_t n = in->site->len - in->first;
	struct entry *entries = mem_resize(NULL, n + 1, sizeof(*entries));

	for (size_t i = 0; i < n; i++)
		entries[i] = (struct entry){
		    &in->site->at[in->first + i], in->lines.at[i]};
	qsort(entries, n, sizeof(*entries), compare_entries);
	for (size_t i = 1; i < n; i++) {
		if (compare_rows(entries[i - 1].row, entries[i].row))
			continue;
		in->line_number = entries[i].line;
		ref_load_fault(in, in->line.text, "the same row as line %zu",
		    entries[i - 1].line);
	}
	free(entries);
}

static const char *
kept(struct ref_loader *in, enum column column)
{
	return arena_text(
	    &in->site->arena, in->cells[column].text, in->cells[column].len);
}

static void
read_row(struct ref_loader *in)
{
	struct ref_usual_row row = {.source_id = -1};
	size_t before = in->faults;

	for (int c = 0; c < COLUMNS; c++)
		if (ref_load_columns[c].needed && !in->cells[c].len)
			ref_load_fault(in, in->cells[c].text, "%s is empty",
			    ref_load_columns[c].name);
	ref_load_joints(in);
	ref_load_cells(in, &row);
	if (in->faults > before)
		return;
	row.spread = kept(in, SPREAD);
	row.source = kept(in, SOURCE);
	row.where_read = kept(in, WHERE_READ);
	row.verified =
	    in->cells[VERIFIED].len ? kept(in, VERIFIED) : "the site's own";
	row.population = population(in->site, &row);
	add_rows(in, &row);
}

static void
read_header(struct ref_loader *in)
{
	struct ref_slice rest = in->line, cell;
	unsigned found = 0;

	if (!memchr(in->line.text, '\t', in->line.len)) {
		ref_load_fault(in, in->line.text,
		    "the columns of this table are not parted by tabs");
		return;
	}
	while (ref_slice_next(&rest, '\t', &cell)) {
		int c = 0;

		while (c < COLUMNS &&
		       !ref_slice_is(cell, ref_load_columns[c].name))
			c++;
		if (c == COLUMNS)
			ref_load_fault(in, cell.text, "no such column '%.*s'",
			    QUOTED(cell));
		else if (found >> c & 1)
			ref_load_fault(in, cell.text, "column %s stands twice",
			    ref_load_columns[c].name);
		else if (in->width < MOST_CELLS)
			found |= 1u << c;
		if (in->width < MOST_CELLS)
			in->column_of[in->width++] = c;
	}
	for (int c = 0; c < COLUMNS; c++)
		if (ref_load_columns[c].needed && !(found >> c & 1))
			ref_load_fault(in, in->line.text,
			    "there is no column %s", ref_load_columns[c].name);
}

static void
read_cells(struct ref_loader *in)
{
	struct ref_slice rest = in->line, cell;
	size_t n = 0;

	/* A column that the table lacks is an empty cell at the line's start */
	for (int c = 0; c < COLUMNS; c++)
		in->cells[c] = (struct ref_slice){in->line.text, 0};
	for (; ref_slice_next(&rest, '\t', &cell); n++)
		if (n < in->width)
			in->cells[in->column_of[n]] = ref_slice_trim(cell);
	if (n == in->width)
		read_row(in);
	else
		ref_load_fault(in, in->line.text,
		    "%zu cells where there must be %zu", n, in->width);
}

/* A line is text, and no longer than that of a note. */
static bool
is_sound(struct ref_loader *in)
{
	size_t bad, at = utf8_check(in->line.text, in->line.len, &bad);

	if (in->line.len > LONGEST_LINE) {
		ref_load_fault(
		    in, in->line.text, "the line is longer than 4,096 bytes");
		return false;
	}
	if (at < in->line.len) {
		ref_load_fault(in, in->line.text + at,
		    "not UTF-8, or a control character");
		return false;
	}
	return true;
}

static void
read_line(struct ref_loader *in, bool *header)
{
	if (!is_sound(in))
		return;
	if (ref_slice_trim(in->line).len == 0)
		return;
	if (*header)
		read_cells(in);
	else
		read_header(in);
	*header = true;
}

int
ref_load_text(const char *text, size_t len, struct ref_site *site,
    ref_complain *complain, void *arg)
{
	struct ref_loader in = {
	    .site = site, .first = site->len, .complain = complain, .arg = arg};
	struct ref_slice rest = {text, len};
	bool header = false;
	size_t header_faults = 0;

	if (len >= 3 && memcmp(text, "\xEF\xBB\xBF", 3) == 0) {
		rest.text += 3;
		rest.len -= 3;
	}
	/* Under a header that is wrong every row would be, so stop there. */
	while (!header_faults && ref_slice_next(&rest, '\n', &in.line)) {
		bool was = header;

		in.line_number++;
		if (in.line.len && in.line.text[in.line.len - 1] == '\r')
			in.line.len--;
		read_line(&in, &header);
		if (!was)
			header_faults = in.faults;
	}
	if (!in.faults)
		find_twice(&in);
	if (!header && !in.faults) {
		in.line_number = 1;
		in.line = (struct ref_slice){text, 0};
		ref_load_fault(&in, text, "the table is empty");
	}
	if (in.faults)
		site->len = in.first;
	free(in.lines.at);
	return in.faults ? 1 : 0;
}

/* Reads FD to its end, or as far as a table may go; -1 with errno set. */
static int
read_table(int fd, struct buffer *buf)
{
	ssize_t n = 1;

	while (n != 0 && buf->len <= LARGEST_TABLE) {
		n = read(fd, buffer_room(buf, 65536), 65536);
		if (n > 0)
			buf->len += (size_t)n;
		else if (n < 0 && errno != EINTR)
			return -1;
	}
	if (buf->len <= LARGEST_TABLE)
		return 0;
	errno = EFBIG;
	return -1;
}

int
ref_load(
    const char *path, struct ref_site *site, ref_complain *complain, void *arg)
{
	struct buffer buf = {0};
	int fd = file_open(path);
	int result, error;

	if (fd < 0)
		return -1;
	result = read_table(fd, &buf);
	error = errno;
	close(fd);
	if (result == 0)
		result = ref_load_text(buf.data, buf.len, site, complain, arg);
	buffer_free(&buf);
	errno = error;
	return result;
}

void
ref_site_free(struct ref_site *site)
{
	free(site->at);
	arena_free(&site->arena);
	*site = (struct ref_site){0};
}
