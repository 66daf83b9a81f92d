/*
 * The open standards that the program writes and reads: RFC 4180 for the CSV,
 * the GNU Coding Standards for messages, ISO 8601 for days and times. Invented
 * notes.
 */
#include <glob.h>
#include <regex.h>
#include <stdio.h>

#include "../unit/read_note.h"

#include "write/findings.h"

/* --- RFC 4180, section 2
 * ------------------------------------------------------------ */

/* Texts and a name of the file that make every rule matter. */
static const char nasty_file[] = "a \"b\", c\r\nd.range";
static const char nasty_note[] =
    "subject CS-01\nsession 2026-05-04 \"week 8, \xc2\xbd day\"\n"
    "hip flexion R A 0-112 \"a, b\" \"  padded  \"\n"
    "hip flexion L A 0-113 \"=1+2\"\n"
    "knee R A 5-118 \"it's\"\n"
    "jaw opening A 38 mm\n"
    "hip extension R NT \"\"\n";

static struct buffer csv;

static void
add_rows(void *arg, struct session *s, struct sink *sink)
{
	csv_session(&csv, s, sink, *(bool *)arg);
}

static void
write_csv(bool by_trial)
{
	struct intern pool = {0};
	struct note *note = note_new(&pool, add_rows, &by_trial);
	const char *p = nasty_note, *lf;

	csv.len = 0;
	csv_header(&csv, by_trial);
	note_begin(note, nasty_file, true);
	for (; (lf = strchr(p, '\n')); p = lf + 1)
		note_line(note, p, (size_t)(lf - p));
	note_end(note);
	note_free(note);
	intern_free(&pool);
}

struct field {
	size_t beg, end; /* with its quotes */
	bool quoted;
};

static struct {
	struct field at[1024];
	size_t len;
	size_t fields[32]; /* of each record */
	size_t records;
} found;

/*
 * A strict reader of the grammar in section 2: stops the test where a byte
 * fits none of its rules.
 */
static void
read_csv(void)
{
	size_t i = 0, first = 0;

	found.len = found.records = 0;
	while (i < csv.len) {
		struct field f = {.beg = i};

		if (csv.data[i] == '"') {
			f.quoted = true;
			for (i++; csv.data[i] != '"' || csv.data[i + 1] == '"';
			     i++) {
				i += csv.data[i] == '"';
				ck_assert_uint_lt(i + 1, csv.len);
			}
			i++;
		} else {
			while (csv.data[i] != ',' && csv.data[i] != '\r')
				ck_assert(csv.data[i] != '"' &&
					  csv.data[i++] != '\n');
		}
		f.end = i;
		found.at[found.len++] = f;
		if (csv.data[i] == ',') {
			i++;
			continue;
		}
		ck_assert_int_eq(csv.data[i], '\r');
		ck_assert_int_eq(csv.data[i + 1], '\n');
		i += 2;
		found.fields[found.records++] = found.len - first;
		first = found.len;
	}
	ck_assert_uint_eq(first, found.len);
}

/* 1. Each record on a line of its own, ended by CRLF. 2. The last one too. */
START_TEST(rfc4180_1_2_records_end_with_crlf)
{
	write_csv(_i);
	read_csv();
	ck_assert_uint_eq(found.records, 1 + 6);
	ck_assert_uint_gt(csv.len, 2);
	ck_assert_int_eq(memcmp(csv.data + csv.len - 2, "\r\n", 2), 0);
}
END_TEST

/* 3. A header line of the same form, with the names of the fields. */
START_TEST(rfc4180_3_the_first_record_names_the_fields)
{
	write_csv(_i);
	read_csv();
	ck_assert_uint_eq(found.fields[0], (size_t)(_i ? 33 : 32));
	ck_assert_int_eq(memcmp(csv.data, "session,time,label,", 19), 0);
	for (size_t i = 0; i < found.fields[0]; i++)
		ck_assert_uint_gt(found.at[i].end, found.at[i].beg);
}
END_TEST

/* 4. The same number of fields throughout; blanks are part of a field. */
START_TEST(rfc4180_4_every_record_has_all_fields)
{
	write_csv(_i);
	read_csv();
	for (size_t i = 0; i < found.records; i++)
		ck_assert_uint_eq(found.fields[i], found.fields[0]);
	buffer_putc(&csv, '\0');
	ck_assert_ptr_nonnull(strstr(csv.data, "\"a, b;   padded  \""));
}
END_TEST

