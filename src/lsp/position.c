/* Bytes, UTF-16 units and code points of a line. */
#include "lsp/position.h"

#include "text/utf8.h"

const char *const position_names[POSITION_ENCODINGS] = {
    [POSITION_UTF8] = "utf-8",
    [POSITION_UTF16] = "utf-16",
    [POSITION_UTF32] = "utf-32"};

/* Units of the character at TEXT, whose bytes go to *SIZE. */
static size_t
units_of(
    enum position_encoding encoding, const char *text, size_t len, size_t *size)
{
	uint32_t code;

	if ((unsigned char)*text < 0x80) {
		*size = 1;
		return 1;
	}
	code = utf8_decode(text, len, size);
	switch (encoding) {
	case POSITION_UTF16:
		return code >= 0x10000 ? 2 : 1;
	case POSITION_UTF32:
		return 1;
	default:
		return *size;
	}
}

size_t
position_units(enum position_encoding encoding, const char *text, size_t len)
{
	size_t units = 0, size;

	if (encoding == POSITION_UTF8)
		return len;
	for (size_t i = 0; i < len; i += size)
		units += units_of(encoding, text + i, len - i, &size);
	return units;
}

size_t
position_bytes(enum position_encoding encoding, const char *text, size_t len,
    uint64_t units)
{
	size_t i = 0, size;

	while (i < len && units > 0) {
		size_t n = units_of(encoding, text + i, len - i, &size);

		if (n > units)
			break;
		units -= n;
		i += size;
	}
	return i;
}
