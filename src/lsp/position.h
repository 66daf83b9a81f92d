/*
 * Columns as the client counts them. Inside, every place is an offset in
 * bytes; here alone it becomes another count, and back.
 */
#ifndef LSP_POSITION_H
#define LSP_POSITION_H

#include <stddef.h>
#include <stdint.h>

enum position_encoding { POSITION_UTF8, POSITION_UTF16, POSITION_UTF32 };

/* As the protocol names them, by enum position_encoding. */
enum { POSITION_ENCODINGS = 3 };
extern const char *const position_names[POSITION_ENCODINGS];

/* How many units LEN bytes are. */
size_t position_units(
    enum position_encoding encoding, const char *text, size_t len);

/*
 * The bytes that UNITS are, LEN at most; a count that ends within a character
 * ends before it.
 */
size_t position_bytes(enum position_encoding encoding, const char *text,
    size_t len, uint64_t units);

#endif
