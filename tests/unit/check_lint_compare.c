/*
 * The rules that set readings beside each other: the two ends of an axis,
 * active and passive, earlier sessions; and the acceptances, which see the
 * findings of all others. All readings are invented.
 */
#include "lint_note.h"

#include "lint/internal.h"

static const struct {
	int first, second; /* measurements */
	int start, end, other_start, other_end;
	enum kind kind; /* of the second */
	int expected;
} axis[] = {
    {M(KNEE_FLEXION), M(KNEE_EXTENSION), 20, 118, 0, 3, KIND_MEASURED, 1},
    {M(KNEE_EXTENSION), M(KNEE_FLEXION), 0, 3, 20, 118, KIND_MEASURED, 1},
    {M(KNEE_FLEXION), M(KNEE_EXTENSION), 5, 118, 0, 0, KIND_MEASURED, 0},
    {M(KNEE_FLEXION), M(KNEE_EXTENSION), 6, 118, 0, 0, KIND_MEASURED, 1},
    {M(KNEE_FLEXION), M(KNEE_EXTENSION), 0, 118, 0, 30, KIND_MEASURED, 0},
    {M(KNEE_FLEXION), M(KNEE_EXTENSION), 0, 118, -1, -8, KIND_LACKS, 1},
    {M(KNEE_FLEXION), M(KNEE_EXTENSION), 0, 118, -1, -5, KIND_LACKS, 0},
    {M(KNEE_FLEXION), M(KNEE_EXTENSION), 9, 118, -1, -8, KIND_LACKS, 0},
    {M(HIP_INTERNAL_ROTATION), M(HIP_EXTERNAL_ROTATION), 10, 40, 0, 40,
	KIND_MEASURED, 1},
    {M(HIP_INTERNAL_ROTATION), M(HIP_ABDUCTION), 10, 40, 0, 40, KIND_MEASURED,
	0}};

START_TEST(two_ends_of_an_axis)
{
	add(axis[_i].first, R, A, axis[_i].start, axis[_i].end);
	add(axis[_i].second, R, A,
	    axis[_i].other_start < 0 ? NO_VALUE : axis[_i].other_start,
	    axis[_i].other_end)
	    ->kind = (uint8_t)axis[_i].kind;
	judge();
	ck_assert_int_eq(count(RULE_AXIS_CONTRADICTION), axis[_i].expected);
	ck_assert_int_eq(
	    count_on(RULE_AXIS_CONTRADICTION, 1), axis[_i].expected);
}
END_TEST

START_TEST(axis_of_like_readings_only)
{
	add(M(KNEE_FLEXION), R, A, 20, 118);
	add(M(KNEE_EXTENSION), L, A, 0, 3);
	add(M(KNEE_EXTENSION), R, P, 0, 3);
	add(M(KNEE_EXTENSION), R, A, 0, 3)->posture = text("supine");
	add(M(KNEE_EXTENSION), R, A, 0, 3)->setting = text("weight-bearing");
	add(M(KNEE_FLEXION), L, A, 20, 118)->kind = KIND_END_ONLY;
	ck_assert_int_eq(times(RULE_AXIS_CONTRADICTION), 0);
	add(M(KNEE_EXTENSION), R, A, 0, 3);
	ck_assert_int_eq(times(RULE_AXIS_CONTRADICTION), 1);
	ck_assert_str_eq(first(RULE_AXIS_CONTRADICTION)->message,
	    "right knee flexion active starts at 20, yet extension reaches 3: "
	    "they exclude each other by 23");
}
END_TEST

START_TEST(a_pair_never_contradicts_itself)
{
	add_pair(M(KNEE_FLEXION), R, A, 20, 118);
	add_pair(M(KNEE_FLEXION), R, A, 5, 118)->rater = text("dk");
	s.readings.at[3].rater = text("dk");
	ck_assert_int_eq(times(RULE_AXIS_CONTRADICTION), 0);
	/* A flexion of its own is seen behind the pair. */
	begin_session(19001);
	add(M(KNEE_FLEXION), R, A, 20, 118);
	add_pair(M(KNEE_FLEXION), R, A, 5, 118);
	ck_assert_int_eq(times(RULE_AXIS_CONTRADICTION), 1);
}
END_TEST

