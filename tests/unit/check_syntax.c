/*
 * Every form of a value and what may follow it, with the readings that it
 * makes; and every way to write one wrongly. All readings are invented.
 */
#include "read_example.h"

#define BEFORE "session 2026-05-04\n"

static const struct example values[] = {
    /* from, to */
    {"elbow flexion R A 8-131", "elbow flexion right active measured 8..131",
	NULL},
    {"elbow flexion R A 8–131", "elbow flexion right active measured 8..131",
	NULL},
    {"elbow flexion R A 8 - 131", "elbow flexion right active measured 8..131",
	NULL},
    {"elbow flexion R A 8\t–\t131",
	"elbow flexion right active measured 8..131", NULL},
    {"elbow flexion R A 8 to 131", "elbow flexion right active measured 8..131",
	NULL},
    {"elbow flexion R A 8°-131°", "elbow flexion right active measured 8..131",
	NULL},
    {"elbow flexion R A 8-131 deg",
	"elbow flexion right active measured 8..131", NULL},
    {"elbow flexion R A 8-131°", "elbow flexion right active measured 8..131",
	NULL},
    {"elbow flexion R A 0-200", "elbow flexion right active measured 0..200",
	NULL},
    {"elbow flexion R A 0.5-52.5",
	"elbow flexion right active measured 0.5..52.5", NULL},
    /* trials: the mean */
    {"forearm pronation R A 0-52 0-54 0-53",
	"forearm pronation right active measured 0..53 x3", NULL},
    {"forearm pronation R A 0-52 2-54 0-53.5",
	"forearm pronation right active measured 0.67..53.17 x3", NULL},
    {"forearm pronation R A 52 54",
	"forearm pronation right active end-only 0..53 x2", NULL},
    {"forearm pronation R A lacks 8 lacks 9",
	"forearm pronation right active lacks -8.5 x2", NULL},
    {"jaw opening A 40 mm 41 mm", "jaw opening active measured 40.5 mm x2",
	NULL},
    /* the end alone */
    {"hip flexion R A 112", "hip flexion right active end-only 0..112", NULL},
    {"hip flexion R A 0", "hip flexion right active end-only 0..0", NULL},
    {"hip extension R A 10", "hip extension right active end-only 0..10", NULL},
    {"knee flexion R A 0-0", "knee flexion right active measured 0..0", NULL},
    {"knee extension R A 0", "knee extension right active end-only 0..0", NULL},
    {"knee extension R A 0-3", "knee extension right active measured 0..3",
	NULL},
    {"knee extension R A hyper 10",
	"knee extension right active measured 0..10", NULL},
    {"knee extension R A lacks 10", "knee extension right active lacks -10",
	NULL},
    {"ankle dorsiflexion R P lacks 5",
	"ankle dorsiflexion right passive lacks -5", NULL},
    {"hip ER R P lacks 5", "hip external rotation right passive lacks -5",
	NULL},
    /* no motion */
    {"elbow flexion R fixed 30", "elbow flexion right fixed 30..30", NULL},
    {"elbow R 0-20-20",
	"elbow flexion right fixed 20..20; elbow extension right lacks -20",
	NULL},
    {"elbow flexion R 30-30 30-30", "elbow flexion right fixed 30..30 x2",
	NULL},
    {"elbow flexion R 30-30 10-40", "", "2:23:syntax"},
    {"elbow flexion R A fixed 30", "elbow flexion right active fixed 30..30",
	NULL},
    {"elbow flexion R P 30-30", "elbow flexion right passive fixed 30..30",
	NULL},
    /* neutral-zero, in the order named */
    {"knee flexion/extension R P 130-0-5",
	"knee flexion right passive measured 0..130; "
	"knee extension right passive measured 0..5",
	NULL},
    {"knee extension/flexion R P 5/0/130",
	"knee extension right passive measured 0..5; "
	"knee flexion right passive measured 0..130",
	NULL},
    {"knee flexion/extension R P 130-10-0",
	"knee flexion right passive measured 10..130; "
	"knee extension right passive lacks -10",
	NULL},
    {"knee extension/flexion R P 0-10-130",
	"knee extension right passive lacks -10; "
	"knee flexion right passive measured 10..130",
	NULL},
    {"knee flexion/extension R P 20-20-0",
	"knee flexion right passive fixed 20..20; "
	"knee extension right passive lacks -20",
	NULL},
    {"hip abduction/adduction R A 40-0-25",
	"hip abduction right active measured 0..40; "
	"hip adduction right active measured 0..25",
	NULL},
    {"forearm supination/pronation L A 0-30-70",
	"forearm supination left active lacks -30; "
	"forearm pronation left active measured 30..70",
	NULL},
    /* lengths */
    {"jaw opening A 38 mm", "jaw opening active measured 38 mm", NULL},
    {"jaw opening A 38mm", "jaw opening active measured 38 mm", NULL},
    {"jaw opening A 0-38 mm", "jaw opening active measured 0..38 mm", NULL},
    {"lumbar schober 15-21.5 cm", "lumbar schober measured 15..21.5 cm", NULL},
    {"schober 150-2000 mm", "lumbar schober measured 150..2000 mm", NULL},
    {"ring tip-to-crease L 31 mm", "ring tip-to-crease left measured 31 mm",
	NULL},
    {"knee-to-wall R 10.5 cm", "ankle knee-to-wall right measured 10.5 cm",
	NULL},
    {"fingertip-to-floor 12 cm",
	"thoracolumbar fingertip-to-floor measured 12 cm", NULL},
    /* scores and levels */
    {"opposition R 8", "thumb opposition right score 8", NULL},
    {"kapandji L 10", "thumb opposition left score 10", NULL},
    {"hand-behind-back R T7", "shoulder hand-behind-back right level T7", NULL},
    {"HBB L l5", "shoulder hand-behind-back left level L5", NULL},
    {"hand-behind-back R S1 L T12",
	"shoulder hand-behind-back right level S1; "
	"shoulder hand-behind-back left level T12",
	NULL},
    /* two inclinometer readings */
    {"lumbar flexion A 85 less 38", "lumbar flexion active measured 47", NULL},
    {"lumbar flexion A 85 less 38 87 less 38",
	"lumbar flexion active measured 48 x2", NULL},
    /* not measured */
    {"hip flexion R NT \"in plaster\"", "hip flexion right not-tested", NULL},
    {"hip flexion R A not-tested", "hip flexion right active not-tested", NULL},
    {"hip flexion R WNL", "hip flexion right WNL", NULL},
    {"hip flexion R P wfl", "hip flexion right passive WFL", NULL},
    {"hip flexion both WNL", "hip flexion right WNL; hip flexion left WNL",
	NULL},
    {"hip flexion B A 0",
	"hip flexion right active end-only 0..0; "
	"hip flexion left active end-only 0..0",
	NULL},
    /* the whole axis of a hinge */
    {"knee R A 5-118",
	"knee flexion right active measured 5..118; "
	"knee extension right active lacks -5",
	NULL},
    {"knee R A 0-5-118",
	"knee flexion right active measured 5..118; "
	"knee extension right active lacks -5",
	NULL},
    {"knee R A 0-118",
	"knee flexion right active measured 0..118; "
	"knee extension right active lacks 0",
	NULL},
    {"knee R A 3-0-140",
	"knee flexion right active measured 0..140; "
	"knee extension right active measured 0..3",
	NULL},
    {"elbow R A 0-0-44",
	"elbow flexion right active measured 0..44; "
	"elbow extension right active measured 0..0",
	NULL},
    {"elbow R P 0-20-20",
	"elbow flexion right passive fixed 20..20; "
	"elbow extension right passive lacks -20",
	NULL},
    {"elbow R P 20-20",
	"elbow flexion right passive fixed 20..20; "
	"elbow extension right passive lacks -20",
	NULL},
    {"knee R A 118", "knee flexion right active end-only 0..118", NULL},
    {"knee R NT", "knee flexion right not-tested", NULL},
    {"knee R fixed 20",
	"knee flexion right fixed 20..20; knee extension right lacks -20",
	NULL},
    {"knee R A 5-118 4-120",
	"knee flexion right active measured 4.5..119 x2; "
	"knee extension right active lacks -4.5 x2",
	NULL},
};

