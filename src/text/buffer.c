#include "text/buffer.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "text/mem.h"

void
buffer_free(struct buffer *buf)
{
	free(buf->data);
	*buf = (struct buffer){0};
}

char *
buffer_room(struct buffer *buf, size_t more)
{
	if (buf->cap - buf->len < more) {
		size_t cap = buf->cap ? buf->cap : 256;

		while (cap - buf->len < more)
			cap *= 2;
		buf->data = mem_resize(buf->data, cap, 1);
		buf->cap = cap;
	}
	return buf->data + buf->len;
}

void
buffer_add(struct buffer *buf, const char *text, size_t len)
{
	if (len == 0)
		return;
	memcpy(buffer_room(buf, len), text, len);
	buf->len += len;
}

void
buffer_puts(struct buffer *buf, const char *text)
{
	buffer_add(buf, text, strlen(text));
}

void
buffer_putc(struct buffer *buf, char byte)
{
	*buffer_room(buf, 1) = byte;
	buf->len++;
}

void
buffer_pad(struct buffer *buf, char byte, size_t times)
{
	if (times == 0)
		return;
	memset(buffer_room(buf, times), byte, times);
	buf->len += times;
}

void
buffer_uint(struct buffer *buf, uint64_t number)
{
	char digits[20];
	size_t n = sizeof(digits);

	do {
		digits[--n] = (char)('0' + number % 10);
		number /= 10;
	} while (number);
	buffer_add(buf, digits + n, sizeof(digits) - n);
}

void
buffer_printf(struct buffer *buf, const char *format, ...)
{
	va_list args;

	va_start(args, format);
	buffer_vprintf(buf, format, args);
	va_end(args);
}

void
buffer_vprintf(struct buffer *buf, const char *format, va_list args)
{
	va_list again;
	char *room = buffer_room(buf, 64);
	size_t size = buf->cap - buf->len;
	int len;

	va_copy(again, args);
	/* Most pieces fit at the first try. */
	len = vsnprintf(room, size, format, args);
	if (len > 0 && (size_t)len >= size) {
		room = buffer_room(buf, (size_t)len + 1);
		vsnprintf(room, (size_t)len + 1, format, again);
	}
	if (len > 0)
		buf->len += (size_t)len;
	va_end(again);
}

int
buffer_write_kept(const struct buffer *buf, int fd)
{
	size_t done = 0;

	while (done < buf->len) {
		ssize_t n = write(fd, buf->data + done, buf->len - done);

		if (n < 0) {
			if (errno == EINTR)
				continue;
			return -1;
		}
		done += (size_t)n;
	}
	return 0;
}

int
buffer_write(struct buffer *buf, int fd)
{
	if (buffer_write_kept(buf, fd) != 0)
		return -1;
	buf->len = 0;
	return 0;
}
