/*
 * The words of one line, spelled anew. Whether the spelling means the same is
 * not argued but tried: the words are cut into tokens again, and where these
 * differ from those of the line as it came, another spelling is taken.
 *
 * Numbers keep their digits. Between them a range gets `-`; degrees, which are
 * understood, are left out. Sides and modes are letters in a line of readings,
 * in both spellings: so the trade writes them, and so readings stay narrow.
 */
#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "parser.h"
#include "text/mem.h"
#include "text/utf8.h"
#include "vocab/vocab.h"
#include "write/tidy_internal.h"

/* The class of words of each kind of token, plus one; 0: none, or keyword. */
static const uint8_t class_of_kind[] = {
    [T_SIDE] = 1 + VOCAB_CLASS_SIDE,
    [T_BOTH] = 1 + VOCAB_CLASS_BOTH,
    [T_MODE] = 1 + VOCAB_CLASS_MODE,
    [T_JOINT] = 1 + VOCAB_CLASS_JOINT,
    [T_DIGIT] = 1 + VOCAB_CLASS_DIGIT,
    [T_PART] = 1 + VOCAB_CLASS_DIGIT_JOINT,
    [T_GROUP] = 1 + VOCAB_CLASS_GROUP,
    [T_MOTION] = 1 + VOCAB_CLASS_MOTION,
    [T_MEASURE] = 1 + VOCAB_CLASS_MEASURE,
    [T_POSTURE] = 1 + VOCAB_CLASS_POSTURE,
    [T_SETTING] = 1 + VOCAB_CLASS_SETTING,
    [T_END_FEEL] = 1 + VOCAB_CLASS_END_FEEL,
    [T_CAUSE] = 1 + VOCAB_CLASS_CAUSE,
    [T_INSTRUMENT] = 1 + VOCAB_CLASS_INSTRUMENT,
    [T_OUTCOME] = 1 + VOCAB_CLASS_OUTCOME,
    [T_UNIT] = 1 + VOCAB_CLASS_UNIT,
    [T_SEX] = 1 + VOCAB_CLASS_SEX,
    [T_LEVEL] = 1 + VOCAB_CLASS_LEVEL,
    [T_REQUIREMENT] = 1 + VOCAB_CLASS_REQUIREMENT,
    [T_UNAVAILABLE] = 0 /* the last kind: so all can be looked up */
};

/* Classes that the trade abbreviates; the others keep their one name. */
static const bool abbreviated[VOCAB_CLASSES] = {
    [VOCAB_CLASS_SIDE] = true,
    [VOCAB_CLASS_BOTH] = true,
    [VOCAB_CLASS_MODE] = true,
    [VOCAB_CLASS_JOINT] = true,
    [VOCAB_CLASS_DIGIT] = true,
    [VOCAB_CLASS_DIGIT_JOINT] = true,
    [VOCAB_CLASS_MOTION] = true,
    [VOCAB_CLASS_MEASURE] = true,
    [VOCAB_CLASS_POSTURE] = true,
    [VOCAB_CLASS_SETTING] = true,
    [VOCAB_CLASS_OUTCOME] = true,
};

/* Headers that list things: their commas help the eye and are kept. */
static const bool lists[VOCAB_HEADER_COUNT] = {
    [VOCAB_HEADER_INVOLVED] = true,
    [VOCAB_HEADER_OPPOSITE] = true,
    [VOCAB_HEADER_PRECAUTION] = true,
    [VOCAB_HEADER_POSITION] = true,
    [VOCAB_HEADER_REQUIRE] = true,
};

static void
add_word(struct tidy_words *w, const struct token *t, bool glued)
{
	*MEM_PUSH(&w->list) = (struct tidy_word){.at = (uint32_t)w->text.len,
	    .kind = t->kind,
	    .id = t->id,
	    .glued = glued};
}

/* More text for the word added last. */
static void
add_text(struct tidy_words *w, const char *text, size_t len)
{
	buffer_add(&w->text, text, len);
	w->list.at[w->list.len - 1].len += (uint32_t)len;
}

