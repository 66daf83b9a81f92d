/* Eight block elements make a line of figures that fits into a heading. */
#include "write/progress_text.h"
#include "write/progress_words.h"

enum { MOST = 40, HEIGHTS = 8 };

/* A level is drawn by its order alone: higher on the back is higher here. */
static double
height_of(
    const struct progress_series *series, const struct progress_point *point)
{
	struct mean m = progress_figure(series, point);

	if (point->kind == KIND_LEVEL)
		return -(double)point->end.sum;
	return (double)m.sum / (double)m.n;
}

/* The last figure of each of the last MOST sessions; returns how many. */
static size_t
gather(const struct progress *p, const struct progress_series *series,
    double out[MOST])
{
	uint32_t i = series->point + series->points;
	size_t n = 0;

	while (n < MOST && i-- > series->point) {
		const struct progress_point *at = &p->points.at[i];

		if (!at->usable ||
		    (i + 1 < series->point + series->points && at[1].usable &&
			at[1].session == at->session))
			continue;
		out[n++] = height_of(series, at);
	}
	return n;
}

void
progress_sparkline(struct buffer *out, const struct progress *p,
    const struct progress_series *series)
{
	double values[MOST], low, high;
	size_t n = gather(p, series, values);
	uint32_t last = series->last + series->last_count - 1;
	struct progress_change change;

	if (n < 2)
		return;
	low = high = values[0];
	for (size_t i = 1; i < n; i++) {
		low = values[i] < low ? values[i] : low;
		high = values[i] > high ? values[i] : high;
	}
	progress_change(p, p->points.at[last].first, last, &change);
	if (change.error.known && high - low < 2 * change.error.high)
		high = low + 2 * change.error.high;
	while (n-- > 0) {
		int step = high > low ? (int)((values[n] - low) / (high - low) *
						  (HEIGHTS - 1) +
					      0.5)
				      : 0;

		buffer_puts(out, "\xe2\x96");
		buffer_putc(out, (char)(0x81 + step)); /* U+2581 and on */
	}
}
