/*
 * The words of the summary: values as they were measured, headers in the
 * notation's own terms.
 */
#include <string.h>

#include "text/utf8.h"
#include "write/summary_internal.h"

/* The joints that have a right and a left. */
static uint64_t
sided_joints(void)
{
	uint64_t joints = 0;

	for (int j = 0; j < VOCAB_JOINT_COUNT; j++)
		if (!joint_is_midline(j))
			joints |= UINT64_C(1) << j;
	return joints;
}

void
summary_number(struct buffer *out, struct mean m)
{
	char text[24];

	if (m.n > 0)
		buffer_add(out, text, number_text(mean_hundredths(m), text));
}

void
summary_tenths(struct buffer *out, int32_t tenths)
{
	if (tenths != NO_VALUE)
		summary_number(out, (struct mean){tenths, 1});
}

void
summary_word(struct buffer *out, enum vocab_class class, int id)
{
	if (id >= 0)
		buffer_puts(out, vocab_name(class, id));
}

void
summary_signed(struct buffer *out, struct mean m)
{
	if (m.n > 0 && mean_hundredths(m) > 0)
		buffer_putc(out, '+');
	summary_number(out, m);
}

void
summary_unit(struct buffer *out, int unit)
{
	if (unit < 0 || unit == VOCAB_UNIT_DEG)
		return;
	buffer_putc(out, ' ');
	buffer_puts(out, vocab_name(VOCAB_CLASS_UNIT, unit));
}

static struct mean
of_tenths(int32_t tenths)
{
	return (struct mean){tenths, 1};
}

static void
add_levels(struct buffer *out, const struct session *s, const struct reading *r)
{
	const struct trial *t = reading_trials(s, r);

	for (uint32_t i = 0; i < r->trials; i++) {
		if (i > 0)
			buffer_putc(out, ' ');
		buffer_puts(out, vocab_name(VOCAB_CLASS_LEVEL, t[i].end));
	}
}

/* An end that falls short of zero is said in words, never with a sign. */
static void
add_end(struct buffer *out, struct mean end)
{
	if (mean_compare_to(end, 0) < 0) {
		buffer_puts(out, "lacks ");
		end.sum = -end.sum;
	}
	summary_number(out, end);
}

void
summary_value(
    struct buffer *out, const struct session *s, const struct reading *r)
{
	struct mean start;

	switch ((enum kind)r->kind) {
	case KIND_NOT_TESTED:
		buffer_puts(out, "NT");
		return;
	case KIND_WNL:
	case KIND_WFL:
		buffer_puts(out, kind_names[r->kind]);
		return;
	case KIND_LEVEL:
		add_levels(out, s, r);
		return;
	default:
		break;
	}
	if (r->trials == 0)
		return;
	if (r->kind == KIND_FIXED)
		buffer_puts(out, "fixed ");
	start = mean_start(s, r);
	if (r->kind == KIND_MEASURED && start.n > 0) {
		summary_number(out, start);
		buffer_putc(out, '-');
	}
	add_end(out, mean_end(s, r));
	summary_unit(out, r->unit);
	if (r->trials > 1)
		buffer_printf(out, " (%u)", (unsigned)r->trials);
}

void
summary_pain(struct buffer *out, const struct reading *r)
{
	if (r->pain != NO_VALUE)
		summary_number(out, of_tenths(r->pain));
	if (r->pain_onset == NO_VALUE)
		return;
	buffer_puts(out, r->pain == NO_VALUE ? "at " : " at ");
	summary_number(out, of_tenths(r->pain_onset));
}

void
summary_usual_value(struct buffer *out, const struct ref_usual *usual)
{
	if (usual->at_least)
		buffer_puts(out, ">=");
	summary_number(out, of_tenths(usual->low));
	if (usual->high != usual->low) {
		buffer_putc(out, '-');
		summary_number(out, of_tenths(usual->high));
	}
}

const char *
summary_usual_unit(int measurement)
{
	static const char *const units[] = {[VOCAB_IN_DEG] = "deg",
	    [VOCAB_IN_LENGTH] = "mm",
	    [VOCAB_IN_SCORE] = "",
	    [VOCAB_IN_LEVEL] = ""};

	return units[vocab_measurements[measurement].in];
}

void
summary_time(struct buffer *out, int minutes)
{
	buffer_printf(out, "%02d:%02d", minutes / 60, minutes % 60);
}

const char *
summary_text_of(const struct session *s, uint32_t id)
{
	return id == UNKNOWN_TEXT ? "unknown" : intern_text(s->pool, id);
}

const char *
summary_mode_name(int mode)
{
	return mode >= 0 && mode < VOCAB_MODE_COUNT
		   ? vocab_name(VOCAB_CLASS_MODE, mode)
		   : "";
}

const char *
summary_subject(const struct session *s)
{
	return s->person->said == SAID ? intern_text(s->pool, s->person->code)
				       : NULL;
}