static const struct {
	int active, passive;
	int cause; /* enum vocab_cause_id */
	int feel;  /* enum vocab_end_feel_id */
	int warnings, notes;
} modes[] = {{50, 50, NONE, NONE, 0, 0}, {50, 49, NONE, NONE, 0, 1},
    {50, 45, NONE, NONE, 0, 1}, {50, 44, NONE, NONE, 1, 0},
    {50, 60, NONE, NONE, 0, 0}, {50, 40, VOCAB_CAUSE_PAIN, NONE, 0, 0},
    {50, 40, NONE, VOCAB_END_FEEL_GUARDING, 0, 0},
    {50, 40, NONE, VOCAB_END_FEEL_EMPTY, 0, 0},
    {50, 40, NONE, VOCAB_END_FEEL_FIRM, 1, 0}};

START_TEST(passive_goes_at_least_as_far)
{
	struct reading *r;

	add(M(FOREARM_SUPINATION), R, A, 0, modes[_i].active);
	r = add(M(FOREARM_SUPINATION), R, P, 0, modes[_i].passive);
	r->stopped_by = (int8_t)modes[_i].cause;
	r->end_feel = (int8_t)modes[_i].feel;
	judge();
	ck_assert_int_eq(
	    count_on(RULE_PASSIVE_BELOW_ACTIVE, 1), modes[_i].warnings);
	ck_assert_int_eq(
	    count_on(RULE_PASSIVE_JUST_BELOW_ACTIVE, 1), modes[_i].notes);
}
END_TEST

START_TEST(means_of_like_readings_are_compared)
{
	add(M(FOREARM_SUPINATION), R, P, 0, 40);
	add(M(FOREARM_SUPINATION), L, A, 0, 60);
	add(M(FOREARM_SUPINATION), R, A, 0, 60)->posture = text("sitting");
	add(M(FOREARM_SUPINATION), R, A, 0, 60)->rater = text("dk");
	add(M(FOREARM_SUPINATION), R, A, 0, 60)->reps = 3;
	add(M(FOREARM_SUPINATION), R, VOCAB_MODE_ASSISTED, 0, 60);
	add(M(FOREARM_PRONATION), R, A, 0, 60);
	add(M(WRIST_FLEXION), R, A, 0, 60)->rater = UNKNOWN_TEXT;
	add(M(WRIST_FLEXION), R, P, 0, 40)->rater = UNKNOWN_TEXT;
	ck_assert_int_eq(times(RULE_PASSIVE_BELOW_ACTIVE), 0);
	add(M(FOREARM_SUPINATION), R, VOCAB_MODE_PLACE_AND_HOLD, 0, 50);
	add_trial(0, 40); /* mean 45: 5 more than passive */
	judge();
	ck_assert_int_eq(count(RULE_PASSIVE_BELOW_ACTIVE), 0);
	ck_assert_int_eq(count_on(RULE_PASSIVE_JUST_BELOW_ACTIVE, 9), 1);
	add_trial(0, 51); /* 47: 7 more */
	judge();
	ck_assert_int_eq(count_on(RULE_PASSIVE_BELOW_ACTIVE, 9), 1);
	ck_assert_str_eq(first(RULE_PASSIVE_BELOW_ACTIVE)->message,
	    "right forearm supination passive is 7 less than place-and-hold");
}
END_TEST

