/*
 * Findings as text (the message line of the GNU Coding Standards, the source
 * line with the span underlined, a note that says what to do) or as JSON, one
 * object a line. Whatever the note holds, nothing here reaches a terminal that
 * it would obey.
 */
#include "write/findings.h"

#include <string.h>

#include "text/utf8.h"
#include "write/json.h"

enum {
	WIDEST = 120, /* cells of a source line before it is cut */
	BEFORE = 40,  /* cells kept before the span in a cut line */
	TAB = 8
};

static const char indent[] = "    ";
static const char cut_mark[] = "...";
static const char bad_mark[] = "\xef\xbf\xbd"; /* U+FFFD */

const struct findings_colours findings_plain = {
    "", {"", "", "", ""}, "", "", "", ""};
const struct findings_colours findings_coloured = {"\033[1m",
    {"", "\033[1;36m", "\033[1;35m", "\033[1;31m"}, "\033[2m", "\033[1;32m",
    "\033[1;36m", "\033[0m"};

/* Control characters, and marks that turn the direction of the text. */
static bool
is_obeyed(uint32_t code)
{
	return code < 0x20 || (code >= 0x7f && code < 0xa0) ||
	       (code >= 0x202a && code <= 0x202e) ||
	       (code >= 0x2066 && code <= 0x2069);
}

/* One character as it is shown; returns its bytes, and its cells. */
static size_t
shown(const char *text, size_t len, size_t *cells, bool *bad)
{
	size_t size;
	uint32_t code;

	if (text[0] >= 0x20 && text[0] < 0x7f) {
		*bad = false;
		*cells = 1;
		return 1;
	}
	code = utf8_decode(text, len, &size);
	*bad = code != '\t' && (code == 0xfffd || is_obeyed(code));
	if (*bad)
		*cells = 1;
	else
		*cells = code == '\t' ? TAB : (size_t)utf8_cells_of(code);
	return size;
}

/* Bytes at TEXT that are shown as they are, each in one cell. */
static size_t
plain_run(const char *text, size_t len)
{
	size_t n = 0;

	while (n < len && text[n] >= 0x20 && text[n] < 0x7f)
		n++;
	return n;
}

void
findings_safe(struct buffer *out, const char *text, size_t len)
{
	size_t cells, size;
	bool bad;

	for (size_t i = 0; i < len; i += size) {
		size = plain_run(text + i, len - i);
		if (size > 0) {
			buffer_add(out, text + i, size);
			continue;
		}
		size = shown(text + i, len - i, &cells, &bad);
		if (bad)
			buffer_puts(out, bad_mark);
		else if (text[i] == '\t')
			buffer_putc(out, ' ');
		else
			buffer_add(out, text + i, size);
	}
}

static void
safe(struct buffer *out, const char *text)
{
	findings_safe(out, text, strlen(text));
}

static const char *
message_of(const struct finding *f)
{
	return f->message ? f->message : rule_table[f->rule].title;
}

static void
add_unread(struct buffer *out, uint32_t lines)
{
	if (lines == 0)
		return;
	buffer_puts(out, "; ");
	buffer_uint(out, lines);
	buffer_puts(out, lines == 1
			     ? " more line that continues it was not read"
			     : " more lines that continue it were not read");
}

void
findings_message(struct buffer *out, const struct finding *f)
{
	safe(out, message_of(f));
	add_unread(out, f->unread);
}

/* What is shown of the source line: bytes from .. to. */
struct excerpt {
	size_t from;
	size_t to;
};

/*
 * The whole line where it fits; else a piece that begins somewhat before the
 * span. One pass: `from` follows BEFORE cells behind until the span begins.
 */
static struct excerpt
cut_out(const struct finding *f)
{
	struct excerpt e = {0, f->source_len};
	size_t len = f->source_len, all = 0, before = 0, cells, size;
	bool bad;

	for (size_t i = 0; i < len && all <= WIDEST; i += size) {
		size = shown(f->source + i, len - i, &cells, &bad);
		all += cells;
	}
	if (all <= WIDEST)
		return e;
	for (size_t i = 0; i < len && i < f->beg; i += size) {
		size = shown(f->source + i, len - i, &cells, &bad);
		before += cells;
		while (before > BEFORE) {
			e.from += shown(
			    f->source + e.from, len - e.from, &cells, &bad);
			before -= cells;
		}
	}
	all = 0;
	for (e.to = e.from; e.to < len; e.to += size) {
		size = shown(f->source + e.to, len - e.to, &cells, &bad);
		all += cells;
		if (all > WIDEST)
			break;
	}
	return e;
}

