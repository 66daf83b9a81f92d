/* How a site's own table of usual values is read, and what its rows do. */
#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "reference/reference.h"
#include "vocab/vocab.h"

/* The tables as they stand in the tree; tests run from its top folder. */
#ifndef REFERENCE_DIR
#define REFERENCE_DIR "src/reference"
#endif

Suite *reference_site_suite(void);

#define M(name) VOCAB_MEASUREMENT_##name

#define HEADER "joint\tmotion\tvalue\tsource\n"

/* The faults of one load, as FILE:LINE:COLUMN would print them. */
struct told {
	char text[512];
	size_t len;
	size_t n;
};

static void
tell(void *arg, size_t line, size_t column, const char *message)
{
	struct told *told = arg;

	told->n++;
	if (told->len < sizeof(told->text))
		told->len += (size_t)snprintf(told->text + told->len,
		    sizeof(told->text) - told->len, "%zu:%zu: %s\n", line,
		    column, message);
}

static int
load(struct ref_site *site, const char *text, struct told *told)
{
	*told = (struct told){.n = 0};
	return ref_load_text(text, strlen(text), site, tell, told);
}

START_TEST(site_rows_come_first)
{
	struct ref_site site = {0};
	struct ref_person woman = {30, VOCAB_SEX_F};
	struct ref_usual u;
	struct told told;

	ck_assert_int_eq(load(&site,
			     "\xEF\xBB\xBFsource\tmotion\tjoint\tvalue\r\n"
			     "\r\n"
			     "ward.7\tflex\thip\t125.5\r\n"
			     "ward.7\tflex\tindex PIP, MF  PIPJ\t>=95",
			     &told),
	    0);
	ck_assert_uint_eq(told.n, 0);
	ck_assert_uint_eq(site.len, 3);
	/* Even before a built-in row of this person's age and sex. */
	ck_assert(ref_usual(M(HIP_FLEXION), "", -1, &woman, NULL, &site, &u));
	ck_assert_int_eq(u.low, 1255);
	ck_assert_str_eq(u.source, "ward.7");
	ck_assert_str_eq(u.verified, "the site's own");
	ck_assert_str_eq(u.population, "the source gives no age or sex");
	ck_assert(
	    ref_usual(M(MIDDLE_PIP_FLEXION), "", -1, NULL, NULL, &site, &u));
	ck_assert_int_eq(u.low, 950);
	ck_assert(u.at_least);
	/* Where it has nothing, and where another source is asked for. */
	ck_assert(
	    ref_usual(M(RING_PIP_FLEXION), "", -1, NULL, NULL, &site, &u));
	ck_assert_str_eq(u.source, "AAOS");
	ck_assert(ref_usual(M(HIP_FLEXION), "", -1, NULL, "AAOS", &site, &u));
	ck_assert_int_eq(u.low, 1200);
	ck_assert(ref_usual(M(HIP_FLEXION), "", -1, NULL, "ward.7", &site, &u));
	ck_assert_int_eq(u.low, 1255);
	/* A table that is loaded later overrides. */
	ck_assert_int_eq(
	    load(&site, HEADER "hip\tflexion\t118\tward.7\n", &told), 0);
	ck_assert(ref_usual(M(HIP_FLEXION), "", -1, NULL, NULL, &site, &u));
	ck_assert_int_eq(u.low, 1180);
	ref_site_free(&site);
	ck_assert_uint_eq(site.len, 0);
}
END_TEST

START_TEST(site_rows_of_narrower_people_come_first)
{
	struct ref_site site = {0};
	struct ref_person child = {9, -1}, nobody = {-1, -1};
	struct ref_usual u;
	struct told told;

	ck_assert_int_eq(load(&site,
			     "joint\tmotion\tage_lo\tage_hi\tvalue\tsource\n"
			     "hip\tflexion\t8\t10\t131\tward.7\n"
			     "hip\tflexion\t5\t15\t132\tward.7\n"
			     "hip\tflexion\t\t20\t133\tward.7\n",
			     &told),
	    0);
	ck_assert(ref_usual(M(HIP_FLEXION), "", -1, &child, NULL, &site, &u));
	ck_assert_int_eq(u.low, 1310);
	child.age = 11;
	ck_assert(ref_usual(M(HIP_FLEXION), "", -1, &child, NULL, &site, &u));
	ck_assert_int_eq(u.low, 1320);
	child.age = 2;
	ck_assert(ref_usual(M(HIP_FLEXION), "", -1, &child, NULL, &site, &u));
	ck_assert_int_eq(u.low, 1330);
	ck_assert_str_eq(u.population, "people up to 20");
	/* An age that is not known is not below any. */
	ck_assert(ref_usual(M(HIP_FLEXION), "", -1, &nobody, NULL, &site, &u));
	ck_assert_str_eq(u.source, "AAOS");
	ref_site_free(&site);
}
END_TEST

