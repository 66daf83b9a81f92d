/*
 * Holds the totals of the hand against worked cases and bands as they were
 * taken down from their sources: data/hand_cases.tsv and grading_bands.tsv,
 * each row with where it was read and how far. Names are mapped here anew, and
 * every row is either held against the program or named below as left out,
 * with the reason.
 */
#include "totals_note.h"

Suite *published_totals_suite(void);

/* --- worked cases of the hand --------------------------------------------- */

/* mcp_flex mcp_ext_deficit pip_flex ...: a dash was not part of the case. */
static void
add_case(char *const *cell)
{
	static const int parts[] = {M(INDEX_MCP_FLEXION),
	    M(INDEX_MCP_EXTENSION), M(INDEX_PIP_FLEXION),
	    M(INDEX_PIP_EXTENSION), M(INDEX_DIP_FLEXION),
	    M(INDEX_DIP_EXTENSION)};

	s.readings.len = s.trials.len = 0;
	for (size_t i = 0; i < COUNT(parts); i++) {
		int degrees = atoi(cell[2 + i]);

		if (strcmp(cell[2 + i], "-") != 0)
			add(parts[i], R, i % 2 ? -degrees : degrees);
	}
}

START_TEST(hand_cases)
{
	read_table("hand_cases.tsv");
	ck_assert_uint_eq(table.rows, 6);
	for (size_t i = 0; i < table.rows; i++) {
		char *const *cell = table.cell[i];
		bool tam = strcmp(cell[1], "TAM") == 0;
		const struct total *t;
		int64_t percent;

		add_case(cell);
		t = total_of(tam ? TOTAL_INDEX : TOTAL_INDEX_TWO_JOINTS);
		percent = mean_hundredths(total_percent(
		    t->sum, total_definitions[t->definition].reference));
		ck_assert_msg(mean_compare_to(t->sum, atoi(cell[8]) * 10) == 0,
		    "%s: %g", cell[0], (double)t->sum.sum / 10);
		ck_assert_msg(percent == (int64_t)(atof(cell[9]) * 100 + 0.5),
		    "%s: %g %%", cell[0], (double)percent / 100);
	}
}
END_TEST

/* --- bands ---------------------------------------------------------------- */

static const struct {
	const char *theirs;
	const char *ours;
	enum total_kind kind;
	bool percent;
} systems[] = {
    {"ASSH TAM", "ASSH", TOTAL_KIND_FINGER, true},
    {"Strickland-Glogovac 1980", "Strickland-Glogovac 1980",
	TOTAL_KIND_TWO_JOINTS, true},
    {"Strickland adjusted 1985", "Strickland adjusted 1985",
	TOTAL_KIND_TWO_JOINTS, true},
    {"TAM table (eatonhand clf217)", "total motion table", TOTAL_KIND_FINGER,
	false},
    {"TAM burn rating", "burn rating", TOTAL_KIND_FINGER, false},
};

/* Of the source, but not of the program. */
static const struct {
	const char *system, *grade, *reason;
} left_out[] = {
    {"Tang 2013 proposal", "excellent", "only one of its bands was found"},
    {"Buck-Gramcko", "-", "its bands were not found"},
};

static const struct band_system *
system_of(const char *theirs)
{
	for (size_t i = 0; i < COUNT(systems); i++)
		for (size_t k = 0; k < band_system_count; k++) {
			const struct band_system *b = &band_systems[k];

			if (strcmp(systems[i].theirs, theirs) == 0 &&
			    strcmp(systems[i].ours, b->name) == 0 &&
			    systems[i].percent == b->percent &&
			    b->kinds >> systems[i].kind & 1)
				return b;
		}
	return NULL;
}

/* Its word for the full range is a verdict, which the program never prints. */
static const char *
grade_of(const char *theirs)
{
	return strcmp(theirs, "normal") == 0 ? "full range" : theirs;
}

static const struct band *
band_of(const struct band_system *system, const char *grade)
{
	for (const struct band *b = system->bands; b->grade; b++)
		if (strcmp(b->grade, grade) == 0)
			return b;
	ck_abort_msg("%s has no %s", system->name, grade);
}

/* ">75", "<50" or "84". */
static void
check_bound(const char *cell, char mark, int32_t ours, bool open)
{
	bool marked = *cell == mark;

	ck_assert_int_eq(atoi(cell + marked) * 10, ours);
	ck_assert_msg(marked == open, "%s", cell);
}

