/*
 * The words of a command line, looked up in the vocabulary as the reader of a
 * note does it: the longest spelling first, a spelling of two meanings settled
 * by the words beside it, or both meanings named.
 */
#include "write/asked.h"

#include "record/record.h"
#include "text/mem.h"
#include "vocab/vocab.h"

#define CLASS(name) (UINT32_C(1) << VOCAB_CLASS_##name)

static const uint32_t joint_classes =
    CLASS(JOINT) | CLASS(DIGIT) | CLASS(DIGIT_JOINT) | CLASS(GROUP);
static const uint32_t motion_classes = CLASS(MOTION) | CLASS(MEASURE);

struct reader {
	struct asked *asked;
	enum asked_for what;
	struct buffer text; /* the words, one blank between */
	struct buffer *wrong;
	size_t at;	   /* of the next word */
	int digit;	   /* whose joint may follow, or -1 */
	bool digit_parted; /* and one did */
	int part;	   /* that came before its digit, or -1 */
	bool little_or_lf; /* a word that is a digit or a motion */
};

static bool
is_blank(char c)
{
	return c == ' ' || c == '\t' || c == ',' || c == '\n';
}

static void
join_words(struct buffer *text, const char *const *words, size_t n)
{
	for (size_t i = 0; i < n; i++) {
		for (const char *p = words[i]; *p; p++) {
			if (!is_blank(*p))
				buffer_putc(text, *p);
			else if (text->len && text->data[text->len - 1] != ' ')
				buffer_putc(text, ' ');
		}
		if (text->len && text->data[text->len - 1] != ' ')
			buffer_putc(text, ' ');
	}
}

/* Bytes of the next COUNT words, 0 where there are fewer. */
static size_t
next_words(const struct reader *r, size_t count)
{
	for (size_t i = r->at; i < r->text.len; i++)
		if (r->text.data[i] == ' ' && --count == 0)
			return i - r->at;
	return 0;
}

/* The row of a match that is of one of the CLASSES, the first class first. */
static const struct vocab_row *
row_among(struct vocab_match match, uint32_t classes)
{
	for (size_t i = 0; i < match.n; i++)
		if (classes >> vocab_match_row(match, i)->class & 1)
			return vocab_match_row(match, i);
	return NULL;
}

static const struct vocab_row *
choose(struct reader *r, struct vocab_match match)
{
	const struct vocab_row *group =
	    vocab_match_class(match, VOCAB_CLASS_GROUP);
	const struct vocab_row *digit =
	    vocab_match_class(match, VOCAB_CLASS_DIGIT);

	if (r->what == ASKED_JOINTS)
		return group ? group : row_among(match, joint_classes);
	if (digit && vocab_match_class(match, VOCAB_CLASS_MOTION))
		r->little_or_lf = true;
	return row_among(match, joint_classes | motion_classes);
}

/* The digit was named whole unless a joint of it was named. */
static void
end_digit(struct reader *r)
{
	if (r->digit >= 0 && !r->digit_parted)
		r->asked->joints |= vocab_digit_joints(r->digit);
	r->digit = -1;
	r->digit_parted = false;
}

static void
add_name(struct buffer *out, size_t before, const char *name)
{
	if (out->len > before)
		buffer_puts(out, ", ");
	buffer_puts(out, name);
}

/* "thumb has no PIP; it has: CMC, MCP, IP". */
static void
say_no_part(const struct reader *r, int part)
{
	size_t before;

	buffer_printf(r->wrong,
	    "%s has no %s; it has: ", vocab_name(VOCAB_CLASS_DIGIT, r->digit),
	    vocab_name(VOCAB_CLASS_DIGIT_JOINT, part));
	before = r->wrong->len;
	for (int i = 0; i < VOCAB_DIGIT_JOINT_COUNT; i++)
		if (vocab_digit_joint(r->digit, i) >= 0)
			add_name(r->wrong, before,
			    vocab_name(VOCAB_CLASS_DIGIT_JOINT, i));
}

static bool
add_part(struct reader *r, int part)
{
	int joint;

	if (r->digit < 0) {
		r->part = part;
		return true;
	}
	joint = vocab_digit_joint(r->digit, part);
	if (joint < 0) {
		say_no_part(r, part);
		return false;
	}
	r->asked->joints |= UINT64_C(1) << joint;
	r->digit_parted = true;
	return true;
}

static bool
add_digit(struct reader *r, int digit)
{
	int part = r->part;

	end_digit(r);
	r->digit = digit;
	r->part = -1;
	return part < 0 || add_part(r, part);
}

