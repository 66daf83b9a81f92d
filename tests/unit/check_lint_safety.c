/*
 * The rules of safety and privacy. All readings and texts are invented.
 */
#include "lint_note.h"

#define JOINT(name) (UINT64_C(1) << VOCAB_JOINT_##name)

static struct precaution *
caution(uint64_t joints, bool forbids, int motion, int mode, int limit)
{
	struct precaution *p = MEM_PUSH(&person.headers.precautions);

	*p = (struct precaution){.motion = (int16_t)motion,
	    .mode = (int8_t)mode,
	    .forbids = forbids,
	    .limit = limit * 10,
	    .unit = VOCAB_UNIT_DEG,
	    .from = DATE_NONE,
	    .until = DATE_NONE,
	    .place = {.line = 3}};
	joint_set_add(&p->joints, joints, true, false);
	return p;
}

/* Puts WORDS on a line of their own. */
static struct text_ref
words_on_a_line(const char *words)
{
	struct text_ref ref = {(uint32_t)s.text.len, (uint32_t)strlen(words)};

	buffer_puts(&s.text, words);
	buffer_putc(&s.text, '\n');
	line++;
	return ref;
}

static void
comment(const char *words)
{
	struct text_ref ref = words_on_a_line(words);

	*MEM_PUSH(&s.prose) =
	    (struct prose){line, ref.at, 0, (uint16_t)ref.len, NO_READING};
}

static void
done(void)
{
	free(s.prose.at);
	tear_down();
}

/* One precaution, one reading on the right, and what it says of it. */
static const struct {
	bool forbids;
	int motion, mode, limit; /* of the knee */
	int measurement, moved, start, end;
	enum kind kind;
	const char *message; /* NULL: none */
} cautions[] = {
    {false, VOCAB_MOTION_FLEXION, NONE, 90, M(KNEE_FLEXION), P, 0, 96,
	KIND_MEASURED,
	"right knee flexion passive came to 96; the precaution on line 3 "
	"allows no further than 90"},
    {false, VOCAB_MOTION_FLEXION, NONE, 90, M(KNEE_FLEXION), P, 0, 90,
	KIND_MEASURED, NULL},
    {false, NONE, NONE, 90, M(KNEE_FLEXION), P, 0, 96, KIND_END_ONLY,
	"right knee flexion passive came to 96; the precaution on line 3 "
	"allows no further than 90"},
    {false, VOCAB_MOTION_FLEXION, A, 90, M(KNEE_FLEXION), P, 0, 96,
	KIND_MEASURED, NULL},
    {false, VOCAB_MOTION_FLEXION, A, 90, M(KNEE_FLEXION),
	VOCAB_MODE_PLACE_AND_HOLD, 0, 96, KIND_MEASURED,
	"right knee flexion place-and-hold came to 96; the precaution on line "
	"3 allows no further than 90"},
    {false, VOCAB_MOTION_FLEXION, A, 90, M(KNEE_FLEXION), VOCAB_MODE_ASSISTED,
	0, 96, KIND_MEASURED, NULL},
    {false, VOCAB_MOTION_FLEXION, NONE, 90, M(KNEE_FLEXION), P, 0, 0, KIND_WNL,
	NULL},
    {false, VOCAB_MOTION_FLEXION, NONE, 90, M(KNEE_EXTENSION), P, 0, 96,
	KIND_MEASURED, NULL},
    /* on the axis */
    {false, VOCAB_MOTION_EXTENSION, NONE, -30, M(KNEE_FLEXION), A, 10, 118,
	KIND_MEASURED,
	"right knee flexion active starts at 10; the precaution on line 3 "
	"allows extension no further than lacks 30"},
    {false, VOCAB_MOTION_EXTENSION, NONE, -30, M(KNEE_FLEXION), A, 30, 118,
	KIND_MEASURED, NULL},
    {false, VOCAB_MOTION_EXTENSION, NONE, -30, M(KNEE_FLEXION), A, 0, 118,
	KIND_END_ONLY, NULL},
    {false, VOCAB_MOTION_EXTENSION, NONE, -30, M(KNEE_FLEXION), A, 0, 20,
	KIND_END_ONLY,
	"right knee flexion active ends at 20; the precaution on line 3 "
	"allows extension no further than lacks 30"},
    {false, VOCAB_MOTION_EXTENSION, NONE, -30, M(KNEE_EXTENSION), A, NO_VALUE,
	-20, KIND_LACKS,
	"right knee extension active came to lacks 20; the precaution on line "
	"3 allows no further than lacks 30"},
    {false, VOCAB_MOTION_EXTENSION, NONE, -30, M(KNEE_EXTENSION), A, NO_VALUE,
	-30, KIND_LACKS, NULL},
    {false, VOCAB_MOTION_FLEXION, NONE, 90, M(KNEE_EXTENSION), A, NO_VALUE, -95,
	KIND_LACKS,
	"right knee extension active ends at lacks 95; the precaution on line "
	"3 allows flexion no further than 90"},
    /* no */
    {true, NONE, NONE, 0, M(KNEE_FLEXION), P, 0, 5, KIND_MEASURED,
	"right knee flexion passive: the precaution on line 3 rules this "
	"motion out"},
    {true, NONE, NONE, 0, M(KNEE_FLEXION), P, 0, 0, KIND_WNL,
	"right knee flexion passive: the precaution on line 3 rules this "
	"motion out"},
    {true, NONE, NONE, 0, M(KNEE_FLEXION), P, 0, 0, KIND_NOT_TESTED, NULL},
    {true, VOCAB_MOTION_EXTENSION, NONE, 0, M(KNEE_FLEXION), P, 0, 5,
	KIND_MEASURED, NULL},
    {true, NONE, P, 0, M(KNEE_FLEXION), A, 0, 5, KIND_MEASURED, NULL},
    {true, NONE, NONE, 0, M(HIP_FLEXION), A, 0, 5, KIND_MEASURED, NULL},
};

