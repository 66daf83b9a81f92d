/*
 * The guide to one motion. What stands in guide.tsv is printed as it is; the
 * figures of other people come from their own tables and never go without the
 * source, nor without saying where nobody has seen them in it.
 */
#include "write/guide.h"

#include <stddef.h>
#include <string.h>

#include "reference/reference.h"
#include "write/asked.h"
#include "write/findings.h"
#include "write/guide_values.h"
#include "write/json.h"
#include "write/summary_internal.h"
#include "write/wrap.h"

enum { LABEL = 16, WIDEST = 80 }; /* cells */

/* What of the row is printed, in this order. */
static const struct field {
	const char *label; /* of the text */
	const char *name;  /* of JSON */
	size_t at;	   /* in struct ref_guide */
} fields[] = {
    {"position", "test_position", offsetof(struct ref_guide, test_position)},
    {"expose", "expose", offsetof(struct ref_guide, expose)},
    {"stabilise", "stabilise", offsetof(struct ref_guide, stabilise)},
    {"fulcrum", "fulcrum", offsetof(struct ref_guide, fulcrum)},
    {"stationary arm", "stationary_arm",
	offsetof(struct ref_guide, stationary_arm)},
    {"moving arm", "moving_arm", offsetof(struct ref_guide, moving_arm)},
    {"landmarks", "landmarks", offsetof(struct ref_guide, landmarks)},
    {"start", "start", offsetof(struct ref_guide, start)},
    {"end", "end", offsetof(struct ref_guide, end)},
    {"watch for", "substitutions", offsetof(struct ref_guide, substitutions)},
    {"settings", "settings", offsetof(struct ref_guide, settings)},
};

static const char *
text_of(const struct ref_guide *guide, const struct field *field)
{
	const char *text;

	memcpy(&text, (const char *)guide + field->at, sizeof(text));
	return text;
}

/* A label, then TEXT beside it. A "-" says that there is nothing to say. */
static void
put_line(struct buffer *out, const char *label, const char *text, size_t len)
{
	if (len == 0 || (len == 1 && text[0] == '-'))
		return;
	buffer_puts(out, label);
	buffer_pad(out, ' ', LABEL - strlen(label));
	wrap_text(out, text, len, LABEL, LABEL);
	buffer_putc(out, '\n');
}

static void
put_buffer(struct buffer *out, const char *label, struct buffer *text)
{
	put_line(out, label, text->data, text->len);
	text->len = 0;
}

/* The joint that the reading of a row that serves several joints names. */
static size_t
first_joint(const struct ref_guide *guide)
{
	return strcspn(guide->joint, ",");
}

void
guide_example(struct buffer *out, int measurement)
{
	const struct ref_guide *guide = ref_guide(measurement);
	size_t len = first_joint(guide);
	const char *rest = guide->write;

	if (guide->joint[len] == ',' && strncmp(rest, guide->joint, len) == 0) {
		buffer_puts(out, vocab_measurements[measurement].joint_name);
		rest += len;
	}
	buffer_puts(out, rest);
}

static void
put_caution(struct buffer *out, const struct ref_guide *guide, bool colour)
{
	const struct findings_colours *colours =
	    colour ? &findings_coloured : &findings_plain;

	buffer_puts(out, colours->level[LEVEL_ERROR]);
	put_line(out, "CAUTION", guide->do_not, strlen(guide->do_not));
	buffer_puts(out, colours->reset);
}

/* A reading stays in one line, so that it can be copied. */
static void
put_example(struct buffer *out, const struct buffer *example)
{
	buffer_puts(out, "write it so");
	if (LABEL + example->len > WIDEST)
		buffer_puts(out, "\n    ");
	else
		buffer_pad(out, ' ', LABEL - strlen("write it so"));
	buffer_add(out, example->data, example->len);
	buffer_putc(out, '\n');
}

void
guide_text(struct buffer *out, int measurement, bool colour)
{
	const struct vocab_measurement *m = &vocab_measurements[measurement];
	const struct ref_guide *guide = ref_guide(measurement);
	struct buffer text = {0};

	buffer_puts(out, colour ? findings_coloured.place : "");
	buffer_printf(out, "%s %s", m->joint_name, m->motion_name);
	buffer_printf(out, "%s: ", colour ? findings_coloured.reset : "");
	wrap_text(out, guide->purpose, strlen(guide->purpose),
	    strlen(m->joint_name) + strlen(m->motion_name) + 3, 2);
	buffer_putc(out, '\n');
	put_caution(out, guide, colour);
	for (size_t i = 0; i < sizeof(fields) / sizeof(*fields); i++) {
		const char *line = text_of(guide, &fields[i]);

		put_line(out, fields[i].label, line, strlen(line));
	}
	guide_end_feel(&text, measurement);
	put_buffer(out, "normal end feel", &text);
	guide_usual(&text, measurement);
	put_buffer(out, "usual values", &text);
	guide_functional(&text, measurement);
	put_buffer(out, "tasks take", &text);
	guide_example(&text, measurement);
	put_example(out, &text);
	buffer_printf(out,
	    "source          how to measure: %s; figures: rangeline sources "
	    "KEY\n",
	    guide->basis);
	buffer_free(&text);
}

void
guide_json(struct buffer *out, int measurement)
{
	const struct vocab_measurement *m = &vocab_measurements[measurement];
	const struct ref_guide *guide = ref_guide(measurement);
	struct buffer text = {0};

	buffer_putc(out, '{');
	json_text_of(out, "joint", m->joint_name);
	json_text_of(out, "motion", m->motion_name);
	json_text_of(out, "purpose", guide->purpose);
	json_text_of(out, "do_not", guide->do_not);
	for (size_t i = 0; i < sizeof(fields) / sizeof(*fields); i++) {
		const char *line = text_of(guide, &fields[i]);

		json_text_of(
		    out, fields[i].name, strcmp(line, "-") == 0 ? NULL : line);
	}
	guide_values_json(out, measurement);
	guide_example(&text, measurement);
	json_name(out, "write");
	json_string(out, text.data, text.len);
	json_text_of(out, "basis", guide->basis);
	buffer_puts(out, "}\n");
	buffer_free(&text);
}

/* --- what can be measured ------------------------------------------------- */

/* "knee: flexion, extension" */
static void
put_motions(struct buffer *out, const char *name, struct buffer *motions)
{
	if (motions->len == 0)
		return;
	buffer_printf(out, "%s: ", name);
	wrap_text(out, motions->data, motions->len, strlen(name) + 2, 4);
	buffer_putc(out, '\n');
	motions->len = 0;
}

void
guide_motions(struct buffer *out, uint64_t joints)
{
	struct buffer motions = {0};

	for (int j = 0; j < VOCAB_JOINT_COUNT; j++) {
		int digit = vocab_joints[j].digit;

		if (!(joints >> j & 1))
			continue;
		asked_motions(&motions, j);
		put_motions(out, vocab_joints[j].name, &motions);
		/* After the last joint of a digit: what is of it all. */
		if (digit < 0 ||
		    (j + 1 < VOCAB_JOINT_COUNT && joints >> (j + 1) & 1 &&
			vocab_joints[j + 1].digit == digit))
			continue;
		asked_digit_measures(&motions, digit);
		put_motions(
		    out, vocab_name(VOCAB_CLASS_DIGIT, digit), &motions);
	}
	buffer_free(&motions);
}
