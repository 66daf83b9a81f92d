/*
 * Least squares by the GNU Scientific Library, so that neither the sums nor
 * the quantile of t are arithmetic of our own.
 */
#include "calc/trend.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_fit.h>
#include <math.h>

/* Both tails together leave 5 % out. */
static const double upper_quantile = 0.975;

static bool
differ(const double *x, size_t n)
{
	for (size_t i = 1; i < n; i++)
		if (x[i] < x[0] || x[i] > x[0])
			return true;
	return false;
}

bool
trend_fit(struct trend *trend, const double *x, const double *y, size_t n)
{
	double var_intercept, covariance, var_slope, squares, half;

	if (n < 3 || !differ(x, n))
		return false;
	gsl_fit_linear(x, 1, y, 1, n, &trend->intercept, &trend->slope,
	    &var_intercept, &covariance, &var_slope, &squares);
	trend->n = n;
	trend->slope_sd = sqrt(var_slope);
	trend->intercept_sd = sqrt(var_intercept);
	trend->residual_sd = sqrt(squares / (double)(n - 2));
	half = gsl_cdf_tdist_Pinv(upper_quantile, (double)(n - 2)) *
	       trend->slope_sd;
	trend->low = trend->slope - half;
	trend->high = trend->slope + half;
	return true;
}
