#include "vocab/vocab.h"

#include <limits.h>
#include <string.h>
#include <strings.h>

#include "vocab/table.h"

/* Longer texts are no word of the table. */
enum { LONGEST = 64 };

static char
lower(char c)
{
	return c >= 'A' && c <= 'Z' ? (char)(c + ('a' - 'A')) : c;
}

struct vocab_match
vocab_find(const char *text, size_t len)
{
	struct vocab_match match = {NULL, 0, 0};
	char low[LONGEST];
	unsigned hash = 7; /* the same function as hash() in generate.awk */

	if (len == 0 || len > sizeof(low))
		return match;
	for (size_t i = 0; i < len; i++) {
		low[i] = lower(text[i]);
		hash = hash * 33 + (unsigned char)low[i];
	}
	for (size_t slot = hash % VOCAB_INDEX_SIZE; vocab_index[slot];
	     slot = (slot + 1) % VOCAB_INDEX_SIZE) {
		const struct vocab_spelling *s =
		    &vocab_spellings[vocab_index[slot] - 1];

		if (s->length != len || memcmp(s->text, low, len) != 0)
			continue;
		match.first = s;
		match.n = s->same;
		match.phrase = s->phrase;
		break;
	}
	return match;
}

const struct vocab_row *
vocab_match_row(struct vocab_match match, size_t i)
{
	return &vocab_rows[match.first[i].row];
}

const struct vocab_row *
vocab_match_class(struct vocab_match match, enum vocab_class class)
{
	for (size_t i = 0; i < match.n; i++)
		if (vocab_match_row(match, i)->class == class)
			return vocab_match_row(match, i);
	return NULL;
}

const struct vocab_row *
vocab_word(enum vocab_class class, int id)
{
	return &vocab_rows[vocab_class_first[class] + id];
}

const char *
vocab_name(enum vocab_class class, int id)
{
	return vocab_word(class, id)->name;
}

const char *
vocab_short_name(enum vocab_class class, int id)
{
	return vocab_word(class, id)->short_name;
}

int
vocab_measurement(int joint, int motion)
{
	if (joint < 0 || motion < 0)
		return -1;
	return vocab_joint_motion[joint][motion] - 1;
}

int
vocab_named_measurement(int measure, int digit)
{
	int found = -1;

	for (int i = 0; i < VOCAB_MEASUREMENT_COUNT; i++) {
		const struct vocab_measurement *m = &vocab_measurements[i];

		if (m->measure != measure)
			continue;
		if (m->digit == digit || !vocab_measure_needs_digit(measure))
			return i;
	}
	return found;
}

bool
vocab_measure_needs_digit(int measure)
{
	return measure == VOCAB_MEASURE_TIP_TO_CREASE ||
	       measure == VOCAB_MEASURE_TIP_TO_TABLE;
}

int
vocab_digit_joint(int digit, int part)
{
	for (int i = 0; i < VOCAB_JOINT_COUNT; i++)
		if (vocab_joints[i].digit == digit &&
		    vocab_joints[i].part == part && digit >= 0)
			return i;
	return -1;
}

uint64_t
vocab_digit_joints(int digit)
{
	uint64_t joints = 0;

	for (int j = 0; j < VOCAB_JOINT_COUNT; j++)
		if (vocab_joints[j].digit == digit)
			joints |= UINT64_C(1) << j;
	return joints;
}

uint32_t
vocab_digits_called(const char *text, size_t len)
{
	uint32_t digits = 0;

	for (size_t i = 0; len > 0 && i < vocab_spelling_count; i++) {
		const struct vocab_spelling *s = &vocab_spellings[i];
		const struct vocab_row *row;
		size_t at = s->length - len, same = 0;

		if (s->row == VOCAB_NO_ROW || s->length < len + 2 ||
		    s->text[at - 1] != ' ')
			continue;
		row = &vocab_rows[s->row];
		while (same < len && lower(text[same]) == s->text[at + same])
			same++;
		if (same == len && row->class == VOCAB_CLASS_DIGIT)
			digits |= UINT32_C(1) << row->id;
	}
	return digits;
}

/* The id of TEXT in CLASS, or -1. */
static int
id_in(enum vocab_class class, const char *text, size_t len)
{
	const struct vocab_row *row =
	    vocab_match_class(vocab_find(text, len), class);

	return row ? row->id : -1;
}