START_TEST(precautions)
{
	struct reading *r;

	caution(JOINT(KNEE), cautions[_i].forbids, cautions[_i].motion,
	    cautions[_i].mode, cautions[_i].limit);
	for (int side = R; side <= L; side++) {
		r = add_bare(cautions[_i].measurement, side, cautions[_i].moved,
		    cautions[_i].kind);
		if (reading_is_number(r)) {
			*MEM_PUSH(&s.trials) =
			    (struct trial){cautions[_i].start == NO_VALUE
					       ? NO_VALUE
					       : cautions[_i].start * 10,
				cautions[_i].end * 10, NO_VALUE};
			r->trials = 1;
		}
	}
	judge();
	ck_assert_int_eq(
	    count(RULE_PRECAUTION_EXCEEDED), cautions[_i].message ? 1 : 0);
	if (!cautions[_i].message)
		return;
	ck_assert_int_eq(count_on(RULE_PRECAUTION_EXCEEDED, 0), 1);
	ck_assert_str_eq(
	    first(RULE_PRECAUTION_EXCEEDED)->message, cautions[_i].message);
	ck_assert_int_eq(first(RULE_PRECAUTION_EXCEEDED)->level, LEVEL_ERROR);
	ck_assert_ptr_nonnull(first(RULE_PRECAUTION_EXCEEDED)->hint);
}
END_TEST

START_TEST(precaution_on_its_days)
{
	struct precaution *p =
	    caution(JOINT(KNEE), false, VOCAB_MOTION_FLEXION, NONE, 90);

	add(M(KNEE_FLEXION), R, A, 0, 96);
	p->from = s.day;
	p->until = s.day;
	ck_assert_int_eq(times(RULE_PRECAUTION_EXCEEDED), 1);
	p->from = s.day + 1;
	p->until = DATE_NONE;
	ck_assert_int_eq(times(RULE_PRECAUTION_EXCEEDED), 0);
	p->from = DATE_NONE;
	p->until = s.day - 1;
	ck_assert_int_eq(times(RULE_PRECAUTION_EXCEEDED), 0);
	s.said = SAID_UNREADABLE;
	ck_assert_int_eq(times(RULE_PRECAUTION_EXCEEDED), 0);
	p->until = DATE_NONE;
	ck_assert_int_eq(times(RULE_PRECAUTION_EXCEEDED), 1);
	p->limit = 1000;
	caution(JOINT(KNEE), false, VOCAB_MOTION_FLEXION, NONE, 90)->from =
	    s.day; /* beside the undated one: still in doubt */
	ck_assert_int_eq(times(RULE_PRECAUTION_EXCEEDED), 0);
}
END_TEST

