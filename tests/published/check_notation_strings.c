/*
 * Published neutral-zero and SFTR strings with their published meaning, each
 * written in this notation and read by it. data/notation_strings.tsv has them
 * as they were taken down, with where each was read; those that nobody has
 * seen (verified: no) are left out. A string that cannot be written says why.
 *
 * Few of the sources name a side or a mode, which a reading must have: R and
 * A are put in where the source has none.
 */
#include <stdio.h>

#include "../unit/read_example.h"

struct published {
	const char *source;  /* key in the table */
	const char *string;  /* as published */
	struct example here; /* text NULL: it cannot be written */
	const char *why;     /* it cannot; or what else there is to know */
};

#define NOT_HERE                                                               \
	{                                                                      \
		NULL, NULL, NULL                                               \
	}

/* "S 15-0-120" and so on: E extension, F flexion, of the row's meaning. */
static const struct published strings[] = {
    {"ISOM_SFTR_PL", "S 15-0-120",
	{"hip extension/flexion R A 15-0-120",
	    "hip extension right active measured 0..15; "
	    "hip flexion right active measured 0..120",
	    NULL},
	NULL},
    {"ISOM_SFTR_PL", "15-0-125",
	{"hip extension/flexion R A 15-0-125",
	    "hip extension right active measured 0..15; "
	    "hip flexion right active measured 0..125",
	    NULL},
	NULL},
    /* Extension, abduction, external rotation, eversion come first. */
    {"ISOM_SFTR_PL", "order rule",
	{"hip extension/flexion R A 15-0-120\n"
	 "hip abduction/adduction R A 45-0-30\n"
	 "hip external rotation/internal rotation R A 40-0-35\n"
	 "subtalar eversion/inversion R A 10-0-25",
	    "hip extension right active measured 0..15; "
	    "hip flexion right active measured 0..120; "
	    "hip abduction right active measured 0..45; "
	    "hip adduction right active measured 0..30; "
	    "hip external rotation right active measured 0..40; "
	    "hip internal rotation right active measured 0..35; "
	    "subtalar eversion right active measured 0..10; "
	    "subtalar inversion right active measured 0..25",
	    NULL},
	"the spine's left-0-right is two readings here, L and R"},
    {"Lexikon_Orthopaedie", "10/0/130 (Ext/Flex)",
	{"hip extension/flexion R A 10/0/130",
	    "hip extension right active measured 0..10; "
	    "hip flexion right active measured 0..130",
	    NULL},
	NULL},
    {"de_wiki_copy", "10-0-150",
	{"elbow R A 10-0-150",
	    "elbow flexion right active measured 0..150; "
	    "elbow extension right active measured 0..10",
	    NULL},
	NULL},
    {"fernlehrgang", "150-0-5 (Beugung-Streckung)",
	{"knee flexion/extension R A 150-0-5",
	    "knee flexion right active measured 0..150; "
	    "knee extension right active measured 0..5",
	    NULL},
	NULL},
    {"fernlehrgang", "5-0-150 (Streckung-Beugung)",
	{"knee extension/flexion R A 5-0-150",
	    "knee extension right active measured 0..5; "
	    "knee flexion right active measured 0..150",
	    NULL},
	NULL},
    {"fernlehrgang", "150-20-0 (Beugung-Streckung)",
	{"knee flexion/extension R A 150-20-0",
	    "knee flexion right active measured 20..150; "
	    "knee extension right active lacks -20",
	    NULL},
	NULL},
    {"fernlehrgang", "10/10/0 (Ext/Flex)",
	{"knee extension/flexion R A 10/10/0",
	    "knee extension right active fixed 10..10; "
	    "knee flexion right active lacks -10",
	    NULL},
	NULL},
    {"dr_gumpert", "10-0-120",
	{"knee extension/flexion R A 10-0-120",
	    "knee extension right active measured 0..10; "
	    "knee flexion right active measured 0..120",
	    NULL},
	"the source names no joint"},
    {"frage_de", "10-0-80 (Retro/Anteversion)",
	{"shoulder extension/flexion R A 10-0-80",
	    "shoulder extension right active measured 0..10; "
	    "shoulder flexion right active measured 0..80",
	    NULL},
	NULL},
    /* The source keeps the motions apart; here 0-140 would contradict it. */
    {"VA_JW5", "extension to minus 10; flexion 0 to 140",
	{"knee extension R A lacks 10\nknee flexion R A 140",
	    "knee extension right active lacks -10; "
	    "knee flexion right active end-only 0..140",
	    NULL},
	"as one axis it is knee R A 10-140"},
    {"VA_DBQ_knee", "extension ends at 10",
	{"knee extension R A lacks 10", "knee extension right active lacks -10",
	    NULL},
	"extension 10 alone is ambiguous-extension, see below"},
    {"quia_OT", "supination 30-80 => pronation -30",
	{"forearm supination R A 30-80\nforearm pronation R A lacks 30",
	    "forearm supination right active measured 30..80; "
	    "forearm pronation right active lacks -30",
	    NULL},
	NULL},
    {"quia_OT", "wrist flexion 10-50 => extension -10",
	{"wrist flexion R A 10-50\nwrist extension R A lacks 10",
	    "wrist flexion right active measured 10..50; "
	    "wrist extension right active lacks -10",
	    NULL},
	NULL},
    {"AAOS_via_JPO", "30 to 90",
	{"elbow R A 30 to 90",
	    "elbow flexion right active measured 30..90; "
	    "elbow extension right active lacks -30",
	    NULL},
	NULL},
    {"OTR_exam", "MCP 0-45, PIP 10-60, DIP 10-40",
	{"index R A MCP 0-45, PIP 10-60, DIP 10-40",
	    "index MCP flexion right active measured 0..45; "
	    "index MCP extension right active lacks 0; "
	    "index PIP flexion right active measured 10..60; "
	    "index PIP extension right active lacks -10; "
	    "index DIP flexion right active measured 10..40; "
	    "index DIP extension right active lacks -10",
	    NULL},
	NULL},
    {"rehablearning", "AROM R shoulder flex 0-50",
	{"AROM R shoulder flex 0-50\nAROM R shoulder flex 50\n"
	 "AROM R shoulder flex WFL",
	    "shoulder flexion right active measured 0..50; "
	    "shoulder flexion right active end-only 0..50; "
	    "shoulder flexion right active WFL",
	    NULL},
	NULL},
    {"CPUP_2009", "extension deficit reported with minus",
	{"knee extension R P lacks 15\nknee extension R P -15",
	    "knee extension right passive lacks -15", "3:20:number-form"},
	"a minus sign is never read; lacks is"},
    {"IKDC2000", "passive __/__/__ and active __/__/__ (Ext/Flex)",
	{"knee extension/flexion R P 5/0/140 A 3/0/135",
	    "knee extension right passive measured 0..5; "
	    "knee flexion right passive measured 0..140; "
	    "knee extension right active measured 0..3; "
	    "knee flexion right active measured 0..135",
	    NULL},
	"the form has empty fields: these figures are invented"},
    {"system_1920", "180 = neutral, motion toward 0", NOT_HERE,
	"its figures count down from 180; they are no angles from zero, and "
	"turning them round is for whoever knows that they are such"},
};
enum { STRINGS = sizeof(strings) / sizeof(*strings) };

