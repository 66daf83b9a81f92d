/*
 * The queries over what is known of joints: which row answers, what happens
 * where none does, and how a site's own table is read. That the figures are
 * those of their sources is the business of tests/published.
 */
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

Suite *reference_suite(void);

#define M(name) VOCAB_MEASUREMENT_##name

/* ---- limits */

static struct ref_bound
limits(int measurement, const char *setting)
{
	struct ref_bound bound;

	ref_limits(measurement, setting, false, &bound);
	return bound;
}

START_TEST(limits_take_the_very_setting)
{
	ck_assert_int_eq(
	    limits(M(SHOULDER_EXTERNAL_ROTATION), "abducted-45").usual, 1200);
	ck_assert_int_eq(limits(M(HIP_FLEXION), "knee-straight").usual, 1100);
	ck_assert_int_eq(limits(M(HIP_FLEXION), "").usual, 1570);
	/* 45 is the bound of both words together, 46 that of weight-bearing. */
	ck_assert_int_eq(
	    limits(M(ANKLE_DORSIFLEXION), "knee-straight weight-bearing").usual,
	    450);
	ck_assert_int_eq(
	    limits(M(ANKLE_DORSIFLEXION), "weight-bearing").usual, 460);
	ck_assert_int_eq(limits(M(CERVICAL_EXTENSION), "").usual, 1055);
}
END_TEST

START_TEST(limits_take_the_greatest_of_partly_fitting_rows)
{
	struct ref_bound bound =
	    limits(M(ANKLE_DORSIFLEXION), "knee-bent weight-bearing");

	/* knee-bent has 39 and 80, weight-bearing 46 and 75. */
	ck_assert_int_eq(bound.usual, 460);
	ck_assert_int_eq(bound.possible, 800);
	ck_assert_ptr_nonnull(strstr(bound.basis_usual, "33.8"));
	ck_assert_str_eq(bound.basis_possible, "as without setting");
	ck_assert_str_eq(bound.verified_possible, "from memory");
}
END_TEST

START_TEST(limits_fall_back_to_no_setting)
{
	ck_assert_int_eq(
	    limits(M(SHOULDER_EXTERNAL_ROTATION), "abducted-30").usual, 1220);
	ck_assert_int_eq(limits(M(KNEE_FLEXION), "hip-extended").usual, 1630);
	/* A word that only begins like one of the row is another setting. */
	ck_assert_int_eq(
	    limits(M(SHOULDER_EXTERNAL_ROTATION), "abducted-4").usual, 1220);
	ck_assert_int_eq(limits(M(HIP_FLEXION), "knee-straight-5").usual, 1570);
}
END_TEST

START_TEST(limits_are_silent_where_nothing_is_known)
{
	struct ref_bound bound = limits(M(SHOULDER_HAND_BEHIND_BACK), "");

	ck_assert(!bound.has_usual && !bound.has_possible && !bound.has_lacks);
	bound = limits(M(INDEX_MCP_ADDUCTION), "");
	ck_assert(!bound.has_usual && bound.has_possible);
	ck_assert_int_eq(bound.possible, 600);
	bound = limits(M(KNEE_FLEXION), "");
	ck_assert(bound.has_usual && !bound.has_lacks);
	bound = limits(-1, "");
	ck_assert(!bound.has_usual && !bound.has_possible);
	bound = limits(VOCAB_MEASUREMENT_COUNT, "");
	ck_assert(!bound.has_usual && !bound.has_possible);
}
END_TEST

START_TEST(limits_of_schober_are_of_the_difference_or_the_end)
{
	struct ref_bound bound;

	ref_limits(M(LUMBAR_SCHOBER), "", true, &bound);
	ck_assert(bound.has_usual);
	ck_assert_int_eq(bound.usual, 1010);
	ck_assert_int_eq(bound.possible, 1500);
	ref_limits(M(LUMBAR_SCHOBER), "", false, &bound);
	ck_assert(!bound.has_usual);
	ck_assert_int_eq(bound.possible, 3000);
	/* Elsewhere a difference is a value like any other. */
	ref_limits(M(CERVICAL_FLEXION), "", true, &bound);
	ck_assert_int_eq(bound.usual, 800);
}
END_TEST

