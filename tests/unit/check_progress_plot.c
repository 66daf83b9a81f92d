/*
 * Progress drawn: well-formed whatever the texts hold, to scale, and told
 * apart without colours.
 */
#include "progress_note.h"

#include <stdio.h>

#include "write/progress_scale.h"
#include "write/svg.h"

static const struct {
	const char *text, *escaped;
} escapes[] = {{"elbow", "elbow"}, {"a < b & c > d", "a &lt; b &amp; c &gt; d"},
    {"\"it's\"", "&quot;it&#39;s&quot;"}, {"]]>", "]]&gt;"},
    {"\x01\x1b[1m", "\xef\xbf\xbd\xef\xbf\xbd[1m"}, {"a\xff", "a\xef\xbf\xbd"},
    {"\xef\xbf\xbe", "\xef\xbf\xbd"}, {"\xc2\x85", "\xef\xbf\xbd"},
    {"\xc3\xa9 \xe2\x82\xac", "\xc3\xa9 \xe2\x82\xac"}, {"", ""}};

START_TEST(nothing_in_a_text_is_markup)
{
	svg_escape(&out, escapes[_i].text, strlen(escapes[_i].text));
	buffer_putc(&out, '\0');
	ck_assert_str_eq(out.data, escapes[_i].escaped);
}
END_TEST

/* What is taken in, the least step, and the scale that comes of it. */
static const struct {
	double low, high, least, from, to, step;
} scales[] = {{82, 111, 0, 80, 115, 5}, {0, 100, 0, 0, 100, 20},
    {-28, 12, 0, -30, 20, 10}, {7, 10, 1, 7, 10, 1}, {4, 4, 0, 4, 4.2, 0.2},
    {4, 4.6, 0, 4, 4.6, 0.1}, {0, 1900, 0, 0, 2000, 500}};

START_TEST(scales_are_round)
{
	struct scale scale = {.from = 200, .to = 100};
	double step;

	scale_take(&scale, scales[_i].high);
	scale_take(&scale, scales[_i].low);
	step = scale_round(&scale, scales[_i].least);
	ck_assert_double_eq_tol(step, scales[_i].step, 1e-9);
	ck_assert_double_eq_tol(scale.low, scales[_i].from, 1e-9);
	ck_assert_double_eq_tol(scale.high, scales[_i].to, 1e-9);
	ck_assert_double_eq_tol(scale_place(&scale, scale.low), 200, 1e-9);
	ck_assert_double_eq_tol(scale_place(&scale, scale.high), 100, 1e-9);
}
END_TEST

static const char *
drawn(const char *note)
{
	follow_note(note);
	out.len = 0;
	progress_plot(&out, progress);
	buffer_putc(&out, '\0');
	return out.data;
}

static int
count(const char *text, const char *part)
{
	int n = 0;

	for (; (text = strstr(text, part)); text++)
		n++;
	return n;
}

/* Every element that is opened is closed, in turn; quotes come in pairs. */
static void
expect_well_formed(const char *text)
{
	const char *open[16];
	size_t depth = 0;

	for (; (text = strchr(text, '<')); text++) {
		const char *end = strchr(text, '>');
		size_t name = strcspn(text + 1, " />");

		ck_assert_ptr_nonnull(end);
		if (text[1] == '?')
			continue;
		if (text[1] == '/') {
			ck_assert_uint_gt(depth, 0);
			depth--;
			ck_assert_int_eq(strncmp(open[depth], text + 2,
					     strcspn(text + 2, ">")),
			    0);
		} else if (end[-1] != '/') {
			ck_assert_uint_lt(depth, 16);
			open[depth++] = text + 1;
		}
		ck_assert_uint_gt(name + (text[1] == '/'), 0);
		for (const char *c = text + 1; c < end; c++)
			ck_assert_int_ne(*c, '<');
	}
	ck_assert_uint_eq(depth, 0);
}

static const char elbow[] =
    "subject PG-01\ninvolved right elbow\n"
    "surgery 2026-04-20 \"plate & <screws>\"\n"
    "goal right elbow flexion active 130 by 2026-07-01\n"
    "rater ab\ninstrument goniometer step 1\n"
    "session 2026-05-04\nelbow flexion R A 0-90 L A 0-140\n"
    "hand-behind-back R L5\n"
    "session 2026-05-11\nelbow flexion R A 0-100\nhand-behind-back R L3\n"
    "session 2026-05-18\nelbow flexion R A 0-120 by cd\n"
    "hip flexion R A 0-120\n";

