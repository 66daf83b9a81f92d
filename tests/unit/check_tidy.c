/*
 * The tidy writer: what it writes, its safety net and its memory. What it must
 * never change is in check_tidy_keeps.c. All people are invented.
 */
#include <check.h>
#include <unistd.h>

#include "tidy_note.h"

Suite *tidy_suite(void);

static struct buffer
text_of(const char *text)
{
	struct buffer buf = {0};

	buffer_puts(&buf, text);
	return buf;
}

/* --- what it writes --------------------------------------------------------
 */

/* As typed; then in long, short and kept spelling. */
static const struct {
	const char *typed, *spelled[3];
} written[] = {
    {"R knee flex AROM 0-120\n",
	{"R knee flexion  A 0-120\n", "R kn flex  A 0-120\n",
	    "R knee flex  AROM 0-120\n"}},
    {"SH Abd RA 0°-150 deg, LA 0 to 152;\n",
	{"shoulder abduction  R A 0-150  L A 0-152\n",
	    "sh abd  R A 0-150  L A 0-152\n",
	    "SH Abd  RA 0°-150 deg,  LA 0 to 152;\n"}},
    {"Elbow  flexion /ext  L a 130 - 0 - 5 hard / Soft\n",
	{"elbow flexion/extension  L A 130-0-5 hard/soft\n",
	    "elb flex/ext  L A 130-0-5 hard/soft\n",
	    "Elbow flexion /ext  L a 130 - 0 - 5 hard / Soft\n"}},
    {/* no blank before the #: unreadable, and kept */
	"jaw open A 38mm \"ok  so\"#\n",
	{"jaw open A 38mm \"ok  so\"#\n", "jaw open A 38mm \"ok  so\"#\n",
	    "jaw open A 38mm \"ok  so\"#\n"}},
    {"TMJ open A 38mm \"ok  so\" # he  said\n",
	{"jaw opening  A 38 mm \"ok  so\"  # he  said\n",
	    "jaw open  A 38 mm \"ok  so\"  # he  said\n",
	    "TMJ open  A 38mm \"ok  so\"  # he  said\n"}},
    {"c-spine LF L A 0-30\nLF PIP L A 2-95\n",
	{"cervical lateral flexion  L A 0-30\n"
	 "little PIP                L A 2-95\n",
	    "c-spine SB  L A 0-30\nSF PIP      L A 2-95\n",
	    "c-spine LF  L A 0-30\nLF PIP      L A 2-95\n"}},
    {"hbb r t5\nl T4\nt5 MTP ext r a 0-20\n",
	{"hand-behind-back         R T5\n"
	 "                         L T4\n"
	 "fifth-toe MTP extension  R A 0-20\n",
	    "HBB         R T5\n            L T4\nT5 MTP ext  R A 0-20\n",
	    "hbb         r t5\n            l T4\nt5 MTP ext  r a 0-20\n"}},
    {"involved Rt IF MCP PIP , foot,ft\n",
	{"involved    R IF MP PIP, foot, ft\n",
	    "involved    R IF MP PIP, foot, ft\n",
	    "involved    Rt IF MCP PIP, foot, ft\n"}},
    {"involved lt foot, ft\n",
	{"involved    left foot, ft\n", "involved    L foot, ft\n",
	    "involved    lt foot, ft\n"}},
    {"index MCP flexion R PH 0-70\nmode A\nR MF PIP 10-88\n",
	{"index MCP flexion  R place-and-hold 0-70\nmode        active\n"
	 "R middle PIP       10-88\n",
	    "IF MP flex  R PH 0-70\nmode        A\nR MF PIP    10-88\n",
	    "index MCP flexion  R PH 0-70\nmode        A\n"
	    "R MF PIP           10-88\n"}},
    {"\xef\xbb\xbf"
     "AGE 5\r\nsex  f",
	{"\xef\xbb\xbf"
	 "age         5\r\nsex         F",
	    "\xef\xbb\xbf"
	    "age         5\r\nsex         F",
	    "\xef\xbb\xbf"
	    "AGE         5\r\nsex         f"}},
    {"precautions left Elbow P Ext max lack 5\nmode PH\nsession "
     "2026-05-04  09:15   \"x\"\n",
	{"precaution  left elbow passive extension max lacks 5\n"
	 "mode        place-and-hold\nsession 2026-05-04 09:15 \"x\"\n",
	    "precaution  L elb P ext max lacks 5\n"
	    "mode        PH\nsession 2026-05-04 09:15 \"x\"\n",
	    "precautions left Elbow P Ext max lack 5\n"
	    "mode        PH\nsession 2026-05-04 09:15 \"x\"\n"}},
    {"rater PF\nShoulder ER R ABD-90 wb P 0-60.0 after 3 rep by R2 with gonio "
     "stopped by oedema\n",
	{"rater       PF\nshoulder external rotation R abducted-90 "
	 "weight-bearing  P 0-60.0 after 3 reps by R2 with goniometer "
	 "stopped-by swelling\n",
	    "rater       PF\nsh ER R abducted-90 WB  P 0-60.0 after 3 reps by "
	    "R2 with goniometer stopped-by swelling\n",
	    "rater       PF\nShoulder ER R ABD-90 wb  P 0-60.0 after 3 rep by "
	    "R2 with gonio stopped by oedema\n"}},
};

