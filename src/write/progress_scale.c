#include "write/progress_scale.h"

#include <math.h>

enum { STEPS = 6 };

void
scale_take(struct scale *scale, double value)
{
	if (!scale->any || value < scale->low)
		scale->low = value;
	if (!scale->any || value > scale->high)
		scale->high = value;
	scale->any = true;
}

double
scale_place(const struct scale *scale, double value)
{
	return scale->from + (value - scale->low) / (scale->high - scale->low) *
				 (scale->to - scale->from);
}

double
scale_round(struct scale *scale, double least)
{
	static const double nice[] = {1, 2, 5, 10};
	double span = scale->high - scale->low;
	double power, step = 1;

	if (!(span > 0))
		span = 1;
	power = pow(10, floor(log10(span / STEPS)));
	for (int i = 0; i < 4; i++) {
		step = nice[i] * power;
		if (step * STEPS >= span)
			break;
	}
	if (step < least)
		step = least;
	scale->low = floor(scale->low / step) * step;
	scale->high = ceil(scale->high / step) * step;
	if (!(scale->high > scale->low))
		scale->high = scale->low + step;
	return step;
}
