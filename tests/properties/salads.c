/*
 * Bytes and words thrown together: nothing crashes, whatever the writers are
 * handed, and no line is lost without a word.
 */
#include "properties.h"

#include "../unit/read_note.h"

#include "random_line.h"
#include "random_note.h"
#include "write/findings.h"
#include "write/summary.h"

enum { MADE_NOTES = 50 };

static struct corpus notes; /* of the corpus, and made at random */

static void
set_up(void)
{
	corpus_add(&notes, "corpus/demo/*.range");
	corpus_add(&notes, "corpus/valid/*.range");
	corpus_add(&notes, "corpus/broken/*.range");
	made_notes_add(&notes, MADE_NOTES);
}

static void
tear_down(void)
{
	corpus_free(&notes);
	read_note_end();
}

struct writers {
	struct summary *text, *json;
	struct buffer out;
};

/* Every writer gets every session. */
static void
write_all(void *arg, struct session *s, struct sink *sink)
{
	static const struct findings_style styles[] = {
	    {.brief = true}, {.json = true}, {.colour = true}};
	struct writers *w = arg;

	for (size_t i = 0; i < sink->len; i++) {
		const struct finding *f = sink->at[i];

		EXPECT(
		    f->line > 0 && f->beg <= f->end && f->end <= f->source_len,
		    "%s stands at line %u, %u-%u of %u",
		    rule_table[f->rule].name, (unsigned)f->line,
		    (unsigned)f->beg, (unsigned)f->end,
		    (unsigned)f->source_len);
		for (size_t k = 0; k < 3; k++)
			findings_write(&w->out, s->file, f, &styles[k]);
	}
	csv_session(&w->out, s, sink, true);
	summary_session(w->text, &w->out, s, sink);
	summary_session(w->json, &w->out, s, sink);
	w->out.len = 0;
}

/*
 * What has to be said of LINE: nothing (blank, comment, header), or rows or a
 * finding of its own, or it is one of the lines that the last cause counts.
 */
static void
expect_no_silent_loss(
    uint64_t seed, const struct read_note *n, const struct corpus_note *made)
{
	uint32_t *told = mem_zero((made->lines.len + 1) * sizeof(*told));
	uint32_t *unread = mem_zero((made->lines.len + 1) * sizeof(*unread));
	struct tokens tokens = {0};
	uint32_t left = 0;

	for (size_t i = 0; i < n->rows.len; i++)
		told[n->rows.at[i].line]++;
	for (size_t i = 0; i < n->findings.len; i++) {
		const struct told *f = &n->findings.at[i];

		told[f->line] += rule_table[f->rule].group == RULES_READING;
		unread[f->line] += f->unread;
	}
	for (size_t i = 0; i < made->lines.len; i++) {
		struct corpus_line line = made->lines.at[i];

		corpus_cut(&tokens, line);
		if (told[i + 1]) {
			if (unread[i + 1] > 0) {
				EXPECT(left == 0,
				    "seed %llu: %u lines less were lost "
				    "before line %zu than was said",
				    (unsigned long long)seed, (unsigned)left,
				    i + 1);
				left = unread[i + 1];
			}
			continue;
		}
		if (corpus_is_empty(line) || tokens.header >= 0)
			continue;
		EXPECT(left-- > 0,
		    "seed %llu: line %zu is lost in silence: %.*s",
		    (unsigned long long)seed, i + 1, (int)line.len, line.text);
	}
	EXPECT(left == 0, "seed %llu: %u lines less were lost than said",
	    (unsigned long long)seed, (unsigned)left);
	tokens_free(&tokens);
	free(unread);
	free(told);
}

/* TEXT is cut into the lines of *MADE as a note is. */
static void
cut_made(struct corpus_note *made, const struct buffer *text)
{
	const char *p = text->data, *end = p + text->len;

	made->lines.len = 0;
	while (p < end) {
		const char *lf = memchr(p, '\n', (size_t)(end - p));
		const char *stop = lf ? lf : end;
		size_t len = (size_t)(stop - p);

		if (len > 0 && p[len - 1] == '\r')
			len--;
		*MEM_PUSH(&made->lines) = (struct corpus_line){p, len};
		p = lf ? lf + 1 : end;
	}
}

static void
try_text(uint64_t seed, const struct buffer *text)
{
	static const struct ref_site no_site;
	struct summary_options how = {.site = &no_site};
	struct corpus_note made = {.path = NULL};
	struct writers w = {.text = summary_new(&how)};
	struct read_note n;

	how.format = SUMMARY_JSON;
	w.json = summary_new(&how);
	summary_begin(w.text, &w.out);
	summary_begin(w.json, &w.out);
	read_note_also(&n, text->data, text->len, true, write_all, &w);
	summary_end(w.text, &w.out);
	summary_end(w.json, &w.out);
	cut_made(&made, text);
	expect_no_silent_loss(seed, &n, &made);
	read_note_free(&n);
	free(made.lines.at);
	summary_free(w.text);
	summary_free(w.json);
	buffer_free(&w.out);
}

/* Real lines and random ones, in any order. */
START_TEST(salads_of_lines_lose_nothing_in_silence)
{
	for (uint64_t i = 0; i < 100; i++) {
		uint64_t seed = (uint64_t)_i * 100 + i;
		struct random r = random_from(seed);
		uint32_t lines = 1 + random_below(&r, 60);
		struct buffer text = {0};

		for (uint32_t k = 0; k < lines; k++) {
			const struct corpus_note *note =
			    random_note(&r, &notes);

			if (random_one_in(&r, 2)) {
				random_line(&text, &r, &notes);
				buffer_putc(&text, '\n');
				continue;
			}
			corpus_put(&text, note->lines.at[random_below(
					      &r, (uint32_t)note->lines.len)]);
		}
		try_text(seed, &text);
		buffer_free(&text);
	}
}
END_TEST

/* Bytes of every value, or such as notes are made of. */
START_TEST(salads_of_bytes_lose_nothing_in_silence)
{
	static const char usual[] = "0123456789-/ \t\n\"#;,RLAPrlap.mc";

	for (uint64_t i = 0; i < 100; i++) {
		uint64_t seed = (uint64_t)_i * 100 + i;
		struct random r = random_from(seed);
		uint32_t bytes = 1 + random_below(&r, 3000);
		struct buffer text = {0};

		for (uint32_t k = 0; k < bytes; k++)
			buffer_putc(&text,
			    seed % 2
				? (char)random_below(&r, 256)
				: usual[random_below(&r, sizeof(usual) - 1)]);
		try_text(seed, &text);
		buffer_free(&text);
	}
}
END_TEST

TCase *
properties_salads(void)
{
	TCase *tc = tcase_create("salads");

	tcase_add_unchecked_fixture(tc, set_up, tear_down);
	tcase_set_timeout(tc, 120);
	tcase_add_loop_test(tc, salads_of_lines_lose_nothing_in_silence, 0, 10);
	tcase_add_loop_test(tc, salads_of_bytes_lose_nothing_in_silence, 0, 5);
	return tc;
}
