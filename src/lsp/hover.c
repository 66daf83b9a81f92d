/*
 * Hover: over a reading, what it says and what it can be held against; over a
 * word, what it means, what is usual and how it is measured. Every figure that
 * is not of the note names its source.
 */
#include <string.h>

#include "calc/compare.h"
#include "lsp/cut.h"
#include "lsp/facts.h"
#include "lsp/server.h"
#include "parser.h"
#include "text/date.h"
#include "write/json.h"
#include "write/summary_internal.h"

enum { MOST_READINGS = 2 /* that one value makes */ };

/* A reading of the place, and the last one like it. */
struct hovered {
	struct reading reading;
	size_t index; /* in its session */
	bool has_last;
	struct reading last;
	struct mean last_end;
	struct buffer last_value;
	int32_t last_day;
};

struct hovering {
	const struct lsp *lsp;
	struct intern pool; /* of both visits, so that texts can be compared */
	uint32_t row;
	size_t byte;
	size_t sessions; /* visited */
	size_t session;	 /* which of them it is in, from 1; 0: none */
	enum said said;	 /* of the person */
	uint32_t code;
	uint32_t person_line;
	size_t count;
	struct hovered at[MOST_READINGS];
	struct wording words;
};

/* First visit: which readings are there? */
static void
find_session(void *arg, struct session *s, struct sink *sink)
{
	struct hovering *h = arg;

	(void)sink;
	h->sessions++;
	for (size_t i = 0; i < s->readings.len && h->count < MOST_READINGS;
	     i++) {
		const struct reading *r = &s->readings.at[i];

		if (r->line != h->row || h->byte < r->beg || h->byte > r->end)
			continue;
		h->at[h->count].index = i;
		h->at[h->count++].reading = *r;
		h->session = h->sessions;
		h->said = s->person->said;
		h->code = s->person->code;
		h->person_line = s->person->line;
	}
}

static bool
is_same_person(const struct hovering *h, const struct person *p)
{
	if (h->said == SAID && p->said == SAID)
		return h->code == p->code;
	return h->person_line == p->line;
}

/* The identity of a reading bar rater and instrument. */
static bool
is_like(const struct reading *a, const struct reading *b)
{
	return a->measurement == b->measurement && a->setting == b->setting &&
	       a->side == b->side && a->mode == b->mode &&
	       a->posture == b->posture && a->reps == b->reps;
}

static void
keep_last(struct hovered *at, const struct session *s)
{
	for (size_t i = 0; i < s->readings.len; i++) {
		const struct reading *r = &s->readings.at[i];

		if (r->left_out || !is_like(r, &at->reading))
			continue;
		at->has_last = true;
		at->last = *r;
		at->last_end = mean_end(s, r);
		at->last_value.len = 0;
		summary_value(&at->last_value, s, r);
		at->last_day = s->said == SAID ? s->day : DATE_NONE;
	}
}

/* "right elbow flexion, passive, abducted-90, supine" */
static void
put_title(struct wording *p, const struct session *s, const struct reading *r)
{
	struct wording title = {.markdown = false};
	const char *more[3] = {NULL, NULL, NULL};

	if (r->side >= 0) {
		wording_puts(&title, vocab_name(VOCAB_CLASS_SIDE, r->side));
		wording_puts(&title, " ");
	}
	facts_name(&title, r->measurement);
	if (r->mode >= 0)
		more[0] = vocab_name(VOCAB_CLASS_MODE, r->mode);
	if (r->setting)
		more[1] = intern_text(s->pool, r->setting);
	if (r->posture)
		more[2] = intern_text(s->pool, r->posture);
	for (int i = 0; i < 3; i++)
		if (more[i]) {
			wording_puts(&title, ", ");
			wording_puts(&title, more[i]);
		}
	buffer_putc(&title.text, '\0');
	wording_heading(p, title.text.data);
	buffer_free(&title.text);
}

static void
put_value(struct wording *p, const struct session *s, const struct reading *r)
{
	struct mean arc = mean_arc(s, r);
	int32_t least, greatest;

	/* NT and WNL are no measurement, and never told as one. */
	wording_item(p, r->trials > 0 ? "measured" : "written");
	summary_value(&p->text, s, r);
	if (arc.n > 0 && r->kind != KIND_FIXED) {
		wording_puts(p, ", arc ");
		summary_number(&p->text, arc);
	}
	if (r->trials > 1 && trial_ends(s, r, &least, &greatest)) {
		wording_puts(p, ", spread of the trials ");
		summary_number(&p->text, (struct mean){greatest - least, 1});
	}
	if (r->kind == KIND_END_ONLY)
		wording_puts(p, "; the start was not written");
	if (r->left_out)
		wording_puts(p, "; doubtful, so it is held against nothing");
}

