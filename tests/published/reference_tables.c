/*
 * Reading the tables of data/. Names are mapped here anew, on purpose not by
 * the generator, so that a slip there shows.
 */
#include "reference_tables.h"

#include <check.h>
#include <stdio.h>
#include <stdlib.h>

#ifndef TEST_DATA_DIR
#define TEST_DATA_DIR "tests/published/data"
#endif

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

struct table
taken_read(const char *name)
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

void
taken_free(struct table *table)
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

const char *
taken_joints(const char *theirs)
{
	for (size_t i = 0; i < sizeof(joint_names) / sizeof(*joint_names); i++)
		if (strcmp(joint_names[i].theirs, theirs) == 0)
			return joint_names[i].ours;
	return theirs;
}

bool
taken_lists(const char *list, const char *name)
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

struct motion
taken_motion(const char *theirs)
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

static int32_t
tenths(double value)
{
	return (int32_t)(value * 10 + (value < 0 ? -0.5 : 0.5));
}

struct figure
taken_figure(const char *text)
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

struct table taken_not;

bool
taken_left_out(const char *file, const struct line *line)
{
	for (size_t i = 0; i < taken_not.len; i++) {
		char **cell = taken_not.at[i].cell;

		if (strcmp(cell[0], file) == 0 &&
		    strcmp(cell[1], line->cell[KEY]) == 0 &&
		    strcmp(cell[2], line->cell[JOINT]) == 0 &&
		    strcmp(cell[3], line->cell[MOTION]) == 0 &&
		    strcmp(cell[4], line->cell[VALUE]) == 0)
			return true;
	}
	return false;
}

void
taken_set_up(void)
{
	taken_not = taken_read("reference_left_out.tsv");
}

void
taken_tear_down(void)
{
	taken_free(&taken_not);
}

size_t
taken_count(const char *list)
{
	size_t names = 1;

	for (; *list; list++)
		names += *list == ',';
	return names;
}