/*
 * 5, 6. Quotes only round a field; it has them where it holds a line end, a
 * quote or a comma - and, as the notation has it, nowhere else.
 */
START_TEST(rfc4180_5_6_quotes_where_they_are_needed)
{
	write_csv(_i);
	read_csv();
	for (size_t i = 0; i < found.len; i++) {
		const struct field *f = &found.at[i];
		size_t quotes = f->quoted;
		bool needed = false;

		for (size_t k = f->beg + quotes; k < f->end - quotes; k++)
			needed = needed || strchr("\",\r\n", csv.data[k]);
		ck_assert_int_eq(f->quoted, needed);
	}
}
END_TEST

/* 7. A quote inside is written twice. */
START_TEST(rfc4180_7_quotes_are_doubled)
{
	static const char cell[] = ",\"a \"\"b\"\", c\r\nd.range\",3\r\n";

	write_csv(_i);
	buffer_putc(&csv, '\0');
	ck_assert_ptr_nonnull(strstr(csv.data, cell));
}
END_TEST

/* Not of the RFC: what a spreadsheet would run as a formula is text. */
START_TEST(formulas_are_text)
{
	static const char *const texts[] = {"=1", "+1", "-1", "@a", "\t1",
	    "\r1", "\n1",
	    "\xef\xbc\x9d"
	    "1",
	    "\xef\xbc\x8b"
	    "1",
	    "\xef\xbc\x8d"
	    "1",
	    "\xef\xbc\xa0"
	    "a"};
	static const char *const plain[] = {
	    "a=1", "1-2", "'a", " =1", "", "\xef\xbc\x91"};

	for (size_t i = 0; i < sizeof(texts) / sizeof(*texts); i++) {
		csv.len = 0;
		csv_text(&csv, texts[i], strlen(texts[i]));
		buffer_putc(&csv, '\0');
		ck_assert_int_eq(csv.data[csv.data[0] == '"'], '\'');
	}
	for (size_t i = 0; i < sizeof(plain) / sizeof(*plain); i++) {
		csv.len = 0;
		csv_text(&csv, plain[i], strlen(plain[i]));
		ck_assert_uint_eq(csv.len, strlen(plain[i]));
		ck_assert_int_eq(memcmp(csv.data, plain[i], csv.len), 0);
	}
}
END_TEST

/* --- GNU Coding Standards, Formatting Error Messages
 * ------------------------------------ */

static regex_t form;
static size_t messages;

/*
 * SOURCEFILE:LINE:COLUMN: MESSAGE, counted from 1; the message begins with no
 * capital (but for a word that has one) and ends without a full stop.
 */
static void
expect_form(void *arg, struct session *s, struct sink *sink)
{
	static const struct findings_style brief = {.brief = true};
	struct buffer out = {0};

	(void)arg;
	for (size_t i = 0; i < sink->len; i++) {
		out.len = 0;
		findings_write(&out, s->file, sink->at[i], &brief);
		buffer_putc(&out, '\0');
		messages++;
		ck_assert_msg(regexec(&form, out.data, 0, NULL, 0) == 0,
		    "not of the form: %s", out.data);
	}
	buffer_free(&out);
}

static void
read_file(const char *path)
{
	FILE *file = fopen(path, "rb");
	struct buffer text = {0};
	struct read_note n;
	size_t got;

	ck_assert_ptr_nonnull(file);
	while ((got = fread(buffer_room(&text, 4096), 1, 4096, file)) > 0)
		text.len += got;
	fclose(file);
	read_note_also(&n, text.data, text.len, true, expect_form, NULL);
	read_note_free(&n);
	buffer_free(&text);
}

START_TEST(gnu_messages)
{
	static const char *const patterns[] = {"corpus/rules/*/reported.range",
	    "corpus/broken/*.range", "corpus/demo/*.range"};

	ck_assert_int_eq(regcomp(&form,
			     "^[^:\n]+:[1-9][0-9]*:[1-9][0-9]*: "
			     "(error|warning|note): "
			     "([^A-Z\n]|[A-Z]{2})[^\n]*[^.\n] \\[[a-z-]+\\]\n$",
			     REG_EXTENDED | REG_NOSUB),
	    0);
	for (int i = 0; i < 3; i++) {
		glob_t files;

		ck_assert_int_eq(glob(patterns[i], 0, NULL, &files), 0);
		for (size_t k = 0; k < files.gl_pathc; k++)
			read_file(files.gl_pathv[k]);
		globfree(&files);
	}
	regfree(&form);
	ck_assert_uint_gt(messages, RULE_COUNT);
}
END_TEST