START_TEST(a_chart_shows_what_it_should)
{
	const char *text = drawn(elbow);

	expect_well_formed(text);
	ck_assert_int_eq(count(text, "<g role=\"img\""), 1);
	ck_assert_int_eq(count(text, "<title"), 2);
	ck_assert_int_eq(count(text, "<desc"), 2);
	ck_assert_int_eq(count(text, "viewBox=\"0 0 760 "), 1);
	ck_assert_int_eq(count(text, "class=\"disc\""), 4); /* one a label */
	ck_assert_int_eq(count(text, "class=\"square\""), 2);
	ck_assert_int_eq(count(text, "class=\"main\""), 1);
	ck_assert_int_eq(count(text, "class=\"unsure\""), 1); /* rater cd */
	ck_assert_int_eq(count(text, "class=\"goal\""), 1);
	ck_assert_int_eq(count(text, "class=\"event\""), 1);
	ck_assert_int_eq(count(text, "class=\"band\""), 1);
	ck_assert_int_eq(count(text, ">goal 130 by 2026-07-01<"), 1);
	ck_assert_int_eq(count(text, ">surgery 2026-04-20<"), 1);
	ck_assert_int_eq(count(text, ">right 0-120<"), 1);
	ck_assert_int_eq(count(text, ">left 0-140, 2026-05-04<"), 1);
	ck_assert_int_eq(count(text, "right: 2026-05-04 0-90; 2026-05-11 0-100;"
				     " 2026-05-18 0-120. left: "
				     "2026-05-04 0-140</desc>"),
	    1);
	ck_assert_int_eq(count(text, "vertebral level has no scale: 1."), 1);
	ck_assert_int_eq(count(text, "second session with a figure: 1."), 1);
}
END_TEST

/* 90, 100 and 120 stand where a scale of 80 to 140 has them. */
START_TEST(marks_stand_to_scale)
{
	double y[4] = {0};
	const char *text = drawn(elbow);

	for (int i = 0; i < 4; i++) {
		text = strstr(text, "class=\"disc\"");
		ck_assert_ptr_nonnull(text);
		text = strstr(text, "cy=\"") + 4;
		y[i] = strtod(text, NULL);
	}
	ck_assert_double_eq_tol((y[0] - y[1]) * 2, y[1] - y[2], 0.4);
	ck_assert_double_gt(y[0], y[1]);
}
END_TEST

START_TEST(texts_cannot_break_out)
{
	const char *text =
	    drawn("subject PG-01\nsession 2026-05-04 \"</svg><script>\"\n"
		  "hip flexion R A 0-80\nhip abduction R A NT \"]]> & <b\"\n"
		  "session 2026-05-11\nhip flexion R A 0-85\n"
		  "hip abduction R A 0-20\nsession 2026-05-12\n"
		  "hip abduction R A 0-22\nhip flexion R A 90-10\n");

	expect_well_formed(text);
	ck_assert_int_eq(count(text, "<script"), 0);
	ck_assert_int_eq(count(text, "class=\"cross\""), 1);
	ck_assert_int_eq(count(text, ">NT<"), 1);
}
END_TEST

/* Short of zero in words, where more is up, and nothing without a course. */
START_TEST(lacks_are_words_and_nothing_is_said)
{
	const char *text =
	    drawn(HEAD "session 2026-05-04\nelbow extension R A lacks 18\n"
		       "session 2026-05-11\nelbow extension R A lacks 12\n");

	ck_assert_int_ge(count(text, ">lacks "), 3);
	ck_assert_int_eq(count(text, ">-"), 0);
	ck_assert_int_eq(count(text, "lacks -"), 0);
	progress_free(progress);
	progress = NULL;
	text = drawn(HEAD "session 2026-05-04\nring tip-to-crease R 2 mm\n"
			  "session 2026-05-11\nring tip-to-crease R 1 mm\n");
	ck_assert_int_eq(count(text, "<g role"), 1);
	ck_assert_int_eq(count(text, ">-"), 0);
	progress_free(progress);
	progress = NULL;
	text = drawn(HEAD "session 2026-05-04\nelbow R A 10-100\n");
	expect_well_formed(text);
	ck_assert_int_eq(count(text, "<g role"), 0);
	ck_assert_int_eq(count(text, "there is no course to draw"), 1);
}
END_TEST

/* A goal far from all that was measured stands inside the field all the same.
 */
