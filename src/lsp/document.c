/* The text of a note and its lines. */
#include "lsp/document.h"

#include <stdlib.h>
#include <string.h>

#include "text/mem.h"
#include "write/json.h"

static const char bom[] = "\xef\xbb\xbf";

struct document *
document_new(const char *uri)
{
	struct document *d = mem_zero(sizeof(*d));

	d->uri = mem_text(uri, strlen(uri));
	buffer_room(&d->text, 1); /* so that there is a place at offset 0 */
	document_changed(d);
	return d;
}

void
document_free(struct document *d)
{
	if (!d)
		return;
	free(d->uri);
	buffer_free(&d->text);
	free(d->lines.at);
	free(d->rows.at);
	free(d->findings.at);
	arena_free(&d->arena);
	free(d);
}

void
document_splice(
    struct document *d, size_t beg, size_t end, const char *text, size_t len)
{
	size_t tail = d->text.len - end;

	if (len > end - beg)
		buffer_room(&d->text, len - (end - beg));
	if (tail > 0)
		memmove(d->text.data + beg + len, d->text.data + end, tail);
	if (len > 0)
		memcpy(d->text.data + beg, text, len);
	d->text.len = beg + len + tail;
}

static void
starts_add(struct line_starts *starts, size_t at)
{
	*MEM_PUSH(starts) = (uint32_t)at;
}

void
document_changed(struct document *d)
{
	const char *text = d->text.data;
	size_t len = d->text.len;

	d->lines.len = d->rows.len = 0;
	starts_add(&d->lines, 0);
	starts_add(&d->rows, 0);
	for (size_t i = 0; i < len; i++) {
		if ((unsigned char)text[i] > '\r')
			continue;
		if (text[i] == '\n') {
			starts_add(&d->lines, i + 1);
			starts_add(&d->rows, i + 1);
		} else if (text[i] == '\r' &&
			   (i + 1 == len || text[i + 1] != '\n')) {
			starts_add(&d->lines, i + 1);
		}
	}
	d->judged = d->published = false;
}

/* The last start at or before OFFSET. */
static size_t
starts_find(const struct line_starts *starts, size_t offset)
{
	size_t low = 0, high = starts->len;

	while (high - low > 1) {
		size_t middle = low + (high - low) / 2;

		if (starts->at[middle] <= offset)
			low = middle;
		else
			high = middle;
	}
	return low;
}

/* Where line I of STARTS ends, without what ends it. */
static size_t
end_of(const struct document *d, const struct line_starts *starts, size_t i)
{
	size_t beg = starts->at[i];
	size_t end = i + 1 < starts->len ? starts->at[i + 1] : d->text.len;

	if (i + 1 == starts->len)
		return end;
	if (end > beg && d->text.data[end - 1] == '\n')
		end--;
	if (end > beg && d->text.data[end - 1] == '\r')
		end--;
	return end;
}

size_t
document_offset(const struct document *d, enum position_encoding encoding,
    int64_t line, int64_t character)
{
	size_t beg, end;

	if (line < 0)
		return 0;
	if ((uint64_t)line >= d->lines.len)
		return d->text.len;
	beg = d->lines.at[line];
	end = end_of(d, &d->lines, (size_t)line);
	if (character < 0 || beg == end)
		return beg;
	return beg + position_bytes(encoding, d->text.data + beg, end - beg,
			 (uint64_t)character);
}

struct document_place
document_place(
    const struct document *d, enum position_encoding encoding, size_t offset)
{
	size_t line = starts_find(&d->lines, offset);
	size_t beg = d->lines.at[line];
	struct document_place place = {line, 0};

	if (offset > beg)
		place.character =
		    position_units(encoding, d->text.data + beg, offset - beg);
	return place;
}

static bool
has_bom(const struct document *d)
{
	return d->text.len >= 3 && memcmp(d->text.data, bom, 3) == 0;
}

struct document_row
document_row(const struct document *d, uint32_t row)
{
	struct document_row r = {"", 0, 0};
	size_t end;

	if (row == 0 || row > d->rows.len)
		return r;
	r.at = d->rows.at[row - 1] + (row == 1 && has_bom(d) ? 3u : 0u);
	end = end_of(d, &d->rows, row - 1);
	/* The reader of notes drops a CR at the very end too. */
	if (row == d->rows.len && end > r.at && d->text.data[end - 1] == '\r')
		end--;
	if (end > r.at) {
		r.text = d->text.data + r.at;
		r.len = end - r.at;
	}
	return r;
}

uint32_t
document_row_count(const struct document *d)
{
	size_t last = d->rows.len - 1;

	return (uint32_t)(d->rows.at[last] < d->text.len ? last + 1 : last);
}

uint32_t
document_row_of(const struct document *d, size_t offset)
{
	return (uint32_t)starts_find(&d->rows, offset) + 1;
}

size_t
document_at(const struct document *d, uint32_t row, size_t byte)
{
	size_t at = document_row(d, row).at + byte;

	return at < d->text.len ? at : d->text.len;
}

const char *
document_line_end(const struct document *d)
{
	size_t second = d->rows.len > 1 ? d->rows.at[1] : 0;

	return second > 1 && d->text.data[second - 2] == '\r' ? "\r\n" : "\n";
}

void
document_put_position(struct buffer *out, const struct document *d,
    enum position_encoding encoding, size_t offset)
{
	struct document_place place = document_place(d, encoding, offset);

	json_item(out);
	buffer_puts(out, "{\"line\":");
	buffer_uint(out, place.line);
	buffer_puts(out, ",\"character\":");
	buffer_uint(out, place.character);
	buffer_putc(out, '}');
}

void
document_put_range(struct buffer *out, const struct document *d,
    enum position_encoding encoding, size_t beg, size_t end)
{
	json_item(out);
	buffer_puts(out, "{\"start\":");
	document_put_position(out, d, encoding, beg);
	buffer_puts(out, ",\"end\":");
	document_put_position(out, d, encoding, end);
	buffer_putc(out, '}');
}
