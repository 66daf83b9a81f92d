/*
 * Progress: could measuring alone have made a change, and how did it go where
 * there are sessions enough?
 */
#include "progress_note.h"

#include <math.h>
#include <stdio.h>

/* --- error ---------------------------------------------------------------- */

/*
 * Lines of two sessions; the figures are those of error.tsv: Boone 1978 (3-4,
 * of two raters 5), Ellis and Bruton 2002 (4-5, 7-9), Hancock 2018 (10-14,
 * inclinometer 6), the rule of thumb (5).
 */
static const struct {
	const char *before, *after;
	int measurement;
	int low, high; /* degrees */
	enum progress_beyond beyond;
	enum progress_why why;
} errors[] = {
    {"forearm pronation R A 0-40", "forearm pronation R A 0-45",
	M(FOREARM_PRONATION), 3, 4, PROGRESS_YES, PROGRESS_NO_DOUBT},
    {"forearm pronation R A 0-40", "forearm pronation R A 0-44",
	M(FOREARM_PRONATION), 3, 4, PROGRESS_DOUBT, PROGRESS_BETWEEN},
    {"forearm pronation R A 0-40", "forearm pronation R A 0-37",
	M(FOREARM_PRONATION), 3, 4, PROGRESS_DOUBT, PROGRESS_BETWEEN},
    {"forearm pronation R A 0-40", "forearm pronation R A 0-38",
	M(FOREARM_PRONATION), 3, 4, PROGRESS_NO, PROGRESS_NO_DOUBT},
    {"forearm pronation R A 0-40", "forearm pronation R A 0-40",
	M(FOREARM_PRONATION), 3, 4, PROGRESS_NO, PROGRESS_NO_DOUBT},
    {"forearm pronation R A 0-40", "forearm pronation R A 0-45 by cd",
	M(FOREARM_PRONATION), 5, 5, PROGRESS_NO, PROGRESS_NO_DOUBT},
    {"forearm pronation R A 0-40", "forearm pronation R A 0-46 by cd",
	M(FOREARM_PRONATION), 5, 5, PROGRESS_YES, PROGRESS_NO_DOUBT},
    {"forearm pronation R A 0-40",
	"forearm pronation R A 0-60 with inclinometer", M(FOREARM_PRONATION), 5,
	5, PROGRESS_DOUBT, PROGRESS_NO_INSTRUMENT},
    {"forearm pronation R A 0-40",
	"forearm pronation R A 0-44 with inclinometer", M(FOREARM_PRONATION), 5,
	5, PROGRESS_NO, PROGRESS_NO_DOUBT},
    {"ring PIP flexion R A 0-80", "ring PIP flexion R A 0-86",
	M(RING_PIP_FLEXION), 4, 5, PROGRESS_YES, PROGRESS_NO_DOUBT},
    {"ring PIP flexion R A 0-80", "ring PIP flexion R A 0-86 by cd",
	M(RING_PIP_FLEXION), 7, 9, PROGRESS_NO, PROGRESS_NO_DOUBT},
    {"ring PIP flexion R A 0-80", "ring PIP flexion R A 0-88 by cd",
	M(RING_PIP_FLEXION), 7, 9, PROGRESS_DOUBT, PROGRESS_BETWEEN},
    {"knee flexion R A 0-80 with inclinometer",
	"knee flexion R A 0-87 with inclinometer", M(KNEE_FLEXION), 6, 6,
	PROGRESS_YES, PROGRESS_NO_DOUBT},
    {"knee flexion R A 0-80", "knee flexion R A 0-87 with inclinometer",
	M(KNEE_FLEXION), 10, 14, PROGRESS_NO, PROGRESS_NO_DOUBT},
    {"jaw opening A 31 mm with ruler", "jaw opening A 37 mm with ruler",
	M(JAW_OPENING), 5, 5, PROGRESS_YES, PROGRESS_NO_DOUBT},
};

