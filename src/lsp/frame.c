/*
 * Bytes to messages. Whatever comes, it goes on: a header that cannot be read
 * is told once and passed over to the next one, a body that is too long is
 * passed over whole, so memory has a bound. Lengths that contradict each other
 * are a header that cannot be read, as RFC 9112 has it in section 6.3: to
 * believe one of them would make a message of the wrong bytes.
 */
#include "lsp/frame.h"

#include <string.h>
#include <strings.h>

void
frames_free(struct frames *f)
{
	buffer_free(&f->bytes);
}

/* Drops what is done with, where that is cheap or saves much. */
static void
forget(struct frames *f)
{
	size_t left = f->bytes.len - f->at;

	if (f->at == 0 || left > f->at)
		return;
	if (left > 0)
		memmove(f->bytes.data, f->bytes.data + f->at, left);
	f->bytes.len = left;
	f->at = 0;
}

void
frames_feed(struct frames *f, const char *bytes, size_t len)
{
	size_t skipped = len < f->skip ? len : f->skip;

	/* While bytes are skipped, none wait. */
	f->skip -= skipped;
	forget(f);
	buffer_add(&f->bytes, bytes + skipped, len - skipped);
}

/* Digits alone, within reason; false else. */
static bool
read_length(const char *text, const char *end, size_t *length)
{
	size_t n = 0;

	while (text < end && (*text == ' ' || *text == '\t'))
		text++;
	while (end > text && (end[-1] == ' ' || end[-1] == '\t'))
		end--;
	if (text == end || end - text > 15)
		return false;
	for (; text < end; text++) {
		if (*text < '0' || *text > '9')
			return false;
		n = n * 10 + (size_t)(*text - '0');
	}
	*length = n;
	return true;
}

/* The first fault of a header is the one that is told. */
static void
find_fault(struct frames *f, const char *why)
{
	if (!f->fault)
		f->fault = why;
}

static void
take_length(struct frames *f, const char *text, const char *end)
{
	size_t length = 0;

	if (!read_length(text, end, &length))
		find_fault(f, "its header says a length that is no number");
	else if (f->has_length && length != f->length)
		find_fault(f, "its header says two lengths that differ");
	f->has_length = true;
	f->length = length;
}

static void
read_header_line(struct frames *f, const char *text, size_t len)
{
	static const char name[] = "Content-Length:";
	const size_t name_len = sizeof(name) - 1;
	const char *beg = text, *end = text + len;

	/* Behind what could not be read a header may begin anywhere. */
	while (f->lost && (size_t)(end - text) > name_len &&
	       strncasecmp(text, name, name_len) != 0)
		text++;
	if ((size_t)(end - text) < name_len ||
	    strncasecmp(text, name, name_len) != 0) {
		f->begun = f->begun || !f->lost;
		if (f->begun && !memchr(beg, ':', len))
			find_fault(f, "a line of its header is none");
		return;
	}
	if (text > beg) {
		f->has_length = false;
		f->fault = NULL;
	}
	f->begun = true;
	take_length(f, text + name_len, end);
}

/* The blank line has come: is a body to be expected? */
static enum frame_event
end_header(struct frames *f)
{
	bool looked = f->lost && !f->begun;

	if (!f->has_length)
		find_fault(f, "its header says no length");
	f->why = f->fault;
	f->lost = f->fault != NULL;
	f->begun = f->has_length = false;
	f->fault = NULL;
	/* Of what lies behind a header that was lost, it has told already. */
	if (f->lost)
		return looked ? FRAME_NOTHING : FRAME_LOST;
	if (f->length > FRAME_LONGEST_BODY) {
		size_t here = f->bytes.len - f->at;

		here = here < f->length ? here : f->length;
		f->at += here;
		f->skip = f->length - here;
		f->why = "it is longer than 64 MiB";
		return FRAME_LOST;
	}
	f->in_body = true;
	return FRAME_NOTHING;
}

/* One line of the header; false where it has not come whole. */
static bool
next_line(struct frames *f, const char **text, size_t *len)
{
	const char *beg, *lf;
	size_t left = f->bytes.len - f->at;

	if (left == 0)
		return false;
	beg = f->bytes.data + f->at;
	lf = memchr(beg, '\n', left);
	if (!lf && left <= FRAME_LONGEST_LINE)
		return false;
	*text = beg;
	*len = lf ? (size_t)(lf - beg) : left;
	f->at += *len + (lf != NULL);
	if (*len > 0 && beg[*len - 1] == '\r')
		--*len;
	return true;
}

bool
frames_are_cut(const struct frames *f)
{
	return f->in_body || f->skip > 0 || f->begun ||
	       (!f->lost && f->bytes.len > f->at);
}

enum frame_event
frames_next(struct frames *f)
{
	const char *text;
	size_t len;

	while (!f->in_body) {
		if (!next_line(f, &text, &len))
			return FRAME_NOTHING;
		if (len > 0)
			read_header_line(f, text, len);
		else if (end_header(f) == FRAME_LOST)
			return FRAME_LOST;
	}
	if (f->bytes.len - f->at < f->length)
		return FRAME_NOTHING;
	f->body = f->length > 0 ? f->bytes.data + f->at : "";
	f->len = f->length;
	f->at += f->length;
	f->in_body = false;
	return FRAME_MESSAGE;
}