START_TEST(site_rows_hold_every_column)
{
	struct ref_site site = {0};
	struct ref_person girl = {9, VOCAB_SEX_F}, boy = {9, VOCAB_SEX_M};
	struct ref_usual u;
	struct told told;

	ck_assert_int_eq(
	    load(&site,
		"joint\tmotion\tsetting\tmode\tsex\tage_lo\tage_hi\tvalue\t"
		"spread\tsource\twhere_read\tverified\n"
		"ankle\tDF\tweight-bearing knee-straight\tP\tfemale\t8\t12\t"
		"30-36\tsd 4.5\tschool\tour own file\tfrom memory\n",
		&told),
	    0);
	ck_assert(
	    ref_usual(M(ANKLE_DORSIFLEXION), "knee-straight weight-bearing",
		VOCAB_MODE_PASSIVE, &girl, NULL, &site, &u));
	ck_assert_int_eq(u.low, 300);
	ck_assert_int_eq(u.high, 360);
	ck_assert_str_eq(u.population, "girls 8-12, passive");
	ck_assert_str_eq(u.verified, "from memory");
	ck_assert_str_eq(u.row->spread, "sd 4.5");
	ck_assert_str_eq(u.row->where_read, "our own file");
	ck_assert_str_eq(u.row->setting, "knee-straight weight-bearing");
	/* Not for a boy, nor for the knee bent. */
	ck_assert(
	    !ref_usual(M(ANKLE_DORSIFLEXION), "knee-straight weight-bearing",
		VOCAB_MODE_PASSIVE, &boy, NULL, &site, &u));
	ck_assert(!ref_usual(M(ANKLE_DORSIFLEXION), "knee-bent",
	    VOCAB_MODE_PASSIVE, &girl, "school", &site, &u));
	ref_site_free(&site);
}
END_TEST

static const struct {
	const char *text, *faults;
} broken[] = {
    {"", "1:1: the table is empty\n"},
    {"\n \n", "1:1: the table is empty\n"},
    {"joint,motion,value,source\nknee,flexion,140,s\n",
	"1:1: the columns of this table are not parted by tabs\n"},
    {"joint\tmotion\tvalue\n", "1:1: there is no column source\n"},
    {"joint\tmotion\tvalue\tsource\tvalue\tcolour\n"
     "nothing more is read\n",
	"1:27: column value stands twice\n1:33: no such column 'colour'\n"},
    {HEADER "knee\tflexion\t140\n", "2:1: 3 cells where there must be 4\n"},
    {HEADER "\tflexion\t140\ts\n", "2:1: joint is empty\n"},
    {HEADER "knee\tflexion\t\ts\n", "2:14: value is empty\n"},
    {HEADER "kne\tflexion\t140\ts\n",
	"2:1: unknown joint 'kne'; did you mean 'knee'?\n"},
    {HEADER "knee,\tflexion\t140\ts\n", "2:6: unknown joint ''\n"},
    {HEADER "ring MTP\tflexion\t9\ts\n",
	"2:1: unknown joint 'ring MTP'; did you mean 'ring mcp'?\n"},
    {HEADER "index\tflexion\t9\ts\n", "2:7: 'flexion' is no motion of index\n"},
    {HEADER "knee\tfleksion\t140\ts\n",
	"2:6: unknown motion 'fleksion'; did you mean 'flexion'?\n"},
    {HEADER "knee\tpronation\t140\ts\n",
	"2:6: 'pronation' is no motion of knee\n"},
    {HEADER "knee\tkapandji\t7\ts\n",
	"2:6: 'opposition' is no motion of knee\n"},
    {HEADER "knee\tflexion\t140,5\ts\n",
	"2:14: a value is N, LOW-HIGH or >=N, each with at most one decimal, "
	"not '140,5'\n"},
    {HEADER "knee\tflexion\t-5\ts\n",
	"2:14: a value is N, LOW-HIGH or >=N, each with at most one decimal, "
	"not '-5'\n"},
    {HEADER "knee\tflexion\t140-130\ts\n",
	"2:14: a value is N, LOW-HIGH or >=N, each with at most one decimal, "
	"not '140-130'\n"},
    {HEADER "knee\tflexion\t0140\ts\n",
	"2:14: a value is N, LOW-HIGH or >=N, each with at most one decimal, "
	"not '0140'\n"},
    {HEADER "knee\tflexion\t200.1\ts\n", "2:14: the value is beyond 200\n"},
    {HEADER "thumb\topposition\t11\ts\n", "2:18: the value is beyond 10\n"},
    {HEADER "shoulder\thand-behind-back\t7\ts\n",
	"2:27: a level has no usual figure\n"},
    {HEADER "knee\tflexion\t140\ta b\n",
	"2:19: a source is letters, digits and ._- alone\n"},
    {HEADER
	"knee\tflexion\t140\t"
	"aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa\n",
	"2:18: a source is at most 64 letters long\n"},
    {HEADER "knee\tflexion\t140\t\xff\n",
	"2:18: not UTF-8, or a control character\n"},
    {HEADER "knee\tflexion\t140\ts\nhip\tflexion\t120\ts\n"
	    "kn\tflex\t141\ts\n",
	"4:1: the same row as line 2\n"},
    {"joint\tmotion\tsetting\tvalue\tsource\nknee\tflexion\tknee-bnt\t9\ts\n",
	"2:14: unknown setting 'knee-bnt'\n"},
    {"joint\tmotion\tsetting\tvalue\tsource\nknee\tflexion\tWB NBW\t9\ts\n",
	"2:17: unknown setting 'NBW'; did you mean 'nwb'?\n"},
    {"joint\tmotion\tsetting\tvalue\tsource\nknee\tflexion\tabducted-90\t9"
     "\ts\n",
	"2:14: 'abducted-90' is no setting of knee flexion\n"},
    {"joint\tmotion\tsetting\tvalue\tsource\nknee\tflexion\tWB "
     "weight-bearing\t9\ts\n",
	"2:14: setting 'weight-bearing' stands twice\n"},
    {"joint\tmotion\tmode\tvalue\tsource\nknee\tflexion\tfast\t9\ts\n",
	"2:14: unknown mode 'fast'\n"},
    {"joint\tmotion\tsex\tvalue\tsource\nknee\tflexion\tQ\t9\ts\n",
	"2:14: unknown sex 'Q'\n"},
    {"joint\tmotion\tage_lo\tage_hi\tvalue\tsource\n"
     "knee\tflexion\t44\t20\t9\ts\n",
	"2:14: the ages are the wrong way round\n"},
    {"joint\tmotion\tage_lo\tage_hi\tvalue\tsource\n"
     "knee\tflexion\t4x\t121\t9\ts\n",
	"2:14: an age is a whole number from 0 to 120\n"
	"2:17: an age is a whole number from 0 to 120\n"},
    {"joint\tmotion\tspread\tvalue\tsource\nknee\tflexion\t5.4\t9\ts\n",
	"2:14: a spread is 'sd N' or 'ci LOW-HIGH'\n"},
    {"joint\tmotion\tverified\tvalue\tsource\nknee\tflexion\tno\t9\ts\n",
	"2:14: verified is 'yes' or 'from memory'\n"},
};

