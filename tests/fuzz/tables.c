/*
 * Fuzz target: what is made of the readings: the CSV of readings and trials,
 * the summary and the progress in each of their formats, the drawing. Rows
 * have as many cells as the header names, JSON is JSON, and no figure is one
 * that cannot be.
 */
#include "fuzz.h"

#include <string.h>

#include "text/utf8.h"
#include "write/csv.h"
#include "write/progress.h"
#include "write/summary.h"

enum { BY_READING, BY_TRIAL, TABLES };
enum { FORMATS = 3 };

struct made {
	struct buffer rows[TABLES];
	struct buffer sums[FORMATS]; /* by enum summary_format */
	struct summary *summary[FORMATS];
	struct progress *progress;
	size_t readings, trials;
};

static void
on_session(void *arg, struct session *s, struct sink *sink)
{
	struct made *made = arg;

	for (int i = 0; i < TABLES; i++)
		csv_session(&made->rows[i], s, sink, i == BY_TRIAL);
	for (int i = 0; i < FORMATS; i++)
		summary_session(made->summary[i], &made->sums[i], s, sink);
	progress_add(made->progress, s, sink);
	made->readings += s->readings.len;
	for (size_t i = 0; i < s->readings.len; i++) {
		uint32_t trials = s->readings.at[i].trials;

		made->trials += trials ? trials : 1;
	}
}

/* One line behind the other, CR and LF left out. */
static void
must_be_text(const struct buffer *out)
{
	size_t at = 0, bad;

	while (at < out->len) {
		at += utf8_check(out->data + at, out->len - at, &bad);
		MUST(at == out->len || out->data[at] == '\r' ||
		     out->data[at] == '\n');
		at++;
	}
}

/* Strictly RFC 4180; the number of rows. */
static size_t
must_be_csv(const struct buffer *out)
{
	const char *p = out->data, *end = out->len ? p + out->len : p;
	size_t rows = 0, columns = 0, cells = 1;

	must_be_text(out);
	while (p < end) {
		if (*p == '"') {
			for (p++; p < end; p++)
				if (*p == '"' && (++p == end || *p != '"'))
					break;
		} else {
			while (p < end && *p != ',' && *p != '\r')
				MUST(*p != '"' && *p != '\n'), p++;
		}
		MUST(p < end && (*p == ',' || *p == '\r'));
		if (*p++ == ',') {
			cells++;
			continue;
		}
		MUST(p < end && *p++ == '\n');
		MUST(rows++ == 0 || cells == columns);
		columns = cells;
		cells = 1;
	}
	return rows;
}

static void
must_be_drawing(struct buffer *out)
{
	must_be_text(out);
	buffer_putc(out, '\0');
	MUST(!strstr(out->data, "\"nan") && !strstr(out->data, "\"-nan"));
	MUST(!strstr(out->data, "\"inf") && !strstr(out->data, "\"-inf"));
}

static void
write_progress(struct progress *p)
{
	struct buffer out = {0};

	progress_finish(p);
	for (int format = PROGRESS_TEXT; format <= PROGRESS_JSON; format++) {
		struct progress_style how = {
		    (enum progress_format)format, true, true, 20600};

		out.len = 0;
		progress_write_begin(&out, &how);
		for (size_t i = 0; i < p->persons.len; i++)
			progress_write_person(&out, p, i, &how);
		progress_write_end(&out, p, &how);
		if (format == PROGRESS_CSV)
			must_be_csv(&out);
		if (format == PROGRESS_JSON)
			fuzz_must_be_json_lines(&out);
	}
	out.len = 0;
	progress_plot(&out, p);
	must_be_drawing(&out);
	buffer_free(&out);
}

void
fuzz_one(const char *bytes, size_t len)
{
	struct summary_options how[FORMATS];
	struct made made = {.progress = progress_new()};

	for (int i = 0; i < FORMATS; i++) {
		how[i] = (struct summary_options){
		    (enum summary_format)i, i == SUMMARY_TEXT, NULL, NULL};
		made.summary[i] = summary_new(&how[i]);
		summary_begin(made.summary[i], &made.sums[i]);
	}
	for (int i = 0; i < TABLES; i++)
		csv_header(&made.rows[i], i == BY_TRIAL);
	fuzz_read(bytes, len,
	    &(struct fuzz_reading){
		.judged = true, .each = on_session, .arg = &made});
	for (int i = 0; i < FORMATS; i++) {
		summary_end(made.summary[i], &made.sums[i]);
		summary_free(made.summary[i]);
	}
	MUST(must_be_csv(&made.rows[BY_READING]) == 1 + made.readings);
	MUST(must_be_csv(&made.rows[BY_TRIAL]) == 1 + made.trials);
	must_be_csv(&made.sums[SUMMARY_CSV]);
	fuzz_must_be_json_lines(&made.sums[SUMMARY_JSON]);
	write_progress(made.progress);
	progress_free(made.progress);
	for (int i = 0; i < TABLES; i++)
		buffer_free(&made.rows[i]);
	for (int i = 0; i < FORMATS; i++)
		buffer_free(&made.sums[i]);
}