static void
add_name(struct tidy_words *w, const char *name)
{
	add_text(w, name, strlen(name));
}

static const char *
token_text(const struct tidy_words *w, const struct token *t, size_t *len)
{
	*len = (size_t)(t->end - t->beg);
	return w->source.data + t->beg;
}

/* As it was typed, but for runs of blanks inside a spelling of two words. */
static void
copy_token(struct tidy_words *w, const struct token *t)
{
	size_t len;
	const char *text = token_text(w, t, &len);

	if (t->kind == T_TEXT) {
		add_text(w, text, len);
		return;
	}
	for (size_t i = 0; i < len; i++) {
		bool blank = text[i] == ' ' || text[i] == '\t';

		if (!blank)
			add_text(w, text + i, 1);
		else if (text[i + 1] != ' ' && text[i + 1] != '\t')
			add_text(w, " ", 1);
	}
}

/* The numbers of a range or of three, without blanks and degree signs. */
static void
copy_numbers(struct tidy_words *w, const struct token *t)
{
	size_t len;
	const char *text = token_text(w, t, &len);
	const char *sign = memchr(text, '/', len) ? "/" : "-";
	bool behind = false;

	for (size_t i = 0; i < len; i++) {
		bool part =
		    (text[i] >= '0' && text[i] <= '9') || text[i] == '.';

		if (part && !behind && i > 0)
			add_text(w, sign, 1);
		if (part)
			add_text(w, text + i, 1);
		behind = part;
	}
}

/* The name of word ID of CLASS: the short one if that is what is wanted. */
static const char *
name_of(
    const struct tidy_words *w, int class, int id, enum tidy_spelling spelling)
{
	const char *name = vocab_name((enum vocab_class) class, id);
	const char *brief = vocab_short_name((enum vocab_class) class, id);
	bool in_readings = w->tokens.header < 0;
	bool wants_brief = spelling == TIDY_SHORT && abbreviated[class];

	if (in_readings &&
	    (class == VOCAB_CLASS_SIDE || class == VOCAB_CLASS_BOTH ||
		(class == VOCAB_CLASS_MODE && id != VOCAB_MODE_PLACE_AND_HOLD)))
		wants_brief = true;
	return wants_brief && strlen(brief) < strlen(name) ? brief : name;
}

/* In a header `foot` is the group, so the joint needs its other name. */
static void
add_joint(
    struct tidy_words *w, const struct token *t, enum tidy_spelling spelling)
{
	const struct vocab_joint *joint = &vocab_joints[t->id];
	const char *name = name_of(w, VOCAB_CLASS_JOINT, t->id, spelling);

	if (joint->digit >= 0) {
		add_name(
		    w, name_of(w, VOCAB_CLASS_DIGIT, joint->digit, spelling));
		add_name(w, " ");
		name =
		    name_of(w, VOCAB_CLASS_DIGIT_JOINT, joint->part, spelling);
	} else if (w->tokens.header >= 0 &&
		   vocab_match_class(
		       vocab_find(name, strlen(name)), VOCAB_CLASS_GROUP)) {
		name = vocab_short_name(VOCAB_CLASS_JOINT, t->id);
	}
	add_name(w, name);
}

static void
add_setting(
    struct tidy_words *w, const struct token *t, enum tidy_spelling spelling)
{
	char name[32];
	size_t len;
	const char *text = token_text(w, t, &len);

	if (t->id >= 0) {
		add_name(w, name_of(w, VOCAB_CLASS_SETTING, t->id, spelling));
		return;
	}
	vocab_setting(text, len, name, sizeof(name));
	add_name(w, name);
}

static void
spell_token(
    struct tidy_words *w, const struct token *t, enum tidy_spelling spelling)
{
	int class = class_of_kind[t->kind] - 1;

