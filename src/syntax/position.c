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
	for (size_t i = 0; family && i < list->len; i++)
		if (rivals(list->at[i].family) == rivals(family))
			return parse_fail(ps, t, RULE_SYNTAX,
			    "'%.*s' and '%s' cannot both be meant",
			    QUOTE(ps, t),
			    intern_text(ps->pool, list->at[i].name));
	if (t->kind == T_POSTURE)
		spelling = vocab_name(VOCAB_CLASS_POSTURE, t->id);
	else if (t->id >= 0)
		spelling = vocab_name(VOCAB_CLASS_SETTING, t->id);
	else
		vocab_setting(ps->text + t->beg, (size_t)(t->end - t->beg),
		    name, sizeof(name));
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

/* Inserts the text of NAME among the N sorted WORDS, once. */
static size_t
insert_sorted(const char **words, size_t n, const char *name)
{
	size_t i = n;

	for (size_t k = 0; k < n; k++)
		if (strcmp(words[k], name) == 0)
			return n;
	while (i > 0 && strcmp(words[i - 1], name) > 0) {
		words[i] = words[i - 1];
		i--;
	}
	words[i] = name;
	return n + 1;
}

static uint32_t
joined(struct intern *pool, const char **words, size_t n)
{
	char text[2 * MOST_POSITIONS * 33];
	size_t len = 0;

	if (n == 1)
		return intern_id(pool, words[0], strlen(words[0]));
	for (size_t i = 0; i < n; i++) {
		size_t word = strlen(words[i]);

		if (i > 0)
			text[len++] = ' ';
		memcpy(text + len, words[i], word);
		len += word;
	}
	return intern_id(pool, text, len);
}

void
positions_of(struct parse *ps, int measurement, const struct positions *line,
    uint32_t *setting, uint32_t *posture)
{
	const struct positions *header = &ps->measuring.positions;
	const char *settings[2 * MOST_POSITIONS];
	const char *postures[2 * MOST_POSITIONS];
	size_t n_settings = 0, n_postures = 0;
	uint64_t taken = 0;
	bool line_posture = false;

	*setting = *posture = 0;
	if (line->len == 0 && header->said == SAID_NOTHING)
		return;
	for (size_t i = 0; i < line->len; i++) {
		const char *name = intern_text(ps->pool, line->at[i].name);

		taken |= rivals(line->at[i].family);
		if (line->at[i].family) {
			n_settings = insert_sorted(settings, n_settings, name);
		} else {
			n_postures = insert_sorted(postures, n_postures, name);
			line_posture = true;
		}
	}
	for (size_t i = 0; i < header->len; i++) {
		const char *name = intern_text(ps->pool, header->at[i].name);
		uint64_t family = header->at[i].family;

		if (family == 0 && !line_posture)
			n_postures = insert_sorted(postures, n_postures, name);
		if (family & vocab_measurements[measurement].settings & ~taken)
			n_settings = insert_sorted(settings, n_settings, name);
	}
	*setting = joined(ps->pool, settings, n_settings);
	*posture = joined(ps->pool, postures, n_postures);
	if (header->said == SAID_UNREADABLE && n_settings == 0)
		*setting = UNKNOWN_TEXT;
	if (header->said == SAID_UNREADABLE && n_postures == 0)
		*posture = UNKNOWN_TEXT;
}
