/*
 * Holds the errors of measuring as compiled against the figures as they were
 * taken down, both ways, and single ones against their sources.
 */
#include <check.h>
#include <stdio.h>
#include <string.h>

#include "reference/reference.h"
#include "reference_tables.h"
#include "vocab/vocab.h"

Suite *published_error_suite(void);

/* Words of the source that fix the statistic and the raters of a row. */
static bool
same_statistic(const struct ref_error_row *row, const char *motion)
{
	static const char *const statistics[] = {"MDC90", "MDC95", "MDC", "SEM",
	    "limits of agreement", "repeatability", "change must exceed",
	    "smallest change", "minimum significant difference",
	    "minimal detectable difference", "technical error"};
	const char *text = strchr(motion, '|');

	for (size_t i = 0; i < sizeof(statistics) / sizeof(*statistics); i++)
		if (strstr(text, statistics[i]))
			return strstr(row->statistic, statistics[i]) != NULL;
	return true;
}

static bool
same_rater(const struct ref_error_row *row, const char *motion)
{
	static const struct {
		const char *words;
		enum ref_rater rater;
	} raters[] = {{"between raters", REF_RATER_DIFFERENT},
	    {"between orthopaedists", REF_RATER_DIFFERENT},
	    {"different", REF_RATER_DIFFERENT}, {"same tester", REF_RATER_SAME},
	    {"same rater", REF_RATER_SAME}, {"within rater", REF_RATER_SAME}};

	/* One row of three figures, each of other raters. */
	if (strstr(motion, " within / between raters / retest"))
		return true;
	for (size_t i = 0; i < sizeof(raters) / sizeof(*raters); i++)
		if (strstr(motion, raters[i].words))
			return row->rater == raters[i].rater;
	return row->rater == REF_RATER_UNSTATED;
}

/* True where ROW is what LINE says, with the one of its values in TEXT. */
static bool
error_is_of(
    const struct ref_error_row *row, const struct line *line, const char *text)
{
	int32_t scale = says(line->cell[UNIT], "cm") ? 10 : 1;
	struct figure figure;

	if (!says(row->source, line->cell[KEY]) ||
	    strncmp(row->where_read, line->cell[WHERE],
		strlen(line->cell[WHERE])) != 0)
		return false;
	figure = taken_figure(text);
	return row->low == figure.low * scale &&
	       row->high == figure.high * scale &&
	       row->either_way == says(figure.mark, "+/-") &&
	       same_statistic(row, line->cell[MOTION]) &&
	       same_rater(row, line->cell[MOTION]) &&
	       says(row->verified, "yes");
}

/* How many rows JOINT has of LINE with the value TEXT. */
static size_t
errors_of(const struct line *line, const char *joint, const char *text)
{
	size_t times = 0, n;

	for (int m = 0; m < VOCAB_MEASUREMENT_COUNT; m++) {
		const struct ref_error_row *row = ref_error_rows(m, &n);

		if (taken_lists(joint, vocab_measurements[m].joint_name))
			for (size_t i = 0; i < n; i++)
				times += error_is_of(&row[i], line, text);
	}
	return times;
}

/* True where ROW is any of the values of LINE. */
static bool
error_is_in(const struct ref_error_row *row, const struct line *line)
{
	char values[64], *next;

	snprintf(values, sizeof(values), "%s", line->cell[VALUE]);
	for (char *value = values; value; value = next) {
		next = strstr(value, " / ");
		if (next) {
			*next = '\0';
			next += 3;
		}
		if (error_is_of(row, line, value))
			return true;
	}
	return false;
}

START_TEST(every_compiled_error_was_taken_down)
{
	struct table table = taken_read("measurement_error.tsv");
	size_t n;

	for (int m = 0; m < VOCAB_MEASUREMENT_COUNT; m++) {
		const struct ref_error_row *row = ref_error_rows(m, &n);

		for (size_t i = 0; i < n; i++) {
			bool found = says(row[i].source, "project_tolerance");

			for (size_t k = 0; k < table.len; k++)
				if (says(table.at[k].cell[VERIFIED], "yes") &&
				    !taken_left_out(
					"measurement_error.tsv", &table.at[k]))
					found |=
					    error_is_in(&row[i], &table.at[k]);
			ck_assert_msg(found, "%s %s: %d to %d", row[i].source,
			    vocab_measurements[m].joint_name, (int)row[i].low,
			    (int)row[i].high);
		}
	}
	taken_free(&table);
}
END_TEST

