/*
 * Tidying session by session. One reader reads the note as it comes and says
 * of each session which lines were read whole; those are written anew, all
 * others copied. A second reader reads what is about to be written: where the
 * two do not read the same, the bytes are copied as they came.
 */
#include "write/tidy.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "text/mem.h"
#include "vocab/vocab.h"
#include "write/tidy_internal.h"

enum {
	PIECE = 64 * 1024, /* bytes that are read at a time */
	HEADER_WIDTH = 12  /* the column where the value of a header begins */
};

#define NO_PERSON UINT32_MAX

static const char bom[] = "\xef\xbb\xbf";

/* The line NUMBER of the file among those not yet written, or NULL. */
static struct tidy_line *
line_of(struct tidy *t, uint32_t number)
{
	size_t i = number - t->first_line;

	return number >= t->first_line && i < t->lines.len ? &t->lines.at[i]
							   : NULL;
}

/* Adds what a reader handed on to its records. */
static void
record(
    struct tidy *t, int which, const struct session *s, const struct sink *sink)
{
	bool person = s->person->line != t->person[which];

	t->person[which] = s->person->line;
	tidy_records(&t->records[which], s, sink, person);
}

/* From the reader of the note as it came: what was read of each line? */
static void
on_reader(void *arg, struct session *s, struct sink *sink)
{
	struct tidy *t = arg;

	t->ended = true;
	if (!t->gave_up)
		record(t, 0, s, sink);
	for (size_t i = 0; i < sink->len; i++) {
		struct tidy_line *line = line_of(t, sink->at[i]->line);

		if (line &&
		    rule_table[sink->at[i]->rule].group == RULES_READING)
			line->finding = true;
	}
	for (size_t i = 0; i < s->readings.len; i++) {
		const struct reading *r = &s->readings.at[i];
		struct tidy_line *line = line_of(t, r->line);

		if (!line)
			continue;
		line->reading = true;
		line->levels = reading_measurement(r)->measure ==
			       VOCAB_MEASURE_HAND_BEHIND_BACK;
	}
	if (t->on_session)
		t->on_session(t->arg, s, sink);
}

static void
on_proof(void *arg, struct session *s, struct sink *sink)
{
	record(arg, 1, s, sink);
}

struct tidy *
tidy_new(enum tidy_spelling spelling, note_session *on_session, void *arg)
{
	struct tidy *t = mem_zero(sizeof(*t));

	t->spelling = spelling;
	t->on_session = on_session;
	t->arg = arg;
	t->render = tidy_render;
	t->reader = note_new(&t->pool, on_reader, t);
	t->proof = note_new(&t->pool, on_proof, t);
	return t;
}

void
tidy_free(struct tidy *t)
{
	if (!t)
		return;
	note_free(t->reader);
	note_free(t->proof);
	intern_free(&t->pool);
	for (int i = 0; i < 2; i++)
		buffer_free(&t->records[i]);
	buffer_free(&t->raw);
	free(t->lines.at);
	tidy_words_free(&t->words);
	tidy_block_free(&t->block);
	buffer_free(&t->made);
	buffer_free(&t->ready);
	free(t);
}

void
tidy_begin(struct tidy *t, const char *file)
{
	note_begin(t->reader, file, false);
	note_begin(t->proof, file, true);
	for (int i = 0; i < 2; i++) {
		t->records[i].len = 0;
		t->person[i] = NO_PERSON;
	}
	t->ended = false;
	t->gave_up = false;
	t->raw.len = 0;
	t->scanned = 0;
	t->lines.len = 0;
	t->first_line = 1;
}

/* A line in its parts: byte-order mark, content, CR and LF. */
struct parts {
	const char *text;
	size_t len;
	size_t before;
	size_t behind;
};