START_TEST(limits_of_every_measurement_make_sense)
{
	const struct vocab_measurement *m = &vocab_measurements[_i];
	struct ref_bound bound;

	ref_limits(_i, "", true, &bound);
	ck_assert(bound.has_possible || m->in == VOCAB_IN_LEVEL);
	if (bound.has_usual)
		ck_assert_int_le(bound.usual, bound.possible);
	if (m->in == VOCAB_IN_DEG)
		ck_assert_int_le(bound.possible, 2000);
	if (bound.has_possible)
		ck_assert_str_ne(bound.basis_possible, "");
	if (bound.has_lacks)
		ck_assert_str_ne(bound.basis_lacks, "");
	/* Whatever may lack has a bound for it. */
	ck_assert(bound.has_lacks || !m->lacks);
}
END_TEST

/* ---- usual values */

static struct ref_usual
usual(int measurement, const char *setting, int mode, int age, int sex,
    const char *source)
{
	struct ref_person person = {age, sex};
	struct ref_usual out = {.low = -1, .source = "none", .population = ""};

	ref_usual(measurement, setting, mode, &person, source, NULL, &out);
	return out;
}

/* A plain question: nobody known, no mode, no setting. */
static struct ref_usual
plain(int measurement)
{
	struct ref_usual out = {.low = -1, .source = "none"};

	ref_usual(measurement, "", -1, NULL, NULL, NULL, &out);
	return out;
}

START_TEST(usual_of_nobody_known_is_of_the_general_tables)
{
	ck_assert_str_eq(plain(M(FOREARM_PRONATION)).source, "AAOS");
	ck_assert_int_eq(plain(M(FOREARM_PRONATION)).low, 800);
	/* What the Academy measured; then 38 CFR, the Guides, the others. */
	ck_assert_str_eq(plain(M(KNEE_FLEXION)).source, "AAOS_1994_measured");
	ck_assert_int_eq(plain(M(KNEE_FLEXION)).low, 1410);
	ck_assert_str_eq(plain(M(KNEE_EXTENSION)).source,
	    "VA_normals_worksheet2005_PlatesI_II");
	ck_assert_str_eq(
	    plain(M(THORACOLUMBAR_FLEXION)).source, "CFR_38_4_71a_spine_note2");
	ck_assert_str_eq(
	    plain(M(CERVICAL_ROTATION)).source, "CFR_38_4_71a_spine_note2");
	ck_assert_str_eq(plain(M(SECOND_TOE_MTP_FLEXION)).source,
	    "published_norm_unlabelled");
	/* Young, old, female: the age bands need an age, the sexes a sex. */
	ck_assert_str_eq(
	    usual(M(HIP_FLEXION), "", -1, 30, -1, NULL).source, "AAOS");
	ck_assert_str_eq(
	    usual(M(HIP_FLEXION), "", -1, -1, VOCAB_SEX_F, NULL).source,
	    "AAOS");
	ck_assert_str_eq(
	    usual(M(HIP_FLEXION), "", -1, 30, VOCAB_SEX_X, NULL).source,
	    "AAOS");
	ck_assert_str_eq(
	    usual(M(HIP_FLEXION), "", -1, 70, VOCAB_SEX_F, NULL).source,
	    "AAOS");
}
END_TEST

