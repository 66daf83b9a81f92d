/*
 * The columns of the summary's rows that there are of each side: what a
 * reading says, bare.
 */
#include "write/summary_sides.h"

#include "write/summary_internal.h"

void
summary_side_end(
    struct buffer *out, const struct session *s, const struct reading *r)
{
	if (reading_is_number(r))
		summary_number(out, mean_end(s, r));
}

void
summary_side_start(
    struct buffer *out, const struct session *s, const struct reading *r)
{
	if (reading_is_number(r))
		summary_number(out, mean_start(s, r));
}

void
summary_side_unit(
    struct buffer *out, const struct session *s, const struct reading *r)
{
	(void)s;
	summary_word(out, VOCAB_CLASS_UNIT, r->unit);
}

void
summary_side_trials(
    struct buffer *out, const struct session *s, const struct reading *r)
{
	(void)s;
	buffer_uint(out, r->trials);
}

void
summary_side_doubtful(
    struct buffer *out, const struct session *s, const struct reading *r)
{
	(void)s;
	buffer_puts(out, r->left_out ? "yes" : "no");
}

void
summary_side_end_feel(
    struct buffer *out, const struct session *s, const struct reading *r)
{
	(void)s;
	summary_word(out, VOCAB_CLASS_END_FEEL, r->end_feel);
}

void
summary_side_pain(
    struct buffer *out, const struct session *s, const struct reading *r)
{
	(void)s;
	summary_tenths(out, r->pain);
}

void
summary_side_pain_onset(
    struct buffer *out, const struct session *s, const struct reading *r)
{
	(void)s;
	summary_tenths(out, r->pain_onset);
}

void
summary_side_position(
    struct buffer *out, const struct session *s, const struct reading *r)
{
	buffer_puts(out, intern_text(s->pool, r->posture));
}

void
summary_side_rater(
    struct buffer *out, const struct session *s, const struct reading *r)
{
	if (r->rater != UNKNOWN_TEXT)
		buffer_puts(out, intern_text(s->pool, r->rater));
}

void
summary_side_instrument(
    struct buffer *out, const struct session *s, const struct reading *r)
{
	(void)s;
	summary_word(out, VOCAB_CLASS_INSTRUMENT, r->instrument);
}

void
summary_side_texts(
    struct buffer *out, const struct session *s, const struct reading *r)
{
	for (uint32_t i = 0; i < r->texts; i++) {
		struct text_ref text = s->texts.at[r->first_text + i].text;

		if (i > 0)
			buffer_puts(out, "; ");
		buffer_add(out, session_text(s, text), text.len);
	}
}

void
summary_side_line(
    struct buffer *out, const struct session *s, const struct reading *r)
{
	(void)s;
	buffer_uint(out, r->line);
}
