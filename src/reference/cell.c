/* What stands in one cell of a site's table: checked, and told where wrong. */
#include "reference/load.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "reference/table.h"

/* More words than that are no setting. */
enum { MOST_WORDS = 8 };

/* Tells of a word that CLASSES do not have, with the nearest they do. */
static void
unknown(struct ref_loader *in, struct ref_slice word, const char *what,
    uint32_t classes)
{
	const char *near = vocab_nearest(word.text, word.len, classes);

	if (near)
		ref_load_fault(in, word.text,
		    "unknown %s '%.*s'; did you mean '%s'?", what, QUOTED(word),
		    near);
	else
		ref_load_fault(
		    in, word.text, "unknown %s '%.*s'", what, QUOTED(word));
}

static int
id_of(struct ref_slice word, enum vocab_class class)
{
	const struct vocab_row *row =
	    vocab_match_class(vocab_find(word.text, word.len), class);

	return row ? row->id : -1;
}

/* The id of a word of CLASS, -1 where the cell is empty or has another word. */
static int
word_cell(struct ref_loader *in, enum column column, enum vocab_class class)
{
	struct ref_slice cell = in->cells[column];
	int id = id_of(cell, class);

	if (cell.len && id < 0)
		unknown(in, cell, ref_load_columns[column].name,
		    UINT32_C(1) << class);
	return id;
}

/* Reads an age of whole years; -1 where the cell is empty or is none. */
static int
age_cell(struct ref_loader *in, enum column column)
{
	struct ref_slice cell = in->cells[column];
	int age = 0;

	if (!cell.len)
		return -1;
	for (size_t i = 0; i < cell.len; i++) {
		if (cell.text[i] < '0' || cell.text[i] > '9' || i > 2 ||
		    (i > 0 && cell.text[0] == '0')) {
			age = -1;
			break;
		}
		age = age * 10 + (cell.text[i] - '0');
	}
	if (age < 0 || age > 120) {
		ref_load_fault(
		    in, cell.text, "an age is a whole number from 0 to 120");
		return -1;
	}
	return age;
}

/*
 * Reads digits with at most one decimal into tenths. Returns the bytes read,
 * 0 where there is no such figure.
 */
static size_t
figure(const char *text, size_t len, int32_t *tenths)
{
	int32_t value = 0;
	size_t n = 0;

	while (n < len && n < 5 && text[n] >= '0' && text[n] <= '9')
		value = value * 10 + (text[n++] - '0');
	if (n == 0 || n == 5 || (n > 1 && text[0] == '0'))
		return 0;
	value *= 10;
	if (n < len && text[n] == '.') {
		if (n + 1 >= len || text[n + 1] < '0' || text[n + 1] > '9')
			return 0;
		value += text[n + 1] - '0';
		n += 2;
	}
	*tenths = value;
	return n;
}

/* Reads N or N-N, with >= before it where AT_LEAST is not NULL. */
static bool
span(struct ref_slice s, int32_t *low, int32_t *high, bool *at_least)
{
	size_t n;

	if (at_least) {
		*at_least = s.len > 2 && memcmp(s.text, ">=", 2) == 0;
		if (*at_least) {
			s.text += 2;
			s.len -= 2;
		}
	}
	n = figure(s.text, s.len, low);
	if (n && n == s.len) {
		*high = *low;
		return true;
	}
	if (!n || s.text[n] != '-' || (at_least && *at_least))
		return false;
	s.text += n + 1;
	s.len -= n + 1;
	n = figure(s.text, s.len, high);
	return n && n == s.len && *low < *high;
}

static int32_t
greatest(enum vocab_in unit)
{
	static const int32_t of[] = {[VOCAB_IN_DEG] = 2000,
	    [VOCAB_IN_LENGTH] = 20000,
	    [VOCAB_IN_SCORE] = 100,
	    [VOCAB_IN_LEVEL] = -1};

	return of[unit];
}