static struct parts
parts_of(const struct tidy *t, const struct tidy_line *line)
{
	struct parts p = {t->raw.data + line->at, line->len, 0, 0};

	if (p.len > 0 && p.text[p.len - 1] == '\n') {
		p.len--;
		p.behind++;
	}
	if (line == t->lines.at && t->first_line == 1 && p.len >= 3 &&
	    memcmp(p.text, bom, 3) == 0) {
		p.text += 3;
		p.len -= 3;
		p.before = 3;
	}
	if (p.len > 0 && p.text[p.len - 1] == '\r') {
		p.len--;
		p.behind++;
	}
	return p;
}

/* The words of a header line: the header, its column, the rest. */
static void
make_header(struct tidy *t)
{
	const struct tidy_words *w = &t->words;
	size_t comment_len;
	const char *comment = tidy_comment(w, &comment_len);
	size_t width = w->list.at[0].len, column = width + 1;

	if (w->tokens.header != VOCAB_HEADER_SESSION && column < HEADER_WIDTH)
		column = HEADER_WIDTH;
	tidy_join(w, 0, 1, &t->made);
	if (w->list.len > 1)
		buffer_pad(&t->made, ' ', column - width);
	tidy_join(w, 1, w->list.len, &t->made);
	if (comment_len > 0)
		buffer_puts(&t->made, "  ");
	buffer_add(&t->made, comment, comment_len);
}

/* The made bytes from AT on are line I; a line grown too long is none. */
static void
set_made(struct tidy *t, size_t i, size_t at)
{
	struct tidy_line *line = &t->lines.at[i];

	line->made_at = at;
	line->made_len = t->made.len - at;
	line->made = line->made_len <= LONGEST_LINE;
}

static void
end_block(struct tidy *t)
{
	struct tidy_block *block = &t->block;
	struct tidy_columns columns;

	if (block->rows.len == 0)
		return;
	tidy_block_columns(block, &columns);
	for (size_t i = 0; i < block->rows.len; i++) {
		const struct tidy_row *row = &block->rows.at[i];
		size_t at = t->made.len;

		tidy_block_row(block, &columns, row, &t->made);
		set_made(t, row->line, at);
	}
	tidy_block_reset(block);
}

static bool
is_blank(const struct parts *p)
{
	for (size_t i = 0; i < p->len; i++)
		if (p->text[i] != ' ' && p->text[i] != '\t')
			return false;
	return true;
}

/*
 * A blank line ends a block, unless the next line of readings goes on with
 * the joint above it. Comments, headers and unreadable lines do not.
 */
void
tidy_render(struct tidy *t, size_t lines)
{
	struct tidy_words *w = &t->words;
	bool gap = false;

	t->made.len = 0;
	for (size_t i = 0; i < lines; i++) {
		struct tidy_line *line = &t->lines.at[i];
		struct parts p = parts_of(t, line);
		size_t at = t->made.len;

		if (is_blank(&p)) {
			gap = true;
			continue;
		}
		if (line->finding ||
		    !tidy_spell(w, p.text, p.len, line->levels, t->spelling) ||
		    w->list.len == 0)
			continue;
		if (w->tokens.header >= 0) {
			make_header(t);
			set_made(t, i, at);
		} else if (line->reading) {
			if (gap && tidy_names_joint(w))
				end_block(t);
			gap = false;
			tidy_block_add(&t->block, w, i);
		}
	}
	end_block(t);
}

/* Gives the second reader a line as it will be written. */
static void
prove(struct tidy *t, const struct tidy_line *line, const char *bytes)
{
	size_t len = line->len;

	if (line->made)
		len = len - parts_of(t, line).len + line->made_len;
	if (len > 0 && bytes[len - 1] == '\n')
		len--;
	note_line(t->proof, bytes, len);
}

/* The first LINES lines as they will be written. */
static void
make_ready(struct tidy *t, size_t lines)
{
	t->ready.len = 0;
	for (size_t i = 0; i < lines; i++) {
		struct tidy_line *line = &t->lines.at[i];
		struct parts p = parts_of(t, line);
		size_t at = t->ready.len;

		buffer_add(&t->ready, t->raw.data + line->at, p.before);
		if (line->made)
			buffer_add(&t->ready, t->made.data + line->made_at,
			    line->made_len);
		else
			buffer_add(&t->ready, p.text, p.len);
		buffer_add(&t->ready, p.text + p.len, p.behind);
		if (!line->again)
			prove(t, line, t->ready.data + at);
	}
}