START_TEST(spells_alike)
{
	struct buffer text = text_of(written[_i].typed), out = {0};

	for (size_t k = 0; k < COUNT(spellings); k++) {
		struct buffer want = text_of(written[_i].spelled[k]);

		assert_tidy(&text, spellings[k], &out);
		assert_same(&out, &want, &text);
		buffer_free(&want);
	}
	buffer_free(&text);
	buffer_free(&out);
}
END_TEST

static const struct {
	const char *typed, *tidy;
} aligned[] = {
    {/* the second side has one column; a text may run over what is free */
	"hip flexion L A 0-84 pain 3 P 0-92 firm R A 0-105\n"
	"hip extension L NT \"cannot lie face down\" R A 0-9\n"
	"\n"
	"knee L A 0-120\n",
	"hip flexion    L A 0-84 pain 3  P 0-92 firm         R A 0-105\n"
	"hip extension  L not-tested \"cannot lie face down\"  R A 0-9\n"
	"\n"
	"knee  L A 0-120\n"},
    {/* a line goes on with the joint above it over a blank line */
	"mode active\nknee R 0-120\n\n# by the other hand\nrater cc\nL 0-118\n",
	"mode        active\nknee  R 0-120\n\n# by the other hand\n"
	"rater       cc\n      L 0-118\n"},
    {/* screen cells are counted, not bytes */
	"hip flexion R A 0-10 \"müde\" P 0-12\nhip extension R A 0-11 \"weh\" "
	"P "
	"0-13\n",
	"hip flexion    R A 0-10 \"müde\"  P 0-12\n"
	"hip extension  R A 0-11 \"weh\"   P 0-13\n"},
    {/* what one long text would push out of sight stands where it may */
	"hip flexion R A 0-10 \"0123456789012345678901234567890123456789\" P "
	"0-12\nhip extension R A 0-11 P 0-13\n",
	"hip flexion    R A 0-10 "
	"\"0123456789012345678901234567890123456789\"  P 0-12\n"
	"hip extension  R A 0-11  P 0-13\n"},
    {/* a wide head moves only its own line */
	"ankle DF weight-bearing knee-straight standing R A 0-30 # x\n"
	"knee R A 0-120 #  y \n",
	"ankle dorsiflexion weight-bearing knee-straight standing  R A 0-30  "
	"# x\nknee  R A 0-120  #  y \n"},
    {/* an unreadable line and those it takes along */
	"knee  R A 0-120   L A 0-130\nkne   L A 0-1\n  L P 0-2\nhip flex  R A "
	"0-99\n",
	"knee         R A 0-120  L A 0-130\nkne   L A 0-1\n  L P 0-2\nhip "
	"flexion  R A 0-99\n"},
};

START_TEST(aligns)
{
	struct buffer text = text_of(aligned[_i].typed);
	struct buffer want = text_of(aligned[_i].tidy), out = {0};

	assert_tidy(&text, TIDY_LONG, &out);
	assert_same(&out, &want, &text);
	buffer_free(&text);
	buffer_free(&want);
	buffer_free(&out);
}
END_TEST

/* Where columns would be too wide, first the readings of a side give way. */
START_TEST(gives_wide_columns_up)
{
	static const char text39[] = "\"2345678901234567890123456789\"";
	struct buffer text = {0}, out = {0};

	for (int i = 0; i < 6; i++) {
		buffer_puts(&text, "hip flexion R A 0-1 ");
		for (int k = 0; k < 6; k++)
			buffer_printf(&text, "%s%s ", k ? "R P 0-2 " : "",
			    i == k ? text39 : "");
		buffer_puts(&text, "\n");
	}
	assert_tidy(&text, TIDY_LONG, &out);
	for (const char *p = out.data; p < out.data + out.len;) {
		size_t n = line_len(p, out.data + out.len);

		ck_assert_uint_le(n, 121);
		p += n;
	}
	buffer_free(&text);
	buffer_free(&out);
}
END_TEST

/* A line that would grow too long to be read is kept. */
START_TEST(a_line_never_grows_too_long)
{
	struct buffer text = {0}, out = {0}, want = {0};

	buffer_puts(&text, "mode active\nknee R 0-1 \"");
	buffer_pad(&text, 'x', 4090 - 12);
	buffer_puts(&text, "\"\n");
	buffer_puts(&want, "mode        active\n");
	buffer_add(&want, text.data + 12, text.len - 12);
	buffer_puts(&text, "thumb CMC palmar abduction R 0-1\n");
	buffer_puts(&want, "thumb CMC palmar abduction  R 0-1\n");
	assert_tidy(&text, TIDY_LONG, &out);
	assert_same(&out, &want, &text);
	buffer_free(&text);
	buffer_free(&out);
	buffer_free(&want);
}
END_TEST

/* --- the safety net and the memory -----------------------------------------
 */

