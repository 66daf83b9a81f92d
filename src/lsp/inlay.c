/*
 * Inlay hints: what passive gives more than active, and how far the sides
 * differ, behind the reading that completes the pair. Off until the user
 * wants them: a figure beside the figures can be taken for one of them.
 */
#include "calc/compare.h"
#include "lsp/server.h"
#include "write/json.h"
#include "write/summary_internal.h"

struct hinting {
	const struct lsp *lsp;
	const struct document *d;
	size_t beg, end; /* of the part that is shown */
	struct comparisons comparisons;
	struct buffer label;
	struct buffer *out;
};

/*
 * Behind R, which was held against another in MODE. A hinge's value makes two
 * readings at one place, and one without a mode may be held against several:
 * then the hint says which of them it is.
 */
static void
put_hint(struct hinting *h, const struct reading *r, int mode, const char *what,
    struct mean difference, int unit)
{
	size_t at = document_at(h->d, r->line, r->end);

	if (difference.n == 0 || at < h->beg || at > h->end)
		return;
	h->label.len = 0;
	if (r->twin) {
		buffer_puts(&h->label, reading_measurement(r)->motion_name);
		buffer_puts(&h->label, ", ");
	}
	if (r->mode == NONE && mode != COMPARE_NO_MODE) {
		buffer_puts(&h->label, vocab_name(VOCAB_CLASS_MODE, mode));
		buffer_puts(&h->label, ", ");
	}
	buffer_puts(&h->label, what);
	buffer_putc(&h->label, ' ');
	summary_signed(&h->label, difference);
	summary_unit(&h->label, unit);
	json_item(h->out);
	buffer_putc(h->out, '{');
	json_name(h->out, "position");
	document_put_position(h->out, h->d, h->lsp->client.encoding, at);
	json_name(h->out, "label");
	json_string(h->out, h->label.data, h->label.len);
	buffer_puts(h->out, ",\"paddingLeft\":true}");
}

/* The later of two readings in the text. */
static const struct reading *
later(const struct reading *a, const struct reading *b)
{
	if (a->line != b->line)
		return a->line > b->line ? a : b;
	return a->beg > b->beg ? a : b;
}

static void
hint_modes(
    struct hinting *h, const struct session *s, const struct comparison *c)
{
	for (int side = 0; side < COMPARE_SIDES; side++) {
		struct mean difference = comparison_modes(s, c, side);
		const struct reading *active =
		    comparison_reading(s, c, VOCAB_MODE_ACTIVE, side);
		const struct reading *passive =
		    comparison_reading(s, c, VOCAB_MODE_PASSIVE, side);

		if (active && passive)
			put_hint(h, later(active, passive), VOCAB_MODE_PASSIVE,
			    "passive less active", difference,
			    unit_of_both(active->unit, passive->unit));
	}
}

static void
hint_sides(
    struct hinting *h, const struct session *s, const struct comparison *c)
{
	static const char *const words[] = {
	    [VOCAB_SIDE_RIGHT] = "right less left",
	    [VOCAB_SIDE_LEFT] = "left less right"};

	for (int mode = 0; mode < COMPARE_MODES; mode++) {
		struct mean difference = comparison_sides(s, c, mode);
		const struct reading *right =
		    comparison_reading(s, c, mode, VOCAB_SIDE_RIGHT);
		const struct reading *left =
		    comparison_reading(s, c, mode, VOCAB_SIDE_LEFT);

		if (comparison_shows(s, c, mode) && right && left)
			put_hint(h, later(right, left), mode, words[c->from],
			    difference, unit_of_both(right->unit, left->unit));
	}
}

static void
on_session(void *arg, struct session *s, struct sink *sink)
{
	struct hinting *h = arg;

	(void)sink;
	comparisons_build(&h->comparisons, s);
	for (size_t i = 0; i < h->comparisons.len; i++) {
		hint_modes(h, s, &h->comparisons.at[i]);
		hint_sides(h, s, &h->comparisons.at[i]);
	}
}

enum lsp_error
lsp_inlay_hint(
    struct lsp *lsp, const struct json_t *params, struct buffer *result)
{
	const struct document *d = lsp_document(lsp, params);
	struct hinting h = {.lsp = lsp, .d = d, .out = result};
	struct visit visit = {
	    .on_session = on_session, .arg = &h, .judge = true};

	if (!d || !lsp->settings.inlay_hints)
		return LSP_OK;
	if (!lsp_range(lsp, d, in_get(params, "range"), &h.beg, &h.end))
		return LSP_INVALID_PARAMS;
	buffer_putc(result, '[');
	lsp_visit(lsp, d, &visit);
	buffer_putc(result, ']');
	comparisons_free(&h.comparisons);
	buffer_free(&h.label);
	return LSP_OK;
}
