/* The shapes that grammar/lexer.re cuts a line into. */
#ifndef SYNTAX_LEXER_H
#define SYNTAX_LEXER_H

enum shape {
	SHAPE_END, /* of the line */
	SHAPE_BLANK,
	SHAPE_COMMENT,	   /* from the # on */
	SHAPE_TEXT,	   /* with both quotation marks */
	SHAPE_OPEN_TEXT,   /* with no closing one */
	SHAPE_DATE,	   /* 2026-05-04, perhaps no such day */
	SHAPE_TIME,	   /* 09:30, perhaps no such time */
	SHAPE_NUMBER,	   /* 52, 21.5, 38mm */
	SHAPE_FRACTION,	   /* 3/10 */
	SHAPE_RANGE,	   /* 8-131, 8 to 131 */
	SHAPE_TRIPLE,	   /* 3-0-146, 130/0/5 */
	SHAPE_NUMBER_LIKE, /* begins as a number and is none */
	SHAPE_WORD,
	SHAPE_SLASH,
	SHAPE_SEMICOLON,
	SHAPE_STRAY /* a byte that begins nothing */
};

/*
 * Cuts the next shape off at *CURSOR and moves it behind. The text must be
 * followed by a LF or a NUL; at that byte the answer is SHAPE_END and the
 * cursor stays.
 */
enum shape lexer_next(const char **cursor);

#endif
