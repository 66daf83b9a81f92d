/*
 * The empty note. Each place for a figure holds NT, which is true until
 * somebody has measured: what is forgotten shows as not tested, and is never
 * lost in a comment. The order is the one in which the person is moved least:
 * what is measured standing, then sitting, then lying on the back, the side,
 * the front. The positions are those that the guide names. A posture is part
 * of each line and never a header, which would hold for lines below it that
 * were measured otherwise.
 */
#include "write/blank.h"

#include <string.h>

#include "record/record.h"
#include "reference/reference.h"
#include "vocab/vocab.h"

enum { GAP = 5 /* of NT and the blanks behind it */, HEADER_GAP = 12 };

/* Where the person is moved to, in this order. */
static const int posture_order[] = {VOCAB_POSTURE_STANDING,
    VOCAB_POSTURE_SITTING, VOCAB_POSTURE_LONG_SITTING, VOCAB_POSTURE_KNEELING,
    VOCAB_POSTURE_SUPINE, VOCAB_POSTURE_HOOK_LYING, VOCAB_POSTURE_SIDE_LYING,
    VOCAB_POSTURE_PRONE};

/* Headers to fill in, and what is wanted behind them. */
static const struct {
	int header;
	const char *hint;
} headers[] = {
    {VOCAB_HEADER_SUBJECT, "a code, never a name"},
    {VOCAB_HEADER_BORN, "the year"},
    {VOCAB_HEADER_SEX, "F, M or X"},
    {VOCAB_HEADER_INVOLVED, "side and joint, or none"},
    {VOCAB_HEADER_PRECAUTION, "what the surgeon or referrer rules out"},
    {VOCAB_HEADER_RATER, "a code"},
    {VOCAB_HEADER_INSTRUMENT, "goniometer, inclinometer ... and its step"},
};

/* --- words of the guide --------------------------------------------------- */

/* The next word of *P, which is moved behind it; length 0 at the end. */
static size_t
next_word(const char **p, const char **word)
{
	size_t len;

	*p += strspn(*p, " ,;.()");
	*word = *p;
	len = strcspn(*p, " ,;.()");
	*p += len;
	return len;
}

static int
posture_of_word(const char *word, size_t len)
{
	const struct vocab_row *row =
	    vocab_match_class(vocab_find(word, len), VOCAB_CLASS_POSTURE);

	return row ? row->id : NONE;
}

/* The first posture that TEXT names, or NONE. */
static int
posture_in(const char *text)
{
	const char *word;
	size_t len;

	while ((len = next_word(&text, &word)) > 0)
		if (posture_of_word(word, len) >= 0)
			return posture_of_word(word, len);
	return NONE;
}

/* In which posture it is taken: that of the guide's example, or of its text. */
static int
posture_of(int measurement)
{
	const struct ref_guide *guide = ref_guide(measurement);
	int posture = posture_in(guide->write);

	return posture >= 0 ? posture : posture_in(guide->test_position);
}

static bool
is_position(const char *word, size_t len)
{
	char setting[32];

	return posture_of_word(word, len) >= 0 ||
	       vocab_setting(word, len, setting, sizeof(setting)) != 0;
}

static bool
example_has(int measurement, const char *wanted, size_t wanted_len)
{
	const char *p = ref_guide(measurement)->write, *word;
	size_t len;

	while ((len = next_word(&p, &word)) > 0)
		if (len == wanted_len && memcmp(word, wanted, len) == 0)
			return true;
	return false;
}

/* The positions of the guide's example, if OTHER (or -1) has them as well. */
static void
add_positions(struct buffer *line, int measurement, int other)
{
	const char *p = ref_guide(measurement)->write, *word;
	size_t len;

	while ((len = next_word(&p, &word)) > 0) {
		if (!is_position(word, len) ||
		    (other >= 0 && !example_has(other, word, len)))
			continue;
		buffer_putc(line, ' ');
		buffer_add(line, word, len);
	}
}

/* --- what there is to measure --------------------------------------------- */

/* The hinge joints of DIGIT that are asked for. */
static uint64_t
hinges_of(uint64_t joints, int digit)
{
	uint64_t hinges = 0;

	for (int j = 0; j < VOCAB_JOINT_COUNT; j++)
		if (joints >> j & 1 && vocab_joints[j].hinge &&
		    vocab_joints[j].digit == digit)
			hinges |= UINT64_C(1) << j;
	return hinges;
}

static bool
is_several(uint64_t joints)
{
	return (joints & (joints - 1)) != 0;
}

enum item { ITEM_NONE, ITEM_MOTION, ITEM_AXIS, ITEM_DIGIT };