/* In what O, which R is held against, was taken otherwise. */
static void
put_otherwise(struct wording *p, const struct session *s,
    const struct reading *r, const struct reading *o)
{
	if (o->posture != r->posture) {
		wording_puts(p, ", ");
		wording_puts(p, o->posture ? intern_text(s->pool, o->posture)
					   : "no posture written");
	}
	if (o->rater != r->rater) {
		wording_puts(p, o->rater ? ", by " : ", no rater written");
		wording_puts(p, summary_text_of(s, o->rater));
	}
	if (o->instrument != r->instrument && o->instrument >= 0) {
		wording_puts(p, ", with ");
		wording_puts(
		    p, vocab_name(VOCAB_CLASS_INSTRUMENT, o->instrument));
	}
}

/* The reading of the other side, and of the other mode, and how they differ. */
static void
put_beside(struct wording *p, const struct session *s,
    const struct comparison *c, const struct reading *r, int mode)
{
	static const char *const less[] = {
	    [VOCAB_SIDE_RIGHT] = "; right less left ",
	    [VOCAB_SIDE_LEFT] = "; left less right "};
	const struct reading *other = NULL;
	struct mean sides = comparison_sides(s, c, mode);
	struct mean modes = {0, 0};

	if (r->side >= 0) {
		other = comparison_reading(s, c, mode, !r->side);
		modes = comparison_modes(s, c, r->side);
	}
	if (other) {
		wording_item(p, vocab_name(VOCAB_CLASS_SIDE, other->side));
		summary_value(&p->text, s, other);
		put_otherwise(p, s, r, other);
	}
	if (other && sides.n > 0) {
		wording_puts(p, less[c->from]);
		summary_signed(&p->text, sides);
		summary_unit(&p->text, unit_of_both(r->unit, other->unit));
	}
	if (modes.n > 0) {
		wording_item(p, "passive less active");
		summary_signed(&p->text, modes);
		summary_unit(&p->text,
		    unit_of_both(
			comparison_reading(s, c, VOCAB_MODE_ACTIVE, r->side)
			    ->unit,
			comparison_reading(s, c, VOCAB_MODE_PASSIVE, r->side)
			    ->unit));
	}
}

static void
put_comparisons(struct wording *p, const struct session *s, size_t index)
{
	const struct reading *r = &s->readings.at[index];
	struct comparisons all = {0};

	comparisons_build(&all, s);
	for (size_t i = 0; i < all.len; i++)
		for (int mode = 0; mode < COMPARE_MODES; mode++)
			for (int side = 0; side < COMPARE_SIDES; side++)
				if (all.at[i].reading[mode][side] ==
				    (int32_t)index)
					put_beside(p, s, &all.at[i], r, mode);
	comparisons_free(&all);
}

static void
put_last(struct wording *p, const struct session *s, const struct hovered *at,
    const struct reading *r)
{
	struct mean change = {0, 0};
	char day[16];

	if (!at->has_last)
		return;
	wording_item(p, "last session");
	buffer_add(&p->text, at->last_value.data, at->last_value.len);
	if (at->last_day != DATE_NONE) {
		wording_puts(p, " on ");
		wording_puts(p, date_format(at->last_day, day));
	}
	put_otherwise(p, s, r, &at->last);
	if (!r->left_out && compare_is_figure(r) &&
	    compare_is_figure(&at->last) && r->unit == at->last.unit)
		change = mean_less(mean_end(s, r), at->last_end);
	if (change.n == 0)
		return;
	wording_puts(p, "; change ");
	summary_signed(&p->text, change);
	summary_unit(&p->text, r->unit);
	if (reading_measurement(r)->less_is_better)
		wording_puts(p, " (less is better)");
}

static void
put_reading(struct hovering *h, const struct session *s, size_t which)
{
	const struct hovered *at = &h->at[which];
	const struct reading *r = &s->readings.at[at->index];
	struct ref_person person = {session_age(s), session_sex(s)};
	struct wording *p = &h->words;

	put_title(p, s, r);
	put_value(p, s, r);
	put_comparisons(p, s, at->index);
	put_last(p, s, at, r);
	facts_usual(p, r->measurement, intern_text(s->pool, r->setting),
	    r->mode, &person);
	facts_tasks(p, r->measurement);
	facts_end_feels(p, r->measurement);
}

/* Second visit: what went before, then the session itself. */
static void
tell_session(void *arg, struct session *s, struct sink *sink)
{
	struct hovering *h = arg;

	(void)sink;
	h->sessions++;
	for (size_t i = 0; i < h->count; i++) {
		if (h->sessions < h->session && is_same_person(h, s->person))
			keep_last(&h->at[i], s);
		else if (h->sessions == h->session)
			put_reading(h, s, i);
	}
}

static void
hover_reading(struct hovering *h, const struct document *d)
{
	struct visit first = {find_session, h, &h->pool, false};
	struct visit second = {tell_session, h, &h->pool, true};

	lsp_visit(h->lsp, d, &first);
	if (h->count == 0)
		return;
	h->sessions = 0;
	lsp_visit(h->lsp, d, &second);
}

