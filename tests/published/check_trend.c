/*
 * Least squares against certified results: NIST Statistical Reference
 * Datasets, linear regression, Norris (36 observations, lower level of
 * difficulty). Data in data/nist_norris.tsv as NIST gives them. The certified
 * figures are those of that dataset; R squared is not computed here.
 */
#include <check.h>
#include <math.h>
#include <stdio.h>

#include "calc/trend.h"

enum { OBSERVATIONS = 36 };

static double x[OBSERVATIONS], y[OBSERVATIONS];

static size_t
read_norris(void)
{
	FILE *file = fopen("tests/published/data/nist_norris.tsv", "r");
	char heading[32];
	size_t n = 0;

	ck_assert_ptr_nonnull(file);
	ck_assert_ptr_nonnull(fgets(heading, sizeof(heading), file));
	ck_assert_str_eq(heading, "y\tx\n");
	while (n < OBSERVATIONS && fscanf(file, "%lf %lf", &y[n], &x[n]) == 2)
		n++;
	fclose(file);
	return n;
}

/* Equal to nine digits: half a unit of the ninth. */
static void
expect_nine_digits(double got, double certified)
{
	double unit = pow(10, floor(log10(fabs(certified))) - 8);

	ck_assert_msg(fabs(got - certified) < unit / 2, "%.15g, not %.15g", got,
	    certified);
}

START_TEST(norris_is_met_to_nine_digits)
{
	struct trend trend;

	ck_assert_uint_eq(read_norris(), OBSERVATIONS);
	ck_assert(trend_fit(&trend, x, y, OBSERVATIONS));
	ck_assert_uint_eq(trend.n, OBSERVATIONS);
	expect_nine_digits(trend.slope, 1.00211681802045);
	expect_nine_digits(trend.slope_sd, 0.000429796848199937);
	expect_nine_digits(trend.intercept, -0.262323073774029);
	expect_nine_digits(trend.intercept_sd, 0.232818234301152);
	expect_nine_digits(trend.residual_sd, 0.884796396144373);
}
END_TEST

/*
 * The 95 % points of Student's t, two tails, as printed tables have them to
 * three decimals (common practice; from memory).
 */
static const struct {
	size_t degrees;
	double t;
} student[] = {{1, 12.706}, {2, 4.303}, {3, 3.182}, {4, 2.776}, {5, 2.571},
    {8, 2.306}, {10, 2.228}, {20, 2.086}, {30, 2.042}};

START_TEST(interval_is_students)
{
	size_t n = student[_i].degrees + 2;
	double days[40], figures[40], t;
	struct trend trend;

	for (size_t i = 0; i < n; i++) {
		days[i] = (double)i;
		figures[i] = (double)(i * i % 7);
	}
	ck_assert(trend_fit(&trend, days, figures, n));
	t = (trend.high - trend.slope) / trend.slope_sd;
	ck_assert_msg(fabs(t - student[_i].t) < 0.0005, "t of %zu is %g",
	    student[_i].degrees, t);
	ck_assert_double_eq_tol(
	    trend.slope - trend.low, trend.high - trend.slope, 1e-12);
}
END_TEST

/* Without a spread in X, or with two points, there is nothing to fit. */
START_TEST(no_line_is_no_line)
{
	const double same[] = {2, 2, 2, 2}, some[] = {1, 2, 3, 4};
	struct trend trend = {.n = 77};

	ck_assert(!trend_fit(&trend, same, some, 4));
	ck_assert(!trend_fit(&trend, some, some, 2));
	ck_assert(!trend_fit(&trend, some, some, 0));
	ck_assert_uint_eq(trend.n, 77);
}
END_TEST

Suite *published_trend_suite(void);

Suite *
published_trend_suite(void)
{
	Suite *suite = suite_create("published trend");
	TCase *tcase = tcase_create("least squares");

	tcase_add_test(tcase, norris_is_met_to_nine_digits);
	tcase_add_loop_test(tcase, interval_is_students, 0,
	    (int)(sizeof(student) / sizeof(*student)));
	tcase_add_test(tcase, no_line_is_no_line);
	suite_add_tcase(suite, tcase);
	return suite;
}
