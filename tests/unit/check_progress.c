/*
 * Progress: which figures are held against each other, and by how much they
 * differ.
 */
#include "progress_note.h"

#include <stdio.h>

/* --- the change ----------------------------------------------------------- */

/* What was written in two sessions, and the change in hundredths. */
static const struct {
	const char *head, *before, *after;
	int measurement, side, mode;
	int64_t change; /* of the unit shown */
	bool less_is_better;
} gains[] = {
    {"elbow extension R A", "lacks 10", "lacks 5", M(ELBOW_EXTENSION), R, A,
	500, false},
    {"elbow extension R A", "lacks 5", "0-3", M(ELBOW_EXTENSION), R, A, 800,
	false},
    {"elbow extension R A", "0-3", "lacks 5", M(ELBOW_EXTENSION), R, A, -800,
	false},
    {"elbow extension R A", "hyper 2", "hyper 7", M(ELBOW_EXTENSION), R, A, 500,
	false},
    {"elbow R A", "18-104", "11-120", M(ELBOW_FLEXION), R, A, 1600, false},
    {"elbow R A", "18-104", "11-120", M(ELBOW_EXTENSION), R, A, 700, false},
    {"elbow R A", "3-0-140", "5-0-140", M(ELBOW_EXTENSION), R, A, 200, false},
    {"forearm pronation R A", "0-52 0-54 0-53", "0-54 0-54 0-56",
	M(FOREARM_PRONATION), R, A, 167, false},
    {"forearm pronation R A", "fixed 20", "0-40", M(FOREARM_PRONATION), R, A,
	2000, false},
    {"lumbar flexion A", "62 less 21", "66 less 19", M(LUMBAR_FLEXION), NONE, A,
	600, false},
    {"knee-to-wall R", "52 mm", "88 mm", M(ANKLE_KNEE_TO_WALL), R, NONE, 3600,
	false},
    {"knee-to-wall R", "52 mm", "8.8 cm", M(ANKLE_KNEE_TO_WALL), R, NONE, 3600,
	false},
    {"knee-to-wall R", "5.2 cm", "8.8 cm", M(ANKLE_KNEE_TO_WALL), R, NONE, 360,
	false},
    {"ring tip-to-crease L", "31 mm", "18 mm", M(RING_TIP_TO_CREASE), L, NONE,
	-1300, true},
    {"fingertip-to-floor", "18 cm", "11.5 cm",
	M(THORACOLUMBAR_FINGERTIP_TO_FLOOR), NONE, NONE, -650, true},
    {"schober", "15-19 cm", "10-14.6 cm", M(LUMBAR_SCHOBER), NONE, NONE, 60,
	false},
    {"opposition L", "7", "10", M(THUMB_OPPOSITION), L, NONE, 300, false},
};

START_TEST(a_gain_is_counted_on_the_axis)
{
	const struct progress_series *s;
	struct progress_change change;
	char note[512];

	snprintf(note, sizeof(note),
	    HEAD "session 2026-04-13\n%s %s\nsession 2026-05-04\n%s %s\n",
	    gains[_i].head, gains[_i].before, gains[_i].head, gains[_i].after);
	follow_note(note);
	s = series_of(gains[_i].measurement, gains[_i].side, gains[_i].mode, 0);
	ck_assert_uint_eq(s->sessions, 2);
	change = since_first(s);
	ck_assert_int_eq(
	    mean_hundredths(progress_shown(s, change.by)), gains[_i].change);
	ck_assert_int_eq(vocab_measurements[s->measurement].less_is_better,
	    gains[_i].less_is_better);
}
END_TEST

/* A level has an order and no distance. */
START_TEST(levels_are_ordered_and_never_subtracted)
{
	const struct progress_series *s;
	struct progress_change change;

	follow_note(HEAD "session 2026-04-13\nhand-behind-back L L5 R T8\n"
			 "session 2026-05-04\nhand-behind-back L T12 R T10\n"
			 "session 2026-05-05\nhand-behind-back L T12 R S1\n");
	s = series_of(M(SHOULDER_HAND_BEHIND_BACK), L, NONE, 0);
	change = since_first(s);
	ck_assert_int_eq(change.by.n, 0);
	ck_assert_int_eq(change.levels, 1);
	ck_assert_int_eq(change.beyond, PROGRESS_DOUBT);
	ck_assert_int_eq(since_previous(s).levels, 0);
	s = series_of(M(SHOULDER_HAND_BEHIND_BACK), R, NONE, 0);
	ck_assert_int_eq(since_first(s).levels, -1);
	ck_assert_uint_eq(progress->points.at[last_of(s)].trend, PROGRESS_NONE);
}
END_TEST