/* What line a measurement gets: flexion that of its axis, or of its digit. */
static enum item
item_of(uint64_t joints, int measurement)
{
	const struct vocab_measurement *m = &vocab_measurements[measurement];
	uint64_t hinges;

	if ((measurement_joints(measurement) & joints) == 0)
		return ITEM_NONE;
	if (m->joint < 0 || !vocab_joints[m->joint].hinge ||
	    (m->motion != VOCAB_MOTION_FLEXION &&
		m->motion != VOCAB_MOTION_EXTENSION))
		return ITEM_MOTION;
	if (m->motion == VOCAB_MOTION_EXTENSION)
		return ITEM_NONE;
	if (vocab_joints[m->joint].digit < 0)
		return ITEM_AXIS;
	hinges = hinges_of(joints, vocab_joints[m->joint].digit);
	if (!is_several(hinges))
		return ITEM_AXIS;
	return hinges & ((UINT64_C(1) << m->joint) - 1) ? ITEM_NONE
							: ITEM_DIGIT;
}

/* --- lines ---------------------------------------------------------------- */

static void
put_head(struct buffer *line, enum item item, int measurement)
{
	const struct vocab_measurement *m = &vocab_measurements[measurement];

	if (item == ITEM_AXIS) {
		buffer_puts(line, m->joint_name);
		add_positions(line, measurement, m->opposite);
		return;
	}
	if (m->measure < 0 || vocab_measure_needs_digit(m->measure))
		buffer_printf(line, "%s ", m->joint_name);
	buffer_puts(line, m->motion_name);
	if (m->measure < 0)
		add_positions(line, measurement, NONE);
}

static void
put_not_tested(struct buffer *line)
{
	buffer_printf(line, " %-*s", GAP,
	    vocab_short_name(VOCAB_CLASS_OUTCOME, VOCAB_OUTCOME_NOT_TESTED));
}

/* Behind a length the unit as the guide writes it, as a comment. */
static void
put_unit(struct buffer *line, int measurement)
{
	static const int units[] = {VOCAB_UNIT_MM, VOCAB_UNIT_CM};

	if (vocab_measurements[measurement].in != VOCAB_IN_LENGTH)
		return;
	for (size_t i = 0; i < sizeof(units) / sizeof(*units); i++) {
		const char *name = vocab_name(VOCAB_CLASS_UNIT, units[i]);

		if (example_has(measurement, name, strlen(name)))
			buffer_printf(line, "# %s", name);
	}
}

/*
 * Active and passive of one side. The spine and the jaw are moved passively
 * only where the local protocol allows it, so they have no place for that.
 */
static void
put_modes(struct buffer *line, int measurement)
{
	const struct vocab_measurement *m = &vocab_measurements[measurement];

	if (m->measure >= 0) {
		put_not_tested(line);
		return;
	}
	buffer_putc(line, 'A');
	put_not_tested(line);
	if (joint_is_midline(m->joint))
		return;
	buffer_putc(line, 'P');
	put_not_tested(line);
}

/* Ends the line; blanks at its end are of no use. */
static void
put_line(struct buffer *out, struct buffer *line)
{
	while (line->len > 0 && line->data[line->len - 1] == ' ')
		line->len--;
	buffer_add(out, line->data, line->len);
	buffer_putc(out, '\n');
	line->len = 0;
}

/* `knee supine   R A NT      P NT         L A NT      P NT` */
static void
put_motion(
    struct buffer *out, enum item item, int measurement, size_t head_width)
{
	const struct vocab_measurement *m = &vocab_measurements[measurement];
	struct buffer line = {0};

	put_head(&line, item, measurement);
	buffer_pad(&line, ' ', head_width - line.len + 2);
	for (int side = 0; side < VOCAB_SIDE_COUNT; side++) {
		if (m->sided)
			buffer_printf(&line, m->measure < 0 ? "%s " : "%s",
			    vocab_short_name(VOCAB_CLASS_SIDE, side));
		if (m->sided || side == 0)
			put_modes(&line, measurement);
	}
	put_unit(&line, measurement);
	put_line(out, &line);
	buffer_free(&line);
}