START_TEST(a_value_is_read)
{
	expect_example(BEFORE, &values[_i]);
}
END_TEST

static const struct example wrong_values[] = {
    {"elbow flexion R A 8 -131", "", "2:21:number-form"},
    {"elbow flexion R A 8- 131", "", "2:19:number-form"},
    {"elbow flexion R A -8", "", "2:19:number-form"},
    {"elbow flexion R A 8,5-131", "", "2:19:number-form"},
    {"elbow flexion R A 8.25-131", "", "2:19:number-form"},
    {"elbow flexion R A 08-131", "", "2:19:number-form"},
    {"elbow flexion R A 0-201", "", "2:19:number-form"},
    {"elbow flexion R A 0-1O4", "", "2:19:number-form"},
    {"elbow flexion R A 0-131 mm", "", "2:19:number-form"},
    {"elbow flexion/extension R A 130-10-5", "", "2:29:number-form"},
    {"elbow flexion/extension R A 0-10-0", "", "2:29:number-form"},
    {"elbow R A 5-10-130", "", "2:11:number-form"},
    {"jaw opening A 38", "", "2:15:number-form"},
    {"jaw opening A 38 deg", "", "2:15:number-form"},
    {"jaw opening A 2001 mm", "", "2:15:number-form"},
    {"jaw opening A 201 cm", "", "2:15:number-form"},
    {"opposition R 8.5", "", "2:14:number-form"},
    {"opposition R 3-8", "", "2:14:number-form"},
    {"hip flexion R A lacks 8", "", "2:17:number-form"},
    {"shoulder abduction R A lacks 8", "", "2:24:number-form"},
    {"hip extension R A hyper 10", "", "2:19:number-form"},
    {"knee extension R A 10", "", "2:20:ambiguous-extension"},
    {"index PIP extension R A 10", "", "2:25:ambiguous-extension"},
    {"knee flexion R A both 0-30", "", "2:18:syntax"},
    {"hip flexion B A 0-120", "", "2:17:syntax"},
    {"hip flexion R A T7", "", "2:17:syntax"},
    {"hand-behind-back R 7", "", "2:20:number-form"},
    {"knee flexion R A 0-120 120", "", "2:24:syntax"}, /* trials of two forms */
    {"jaw opening A 40 mm 4 cm", "", "2:21:syntax"},
    {"knee flexion R A 0-120 firm 0-122", "", "2:29:syntax"},
    {"knee flexion R A 0-120; 0-122",
	"knee flexion right active measured 0..120", "2:25:syntax"},
    {"knee flexion R NT 0-120", "", "2:19:syntax"},
    {"hip flexion/abduction R A 120-0-30", "", "2:13:syntax"},
};