START_TEST(usual_of_a_person_is_of_their_age_and_sex)
{
	struct ref_usual u =
	    usual(M(HIP_FLEXION), "", -1, 30, VOCAB_SEX_F, NULL);

	ck_assert_int_eq(u.low, 1338);
	ck_assert_str_eq(u.source, "Soucie2011_CDC_mean_only");
	ck_assert_str_eq(u.population, "women 20-44, passive");
	ck_assert_str_eq(u.verified, "yes");
	u = usual(M(KNEE_FLEXION), "", -1, 5, VOCAB_SEX_M, NULL);
	ck_assert_int_eq(u.low, 1478);
	ck_assert_str_eq(u.population, "boys 2-8, passive");
	ck_assert_str_eq(u.row->spread, "ci 146.6-149.0");
	u = usual(M(SHOULDER_EXTENSION), "", -1, 72, -1, NULL);
	ck_assert_int_eq(u.low, 440);
	ck_assert_str_eq(u.source, "Walker1984");
	ck_assert_str_eq(u.population, "people 65-85");
	/* The ends of a band are in it, the years beside them not. */
	ck_assert_str_eq(
	    usual(M(SHOULDER_EXTENSION), "", -1, 65, -1, NULL).source,
	    "Walker1984");
	ck_assert_str_eq(
	    usual(M(SHOULDER_EXTENSION), "", -1, 85, -1, NULL).source,
	    "Walker1984");
	ck_assert_str_eq(
	    usual(M(SHOULDER_EXTENSION), "", -1, 64, -1, NULL).source, "AAOS");
	ck_assert_str_eq(
	    usual(M(SHOULDER_EXTENSION), "", -1, 86, -1, NULL).source, "AAOS");
	u = usual(M(CERVICAL_EXTENSION), "", -1, 93, -1, NULL);
	ck_assert_int_eq(u.low, 645);
	ck_assert_str_eq(u.population, "people 50 and over");
}
END_TEST

START_TEST(usual_of_a_mode_is_not_of_another)
{
	/* Soucie measured passively, Boone and Azen actively. */
	struct ref_usual u = usual(
	    M(ELBOW_FLEXION), "", VOCAB_MODE_ACTIVE, 30, VOCAB_SEX_M, NULL);

	ck_assert_int_eq(u.low, 1430);
	ck_assert_str_eq(u.source, "BooneAzen1979");
	ck_assert_str_eq(u.population, "males 1-54, active");
	u = usual(M(ELBOW_FLEXION), "", VOCAB_MODE_PLACE_AND_HOLD, 30,
	    VOCAB_SEX_M, NULL);
	ck_assert_str_eq(u.source, "BooneAzen1979");
	u = usual(
	    M(ELBOW_FLEXION), "", VOCAB_MODE_PASSIVE, 30, VOCAB_SEX_M, NULL);
	ck_assert_int_eq(u.low, 1446);
	ck_assert_str_eq(u.source, "Soucie2011_CDC_mean_only");
	u = usual(
	    M(ELBOW_FLEXION), "", VOCAB_MODE_ASSISTED, 30, VOCAB_SEX_M, NULL);
	ck_assert_str_eq(u.source, "AAOS");
	u = usual(M(ELBOW_FLEXION), "", -1, 30, VOCAB_SEX_M, NULL);
	ck_assert_str_eq(u.source, "Soucie2011_CDC_mean_only");
	u = usual(
	    M(ELBOW_FLEXION), "", VOCAB_MODE_ACTIVE, 30, VOCAB_SEX_F, NULL);
	ck_assert_str_eq(u.source, "AAOS");
}
END_TEST

START_TEST(usual_of_a_setting_is_not_of_another)
{
	struct ref_usual u =
	    usual(M(ANKLE_DORSIFLEXION), "knee-bent", -1, -1, -1, NULL);

	ck_assert_int_eq(u.low, 130);
	ck_assert_str_eq(u.row->setting, "knee-bent");
	ck_assert_int_eq(plain(M(ANKLE_DORSIFLEXION)).low, 200);
	/* limits.tsv knows these to be other ranges. */
	ck_assert_int_eq(
	    usual(M(ANKLE_DORSIFLEXION), "weight-bearing", -1, -1, -1, NULL)
		.low,
	    -1);
	ck_assert_int_eq(
	    usual(M(HIP_FLEXION), "knee-straight", -1, -1, -1, NULL).low, -1);
	ck_assert_int_eq(
	    usual(M(SHOULDER_EXTERNAL_ROTATION), "abducted-0", -1, -1, -1, NULL)
		.low,
	    -1);
	/* And these as the same. */
	ck_assert_int_eq(usual(M(SHOULDER_EXTERNAL_ROTATION), "abducted-90", -1,
			     -1, -1, NULL)
			     .low,
	    900);
	ck_assert_int_eq(
	    usual(M(HIP_FLEXION), "knee-bent", -1, -1, -1, NULL).low, 1200);
	/* A row of some of the words fits before one of none. */
	ck_assert_int_eq(usual(M(ANKLE_DORSIFLEXION),
			     "knee-bent non-weight-bearing", -1, -1, -1, NULL)
			     .low,
	    130);
}
END_TEST

