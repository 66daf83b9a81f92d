/*
 * Precautions: what may limit a motion while its change is read. They are kept
 * as the note has them; which concern a series is asked session by session.
 */
#include "calc/progress.h"
#include "calc/progress_internal.h"
#include "text/mem.h"

struct progress_run
progress_take_precautions(
    struct progress *p, const struct headers *h, int32_t since)
{
	struct progress_run run = {(uint32_t)p->precautions.len, 0};

	for (; run.count < h->precautions.len; run.count++) {
		struct progress_precaution *to = MEM_PUSH(&p->precautions);

		to->as = h->precautions.at[run.count];
		to->reason = progress_keep(p, to->as.reason);
		to->as.reason = NULL;
		to->as.place = (struct place){0};
		to->since = to->as.from;
		if (since != DATE_NONE &&
		    (to->since == DATE_NONE || to->since < since))
			to->since = since;
	}
	return run;
}

/*
 * `no` without a motion is of all. A limit short of zero holds the opposite
 * motion too: where extension is to lack 10, flexion may not start below 10.
 */
static bool
concerns_motion(
    const struct precaution *as, const struct vocab_measurement *measurement)
{
	int motion = precaution_motion(as);

	if (motion == measurement->motion)
		return true;
	if (as->forbids)
		return motion == NONE;
	return as->limit < 0 && measurement->opposite >= 0 &&
	       motion == vocab_measurements[measurement->opposite].motion;
}

static bool
concerns(const struct precaution *as, const struct progress_series *series)
{
	return joint_set_meets(&as->joints,
		   measurement_joints(series->measurement), series->side) &&
	       concerns_motion(as, &vocab_measurements[series->measurement]) &&
	       precaution_covers_mode(as, series->mode);
}

bool
progress_limits_end(const struct progress_precaution *precaution,
    const struct progress_series *series)
{
	return !precaution->as.forbids &&
	       precaution_motion(&precaution->as) ==
		   vocab_measurements[series->measurement].motion;
}

size_t
progress_precautions(const struct progress *p, uint32_t session,
    const struct progress_series *series,
    const struct progress_precaution **out, size_t n, bool *more)
{
	/* Bounded, so that many precautions and many series stay fast. */
	enum { LOOKED_AT = 256 };
	const struct progress_session *s = &p->sessions.at[session];
	size_t found = 0;

	*more = false;
	for (int i = 0; i < 2; i++) {
		const struct progress_run *run = &s->precautions[i];

		for (uint32_t k = 0; k < run->count && !*more; k++) {
			const struct progress_precaution *at =
			    &p->precautions.at[run->from + k];

			if (k < LOOKED_AT &&
			    (!precaution_on_day(&at->as, s->day) ||
				!concerns(&at->as, series)))
				continue;
			*more = k == LOOKED_AT || found == n;
			if (!*more)
				out[found++] = at;
		}
	}
	return found;
}
