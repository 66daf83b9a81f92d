/*
 * Where a bound comes from, in words for a hint. The limits table says it for
 * those who keep the table: `BooneAzen1979 26.9 + 2 x SD 4.1`. A reader of
 * findings is told whose figure it is, what was added to it, and the command
 * that shows the source; what the table only has from memory is said to be so.
 */
#include "lint/bound_words.h"

#include <string.h>

#include "text/ascii.h"

/* By the table's word for how a bound was verified. */
static const struct {
	const char *verified, *words;
} possible_words[] = {
    {"own bound", "this program's own bound, generous on purpose"},
    {"read", "a published extreme that was read, with a margin"},
    {"derived", "derived from published figures"},
    {"from memory", "a figure from memory"},
};

const char *
bound_possible_words(const struct reading *r, const struct ref_bound *bound)
{
	if (reading_measurement(r)->in == VOCAB_IN_SCORE)
		return "the top of the scale";
	for (size_t i = 0;
	     i < sizeof(possible_words) / sizeof(possible_words[0]); i++)
		if (strcmp(bound->verified_possible,
			possible_words[i].verified) == 0)
			return possible_words[i].words;
	return bound->verified_possible;
}

/* As prose has it: one blank, none before a comma, `Yoshida2003` parted. */
static void
add_letter(struct buffer *out, char c)
{
	char before = out->len ? out->data[out->len - 1] : ' ';

	c = c == '_' ? ' ' : c;
	if (before == ' ' && c == ' ')
		return;
	if (before == ' ' && out->len > 0 && strchr(",;:", c))
		out->len--;
	if (ascii_is_digit(c) && ascii_is_letter(before))
		buffer_putc(out, ' ');
	buffer_putc(out, c);
}

/* LEN bytes without what stands in brackets and what led on to more. */
static void
add_plain(struct buffer *out, const char *text, size_t len)
{
	int depth = 0;

	for (size_t i = 0; i < len; i++) {
		depth += text[i] == '(';
		if (depth == 0)
			add_letter(out, text[i]);
		depth -= text[i] == ')';
	}
	while (out->len > 0 && strchr(" ,;-/", out->data[out->len - 1]))
		out->len--;
}

/* As readers of papers name it: author and year, else where it came out. */
static void
add_source(struct buffer *out, const struct ref_source *source)
{
	if (source->author[0])
		buffer_printf(out, " by %s%s%s", source->author,
		    source->year[0] ? " " : "", source->year);
	else if (source->published[0])
		buffer_printf(out, " by %s", source->published);
}

/* The source whose key BASIS begins with, or NULL; its length to LEN. */
static const struct ref_source *
source_of(const char *basis, size_t *len)
{
	char key[64];

	*len = strcspn(basis, " ");
	if (*len >= sizeof(key))
		return NULL;
	memcpy(key, basis, *len);
	key[*len] = '\0';
	return ref_source_find(key);
}

void
bound_usual_words(struct buffer *out, const struct ref_bound *bound)
{
	const char *basis = bound->basis_usual;
	const char *added = strstr(basis, "+ 2 ");
	size_t len = added ? (size_t)(added - basis) : strlen(basis);
	size_t key;
	const struct ref_source *source = source_of(basis, &key);

	if (source && key < len)
		add_plain(out, basis + key + 1, len - key - 1);
	else
		add_plain(out, basis, len);
	if (source)
		add_source(out, source);
	if (added)
		buffer_puts(out, ", and two standard deviations more");
	if (added && strstr(added, "assumed"))
		buffer_puts(out, ", assumed where none is known");
	if (strcmp(bound->verified, "from memory") == 0)
		buffer_puts(out, ", from memory");
	if (source)
		buffer_printf(out, " (`rangeline sources %s`)", source->key);
}