static bool
add_motion(struct reader *r, int *what, int id)
{
	if (r->asked->motion >= 0 || r->asked->measure >= 0) {
		buffer_puts(r->wrong, "name one motion at a time");
		return false;
	}
	*what = id;
	return true;
}

static bool
add_row(struct reader *r, const struct vocab_row *row)
{
	switch (row->class) {
	case VOCAB_CLASS_JOINT:
		end_digit(r);
		r->asked->joints |= UINT64_C(1) << row->id;
		r->digit = vocab_joints[row->id].digit;
		r->digit_parted = r->digit >= 0;
		return true;
	case VOCAB_CLASS_GROUP:
		end_digit(r);
		r->asked->joints |= vocab_group_joints[row->id];
		return true;
	case VOCAB_CLASS_DIGIT:
		return add_digit(r, row->id);
	case VOCAB_CLASS_DIGIT_JOINT:
		return add_part(r, row->id);
	case VOCAB_CLASS_MOTION:
		return add_motion(r, &r->asked->motion, row->id);
	default:
		return add_motion(r, &r->asked->measure, row->id);
	}
}

static bool
is_side(const char *word, size_t len)
{
	return row_among(vocab_find(word, len), CLASS(SIDE) | CLASS(BOTH));
}

/* `finger`, `fingers`: says which there are. */
static bool
say_which_digit(const struct reader *r, const char *word, size_t len)
{
	uint32_t digits = vocab_digits_called(word, len);
	size_t before;

	if (!digits && (word[len - 1] | ' ') == 's')
		digits = vocab_digits_called(word, len - 1);
	if (!digits)
		return false;
	buffer_puts(r->wrong, "; name the digit: ");
	before = r->wrong->len;
	for (int i = 0; i < VOCAB_DIGIT_COUNT; i++)
		if (digits >> i & 1)
			add_name(
			    r->wrong, before, vocab_name(VOCAB_CLASS_DIGIT, i));
	return true;
}

/* Says what is wrong with the next word. */
static void
say_unknown(struct reader *r)
{
	const char *word = r->text.data + r->at, *near = NULL;
	size_t len = next_words(r, 1), two = next_words(r, 2);
	uint32_t classes = joint_classes;
	bool known = vocab_find(word, len).n > 0;

	if (r->what == ASKED_JOINTS && is_side(word, len)) {
		buffer_printf(r->wrong,
		    "the note has both sides: leave '%.*s' out", (int)len,
		    word);
		return;
	}
	if (r->what == ASKED_MOTION)
		classes |= motion_classes;
	if (!known)
		near = vocab_nearest(word, len, classes);
	if (!known && !near && two)
		near = vocab_nearest(word, two, classes);
	buffer_printf(r->wrong, "'%.*s' is no %s", (int)len, word,
	    r->what == ASKED_MOTION ? "joint or motion"
				    : "joint, digit or group of joints");
	if (!say_which_digit(r, word, len) && near)
		buffer_printf(r->wrong, "; did you mean '%s'?", near);
}

/* A side or a mode changes nothing of how a motion is measured. */
static bool
may_be_passed_over(const struct reader *r, size_t len)
{
	return r->what == ASKED_MOTION &&
	       row_among(vocab_find(r->text.data + r->at, len),
		   CLASS(SIDE) | CLASS(BOTH) | CLASS(MODE) | CLASS(SIDE_MODE));
}

static bool
read_next(struct reader *r)
{
	const char *word = r->text.data + r->at;
	size_t len = next_words(r, 1);
	size_t most = vocab_find(word, len).phrase;

	for (size_t count = most > 1 ? most : 1; count > 0; count--) {
		size_t bytes = next_words(r, count);
		const struct vocab_row *row =
		    bytes ? choose(r, vocab_find(word, bytes)) : NULL;

		if (!row)
			continue;
		r->at += bytes + 1;
		return add_row(r, row);
	}
	if (!may_be_passed_over(r, len)) {
		say_unknown(r);
		return false;
	}
	r->at += len + 1;
	return true;
}

/*
 * LF: beside a joint of a digit it is the little finger, beside another joint
 * lateral flexion, alone nobody knows.
 */
