/*
 * Exact figures of readings: means of trials as fractions, differences,
 * rounding. Nothing here judges or prints.
 */
#ifndef CALC_VALUE_H
#define CALC_VALUE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

#include "record/record.h"

/* sum / n, in tenths of a unit. n is 0 where there is no figure. */
struct mean {
	int64_t sum;
	int64_t n;
};

/* Mean of the ends, of the starts; n is 0 without trials (or starts). */
struct mean mean_end(const struct session *s, const struct reading *r);
struct mean mean_start(const struct session *s, const struct reading *r);

/* End less start; n is 0 where there is no start. 0 for a fixed joint. */
struct mean mean_arc(const struct session *s, const struct reading *r);

/* A - B, exact. */
struct mean mean_less(struct mean a, struct mean b);

/* Less than 0, 0, or more than 0 as A is less than, equal to, above B. */
int mean_compare(struct mean a, struct mean b);

/* The same against a whole number of tenths. */
int mean_compare_to(struct mean a, int32_t tenths);

/* Hundredths of a unit, half rounded away from zero. */
int64_t mean_hundredths(struct mean m);

/* Millimetres as they are, centimetres as millimetres, else as it is. */
struct mean mean_in_base_unit(struct mean m, int unit);

/*
 * The unit in which figures of units A and B are held together: their own, mm
 * where one is in cm; UNKNOWN where they have none in common.
 */
int unit_of_both(int a, int b);

/* M of unit FROM, exact, in a unit that unit_of_both() knows of. */
struct mean mean_in_unit(struct mean m, int from, int to);

/* Greatest and least end among the trials; false where there are none. */
bool trial_ends(const struct session *s, const struct reading *r,
    int32_t *least, int32_t *greatest);

/*
 * Writes HUNDREDTHS as a number with a point, as many decimals as needed (at
 * most two), no exponent, no -0, and a NUL to OUT (24 bytes). Returns the
 * length.
 */
size_t number_text(int64_t hundredths, char out[24]);

#endif
