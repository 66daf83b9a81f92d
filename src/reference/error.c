/* How far measuring itself errs. */
#include "reference/reference.h"

#include <string.h>

#include "reference/table.h"

const struct ref_error_row *
ref_error_rows(int measurement, size_t *n)
{
	*n = 0;
	if (measurement < 0 || measurement >= VOCAB_MEASUREMENT_COUNT)
		return ref_error_table;
	*n = (size_t)ref_error_first[measurement + 1] -
	     ref_error_first[measurement];
	return ref_error_table + ref_error_first[measurement];
}

static bool
fits(const struct ref_error_row *row, int instrument, bool same_rater)
{
	enum ref_rater other =
	    same_rater ? REF_RATER_DIFFERENT : REF_RATER_SAME;

	return row->chosen && row->rater != other &&
	       (row->instrument < 0 || row->instrument == instrument);
}

/* More is better: a narrower figure, then one whose raters are stated. */
static int
quality(const struct ref_error_row *row)
{
	return (int)row->width * 2 + (row->rater != REF_RATER_UNSTATED);
}

/* Widens *OUT to another figure of the same source, as long and short arms. */
static void
widen(struct ref_error *out, const struct ref_error_row *row)
{
	if (row->low < out->low)
		out->low = row->low;
	if (row->high > out->high)
		out->high = row->high;
	out->what = "several figures of one source";
}

static int
usual_instrument(int measurement)
{
	return vocab_measurements[measurement].in == VOCAB_IN_LENGTH
		   ? VOCAB_INSTRUMENT_TAPE
		   : VOCAB_INSTRUMENT_GONIOMETER;
}

void
ref_error(
    int measurement, int instrument, bool same_rater, struct ref_error *out)
{
	const struct ref_error_row *rows, *best = NULL;
	size_t n;

	*out = (struct ref_error){
	    0, 0, true, "no figure known", "", "", "", "none"};
	rows = ref_error_rows(measurement, &n);
	if (n && instrument < 0)
		instrument = usual_instrument(measurement);
	for (size_t i = 0; i < n; i++) {
		const struct ref_error_row *row = &rows[i];

		if (!fits(row, instrument, same_rater))
			continue;
		if (best && quality(row) == quality(best) &&
		    strcmp(row->source, best->source) == 0)
			widen(out, row);
		if (best && quality(row) <= quality(best))
			continue;
		best = row;
		*out = (struct ref_error){row->low, row->high,
		    row->width == REF_OF_ALL, row->statistic, row->what,
		    row->source, row->where_read, row->verified};
	}
}