START_TEST(usual_of_a_source_is_of_that_source)
{
	struct ref_usual u =
	    usual(M(SHOULDER_FLEXION), "", -1, -1, -1, "AMA_Guides");

	ck_assert_int_eq(u.low, 1800);
	ck_assert(u.at_least);
	ck_assert(!plain(M(SHOULDER_FLEXION)).at_least);
	/* A group stands for all its keys. */
	u = usual(M(HIP_EXTENSION), "", -1, -1, -1, "38CFR");
	ck_assert_str_eq(u.source, "VA_worksheet_2005");
	u = usual(M(INDEX_DIP_FLEXION), "", -1, -1, -1, "38CFR");
	ck_assert_int_eq(u.low, 700);
	ck_assert_int_eq(u.high, 800);
	u = usual(M(KNEE_FLEXION), "", -1, 5, VOCAB_SEX_F, "Soucie2011");
	ck_assert_int_eq(u.low, 1526);
	/* It has nothing for a person it did not measure. */
	u = usual(M(KNEE_FLEXION), "", -1, -1, -1, "Soucie2011");
	ck_assert_int_eq(u.low, -1);
	u = usual(M(ELBOW_FLEXION), "", -1, 30, VOCAB_SEX_F, "BooneAzen1979");
	ck_assert_int_eq(u.low, -1);
	u = usual(M(KNEE_FLEXION), "", -1, -1, -1, "no such source");
	ck_assert_int_eq(u.low, -1);
	/* Small samples and parts of formulas are given only when asked for. */
	u = usual(M(WRIST_FLEXION), "", -1, 25, VOCAB_SEX_F, NULL);
	ck_assert_str_eq(u.source, "AAOS");
	u = usual(M(WRIST_FLEXION), "", -1, 25, VOCAB_SEX_F,
	    "Fan2019_dominant_neutral_n30");
	ck_assert_int_eq(u.low, 797);
}
END_TEST

START_TEST(usual_zero_is_a_value_and_nothing_is_below_it)
{
	struct ref_usual u = plain(M(ELBOW_EXTENSION));
	size_t n;

	ck_assert_int_eq(u.low, 0);
	ck_assert_int_eq(u.high, 0);
	for (int m = 0; m < VOCAB_MEASUREMENT_COUNT; m++) {
		const struct ref_usual_row *row = ref_usual_rows(m, &n);

		for (size_t i = 0; i < n; i++) {
			ck_assert_int_eq(row[i].measurement, m);
			ck_assert_int_ge(row[i].low, 0);
			ck_assert_int_ge(row[i].high, row[i].low);
			ck_assert_str_ne(row[i].where_read, "");
			ck_assert_str_eq(row[i].source,
			    ref_source_get((size_t)row[i].source_id)->key);
		}
	}
	ck_assert_int_eq(usual(-1, "", -1, -1, -1, NULL).low, -1);
	ref_usual_rows(VOCAB_MEASUREMENT_COUNT, &n);
	ck_assert_uint_eq(n, 0);
}
END_TEST

START_TEST(usual_from_memory_says_so_and_gives_way)
{
	ck_assert_str_eq(
	    plain(M(SHOULDER_HORIZONTAL_ADDUCTION)).verified, "from memory");
	for (int m = 0; m < VOCAB_MEASUREMENT_COUNT; m++) {
		size_t n, read = 0, memory = 0;
		const struct ref_usual_row *row = ref_usual_rows(m, &n);

		for (size_t i = 0; i < n; i++)
			if (strcmp(row[i].verified, "yes") == 0)
				read++;
			else
				memory++;
		/* A figure from memory only where none was read. */
		ck_assert(read == 0 || memory == 0);
	}
}
END_TEST