/* --- which reading -------------------------------------------------------- */

START_TEST(sessions_come_by_day_and_time)
{
	const struct progress_series *s;
	const char *words[] = {"70", "40", "50", "60"};

	take_note(HEAD "session 2026-05-04 16:00\nforearm pronation R A 0-60\n"
		       "session 2026-05-04 09:30\nforearm pronation R A 0-50\n"
		       "session 2026-05-11\nforearm pronation R A 0-70\n");
	follow_note(HEAD "session 2026-05-04\nforearm pronation R A 0-40\n");
	ck_assert_uint_eq(progress->persons.len, 1);
	ck_assert_uint_eq(progress->persons.at[0].session_count, 4);
	s = series_of(M(FOREARM_PRONATION), R, A, 0);
	ck_assert_uint_eq(s->points, 4);
	for (uint32_t i = 0; i < 4; i++)
		ck_assert_int_eq(progress->points.at[s->point + i].end.sum,
		    10 * atoi(words[(i + 1) % 4]));
	ck_assert_int_eq(since_first(s).by.sum, 300);
	ck_assert_int_eq(since_previous(s).by.sum, 100);
}
END_TEST

START_TEST(identity_bar_rater_and_instrument)
{
	follow_note(HEAD
	    "session 2026-05-04\n"
	    "shoulder ER abducted-0 supine R A 0-30 P 0-40 L A 0-80\n"
	    "shoulder ER abducted-90 supine R A 0-31\n"
	    "shoulder ER abducted-0 sitting R A 0-32\n"
	    "shoulder ER abducted-0 supine R A 0-33 after 10 reps\n"
	    "shoulder ER abducted-0 supine R A 0-34 by cd with inclinometer\n"
	    "subject PG-02\nsession 2026-05-11\n"
	    "shoulder ER abducted-0 supine R A 0-35\n");
	/* R A, R P, L A, abducted-90, sitting, repetitions; the second person
	 */
	ck_assert_uint_eq(progress->series.len, 7);
	ck_assert_uint_eq(progress->persons.at[0].series_count, 6);
	ck_assert_uint_eq(
	    series_of(M(SHOULDER_EXTERNAL_ROTATION), R, A, 0)->points, 2);
}
END_TEST

/* Doubtful readings and those without a figure are kept, not computed with. */
START_TEST(only_figures_are_compared)
{
	const struct progress_series *s;

	follow_note(
	    HEAD "session 2026-04-13\nforearm pronation R A 0-40\n"
		 "session 2026-04-20\nforearm pronation R A 50-20\n"
		 "session 2026-04-27\nforearm pronation R A WNL\n"
		 "session 2026-05-04\nforearm pronation R A 0-46\n"
		 "session 2026-05-11\nforearm pronation R NT \"pain\"\n");
	s = series_of(M(FOREARM_PRONATION), R, A, 0);
	ck_assert_uint_eq(progress->series.len, 1);
	ck_assert_uint_eq(s->points, 5);
	ck_assert_uint_eq(s->sessions, 2);
	ck_assert_int_eq(since_first(s).by.sum, 60);
	ck_assert_uint_eq(progress->points.at[last_of(s)].previous,
	    progress->points.at[last_of(s)].first);
	ck_assert(progress->points.at[s->point + 1].left_out);
	ck_assert_int_eq(
	    progress->points.at[s->point + 4].kind, KIND_NOT_TESTED);
}
END_TEST

/* Without a mode, NT speaks of every mode there is; of none there is, alone. */
START_TEST(not_tested_stands_with_each_mode)
{
	follow_note(HEAD "session 2026-05-04\nhip flexion R NT \"cast\"\n"
			 "hip abduction R NT\n"
			 "session 2026-05-11\nhip flexion R A 0-90 P 0-95\n");
	ck_assert_uint_eq(progress->series.len, 3);
	ck_assert_uint_eq(series_of(M(HIP_FLEXION), R, A, 0)->points, 2);
	ck_assert_uint_eq(series_of(M(HIP_FLEXION), R, P, 0)->points, 2);
	ck_assert_uint_eq(series_of(M(HIP_ABDUCTION), R, NONE, 0)->points, 1);
	ck_assert_uint_eq(progress->points.len, 5);
}
END_TEST

