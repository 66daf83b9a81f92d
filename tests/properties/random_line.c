#include "random_line.h"

#include "vocab/vocab.h"

const struct corpus_note *
random_note(struct random *r, const struct corpus *notes)
{
	return &notes->at[random_below(r, (uint32_t)notes->len)];
}

static struct corpus_line
any_line(struct random *r, const struct corpus *notes)
{
	const struct corpus_note *note = random_note(r, notes);

	return note->lines.at[random_below(r, (uint32_t)note->lines.len)];
}

static void
put_any_word(struct buffer *out, struct random *r)
{
	const struct vocab_row *row =
	    &vocab_rows[random_below(r, (uint32_t)vocab_row_count)];

	if (row->class == VOCAB_CLASS_MEASUREMENT)
		buffer_puts(out, vocab_name(VOCAB_CLASS_MOTION,
				     (int)random_below(r, VOCAB_MOTION_COUNT)));
	else
		buffer_puts(
		    out, random_one_in(r, 2) ? row->name : row->short_name);
}

static void
unknown_words(struct buffer *out, struct random *r, const struct corpus *notes)
{
	static const char *const lines[] = {"wobble R A 0-30",
	    "knee wobble R A 0-30", "knee flexion R A 0-30 wobble",
	    "knee flexion R B A 0-30 P wobble 0-30 firm", "qqqq", "x y z",
	    "elbow flexion R A 0-30 L wobble A 0-40"};

	(void)notes;
	buffer_puts(out, lines[random_below(r, 7)]);
}

static void
broken_numbers(struct buffer *out, struct random *r, const struct corpus *notes)
{
	static const char *const numbers[] = {"8-13x", "0-1O4", "-7", "8 -131",
	    "61,5", "0-52..3", "0-201", "0-52.25", "5-", "008-131", "8--131",
	    "1-2-3-4", "0-30 mm", "30/", "--", "12.5.2026", "3-10-146"};

	(void)notes;
	buffer_puts(out, "knee flexion ");
	buffer_puts(out, random_one_in(r, 2) ? "R A " : "L P ");
	buffer_puts(out, numbers[random_below(r, 17)]);
}

static void
stray_bytes(struct buffer *out, struct random *r, const struct corpus *notes)
{
	uint32_t n = 1 + random_below(r, 30);

	(void)notes;
	for (uint32_t i = 0; i < n; i++) {
		char byte = (char)random_below(r, 256);

		buffer_putc(out, byte == '\n' ? ' ' : byte);
	}
}

static void
half_line(struct buffer *out, struct random *r, const struct corpus *notes)
{
	struct corpus_line line = any_line(r, notes);
	size_t at = line.len ? random_below(r, (uint32_t)line.len) : 0;

	if (random_one_in(r, 2))
		buffer_add(out, line.text, at);
	else
		buffer_add(out, line.text + at, line.len - at);
}

/* The words of a real line, two of them swapped, or one put elsewhere. */
static void
misplaced_words(
    struct buffer *out, struct random *r, const struct corpus *notes)
{
	struct corpus_line line = any_line(r, notes);
	struct tokens cut = {0};
	uint32_t n, a, b;

	corpus_cut(&cut, line);
	n = (uint32_t)cut.len;
	if (n < 2) {
		tokens_free(&cut);
		return;
	}
	a = random_below(r, n);
	b = random_below(r, n);
	for (uint32_t i = 0; i < n; i++) {
		const struct token *t = &cut.at[i == a ? b : i == b ? a : i];

		buffer_add(out, line.text + t->beg, (size_t)(t->end - t->beg));
		buffer_putc(out, ' ');
	}
	tokens_free(&cut);
}

static void
word_salad(struct buffer *out, struct random *r, const struct corpus *notes)
{
	static const char *const others[] = {"0-52", "3-0-146", "131", "12 mm",
	    "R", "L", "A", "P", ";", "/", "\"a text\"", "2026-05-04", "09:30",
	    "3/10", "85 less 38", "R A 0-30", "lacks 8", ","};
	uint32_t n = 1 + random_below(r, 10);

	(void)notes;
	for (uint32_t i = 0; i < n; i++) {
		if (random_one_in(r, 2))
			put_any_word(out, r);
		else
			buffer_puts(out, others[random_below(r, 18)]);
		buffer_putc(out, ' ');
	}
}

static void (*const kinds[])(
    struct buffer *, struct random *, const struct corpus *) = {unknown_words,
    broken_numbers, stray_bytes, half_line, misplaced_words, word_salad};
enum { KINDS = sizeof(kinds) / sizeof(*kinds) };

void
random_line(struct buffer *out, struct random *r, const struct corpus *notes)
{
	kinds[random_below(r, KINDS)](out, r, notes);
}

void
random_bad_line(
    struct buffer *out, struct random *r, const struct corpus *notes)
{
	size_t at = out->len;

	for (;;) {
		struct corpus_line line;

		random_line(out, r, notes);
		line.text = out->data + at;
		line.len = out->len - at;
		if (line.len > 0 && !corpus_is_empty(line) &&
		    !corpus_may_be_header(line))
			break;
		out->len = at;
	}
}
