/*
 * Differences of shoulder rotation against published thresholds, the parts of
 * the laxity score, and the sources of both and of the bands. Reaching a
 * threshold is told; what it may mean is left to the reader.
 */
#include "write/summary_totals_parts.h"

#include <string.h>

enum { INTERNAL = 0 }; /* part of a total of rotation */

/* What falls short of zero is said in words, never with a sign. */
static void
add_end(struct buffer *line, struct mean end)
{
	if (end.sum < 0) {
		buffer_puts(line, "lacks ");
		end.sum = -end.sum;
	}
	summary_number(line, end);
}

/* --- shoulder rotation ---------------------------------------------------- */

static void
add_span(struct buffer *line, const struct threshold *t)
{
	summary_number(line, (struct mean){t->low, 1});
	buffer_putc(line, '-');
	summary_number(line, (struct mean){t->high, 1});
}

/* The thresholds OF a loss that are reached as WANTED says. */
static void
add_reached(struct totals_text *text, enum threshold_of of, struct mean value,
    enum reach wanted, const char *words)
{
	struct buffer *line = text->line;
	bool first = true;

	for (size_t i = 0; i < threshold_count; i++) {
		const struct threshold *t = &thresholds[i];

		if (t->of != of || threshold_reach(t, value) != wanted)
			continue;
		buffer_puts(line, first ? words : ", ");
		if (wanted == REACH_WITHIN)
			add_span(line, t);
		else
			buffer_puts(line, t->range);
		buffer_printf(line, " (%s", t->source);
		if (strncmp(t->state, "abstract", 8) != 0)
			buffer_printf(line, "; %s", t->state);
		buffer_putc(line, ')');
		first = false;
	}
}

static void
add_thresholds(
    struct totals_text *text, enum threshold_of of, struct mean value)
{
	text->sum->told |= told_bit(TOLD_THRESHOLDS);
	add_reached(text, of, value, REACH_YES, "; reaches ");
	add_reached(text, of, value, REACH_WITHIN, "; lies within ");
	add_reached(text, of, value, REACH_NO, "; does not reach ");
}

/*
 * How much less the one side has than the other, in degrees and in percent of
 * the other, each beside its thresholds.
 */
static void
add_loss(struct totals_text *text, const char *what, struct mean right,
    struct mean left, enum threshold_of degrees, enum threshold_of percent)
{
	struct mean loss = mean_less(left, right);
	struct mean of = left;
	const char *side = "right";
	struct mean share;

	buffer_printf(text->line, "%s right ", what);
	add_end(text->line, right);
	buffer_puts(text->line, ", left ");
	add_end(text->line, left);
	if (loss.sum == 0) {
		buffer_puts(text->line, ": the same");
		return;
	}
	if (loss.sum < 0) {
		loss.sum = -loss.sum;
		of = right;
		side = "left";
	}
	buffer_puts(text->line, ": ");
	summary_number(text->line, loss);
	buffer_printf(text->line, " less on the %s", side);
	add_thresholds(text, degrees, loss);
	share = total_percent_of(loss, of);
	if (share.n == 0)
		return;
	buffer_puts(text->line, "; that is ");
	summary_number(text->line, share);
	buffer_puts(text->line, " %");
	add_thresholds(text, percent, share);
}

void
totals_rotation(struct totals_text *text, struct buffer *out, size_t i)
{
	const struct total *t = &text->all->at[i];
	const struct total *other = total_opposite(text->all, i);
	struct total head = *t;
	const struct total_part *right, *left;

	if (total_definitions[t->definition].kind != TOTAL_KIND_ROTATION ||
	    !other || t->side != VOCAB_SIDE_LEFT)
		return;
	right = &other->part[INTERNAL];
	left = &t->part[INTERNAL];
	head.side = NONE;
	if (right->state == PART_FIGURE && left->state == PART_FIGURE) {
		totals_head(text, &head);
		add_loss(text, "internal rotation", right->end, left->end,
		    THRESHOLD_INTERNAL_LOSS, THRESHOLD_INTERNAL_LOSS_PERCENT);
		totals_entry(text, out);
	}
	if (t->sum.n > 0 && other->sum.n > 0) {
		totals_head(text, &head);
		add_loss(text, "rotation arc", other->sum, t->sum,
		    THRESHOLD_ARC_LOSS, THRESHOLD_ARC_LOSS_PERCENT);
		totals_entry(text, out);
	}
}

/* --- laxity --------------------------------------------------------------- */

/* "right knee extension 12 (passive)" */
static void
add_laxity_part(struct buffer *line, const struct laxity_part *part)
{
	buffer_printf(line, "%s %s extension ",
	    vocab_name(VOCAB_CLASS_SIDE, part->side),
	    vocab_measurements[part->measurement].joint_name);
	add_end(line, part->end);
	buffer_printf(line, " (%s)", summary_mode_name(part->mode));
}

/* Each recorded part and whether its limit is passed, in both readings. */
static void
add_laxity_parts(struct buffer *line, const struct laxity *laxity)
{
	bool first = true;

	for (int i = 0; i < LAXITY_PARTS; i++) {
		const struct laxity_part *part = &laxity->part[i];

		if (part->state != PART_FIGURE)
			continue;
		buffer_puts(line, first ? ": " : "; ");
		first = false;
		add_laxity_part(line, part);
		buffer_puts(line, part->over	  ? ", over "
				  : part->reached ? ", at "
						  : ", not over ");
		summary_number(line, (struct mean){part->limit, 1});
	}
}