START_TEST(a_published_string_means_what_its_source_says)
{
	if (strings[_i].here.text)
		expect_example("session 2026-05-04\n", &strings[_i].here);
	else
		ck_assert_ptr_nonnull(strings[_i].why);
}
END_TEST

/* --- no string is passed over
 * ---------------------------------------------------- */

static const struct published *
find(const char *source, const char *string)
{
	for (size_t i = 0; i < STRINGS; i++)
		if (strcmp(strings[i].source, source) == 0 &&
		    strcmp(strings[i].string, string) == 0)
			return &strings[i];
	return NULL;
}

START_TEST(every_string_that_was_read_is_tried)
{
	FILE *file = fopen("tests/published/data/notation_strings.tsv", "r");
	char line[1024];
	size_t n = 0;

	ck_assert_msg(file != NULL, "run the tests in the project's folder");
	ck_assert_ptr_nonnull(fgets(line, sizeof(line), file));
	while (fgets(line, sizeof(line), file)) {
		char *rest = line, *cell[7];

		for (int i = 0; i < 7; i++)
			cell[i] = strsep(&rest, "\t\n");
		if (strcmp(cell[6], "yes") != 0)
			continue;
		n++;
		ck_assert_msg(find(cell[0], cell[2]) != NULL,
		    "%s: '%s' is not tried", cell[0], cell[2]);
	}
	fclose(file);
	ck_assert_uint_eq(n, STRINGS);
}
END_TEST