/* An angle of 0 to 180 at TEXT, no leading zero; -1 where it is none. */
static int
angle(const char *text, size_t len)
{
	int value = 0;

	if (len == 0 || len > 3 || (len > 1 && text[0] == '0'))
		return -1;
	for (size_t i = 0; i < len; i++) {
		if (text[i] < '0' || text[i] > '9')
			return -1;
		value = value * 10 + (text[i] - '0');
	}
	return value <= 180 ? value : -1;
}

/* Puts the parts, parted by '-', and an angle (or none, -1) into OUT. */
static void
put_setting(
    char *out, size_t size, const char *first, const char *second, int degrees)
{
	size_t n = 0;
	char digits[4];
	const char *part[3] = {first, second, NULL};

	if (degrees >= 0) {
		size_t d = sizeof(digits);

		digits[--d] = '\0';
		do {
			digits[--d] = (char)('0' + degrees % 10);
			degrees /= 10;
		} while (degrees && d > 0);
		part[second ? 2 : 1] = digits + d;
	}
	for (int i = 0; i < 3 && part[i]; i++) {
		if (i > 0 && n + 1 < size)
			out[n++] = '-';
		for (const char *p = part[i]; *p && n + 1 < size; p++)
			out[n++] = *p;
	}
	out[n] = '\0';
}

uint64_t
vocab_setting(const char *text, size_t len, char *out, size_t size)
{
	int plain = id_in(VOCAB_CLASS_SETTING, text, len);
	const char *dash = memchr(text, '-', len);
	const char *rest, *end = text + len, *dash2;
	int first, second, degrees = -1;

	if (plain >= 0) {
		put_setting(out, size, vocab_name(VOCAB_CLASS_SETTING, plain),
		    NULL, -1);
		return VOCAB_SETTING_BIT(plain);
	}
	if (!dash)
		return 0;
	rest = dash + 1;
	first = id_in(VOCAB_CLASS_SETTING_ANGLE, text, (size_t)(dash - text));
	degrees = angle(rest, (size_t)(end - rest));
	if (first >= 0 && degrees >= 0) {
		put_setting(out, size,
		    vocab_name(VOCAB_CLASS_SETTING_ANGLE, first), NULL,
		    degrees);
		return VOCAB_ANGLE_BIT(first);
	}
	dash2 = memchr(rest, '-', (size_t)(end - rest));
	degrees = -1;
	if (dash2) {
		degrees = angle(dash2 + 1, (size_t)(end - dash2 - 1));
		if (degrees < 0)
			return 0;
		end = dash2;
	}
	first = id_in(VOCAB_CLASS_SETTING_PART, text, (size_t)(dash - text));
	second = id_in(VOCAB_CLASS_SETTING_STATE, rest, (size_t)(end - rest));
	if (first < 0 || second < 0)
		return 0;
	put_setting(out, size, vocab_name(VOCAB_CLASS_SETTING_PART, first),
	    vocab_name(VOCAB_CLASS_SETTING_STATE, second), degrees);
	return VOCAB_PART_BIT(first);
}

/* Edit distance with neighbours swapped counted as one, up to LIMIT. */
static size_t
distance(const char *a, size_t alen, const char *b, size_t blen, size_t limit)
{
	size_t before[LONGEST + 1], last[LONGEST + 1] = {0}, now[LONGEST + 1];

	if (alen > blen + limit || blen > alen + limit)
		return limit + 1;
	for (size_t j = 0; j <= blen; j++)
		last[j] = j;
	for (size_t i = 1; i <= alen; i++) {
		size_t best = now[0] = i;

		for (size_t j = 1; j <= blen; j++) {
			size_t cost = a[i - 1] != b[j - 1];
			size_t d = last[j - 1] + cost;

			if (last[j] + 1 < d)
				d = last[j] + 1;
			if (now[j - 1] + 1 < d)
				d = now[j - 1] + 1;
			if (i > 1 && j > 1 && a[i - 1] == b[j - 2] &&
			    a[i - 2] == b[j - 1] && before[j - 2] + 1 < d)
				d = before[j - 2] + 1;
			now[j] = d;
			if (d < best)
				best = d;
		}
		if (best > limit)
			return limit + 1;
		memcpy(before, last, (blen + 1) * sizeof(*last));
		memcpy(last, now, (blen + 1) * sizeof(*last));
	}
	return last[blen];
}

static bool
is_swapped(const char *a, const char *b)
{
	return a[0] == b[1] && a[1] == b[0];
}

/*
 * May a slip of the pen have made WORD of a spelling of CLASS? Hardly where
 * the first letter is another, or where a letter of three was exchanged: `and`
 * is no ankle and `tight` no side. A header in doubt is better suspected.
 */