/* `index  R A MCP NT     PIP NT     DIP NT     L A MCP ...`, and passive. */
static void
put_digit(struct buffer *out, uint64_t hinges, int digit)
{
	static const int modes[] = {VOCAB_MODE_ACTIVE, VOCAB_MODE_PASSIVE};
	struct buffer line = {0};

	for (size_t i = 0; i < sizeof(modes) / sizeof(*modes); i++) {
		buffer_printf(
		    &line, "%-6s ", vocab_name(VOCAB_CLASS_DIGIT, digit));
		for (int side = 0; side < VOCAB_SIDE_COUNT; side++) {
			buffer_printf(&line, " %s %s ",
			    vocab_short_name(VOCAB_CLASS_SIDE, side),
			    vocab_short_name(VOCAB_CLASS_MODE, modes[i]));
			for (int j = 0; j < VOCAB_JOINT_COUNT; j++) {
				if (!(hinges >> j & 1))
					continue;
				buffer_puts(
				    &line, vocab_name(VOCAB_CLASS_DIGIT_JOINT,
					       vocab_joints[j].part));
				put_not_tested(&line);
			}
		}
		put_line(out, &line);
	}
	buffer_free(&line);
}

static size_t
widest_head(uint64_t joints)
{
	struct buffer head = {0};
	size_t widest = 0;

	for (int i = 0; i < VOCAB_MEASUREMENT_COUNT; i++) {
		enum item item = item_of(joints, i);

		if (item != ITEM_MOTION && item != ITEM_AXIS)
			continue;
		head.len = 0;
		put_head(&head, item, i);
		widest = head.len > widest ? head.len : widest;
	}
	buffer_free(&head);
	return widest;
}

static void
put_posture(struct buffer *out, uint64_t joints, int posture, size_t head_width)
{
	bool first = true;

	for (int i = 0; i < VOCAB_MEASUREMENT_COUNT; i++) {
		enum item item = item_of(joints, i);

		if (item == ITEM_NONE || posture_of(i) != posture)
			continue;
		if (first)
			buffer_printf(out, "\n# %s\n",
			    vocab_name(VOCAB_CLASS_POSTURE, posture));
		first = false;
		if (item == ITEM_DIGIT) {
			int joint = vocab_measurements[i].joint;
			int digit = vocab_joints[joint].digit;

			put_digit(out, hinges_of(joints, digit), digit);
		} else {
			put_motion(out, item, i, head_width);
		}
	}
}

static void
put_headers(struct buffer *out, const struct blank *blank)
{
	char date[16];

	buffer_puts(out,
	    "# An empty note. NT is not tested: write start-end over it, the "
	    "lower end\n"
	    "# first, or the reason behind it in quotation marks. A is active, "
	    "P passive.\n"
	    "# Correct a position that was another; fill the headers in and "
	    "take "
	    "their #\n"
	    "# away. How to measure: rangeline guide JOINT MOTION\n");
	for (size_t i = 0; i < sizeof(headers) / sizeof(*headers); i++)
		buffer_printf(out, "# %-*s# %s\n", HEADER_GAP + 10,
		    vocab_name(VOCAB_CLASS_HEADER, headers[i].header),
		    headers[i].hint);
	buffer_printf(out, "\nsession %s\n", date_format(blank->day, date));
	if (blank->require == 0)
		return;
	buffer_puts(out, vocab_name(VOCAB_CLASS_HEADER, VOCAB_HEADER_REQUIRE));
	for (int i = 0; i < VOCAB_REQUIREMENT_COUNT; i++)
		if (blank->require >> i & 1)
			buffer_printf(
			    out, " %s", vocab_name(VOCAB_CLASS_REQUIREMENT, i));
	buffer_putc(out, '\n');
}

void
blank_write(struct buffer *out, const struct blank *blank)
{
	size_t width = widest_head(blank->joints);

	put_headers(out, blank);
	for (size_t i = 0; i < sizeof(posture_order) / sizeof(*posture_order);
	     i++)
		put_posture(out, blank->joints, posture_order[i], width);
}

static void
say_requirements(struct buffer *wrong)
{
	for (int i = 0; i < VOCAB_REQUIREMENT_COUNT; i++)
		buffer_printf(wrong, "%s%s", i > 0 ? ", " : "; what can: ",
		    vocab_name(VOCAB_CLASS_REQUIREMENT, i));
}

bool
blank_require(const char *words, unsigned *require, struct buffer *wrong)
{
	const uint32_t class = UINT32_C(1) << VOCAB_CLASS_REQUIREMENT;
	const char *p = words, *word;
	size_t len;

	while ((len = next_word(&p, &word)) > 0) {
		const struct vocab_row *row = vocab_match_class(
		    vocab_find(word, len), VOCAB_CLASS_REQUIREMENT);

		if (!row) {
			const char *near = vocab_nearest(word, len, class);

			buffer_printf(
			    wrong, "'%.*s' cannot be required", (int)len, word);
			if (near)
				buffer_printf(
				    wrong, "; did you mean '%s'?", near);
			else
				say_requirements(wrong);
			return false;
		}
		*require |= 1u << row->id;
	}
	return true;
}