static void
source_line(
    struct buffer *out, const struct finding *f, const struct excerpt *e)
{
	size_t cells, size;
	bool bad;

	buffer_puts(out, indent);
	if (e->from > 0)
		buffer_puts(out, cut_mark);
	for (size_t i = e->from; i < e->to; i += size) {
		size = plain_run(f->source + i, e->to - i);
		if (size > 0) {
			buffer_add(out, f->source + i, size);
			continue;
		}
		size = shown(f->source + i, e->to - i, &cells, &bad);
		if (bad)
			buffer_puts(out, bad_mark);
		else
			buffer_add(out, f->source + i, size);
	}
	if (e->to < f->source_len)
		buffer_puts(out, cut_mark);
	buffer_putc(out, '\n');
}

/* Tabs before the span are kept, so that both lines move alike. */
static void
underline(struct buffer *out, const struct finding *f, const struct excerpt *e,
    const struct findings_colours *colours)
{
	size_t cells, size, column, marks = 0;
	bool bad;

	buffer_puts(out, indent);
	if (e->from > 0)
		buffer_pad(out, ' ', sizeof(cut_mark) - 1);
	column = sizeof(indent) - 1 + (e->from > 0 ? sizeof(cut_mark) - 1 : 0);
	for (size_t i = e->from; i < e->to && i < f->end; i += size) {
		size = shown(f->source + i, e->to - i, &cells, &bad);
		if (f->source[i] == '\t')
			cells = TAB - column % TAB;
		column += cells;
		if (i >= f->beg)
			marks += cells;
		else if (f->source[i] == '\t')
			buffer_putc(out, '\t');
		else
			buffer_pad(out, ' ', cells);
	}
	buffer_puts(out, colours->caret);
	buffer_putc(out, '^');
	if (marks > 1)
		buffer_pad(out, '~', marks - 1);
	buffer_puts(out, colours->reset);
	buffer_putc(out, '\n');
}

static void
write_text(struct buffer *out, const char *file, const struct finding *f,
    const struct findings_style *style)
{
	const struct findings_colours *colours =
	    style->colour ? &findings_coloured : &findings_plain;

	buffer_puts(out, colours->place);
	safe(out, file);
	buffer_putc(out, ':');
	buffer_uint(out, f->line ? f->line : 1);
	buffer_putc(out, ':');
	buffer_uint(out, (uint64_t)f->beg + 1);
	buffer_putc(out, ':');
	buffer_puts(out, colours->reset);
	buffer_putc(out, ' ');
	buffer_puts(out, colours->level[f->level]);
	buffer_puts(out, level_name(f->level));
	buffer_putc(out, ':');
	buffer_puts(out, colours->reset);
	buffer_putc(out, ' ');
	findings_message(out, f);
	buffer_putc(out, ' ');
	buffer_puts(out, colours->rule);
	buffer_putc(out, '[');
	buffer_puts(out, rule_table[f->rule].name);
	buffer_putc(out, ']');
	buffer_puts(out, colours->reset);
	buffer_putc(out, '\n');
	if (style->brief)
		return;
	if (f->source) {
		struct excerpt e = cut_out(f);

		source_line(out, f, &e);
		underline(out, f, &e, colours);
	}
	if (f->hint) {
		buffer_puts(out, "  ");
		buffer_puts(out, colours->note);
		buffer_puts(out, "note:");
		buffer_puts(out, colours->reset);
		buffer_putc(out, ' ');
		safe(out, f->hint);
		buffer_putc(out, '\n');
	}
}

static void
write_json(struct buffer *out, const char *file, const struct finding *f)
{
	uint32_t line = f->line ? f->line : 1;
	struct buffer message = {0};

	findings_message(&message, f);
	buffer_putc(out, '{');
	json_text_of(out, "file", file);
	json_uint_of(out, "line", line);
	json_uint_of(out, "column", (uint64_t)f->beg + 1);
	json_uint_of(out, "end_line", line);
	json_uint_of(out, "end_column", (uint64_t)f->end + 1);
	json_text_of(out, "level", level_name(f->level));
	json_text_of(out, "rule", rule_table[f->rule].name);
	json_name(out, "message");
	json_string(out, message.data, message.len);
	json_text_of(out, "hint", f->hint ? f->hint : "");
	buffer_puts(out, "}\n");
	buffer_free(&message);
}

void
findings_write(struct buffer *out, const char *file, const struct finding *f,
    const struct findings_style *style)
{
	if (style->json)
		write_json(out, file, f);
	else
		write_text(out, file, f, style);
}