START_TEST(the_same_rater_is_chosen)
{
	const struct progress_series *s;
	uint32_t to;

	follow_note(HEAD "session 2026-05-04\n"
			 "forearm pronation R A 0-40 by ab R A 0-44 by cd\n"
			 "session 2026-05-11\n"
			 "forearm pronation R A 0-50 by cd R A 0-52 by ab\n"
			 "forearm pronation R A 0-53 by ef\n");
	s = series_of(M(FOREARM_PRONATION), R, A, 0);
	ck_assert_uint_eq(s->last_count, 3);
	for (uint32_t i = 0; i < 2; i++) {
		to = s->last + i;
		ck_assert_uint_eq(
		    progress->points.at[progress->points.at[to].first].rater,
		    progress->points.at[to].rater);
	}
	ck_assert_int_eq(since_first(s).rater, PROGRESS_CHANGED);
}
END_TEST

/* The plain rule, word for word, in quadratic time. */
static uint32_t
plain_match(const struct progress_series *s, uint32_t session, uint32_t to)
{
	const struct progress_point *at = progress->points.at, *p = &at[to];
	uint32_t best = PROGRESS_NONE;
	int best_quality = -1;

	for (uint32_t i = s->point; i < s->point + s->points; i++) {
		int quality = at[i].rater != p->rater		  ? 0
			      : at[i].instrument != p->instrument ? 1
								  : 2;

		if (!at[i].usable || at[i].session != session ||
		    quality < best_quality)
			continue;
		best = i;
		best_quality = quality;
	}
	return best;
}

/* The usable session before BEFORE, or the first of all; NONE if none. */
static uint32_t
plain_session(const struct progress_series *s, uint32_t before, bool first)
{
	uint32_t found = PROGRESS_NONE;

	for (uint32_t i = s->point; i < s->point + s->points; i++) {
		const struct progress_point *at = &progress->points.at[i];

		if (at->usable && at->session < before &&
		    (found == PROGRESS_NONE || !first))
			found = at->session;
	}
	return found;
}

static unsigned seed;

static unsigned
any(unsigned below)
{
	seed = seed * 1103515245 + 12345;
	return seed / 65536 % below;
}

START_TEST(choice_agrees_with_the_plain_rule)
{
	static const char *const raters[] = {"ab", "cd", "ef"};
	static const char *const with[] = {
	    "goniometer", "inclinometer", "visual"};
	struct buffer note = {0};

	seed = (unsigned)_i;
	buffer_puts(&note, HEAD);
	for (unsigned d = 0, n = 2 + any(12); d < n; d++) {
		buffer_printf(&note, "session 2026-05-%02u\n", 1 + any(28));
		for (unsigned k = any(5); k > 0; k--)
			buffer_printf(&note,
			    "hip flexion R A %u-%u by %s with %s\n", any(5),
			    3 + any(60), raters[any(3)], with[any(3)]);
	}
	buffer_putc(&note, '\0');
	follow_note(note.data);
	buffer_free(&note);
	for (size_t i = 0; i < progress->points.len; i++) {
		const struct progress_point *p = &progress->points.at[i];
		const struct progress_series *s =
		    &progress->series.at[p->series];
		uint32_t first = plain_session(s, p->session, true);
		uint32_t last = plain_session(s, p->session, false);

		if (!p->usable || first == PROGRESS_NONE) {
			ck_assert_uint_eq(p->first, PROGRESS_NONE);
			ck_assert_uint_eq(p->previous, PROGRESS_NONE);
			continue;
		}
		ck_assert_uint_eq(p->first, plain_match(s, first, (uint32_t)i));
		ck_assert_uint_eq(
		    p->previous, plain_match(s, last, (uint32_t)i));
	}
}
END_TEST

