/*
 * A straight line through measured points by least squares, and how sure its
 * slope is. It says what was; nothing here looks beyond the last point.
 */
#ifndef CALC_TREND_H
#define CALC_TREND_H

#include <stdbool.h>
#include <stddef.h>

struct trend {
	size_t n; /* points */
	double slope;
	double slope_sd; /* standard deviation of the estimate */
	double intercept;
	double intercept_sd;
	double residual_sd;
	double low; /* of the slope, 95 % interval by Student's t */
	double high;
};

/*
 * Fits *TREND to N points. Returns false, and leaves it alone, where there is
 * no such line: fewer than three points, or all at one X.
 */
bool trend_fit(struct trend *trend, const double *x, const double *y, size_t n);

#endif
