#include "corpus.h"

#include <check.h>
#include <glob.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "parser.h"
#include "text/mem.h"
#include "text/utf8.h"
#include "vocab/vocab.h"

static void
read_file(struct buffer *out, const char *path)
{
	FILE *file = fopen(path, "rb");
	size_t n;

	ck_assert_msg(file != NULL, "cannot open %s", path);
	while ((n = fread(buffer_room(out, 4096), 1, 4096, file)) > 0)
		out->len += n;
	fclose(file);
}

static void
cut_lines(struct corpus_note *note)
{
	const char *p = note->text.data, *end = p + note->text.len;

	while (p < end) {
		const char *lf = memchr(p, '\n', (size_t)(end - p));
		const char *stop = lf ? lf : end;
		size_t len = (size_t)(stop - p);

		if (len > 0 && p[len - 1] == '\r')
			len--;
		*MEM_PUSH(&note->lines) = (struct corpus_line){p, len};
		p = lf ? lf + 1 : end;
	}
}

void
corpus_add_readable(struct corpus *corpus)
{
	corpus_add(corpus, "corpus/demo/*.range");
	corpus_add(corpus, "corpus/valid/*.range");
	corpus_add(corpus, "corpus/rules/*/*.range");
}

void
corpus_add_text(struct corpus *corpus, const char *name, struct buffer text)
{
	struct corpus_note *note = MEM_PUSH(corpus);

	*note = (struct corpus_note){
	    .path = mem_text(name, strlen(name)), .text = text};
	cut_lines(note);
}

void
corpus_add(struct corpus *corpus, const char *pattern)
{
	glob_t found;

	ck_assert_msg(glob(pattern, 0, NULL, &found) == 0,
	    "no notes %s: run the tests in the project's folder", pattern);
	for (size_t i = 0; i < found.gl_pathc; i++) {
		struct buffer text = {0};

		read_file(&text, found.gl_pathv[i]);
		if (text.len >= 3 &&
		    memcmp(text.data, "\xef\xbb\xbf", 3) == 0) {
			text.len -= 3;
			memmove(text.data, text.data + 3, text.len);
		}
		corpus_add_text(corpus, found.gl_pathv[i], text);
	}
	globfree(&found);
}

void
corpus_free(struct corpus *corpus)
{
	for (size_t i = 0; i < corpus->len; i++) {
		free(corpus->at[i].path);
		buffer_free(&corpus->at[i].text);
		free(corpus->at[i].lines.at);
	}
	free(corpus->at);
	*corpus = (struct corpus){0};
}

void
corpus_put(struct buffer *out, struct corpus_line line)
{
	buffer_add(out, line.text, line.len);
	buffer_putc(out, '\n');
}

void
corpus_put_lines(
    struct buffer *out, const struct corpus_note *note, size_t from, size_t to)
{
	for (size_t i = from; i < to; i++)
		corpus_put(out, note->lines.at[i]);
}

void
corpus_cut(struct tokens *tokens, struct corpus_line line)
{
	size_t bad, good = utf8_check(line.text, line.len, &bad);
	char *text;

	if (good > 4096)
		good = 4096;
	text = mem_text(line.text, good);
	tokens_cut(tokens, text, good, false);
	free(text);
}

bool
corpus_is_empty(struct corpus_line line)
{
	struct tokens tokens = {0};
	size_t bad, good = utf8_check(line.text, line.len, &bad);
	bool empty;

	corpus_cut(&tokens, line);
	empty = tokens.len == 0 &&
		(good == line.len || tokens.comment_beg < tokens.comment_end);
	tokens_free(&tokens);
	return empty;
}

/* A blank may also be one of several bytes, as the no-break space is. */
static bool
ends_word(char byte)
{
	return (unsigned char)byte >= 0x80 || strchr(" \t,;\"#", byte);
}

static bool
begins_as_header(struct corpus_line line)
{
	const uint32_t headers = UINT32_C(1) << VOCAB_CLASS_HEADER;
	size_t beg = 0, len = 0;

	while (beg < line.len && ends_word(line.text[beg]))
		beg++;
	while (beg + len < line.len && !ends_word(line.text[beg + len]))
		len++;
	if (len == 0)
		return false;
	return vocab_match_class(
		   vocab_find(line.text + beg, len), VOCAB_CLASS_HEADER) ||
	       vocab_nearest(line.text + beg, len, headers);
}

/* Does it hold WORD, in whatever case and glued to whatever? */
static bool
holds_word(struct corpus_line line, const char *word)
{
	size_t len = strlen(word);

	for (size_t i = 0; i + len <= line.len; i++)
		if (strncasecmp(line.text + i, word, len) == 0)
			return true;
	return false;
}

/* A date with nothing behind it but a time and a text. */
static bool
is_date(struct corpus_line line)
{
	struct tokens tokens = {0};
	bool date;

	corpus_cut(&tokens, line);
	date = tokens.len > 0 && (tokens.at[0].kind == T_DATE ||
				     (tokens.at[0].kind == T_BAD &&
					 tokens.at[0].id == RULE_DATE_FORM));
	for (size_t i = 1; i < tokens.len; i++)
		date = date && (tokens.at[i].kind == T_TIME ||
				   tokens.at[i].kind == T_TEXT);
	tokens_free(&tokens);
	return date;
}

bool
corpus_may_be_header(struct corpus_line line)
{
	return begins_as_header(line) || holds_word(line, "subject") ||
	       holds_word(line, "session") || is_date(line);
}

bool
corpus_names_joint(struct corpus_line line)
{
	struct tokens tokens = {0};
	bool names = false;

	corpus_cut(&tokens, line);
	for (size_t i = 0; i < tokens.len; i++)
		names = names || tokens.at[i].kind == T_JOINT ||
			tokens.at[i].kind == T_DIGIT ||
			tokens.at[i].kind == T_MEASURE;
	names = names && tokens.header < 0;
	tokens_free(&tokens);
	return names;
}

/* Knuth's MMIX constants; the high half is random enough for this. */
struct random
random_from(uint64_t seed)
{
	struct random r = {seed * UINT64_C(0x9e3779b97f4a7c15) + 1};

	random_below(&r, 2);
	return r;
}

uint32_t
random_below(struct random *r, uint32_t n)
{
	r->state = r->state * UINT64_C(6364136223846793005) +
		   UINT64_C(1442695040888963407);
	return (uint32_t)((r->state >> 33) % n);
}
