/*
 * From figures and days to places on the paper.
 */
#ifndef WRITE_PROGRESS_SCALE_H
#define WRITE_PROGRESS_SCALE_H

#include <stdbool.h>

struct scale {
	double low, high; /* what is shown */
	double from, to;  /* where on the paper */
	bool any;	  /* something was taken in */
};

/* Widens it to hold VALUE. */
void scale_take(struct scale *scale, double value);
double scale_place(const struct scale *scale, double value);

/*
 * Widens a vertical scale to whole steps of 1, 2 or 5 times a power of ten,
 * about six of them and none below LEAST. Returns the step.
 */
double scale_round(struct scale *scale, double least);

#endif
