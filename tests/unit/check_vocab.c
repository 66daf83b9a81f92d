/*
 * The words: the compiled table against grammar/vocabulary.tsv, read here a
 * second time, and the look-ups over it.
 */
#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "vocab/vocab.h"

static const char *const classes[VOCAB_CLASSES] = {
    [VOCAB_CLASS_HEADER] = "header",
    [VOCAB_CLASS_SIDE] = "side",
    [VOCAB_CLASS_BOTH] = "both",
    [VOCAB_CLASS_SIDE_MODE] = "side-mode",
    [VOCAB_CLASS_MODE] = "mode",
    [VOCAB_CLASS_JOINT] = "joint",
    [VOCAB_CLASS_DIGIT] = "digit",
    [VOCAB_CLASS_DIGIT_JOINT] = "digit-joint",
    [VOCAB_CLASS_GROUP] = "group",
    [VOCAB_CLASS_MOTION] = "motion",
    [VOCAB_CLASS_MEASURE] = "measure",
    [VOCAB_CLASS_MEASUREMENT] = "measurement",
    [VOCAB_CLASS_POSTURE] = "posture",
    [VOCAB_CLASS_SETTING] = "setting",
    [VOCAB_CLASS_SETTING_ANGLE] = "setting-angle",
    [VOCAB_CLASS_SETTING_PART] = "setting-part",
    [VOCAB_CLASS_SETTING_STATE] = "setting-state",
    [VOCAB_CLASS_END_FEEL] = "end-feel",
    [VOCAB_CLASS_CAUSE] = "cause",
    [VOCAB_CLASS_INSTRUMENT] = "instrument",
    [VOCAB_CLASS_OUTCOME] = "outcome",
    [VOCAB_CLASS_UNIT] = "unit",
    [VOCAB_CLASS_SEX] = "sex",
    [VOCAB_CLASS_LEVEL] = "level",
    [VOCAB_CLASS_REQUIREMENT] = "requirement",
    [VOCAB_CLASS_KEYWORD] = "keyword"};

static int
class_of(const char *name)
{
	for (int i = 0; i < VOCAB_CLASSES; i++)
		if (strcmp(classes[i], name) == 0)
			return i;
	ck_abort_msg("vocabulary.tsv: no class '%s' is known here", name);
}

/* --- the table as it is written ---------------------------------------------
 */

struct written {
	int class;
	char name[64], spellings[512], of[64], attributes[256];
};

/* Cuts the cell up to the next tab off *LINE. */
static void
cell(char **line, char *out, size_t size)
{
	size_t n = strcspn(*line, "\t\r\n");

	ck_assert_uint_lt(n, size);
	memcpy(out, *line, n);
	out[n] = '\0';
	*line += n + ((*line)[n] == '\t');
}

/* Calls EACH for every row of the file; returns how many there are. */
static int
each_written(void (*each)(const struct written *))
{
	FILE *file = fopen("grammar/vocabulary.tsv", "r");
	char line[2048], class[64];
	int n = -1;

	ck_assert_msg(file != NULL, "run the tests in the project's folder");
	while (fgets(line, sizeof(line), file)) {
		struct written row;
		char *p = line;

		if (n++ < 0)
			continue; /* the names of the columns */
		cell(&p, class, sizeof(class));
		row.class = class_of(class);
		cell(&p, row.name, sizeof(row.name));
		cell(&p, row.spellings, sizeof(row.spellings));
		cell(&p, row.of, sizeof(row.of));
		cell(&p, row.attributes, sizeof(row.attributes));
		each(&row);
	}
	fclose(file);
	return n;
}

/* WORD must be found as NAME of CLASS. */
static void
expect_found(const char *word, size_t len, int class, const char *name)
{
	const struct vocab_row *row =
	    vocab_match_class(vocab_find(word, len), (enum vocab_class) class);

	if (!row)
		ck_abort_msg(
		    "%s '%.*s' is not found", classes[class], (int)len, word);
	if (strcmp(row->name, name) != 0)
		ck_abort_msg("%s '%.*s' is %s, not %s", classes[class],
		    (int)len, word, row->name, name);
}

/* The same in capitals, in small letters and in both by turns. */
static void
expect_in_any_case(const char *word, size_t len, int class, const char *name)
{
	char other[64];

	ck_assert_uint_lt(len, sizeof(other));
	for (int way = 0; way < 3; way++) {
		for (size_t i = 0; i < len; i++) {
			char c = word[i];
			bool small = c >= 'a' && c <= 'z';
			bool large = c >= 'A' && c <= 'Z';
			bool want = way == 0 || (way == 2 && i % 2);

			other[i] = c;
			if ((want && small) || (!want && large))
				other[i] = (char)(c ^ 0x20);
		}
		expect_found(other, len, class, name);
	}
	expect_found(word, len, class, name);
}