static bool
settle_lf(struct reader *r)
{
	struct asked *asked = r->asked;
	uint64_t others =
	    asked->joints & ~vocab_digit_joints(VOCAB_DIGIT_LITTLE);

	if (!r->little_or_lf || r->digit_parted || asked->motion >= 0 ||
	    asked->measure >= 0)
		return true;
	if (others == 0) {
		buffer_puts(r->wrong,
		    "LF can mean lateral flexion or the little finger: write "
		    "one of the two out");
		return false;
	}
	r->digit = -1;
	asked->joints = others;
	asked->motion = VOCAB_MOTION_LATERAL_FLEXION;
	return true;
}

bool
asked_read(struct asked *asked, enum asked_for what, const char *const *words,
    size_t n, struct buffer *wrong)
{
	struct reader r = {.asked = asked,
	    .what = what,
	    .wrong = wrong,
	    .digit = -1,
	    .part = -1};
	bool good = true;

	*asked = (struct asked){0, -1, -1};
	join_words(&r.text, words, n);
	while (good && r.at < r.text.len)
		good = read_next(&r);
	if (good && r.part >= 0) {
		buffer_printf(wrong, "%s of which digit? name it, such as: %s",
		    vocab_name(VOCAB_CLASS_DIGIT_JOINT, r.part),
		    r.part == VOCAB_DIGIT_JOINT_MTP   ? "great-toe MTP"
		    : r.part == VOCAB_DIGIT_JOINT_IP  ? "thumb IP"
		    : r.part == VOCAB_DIGIT_JOINT_CMC ? "thumb CMC"
						      : "index PIP");
		good = false;
	}
	good = good && settle_lf(&r);
	end_digit(&r);
	buffer_free(&r.text);
	return good;
}

/* --- measurements --------------------------------------------------------- */

static bool
is_asked(const struct asked *asked, int measurement)
{
	const struct vocab_measurement *m = &vocab_measurements[measurement];

	return asked->motion >= 0 ? m->motion == asked->motion
				  : m->measure == asked->measure;
}

void
asked_motions(struct buffer *out, int joint)
{
	size_t before = out->len;

	for (int i = 0; i < VOCAB_MEASUREMENT_COUNT; i++)
		if (vocab_measurements[i].joint == joint)
			add_name(
			    out, before, vocab_measurements[i].motion_name);
}

void
asked_digit_measures(struct buffer *out, int digit)
{
	size_t before = out->len;

	for (int i = 0; i < VOCAB_MEASUREMENT_COUNT; i++)
		if (vocab_measurements[i].joint < 0 &&
		    vocab_measurements[i].digit == digit)
			add_name(
			    out, before, vocab_measurements[i].motion_name);
}

/* "pronation is measured at: forearm". */
static void
say_several(const struct asked *asked, const char *motion, uint64_t joints,
    struct buffer *wrong)
{
	size_t before;

	buffer_printf(wrong, "%s is measured at: ", motion);
	before = wrong->len;
	for (int i = 0; i < VOCAB_MEASUREMENT_COUNT; i++)
		if (is_asked(asked, i) && (measurement_joints(i) & joints) != 0)
			add_name(
			    wrong, before, vocab_measurements[i].joint_name);
}

/* "knee has no abduction; it has: flexion, extension". */
static void
say_none(const struct asked *asked, const char *motion, struct buffer *wrong)
{
	if (asked->measure >= 0) {
		say_several(asked, motion, UINT64_MAX, wrong);
		return;
	}
	for (int j = 0; j < VOCAB_JOINT_COUNT; j++) {
		if (!(asked->joints >> j & 1))
			continue;
		if (wrong->len > 0)
			buffer_puts(wrong, "; ");
		buffer_printf(wrong,
		    "%s has no %s; it has: ", vocab_joints[j].name, motion);
		asked_motions(wrong, j);
	}
}

int
asked_measurement(const struct asked *asked, struct buffer *wrong)
{
	uint64_t joints = asked->joints ? asked->joints : UINT64_MAX;
	const char *motion =
	    asked->motion >= 0
		? vocab_name(VOCAB_CLASS_MOTION, asked->motion)
		: vocab_name(VOCAB_CLASS_MEASURE, asked->measure);
	int found = -1, n = 0;

	for (int i = 0; i < VOCAB_MEASUREMENT_COUNT; i++)
		if (is_asked(asked, i) &&
		    (measurement_joints(i) & joints) != 0) {
			found = i;
			n++;
		}
	if (n == 1)
		return found;
	if (n == 0)
		say_none(asked, motion, wrong);
	else {
		say_several(asked, motion, joints, wrong);
		buffer_puts(wrong, "; name one of them");
	}
	return -1;
}