	if (t->kind == T_RANGE || t->kind == T_TRIPLE)
		copy_numbers(w, t);
	else if (t->kind == T_JOINT)
		add_joint(w, t, spelling);
	else if (t->kind == T_SETTING)
		add_setting(w, t, spelling);
	else if (t->id < 0)
		copy_token(w, t);
	else if (class >= 0)
		add_name(w, name_of(w, class, t->id, spelling));
	else
		add_name(w, vocab_name(VOCAB_CLASS_KEYWORD, t->id));
}

/* Degrees are understood; a `;` says what the columns say. */
static bool
is_left_out(const struct token *t)
{
	return t->kind == T_SEMICOLON ||
	       (t->kind == T_UNIT && t->id == VOCAB_UNIT_DEG);
}

/* A comma behind token I where one is to stay. */
static bool
keeps_comma(const struct tidy_words *w, size_t i, enum tidy_spelling spelling)
{
	const struct tokens *t = &w->tokens;
	bool last = i + 1 == t->len;
	size_t beg = t->at[i].end;
	size_t end = last ? t->comment_beg : t->at[i + 1].beg;
	bool wanted = spelling == TIDY_KEEP ||
		      (t->header >= 0 && lists[t->header] && i > 0 && !last);

	return wanted && memchr(w->source.data + beg, ',', end - beg);
}

static void
spell(struct tidy_words *w, enum tidy_spelling spelling)
{
	w->text.len = 0;
	w->list.len = 0;
	for (size_t i = 0; i < w->tokens.len; i++) {
		const struct token *t = &w->tokens.at[i];
		bool touches = i > 0 && t[-1].end == t->beg;
		bool slash =
		    t->kind == T_SLASH || (i > 0 && t[-1].kind == T_SLASH);

		if (spelling == TIDY_KEEP) {
			add_word(w, t, touches);
			copy_token(w, t);
		} else if (!is_left_out(t)) {
			add_word(w, t, slash);
			if (i == 0 && w->tokens.header >= 0)
				add_name(w, vocab_name(VOCAB_CLASS_HEADER,
						w->tokens.header));
			else
				spell_token(w, t, spelling);
		}
		if (w->list.len > 0 && keeps_comma(w, i, spelling))
			add_text(w, ",", 1);
	}
}

/* What a token says, however it was spelled. */
struct meaning {
	int kind;
	int id;
	const struct token *t;
};

/*
 * The meaning of token *I, which is moved on. A digit and its joint are one
 * joint, as in the table; two joints of one digit are not.
 */
static struct meaning
next_meaning(const struct tokens *tokens, size_t *i)
{
	const struct token *t;
	struct meaning m;

	while (*i < tokens->len && is_left_out(&tokens->at[*i]))
		(*i)++;
	t = &tokens->at[*i];
	m = (struct meaning){t->kind, t->id, t};
	if (*i == tokens->len)
		return m;
	(*i)++;
	if (t->kind == T_DIGIT && t[1].kind == T_PART && t[2].kind != T_PART &&
	    vocab_digit_joint(t->id, t[1].id) >= 0) {
		m.kind = T_JOINT;
		m.id = vocab_digit_joint(t->id, t[1].id);
		(*i)++;
	}
	return m;
}

static bool
same_bytes(const struct token *a, const char *text_a, const struct token *b,
    const char *text_b)
{
	return a->end - a->beg == b->end - b->beg &&
	       memcmp(text_a + a->beg, text_b + b->beg,
		   (size_t)(a->end - a->beg)) == 0;
}

static bool
same_setting(const struct token *a, const char *text_a, const struct token *b,
    const char *text_b)
{
	char name[2][32];

	if (a->id >= 0)
		return a->setting == b->setting;
	vocab_setting(text_a + a->beg, (size_t)(a->end - a->beg), name[0],
	    sizeof(name[0]));
	vocab_setting(text_b + b->beg, (size_t)(b->end - b->beg), name[1],
	    sizeof(name[1]));
	return a->setting == b->setting && strcmp(name[0], name[1]) == 0;
}

