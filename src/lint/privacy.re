/*
 * Finds what may tell who somebody is in the texts and comments of a note.
 * It goes by the shapes named below and by nothing else: a name without a
 * title is not found. The figures of the trade (ranges, trials, dates of
 * sessions) must never look like a telephone number; so a number of the
 * notation, joined by dashes or points, is taken as one word, and the longest
 * word wins. The shapes are common practice of writing such things down.
 *
 *     re2c -W -Werror --nested-ifs -o build/privacy.c src/lint/privacy.re
 */
#include <stddef.h>
#include <string.h>

#include "lint/internal.h"
#include "text/buffer.h"

enum shape { SHAPE_END, SHAPE_PHONE, SHAPE_MAIL, SHAPE_BIRTH, SHAPE_NAME };

static const char *const shape_words[] = {
    [SHAPE_PHONE] = "a telephone number",
    [SHAPE_MAIL] = "an e-mail address",
    [SHAPE_BIRTH] = "a date of birth",
    [SHAPE_NAME] = "the name of a person, after a title",
};

/* One text, followed by a NUL. */
struct scan {
	const unsigned char *at;   /* behind what was found */
	const unsigned char *word; /* where it begins */
};

static enum shape
found(struct scan *scan, const unsigned char *cursor, enum shape shape)
{
	scan->at = cursor;
	return shape;
}

static bool
is_digit(unsigned char c)
{
	return c >= '0' && c <= '9';
}

/* Letters, digits, and all bytes beyond ASCII. */
static bool
is_word(unsigned char c)
{
	return is_digit(c) || (c | 32u) - 'a' < 26u || c >= 0x80;
}

/*
 * Where the telephone number from P to END ends: before the group of digits
 * that is one too many. NULL where it is none: small numbers side by side
 * look alike, so LEAST digits are asked, and FEWEST in one group of them.
 */
static const unsigned char *
phone_end(const unsigned char *p, const unsigned char *end, size_t least,
    size_t most, size_t fewest)
{
	const unsigned char *stop = NULL;
	size_t digits = 0, group = 0, longest = 0;

	for (; p < end && digits < most; p++) {
		group = is_digit(*p) ? group + 1 : 0;
		digits += is_digit(*p);
		if (group > longest)
			longest = group;
		if (group && !is_digit(p[1]) && digits >= least &&
		    longest >= fewest)
			stop = p + 1;
	}
	return stop;
}

/* A last word all in capitals is no name if the notation has it (AROM). */
static bool
is_name(const unsigned char *p, const unsigned char *end)
{
	const unsigned char *last = end;

	while (last > p && last[-1] != ' ' && last[-1] != '\t')
		last--;
	for (p = last; p < end; p++)
		if (*p < 'A' || *p > 'Z')
			return true;
	return vocab_find((const char *)last, (size_t)(end - last)).n == 0;
}

/* Behind the word or the joined number that begins at P. */
static const unsigned char *
pass(const unsigned char *p)
{
	do
		p++;
	while (is_word(*p) ||
	       (*p && strchr(".,:/-", *p) && is_digit(p[1])));
	return p;
}

/* Where the part before the @ at P begins; P where there is none. */
static const unsigned char *
mail_begin(const unsigned char *text, const unsigned char *p)
{
	while (p > text && (is_word(p[-1]) || strchr("._%+-", p[-1])))
		p--;
	while (*p == '.' || *p == '-')
		p++;
	return p;
}

/* Behind the date at CURSOR, or NULL; a year alone is none. */
static const unsigned char *
date_end(const unsigned char *cursor)
{
	const unsigned char *marker;

	/*!re2c
	re2c:define:YYCTYPE = "unsigned char";
	re2c:define:YYCURSOR = cursor;
	re2c:define:YYMARKER = marker;
	re2c:yyfill:enable = 0;

	d = [0-9];
	sp = [ \t];
	month = 'jan' 'uary'? | 'feb' 'ruary'? | 'mar' 'ch'? | 'apr' 'il'?
		| 'may' | 'june' | 'jun' | 'july' | 'jul' | 'aug' 'ust'?
		| 'sep' 't'? 'ember'? | 'oct' 'ober'? | 'nov' 'ember'?
		| 'dec' 'ember'?;
	nth = d{1,2} ('st' | 'nd' | 'rd' | 'th')?;
	date = d{4} [./-] d{1,2} [./-] d{1,2}
		| d{1,2} ([./-] | sp) d{1,2} ([./-] | sp) d{2,4}
		| d{1,2} [/.] d{4} | d{6} | d{8}
		| nth [ .-]* ('of' sp+)? month ([., -]* d{2,4})?
		| month [. ]+ nth ([, ]+ d{4})?
		| month [., ]+ d{4};

	date / [^0-9] { return cursor; }
	*             { return NULL; }
	*/
}

