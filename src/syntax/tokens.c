#include "syntax/tokens.h"

#include <stdlib.h>
#include <string.h>

#include "parser.h"
#include "syntax/lexer.h"
#include "text/date.h"
#include "text/mem.h"
#include "vocab/vocab.h"

#define CLASS(name) (UINT32_C(1) << VOCAB_CLASS_##name)

/* A number of this many tenths or more is beyond any bound. */
enum { HUGE_NUMBER = 100000000 };

static const uint32_t joint_classes =
    CLASS(JOINT) | CLASS(DIGIT) | CLASS(DIGIT_JOINT);
static const uint32_t side_classes = CLASS(SIDE) | CLASS(BOTH);

uint32_t
tokens_classes(int header)
{
	/* Every line but that of a code may hold keywords. */
	static const uint32_t of_header[VOCAB_HEADER_COUNT] = {
	    [VOCAB_HEADER_SEX] = CLASS(SEX),
	    [VOCAB_HEADER_DOMINANT] = CLASS(SIDE),
	    [VOCAB_HEADER_INVOLVED] = CLASS(SIDE) | CLASS(BOTH) | CLASS(JOINT) |
				      CLASS(DIGIT) | CLASS(DIGIT_JOINT) |
				      CLASS(GROUP),
	    [VOCAB_HEADER_OPPOSITE] = CLASS(SIDE) | CLASS(BOTH) | CLASS(JOINT) |
				      CLASS(DIGIT) | CLASS(DIGIT_JOINT) |
				      CLASS(GROUP),
	    [VOCAB_HEADER_PRECAUTION] =
		CLASS(SIDE) | CLASS(BOTH) | CLASS(JOINT) | CLASS(DIGIT) |
		CLASS(DIGIT_JOINT) | CLASS(GROUP) | CLASS(MOTION) |
		CLASS(MEASURE) | CLASS(MODE) | CLASS(UNIT),
	    [VOCAB_HEADER_GOAL] = CLASS(SIDE) | CLASS(BOTH) | CLASS(JOINT) |
				  CLASS(DIGIT) | CLASS(DIGIT_JOINT) |
				  CLASS(MOTION) | CLASS(MEASURE) | CLASS(MODE) |
				  CLASS(SIDE_MODE) | CLASS(POSTURE) |
				  CLASS(SETTING) | CLASS(UNIT),
	    [VOCAB_HEADER_INSTRUMENT] = CLASS(INSTRUMENT) | CLASS(UNIT),
	    [VOCAB_HEADER_MODE] = CLASS(MODE),
	    [VOCAB_HEADER_POSITION] = CLASS(POSTURE) | CLASS(SETTING),
	    [VOCAB_HEADER_REQUIRE] = CLASS(REQUIREMENT),
	};

	if (header >= 0)
		return of_header[header] | CLASS(KEYWORD);
	return side_classes | joint_classes | CLASS(SIDE_MODE) | CLASS(MODE) |
	       CLASS(MOTION) | CLASS(MEASURE) | CLASS(POSTURE) |
	       CLASS(SETTING) | CLASS(END_FEEL) | CLASS(OUTCOME) | CLASS(UNIT) |
	       CLASS(KEYWORD);
}

static const int16_t kind_of_class[VOCAB_CLASSES] = {
    [VOCAB_CLASS_HEADER] = T_HEADER,
    [VOCAB_CLASS_SIDE] = T_SIDE,
    [VOCAB_CLASS_BOTH] = T_BOTH,
    [VOCAB_CLASS_SIDE_MODE] = T_OTHER,
    [VOCAB_CLASS_MODE] = T_MODE,
    [VOCAB_CLASS_JOINT] = T_JOINT,
    [VOCAB_CLASS_DIGIT] = T_DIGIT,
    [VOCAB_CLASS_DIGIT_JOINT] = T_PART,
    [VOCAB_CLASS_GROUP] = T_GROUP,
    [VOCAB_CLASS_MOTION] = T_MOTION,
    [VOCAB_CLASS_MEASURE] = T_MEASURE,
    [VOCAB_CLASS_POSTURE] = T_POSTURE,
    [VOCAB_CLASS_SETTING] = T_SETTING,
    [VOCAB_CLASS_SETTING_ANGLE] = T_OTHER,
    [VOCAB_CLASS_SETTING_PART] = T_OTHER,
    [VOCAB_CLASS_SETTING_STATE] = T_OTHER,
    [VOCAB_CLASS_END_FEEL] = T_END_FEEL,
    [VOCAB_CLASS_CAUSE] = T_CAUSE,
    [VOCAB_CLASS_INSTRUMENT] = T_INSTRUMENT,
    [VOCAB_CLASS_OUTCOME] = T_OUTCOME,
    [VOCAB_CLASS_UNIT] = T_UNIT,
    [VOCAB_CLASS_SEX] = T_SEX,
    [VOCAB_CLASS_LEVEL] = T_LEVEL,
    [VOCAB_CLASS_REQUIREMENT] = T_REQUIREMENT,
};

