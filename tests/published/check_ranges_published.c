/*
 * Holds shoulder rotation, the laxity score and the combined ranges of the
 * spine against what was taken down from their sources: data/beighton_gird.tsv,
 * each row with where it was read, and the figures of 38 CFR in usual.tsv.
 */
#include "reference/reference.h"
#include "totals_note.h"

Suite *published_ranges_suite(void);

/* --- rotation and laxity -------------------------------------------------- */

enum taken { THRESHOLD, CUTOFF, LIMIT, OUT };

/* Each row of the table, and what of the program it is held against. */
static const struct {
	const char *item;
	const char *value;
	enum taken taken;
	const char *range; /* or the people, or why it is left out */
	enum threshold_of of;
} rows[] = {
    {"Beighton 5th MCP", "2", LIMIT, "> 90", 0},
    {"Beighton thumb", "2", OUT, "the notation has no word for it", 0},
    {"Beighton elbow", "2", LIMIT, "> 10", 0},
    {"Beighton knee", "2", LIMIT, "> 10", 0},
    {"Beighton trunk", "1", OUT, "the notation has no word for it", 0},
    {"Beighton variant", "-", OUT, "both readings: laxity_part.reached", 0},
    {"cut-off child", ">=6", CUTOFF, "children and adolescents before puberty",
	0},
    {"cut-off adult", ">=5", CUTOFF, "from puberty to age 50", 0},
    {"cut-off older", ">=4", CUTOFF, "over 50", 0},
    {"one point below", "-", OUT, "its questionnaire is no reading", 0},
    {"older general", ">=4", CUTOFF, "any age, the criteria of 1998", 0},
    {"GIRD Wilk 2011", ">=20 deg", THRESHOLD, "20 or more",
	THRESHOLD_INTERNAL_LOSS},
    {"TRM Wilk 2011", ">5 deg", THRESHOLD, "over 5", THRESHOLD_ARC_LOSS},
    {"aGIRD Manske 2013", "<18-20", OUT, "the other side of the next row", 0},
    {"pGIRD Manske 2013", ">18-20 & >5", THRESHOLD, "over 18-20",
	THRESHOLD_INTERNAL_LOSS},
    {"ERD Manske 2013", "<5 deg", OUT,
	"a gain of the throwing side, which a note does not tell", 0},
    {"GIRD 2015 variant", ">=25 deg", THRESHOLD, "25 or more",
	THRESHOLD_INTERNAL_LOSS},
    {"GIRD relative variants", "-", THRESHOLD, "over 20 %",
	THRESHOLD_INTERNAL_LOSS_PERCENT},
    {"GIRD Burkhart 2003", "-", THRESHOLD, "10 % or more",
	THRESHOLD_ARC_LOSS_PERCENT},
    {"example group means", "-", OUT, "held in rotation_example", 0},
};

static const struct threshold *
threshold_of_row(size_t i)
{
	for (size_t k = 0; k < threshold_count; k++)
		if (strcmp(thresholds[k].range, rows[i].range) == 0 &&
		    thresholds[k].of == rows[i].of)
			return &thresholds[k];
	ck_abort_msg("no threshold %s", rows[i].range);
}

static void
check_threshold(size_t i, char *const *cell)
{
	const struct threshold *t = threshold_of_row(i);
	const char *digits = cell[2] + strcspn(cell[2], "0123456789");
	bool memory = strncmp(cell[4], "from memory", 11) == 0;

	ck_assert_int_eq(memory, strncmp(t->state, "from memory", 11) == 0);
	if (cell[2][0] != '>')
		return;
	ck_assert_int_eq(t->or_equal, cell[2][1] == '=');
	ck_assert_int_eq(t->low, atoi(digits) * 10);
}

static void
check_cutoff(size_t i, char *const *cell)
{
	for (size_t k = 0; k < laxity_cutoff_count; k++)
		if (strcmp(laxity_cutoffs[k].people, rows[i].range) == 0) {
			ck_assert_int_eq(
			    laxity_cutoffs[k].points, atoi(cell[2] + 2));
			return;
		}
	ck_abort_msg("no cut-off %s", rows[i].range);
}