/* A setting that took over is told, a posture beside another is not. */
START_TEST(a_new_setting_is_another_series)
{
	const struct progress_series *straight, *bent, *side;

	follow_note(HEAD
	    "session 2026-05-04\nankle dorsiflexion knee-bent R A 0-9\n"
	    "hip abduction supine R A 0-30\n"
	    "hip abduction side-lying R A 0-31\n"
	    "session 2026-05-11\nankle dorsiflexion knee-straight R A 0-5\n"
	    "hip abduction supine R A 0-33\n"
	    "hip abduction side-lying R A 0-34\n"
	    "hip abduction standing R A 0-35\n");
	bent = series_of(M(ANKLE_DORSIFLEXION), R, A, 0);
	straight = series_of(M(ANKLE_DORSIFLEXION), R, A, 1);
	ck_assert_uint_eq(bent->before, PROGRESS_NONE);
	ck_assert_ptr_eq(&progress->series.at[straight->before], bent);
	ck_assert_uint_eq(straight->sessions, 1);
	side = series_of(M(HIP_ABDUCTION), R, A, 1);
	ck_assert_uint_eq(side->before, PROGRESS_NONE);
	ck_assert_int_eq(since_first(side).by.sum, 30);
	side = series_of(M(HIP_ABDUCTION), R, A, 2);
	ck_assert_uint_eq(side->before, PROGRESS_NONE);
}
END_TEST

/* --- goals, surgery, persons ---------------------------------------------- */

START_TEST(goals_hold_for_their_sessions)
{
	const struct progress_goal *goals[2];
	const struct progress_series *s;

	follow_note("subject PG-01\ninvolved right elbow\n"
		    "goal right elbow extension active lacks 5\n"
		    "goal right elbow flexion active 130 by 2026-06-30\n"
		    "goal left ring tip-to-crease 1 cm\n"
		    "session 2026-05-04\ngoal right elbow extension active 0\n"
		    "elbow R A 18-100 L A 0-140\nring tip-to-crease L 31 mm\n"
		    "session 2026-05-11\nelbow R A 14-132\n"
		    "ring tip-to-crease L 8 mm\n");
	s = series_of(M(ELBOW_EXTENSION), R, A, 0);
	ck_assert_uint_eq(progress_goals(progress, s->point, goals, 2), 2);
	ck_assert_int_eq(progress_to_go(progress, s->point, goals[0]).sum, 130);
	ck_assert_int_eq(progress_to_go(progress, s->point, goals[1]).sum, 180);
	ck_assert_uint_eq(progress_goals(progress, last_of(s), goals, 2), 1);
	ck_assert_int_eq(
	    progress_to_go(progress, last_of(s), goals[0]).sum, 90);
	s = series_of(M(ELBOW_FLEXION), R, A, 0);
	ck_assert_uint_eq(progress_goals(progress, last_of(s), goals, 2), 1);
	ck_assert_int_eq(
	    progress_to_go(progress, last_of(s), goals[0]).sum, -20);
	s = series_of(M(ELBOW_FLEXION), L, A, 0);
	ck_assert_uint_eq(progress_goals(progress, s->point, goals, 2), 0);
	s = series_of(M(RING_TIP_TO_CREASE), L, NONE, 0);
	ck_assert_uint_eq(progress_goals(progress, last_of(s), goals, 2), 1);
	ck_assert_int_eq(
	    progress_to_go(progress, last_of(s), goals[0]).sum, -20);
}
END_TEST

START_TEST(surgery_is_counted_from_the_one_in_force)
{
	int32_t days;

	follow_note("subject PG-01\ninvolved right hip\nsurgery 2026-05-01\n"
		    "session 2026-05-04\nhip flexion R A 0-80\n"
		    "session 2026-05-18\nsurgery 2026-05-15\n"
		    "hip flexion R A 0-60\n"
		    "session 2026-04-20\nhip flexion R A 0-70\n");
	ck_assert(
	    !progress_days_since_surgery(&progress->sessions.at[0], &days));
	ck_assert(
	    progress_days_since_surgery(&progress->sessions.at[1], &days));
	ck_assert_int_eq(days, 3);
	ck_assert(
	    progress_days_since_surgery(&progress->sessions.at[2], &days));
	ck_assert_int_eq(days, 3);
	ck_assert(since_previous(series_of(M(HIP_FLEXION), R, A, 0)).surgery);
}
END_TEST