START_TEST(a_wrong_value_is_told)
{
	expect_example(BEFORE, &wrong_values[_i]);
}
END_TEST

/* --- qualifiers
 * ------------------------------------------------------------------- */

/* The cells behind a reading, from `pain` to `repetitions`, and the remark. */
static const struct {
	const char *text;
	const char *cells; /* pain,onset,arc,end feel,stopped by,reps,remark */
} qualifiers[] = {
    {"firm", ",,,firm,,,"},
    {"capsular", ",,,firm,,,"},
    {"tissue approximation", ",,,soft,,,"},
    {"bony", ",,,hard,,,"},
    {"springy-block", ",,,springy,,,"},
    {"spasm", ",,,guarding,,,"},
    {"boggy", ",,,boggy,,,"},
    {"empty", ",,,empty,,,"},
    {"pain 3", "3,,,,,,"},
    {"pain 3/10", "3,,,,,,"},
    {"pain 2.5 at 40", "2.5,40,,,,,"},
    {"pain at 40", ",40,,,,,"},
    {"painful-arc 60-110", ",,60-110,,,,"},
    {"stopped-by pain", ",,,,pain,,"},
    {"stopped by stiffness", ",,,,stiffness,,"},
    {"after 5 reps", ",,,,,5,"},
    {"\"sore\"", ",,,,,,sore"},
    {"\"sore\" \"again\"", ",,,,,,sore; again"},
    {"substitution \"trunk leans\"", ",,,,,,trunk leans"},
    {"firm pain 3 at 40 stopped-by pain after 5 reps \"sore\"",
	"3,40,,firm,pain,5,sore"},
};

