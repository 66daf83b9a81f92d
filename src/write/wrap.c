/* Text by words, in lines of a screen. */
#include "write/wrap.h"

#include <stdbool.h>
#include <string.h>

#include "text/utf8.h"

void
wrap_text(struct buffer *out, const char *text, size_t len, size_t column,
    size_t indent)
{
	enum { WIDEST = 80 };
	bool first = true;

	for (size_t i = 0; i < len;) {
		const char *blank = memchr(text + i, ' ', len - i);
		size_t word = blank ? (size_t)(blank - text) - i : len - i;
		size_t cells = utf8_cells(text + i, word);

		if (!first && column + 1 + cells > WIDEST) {
			buffer_putc(out, '\n');
			buffer_pad(out, ' ', indent);
			column = indent;
		} else if (!first) {
			buffer_putc(out, ' ');
			column++;
		}
		buffer_add(out, text + i, word);
		column += cells;
		first = false;
		i += word + (blank ? 1 : 0);
	}
}
