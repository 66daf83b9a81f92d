/*
 * Holds the compiled tables against the figures as they were taken down from
 * their sources: data/ has those tables as they are, with where each figure
 * was read, and reference_left_out.tsv the rows that the program does not
 * take, each with its reason. Names are mapped here anew, on purpose not by
 * the generator, so that a slip there shows.
 */
#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "reference/reference.h"
#include "vocab/vocab.h"

#ifndef TEST_DATA_DIR
#define TEST_DATA_DIR "tests/published/data"
#endif

Suite *published_reference_suite(void);

#define M(name) VOCAB_MEASUREMENT_##name

/* ---- a table of text */

enum { MOST_CELLS = 12 };

struct line {
	char *cell[MOST_CELLS];
	int cells;
};

struct table {
	char *text;
	struct line *at;
	size_t len;
};

/* The columns that the tables of figures share. */
enum {
	KEY,
	JOINT,
	MOTION,
	SEX,
	AGE_LO,
	AGE_HI,
	VALUE,
	SPREAD,
	CI_HI,
	UNIT,
	WHERE,
	VERIFIED
};

/* A cell that a spreadsheet has put in quotes is taken out of them. */
static void
unquote(char *cell)
{
	char *to = cell;

	if (*cell != '"')
		return;
	for (char *from = cell + 1; *from; from++) {
		if (*from == '"' && *++from != '"')
			break;
		*to++ = *from;
	}
	*to = '\0';
}

static void
split_line(char *text, struct line *line)
{
	line->cells = 0;
	for (char *at = text; at;) {
		char *tab = strchr(at, '\t');

		if (tab)
			*tab++ = '\0';
		ck_assert_int_lt(line->cells, MOST_CELLS);
		unquote(at);
		line->cell[line->cells++] = at;
		at = tab;
	}
}

/* Reads data/NAME without its header row. */
static struct table
read_table(const char *name)
{
	struct table table = {.len = 0};
	size_t size = 1 << 18, len;
	char path[256];
	FILE *file;

	snprintf(path, sizeof(path), "%s/%s", TEST_DATA_DIR, name);
	file = fopen(path, "rb");
	table.text = malloc(size);
	table.at = malloc(1000 * sizeof(*table.at));
	ck_assert_msg(file && table.text && table.at, "cannot read %s", path);
	len = fread(table.text, 1, size - 1, file);
	fclose(file);
	ck_assert_uint_lt(len, size - 1);
	table.text[len] = '\0';
	for (char *at = strchr(table.text, '\n') + 1; *at;) {
		char *end = strchr(at, '\n');

		ck_assert_ptr_nonnull(end);
		*end = '\0';
		ck_assert_uint_lt(table.len, 1000);
		split_line(at, &table.at[table.len++]);
		at = end + 1;
	}
	ck_assert_uint_gt(table.len, 0);
	return table;
}

static void
free_table(struct table *table)
{
	free(table->text);
	free(table->at);
}

/* ---- names and figures */

