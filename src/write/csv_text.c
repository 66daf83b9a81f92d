/*
 * A text as one cell of CSV: quoted only where that is needed, and guarded so
 * that no spreadsheet runs it as a formula.
 */
#include "write/csv.h"

#include <string.h>

#include "text/ascii.h"

/* Would a spreadsheet run it? Full-width = + - @ count as well. */
static bool
is_formula(const char *text, size_t len)
{
	static const char *const wide[] = {
	    "\xef\xbc\x9d", "\xef\xbc\x8b", "\xef\xbc\x8d", "\xef\xbc\xa0"};

	if (len == 0)
		return false;
	if (memchr("=+-@\t\n\r", text[0], 7))
		return true;
	for (size_t i = 0; len >= 3 && i < sizeof(wide) / sizeof(*wide); i++)
		if (memcmp(text, wide[i], 3) == 0)
			return true;
	return false;
}

/*
 * Needed beyond RFC 4180: a spreadsheet that is told to part cells by
 * semicolons or tabs too would run as a formula what stands behind one.
 */
static bool
is_cut(const char *c, const char *end)
{
	return (*c == ';' || *c == '\t') &&
	       is_formula(c + 1, (size_t)(end - c) - 1);
}

char *
csv_finish(char *beg, char *p)
{
	size_t len = (size_t)(p - beg), quotes = 0;
	bool special = false, formula = is_formula(beg, len);
	char *from = p, *to;

	for (char *c = beg; c < p; c++) {
		quotes += *c == '"';
		special |=
		    *c == ',' || *c == '\n' || *c == '\r' || is_cut(c, p);
	}
	special |= quotes > 0;
	if (!special && !formula)
		return p;
	p = to = p + quotes + (special ? 2 : 0) + (formula ? 1 : 0);
	if (special)
		*--to = '"';
	while (from > beg) {
		*--to = *--from;
		if (*to == '"')
			*--to = '"';
	}
	if (formula)
		*--to = '\'';
	if (special)
		*--to = '"';
	return p;
}

void
csv_text(struct buffer *out, const char *text, size_t len)
{
	char *beg = buffer_room(out, 2 * len + CSV_FINISH_ROOM);

	if (len == 0)
		return;
	memcpy(beg, text, len);
	out->len += (size_t)(csv_finish(beg, beg + len) - beg);
}

void
csv_value(struct buffer *out, const char *text, size_t len)
{
	struct buffer words = {0};

	for (size_t i = 0; i < len; i++)
		if (text[i] == '-' && i > 0 && i + 1 < len &&
		    ascii_is_digit(text[i - 1]) && ascii_is_digit(text[i + 1]))
			buffer_puts(&words, " to ");
		else
			buffer_putc(&words, text[i]);
	csv_text(out, words.data, words.len);
	buffer_free(&words);
}
