/*
 * Writes an archive of invented readings to standard output, for measuring
 * speed: `generate READINGS`. The same number gives the same bytes on every
 * machine. No person, figure or course of recovery in it is real; the ranges
 * are merely plausible, so that the checker meets what it would meet in a
 * clinic: a few findings in a hundred readings, and nothing unreadable.
 *
 * Every person has one complaint (a table below says what is then measured)
 * and comes a number of times; the first visit measures both sides, later
 * ones mostly the involved side alone.
 */
#include <inttypes.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>

enum form {
	PLAIN,	/* 0-52 */
	HINGE,	/* 8-131 or 3-0-140: two readings, flexion and extension */
	DIGIT,	/* the same, three joints of one finger, active only */
	LESS,	/* 66 less 19, active only, no side */
	TURN,	/* active only, right and left as directions */
	LENGTH, /* 52 mm, no mode */
};

struct motion {
	const char *head;
	enum form form;
	int end;	  /* active, of a healthy side */
	int more;	  /* of the passive end over the active one */
	int beyond;	  /* hyperextension of a healthy hinge */
	const char *feel; /* of the passive reading; extension first */
};

struct complaint {
	const char *joints; /* that are involved, %s is the side */
	const char *header; /* further lines of the person */
	const char *position;
	const char *surgery;
	bool sided;
	struct motion motions[9];
};

static const struct complaint complaints[] = {
    {"%s knee, %s hip", "", "supine", "total knee replacement", true,
	{{"knee", HINGE, 134, 6, 0, "firm/soft"},
	    {"hip flexion", PLAIN, 112, 7, 0, "soft"},
	    {"hip abduction", PLAIN, 36, 6, 0, "firm"},
	    {"hip ER", PLAIN, 37, 6, 0, "firm"}}},
    {"%s elbow, %s forearm", "", "sitting", "radial head fixation", true,
	{{"elbow", HINGE, 142, 5, 4, "hard/soft"},
	    {"forearm pronation", PLAIN, 76, 6, 0, "firm"},
	    {"forearm supination", PLAIN, 82, 5, 0, "firm"}}},
    {"%s shoulder", "", "supine", "rotator cuff repair", true,
	{{"shoulder flexion", PLAIN, 162, 8, 0, "firm"},
	    {"shoulder abduction", PLAIN, 158, 9, 0, "firm"},
	    {"shoulder extension", PLAIN, 48, 6, 0, "firm"},
	    {"shoulder ER abducted-0", PLAIN, 62, 7, 0, "firm"},
	    {"shoulder ER abducted-90", PLAIN, 82, 7, 0, "firm"},
	    {"shoulder IR abducted-90", PLAIN, 56, 7, 0, "firm"}}},
    {"%s wrist, %s forearm", "", "sitting", "distal radius plate", true,
	{{"wrist flexion", PLAIN, 68, 7, 0, "firm"},
	    {"wrist extension", PLAIN, 62, 8, 0, "firm"},
	    {"wrist RD", PLAIN, 19, 4, 0, "firm"},
	    {"wrist UD", PLAIN, 33, 5, 0, "firm"},
	    {"forearm pronation", PLAIN, 76, 6, 0, "firm"},
	    {"forearm supination", PLAIN, 82, 5, 0, "firm"}}},
    {"%s hand", "", "sitting", "flexor tendon repair", true,
	{{"index", DIGIT, 0, 0, 0, ""}, {"middle", DIGIT, 0, 0, 0, ""},
	    {"ring", DIGIT, 0, 0, 0, ""}}},
    {"%s ankle, %s subtalar", "instrument  tape step 1 mm\n", "prone",
	"lateral ligament repair", true,
	{{"ankle DF knee-bent", PLAIN, 14, 5, 0, "firm"},
	    {"ankle DF knee-straight", PLAIN, 9, 5, 0, "firm"},
	    {"ankle PF", PLAIN, 49, 6, 0, "firm"},
	    {"subtalar inversion", PLAIN, 31, 5, 0, "firm"},
	    {"subtalar eversion", PLAIN, 16, 4, 0, "firm"},
	    {"knee-to-wall", LENGTH, 104, 0, 0, ""}}},
    {"cervical, lumbar", "instrument  inclinometer step 1\n", "standing",
	"lumbar disc", false,
	{{"lumbar flexion", LESS, 58, 0, 0, ""},
	    {"lumbar extension", LESS, 25, 0, 0, ""},
	    {"lumbar lateral flexion", TURN, 25, 0, 0, ""},
	    {"cervical rotation sitting", TURN, 68, 0, 0, ""},
	    {"cervical lateral flexion sitting", TURN, 38, 0, 0, ""},
	    {"cervical flexion sitting", LESS, 48, 0, 0, ""},
	    {"cervical extension sitting", LESS, 56, 0, 0, ""}}},
};