/* Each figure of a row (one has three) for each of its joints. */
static void
check_error(const struct line *line)
{
	char values[64], joints[128], *value, *joint, *next, *rest;

	snprintf(values, sizeof(values), "%s", line->cell[VALUE]);
	for (value = values; value; value = next) {
		next = strstr(value, " / ");
		if (next) {
			*next = '\0';
			next += 3;
		}
		snprintf(joints, sizeof(joints), "%s",
		    strstr(line->cell[MOTION], "glenohumeral")
			? "glenohumeral"
			: taken_joints(line->cell[JOINT]));
		for (joint = joints; joint; joint = rest) {
			rest = strchr(joint, ',');
			if (rest)
				*rest++ = '\0';
			ck_assert_msg(errors_of(line, joint, value) > 0,
			    "%s %s %s %s", line->cell[KEY], joint,
			    line->cell[MOTION], value);
		}
	}
}

START_TEST(every_read_error_is_compiled_or_left_out)
{
	struct table table = taken_read("measurement_error.tsv");

	for (size_t i = 0; i < table.len; i++)
		if (says(table.at[i].cell[VERIFIED], "yes") &&
		    !taken_left_out("measurement_error.tsv", &table.at[i]))
			check_error(&table.at[i]);
	taken_free(&table);
}
END_TEST

static const struct {
	int measurement, instrument;
	bool same_rater;
	const char *source;
	int32_t low, high;
} errors[] = {
    /* Boone 1978, Phys Ther 58:1355-1360, abstract */
    {M(ELBOW_FLEXION), -1, true, "Boone1978", 30, 40},
    {M(ELBOW_FLEXION), -1, false, "Boone1978", 50, 50},
    {M(HIP_ABDUCTION), -1, true, "Boone1978", 30, 40},
    {M(HIP_ABDUCTION), -1, false, "Boone1978", 60, 60},
    /* Kolber 2011, Physiother Theory Pract 27:176-184, abstract: MDC90 */
    {M(SHOULDER_ABDUCTION), VOCAB_INSTRUMENT_INCLINOMETER, false,
	"Kolber2011_inclinometer", 40, 40},
    /* Kolber 2009, Physiother Theory Pract 25:572-581, abstract: MDC90 */
    {M(SHOULDER_INTERNAL_ROTATION), VOCAB_INSTRUMENT_INCLINOMETER, true,
	"Kolber2009_inclinometer", 40, 40},
    /* de Winter 2004, PMC434511, abstract: +/-19.6 */
    {M(GLENOHUMERAL_ABDUCTION), VOCAB_INSTRUMENT_INCLINOMETER, false,
	"deWinter2004_inclinometer", 196, 196},
    /* Ellis & Bruton 2002, abstract: 95 % repeatability */
    {M(INDEX_PIP_FLEXION), -1, true, "EllisBruton2002", 40, 50},
    /* Hancock 2018, J Exp Orthop 5:46, abstract: digital inclinometer */
    {M(KNEE_FLEXION), VOCAB_INSTRUMENT_INCLINOMETER, true, "Hancock2018", 60,
	60},
    /* Konor 2012, abstract: MDC with a tape, 1.1-1.5 cm */
    {M(ANKLE_KNEE_TO_WALL), VOCAB_INSTRUMENT_TAPE, true, "Konor2012", 110, 150},
    /* the rule of thumb taught to students, a student deck */
    {M(LUMBAR_FLEXION), -1, true, "trade_rule", 50, 50},
};

START_TEST(single_error)
{
	struct ref_error error;

	ref_error(errors[_i].measurement, errors[_i].instrument,
	    errors[_i].same_rater, &error);
	ck_assert_str_eq(error.source, errors[_i].source);
	ck_assert_int_eq(error.low, errors[_i].low);
	ck_assert_int_eq(error.high, errors[_i].high);
	ck_assert_str_eq(error.verified, "yes");
}
END_TEST

Suite *
published_error_suite(void)
{
	Suite *suite = suite_create("published error");
	TCase *tc = tcase_create("tables");

	tcase_add_checked_fixture(tc, taken_set_up, taken_tear_down);
	tcase_add_test(tc, every_read_error_is_compiled_or_left_out);
	tcase_add_test(tc, every_compiled_error_was_taken_down);
	suite_add_tcase(suite, tc);
	tc = tcase_create("single figures");
	tcase_add_loop_test(tc, single_error, 0, COUNT(errors));
	suite_add_tcase(suite, tc);
	return suite;
}