/* ---- a site's own table */

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

/* ---- end feels, tasks, error, sources, guide */

#define FEEL(name) (1u << VOCAB_END_FEEL_##name)

START_TEST(end_feels_name_all_schools_and_what_is_from_memory)
{
	const char *source;

	ck_assert_uint_eq(ref_end_feels(M(ELBOW_EXTENSION), NULL), FEEL(HARD));
	ck_assert_uint_eq(
	    ref_end_feels(M(KNEE_EXTENSION), &source), FEEL(FIRM) | FEEL(HARD));
	ck_assert_str_eq(source, "Norkin&White-style");
	ck_assert_uint_eq(ref_end_feels(M(WRIST_FLEXION), &source), FEEL(FIRM));
	ck_assert_str_eq(source, "Norkin&White-style, from memory");
	ck_assert_uint_eq(ref_end_feels(M(ANKLE_PLANTARFLEXION), &source),
	    FEEL(FIRM) | FEEL(HARD));
	ck_assert_str_eq(source, "Norkin&White-style; hard from memory");
	ck_assert_uint_eq(ref_end_feels(M(JAW_OPENING), &source), 0);
	ck_assert_ptr_null(source);
	ck_assert_uint_eq(ref_end_feels(-1, &source), 0);
	ck_assert_ptr_null(source);
	for (int m = 0; m < VOCAB_MEASUREMENT_COUNT; m++)
		for (int feel = 0; feel < VOCAB_END_FEEL_COUNT; feel++)
			if (ref_end_feels(m, NULL) >> feel & 1)
				ck_assert(!vocab_end_feel_abnormal[feel]);
}
END_TEST

START_TEST(functional_lists_the_tasks_of_a_measurement)
{
	size_t n;
	const struct ref_functional *f = ref_functional(M(ELBOW_FLEXION), &n);

	ck_assert_uint_eq(n, 1);
	ck_assert_int_eq(f->kind, REF_ARC);
	ck_assert_int_eq(f->low, 300);
	ck_assert_int_eq(f->high, 1300);
	ref_functional(M(ELBOW_EXTENSION), &n);
	ck_assert_uint_eq(n, 0);
	ref_functional(-1, &n);
	ck_assert_uint_eq(n, 0);
}
END_TEST

static struct ref_error
error(int measurement, int instrument, bool same_rater)
{
	struct ref_error out;

	ref_error(measurement, instrument, same_rater, &out);
	return out;
}

START_TEST(error_takes_the_narrowest_figure_of_its_kind)
{
	/* Limbs: Boone 1978, whose instrument was the goniometer. */
	struct ref_error e = error(M(FOREARM_PRONATION), -1, true);

	ck_assert_str_eq(e.source, "Boone1978");
	ck_assert_int_eq(e.low, 30);
	ck_assert_int_eq(e.high, 40);
	ck_assert(!e.fallback);
	e = error(M(FOREARM_PRONATION), VOCAB_INSTRUMENT_GONIOMETER, false);
	ck_assert_int_eq(e.high, 50);
	e = error(M(HIP_FLEXION), VOCAB_INSTRUMENT_GONIOMETER, false);
	ck_assert_int_eq(e.high, 60);
	/* A joint of its own figure, by instrument and raters. */
	e = error(
	    M(SHOULDER_EXTERNAL_ROTATION), VOCAB_INSTRUMENT_INCLINOMETER, true);
	ck_assert_str_eq(e.source, "Kolber2009_inclinometer");
	ck_assert_int_eq(e.high, 50);
	e = error(M(SHOULDER_EXTERNAL_ROTATION), VOCAB_INSTRUMENT_INCLINOMETER,
	    false);
	ck_assert_str_eq(e.source, "Kolber2011_inclinometer");
	ck_assert_int_eq(e.high, 90);
	e = error(M(RING_PIP_FLEXION), -1, false);
	ck_assert_str_eq(e.source, "EllisBruton2002");
	ck_assert_int_eq(e.low, 70);
	ck_assert_int_eq(e.high, 90);
	e = error(M(KNEE_FLEXION), VOCAB_INSTRUMENT_VISUAL, true);
	ck_assert_int_eq(e.high, 140);
	/* Two of one source, long arm and short, are one span. */
	e = error(M(KNEE_FLEXION), VOCAB_INSTRUMENT_GONIOMETER, true);
	ck_assert_str_eq(e.source, "Hancock2018");
	ck_assert_int_eq(e.low, 100);
	ck_assert_int_eq(e.high, 140);
}
END_TEST

