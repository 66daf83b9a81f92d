/*
 * The pieces of an SVG drawing (SVG 1.1): lines, marks, texts that stay texts.
 * Everything is told apart by shape and dash, so that it survives a printer
 * without colours. Coordinates are pixels from the upper left corner.
 */
#ifndef WRITE_SVG_H
#define WRITE_SVG_H

#include <stdbool.h>
#include <stddef.h>

#include "text/buffer.h"

/* How a line is drawn; each has its class in the style sheet. */
enum svg_line {
	SVG_AXIS,
	SVG_GRID,
	SVG_MAIN,
	SVG_OTHER,
	SVG_UNSURE, /* dotted, along with either */
	SVG_GOAL,
	SVG_LIMIT,
	SVG_EVENT,
	SVG_BAND, /* an area */
	SVG_LINES
};

enum svg_mark { SVG_DISC, SVG_SQUARE, SVG_CROSS, SVG_MARKS };

enum svg_text { SVG_TITLE, SVG_SMALL, SVG_TEXTS };
enum svg_anchor { SVG_START, SVG_MIDDLE, SVG_END };

/* LEN bytes as text of XML: nothing in it is markup, all of it well-formed. */
void svg_escape(struct buffer *out, const char *text, size_t len);

/* The drawing; TITLE and DESC are NUL-terminated. */
void svg_begin(struct buffer *out, double width, double height,
    const char *title, const char *desc);
void svg_end(struct buffer *out);

/* A part of it that a reader of screens announces as one picture. */
void svg_group_begin(struct buffer *out, size_t number,
    const struct buffer *title, const struct buffer *desc);
void svg_group_end(struct buffer *out);

void svg_line(struct buffer *out, enum svg_line line, double x1, double y1,
    double x2, double y2);

/* A line or area of many corners: begin, corners, end. */
void svg_path_begin(struct buffer *out, enum svg_line line);
void svg_path_to(struct buffer *out, bool first, double x, double y);
void svg_path_end(struct buffer *out, bool closed);

void svg_mark(struct buffer *out, enum svg_mark mark, double x, double y);
void svg_text(struct buffer *out, enum svg_text kind, enum svg_anchor anchor,
    double x, double y, const char *text, size_t len);

#endif
