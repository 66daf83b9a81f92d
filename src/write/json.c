/*
 * The pieces of JSON (RFC 8259): strings that are always valid UTF-8 and never
 * hold a control character, numbers without an exponent.
 */
#include "write/json.h"

#include <string.h>

#include "calc/value.h"
#include "text/utf8.h"

void
json_item(struct buffer *out)
{
	char last = out->len > 0 ? out->data[out->len - 1] : '\n';

	/* A line holds one value, so a new line is a new beginning. */
	if (last != '{' && last != '[' && last != ':' && last != '\n')
		buffer_putc(out, ',');
}

void
json_name(struct buffer *out, const char *name)
{
	json_item(out);
	buffer_putc(out, '"');
	buffer_puts(out, name);
	buffer_puts(out, "\":");
}

static size_t
plain_run(const char *text, size_t len)
{
	size_t n = 0;

	while (n < len && text[n] >= 0x20 && text[n] < 0x7f && text[n] != '"' &&
	       text[n] != '\\')
		n++;
	return n;
}

static void
escape(struct buffer *out, uint32_t code)
{
	static const struct {
		uint32_t code;
		const char *text;
	} short_forms[] = {
	    {'"', "\\\""}, {'\\', "\\\\"}, {'\n', "\\n"}, {'\t', "\\t"}};

	for (size_t i = 0; i < sizeof(short_forms) / sizeof(*short_forms); i++)
		if (short_forms[i].code == code) {
			buffer_puts(out, short_forms[i].text);
			return;
		}
	buffer_printf(out, "\\u%04x", (unsigned)code);
}

void
json_string(struct buffer *out, const char *text, size_t len)
{
	size_t size;

	buffer_putc(out, '"');
	while (len > 0) {
		uint32_t code;

		size = plain_run(text, len);
		buffer_add(out, text, size);
		text += size;
		len -= size;
		if (len == 0)
			break;
		code = utf8_decode(text, len, &size);
		if (code < 0xa0)
			escape(out, code);
		else if (code == 0xfffd)
			buffer_puts(out, "\xef\xbf\xbd");
		else
			buffer_add(out, text, size);
		text += size;
		len -= size;
	}
	buffer_putc(out, '"');
}

void
json_puts(struct buffer *out, const char *text)
{
	json_string(out, text, strlen(text));
}

void
json_hundredths(struct buffer *out, int64_t hundredths)
{
	char text[24];

	buffer_add(out, text, number_text(hundredths, text));
}

void
json_text_of(struct buffer *out, const char *name, const char *text)
{
	json_name(out, name);
	if (text)
		json_puts(out, text);
	else
		buffer_puts(out, "null");
}

void
json_uint_of(struct buffer *out, const char *name, uint64_t number)
{
	json_name(out, name);
	buffer_uint(out, number);
}