START_TEST(error_is_that_of_rater_and_instrument)
{
	int side = errors[_i].measurement == M(JAW_OPENING) ? NONE : R;
	struct progress_change change;
	char note[512];

	snprintf(note, sizeof(note),
	    HEAD "session 2026-05-04\n%s\nsession 2026-05-11\n%s\n",
	    errors[_i].before, errors[_i].after);
	follow_note(note);
	change = since_first(series_of(errors[_i].measurement, side, A, 0));
	ck_assert(change.error.known);
	ck_assert_int_eq(change.error.low, errors[_i].low * 10);
	ck_assert_int_eq(change.error.high, errors[_i].high * 10);
	ck_assert_int_eq(change.beyond, errors[_i].beyond);
	ck_assert_int_eq(change.why, errors[_i].why);
	ck_assert_str_ne(change.error.of.source, "");
}
END_TEST

/* Nobody is known to be the same: the figure of two raters is taken. */
START_TEST(raters_without_a_name_count_as_two)
{
	struct progress_change change;

	follow_note("subject PG-01\ninvolved right forearm\n"
		    "instrument goniometer\n"
		    "session 2026-05-04\nforearm pronation R A 0-40\n"
		    "session 2026-05-11\nforearm pronation R A 0-45\n"
		    "session 2026-05-18\nforearm pronation R A 0-46 by ab\n");
	change = since_previous(series_of(M(FOREARM_PRONATION), R, A, 0));
	ck_assert_int_eq(change.rater, PROGRESS_UNKNOWN);
	ck_assert_int_eq(change.error.high, 50);
	ck_assert(change.error.two_raters);
}
END_TEST

START_TEST(a_coarse_step_is_an_error_of_its_own)
{
	struct progress_change change;

	follow_note(HEAD "session 2026-05-04\nforearm pronation R A 0-40\n"
			 "instrument goniometer step 10\n"
			 "session 2026-05-11\nforearm pronation R A 0-50\n");
	change = since_first(series_of(M(FOREARM_PRONATION), R, A, 0));
	ck_assert(change.error.by_step);
	ck_assert(change.step);
	ck_assert_int_eq(change.error.high, 100);
	ck_assert_int_eq(change.beyond, PROGRESS_NO);
}
END_TEST

START_TEST(a_step_of_centimetres_is_ten_of_millimetres)
{
	struct progress_change change;

	follow_note("subject PG-01\nrater ab\ninstrument tape step 2 cm\n"
		    "session 2026-05-04\nknee-to-wall R 6 cm\n"
		    "session 2026-05-11\nknee-to-wall R 8 cm\n");
	change = since_first(series_of(M(ANKLE_KNEE_TO_WALL), R, NONE, 0));
	ck_assert(change.error.by_step);
	ck_assert_int_eq(change.error.high, 200);
	ck_assert_int_eq(change.beyond, PROGRESS_NO);
}
END_TEST

/* Of two figures as wide, that of this joint before the rule of thumb. */
START_TEST(a_figure_goes_before_a_rule_of_thumb)
{
	struct progress_change change;

	follow_note(
	    HEAD "session 2026-05-04\n"
		 "forearm pronation R A 0-40 with inclinometer\n"
		 "session 2026-05-11\nforearm pronation R A 0-44 by cd\n");
	change = since_first(series_of(M(FOREARM_PRONATION), R, A, 0));
	ck_assert_int_eq(change.error.high, 50);
	ck_assert_str_eq(change.error.of.source, "Boone1978");
}
END_TEST

START_TEST(a_score_has_no_known_error)
{
	struct progress_change change;

	follow_note(HEAD "session 2026-05-04\nopposition L 4\n"
			 "session 2026-05-11\nopposition L 9\n");
	change = since_first(series_of(M(THUMB_OPPOSITION), L, NONE, 0));
	ck_assert(!change.error.known);
	ck_assert_int_eq(change.by.sum, 50);
	ck_assert_int_eq(change.why, PROGRESS_NO_FIGURE);
}
END_TEST

/* --- trends --------------------------------------------------------------- */

static double
slope_of(const struct progress_series *s)
{
	const struct progress_point *last = &progress->points.at[last_of(s)];

	return last->trend == PROGRESS_NONE
		   ? NAN
		   : progress->trends.at[last->trend].line.slope;
}

START_TEST(a_line_has_its_slope)
{
	const struct progress_series *s;

	follow_note(HEAD "session 2026-05-04\nelbow R A 20-80\n"
			 "session 2026-05-11\nelbow R A 18-84\n"
			 "session 2026-05-18\nelbow R A 16-88\n"
			 "session 2026-06-01\nelbow R A 12-96\n");
	s = series_of(M(ELBOW_FLEXION), R, A, 0);
	ck_assert_double_eq_tol(slope_of(s), 4, 1e-9);
	ck_assert_double_eq_tol(
	    slope_of(series_of(M(ELBOW_EXTENSION), R, A, 0)), 2, 1e-9);
	ck_assert_uint_eq(progress->trends.at[0].line.n, 4);
	ck_assert_uint_eq(progress->trends.at[0].from, s->point);
}
END_TEST