static const struct {
	const char *theirs, *ours;
} joint_names[] = {
    {"cervical_spine", "cervical"},
    {"thoracolumbar_spine", "thoracolumbar"},
    {"TMJ", "jaw"},
    {"hallux_MTP", "great-toe MTP"},
    {"hallux_IP", "great-toe IP"},
    {"thumb_CMC", "thumb CMC"},
    {"thumb_MCP", "thumb MCP"},
    {"thumb_IP", "thumb IP"},
    {"foot/subtalar", "foot"}, /* limits.tsv takes these of the foot */
    {"subtalar/calcaneus", "subtalar"},
    {"finger_MCP", "index MCP,middle MCP,ring MCP,little MCP"},
    {"finger_PIP", "index PIP,middle PIP,ring PIP,little PIP"},
    {"finger_DIP", "index DIP,middle DIP,ring DIP,little DIP"},
    {"finger_MCP (II-V)", "index MCP,middle MCP,ring MCP,little MCP"},
    {"finger_PIP (II-V)", "index PIP,middle PIP,ring PIP,little PIP"},
    {"finger_DIP (II-V)", "index DIP,middle DIP,ring DIP,little DIP"},
    {"finger_PIP_index", "index PIP"},
    {"finger_PIP_long", "middle PIP"},
    {"finger_PIP_ring", "ring PIP"},
    {"finger_PIP_little", "little PIP"},
    {"finger_DIP_index", "index DIP"},
    {"finger_DIP_long", "middle DIP"},
    {"finger_DIP_ring", "ring DIP"},
    {"finger_DIP_little", "little DIP"},
    {"lesser_toe_MTP",
	"second-toe MTP,third-toe MTP,fourth-toe MTP,fifth-toe MTP"},
    {"lesser_toe_PIP",
	"second-toe PIP,third-toe PIP,fourth-toe PIP,fifth-toe PIP"},
    {"lesser_toe_DIP",
	"second-toe DIP,third-toe DIP,fourth-toe DIP,fifth-toe DIP"},
    {"MTP (all toes)", "great-toe MTP,second-toe MTP,third-toe MTP,"
		       "fourth-toe MTP,fifth-toe MTP"},
    {"finger_DIP / thumb_IP",
	"index DIP,middle DIP,ring DIP,little DIP,thumb IP"},
    /* Regions of measurement_error.tsv, by one joint that lies in them. */
    {"upper and lower limb", "forearm,hip"},
    {"upper limb", "forearm"},
    {"lower limb", "hip"},
    {"all", "thoracic"},
    {"finger and wrist joints", "wrist,little DIP"},
    {"finger joints", "ring MCP"},
};

/* Motions that are not just our name with underscores. */
static const struct {
	const char *theirs, *ours, *setting, *mode;
} motion_names[] = {
    {"extension (radial abduction)", "extension", "", ""},
    {"extension (hyper)", "extension", "", ""},
    {"abduction (palmar)", "palmar abduction", "", ""},
    {"dorsiflexion (knee bent)", "dorsiflexion", "knee-bent", ""},
    {"flexion (active)", "flexion", "", "active"},
    {"lateral_flexion_left", "lateral flexion", "", ""},
    {"lateral_flexion_right", "lateral flexion", "", ""},
    {"rotation_left", "rotation", "", ""},
    {"rotation_right", "rotation", "", ""},
    {"opening unassisted", "opening", "", "active"},
    {"max unassisted vertical opening, normal", "opening", "", "active"},
    {"opening, no TMJ disorder", "opening", "", ""},
    {"cross_body_adduction", "horizontal adduction", "", ""},
    {"external_rotation at 90 abduction", "external rotation", "", ""},
    {"internal_rotation arm at side", "internal rotation", "", ""},
    {"position_of_function_extension", "extension", "", ""},
    {"position_of_function_flexion", "flexion", "", ""},
    {"opening functional", "opening", "", ""},
    {"flexion with knee straight", "flexion", "", ""},
    {"flexion / lateral_flexion", "flexion", "", ""},
};

static const char *
our_joints(const char *theirs)
{
	for (size_t i = 0; i < sizeof(joint_names) / sizeof(*joint_names); i++)
		if (strcmp(joint_names[i].theirs, theirs) == 0)
			return joint_names[i].ours;
	return theirs;
}

/* True where the comma list LIST has NAME. */
static bool
lists(const char *list, const char *name)
{
	size_t len = strlen(name);

	for (const char *at = list; at; at = strchr(at, ',')) {
		at += *at == ',';
		if (strncmp(at, name, len) == 0 &&
		    (at[len] == ',' || at[len] == '\0'))
			return true;
		if (!*at)
			break;
	}
	return false;
}

static void
spaced(char *out, size_t size, const char *text)
{
	snprintf(out, size, "%s", text);
	for (; *out; out++)
		if (*out == '_')
			*out = ' ';
}

struct motion {
	char name[128];
	const char *setting, *mode;
};

