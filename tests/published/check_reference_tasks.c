/*
 * Holds what tasks of daily life need, as compiled, against the figures as they
 * were taken down, both ways, and single ones against their sources.
 */
#include <check.h>
#include <stdio.h>
#include <string.h>

#include "reference/reference.h"
#include "reference_tables.h"
#include "vocab/vocab.h"

Suite *published_tasks_suite(void);

/* The motion that a text begins with or stands for; "" where it is none. */
static const char *
motion_in(const char *text)
{
	static char out[128];
	struct motion motion = taken_motion(text);
	size_t best = 0;

	out[0] = '\0';
	for (int i = 0; i < VOCAB_MOTION_COUNT; i++) {
		const char *name = vocab_name(VOCAB_CLASS_MOTION, i);
		size_t len = strlen(name);

		if (strncmp(motion.name, name, len) == 0 && len > best) {
			best = len;
			snprintf(out, sizeof(out), "%s", name);
		}
	}
	return out;
}

/* The one row of three motions and figures; of flexion others were read. */
static bool
is_of_johnston(const struct ref_functional *task, const char *motion)
{
	return task->low == 200 && task->high == 200 &&
	       (says(motion, "abduction") || says(motion, "external rotation"));
}

/* True where TASK of measurement M is what LINE says. */
static bool
task_is_of(const struct ref_functional *task, int m, const struct line *line)
{
	const struct vocab_measurement *of = &vocab_measurements[m];
	struct figure figure;

	if (!says(task->source, line->cell[KEY]) ||
	    !taken_lists(taken_joints(line->cell[JOINT]), of->joint_name) ||
	    !says(task->where_read, line->cell[WHERE]) ||
	    !says(task->verified,
		says(line->cell[VERIFIED], "yes") ? "yes" : "from memory"))
		return false;
	if (says(line->cell[KEY], "JohnstonSmidt1970"))
		return is_of_johnston(task, of->motion_name);
	if (!says(of->motion_name, motion_in(line->cell[MOTION])))
		return false;
	figure = taken_figure(line->cell[VALUE]);
	return task->low == figure.low && task->high == figure.high &&
	       (task->kind == REF_BELOW) == (figure.mark[0] == '<');
}

static size_t
tasks_of(const struct line *line)
{
	size_t times = 0, n;

	for (int m = 0; m < VOCAB_MEASUREMENT_COUNT; m++) {
		const struct ref_functional *task = ref_functional(m, &n);

		for (size_t i = 0; i < n; i++)
			times += task_is_of(&task[i], m, line);
	}
	return times;
}

START_TEST(every_read_task_is_compiled_or_left_out)
{
	struct table table = taken_read("functional_arcs.tsv");

	for (size_t i = 0; i < table.len; i++) {
		const struct line *line = &table.at[i];

		if (!says(line->cell[VERIFIED], "yes") ||
		    taken_left_out("functional_arcs.tsv", line))
			continue;
		ck_assert_msg(tasks_of(line) ==
				  taken_count(taken_joints(line->cell[JOINT])),
		    "%s %s %s: %zu times", line->cell[KEY], line->cell[JOINT],
		    line->cell[MOTION], tasks_of(line));
	}
	taken_free(&table);
}
END_TEST

/* The hand note and the jaw have needs among their norms. */
static const char *const task_files[] = {
    "functional_arcs.tsv", "norms_38cfr.tsv", "jaw.tsv"};

START_TEST(every_compiled_task_was_taken_down)
{
	struct table tables[3];
	size_t n;

	for (int f = 0; f < 3; f++)
		tables[f] = taken_read(task_files[f]);
	for (int m = 0; m < VOCAB_MEASUREMENT_COUNT; m++) {
		const struct ref_functional *task = ref_functional(m, &n);

		for (size_t i = 0; i < n; i++) {
			bool found = false;

			for (int f = 0; f < 3; f++)
				for (size_t k = 0; k < tables[f].len; k++)
					found |= task_is_of(
					    &task[i], m, &tables[f].at[k]);
			ck_assert_msg(found, "%s %s: %d to %d", task[i].source,
			    vocab_measurements[m].joint_name, (int)task[i].low,
			    (int)task[i].high);
		}
	}
	for (int f = 0; f < 3; f++)
		taken_free(&tables[f]);
}
END_TEST

static const struct {
	int measurement;
	const char *source;
	enum ref_functional_kind kind;
	int32_t low, high;
} tasks[] = {
    /* Morrey 1981, JBJS Am 63:872-877, abstract */
    {M(FOREARM_PRONATION), "Morrey1981", REF_REACH, 500, 500},
    {M(FOREARM_SUPINATION), "Morrey1981", REF_REACH, 500, 500},
    {M(ELBOW_FLEXION), "Morrey1981", REF_ARC, 300, 1300},
    /* Ryu 1991, J Hand Surg Am 16:409-419, abstract: most tasks */
    {M(WRIST_FLEXION), "Ryu1991", REF_REACH, 400, 400},
    /* Hume 1990, J Hand Surg Am 15:240-243, abstract */
    {M(THUMB_IP_FLEXION), "Hume1990", REF_POSTURE, 180, 180},
    /* Bain 2015, J Hand Surg Eur 40:406-411, abstract */
    {M(LITTLE_DIP_FLEXION), "Bain2015", REF_ARC, 100, 640},
    /* Rowe 2000, Gait Posture 12:143-155, abstract */
    {M(KNEE_FLEXION), "Rowe2000", REF_BELOW, 900, 900},
    {M(KNEE_FLEXION), "Rowe2000", REF_REACH, 900, 1200},
    /* Namdari 2012, JSES 21:1177-1183, first page */
    {M(SHOULDER_HORIZONTAL_ADDUCTION), "Namdari2012", REF_REACH, 1160, 1160},
    /* 38 CFR 4.71a, note (1) to the hand: position of function */
    {M(WRIST_EXTENSION), "CFR_38_4_71a_hand_note", REF_POSTURE, 200, 300},
    {M(RING_PIP_FLEXION), "CFR_38_4_71a_hand_note", REF_POSTURE, 300, 300},
    /* a page derived from a textbook: functional opening of the jaw */
    {M(JAW_OPENING), "Clarkson_style", REF_REACH, 350, 500},
};

START_TEST(single_task)
{
	size_t n, found = 0;
	const struct ref_functional *f =
	    ref_functional(tasks[_i].measurement, &n);

	for (size_t i = 0; i < n; i++)
		found += says(f[i].source, tasks[_i].source) &&
			 f[i].kind == tasks[_i].kind &&
			 f[i].low == tasks[_i].low &&
			 f[i].high == tasks[_i].high;
	ck_assert_uint_eq(found, 1);
}
END_TEST

Suite *
published_tasks_suite(void)
{
	Suite *suite = suite_create("published tasks");
	TCase *tc = tcase_create("tables");

	tcase_add_checked_fixture(tc, taken_set_up, taken_tear_down);
	tcase_add_test(tc, every_read_task_is_compiled_or_left_out);
	tcase_add_test(tc, every_compiled_task_was_taken_down);
	suite_add_tcase(suite, tc);
	tc = tcase_create("single figures");
	tcase_add_loop_test(tc, single_task, 0, COUNT(tasks));
	suite_add_tcase(suite, tc);
	return suite;
}