/* Four sessions, but not by one rater, on three days, with one instrument. */
static const char *const no_lines[] = {
    "session 2026-05-04\nhip flexion R A 0-80\n"
    "session 2026-05-11\nhip flexion R A 0-84\n"
    "session 2026-05-18\nhip flexion R A 0-88\n",
    "session 2026-05-04\nhip flexion R A 0-80\n"
    "session 2026-05-11\nhip flexion R A 0-84\n"
    "session 2026-05-18\nhip flexion R A 0-88\n"
    "session 2026-05-25\nhip flexion R A 0-96 by cd\n",
    "session 2026-05-04\nhip flexion R A 0-80\n"
    "session 2026-05-11\nhip flexion R A 0-84\n"
    "session 2026-05-18\nhip flexion R A 0-88\n"
    "session 2026-05-25\nhip flexion R A 0-96 with inclinometer\n",
    "session 2026-05-04 09:00\nhip flexion R A 0-80\n"
    "session 2026-05-04 10:00\nhip flexion R A 0-84\n"
    "session 2026-05-11 09:00\nhip flexion R A 0-88\n"
    "session 2026-05-11 10:00\nhip flexion R A 0-96\n",
    "session 2026-05-04\nhip flexion R A 0-80\n"
    "session 2026-05-11\nhip flexion R A 0-84\n"
    "session 2026-05-18\nhip flexion R A 0-88\n"
    "session 2026-05-25\nhip flexion R A NT\n",
};

START_TEST(too_little_is_no_trend)
{
	char note[1024];

	snprintf(note, sizeof(note), HEAD "%s", no_lines[_i]);
	follow_note(note);
	ck_assert(isnan(slope_of(series_of(M(HIP_FLEXION), R, A, 0))));
}
END_TEST

/* Two raters throughout: each has a line, and no line is a mean of both. */
START_TEST(each_rater_has_a_line_of_their_own)
{
	const struct progress_series *s;

	follow_note(HEAD
	    "session 2026-05-04\nhip flexion R A 0-80 by ab R A 0-70 by cd\n"
	    "session 2026-05-11\nhip flexion R A 0-82 by ab R A 0-73 by cd\n"
	    "session 2026-05-18\nhip flexion R A 0-84 by ab R A 0-76 by cd\n"
	    "session 2026-05-25\nhip flexion R A 0-86 by ab R A 0-79 by cd\n");
	s = series_of(M(HIP_FLEXION), R, A, 0);
	ck_assert_uint_eq(s->last_count, 2);
	ck_assert_uint_eq(progress->trends.len, 2);
	for (int i = 0; i < 2; i++) {
		const struct progress_trend *t = &progress->trends.at[i];
		bool ab = progress->points.at[t->to].end.sum == 860;

		ck_assert_double_eq_tol(t->line.slope, ab ? 2 : 3, 1e-9);
	}
}
END_TEST

TCase *
progress_error_case(void)
{
	TCase *tcase = tcase_create("error and trend");

	tcase_add_checked_fixture(tcase, NULL, tear_down_progress);
	tcase_add_loop_test(tcase, error_is_that_of_rater_and_instrument, 0,
	    (int)(sizeof(errors) / sizeof(*errors)));
	tcase_add_test(tcase, raters_without_a_name_count_as_two);
	tcase_add_test(tcase, a_coarse_step_is_an_error_of_its_own);
	tcase_add_test(tcase, a_step_of_centimetres_is_ten_of_millimetres);
	tcase_add_test(tcase, a_figure_goes_before_a_rule_of_thumb);
	tcase_add_test(tcase, a_score_has_no_known_error);
	tcase_add_test(tcase, a_line_has_its_slope);
	tcase_add_loop_test(tcase, too_little_is_no_trend, 0,
	    (int)(sizeof(no_lines) / sizeof(*no_lines)));
	tcase_add_test(tcase, each_rater_has_a_line_of_their_own);
	return tcase;
}