static bool
same_meaning(const struct meaning *a, const char *text_a,
    const struct meaning *b, const char *text_b)
{
	if (a->kind != b->kind || a->id != b->id)
		return false;
	switch (a->kind) {
	case T_CODE:
	case T_TEXT:
		return same_bytes(a->t, text_a, b->t, text_b);
	case T_NUMBER:
	case T_RANGE:
	case T_TRIPLE:
		return memcmp(a->t->tenths, b->t->tenths,
			   sizeof(a->t->tenths)) == 0;
	case T_DATE:
		return a->t->day == b->t->day;
	case T_TIME:
		return a->t->minutes == b->t->minutes;
	case T_SETTING:
		return same_setting(a->t, text_a, b->t, text_b);
	default:
		return true;
	}
}

/* Cuts the words as they will be written; true where they say the same. */
static bool
says_the_same(struct tidy_words *w, bool levels)
{
	const char *a = w->source.data, *b;
	size_t i = 0, k = 0, len, comment_len;
	const char *comment = tidy_comment(w, &comment_len);

	w->joined.len = 0;
	tidy_join(w, 0, w->list.len, &w->joined);
	if (comment_len > 0)
		buffer_puts(&w->joined, "  ");
	buffer_add(&w->joined, comment, comment_len);
	len = w->joined.len;
	assert(len <= UINT16_MAX); /* no name is ten times its shortest */
	buffer_putc(&w->joined, '\n');
	b = w->joined.data;
	tokens_cut(&w->again, b, len, levels);
	if (w->again.header != w->tokens.header ||
	    len - w->again.comment_beg != comment_len)
		return false;
	while (i < w->tokens.len || k < w->again.len) {
		struct meaning of_a = next_meaning(&w->tokens, &i);
		struct meaning of_b = next_meaning(&w->again, &k);

		if (!same_meaning(&of_a, a, &of_b, b))
			return false;
	}
	return true;
}

/* Words that no line read whole has. */
static bool
has_unread(const struct tokens *tokens)
{
	for (size_t i = 0; i < tokens->len; i++)
		if (tokens->at[i].kind == T_BAD ||
		    tokens->at[i].kind == T_OTHER ||
		    tokens->at[i].kind == T_HEADER)
			return true;
	return false;
}

bool
tidy_spell(struct tidy_words *w, const char *text, size_t len, bool levels,
    enum tidy_spelling spelling)
{
	size_t bad;
	const enum tidy_spelling tries[] = {spelling,
	    spelling == TIDY_SHORT ? TIDY_LONG : TIDY_SHORT, TIDY_KEEP};

	/* Below a line that failed even this has no finding of its own. */
	if (len > LONGEST_LINE || utf8_check(text, len, &bad) < len)
		return false;

	w->source.len = 0;
	buffer_add(&w->source, text, len);
	buffer_putc(&w->source, '\n');
	tokens_cut(&w->tokens, w->source.data, len, levels);
	if (has_unread(&w->tokens))
		return false;
	for (size_t i = 0; i < sizeof(tries) / sizeof(*tries); i++) {
		if (i > 0 && spelling == TIDY_KEEP)
			break;
		spell(w, tries[i]);
		if (says_the_same(w, levels))
			return true;
		w->fallbacks++;
	}
	return false;
}

void
tidy_join(
    const struct tidy_words *w, size_t from, size_t to, struct buffer *out)
{
	for (size_t i = from; i < to; i++) {
		const struct tidy_word *word = &w->list.at[i];

		if (i > from && !word->glued)
			buffer_putc(out, ' ');
		buffer_add(out, w->text.data + word->at, word->len);
	}
}

const char *
tidy_comment(const struct tidy_words *w, size_t *len)
{
	*len = w->tokens.comment_end - w->tokens.comment_beg;
	return w->source.data + w->tokens.comment_beg;
}

void
tidy_words_free(struct tidy_words *w)
{
	buffer_free(&w->source);
	buffer_free(&w->text);
	free(w->list.at);
	tokens_free(&w->tokens);
	tokens_free(&w->again);
	buffer_free(&w->joined);
}