/* A writer that takes the last digit of the session for another. */
static void
render_badly(struct tidy *t, size_t lines)
{
	tidy_render(t, lines);
	for (size_t i = t->made.len; i-- > 0;)
		if (t->made.data[i] == '7') {
			t->made.data[i] = '1';
			return;
		}
}

START_TEST(a_changed_meaning_is_never_written)
{
	static const char good[] = "subject A\nsession 2026-05-04\n"
				   "knee   R A 0-115\n\n";
	static const char bad[] =
	    "session 2026-05-05\nknee   R A 0-117\n"
	    "session 2026-05-32\nknee   R A 0-118  # as typed\n";
	struct tidy *t = tidy_new(TIDY_LONG, NULL, NULL);
	struct buffer text = text_of(good), out = {0}, want = {0};

	buffer_puts(&text, bad);
	buffer_puts(&want, "subject     A\nsession 2026-05-04\n"
			   "knee  R A 0-115\n\n");
	buffer_puts(&want, bad);
	t->render = render_badly;
	tidy_begin(t, "note");
	tidy_text(t, text.data, text.len, &out);
	tidy_end(t, &out);
	ck_assert(tidy_gave_up(t));
	assert_same(&out, &want, &text);
	/* The next note does not suffer from it. */
	t->render = tidy_render;
	out.len = 0;
	tidy_begin(t, "note");
	tidy_text(t, good, sizeof(good) - 1, &out);
	tidy_end(t, &out);
	ck_assert(!tidy_gave_up(t));
	want.len = out.len;
	assert_same(&out, &want, &text);
	tidy_free(t);
	buffer_free(&text);
	buffer_free(&out);
	buffer_free(&want);
}
END_TEST

START_TEST(headers_of_the_person_count)
{
	static const char note[] = "age 37\nsession 2026-05-04\n";
	struct tidy *t = tidy_new(TIDY_LONG, NULL, NULL);
	struct buffer out = {0};

	t->render = render_badly;
	tidy_begin(t, "note");
	tidy_text(t, note, sizeof(note) - 1, &out);
	tidy_end(t, &out);
	ck_assert(tidy_gave_up(t));
	ck_assert_uint_eq(out.len, sizeof(note) - 1);
	ck_assert_mem_eq(out.data, note, out.len);
	tidy_free(t);
	buffer_free(&out);
}
END_TEST

static void
count_sessions(void *arg, struct session *s, struct sink *sink)
{
	(void)s;
	*(size_t *)arg += 1 + 1000 * sink->len;
}

START_TEST(memory_is_that_of_a_session)
{
	static const char session[] =
	    "session 2026-05-04\nknee R A 0-115 P 0-120\nkne R A 0-1\n\n";
	size_t seen = 0;
	struct tidy *t = tidy_new(TIDY_LONG, count_sessions, &seen);
	struct buffer out = {0};

	tidy_begin(t, "note");
	for (int i = 0; i < 5000; i++) {
		tidy_text(t, session, sizeof(session) - 1, &out);
		out.len = 0;
	}
	tidy_end(t, &out);
	ck_assert_uint_eq(seen, 5000 * 1001);
	ck_assert_uint_le(t->raw.cap + t->ready.cap + t->made.cap +
			      t->records[0].cap + t->records[1].cap + out.cap,
	    16384);
	ck_assert_uint_le(t->lines.cap, 64);
	tidy_free(t);
	buffer_free(&out);
}
END_TEST

START_TEST(a_file_is_read_whole)
{
	struct tidy *t = tidy_new(TIDY_LONG, NULL, NULL);
	struct buffer was = {0}, out = {0}, text = text_of("age  5"), want;
	int ends[2];

	ck_assert_int_eq(pipe(ends), 0);
	ck_assert_int_eq(write(ends[1], text.data, text.len), (int)text.len);
	close(ends[1]);
	ck_assert_int_eq(tidy_file(t, ends[0], "note", &was, &out), 0);
	close(ends[0]);
	want = text_of("age         5");
	assert_same(&was, &text, &text);
	assert_same(&out, &want, &text);
	ck_assert_int_eq(tidy_file(t, -1, "note", NULL, &out), -1);
	tidy_free(t);
	buffer_free(&was);
	buffer_free(&out);
	buffer_free(&text);
	buffer_free(&want);
}
END_TEST

Suite *
tidy_suite(void)
{
	Suite *suite = suite_create("tidy");
	TCase *writes = tcase_create("what it writes");
	TCase *net = tcase_create("safety net and memory");

	tcase_add_loop_test(writes, spells_alike, 0, (int)COUNT(written));
	tcase_add_loop_test(writes, aligns, 0, (int)COUNT(aligned));
	tcase_add_test(writes, gives_wide_columns_up);
	tcase_add_test(writes, a_line_never_grows_too_long);
	suite_add_tcase(suite, writes);
	tcase_add_test(net, a_changed_meaning_is_never_written);
	tcase_add_test(net, headers_of_the_person_count);
	tcase_add_test(net, memory_is_that_of_a_session);
	tcase_add_test(net, a_file_is_read_whole);
	suite_add_tcase(suite, net);
	return suite;
}
