#include "text/utf8.h"

#include <stdbool.h>
#include <string.h>

/* The length of the well-formed sequence at TEXT, 0 where there is none. */
static size_t
sequence(const unsigned char *t, size_t len)
{
	static const struct {
		unsigned char lead_lo, lead_hi, second_lo, second_hi, size;
	} forms[] = {/* Unicode 15, table 3-7 */
	    {0xc2, 0xdf, 0x80, 0xbf, 2}, {0xe0, 0xe0, 0xa0, 0xbf, 3},
	    {0xe1, 0xec, 0x80, 0xbf, 3}, {0xed, 0xed, 0x80, 0x9f, 3},
	    {0xee, 0xef, 0x80, 0xbf, 3}, {0xf0, 0xf0, 0x90, 0xbf, 4},
	    {0xf1, 0xf3, 0x80, 0xbf, 4}, {0xf4, 0xf4, 0x80, 0x8f, 4}};

	if (t[0] < 0x80)
		return 1;
	for (size_t i = 0; i < sizeof(forms) / sizeof(*forms); i++) {
		if (t[0] < forms[i].lead_lo || t[0] > forms[i].lead_hi)
			continue;
		if (len < forms[i].size || t[1] < forms[i].second_lo ||
		    t[1] > forms[i].second_hi)
			return 0;
		for (size_t k = 2; k < forms[i].size; k++)
			if ((t[k] & 0xc0) != 0x80)
				return 0;
		return forms[i].size;
	}
	return 0;
}

/* C0 but tab, DEL, and C1 (a terminal may obey it). */
static int
is_control(uint32_t code)
{
	return (code < 0x20 && code != '\t') || (code >= 0x7f && code < 0xa0);
}

/* Are all eight bytes at TEXT from 0x20 to 0x7e, as nearly always? */
static bool
is_plain(const char *text)
{
	const uint64_t each = UINT64_C(0x0101010101010101);
	uint64_t word;

	memcpy(&word, text, sizeof(word));
	return ((word | (word - each * 0x20) | (word + each)) & each * 0x80) ==
	       0;
}

size_t
utf8_check(const char *text, size_t len, size_t *bad)
{
	size_t i = 0;

	while (i < len) {
		size_t size;
		uint32_t code;

		if (len - i >= 8 && is_plain(text + i)) {
			i += 8;
			continue;
		}
		if (text[i] >= 0x20 && text[i] < 0x7f) {
			i++;
			continue;
		}
		code = utf8_decode(text + i, len - i, &size);
		if (is_control(code) ||
		    !sequence((const unsigned char *)text + i, len - i)) {
			*bad = size;
			return i;
		}
		i += size;
	}
	*bad = 0;
	return len;
}

uint32_t
utf8_decode(const char *text, size_t len, size_t *size)
{
	const unsigned char *t = (const unsigned char *)text;
	static const unsigned char lead_bits[] = {0, 0x7f, 0x1f, 0x0f, 0x07};
	size_t n = sequence(t, len);
	uint32_t code;

	if (n == 0) {
		*size = 1;
		return 0xfffd;
	}
	code = t[0] & lead_bits[n];
	for (size_t k = 1; k < n; k++)
		code = code << 6 | (t[k] & 0x3f);
	*size = n;
	return code;
}

/*
 * The ranges that matter in notes: combining marks and zero-width signs take
 * no cell, East Asian wide and full-width signs take two (UAX 11).
 */
int
utf8_cells_of(uint32_t code)
{
	static const struct {
		uint32_t lo, hi;
		int cells;
	} ranges[] = {{0x0300, 0x036f, 0}, {0x0483, 0x0489, 0},
	    {0x0591, 0x05bd, 0}, {0x064b, 0x065f, 0}, {0x1100, 0x115f, 2},
	    {0x1ab0, 0x1aff, 0}, {0x1dc0, 0x1dff, 0}, {0x200b, 0x200f, 0},
	    {0x202a, 0x202e, 0}, {0x2060, 0x2064, 0}, {0x20d0, 0x20f0, 0},
	    {0x2e80, 0x303e, 2}, {0x3041, 0x33ff, 2}, {0x3400, 0x4dbf, 2},
	    {0x4e00, 0x9fff, 2}, {0xa000, 0xa4cf, 2}, {0xac00, 0xd7a3, 2},
	    {0xf900, 0xfaff, 2}, {0xfe00, 0xfe0f, 0}, {0xfe20, 0xfe2f, 0},
	    {0xfe30, 0xfe6f, 2}, {0xfeff, 0xfeff, 0}, {0xff00, 0xff60, 2},
	    {0xffe0, 0xffe6, 2}, {0x1f300, 0x1f64f, 2}, {0x1f900, 0x1f9ff, 2},
	    {0x20000, 0x3fffd, 2}};

	if (code < ranges[0].lo)
		return 1;
	for (size_t i = 0; i < sizeof(ranges) / sizeof(*ranges); i++)
		if (code >= ranges[i].lo && code <= ranges[i].hi)
			return ranges[i].cells;
	return 1;
}

size_t
utf8_cells(const char *text, size_t len)
{
	size_t cells = 0, size;

	for (size_t i = 0; i < len; i += size) {
		size = 1;
		cells += (unsigned char)text[i] < 0x80
			     ? 1
			     : (size_t)utf8_cells_of(
				   utf8_decode(text + i, len - i, &size));
	}
	return cells;
}