START_TEST(lacking_less_is_reaching_more)
{
	add_lacks(M(KNEE_EXTENSION), R, A, 10);
	add_lacks(M(KNEE_EXTENSION), R, P, 4);
	add(M(INDEX_TIP_TO_CREASE), R, A, NO_VALUE, 20);
	add(M(INDEX_TIP_TO_CREASE), R, P, NO_VALUE, 5);
	ck_assert_int_eq(times(RULE_PASSIVE_BELOW_ACTIVE), 0);
	add_lacks(M(KNEE_EXTENSION), L, A, 4);
	add_lacks(M(KNEE_EXTENSION), L, P, 10);
	add(M(INDEX_TIP_TO_CREASE), L, A, NO_VALUE, 5);
	add(M(INDEX_TIP_TO_CREASE), L, P, NO_VALUE, 20);
	ck_assert_int_eq(times(RULE_PASSIVE_BELOW_ACTIVE), 2);
}
END_TEST

START_TEST(what_stopped_a_pair_stopped_its_flexion)
{
	add_pair(M(ELBOW_FLEXION), R, A, 0, 140);
	add_pair(M(ELBOW_FLEXION), R, P, 10, 130);
	ck_assert_int_eq(times(RULE_PASSIVE_BELOW_ACTIVE), 2);
	s.readings.at[2].stopped_by = VOCAB_CAUSE_PAIN;
	judge();
	ck_assert_int_eq(count_on(RULE_PASSIVE_BELOW_ACTIVE, 2), 0);
	ck_assert_int_eq(count_on(RULE_PASSIVE_BELOW_ACTIVE, 3), 1);
	/* An end feel is of its end alone. */
	s.readings.at[2].stopped_by = NONE;
	s.readings.at[2].end_feel = VOCAB_END_FEEL_GUARDING;
	judge();
	ck_assert_int_eq(count_on(RULE_PASSIVE_BELOW_ACTIVE, 2), 0);
	ck_assert_int_eq(count_on(RULE_PASSIVE_BELOW_ACTIVE, 3), 1);
}
END_TEST

START_TEST(a_limit_explains_the_short_passive)
{
	struct precaution *p = MEM_PUSH(&person.headers.precautions);

	*p = (struct precaution){.motion = VOCAB_MOTION_SUPINATION,
	    .mode = VOCAB_MODE_PASSIVE,
	    .limit = 400,
	    .unit = VOCAB_UNIT_DEG,
	    .from = DATE_NONE,
	    .until = 19000};
	joint_set_add(
	    &p->joints, UINT64_C(1) << VOCAB_JOINT_FOREARM, true, false);
	add(M(FOREARM_SUPINATION), R, A, 0, 52);
	add(M(FOREARM_SUPINATION), R, P, 0, 38);
	ck_assert_int_eq(times(RULE_PASSIVE_BELOW_ACTIVE), 0);
	s.day = 19001;
	ck_assert_int_eq(times(RULE_PASSIVE_BELOW_ACTIVE), 1);
	s.day = 19000;
	p->limit = 800; /* nothing kept it from going as far */
	ck_assert_int_eq(times(RULE_PASSIVE_BELOW_ACTIVE), 1);
	p->forbids = true;
	ck_assert_int_eq(times(RULE_PASSIVE_BELOW_ACTIVE), 0);
	p->mode = VOCAB_MODE_ACTIVE;
	ck_assert_int_eq(times(RULE_PASSIVE_BELOW_ACTIVE), 1);
	p->mode = NONE;
	p->joints.left = p->joints.right;
	p->joints.right = 0;
	ck_assert_int_eq(times(RULE_PASSIVE_BELOW_ACTIVE), 1);
}
END_TEST