START_TEST(precaution_by_greatest_trial_and_strictest_limit)
{
	caution(JOINT(KNEE), false, VOCAB_MOTION_FLEXION, NONE, 110);
	caution(JOINT(KNEE), false, VOCAB_MOTION_FLEXION, NONE, 95)
	    ->place.line = 4;
	add(M(KNEE_FLEXION), R, A, 0, 94);
	add_trial(0, 96);
	add_trial(0, 92);
	judge();
	ck_assert_int_eq(count(RULE_PRECAUTION_EXCEEDED), 1);
	ck_assert_str_eq(first(RULE_PRECAUTION_EXCEEDED)->message,
	    "right knee flexion active came to 96; the precaution on line 4 "
	    "allows no further than 95");
}
END_TEST

START_TEST(precaution_once_a_pair)
{
	caution(JOINT(KNEE), true, NONE, NONE, 0);
	add_pair(M(KNEE_FLEXION), R, A, 5, 118);
	ck_assert_int_eq(times(RULE_PRECAUTION_EXCEEDED), 1);
}
END_TEST

START_TEST(precaution_on_a_whole_finger_and_on_lengths)
{
	caution(JOINT(INDEX_PIP), true, NONE, NONE, 0);
	caution(JOINT(JAW), false, VOCAB_MOTION_OPENING, NONE, 25)->unit =
	    VOCAB_UNIT_MM;
	add(M(INDEX_TIP_TO_CREASE), R, NONE, NO_VALUE, 20);
	add(M(JAW_OPENING), NONE, A, NO_VALUE, 3)->unit = VOCAB_UNIT_CM;
	add(M(JAW_OPENING), NONE, A, NO_VALUE, 25);
	judge();
	ck_assert_int_eq(count(RULE_PRECAUTION_EXCEEDED), 2);
	ck_assert_int_eq(count_on(RULE_PRECAUTION_EXCEEDED, 2), 0);
}
END_TEST