/* Does the line name several joints of its digit? */
static bool
has_parts(const struct cut *cut, const struct cut_head *head)
{
	for (size_t i = 0; i < cut->tokens.len; i++)
		if (cut->tokens.at[i].kind == T_PART &&
		    cut->tokens.at[i].id != head->part)
			return true;
	return false;
}

/*
 * What the line measures at T, or NONE. Of several joints of a digit it is the
 * one at T; its other words speak of all of them, so of none alone.
 */
static int
measured_at(const struct cut *cut, const struct token *t)
{
	struct cut_head head = cut_head(cut, cut->tokens.len);
	int motion = head.motion;

	if (has_parts(cut, &head)) {
		if (t->kind != T_PART || head.digit == NONE)
			return NONE;
		head.joint = vocab_digit_joint(head.digit, t->id);
		head.measurement = NONE;
	}
	if (head.measurement != NONE || head.joint == NONE)
		return head.measurement;
	if (motion == NONE && vocab_joints[head.joint].hinge)
		motion = VOCAB_MOTION_FLEXION;
	return motion == NONE ? NONE : vocab_measurement(head.joint, motion);
}

static const struct vocab_row *
row_of_kind(const struct cut *cut, const struct token *t)
{
	struct vocab_match match =
	    vocab_find(cut->line.data + t->beg, (size_t)(t->end - t->beg));
	static const struct {
		int kind;
		enum vocab_class class;
	} classes[] = {{T_MODE, VOCAB_CLASS_MODE},
	    {T_SETTING, VOCAB_CLASS_SETTING},
	    {T_END_FEEL, VOCAB_CLASS_END_FEEL},
	    {T_OUTCOME, VOCAB_CLASS_OUTCOME}};
	const struct vocab_row *row;

	if (t == cut->tokens.at && cut->tokens.header >= 0)
		return vocab_match_class(match, VOCAB_CLASS_HEADER);
	for (size_t i = 0; i < sizeof(classes) / sizeof(*classes); i++)
		if (classes[i].kind == t->kind)
			return vocab_match_class(match, classes[i].class);
	row = vocab_match_class(match, VOCAB_CLASS_KEYWORD);
	return row;
}

static bool
is_measured(int kind)
{
	return kind == T_JOINT || kind == T_DIGIT || kind == T_PART ||
	       kind == T_MOTION || kind == T_MEASURE;
}

static void
hover_word(struct wording *p, const struct cut *cut, const struct token *t)
{
	const struct vocab_row *row = row_of_kind(cut, t);
	struct wording word = {.markdown = p->markdown};

	if (row)
		facts_word(&word, row->class, row->id);
	if (word.text.len > 0) {
		wording_heading(p, row->name);
		buffer_putc(&p->text, '\n');
		buffer_add(&p->text, word.text.data, word.text.len);
	}
	buffer_free(&word.text);
	if (is_measured(t->kind) && cut->tokens.header < 0 &&
	    measured_at(cut, t) != NONE)
		facts_all(p, measured_at(cut, t));
}

static const struct token *
token_at(const struct cut *cut, size_t byte)
{
	const struct token *found = NULL;

	for (size_t i = 0; i < cut->tokens.len; i++) {
		const struct token *t = &cut->tokens.at[i];

		if (t->beg <= byte &&
		    (byte < t->end || (byte == t->end && !found)))
			found = t;
	}
	return found;
}

static void
put_hover(struct hovering *h, const struct document *d, const struct cut *cut,
    const struct token *t, struct buffer *result)
{
	buffer_putc(result, '{');
	json_name(result, "contents");
	facts_put(result, &h->words);
	json_name(result, "range");
	if (h->count > 0)
		document_put_range(result, d, h->lsp->client.encoding,
		    document_at(d, h->row, h->at[0].reading.beg),
		    document_at(d, h->row, h->at[0].reading.end));
	else
		document_put_range(result, d, h->lsp->client.encoding,
		    cut_beg(cut, t), cut_end(cut, t));
	buffer_putc(result, '}');
}

enum lsp_error
lsp_hover(struct lsp *lsp, const struct json_t *params, struct buffer *result)
{
	const struct document *d = lsp_document(lsp, params);
	struct hovering h = {
	    .lsp = lsp, .words = {.markdown = lsp->client.hover_markdown}};
	struct cut cut = {0};
	const struct token *t;
	size_t at;

	if (!d)
		return LSP_OK;
	if (!lsp_offset(lsp, d, in_get(params, "position"), &at))
		return LSP_INVALID_PARAMS;
	h.row = document_row_of(d, at);
	cut_row(&cut, d, h.row);
	h.byte = at > cut.at ? at - cut.at : 0;
	t = token_at(&cut, h.byte);
	if (t && cut.tokens.header < 0)
		hover_reading(&h, d);
	if (t)
		hover_word(&h.words, &cut, t);
	if (h.words.text.len > 0)
		put_hover(&h, d, &cut, t, result);
	for (int i = 0; i < MOST_READINGS; i++)
		buffer_free(&h.at[i].last_value);
	buffer_free(&h.words.text);
	intern_free(&h.pool);
	cut_free(&cut);
	return LSP_OK;
}