/* Columns count from 1, and so does what follows a wide letter: in bytes. */
START_TEST(gnu_columns)
{
	static const char text[] =
	    "session 2026-05-04\n"
	    "hip flexion R A 0-112 \"\xc3\xa4\" wobble\n";
	struct read_note n;

	read_note(&n, text, strlen(text), false);
	ck_assert_uint_eq(n.findings.len, 1);
	ck_assert_uint_eq(n.findings.at[0].beg + 1, 28);
	read_note_free(&n);
}
END_TEST

/* --- ISO 8601
 * -----------------------------------------------------------------------------
 */

/* Calendar days in the extended form, of the proleptic Gregorian calendar. */
static const struct {
	const char *words; /* behind `session` */
	bool good;
} days[] = {{"2026-05-04", true}, {"2000-02-29", true}, {"2024-02-29", true},
    {"1900-02-28", true}, {"1900-02-29", false}, {"2026-02-29", false},
    {"2026-04-31", false}, {"2026-00-10", false}, {"2026-13-10", false},
    {"2026-05-00", false}, {"2026-05-32", false},
    {"20260504", false},   /* the basic form */
    {"2026-05", false},	   /* a month */
    {"2026-W19-1", false}, /* a day of a week */
    {"2026-124", false},   /* a day of the year */
    {"+002026-05-04", false}, {"26-05-04", false}, {"04.05.2026", false},
    {"04/05/2026", false}, {"5/4/2026", false}, {"4-May-2026", false},
    {"2026-05-04 00:00", true}, {"2026-05-04 09:30", true},
    {"2026-05-04 23:59", true},
    {"2026-05-04 24:00", false}, /* gone since ISO 8601-1:2019 */
    {"2026-05-04 09:60", false}, {"2026-05-04 9:30", false},
    {"2026-05-04 0930", false}, {"2026-05-04 09:30Z", false}};

START_TEST(iso8601_days)
{
	struct buffer text = {0};
	struct read_note n;

	buffer_printf(
	    &text, "session %s\nhip flexion R A 0-112\n", days[_i].words);
	read_note(&n, text.data, text.len, false);
	ck_assert_uint_eq(n.rows.len, 1);
	ck_assert_uint_eq(n.findings.len, days[_i].good ? 0 : 1);
	if (days[_i].good)
		ck_assert_int_eq(
		    strncmp(n.rows.at[0].cell[COL_SESSION], days[_i].words, 10),
		    0);
	else
		ck_assert_str_eq(n.rows.at[0].cell[COL_SESSION], "");
	read_note_free(&n);
	buffer_free(&text);
}
END_TEST

static void
tear_down(void)
{
	buffer_free(&csv);
	csv = (struct buffer){0};
	read_note_end();
}

Suite *published_formats_suite(void);

Suite *
published_formats_suite(void)
{
	Suite *suite = suite_create("published formats");
	TCase *rfc = tcase_create("RFC 4180");
	TCase *gnu = tcase_create("GNU Coding Standards");
	TCase *iso = tcase_create("ISO 8601");

	tcase_add_checked_fixture(rfc, NULL, tear_down);
	tcase_add_checked_fixture(gnu, NULL, tear_down);
	tcase_add_checked_fixture(iso, NULL, tear_down);
	/* Rows of readings, then rows of trials. */
	tcase_add_loop_test(rfc, rfc4180_1_2_records_end_with_crlf, 0, 2);
	tcase_add_loop_test(
	    rfc, rfc4180_3_the_first_record_names_the_fields, 0, 2);
	tcase_add_loop_test(rfc, rfc4180_4_every_record_has_all_fields, 0, 2);
	tcase_add_loop_test(
	    rfc, rfc4180_5_6_quotes_where_they_are_needed, 0, 2);
	tcase_add_loop_test(rfc, rfc4180_7_quotes_are_doubled, 0, 2);
	tcase_add_test(rfc, formulas_are_text);
	tcase_add_test(gnu, gnu_messages);
	tcase_add_test(gnu, gnu_columns);
	tcase_add_loop_test(
	    iso, iso8601_days, 0, (int)(sizeof(days) / sizeof(*days)));
	suite_add_tcase(suite, rfc);
	suite_add_tcase(suite, gnu);
	suite_add_tcase(suite, iso);
	return suite;
}
