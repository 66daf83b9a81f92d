/* Letters and digits of ASCII, whatever the locale. */
#ifndef TEXT_ASCII_H
#define TEXT_ASCII_H

#include <stdbool.h>

static inline bool
ascii_is_letter(char c)
{
	return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
}

static inline bool
ascii_is_digit(char c)
{
	return c >= '0' && c <= '9';
}

#endif
