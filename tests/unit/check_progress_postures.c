/*
 * Series across postures, and where postures stand apart.
 */
#include "progress_note.h"

#include "text/date.h"

/* One series runs on: what both name is a change, what one leaves out none. */
START_TEST(a_series_runs_across_postures)
{
	const struct progress_series *s;
	struct progress_change change;

	follow_note(HEAD "session 2026-05-04\nhip flexion supine R A 0-80\n"
			 "session 2026-05-11\nhip flexion R A 0-90\n"
			 "session 2026-05-18\nhip flexion sitting R A 0-99\n"
			 "hip flexion L NT \"pain\"\n");
	s = series_of(M(HIP_FLEXION), R, A, 0);
	ck_assert_uint_eq(s->sessions, 3);
	change = since_first(s);
	ck_assert(change.posture);
	ck_assert_int_eq(change.by.sum, 190);
	ck_assert(!change.error.known);
	ck_assert_int_eq(change.beyond, PROGRESS_DOUBT);
	ck_assert_int_eq(change.why, PROGRESS_NO_POSTURE);
	change = since_previous(s);
	ck_assert(!change.posture);
	ck_assert(change.error.known);
	ck_assert_int_eq(change.beyond, PROGRESS_YES);
	progress_change(progress, s->point, s->point + 1, &change);
	ck_assert(!change.posture);
	ck_assert(s->postures);
	ck_assert_uint_eq(s->posture, 0);
}
END_TEST

/*
 * What one session measures in two postures stands apart, in every session
 * and on both sides; another motion and another person are not touched.
 */
START_TEST(postures_of_one_session_stay_apart)
{
	const struct progress_series *s;

	follow_note(HEAD "session 2026-05-04\nhip flexion supine R A 0-80\n"
			 "hip flexion supine L A 0-120\n"
			 "knee flexion supine R A 0-90\n"
			 "session 2026-05-11\nhip flexion sitting R A 0-84\n"
			 "hip flexion supine R A 0-90\n"
			 "hip flexion sitting L A 0-121\n"
			 "hip flexion sitting R NT \"pain\"\n"
			 "knee flexion sitting R A 0-99\n"
			 "subject PG-02\nsession 2026-05-04\n"
			 "hip flexion supine R A 0-81\n"
			 "session 2026-05-11\nhip flexion sitting R A 0-82\n");
	ck_assert_uint_eq(progress->series.len, 6);
	s = series_of(M(HIP_FLEXION), R, A, 0);
	ck_assert_str_eq(progress_text(progress, s->posture), "supine");
	ck_assert_uint_eq(s->sessions, 2);
	ck_assert_int_eq(since_first(s).by.sum, 100);
	ck_assert(!since_first(s).posture);
	ck_assert_str_eq(
	    progress_text(progress, progress->series.at[s->other].posture),
	    "supine");
	s = series_of(M(HIP_FLEXION), R, A, 1);
	ck_assert_str_eq(progress_text(progress, s->posture), "sitting");
	ck_assert_uint_eq(s->points, 2); /* with what was not tested */
	ck_assert_uint_eq(series_of(M(KNEE_FLEXION), R, A, 0)->sessions, 2);
	ck_assert_uint_eq(series_of(M(HIP_FLEXION), R, A, 2)->person, 1);
	ck_assert_uint_eq(series_of(M(HIP_FLEXION), R, A, 2)->sessions, 2);
}
END_TEST

/* Beside parted postures one that is not written takes over from none. */
START_TEST(a_posture_not_written_takes_nothing_over)
{
	const struct progress_series *s;

	follow_note(HEAD "session 2026-05-04\nhip flexion supine R A 0-80\n"
			 "hip flexion sitting R A 0-84\n"
			 "session 2026-05-11\nhip flexion R A 0-90\n");
	ck_assert_uint_eq(progress->series.len, 3);
	for (int i = 0; i < 3; i++) {
		s = series_of(M(HIP_FLEXION), R, A, i);
		ck_assert_uint_eq(s->sessions, 1);
		ck_assert_uint_eq(s->before, PROGRESS_NONE);
	}
}
END_TEST

/* A line is of one posture: the other readings would bend it. */
START_TEST(a_trend_keeps_to_one_posture)
{
	const struct progress_series *s;

	follow_note(HEAD "session 2026-05-01\nhip flexion supine R A 0-20\n"
			 "session 2026-05-08\nhip flexion sitting R A 0-80\n"
			 "session 2026-05-15\nhip flexion R A 0-82\n"
			 "session 2026-05-22\nhip flexion sitting R A 0-84\n"
			 "session 2026-05-29\nhip flexion sitting R A 0-86\n");
	s = series_of(M(HIP_FLEXION), R, A, 0);
	ck_assert_uint_eq(progress->trends.len, 1);
	ck_assert_uint_eq(progress->trends.at[0].line.n, 4);
	ck_assert_uint_eq(progress->trends.at[0].from, s->point + 1);
}
END_TEST

/*
 * What is left is told of the newest session that has the motion, wherever it
 * stands, and only there; and whether the day of the goal is over.
 */
START_TEST(a_goal_is_held_against_the_newest_session)
{
	const char *text, *goal;

	follow_note(HEAD
	    "goal right ankle dorsiflexion active 20 by 2026-06-01\n"
	    "session 2026-05-04\nankle dorsiflexion knee-bent R A 0-9\n"
	    "session 2026-05-11\nankle dorsiflexion knee-bent R A 0-11\n"
	    "session 2026-05-18\nankle dorsiflexion knee-straight R A 0-5\n"
	    "session 2026-05-25\nankle dorsiflexion knee-bent R NT \"pain\"\n"
	    "knee flexion R A 0-90\n");
	date_parse("2026-06-01", 10, &today);
	text = printed(PROGRESS_TEXT, false);
	goal = strstr(text, "goal ");
	ck_assert_ptr_nonnull(goal);
	ck_assert_ptr_null(strstr(goal + 1, "goal "));
	ck_assert_ptr_nonnull(
	    strstr(text, "\n      goal 20 by 2026-06-01: 15 to go (session of "
			 "2026-05-18)\n"));
	date_parse("2026-06-02", 10, &today);
	text = printed(PROGRESS_TEXT, false);
	ck_assert_ptr_nonnull(
	    strstr(text, "15 to go (session of 2026-05-18); the goal's date\n"
			 "        has passed\n"));
}
END_TEST

TCase *
progress_postures_case(void)
{
	TCase *tcase = tcase_create("postures");

	tcase_add_checked_fixture(tcase, NULL, tear_down_progress);
	tcase_add_test(tcase, a_series_runs_across_postures);
	tcase_add_test(tcase, postures_of_one_session_stay_apart);
	tcase_add_test(tcase, a_goal_is_held_against_the_newest_session);
	tcase_add_test(tcase, a_posture_not_written_takes_nothing_over);
	tcase_add_test(tcase, a_trend_keeps_to_one_posture);
	return tcase;
}