static const int16_t kind_of_keyword[VOCAB_KEYWORD_COUNT] = {
    [VOCAB_KEYWORD_LACKS] = T_LACKS,
    [VOCAB_KEYWORD_HYPER] = T_HYPER,
    [VOCAB_KEYWORD_FIXED] = T_FIXED,
    [VOCAB_KEYWORD_LESS] = T_LESS,
    [VOCAB_KEYWORD_PAIN] = T_PAIN,
    [VOCAB_KEYWORD_AT] = T_AT,
    [VOCAB_KEYWORD_PAINFUL_ARC] = T_PAINFUL_ARC,
    [VOCAB_KEYWORD_STOPPED_BY] = T_STOPPED_BY,
    [VOCAB_KEYWORD_AFTER] = T_AFTER,
    [VOCAB_KEYWORD_REPS] = T_REPS,
    [VOCAB_KEYWORD_SUBSTITUTION] = T_SUBSTITUTION,
    [VOCAB_KEYWORD_BY] = T_BY,
    [VOCAB_KEYWORD_WITH] = T_WITH,
    [VOCAB_KEYWORD_MAX] = T_MAX,
    [VOCAB_KEYWORD_NO] = T_NO,
    [VOCAB_KEYWORD_FROM] = T_FROM,
    [VOCAB_KEYWORD_UNTIL] = T_UNTIL,
    [VOCAB_KEYWORD_STEP] = T_STEP,
    [VOCAB_KEYWORD_NONE] = T_NONE,
    [VOCAB_KEYWORD_UNAVAILABLE] = T_UNAVAILABLE,
};

static const int16_t kind_of_header[VOCAB_HEADER_COUNT] = {
    [VOCAB_HEADER_SESSION] = T_SESSION,
    [VOCAB_HEADER_SUBJECT] = T_SUBJECT,
    [VOCAB_HEADER_BORN] = T_BORN,
    [VOCAB_HEADER_AGE] = T_AGE,
    [VOCAB_HEADER_SEX] = T_SEX_HEADER,
    [VOCAB_HEADER_DOMINANT] = T_DOMINANT,
    [VOCAB_HEADER_INVOLVED] = T_INVOLVED,
    [VOCAB_HEADER_OPPOSITE] = T_OPPOSITE,
    [VOCAB_HEADER_SURGERY] = T_SURGERY,
    [VOCAB_HEADER_PRECAUTION] = T_PRECAUTION,
    [VOCAB_HEADER_GOAL] = T_GOAL,
    [VOCAB_HEADER_REMARK] = T_REMARK,
    [VOCAB_HEADER_RATER] = T_RATER,
    [VOCAB_HEADER_INSTRUMENT] = T_INSTRUMENT_HEADER,
    [VOCAB_HEADER_MODE] = T_MODE_HEADER,
    [VOCAB_HEADER_POSITION] = T_POSITION,
    [VOCAB_HEADER_REQUIRE] = T_REQUIRE,
};

/* What is known while the line is cut. */
struct cutter {
	struct tokens *out;
	const char *text;
	const char *end;
	uint32_t classes;
	bool levels;   /* hand-behind-back is measured */
	bool doubtful; /* a word that may be a digit or something else */
};

static struct token *
put(struct cutter *c, int kind, const char *beg, const char *end)
{
	struct token *t = MEM_PUSH(c->out);

	*t = (struct token){.kind = (int16_t)kind,
	    .id = -1,
	    .beg = (uint16_t)(beg - c->text),
	    .end = (uint16_t)(end - c->text)};
	return t;
}

