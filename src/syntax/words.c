/*
 * Cutting words: the longest spelling of the vocabulary that stands there, and
 * which of its meanings it has on this line.
 */
#include <string.h>

#include "parser.h"
#include "syntax/cutter.h"

/*
 * The words of a phrase at BEG, one blank between, into OUT. Returns how many
 * bytes OUT holds and moves *END behind the last word; 0 where there are
 * fewer words.
 */
static size_t
phrase(const struct cutter *c, const char *beg, size_t words, char *out,
    size_t size, const char **end)
{
	const char *p = beg;
	size_t n = 0;

	for (size_t w = 0; w < words; w++) {
		const char *word;

		word = p;
		if (w > 0 && p < c->end && lexer_next(&p) == SHAPE_BLANK)
			word = p;
		p = word;
		if (p == c->end || lexer_next(&p) != SHAPE_WORD)
			return 0;
		if (n + 1 + (size_t)(p - word) > size)
			return 0;
		if (w > 0)
			out[n++] = ' ';
		memcpy(out + n, word, (size_t)(p - word));
		n += (size_t)(p - word);
	}
	*end = p;
	return n;
}

/* The longest spelling that begins with the word BEG .. *END. */
static struct vocab_match
longest(const struct cutter *c, const char *beg, const char **end)
{
	struct vocab_match match = vocab_find(beg, (size_t)(*end - beg));
	char joined[64];

	for (size_t words = match.phrase; words > 1; words--) {
		const char *behind;
		size_t n =
		    phrase(c, beg, words, joined, sizeof(joined), &behind);
		struct vocab_match longer;

		if (n == 0)
			continue;
		longer = vocab_find(joined, n);
		if (longer.n > 0) {
			*end = behind;
			return longer;
		}
	}
	return match;
}

/* Which of its meanings a word has here. */
static const struct vocab_row *
settle(struct cutter *c, struct vocab_match match)
{
	uint32_t classes = c->classes;
	const struct vocab_row *chosen = NULL;

	if (cutter_last_kind(c) == T_STOPPED_BY)
		classes = CLASS(CAUSE);
	else if (cutter_last_kind(c) == T_WITH)
		classes = CLASS(INSTRUMENT);
	else if (c->levels)
		classes |= CLASS(LEVEL);
	if (classes & CLASS(GROUP)) {
		chosen = vocab_match_class(match, VOCAB_CLASS_GROUP);
		if (chosen)
			return chosen;
	}
	for (size_t i = 0; i < match.n; i++) {
		const struct vocab_row *row = vocab_match_row(match, i);

		if (!(classes >> row->class & 1))
			continue;
		if (chosen)
			c->doubtful = true;
		else
			chosen = row;
	}
	return chosen ? chosen : vocab_match_row(match, 0);
}

/* `RA` is R and A. */
static void
put_side_mode(struct cutter *c, const char *beg)
{
	static const enum vocab_class classes[] = {
	    VOCAB_CLASS_SIDE, VOCAB_CLASS_MODE};

	for (int i = 0; i < 2; i++) {
		const struct vocab_row *row =
		    vocab_match_class(vocab_find(beg + i, 1), classes[i]);

		cutter_put(
		    c, cutter_kind_of_class[classes[i]], beg + i, beg + i + 1)
		    ->id = (int16_t)row->id;
	}
}

static void
put_row(struct cutter *c, const struct vocab_row *row, const char *beg,
    const char *end)
{
	struct token *t;
	int kind = cutter_kind_of_class[row->class];

	if (row->class == VOCAB_CLASS_KEYWORD)
		kind = cutter_kind_of_keyword[row->id];
	if (row->class == VOCAB_CLASS_HEADER && c->out->len == 0) {
		kind = cutter_kind_of_header[row->id];
		c->out->header = row->id;
		c->classes = tokens_classes(row->id);
	}
	if (row->class == VOCAB_CLASS_SIDE_MODE &&
	    (c->classes & CLASS(SIDE_MODE))) {
		put_side_mode(c, beg);
		return;
	}
	t = cutter_put(c, kind, beg, end);
	t->id = (int16_t)row->id;
	if (kind == T_SETTING)
		t->setting = VOCAB_SETTING_BIT(row->id);
	if (kind == T_MEASURE && row->id == VOCAB_MEASURE_HAND_BEHIND_BACK)
		c->levels = true;
}