START_TEST(error_falls_back_and_says_so)
{
	struct ref_error e = error(M(CERVICAL_ROTATION), -1, true);

	ck_assert(e.fallback);
	ck_assert_str_eq(e.source, "trade_rule");
	ck_assert_int_eq(e.low, 50);
	ck_assert_int_eq(e.high, 50);
	/* What Boone measured was no estimate by eye. */
	e = error(M(FOREARM_PRONATION), VOCAB_INSTRUMENT_VISUAL, true);
	ck_assert_str_eq(e.source, "trade_rule");
	e = error(M(JAW_OPENING), VOCAB_INSTRUMENT_RULER, true);
	ck_assert(e.fallback);
	ck_assert_str_eq(e.source, "project_tolerance");
	e = error(M(ANKLE_KNEE_TO_WALL), -1, true);
	ck_assert_str_eq(e.source, "Konor2012");
	ck_assert_int_eq(e.low, 110);
	ck_assert_int_eq(e.high, 150);
	e = error(M(THUMB_OPPOSITION), -1, true);
	ck_assert(e.fallback);
	ck_assert_int_eq(e.high, 0);
	ck_assert_str_eq(e.source, "");
	e = error(-1, -1, true);
	ck_assert(e.fallback);
}
END_TEST

START_TEST(error_rows_stand_from_joint_to_all)
{
	for (int m = 0; m < VOCAB_MEASUREMENT_COUNT; m++) {
		size_t n;
		const struct ref_error_row *row = ref_error_rows(m, &n);

		for (size_t i = 1; i < n; i++)
			ck_assert_int_ge(row[i - 1].width, row[i].width);
		/* Whatever ref_error() may take has no people of a condition.
		 */
		for (size_t i = 0; i < n; i++)
			ck_assert(!row[i].chosen || row[i].people[0] == '\0');
		if (vocab_measurements[m].in <= VOCAB_IN_LENGTH)
			ck_assert_uint_gt(n, 0);
	}
}
END_TEST

START_TEST(sources_are_found_by_key)
{
	const struct ref_source *s = ref_source_find("Morrey1981");

	ck_assert_str_eq(s->published, "JBJS Am 63:872-877");
	ck_assert_str_eq(s->year, "1981");
	ck_assert_ptr_null(ref_source_find("Morrey"));
	ck_assert_ptr_null(ref_source_find(""));
	for (size_t i = 0; i < ref_source_count(); i++)
		ck_assert_ptr_eq(
		    ref_source_find(ref_source_get(i)->key), ref_source_get(i));
	ck_assert(ref_source_has_usual("AAOS"));
	ck_assert(ref_source_has_usual("38CFR"));
	ck_assert(ref_source_has_usual("TAM_components"));
	ck_assert(!ref_source_has_usual("Morrey1981"));
	ck_assert(!ref_source_has_usual(""));
}
END_TEST

/* How many figures name KEY as their source. */
static size_t
uses_of(const char *key)
{
	size_t uses = 0, n;
	const char *feel;

	for (int m = 0; m < VOCAB_MEASUREMENT_COUNT; m++) {
		const struct ref_usual_row *usual = ref_usual_rows(m, &n);

		for (size_t i = 0; i < n; i++)
			uses += strcmp(usual[i].source, key) == 0;

		const struct ref_functional *task = ref_functional(m, &n);

		for (size_t i = 0; i < n; i++)
			uses += strcmp(task[i].source, key) == 0;

		const struct ref_error_row *err = ref_error_rows(m, &n);

		for (size_t i = 0; i < n; i++)
			uses += strcmp(err[i].source, key) == 0;
		if (ref_end_feels(m, &feel))
			uses += strncmp(feel, key, strlen(key)) == 0;
	}
	return uses;
}

