#include "cmd/output.h"

#include <errno.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "cmd/command.h"
#include "text/buffer.h"

enum { MUCH = 64 * 1024 };

void
trouble(const char *format, ...)
{
	va_list args;

	fputs("rangeline: ", stderr);
	va_start(args, format);
	vfprintf(stderr, format, args);
	va_end(args);
	fputc('\n', stderr);
}

void
output_write(struct buffer *buf)
{
	if (buffer_write(buf, STDOUT_FILENO) == 0)
		return;
	trouble("cannot write the output: %s", strerror(errno));
	exit(STATUS_TROUBLE);
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