static void
value_cell(struct ref_loader *in, struct ref_usual_row *row)
{
	struct ref_slice cell = in->cells[VALUE];

	if (!cell.len)
		return;
	if (!span(cell, &row->low, &row->high, &row->at_least)) {
		ref_load_fault(in, cell.text,
		    "a value is N, LOW-HIGH or >=N, each with at most one "
		    "decimal, not '%.*s'",
		    QUOTED(cell));
		return;
	}
	for (size_t i = 0; i < in->joint_count; i++) {
		int32_t most = greatest(vocab_measurements[in->joints[i]].in);

		if (most < 0)
			ref_load_fault(
			    in, cell.text, "a level has no usual figure");
		else if (row->high > most)
			ref_load_fault(in, cell.text, "the value is beyond %d",
			    (int)(most / 10));
		else
			continue;
		return;
	}
}

/* `sd N` or `ci N-N`; it is only printed. */
static void
spread_cell(struct ref_loader *in)
{
	struct ref_slice cell = in->cells[SPREAD], rest = cell;
	int32_t low, high;

	if (!cell.len)
		return;
	if (cell.len > 3 && cell.text[2] == ' ') {
		rest.text += 3;
		rest.len -= 3;
		if (memcmp(cell.text, "sd", 2) == 0 &&
		    span(rest, &low, &high, NULL) && low == high)
			return;
		if (memcmp(cell.text, "ci", 2) == 0 &&
		    span(rest, &low, &high, NULL) && low < high)
			return;
	}
	ref_load_fault(in, cell.text, "a spread is 'sd N' or 'ci LOW-HIGH'");
}

/* The same letters as a CODE of a note. */
static void
source_cell(struct ref_loader *in)
{
	static const char letters[] =
	    "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"
	    "0123456789._-";
	struct ref_slice cell = in->cells[SOURCE];

	if (cell.len > 64)
		ref_load_fault(
		    in, cell.text, "a source is at most 64 letters long");
	for (size_t i = 0; i < cell.len; i++)
		if (!memchr(letters, cell.text[i], sizeof(letters) - 1)) {
			ref_load_fault(in, cell.text + i,
			    "a source is letters, digits and ._- alone");
			return;
		}
}

static void
verified_cell(struct ref_loader *in)
{
	struct ref_slice cell = in->cells[VERIFIED];

	if (cell.len && !ref_slice_is(cell, "yes") &&
	    !ref_slice_is(cell, "from memory"))
		ref_load_fault(
		    in, cell.text, "verified is 'yes' or 'from memory'");
}

/* ---- settings */

static int
by_bytes(const void *a, const void *b)
{
	return strcmp(a, b);
}

/* Refuses a word twice and a setting that a measurement does not have. */
static void
check_setting(
    struct ref_loader *in, char words[][32], size_t n, uint64_t families)
{
	const char *at = in->cells[SETTING].text;

	for (size_t i = 1; i < n; i++)
		if (strcmp(words[i - 1], words[i]) == 0)
			ref_load_fault(
			    in, at, "setting '%s' stands twice", words[i]);
	for (size_t i = 0; i < in->joint_count; i++) {
		const struct vocab_measurement *m =
		    &vocab_measurements[in->joints[i]];

		if (!(families & ~m->settings))
			continue;
		ref_load_fault(in, at, "'%.*s' is no setting of %s %s",
		    QUOTED(in->cells[SETTING]), m->joint_name, m->motion_name);
		return;
	}
}

/* The setting in its uniform form, in the arena of the site. */
static const char *
setting_cell(struct ref_loader *in)
{
	struct ref_slice rest = in->cells[SETTING], word;
	char words[MOST_WORDS][32], text[MOST_WORDS * 32];
	uint64_t families = 0, family;
	size_t n = 0, len = 0;

	if (!rest.len)
		return "";
	while (ref_slice_next(&rest, ' ', &word)) {
		if (!word.len)
			continue;
		family = 0;
		if (n < MOST_WORDS)
			family = vocab_setting(
			    word.text, word.len, words[n], sizeof(words[n]));
		if (!family) {
			unknown(in, word, "setting",
			    UINT32_C(1) << VOCAB_CLASS_SETTING);
			return "";
		}
		families |= family;
		n++;
	}
	qsort(words, n, sizeof(words[0]), by_bytes);
	check_setting(in, words, n, families);
	for (size_t i = 0; i < n; i++)
		len += (size_t)snprintf(text + len, sizeof(text) - len, "%s%s",
		    i ? " " : "", words[i]);
	return arena_text(&in->site->arena, text, len);
}