START_TEST(end_feels)
{
	struct reading *r = add(M(ELBOW_FLEXION), R, A, 0, 148);

	r->end_feel = VOCAB_END_FEEL_SOFT;
	judge();
	ck_assert_int_eq(count(RULE_END_FEEL_ON_ACTIVE), 1);
	r->mode = VOCAB_MODE_PASSIVE;
	judge();
	ck_assert_int_eq(count(RULE_END_FEEL_ON_ACTIVE), 0);
	ck_assert_int_eq(count(RULE_UNEXPECTED_END_FEEL), 0);
	r->end_feel = VOCAB_END_FEEL_EMPTY;
	judge();
	ck_assert_int_eq(count(RULE_EMPTY_END_FEEL), 1);
	ck_assert_int_eq(count(RULE_UNEXPECTED_END_FEEL), 0);
	r->end_feel = VOCAB_END_FEEL_HARD;
	judge();
	ck_assert_int_eq(count(RULE_EMPTY_END_FEEL), 0);
	ck_assert_int_eq(count(RULE_UNEXPECTED_END_FEEL), 1);
	ck_assert_str_eq(first(RULE_UNEXPECTED_END_FEEL)->message,
	    "right elbow flexion passive near its usual range ended hard; "
	    "usual is soft");
	ck_assert_ptr_nonnull(strstr(first(RULE_UNEXPECTED_END_FEEL)->hint,
	    "(`rangeline sources 'Norkin&White-style'`)"));
	/* Far from its usual range anything may have stopped it. */
	s.trials.at[0].end = 900;
	judge();
	ck_assert_int_eq(count(RULE_UNEXPECTED_END_FEEL), 0);
	/* What nobody has seen in its source is said to be from memory. */
	add(M(WRIST_FLEXION), R, P, 0, 80)->end_feel = VOCAB_END_FEEL_SOFT;
	judge();
	ck_assert_ptr_nonnull(strstr(first(RULE_UNEXPECTED_END_FEEL)->message,
	    "usual is firm, from memory"));
}
END_TEST

START_TEST(a_digit_was_lost)
{
	add(M(SHOULDER_FLEXION), R, A, 0, 150);
	add(M(SHOULDER_FLEXION), L, A, 0, 55);
	add(M(JAW_OPENING), NONE, A, NO_VALUE, 50);
	judge();
	begin_session(19007);
	add(M(SHOULDER_FLEXION), R, A, 0, 15)->rater = text("dk");
	add(M(SHOULDER_FLEXION), L, A, 0, 15); /* 40 less */
	add(M(JAW_OPENING), NONE, A, NO_VALUE, 5);
	add(M(SHOULDER_FLEXION), R, P, 0, 15);
	judge();
	ck_assert_int_eq(count(RULE_DROP_FROM_LAST), 1);
	ck_assert_int_eq(count_on(RULE_DROP_FROM_LAST, 0), 1);
	ck_assert_str_eq(first(RULE_DROP_FROM_LAST)->message,
	    "right shoulder flexion active ends at 15; in the session of "
	    "2022-01-08 it "
	    "ended at 150");
}
END_TEST

/* No minus sign: what falls short of straight lacks so much. */
START_TEST(a_drop_short_of_zero_is_said_in_words)
{
	add_lacks(M(KNEE_EXTENSION), R, P, 5);
	judge();
	begin_session(19007);
	add_lacks(M(KNEE_EXTENSION), R, P, 50);
	judge();
	ck_assert_str_eq(first(RULE_DROP_FROM_LAST)->message,
	    "right knee extension passive lacks 50; in the session of "
	    "2022-01-08 it lacked "
	    "5");
}
END_TEST

START_TEST(a_drop_is_of_one_person_file_and_day)
{
	add(M(SHOULDER_FLEXION), R, A, 0, 150);
	judge();
	begin_session(19007);
	add(M(SHOULDER_FLEXION), R, A, 0, 15);
	person.code = text("HT-0094");
	ck_assert_int_eq(times(RULE_DROP_FROM_LAST), 0);
	person.code = text("WR-0193");
	s.said = SAID_UNREADABLE;
	ck_assert_int_eq(times(RULE_DROP_FROM_LAST), 0);
	s.said = SAID;
	person.said = SAID_UNREADABLE;
	ck_assert_int_eq(times(RULE_DROP_FROM_LAST), 0);
	person.said = SAID;
	ck_assert_int_eq(times(RULE_DROP_FROM_LAST), 1);
	/* Now 15 is the last. */
	ck_assert_int_eq(times(RULE_DROP_FROM_LAST), 0);
	lint_reset(lint);
	s.trials.at[0].end = 2010; /* beyond the shoulder: left out */
	judge();
	s.trials.at[0].end = 150;
	s.readings.at[0].left_out = false;
	ck_assert_int_eq(times(RULE_DROP_FROM_LAST), 0);
	/* The next file knows nothing of this one. */
	s.trials.at[0].end = 1500;
	judge();
	s.trials.at[0].end = 150;
	lint_reset(lint);
	ck_assert_int_eq(times(RULE_DROP_FROM_LAST), 0);
}
END_TEST