/* --- joints --------------------------------------------------------------- */

static void
add_one(struct buffer *out, size_t before, const char *side, const char *name)
{
	if (out->len > before)
		buffer_puts(out, ", ");
	buffer_puts(out, side);
	buffer_puts(out, name);
}

/* Whole groups and digits by their name, then what is left by joint. */
static void
add_joints(struct buffer *out, size_t before, const char *side, uint64_t joints)
{
	uint64_t digits[VOCAB_DIGIT_COUNT] = {0};

	if (joints == 0)
		return;
	if (joints == sided_joints()) {
		add_one(out, before, side, "side");
		return;
	}
	for (int g = 0; g < VOCAB_GROUP_COUNT; g++) {
		uint64_t group = vocab_group_joints[g];

		if ((joints & group) != group)
			continue;
		add_one(out, before, side, vocab_name(VOCAB_CLASS_GROUP, g));
		joints &= ~group;
	}
	for (int j = 0; j < VOCAB_JOINT_COUNT; j++)
		if (vocab_joints[j].digit >= 0)
			digits[vocab_joints[j].digit] |= UINT64_C(1) << j;
	for (int d = 0; d < VOCAB_DIGIT_COUNT; d++) {
		if ((joints & digits[d]) != digits[d])
			continue;
		add_one(out, before, side, vocab_name(VOCAB_CLASS_DIGIT, d));
		joints &= ~digits[d];
	}
	for (int j = 0; j < VOCAB_JOINT_COUNT; j++)
		if (joints >> j & 1)
			add_one(out, before, side, vocab_joints[j].name);
}

void
summary_joints(struct buffer *out, const struct joint_set *set)
{
	uint64_t both = set->right & set->left;
	size_t before = out->len;

	add_joints(
	    out, before, both == sided_joints() ? "either " : "both ", both);
	add_joints(out, before, "right ", set->right & ~both);
	add_joints(out, before, "left ", set->left & ~both);
	add_joints(out, before, "", set->middle);
}

void
summary_involved(struct buffer *out, const struct session *s)
{
	struct joint_set set = {0, 0, 0};
	bool said = false, unreadable = false;

	for (int i = 0; i < 2; i++) {
		const struct headers *h = SUMMARY_HEADERS(s, i);

		set.right |= h->involved_joints.right;
		set.left |= h->involved_joints.left;
		set.middle |= h->involved_joints.middle;
		said |= h->involved.said == SAID;
		unreadable |= h->involved.said == SAID_UNREADABLE;
	}
	if (!joint_set_empty(&set))
		summary_joints(out, &set);
	else if (said)
		buffer_puts(out, "none");
	if (unreadable)
		buffer_puts(out, joint_set_empty(&set)
				     ? "unknown"
				     : " (and what could not be read)");
}

/* --- headers -------------------------------------------------------------- */

static void
add_date(struct buffer *out, const char *word, int32_t day)
{
	char text[16];

	if (day == DATE_NONE)
		return;
	buffer_puts(out, word);
	buffer_puts(out, date_format(day, text));
}

static void
add_word(struct buffer *out, const char *word)
{
	buffer_putc(out, ' ');
	buffer_puts(out, word);
}

void
summary_precaution(struct buffer *out, const struct precaution *p)
{
	summary_joints(out, &p->joints);
	if (p->forbids)
		add_word(out, "no");
	if (p->motion >= 0)
		add_word(out, vocab_name(VOCAB_CLASS_MOTION, p->motion));
	if (p->mode >= 0)
		add_word(out, vocab_name(VOCAB_CLASS_MODE, p->mode));
	if (p->forbids && p->motion < 0)
		add_word(out, "motion");
	if (!p->forbids) {
		add_word(out, "max ");
		add_end(out, of_tenths(p->limit));
		summary_unit(out, p->unit);
	}
	add_date(out, " from ", p->from);
	add_date(out, " until ", p->until);
	if (p->reason)
		buffer_printf(out, " \"%s\"", p->reason);
}

void
summary_goal_words(struct buffer *out, const struct goal *goal, int side)
{
	const struct vocab_measurement *m =
	    &vocab_measurements[goal->measurement];

	if (side >= 0)
		buffer_printf(out, "%s ", vocab_name(VOCAB_CLASS_SIDE, side));
	buffer_printf(out, "%s %s ", m->joint_name, m->motion_name);
	if (goal->mode >= 0)
		buffer_printf(out, "%s ", summary_mode_name(goal->mode));
	if (m->in == VOCAB_IN_LEVEL) {
		buffer_puts(out, vocab_name(VOCAB_CLASS_LEVEL, goal->end));
	} else {
		add_end(out, of_tenths(goal->end));
		summary_unit(out, goal->unit);
	}
	add_date(out, " by ", goal->by);
}