static void
expect_row(const struct written *row)
{
	const char *p = row->spellings;

	if (row->class == VOCAB_CLASS_MEASUREMENT)
		return; /* a joint and a motion, each found by itself */
	if (row->class != VOCAB_CLASS_JOINT || row->of[0] == '\0')
		expect_in_any_case(
		    row->name, strlen(row->name), row->class, row->name);
	while (*p) {
		size_t len = strcspn(p, ",");

		expect_in_any_case(p, len, row->class, row->name);
		p += len + (p[len] == ',');
	}
}

START_TEST(every_spelling_finds_its_own_row)
{
	ck_assert_int_eq(each_written(expect_row), (int)vocab_row_count);
}
END_TEST

static void
expect_digit_joint(const struct written *row)
{
	const struct vocab_row *digit, *part;
	size_t len = strlen(row->of);
	int joint;

	if (row->class != VOCAB_CLASS_JOINT || len == 0)
		return;
	digit = vocab_match_class(vocab_find(row->of, len), VOCAB_CLASS_DIGIT);
	part = vocab_match_class(
	    vocab_find(row->name + len + 1, strlen(row->name) - len - 1),
	    VOCAB_CLASS_DIGIT_JOINT);
	ck_assert_ptr_nonnull(digit);
	ck_assert_ptr_nonnull(part);
	joint = vocab_digit_joint(digit->id, part->id);
	ck_assert_int_ge(joint, 0);
	ck_assert_str_eq(vocab_joints[joint].name, row->name);
}

START_TEST(a_digit_and_its_joint_find_the_joint)
{
	each_written(expect_digit_joint);
	ck_assert_int_eq(
	    vocab_digit_joint(VOCAB_DIGIT_THUMB, VOCAB_DIGIT_JOINT_PIP), -1);
	ck_assert_int_eq(
	    vocab_digit_joint(VOCAB_DIGIT_INDEX, VOCAB_DIGIT_JOINT_IP), -1);
	ck_assert_int_eq(vocab_digit_joint(-1, VOCAB_DIGIT_JOINT_IP), -1);
}
END_TEST

static void
expect_measurement(const struct written *row)
{
	static int i;
	const struct vocab_measurement *m;
	const char *units[] = {
	    "unit=deg", "unit=length", "unit=score", "unit=level"};

	if (row->class != VOCAB_CLASS_MEASUREMENT)
		return;
	m = &vocab_measurements[i++];
	ck_assert_str_eq(m->joint_name, row->of);
	ck_assert_str_eq(m->motion_name, row->name);
	ck_assert_ptr_nonnull(strstr(row->attributes, units[m->in]));
	ck_assert_int_eq(m->sided, strstr(row->attributes, "sides=RL") != NULL);
	ck_assert_int_eq(
	    m->directed, strstr(row->attributes, "directed") != NULL);
	ck_assert_int_eq(m->lacks, strstr(row->attributes, "lacks") != NULL);
	ck_assert_int_eq(m->less_is_better,
	    strstr(row->attributes, "less-is-better") != NULL);
	ck_assert_int_eq(
	    m->opposite >= 0, strstr(row->attributes, "opposite=") != NULL);
	ck_assert_int_eq(
	    m->measure >= 0, strstr(row->attributes, " named") != NULL);
}

START_TEST(every_measurement_is_as_it_is_written)
{
	each_written(expect_measurement);
}
END_TEST

/* --- what must hold of the table -------------------------------------------
 */

START_TEST(opposite_motions_are_pairs)
{
	for (int i = 0; i < VOCAB_MEASUREMENT_COUNT; i++) {
		const struct vocab_measurement *m = &vocab_measurements[i];
		int o = m->opposite;

		if (o < 0)
			continue;
		ck_assert_int_ne(o, i);
		ck_assert_int_eq(vocab_measurements[o].opposite, i);
		ck_assert_int_eq(vocab_measurements[o].joint, m->joint);
		ck_assert_int_eq(vocab_measurements[o].in, m->in);
		ck_assert_int_eq(vocab_measurements[o].sided, m->sided);
	}
}
END_TEST

