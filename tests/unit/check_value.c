/*
 * Exact figures: means as fractions, rounding half away from zero, numbers
 * as text. The program may not move a figure by a hundredth.
 */
#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "calc/value.h"
#include "text/mem.h"

static struct session s;
static struct reading r;

static void
trials(int n, const int32_t (*pairs)[2])
{
	s.trials.len = 0;
	for (int i = 0; i < n; i++)
		*MEM_PUSH(&s.trials) =
		    (struct trial){pairs[i][0], pairs[i][1], NO_VALUE};
	r = (struct reading){.trials = (uint32_t)n};
}

static void
tear_down(void)
{
	free(s.trials.at);
	s = (struct session){0};
}

static void
expect_text(struct mean m, const char *text)
{
	char out[24];

	ck_assert_int_gt(m.n, 0);
	ck_assert_uint_eq(number_text(mean_hundredths(m), out), strlen(text));
	ck_assert_str_eq(out, text);
}

/* SUM tenths over N, as it is printed. */
static const struct {
	int64_t sum, n;
	const char *text;
} means[] = {{520, 1, "52"}, {521, 1, "52.1"}, {1590, 3, "53"},
    {1600, 3, "53.33"}, {1610, 3, "53.67"}, {1, 4, "0.03"}, {3, 4, "0.08"},
    {-1, 4, "-0.03"}, {-3, 4, "-0.08"}, {1, 20, "0.01"}, {-1, 20, "-0.01"},
    {1, 21, "0"}, {-1, 21, "0"}, {2, 400, "0"}, {0, 7, "0"}, {1045, 2, "52.25"},
    {-1045, 2, "-52.25"}, {9999, 8, "124.99"}, {10000, 8, "125"},
    {19999, 16, "124.99"}, {39999, 32, "125"}, {-39999, 32, "-125"},
    {3, 40, "0.01"}, {1005, 40, "2.51"}, {1, 3, "0.03"}, {2, 3, "0.07"},
    {20000, 1, "2000"}, {5, 1, "0.5"}, {-5, 1, "-0.5"},
    {1000001, 3, "33333.37"}};

START_TEST(means_round_half_away_from_zero)
{
	expect_text((struct mean){means[_i].sum, means[_i].n}, means[_i].text);
}
END_TEST

/* The same by long division, for every mean of up to nine trials. */
START_TEST(rounding_holds_everywhere)
{
	for (int64_t n = 1; n <= 9; n++)
		for (int64_t sum = -5000; sum <= 5000; sum++) {
			int64_t got = mean_hundredths((struct mean){sum, n});
			/* |got - exact| <= 1/2, a tie away from zero */
			int64_t off = 2 * (got * n - sum * 10);
			int64_t away = sum < 0 ? -off : off;

			if (away <= -n || away > n)
				ck_abort_msg("%lld tenths over %lld are %lld",
				    (long long)sum, (long long)n,
				    (long long)got);
		}
}
END_TEST

static const struct {
	int64_t hundredths;
	const char *text;
} numbers[] = {{0, "0"}, {1, "0.01"}, {10, "0.1"}, {100, "1"}, {-1, "-0.01"},
    {-10, "-0.1"}, {-800, "-8"}, {13150, "131.5"}, {13105, "131.05"},
    {200000, "2000"}, {INT64_MAX, "92233720368547758.07"},
    {INT64_MIN, "-92233720368547758.08"}};

START_TEST(numbers_as_text)
{
	char out[24];

	ck_assert_uint_eq(
	    number_text(numbers[_i].hundredths, out), strlen(numbers[_i].text));
	ck_assert_str_eq(out, numbers[_i].text);
}
END_TEST

START_TEST(trials_are_meant)
{
	static const int32_t three[][2] = {{0, 520}, {0, 540}, {20, 530}};

	trials(3, three);
	expect_text(mean_end(&s, &r), "53");
	expect_text(mean_start(&s, &r), "0.67");
	expect_text(mean_arc(&s, &r), "52.33");
}
END_TEST

START_TEST(without_a_start_there_is_no_arc)
{
	static const int32_t lacks[][2] = {{NO_VALUE, -80}, {NO_VALUE, -90}};

	trials(2, lacks);
	expect_text(mean_end(&s, &r), "-8.5");
	ck_assert_int_eq(mean_start(&s, &r).n, 0);
	ck_assert_int_eq(mean_arc(&s, &r).n, 0);
}
END_TEST

START_TEST(without_trials_there_is_no_figure)
{
	int32_t least, greatest;

	trials(0, NULL);
	ck_assert_int_eq(mean_end(&s, &r).n, 0);
	ck_assert_int_eq(mean_arc(&s, &r).n, 0);
	ck_assert(!trial_ends(&s, &r, &least, &greatest));
}
END_TEST

START_TEST(a_fixed_joint_has_an_arc_of_nought)
{
	static const int32_t fixed[][2] = {{300, 300}};

	trials(1, fixed);
	expect_text(mean_arc(&s, &r), "0");
}
END_TEST

START_TEST(the_ends_of_trials)
{
	static const int32_t four[][2] = {
	    {0, 520}, {0, -540}, {0, 535}, {0, 0}};
	int32_t least, greatest;

	trials(4, four);
	ck_assert(trial_ends(&s, &r, &least, &greatest));
	ck_assert_int_eq(least, -540);
	ck_assert_int_eq(greatest, 535);
	trials(1, four);
	ck_assert(trial_ends(&s, &r, &least, &greatest));
	ck_assert_int_eq(least, 520);
	ck_assert_int_eq(greatest, 520);
}
END_TEST

