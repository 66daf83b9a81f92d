/*
 * Holds the usual values as compiled against those of the norm tables as they
 * were taken down, both ways, and single ones against their sources.
 */
#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "reference/reference.h"
#include "reference_tables.h"
#include "vocab/vocab.h"

Suite *published_usual_suite(void);

static bool
same_people(const struct ref_usual_row *row, const struct line *line)
{
	const char *sex =
	    row->sex < 0 ? "any" : vocab_name(VOCAB_CLASS_SEX, row->sex);

	/* A study's ages may be filled in where one table leaves them out. */
	return says(sex, line->cell[SEX]) &&
	       (!line->cell[AGE_LO][0] ||
		   row->age_lo == atoi(line->cell[AGE_LO])) &&
	       (!line->cell[AGE_HI][0] ||
		   row->age_hi == atoi(line->cell[AGE_HI]));
}

static bool
same_spread(const struct ref_usual_row *row, const struct line *line)
{
	char text[64] = "";

	if (line->cell[CI_HI][0])
		snprintf(text, sizeof(text), "ci %s-%s", line->cell[SPREAD],
		    line->cell[CI_HI]);
	else if (line->cell[SPREAD][0])
		snprintf(text, sizeof(text), "sd %s", line->cell[SPREAD]);
	return says(row->spread, text);
}

/* What README.md of the tables says of whole sources. */
static const char *
mode_of(const struct line *line, const struct motion *motion)
{
	const char *key = line->cell[KEY];

	if (motion->mode[0])
		return motion->mode;
	if (strncmp(key, "Soucie2011", 10) == 0)
		return "passive";
	if (says(key, "BooneAzen1979") || strncmp(key, "Zwerus", 6) == 0 ||
	    says(key, "TAM_components"))
		return "active";
	return "";
}

/* True where ROW, compiled, is what LINE, taken down, says. */
static bool
is_of(const struct ref_usual_row *row, const struct line *line)
{
	const struct vocab_measurement *m =
	    &vocab_measurements[row->measurement];
	struct motion motion = taken_motion(line->cell[MOTION]);
	struct figure figure;
	const char *mode =
	    row->mode < 0 ? "" : vocab_name(VOCAB_CLASS_MODE, row->mode);

	if (!says(row->source, line->cell[KEY]) ||
	    !taken_lists(taken_joints(line->cell[JOINT]), m->joint_name) ||
	    !says(m->motion_name, motion.name) ||
	    !says(row->setting, motion.setting) ||
	    !says(mode, mode_of(line, &motion)))
		return false;
	figure = taken_figure(line->cell[VALUE]);
	return row->low == figure.low && row->high == figure.high &&
	       row->at_least == (says(figure.mark, ">=")) &&
	       same_people(row, line) && same_spread(row, line) &&
	       strncmp(row->where_read, line->cell[WHERE],
		   strlen(line->cell[WHERE])) == 0 &&
	       says(row->verified,
		   says(line->cell[VERIFIED], "yes") ? "yes" : "from memory");
}

/* How many of the measurements of LINE have it. */
static size_t
times_compiled(const struct line *line)
{
	size_t times = 0, n;

	for (int m = 0; m < VOCAB_MEASUREMENT_COUNT; m++) {
		const struct ref_usual_row *row = ref_usual_rows(m, &n);

		for (size_t i = 0; i < n; i++)
			times += is_of(&row[i], line);
	}
	return times;
}

static const char *const norm_files[] = {"norms_38cfr.tsv",
    "norms_cdc_2011.tsv", "norms_aaos_and_studies.tsv", "jaw.tsv"};

enum { NORM_FILES = sizeof(norm_files) / sizeof(*norm_files) };

START_TEST(every_read_norm_is_compiled_or_left_out)
{
	struct table table = taken_read(norm_files[_i]);
	size_t found = 0;

	for (size_t i = 0; i < table.len; i++) {
		const struct line *line = &table.at[i];

		if (!says(line->cell[VERIFIED], "yes") ||
		    taken_left_out(norm_files[_i], line))
			continue;
		ck_assert_msg(times_compiled(line) ==
				  taken_count(taken_joints(line->cell[JOINT])),
		    "%s %s %s %s: %zu times", line->cell[KEY],
		    line->cell[JOINT], line->cell[MOTION], line->cell[VALUE],
		    times_compiled(line));
		found++;
	}
	ck_assert_uint_gt(found, 0);
	taken_free(&table);
}
END_TEST

/* Nothing that no table says, and nothing that was left out. */
START_TEST(every_compiled_usual_value_was_taken_down)
{
	struct table tables[NORM_FILES];
	size_t n, rows = 0;

	for (int f = 0; f < NORM_FILES; f++)
		tables[f] = taken_read(norm_files[f]);
	for (int m = 0; m < VOCAB_MEASUREMENT_COUNT; m++) {
		const struct ref_usual_row *row = ref_usual_rows(m, &n);

		for (size_t i = 0; i < n; i++, rows++) {
			bool found = false;

			for (int f = 0; f < NORM_FILES; f++)
				for (size_t k = 0; k < tables[f].len; k++)
					if (!taken_left_out(norm_files[f],
						&tables[f].at[k]) &&
					    is_of(&row[i], &tables[f].at[k]))
						found = true;
			ck_assert_msg(found, "%s %s %s: %d", row[i].source,
			    vocab_measurements[m].joint_name,
			    vocab_measurements[m].motion_name, (int)row[i].low);
		}
	}
	ck_assert_uint_gt(rows, 250);
	for (int f = 0; f < NORM_FILES; f++)
		taken_free(&tables[f]);
}
END_TEST