static struct token *
put_bad(struct cutter *c, enum rule rule, bool stops, const char *beg,
    const char *end, const char *saying)
{
	struct token *t = put(c, T_BAD, beg, end);

	t->id = (int16_t)rule;
	t->stops = stops;
	t->saying = saying;
	return t;
}

static int
last_kind(const struct cutter *c)
{
	return c->out->len ? c->out->at[c->out->len - 1].kind : T_EOL;
}

/*
 * Reads a run of digits with at most one decimal at *P into tenths. Returns
 * what is wrong with it, or NULL.
 */
static const char *
read_number(const char **p, const char *end, int32_t *tenths)
{
	const char *beg = *p;
	int64_t value = 0;
	int decimals = 0;

	while (*p < end && **p >= '0' && **p <= '9') {
		if (value < HUGE_NUMBER)
			value = value * 10 + (**p - '0');
		(*p)++;
	}
	if (*p - beg > 1 && *beg == '0')
		return "a number has no zero in front";
	value *= 10;
	if (*p < end && **p == '.') {
		for ((*p)++; *p < end && **p >= '0' && **p <= '9'; (*p)++)
			if (decimals++ == 0)
				value += **p - '0';
		if (decimals > 1)
			return "a number has one decimal at most";
	}
	*tenths = (int32_t)(value < HUGE_NUMBER ? value : HUGE_NUMBER);
	return NULL;
}

/* The N numbers of a shape; the rest of the shape is a glued unit. */
static void
put_numbers(struct cutter *c, int kind, int n, const char *beg, const char *end)
{
	const char *p = beg, *wrong = NULL, *behind = beg;
	int32_t tenths[3] = {0, 0, 0};
	struct token *t;

	for (int i = 0; i < n && !wrong; i++) {
		while (p < end && (*p < '0' || *p > '9'))
			p++;
		wrong = read_number(&p, end, &tenths[i]);
		behind = p;
	}
	if (wrong) {
		t = put_bad(c, RULE_NUMBER_FORM, false, beg, end, wrong);
		t->number = true;
		return;
	}
	t = put(c, kind, beg, behind);
	t->number = true;
	memcpy(t->tenths, tenths, sizeof(tenths));
	if (behind < end) {
		const struct vocab_row *unit = vocab_match_class(
		    vocab_find(behind, (size_t)(end - behind)),
		    VOCAB_CLASS_UNIT);

		put(c, T_UNIT, behind, end)->id = (int16_t)unit->id;
	}
}

/* 3/10: two numbers and the slash between them. */
static void
put_fraction(struct cutter *c, const char *beg, const char *end)
{
	const char *slash = memchr(beg, '/', (size_t)(end - beg));

	put_numbers(c, T_NUMBER, 1, beg, slash);
	put(c, T_SLASH, slash, slash + 1);
	put_numbers(c, T_NUMBER, 1, slash + 1, end);
}

/*
 * Something that begins as a number and is none. Letters in it stop the line:
 * nobody knows what the writer meant.
 */
static void
put_number_like(struct cutter *c, const char *beg, const char *end)
{
	const char *saying = NULL;
	bool letters = false;
	struct token *t;

	if (end[-1] == '.')
		saying = "a number has no full stop behind it";
	for (const char *p = beg; p < end; p++) {
		if (p > beg && (*p == '\xe2'))
			saying = "this dash is not the one of the keyboard: "
				 "type - again";
		if ((*p >= 'A' && *p <= 'Z') || (*p >= 'a' && *p <= 'z') ||
		    *p == '_')
			letters = true;
		if (*p == ',')
			saying = "a comma between two digits: write the "
				 "decimal point, or a blank between readings";
	}
	if (letters)
		saying = "letters in a number";
	else if (*beg < '0' || *beg > '9')
		saying = "a sign before a number is read in two ways";
	t = put_bad(c, RULE_NUMBER_FORM, letters, beg, end, saying);
	t->number = true;
}