static struct motion
our_motion(const char *theirs)
{
	struct motion motion = {.setting = "", .mode = ""};

	for (size_t i = 0; i < sizeof(motion_names) / sizeof(*motion_names);
	     i++)
		if (strcmp(motion_names[i].theirs, theirs) == 0) {
			spaced(motion.name, sizeof(motion.name),
			    motion_names[i].ours);
			motion.setting = motion_names[i].setting;
			motion.mode = motion_names[i].mode;
			return motion;
		}
	spaced(motion.name, sizeof(motion.name), theirs);
	return motion;
}

/* A figure as its source writes it: 26.2, 35-50, 70 or 80, >=180, -28 to 12. */
struct figure {
	int32_t low, high;
	char mark[4];
};

static int32_t
tenths(double value)
{
	return (int32_t)(value * 10 + (value < 0 ? -0.5 : 0.5));
}

static struct figure
figure_of(const char *text)
{
	struct figure figure = {.mark = ""};
	double low, high;
	int n = 0;
	size_t mark = strspn(text, "><=+/");

	if (strncmp(text, "+/-", 3) == 0)
		mark = 3;
	memcpy(figure.mark, text, mark);
	text += mark;
	if ((sscanf(text, "%lf-%lf%n", &low, &high, &n) == 2 && !text[n]) ||
	    (sscanf(text, "%lf to %lf%n", &low, &high, &n) == 2 && !text[n]) ||
	    (sscanf(text, "%lf or %lf%n", &low, &high, &n) == 2 && !text[n])) {
		figure.low = tenths(low);
		figure.high = tenths(high);
		return figure;
	}
	ck_assert_msg(sscanf(text, "%lf%n", &low, &n) == 1 && !text[n],
	    "no figure: %s", text);
	figure.low = figure.high = tenths(low);
	return figure;
}

/* ---- rows left out */

static struct table left_out;

static bool
is_left_out(const char *file, const struct line *line)
{
	for (size_t i = 0; i < left_out.len; i++) {
		char **cell = left_out.at[i].cell;

		if (strcmp(cell[0], file) == 0 &&
		    strcmp(cell[1], line->cell[KEY]) == 0 &&
		    strcmp(cell[2], line->cell[JOINT]) == 0 &&
		    strcmp(cell[3], line->cell[MOTION]) == 0 &&
		    strcmp(cell[4], line->cell[VALUE]) == 0)
			return true;
	}
	return false;
}

static void
set_up(void)
{
	left_out = read_table("reference_left_out.tsv");
}

static void
tear_down(void)
{
	free_table(&left_out);
}

static const char *const figure_files[] = {"norms_38cfr.tsv",
    "norms_cdc_2011.tsv", "norms_aaos_and_studies.tsv", "jaw.tsv",
    "functional_arcs.tsv", "measurement_error.tsv"};

/* How many rows of the tables ROW of the list of rows left out names. */
static int
rows_named(const struct line *row)
{
	int named = 0;

	for (size_t f = 0; f < sizeof(figure_files) / sizeof(*figure_files);
	     f++) {
		struct table table;

		if (strcmp(figure_files[f], row->cell[0]) != 0)
			continue;
		table = read_table(figure_files[f]);
		for (size_t i = 0; i < table.len; i++)
			named +=
			    strcmp(table.at[i].cell[KEY], row->cell[1]) == 0 &&
			    strcmp(table.at[i].cell[JOINT], row->cell[2]) ==
				0 &&
			    strcmp(table.at[i].cell[MOTION], row->cell[3]) ==
				0 &&
			    strcmp(table.at[i].cell[VALUE], row->cell[4]) == 0;
		free_table(&table);
	}
	return named;
}

/* The list may not outlive the rows that it names, and each has a reason. */
START_TEST(rows_left_out_exist_and_have_a_reason)
{
	for (size_t i = 0; i < left_out.len; i++) {
		const struct line *row = &left_out.at[i];

		ck_assert_int_eq(row->cells, 6);
		ck_assert_str_ne(row->cell[5], "");
		if (strcmp(row->cell[0], "limits.tsv") != 0)
			ck_assert_msg(rows_named(row) == 1, "%s %s %s",
			    row->cell[1], row->cell[2], row->cell[3]);
	}
}
END_TEST