START_TEST(a_qualifier_is_read)
{
	static const int columns[] = {19, 20, 21, 22, 23, 24, 28};
	struct buffer text = {0}, got = {0};
	struct read_note n;

	buffer_printf(&text, BEFORE "shoulder abduction R P 0-120 %s",
	    qualifiers[_i].text);
	read_note(&n, text.data, text.len, false);
	ck_assert_uint_eq(n.findings.len, 0);
	ck_assert_uint_eq(n.rows.len, 1);
	for (int i = 0; i < 7; i++)
		buffer_printf(
		    &got, "%s%s", i ? "," : "", n.rows.at[0].cell[columns[i]]);
	expect_text_of(&got, qualifiers[_i].cells, qualifiers[_i].text);
	read_note_free(&n);
	buffer_free(&got);
	buffer_free(&text);
}
END_TEST

static const struct example wrong_qualifiers[] = {
    {"knee flexion R P 0-120 firm firm", "", "2:29:syntax"},
    {"knee flexion R P 0-120 pain 3 pain 4", "", "2:31:syntax"},
    {"knee flexion R P 0-120 pain", "", "2:28:syntax"},
    {"knee flexion R P 0-120 pain -3", "", "2:29:number-form"},
    {"knee flexion R P 0-120 painful-arc 60", "", "2:36:syntax"},
    {"knee flexion R P 0-120 stopped-by rain", "", "2:35:unknown-word"},
    {"knee flexion R P 0-120 after reps", "", "2:30:syntax"},
    {"knee flexion R P 0-120 after 2.5 reps", "", "2:30:number-form"},
    {"knee flexion R P 0-120 by", "", "2:26:syntax"},
    {"knee flexion R P 0-120 with wobble", "", "2:29:unknown-word"},
    {"knee flexion R P 0-120 substitution", "", "2:36:syntax"},
    {"knee flexion R P 0-120 \"sore", "", "2:24:open-quote"},
    {"knee flexion R P 0-120 frim", "", "2:24:unknown-word"},
    {"knee flexion R P firm 0-120", "", "2:18:syntax"},
    {"knee flexion R P 0-120 supine", "", "2:24:syntax"},
};

START_TEST(a_wrong_qualifier_is_told)
{
	expect_example(BEFORE, &wrong_qualifiers[_i]);
}
END_TEST

/* Of a hinge's pair: flexion's, extension's cells. */
START_TEST(qualifiers_of_a_pair)
{
	struct read_note n;
	static const char text[] =
	    BEFORE "knee R P 4-121 hard/soft pain 3 \"tight\" after 5 reps "
		   "by kk with inclinometer";
	const struct row *flexion, *extension;

	read_note(&n, text, strlen(text), false);
	ck_assert_uint_eq(n.findings.len, 0);
	ck_assert_uint_eq(n.rows.len, 2);
	flexion = &n.rows.at[0];
	extension = &n.rows.at[1];
	ck_assert_str_eq(flexion->cell[COL_MOTION], "flexion");
	ck_assert_str_eq(flexion->cell[22], "soft");
	ck_assert_str_eq(extension->cell[22], "hard");
	ck_assert_str_eq(flexion->cell[19], "3");
	ck_assert_str_eq(extension->cell[19], "");
	ck_assert_str_eq(flexion->cell[28], "tight");
	ck_assert_str_eq(extension->cell[28], "");
	for (int i = 0; i < 2; i++) {
		ck_assert_str_eq(n.rows.at[i].cell[24], "5");
		ck_assert_str_eq(n.rows.at[i].cell[26], "kk");
		ck_assert_str_eq(n.rows.at[i].cell[27], "inclinometer");
	}
	read_note_free(&n);
}
END_TEST

#define LOOP(tc, test, table)                                                  \
	tcase_add_loop_test(                                                   \
	    tc, test, 0, (int)(sizeof(table) / sizeof(*(table))))

Suite *syntax_suite(void);

Suite *
syntax_suite(void)
{
	Suite *suite = suite_create("syntax");
	TCase *tc = tcase_create("values");

	tcase_add_checked_fixture(tc, NULL, read_note_end);
	LOOP(tc, a_value_is_read, values);
	LOOP(tc, a_wrong_value_is_told, wrong_values);
	LOOP(tc, a_qualifier_is_read, qualifiers);
	LOOP(tc, a_wrong_qualifier_is_told, wrong_qualifiers);
	tcase_add_test(tc, qualifiers_of_a_pair);
	suite_add_tcase(suite, tc);
	return suite;
}