static void
check_band(char *const *cell, const struct band_system *system)
{
	const struct band *band = band_of(system, grade_of(cell[1]));
	bool memory = strncmp(cell[7], "from memory", 11) == 0;

	check_bound(cell[2], '>', band->lower, band->above);
	/* The row above it says that 75 itself belongs to no band. */
	if (strcmp(cell[0], "ASSH TAM") == 0 && strcmp(cell[1], "fair") == 0)
		ck_assert(band->upper == 750 && band->below);
	else
		check_bound(cell[3], '<', band->upper, band->below);
	ck_assert_str_eq(system->state,
	    memory ? "from memory, not verified" : "read at second hand");
}

START_TEST(bands)
{
	size_t held = 0, out = 0;

	read_table("grading_bands.tsv");
	for (size_t i = 0; i < table.rows; i++) {
		const struct band_system *system = system_of(table.cell[i][0]);

		if (system) {
			check_band(table.cell[i], system);
			held++;
			continue;
		}
		for (size_t k = 0; k < COUNT(left_out); k++)
			out +=
			    strcmp(left_out[k].system, table.cell[i][0]) == 0 &&
			    strcmp(left_out[k].grade, table.cell[i][1]) == 0;
	}
	ck_assert_uint_eq(held, 20);
	ck_assert_uint_eq(out, COUNT(left_out));
	ck_assert_uint_eq(held + out, table.rows);
}
END_TEST

/*
 * The bands that stand in the notes of that table: by degrees beside the
 * percentages of 1980, and of the thumb.
 */
static const struct {
	const char *theirs, *grade, *note;
	enum total_kind kind;
	const char *ours;
	int degrees; /* within the band */
} notes[] = {
    {"Strickland-Glogovac 1980", "excellent", ">150 deg", TOTAL_KIND_TWO_JOINTS,
	"Strickland-Glogovac 1980", 151},
    {"Strickland-Glogovac 1980", "good", "125-149 deg", TOTAL_KIND_TWO_JOINTS,
	"Strickland-Glogovac 1980", 125},
    {"Strickland-Glogovac 1980", "good", "125-149 deg", TOTAL_KIND_TWO_JOINTS,
	"Strickland-Glogovac 1980", 149},
    {"Strickland-Glogovac 1980", "fair", "90-124 deg", TOTAL_KIND_TWO_JOINTS,
	"Strickland-Glogovac 1980", 90},
    {"Strickland-Glogovac 1980", "fair", "90-124 deg", TOTAL_KIND_TWO_JOINTS,
	"Strickland-Glogovac 1980", 124},
    {"Strickland-Glogovac 1980", "poor", "<90 deg", TOTAL_KIND_TWO_JOINTS,
	"Strickland-Glogovac 1980", 89},
    {"TAM table (eatonhand clf217)", "excellent", "thumb 119-140",
	TOTAL_KIND_THUMB, "total motion table", 119},
    {"TAM table (eatonhand clf217)", "good", "thumb 98-118", TOTAL_KIND_THUMB,
	"total motion table", 98},
    {"TAM table (eatonhand clf217)", "fair", "thumb printed 70-79",
	TOTAL_KIND_THUMB, "total motion table", 79},
    {"TAM table (eatonhand clf217)", "poor", "thumb <70", TOTAL_KIND_THUMB,
	"total motion table", 69},
};

START_TEST(bands_in_notes)
{
	static const int definitions[] = {[TOTAL_KIND_THUMB] = TOTAL_THUMB,
	    [TOTAL_KIND_TWO_JOINTS] = TOTAL_INDEX_TWO_JOINTS};
	struct total t = {.definition = definitions[notes[_i].kind],
	    .sum = {notes[_i].degrees * 10, 1}};
	const struct band *band = NULL;
	bool noted = false;

	read_table("grading_bands.tsv");
	for (size_t i = 0; i < table.rows; i++)
		noted |= strcmp(table.cell[i][0], notes[_i].theirs) == 0 &&
			 strcmp(table.cell[i][1], notes[_i].grade) == 0 &&
			 strstr(table.cell[i][5], notes[_i].note);
	ck_assert_msg(noted, "%s is not in the table", notes[_i].note);
	for (size_t k = 0; k < band_system_count; k++)
		if (strcmp(band_systems[k].name, notes[_i].ours) == 0 &&
		    !band_systems[k].percent &&
		    band_systems[k].kinds >> notes[_i].kind & 1)
			band = total_band(&t, &band_systems[k]);
	ck_assert_ptr_nonnull(band);
	ck_assert_str_eq(band->grade, notes[_i].grade);
}
END_TEST

Suite *
published_totals_suite(void)
{
	Suite *suite = suite_create("published: totals");
	TCase *hand = tcase_create("hand");

	tcase_add_checked_fixture(hand, set_up, tear_down);
	tcase_add_test(hand, hand_cases);
	tcase_add_test(hand, bands);
	tcase_add_loop_test(hand, bands_in_notes, 0, (int)COUNT(notes));
	suite_add_tcase(suite, hand);
	return suite;
}