void
totals_laxity(struct totals_text *text, struct buffer *out)
{
	struct buffer *line = text->line;
	struct laxity laxity;

	laxity_read(&laxity, text->sum->s);
	if (laxity.joints < 2)
		return;
	buffer_printf(line,
	    "generalised joint laxity, %d of the %d parts that are readings",
	    laxity.recorded, LAXITY_PARTS);
	add_laxity_parts(line, &laxity);
	totals_entry(text, out);
	buffer_printf(line, "of these parts %d over their limits", laxity.over);
	if (laxity.reached != laxity.over)
		buffer_printf(line,
		    ", %d where the limit itself counts as well (sources "
		    "differ)",
		    laxity.reached);
	buffer_printf(line,
	    "; no score of %d: thumb to forearm (2 points) and palms to the "
	    "floor (1) have no word in the notation",
	    LAXITY_POINTS);
	totals_entry(text, out);
	text->sum->told |= told_bit(TOLD_LAXITY);
}

/* --- sources -------------------------------------------------------------- */

static const char *const formulas[] = {
    [TOTAL_KIND_FINGER] =
	"total motion = flexion of MCP + PIP + DIP - what each lacks of "
	"extension; beyond straight adds nothing",
    [TOTAL_KIND_THUMB] = "total motion of the thumb = flexion of MCP + IP - "
			 "what each lacks of extension",
    [TOTAL_KIND_TWO_JOINTS] = "two joints = (flexion of PIP + DIP - what each "
			      "lacks of extension) / 175 x 100",
    [TOTAL_KIND_SPINE] = "combined range = the six directions added up",
    [TOTAL_KIND_ROTATION] = "rotation arc = internal + external rotation at "
			    "abducted-90, never over several settings"};

static bool
is_told(const struct totals_text *text, size_t bit)
{
	return text->sum->told & told_bit(bit);
}

static void
put_formulas(struct totals_text *text, struct buffer *out)
{
	unsigned told = 0;

	for (int i = 0; i < TOTAL_DEFINITIONS; i++) {
		const struct total_definition *d = &total_definitions[i];

		if (!is_told(text, TOLD_DEFINITION + (size_t)i) ||
		    told >> d->kind & 1)
			continue;
		told |= 1u << d->kind;
		buffer_puts(text->line, formulas[d->kind]);
		if (d->kind == TOTAL_KIND_FINGER) {
			buffer_puts(text->line, "; ");
			summary_number(
			    text->line, (struct mean){d->reference, 1});
			buffer_printf(text->line, " = %s", d->reference_parts);
		}
		buffer_printf(text->line, " (%s", d->source);
		if (strcmp(d->source, d->state) != 0)
			buffer_printf(text->line, ", %s", d->state);
		buffer_putc(text->line, ')');
		totals_entry(text, out);
	}
}

/* When a band is told at all, so that none reads as a verdict. */
static void
put_when(struct totals_text *text, struct buffer *out)
{
	if ((text->sum->told & (told_bit(TOLD_DEFINITION) - 1)) == 0)
		return;
	buffer_puts(text->line,
	    "bands, as each source words them, are told of the active motion "
	    "of an involved digit alone; those of a burned hand or a repaired "
	    "tendon only where the surgery or a remark tells of it; in none: "
	    "between two bands, or beyond the last");
	totals_entry(text, out);
}

/* "ASSH: excellent 100, good over 75, ... %; RULE (SOURCE, STATE)" */
static void
put_bands(struct totals_text *text, struct buffer *out)
{
	struct buffer *line = text->line;

	for (size_t i = 0; i < band_system_count; i++) {
		const struct band_system *system = &band_systems[i];

		if (!is_told(text, TOLD_SYSTEM + i))
			continue;
		buffer_puts(line, system->name);
		if (system->people)
			buffer_printf(line, ", of %s", system->people);
		buffer_putc(line, ':');
		for (const struct band *b = system->bands; b->grade; b++)
			buffer_printf(line, "%s %s %s",
			    b == system->bands ? "" : ";", b->grade, b->range);
		buffer_printf(line, " %s; %s (%s%s%s)",
		    system->percent ? "%" : "degrees", system->rule,
		    system->source ? system->source : "",
		    system->source ? ", " : "", system->state);
		totals_entry(text, out);
	}
}

static void
put_thresholds(struct totals_text *text, struct buffer *out)
{
	if (!is_told(text, TOLD_THRESHOLDS))
		return;
	buffer_puts(text->line,
	    "the thresholds of shoulder rotation compare the throwing side "
	    "with the other, which a note does not tell (abstracts read, "
	    "unless it is said)");
	totals_entry(text, out);
}

static void
put_cutoffs(struct totals_text *text, struct buffer *out)
{
	struct buffer *line = text->line;

	if (!is_told(text, TOLD_LAXITY))
		return;
	buffer_puts(line, "published cut-offs of the laxity score of 9: ");
	for (size_t i = 0; i < laxity_cutoff_count; i++)
		buffer_printf(line, "%s%d or more %s (%s)", i ? ", " : "",
		    laxity_cutoffs[i].points, laxity_cutoffs[i].people,
		    laxity_cutoffs[i].source);
	totals_entry(text, out);
}

void
totals_sources(struct totals_text *text, struct buffer *out)
{
	put_formulas(text, out);
	put_when(text, out);
	put_bands(text, out);
	put_thresholds(text, out);
	put_cutoffs(text, out);
}