START_TEST(a_goal_is_inside_the_field)
{
	const char *text =
	    drawn(HEAD "goal right hip flexion active 125\n"
		       "session 2026-05-04\nhip flexion R A 0-30\n"
		       "session 2026-05-11\nhip flexion R A 0-34\n");
	double top, goal, bottom;

	bottom = strtod(strstr(text, "y1=\"") + 4, NULL); /* the axis */
	top = strtod(strstr(strstr(text, "x2=\"84.0\""), "y2=\"") + 4, NULL);
	goal =
	    strtod(strstr(strstr(text, "class=\"goal\""), "y1=\"") + 4, NULL);
	ck_assert_double_lt(top, goal);
	ck_assert_double_lt(goal, bottom);
}
END_TEST

/* The number behind NAME=" in the first element that holds PART. */
static double
number_of(const char *text, const char *part, const char *name)
{
	const char *at = strstr(text, part);
	char attribute[16];

	ck_assert_msg(at != NULL, "no %s in:\n%s", part, text);
	while (*at != '<')
		at--;
	snprintf(attribute, sizeof(attribute), " %s=\"", name);
	at = strstr(at, attribute);
	ck_assert_ptr_nonnull(at);
	return strtod(at + strlen(attribute) + (name[0] == 'd'), NULL);
}

/* Where the first path of CLASS begins. */
static double
y_of_path(const char *text, const char *class)
{
	const char *at = strstr(text, class);

	ck_assert_msg(at != NULL, "no %s in:\n%s", class, text);
	at = strchr(strstr(at, " d=\"M"), ' ') + 5;
	return strtod(strchr(at, ' '), NULL);
}

/* 90 and 130 of a scale from 40 on; the words of the note below the chart. */
START_TEST(a_limit_is_drawn_and_told)
{
	const char *text =
	    drawn(HEAD "precaution right hip flexion max 90 until 2026-06-30 "
		       "\"<a> protocol\"\n"
		       "precaution left hip no active\n"
		       "goal right hip flexion active 130\n"
		       "session 2026-05-04\nhip flexion R A 0-62 L A 0-62\n"
		       "session 2026-05-11\nhip flexion R A 0-80 L A 0-80\n");
	double bottom = number_of(text, "class=\"axis\"", "y1");
	double top = number_of(text, "x2=\"84.0\"", "y2");
	double goal = number_of(text, "class=\"goal\"", "y1");
	double limit = y_of_path(text, "class=\"limit\"");

	expect_well_formed(text);
	ck_assert_int_eq(count(text, "class=\"limit\""), 1);
	ck_assert_double_lt(top, limit);
	ck_assert_double_lt(limit, bottom);
	ck_assert_double_eq_tol(
	    (bottom - limit) / (bottom - goal), 50.0 / 90, 0.01);
	ck_assert_int_eq(count(text, ">right max 90 until 2026-06-30<"), 1);
	ck_assert_int_eq(
	    count(text, ">line with strokes: precaution in force on "
			"2026-05-11: right hip flexion max 90 until 2026-06-30"
			"<"),
	    1);
	ck_assert_int_eq(count(text, ">&quot;&lt;a&gt; protocol&quot;<"), 1);
	ck_assert_int_eq(count(text, ">precaution in force on 2026-05-11: left "
				     "hip no active motion<"),
	    1);
	ck_assert_int_eq(count(text, "precaution in force"), 4); /* and desc */
}
END_TEST

/* One that is over is not drawn; one of the last session begins there. */
START_TEST(a_limit_is_drawn_while_it_is_in_force)
{
	const char *text =
	    drawn(HEAD "precaution right hip flexion max 70 until 2026-05-10\n"
		       "session 2026-05-04\nhip flexion R A 0-62\n"
		       "session 2026-05-11\nhip flexion R A 0-80\n"
		       "precaution hip flexion max 100.5 until 2026-05-31\n");
	double last = number_of(text, "class=\"disc\"", "cx");

	ck_assert_int_eq(count(text, "max 70"), 0);
	ck_assert_int_eq(count(text, "class=\"limit\""), 1);
	ck_assert_int_eq(count(text, ">max 100.5 until 2026-05-31<"), 1);
	ck_assert_double_lt(last, number_of(text, "class=\"limit\"", "d"));
}
END_TEST

/* Within the field, though nothing was measured since. */
START_TEST(a_limit_since_the_last_figure_is_drawn_at_its_end)
{
	const char *text =
	    drawn(HEAD "session 2026-05-04\nhip flexion R A 0-62\n"
		       "session 2026-05-11\nhip flexion R A 0-80\n"
		       "session 2026-06-30\nhip extension R A 0-5\n"
		       "precaution hip flexion max 70\n");

	ck_assert_int_eq(count(text, "class=\"limit\" d=\"M544.0 "), 1);
}
END_TEST