static void
put_date(struct cutter *c, const char *beg, const char *end)
{
	int32_t day;

	if (date_parse(beg, (size_t)(end - beg), &day) == 0) {
		struct token *t = put(c, T_DATE, beg, end);

		t->day = day;
		t->number = true;
	} else {
		put_bad(
		    c, RULE_DATE_FORM, false, beg, end, "there is no such day")
		    ->number = true;
	}
}

static void
put_time(struct cutter *c, const char *beg, const char *end)
{
	int minutes;

	if (time_parse(beg, (size_t)(end - beg), &minutes) == 0) {
		struct token *t = put(c, T_TIME, beg, end);

		t->minutes = minutes;
		t->number = true;
	} else {
		put_bad(
		    c, RULE_DATE_FORM, false, beg, end, "there is no such time")
		    ->number = true;
	}
}

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

	if (last_kind(c) == T_STOPPED_BY)
		classes = CLASS(CAUSE);
	else if (last_kind(c) == T_WITH)
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

		put(c, kind_of_class[classes[i]], beg + i, beg + i + 1)->id =
		    (int16_t)row->id;
	}
}

static void
put_row(struct cutter *c, const struct vocab_row *row, const char *beg,
    const char *end)
{
	struct token *t;
	int kind = kind_of_class[row->class];

	if (row->class == VOCAB_CLASS_KEYWORD)
		kind = kind_of_keyword[row->id];
	if (row->class == VOCAB_CLASS_HEADER && c->out->len == 0) {
		kind = kind_of_header[row->id];
		c->out->header = row->id;
		c->classes = tokens_classes(row->id);
	}
	if (row->class == VOCAB_CLASS_SIDE_MODE &&
	    (c->classes & CLASS(SIDE_MODE))) {
		put_side_mode(c, beg);
		return;
	}
	t = put(c, kind, beg, end);
	t->id = (int16_t)row->id;
	if (kind == T_SETTING)
		t->setting = VOCAB_SETTING_BIT(row->id);
	if (kind == T_MEASURE && row->id == VOCAB_MEASURE_HAND_BEHIND_BACK)
		c->levels = true;
}

/* Moves *END behind the longest spelling that begins at BEG. */
static void
put_word(struct cutter *c, const char *beg, const char **end)
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
		put(c, T_SETTING, beg, *end)->setting = family;
	else
		put_bad(c, RULE_UNKNOWN_WORD, true, beg, *end, NULL);
}

static bool
in_code(char c)
{
	return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') ||
	       (c >= '0' && c <= '9') || c == '.' || c == '_' || c == '-';
}

/*
 * A code at *P, where one must stand: after subject, rater, and by in a line
 * of readings. False where there is none: then the ordinary rules hold.
 */
static bool
put_code(struct cutter *c, const char **p)
{
	const char *end = *p, *behind;
	int32_t day;

	while (end < c->end && in_code(*end))
		end++;
	if (end == *p || end - *p > 64 || **p == '.' || **p == '_' ||
	    **p == '-')
		return false;
	behind = end;
	if (end < c->end && *end != ';' && lexer_next(&behind) != SHAPE_BLANK)
		return false;
	if (date_parse(*p, (size_t)(end - *p), &day) == 0)
		return false;
	if (last_kind(c) == T_BY && end - *p == 1) {
		struct vocab_match match = vocab_find(*p, 1);

		if (vocab_match_class(match, VOCAB_CLASS_SIDE) ||
		    vocab_match_class(match, VOCAB_CLASS_MODE) ||
		    vocab_match_class(match, VOCAB_CLASS_BOTH))
			return false;
	}
	put(c, T_CODE, *p, end);
	*p = end;
	return true;
}

static bool
wants_code(const struct cutter *c)
{
	int last = last_kind(c);

	return last == T_SUBJECT || last == T_RATER ||
	       (last == T_BY && c->out->header < 0);
}

/* A run of bytes that mean nothing is one token. */
static void
put_stray(struct cutter *c, const char *beg, const char *end)
{
	struct token *last = c->out->len ? &c->out->at[c->out->len - 1] : NULL;

	if (last && last->kind == T_BAD && last->id == RULE_SYNTAX &&
	    last->end == beg - c->text)
		last->end = (uint16_t)(end - c->text);
	else
		put_bad(c, RULE_SYNTAX, true, beg, end, NULL);
}

