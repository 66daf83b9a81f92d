/*
 * The lexer: one line of a note into shapes. It knows what numbers, words,
 * dates and texts look like, not what they mean: the words are looked up by
 * src/syntax/words.c. No allocation, no I/O, no state.
 *
 * The line is well-formed UTF-8 without control characters and is followed
 * by a LF or NUL, which is the sentinel: no rule but the last matches it.
 */
#include "syntax/lexer.h"

/*!re2c
	re2c:api:style = free-form;
	re2c:yyfill:enable = 0;
	re2c:define:YYCTYPE = "unsigned char";
	re2c:define:YYCURSOR = p;
	re2c:define:YYMARKER = marker;

	// Word processors write no-break blanks: U+00A0, U+202F.
	nobreak = "\xc2\xa0" | "\xe2\x80\xaf";
	blank   = [ \t] | nobreak;
	digit   = [0-9];
	letter  = [A-Za-z] | [\x80-\xc1\xc3-\xe1\xe3-\xff]
	        | "\xc2" [\x80-\x9f\xa1-\xbf]
	        | "\xe2" ([\x81-\xbf] | "\x80" [\x80-\xae\xb0-\xbf]);
	degree  = "\xc2\xb0" | "\xc2\xba";
	dash    = "-" | "\xe2\x80\x93";
	minus   = dash | "\xe2\x88\x92" | "\xe2\x80\x90" | "\xe2\x80\x91"
	        | "\xe2\x80\x94";
	number  = digit+ ("." digit+)?;
	to      = dash | blank+ dash blank+ | blank+ 'to' blank+;
	unit    = degree | 'deg' | 'mm' | 'cm';
	range   = number degree? to number;
	spaced  = blank+ dash blank+;
	triple  = number degree? dash number degree? dash number
	        | number degree? spaced number degree? spaced number
	        | number "/" number "/" number;
	date    = digit{4} "-" digit{2} "-" digit{2};
	time    = digit{2} ":" digit{2};
	in_number = [0-9A-Za-z._:+/] | "," digit | minus | degree;
	in_word = letter | digit | [-_.'];
*/

enum shape
lexer_next(const char **cursor)
{
	const unsigned char *p = (const unsigned char *)*cursor;
	const unsigned char *marker;
	enum shape shape;

/*!re2c
	[\n\x00]             { return SHAPE_END; }
	(blank | ",")+       { shape = SHAPE_BLANK; goto done; }
	"#" [^\n\x00]*       { shape = SHAPE_COMMENT; goto done; }
	["] [^"\n\x00]* ["]  { shape = SHAPE_TEXT; goto done; }
	["] [^"\n\x00]*      { shape = SHAPE_OPEN_TEXT; goto done; }
	date                 { shape = SHAPE_DATE; goto done; }
	time                 { shape = SHAPE_TIME; goto done; }
	number unit?         { shape = SHAPE_NUMBER; goto done; }
	number "/" number    { shape = SHAPE_FRACTION; goto done; }
	range unit?          { shape = SHAPE_RANGE; goto done; }
	triple unit?         { shape = SHAPE_TRIPLE; goto done; }
	degree               { shape = SHAPE_WORD; goto done; }
	(minus | "+")? digit in_number*
	                     { shape = SHAPE_NUMBER_LIKE; goto done; }
	letter in_word*      { shape = SHAPE_WORD; goto done; }
	"/"                  { shape = SHAPE_SLASH; goto done; }
	";"                  { shape = SHAPE_SEMICOLON; goto done; }
	[^\n\x00]            { shape = SHAPE_STRAY; goto done; }
*/
done:
	*cursor = (const char *)p;
	return shape;
}