START_TEST(joint_and_motion_find_the_measurement)
{
	int found = 0;

	for (int j = 0; j < VOCAB_JOINT_COUNT; j++)
		for (int k = 0; k < VOCAB_MOTION_COUNT; k++) {
			int m = vocab_measurement(j, k);

			if (m < 0)
				continue;
			found++;
			ck_assert_int_eq(vocab_measurements[m].joint, j);
			ck_assert_int_eq(vocab_measurements[m].motion, k);
		}
	for (int i = 0; i < VOCAB_MEASUREMENT_COUNT; i++) {
		const struct vocab_measurement *m = &vocab_measurements[i];

		if (m->measure < 0)
			continue;
		found++;
		ck_assert_int_eq(
		    vocab_named_measurement(m->measure, m->digit), i);
	}
	ck_assert_int_eq(found, VOCAB_MEASUREMENT_COUNT);
	ck_assert_int_eq(
	    vocab_measurement(VOCAB_JOINT_ELBOW, VOCAB_MOTION_SUPINATION), -1);
	ck_assert_int_eq(vocab_measurement(VOCAB_JOINT_ANKLE, -1), -1);
	ck_assert_int_eq(
	    vocab_named_measurement(VOCAB_MEASURE_TIP_TO_CREASE, -1), -1);
	ck_assert_int_eq(vocab_named_measurement(VOCAB_MEASURE_TIP_TO_CREASE,
			     VOCAB_DIGIT_GREAT_TOE),
	    -1);
}
END_TEST

/* `lacks` belongs to these motions alone, by the notation. */
START_TEST(lacks_stands_where_the_notation_has_it)
{
	for (int i = 0; i < VOCAB_MEASUREMENT_COUNT; i++) {
		const struct vocab_measurement *m = &vocab_measurements[i];
		bool turns = m->motion == VOCAB_MOTION_INTERNAL_ROTATION ||
			     m->motion == VOCAB_MOTION_EXTERNAL_ROTATION;
		bool may = turns || m->motion == VOCAB_MOTION_DORSIFLEXION ||
			   m->motion == VOCAB_MOTION_PRONATION ||
			   m->motion == VOCAB_MOTION_SUPINATION ||
			   m->motion == VOCAB_MOTION_EXTENSION;

		ck_assert_msg(
		    m->lacks == may, "%s %s", m->joint_name, m->motion_name);
	}
}
END_TEST

START_TEST(hinges_are_the_joints_of_the_notation)
{
	static const char hinges[] =
	    " elbow knee thumb MCP thumb IP index MCP index PIP index DIP "
	    "middle MCP middle PIP middle DIP ring MCP ring PIP ring DIP "
	    "little MCP little PIP little DIP great-toe IP second-toe PIP "
	    "second-toe DIP third-toe PIP third-toe DIP fourth-toe PIP "
	    "fourth-toe DIP fifth-toe PIP fifth-toe DIP ";

	for (int j = 0; j < VOCAB_JOINT_COUNT; j++) {
		char word[32];

		snprintf(word, sizeof(word), " %s ", vocab_joints[j].name);
		ck_assert_msg(
		    vocab_joints[j].hinge == (strstr(hinges, word) != NULL),
		    "%s", vocab_joints[j].name);
		if (vocab_joints[j].hinge)
			ck_assert_int_ge(
			    vocab_measurement(j, VOCAB_MOTION_EXTENSION), 0);
	}
}
END_TEST

START_TEST(sides_fit_the_region)
{
	for (int i = 0; i < VOCAB_MEASUREMENT_COUNT; i++) {
		const struct vocab_measurement *m = &vocab_measurements[i];
		enum vocab_region region = m->joint < 0
					       ? VOCAB_REGION_UPPER
					       : vocab_joints[m->joint].region;
		bool midline =
		    region == VOCAB_REGION_SPINE || region == VOCAB_REGION_JAW;

		ck_assert_int_eq(m->sided, !midline || m->directed);
		ck_assert(midline || !m->directed);
	}
}
END_TEST

START_TEST(groups_hold_their_members)
{
	uint64_t hand = vocab_group_joints[VOCAB_GROUP_HAND];
	uint64_t foot = vocab_group_joints[VOCAB_GROUP_FOOT];
	uint64_t toes = vocab_group_joints[VOCAB_GROUP_TOES];

	for (int j = 0; j < VOCAB_JOINT_COUNT; j++) {
		uint64_t bit = UINT64_C(1) << j;
		int digit = vocab_joints[j].digit;
		bool finger =
		    digit >= VOCAB_DIGIT_THUMB && digit <= VOCAB_DIGIT_LITTLE;
		bool toe = digit > VOCAB_DIGIT_LITTLE;

		ck_assert_int_eq((hand & bit) != 0, finger);
		ck_assert_int_eq((toes & bit) != 0, toe);
		ck_assert_int_eq((foot & bit) != 0,
		    toe || j == VOCAB_JOINT_SUBTALAR || j == VOCAB_JOINT_FOOT);
		ck_assert_int_eq(
		    (vocab_group_joints[VOCAB_GROUP_SPINE] & bit) != 0,
		    vocab_joints[j].region == VOCAB_REGION_SPINE);
	}
}
END_TEST

/* --- look-ups ----------------------------------------------------------------
 */

