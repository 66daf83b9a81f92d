#include "cmd/output.h"

#include <errno.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "cmd/command.h"
#include "text/buffer.h"
#include "write/findings.h"

enum { MUCH = 64 * 1024 };

/* Where the last line of TEXT begins, or its end where there is but one. */
static size_t
last_line(const struct buffer *text)
{
	const char *lf = memrchr(text->data, '\n', text->len);

	return lf ? (size_t)(lf - text->data) + 1 : text->len;
}

/*
 * A file name in TEXT may hold what a terminal obeys, and ends of lines. Only
 * the line of advice that FORMAT itself has stays one.
 */
void
trouble(const char *format, ...)
{
	struct buffer text = {0}, safe = {0};
	va_list args;
	size_t advice;

	va_start(args, format);
	buffer_vprintf(&text, format, args);
	va_end(args);
	advice = strchr(format, '\n') ? last_line(&text) : text.len;
	buffer_puts(&safe, "rangeline: ");
	findings_safe(&safe, text.data, advice - (advice < text.len));
	if (advice < text.len) {
		buffer_putc(&safe, '\n');
		findings_safe(&safe, text.data + advice, text.len - advice);
	}
	buffer_putc(&safe, '\n');
	(void)buffer_write(&safe, STDERR_FILENO); /* else nobody can be told */
	buffer_free(&text);
	buffer_free(&safe);
}

void
output_write(struct buffer *buf)
{
	if (buffer_write(buf, STDOUT_FILENO) == 0)
		return;
	trouble("cannot write the output: %s", strerror(errno));
	exit(STATUS_TROUBLE);
}

/* Bytes at TEXT up to the next one that lays text out on a screen. */
static size_t
up_to_layout(const char *text, size_t len)
{
	size_t n = 0;

	while (n < len && text[n] != '\n' && text[n] != '\t' &&
	       !(text[n] == '\r' && n + 1 < len && text[n + 1] == '\n'))
		n++;
	return n;
}

void
output_show(struct buffer *buf, bool on_screen)
{
	struct buffer safe = {0};
	size_t len;

	if (!on_screen) {
		output_write(buf);
		return;
	}
	for (size_t i = 0; i < buf->len; i += len) {
		len = up_to_layout(buf->data + i, buf->len - i);
		findings_safe(&safe, buf->data + i, len);
		if (i + len < buf->len)
			buffer_putc(&safe, buf->data[i + len++]);
	}
	buf->len = 0;
	output_write(&safe);
	buffer_free(&safe);
}

void
output_flush_some(struct buffer *buf)
{
	if (buf->len >= MUCH)
		output_write(buf);
}

int
output_close(void)
{
	if (close(STDOUT_FILENO) == 0 || errno == EBADF)
		return STATUS_CLEAN;
	trouble("cannot write the output: %s", strerror(errno));
	return STATUS_TROUBLE;
}
