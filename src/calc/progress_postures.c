/*
 * Postures. A person who lay at the first session and sat at the third has one
 * series: what was measured is the same, and that the posture differs is told
 * beside the change. Only where one session measures the same in two postures
 * are they meant to be told apart: held together, the one would be compared
 * with the other as if time lay between them. So the postures of that
 * measurement are series of their own then, on both sides, for that person.
 */
#include "calc/progress_internal.h"

void
progress_note_posture(struct progress *p, const struct progress_point *point)
{
	struct progress_series *series = &p->series.at[point->series];

	if (!point->usable)
		return;
	if (series->seen == point->session &&
	    series->seen_posture != point->posture)
		p->keys->value[series->rank[1]] = 1;
	series->seen = point->session;
	series->seen_posture = point->posture;
}

/* What names no posture stays where it is. */
void
progress_part_postures(struct progress *p)
{
	for (size_t i = 0; i < p->points.len; i++) {
		struct progress_point *point = &p->points.at[i];
		struct progress_series own = p->series.at[point->series];

		if (point->posture == 0 ||
		    p->keys->value[own.rank[1]] == PROGRESS_NONE)
			continue;
		own.posture = point->posture;
		point->series = progress_series_like(p, &own);
	}
}

/* Nothing took over where a posture that is not written is all that differs. */
static void
forget_unnamed(struct progress *p, struct progress_series *series)
{
	const struct progress_series *was = &p->series.at[series->before];

	if (was->setting == series->setting &&
	    (was->posture == 0 || series->posture == 0))
		series->before = PROGRESS_NONE;
}

void
progress_name_postures(struct progress *p)
{
	for (size_t i = 0; i < p->series.len; i++) {
		struct progress_series *series = &p->series.at[i];
		const struct progress_point *at = &p->points.at[series->point];
		uint32_t named = 0;
		bool all = true;

		for (uint32_t k = 0; k < series->points; k++) {
			all &= at[k].posture == at[0].posture;
			if (at[k].posture == 0)
				continue;
			series->postures |=
			    named != 0 && at[k].posture != named;
			named = at[k].posture;
		}
		series->posture = all ? named : 0;
	}
	for (size_t i = 0; i < p->series.len; i++)
		if (p->series.at[i].before != PROGRESS_NONE)
			forget_unnamed(p, &p->series.at[i]);
}

uint32_t
progress_last_posture(
    const struct progress *p, const struct progress_series *series)
{
	const struct progress_point *at = &p->points.at[series->point];

	for (uint32_t k = series->points; k-- > 0;)
		if (at[k].usable && at[k].posture != 0)
			return at[k].posture;
	return 0;
}