/* --- what follows from them
 * ------------------------------------------------------- */

/* OTR_exam: the total of that finger is 125. */
START_TEST(the_arcs_of_a_finger_add_up)
{
	static const char text[] = "session 2026-05-04\n"
				   "index R A MCP 0-45 PIP 10-60 DIP 10-40\n";
	struct read_note n;
	int total = 0;

	read_note(&n, text, strlen(text), false);
	for (size_t i = 0; i < n.rows.len; i++)
		total += atoi(n.rows.at[i].cell[COL_END + 1]);
	ck_assert_int_eq(total, 125);
	read_note_free(&n);
}
END_TEST

static bool
reports(const char *line, enum rule rule)
{
	struct buffer text = {0};
	struct read_note n;
	bool found = false;

	buffer_printf(&text, "session 2026-05-04\n%s\n", line);
	read_note(&n, text.data, text.len, true);
	for (size_t i = 0; i < n.findings.len; i++)
		found = found || n.findings.at[i].rule == rule;
	read_note_free(&n);
	buffer_free(&text);
	return found;
}

/*
 * "Extension 10" is 10 short of straight to VA_DBQ_knee, and 10 beyond it to
 * all who write 10-0-120: so the number alone is not read.
 */
START_TEST(extension_alone_is_ambiguous)
{
	ck_assert(reports("knee extension R A 10", RULE_AMBIGUOUS_EXTENSION));
	ck_assert(
	    !reports("knee extension R A lacks 10", RULE_AMBIGUOUS_EXTENSION));
	ck_assert(
	    !reports("knee extension R A hyper 10", RULE_AMBIGUOUS_EXTENSION));
}
END_TEST

/* VA_JW5: on one axis, flexion from 0 and 10 short of straight exclude. */
START_TEST(motions_kept_apart_may_contradict_on_the_axis)
{
	ck_assert(reports("knee extension R A lacks 10\n"
			  "knee flexion R A 0-140",
	    RULE_AXIS_CONTRADICTION));
	ck_assert(!reports("knee R A 10-140", RULE_AXIS_CONTRADICTION));
}
END_TEST

/* One knee in both orders, and as a hinge, is one pair of figures. */
START_TEST(the_order_named_says_which_is_which)
{
	static const char *const same[] = {"knee flexion/extension R A 150-0-5",
	    "knee extension/flexion R A 5-0-150", "knee R A 5-0-150"};

	for (int i = 0; i < 3; i++) {
		struct buffer text = {0};
		struct read_note n;

		buffer_printf(&text, "session 2026-05-04\n%s\n", same[i]);
		read_note(&n, text.data, text.len, false);
		ck_assert_uint_eq(n.rows.len, 2);
		for (size_t k = 0; k < 2; k++)
			ck_assert_str_eq(n.rows.at[k].cell[COL_END],
			    strcmp(n.rows.at[k].cell[COL_MOTION], "flexion") ==
				    0
				? "150"
				: "5");
		read_note_free(&n);
		buffer_free(&text);
	}
}
END_TEST

Suite *published_notation_suite(void);

Suite *
published_notation_suite(void)
{
	Suite *suite = suite_create("published notation strings");
	TCase *tc = tcase_create("strings");

	tcase_add_checked_fixture(tc, NULL, read_note_end);
	tcase_add_loop_test(
	    tc, a_published_string_means_what_its_source_says, 0, STRINGS);
	tcase_add_test(tc, every_string_that_was_read_is_tried);
	tcase_add_test(tc, the_arcs_of_a_finger_add_up);
	tcase_add_test(tc, extension_alone_is_ambiguous);
	tcase_add_test(tc, motions_kept_apart_may_contradict_on_the_axis);
	tcase_add_test(tc, the_order_named_says_which_is_which);
	suite_add_tcase(suite, tc);
	return suite;
}
