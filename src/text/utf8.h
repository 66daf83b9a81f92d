/*
 * UTF-8: is it well formed, how wide is it on a screen, where is a byte in
 * UTF-16. Offsets are bytes.
 */
#ifndef TEXT_UTF8_H
#define TEXT_UTF8_H

#include <stddef.h>
#include <stdint.h>

/*
 * The offset of the first byte of TEXT that is not well-formed UTF-8 or is a
 * control character other than tab; LEN where there is none. The length of
 * the bad run goes to *BAD (at least 1 where there is one).
 */
size_t utf8_check(const char *text, size_t len, size_t *bad);

/*
 * The code point at TEXT of LEN > 0 bytes; its bytes go to *SIZE. Ill-formed
 * bytes give U+FFFD and size 1.
 */
uint32_t utf8_decode(const char *text, size_t len, size_t *size);

/* Screen cells of a code point: 0 combining, 2 wide, else 1. */
int utf8_cells_of(uint32_t code);

/* Screen cells of TEXT; a tab counts as 1. */
size_t utf8_cells(const char *text, size_t len);

#endif