START_TEST(whose_sessions_are_known)
{
	follow_note(
	    "session 2026-05-04\nhip flexion R A 0-80\n"
	    "subject PG-01\nsession 2026-05-04\nhip flexion R A 0-81\n"
	    "session 04.05.2026\nhip flexion R A 0-82\n"
	    "subject pg-01\nsession 2026-05-05\nhip flexion R A 0-83\n"
	    "subject J. Doe\nsession 2026-05-06\nhip flexion R A 0-84\n"
	    "subject PG-01\nsession 2026-05-07\nhip flexion R A 0-85\n");
	/* nobody, PG-01, pg-01 */
	ck_assert_uint_eq(progress->persons.len, 3);
	ck_assert_uint_eq(progress->persons.at[1].session_count, 2);
	ck_assert_uint_eq(progress->undated, 1);
	ck_assert_uint_eq(progress->nameless, 1);
	ck_assert_uint_eq(progress->points.len, 4);
}
END_TEST

/* Without a subject each file has a person of its own; with one they meet. */
START_TEST(files_are_of_one_person_or_not)
{
	file_name = "a.range";
	take_note("session 2026-05-04\nhip flexion R A 0-80\n"
		  "subject PG-01\nsession 2026-05-04\nhip flexion R A 0-81\n");
	file_name = "b.range";
	follow_note("session 2026-05-11\nhip flexion R A 0-82\n"
		    "subject PG-01\nsession 2026-05-11\n"
		    "hip flexion R A 0-83\n");
	ck_assert_uint_eq(progress->persons.len, 3);
	ck_assert_uint_eq(progress->persons.at[0].session_count, 1);
	ck_assert_uint_eq(progress->persons.at[1].session_count, 2);
}
END_TEST

/* A goal of a named measure needs no mode, whatever the reading has. */
START_TEST(a_measure_has_its_goal_in_any_mode)
{
	const struct progress_goal *goal;
	const struct progress_series *s;

	follow_note("subject PG-01\ninvolved left ring\n"
		    "goal left ring tip-to-crease 1 cm\nmode active\n"
		    "session 2026-05-04\nring tip-to-crease L 31 mm\n");
	s = &progress->series.at[0];
	ck_assert_int_eq(s->mode, A);
	ck_assert_uint_eq(progress_goals(progress, s->point, &goal, 1), 1);
	ck_assert_int_eq(progress_to_go(progress, s->point, goal).sum, 210);
}
END_TEST

START_TEST(nothing_is_something_to_print)
{
	follow_note("# nothing yet\n");
	ck_assert_uint_eq(progress->persons.len, 0);
	ck_assert_str_eq(
	    printed(PROGRESS_TEXT, true), "No session could be followed.\n");
}
END_TEST

Suite *progress_suite(void);

static TCase *
change_case(void)
{
	TCase *tcase = tcase_create("change");

	tcase_add_checked_fixture(tcase, NULL, tear_down_progress);
	tcase_add_loop_test(tcase, a_gain_is_counted_on_the_axis, 0,
	    (int)(sizeof(gains) / sizeof(*gains)));
	tcase_add_test(tcase, levels_are_ordered_and_never_subtracted);
	tcase_add_test(tcase, sessions_come_by_day_and_time);
	tcase_add_test(tcase, identity_bar_rater_and_instrument);
	tcase_add_test(tcase, only_figures_are_compared);
	tcase_add_test(tcase, not_tested_stands_with_each_mode);
	tcase_add_test(tcase, the_same_rater_is_chosen);
	tcase_add_loop_test(tcase, choice_agrees_with_the_plain_rule, 1, 101);
	tcase_add_test(tcase, a_new_setting_is_another_series);
	tcase_add_test(tcase, goals_hold_for_their_sessions);
	tcase_add_test(tcase, surgery_is_counted_from_the_one_in_force);
	tcase_add_test(tcase, whose_sessions_are_known);
	tcase_add_test(tcase, files_are_of_one_person_or_not);
	tcase_add_test(tcase, a_measure_has_its_goal_in_any_mode);
	tcase_add_test(tcase, nothing_is_something_to_print);
	return tcase;
}

Suite *
progress_suite(void)
{
	Suite *suite = suite_create("progress");

	suite_add_tcase(suite, change_case());
	suite_add_tcase(suite, progress_postures_case());
	suite_add_tcase(suite, progress_error_case());
	suite_add_tcase(suite, progress_write_case());
	suite_add_tcase(suite, progress_plot_case());
	suite_add_tcase(suite, progress_told_case());
	return suite;
}