/*
 * A dash or minus of a word processor, with blanks round it between two
 * numbers: the lexer takes it for a letter.
 */
static bool
is_other_dash(const struct cutter *c, const char *beg, const char *end)
{
	static const char *const dashes[] = {"\xe2\x80\x90", "\xe2\x80\x91",
	    "\xe2\x80\x92", "\xe2\x80\x94", "\xe2\x80\x95", "\xe2\x88\x92"};

	if (end - beg != 3 || c->out->len == 0 ||
	    !c->out->at[c->out->len - 1].number ||
	    !cutter_before_number(c, end))
		return false;
	for (size_t i = 0; i < sizeof(dashes) / sizeof(*dashes); i++)
		if (memcmp(beg, dashes[i], 3) == 0)
			return true;
	return false;
}

void
cutter_word(struct cutter *c, const char *beg, const char **end)
{
	struct vocab_match match;
	const struct vocab_row *header = NULL;
	char setting[32];
	uint64_t family;

	match = longest(c, beg, end);
	if (match.n > 0 && c->out->len == 0)
		header = vocab_match_class(match, VOCAB_CLASS_HEADER);
	if (header) {
		put_row(c, header, beg, *end);
		return;
	}
	if (match.n > 0) {
		put_row(c, settle(c, match), beg, *end);
		return;
	}
	family =
	    vocab_setting(beg, (size_t)(*end - beg), setting, sizeof(setting));
	if (family)
		cutter_put(c, T_SETTING, beg, *end)->setting = family;
	else if (is_other_dash(c, beg, *end))
		cutter_put_bad(
		    c, RULE_NUMBER_FORM, true, beg, *end, cutter_other_dash);
	else
		cutter_put_bad(c, RULE_UNKNOWN_WORD, true, beg, *end, NULL);
}

/* The row of another CLASS that token T spells as well, or NULL. */
static const struct vocab_row *
other_meaning(
    const struct cutter *c, const struct token *t, enum vocab_class class)
{
	return vocab_match_class(
	    vocab_find(c->text + t->beg, (size_t)(t->end - t->beg)), class);
}

/* What the other words of the line say about its doubtful ones. */
struct company {
	bool part;  /* a joint of a digit, or a measure of a finger */
	bool joint; /* a joint or a digit that is not doubtful itself */
};

static struct company
company(const struct cutter *c)
{
	struct company with = {false, false};

	for (size_t i = 0; i < c->out->len; i++) {
		const struct token *t = &c->out->at[i];

		if (t->kind == T_PART ||
		    (t->kind == T_MEASURE && vocab_measure_needs_digit(t->id)))
			with.part = true;
		if (t->kind == T_JOINT ||
		    (t->kind == T_DIGIT &&
			!other_meaning(c, t, VOCAB_CLASS_MOTION)))
			with.joint = true;
	}
	return with;
}

/*
 * LF is lateral flexion or the little finger: a joint elsewhere on the line
 * makes it the motion, a joint of a digit the finger. Where neither is there,
 * both meanings are named and none is taken. T5 is a toe, or a vertebra where
 * hand-behind-back is measured and no joint of a toe is named.
 */
void
cutter_settle_doubt(struct cutter *c)
{
	struct company with = company(c);

	for (size_t i = 0; i < c->out->len; i++) {
		struct token *t = &c->out->at[i];
		const struct vocab_row *motion, *level;

		if (t->kind != T_DIGIT)
			continue;
		motion = other_meaning(c, t, VOCAB_CLASS_MOTION);
		level = other_meaning(c, t, VOCAB_CLASS_LEVEL);
		if (level && c->levels && !with.part) {
			t->kind = T_LEVEL;
			t->id = (int16_t)level->id;
		} else if (motion && with.joint) {
			t->kind = T_MOTION;
			t->id = (int16_t)motion->id;
		} else if (motion && !with.part) {
			t->kind = T_BAD;
			t->id = RULE_SYNTAX;
			t->stops = true;
			t->saying = "this can mean lateral flexion or the "
				    "little finger: write one of the two out";
		}
	}
}