/* Persons in turns, of few items and of many: each has its own past. */
START_TEST(a_person_who_comes_back_is_known)
{
	static const int counts[] = {1, 256, 257, 1000};

	for (size_t i = 0; i < sizeof(counts) / sizeof(*counts); i++) {
		lint_reset(lint);
		begin_session(19000);
		person.code = text("WR-0193");
		for (int k = 0; k < counts[i]; k++)
			add(M(SHOULDER_FLEXION), R, A, 0, 150)->reps = k;
		judge();
		person.code = text("HT-0094");
		ck_assert_int_eq(times(RULE_DROP_FROM_LAST), 0);
		for (int k = 0; k < counts[i]; k++)
			s.trials.at[k].end = 150;
		person.code = text("HT-0094");
		ck_assert_int_eq(times(RULE_DROP_FROM_LAST), counts[i]);
		ck_assert(!history_seen(lint, &s, M(KNEE_FLEXION), 0, R));
		person.code = text("WR-0193");
		ck_assert(history_seen(lint, &s, M(SHOULDER_FLEXION), 0, R));
		ck_assert_int_eq(times(RULE_DROP_FROM_LAST), counts[i]);
	}
}
END_TEST

START_TEST(what_earlier_sessions_saw)
{
	int32_t day;

	add(M(KNEE_FLEXION), R, A, 0, 150);
	add_bare(M(KNEE_FLEXION), L, NONE, KIND_NOT_TESTED);
	add_bare(M(HIP_FLEXION), L, NONE, KIND_WNL);
	add(M(CERVICAL_FLEXION), NONE, A, 0, 40);
	ck_assert(!history_seen(lint, &s, M(KNEE_FLEXION), 0, R));
	ck_assert(!history_last_day(lint, &s, &day));
	judge();
	ck_assert(history_seen(lint, &s, M(KNEE_FLEXION), 0, R));
	ck_assert(!history_seen(lint, &s, M(KNEE_FLEXION), 0, L));
	ck_assert(!history_seen(lint, &s, M(KNEE_FLEXION), 1, R));
	ck_assert(history_seen(lint, &s, M(HIP_FLEXION), 0, L));
	ck_assert(history_seen(lint, &s, M(CERVICAL_FLEXION), 0, NONE));
	ck_assert(history_last_day(lint, &s, &day));
	ck_assert_int_eq(day, 19000);
	person.code = text("HT-0094");
	ck_assert(!history_seen(lint, &s, M(KNEE_FLEXION), 0, R));
	ck_assert(!history_last_day(lint, &s, &day));
}
END_TEST

START_TEST(once_a_person)
{
	lint_reset(lint);
	ck_assert(history_once(lint, &s, ONCE_AGE_CONFLICT));
	ck_assert(!history_once(lint, &s, ONCE_AGE_CONFLICT));
	ck_assert(history_once(lint, &s, ONCE_NO_INVOLVED));
	person.code = text("HT-0094");
	ck_assert(history_once(lint, &s, ONCE_AGE_CONFLICT));
	person.code = text("WR-0193");
	ck_assert(!history_once(lint, &s, ONCE_AGE_CONFLICT));
	person.said = SAID_UNREADABLE;
	person.line = 7;
	ck_assert(history_once(lint, &s, ONCE_AGE_CONFLICT));
	ck_assert(!history_once(lint, &s, ONCE_AGE_CONFLICT));
	person.line = 9;
	ck_assert(history_once(lint, &s, ONCE_AGE_CONFLICT));
}
END_TEST