/* ---- single figures, by their sources */

static const struct {
	int measurement;
	const char *source;
	int32_t low, high;
} figures[] = {
    /* 38 CFR 4.71 Plate II, as the examination worksheet of 2005 has it */
    {M(KNEE_FLEXION), "38CFR", 1400, 1400},
    {M(HIP_FLEXION), "38CFR", 1250, 1250},
    {M(ANKLE_PLANTARFLEXION), "38CFR", 450, 450},
    /* 38 CFR 4.71 Plate I, the same */
    {M(SHOULDER_FLEXION), "38CFR", 1800, 1800},
    {M(ELBOW_FLEXION), "38CFR", 1450, 1450},
    {M(FOREARM_SUPINATION), "38CFR", 850, 850},
    {M(FOREARM_PRONATION), "38CFR", 800, 800},
    {M(WRIST_ULNAR_DEVIATION), "38CFR", 450, 450},
    /* 38 CFR 4.71a, Note (2) to the spine */
    {M(CERVICAL_ROTATION), "38CFR", 800, 800},
    {M(CERVICAL_FLEXION), "38CFR", 450, 450},
    {M(THORACOLUMBAR_FLEXION), "38CFR", 900, 900},
    {M(THORACOLUMBAR_ROTATION), "38CFR", 300, 300},
    /* 38 CFR 4.71a, note (1) to the hand */
    {M(INDEX_MCP_FLEXION), "38CFR", 900, 900},
    {M(LITTLE_PIP_FLEXION), "38CFR", 1000, 1000},
    {M(RING_DIP_FLEXION), "38CFR", 700, 800},
    /* VA M21-1 V.iii.14.2.b on diagnostic code 9905 */
    {M(JAW_OPENING), "38CFR", 350, 500},
    /* AAOS, in Norkin & White 5th ed, Appendix Table A.1 */
    {M(FOREARM_PRONATION), "AAOS", 800, 800},
    {M(SHOULDER_INTERNAL_ROTATION), "AAOS", 700, 700},
    {M(WRIST_ULNAR_DEVIATION), "AAOS", 300, 300},
    /* AAOS 1994, pages of a university goniometry course */
    {M(MIDDLE_PIP_FLEXION), "AAOS_1994_measured", 1050, 1050},
    /* The Guides of the AMA, same Table A.1: at least 60 */
    {M(WRIST_FLEXION), "AMA_Guides", 600, 600},
    /* Walker 2000, JOSPT 30:484-492, abstract: no disorder of the jaw */
    {M(JAW_OPENING), "Walker2000", 435, 435},
};

START_TEST(single_figure)
{
	struct ref_usual usual;

	ck_assert(ref_usual(figures[_i].measurement, "", -1, NULL,
	    figures[_i].source, NULL, &usual));
	ck_assert_int_eq(usual.low, figures[_i].low);
	ck_assert_int_eq(usual.high, figures[_i].high);
	ck_assert_str_eq(usual.verified, "yes");
}
END_TEST

/* Soucie et al. 2011, Haemophilia 17:500; Walker 1984; Boone & Azen 1979. */
static const struct {
	int measurement, age, sex;
	const char *source;
	int32_t value;
} people[] = {
    /* CDC page of the study: hip extension of girls 2-8, 26.2 */
    {M(HIP_EXTENSION), 4, VOCAB_SEX_F, "Soucie2011", 262},
    /* secondary copies of that table */
    {M(FOREARM_SUPINATION), 40, VOCAB_SEX_F, "Soucie2011", 906},
    {M(ANKLE_DORSIFLEXION), 45, VOCAB_SEX_M, "Soucie2011", 119},
    /* Norkin & White 5th ed, Appendix Table A.1 */
    {M(SHOULDER_ABDUCTION), 80, VOCAB_SEX_F, "Walker1984", 1650},
    {M(SHOULDER_EXTERNAL_ROTATION), 20, VOCAB_SEX_M, "BooneAzen1979", 1040},
};

START_TEST(single_figure_of_a_person)
{
	struct ref_person person = {people[_i].age, people[_i].sex};
	struct ref_usual usual;

	ck_assert(ref_usual(people[_i].measurement, "", -1, &person,
	    people[_i].source, NULL, &usual));
	ck_assert_int_eq(usual.low, people[_i].value);
	ck_assert_int_eq(usual.high, people[_i].value);
}
END_TEST

Suite *
published_usual_suite(void)
{
	Suite *suite = suite_create("published usual values");
	TCase *tc = tcase_create("tables");

	tcase_add_checked_fixture(tc, taken_set_up, taken_tear_down);
	tcase_add_loop_test(
	    tc, every_read_norm_is_compiled_or_left_out, 0, NORM_FILES);
	tcase_add_test(tc, every_compiled_usual_value_was_taken_down);
	suite_add_tcase(suite, tc);
	tc = tcase_create("single figures");
	tcase_add_loop_test(tc, single_figure, 0, COUNT(figures));
	tcase_add_loop_test(tc, single_figure_of_a_person, 0, COUNT(people));
	suite_add_tcase(suite, tc);
	return suite;
}