/* The joints of a finger: healthy flexion, hyperextension. */
static const struct {
	const char *name;
	int end;
	int beyond;
} finger_joints[] = {{"MCP", 86, 14}, {"PIP", 102, 0}, {"DIP", 68, 4}};

static const char *const texts[] = {"stiff in the morning, free by noon",
    "tense, lifts the hip", "clicks on return", "warm, slight swelling",
    "measured after treatment", "slept badly", "better since the new splint",
    "holds the breath at the end"};

static const char *const raters[] = {"dk", "mv", "jt", "ao", "kp", "r-07"};

/* Now and then a rater writes in another of the accepted ways. */
static const struct {
	const char *active;
	const char *passive;
	const char *from; /* between start and end */
} hands[] = {{"A", "P", "-"}, {"A", "P", "-"}, {"A", "P", "-"},
    {"AROM", "PROM", "-"}, {"active", "passive", "\xe2\x80\x93"},
    {"A", "P", " to "}};

struct writer {
	uint64_t state;
	long left; /* readings to go */
	const struct complaint *complaint;
	bool involved_right;
	bool both; /* this session measures both sides */
	bool rounds;
	int hand;
	int loss; /* of the involved side, in percent of the range */
};

/* 0 .. n - 1, by a multiply-and-shift generator; the seed is fixed. */
static int
chance(struct writer *w, int n)
{
	w->state ^= w->state >> 12;
	w->state ^= w->state << 25;
	w->state ^= w->state >> 27;
	return (int)((w->state * UINT64_C(2685821657736338717) >> 33) %
		     (uint64_t)n);
}

static bool
percent(struct writer *w, int of_hundred)
{
	return chance(w, 100) < of_hundred;
}

/* A day as YYYY-MM-DD; months of 28 days, which exist in every year. */
static void
put_day(long day)
{
	printf("%04ld-%02ld-%02ld", day / 336, day / 28 % 12 + 1, day % 28 + 1);
}

static int
end_of(struct writer *w, int healthy, bool involved)
{
	int end = healthy - (involved ? healthy * w->loss / 100 : 0) +
		  chance(w, 7) - 3;

	if (w->rounds)
		end = (end + 2) / 5 * 5;
	return end < 1 ? 1 : end;
}

/* One value `start-end`, or `beyond-0-end`; sometimes three trials. */
static void
put_range(struct writer *w, int beyond, int start, int end)
{
	int trials = percent(w, 12) ? 3 : 1;

	for (int i = 0; i < trials; i++) {
		if (end < 0)
			end = 0;
		if (beyond > 0)
			printf(" %d-0-%d", beyond, end);
		else
			printf(" %d%s%d", start, hands[w->hand].from, end);
		end += w->rounds ? 0 : chance(w, 4) - 1;
	}
}

static void
put_qualifiers(struct writer *w, bool involved)
{
	if (involved && percent(w, 12)) {
		printf(" pain %d", chance(w, 8) + 1);
		if (percent(w, 20))
			printf("/10");
	}
	if (involved && percent(w, 3))
		printf(" stopped-by %s", percent(w, 50) ? "pain" : "stiffness");
	if (percent(w, 3))
		printf(" \"%s\"",
		    texts[chance(w, (int)(sizeof(texts) / sizeof(*texts)))]);
}

static void
put_side(struct writer *w, const struct motion *m, bool right)
{
	bool involved = right == w->involved_right;
	bool hinge = m->form == HINGE;
	int end = end_of(w, m->end, involved);
	int start = hinge && involved ? m->end * w->loss / 400 : 0;
	int more = percent(w, 1) ? -2 : m->more - 2 + chance(w, 4);
	int beyond = involved ? 0 : m->beyond;

	printf("  %c %s", right ? 'R' : 'L', hands[w->hand].active);
	put_range(w, beyond, start, end);
	put_qualifiers(w, involved);
	w->left -= hinge ? 2 : 1;
	if (percent(w, 1))
		return; /* the passive range was not taken */
	printf("  %s", hands[w->hand].passive);
	put_range(w, beyond, start > 2 ? start - 2 : start,
	    w->rounds ? end + 5 : end + more);
	if (hinge)
		printf(" %s", percent(w, 1) ? "firm/empty" : m->feel);
	else if (!percent(w, 1))
		printf(" %s", m->feel);
	put_qualifiers(w, involved);
	w->left -= hinge ? 2 : 1;
}

/* Three joints of one finger in a row. */
static void
put_finger(struct writer *w, bool right)
{
	bool involved = right == w->involved_right;

	printf("  %c", right ? 'R' : 'L');
	for (int i = 0; i < 3; i++) {
		int end = end_of(w, finger_joints[i].end, involved);
		int beyond = involved ? 0 : finger_joints[i].beyond;
		int start = involved ? w->loss / 4 : 0;

		printf(" %s", finger_joints[i].name);
		put_range(w, beyond, start, end);
		w->left -= 2;
	}
	put_qualifiers(w, involved);
}