START_TEST(sources_are_all_used)
{
	for (size_t i = 0; i < ref_source_count(); i++)
		ck_assert_msg(uses_of(ref_source_get(i)->key) > 0,
		    "no figure of %s", ref_source_get(i)->key);
}
END_TEST

/* A row of the guide is of the measurement that it is found by. */
START_TEST(guide_has_every_measurement)
{
	const struct vocab_measurement *m = &vocab_measurements[_i];
	const struct ref_guide *guide = ref_guide(_i);

	ck_assert_msg(
	    guide, "no guide to %s %s", m->joint_name, m->motion_name);
	ck_assert_ptr_nonnull(strstr(guide->joint, m->joint_name));
	ck_assert_str_eq(guide->motion, m->motion_name);
	ck_assert_str_ne(guide->purpose, "");
	ck_assert_str_ne(guide->write, "");
	ck_assert_str_ne(guide->basis, "");
}
END_TEST

START_TEST(guide_of_nothing)
{
	ck_assert_ptr_null(ref_guide(-1));
	ck_assert_ptr_null(ref_guide(VOCAB_MEASUREMENT_COUNT));
}
END_TEST

static void
add_limits(Suite *suite)
{
	TCase *tc = tcase_create("limits");

	tcase_add_test(tc, limits_take_the_very_setting);
	tcase_add_test(tc, limits_take_the_greatest_of_partly_fitting_rows);
	tcase_add_test(tc, limits_fall_back_to_no_setting);
	tcase_add_test(tc, limits_are_silent_where_nothing_is_known);
	tcase_add_test(tc, limits_of_schober_are_of_the_difference_or_the_end);
	tcase_add_loop_test(tc, limits_of_every_measurement_make_sense, 0,
	    VOCAB_MEASUREMENT_COUNT);
	suite_add_tcase(suite, tc);
}

static void
add_usual(Suite *suite)
{
	TCase *tc = tcase_create("usual");

	tcase_add_test(tc, usual_of_nobody_known_is_of_the_general_tables);
	tcase_add_test(tc, usual_of_a_person_is_of_their_age_and_sex);
	tcase_add_test(tc, usual_of_a_mode_is_not_of_another);
	tcase_add_test(tc, usual_of_a_setting_is_not_of_another);
	tcase_add_test(tc, usual_of_a_source_is_of_that_source);
	tcase_add_test(tc, usual_zero_is_a_value_and_nothing_is_below_it);
	tcase_add_test(tc, usual_from_memory_says_so_and_gives_way);
	suite_add_tcase(suite, tc);
}

static void
add_site(Suite *suite)
{
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
}

static void
add_facts(Suite *suite)
{
	TCase *tc = tcase_create("facts");

	tcase_add_test(tc, end_feels_name_all_schools_and_what_is_from_memory);
	tcase_add_test(tc, functional_lists_the_tasks_of_a_measurement);
	tcase_add_test(tc, error_takes_the_narrowest_figure_of_its_kind);
	tcase_add_test(tc, error_falls_back_and_says_so);
	tcase_add_test(tc, error_rows_stand_from_joint_to_all);
	tcase_add_test(tc, sources_are_found_by_key);
	tcase_add_test(tc, sources_are_all_used);
	tcase_add_loop_test(
	    tc, guide_has_every_measurement, 0, VOCAB_MEASUREMENT_COUNT);
	tcase_add_test(tc, guide_of_nothing);
	suite_add_tcase(suite, tc);
}

Suite *
reference_suite(void)
{
	Suite *suite = suite_create("reference");

	add_limits(suite);
	add_usual(suite);
	add_site(suite);
	add_facts(suite);
	return suite;
}