/* How far extension may go is no height in a chart of flexion. */
START_TEST(a_limit_of_the_opposite_motion_is_told_alone)
{
	const char *text =
	    drawn(HEAD "precaution right knee extension max lacks 10\n"
		       "session 2026-05-04\nknee flexion R A 10-62\n"
		       "session 2026-05-11\nknee flexion R A 10-80\n");

	ck_assert_int_eq(count(text, "class=\"limit\""), 0);
	ck_assert_int_eq(count(text, ">precaution in force on 2026-05-11: "
				     "right knee extension max lacks 10<"),
	    1);
}
END_TEST

/* What is a long way off the scale would press all else together. */
START_TEST(a_doubtful_reading_stands_in_its_place)
{
	const char *text =
	    drawn(HEAD "session 2026-05-04\nhip flexion R A 0-70\n"
		       "session 2026-05-11\nhip flexion R A 90-80\n"
		       "session 2026-05-18\nhip flexion R A 0-90\n");
	double bottom = number_of(text, "class=\"axis\"", "y1");
	double top = number_of(text, "x2=\"84.0\"", "y2");

	/* 80 of a scale of 65 to 90; the cross begins 4 above its middle */
	ck_assert_double_eq_tol(
	    (bottom - y_of_path(text, "class=\"cross\"") - 4) / (bottom - top),
	    15.0 / 25, 0.01);
	ck_assert_int_eq(count(text, ">90-80<"), 1);
	ck_assert_int_eq(count(text, "not compared<"), 1);
	progress_free(progress);
	progress = NULL;
	text = drawn(HEAD "session 2026-05-04\nhip flexion R A 0-70\n"
			  "session 2026-05-11\nhip flexion R A 90-10\n"
			  "session 2026-05-18\nhip flexion R A 0-90\n");
	bottom = number_of(text, "class=\"axis\"", "y1");
	ck_assert_double_eq_tol(
	    y_of_path(text, "class=\"cross\"") + 4, bottom, 0.1);
	ck_assert_int_eq(count(text, "not compared; at the edge: off the "
				     "scale<"),
	    1);
}
END_TEST

/* What check warns of is drawn like any other; a sign tells, and below why. */
START_TEST(what_check_warns_of_is_marked_and_told)
{
	const char *text =
	    drawn(HEAD "session 2026-05-04\nhip flexion R A 0-80 L A 0-85\n"
		       "session 2026-05-11\nhip flexion R A 0-82.5 L A 0-86\n"
		       "session 2026-05-18\nhip flexion R A 0-35 L A 0-87\n");

	expect_well_formed(text);
	ck_assert_int_eq(count(text, ">?<"), 2);
	ck_assert_int_eq(count(text, ">right 0-35?<"), 1);
	ck_assert_int_eq(count(text, ">left 0-87<"), 1);
	ck_assert_int_eq(count(text, "class=\"cross\""), 0);
	ck_assert_int_eq(
	    count(text, ">?: check warns of it; compared all the same: right "
			"0-82.5 of 2026-05-11 [off-scale]; 0-35 of<"),
	    1);
	ck_assert_int_eq(count(text, ">2026-05-18 [drop-from-last]<"), 1);
	ck_assert_int_eq(count(text, "compared all the same: left"), 0);
	ck_assert_int_eq(count(text, "2026-05-18 0-35 [drop-from-last]. left"),
	    1); /* in the words of the chart */
	progress_free(progress);
	progress = NULL;
	text = drawn(elbow);
	ck_assert_int_eq(count(text, "?<"), 0);
	ck_assert_int_eq(count(text, "check warns"), 0);
}
END_TEST

/* The disc of one side lies inside the open square of the other. */
START_TEST(equal_sides_are_told_apart)
{
	const char *text =
	    drawn(HEAD "session 2026-05-04\nhip flexion R A 0-70 L A 0-70\n"
		       "session 2026-05-11\nhip flexion R A 0-75 L A 0-75\n");
	const char *square = strstr(text, "class=\"square\"");
	const char *disc = strstr(text, "class=\"disc\"");
	double wide = number_of(square, "class=\"square\"", "width");

	ck_assert_ptr_nonnull(disc);
	ck_assert(square < disc); /* or it would hide the disc */
	ck_assert_double_gt(
	    wide, 2 * number_of(disc, "class=\"disc\"", "r") + 2);
	ck_assert_double_eq_tol(
	    number_of(square, "class=\"square\"", "x") + wide / 2,
	    number_of(disc, "class=\"disc\"", "cx"), 0.11);
	ck_assert_double_eq_tol(
	    number_of(square, "class=\"square\"", "y") + wide / 2,
	    number_of(disc, "class=\"disc\"", "cy"), 0.11);
}
END_TEST

