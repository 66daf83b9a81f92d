/*
 * One chart of progress: what was measured of a motion, both sides over time.
 */
#ifndef WRITE_PROGRESS_CHART_H
#define WRITE_PROGRESS_CHART_H

#include "calc/progress.h"
#include "text/buffer.h"

enum { CHART_WIDTH = 760 };

/*
 * Draws SERIES, and the other side of it where there is one, from TOP down;
 * NUMBER is that of the chart in the file. Returns where the chart ends.
 */
double progress_chart(struct buffer *out, const struct progress *p,
    uint32_t series, double top, size_t number);

#endif