/* Text, and what of it is underlined; NULL: nothing. All are invented. */
static const struct {
	const char *text;
	const char *found;
} texts[] = {
    {"call 555-0142 after six", "555-0142"},
    {"(555) 555-0142", "(555) 555-0142"},
    {"at 555.555.0142.", "555.555.0142"},
    {"1-555-555-0142", "1-555-555-0142"},
    {"on +44 20 7946 0958", "+44 20 7946 0958"},
    {"on +49-1550-5550142", "+49-1550-5550142"},
    {"+1 0-52 0-54", NULL},
    {"020 7946 0958 110-120", "020 7946 0958"},
    {"0161-496-0000", "0161-496-0000"},
    {"01 99 00 12 34", "01 99 00 12 34"},
    {"5550142857", "5550142857"},
    {"tel. 55 50142", "tel. 55 50142"},
    {"Mobile no: 07700 900123", "Mobile no: 07700 900123"},
    {"write to jo.sample@example.org, please", "jo.sample@example.org"},
    {"<a@b.example>", "a@b.example"},
    {"born 1988-05-04 in town", "born 1988-05-04"},
    {"DOB: 04/05/88", "DOB: 04/05/88"},
    {"d.o.b. 4 May 1988", "d.o.b. 4 May 1988"},
    {"born on May 4, 1988", "born on May 4, 1988"},
    {"date of birth 4.5.1988", "date of birth 4.5.1988"},
    {"seen by Dr Sample", "Dr Sample"},
    {"Mrs. J. Sample-Test limps", "Mrs. J. Sample-Test"},
    {"Mr O'Sample", "Mr O'Sample"},
    {"Ms SAMPLE", "Ms SAMPLE"},
    {"dr van Sample", "dr van Sample"},
    {"Prof \xc3\x89xample", "Prof \xc3\x89xample"},
    {"2026-05-04", NULL},
    {"04/05/2026 10/05/2026 12/05/2026", NULL},
    {"04.05.2026 09:30", NULL},
    {"0-52 0-54 0-53", NULL},
    {"0-131 0-135 0-138 0-140", NULL},
    {"8-131, 6-137, 110 120 130", NULL},
    {"A 110-120 P 130-135 in 2026", NULL},
    {"week 12, day 84, 100-110-120", NULL},
    {"555-0142 m", NULL},
    {"scar mobile 110-120", NULL},
    {"phone call at 12:30", NULL},
    {"dr's protocol", NULL},
    {"Dr\xe2\x80\x99s protocol", NULL},
    {"by the Dr \xe2\x80\x93 protocol", NULL},
    {"Dr AROM first", NULL},
    {"MR arthrogram, MS since 2019", NULL},
    {"miss Monday, Miss Monday", NULL},
    {"the dr said rest", NULL},
    {"born 1988", NULL},
    {"newborn 2026-05-04", NULL},
    {"pain @ 90.5 deg", NULL},
    {"a@b", NULL},
    {"0123456789 0123456789", NULL},
    {"", NULL},
};

START_TEST(identifying)
{
	const struct finding *f;

	comment(texts[_i].text);
	judge();
	ck_assert_int_eq(count(RULE_IDENTIFYING_TEXT), texts[_i].found ? 1 : 0);
	if (!texts[_i].found)
		return;
	f = first(RULE_IDENTIFYING_TEXT);
	ck_assert_uint_eq(f->end - f->beg, strlen(texts[_i].found));
	ck_assert_int_eq(memcmp(f->source + f->beg, texts[_i].found,
			     strlen(texts[_i].found)),
	    0);
	ck_assert_ptr_null(strstr(f->message, texts[_i].found));
	ck_assert_uint_eq(f->line, line);
}
END_TEST

START_TEST(identifying_more_than_once)
{
	comment("Mr Sample, 555-0142, jo@example.org, Mrs Sample");
	ck_assert_int_eq(times(RULE_IDENTIFYING_TEXT), 4);
	s.prose.at[0].beg = 11; /* a text begins behind its quote */
	s.prose.at[0].reading = 0;
	s.prose.at[0].end = 19;
	judge();
	ck_assert_int_eq(count(RULE_IDENTIFYING_TEXT), 1);
	ck_assert_int_eq(count_on(RULE_IDENTIFYING_TEXT, 0), 1);
	ck_assert_uint_eq(first(RULE_IDENTIFYING_TEXT)->beg, 11);
	ck_assert_uint_eq(first(RULE_IDENTIFYING_TEXT)->end, 19);
}
END_TEST

#define LOOP(tests, table)                                                     \
	tcase_add_loop_test(                                                   \
	    tc, tests, 0, (int)(sizeof(table) / sizeof((table)[0])))

Suite *lint_safety_suite(void);

Suite *
lint_safety_suite(void)
{
	Suite *suite = suite_create("lint: safety and privacy");
	TCase *tc = tcase_create("all");

	tcase_add_checked_fixture(tc, set_up, done);
	LOOP(precautions, cautions);
	tcase_add_test(tc, precaution_on_its_days);
	tcase_add_test(tc, precaution_by_greatest_trial_and_strictest_limit);
	tcase_add_test(tc, precaution_once_a_pair);
	tcase_add_test(tc, precaution_on_a_whole_finger_and_on_lengths);
	LOOP(identifying, texts);
	tcase_add_test(tc, identifying_more_than_once);
	suite_add_tcase(suite, tc);
	return suite;
}