/* Forgets the first LINES lines. */
static void
drop_lines(struct tidy *t, size_t lines)
{
	size_t bytes =
	    lines < t->lines.len ? t->lines.at[lines].at : t->raw.len;

	memmove(t->raw.data, t->raw.data + bytes, t->raw.len - bytes);
	t->raw.len -= bytes;
	t->scanned -= bytes;
	memmove(t->lines.at, t->lines.at + lines,
	    (t->lines.len - lines) * sizeof(*t->lines.at));
	t->lines.len -= lines;
	for (size_t i = 0; i < t->lines.len; i++)
		t->lines.at[i].at -= bytes;
	t->first_line += (uint32_t)lines;
}

/*
 * The session has ended: writes its lines, which are all but the one that
 * ended it (if the file goes on). The second reader needs that one too, to
 * hand the session on.
 */
static void
write_session(struct tidy *t, bool at_end, struct buffer *out)
{
	size_t lines = t->lines.len - !at_end;
	size_t bytes = at_end ? t->raw.len : t->lines.at[lines].at;

	t->ended = false;
	if (!t->gave_up) {
		t->render(t, lines);
		make_ready(t, lines);
		if (at_end) {
			note_end(t->proof);
		} else {
			t->lines.at[lines].again = true;
			prove(t, &t->lines.at[lines],
			    t->raw.data + t->lines.at[lines].at);
		}
		t->gave_up = t->records[0].len != t->records[1].len ||
			     memcmp(t->records[0].data, t->records[1].data,
				 t->records[0].len) != 0;
		t->records[0].len = t->records[1].len = 0;
	}
	if (t->gave_up)
		buffer_add(out, t->raw.data, bytes);
	else
		buffer_add(out, t->ready.data, t->ready.len);
	if (lines > 0)
		drop_lines(t, lines);
}

/* The unscanned bytes are a line. */
static void
take_line(struct tidy *t, struct buffer *out)
{
	size_t at = t->scanned, len = t->raw.len - at;

	*MEM_PUSH(&t->lines) = (struct tidy_line){.at = at, .len = len};
	t->scanned = t->raw.len;
	if (t->raw.data[at + len - 1] == '\n')
		len--;
	note_line(t->reader, t->raw.data + at, len);
	if (t->ended)
		write_session(t, false, out);
}

void
tidy_text(struct tidy *t, const char *bytes, size_t len, struct buffer *out)
{
	while (len > 0) {
		const char *lf = memchr(bytes, '\n', len);
		size_t n = lf ? (size_t)(lf - bytes) + 1 : len;

		buffer_add(&t->raw, bytes, n);
		if (lf)
			take_line(t, out);
		bytes += n;
		len -= n;
	}
}

void
tidy_end(struct tidy *t, struct buffer *out)
{
	bool gave_up;

	if (t->raw.len > t->scanned)
		take_line(t, out);
	gave_up = t->gave_up;
	note_end(t->reader);
	write_session(t, true, out);
	/* So that it forgets what it was told before it was left behind. */
	if (gave_up)
		note_end(t->proof);
	t->records[1].len = 0;
}

bool
tidy_gave_up(const struct tidy *t)
{
	return t->gave_up;
}

int
tidy_file(struct tidy *t, int fd, const char *file, struct buffer *was,
    struct buffer *out)
{
	char *piece = mem_resize(NULL, PIECE, 1);
	int error = 0;
	ssize_t n;

	tidy_begin(t, file);
	for (;;) {
		n = read(fd, piece, PIECE);
		if (n < 0 && errno == EINTR)
			continue;
		if (n <= 0)
			break;
		if (was)
			buffer_add(was, piece, (size_t)n);
		tidy_text(t, piece, (size_t)n, out);
	}
	if (n < 0)
		error = errno;
	tidy_end(t, out);
	free(piece);
	errno = error;
	return error ? -1 : 0;
}