START_TEST(one_spelling_may_mean_two_things)
{
	struct vocab_match match = vocab_find("LF", 2);

	ck_assert_uint_eq(match.n, 2);
	ck_assert_ptr_nonnull(vocab_match_class(match, VOCAB_CLASS_DIGIT));
	ck_assert_ptr_nonnull(vocab_match_class(match, VOCAB_CLASS_MOTION));
	ck_assert_ptr_null(vocab_match_class(match, VOCAB_CLASS_JOINT));
	ck_assert_uint_eq(vocab_find("great", 5).n, 0);
	ck_assert_uint_eq(vocab_find("great", 5).phrase, 2);
	ck_assert_uint_eq(vocab_find("", 0).n, 0);
	ck_assert_uint_eq(vocab_find("kneee", 5).n, 0);
	ck_assert_uint_eq(vocab_find("kne", 3).n, 0);
	ck_assert_uint_eq(vocab_find("knee ", 5).n, 0);
}
END_TEST

START_TEST(a_very_long_word_is_none)
{
	char word[5000];

	memset(word, 'k', sizeof(word));
	ck_assert_uint_eq(vocab_find(word, sizeof(word)).n, 0);
	ck_assert_ptr_null(vocab_nearest(word, sizeof(word), UINT32_MAX));
}
END_TEST

static const struct {
	const char *text, *name; /* NULL: no setting */
	uint64_t family;
} settings[] = {
    {"WB", "weight-bearing", VOCAB_SETTING_BIT(VOCAB_SETTING_WEIGHT_BEARING)},
    {"Weight-Bearing", "weight-bearing",
	VOCAB_SETTING_BIT(VOCAB_SETTING_WEIGHT_BEARING)},
    {"abducted-90", "abducted-90",
	VOCAB_ANGLE_BIT(VOCAB_SETTING_ANGLE_ABDUCTED)},
    {"ABD-0", "abducted-0", VOCAB_ANGLE_BIT(VOCAB_SETTING_ANGLE_ABDUCTED)},
    {"abducted-180", "abducted-180",
	VOCAB_ANGLE_BIT(VOCAB_SETTING_ANGLE_ABDUCTED)},
    {"abducted-181", NULL, 0}, {"abducted-045", NULL, 0},
    {"abducted-", NULL, 0}, {"abducted", NULL, 0}, {"abducted-9x", NULL, 0},
    {"knee-bent", "knee-bent", VOCAB_PART_BIT(VOCAB_SETTING_PART_KNEE)},
    {"Knee-Bent-90", "knee-bent-90", VOCAB_PART_BIT(VOCAB_SETTING_PART_KNEE)},
    {"MP-flexed", "MCP-flexed", VOCAB_PART_BIT(VOCAB_SETTING_PART_MCP)},
    {"knee-bent-", NULL, 0}, {"knee-bent-200", NULL, 0},
    {"knee-bent-90-1", NULL, 0}, {"knee-", NULL, 0}, {"-bent", NULL, 0},
    {"knee", NULL, 0}, {"knee-sore", NULL, 0}, {"", NULL, 0}, {"-", NULL, 0}};

START_TEST(settings_are_read)
{
	char out[32] = "unchanged";
	uint64_t family = vocab_setting(
	    settings[_i].text, strlen(settings[_i].text), out, sizeof(out));

	ck_assert_uint_eq(family, settings[_i].family);
	if (settings[_i].name)
		ck_assert_str_eq(out, settings[_i].name);
}
END_TEST

#define LOOP(tc, test, table)                                                  \
	tcase_add_loop_test(                                                   \
	    tc, test, 0, (int)(sizeof(table) / sizeof(*(table))))

Suite *vocab_suite(void);

Suite *
vocab_suite(void)
{
	Suite *suite = suite_create("vocab");
	TCase *tc = tcase_create("vocab");

	tcase_add_test(tc, every_spelling_finds_its_own_row);
	tcase_add_test(tc, a_digit_and_its_joint_find_the_joint);
	tcase_add_test(tc, every_measurement_is_as_it_is_written);
	tcase_add_test(tc, opposite_motions_are_pairs);
	tcase_add_test(tc, joint_and_motion_find_the_measurement);
	tcase_add_test(tc, lacks_stands_where_the_notation_has_it);
	tcase_add_test(tc, hinges_are_the_joints_of_the_notation);
	tcase_add_test(tc, sides_fit_the_region);
	tcase_add_test(tc, groups_hold_their_members);
	tcase_add_test(tc, one_spelling_may_mean_two_things);
	tcase_add_test(tc, a_very_long_word_is_none);
	LOOP(tc, settings_are_read, settings);
	suite_add_tcase(suite, tc);
	return suite;
}
