/*
 * A growing run of bytes: all output is written to one of these first, so
 * nothing that renders text touches a file.
 */
#ifndef TEXT_BUFFER_H
#define TEXT_BUFFER_H

#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

struct buffer {
	char *data; /* not NUL-terminated */
	size_t len;
	size_t cap;
};

/* A zeroed struct buffer is empty and ready. */
void buffer_free(struct buffer *buf);

/* Makes room for MORE bytes after the end and returns where they go. */
char *buffer_room(struct buffer *buf, size_t more);

void buffer_add(struct buffer *buf, const char *text, size_t len);
void buffer_puts(struct buffer *buf, const char *text);
void buffer_putc(struct buffer *buf, char byte);
void buffer_pad(struct buffer *buf, char byte, size_t times);
void buffer_uint(struct buffer *buf, uint64_t number);
void buffer_printf(struct buffer *buf, const char *format, ...)
    __attribute__((format(printf, 2, 3)));
void buffer_vprintf(struct buffer *buf, const char *format, va_list args)
    __attribute__((format(printf, 2, 0)));

/*
 * Writes the bytes to descriptor FD and empties the buffer. Returns 0, or -1
 * with errno set.
 */
int buffer_write(struct buffer *buf, int fd);

/* The same, leaving the buffer as it is. */
int buffer_write_kept(const struct buffer *buf, int fd);

#endif