/* ---- limits.tsv */

enum {
	L_JOINT,
	L_MOTION,
	L_SETTING,
	L_UNIT,
	L_USUAL,
	L_USUAL_BASIS,
	L_POSSIBLE,
	L_POSSIBLE_BASIS,
	L_VERIFIED,
	L_POSSIBLE_VERIFIED,
	L_LACKS,
	L_LACKS_BASIS
};

static int
measurement(const char *joint, const char *motion)
{
	for (int m = 0; m < VOCAB_MEASUREMENT_COUNT; m++)
		if (strcmp(vocab_measurements[m].joint_name, joint) == 0 &&
		    strcmp(vocab_measurements[m].motion_name, motion) == 0)
			return m;
	ck_abort_msg("no such measurement: %s %s", joint, motion);
	return -1;
}

static void
check_bound(bool has, int32_t bound, const char *cell)
{
	ck_assert_int_eq(has, cell[0] != '\0');
	if (has)
		ck_assert_int_eq(bound, figure_of(cell).low);
}

/* The words of a reading are sorted; the one row of two words here is not. */
static const char *
our_setting(const char *theirs)
{
	if (strcmp(theirs, "weight-bearing knee-straight") == 0)
		return "knee-straight weight-bearing";
	return theirs[0] == '(' ? "" : theirs;
}

START_TEST(limits_are_those_of_the_table)
{
	struct table table = read_table("limits.tsv");
	size_t levels = 0;

	for (size_t i = 0; i < table.len; i++) {
		char **cell = table.at[i].cell;
		struct ref_bound bound;

		if (strcmp(cell[L_UNIT], "level") == 0) {
			levels++; /* named in reference_left_out.tsv */
			continue;
		}
		ref_limits(measurement(cell[L_JOINT], cell[L_MOTION]),
		    our_setting(cell[L_SETTING]),
		    strcmp(cell[L_SETTING], "(end less start)") == 0, &bound);
		check_bound(bound.has_usual, bound.usual, cell[L_USUAL]);
		check_bound(
		    bound.has_possible, bound.possible, cell[L_POSSIBLE]);
		check_bound(bound.has_lacks, bound.lacks, cell[L_LACKS]);
		if (bound.has_usual) {
			ck_assert_str_eq(
			    bound.basis_usual, cell[L_USUAL_BASIS]);
			ck_assert_str_eq(bound.verified, cell[L_VERIFIED]);
		}
		ck_assert_str_eq(bound.basis_possible, cell[L_POSSIBLE_BASIS]);
		ck_assert_str_eq(
		    bound.verified_possible, cell[L_POSSIBLE_VERIFIED]);
		if (bound.has_lacks)
			ck_assert_str_eq(
			    bound.basis_lacks, cell[L_LACKS_BASIS]);
	}
	ck_assert_uint_eq(levels, 1);
	free_table(&table);
}
END_TEST

/* ---- the norm tables */

static bool
says(const char *text, const char *cell)
{
	return strcmp(text, cell) == 0;
}

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
	struct motion motion = our_motion(line->cell[MOTION]);
	struct figure figure;
	const char *mode =
	    row->mode < 0 ? "" : vocab_name(VOCAB_CLASS_MODE, row->mode);

	if (!says(row->source, line->cell[KEY]) ||
	    !lists(our_joints(line->cell[JOINT]), m->joint_name) ||
	    !says(m->motion_name, motion.name) ||
	    !says(row->setting, motion.setting) ||
	    !says(mode, mode_of(line, &motion)))
		return false;
	figure = figure_of(line->cell[VALUE]);
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

static size_t
count_names(const char *list)
{
	size_t names = 1;

	for (; *list; list++)
		names += *list == ',';
	return names;
}

enum { NORM_FILES = 4 };