static bool
is_likely(const char *word, size_t len, const struct vocab_spelling *s)
{
	if (vocab_rows[s->row].class == VOCAB_CLASS_HEADER)
		return true;
	if (len == 3 && s->length == 3)
		return is_swapped(word, s->text) ||
		       is_swapped(word + 1, s->text + 1);
	return len >= 6 || word[0] == s->text[0] || is_swapped(word, s->text);
}

/*
 * Words of a note that are none of the notation, though one letter or two
 * away from some: `caution` is no scaption, `note` no none. Where the notation
 * has a word for the same thing it is named, else nothing is.
 */
static const struct other {
	const char *text;
	const char *ours; /* a header, or NULL */
} others[] = {
    {"person", "subject"},
    {"patient", "subject"},
    {"client", "subject"},
    {"subj", "subject"},
    {"participant", "subject"},
    {"case", "subject"},
    {"pt", "subject"},
    {"name", "subject"},
    {"id", "subject"},
    {"code", NULL},
    {"date", "session"},
    {"visit", "session"},
    {"caution", "precaution"},
    {"cautions", "precaution"},
    {"restriction", "precaution"},
    {"restrictions", "precaution"},
    {"note", "remark"},
    {"notes", "remark"},
    {"comment", "remark"},
    {"comments", "remark"},
    {"examiner", "rater"},
    {"assessor", "rater"},
    {"therapist", "rater"},
    {"tester", "rater"},
    {"device", "instrument"},
    {"tool", "instrument"},
    {"target", "goal"},
    {"operation", "surgery"},
    {"affected", "involved"},
    {"injured", "involved"},
    {"birth", "born"},
    {"dob", "born"},
    {"gender", "sex"},
    {"lying", NULL},
    {"arm", NULL},
};

/* The row of TEXT, in whatever case, or NULL. */
static const struct other *
find_other(const char *text, size_t len)
{
	for (size_t i = 0; i < sizeof(others) / sizeof(others[0]); i++)
		if (strlen(others[i].text) == len &&
		    strncasecmp(others[i].text, text, len) == 0)
			return &others[i];
	return NULL;
}

const char *
vocab_everyday(const char *text, size_t len)
{
	const struct other *other = find_other(text, len);

	return other ? other->ours : NULL;
}

/*
 * The only word of MASK of which TEXT is the first part, `external` of
 * `external rotation`. True where TEXT is such a part at all: of several it is
 * none in particular, and no slip either.
 */
static bool
is_first_part(const char *text, size_t len, uint32_t mask, const char **near)
{
	struct vocab_match match = vocab_find(text, len);
	const struct vocab_spelling *first = NULL;

	*near = NULL;
	if (match.n > 0 || match.phrase < 2)
		return false;
	for (size_t i = 0; i < vocab_spelling_count; i++) {
		const struct vocab_spelling *s = &vocab_spellings[i];

		if (s->row == VOCAB_NO_ROW || s->length <= len ||
		    s->text[len] != ' ' || memcmp(s->text, text, len) != 0 ||
		    !(mask >> vocab_rows[s->row].class & 1))
			continue;
		if (first && first->row != s->row) {
			*near = NULL;
			return true;
		}
		if (!first)
			*near = s->text;
		first = s;
	}
	return first;
}

const char *
vocab_nearest(const char *text, size_t len, uint32_t mask)
{
	const struct vocab_spelling *best = NULL;
	const struct other *other;
	const char *first;
	char low[LONGEST] = {0};
	size_t limit;

	if (len < 3 || len > sizeof(low))
		return NULL;
	for (size_t i = 0; i < len; i++)
		low[i] = lower(text[i]);
	other = find_other(low, len);
	if (other)
		return mask >> VOCAB_CLASS_HEADER & 1 ? other->ours : NULL;
	if (is_first_part(low, len, mask, &first))
		return first;
	limit = len <= 4 ? 1 : len <= 7 ? 2 : 3;
	for (size_t i = 0; i < vocab_spelling_count; i++) {
		const struct vocab_spelling *s = &vocab_spellings[i];
		size_t d;

		if (s->row == VOCAB_NO_ROW || s->length < 3 ||
		    !(mask >> vocab_rows[s->row].class & 1) ||
		    !is_likely(low, len, s))
			continue;
		d = distance(low, len, s->text, s->length, limit);
		if (d <= limit) {
			best = s;
			if (d == 0)
				break;
			limit = d - 1;
		}
	}
	return best ? best->text : NULL;
}
