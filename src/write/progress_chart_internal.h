/*
 * What the files of a chart share: progress_chart.c decides what there is to
 * draw and how large, progress_draw.c draws the field, progress_caption.c
 * writes what stands above and below it.
 */
#ifndef WRITE_PROGRESS_CHART_INTERNAL_H
#define WRITE_PROGRESS_CHART_INTERNAL_H

#include "write/progress_chart.h"
#include "write/progress_scale.h"
#include "write/svg.h"

enum {
	CHART_MARGIN = 16,
	CHART_LEFT = 84, /* of the field */
	CHART_RIGHT = 556,
	CHART_HEAD = 62,   /* above the field */
	CHART_FIELD = 190, /* its height */
	CHART_LINE = 15,
	CHART_GOALS = 2,
	CHART_PRECAUTIONS = 4,
	CHART_LABELS = 2 + CHART_GOALS + CHART_PRECAUTIONS,
	CHART_SURGERIES = 4
};

/* A text at the right edge, beside what it speaks of. */
struct chart_label {
	double y;
	int mark; /* enum svg_mark that it speaks of, or NONE */
	struct buffer text;
};

struct chart {
	struct buffer *out;
	const struct progress *p;
	const struct progress_series *main;
	const struct progress_series *other; /* has figures, or NULL */
	struct scale days;
	struct scale figures;
	double step; /* of the grid */
	double bottom;
	const struct progress_goal *goals[CHART_GOALS];
	size_t goal_count;
	uint32_t last_session; /* of the person */
	/* in force at it, for either side */
	const struct progress_precaution *precautions[CHART_PRECAUTIONS];
	size_t precaution_count;
	bool more_precautions;
	int32_t surgeries[CHART_SURGERIES];
	size_t surgery_count;
	int32_t surgery_apart; /* too long ago to be drawn, or DATE_NONE */
	struct chart_label labels[CHART_LABELS];
	size_t label_count;
	bool dotted, crossed, off_scale; /* such a thing was drawn */
};

/* When it was measured, in days; the time of day counts where known. */
double chart_day(const struct chart *c, const struct progress_point *point);

/* Figures in the unit of the chart. */
double chart_figure(const struct chart *c, const struct progress_point *point);
double chart_goal(const struct chart *c, const struct progress_goal *goal);
double chart_limit(
    const struct chart *c, const struct progress_precaution *precaution);

/* The same of a doubtful reading, as it was typed; false where it has none. */
bool chart_typed(
    const struct chart *c, const struct progress_point *point, double *figure);

/* Is point I the figure of its session by which SERIES is drawn: the last? */
bool chart_is_last(
    const struct chart *c, const struct progress_series *series, uint32_t i);

/*
 * The first figure for POINT, and how far measuring alone may part the two;
 * false where nobody knows.
 */
bool chart_band(
    const struct chart *c, uint32_t point, double *first, double *half);

/* The lower edge of that: no figure falls below 0 but where one can lack. */
double chart_band_low(const struct chart *c, double first, double half);

/* Writes TEXT and empties it. */
void chart_text(struct chart *c, enum svg_text kind, enum svg_anchor anchor,
    double x, double y, struct buffer *text);

/* The field and all that is in it. */
void chart_draw(struct chart *c);

void chart_title(struct buffer *out, const struct chart *c);

/* Every figure in words, for those who cannot see the chart. */
void chart_desc(struct buffer *out, const struct chart *c);
void chart_head(struct chart *c, double top);

/* Returns where the chart ends. */
double chart_foot(struct chart *c);

#endif