START_TEST(every_read_norm_is_compiled_or_left_out)
{
	struct table table = read_table(figure_files[_i]);
	size_t found = 0;

	for (size_t i = 0; i < table.len; i++) {
		const struct line *line = &table.at[i];

		if (!says(line->cell[VERIFIED], "yes") ||
		    is_left_out(figure_files[_i], line))
			continue;
		ck_assert_msg(times_compiled(line) ==
				  count_names(our_joints(line->cell[JOINT])),
		    "%s %s %s %s: %zu times", line->cell[KEY],
		    line->cell[JOINT], line->cell[MOTION], line->cell[VALUE],
		    times_compiled(line));
		found++;
	}
	ck_assert_uint_gt(found, 0);
	free_table(&table);
}
END_TEST

/* Nothing that no table says, and nothing that was left out. */
START_TEST(every_compiled_usual_value_was_taken_down)
{
	struct table tables[NORM_FILES];
	size_t n, rows = 0;

	for (int f = 0; f < NORM_FILES; f++)
		tables[f] = read_table(figure_files[f]);
	for (int m = 0; m < VOCAB_MEASUREMENT_COUNT; m++) {
		const struct ref_usual_row *row = ref_usual_rows(m, &n);

		for (size_t i = 0; i < n; i++, rows++) {
			bool found = false;

			for (int f = 0; f < NORM_FILES; f++)
				for (size_t k = 0; k < tables[f].len; k++)
					if (!is_left_out(figure_files[f],
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
		free_table(&tables[f]);
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

/* ---- functional_arcs.tsv */

/* The motion that a text begins with or stands for; "" where it is none. */
static const char *
motion_in(const char *text)
{
	static char out[128];
	struct motion motion = our_motion(text);
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
	    !lists(our_joints(line->cell[JOINT]), of->joint_name) ||
	    !says(task->where_read, line->cell[WHERE]) ||
	    !says(task->verified,
		says(line->cell[VERIFIED], "yes") ? "yes" : "from memory"))
		return false;
	if (says(line->cell[KEY], "JohnstonSmidt1970"))
		return is_of_johnston(task, of->motion_name);
	if (!says(of->motion_name, motion_in(line->cell[MOTION])))
		return false;
	figure = figure_of(line->cell[VALUE]);
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
	struct table table = read_table("functional_arcs.tsv");

	for (size_t i = 0; i < table.len; i++) {
		const struct line *line = &table.at[i];

		if (!says(line->cell[VERIFIED], "yes") ||
		    is_left_out("functional_arcs.tsv", line))
			continue;
		ck_assert_msg(tasks_of(line) ==
				  count_names(our_joints(line->cell[JOINT])),
		    "%s %s %s: %zu times", line->cell[KEY], line->cell[JOINT],
		    line->cell[MOTION], tasks_of(line));
	}
	free_table(&table);
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
		tables[f] = read_table(task_files[f]);
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
		free_table(&tables[f]);
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

/* ---- measurement_error.tsv */

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
	figure = figure_of(text);
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

		if (lists(joint, vocab_measurements[m].joint_name))
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
	struct table table = read_table("measurement_error.tsv");
	size_t n;

	for (int m = 0; m < VOCAB_MEASUREMENT_COUNT; m++) {
		const struct ref_error_row *row = ref_error_rows(m, &n);

		for (size_t i = 0; i < n; i++) {
			bool found = says(row[i].source, "project_tolerance");

			for (size_t k = 0; k < table.len; k++)
				if (says(table.at[k].cell[VERIFIED], "yes") &&
				    !is_left_out(
					"measurement_error.tsv", &table.at[k]))
					found |=
					    error_is_in(&row[i], &table.at[k]);
			ck_assert_msg(found, "%s %s: %d to %d", row[i].source,
			    vocab_measurements[m].joint_name, (int)row[i].low,
			    (int)row[i].high);
		}
	}
	free_table(&table);
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
			: our_joints(line->cell[JOINT]));
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
	struct table table = read_table("measurement_error.tsv");

	for (size_t i = 0; i < table.len; i++)
		if (says(table.at[i].cell[VERIFIED], "yes") &&
		    !is_left_out("measurement_error.tsv", &table.at[i]))
			check_error(&table.at[i]);
	free_table(&table);
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

/* ---- end_feel_and_capsular.tsv */

static const struct {
	const char *word;
	unsigned feel;
} feel_words[] = {
    {"soft", 1u << VOCAB_END_FEEL_SOFT},
    {"firm", 1u << VOCAB_END_FEEL_FIRM},
    {"capsular", 1u << VOCAB_END_FEEL_FIRM},
    {"hard", 1u << VOCAB_END_FEEL_HARD},
    {"bony", 1u << VOCAB_END_FEEL_HARD},
};

static unsigned
feels_in(const char *text)
{
	unsigned feels = 0;

	for (size_t i = 0; i < sizeof(feel_words) / sizeof(*feel_words); i++)
		if (strstr(text, feel_words[i].word))
			feels |= feel_words[i].feel;
	return feels;
}

/* Capsular patterns are no end feels; abduction of the thumb is palmar. */
static bool
is_feel_of(const struct line *line, int m)
{
	const struct vocab_measurement *of = &vocab_measurements[m];
	const char *motion = line->cell[MOTION];

	if (!says(line->cell[KEY], "Norkin&White-style") ||
	    !lists(our_joints(line->cell[JOINT]), of->joint_name))
		return false;
	if (says(motion, "flexion / lateral_flexion"))
		return says(of->motion_name, "flexion") ||
		       says(of->motion_name, "lateral flexion");
	if (says(line->cell[JOINT], "thumb_CMC") && says(motion, "abduction"))
		return says(of->motion_name, "palmar abduction");
	return says(of->motion_name, our_motion(motion).name);
}

START_TEST(end_feels_are_those_of_the_table)
{
	struct table table = read_table("end_feel_and_capsular.tsv");
	size_t with_feels = 0;

	for (int m = 0; m < VOCAB_MEASUREMENT_COUNT; m++) {
		unsigned all = 0;
		bool read = false;
		const char *source;

		for (size_t i = 0; i < table.len; i++) {
			const struct line *line = &table.at[i];

			if (!is_feel_of(line, m))
				continue;
			/* Some are said beside the figure: "hard possible". */
			all |= feels_in(line->cell[VALUE]);
			if (strstr(line->cell[WHERE], "hard"))
				all |= 1u << VOCAB_END_FEEL_HARD;
			read |= says(line->cell[VERIFIED], "yes");
		}
		ck_assert_uint_eq(ref_end_feels(m, &source), all);
		with_feels += all != 0;
		if (all && !read)
			ck_assert_ptr_nonnull(strstr(source, ", from memory"));
	}
	ck_assert_uint_gt(with_feels, 50);
	free_table(&table);
}
END_TEST

#define COUNT(array) (int)(sizeof(array) / sizeof(*(array)))

Suite *
published_reference_suite(void)
{
	Suite *suite = suite_create("published reference");
	TCase *tc = tcase_create("tables");

	tcase_add_checked_fixture(tc, set_up, tear_down);
	tcase_add_test(tc, rows_left_out_exist_and_have_a_reason);
	tcase_add_test(tc, limits_are_those_of_the_table);
	tcase_add_loop_test(
	    tc, every_read_norm_is_compiled_or_left_out, 0, NORM_FILES);
	tcase_add_test(tc, every_compiled_usual_value_was_taken_down);
	tcase_add_test(tc, every_read_task_is_compiled_or_left_out);
	tcase_add_test(tc, every_read_error_is_compiled_or_left_out);
	tcase_add_test(tc, every_compiled_task_was_taken_down);
	tcase_add_test(tc, every_compiled_error_was_taken_down);
	tcase_add_test(tc, end_feels_are_those_of_the_table);
	suite_add_tcase(suite, tc);
	tc = tcase_create("single figures");
	tcase_add_loop_test(tc, single_figure, 0, COUNT(figures));
	tcase_add_loop_test(tc, single_figure_of_a_person, 0, COUNT(people));
	tcase_add_loop_test(tc, single_task, 0, COUNT(tasks));
	tcase_add_loop_test(tc, single_error, 0, COUNT(errors));
	suite_add_tcase(suite, tc);
	return suite;
}
