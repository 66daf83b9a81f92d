/*
 * Postures and settings: what a line or the header names, and what of it a
 * measurement has. A setting makes a different measurement, so its spelling
 * is made uniform here, words sorted.
 */
#include <string.h>

#include "parser.h"
#include "syntax/parse.h"
#include "vocab/vocab.h"

/* Families that exclude each other: of these one alone can be meant. */
static uint64_t
rivals(uint64_t family)
{
	uint64_t load = VOCAB_SETTING_BIT(VOCAB_SETTING_WEIGHT_BEARING) |
			VOCAB_SETTING_BIT(VOCAB_SETTING_NON_WEIGHT_BEARING);

	return family & load ? load : family;
}

/* Of postures one is taken; hook-lying is supine with the knees bent. */
static bool
is_other_posture(const char *a, const char *b)
{
	const char *supine =
	    vocab_name(VOCAB_CLASS_POSTURE, VOCAB_POSTURE_SUPINE);
	const char *hook =
	    vocab_name(VOCAB_CLASS_POSTURE, VOCAB_POSTURE_HOOK_LYING);
	bool both_supine = (strcmp(a, supine) == 0 || strcmp(a, hook) == 0) &&
			   (strcmp(b, supine) == 0 || strcmp(b, hook) == 0);

	return strcmp(a, b) != 0 && !both_supine;
}

/* Does WORD, a setting of FAMILY or a posture (0), exclude item I of LIST? */
static bool
is_rival(const struct parse *ps, const struct positions *list, size_t i,
    uint64_t family, const char *word)
{
	if (family || list->at[i].family)
		return rivals(list->at[i].family) == rivals(family);
	return is_other_posture(intern_text(ps->pool, list->at[i].name), word);
}

bool
positions_add(struct parse *ps, struct positions *list, const struct token *t)
{
	uint64_t family = t->kind == T_POSTURE ? 0 : t->setting;
	char name[32];
	const char *spelling = name;

	if (list->len == MOST_POSITIONS)
		return parse_fail(ps, t, RULE_SYNTAX,
		    "'%.*s' is one position more than a line may name",
		    QUOTE(ps, t));
	if (t->kind == T_POSTURE)
		spelling = vocab_name(VOCAB_CLASS_POSTURE, t->id);
	else if (t->id >= 0)
		spelling = vocab_name(VOCAB_CLASS_SETTING, t->id);
	else
		vocab_setting(ps->text + t->beg, (size_t)(t->end - t->beg),
		    name, sizeof(name));
	for (size_t i = 0; i < list->len; i++)
		if (is_rival(ps, list, i, family, spelling))
			return parse_fail(ps, t, RULE_SYNTAX,
			    "'%.*s' and '%s' cannot both be meant",
			    QUOTE(ps, t),
			    intern_text(ps->pool, list->at[i].name));
	list->said = SAID;
	list->at[list->len].name =
	    intern_id(ps->pool, spelling, strlen(spelling));
	list->at[list->len++].family = family;
	return true;
}

static bool
excludes(const struct positions *more, uint64_t family)
{
	for (size_t i = 0; i < more->len; i++)
		if (rivals(more->at[i].family) == rivals(family))
			return true;
	return false;
}

void
positions_change(struct positions *list, const struct positions *more)
{
	size_t n = 0;

	for (size_t i = 0; i < list->len; i++)
		if (!excludes(more, list->at[i].family))
			list->at[n++] = list->at[i];
	for (size_t i = 0; i < more->len && n < MOST_POSITIONS; i++)
		list->at[n++] = more->at[i];
	list->len = n;
}

/* Some words of one kind, sorted by their texts. */
struct words {
	size_t n;
	uint32_t at[2 * MOST_POSITIONS]; /* interned */
};

/* Inserts NAME where its text belongs, once. */
static void
insert_sorted(const struct intern *pool, struct words *words, uint32_t name)
{
	size_t i = words->n;

	for (size_t k = 0; k < words->n; k++)
		if (words->at[k] == name)
			return;
	for (; i > 0 && strcmp(intern_text(pool, words->at[i - 1]),
			    intern_text(pool, name)) > 0;
	     i--)
		words->at[i] = words->at[i - 1];
	words->at[i] = name;
	words->n++;
}

/* All the words as one text, interned; a single word is one already. */
static uint32_t
joined(struct intern *pool, const struct words *words)
{
	char text[2 * MOST_POSITIONS * 33];
	size_t len = 0;

	if (words->n <= 1)
		return words->n ? words->at[0] : 0;
	for (size_t i = 0; i < words->n; i++) {
		const char *word = intern_text(pool, words->at[i]);
		size_t n = strlen(word);

		if (i > 0)
			text[len++] = ' ';
		memcpy(text + len, word, n);
		len += n;
	}
	return intern_id(pool, text, len);
}

static void
find(struct parse *ps, int measurement, uint32_t *setting, uint32_t *posture)
{
	const struct positions *line = &ps->reading.named.positions;
	const struct positions *header = &ps->measuring.positions;
	struct words settings, postures;
	uint64_t taken = 0;
	bool line_posture = false;

	settings.n = postures.n = 0;
	for (size_t i = 0; i < line->len; i++) {
		bool is_posture = line->at[i].family == 0;

		taken |= rivals(line->at[i].family);
		insert_sorted(ps->pool, is_posture ? &postures : &settings,
		    line->at[i].name);
		line_posture |= is_posture;
	}
	for (size_t i = 0; i < header->len; i++) {
		uint32_t name = header->at[i].name;
		uint64_t family = header->at[i].family;

		if (family == 0 && !line_posture)
			insert_sorted(ps->pool, &postures, name);
		if (family & vocab_measurements[measurement].settings & ~taken)
			insert_sorted(ps->pool, &settings, name);
	}
	*setting = joined(ps->pool, &settings);
	*posture = joined(ps->pool, &postures);
	if (header->said == SAID_UNREADABLE && settings.n == 0)
		*setting = UNKNOWN_TEXT;
	if (header->said == SAID_UNREADABLE && postures.n == 0)
		*posture = UNKNOWN_TEXT;
}

void
positions_of(struct parse *ps, int which, struct reading *r)
{
	struct reading_line *l = &ps->reading;

	if (l->placed[which].measurement != 1 + r->measurement) {
		find(ps, r->measurement, &l->placed[which].setting,
		    &l->placed[which].posture);
		l->placed[which].measurement = 1 + r->measurement;
	}
	r->setting = l->placed[which].setting;
	r->posture = l->placed[which].posture;
}
