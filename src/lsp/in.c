/* Questions about JSON, on libjansson. */
#include "lsp/in.h"

#include <jansson.h>
#include <math.h>
#include <string.h>

#include "text/mem.h"

/* The library would carry on without what it has no memory for. */
static void *
take(size_t size)
{
	return mem_resize(NULL, size ? size : 1, 1);
}

/* The code of the \uXXXX at offset AT, or -1. */
static int32_t
escaped(const char *text, size_t len, size_t at)
{
	static const char digits[] = "0123456789abcdefABCDEF";
	int32_t code = 0;

	if (at > len || len - at < 6 || text[at] != '\\' || text[at + 1] != 'u')
		return -1;
	for (size_t i = at + 2; i < at + 6; i++) {
		const char *d = memchr(digits, text[i], sizeof(digits) - 1);

		if (!d)
			return -1;
		code = code * 16 + (int32_t)(d - digits) -
		       (d - digits < 16 ? 0 : 6);
	}
	return code;
}

/* Where the escape of a surrogate without its pair is, from AT on, or LEN. */
static size_t
lone_surrogate(const char *text, size_t len, size_t at)
{
	const char *next;

	while (at < len && (next = memchr(text + at, '\\', len - at))) {
		int32_t code, second;

		at = (size_t)(next - text);
		code = escaped(text, len, at);
		second = escaped(text, len, at + 6);
		if (code < 0)
			at += 2;
		else if (code < 0xd800 || code > 0xdfff)
			at += 6;
		else if (code < 0xdc00 && second >= 0xdc00 && second <= 0xdfff)
			at += 12;
		else
			return at;
	}
	return len;
}

static struct json_t *
load(const char *text, size_t len)
{
	json_error_t error;

	json_set_alloc_funcs(take, free);
	return json_loadb(text, len, JSON_DECODE_ANY | JSON_ALLOW_NUL, &error);
}

/*
 * An editor whose texts are UTF-16 may send half a character. The grammar of
 * JSON has it, the library refuses it; U+FFFD takes its place, which is one
 * unit of UTF-16 too and three bytes too, so positions stay.
 */
struct json_t *
in_parse(const char *text, size_t len)
{
	size_t lone = lone_surrogate(text, len, 0);
	struct buffer mended = {0};
	struct json_t *value;

	if (lone == len)
		return load(text, len);
	buffer_add(&mended, text, len);
	for (; lone < len; lone = lone_surrogate(mended.data, len, lone))
		memcpy(mended.data + lone, "\\ufffd", 6);
	value = load(mended.data, len);
	buffer_free(&mended);
	return value;
}

void
in_free(struct json_t *value)
{
	json_decref(value);
}

const struct json_t *
in_get(const struct json_t *value, const char *path)
{
	while (value && *path) {
		size_t len = strcspn(path, ".");

		value = json_object_getn(value, path, len);
		path += len;
		path += *path == '.';
	}
	return value;
}

size_t
in_count(const struct json_t *value)
{
	return json_array_size(value);
}

const struct json_t *
in_at(const struct json_t *value, size_t i)
{
	return json_array_get(value, i);
}

bool
in_is_object(const struct json_t *value)
{
	return json_is_object(value);
}

bool
in_is_id(const struct json_t *value)
{
	return json_is_string(value) || json_is_integer(value);
}

bool
in_same(const struct json_t *a, const struct json_t *b)
{
	return json_equal(a, b);
}

const char *
in_text(const struct json_t *value, size_t *len)
{
	const char *text = json_string_value(value);

	if (!text)
		return NULL;
	if (len)
		*len = json_string_length(value);
	else if (strlen(text) != json_string_length(value))
		return NULL;
	return text;
}

bool
in_is(const struct json_t *value, const char *text)
{
	const char *is = in_text(value, NULL);

	return is && strcmp(is, text) == 0;
}

int64_t
in_integer(const struct json_t *value, int64_t otherwise)
{
	return json_is_integer(value) ? json_integer_value(value) : otherwise;
}

int64_t
in_tenths(const struct json_t *value, int64_t otherwise)
{
	double number = json_number_value(value);

	if (!json_is_number(value) || fabs(number) > 1e9)
		return otherwise;
	return llround(number * 10);
}

bool
in_bool(const struct json_t *value, bool otherwise)
{
	return json_is_boolean(value) ? json_is_true(value) : otherwise;
}

bool
in_has(const struct json_t *array, const char *text)
{
	for (size_t i = 0; i < in_count(array); i++)
		if (in_is(in_at(array, i), text))
			return true;
	return false;
}

static int
append(const char *text, size_t len, void *arg)
{
	buffer_add(arg, text, len);
	return 0;
}

void
in_echo(struct buffer *out, const struct json_t *value)
{
	size_t before = out->len;

	if (json_dump_callback(
		value, append, out, JSON_ENCODE_ANY | JSON_COMPACT) != 0) {
		out->len = before;
		buffer_puts(out, "null");
	}
}