/*
 * At 7 pixels a letter no text passes the right edge, and no label leaves the
 * field, however long the texts of the note are.
 */
START_TEST(texts_stay_within_the_drawing)
{
	struct buffer note = {0};
	const char *text;
	double bottom;

	buffer_puts(&note, HEAD "precaution hip flexion max 61 \"");
	for (int i = 0; i < 400; i++)
		buffer_puts(&note, i % 150 < 30 ? "a" : "W");
	buffer_puts(&note,
	    "\"\nprecaution right hip flexion max 60.5 until "
	    "2026-06-30 \"the wound is to be looked after, and "
	    "who is in doubt asks the surgeon before the "
	    "motion is tried\"\n"
	    "goal right hip flexion active 60.5 by 2026-07-31\n"
	    "session 2026-05-04\nhip flexion R A 0-60 L A 0-60\n"
	    "session 2026-05-11\nhip flexion R A 0-60 L A 0-60\n");
	buffer_putc(&note, '\0');
	text = drawn(note.data);
	bottom = number_of(text, "class=\"axis\"", "y1");
	ck_assert_int_gt(count(text, "<text class=\"small\""), 20);
	for (; (text = strstr(text, "<text class=\"small\"")); text++) {
		const char *end = strchr(text, '<') + 1;
		const char *words = strchr(end, '>') + 1;
		size_t letters = strcspn(words, "<");
		double x = strtod(strstr(text, " x=\"") + 4, NULL);
		double y = strtod(strstr(text, " y=\"") + 4, NULL);
		bool start = strncmp(strstr(text, "text-anchor=\"") + 13,
				 "start", 5) == 0;

		if (!start)
			continue;
		ck_assert_msg(x + (x < 500 ? 7.0 : 6.0) * (double)letters < 760,
		    "too long: %.*s", (int)letters, words);
		ck_assert(x < 570 || y <= bottom + 5);
	}
	buffer_free(&note);
}
END_TEST

/* Nothing has a colour: greys have three equal parts. */
START_TEST(all_is_grey)
{
	const char *text = drawn(elbow);

	ck_assert_int_gt(count(text, "#"), 5);
	for (; (text = strchr(text, '#')); text++) {
		size_t n = strspn(text + 1, "0123456789abcdef");

		if (text[-1] == '&')
			continue; /* a character by number */
		ck_assert(n == 3 || n == 6);
		ck_assert_int_eq(strncmp(text + 1, text + 1 + n / 3, n / 3), 0);
		ck_assert_int_eq(
		    strncmp(text + 1, text + 1 + 2 * n / 3, n / 3), 0);
	}
}
END_TEST

TCase *
progress_plot_case(void)
{
	TCase *tcase = tcase_create("plot");

	tcase_add_checked_fixture(tcase, NULL, tear_down_progress);
	tcase_add_loop_test(tcase, nothing_in_a_text_is_markup, 0,
	    (int)(sizeof(escapes) / sizeof(*escapes)));
	tcase_add_loop_test(tcase, scales_are_round, 0,
	    (int)(sizeof(scales) / sizeof(*scales)));
	tcase_add_test(tcase, a_chart_shows_what_it_should);
	tcase_add_test(tcase, marks_stand_to_scale);
	tcase_add_test(tcase, texts_cannot_break_out);
	tcase_add_test(tcase, lacks_are_words_and_nothing_is_said);
	tcase_add_test(tcase, a_goal_is_inside_the_field);
	tcase_add_test(tcase, all_is_grey);
	tcase_add_test(tcase, a_limit_is_drawn_and_told);
	tcase_add_test(tcase, a_limit_is_drawn_while_it_is_in_force);
	tcase_add_test(
	    tcase, a_limit_since_the_last_figure_is_drawn_at_its_end);
	tcase_add_test(tcase, a_limit_of_the_opposite_motion_is_told_alone);
	tcase_add_test(tcase, a_doubtful_reading_stands_in_its_place);
	tcase_add_test(tcase, what_check_warns_of_is_marked_and_told);
	tcase_add_test(tcase, equal_sides_are_told_apart);
	tcase_add_test(tcase, texts_stay_within_the_drawing);
	return tcase;
}