START_TEST(site_faults_are_told_and_nothing_is_kept)
{
	struct ref_site site = {0};
	struct told told;

	ck_assert_int_eq(load(&site, broken[_i].text, &told), 1);
	ck_assert_str_eq(told.text, broken[_i].faults);
	ck_assert_uint_eq(site.len, 0);
	ref_site_free(&site);
}
END_TEST

START_TEST(site_of_many_faults_and_odd_bytes)
{
	struct ref_site site = {0};
	struct told told;
	char line[6000];

	/* Every bad row is told; an earlier table stays. */
	ck_assert_int_eq(
	    load(&site, HEADER "knee\tflexion\t139\tfirst\n", &told), 0);
	ck_assert_int_eq(load(&site,
			     HEADER "kneee\tflexion\t1\ts\n"
				    "hip\tflexion\t120\ts\n"
				    "knee\tflexion\tx\ts\n",
			     &told),
	    1);
	ck_assert_uint_eq(told.n, 2);
	ck_assert_uint_eq(site.len, 1);
	memset(line, 'a', sizeof(line) - 1);
	line[sizeof(line) - 1] = '\0';
	ck_assert_int_eq(load(&site, line, &told), 1);
	ck_assert_str_eq(
	    told.text, "1:1: the line is longer than 4,096 bytes\n");
	/* A NUL is no text either. */
	told = (struct told){.n = 0};
	ck_assert_int_eq(ref_load_text(HEADER "knee\0\tflexion\t1\ts\n",
			     sizeof(HEADER "knee\0\tflexion\t1\ts\n") - 1,
			     &site, tell, &told),
	    1);
	ck_assert_str_eq(told.text, "2:5: not UTF-8, or a control character\n");
	/* A quoted cell is not cut within a letter. */
	ck_assert_int_eq(load(&site,
			     HEADER "knee\tflexion\t"
				    "123456789012345678901234567890123456789"
				    "\xc3\xa9\ts\n",
			     &told),
	    1);
	ck_assert_ptr_nonnull(
	    strstr(told.text, "'123456789012345678901234567890123456789'"));
	ref_site_free(&site);
}
END_TEST