static struct acceptance *
accept(uint32_t target, int rule, bool has_reason)
{
	struct acceptance *a = MEM_PUSH(&s.acceptances);

	*a = (struct acceptance){.target = target,
	    .rule = rule,
	    .has_reason = has_reason,
	    .line = s.line,
	    .line_at = s.line_at,
	    .beg = 12,
	    .end = 25};
	return a;
}

START_TEST(accepted_on_its_line)
{
	struct reading *r = add(M(ELBOW_FLEXION), R, A, 140, 0);

	accept(r->line, RULE_END_BEFORE_START, true);
	accept(r->line, RULE_END_BEFORE_START, true); /* said twice */
	judge();
	ck_assert(first(RULE_END_BEFORE_START)->accepted);
	ck_assert_int_eq(count(RULE_ACCEPTANCE_UNUSED), 0);
	ck_assert_int_eq(count(RULE_ACCEPTANCE_WITHOUT_REASON), 0);
	s.acceptances.len = 1;
	s.acceptances.at[0].target++;
	s.acceptances.at[0].used = false;
	judge();
	ck_assert(!first(RULE_END_BEFORE_START)->accepted);
	ck_assert_int_eq(count(RULE_ACCEPTANCE_UNUSED), 1);
	ck_assert_uint_eq(first(RULE_ACCEPTANCE_UNUSED)->beg, 12);
	s.acceptances.at[0].target = 0; /* the note ends behind it */
	judge();
	ck_assert_str_eq(first(RULE_ACCEPTANCE_UNUSED)->message,
	    "no line follows in which end-before-start could be accepted");
}
END_TEST

START_TEST(accepted_without_a_reason)
{
	struct reading *r = add(M(ELBOW_FLEXION), R, A, 140, 0);

	accept(r->line, RULE_END_BEFORE_START, false);
	judge();
	ck_assert(first(RULE_END_BEFORE_START)->accepted);
	ck_assert_int_eq(count(RULE_ACCEPTANCE_WITHOUT_REASON), 1);
	ck_assert_int_eq(count(RULE_ACCEPTANCE_UNUSED), 0);
}
END_TEST

/* A lost reading keeps missing-* back: what accepts them waits. */
START_TEST(an_acceptance_waits_for_a_lost_reading)
{
	struct reading *r = add(M(KNEE_FLEXION), R, A, 0, 120);

	accept(r->line, RULE_MISSING_OPPOSITE, true);
	accept(r->line, RULE_UNUSUAL_ANGLE, true);
	s.lost = true;
	judge();
	ck_assert_int_eq(count(RULE_ACCEPTANCE_UNUSED), 1);
	s.lost = false;
	judge();
	ck_assert_int_eq(count(RULE_ACCEPTANCE_UNUSED), 2);
}
END_TEST

START_TEST(what_was_not_read_is_never_accepted)
{
	struct place place = session_date_place(&s);

	accept(place.line, RULE_SYNTAX, true);
	accept(place.line, -1, true);
	sink_add(&sink, RULE_SYNTAX, &place, NO_READING, "invented");
	lint_session(lint, &s, &sink);
	ck_assert(!first(RULE_SYNTAX)->accepted);
	ck_assert_int_eq(count(RULE_ACCEPTANCE_UNUSED), 2);
	ck_assert_ptr_nonnull(
	    strstr(sink.at[sink.len - 1]->message, "unusual-angle"));
}
END_TEST

START_TEST(an_acceptance_is_accepted_but_not_by_itself)
{
	accept(s.line, RULE_UNUSUAL_ANGLE, true);
	ck_assert_int_eq(times(RULE_ACCEPTANCE_UNUSED), 1);
	ck_assert(!first(RULE_ACCEPTANCE_UNUSED)->accepted);
	accept(s.line, RULE_ACCEPTANCE_UNUSED, true);
	ck_assert_int_eq(times(RULE_ACCEPTANCE_UNUSED), 1);
	ck_assert(first(RULE_ACCEPTANCE_UNUSED)->accepted);
	begin_session(19001);
	accept(s.line, RULE_ACCEPTANCE_UNUSED, true);
	ck_assert_int_eq(times(RULE_ACCEPTANCE_UNUSED), 1);
	ck_assert(!first(RULE_ACCEPTANCE_UNUSED)->accepted);
}
END_TEST

