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

void
trouble(const char *format, ...)
{
	struct buffer text = {0}, safe = {0};
	va_list args;
	const char *line, *end;

	va_start(args, format);
	buffer_vprintf(&text, format, args);
	va_end(args);
	buffer_puts(&safe, "rangeline: ");
	/* A file name may hold what a terminal obeys; our line ends stay. */
	for (line = text.data, end = line + text.len; line < end;) {
		const char *lf = strstr(line, "\nTry ");
		size_t len = lf ? (size_t)(lf - line) : (size_t)(end - line);

		findings_safe(&safe, line, len);
		buffer_putc(&safe, '\n');
		line += len + (lf != NULL);
	}
	if (buffer_write(&safe, STDERR_FILENO) != 0)
		errno = 0; /* nobody is left to tell */
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