/* A text keeps its place without the quotation marks: see token_text(). */
static void
put_shape(struct cutter *c, enum shape shape, const char *beg, const char **end)
{
	switch (shape) {
	case SHAPE_TEXT:
		put(c, T_TEXT, beg, *end);
		break;
	case SHAPE_OPEN_TEXT:
		put_bad(c, RULE_OPEN_QUOTE, true, beg, *end, NULL);
		break;
	case SHAPE_DATE:
		put_date(c, beg, *end);
		break;
	case SHAPE_TIME:
		put_time(c, beg, *end);
		break;
	case SHAPE_NUMBER:
		put_numbers(c, T_NUMBER, 1, beg, *end);
		break;
	case SHAPE_FRACTION:
		put_fraction(c, beg, *end);
		break;
	case SHAPE_RANGE:
		put_numbers(c, T_RANGE, 2, beg, *end);
		break;
	case SHAPE_TRIPLE:
		put_numbers(c, T_TRIPLE, 3, beg, *end);
		break;
	case SHAPE_NUMBER_LIKE:
		put_number_like(c, beg, *end);
		break;
	case SHAPE_WORD:
		put_word(c, beg, end);
		break;
	case SHAPE_SLASH:
		put(c, T_SLASH, beg, *end);
		break;
	case SHAPE_SEMICOLON:
		put(c, T_SEMICOLON, beg, *end);
		break;
	default:
		put_stray(c, beg, *end);
	}
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
static void
settle_doubt(struct cutter *c)
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

void
tokens_cut(struct tokens *tokens, const char *text, size_t len, bool levels)
{
	struct cutter c = {.out = tokens,
	    .text = text,
	    .end = text + len,
	    .levels = levels,
	    .classes = tokens_classes(-1)};
	const char *p = text;
	bool after_blank = true;

	tokens->len = 0;
	tokens->header = -1;
	tokens->comment_beg = tokens->comment_end = (uint32_t)len;
	while (p < c.end) {
		const char *beg = p;
		enum shape shape;

		/* Half of all tokens are one blank: no need of the lexer. */
		if (*p == ' ' || *p == '\t' || *p == ',') {
			after_blank = true;
			p++;
			continue;
		}
		if (wants_code(&c) && *p != '#' && put_code(&c, &p)) {
			after_blank = false;
			continue;
		}
		shape = lexer_next(&p);
		if (shape == SHAPE_BLANK) {
			after_blank = true;
			continue;
		}
		if (shape == SHAPE_COMMENT && after_blank) {
			tokens->comment_beg = (uint32_t)(beg - text);
			break;
		}
		/* Where the lexer stops before the end, one byte is passed. */
		if (shape == SHAPE_COMMENT || shape == SHAPE_END) {
			shape = SHAPE_STRAY;
			p = beg + 1;
		}
		put_shape(&c, shape, beg, &p);
		after_blank = false;
	}
	if (c.doubtful)
		settle_doubt(&c);
	put(&c, T_EOL, text + tokens->comment_beg, text + tokens->comment_beg);
	tokens->len--;
	/* The end of the line is where its last token ends. */
	if (tokens->len > 0)
		tokens->at[tokens->len].beg = tokens->at[tokens->len].end =
		    tokens->at[tokens->len - 1].end;
}

void
tokens_end_bad(struct tokens *tokens, enum rule rule, size_t beg, size_t end,
    const char *saying)
{
	struct token bad = {.kind = T_BAD,
	    .id = (int16_t)rule,
	    .beg = (uint16_t)beg,
	    .end = (uint16_t)end,
	    .stops = true,
	    .saying = saying};
	struct token eol = {.kind = T_EOL,
	    .id = -1,
	    .beg = (uint16_t)end,
	    .end = (uint16_t)end};

	if (tokens->len > (tokens->header >= 0) &&
	    tokens->at[tokens->len - 1].end == beg)
		tokens->len--;
	*MEM_PUSH(tokens) = bad;
	*MEM_PUSH(tokens) = eol;
	tokens->len--; /* the end stands behind the last one */
}

void
tokens_free(struct tokens *tokens)
{
	free(tokens->at);
	*tokens = (struct tokens){0};
}