START_TEST(many_acceptances)
{
	for (int i = 0; i < 100000; i++) {
		struct reading *r = add(M(ELBOW_FLEXION), R, A, 140, 0);

		accept(i & 1 ? r->line : line + 1, RULE_END_BEFORE_START, true);
	}
	accept(line + 1, RULE_END_BEFORE_START, true);
	sink.names_only = true;
	ck_assert_int_eq(times(RULE_ACCEPTANCE_UNUSED), 1);
	sink.names_only = false;
}
END_TEST

START_TEST(tolerance_is_the_greater_of_option_and_step)
{
	struct reading a = {.measurement = M(KNEE_FLEXION),
	    .unit = VOCAB_UNIT_DEG,
	    .step = NO_VALUE};
	struct reading b = a;

	ck_assert_int_eq(lint_tolerance(lint, &a, &b), 50);
	b.step = 100;
	ck_assert_int_eq(lint_tolerance(lint, &a, &b), 100);
	ck_assert_int_eq(lint_tolerance(lint, &b, &a), 100);
	a = (struct reading){.measurement = M(JAW_OPENING),
	    .unit = VOCAB_UNIT_CM,
	    .step = NO_VALUE};
	ck_assert_int_eq(lint_tolerance(lint, &a, &a), 5);
	b = a;
	b.step = 10; /* 1 cm */
	ck_assert_int_eq(lint_tolerance(lint, &a, &b), 10);
	ck_assert_int_eq(lint_tolerance_base(lint, &a, &b), 100);
	a.measurement = M(THUMB_OPPOSITION);
	ck_assert_int_eq(lint_tolerance(lint, &a, &a), 0);
}
END_TEST

Suite *lint_compare_suite(void);

Suite *
lint_compare_suite(void)
{
	Suite *suite = suite_create("lint: compare");
	TCase *tc = tcase_create("compare");

	tcase_add_checked_fixture(tc, set_up, tear_down);
	tcase_add_loop_test(
	    tc, two_ends_of_an_axis, 0, sizeof(axis) / sizeof(axis[0]));
	tcase_add_test(tc, axis_of_like_readings_only);
	tcase_add_test(tc, a_pair_never_contradicts_itself);
	tcase_add_loop_test(tc, passive_goes_at_least_as_far, 0,
	    sizeof(modes) / sizeof(modes[0]));
	tcase_add_test(tc, means_of_like_readings_are_compared);
	tcase_add_test(tc, lacking_less_is_reaching_more);
	tcase_add_test(tc, what_stopped_a_pair_stopped_its_flexion);
	tcase_add_test(tc, a_limit_explains_the_short_passive);
	tcase_add_test(tc, end_feels);
	tcase_add_test(tc, a_digit_was_lost);
	tcase_add_test(tc, a_drop_is_of_one_person_file_and_day);
	tcase_add_test(tc, a_drop_short_of_zero_is_said_in_words);
	tcase_add_test(tc, a_person_who_comes_back_is_known);
	tcase_add_test(tc, what_earlier_sessions_saw);
	tcase_add_test(tc, once_a_person);
	tcase_add_test(tc, accepted_on_its_line);
	tcase_add_test(tc, accepted_without_a_reason);
	tcase_add_test(tc, an_acceptance_waits_for_a_lost_reading);
	tcase_add_test(tc, what_was_not_read_is_never_accepted);
	tcase_add_test(tc, an_acceptance_is_accepted_but_not_by_itself);
	tcase_add_test(tc, many_acceptances);
	tcase_add_test(tc, tolerance_is_the_greater_of_option_and_step);
	suite_add_tcase(suite, tc);
	return suite;
}