/* Only active, and both directions: of the spine. */
static void
put_turn(struct writer *w, const struct motion *m)
{
	printf("  R A 0-%d", end_of(w, m->end, true));
	put_qualifiers(w, true);
	printf("  L A 0-%d", end_of(w, m->end, true));
	put_qualifiers(w, true);
	w->left -= 2;
}

static void
put_less(struct writer *w, const struct motion *m)
{
	int lower = chance(w, 20) + 5;

	printf("  A %d less %d", lower + end_of(w, m->end, true), lower);
	put_qualifiers(w, true);
	w->left -= 1;
}

static void
put_length(struct writer *w, const struct motion *m, bool right)
{
	bool involved = right == w->involved_right;

	printf("  %c %d mm", right ? 'R' : 'L', end_of(w, m->end, involved));
	w->left -= 1;
}

static void
put_line(struct writer *w, const struct motion *m)
{
	printf("%-22s", m->head);
	if (m->form == TURN)
		put_turn(w, m);
	else if (m->form == LESS)
		put_less(w, m);
	else
		for (int i = 0; i < (w->both ? 2 : 1); i++) {
			bool right = w->involved_right == (i == 0);

			if (m->form == DIGIT)
				put_finger(w, right);
			else if (m->form == LENGTH)
				put_length(w, m, right);
			else
				put_side(w, m, right);
		}
	if (percent(w, 2))
		printf("  # taken twice, the second is written");
	putchar('\n');
}

static void
put_session(struct writer *w, long day, int visit)
{
	const struct complaint *c = w->complaint;

	w->both = visit == 0 || percent(w, 45);
	w->rounds = percent(w, 1);
	printf("\nsession ");
	put_day(day);
	if (percent(w, 20))
		printf(" %02d:%02d", 8 + chance(w, 9), chance(w, 60));
	if (percent(w, 60))
		printf(" \"visit %d\"", visit + 1);
	printf("\nposition    %s\n", c->position);
	if (c->motions[0].form == DIGIT)
		printf("mode        active\n");
	for (int i = 0; c->motions[i].head && w->left > 0; i++)
		put_line(w, &c->motions[i]);
}

static void
put_involved(const struct complaint *c, const char *side)
{
	printf("involved    ");
	printf(c->joints, side, side);
	putchar('\n');
}

/* What stands with the person. */
static void
put_person(struct writer *w, long number, long first_day)
{
	const struct complaint *c = w->complaint;
	const char *side = w->involved_right ? "right" : "left";

	printf(
	    "\n# Invented record %ld\nsubject     IN-%06ld\n", number, number);
	printf("born        %d\n", 1935 + chance(w, 70));
	printf("sex         %c\n", percent(w, 52) ? 'F' : 'M');
	if (percent(w, 40))
		printf("dominant    %s\n", percent(w, 88) ? "right" : "left");
	put_involved(c, side);
	printf("rater       %s\n",
	    raters[chance(w, (int)(sizeof(raters) / sizeof(*raters)))]);
	printf("instrument  goniometer step 1\n%s", c->header);
	if (percent(w, 35)) {
		printf("surgery     ");
		put_day(first_day - 21 - chance(w, 40));
		printf(" \"%s\"\n", c->surgery);
	}
	if (c->motions[0].form == HINGE && percent(w, 40))
		printf("goal        %s %s flexion active %d\n", side,
		    c->motions[0].head, c->motions[0].end - 10);
	if (c->motions[0].form == HINGE && percent(w, 8)) {
		printf("precaution  %s %s flexion max 95 until ", side,
		    c->motions[0].head);
		put_day(first_day + 9);
		printf(" \"surgeon's protocol\"\n");
	}
	if (percent(w, 10))
		printf("remark      \"%s\"\n",
		    texts[chance(w, (int)(sizeof(texts) / sizeof(*texts)))]);
}

int
main(int argc, char **argv)
{
	struct writer w = {.state = UINT64_C(0x9E3779B97F4A7C15)};

	w.left = argc == 2 ? strtol(argv[1], NULL, 10) : 0;
	if (w.left <= 0) {
		fprintf(stderr, "usage: generate READINGS\n");
		return 2;
	}
	for (long number = 1; w.left > 0; number++) {
		int visits = 1 + chance(&w, 9);
		long day = 2012L * 336 + chance(&w, 12 * 336);

		w.complaint = &complaints[chance(
		    &w, (int)(sizeof(complaints) / sizeof(*complaints)))];
		w.involved_right = percent(&w, 55);
		w.hand = chance(&w, (int)(sizeof(hands) / sizeof(*hands)));
		w.loss = 28 + chance(&w, 14);
		put_person(&w, number, day);
		for (int visit = 0; visit < visits && w.left > 0; visit++) {
			put_session(&w, day, visit);
			day += 7 + chance(&w, 15);
			w.loss -= w.loss * (10 + chance(&w, 10)) / 100;
		}
	}
	return fflush(stdout) == 0 && !ferror(stdout) ? 0 : 2;
}