/* The next thing of one of the shapes; SHAPE_END where there is no more. */
static enum shape
next_shape(const unsigned char *text, struct scan *scan)
{
	const unsigned char *cursor = scan->at, *marker, *end;

	for (;;) {
		scan->word = cursor;
		/*!re2c
		high = [\x80-\xff];
		letter = [A-Za-z] | high;
		low = [a-z] | high;
		not_digit = [^0-9];
		not_letter = [^A-Za-z\x80-\xff];

		// Telephone numbers: 555-0142, (555) 555-0142,
		// +44 20 7946 0958, 020 7946 0958, 0161-496-0000,
		// 06 12 34 56 78, 5550142857
		area = [2-9] d{2} [ .-] | "(" [2-9] d{2} ")" " "?;
		american = ("+"? "1" [ .-])? area d{3} [ .-] d{4};
		local = [2-9] d{2} "-" d{4};
		more = ([ .-] d{2,5})*;
		abroad = "+" [1-9] d{0,2} ([ .-] | sp? "(" d+ ")" sp?)
			d+ ([ .-] d{2,8})*
			| "+" [1-9] d{7,};
		trunk = ("0" d{1,4} [ .] | "0" d{2,4} [/-] sp?
			| "(0" d{1,4} ")" sp?) d{3,8} more;
		pairs = "0" [1-9] (" " d{2}){4} | "0" [1-9] ("." d{2}){4}
			| "0" [1-9] ("-" d{2}){4};
		plain = d{10,11} | "0" d{8,};
		called = ('telephone' | 'tel' | 'phone' | 'mobile' | 'cell'
			| 'cellphone' | 'fax') [.:]? sp*
			(('number' | 'no' | 'nr' | 'is' | 'on' | 'at')
			[.:]? sp*)* [+(]? (d [ ()./-]*)* d;
		number = d+ ([.,:/-] d+)*;
		unit = 'mm' | 'cm' | 'm' | 'km' | 'ft' | 'steps' | 'ml' | 'mg'
			| 'kg';

		// E-mail addresses
		domain = "@" (([A-Za-z0-9-] | high)+ ".")+ [A-Za-z]{2,};

		// What a date of birth follows
		born = 'born' | 'dob' | 'd.o.b' "."? | 'birthday'
			| 'birth' [ -]? 'date' | ('date' | 'day') sp 'of' sp
			'birth';
		birth = born [ \t:,.=-]* (('on' | 'is' | 'was' | 'in') sp+)*;

		// Titles; MS, MR, DR and ms mean other things in the trade
		title = ("Mr" | "mr" | "Mrs" | "mrs" | "MRS" | "Ms" | "Miss"
			| "Mx" | "Dr" | "dr" | "Doctor" | "Prof" | "prof"
			| "Professor" | "Sir" | "Dame" | "Herr" | "Frau"
			| "Mme" | "Mlle");
		particle = ("de" | "del" | "della" | "der" | "den" | "di"
			| "du" | "la" | "le" | "van" | "von" | "bin" | "al")
			sp+;
		initial = [A-Z] "." sp* | [A-Z] sp+;
		capital = [A-Z] | "\xc3" [\x80-\x9e] | [\xc4-\xd4] high;
		surname = capital (low | ['-] [A-Z] | [A-Z] low)
			(letter | ['-] letter)* | [A-Z]{4,};
		name = title "."? sp+ initial* particle* surname;
		weekday = 'monday' | 'tuesday' | 'wednesday' | 'thursday'
			| 'friday' | 'saturday' | 'sunday';

		// of two equally long ones the first is taken
		"0123456789" / not_digit    { continue; } // filler
		local sp? unit / not_letter { continue; }
		(american | local | pairs | plain) / not_digit {
			return found(scan, cursor, SHAPE_PHONE);
		}
		trunk / not_digit {
			end = phone_end(scan->word, cursor, 9, 12, 3);
			if (end)
				return found(scan, end, SHAPE_PHONE);
			cursor = pass(scan->word);
			continue;
		}
		abroad / not_digit {
			end = phone_end(scan->word, cursor, 8, 15, 3);
			if (end)
				return found(scan, end, SHAPE_PHONE);
			cursor = pass(scan->word);
			continue;
		}
		called / not_digit {
			end = phone_end(scan->word, cursor, 6, 15, 4);
			if (end)
				return found(scan, end, SHAPE_PHONE);
			cursor = pass(scan->word);
			continue;
		}
		number                     { continue; }

		domain {
			scan->word = mail_begin(text, scan->word);
			if (*scan->word != '@')
				return found(scan, cursor, SHAPE_MAIL);
			continue;
		}
		birth {
			end = date_end(cursor);
			if (end)
				return found(scan, end, SHAPE_BIRTH);
			continue;
		}
		"Miss" sp+ weekday         { continue; }
		name {
			if (is_name(scan->word, cursor))
				return found(scan, cursor, SHAPE_NAME);
			cursor = pass(scan->word);
			continue;
		}
		letter+                    { continue; }
		[\x00]                     { return SHAPE_END; }
		*                          { continue; }
		*/
	}
}

/* A text without its NUL bytes, which the scanner takes for the end. */
static const unsigned char *
text_of(const struct session *s, const struct prose *p, struct buffer *copy)
{
	const char *text = s->text.data + p->line_at + p->beg;

	copy->len = 0;
	buffer_add(copy, text, (size_t)(p->end - p->beg));
	for (size_t i = 0; i < copy->len; i++)
		if (copy->data[i] == '\0')
			copy->data[i] = ' ';
	buffer_putc(copy, '\0');
	return (const unsigned char *)copy->data;
}

static void
report(const struct session *s, struct sink *sink, const struct prose *p,
    uint32_t beg, uint32_t end, enum shape shape)
{
	struct place place = session_place(
	    s, p->line, p->line_at, p->beg + beg, p->beg + end);
	struct finding *f = sink_add(sink, RULE_IDENTIFYING_TEXT, &place,
	    p->reading, "this looks like %s", shape_words[shape]);

	sink_hint(sink, f,
	    "notes travel: take it out and use the code of the person");
}

void
lint_privacy(struct lint *lint, struct session *s, struct sink *sink)
{
	struct buffer copy = {0};

	(void)lint;
	for (size_t i = 0; i < s->prose.len; i++) {
		const struct prose *p = &s->prose.at[i];
		const unsigned char *text = text_of(s, p, &copy);
		struct scan scan = {text, text};
		enum shape shape;

		while ((shape = next_shape(text, &scan)) != SHAPE_END)
			report(s, sink, p, (uint32_t)(scan.word - text),
			    (uint32_t)(scan.at - text), shape);
	}
	buffer_free(&copy);
}