/* 53.33... less 52.5 is 5/6 exactly, not 53.33 less 52.5. */
START_TEST(differences_are_exact)
{
	struct mean third = {1600, 3}, half = {1050, 2};

	expect_text(mean_less(third, half), "0.83");
	expect_text(mean_less(half, third), "-0.83");
	expect_text(mean_less(third, third), "0");
	ck_assert_int_eq(mean_less(third, (struct mean){0, 0}).n, 0);
	ck_assert_int_eq(mean_less((struct mean){0, 0}, half).n, 0);
	/* A gain from 10 short to 5 short is 5; from 5 short to 3 beyond 8. */
	expect_text(
	    mean_less((struct mean){-50, 1}, (struct mean){-100, 1}), "5");
	expect_text(
	    mean_less((struct mean){30, 1}, (struct mean){-50, 1}), "8");
}
END_TEST

START_TEST(means_are_compared_exactly)
{
	struct mean a = {1600, 3}, b = {3200, 6}, c = {1601, 3};

	ck_assert_int_eq(mean_compare(a, b), 0);
	ck_assert_int_lt(mean_compare(a, c), 0);
	ck_assert_int_gt(mean_compare(c, b), 0);
	ck_assert_int_eq(mean_compare_to((struct mean){150, 3}, 50), 0);
	ck_assert_int_gt(mean_compare_to((struct mean){151, 3}, 50), 0);
	ck_assert_int_lt(mean_compare_to((struct mean){-151, 3}, -50), 0);
}
END_TEST

START_TEST(centimetres_are_millimetres)
{
	struct mean m = {215, 1};

	expect_text(mean_in_base_unit(m, VOCAB_UNIT_CM), "215");
	expect_text(mean_in_base_unit(m, VOCAB_UNIT_MM), "21.5");
	expect_text(mean_in_base_unit(m, VOCAB_UNIT_DEG), "21.5");
}
END_TEST

/* Two units, the one in which both are held together, 12.3 of the first in it
 */
static const struct {
	int a, b, both;
	const char *text;
} units[] = {{VOCAB_UNIT_MM, VOCAB_UNIT_CM, VOCAB_UNIT_MM, "12.3"},
    {VOCAB_UNIT_CM, VOCAB_UNIT_MM, VOCAB_UNIT_MM, "123"},
    {VOCAB_UNIT_CM, VOCAB_UNIT_CM, VOCAB_UNIT_CM, "12.3"},
    {VOCAB_UNIT_DEG, VOCAB_UNIT_DEG, VOCAB_UNIT_DEG, "12.3"},
    {NONE, NONE, NONE, "12.3"}, {VOCAB_UNIT_DEG, VOCAB_UNIT_MM, UNKNOWN, NULL},
    {VOCAB_UNIT_CM, VOCAB_UNIT_DEG, UNKNOWN, NULL},
    {NONE, VOCAB_UNIT_MM, UNKNOWN, NULL}};

START_TEST(lengths_have_a_unit_in_common)
{
	int both = unit_of_both(units[_i].a, units[_i].b);
	struct mean m = {123, 1};

	ck_assert_int_eq(both, units[_i].both);
	if (units[_i].text)
		expect_text(mean_in_unit(m, units[_i].a, both), units[_i].text);
}
END_TEST

/* 12.3 mm are 1.23 cm, and come back as they were. */
START_TEST(a_change_of_unit_loses_nothing)
{
	struct mean m =
	    mean_in_unit((struct mean){123, 1}, VOCAB_UNIT_MM, VOCAB_UNIT_CM);

	expect_text(m, "1.23");
	m = mean_in_unit(m, VOCAB_UNIT_CM, VOCAB_UNIT_MM);
	ck_assert_int_eq(mean_compare_to(m, 123), 0);
}
END_TEST

#define LOOP(tc, test, table)                                                  \
	tcase_add_loop_test(                                                   \
	    tc, test, 0, (int)(sizeof(table) / sizeof(*(table))))

Suite *value_suite(void);

Suite *
value_suite(void)
{
	Suite *suite = suite_create("value");
	TCase *tc = tcase_create("value");

	tcase_add_checked_fixture(tc, NULL, tear_down);
	LOOP(tc, means_round_half_away_from_zero, means);
	tcase_add_test(tc, rounding_holds_everywhere);
	LOOP(tc, numbers_as_text, numbers);
	tcase_add_test(tc, trials_are_meant);
	tcase_add_test(tc, without_a_start_there_is_no_arc);
	tcase_add_test(tc, without_trials_there_is_no_figure);
	tcase_add_test(tc, a_fixed_joint_has_an_arc_of_nought);
	tcase_add_test(tc, the_ends_of_trials);
	tcase_add_test(tc, differences_are_exact);
	tcase_add_test(tc, means_are_compared_exactly);
	tcase_add_test(tc, centimetres_are_millimetres);
	LOOP(tc, lengths_have_a_unit_in_common, units);
	tcase_add_test(tc, a_change_of_unit_loses_nothing);
	suite_add_tcase(suite, tc);
	return suite;
}