/* ---- joints and motions */

/* The measurement of a joint, or digit, and MOTION, or -1. */
static int
measurement_of(int joint, int digit, const struct vocab_row *motion)
{
	if (motion->class == VOCAB_CLASS_MOTION)
		return joint < 0 ? -1 : vocab_measurement(joint, motion->id);
	for (int m = 0; m < VOCAB_MEASUREMENT_COUNT; m++)
		if (vocab_measurements[m].measure == motion->id &&
		    ((joint >= 0 && vocab_measurements[m].joint == joint) ||
			(digit >= 0 && vocab_measurements[m].digit == digit)))
			return m;
	return -1;
}

/* The joint NAME, one word or a digit and its joint (`IF PIP`), or -1. */
static int
joint_of(struct ref_slice name)
{
	struct ref_slice digit = name, part;
	int joint = id_of(name, VOCAB_CLASS_JOINT);

	if (joint >= 0)
		return joint;
	while (digit.len && digit.text[digit.len - 1] != ' ')
		digit.len--;
	part.text = name.text + digit.len;
	part.len = name.len - digit.len;
	return vocab_digit_joint(
	    id_of(ref_slice_trim(digit), VOCAB_CLASS_DIGIT),
	    id_of(part, VOCAB_CLASS_DIGIT_JOINT));
}

static void
add_joint(struct ref_loader *in, struct ref_slice name,
    const struct vocab_row *motion)
{
	int joint = joint_of(name), digit = id_of(name, VOCAB_CLASS_DIGIT), m;

	if (joint < 0 && digit < 0) {
		unknown(in, name, "joint",
		    UINT32_C(1) << VOCAB_CLASS_JOINT |
			UINT32_C(1) << VOCAB_CLASS_DIGIT);
		return;
	}
	if (!motion)
		return;
	m = measurement_of(joint, digit, motion);
	if (m < 0)
		ref_load_fault(in, in->cells[MOTION].text,
		    "'%s' is no motion of %.*s", motion->name, QUOTED(name));
	else if (in->joint_count == MOST_JOINTS)
		ref_load_fault(
		    in, name.text, "more than %d joints", MOST_JOINTS);
	else
		in->joints[in->joint_count++] = m;
}

void
ref_load_joints(struct ref_loader *in)
{
	struct ref_slice motion = in->cells[MOTION], rest = in->cells[JOINT],
			 name;
	struct vocab_match match = vocab_find(motion.text, motion.len);
	const struct vocab_row *row;

	in->joint_count = 0;
	row = vocab_match_class(match, VOCAB_CLASS_MOTION);
	if (!row)
		row = vocab_match_class(match, VOCAB_CLASS_MEASURE);
	if (motion.len && !row)
		unknown(in, motion, "motion",
		    UINT32_C(1) << VOCAB_CLASS_MOTION |
			UINT32_C(1) << VOCAB_CLASS_MEASURE);
	if (!rest.len)
		return;
	while (ref_slice_next(&rest, ',', &name))
		add_joint(in, ref_slice_trim(name), row);
}

void
ref_load_cells(struct ref_loader *in, struct ref_usual_row *row)
{
	row->setting = setting_cell(in);
	row->mode = word_cell(in, MODE, VOCAB_CLASS_MODE);
	row->sex = word_cell(in, SEX, VOCAB_CLASS_SEX);
	row->age_lo = age_cell(in, AGE_LO);
	row->age_hi = age_cell(in, AGE_HI);
	if (row->age_hi >= 0 && row->age_lo > row->age_hi)
		ref_load_fault(in, in->cells[AGE_LO].text,
		    "the ages are the wrong way round");
	value_cell(in, row);
	spread_cell(in);
	source_cell(in);
	verified_cell(in);
}