/* "hyperextension > 10 deg" */
static void
check_limit(size_t i, char *const *cell)
{
	static const struct {
		const char *item;
		int measurement;
	} parts[] = {{"Beighton 5th MCP", M(LITTLE_MCP_EXTENSION)},
	    {"Beighton elbow", M(ELBOW_EXTENSION)},
	    {"Beighton knee", M(KNEE_EXTENSION)}};
	struct laxity laxity;
	int found = 0;

	ck_assert_ptr_nonnull(strstr(cell[1], rows[i].range));
	laxity_read(&laxity, &s);
	for (size_t k = 0; k < COUNT(parts); k++)
		for (int p = 0; p < LAXITY_PARTS; p++)
			if (strcmp(parts[k].item, cell[0]) == 0 &&
			    laxity.part[p].measurement ==
				parts[k].measurement) {
				ck_assert_int_eq(laxity.part[p].limit,
				    atoi(rows[i].range + 2) * 10);
				found++;
			}
	ck_assert_int_eq(found, 2); /* one a side */
}

START_TEST(rotation_and_laxity)
{
	read_table("beighton_gird.tsv");
	ck_assert_uint_eq(table.rows, COUNT(rows));
	for (size_t i = 0; i < table.rows; i++) {
		char *const *cell = table.cell[i];

		ck_assert_str_eq(cell[0], rows[i].item);
		ck_assert_str_eq(cell[2], rows[i].value);
		if (rows[i].taken == THRESHOLD)
			check_threshold(i, cell);
		else if (rows[i].taken == CUTOFF)
			check_cutoff(i, cell);
		else if (rows[i].taken == LIMIT)
			check_limit(i, cell);
	}
}
END_TEST

/* The points that the rows of the score give add up to nine. */
START_TEST(nine_points)
{
	int points = 0;

	read_table("beighton_gird.tsv");
	for (size_t i = 0; i < 5; i++)
		points += atoi(table.cell[i][2]);
	ck_assert_int_eq(points, LAXITY_POINTS);
}
END_TEST

/*
 * IR 52 and 63, ER 132 and 127: a loss of 11 and, as the means are printed,
 * arcs of 184 and 190 (PMC3348299, abstract).
 */
START_TEST(rotation_example)
{
	static const int figures[2][2] = {{52, 132}, {63, 127}};
	static const int arcs[2] = {1840, 1900};

	for (int side = 0; side < 2; side++) {
		add(M(SHOULDER_INTERNAL_ROTATION), side, figures[side][0]);
		add(M(SHOULDER_EXTERNAL_ROTATION), side, figures[side][1]);
	}
	for (size_t i = 0; i < s.readings.len; i++)
		s.readings.at[i].setting = intern_id(&pool, "abducted-90", 11);
	totals_build(&totals, &s);
	ck_assert_uint_eq(totals.len, 2);
	for (size_t i = 0; i < 2; i++)
		ck_assert_int_eq(
		    mean_compare_to(totals.at[i].sum, arcs[totals.at[i].side]),
		    0);
}
END_TEST

/* --- combined ranges ------------------------------------------------------ */

/* A direction's figure in 38 CFR 4.71a, note 2 (usual.tsv). */
static int32_t
usual_of(int measurement)
{
	size_t n;
	const struct ref_usual_row *rows38 = ref_usual_rows(measurement, &n);

	for (size_t i = 0; i < n; i++)
		if (strcmp(rows38[i].source, "CFR_38_4_71a_spine_note2") == 0)
			return rows38[i].high / 10;
	ck_abort_msg("no figure of 38 CFR");
}

static const struct {
	int definition;
	int32_t combined; /* degrees, as the note gives it */
} ranges[] = {{TOTAL_CERVICAL, 340}, {TOTAL_THORACOLUMBAR, 240}};

START_TEST(combined_ranges)
{
	const struct total_definition *d =
	    &total_definitions[ranges[_i].definition];
	const struct total *t;

	ck_assert_int_eq(d->parts, 6);
	for (int p = 0; p < d->parts; p++)
		add(d->part[p].measurement, d->part[p].side,
		    usual_of(d->part[p].measurement));
	t = total_of(ranges[_i].definition);
	ck_assert_int_eq(mean_compare_to(t->sum, ranges[_i].combined * 10), 0);
	ck_assert_int_eq(d->reference, ranges[_i].combined * 10);
}
END_TEST

Suite *
published_ranges_suite(void)
{
	Suite *suite = suite_create("published: ranges");
	TCase *range = tcase_create("ranges");

	tcase_add_checked_fixture(range, set_up, tear_down);
	tcase_add_test(range, rotation_and_laxity);
	tcase_add_test(range, nine_points);
	tcase_add_test(range, rotation_example);
	tcase_add_loop_test(range, combined_ranges, 0, (int)COUNT(ranges));
	suite_add_tcase(suite, range);
	return suite;
}