START_TEST(site_file_that_cannot_be_read)
{
	struct ref_site site = {0};
	struct told told = {.n = 0};

	ck_assert_int_eq(
	    ref_load(REFERENCE_DIR "/no-such-table.tsv", &site, tell, &told),
	    -1);
	ck_assert_int_eq(ref_load(REFERENCE_DIR, &site, tell, &told), -1);
	ck_assert_uint_eq(told.n, 0);
	ref_site_free(&site);
}
END_TEST

/* The bytes of a file and a NUL; the caller frees them. */
static char *
whole_file(const char *path)
{
	FILE *file = fopen(path, "rb");
	size_t size = 1 << 20, len;
	char *text = malloc(size);

	ck_assert_msg(file && text, "cannot read %s", path);
	len = fread(text, 1, size - 1, file);
	fclose(file);
	text[len] = '\0';
	return text;
}

/* Remembers which lines say again what an earlier one says. */
struct again {
	size_t line[8];
	size_t n;
};

static void
note_again(void *arg, size_t line, size_t column, const char *message)
{
	struct again *again = arg;

	ck_assert_uint_eq(column, 1);
	ck_assert_msg(strncmp(message, "the same row as line", 20) == 0,
	    "usual.tsv:%zu: %s", line, message);
	ck_assert_uint_lt(again->n, 8);
	again->line[again->n++] = line;
}

/* Takes line NUMBER (from 1) out of TEXT. */
static void
cut_line(char *text, size_t number)
{
	char *end;

	while (--number)
		text = strchr(text, '\n') + 1;
	end = strchr(text, '\n') + 1;
	memmove(text, end, strlen(end) + 1);
}

static bool
same_row(const struct ref_usual_row *a, const struct ref_usual_row *b)
{
	return a->measurement == b->measurement && a->low == b->low &&
	       a->high == b->high && a->at_least == b->at_least &&
	       a->mode == b->mode && a->sex == b->sex &&
	       a->age_lo == b->age_lo && a->age_hi == b->age_hi &&
	       strcmp(a->source, b->source) == 0 &&
	       strcmp(a->setting, b->setting) == 0 &&
	       strcmp(a->spread, b->spread) == 0 &&
	       strcmp(a->where_read, b->where_read) == 0 &&
	       strcmp(a->verified, b->verified) == 0;
}

/* The built-in rows that SITE has not; checks that it says the same of who. */
static size_t
missing_from(const struct ref_site *site, size_t *rows)
{
	size_t missing = 0, n;

	for (int m = 0; m < VOCAB_MEASUREMENT_COUNT; m++) {
		const struct ref_usual_row *row = ref_usual_rows(m, &n);

		*rows += n;
		for (size_t i = 0; i < n; i++) {
			size_t k = 0;

			while (
			    k < site->len && !same_row(&site->at[k], &row[i]))
				k++;
			if (k == site->len)
				missing++;
			else if (row[i].age_lo >= 0 || row[i].sex >= 0)
				ck_assert_str_eq(
				    site->at[k].population, row[i].population);
		}
	}
	return missing;
}

/*
 * Two readers, generate.awk and ref_load(), must read usual.tsv alike. A site
 * may not have two figures of one source for the very same people; the few
 * rows of the table that are so are taken out.
 */
START_TEST(site_reader_agrees_with_the_compiled_table)
{
	char *text = whole_file(REFERENCE_DIR "/usual.tsv");
	struct ref_site site = {0};
	struct again again = {.n = 0};
	struct told told = {.n = 0};
	size_t rows = 0;

	ref_load_text(text, strlen(text), &site, note_again, &again);
	/* From the last, since each cut moves the lines below it. */
	for (size_t line = 10000; line > 0; line--)
		for (size_t i = 0; i < again.n; i++)
			if (again.line[i] == line)
				cut_line(text, line);
	ck_assert_int_eq(load(&site, text, &told), 0);
	ck_assert_uint_eq(missing_from(&site, &rows), again.n);
	ck_assert_uint_eq(rows, site.len + again.n);
	ck_assert_uint_gt(again.n, 0);
	ref_site_free(&site);
	free(text);
}
END_TEST

Suite *
reference_site_suite(void)
{
	Suite *suite = suite_create("reference site");
	TCase *tc = tcase_create("site");

	tcase_add_test(tc, site_rows_come_first);
	tcase_add_test(tc, site_rows_of_narrower_people_come_first);
	tcase_add_test(tc, site_rows_hold_every_column);
	tcase_add_loop_test(tc, site_faults_are_told_and_nothing_is_kept, 0,
	    (int)(sizeof(broken) / sizeof(broken[0])));
	tcase_add_test(tc, site_of_many_faults_and_odd_bytes);
	tcase_add_test(tc, site_file_that_cannot_be_read);
	tcase_add_test(tc, site_reader_agrees_with_the_compiled_table);
	suite_add_tcase(suite, tc);
	return suite;
}
